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

#endif
