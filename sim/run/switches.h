/* sim/run/switches.h  When bits flip: the first moment of a step at which a margin rises over zero. */
#ifndef RUN_SWITCHES_H
#define RUN_SWITCHES_H

#include "network/inside.h"

/* A solution over a step that no input interrupts. */
struct stretch {
    const struct network *network;
    const struct inputs *inputs;
    double begins, ends;                                       /* s */
    const double *(*state)(const void *solution, double time); /* within the stretch; good until it is asked again */
    const void *solution;
};

/* Whether a margin rises over zero within the stretch, and the first moment at which one is above: to 1e-13 of the
 * stretch, or to the resolution of time. */
bool switches_rise(const struct stretch *over, double *moment);

/* Flips what is due at `time` in state y; whether anything was. on: the inputs' own bits. */
bool switches_flip(const struct network *network, const struct inputs *inputs, double time, const double *y, bool *on);

#endif
