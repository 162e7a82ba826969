/* motion.h  How far the marks of each part have moved: the integral of their speed. Positions follow from it alone. */
#ifndef VIEW_MOTION_H
#define VIEW_MOTION_H

#include "view/cast.h"

struct motion {
    int parts;
    bool *jets;    /* [parts] holes and caps: size is told by the speed of what drifts away */
    double *phase; /* [parts] u, with the sign of the flow */
};

bool motion_make(struct motion *motion, const struct ullage_model *model);
void motion_free(struct motion *motion);
/* seconds: of simulated time in a saved frame, of the clock on the wall on a screen. */
void motion_advance(struct motion *motion, const struct cast *cast, const double *value, double seconds);
/* As of `seconds` later than `from`, whose phases it takes over. Both of the same model. */
void motion_copy(struct motion *motion, const struct motion *from);

/* u/s at which marks go for a gas speed in m/s; the logarithm lets 1 mm/s and 60 m/s both be seen. */
double motion_speed(double gas_speed);
/* u/s of one part's marks, signed. */
double motion_of(const struct motion *motion, const struct cast *cast, const double *value, int part);

#endif
