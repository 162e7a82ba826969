/* sim/law/film.h  Between a liquid and the gas above it: evaporation, condensation, boiling, in one law with slopes. */
#ifndef LAW_FILM_H
#define LAW_FILM_H

#include "law/flow.h"
#include "property/gas.h"

enum { VAPORS_MOST = SPECIES_MOST };

/* Usual conductance of boiling, mol/m2/s/Pa: see film.c. */
#define FILM_BOILING 1e-4

struct film_side {
    int count;                /* vapors */
    double area;              /* m2, >= 0 */
    double pressure;          /* Pa, all gas */
    double temperature;       /* K, of the film */
    const double *saturation; /* [count] Pa: partial pressure in equilibrium with the liquid as it is, >= 0 */
    const double *partial;    /* [count] Pa, in the gas */
    const double *transfer;   /* [count] m/s */
    double boiling;           /* mol/m2/s/Pa; 0: a wetted wall */
};

struct film {
    double value[VAPORS_MOST];                      /* mol/s, out of the liquid */
    double by_saturation[VAPORS_MOST][VAPORS_MOST]; /* d value[i] / d saturation[j], mol/s/Pa */
    double by_partial[VAPORS_MOST][VAPORS_MOST];
    double by_pressure[VAPORS_MOST];
    double by_temperature[VAPORS_MOST]; /* mol/s/K */
    double by_transfer[VAPORS_MOST];    /* d value[i] / d transfer[i], mol/m */
};

struct film film_evaporation(const struct film_side *at);
/* The same values, to the last bit, without slopes. */
void film_values(const struct film_side *at, double *value);

/* Share 0..1 of its saturation pressure that a liquid of `amount` keeps: amount/(amount + trace), straight on under 0.
 * The last trace clings: less of it, less pressure. So a surface runs dry, and gets wet again, without a corner. */
struct sloped film_wetness(double amount, double trace);

/* Transfer coefficient of a vapor, m/s: heat coefficient [W/m2/K] over the gas's heat capacity [J/m3/K], times
 * (diffusivity/thermal diffusivity)^exponent; exponent 2/3 in a moving gas to 1 in a still one. */
struct sloped film_transfer(struct sloped heat, double heat_capacity, double diffusivity, double thermal_diffusivity,
                            double exponent);

#endif
