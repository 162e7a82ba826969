/* sim/network/pool.h  The liquid in a tank: states, exchange with the gas above it, slopes. For network/ only.
 *
 * States after those that neighbours feel: L'_k [mol], E'_l [J], and the E' of the lower wall [J] where there is one. */
#ifndef NETWORK_POOL_H
#define NETWORK_POOL_H

#include "law/film.h"
#include "property/liquid.h"

struct network;
struct volume;
struct place_gas;
struct surroundings_now;
struct gradient;

struct pool {
    struct liquid liquid;
    int vapor[LIQUID_MOST];                         /* carried index of each component's vapor */
    int at;                                         /* first own state, counted from 0 of the volume's block */
    double area;                                    /* m2, of the surface */
    double transfer[LIQUID_MOST];                   /* m/s through the film of gas over it */
    double surface;                                 /* W/K between liquid and gas */
    double film, wall, outer;                       /* W/K, J/K, W/K of the lower wall, as of the upper one */
    double stock[LIQUID_MOST], energy, wall_energy; /* at the start */
};

/* The liquid now. */
struct pool_now {
    double amount[LIQUID_MOST];           /* mol */
    double temperature, wall_temperature; /* K */
    double volume, heat_capacity;         /* m3, J/K */
    double swell;                         /* m3/K: what a kelvin adds to its volume */
    struct pressures saturation;
};

/* What passes between liquid and gas. */
struct pool_flow {
    struct film film;   /* mol/s out of the liquid; slopes where asked for */
    double enthalpy;    /* W that goes along */
    double heat;        /* W from liquid to gas through the surface */
    double liquid_heat; /* W into the liquid from its wall */
    double crossing;    /* m3/s: sum v_k dL_k */
    double warming;     /* K/s of the liquid */
    double swelling;    /* m3/s of its volume */
};

/* 0, or 1 where the state is none that a liquid can have. own: the block's states. */
int pool_state(const struct network *network, const struct volume *volume, const struct surroundings_now *air,
               const double *own, struct pool_now *now);
struct pool_flow pool_flows(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            const struct surroundings_now *air, bool slopes);
/* Books it: gas, liquid, lower wall, heat accounts. Returns the swelling [m3/s]. */
double pool_balance(const struct network *network, const struct volume *volume, const struct place_gas *place,
                    const struct surroundings_now *air, double *own, double *accounts);

/* Slopes of the same. row(i): values of the block's row i, its own columns from `own` on; heat: the account rows in, out.
 * swelling[block] receives d swelling. */
struct pool_rows {
    double *const *row; /* [block] */
    double *heat_in, *heat_out;
};

double pool_slopes(const struct network *network, const struct volume *volume, const struct place_gas *place,
                   const struct surroundings_now *air, const struct gradient *gradient, const struct pool_rows *rows,
                   double *swelling);
/* d volume of the liquid / d own state [block]. */
void pool_volume_slope(const struct network *network, const struct volume *volume, const struct place_gas *place,
                       double *slope);

#endif
