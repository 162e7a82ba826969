/* painter.h  Ink: paints a frame to any cairo context. Keeps fonts, set texts and the still part of the picture. */
#ifndef DRAW_PAINTER_H
#define DRAW_PAINTER_H

#include <cairo.h>

#include "view/frame.h"

struct painter;

/* Null when no font can be found or memory is out: trouble[DRAW_TROUBLE] then holds a sentence. */
struct painter *painter_create(char *trouble);
void painter_free(struct painter *painter);

/* Family that was found: "Inter", or "DejaVu Sans" where that is missing. */
const char *painter_font(const struct painter *painter);

/* For frames that this painter will paint. Lives as long as it does. */
struct text_measure painter_measure(struct painter *painter);

/* Where u lie on a surface: px = left + scale * u. */
struct painter_fit {
    double scale, left, top;
    int width, height; /* px of the surface; beyond the picture it is painted with paper */
};

/* Onto pixels: the still shapes are kept and copied while they stay the same. */
void painter_paint(struct painter *painter, const struct frame *frame, cairo_t *to, const struct painter_fit *fit);
/* Onto vectors: everything is drawn. */
void painter_paint_whole(struct painter *painter, const struct frame *frame, cairo_t *to, const struct painter_fit *fit);

#endif
