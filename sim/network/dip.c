/* sim/network/dip.c  Liquid that comes and goes by passages: openings of a tank that it can cover, fuel that is filled in.
 *
 * Gas that would leave by such an opening finds it closed as far as it is covered; gas from outside has the liquid's head
 * to overcome and bubbles through. Where the other side is the outside and the passage is a hole or valve, liquid leaves
 * instead, pushed by the gas over it and its own head, Q in m3/s: of each component Q L_k/V_l, and its enthalpy
 * sum u_k Q L_k/V_l + p Q; so it does into a line with a low spot that it can lie in, past a float that does not shut, too
 * (spill.c). In any other line the liquid stands in the mouth and holds. What would hang on the level inside a
 * passage's own opening uses its bore as the band over which it is covered. */
#include "law/dip.h"

#include "law/sum.h"
#include "network/inside.h"

#include <string.h>

#define VOLUME_LEAST 1e-9 /* m3: less does not run */
#define RADIUS_LEAST 1e-3 /* m: a surface is never quieter than that */

/* The tank's side as the opening feels it. */
struct dipped {
    struct sloped cover, head; /* by the rise, which is by height */
    struct gas gas;
};

/* m: half of how high the opening reaches. In a side that is half its bore; near the roof or the floor it lies flat. */
static double reach_up(const struct passage *passage, const struct vessel_shape *shape)
{
    const double under = passage->dip_height, over = shape->height[shape->corners - 1] - under;
    return fmax(fmin(0.5 * passage->bore, fmin(under, over)), RADIUS_LEAST);
}

static struct dipped dipped(const struct passage *passage, const struct vessel_shape *shape,
                            const struct place_gas *tank)
{
    const double height = shape_height(shape, tank->liquid.volume).value;
    const double radius = reach_up(passage, shape);
    const double rise = height - passage->dip_height;
    struct dipped at = {dip_cover(rise, radius), dip_head(rise, radius), tank->gas};
    at.gas.pressure += FUEL_DENSITY * GRAVITY * at.head.value;
    at.gas.excess += FUEL_DENSITY * GRAVITY * at.head.value;
    return at;
}

/* Liquid to the outside, or into what holds liquid behind the opening. */
static void drain(const struct network *network, const struct passage *passage, const struct passage_view *view,
                  const struct scratch *scratch, const struct dipped *at, const struct gas *outside,
                  struct dip_now *now)
{
    if (passage->sink >= 0 && scratch->volume[passage->sink].liquid.asleep)
        return;
    const double diameter = passage->seep(view), lift = FUEL_DENSITY * GRAVITY * passage->lift;
    const struct sloped flow =
        dip_drain(diameter, FUEL_DENSITY, FUEL_VISCOSITY, at->gas.excess - outside->excess - lift);
    const double drain = at->cover.value * flow.value, by_pressure = at->cover.value * flow.slope;
    const double by_height = at->cover.slope * flow.value + by_pressure * FUEL_DENSITY * GRAVITY * at->head.slope;
    if (passage->sink >= 0) {
        const double height_slope = scratch->volume[passage->dip].liquid.level.height.slope;
        now->spill = spill_taken(
            network, passage, scratch,
            (struct spill_now){.flow = drain, .by_drop = by_pressure, .by_source = by_height * height_slope});
        return;
    }
    now->drain = drain;
    now->drain_by_pressure = by_pressure;
    now->drain_by_height = by_height;
}

struct flow dip_flow(const struct network *network, const struct passage *passage, const struct passage_view *view,
                     const struct scratch *scratch, struct dip_now *now)
{
    const struct volume *volume = &network->volume[passage->dip];
    const struct place_gas *tank = &scratch->volume[passage->dip];
    const int beyond = passage->dip_at_b ? passage->a : passage->b;
    const struct place_gas *other = place_of(scratch, beyond);
    const struct dipped at = dipped(passage, &volume->shape, tank);
    now->cover = at.cover.value;
    now->cover_slope = at.cover.slope;
    struct flow flow =
        passage->dip_at_b ? passage->law(view, &other->gas, &at.gas) : passage->law(view, &at.gas, &other->gas);
    const double by_pressure = (passage->dip_at_b ? flow.slope_b : flow.slope_a)[GAS_PRESSURE];
    now->flow_by_height = by_pressure * FUEL_DENSITY * GRAVITY * at.head.slope;
    if (passage->dip_at_b ? flow.value < 0.0 : flow.value > 0.0) {
        const double open = 1.0 - at.cover.value;
        now->flow_by_height = open * now->flow_by_height - at.cover.slope * flow.value;
        flow = flow_times(flow, open);
    }
    if (passage->seep && (beyond < 0 || passage->sink >= 0) && tank->liquid.volume > VOLUME_LEAST)
        drain(network, passage, view, scratch, &at, &other->gas, now);
    return flow;
}

