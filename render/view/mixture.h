/* mixture.h  What an engine gets: its air ratio on a scale, and how the closed loop answers. */
#ifndef VIEW_MIXTURE_H
#define VIEW_MIXTURE_H

#include "view/leading.h"

/* The first engine; -1: there is none. And whether it runs. */
int mixture_engine(const struct scene *scene);
bool mixture_runs(const struct scene *scene);
/* Heading, ratio with its verdict, the scale. */
void mixture_draw(struct frame *frame, const struct scene *scene, const struct leading_place *place);

/* A page of its own: the mixture, then what comes by the purge line and what the control unit does about it. */
void mixture_wide(struct frame *frame, const struct scene *scene, const struct layout *layout);
void mixture_narrow(struct frame *frame, const struct scene *scene, const struct layout *layout);

#endif
