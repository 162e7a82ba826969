/* sim/network/pouring.c  What is poured when a fault of liquid comes or goes.
 *
 * At the moment it begins to, for a liquid of amounts n, volume V and temperature T then, over the time tau that it takes:
 *   more of the scenario's fuel (a tank, a low spot, the voids of a bed): m mol of it at T, as much as has room;
 *   less of it: the share f of what is there, of each component f n_k, but never the last hundredth;
 *   another vapor pressure: n'_k by liquid_weathered, times what keeps the volume, V(n', T) = V: n'_k - n_k of each.
 * mol/s, W and m3/s are that over tau, and its energy at T by property/liquid.h, the heat of mixing too. So an exchange comes to
 * its end exactly, and to T, where nothing else goes on; it is booked as what the drained fuel and the new one differ by. What
 * is poured is pushed in against the gas over it, p dV, as what a nozzle fills in (pool.c); that alone hangs on a state.
 * Liquid that lies where there was none is as warm as the gas there. */
#include "network/inside.h"
#include "property/volatility.h"
#include "property/weathering.h"

#include <string.h>

#define FULL 0.98       /* of a tank: as far as `level` goes */
#define FULL_BED 0.9    /* of the room in a bed: as far as `wet` goes */
#define DRAWN_MOST 0.99 /* of what is there: it evaporates meanwhile */

/* ---- taps ---- */

/* Whether a fault's liquid is that of volume v. Beside the cells of its beds a canister has a sump, in its first volume. */
static bool pours_into(const struct network *network, const struct fault *fault, int v)
{
    const struct volume *volume = &network->volume[v];
    if (volume->part != fault->part || !volume->pool)
        return false;
    switch (fault->row->way) {
    case FAULT_LIES:
        return volume->pool->begun >= 0.0;
    case FAULT_WETS:
        return v != network->main_volume[fault->part];
    default:
        return fault_is_pour(fault->row) && volume->pool->begun < 0.0;
    }
}

static int places_of(const struct network *network, int fault)
{
    int count = 0;
    for (int v = 0; fault_is_pour(network->fault[fault].row) && v < network->volumes; v++)
        count += pours_into(network, &network->fault[fault], v);
    return count;
}

static void take_places(struct network *network, int tap)
{
    struct tap *into = &network->tap[tap];
    into->first = network->pour_places;
    for (int v = 0; v < network->volumes; v++) {
        if (!pours_into(network, &network->fault[into->fault], v))
            continue;
        struct pool *pool = network->volume[v].pool;
        network->pour_place[network->pour_places] = (struct pour_place){tap, v, pool->pours};
        pool->pours = network->pour_places++;
        into->places++;
    }
    into->account = network->stiff.accounts;
    network->stiff.accounts += tap_rows(network);
}

bool taps_take(struct network *network)
{
    int taps = 0, places = 0;
    for (int f = 0; f < network->faults; f++) {
        const int count = places_of(network, f);
        taps += count > 0;
        places += count;
    }
    network->tap = arena_take(network->arena, (size_t)(taps + 1) * sizeof *network->tap);
    network->pour_place = arena_take(network->arena, (size_t)(places + 1) * sizeof *network->pour_place);
    network->tap_of = arena_take(network->arena, (size_t)(network->faults + 1) * sizeof *network->tap_of);
    if (!network->tap || !network->pour_place || !network->tap_of)
        return false;
    for (int f = 0; f < network->faults; f++) {
        network->tap_of[f] = places_of(network, f) > 0 ? network->taps : -1;
        if (network->tap_of[f] < 0)
            continue;
        network->tap[network->taps] = (struct tap){.fault = f};
        take_places(network, network->taps++);
    }
    return true;
}

struct tap_now tap_begins(const struct network *network, int tap)
{
    const struct fault *fault = &network->fault[network->tap[tap].fault];
    const bool stands = course_stands(&fault->course);
    return (struct tap_now){stands ? fault->size : 0.0,
                            {(double)INFINITY, (double)INFINITY, fault->begun, fault->begun}};
}

/* ---- how much ---- */

/* An amount of everything, J and m3 of it. */
struct portion {
    double amount[LIQUID_MOST];
    double energy, volume;
};

