/* sim/network/spill.c  Liquid that runs from one volume into another: out of a tank by an opening that it covers, out of a low
 * spot with the gas.
 *
 * With Q m3/s from a source at pressure p, of each component Q L_k/V_l and enthalpy sum u_k Q L_k/V_l + p Q: one number for
 * both sides, so that nothing is lost on the way. The pool of either side books them as what it is given (pool.c). What of
 * all this hangs on the states of the other side stands here: dE_l and dL_k of a side follow dQ, and then, with B, C_l and
 * the push p as in pool.c,
 *   dT_l' = (dE_l - p sum v_k dL_k - sum u_k dL_k)/(C_l + p B),   dV_l' = sum v_k dL_k + B dT_l'.
 * The sink takes less as it fills (low_spot_takes). */
#include "law/low_spot.h"
#include "network/inside.h"

#include <string.h>

struct spill_now spill_taken(const struct network *network, const struct passage *passage,
                             const struct scratch *scratch, struct spill_now free)
{
    const double brim = network->volume[passage->sink].pool->brim;
    if (scratch->volume[passage->sink].liquid.asleep)
        return (struct spill_now){0};
    const struct sloped takes = low_spot_takes(scratch->volume[passage->sink].liquid.volume / brim);
    return (struct spill_now){free.flow * takes.value, free.by_flow * takes.value, free.by_drop * takes.value,
                              free.by_source * takes.value, free.flow * takes.slope / brim};
}

double spill_carries(const struct network *network, int p, const struct scratch *scratch, double *amount)
{
    const struct passage *passage = &network->passage[p];
    const struct place_gas *source = &scratch->volume[passage->source];
    const double flow = scratch->dip[p].spill.flow;
    double enthalpy = source->gas.pressure * flow;
    for (int k = 0; k < network->volume[passage->source].pool->liquid.count; k++) {
        amount[k] = flow * source->liquid.amount[k] / source->liquid.volume;
        enthalpy += amount[k] * source->liquid.energy[k];
    }
    return enthalpy;
}

/* ---- slopes ---- */

enum { SOURCE, SINK, SIDES };

/* d of what runs, over what is felt of the source, and of the sink. */
struct spill_slope {
    int volume[SIDES];
    double flow[SIDES][FELT_MOST], enthalpy[SIDES][FELT_MOST];
    double amount[LIQUID_MOST][SIDES][FELT_MOST];
};

static void flow_slope(const struct network *network, int p, const struct scratch *scratch, struct spill_slope *by)
{
    const struct spill_now *now = &scratch->dip[p].spill;
    const bool from_a = network->passage[p].a == by->volume[SOURCE];
    const struct pair *gas = &scratch->slope[p];
    const double *felt[SIDES] = {from_a ? gas->a : gas->b, from_a ? gas->b : gas->a};
    const double by_liquid[SIDES] = {now->by_source, now->by_sink};
    for (int side = 0; side < SIDES; side++) {
        const int v = by->volume[side];
        for (int c = 0; c < network->volume[v].felt; c++)
            by->flow[side][c] = (from_a ? now->by_flow : -now->by_flow) * felt[side][c] +
                                by_liquid[side] * scratch->gradient[v].volume[c];
        by->flow[side][network->carried + 1] += side == SOURCE ? now->by_drop : -now->by_drop;
    }
}

static void amount_slopes(const struct network *network, int p, const struct scratch *scratch, struct spill_slope *by)
{
    const int v = by->volume[SOURCE];
    const struct pool *pool = network->volume[v].pool;
    const struct pool_now *now = &scratch->volume[v].liquid;
    const double flow = scratch->dip[p].spill.flow;
    for (int k = 0; k < pool->liquid.count; k++) {
        const double share = now->amount[k] / now->volume; /* mol/m3 */
        for (int side = 0; side < SIDES; side++)
            for (int c = 0; c < network->volume[by->volume[side]].felt; c++)
                by->amount[k][side][c] = share * by->flow[side][c];
        for (int c = 0; c < network->volume[v].felt; c++)
            by->amount[k][SOURCE][c] +=
                flow * ((c == pool->at + k) - share * scratch->gradient[v].volume[c]) / now->volume;
    }
}

static void enthalpy_slope(const struct network *network, int p, const struct scratch *scratch, struct spill_slope *by)
{
    const int v = by->volume[SOURCE];
    const struct place_gas *source = &scratch->volume[v];
    double energy[LIQUID_MOST][FELT_MOST], amount[LIQUID_MOST];
    pool_energy_slopes(network, v, scratch, energy);
    spill_carries(network, p, scratch, amount);
    for (int side = 0; side < SIDES; side++)
        for (int c = 0; c < network->volume[by->volume[side]].felt; c++) {
            double sum = source->gas.pressure * by->flow[side][c];
            for (int k = 0; k < network->volume[v].pool->liquid.count; k++)
                sum += source->liquid.energy[k] * by->amount[k][side][c] +
                       (side == SOURCE ? amount[k] * energy[k][c] : 0.0);
            by->enthalpy[side][c] = sum;
        }
    by->enthalpy[SOURCE][network->carried + 1] += scratch->dip[p].spill.flow;
}

