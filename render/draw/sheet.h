/* sheet.h  A picture into a file: PNG, SVG or PDF by the ending of its name, whole or not at all. */
#ifndef DRAW_SHEET_H
#define DRAW_SHEET_H

#include "draw/frames.h"
#include "draw/painter.h"

enum sheet_form { SHEET_UNKNOWN, SHEET_PNG, SHEET_SVG, SHEET_PDF };
enum sheet_form sheet_form(const char *path); /* "-" is PNG */

/* Writes the frame as width x height (px, or points) to `path`; "-" is standard output. trouble[DRAW_TROUBLE]. */
enum draw_outcome sheet_write(struct painter *painter, const struct frame *frame, const struct painter_fit *fit,
                              const char *path, char *trouble);

#endif
