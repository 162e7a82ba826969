/* sim/law/uptake.c  Linear driving force: d amount_i/dt = k_i (mass q_i(p, T) - amount_i).
 *
 * What enters the grains is proportional to how far their mean loading is from equilibrium with the gas around them.
 * For diffusion into a ball this is the long-time solution of Fick's law, with k = 15 D/radius^2 [GLUECKAUF1955]. Heat
 * of adsorption is no term here: it is part of the energy that a mole has once it is adsorbed (carbon.c).
 * k q has the slope k m b, which is thousands of times k for heavy vapors: stiff, so the slope has to be exact. */
#include "law/uptake.h"

#include <assert.h>

void uptake_values(const struct sorbent *sorbent, double mass, const double *rate, const double *pressure,
                   double temperature, const double *amount, double *value)
{
    double loading[ADSORBATES_MOST];
    carbon_loading_value(sorbent, pressure, temperature, loading);
    for (int i = 0; i < sorbent->count; i++)
        value[i] = rate[i] * (mass * loading[i] - amount[i]);
}

struct uptake uptake_rates(const struct sorbent *sorbent, double mass, const double *rate, const double *pressure,
                           double temperature, const double *amount)
{
    const struct loading loading = carbon_loading(sorbent, pressure, temperature);
    struct uptake uptake;
    for (int i = 0; i < sorbent->count; i++) {
        uptake.value[i] = rate[i] * (mass * loading.value[i] - amount[i]);
        uptake.by_temperature[i] = rate[i] * mass * loading.by_temperature[i];
        uptake.by_amount[i] = -rate[i];
        for (int j = 0; j < sorbent->count; j++)
            uptake.by_pressure[i][j] = rate[i] * mass * loading.by_pressure[i][j];
    }
    return uptake;
}

double uptake_rate_of_grain(double diffusivity, double grain)
{
    assert(diffusivity >= 0.0 && grain > 0.0);
    const double radius = 0.5 * grain;
    return 15.0 * diffusivity / (radius * radius);
}
