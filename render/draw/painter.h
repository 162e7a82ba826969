/* painter.h  Ink: paints a frame to any cairo context. A painter keeps fonts, set texts and the still part of the picture. */
#ifndef DRAW_PAINTER_H
#define DRAW_PAINTER_H

#include "draw/canvas.h"

#include <cairo.h>

/* Onto pixels: the still shapes are kept and copied while they stay the same. */
void painter_paint(struct painter *painter, const struct frame *frame, cairo_t *to, const struct painter_fit *fit);
/* Onto vectors: everything is drawn. */
void painter_paint_whole(struct painter *painter, const struct frame *frame, cairo_t *to,
                         const struct painter_fit *fit);

#endif
