/* sim/property/liquid.h  A liquid of several components: what it holds in the gas above it, its volume and energy. */
#ifndef PROPERTY_LIQUID_H
#define PROPERTY_LIQUID_H

#include "property/activity.h"

/* Made ready once, read only afterwards. Components must outlive it. */
struct liquid {
    int count;
    const struct component *component[LIQUID_MOST];
    struct activity activity;
    double last_drop; /* mol, usually 0: see liquid_pressures */
};

void liquid_prepare(struct liquid *liquid, int count, const struct component *const *component);

/* All functions: amount[count] mol of each, not negative but for round-off; temperature K. */

/* Partial pressures at rest over the liquid, Pa, with all their slopes. */
struct pressures {
    double value[LIQUID_MOST];
    double by_temperature[LIQUID_MOST];
    double by_amount[LIQUID_MOST][LIQUID_MOST]; /* [i][j]: d p_i / d n_j */
};

/* p_i = x_i gamma_i psat_i with x_i = n_i/(sum n + last_drop). With a last drop the pressures of a liquid that dries up
 * fall to 0 with it rather than all at once. No liquid, no drop: all 0. What is slightly negative stays so. */
void liquid_pressures(const struct liquid *liquid, const double *amount, double temperature,
                      struct pressures *pressures);

/* The same pressures without slopes, the same bits in under half the time: value[count]. */
void liquid_pressure_values(const struct liquid *liquid, const double *amount, double temperature, double *value);

/* Their sum: the pressure at which the liquid would boil. Slope by temperature. */
struct thermal liquid_bubble_pressure(const struct liquid *liquid, const double *amount, double temperature);

/* The temperature at which it boils under `pressure` (> 0), K. Amounts not all 0. */
double liquid_boiling_temperature(const struct liquid *liquid, const double *amount, double pressure);

/* Sum of n_k times a property of the pure liquid: volume in m3, energy in J (component_energy). Slope by temperature;
 * the slope by an amount is the component's own property. Mixing changes neither here; see liquid_mixing_heat. */
struct thermal liquid_volume(const struct liquid *liquid, const double *amount, double temperature);
struct thermal liquid_energy(const struct liquid *liquid, const double *amount, double temperature);

/* T at which liquid_energy, and `skin` J/K that are warmed with it, come to `energy` J. NAN in, NAN out. */
double liquid_temperature(const struct liquid *liquid, const double *amount, double skin, double energy);

/* Heat that went into mixing the liquid at 298.15 K, J, and what one more mol of each adds, J/mol: by_amount[count],
 * may be null. 0 without oxygenates. Not in liquid_energy: energy(n, T) + mixing(n) is again a function of the state,
 * with the same heat capacity. */
double liquid_mixing_heat(const struct liquid *liquid, const double *amount, double *by_amount);

/* What one more mol of j adds to by_amount[k]: slope[k][j], J/mol2, symmetric. False: all 0, slope untouched. */
bool liquid_mixing_slopes(const struct liquid *liquid, const double *amount, double slope[][LIQUID_MOST]);

double liquid_mass(const struct liquid *liquid, const double *amount); /* kg */

/* Mean molar mass of a vapor with these partial pressures (or shares), kg/mol. */
double vapor_molar_mass(const struct liquid *liquid, const double *pressure);

/* Puts `total` into a closed vessel of `volume` (m3) at a temperature, no air with it: what stays liquid is left in
 * rest[count]; the rest is vapor at the pressures of that liquid. False when nothing stays liquid; rest is then 0. The
 * vessel must be larger than the liquid. */
bool liquid_flash(const struct liquid *liquid, const double *total, double temperature, double volume, double *rest);

#endif
