/* sim/property/weathering.h  A fuel that has gone stale, or one that is livelier than it. */
#ifndef PROPERTY_WEATHERING_H
#define PROPERTY_WEATHERING_H

#include "property/liquid.h"

/* Amounts, mol in 1 m3 at 60 degF, of the fuel whose vapor pressure (DVPE) is `change` Pa more than that of amount[count],
 * or less where it is below 0. False: it cannot differ so much; then the one that differs most. amount: not all 0. */
bool liquid_weathered(const struct liquid *liquid, const double *amount, double change, double *into);

#endif
