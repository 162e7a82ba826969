/* sim/property/component.h  What a fuel is made of: one row per substance, and its properties with their slopes. */
#ifndef PROPERTY_COMPONENT_H
#define PROPERTY_COMPONENT_H

#include "property/gas.h"

/* The groups of a molecule that modified UNIFAC counts. AC is a ring carbon, CYCLIC_CH2 one of a ring without double
 * bonds, OH sits on a primary carbon. */
enum unifac_group {
    UNIFAC_CH3,
    UNIFAC_CH2,
    UNIFAC_CH,
    UNIFAC_C,
    UNIFAC_ACH,
    UNIFAC_AC,
    UNIFAC_ACCH3,
    UNIFAC_OH,
    UNIFAC_CYCLIC_CH2,
    UNIFAC_CH3CO,
    UNIFAC_GROUPS
};

struct component {
    struct species gas;       /* name, molar mass, heat capacity, viscosity and conductivity of its vapor */
    const char *formula;      /* null for what is no single substance */
    double antoine[3];        /* A, B, C of log10(p/bar) = A - B/(T/K + C) */
    double antoine_low;       /* K: below, the heat capacities carry the curve on (component_saturation) */
    double antoine_high;      /* K: above, the relation itself goes on */
    double vaporization_heat; /* J/mol at 298.15 K, by calorimeter */
    double density[4];        /* c of c0 / c1^(1 + (1 - T/c2)^c3), mol/m3: DIPPR 105; c2 is the critical temperature */
    double heat_capacity;     /* J/mol/K of the liquid at REFERENCE_TEMPERATURE */
    double heat_slope;        /* J/mol/K2, there */
    double heat_bend;         /* J/mol/K3: cp = heat_capacity + heat_slope x + heat_bend x^2, x = T - 298.15 K */
    double diffusion_volume;  /* Fuller */
    double flammable_low;     /* mole share in air at room conditions */
    double flammable_high;    /* the same */
    int group[UNIFAC_GROUPS]; /* how many of each; all 0: none known, good only in liquids without an oxygenate */
    double likeness;          /* to n-butane on carbon, of what is no single substance; 0: as carbon.c has it */
    double vapor_condenses;   /* Pa at 298.15 K: over a liquid made of its vapor alone; only beside a likeness */
};

#define BLENDING_TEMPERATURE 288.7056 /* K: 60 degF, at which the trade counts volumes of fuel */

/* The table. count may be null. */
const struct component *component_table(int *count);
const struct component *component_find(const char *name); /* null: none */

/* Where the properties are good for a fuel tank, K: from -40 degC, down to which vapor pressures were compared with
 * other collections, to 9/10 of the critical temperature. Outside they stay smooth, but a reader should refuse it. */
struct temperature_range {
    double low, high;
};
struct temperature_range component_range(const struct component *of);

/* A property that depends on temperature, and its slope by it. */
struct thermal {
    double value, slope;
};

/* Vapor pressure over the pure liquid, Pa. Rises everywhere; value and slope have no jump. temperature > 0. */
struct thermal component_saturation(const struct component *of, double temperature);

/* Heat of vaporization, J/mol; its slope is what the heat capacities of gas and liquid differ by. */
struct thermal component_vaporization(const struct component *of, double temperature);

/* Volume of the liquid, m3/mol. Above 9/10 of the critical temperature it goes on along its tangent. */
struct thermal component_volume(const struct component *of, double temperature);

/* Heat capacity of the liquid, J/mol/K. */
struct thermal component_heat_capacity(const struct component *of, double temperature);

/* Energy of the liquid, J/mol, on the scale of species_enthalpy. It is the enthalpy at no pressure; at
 * pressure p the enthalpy is greater by p times the volume. */
struct thermal component_energy(const struct component *of, double temperature);

/* What vapor diffuses into. */
enum carrier { CARRIER_AIR, CARRIER_NITROGEN, CARRIER_CARBON_DIOXIDE };

/* Diffusivity of a trace, m2/s. */
struct diffusivity {
    double value, by_temperature, by_pressure;
};
struct diffusivity component_diffusivity(const struct component *of, enum carrier into, double temperature,
                                         double pressure);

/* Between which mole shares in air a mixed vapor burns. share[count]: how the vapor is made up, any scale, not all 0;
 * what is slightly negative counts as none. Le Chatelier: a rule, good for the lower limit, rough for the upper. */
struct flammable {
    double low, high;
};
struct flammable vapor_flammable(int count, const struct component *const *component, const double *share);

#endif
