/* sim/network/pool_begin.c  Liquids as they begin: what of a plan's is taken over, how much there is, the scales of its states. */
#include "network/inside.h"

#include <string.h>

#define WALL_STEP 1.0      /* K */
#define LIQUID_STEP 0.1    /* mol, and */
#define LIQUID_LEAST 20.0  /* J/K where it is dry at the start: of a place that holds */
#define LIQUID_LARGE 1e-2  /* m3 or more; of a smaller one in proportion */
#define LIQUID_WARMING 0.1 /* K: it sets the vapor pressure */
#define SKIN 1.0            /* J/K, some 0.3 g of plastic */
#define SKIN_LEAST 0.03     /* J/K in places that hold little */
#define LAST_DROP 1e-4     /* mol, some 10 mg: below it a liquid's pressures fall with what is left of it, and of a */
#define LAST_TRACE 1e-7    /* mol in places that hold little: an empty one takes a vapor up as this much liquid would */

/* The liquid in a volume: its own states stand after those that neighbours feel. */
bool pool_take(struct network *network, struct volume *into, const struct volume_plan *from)
{
    const struct pool_plan *plan = &from->liquid;
    struct pool *pool = arena_take(network->arena, sizeof *pool);
    if (!pool)
        return false;
    const struct component *component[LIQUID_MOST];
    const double ambient = weather_begins(network, WEATHER_PRESSURE);
    for (int k = 0; k < network->fuels; k++) {
        component[k] = &network->fuel[k];
        pool->vapor[k] = network->first_fuel + k;
        pool->transfer[k] = plan->transfer(component[k], plan->path, ambient);
        pool->dew_transfer[k] = plan->transfer(component[k], 0.0, ambient);
    }
    liquid_prepare(&pool->liquid, network->fuels, component);
    pool->liquid.last_drop = plan->begun < 0.0 ? LAST_DROP : LAST_TRACE;
    const bool full = network->assume.heat == HEAT_FULL;
    pool->over = from->over;
    pool->still = plan->still;
    pool->asleep = plan->asleep;
    pool->pours = -1;
    pool->begun = plan->begun;
    pool->brim = plan->brim;
    pool->skin = plan->begun < 0.0 ? SKIN : SKIN_LEAST;
    pool->surface = plan->surface;
    pool->dewed = full && from->wall > 0.0 ? plan->dewed : 0.0;
    pool->dewed_sides = full && from->wall > 0.0 ? plan->dewed_sides : 0.0;
    pool->radiant = full && from->wall > 0.0 ? plan->radiant : 0.0;
    if (full) {
        pool->film = plan->film;
        pool->wall = plan->wall;
        pool->outer = plan->outer;
    }
    pool->exhaust = plan->exhaust > 0 ? network->parameter_at[from->part] + plan->exhaust : -1;
    pool->returned = plan->returned > 0 ? network->parameter_at[from->part] + plan->returned : -1;
    pool->at = into->felt;
    into->felt += network->fuels + 1;
    into->wall_at = into->felt + (pool->wall > 0.0);
    into->pool = pool;
    return true;
}

/* All the inside of the shell that a liquid stands in. */
static double shell_inside(const struct network *network, int v)
{
    double inside = 0.0;
    for (int u = 0; u < network->volumes; u++)
        inside += network->volume[u].liquid_in == v ? network->volume[u].room : 0.0;
    return inside;
}

/* Pours the fuel in, in a tank up to its level. */
void pool_fill(const struct network *network, int v, double temperature)
{
    struct pool *pool = network->volume[v].pool;
    pool->temperature = temperature;
    const double wanted = pool->begun < 0.0 ? network->fill_level * shell_inside(network, v) : pool->begun;
    const double factor = wanted / liquid_volume(&pool->liquid, network->fuel_stock, temperature).value;
    for (int k = 0; k < network->fuels; k++)
        pool->stock[k] = factor * network->fuel_stock[k];
    pool->energy = pool_energy_at(pool, temperature);
    pool->wall_energy = pool->wall > 0.0 ? pool_level_at(network, v, wanted).lower.value * temperature : 0.0;
}

/* Vapor at `saturation` of what the liquid holds takes its part of the pressure; the other gases share the rest. Fuel that
 * would boil fills it all. */
void pool_saturates(const struct network *network, const struct pool *pool, double pressure, double saturation,
                    double *share)
{
    struct pressures vapor;
    liquid_pressures(&pool->liquid, pool->stock, pool->temperature, &vapor);
    double held = 0.0;
    for (int k = 0; k < pool->liquid.count; k++)
        held += vapor.value[k];
    const double factor = held > 0.0 ? fmin(saturation, pressure / held) : 0.0;
    for (int i = 0; i < network->species; i++)
        share[i] *= 1.0 - factor * held / pressure;
    for (int k = 0; k < pool->liquid.count; k++)
        share[pool->vapor[k]] = factor * vapor.value[k] / pressure;
}

double pool_begins(const struct pool *pool)
{
    return liquid_volume(&pool->liquid, pool->stock, pool->temperature).value;
}

/* J/K of the wall of a volume's gas. */
double wall_at_start(const struct network *network, int v)
{
    const struct volume *volume = &network->volume[v];
    if (!volume->pool || !(volume->wall > 0.0))
        return volume->wall;
    return pool_level_at(network, v, pool_begins(volume->pool)).upper.value;
}

void pool_scales(const struct network *network, int v, double *scale, double *base, bool *amount)
{
    const struct volume *volume = &network->volume[v];
    const struct pool *pool = volume->pool;
    const int count = pool->liquid.count;
    const double size = pool->begun < 0.0 ? 1.0 : fmin(pool->brim / LIQUID_LARGE, 1.0);
    for (int k = 0; k < count; k++) {
        scale[pool->at + k] = size * LIQUID_STEP;
        base[pool->at + k] = pool->stock[k];
        amount[pool->at + k] = true;
    }
    scale[pool->at + count] =
        LIQUID_WARMING * fmax(liquid_energy(&pool->liquid, pool->stock, pool->temperature).slope, size * LIQUID_LEAST);
    if (pool->wall > 0.0)
        scale[pool->at + count + 1] = pool_level_at(network, v, pool_begins(pool)).lower.value * WALL_STEP;
}
