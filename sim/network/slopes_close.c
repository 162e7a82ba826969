/* sim/network/slopes_close.c  The rows of energy and pressure of one volume, and of its heat and work: a fixed combination
 * of its finished rows, plus partials of their own. In the terms of rates.c, dp/dt = top/below with
 *   top = R T sum dN_i + K S + (1 + K) p W,  W = give dp_air/dt + narrowing,  below = V + (1 + K) p give
 * so that for a column c,  d(dp/dt)/dc = (d top/dc - dp/dt d below/dc)/below. */
#include "network/sheet.h"

/* Rows that the closing step reads and writes. */
struct closing {
    const struct volume *volume;
    const struct place_gas *place;
    const struct gradient *gradient;
    const struct surroundings_now *air;
    struct intake in;
    double rate;                    /* dp/dt without the drift term */
    double energy;                  /* dE/dt without the work: S = energy - in.energy */
    const double *narrowing, *room; /* d narrowing, d empty by a liquid, to the columns; null: there is none */
    double *row[CARRIED_MOST], *load_row[CARRIED_MOST], *energy_row, *pressure_row, *heat_row, *work_row;
    double heat_sign, work_sign; /* slope of the account row to d(heat) and d(work done by the gas) */
};

/* d of the volume's intake to column c, as far as rates go; the slope of its capacity is not asked for. */
static struct intake closing_intake(const struct network *network, const struct closing *at, int c)
{
    struct intake sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < network->species; i++) {
        sum.amount += at->row[i][c];
        sum.energy += inner_energy(at->place, i) * at->row[i][c];
    }
    for (int i = 0; at->volume->carbon > 0.0 && i < network->species; i++)
        sum.energy += load_energy(at->volume, at->place, i) * at->load_row[i][c];
    return sum;
}

/* d C / d own state k, J/K/mol. */
static double capacity_slope(const struct network *network, const struct closing *at, int k)
{
    const int i = k - network->carried - 2;
    const double warmer = k < at->volume->felt ? at->place->warming * at->gradient->by[GAS_TEMPERATURE][k] : 0.0;
    if (k < network->species)
        return at->place->heat[k] - GAS_CONSTANT + warmer;
    return warmer + (at->volume->carbon > 0.0 && i >= 0 && i < network->species ? at->place->heat[i] : 0.0);
}

/* d (n T) / d own state k, for the equation of state. */
static double amount_temperature(const struct network *network, const struct closing *at, int k)
{
    const double by_amount = k < network->species ? at->place->gas.temperature : 0.0;
    const double slope = k < at->volume->felt ? at->gradient->by[GAS_TEMPERATURE][k] : 0.0;
    return by_amount + at->place->amount * slope;
}

/* d of what the shell creeps [m3/s], to own state k. */
static double creep_slope(const struct network *network, const struct volume *volume, int k)
{
    if (volume->creep_at < 0)
        return 0.0;
    if (k == network->carried + 1)
        return volume->creep / volume->creep_time;
    return k == volume->creep_at ? -1.0 / volume->creep_time : 0.0;
}

/* d of the room as it narrows, and of what is empty, to column c; own: of the block, or -1. */
struct room_slope {
    double narrowing, empty, creeping;
};

static struct room_slope room_slope(const struct network *network, const struct closing *at, int c, int own)
{
    const double creeping = own >= 0 ? creep_slope(network, at->volume, own) : 0.0;
    const double crept = own >= 0 && own == at->volume->creep_at ? 1.0 : 0.0;
    return (struct room_slope){(at->narrowing ? at->narrowing[c] : 0.0) - creeping,
                               (at->room ? at->room[c] : 0.0) + crept, creeping};
}

/* d of the pull towards the equation of state, p being a state of its own. */
static double drift_slope(const struct network *network, const struct closing *at, int own, double empty)
{
    const struct volume *volume = at->volume;
    const double state = pressure_of_state(volume, at->place, at->air->pressure);
    const double below = 2.0 * volume->give * state + at->place->empty - volume->give * at->air->pressure;
    const double of_gas = own >= 0 ? GAS_CONSTANT * amount_temperature(network, at, own) : 0.0;
    const double itself = own == network->carried + 1 ? 1.0 : 0.0;
    return ((of_gas - state * empty) / below - itself) / DRIFT_TIME;
}

