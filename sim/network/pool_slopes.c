/* sim/network/pool_slopes.c  Slopes of what pool.c books.
 *
 * 1. The chain: how temperatures, pressures, volume and evaporation hang on each state of the liquid's own volume, and of
 *    the gas over it.
 * 2. Column by column the sums of pool.c once more, and from them dT_l/dt and dV_l/dt.
 * 3. The same numbers into the rows of both sides, so that what is conserved cancels. */
#include "network/pool_inside.h"

#include <assert.h>
#include <string.h>

enum { CHAIN_MOST = BLOCK_MOST + FELT_MOST };

/* d of what the exchange depends on: over the volume's own block, then over what is felt of the gas at the surface where
 * that is another volume's. */
struct pool_chain {
    int columns, over_from;                     /* where the other gas's columns begin */
    double gas[CHAIN_MOST], liquid[CHAIN_MOST]; /* temperatures */
    double wall[CHAIN_MOST], upper[CHAIN_MOST];
    double pressure[CHAIN_MOST], push[CHAIN_MOST];
    double partial[LIQUID_MOST][CHAIN_MOST], saturation[LIQUID_MOST][CHAIN_MOST];
    double evaporation[LIQUID_MOST][CHAIN_MOST];
    double energy[LIQUID_MOST][CHAIN_MOST];         /* d u_k */
    double swell[CHAIN_MOST], capacity[CHAIN_MOST]; /* d B, d C_l */
    double volume[CHAIN_MOST], drain[CHAIN_MOST];   /* d V_l, d drain */
};

/* d2 v/d T2 of a component, from its slopes a little to either side: it only turns B by a thousandth for a kelvin. */
static double volume_bend(const struct component *component, double temperature)
{
    const double aside = 0.05;
    return (component_volume(component, temperature + aside).slope -
            component_volume(component, temperature - aside).slope) /
           (2.0 * aside);
}

void pool_volume_slope(const struct network *network, int v, const struct scratch *scratch, double *slope)
{
    const struct volume *volume = &network->volume[v];
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &scratch->volume[v].liquid;
    const double swell = pool_held(network) ? 0.0 : now->swell / now->heat_capacity; /* m3/J */
    memset(slope, 0, (size_t)volume->felt * sizeof *slope);
    for (int k = 0; k < pool->liquid.count; k++)
        slope[pool->at + k] =
            component_volume(pool->liquid.component[k], now->temperature).value - swell * now->energy[k];
    slope[pool->at + pool->liquid.count] = swell;
}

void pool_temperature_slope(const struct network *network, int v, const struct scratch *scratch, double *slope)
{
    const struct volume *volume = &network->volume[v];
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &scratch->volume[v].liquid;
    const double warming = pool_held(network) ? 0.0 : 1.0 / now->heat_capacity; /* K/J */
    memset(slope, 0, (size_t)volume->felt * sizeof *slope);
    for (int k = 0; k < pool->liquid.count; k++)
        slope[pool->at + k] = -warming * now->energy[k];
    slope[pool->at + pool->liquid.count] = warming;
}

/* d of what leaves by one opening. height: d height of the surface. */
static double drain_slope(const struct pool_view *at, const struct dip_now *dip, const double *height, int c)
{
    return dip->drain_by_height * height[c] + (c == at->network->carried + 1 ? dip->drain_by_pressure : 0.0);
}

static void chain_gas(const struct pool_view *at, const struct scratch *scratch, struct pool_chain *chain)
{
    const struct network *network = at->network;
    const int over = at->pool->over, from = chain->over_from;
    const struct gradient *gradient = &scratch->gradient[over];
    chain->push[network->carried + 1] += at->own_share;
    chain->push[from + network->carried + 1] += at->over_share;
    for (int c = 0; c < network->volume[over].felt; c++) {
        chain->gas[from + c] = gradient->by[GAS_TEMPERATURE][c];
        chain->pressure[from + c] = gradient->by[GAS_PRESSURE][c];
    }
    for (int k = 0; k < at->pool->liquid.count; k++) {
        const double share = at->over->share[at->pool->vapor[k]];
        for (int c = 0; c < network->species; c++)
            chain->partial[k][from + c] =
                at->over->gas.pressure * ((c == at->pool->vapor[k]) - share) / at->over->amount;
        chain->partial[k][from + network->carried + 1] = share;
    }
}

