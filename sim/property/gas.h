/* sim/property/gas.h  Gases and their mixtures: a table of species, ideal-gas mixing, viscosity by Wilke. */
#ifndef PROPERTY_GAS_H
#define PROPERTY_GAS_H

#include <stdbool.h>

#define REFERENCE_TEMPERATURE 298.15 /* K: where heats of vaporization and heat capacities are given */

enum {
    SPECIES_MOST = 12, /* species in one network */
    SPECIES_KNOWN = 24 /* numbers of species, at most */
};

struct species {
    const char *name;    /* "air", "nitrogen", "carbon dioxide", "smoke" */
    double molar_mass;   /* kg/mol */
    double heat_capacity; /* J/mol/K at constant pressure, ideal gas, at REFERENCE_TEMPERATURE */
    double heat_slope;    /* J/mol/K2: what a kelvin adds to that */
    double viscosity[4]; /* mu = c0 T^c1 / (1 + c2/T + c3/T^2), Pa s, T in K */
    double conductivity[4]; /* the same form, W/m/K */
    bool passive;        /* rides along: counts for neither amount, mass nor heat ("smoke") */
    const char *source;
};

/* Gases and tracers; their index is the species' number. count may be null. */
const struct species *species_table(int *count);
/* All that can be a gas: the table, then the vapors of all fuel components. number 0..species_known(). */
int species_known(void);
const struct species *species_at(int number);
int species_find(const char *name); /* number; -1: none */
/* Fuller's diffusion volume of a species by number; 0: passive. */
double species_diffusion_volume(int number);

/* What temperature does to heat, the same for all gases; see warmth.c:
 *   cp = heat_capacity + heat_slope value,   h = heat_capacity T + heat_slope integral. */
struct warmth {
    double value, slope, integral; /* K, 1, K2 */
};
struct warmth gas_warmth(double temperature);

/* J/mol/K and J/mol, counted from 0 K. */
double species_heat_capacity(const struct species *species, const struct warmth *warmth);
double species_enthalpy(const struct species *species, double temperature, const struct warmth *warmth);

/* cp/cv. */
double species_gamma(const struct species *species, double temperature);

/* T at which  capacity T + slope gas_warmth(T).integral = energy,  for sums over gases. NAN in, NAN out. */
double warmth_temperature(double capacity, double slope, double energy);

/* Viscosity of a pure species at T and its slope d/dT. */
void species_viscosity(const struct species *species, double temperature, double *value, double *slope);

/* Mixture of `count` non-passive species with mole shares share[count] (sum 1; slightly negative shares from round-off
 * are taken as they come and must not make NaN). Slopes: d viscosity / d share[i] with the other shares held (the
 * network projects them), and d viscosity / d T. Wilke 1950. */
struct mixture_viscosity {
    double value, by_temperature, by_share[SPECIES_MOST];
};
struct mixture_viscosity mixture_viscosity(int count, const struct species *const *species, const double *share,
                                           double temperature);
/* The same value, to the last bit, without slopes. */
double mixture_viscosity_value(int count, const struct species *const *species, const double *share,
                               double temperature);

/* Conductivity of a mixture, mole-share mean (within 2 % for air, nitrogen, carbon dioxide), W/m/K. No slopes: used to
 * make constants. */
double mixture_conductivity(int count, const struct species *const *species, const double *share, double temperature);

/* US Standard Atmosphere 1976, lowest layer; geometric altitude -1000..11000 m. Pa, K. */
double standard_pressure(double altitude);
double standard_temperature(double altitude);
double standard_altitude(double pressure); /* m at which it is so thick */

#endif
