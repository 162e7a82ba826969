/* sim/law/low_spot.h  Liquid that lies in the lowest stretch of a tube: how it bars a gas, and how a gas takes it along. */
#ifndef LAW_LOW_SPOT_H
#define LAW_LOW_SPOT_H

#include "law/flow.h"

/* Share 0..1 of the bore that is barred where a low spot is filled to the share `full`. */
struct sloped low_spot_cover(double full);

/* What is left of a difference of pressure [Pa] to drive a gas behind a seal that bears `bears` [Pa, >= 0]. */
struct left_over {
    double value, by_drop, by_bears;
};
struct left_over low_spot_left(double drop, double bears);

/* m/s of liquid in a wet bore [m] that a gas of `speed` [m/s, mean over the bore] takes along; none towards it. */
struct sloped low_spot_dragged(double speed, double bore);

/* Share 0..1 of what would run in that a place takes which liquid has filled to the share `full`. */
struct sloped low_spot_takes(double full);

#endif
