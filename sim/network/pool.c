/* sim/network/pool.c  The liquid in a tank and the gas above it.
 *
 * With e_k the evaporation (law/film.h), h_k = cp_k times the temperature it comes from (the liquid's out of it, the
 * gas's into it), u_k and v_k energy and volume of the liquid component,
 *   dL_k/dt = -e_k,   gas: dN_k/dt = +e_k, dE/dt = +sum e_k h_k + heat + p dV_l/dt
 *   dE_l/dt = -sum e_k h_k - heat + wall heat - p dV_l/dt,
 * the last term being what the liquid does to the gas when it swells: both books hold it, the ledger is exact. With
 *   V_l = sum L_k v_k(T_l),  B = sum L_k v_k'(T_l),  C_l = sum L_k c_k,  X = dE_l/dt without p B dT_l/dt:
 *   dT_l/dt = (X - sum u_k dL_k/dt) / (C_l + p B),   dV_l/dt = sum v_k dL_k/dt + B dT_l/dt.
 * Isothermal: T_l is the surroundings' own, dT_l/dt theirs, and what that takes is heat from outside. */
#include "network/pool.h"

#include "network/inside.h"

#include <assert.h>
#include <string.h>

static bool held(const struct network *network)
{
    return network->assume.heat == HEAT_ISOTHERMAL;
}

int pool_state(const struct network *network, const struct volume *volume, const struct surroundings_now *air,
               const double *own, struct pool_now *now)
{
    const struct pool *pool = volume->pool;
    const double *mine = &own[pool->at];
    const int count = pool->liquid.count;
    double free = pool->energy + mine[count]; /* of what the liquid holds at 0 K */
    now->heat_capacity = now->volume = now->swell = 0.0;
    for (int k = 0; k < count; k++) {
        const struct component *component = pool->liquid.component[k];
        now->amount[k] = pool->stock[k] + mine[k];
        free -= now->amount[k] * (component_energy(component, REFERENCE_TEMPERATURE).value -
                                  component->heat_capacity * REFERENCE_TEMPERATURE);
        now->heat_capacity += now->amount[k] * component->heat_capacity;
    }
    if (!(now->heat_capacity > 0.0))
        return 1;
    now->temperature = held(network) ? air->temperature : free / now->heat_capacity;
    if (!(now->temperature > 100.0 && now->temperature < 800.0))
        return 1;
    for (int k = 0; k < count; k++) {
        const struct thermal volume_of = component_volume(pool->liquid.component[k], now->temperature);
        now->volume += now->amount[k] * volume_of.value;
        now->swell += now->amount[k] * volume_of.slope;
    }
    now->wall_temperature = pool->wall > 0.0 ? (pool->wall_energy + mine[count + 1]) / pool->wall : now->temperature;
    liquid_pressures(&pool->liquid, now->amount, now->temperature, &now->saturation);
    return !(now->volume < volume->room);
}

/* Enthalpy that a mol of component k brings along, and whether the liquid's temperature sets it. */
static double brought(const struct pool *pool, const struct place_gas *place, const struct film *film, int k)
{
    const double temperature = film->value[k] > 0.0 ? place->liquid.temperature : place->gas.temperature;
    return pool->liquid.component[k]->gas.heat_capacity * temperature;
}

static struct film evaporation(const struct volume *volume, const struct place_gas *place, bool slopes)
{
    const struct pool *pool = volume->pool;
    const int count = pool->liquid.count;
    double partial[LIQUID_MOST];
    for (int k = 0; k < count; k++)
        partial[k] = place->share[pool->vapor[k]] * place->gas.pressure;
    const struct film_side side = {.count = count,
                                   .area = pool->area,
                                   .pressure = place->gas.pressure,
                                   .temperature = place->liquid.temperature,
                                   .saturation = place->liquid.saturation.value,
                                   .partial = partial,
                                   .transfer = pool->transfer,
                                   .boiling = FILM_BOILING};
    if (slopes)
        return film_evaporation(&side);
    struct film film;
    film_values(&side, film.value);
    return film;
}

