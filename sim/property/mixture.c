/* sim/property/mixture.c  Viscosity of a mixture of gases at low pressure.
 *
 *   mu = sum_i y_i mu_i / D_i,   D_i = sum_j y_j phi_ij,
 *   phi_ij = (1 + sqrt(mu_i/mu_j) (M_j/M_i)^(1/4))^2 / sqrt(8 (1 + M_i/M_j))
 *
 * A mixture thins faster than the mean of its parts: a tenth of heavy vapor in air takes an eighth off the viscosity.
 * Source: [WILKE1950].
 *
 * With w_i = sqrt(mu_i)/M_i^(1/4) this is phi_ij = s_ij M_j/mu_j, where s_ij = (w_i + w_j)^2 / sqrt(8 (M_i + M_j)) is the
 * same both ways. Every volume of a network asks for this at every evaluation, so each pair is worked out once. */
#include "property/gas.h"

#include <assert.h>
#include <math.h>

/* The pure gases at one temperature, and their pairs. */
struct pairs {
    double viscosity[SPECIES_MOST], log_slope[SPECIES_MOST]; /* mu; d ln mu / d T */
    double root[SPECIES_MOST];                               /* w */
    double turned[SPECIES_MOST];                             /* M/mu */
    double shared[SPECIES_MOST][SPECIES_MOST];               /* s */
    double spread[SPECIES_MOST];                             /* D */
};

static void pure_gases(int count, const struct species *const *species, double temperature, struct pairs *pairs)
{
    for (int i = 0; i < count; i++) {
        double slope;
        species_viscosity(species[i], temperature, &pairs->viscosity[i], &slope);
        pairs->log_slope[i] = slope / pairs->viscosity[i];
        pairs->root[i] = sqrt(pairs->viscosity[i] / sqrt(species[i]->molar_mass));
        pairs->turned[i] = species[i]->molar_mass / pairs->viscosity[i];
    }
}

static void pairs_make(int count, const struct species *const *species, const double *share, double temperature,
                       struct pairs *pairs)
{
    pure_gases(count, species, temperature, pairs);
    for (int i = 0; i < count; i++)
        for (int j = 0; j <= i; j++) {
            const double sum = pairs->root[i] + pairs->root[j];
            pairs->shared[i][j] = pairs->shared[j][i] =
                sum * sum / sqrt(8.0 * (species[i]->molar_mass + species[j]->molar_mass));
        }
    for (int i = 0; i < count; i++) {
        pairs->spread[i] = 0.0;
        for (int j = 0; j < count; j++)
            pairs->spread[i] += share[j] * pairs->turned[j] * pairs->shared[i][j];
    }
}

double mixture_viscosity_value(int count, const struct species *const *species, const double *share, double temperature)
{
    assert(0 < count && count <= SPECIES_MOST);
    struct pairs pairs;
    pairs_make(count, species, share, temperature, &pairs);
    double value = 0.0;
    for (int i = 0; i < count; i++)
        value += share[i] * (pairs.viscosity[i] / pairs.spread[i]);
    return value;
}

/* d ln D_i / d T. */
static double spread_slope(int count, const double *share, const struct pairs *pairs, int i)
{
    double sum = 0.0;
    for (int j = 0; j < count; j++)
        sum += share[j] * pairs->turned[j] * pairs->shared[i][j] * (pairs->log_slope[i] - pairs->log_slope[j]) /
               (pairs->root[i] + pairs->root[j]);
    return pairs->root[i] * sum / pairs->spread[i];
}

struct mixture_viscosity mixture_viscosity(int count, const struct species *const *species, const double *share,
                                           double temperature)
{
    assert(0 < count && count <= SPECIES_MOST);
    struct pairs pairs;
    pairs_make(count, species, share, temperature, &pairs);
    struct mixture_viscosity mixture = {0};
    for (int i = 0; i < count; i++) {
        const double term = pairs.viscosity[i] / pairs.spread[i];
        mixture.value += share[i] * term;
        mixture.by_temperature += share[i] * term * (pairs.log_slope[i] - spread_slope(count, share, &pairs, i));
        mixture.by_share[i] += term;
        for (int j = 0; j < count; j++)
            mixture.by_share[j] -= share[i] * term / pairs.spread[i] * pairs.shared[i][j] * pairs.turned[j];
    }
    return mixture;
}