/* ---- books ---- */

/* mol/s of each component and W that a drain takes along. */
static double drained(const struct pool *pool, const struct place_gas *tank, double flow, double *carried)
{
    const struct pool_now *liquid = &tank->liquid;
    double enthalpy = tank->gas.pressure * flow;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double amount = flow * liquid->amount[k] / liquid->volume;
        carried[pool->vapor[k]] = amount;
        enthalpy += amount * liquid->energy[k];
    }
    return enthalpy;
}

/* Fuel as the scenario has it: mol/s of each component, and W that it brings beside the work of pushing it in. */
double dip_poured(const struct network *network, const struct pool *pool, const struct dip_now *now, double *amount)
{
    if (!(now->pour > 0.0))
        return 0.0;
    double mixing[LIQUID_MOST], energy = 0.0;
    const double factor = now->pour / liquid_volume(&pool->liquid, network->fuel_pumped, now->warmth).value;
    liquid_mixing_heat(&pool->liquid, network->fuel_pumped, mixing);
    for (int k = 0; k < pool->liquid.count; k++) {
        amount[k] = factor * network->fuel_pumped[k];
        energy += amount[k] * (component_energy(pool->liquid.component[k], now->warmth).value + mixing[k]);
    }
    return energy;
}

static void book_pour(const struct network *network, int p, const struct scratch *scratch, double *dydt)
{
    const struct passage *passage = &network->passage[p];
    const struct pool *pool = network->volume[passage->b].pool;
    double amount[LIQUID_MOST];
    const double energy = dip_poured(network, pool, &scratch->dip[p], amount) +
                          scratch->volume[passage->b].gas.pressure * scratch->dip[p].pour;
    double *rows = &dydt[network->stiff.states + passage->account_a];
    for (int k = 0; k < pool->liquid.count; k++)
        rows[pool->vapor[k]] += amount[k];
    rows[2 * network->carried + (energy > 0.0 ? 0 : 1)] += fabs(energy);
}

/* d of the same: the push alone hangs on a state. */
void dip_pour_slope(const struct network *network, int p, const struct scratch *scratch, double *value)
{
    const struct passage *passage = &network->passage[p];
    double amount[LIQUID_MOST];
    const double flow = scratch->dip[p].pour;
    const double energy = dip_poured(network, network->volume[passage->b].pool, &scratch->dip[p], amount) +
                          scratch->volume[passage->b].gas.pressure * flow;
    const int row = network->stiff.states + passage->account_a + 2 * network->carried + (energy > 0.0 ? 0 : 1);
    value[network->pattern_start[row] + passage->row_b + network->carried + 1] += energy > 0.0 ? flow : -flow;
}

void dip_book(const struct network *network, int p, const struct scratch *scratch, double *dydt)
{
    const struct passage *passage = &network->passage[p];
    if (scratch->dip[p].pour > 0.0) {
        book_pour(network, p, scratch, dydt);
        return;
    }
    const struct pool *pool = network->volume[passage->dip].pool;
    double carried[CARRIED_MOST] = {0.0};
    const double enthalpy = drained(pool, &scratch->volume[passage->dip], scratch->dip[p].drain, carried);
    const int account = passage->dip_at_b ? passage->account_a : passage->account_b;
    double *rows = &dydt[network->stiff.states + account];
    for (int i = 0; i < network->carried; i++)
        rows[network->carried + i] += carried[i];
    rows[2 * network->carried + (enthalpy > 0.0 ? 1 : 0)] += fabs(enthalpy);
}

void dip_slopes(const struct network *network, int p, const struct drain_slope *by, int own,
                const struct scratch *scratch, double *value)
{
    const struct passage *passage = &network->passage[p];
    const struct pool *pool = network->volume[passage->dip].pool;
    const struct place_gas *tank = &scratch->volume[passage->dip];
    const struct pool_now *liquid = &tank->liquid;
    const int account = passage->dip_at_b ? passage->account_a : passage->account_b;
    const int first = network->stiff.states + account, at = passage->dip_at_b ? passage->row_b : passage->row_a;
    const double flow = scratch->dip[p].drain;
    double carried[CARRIED_MOST] = {0.0};
    const double enthalpy = drained(pool, tank, flow, carried);
    double slope = by->pressure * flow + tank->gas.pressure * by->flow;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double amount = (by->flow * liquid->amount[k] + flow * by->amount[k] -
                               flow * liquid->amount[k] * by->volume / liquid->volume) /
                              liquid->volume;
        value[network->pattern_start[first + network->carried + pool->vapor[k]] + at + own] += amount;
        slope += amount * liquid->energy[k] + carried[pool->vapor[k]] * by->energy[k];
    }
    const int row = first + 2 * network->carried + (enthalpy > 0.0 ? 1 : 0);
    value[network->pattern_start[row] + at + own] += enthalpy > 0.0 ? slope : -slope;
}