struct pool_flow pool_flows(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            const struct surroundings_now *air, bool slopes)
{
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &place->liquid;
    struct pool_flow flow = {.film = evaporation(volume, place, slopes)};
    double energy = 0.0; /* sum u_k dL_k */
    for (int k = 0; k < pool->liquid.count; k++) {
        const double e = flow.film.value[k];
        flow.enthalpy += e * brought(pool, place, &flow.film, k);
        flow.crossing -= e * component_volume(pool->liquid.component[k], now->temperature).value;
        energy -= e * component_energy(pool->liquid.component[k], now->temperature).value;
    }
    if (!held(network)) {
        flow.heat = pool->surface * (now->temperature - place->gas.temperature);
        flow.liquid_heat =
            pool->film * ((pool->wall > 0.0 ? now->wall_temperature : air->temperature) - now->temperature);
    }
    const double p = place->gas.pressure;
    const double free = -flow.enthalpy - flow.heat + flow.liquid_heat - p * flow.crossing;
    flow.warming = held(network) ? air->temperature_rate : (free - energy) / (now->heat_capacity + p * now->swell);
    flow.swelling = flow.crossing + now->swell * flow.warming;
    return flow;
}

static void book_heat(double *accounts, double heat)
{
    accounts[heat > 0.0 ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT] += fabs(heat);
}

double pool_balance(const struct network *network, const struct volume *volume, const struct place_gas *place,
                    const struct surroundings_now *air, double *own, double *accounts)
{
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &place->liquid;
    const struct pool_flow flow = pool_flows(network, volume, place, air, false);
    double *mine = &own[pool->at];
    const int count = pool->liquid.count;
    double energy = now->heat_capacity * flow.warming;
    for (int k = 0; k < count; k++) {
        mine[k] -= flow.film.value[k];
        own[pool->vapor[k]] += flow.film.value[k];
        energy -= flow.film.value[k] * component_energy(pool->liquid.component[k], now->temperature).value;
    }
    own[network->carried] += flow.enthalpy + flow.heat;
    const double passed = -flow.enthalpy - flow.heat - place->gas.pressure * flow.swelling;
    if (held(network)) { /* what it takes to hold the temperature */
        mine[count] = energy;
        book_heat(accounts, energy - passed);
        return flow.swelling;
    }
    mine[count] = passed + flow.liquid_heat;
    if (pool->wall > 0.0) {
        const double outside = pool->outer * (air->temperature - now->wall_temperature);
        mine[count + 1] = outside - flow.liquid_heat;
        book_heat(accounts, outside);
    } else {
        book_heat(accounts, flow.liquid_heat);
    }
    return flow.swelling;
}

/* ---- slopes ---- */

/* d of what the exchange depends on, over the volume's own block. */
struct pool_chain {
    int block;
    double gas[BLOCK_MOST], liquid[BLOCK_MOST], wall[BLOCK_MOST]; /* temperatures */
    double pressure[BLOCK_MOST];
    double partial[LIQUID_MOST][BLOCK_MOST], saturation[LIQUID_MOST][BLOCK_MOST];
    double evaporation[LIQUID_MOST][BLOCK_MOST];
    double swell[BLOCK_MOST], capacity[BLOCK_MOST]; /* d B, d C_l */
};

/* d2 v/d T2 of a component, from its slopes a little to either side: it only turns B by a thousandth for a kelvin. */
static double volume_bend(const struct component *component, double temperature)
{
    const double aside = 0.05;
    return (component_volume(component, temperature + aside).slope -
            component_volume(component, temperature - aside).slope) /
           (2.0 * aside);
}

