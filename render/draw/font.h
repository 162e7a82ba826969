/* font.h  One family in four weights, with figures of one width; texts once set are kept. */
#ifndef DRAW_FONT_H
#define DRAW_FONT_H

#include <pango/pangocairo.h>

struct font;

/* Null when no font is there at all or memory is out: trouble[DRAW_TROUBLE]. */
struct font *font_create(char *trouble);
void font_free(struct font *font);
const char *font_family(const struct font *font);

/* A set text in u, its origin at the left end of the baseline. Belongs to the font; good until the next call. */
PangoLayout *font_set(struct font *font, const char *text, double size, int weight, double *width, double *baseline);

#endif
