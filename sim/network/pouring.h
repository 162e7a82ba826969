/* sim/network/pouring.h  Liquid that a fault brings into what holds it, or draws off again, at any moment of a run.
 *
 * A tap is a fault that does so, into all liquids of its part that it is about. When it comes, goes or changes its size, what
 * has to be poured is worked out once, of the state at that moment (pouring.c); from then until it is done the rates are
 * constants among the run's inputs. */
#ifndef NETWORK_POURING_H
#define NETWORK_POURING_H

#include "element/part.h"
#include "property/activity.h"

/* What comes into one liquid, out of it where below 0. */
struct pour {
    double amount[LIQUID_MOST]; /* mol/s of each component */
    double energy, volume;      /* W beside the work of pushing it in; m3/s as it comes */
};

/* Where a tap pours, and the next into the same liquid; -1. */
struct pour_place {
    int tap, volume, next;
};

struct tap {
    int fault, first, places; /* of the network's places: one for each liquid */
    int account;              /* of its rows: components in, out [mol], energy in, out [J] */
};

/* How far it has got, in the unit of the fault's size. */
struct tap_now {
    double aim;       /* the size that it was last asked for */
    struct ramp held; /* what is there of it; begins at INFINITY: it has never poured */
};

#endif
