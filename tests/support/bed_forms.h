/* tests/support/bed_forms.h  Closed forms for an adsorbent bed, its fronts and its heat; they share nothing with the
 * program. SI units. Formulas and sources: bed_forms.c. */
#ifndef SUPPORT_BED_FORMS_H
#define SUPPORT_BED_FORMS_H

/* What all cases have in common. */
struct bed_case {
    double length, gas, density; /* m; share of gas; kg/m3 */
    double velocity;             /* m/s at the inlet, over the whole section */
};

extern const struct bed_case bed_of_the_tables;

/* Shares of the final value after a step at the inlet: gas c/c0 = bed_j(xi, tau), carbon q/q0 = 1 - bed_j(tau, xi),
 * with xi = k density K z/velocity and tau = k (t - gas z/velocity), for q = K c and rate k. */
double bed_j(double x, double y);
double bed_linear_gas(const struct bed_case *bed, double henry, double rate, double place, double time);
double bed_linear_carbon(const struct bed_case *bed, double henry, double rate, double place, double time);

/* The same at the exit of `cells` equal mixed cells, exact in time. */
double bed_cells_gas(const struct bed_case *bed, double henry, double rate, int cells, double time);

/* Constant pattern of a Langmuir isotherm: rate times (time - stoichiometric time) at c/c0. b_feed: b c0. */
double bed_pattern_time(double b_feed, double gas);

/* Time at which as much has come in as the bed holds. per_gas: q0/c0, m3/kg. */
double bed_stoichiometric_time(const struct bed_case *bed, double per_gas);

/* Purge in equilibrium, Langmuir, velocity unchanged: c/c0 at a place, share of the first inventory left. */
struct bed_langmuir {
    double most, b, feed; /* mol/kg, m3/mol, mol/m3 */
};

double bed_purge_gas(const struct bed_case *bed, const struct bed_langmuir *isotherm, double place, double time);
double bed_purge_heel(const struct bed_case *bed, const struct bed_langmuir *isotherm, double time);

/* A vapor that makes up much of the gas, concentration [mol/m3] of all gas; isotherm: mol/kg at a share, and slope. */
struct bed_vapor {
    double concentration;
    void (*isotherm)(double share, double *loading, double *slope);
};

double bed_bulk_time(const struct bed_case *bed, const struct bed_vapor *vapor, double share); /* stoichiometric */
double bed_bulk_slowed(const struct bed_case *bed, const struct bed_vapor *vapor, double share);

/* Clean purge of a bed at share `from`: when the share `share` leaves, what is then left of the first inventory, and
 * how much faster the gas leaves than it came in. */
struct bed_purged {
    double time, retained, faster;
};
struct bed_purged bed_bulk_purge(const struct bed_case *bed, const struct bed_vapor *vapor, double from, double share);

/* Adiabatic, trace: gas heat capacity [J/m3/K], carbon's [J/kg/K], heat [J/mol]. */
struct bed_heat {
    double gas, carbon, adsorption;
};

double bed_heat_time(const struct bed_case *bed, const struct bed_heat *heat);     /* when a pure heat wave leaves */
double bed_plateau_rise(const struct bed_heat *heat, double loading, double feed); /* heat ahead of the front */

/* Adiabatic, the front ahead of the heat; Langmuir whose b goes with temperature as the heat says. */
struct bed_hot {
    double temperature, gas, loading, front, rear_first, rear_last; /* K, c/c0, mol/kg, s, s, s */
};
struct bed_hot bed_hot_front_of(const struct bed_case *bed, const struct bed_heat *heat,
                                const struct bed_langmuir *isotherm, double temperature);

/* A vapor from share `low_end` at one end of a tube to none at the other, through still gas: flux times length over
 * concentration and diffusivity; share half way. */
double tube_stefan_flux(double share);
double tube_stefan_middle(double share);

/* A clean tube whose end x = 0 is held at 1 and x = 1 at 0: value at x, and flux at x = 1 over the steady one. */
double tube_filled(double fourier, double x);
double tube_exit_flux(double fourier);

/* (T - Tamb)/(T0 - Tamb) at a share x of the half thickness or radius. */
double cooled_slab(double biot, double fourier, double x);
double cooled_cylinder(double biot, double fourier, double x);

#endif
