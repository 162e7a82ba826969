/* column.h  The column beside the plate: steps, readings, the engine, faults. */
#ifndef VIEW_COLUMN_H
#define VIEW_COLUMN_H

#include "view/layout.h"
#include "view/scene.h"

/* The words at the head of the picture; only pages that hold something. Draws them right-aligned, returns their left end. */
double column_words(struct frame *frame, const struct scene *scene, const struct layout *layout);
bool page_holds(const struct scene *scene, enum page page);
void column_draw(struct frame *frame, const struct scene *scene, const struct layout *layout);

/* Name left, figure and unit in columns of their own right. */
void column_row(struct frame *frame, double x0, double x1, double baseline, const char *name, struct figure figure);
/* A word that is clicked, dotted under, left-aligned at x (anchor 0) or right-aligned (1); returns the end it is not aligned at. */
double column_word(struct frame *frame, double x, double anchor, double baseline, enum spot_kind spot, int which,
                   const char *text);
/* Words broken into lines of at most `width` u; returns the baseline after the last. */
double column_paragraph(struct frame *frame, double x, double baseline, double width, struct text_style style,
                        const char *text);
/* "settled(meter.hole, 20 s, 0.005 mm)" is "meter hole steady within 0.005 mm for 20 s", in brief "meter hole steady". */
const char *condition_words(const char *condition, bool brief, char *room, int size);

#endif
