/* sim/property/mixture.c  Viscosity of a mixture of gases at low pressure.
 *
 *   mu = sum_i y_i mu_i / D_i,   D_i = sum_j y_j phi_ij,
 *   phi_ij = (1 + sqrt(mu_i/mu_j) (M_j/M_i)^(1/4))^2 / sqrt(8 (1 + M_i/M_j))
 *
 * A mixture thins faster than the mean of its parts: a tenth of heavy vapor in air takes an eighth off the viscosity.
 * Source: [WILKE1950]. */
#include "property/gas.h"

#include <assert.h>
#include <math.h>

/* The pure gases at one temperature. */
struct pure {
    double viscosity[SPECIES_MOST];
    double log_slope[SPECIES_MOST]; /* d ln mu / d T */
    double weight[SPECIES_MOST];    /* sqrt(mu) / M^(1/4): phi_ij reads only ratios of it, and of the molar masses */
};

static struct pure pure_gases(int count, const struct species *const *species, double temperature)
{
    struct pure pure;
    for (int i = 0; i < count; i++) {
        double slope;
        species_viscosity(species[i], temperature, &pure.viscosity[i], &slope);
        pure.log_slope[i] = slope / pure.viscosity[i];
        pure.weight[i] = sqrt(pure.viscosity[i] / sqrt(species[i]->molar_mass));
    }
    return pure;
}

struct mixture_viscosity mixture_viscosity(int count, const struct species *const *species, const double *share,
                                           double temperature)
{
    assert(0 < count && count <= SPECIES_MOST);
    const struct pure pure = pure_gases(count, species, temperature);
    struct mixture_viscosity mixture = {0};
    for (int i = 0; i < count; i++) {
        double phi[SPECIES_MOST];
        double sum = 0.0;       /* D_i */
        double sum_slope = 0.0; /* d D_i / d T */
        for (int j = 0; j < count; j++) {
            const double part = pure.weight[i] / pure.weight[j];
            const double scale = (1.0 + part) / sqrt(8.0 * (1.0 + species[i]->molar_mass / species[j]->molar_mass));
            phi[j] = (1.0 + part) * scale;
            sum += share[j] * phi[j];
            sum_slope += share[j] * scale * part * (pure.log_slope[i] - pure.log_slope[j]);
        }
        const double term = pure.viscosity[i] / sum;
        mixture.value += share[i] * term;
        mixture.by_temperature += share[i] * term * (pure.log_slope[i] - sum_slope / sum);
        mixture.by_share[i] += term;
        for (int j = 0; j < count; j++)
            mixture.by_share[j] -= share[i] * term * phi[j] / sum;
    }
    return mixture;
}
