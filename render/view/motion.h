/* motion.h  How far marks have moved: the integral of their speed. Positions follow from it alone. */
#ifndef VIEW_MOTION_H
#define VIEW_MOTION_H

#include "view/plate.h"

struct motion {
    int parts, sections;
    double *part;    /* [parts] u: wheels, jets, what passes a valve; with the sign of the flow */
    double *section; /* [sections] u */
};

bool motion_make(struct motion *motion, const struct plate *plate);
void motion_free(struct motion *motion);
/* seconds: of simulated time in a saved frame, of the clock on the wall on a screen. */
void motion_advance(struct motion *motion, const struct plate *plate, const struct cast *cast, const double *value,
                    double seconds);
void motion_copy(struct motion *motion, const struct motion *from); /* both of the same plate */

/* u/s at which marks go for a gas speed in m/s; the logarithm lets 1 mm/s and 60 m/s both be seen. */
double motion_speed(double gas_speed);
/* u/s, signed. */
double motion_of_part(const struct plate *plate, const struct cast *cast, const double *value, int part);
double motion_of_section(const struct plate *plate, const struct cast *cast, const double *value, int section);

#endif