/* Partials of numerator and denominator of dp/dt, the rates of amounts and energy held. own: -1 for a column of others. */
static void rate_partials(const struct network *network, const struct closing *at, int own,
                          const struct room_slope *room, double *top, double *below)
{
    const struct place_gas *place = at->place;
    const double give = at->volume->give, p = place->gas.pressure, c = place->heat_capacity;
    const double p_slope = own == network->carried + 1 ? 1.0 : 0.0;
    const double narrow = give * at->air->pressure_rate + place->narrowing;
    const bool gas = own >= 0 && own < network->species;
    if (network->assume.heat == HEAT_ISOTHERMAL) {
        *top = (gas ? GAS_CONSTANT * at->air->temperature_rate : 0.0) + p_slope * narrow + p * room->narrowing;
        *below = 2.0 * give * p_slope + room->empty;
        return;
    }
    const double k0 = place->amount * GAS_CONSTANT / c;
    const double capacity = own >= 0 ? capacity_slope(network, at, own) : 0.0;
    const double k_slope = ((gas ? GAS_CONSTANT : 0.0) - k0 * capacity) / c;
    const double t_slope = own >= 0 && own < at->volume->felt ? at->gradient->by[GAS_TEMPERATURE][own] : 0.0;
    const double s = at->energy - at->in.energy;
    const double given = k_slope * p + (1.0 + k0) * p_slope;
    *top = GAS_CONSTANT * t_slope * at->in.amount + k_slope * s - k0 * t_slope * at->in.capacity + given * narrow +
           (1.0 + k0) * p * room->narrowing;
    *below = give * p_slope + given * give + room->empty;
}

static void close_column(const struct network *network, const struct closing *at, int c)
{
    const struct place_gas *place = at->place;
    const bool held = network->assume.heat == HEAT_ISOTHERMAL;
    const double p = place->gas.pressure, t = place->gas.temperature, give = at->volume->give;
    const double k0 = held ? 0.0 : place->amount * GAS_CONSTANT / place->heat_capacity;
    const double below = place->room + (1.0 + k0) * p * give;
    const int own = c >= at->volume->own && c < at->volume->own + at->volume->block ? c - at->volume->own : -1;
    const struct room_slope room = room_slope(network, at, c, own);
    const struct intake in = closing_intake(network, at, c);
    const double flows = at->energy_row[c];
    const double top = GAS_CONSTANT * t * in.amount + k0 * (flows - in.energy);
    double top_own, below_own;
    rate_partials(network, at, own, &room, &top_own, &below_own);
    const double rate = (top + top_own - at->rate * below_own) / below;
    const double p_slope = own == network->carried + 1 ? 1.0 : 0.0;
    const double work = give * (p * rate + p_slope * (at->rate - at->air->pressure_rate));
    const double pushed = p_slope * place->narrowing + p * room.narrowing;
    at->pressure_row[c] = rate + drift_slope(network, at, own, room.empty);
    if (held) {
        const double capacity = own >= 0 ? capacity_slope(network, at, own) : 0.0;
        at->energy_row[c] = in.energy + capacity * at->air->temperature_rate;
        at->heat_row[c] += at->heat_sign * (at->energy_row[c] - flows + work - pushed);
    } else {
        at->energy_row[c] = flows - work + pushed;
    }
    at->work_row[c] += at->work_sign * (work + p_slope * place->creeping + p * room.creeping);
}

void slopes_close(const struct sheet *sheet, int v, const double *rates, const struct scratch *scratch)
{
    const struct network *network = sheet->network;
    const struct volume *volume = &network->volume[v];
    const struct place_gas *place = &scratch->volume[v];
    const double *own = &rates[volume->at];
    struct closing at = {.volume = volume,
                         .place = place,
                         .gradient = &scratch->gradient[v],
                         .air = &scratch->air,
                         .in = volume_intake(network, volume, place, own)};
    const double drift = (pressure_of_state(volume, place, scratch->air.pressure) - place->gas.pressure) / DRIFT_TIME;
    at.rate = own[network->carried + 1] - drift;
    if (volume->narrow_at >= 0) {
        at.narrowing = &scratch->narrowing[volume->narrow_at];
        at.room = &scratch->room_slope[volume->narrow_at];
    }
    const double work = place->gas.pressure * volume->give * (at.rate - scratch->air.pressure_rate);
    at.energy = own[network->carried] + work - place->gas.pressure * place->narrowing;
    const double *account = &rates[network->stiff.states + volume->account];
    const bool heat_in = account[HEAT_IN] > 0.0, work_in = account[WORK_IN] > 0.0;
    for (int i = 0; i < network->species; i++)
        at.row[i] = sheet_row(sheet, volume->at + i);
    for (int i = 0; volume->carbon > 0.0 && i < network->species; i++)
        at.load_row[i] = sheet_row(sheet, volume->at + network->carried + 2 + i);
    at.energy_row = sheet_row(sheet, volume->at + network->carried);
    at.pressure_row = sheet_row(sheet, volume->at + network->carried + 1);
    at.heat_row = sheet_row(sheet, network->stiff.states + volume->account + (heat_in ? HEAT_IN : HEAT_OUT));
    at.work_row = sheet_row(sheet, network->stiff.states + volume->account + (work_in ? WORK_IN : WORK_OUT));
    at.heat_sign = heat_in ? 1.0 : -1.0;
    at.work_sign = work_in ? -1.0 : 1.0;
    if (volume->creep_at >= 0) {
        double *crept = sheet_row(sheet, volume->at + volume->creep_at) + volume->own;
        crept[network->carried + 1] += creep_slope(network, volume, network->carried + 1);
        crept[volume->creep_at] += creep_slope(network, volume, volume->creep_at);
    }
    for (int c = 0; c < volume->columns; c++)
        close_column(network, &at, c);
}
