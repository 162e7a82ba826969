/* leading.h  The reading that matters now, large: a meter's hole on the ruler, an engine's mixture while it runs,
 * else the last thing read. */
#ifndef VIEW_LEADING_H
#define VIEW_LEADING_H

#include "view/layout.h"
#include "view/scene.h"

bool leading_holds(const struct scene *scene);

/* Baselines of heading and figure, and the ruler's line. */
struct leading_place {
    double x0, x1, heading, figure, ruler;
};

/* A figure, and a verdict at its right where there is one; the figure gives way. */
void leading_hero(struct frame *frame, const struct leading_place *place, const char *text, const char *verdict);
void leading_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place);

/* The limit of holes that `let` names; NAN: none. doubt: how near is too near to call, 0 where nothing is said. */
double leading_limit(const struct ullage_model *model, double *doubt);
/* The first meter that shows holes; -1: none. */
int leading_meter(const struct scene *scene);

/* A verdict in words, on ink; right-aligned at x1. */
void lozenge_draw(struct frame *frame, double x1, double baseline, const char *words);

#endif
