/* canvas.h  Painting frames without cairo in sight: onto pixels that someone else owns, and into files. */
#ifndef DRAW_CANVAS_H
#define DRAW_CANVAS_H

#include "draw/frames.h"
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

/* Onto pixels of 32 bits, 0x00RRGGBB, rows of `stride` bytes. False when they are of no use. */
bool canvas_paint(struct painter *painter, const struct frame *frame, const struct painter_fit *fit, void *pixels,
                  int stride);
/* Into a file by the ending of its name; "-" is standard output. trouble[DRAW_TROUBLE]. */
enum draw_outcome sheet_write(struct painter *painter, const struct frame *frame, const struct painter_fit *fit,
                              const char *path, char *trouble);

#endif
