/* gas.h  What all drawn gas spaces share: figures standing on the gas, smoke around them. */
#ifndef VIEW_PART_GAS_H
#define VIEW_PART_GAS_H

#include "view/marks.h"

/* Pressure, large, with shares and temperature under it, left-aligned at x; y: top of the capitals. Their boxes are added
 * to the space's, so that smoke keeps clear of them. */
void gas_figures(struct frame *frame, const struct scene *scene, int part, double x, double y, double size,
                 struct gas_space *space);
/* u that such figures take from the top of the capitals down. */
double gas_figures_high(const struct frame *frame, double size);
/* Smoke and vapor keep clear of a box. */
void gas_keep_clear(struct gas_space *space, struct frame_box box);
/* Whether gas like this burns: gasoline vapor with enough air. */
bool gas_flammable(struct mix mix);
/* A space that is a box with rounded corners, `wall` u inside its body's box. */
struct gas_space gas_box(const struct plate_body *body, double wall);
/* Hatch over a box whose pressure lies beyond the scale's ends. */
void gas_hatch(struct frame *frame, const struct scene *scene, int part, struct frame_box box);

/* Pressure and the rest below it; smoke around both. */
void gas_space_fill(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                    struct gas_space *space, double size);

#endif