/* Of their temperatures E/C: C goes with the level. */
static void chain_walls(const struct pool_view *at, struct pool_chain *chain)
{
    const struct pool *pool = at->pool;
    const struct sloped lower = at->now->level.lower, upper = at->now->level.upper;
    for (int c = 0; c < at->volume->felt; c++) {
        if (pool->wall > 0.0)
            chain->wall[c] = -at->now->wall_temperature * lower.slope / lower.value * chain->volume[c];
        if (at->volume->wall > 0.0)
            chain->upper[c] = -at->own->wall_temperature * upper.slope / upper.value * chain->volume[c];
    }
    if (pool->wall > 0.0)
        chain->wall[pool->at + pool->liquid.count + 1] = 1.0 / lower.value;
    if (at->volume->wall > 0.0)
        chain->upper[at->volume->wall_at] = 1.0 / upper.value;
}

static void chain_liquid(const struct pool_view *at, struct pool_chain *chain)
{
    const struct pool *pool = at->pool;
    const struct pool_now *now = at->now;
    const int count = pool->liquid.count, first = pool->at;
    double bend = 0.0, mixing[LIQUID_MOST][LIQUID_MOST];
    const bool mixes = liquid_mixing_slopes(&pool->liquid, now->amount, mixing);
    for (int k = 0; k < count; k++) {
        const struct component *component = pool->liquid.component[k];
        if (!pool_held(at->network))
            chain->liquid[first + k] = -now->energy[k] / now->heat_capacity;
        chain->capacity[first + k] = now->heat[k];
        chain->swell[first + k] = component_volume(component, now->temperature).slope;
        bend += now->amount[k] * volume_bend(component, now->temperature);
    }
    if (!pool_held(at->network))
        chain->liquid[first + count] = 1.0 / now->heat_capacity;
    for (int c = first; c <= first + count; c++) {
        chain->swell[c] += bend * chain->liquid[c];
        chain->capacity[c] += now->warming * chain->liquid[c];
    }
    for (int k = 0; k < count; k++)
        for (int c = first; c <= first + count; c++) {
            chain->energy[k][c] =
                now->heat[k] * chain->liquid[c] + (mixes && c < first + count ? mixing[k][c - first] : 0.0);
            chain->saturation[k][c] = now->saturation.by_temperature[k] * chain->liquid[c] +
                                      (c < first + count ? now->saturation.by_amount[k][c - first] : 0.0);
        }
}

static void chain_evaporation(const struct pool_view *at, const struct film *film, struct pool_chain *chain)
{
    const struct pool *pool = at->pool;
    const struct sloped area = at->now->level.area, thin = at->now->level.thin;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double by_level =
            film->value[k] * area.slope / area.value + film->by_transfer[k] * pool->transfer[k] * thin.slope;
        for (int c = 0; c < chain->columns; c++) {
            double sum = film->by_pressure[k] * chain->pressure[c] + film->by_temperature[k] * chain->liquid[c];
            for (int j = 0; j < pool->liquid.count; j++)
                sum +=
                    film->by_saturation[k][j] * chain->saturation[j][c] + film->by_partial[k][j] * chain->partial[j][c];
            chain->evaporation[k][c] = sum + by_level * chain->volume[c];
        }
    }
}

static void chain_drain(const struct pool_view *at, int v, const struct scratch *scratch, struct pool_chain *chain)
{
    const double *height = scratch->gradient[v].height;
    for (int p = 0; p < at->network->passages; p++) {
        if (at->network->passage[p].dip != v || !(scratch->dip[p].drain > 0.0))
            continue;
        for (int c = 0; c < at->volume->felt; c++)
            chain->drain[c] += drain_slope(at, &scratch->dip[p], height, c);
    }
}

static void chain_make(const struct pool_view *at, int v, const struct scratch *scratch, const struct film *film,
                       struct pool_chain *chain)
{
    const int over = at->pool->over;
    memset(chain, 0, sizeof *chain);
    chain->over_from = over == v ? 0 : at->volume->block;
    chain->columns = at->volume->block + (over == v ? 0 : at->network->volume[over].felt);
    assert(chain->columns <= CHAIN_MOST);
    memcpy(chain->volume, scratch->gradient[v].volume, (size_t)at->volume->felt * sizeof(double));
    chain_gas(at, scratch, chain);
    chain_walls(at, chain);
    chain_liquid(at, chain);
    chain_evaporation(at, film, chain);
    chain_drain(at, v, scratch, chain);
}