/* m3 of the scenario's fuel. */
static void fuel_portion(const struct network *network, const struct pool *pool, double volume, double temperature,
                         struct portion *portion)
{
    const double factor = volume / liquid_volume(&pool->liquid, network->fuel_stock, temperature).value;
    for (int k = 0; k < network->fuels; k++)
        portion->amount[k] = factor * network->fuel_stock[k];
    portion->energy = liquid_energy(&pool->liquid, portion->amount, temperature).value +
                      liquid_mixing_heat(&pool->liquid, portion->amount, NULL);
    portion->volume = volume;
}

/* m3 of what is there. */
static void drawn_portion(const struct pool *pool, const struct pool_now *liquid, double volume,
                          struct portion *portion)
{
    const double share = fmin(volume / liquid->volume, DRAWN_MOST);
    *portion = (struct portion){.volume = -share * liquid->volume};
    for (int k = 0; k < pool->liquid.count; k++) {
        portion->amount[k] = -share * liquid->amount[k];
        portion->energy += portion->amount[k] * liquid->energy[k];
    }
}

/* Of `room` m3, as much as is wanted. Returns m3 that come in. */
static double volume_portion(const struct network *network, int v, const struct scratch *scratch, double wanted,
                             double room, struct portion *portion)
{
    const struct pool *pool = network->volume[v].pool;
    const struct pool_now *liquid = &scratch->volume[v].liquid;
    *portion = (struct portion){.volume = 0.0};
    if (wanted < 0.0 && liquid->volume > 0.0)
        drawn_portion(pool, liquid, -wanted, portion);
    const double fits = fmin(wanted, room - liquid->volume);
    if (fits > 0.0)
        fuel_portion(network, pool, fits, pool->begun < 0.0 ? liquid->temperature : scratch->volume[v].gas.temperature,
                     portion);
    return portion->volume;
}

/* Returns Pa that its vapor pressure comes to differ by. */
static double exchange_portion(const struct network *network, int v, const struct scratch *scratch, double change,
                               struct portion *portion)
{
    const struct pool *pool = network->volume[v].pool;
    const struct pool_now *liquid = &scratch->volume[v].liquid;
    const double temperature = liquid->temperature;
    double old[LIQUID_MOST], new[LIQUID_MOST];
    *portion = (struct portion){.volume = 0.0};
    for (int k = 0; k < pool->liquid.count; k++)
        old[k] = fmax(liquid->amount[k], 0.0);
    if (!(liquid_volume(&pool->liquid, old, temperature).value > 0.0))
        return 0.0;
    const double before = liquid_volatility(&pool->liquid, old).dvpe;
    liquid_weathered(&pool->liquid, old, change, new);
    const double after = liquid_volatility(&pool->liquid, new).dvpe;
    const double factor = liquid->volume / liquid_volume(&pool->liquid, new, temperature).value;
    for (int k = 0; k < pool->liquid.count; k++) {
        new[k] *= factor;
        portion->amount[k] = new[k] - liquid->amount[k];
    }
    portion->energy = liquid_energy(&pool->liquid, new, temperature).value +
                      liquid_mixing_heat(&pool->liquid, new, NULL) -
                      liquid_energy(&pool->liquid, liquid->amount, temperature).value -
                      liquid_mixing_heat(&pool->liquid, liquid->amount, NULL);
    return after - before;
}

/* m3 that it may hold. */
static double holds(const struct network *network, int v, enum fault_way way)
{
    const struct volume *volume = &network->volume[v];
    if (way == FAULT_WETS)
        return FULL_BED * volume->room;
    return way == FAULT_LIES ? volume->pool->brim : FULL * volume->shape.volume[volume->shape.corners - 1];
}

/* What brings `change` of the fault's size to volume v, as far as it goes; returns how far that is. */
static double portion_of(const struct network *network, const struct scratch *scratch, enum fault_way way, int v,
                         double change, struct portion *portion)
{
    const double room = network->volume[v].room;
    switch (way) {
    case FAULT_ENLIVENS:
        return exchange_portion(network, v, scratch, change, portion);
    case FAULT_STALES:
        return -exchange_portion(network, v, scratch, -change, portion);
    case FAULT_WETS:
        return volume_portion(network, v, scratch, change * room, holds(network, v, way), portion) / room;
    default:
        return volume_portion(network, v, scratch, change, holds(network, v, way), portion);
    }
}

