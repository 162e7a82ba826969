/* sim/property/carbon.h  Activated carbon: what it is, and how much of each gas it holds at equilibrium.
 *
 * A carbon's row and the rows of the gases that meet it make a sorbent; a sorbent, partial pressures and a temperature
 * make a loading. Equations and their consistency: carbon.c. */
#ifndef PROPERTY_CARBON_H
#define PROPERTY_CARBON_H

#include "property/component.h"
#include "property/gas.h"

enum { CARBON_SITES = 3, ADSORBATES_MOST = SPECIES_MOST };

/* How strongly a gas is held, at ADSORBATE_TEMPERATURE. Fitted on one carbon and used for all: the difference between
 * carbons lies in the capacity of their sites. */
struct adsorbate {
    const char *name;              /* as in the table of species and fuels */
    double affinity[CARBON_SITES]; /* 1/Pa */
    double heat;                   /* J/mol, given off by every mole taken up, at any loading and on any site */
    const char *source;
};

#define ADSORBATE_TEMPERATURE 298.15 /* K */

const struct adsorbate *adsorbate_table(int *count); /* count may be null */
int adsorbate_find(const char *name);                /* -1: none */

/* A gas without data, by its likeness to n-butane: `likeness` is the affinity coefficient (1.24 for n-pentane; for
 * alkanes about 1 + 0.25 per carbon atom above butane's four), vapor_pressure [Pa] and vaporisation_heat [J/mol]
 * are the liquid's at ADSORBATE_TEMPERATURE, the heat as its vapor pressure's slope gives it. Right to a factor. */
struct adsorbate adsorbate_alike(const char *name, double likeness, double vapor_pressure, double vaporisation_heat);

/* How carbon holds a component: by its row where it has one; else by a likeness, its own where it says one, or what its
 * size makes likely. No vapor is ever left unheld. */
struct adsorbate adsorbate_of(const struct component *component);

struct carbon {
    const char *name;              /* "stock", "dense" */
    double capacity[CARBON_SITES]; /* mol/kg, the same for every gas */
    double density;                /* kg/m3 of bed */
    double void_share;             /* of the bed, between the grains: what gas flows through */
    double gas_share;              /* of the bed, the grains' wide pores included: what gas fills */
    double grain;                  /* m, diameter of a ball that drags as the grains do */
    double heat_capacity;          /* J/kg/K, dry */
    double conductivity;           /* W/m/K, of the bed with air at rest in it */
    double uptake_rate;            /* 1/s, linear driving force */
    const char *source;
};

const struct carbon *carbon_table(int *count); /* count may be null */
int carbon_find(const char *name);             /* -1: none */

/* A carbon in the company of `count` gases. */
struct sorbent {
    int count;
    double capacity[CARBON_SITES];                  /* mol/kg */
    double affinity[ADSORBATES_MOST][CARBON_SITES]; /* 1/Pa at ADSORBATE_TEMPERATURE */
    double heat[ADSORBATES_MOST];                   /* J/mol */
};

/* How this piece differs from the row of its carbon. {1, 1, 0}: not at all. */
struct carbon_grade {
    double capacity; /* factor on all sites, > 0 */
    double heat;     /* factor on every heat, >= 0, in the affinity's dependence on temperature as in the energy */
    double lost;     /* share 0..1 of the strongest sites that heavy ends hold for ever */
};

struct sorbent sorbent_create(const struct carbon *carbon, struct carbon_grade grade, int count,
                              const struct adsorbate *const *adsorbate);

/* How much stronger a gas of that heat is held than at ADSORBATE_TEMPERATURE: b(T)/b(T0). */
double carbon_strengthening(double heat, double temperature);

struct loading {
    double value[ADSORBATES_MOST];                        /* mol/kg */
    double by_pressure[ADSORBATES_MOST][ADSORBATES_MOST]; /* d value[i] / d pressure[j], mol/kg/Pa */
    double by_temperature[ADSORBATES_MOST];               /* mol/kg/K */
};

/* Equilibrium under partial pressures [Pa]. A pressure a little under zero (an integrator's) gives a loading a little
 * under zero, with a continuous slope. */
struct loading carbon_loading(const struct sorbent *sorbent, const double *pressure, double temperature);
/* The same values, to the last bit, without slopes. */
void carbon_loading_value(const struct sorbent *sorbent, const double *pressure, double temperature, double *value);

/* The other way round: the pressures [Pa] under which the carbon holds `loading` [mol/kg, >= 0] of some gases while another gas
 * fills the pressure up to `total`. rest[i]: mole shares of that one; gases it is made of are not among the some. Where those
 * alone need more than the total, the rest is 0 and the sum is more. Method: carbon_pressures.c. False: the sites are too few
 * for this loading, or a gas is told that the carbon does not hold. */
bool carbon_pressures(const struct sorbent *sorbent, const double *loading, const double *rest, double total,
                      double temperature, double *pressure);

/* Enthalpy of what is adsorbed less that of the same gas at the same temperature, J/kg: -sum heat q. It holds at any
 * loading, at equilibrium or not. */
double carbon_enthalpy(const struct sorbent *sorbent, const double *loading);

/* Grand potential over R T, mol/kg: loading[i] = d potential / d ln pressure[i]. No pressure under zero. */
double carbon_potential(const struct sorbent *sorbent, const double *pressure, double temperature);

#endif
