/* sim/network/pool.c  The liquid in a tank and the gas above it.
 *
 * With e_k the evaporation (law/film.h), h_k the enthalpy of its vapor at the temperature it comes from (the liquid's out
 * of it, the gas's into it), u_k and v_k energy and volume that a mol of the component has in the liquid (u_k with its heat of
 * mixing, property/liquid.h), q_s the heat from liquid to gas, q_w from wall to liquid, q_r radiated from the upper wall,
 *   dL_k/dt = -e_k,   gas: dN_k/dt = +e_k, dE/dt = +sum e_k h_k + q_s
 *   dE_l/dt = -sum e_k h_k - q_s + q_w + q_r + q_returned - p dV_l/dt,
 * and to both what dew (dew.c), drains and what is filled in (dip.c) bring and take,
 * where p dV_l/dt is what the liquid does to the gas when it swells; the gas's own book holds it as well (rates.c), so
 * that the ledger is exact. Where several gases yield room, p is their mean by the shares they yield. With
 *   V_l = sum L_k v_k(T_l),  B = sum L_k v_k'(T_l),  C_l = sum L_k c_k + c_0,  X = dE_l/dt without p B dT_l/dt:
 *   dT_l/dt = (X - sum u_k dL_k/dt) / (C_l + p B),   dV_l/dt = sum v_k dL_k/dt + B dT_l/dt.
 * c_0 is a skin of wall that is always with the liquid: it keeps a temperature when the tank runs dry.
 * Isothermal: T_l is the surroundings' own, dT_l/dt theirs, and what that takes is heat from outside.
 * What the level parts, walls and all, follows it: level.c. A ring of wall that changes hands takes its heat along,
 * C_s ds/dt of the temperature it had. */
#include "network/pool.h"

#include "network/dew.h"

#include <assert.h>
#include <string.h>

static bool held(const struct network *network)
{
    return network->assume.heat == HEAT_ISOTHERMAL;
}

double pool_energy_at(const struct pool *pool, double temperature)
{
    return liquid_energy(&pool->liquid, pool->stock, temperature).value +
           liquid_mixing_heat(&pool->liquid, pool->stock, NULL) + pool->skin * temperature;
}

int pool_state(const struct network *network, int v, double air_temperature, const double *own, struct pool_now *now)
{
    const struct pool *pool = network->volume[v].pool;
    const double *mine = &own[pool->at];
    const int count = pool->liquid.count;
    double free = pool->energy + mine[count]; /* without what mixing took */
    now->heat_capacity = pool->skin;
    now->volume = now->swell = now->warming = 0.0;
    for (int k = 0; k < count; k++)
        now->amount[k] = pool->stock[k] + mine[k];
    free -= liquid_mixing_heat(&pool->liquid, now->amount, now->energy);
    now->temperature = held(network) ? air_temperature : liquid_temperature(&pool->liquid, now->amount, pool->skin, free);
    if (!(now->temperature > 100.0 && now->temperature < 800.0))
        return 1;
    const struct warmth warmth = gas_warmth(now->temperature);
    for (int k = 0; k < count; k++) {
        const struct species *vapor = &pool->liquid.component[k]->gas;
        const struct thermal heat = component_heat_capacity(pool->liquid.component[k], now->temperature);
        now->heat[k] = heat.value;
        now->heat_capacity += now->amount[k] * heat.value;
        now->warming += now->amount[k] * heat.slope;
        now->vapor_enthalpy[k] = species_enthalpy(vapor, now->temperature, &warmth);
        now->vapor_heat[k] = species_heat_capacity(vapor, &warmth);
        const struct thermal volume_of = component_volume(pool->liquid.component[k], now->temperature);
        now->volume += now->amount[k] * volume_of.value;
        now->swell += now->amount[k] * volume_of.slope;
        now->energy[k] += component_energy(pool->liquid.component[k], now->temperature).value;
    }
    if (!(now->heat_capacity > 0.0))
        return 1;
    now->level = pool_level_at(network, v, now->volume);
    now->wall_temperature =
        pool->wall > 0.0 ? (pool->wall_energy + mine[count + 1]) / now->level.lower.value : now->temperature;
    liquid_pressures(&pool->liquid, now->amount, now->temperature, &now->saturation);
    return 0;
}

/* ---- flows ---- */