static void chain_temperatures(const struct network *network, const struct volume *volume,
                               const struct place_gas *place, const struct gradient *gradient, struct pool_chain *chain)
{
    const struct pool *pool = volume->pool;
    const int count = pool->liquid.count, at = pool->at;
    for (int c = 0; c < volume->felt; c++) {
        chain->gas[c] = gradient->by[GAS_TEMPERATURE][c];
        chain->pressure[c] = gradient->by[GAS_PRESSURE][c];
    }
    if (pool->wall > 0.0)
        chain->wall[at + count + 1] = 1.0 / pool->wall;
    double bend = 0.0;
    for (int k = 0; k < count; k++) {
        const struct component *component = pool->liquid.component[k];
        if (!held(network))
            chain->liquid[at + k] =
                -component_energy(component, place->liquid.temperature).value / place->liquid.heat_capacity;
        chain->capacity[at + k] = component->heat_capacity;
        chain->swell[at + k] = component_volume(component, place->liquid.temperature).slope;
        bend += place->liquid.amount[k] * volume_bend(component, place->liquid.temperature);
    }
    if (!held(network))
        chain->liquid[at + count] = 1.0 / place->liquid.heat_capacity;
    for (int c = at; c <= at + count; c++)
        chain->swell[c] += bend * chain->liquid[c];
}

static void chain_pressures(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            struct pool_chain *chain)
{
    const struct pool *pool = volume->pool;
    const struct pressures *saturation = &place->liquid.saturation;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double share = place->share[pool->vapor[k]];
        for (int c = 0; c < network->species; c++)
            chain->partial[k][c] = place->gas.pressure * ((c == pool->vapor[k]) - share) / place->amount;
        chain->partial[k][network->carried + 1] = share;
        for (int c = 0; c < chain->block; c++)
            chain->saturation[k][c] = saturation->by_temperature[k] * chain->liquid[c];
        for (int j = 0; j < pool->liquid.count; j++)
            chain->saturation[k][pool->at + j] += saturation->by_amount[k][j];
    }
}

static void chain_evaporation(const struct pool *pool, const struct film *film, struct pool_chain *chain)
{
    for (int k = 0; k < pool->liquid.count; k++)
        for (int c = 0; c < chain->block; c++) {
            double sum = film->by_pressure[k] * chain->pressure[c] + film->by_temperature[k] * chain->liquid[c];
            for (int j = 0; j < pool->liquid.count; j++)
                sum +=
                    film->by_saturation[k][j] * chain->saturation[j][c] + film->by_partial[k][j] * chain->partial[j][c];
            chain->evaporation[k][c] = sum;
        }
}

/* Sums over the components at one column. */
struct pool_column {
    double enthalpy, crossing, energy; /* d of sum e h, sum v dL, sum u dL */
};

static struct pool_column column_sums(const struct pool *pool, const struct place_gas *place, const struct film *film,
                                      const struct pool_chain *chain, int c)
{
    struct pool_column sum = {0.0, 0.0, 0.0};
    for (int k = 0; k < pool->liquid.count; k++) {
        const struct component *component = pool->liquid.component[k];
        const struct thermal volume = component_volume(component, place->liquid.temperature);
        const struct thermal energy = component_energy(component, place->liquid.temperature);
        const double e = film->value[k], slope = chain->evaporation[k][c];
        const double source = e > 0.0 ? chain->liquid[c] : chain->gas[c];
        sum.enthalpy += slope * brought(pool, place, film, k) + e * component->gas.heat_capacity * source;
        sum.crossing -= slope * volume.value + e * volume.slope * chain->liquid[c];
        sum.energy -= slope * energy.value + e * energy.slope * chain->liquid[c];
    }
    return sum;
}

