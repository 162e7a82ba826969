/* sim/network/dew.c  Dew on the wall of a tank's gas.
 *
 * A wall is wet where the gas holds more vapor than the liquid would at the wall's temperature: with p*_k(T_w) the
 * pressures of the tank's liquid as if it were as cold as the wall, and z = sum p_k - sum p*_k,
 *   c_k = -G(z) W N_k,   G = 0 below z = 0, t^2 (3 - 2 t) up to 1 at z = 200 Pa,
 * N_k being the film's exchange (law/film.c) with a surface at p*. So it condenses in the make-up in which film and liquid
 * would be at rest, in the first 200 Pa less than that. What condenses runs down at once, as cold as the wall: the liquid
 * gets u_k(T_w) a mol, the gas loses h_k(T_gas), the wall keeps the rest. W fades out as the liquid dries up, which then
 * says nothing of the dew. A wall that was dewed does not dry: there is nothing on it. */
#include "network/dew.h"

#include <string.h>

#define WETS 200.0 /* Pa */
#define TRACE 1e-2 /* mol of liquid that make half of W */

/* G and its slope. */
static struct sloped wetted(double excess)
{
    const double t = fmin(fmax(excess / WETS, 0.0), 1.0);
    return (struct sloped){t * t * (3.0 - 2.0 * t), 6.0 * t * (1.0 - t) / WETS};
}

struct dewing {
    const struct volume *volume;
    const struct pool *pool;
    const struct place_gas *gas;
    const struct pool_now *now;
    double wall; /* K */
    struct pressures held;
    struct sloped wet, left; /* G by the excess, W by the amount */
    struct film film;
    double mixing[LIQUID_MOST];      /* J/mol */
    struct thermal own[LIQUID_MOST]; /* J/mol that a component has in the dew, but for mixing */
    struct warmth warmth;            /* of the wall */
};

static double sum_of(const double *pressure, const struct pool *pool)
{
    double sum = 0.0;
    for (int k = 0; k < pool->liquid.count; k++)
        sum += pressure[k];
    return sum;
}

/* m2, by the liquid's volume. */
static struct sloped dewed_area(const struct pool *pool, const struct pool_now *now)
{
    return (struct sloped){pool->dewed + pool->dewed_sides * now->level.dry.value,
                           pool->dewed_sides * now->level.dry.slope};
}

static bool dewing_make(const struct network *network, int v, const struct scratch *scratch, bool slopes,
                        struct dewing *at)
{
    const struct volume *volume = &network->volume[v];
    const struct pool *pool = volume->pool;
    const struct place_gas *gas = &scratch->volume[v];
    double partial[LIQUID_MOST], excess = 0.0, amount = 0.0;
    if (!(pool->dewed > 0.0))
        return false;
    *at = (struct dewing){volume, pool, gas, &gas->liquid, gas->wall_temperature, .film = {.value = {0.0}}};
    for (int k = 0; k < pool->liquid.count; k++) {
        partial[k] = gas->share[pool->vapor[k]] * gas->gas.pressure;
        excess += partial[k];
        amount += at->now->amount[k];
    }
    /* over a wall as warm as the liquid it takes more than the liquid itself holds */
    if (!(amount > 0.0) || (at->wall >= at->now->temperature && excess <= sum_of(at->now->saturation.value, pool)))
        return false;
    if (slopes)
        liquid_pressures(&pool->liquid, at->now->amount, at->wall, &at->held);
    else
        liquid_pressure_values(&pool->liquid, at->now->amount, at->wall, at->held.value);
    excess -= sum_of(at->held.value, pool);
    at->wet = wetted(excess);
    if (!(at->wet.value > 0.0))
        return false;
    at->left = film_wetness(amount, TRACE);
    const struct film_side side = {.count = pool->liquid.count,
                                   .area = dewed_area(pool, at->now).value,
                                   .pressure = gas->gas.pressure,
                                   .temperature = at->wall,
                                   .saturation = at->held.value,
                                   .partial = partial,
                                   .transfer = pool->dew_transfer};
    if (slopes)
        at->film = film_evaporation(&side);
    else
        film_values(&side, at->film.value);
    liquid_mixing_heat(&pool->liquid, at->now->amount, at->mixing);
    at->warmth = gas_warmth(at->wall);
    for (int k = 0; k < pool->liquid.count; k++)
        at->own[k] = component_energy(pool->liquid.component[k], at->wall);
    return true;
}

/* J/mol that a component has in the dew. */
static double dew_energy(const struct dewing *at, int k)
{
    return at->own[k].value + at->mixing[k];
}