void pool_energy_slopes(const struct network *network, int v, const struct scratch *scratch,
                        double slope[LIQUID_MOST][FELT_MOST])
{
    const struct volume *volume = &network->volume[v];
    const struct pool_view at = {
        .network = network, .volume = volume, .pool = volume->pool, .now = &scratch->volume[v].liquid};
    struct pool_chain chain = {0};
    chain_liquid(&at, &chain);
    for (int k = 0; k < volume->pool->liquid.count; k++)
        memcpy(slope[k], chain.energy[k], sizeof slope[k]);
}

/* d of one column: sums over the components, heats, and what follows from them. */
struct pool_column {
    double enthalpy, crossing, energy; /* d of sum e h, sum v dL, sum u dL */
    double heat, warmed, outer, radiated, warming, swelling, moved;
    double lost[LIQUID_MOST], lost_energy;
};

static void column_sums(const struct pool_view *at, const struct film *film, const struct pool_chain *chain, int c,
                        struct pool_column *sum)
{
    for (int k = 0; k < at->pool->liquid.count; k++) {
        const struct thermal volume = component_volume(at->pool->liquid.component[k], at->now->temperature);
        const double e = film->value[k], slope = chain->evaporation[k][c];
        const double warmer =
            e > 0.0 ? at->now->vapor_heat[k] * chain->liquid[c] : at->over->heat[at->pool->vapor[k]] * chain->gas[c];
        sum->enthalpy += slope * pool_brought(at, film, k) + e * warmer;
        sum->crossing -= slope * volume.value + e * volume.slope * chain->liquid[c];
        sum->energy -= slope * at->now->energy[k] + e * chain->energy[k][c];
    }
}

static void column_drain(const struct pool_view *at, const struct pool_flow *flow, const struct pool_chain *chain,
                         const struct dew_slopes *dew, int c, struct pool_column *sum)
{
    const struct pool_now *now = at->now;
    sum->lost_energy =
        at->own->gas.pressure * chain->drain[c] + (c == at->network->carried + 1 ? at->drain - at->pour : 0.0);
    sum->lost_energy -= c < at->volume->block ? dew->energy[c] : 0.0;
    sum->crossing -= chain->drain[c];
    for (int k = 0; k < at->pool->liquid.count; k++) {
        const double more = c == at->pool->at + k ? at->drain : 0.0;
        const double gained = at->poured[k] + at->dew.value[k] + at->spilled[k], drained = flow->lost[k] + gained;
        const double dewed = c < at->volume->block ? dew->value[k][c] : 0.0;
        const struct thermal volume = component_volume(at->pool->liquid.component[k], now->temperature);
        const double out = at->drain > 0.0
                               ? (chain->drain[c] * now->amount[k] + more - drained * chain->volume[c]) / now->volume
                               : 0.0;
        sum->lost[k] = out - dewed;
        sum->lost_energy += out * now->energy[k] + drained * chain->energy[k][c];
        sum->energy -= sum->lost[k] * now->energy[k] + flow->lost[k] * chain->energy[k][c];
        sum->crossing += dewed * volume.value + gained * volume.slope * chain->liquid[c];
    }
}

static void column_heat(const struct pool_view *at, const struct pool_flow *flow, const struct pool_chain *chain, int c,
                        struct pool_column *sum)
{
    const struct pool_now *now = at->now;
    const struct sloped surface = pool_surface(at), radiant = pool_radiant(at);
    sum->heat = surface.value * (chain->liquid[c] - chain->gas[c]) +
                surface.slope * chain->volume[c] * (now->temperature - at->over->gas.temperature);
    sum->warmed = flow->warmed.slope * (chain->wall[c] - chain->liquid[c]) + flow->warmed_growth * chain->volume[c];
    sum->outer = flow->outer.slope * chain->wall[c] + flow->outer_growth * chain->volume[c];
    sum->radiated = radiant.value * (chain->upper[c] - chain->liquid[c]) +
                    radiant.slope * chain->volume[c] * (at->own->wall_temperature - now->temperature);
}