static void slope_column(const struct network *network, const struct volume *volume, const struct place_gas *place,
                         const struct surroundings_now *air, const struct pool_flow *flow,
                         const struct pool_chain *chain, const struct pool_rows *rows, int c, double *swelling)
{
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &place->liquid;
    const struct pool_column sum = column_sums(pool, place, &flow->film, chain, c);
    const double p = place->gas.pressure, p_slope = chain->pressure[c];
    const bool free_heat = !held(network);
    const double heat = free_heat ? pool->surface * (chain->liquid[c] - chain->gas[c]) : 0.0;
    const double liquid_heat =
        free_heat ? pool->film * ((pool->wall > 0.0 ? chain->wall[c] : 0.0) - chain->liquid[c]) : 0.0;
    const double free = -sum.enthalpy - heat + liquid_heat - p_slope * flow->crossing - p * sum.crossing;
    const double below = now->heat_capacity + p * now->swell;
    const double below_slope = chain->capacity[c] + p_slope * now->swell + p * chain->swell[c];
    const double warming = held(network) ? 0.0 : (free - sum.energy - flow->warming * below_slope) / below;
    swelling[c] = sum.crossing + chain->swell[c] * flow->warming + now->swell * warming;
    const int own = volume->own + c, count = pool->liquid.count;
    for (int k = 0; k < count; k++) {
        rows->row[pool->at + k][own] -= chain->evaporation[k][c];
        rows->row[pool->vapor[k]][own] += chain->evaporation[k][c];
    }
    rows->row[network->carried][own] += sum.enthalpy + heat;
    const double passed = -sum.enthalpy - heat - p_slope * flow->swelling - p * swelling[c];
    double booked = 0.0, sign = 0.0;
    if (held(network)) {
        const double energy = sum.energy + chain->capacity[c] * flow->warming;
        rows->row[pool->at + count][own] += energy;
        booked = energy - passed;
        double now_energy = now->heat_capacity * flow->warming;
        for (int k = 0; k < count; k++)
            now_energy -= flow->film.value[k] * component_energy(pool->liquid.component[k], now->temperature).value;
        sign = now_energy - (-flow->enthalpy - flow->heat - p * flow->swelling);
    } else {
        rows->row[pool->at + count][own] += passed + liquid_heat;
        if (pool->wall > 0.0) {
            booked = -pool->outer * chain->wall[c];
            rows->row[pool->at + count + 1][own] += booked - liquid_heat;
            sign = air->temperature - now->wall_temperature;
        } else {
            booked = liquid_heat;
            sign = flow->liquid_heat;
        }
    }
    (sign > 0.0 ? rows->heat_in : rows->heat_out)[own] += sign > 0.0 ? booked : -booked;
}

double pool_slopes(const struct network *network, const struct volume *volume, const struct place_gas *place,
                   const struct surroundings_now *air, const struct gradient *gradient, const struct pool_rows *rows,
                   double *swelling)
{
    const struct pool_flow flow = pool_flows(network, volume, place, air, true);
    struct pool_chain chain;
    memset(&chain, 0, sizeof chain);
    chain.block = volume->block;
    assert(volume->block <= BLOCK_MOST);
    chain_temperatures(network, volume, place, gradient, &chain);
    chain_pressures(network, volume, place, &chain);
    chain_evaporation(volume->pool, &flow.film, &chain);
    for (int c = 0; c < volume->block; c++)
        slope_column(network, volume, place, air, &flow, &chain, rows, c, swelling);
    return flow.swelling;
}

void pool_volume_slope(const struct network *network, const struct volume *volume, const struct place_gas *place,
                       double *slope)
{
    const struct pool *pool = volume->pool;
    const struct pool_now *now = &place->liquid;
    memset(slope, 0, (size_t)volume->block * sizeof *slope);
    for (int k = 0; k < pool->liquid.count; k++) {
        const struct component *component = pool->liquid.component[k];
        slope[pool->at + k] = component_volume(component, now->temperature).value;
        if (!held(network))
            slope[pool->at + k] -=
                now->swell * component_energy(component, now->temperature).value / now->heat_capacity;
    }
    if (!held(network))
        slope[pool->at + pool->liquid.count] = now->swell / now->heat_capacity;
}
