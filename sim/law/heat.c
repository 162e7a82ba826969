/* sim/law/heat.c  Heat over the surfaces of a body.
 *
 * Natural convection h_n by the way a surface stands (law/convection.c), wind h_f joined to it as
 * h = (h_n^3 + h_f^3)^(1/3) [CHURCHILL1977], radiation or the like beside both. Along a wall in a closed space conduction
 * k/path takes the place of h_f: what is nearly at rest still conducts. */
#include "law/heat.h"

#include <assert.h>
#include <math.h>

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

/* Level, `warm_below`: how much warmer what lies below is. */
static struct sloped level_coefficient(const struct surface *surface, double warm_below)
{
    return surface->path > 0.0 ? convection_layer(&surface->fluid, surface->length, surface->path, warm_below)
                               : convection_plate(&surface->fluid, surface->length, warm_below);
}

/* W/m2/K of natural convection, slope by the difference. */
static struct sloped natural(const struct surface *surface, double difference)
{
    struct sloped from_above;
    switch (surface->stance) {
    case SURFACE_STANDS:
        return convection_wall(&surface->fluid, surface->length, difference);
    case SURFACE_LIES:
        return convection_cylinder(&surface->fluid, surface->length, difference);
    case SURFACE_UNDER:
        return level_coefficient(surface, difference);
    case SURFACE_OVER:
        from_above = level_coefficient(surface, -difference);
        return (struct sloped){from_above.value, -from_above.slope};
    default:
        return (struct sloped){0.0, 0.0};
    }
}

/* (n^3 + f^3)^(1/3) */
static struct sloped joined(struct sloped still, double forced)
{
    if (!(forced > 0.0))
        return still;
    const double cubes = still.value * still.value * still.value + forced * forced * forced;
    const double both = cbrt(cubes);
    return (struct sloped){both, still.value * still.value / (both * both) * still.slope};
}

static double beside(const struct surface *surface, double wind)
{
    const bool stands = surface->stance == SURFACE_STANDS || surface->stance == SURFACE_LIES;
    return stands && surface->path > 0.0 ? surface->fluid.conductivity / surface->path
                                         : convection_forced(&surface->fluid, surface->length, wind);
}

static struct sloped surface_flow(const struct surface *surface, double difference, double wind)
{
    struct sloped h = {0.0, 0.0};
    if (surface->stance != SURFACE_FIXED)
        h = joined(natural(surface, difference), beside(surface, wind));
    h.value += surface->coefficient;
    return (struct sloped){surface->area * h.value * difference, surface->area * (h.value + h.slope * difference)};
}

struct sloped heat_flow(const struct heat_way *way, double difference, double wind)
{
    struct sloped sum = {0.0, 0.0};
    for (int k = 0; k < way->surfaces; k++) {
        const struct sloped one = surface_flow(&way->surface[k], difference, wind);
        sum.value += one.value;
        sum.slope += one.slope;
    }
    return sum;
}
