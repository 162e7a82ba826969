/* sim/network/pool_inside.h  What pool.c finds out about a liquid, and pool_slopes.c takes the slopes of. For these alone. */
#ifndef NETWORK_POOL_INSIDE_H
#define NETWORK_POOL_INSIDE_H

#include "network/dew.h"
#include "network/pool.h"

/* What stands round a pool. */
struct pool_view {
    const struct network *network;
    const struct volume *volume;
    const struct pool *pool;
    const struct pool_now *now;
    const struct place_gas *own, *over;
    const struct surroundings_now *air;
    double own_share, over_share;                /* of its volume, yielded by either gas */
    double drain;                                /* m3/s that leave by openings: dip.c */
    double pour;                                 /* m3/s that are filled in, */
    struct dew dew;                              /* that runs down into it */
    double poured[LIQUID_MOST], poured_energy;   /* mol/s and W of it */
    double spilled[LIQUID_MOST], spilled_energy; /* mol/s and W that run in from other volumes */
    double push;                                 /* Pa: mean of both */
};

/* What passes between liquid, gas and walls. */
struct pool_flow {
    struct film film;                      /* mol/s out of the liquid; slopes where asked for */
    double enthalpy;                       /* W that goes along */
    double heat;                           /* W from liquid to gas through the surface */
    struct sloped warmed;                  /* W into the liquid from lower wall or air, slope by their difference */
    struct sloped outer;                   /* W from the lower wall to the air, as warmed */
    double warmed_growth, outer_growth;    /* d of both by the liquid's volume; where slopes are asked for */
    double radiated;                       /* W into it from the upper wall */
    double moved;                          /* W that go with wall from the gas to the liquid */
    double lost[LIQUID_MOST], lost_energy; /* mol/s, W that leave by openings */
    double crossing;                       /* m3/s: sum v_k dL_k */
    double warming;                        /* K/s of the liquid */
    double swelling;                       /* m3/s of its volume */
};

/* Whether temperatures are those of the surroundings. */
bool pool_held(const struct network *network);

/* slopes: those of the dew; null: none. */
struct pool_view pool_see(const struct network *network, int v, const struct scratch *scratch,
                          struct dew_slopes *slopes);
struct pool_flow pool_flows(const struct pool_view *at, bool slopes);

/* Enthalpy that a mol of component k brings along. K of the wall that changes hands. */
double pool_brought(const struct pool_view *at, const struct film *film, int k);
double pool_handed(const struct pool_view *at, const struct pool_flow *flow);

/* W/K between liquid and gas, between liquid and upper wall; slopes by its volume. */
struct sloped pool_surface(const struct pool_view *at);
struct sloped pool_radiant(const struct pool_view *at);

/* dE_l/dt where its temperature is held, and what that takes [W]. */
double pool_held_energy(const struct pool_view *at, const struct pool_flow *flow, double *heat);

#endif
