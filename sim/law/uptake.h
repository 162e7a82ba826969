/* sim/law/uptake.h  How fast carbon takes up gas: linear driving force, with slopes. */
#ifndef LAW_UPTAKE_H
#define LAW_UPTAKE_H

#include "property/carbon.h"

struct uptake {
    double value[ADSORBATES_MOST];                        /* mol/s from gas to carbon */
    double by_pressure[ADSORBATES_MOST][ADSORBATES_MOST]; /* d value[i] / d pressure[j], mol/s/Pa */
    double by_temperature[ADSORBATES_MOST];               /* mol/s/K */
    double by_amount[ADSORBATES_MOST];                    /* d value[i] / d amount[i], 1/s; by others' amounts: 0 */
};

/* mass [kg] of carbon that holds amount[i] [mol] under partial pressures [Pa]; rate[i] [1/s] >= 0. */
struct uptake uptake_rates(const struct sorbent *sorbent, double mass, const double *rate, const double *pressure,
                           double temperature, const double *amount);
/* The same values, to the last bit, without slopes. */
void uptake_values(const struct sorbent *sorbent, double mass, const double *rate, const double *pressure,
                   double temperature, const double *amount, double *value);

/* The rate that a grain of diameter `grain` [m] has when diffusion inside it limits, `diffusivity` [m2/s] being that of
 * the loading. */
double uptake_rate_of_grain(double diffusivity, double grain);

#endif