/* What stands round a pool. */
struct pool_view {
    const struct network *network;
    const struct volume *volume;
    const struct pool *pool;
    const struct pool_now *now;
    const struct place_gas *own, *over;
    const struct surroundings_now *air;
    double own_share, over_share;                /* of its volume, yielded by either gas */
    double drain;                                /* m3/s that leave by openings: dip.c */
    double pour;                                 /* m3/s that are filled in, */
    struct dew dew;                              /* that runs down into it */
    double poured[LIQUID_MOST], poured_energy;   /* mol/s and W of it */
    double spilled[LIQUID_MOST], spilled_energy; /* mol/s and W that run in from other volumes */
    double push;                                 /* Pa: mean of both */
};

static void add_pour(const struct network *network, const struct dip_now *dip, struct pool_view *view)
{
    double amount[LIQUID_MOST];
    view->pour += dip->pour;
    view->poured_energy += dip_poured(network, view->pool, dip, amount);
    for (int k = 0; k < view->pool->liquid.count; k++)
        view->poured[k] += amount[k];
}

/* What runs in from elsewhere or out to there: given, as what is filled in. */
static void add_spill(const struct network *network, int p, const struct scratch *scratch, double sign,
                      struct pool_view *view)
{
    double amount[LIQUID_MOST];
    view->spilled_energy += sign * spill_carries(network, p, scratch, amount);
    for (int k = 0; k < view->pool->liquid.count; k++)
        view->spilled[k] += sign * amount[k];
}

static struct pool_view pool_view(const struct network *network, int v, const struct scratch *scratch,
                                  struct dew_slopes *slopes)
{
    const struct volume *volume = &network->volume[v];
    const int over = volume->pool->over;
    struct pool_view view = {.network = network,
                             .volume = volume,
                             .pool = volume->pool,
                             .now = &scratch->volume[v].liquid,
                             .own = &scratch->volume[v],
                             .over = &scratch->volume[over],
                             .air = &scratch->air,
                             .own_share = volume->liquid_share,
                             .over_share = over == v ? 0.0 : network->volume[over].liquid_share};
    for (int p = 0; p < network->passages; p++) {
        view.drain += network->passage[p].dip == v ? scratch->dip[p].drain : 0.0;
        if (network->passage[p].pour && network->passage[p].b == v && scratch->dip[p].pour > 0.0)
            add_pour(network, &scratch->dip[p], &view);
        if (scratch->dip[p].spill.flow > 0.0 && (network->passage[p].source == v || network->passage[p].sink == v))
            add_spill(network, p, scratch, network->passage[p].sink == v ? 1.0 : -1.0, &view);
    }
    dew_make(network, v, scratch, &view.dew, slopes);
    view.push = view.own_share * view.own->gas.pressure + view.over_share * view.over->gas.pressure;
    return view;
}

/* What passes between liquid, gas and walls. */
struct pool_flow {
    struct film film;                      /* mol/s out of the liquid; slopes where asked for */
    double enthalpy;                       /* W that goes along */
    double heat;                           /* W from liquid to gas through the surface */
    struct sloped warmed;                  /* W into the liquid from lower wall or air, slope by their difference */
    struct sloped outer;                   /* W from the lower wall to the air, as warmed */
    double warmed_growth, outer_growth;    /* d of both by the liquid's volume; where slopes are asked for */
    double radiated;                       /* W into it from the upper wall */
    double moved;                          /* W that go with wall from the gas to the liquid */
    double lost[LIQUID_MOST], lost_energy; /* mol/s, W that leave by openings */
    double crossing;                       /* m3/s: sum v_k dL_k */
    double warming;                        /* K/s of the liquid */
    double swelling;                       /* m3/s of its volume */
};

/* Enthalpy that a mol of component k brings along. */
static double brought(const struct pool_view *at, const struct film *film, int k)
{
    return film->value[k] > 0.0 ? at->now->vapor_enthalpy[k] : at->over->enthalpy[at->pool->vapor[k]];
}

static struct film evaporation(const struct pool_view *at, bool slopes)
{
    const struct pool *pool = at->pool;
    const int count = pool->liquid.count;
    double partial[LIQUID_MOST], transfer[LIQUID_MOST];
    for (int k = 0; k < count; k++) {
        partial[k] = at->over->share[pool->vapor[k]] * at->over->gas.pressure;
        transfer[k] = pool->transfer[k] * at->now->level.thin.value;
    }
    const struct film_side side = {.count = count,
                                   .area = at->now->level.area.value,
                                   .pressure = at->over->gas.pressure,
                                   .temperature = at->now->temperature,
                                   .saturation = at->now->saturation.value,
                                   .partial = partial,
                                   .transfer = transfer,
                                   .boiling = FILM_BOILING};
    if (slopes)
        return film_evaporation(&side);
    struct film film;
    film_values(&side, film.value);
    return film;
}

