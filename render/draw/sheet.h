/* sheet.h  Forms of picture files, by the ending of their names. */
#ifndef DRAW_SHEET_H
#define DRAW_SHEET_H

#include "draw/canvas.h"

enum sheet_form { SHEET_UNKNOWN, SHEET_PNG, SHEET_SVG, SHEET_PDF };
enum sheet_form sheet_form(const char *path); /* "-" is PNG */

#endif
