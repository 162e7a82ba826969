/* sim/law/heat.c  Heat over the surfaces of a body.
 *
 * Natural convection h_n by the way a surface stands (law/convection.c), wind h_f joined to it as
 * h = (h_n^3 + h_f^3)^(1/3) [CHURCHILL1977], radiation or the like beside both. Along a wall in a closed space conduction
 * k/path takes the place of h_f: what is nearly at rest still conducts. */
#include "law/heat.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

struct heat_way heat_fixed(double conductance)
{
    return (struct heat_way){.surfaces = conductance > 0.0,
                             .surface = {{.stance = SURFACE_FIXED, .area = 1.0, .coefficient = conductance}}};
}

void heat_way_add(struct heat_way *way, struct surface surface)
{
    assert(way->surfaces < SURFACES_MOST);
    if (surface.area > 0.0)
        way->surface[way->surfaces++] = surface;
}

bool heat_way_open(const struct heat_way *way)
{
    for (int k = 0; k < way->surfaces; k++)
        if (way->surface[k].area > 0.0)
            return true;
    return false;
}

/* A surface along one quantity on which its sizes and the difference of temperature may hang. */
struct facing {
    const struct surface *surface;
    const struct surface *growth; /* slopes of its area, length, path; null: they stay */
    struct sloped difference;
};

static struct sloped length_of(const struct facing *at)
{
    return (struct sloped){at->surface->length, at->growth ? at->growth->length : 0.0};
}

static struct sloped path_of(const struct facing *at)
{
    return (struct sloped){at->surface->path, at->growth ? at->growth->path : 0.0};
}

/* Level, `warm_below`: how much warmer what lies below is. */
static struct sloped level_coefficient(const struct facing *at, struct sloped warm_below)
{
    const struct surface *surface = at->surface;
    return surface->path > 0.0 ? convection_layer_along(&surface->fluid, surface->length, path_of(at), warm_below)
                               : convection_plate_along(&surface->fluid, surface->length, warm_below);
}

/* W/m2/K of natural convection. */
static struct sloped natural(const struct facing *at)
{
    const struct surface *surface = at->surface;
    switch (surface->stance) {
    case SURFACE_STANDS:
        return convection_wall_along(&surface->fluid, length_of(at), at->difference);
    case SURFACE_LIES:
        return convection_cylinder_along(&surface->fluid, surface->length, at->difference);
    case SURFACE_UNDER:
        return level_coefficient(at, at->difference);
    case SURFACE_OVER:
        return level_coefficient(at, (struct sloped){-at->difference.value, -at->difference.slope});
    default:
        return (struct sloped){0.0, 0.0};
    }
}

/* (n^3 + f^3)^(1/3) */
static struct sloped joined(struct sloped still, struct sloped forced)
{
    if (!(forced.value > 0.0))
        return still;
    const double cubes = still.value * still.value * still.value + forced.value * forced.value * forced.value;
    const double both = cbrt(cubes);
    return (struct sloped){
        both, (still.value * still.value * still.slope + forced.value * forced.value * forced.slope) / (both * both)};
}

static struct sloped beside(const struct facing *at, double wind)
{
    const struct surface *surface = at->surface;
    const bool stands = surface->stance == SURFACE_STANDS || surface->stance == SURFACE_LIES;
    if (!(stands && surface->path > 0.0))
        return convection_forced_along(&surface->fluid, length_of(at), wind);
    const struct sloped path = path_of(at);
    const double conducts = surface->fluid.conductivity / path.value;
    return (struct sloped){conducts, -conducts * path.slope / path.value};
}

static struct sloped surface_flow(const struct facing *at, double wind)
{
    const struct surface *surface = at->surface;
    const struct sloped difference = at->difference;
    const double area_slope = at->growth ? at->growth->area : 0.0;
    struct sloped h = {0.0, 0.0};
    if (surface->stance != SURFACE_FIXED)
        h = joined(natural(at), beside(at, wind));
    h.value += surface->coefficient;
    return (struct sloped){surface->area * h.value * difference.value,
                           surface->area * (h.value * difference.slope + h.slope * difference.value) +
                               area_slope * h.value * difference.value};
}

struct sloped heat_flow(const struct heat_way *way, double difference, double wind)
{
    struct sloped sum = {0.0, 0.0};
    for (int k = 0; k < way->surfaces; k++) {
        const struct facing at = {&way->surface[k], NULL, {difference, 1.0}};
        const struct sloped one = surface_flow(&at, wind);
        sum.value += one.value;
        sum.slope += one.slope;
    }
    return sum;
}

double heat_growth(const struct heat_way *way, const struct heat_way *growth, double difference, double wind)
{
    double sum = 0.0;
    for (int k = 0; k < way->surfaces; k++) {
        const struct facing at = {&way->surface[k], &growth->surface[k], {difference, 0.0}};
        sum += surface_flow(&at, wind).slope;
    }
    return sum;
}

/* `size` times the share, where it goes with it. */
static double parted(double size, double share, bool follows)
{
    return follows ? share * size : size;
}

static bool lies_level(const struct surface *surface)
{
    return surface->stance == SURFACE_UNDER || surface->stance == SURFACE_OVER;
}

void heat_way_part(const struct heat_way *whole, double share, struct heat_way *part)
{
    part->surfaces = whole->surfaces;
    for (int k = 0; k < whole->surfaces; k++) {
        const struct surface *from = &whole->surface[k];
        part->surface[k] = *from;
        part->surface[k].area = parted(from->area, share, from->side);
        part->surface[k].length = parted(from->length, share, from->side);
        part->surface[k].path = parted(from->path, share, lies_level(from));
    }
}

void heat_way_growth(const struct heat_way *whole, double slope, struct heat_way *growth)
{
    heat_way_part(whole, slope, growth);
    for (int k = 0; k < whole->surfaces; k++) {
        struct surface *to = &growth->surface[k];
        if (!to->side)
            to->area = to->length = 0.0;
        if (!lies_level(to))
            to->path = 0.0;
    }
}