/* W/K between liquid and gas, between liquid and upper wall; slopes by its volume. */
static struct sloped surface_of(const struct pool_view *at)
{
    const struct sloped area = at->now->level.area, thin = at->now->level.thin;
    return (struct sloped){at->pool->surface * area.value * thin.value,
                           at->pool->surface * (area.slope * thin.value + area.value * thin.slope)};
}

static struct sloped radiant_of(const struct pool_view *at)
{
    const struct sloped area = at->now->level.area;
    return (struct sloped){at->pool->radiant * area.value, at->pool->radiant * area.slope};
}

/* Through the walls that stand in the liquid as they do now. */
static void flow_heat(const struct pool_view *at, bool slopes, struct pool_flow *flow)
{
    const struct pool *pool = at->pool;
    const struct pool_now *now = at->now;
    const double warmer = pool->wall > 0.0 ? now->wall_temperature : at->air->temperature;
    const double lost = now->wall_temperature - at->air->temperature;
    const struct sloped wet = now->level.wet;
    struct heat_way way, growth;
    flow->heat = surface_of(at).value * (now->temperature - at->over->gas.temperature);
    flow->radiated = radiant_of(at).value * (at->own->wall_temperature - now->temperature);
    heat_way_part(&pool->film, wet.value, &way);
    flow->warmed = heat_flow(&way, warmer - now->temperature, 0.0);
    if (slopes) {
        heat_way_growth(&pool->film, wet.slope, &growth);
        flow->warmed_growth = heat_growth(&way, &growth, warmer - now->temperature, 0.0);
    }
    if (!(pool->wall > 0.0))
        return;
    heat_way_part(&pool->outer, wet.value, &way);
    flow->outer = heat_flow(&way, lost, at->air->wind);
    if (slopes) {
        heat_way_growth(&pool->outer, wet.slope, &growth);
        flow->outer_growth = heat_growth(&way, &growth, lost, at->air->wind);
    }
}

/* K of the wall that changes hands. */
static double handed(const struct pool_view *at, const struct pool_flow *flow)
{
    return flow->swelling > 0.0 ? at->own->wall_temperature : at->now->wall_temperature;
}

static struct pool_flow pool_flows(const struct pool_view *at, bool slopes)
{
    const struct pool *pool = at->pool;
    const struct pool_now *now = at->now;
    struct pool_flow flow = {.film = evaporation(at, slopes)};
    double energy = 0.0; /* sum u_k dL_k */
    for (int k = 0; k < pool->liquid.count; k++) {
        const double e = flow.film.value[k];
        flow.enthalpy += e * brought(at, &flow.film, k);
        flow.crossing -= e * component_volume(pool->liquid.component[k], now->temperature).value;
        energy -= e * now->energy[k];
    }
    flow.lost_energy =
        at->own->gas.pressure * (at->drain - at->pour) - at->poured_energy - at->dew.energy - at->spilled_energy;
    flow.crossing -= at->drain;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double drained = at->drain > 0.0 ? at->drain * now->amount[k] / now->volume : 0.0;
        const double gained = at->poured[k] + at->dew.value[k] + at->spilled[k];
        flow.lost[k] = drained - gained;
        flow.lost_energy += drained * now->energy[k];
        energy -= flow.lost[k] * now->energy[k];
        flow.crossing += gained * component_volume(pool->liquid.component[k], now->temperature).value;
    }
    if (!held(at->network))
        flow_heat(at, slopes, &flow);
    const double free = -flow.enthalpy - flow.lost_energy - flow.heat + flow.warmed.value + flow.radiated +
                        now->returned - at->push * flow.crossing;
    flow.warming =
        held(at->network) ? at->air->temperature_rate : (free - energy) / (now->heat_capacity + at->push * now->swell);
    flow.swelling = flow.crossing + now->swell * flow.warming;
    if (pool->wall > 0.0)
        flow.moved = now->level.lower.slope * flow.swelling * handed(at, &flow);
    return flow;
}

/* ---- balances ---- */

static void book_heat(double *accounts, double heat)
{
    accounts[heat > 0.0 ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT] += fabs(heat);
}

