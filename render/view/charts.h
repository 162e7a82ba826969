/* charts.h  The strips under the plate with their names and figures in the gutter, the time bar, the clock. */
#ifndef VIEW_CHARTS_H
#define VIEW_CHARTS_H

#include "view/layout.h"
#include "view/scene.h"

void charts_draw(struct frame *frame, const struct scene *scene, const struct layout *whole);

/* The recorded channels that the strips show at first: tank pressure, then what a meter or another dimension says; where
 * carbon is at work a third, lower ones then: pressure, load, temperature. -1: none. */
void charts_strips(const struct ullage_model *model, int strip[STRIPS]);
/* Moves a strip to the next recorded channel. */
int charts_next_strip(const struct ullage_model *model, int strip);

#endif
