/* sim/network/followers.c  Readings that run after what they measure, dm/dt = (x - m)/lag: taken over from the plan, rates,
 * slopes. Nothing of the gas feels them. One without a lag, of which no fault can make a slow one, has no state and shows x. */
#include "network/inside.h"

#include <string.h>

#define PRESSURE_SCALE 1000.0  /* Pa */
#define FLOW_SCALE 1e-2        /* mol/s: 15 L/min */
#define LEVEL_SCALE 0.1        /* of a tank */
#define TEMPERATURE_SCALE 10.0 /* K */

#define LAG_LEAST 5e-3 /* s: of a reading that has a state only because a fault may make it slow */

/* Passages of the plan that nobody joins are left out, and shift the numbers of those behind them. */
static int passage_kept(const struct network *network, const struct blueprint *plan, int planned)
{
    int kept = 0;
    for (int p = 0; p < planned; p++)
        kept += plan->passage[p].joint_of < 0 ||
                network_joint(network, plan->passage[p].joint_of, plan->passage[p].part) >= 0;
    return kept;
}

bool followers_take(struct network *network, const struct blueprint *plan)
{
    network->followers = plan->followers;
    network->follower = arena_take(network->arena, ((size_t)plan->followers + 1) * sizeof *network->follower);
    network->follower_of = arena_take(network->arena, ((size_t)network->parts + 1) * sizeof *network->follower_of);
    if (!network->follower || !network->follower_of)
        return false;
    for (int k = 0; k < network->parts; k++)
        network->follower_of[k] = -1;
    for (int f = 0; f < plan->followers; f++) {
        const struct follower_plan *from = &plan->follower[f];
        const bool lags = from->lag > 0.0 || network->part[from->part].keeps;
        network->follower[f] =
            (struct follower){.part = from->part,
                              .follows = from->follows,
                              .place = from->place,
                              .passage = from->passage < 0 ? -1 : passage_kept(network, plan, from->passage),
                              .lag_row = from->lag_row,
                              .stuck_row = from->stuck_row,
                              .at = lags ? network->stiff.states : -1};
        network->follower_of[from->part] = f;
        network->stiff.states += lags;
    }
    return true;
}

double follower_scale(const struct follower *follower)
{
    if (follower->passage >= 0)
        return FLOW_SCALE;
    return follower->follows == FOLLOWS_LEVEL         ? LEVEL_SCALE
           : follower->follows == FOLLOWS_TEMPERATURE ? TEMPERATURE_SCALE
                                                      : PRESSURE_SCALE;
}

/* m3: all the inside of the vessel that a liquid stands in. */
static double inside(const struct volume *volume)
{
    return volume->shape.volume[volume->shape.corners - 1];
}

static const struct volume *liquid_of(const struct network *network, const struct follower *follower,
                                      const struct scratch *scratch)
{
    const struct volume *volume = follower->place >= 0 ? &network->volume[follower->place] : NULL;
    return volume && volume->pool && !scratch->volume[follower->place].liquid.asleep ? volume : NULL;
}

double follower_sees(const struct network *network, const struct follower *follower, const struct scratch *scratch)
{
    if (follower->passage >= 0)
        return scratch->flow[follower->passage].value;
    const struct place_gas *place = place_of(scratch, follower->place);
    const struct volume *liquid = liquid_of(network, follower, scratch);
    switch (follower->follows) {
    case FOLLOWS_LEVEL:
        return liquid ? place->liquid.volume / inside(liquid) : 0.0;
    case FOLLOWS_TEMPERATURE:
        return liquid ? place->liquid.temperature : place->gas.temperature;
    case FOLLOWS_PRESSURE:
        break;
    }
    return place->gas.excess - place_of(scratch, PLACE_AIR)->gas.excess;
}

/* How late a reading is; INFINITY: it does not follow. */
static double follower_lag(const struct network *network, const struct inputs *inputs, const struct follower *follower,
                           double time)
{
    struct parameters room;
    const double *parameter = parameters_now(network, inputs, follower->part, time, &room);
    const double lag = parameter[follower->lag_row];
    return (lag > 0.0 ? lag : LAG_LEAST) / (1.0 - parameter[follower->stuck_row]);
}