/* h'' = -A'/A^3 of the height by the volume, A being the surface. */
static double column_moved(const struct pool_view *at, const struct pool_flow *flow, const struct pool_chain *chain,
                           int c, double swelling)
{
    const struct pool_level *level = &at->now->level;
    const double slope = level->lower.slope, bend = -slope * level->area.slope / level->area.value;
    const double warmer = flow->swelling > 0.0 ? chain->upper[c] : chain->wall[c],
                 more = slope * swelling + bend * chain->volume[c] * flow->swelling;
    return pool_handed(at, flow) * more + slope * flow->swelling * warmer;
}

static struct pool_column column_make(const struct pool_view *at, const struct pool_flow *flow,
                                      const struct pool_chain *chain, const struct dew_slopes *dew, int c)
{
    const struct pool_now *now = at->now;
    struct pool_column sum = {0};
    column_sums(at, &flow->film, chain, c, &sum);
    column_drain(at, flow, chain, dew, c, &sum);
    if (!pool_held(at->network)) {
        column_heat(at, flow, chain, c, &sum);
        const double free = -sum.enthalpy - sum.lost_energy - sum.heat + sum.warmed + sum.radiated -
                            chain->push[c] * flow->crossing - at->push * sum.crossing;
        const double below = now->heat_capacity + at->push * now->swell;
        const double below_slope = chain->capacity[c] + chain->push[c] * now->swell + at->push * chain->swell[c];
        sum.warming = (free - sum.energy - flow->warming * below_slope) / below;
    }
    sum.swelling = sum.crossing + chain->swell[c] * flow->warming + now->swell * sum.warming;
    if (at->pool->wall > 0.0)
        sum.moved = column_moved(at, flow, chain, c, sum.swelling);
    return sum;
}

/* Where a column of the chain stands in the rows of the liquid's own volume, and in those of the gas over it. */
struct pool_spot {
    int own, over;
};

static struct pool_spot spot_of(const struct pool_view *at, const struct pool_chain *chain, int v, int c)
{
    const struct pool *pool = at->pool;
    const struct volume *over = &at->network->volume[pool->over];
    if (pool->over == v)
        return (struct pool_spot){at->volume->own + c, at->volume->own + c};
    if (c < chain->over_from)
        return (struct pool_spot){at->volume->own + c, pool->own_in_over + c};
    return (struct pool_spot){pool->over_in_own + c - chain->over_from, over->own + c - chain->over_from};
}

/* Rows of what balance_heat books. */
static void heat_rows(const struct pool_view *at, const struct pool_flow *flow, const struct pool_column *sum, int spot,
                      double passed, double *const *row, double *const *account)
{
    const struct pool *pool = at->pool;
    double *const *mine = &row[pool->at + pool->liquid.count];
    mine[0][spot] += passed + sum->warmed + sum->radiated;
    if (at->volume->wall > 0.0)
        row[at->volume->wall_at][spot] -= sum->radiated + sum->moved;
    double outside = sum->warmed, sign = flow->warmed.value;
    if (pool->wall > 0.0) {
        outside = -sum->outer;
        sign = -flow->outer.value;
        mine[1][spot] += outside - sum->warmed + sum->moved;
    }
    account[sign > 0.0 ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT][spot] += sign > 0.0 ? outside : -outside;
}

static void held_rows(const struct pool_view *at, const struct pool_flow *flow, const struct pool_chain *chain,
                      const struct pool_column *sum, int c, int spot, double passed, double *const *row,
                      double *const *account)
{
    double heat;
    pool_held_energy(at, flow, &heat);
    const double energy = sum->energy + chain->capacity[c] * flow->warming;
    const double booked = energy - passed;
    row[at->pool->at + at->pool->liquid.count][spot] += energy;
    account[heat > 0.0 ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT][spot] += heat > 0.0 ? booked : -booked;
}

/* What dew takes from gas and gives to the wall. */
static void dew_rows(const struct pool_view *at, const struct dew_slopes *dew, int c, int spot, double *const *row)
{
    for (int k = 0; k < at->pool->liquid.count; k++)
        row[at->pool->vapor[k]][spot] -= dew->value[k][c];
    row[at->network->carried][spot] -= dew->enthalpy[c];
    if (at->volume->wall > 0.0)
        row[at->volume->wall_at][spot] += dew->enthalpy[c] - dew->energy[c];
}