/* J/mol of what the gas loses or gets, and its slope by the temperature it comes from. */
static struct thermal source(const struct dewing *at, int k, double value)
{
    const int vapor = at->pool->vapor[k];
    const struct species *of = &at->pool->liquid.component[k]->gas;
    if (value > 0.0)
        return (struct thermal){at->gas->enthalpy[vapor], at->gas->heat[vapor]};
    return (struct thermal){species_enthalpy(of, at->wall, &at->warmth), species_heat_capacity(of, &at->warmth)};
}

static void values(const struct dewing *at, struct dew *dew)
{
    for (int k = 0; k < at->pool->liquid.count; k++) {
        dew->value[k] = -at->wet.value * at->left.value * at->film.value[k];
        dew->energy += dew->value[k] * dew_energy(at, k);
        dew->enthalpy += dew->value[k] * source(at, k, dew->value[k]).value;
    }
}

/* d of partial and held pressures to own state c. */
struct dew_column {
    double partial[LIQUID_MOST], held[LIQUID_MOST], pressure, gas, wall, amount, area; /* area: d ln of it */
};

static struct dew_column column_make(const struct network *network, const struct dewing *at,
                                     const struct gradient *gradient, int c)
{
    const struct pool *pool = at->pool;
    const int count = pool->liquid.count, j = c - pool->at;
    const bool liquid = j >= 0 && j < count;
    struct dew_column by = {.pressure = c == network->carried + 1,
                            .gas = c < at->volume->felt ? gradient->by[GAS_TEMPERATURE][c] : 0.0,
                            .wall = c == at->volume->wall_at ? 1.0 / at->now->level.upper.value : 0.0,
                            .amount = liquid};
    if (c < at->volume->felt) {
        const struct sloped upper = at->now->level.upper, area = dewed_area(pool, at->now);
        by.wall = -at->wall * upper.slope / upper.value * gradient->volume[c];
        by.area = area.slope / area.value * gradient->volume[c];
    }
    for (int k = 0; k < count; k++) {
        const double share = at->gas->share[pool->vapor[k]];
        if (c < network->species)
            by.partial[k] = at->gas->gas.pressure * ((c == pool->vapor[k]) - share) / at->gas->amount;
        by.partial[k] += by.pressure * share;
        by.held[k] = at->held.by_temperature[k] * by.wall + (liquid ? at->held.by_amount[k][j] : 0.0);
    }
    return by;
}

static void column_write(const struct dewing *at, const struct dew *dew, const struct dew_column *by, int c,
                         double mixing[][LIQUID_MOST], struct dew_slopes *slopes)
{
    const struct pool *pool = at->pool;
    const int count = pool->liquid.count, j = c - pool->at;
    double excess = 0.0;
    for (int k = 0; k < count; k++)
        excess += by->partial[k] - by->held[k];
    const double factor = at->wet.value * at->left.value;
    const double factor_slope = at->wet.slope * excess * at->left.value + at->wet.value * at->left.slope * by->amount;
    for (int k = 0; k < count; k++) {
        double film = at->film.by_pressure[k] * by->pressure + at->film.by_temperature[k] * by->wall +
                      at->film.value[k] * by->area;
        for (int i = 0; i < count; i++)
            film += at->film.by_saturation[k][i] * by->held[i] + at->film.by_partial[k][i] * by->partial[i];
        const double slope = -factor * film - factor_slope * at->film.value[k];
        const double energy = at->own[k].slope * by->wall + (mixing && by->amount > 0.0 ? mixing[k][j] : 0.0);
        const struct thermal from = source(at, k, dew->value[k]);
        const double warmer = dew->value[k] > 0.0 ? by->gas : by->wall;
        slopes->value[k][c] = slope;
        slopes->energy[c] += slope * dew_energy(at, k) + dew->value[k] * energy;
        slopes->enthalpy[c] += slope * from.value + dew->value[k] * from.slope * warmer;
    }
}

void dew_make(const struct network *network, int v, const struct scratch *scratch, struct dew *dew,
              struct dew_slopes *slopes)
{
    struct dewing at;
    memset(dew, 0, sizeof *dew);
    if (slopes)
        memset(slopes, 0, sizeof *slopes);
    if (!dewing_make(network, v, scratch, slopes != NULL, &at))
        return;
    values(&at, dew);
    if (!slopes)
        return;
    double mixing[LIQUID_MOST][LIQUID_MOST];
    const bool mixes = liquid_mixing_slopes(&at.pool->liquid, at.now->amount, mixing);
    for (int c = 0; c < at.volume->block; c++) {
        const struct dew_column by = column_make(network, &at, &scratch->gradient[v], c);
        column_write(&at, dew, &by, c, mixes ? mixing : NULL, slopes);
    }
}