void followers_look(const struct network *network, const struct inputs *inputs, double time, struct scratch *scratch)
{
    for (int f = 0; f < network->followers; f++)
        if (network->follower[f].at >= 0)
            scratch->lag[f] = follower_lag(network, inputs, &network->follower[f], time);
}

void followers_rates(const struct network *network, const double *y, double *dydt, const struct scratch *scratch)
{
    for (int f = 0; f < network->followers; f++) {
        const struct follower *follower = &network->follower[f];
        if (follower->at >= 0)
            dydt[follower->at] = (follower_sees(network, follower, scratch) - y[follower->at]) / scratch->lag[f];
    }
}

/* ---- slopes ---- */

/* Columns of its row: what it sees hangs on, then its own state. Written where `column` is not null; how many. */
int follower_row(const struct network *network, const struct follower *follower, int *column)
{
    int count = 0;
    if (follower->passage >= 0) {
        count = passage_row(network, &network->passage[follower->passage], column);
    } else if (follower->place >= 0) {
        const struct volume *volume = &network->volume[follower->place];
        const bool one = follower->follows == FOLLOWS_PRESSURE;
        count = one ? 1 : volume->felt;
        for (int k = 0; column && k < count; k++)
            column[k] = volume->at + (one ? network->carried + 1 : k);
    }
    if (column)
        column[count] = follower->at;
    return count + 1;
}

/* d of what it sees in a gas space / d what is felt of that [felt]. */
static void sight_slope(const struct network *network, const struct follower *follower, const struct scratch *scratch,
                        double *slope)
{
    const struct volume *volume = &network->volume[follower->place], *liquid = liquid_of(network, follower, scratch);
    memset(slope, 0, (size_t)volume->felt * sizeof *slope);
    if (follower->follows == FOLLOWS_TEMPERATURE && !liquid)
        memcpy(slope, scratch->gradient[follower->place].by[GAS_TEMPERATURE], (size_t)volume->felt * sizeof *slope);
    if (follower->follows == FOLLOWS_TEMPERATURE && liquid)
        pool_temperature_slope(network, follower->place, scratch, slope);
    if (follower->follows == FOLLOWS_LEVEL && liquid) {
        pool_volume_slope(network, follower->place, scratch, slope);
        for (int k = 0; k < volume->felt; k++)
            slope[k] /= inside(liquid);
    }
}

static void follower_slopes(const struct network *network, int f, const struct scratch *scratch, double *value)
{
    const struct follower *follower = &network->follower[f];
    double *row = &value[network->pattern_start[follower->at]];
    const int count = network->pattern_start[follower->at + 1] - network->pattern_start[follower->at];
    const double quick = 1.0 / scratch->lag[f];
    row[count - 1] = -quick;
    if (follower->passage >= 0) {
        const struct passage *passage = &network->passage[follower->passage];
        const struct pair *slope = &scratch->slope[follower->passage];
        for (int k = 0; passage->row_a >= 0 && k < network->volume[passage->a].felt; k++)
            row[passage->row_a + k] += quick * slope->a[k];
        for (int k = 0; passage->row_b >= 0 && k < network->volume[passage->b].felt; k++)
            row[passage->row_b + k] += quick * slope->b[k];
    } else if (follower->place >= 0 && follower->follows == FOLLOWS_PRESSURE) {
        row[0] = quick;
    } else if (follower->place >= 0) {
        double slope[FELT_MOST];
        sight_slope(network, follower, scratch, slope);
        for (int k = 0; k < count - 1; k++)
            row[k] = quick * slope[k];
    }
}

void followers_slopes(const struct network *network, const struct scratch *scratch, double *value)
{
    for (int f = 0; f < network->followers; f++)
        if (network->follower[f].at >= 0)
            follower_slopes(network, f, scratch, value);
}
