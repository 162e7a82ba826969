/* sim/network/dew.h  Vapor that condenses on the wall of a tank's gas and runs down into its liquid. For network/ only. */
#ifndef NETWORK_DEW_H
#define NETWORK_DEW_H

#include "network/inside.h"

/* What runs down: mol/s of each component, what it brings the liquid, and what it takes from the gas [W]; the wall gets the
 * difference. */
struct dew {
    double value[LIQUID_MOST], energy, enthalpy;
};

struct dew_slopes {
    double value[LIQUID_MOST][BLOCK_MOST], energy[BLOCK_MOST], enthalpy[BLOCK_MOST]; /* by own state */
};

/* slopes null: values alone. The gradient of volume v in the scratch must be made where slopes are asked for. */
void dew_make(const struct network *network, int v, const struct scratch *scratch, struct dew *dew,
              struct dew_slopes *slopes);

#endif
