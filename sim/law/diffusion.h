/* sim/law/diffusion.h  Gases that diffuse through each other between two places, with slopes. */
#ifndef LAW_DIFFUSION_H
#define LAW_DIFFUSION_H

#include "property/gas.h"

enum { DIFFUSERS_MOST = SPECIES_MOST };

/* Diffusivity of a pair, m2/s: molar masses [kg/mol] and diffusion volumes (sums of increments, see diffusion.c). */
double pair_diffusivity(double molar_mass_a, double volume_a, double molar_mass_b, double volume_b, double temperature,
                        double pressure);

/* Gases that may meet, made ready. */
struct diffusers {
    int count;
    double resistance[DIFFUSERS_MOST][DIFFUSERS_MOST]; /* 1/(C D_ij) at 298.15 K and any pressure, m s/mol; [i][i] 0 */
};

struct diffusers diffusers_create(int count, const double *molar_mass, const double *volume);

/* One side: mole shares, whose sum is 1, and temperature. Pressure does not matter: C D does not hang on it. */
struct diffusion_side {
    const double *share; /* [count] */
    double temperature;
};

struct diffusion {
    double value[DIFFUSERS_MOST];                      /* mol/s from a to b; their sum is 0 */
    double by_share_a[DIFFUSERS_MOST][DIFFUSERS_MOST]; /* d value[i] / d share j of side a, the others held, mol/s */
    double by_share_b[DIFFUSERS_MOST][DIFFUSERS_MOST];
    double by_temperature[DIFFUSERS_MOST]; /* the same for either side's temperature, mol/s/K */
    double by_flow[DIFFUSERS_MOST];        /* d value[i] / d flow */
};

/* reach: area * open share / (tortuosity * distance), m, >= 0. flow [mol/s from a to b]: what streams the same way and
 * is booked elsewhere with the shares upstream; together they are then exact for steady state between the two places.
 * 0: diffusion alone. Enthalpy goes along as sum value[i] times the mean h_i of both sides: see diffusion.c. */
struct diffusion diffusion_between(const struct diffusers *gases, double reach, double flow,
                                   const struct diffusion_side *a, const struct diffusion_side *b);
/* Moles that would be left over [mol/s from a to b] and are given back by b where positive, by a else: where it changes
 * its sign the law has a corner, as any law that carries what stands upstream. */
double diffusion_surplus(const struct diffusers *gases, double reach, double flow, const struct diffusion_side *a,
                         const struct diffusion_side *b);
/* The same values, to the last bit, without slopes. */
void diffusion_values(const struct diffusers *gases, double reach, double flow, const struct diffusion_side *a,
                      const struct diffusion_side *b, double *value);

#endif
