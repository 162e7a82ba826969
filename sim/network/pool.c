/* sim/network/pool.c  The liquid in a tank and the gas above it.
 *
 * With e_k the evaporation (law/film.h), h_k the enthalpy of its vapor at the temperature it comes from (the liquid's out
 * of it, the gas's into it), u_k and v_k energy and volume that a mol of the component has in the liquid (u_k with its heat of
 * mixing, property/liquid.h), q_s the heat from liquid to gas, q_w from wall to liquid, q_r radiated from the upper wall,
 *   dL_k/dt = -e_k,   gas: dN_k/dt = +e_k, dE/dt = +sum e_k h_k + q_s
 *   dE_l/dt = -sum e_k h_k - q_s + q_w + q_r + q_returned - p dV_l/dt,
 * and to both what dew (dew.c), drains and what is filled in (dip.c) or poured by faults (pouring.c) bring and take,
 * where p dV_l/dt is what the liquid does to the gas when it swells; the gas's own book holds it as well (rates.c), so
 * that the ledger is exact. Where several gases yield room, p is their mean by the shares they yield. With
 *   V_l = sum L_k v_k(T_l),  B = sum L_k v_k'(T_l),  C_l = sum L_k c_k + c_0,  X = dE_l/dt without p B dT_l/dt:
 *   dT_l/dt = (X - sum u_k dL_k/dt) / (C_l + p B),   dV_l/dt = sum v_k dL_k/dt + B dT_l/dt.
 * c_0 is a skin of wall that is always with the liquid: it keeps a temperature when the tank runs dry.
 * Isothermal: T_l is the surroundings' own, dT_l/dt theirs, and what that takes is heat from outside.
 * What the level parts, walls and all, follows it: level.c. A ring of wall that changes hands takes its heat along,
 * C_s ds/dt of the temperature it had. */
#include "network/pool_inside.h"

#include <string.h>

bool pool_held(const struct network *network)
{
    return network->assume.heat == HEAT_ISOTHERMAL;
}

double pool_energy_at(const struct pool *pool, double temperature)
{
    return liquid_energy(&pool->liquid, pool->stock, temperature).value +
           liquid_mixing_heat(&pool->liquid, pool->stock, NULL) + pool->skin * temperature;
}

/* There is none: its place alone. */
static void pool_sleeps(const struct network *network, int v, double temperature, struct pool_now *now)
{
    now->temperature = now->wall_temperature = temperature;
    now->volume = 0.0;
    now->level = pool_level_at(network, v, 0.0);
    for (int k = 0; k < network->fuels; k++)
        now->amount[k] = now->saturation.value[k] = 0.0;
}

int pool_state(const struct network *network, int v, double air_temperature, const double *own, struct pool_now *now)
{
    const struct pool *pool = network->volume[v].pool;
    const double *mine = &own[pool->at];
    const int count = pool->liquid.count;
    double free = pool->energy + mine[count]; /* without what mixing took */
    if (now->asleep) {
        pool_sleeps(network, v, air_temperature, now);
        return 0;
    }
    now->heat_capacity = pool->skin;
    now->volume = now->swell = now->warming = 0.0;
    for (int k = 0; k < count; k++)
        now->amount[k] = pool->stock[k] + mine[k];
    free -= liquid_mixing_heat(&pool->liquid, now->amount, now->energy);
    now->temperature =
        pool_held(network) ? air_temperature : liquid_temperature(&pool->liquid, now->amount, pool->skin, free);
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

struct pool_view pool_see(const struct network *network, int v, const struct scratch *scratch,
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
    view.pour = view.now->poured.volume;
    view.poured_energy = view.now->poured.energy;
    memcpy(view.poured, view.now->poured.amount, sizeof view.poured);
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

/* Enthalpy that a mol of component k brings along. */
double pool_brought(const struct pool_view *at, const struct film *film, int k)
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
                                   .area = at->now->shut ? 0.0 : at->now->level.area.value,
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
struct sloped pool_surface(const struct pool_view *at)
{
    const struct sloped area = at->now->level.area, thin = at->now->level.thin;
    return (struct sloped){at->pool->surface * area.value * thin.value,
                           at->pool->surface * (area.slope * thin.value + area.value * thin.slope)};
}

struct sloped pool_radiant(const struct pool_view *at)
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
    flow->heat = pool_surface(at).value * (now->temperature - at->over->gas.temperature);
    flow->radiated = pool_radiant(at).value * (at->own->wall_temperature - now->temperature);
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
double pool_handed(const struct pool_view *at, const struct pool_flow *flow)
{
    return flow->swelling > 0.0 ? at->own->wall_temperature : at->now->wall_temperature;
}

struct pool_flow pool_flows(const struct pool_view *at, bool slopes)
{
    const struct pool *pool = at->pool;
    const struct pool_now *now = at->now;
    struct pool_flow flow = {.film = evaporation(at, slopes)};
    double energy = 0.0; /* sum u_k dL_k */
    for (int k = 0; k < pool->liquid.count; k++) {
        const double e = flow.film.value[k];
        flow.enthalpy += e * pool_brought(at, &flow.film, k);
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
    if (!pool_held(at->network))
        flow_heat(at, slopes, &flow);
    const double free = -flow.enthalpy - flow.lost_energy - flow.heat + flow.warmed.value + flow.radiated +
                        now->returned - at->push * flow.crossing;
    flow.warming = pool_held(at->network) ? at->air->temperature_rate
                                          : (free - energy) / (now->heat_capacity + at->push * now->swell);
    flow.swelling = flow.crossing + now->swell * flow.warming;
    if (pool->wall > 0.0)
        flow.moved = now->level.lower.slope * flow.swelling * pool_handed(at, &flow);
    return flow;
}

/* ---- balances ---- */

static void book_heat(double *accounts, double heat)
{
    accounts[heat > 0.0 ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT] += fabs(heat);
}

/* dE_l/dt where its temperature is held, and what that takes [W]. */
double pool_held_energy(const struct pool_view *at, const struct pool_flow *flow, double *heat)
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
    scratch->volume[v].liquid.swelling = 0.0;
    if (scratch->volume[v].liquid.asleep)
        return;
    const struct pool_view at = pool_see(network, v, scratch, NULL);
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
    if (pool_held(network)) {
        double heat;
        own[pool->at + pool->liquid.count] = pool_held_energy(&at, &flow, &heat);
        book_heat(accounts, heat);
    } else {
        balance_heat(&at, &flow, own, accounts);
    }
    scratch->volume[v].liquid.swelling = flow.swelling;
}