/* What a volume's room feels of the liquid. */
static void feel_liquid(const struct network *network, struct scratch *scratch, int v, int spot, double swelling,
                        double taken)
{
    const struct volume *volume = &network->volume[v];
    scratch->narrowing[volume->narrow_at + spot] += volume->liquid_share * swelling;
    scratch->room_slope[volume->narrow_at + spot] -= volume->liquid_share * taken;
}

/* Rows of the outside's accounts. */
static void drain_slopes(const struct pool_view *at, int v, const struct pool_chain *chain, int c,
                         const struct scratch *scratch, double *value)
{
    struct drain_slope by = {.pressure = c == at->network->carried + 1, .volume = chain->volume[c]};
    if (c >= at->volume->felt)
        return; /* what is not felt does not move the liquid */
    for (int k = 0; k < at->pool->liquid.count; k++) {
        by.amount[k] = c == at->pool->at + k;
        by.energy[k] = chain->energy[k][c];
    }
    for (int p = 0; p < at->network->passages; p++)
        if (at->network->passage[p].dip == v && scratch->dip[p].drain > 0.0) {
            by.flow = drain_slope(at, &scratch->dip[p], scratch->gradient[v].height, c);
            dip_slopes(at->network, p, &by, c, scratch, value);
        }
}

void pool_slopes(const struct network *network, int v, struct scratch *scratch, double *value)
{
    if (scratch->volume[v].liquid.asleep)
        return;
    struct dew_slopes dew;
    const struct pool_view at = pool_see(network, v, scratch, &dew);
    const struct pool *pool = at.pool;
    const struct pool_flow flow = pool_flows(&at, true);
    struct pool_chain chain;
    chain_make(&at, v, scratch, &flow.film, &chain);
    double *row[BLOCK_MOST], *account[POOL_ACCOUNTS], *over[FELT_MOST];
    for (int k = 0; k < at.volume->block; k++)
        row[k] = &value[network->pattern_start[at.volume->at + k]];
    for (int k = 0; k < POOL_ACCOUNTS; k++)
        account[k] = &value[network->pattern_start[network->stiff.states + at.volume->account + k]];
    for (int k = 0; k <= network->carried; k++)
        over[k] = &value[network->pattern_start[network->volume[pool->over].at + k]];
    for (int c = 0; c < chain.columns; c++) {
        const struct pool_column sum = column_make(&at, &flow, &chain, &dew, c);
        const struct pool_spot spot = spot_of(&at, &chain, v, c);
        for (int k = 0; k < pool->liquid.count; k++) {
            row[pool->at + k][spot.own] -= chain.evaporation[k][c] + sum.lost[k];
            const double dewed = c < at.volume->block ? dew.value[k][c] : 0.0;
            account[LIQUID_DRAINED][spot.own] += (sum.lost[k] + dewed) * pool->liquid.component[k]->gas.molar_mass;
            over[pool->vapor[k]][spot.over] += chain.evaporation[k][c];
        }
        if (c < at.volume->block)
            dew_rows(&at, &dew, c, spot.own, row);
        over[network->carried][spot.over] += sum.enthalpy + sum.heat;
        const double passed =
            -sum.enthalpy - sum.lost_energy - sum.heat - chain.push[c] * flow.swelling - at.push * sum.swelling;
        if (pool_held(network))
            held_rows(&at, &flow, &chain, &sum, c, spot.own, passed, row, account);
        else
            heat_rows(&at, &flow, &sum, spot.own, passed, row, account);
        feel_liquid(network, scratch, v, spot.own, sum.swelling, chain.volume[c]);
        if (pool->over != v)
            feel_liquid(network, scratch, pool->over, spot.over, sum.swelling, chain.volume[c]);
        if (at.drain > 0.0)
            drain_slopes(&at, v, &chain, c, scratch, value);
    }
    for (int p = 0; p < network->passages; p++)
        if (network->passage[p].pour && network->passage[p].b == v && scratch->dip[p].pour > 0.0)
            dip_pour_slope(network, p, scratch, value);
}
