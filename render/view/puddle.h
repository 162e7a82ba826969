/* puddle.h  Liquid that lies in other places than a tank. */
#ifndef VIEW_PUDDLE_H
#define VIEW_PUDDLE_H

#include "view/scene.h"

/* Share of what a place of a part holds that is liquid: `held` is the key of that volume. Under 2 % it is damp, and 0. */
double puddle_share(const struct scene *scene, int part, const char *held);

/* In the lowest level stretch of a line. */
void puddle_line(struct frame *frame, const struct scene *scene, const struct plate_pipe *pipe);

#endif
