/* cast.h  Who plays what: for each part, where its numbers stand among the model's channels. */
#ifndef VIEW_CAST_H
#define VIEW_CAST_H

#include "ullage.h"

enum quantity {
    PRESSURE,    /* Pa absolute */
    GAUGE,       /* Pa over the atmosphere; of an instrument: what it shows */
    TEMPERATURE, /* K */
    SHARE_AIR,   /* mole shares */
    SHARE_NITROGEN,
    SHARE_CARBON_DIOXIDE,
    SHARE_VAPOR,
    SHARE_SMOKE,   /* of gas that carries the tracer */
    FLOW,          /* kg/s, from `from` to `to` */
    STANDARD_FLOW, /* m3/s at 20 degC, 101325 Pa */
    SPEED,         /* m/s of the gas in its narrowest free section */
    OPENING,       /* 0..1, true */
    DIAMETER,      /* m: of a hole, now */
    SET_PRESSURE,  /* Pa over the atmosphere: of a supply's regulator */
    RATE,          /* m3/s of liquid that runs in */
    SHUT_OFF,      /* 1: a nozzle has shut itself off */
    LEVEL,         /* share of a tank that is liquid */
    LIQUID_TEMPERATURE,
    LIQUID_VOLUME, /* m3 that lies in a line or a canister */
    LOAD,        /* kg of fuel on carbon */
    AIR_RATIO,   /* of an engine's mixture, as its sensor tells */
    CORRECTION,  /* share by which its injection is lengthened */
    AIR_FLOW,    /* kg/s that it burns with */
    INJECTED,    /* kg/s of fuel */
    PURGED_FUEL, /* kg/s that comes as vapor */
    PURGE_FLOW,  /* kg/s, with the air it comes in */
    HOLE,        /* m: what a meter's scale shows */
    TRUE_HOLE,   /* m */
    QUANTITIES
};

struct cast {
    int parts, channels;
    int (*channel)[QUANTITIES]; /* [parts]; -1: the part has no such number */
    int *recorded;              /* [recorded]: the model's recorded channels */
    int recorded_count;
};

/* False when memory is out. */
bool cast_make(struct cast *cast, const struct ullage_model *model);
void cast_free(struct cast *cast);

/* NAN where the part has no such number. value: as ullage_run_values fills it. */
double cast_value(const struct cast *cast, const double *value, int part, enum quantity quantity);

#endif