/* What a side's pool makes of one column: mol/s, W given to it. */
struct given {
    double amount[LIQUID_MOST], enthalpy;
};

struct side {
    const struct network *network;
    const struct scratch *scratch;
    const struct volume *volume;
    const struct place_gas *place;
    int v;
    double push; /* Pa: mean over the gases that yield room */
    double *value;
};

static double push_of(const struct network *network, int v, const struct scratch *scratch)
{
    double push = 0.0;
    for (int u = 0; u < network->volumes; u++)
        if (network->volume[u].liquid_in == v)
            push += network->volume[u].liquid_share * scratch->volume[u].gas.pressure;
    return push;
}

static double *row_of(const struct side *at, int row)
{
    return &at->value[at->network->pattern_start[row]];
}

/* K/s and m3/s that what is given adds to what the liquid does. */
static double given_swells(const struct side *at, const struct given *given, double *energy)
{
    const struct pool *pool = at->volume->pool;
    const struct pool_now *now = &at->place->liquid;
    double crossing = 0.0;
    *energy = 0.0;
    for (int k = 0; k < pool->liquid.count; k++) {
        crossing += given->amount[k] * component_volume(pool->liquid.component[k], now->temperature).value;
        *energy += given->amount[k] * now->energy[k];
    }
    if (at->network->assume.heat == HEAT_ISOTHERMAL)
        return crossing;
    const double warming =
        (given->enthalpy - at->push * crossing - *energy) / (now->heat_capacity + at->push * now->swell);
    return crossing + now->swell * warming;
}

/* Walls that change hands with what swells. */
static void moved_rows(const struct side *at, double swelling, int spot)
{
    const struct pool *pool = at->volume->pool;
    const struct pool_now *now = &at->place->liquid;
    if (!(pool->wall > 0.0))
        return;
    const double handed = now->swelling > 0.0 ? at->place->wall_temperature : now->wall_temperature;
    const double moved = now->level.lower.slope * swelling * handed;
    row_of(at, at->volume->at + at->volume->wall_at)[spot] -= moved;
    row_of(at, at->volume->at + pool->at + pool->liquid.count + 1)[spot] += moved;
}

static void held_rows(const struct side *at, double energy, double booked, int spot)
{
    const struct pool *pool = at->volume->pool;
    const int account = at->network->stiff.states + at->volume->account;
    const bool comes_in = at->scratch->rates[account + LIQUID_HEAT_IN] > 0.0;
    row_of(at, at->volume->at + pool->at + pool->liquid.count)[spot] += energy;
    row_of(at, account + (comes_in ? LIQUID_HEAT_IN : LIQUID_HEAT_OUT))[spot] += comes_in ? booked : -booked;
}

/* Books one column, that of state c of volume `of`. */
static void book_column(const struct side *at, const struct given *given, int of, int c)
{
    const struct pool *pool = at->volume->pool;
    const int spot = pattern_block(at->network, of, at->v) + c;
    double energy;
    const double swelling = given_swells(at, given, &energy);
    const double passed = given->enthalpy - at->push * swelling;
    for (int k = 0; k < pool->liquid.count; k++)
        row_of(at, at->volume->at + pool->at + k)[spot] += given->amount[k];
    if (at->network->assume.heat == HEAT_ISOTHERMAL) {
        held_rows(at, energy, energy - passed, spot);
    } else {
        row_of(at, at->volume->at + pool->at + pool->liquid.count)[spot] += passed;
        moved_rows(at, swelling, spot);
    }
    for (int u = 0; u < at->network->volumes; u++)
        if (at->network->volume[u].liquid_in == at->v)
            at->scratch->narrowing[at->network->volume[u].narrow_at + pattern_block(at->network, of, u) + c] +=
                at->network->volume[u].liquid_share * swelling;
}

void spill_slopes(const struct network *network, int p, const struct scratch *scratch, double *value)
{
    struct spill_slope by = {.volume = {network->passage[p].source, network->passage[p].sink}};
    flow_slope(network, p, scratch, &by);
    amount_slopes(network, p, scratch, &by);
    enthalpy_slope(network, p, scratch, &by);
    for (int end = 0; end < SIDES; end++) {
        const int v = by.volume[end];
        const double sign = end == SOURCE ? -1.0 : 1.0;
        const struct side at = {
            network, scratch, &network->volume[v], &scratch->volume[v], v, push_of(network, v, scratch), value};
        for (int side = 0; side < SIDES; side++)
            for (int c = 0; c < network->volume[by.volume[side]].felt; c++) {
                struct given given = {.enthalpy = sign * by.enthalpy[side][c]};
                for (int k = 0; k < at.volume->pool->liquid.count; k++)
                    given.amount[k] = sign * by.amount[k][side][c];
                book_column(&at, &given, by.volume[side], c);
            }
    }
}