static struct pour pour_over(const struct portion *portion, int fuels, double lasts)
{
    struct pour pour = {.energy = portion->energy / lasts, .volume = portion->volume / lasts};
    for (int k = 0; k < fuels; k++)
        pour.amount[k] = portion->amount[k] / lasts;
    return pour;
}

void tap_turn(const struct network *network, const struct scratch *scratch, int tap, double time, double aim,
              double ramp, struct tap_now *now, struct pour *pour)
{
    const struct tap *of = &network->tap[tap];
    const struct fault_row *row = network->fault[of->fault].row;
    const double held = ramp_value(&now->held, time), change = aim - held;
    const double ends = time + (ramp > 0.0 ? ramp : fault_pours_in(row, change));
    double came = 0.0;
    for (int k = 0; k < of->places; k++) {
        struct portion portion;
        came += portion_of(network, scratch, row->way, network->pour_place[of->first + k].volume, change, &portion);
        pour[of->first + k] = pour_over(&portion, network->fuels, ends - time);
    }
    /* what has gone by itself, or was not there, is not to be drawn off again */
    *now = (struct tap_now){aim, {time, ends, held, change > 0.0 ? held + came / of->places : aim}};
}

bool tap_runs(const struct tap_now *now, double time)
{
    return now->held.begins <= time && time < now->held.ends;
}

/* ---- what flows ---- */

static void pour_add(const struct pour *pour, int fuels, struct pour *sum)
{
    for (int k = 0; k < fuels; k++)
        sum->amount[k] += pour->amount[k];
    sum->energy += pour->energy;
    sum->volume += pour->volume;
}

void pour_look(const struct network *network, const struct inputs *inputs, double time, int v, struct pool_now *now)
{
    const struct pool *pool = network->volume[v].pool;
    now->asleep = pool->asleep;
    now->shut = pool->shut;
    now->poured = (struct pour){.volume = 0.0};
    for (int k = pool->pours; k >= 0 && inputs->tap; k = network->pour_place[k].next) {
        const struct tap_now *tap = &inputs->tap[network->pour_place[k].tap];
        if (isinf(tap->held.begins))
            continue;
        now->asleep = now->shut = false;
        if (tap_runs(tap, time))
            pour_add(&inputs->pour[k], network->fuels, &now->poured);
    }
}

/* ---- books ---- */

int tap_rows(const struct network *network)
{
    return 2 * network->fuels + 2;
}

/* Of the pressure over each liquid. */
int tap_row(const struct network *network, const struct tap *tap, int *column)
{
    for (int k = 0; column && k < tap->places; k++)
        column[k] = network->volume[network->pour_place[tap->first + k].volume].at + network->carried + 1;
    return tap->places;
}

/* W with the work of pushing it in. */
static double enthalpy(const struct network *network, const struct pour *pour, int place, const struct scratch *scratch)
{
    return pour->energy + scratch->volume[network->pour_place[place].volume].gas.pressure * pour->volume;
}

void taps_book(const struct network *network, const struct inputs *inputs, double time, double *dydt,
               const struct scratch *scratch)
{
    const int fuels = network->fuels;
    for (int p = 0; inputs->tap && p < network->pour_places; p++) {
        const struct tap *tap = &network->tap[network->pour_place[p].tap];
        if (!tap_runs(&inputs->tap[network->pour_place[p].tap], time))
            continue;
        double *rows = &dydt[network->stiff.states + tap->account];
        const struct pour *pour = &inputs->pour[p];
        const double brought = enthalpy(network, pour, p, scratch);
        for (int k = 0; k < fuels; k++)
            rows[pour->amount[k] > 0.0 ? k : fuels + k] += fabs(pour->amount[k]);
        rows[2 * fuels + (brought > 0.0 ? 0 : 1)] += fabs(brought);
    }
}

void taps_slopes(const struct network *network, const struct inputs *inputs, double time, double *value,
                 const struct scratch *scratch)
{
    for (int p = 0; inputs->tap && p < network->pour_places; p++) {
        const struct tap *tap = &network->tap[network->pour_place[p].tap];
        if (!tap_runs(&inputs->tap[network->pour_place[p].tap], time))
            continue;
        const struct pour *pour = &inputs->pour[p];
        const bool in = enthalpy(network, pour, p, scratch) > 0.0;
        const int row = network->stiff.states + tap->account + 2 * network->fuels + (in ? 0 : 1);
        value[network->pattern_start[row] + p - tap->first] += in ? pour->volume : -pour->volume;
    }
}