/* dE_l/dt where its temperature is held, and what that takes [W]. */
static double held_energy(const struct pool_view *at, const struct pool_flow *flow, double *heat)
{
    double energy = at->now->heat_capacity * flow->warming;
    for (int k = 0; k < at->pool->liquid.count; k++)
        energy -= (flow->film.value[k] + flow->lost[k]) * at->now->energy[k];
    *heat = energy + flow->enthalpy + flow->lost_energy + flow->heat + at->push * flow->swelling;
    return energy;
}

static void balance_heat(const struct pool_view *at, const struct pool_flow *flow, double *own, double *accounts)
{
    const struct pool *pool = at->pool;
    const int count = pool->liquid.count;
    double *mine = &own[pool->at];
    mine[count] = -flow->enthalpy - flow->lost_energy - flow->heat - at->push * flow->swelling + flow->warmed.value +
                  flow->radiated + at->now->returned;
    book_heat(accounts, at->now->returned);
    book_heat(accounts, at->now->exhaust);
    if (at->volume->wall > 0.0)
        own[at->volume->wall_at] += at->dew.enthalpy - at->dew.energy - flow->radiated - flow->moved;
    if (pool->wall > 0.0) {
        mine[count + 1] = at->now->exhaust - flow->outer.value - flow->warmed.value + flow->moved;
        book_heat(accounts, -flow->outer.value);
    } else {
        mine[count] += at->now->exhaust;
        book_heat(accounts, flow->warmed.value);
    }
}

void pool_balance(const struct network *network, int v, struct scratch *scratch, double *dydt)
{
    const struct pool_view at = pool_view(network, v, scratch, NULL);
    const struct pool *pool = at.pool;
    const struct pool_flow flow = pool_flows(&at, false);
    double *own = &dydt[at.volume->at], *gas = &dydt[network->volume[pool->over].at];
    double *accounts = &dydt[network->stiff.states + at.volume->account];
    for (int k = 0; k < pool->liquid.count; k++) {
        own[pool->at + k] -= flow.film.value[k] + flow.lost[k];
        accounts[LIQUID_DRAINED] +=
            (flow.lost[k] + at.dew.value[k] + at.spilled[k]) * pool->liquid.component[k]->gas.molar_mass;
        gas[pool->vapor[k]] += flow.film.value[k];
        own[pool->vapor[k]] -= at.dew.value[k];
    }
    gas[network->carried] += flow.enthalpy + flow.heat;
    own[network->carried] -= at.dew.enthalpy;
    if (held(network)) {
        double heat;
        own[pool->at + pool->liquid.count] = held_energy(&at, &flow, &heat);
        book_heat(accounts, heat);
    } else {
        balance_heat(&at, &flow, own, accounts);
    }
    scratch->volume[v].liquid.swelling = flow.swelling;
}

/* ---- slopes ---- */

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
    const double swell = held(network) ? 0.0 : now->swell / now->heat_capacity; /* m3/J */
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
    const double warming = held(network) ? 0.0 : 1.0 / now->heat_capacity; /* K/J */
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
        if (!held(at->network))
            chain->liquid[first + k] = -now->energy[k] / now->heat_capacity;
        chain->capacity[first + k] = now->heat[k];
        chain->swell[first + k] = component_volume(component, now->temperature).slope;
        bend += now->amount[k] * volume_bend(component, now->temperature);
    }
    if (!held(at->network))
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
        sum->enthalpy += slope * brought(at, film, k) + e * warmer;
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
    const struct sloped surface = surface_of(at), radiant = radiant_of(at);
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
    const double warmer = flow->swelling > 0.0 ? chain->upper[c] : chain->wall[c];
    return handed(at, flow) * (slope * swelling + bend * chain->volume[c] * flow->swelling) +
           slope * flow->swelling * warmer;
}

static struct pool_column column_make(const struct pool_view *at, const struct pool_flow *flow,
                                      const struct pool_chain *chain, const struct dew_slopes *dew, int c)
{
    const struct pool_now *now = at->now;
    struct pool_column sum = {0};
    column_sums(at, &flow->film, chain, c, &sum);
    column_drain(at, flow, chain, dew, c, &sum);
    if (!held(at->network)) {
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
    held_energy(at, flow, &heat);
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
    struct dew_slopes dew;
    const struct pool_view at = pool_view(network, v, scratch, &dew);
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
        if (held(network))
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
