/* sim/law/heat.h  Heat between a body and a fluid, over the surfaces it has there. */
#ifndef LAW_HEAT_H
#define LAW_HEAT_H

#include "law/convection.h"

#include <stdbool.h>

enum stance {
    SURFACE_FIXED,  /* one coefficient, whatever the difference */
    SURFACE_STANDS, /* a wall; length: its height */
    SURFACE_LIES,   /* a lying cylinder; length: its diameter */
    SURFACE_UNDER,  /* level, its fluid above it; length: area over perimeter */
    SURFACE_OVER    /* level, its fluid below it */
};

struct surface {
    enum stance stance;
    double area;             /* m2, >= 0 */
    double coefficient;      /* W/m2/K: all of it where FIXED, beside convection else (radiation) */
    double length;           /* m */
    double path;             /* m, in a closed space: what heat has to be conducted through at least; 0: in the open */
    struct convective fluid; /* not of FIXED */
    bool side;               /* of a vessel's wall that stands: see heat_way_part */
};

enum { SURFACES_MOST = 3 };

/* No surfaces: no heat. */
struct heat_way {
    int surfaces;
    struct surface surface[SURFACES_MOST];
};

/* A way of `conductance` [W/K] that hangs on nothing. */
struct heat_way heat_fixed(double conductance);

/* Adds a surface; there must be room. */
void heat_way_add(struct heat_way *way, struct surface surface);

/* Whether any heat can pass. */
bool heat_way_open(const struct heat_way *way);

/* Heat from body to fluid [W] with its slope, difference = body - fluid [K]; `wind` [m/s] blows along all but FIXED. */
struct sloped heat_flow(const struct heat_way *way, double difference, double wind);

/* Of a vessel of which a liquid's level leaves `share` of the height: its sides are so high and of so much area, and what
 * lies level is so much nearer to the middle of what it bounds. `whole`: of all its height. */
void heat_way_part(const struct heat_way *whole, double share, struct heat_way *part);

/* Slopes of the same sizes by what the share hangs on, `slope` being the share's own; and d heat / d that quantity, the
 * difference of temperature staying. */
void heat_way_growth(const struct heat_way *whole, double slope, struct heat_way *growth);
double heat_growth(const struct heat_way *way, const struct heat_way *growth, double difference, double wind);

#endif
