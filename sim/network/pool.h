/* sim/network/pool.h  The liquid in a tank, or that lies elsewhere: states, exchange with the gas above it, slopes. For network/ only.
 *
 * States after those that neighbours feel: L'_k [mol], E'_l [J], and the E' of the lower wall [J] where there is one.
 * The gas over the liquid is that of volume `over`: the tank's one gas, or the layer at the film. */
#ifndef NETWORK_POOL_H
#define NETWORK_POOL_H

#include "law/film.h"
#include "law/heat.h"
#include "network/pouring.h"
#include "property/liquid.h"

struct network;
struct scratch;

struct pool {
    struct liquid liquid;
    int vapor[LIQUID_MOST];                         /* carried index of each component's vapor */
    int at;                                         /* first own state, counted from 0 of the volume's block */
    int over;                                       /* volume whose gas lies at the surface */
    int over_in_own, own_in_over;                   /* where the block of one begins in the columns of the other */
    bool shut;                                      /* nothing gets into it or out of it: grains that took up all there was */
    bool still;                                     /* the film is gas at rest, thinner as there is less height of it */
    bool asleep;                                    /* none in it or into it before a fault has poured some */
    int pours;                                      /* first of those into it: pouring.h; -1 */
    double begun, brim;                             /* m3: at the start, < 0 as the scenario fills; from there it takes none */
    double transfer[LIQUID_MOST];                   /* m/s through it; of the whole height where still */
    double surface;                                 /* W/m2/K between liquid and that gas; as transfer */
    double radiant;                                 /* W/m2/K between liquid and upper wall */
    double dewed, dewed_sides;                      /* m2 that vapor can condense on: roof, sides; dew.h */
    double dew_transfer[LIQUID_MOST];               /* m/s through the film of gas there */
    struct heat_way film;                           /* from lower wall, or air, to liquid; of the whole height */
    double wall;                                    /* J/K of the floor; 0: no lower wall */
    struct heat_way outer;                          /* from lower wall to air; of the whole height */
    int exhaust, returned;                          /* live parameters by the network's count; -1: none */
    double skin;                                    /* J/K that are always with the liquid */
    double stock[LIQUID_MOST], energy, wall_energy, temperature; /* at the start */
};

/* What a level parts, each with its slope by the liquid's volume. */
struct pool_level {
    struct sloped height, area;    /* m; m2 of the surface */
    struct sloped share;           /* of the height that liquid stands */
    struct sloped wet, dry;        /* the same and the rest, never nothing: shape_share */
    struct sloped lower, upper;    /* J/K of the walls */
    struct sloped thin;            /* what transfer and surface are multiplied by */
};

/* The liquid now. */
struct pool_now {
    bool asleep, shut; /* as in the pool, and no fault has changed that; set before it is looked at */
    struct pour poured; /* that comes by faults */
    struct pool_level level;
    double amount[LIQUID_MOST];           /* mol */
    double temperature, wall_temperature; /* K */
    double volume, heat_capacity;         /* m3, J/K */
    double warming;                       /* J/K2: what a kelvin adds to that */
    double heat[LIQUID_MOST];             /* J/mol/K of each */
    double vapor_enthalpy[LIQUID_MOST], vapor_heat[LIQUID_MOST]; /* J/mol, J/mol/K of its vapor, as warm as the liquid */
    double swell;                         /* m3/K: what a kelvin adds to its volume */
    double energy[LIQUID_MOST];           /* J/mol that one more mol of each adds: its own, and of mixing */
    struct pressures saturation;
    double exhaust, returned; /* W */
    double swelling;          /* m3/s of its volume; set when balances are made */
};

/* 0, or 1 where the state is none that a liquid can have. own: the block's states. air_temperature: K. */
int pool_state(const struct network *network, int v, double air_temperature, const double *own, struct pool_now *now);

/* What a level parts where so much liquid is in volume v. */
struct pool_level pool_level_at(const struct network *network, int v, double liquid);

/* J of the liquid as it stands at the start, at a temperature. */
double pool_energy_at(const struct pool *pool, double temperature);

/* Books what passes between liquid, gas, walls and outside; sets the swelling. */
void pool_balance(const struct network *network, int v, struct scratch *scratch, double *dydt);

/* d volume of the liquid / d what is felt of its volume [felt]. */
void pool_volume_slope(const struct network *network, int v, const struct scratch *scratch, double *slope);

/* d temperature of the liquid, likewise. */
void pool_temperature_slope(const struct network *network, int v, const struct scratch *scratch, double *slope);

/* Slopes of the same, into `value` (rows by the network's pattern); and, into the scratch, what the volumes that the
 * liquid takes room from feel of it: see struct scratch, narrowing and room_slope. */
void pool_slopes(const struct network *network, int v, struct scratch *scratch, double *value);

#endif
