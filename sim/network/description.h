/* sim/network/description.h  A scenario as data: what file/ writes and the model is made of. */
#ifndef NETWORK_DESCRIPTION_H
#define NETWORK_DESCRIPTION_H

#include "base/tree.h"
#include "element/element.h"
#include "property/liquid.h"

/* A number over time: corners in order, straight between them, level outside. One corner: a constant. */
struct profile {
    int corners;
    double *time, *value; /* s, SI [corners] */
};

struct surroundings {
    bool altitude_given, pressure_given, temperature_given; /* pressure and altitude are alternatives */
    double altitude;                                        /* m, geometric */
    struct profile pressure;    /* Pa; filled by the reader in every case (101325 Pa, or by altitude) */
    struct profile sun, wind;   /* W/m2, m/s; 0 where not given */
    struct profile temperature; /* K; 293.15 where not given, or the standard atmosphere's where only altitude is */
};

enum heat_law { HEAT_FULL, HEAT_ISOTHERMAL, HEAT_ADIABATIC };

struct assumptions {
    enum heat_law heat;
    double discharge; /* 0: the full law */
    bool rigid;       /* shell: rigid */
    bool dry;         /* gas: dry */
};

/* What the tank holds. */
struct fill {
    bool given;
    double level, temperature; /* share of the tank's inside; K */
    int fuels;
    struct component fuel[LIQUID_MOST];
    double amount[LIQUID_MOST]; /* mol in 1 m3 at 60 degF */
    bool pump_given;
    double pumped[LIQUID_MOST]; /* the same, of what a nozzle lets run in; not given: the fuel itself */
};

/* How a canister was conditioned before it begins: loaded until fuel came out at its air side, then purged from there, as
 * often as told. */
struct conditioning {
    bool given;
    struct ullage_place at;
    bool fuel;                   /* loaded with the vapor over the scenario's own fuel */
    const struct component *gas; /* or with this one; null, and no fuel: see sim/procedure/conditioning.h */
    bool share_given;
    double share;       /* of it in the gas that loads; the rest is air */
    double rate, until; /* kg/s of it; kg of it that have left at the air side by the end of the loading */
    double volumes;     /* of the beds: the air that purges */
    double purge_rate;  /* m3/s, standard */
    int cycles;
    double temperature; /* K, of gas and surroundings meanwhile */
};

/* What every volume of a part holds, in their order: mol on its carbon, and the mole shares of its gas. */
struct held {
    int volumes, species;
    const char *const *name;    /* [species] */
    const double *load, *share; /* [volumes][species] */
};

struct start {
    int part;
    struct ullage_place at, temperature_at;
    bool pressure_given, gauge_given, temperature_given, gas_given, saturation_given;
    double pressure, gauge, temperature, saturation; /* saturation: share of the liquid's vapor in its gas */
    double share[SPECIES_KNOWN];                     /* by species number; sum 1 where gas_given */
    struct conditioning conditioning;
    const struct held *held; /* what conditioning has come to; null: at rest with its gas */
};

/* A value of `let`. */
struct named_value {
    const char *name;
    double value;
    int dimension;
    struct ullage_place at;
};

/* What is done by hand at a moment: a map of what is set to what, words all. */
struct by_hand {
    double time; /* s */
    const struct node *set;
};

struct ullage_description {
    struct arena *arena;               /* owns everything below */
    const char *name, *about, *system; /* scenario's name and sentence, system's name; never null */
    struct ullage_place at;
    int parts;
    struct part *part; /* system first, then equipment, then a `hole` for each fault that is one, each in file order */
    int faults;
    struct fault *fault; /* in file order; then holes that may come by hand, if they were asked for */
    struct surroundings surroundings;
    struct assumptions assume;
    struct fill fill;
    int starts;
    struct start *start;
    int lets;
    struct named_value *let;
    const struct node *procedure; /* the list of steps, or null */
    const char *procedure_name;   /* of a procedure file; "" else */
    int by_hands;
    struct by_hand *by_hand; /* in order of time */
    bool sound;              /* what it says of faults is left out */
    bool end_given, every_given, seed_given;
    double end, every; /* s */
    uint64_t seed;
    const struct node *channels; /* record's list, or null */
    const char *keep;            /* folder in which what takes long is kept between runs; null: none */
};

#endif
