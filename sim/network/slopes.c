/* sim/network/slopes.c  The Jacobian of rates.c, by hand.
 *
 * 1. Per volume, how T, M, viscosity, gamma depend on its own states (struct gradient; p is a state itself):
 *      dT/dN_i = -u_i/C,  dT/dE = 1/C,  dM/dN_i = (m_i - M)/n,  dx_j/dN_i = (delta_ij - x_j)/n,
 *      dC = sum cv_i dN_i + sum cp_i dQ_i + C' dT, C' what a kelvin adds;  gamma = 1 + n R/C_gas.
 * 2. Per passage, the law's slopes times these give dF over both blocks; each carried quantity is F x_j, enthalpy F h,
 *    so its row is x_j dF, plus F dx_j on the upstream side. The same numbers go with both signs into both volumes, so
 *    that the columns of a conserved quantity cancel to the last bit.
 * 3. Heat, on its own volume.
 * 4. The rows of energy and pressure last, as a fixed combination of the finished rows, plus their own partials. */
#include "law/uptake.h"
#include "network/inside.h"

#include <string.h>

static void volume_gradient(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            struct gradient *gradient)
{
    const double n = place->amount, c = place->heat_capacity, gas = place->gas_capacity;
    const double gamma_by_temperature = -n * GAS_CONSTANT * place->gas_warming / (gas * gas);
    const bool held = network->assume.heat == HEAT_ISOTHERMAL;
    double mean = 0.0; /* sum x_j d mu / d x_j: what the projection onto shares takes away */
    for (int i = 0; i < network->species; i++)
        mean += place->share[i] * place->viscosity_by_share[i];
    memset(gradient, 0, sizeof *gradient);
    for (int i = 0; i < network->species; i++) {
        const double cv = place->heat[i] - GAS_CONSTANT;
        const double by_amount = held ? 0.0 : -inner_energy(place, i) / c;
        gradient->by[GAS_TEMPERATURE][i] = by_amount;
        gradient->by[GAS_MOLAR_MASS][i] = (network->kind[i]->molar_mass - place->gas.molar_mass) / n;
        gradient->by[GAS_GAMMA][i] = GAS_CONSTANT / gas * (1.0 - n * cv / gas) + gamma_by_temperature * by_amount;
        gradient->by[GAS_VISCOSITY][i] =
            (place->viscosity_by_share[i] - mean) / n + place->viscosity_by_temperature * by_amount;
    }
    const double by_energy = held ? 0.0 : 1.0 / c;
    gradient->by[GAS_TEMPERATURE][network->carried] = by_energy;
    gradient->by[GAS_VISCOSITY][network->carried] = place->viscosity_by_temperature * by_energy;
    gradient->by[GAS_GAMMA][network->carried] = gamma_by_temperature * by_energy;
    gradient->by[GAS_PRESSURE][network->carried + 1] = 1.0;
    for (int i = 0; volume->carbon > 0.0 && !held && i < network->species; i++) {
        const double by_load = -load_energy(volume, place, i) / c;
        gradient->by[GAS_TEMPERATURE][network->carried + 2 + i] = by_load;
        gradient->by[GAS_VISCOSITY][network->carried + 2 + i] = place->viscosity_by_temperature * by_load;
        gradient->by[GAS_GAMMA][network->carried + 2 + i] = gamma_by_temperature * by_load;
    }
}

static void height_gradient(const struct network *network, int v, const struct scratch *scratch)
{
    const struct volume *volume = &network->volume[v];
    double *height = scratch->gradient[v].height;
    const double slope = shape_height(&volume->shape, scratch->volume[v].liquid.volume).slope;
    pool_volume_slope(network, v, scratch, scratch->gradient[v].volume);
    for (int k = 0; k < volume->felt; k++)
        height[k] = slope * scratch->gradient[v].volume[k];
}

static void flow_gradient(int felt, const double *slope, const struct gradient *gradient, double *row)
{
    for (int k = 0; k < felt; k++) {
        double sum = 0.0;
        for (int q = 0; q < GAS_QUANTITIES; q++)
            sum += slope[q] * gradient->by[q][k];
        row[k] = sum;
    }
}

static void pair_scale(const struct pair *flow, double factor, struct pair *row)
{
    for (int k = 0; k < FELT_MOST; k++) {
        row->a[k] = factor * flow->a[k];
        row->b[k] = factor * flow->b[k];
    }
}

/* Where slopes are written: values by rows. */
struct sheet {
    const struct network *network;
    double *value;
};

static double *sheet_row(const struct sheet *sheet, int row)
{
    return &sheet->value[sheet->network->pattern_start[row]];
}

static void row_add(double *row, int at, const double *part, int count, double sign)
{
    for (int k = 0; at >= 0 && k < count; k++)
        row[at + k] += sign * part[k];
}

/* States of a place that a passage's flow feels; a boundary has none. */
static int felt_of(const struct network *network, int place)
{
    return place >= 0 ? network->volume[place].felt : 0;
}

/* Adds one quantity's row on both sides. `which`: row inside a volume's block, pair of accounts on a boundary. */
static void add_quantity(const struct sheet *sheet, const struct passage *passage, const struct pair *row, int which,
                         double flow)
{
    const struct network *network = sheet->network;
    const int of_a = felt_of(network, passage->a), of_b = felt_of(network, passage->b);
    if (passage->a >= 0) {
        double *into = sheet_row(sheet, network->volume[passage->a].at + which);
        row_add(into, passage->a_in_a, row->a, of_a, -1.0);
        row_add(into, passage->b_in_a, row->b, of_b, -1.0);
    }
    if (passage->b >= 0) {
        double *into = sheet_row(sheet, network->volume[passage->b].at + which);
        row_add(into, passage->a_in_b, row->a, of_a, 1.0);
        row_add(into, passage->b_in_b, row->b, of_b, 1.0);
    }
    /* rates.c books by sign: out of a boundary is `in`, into it `out`; both rows grow with the size of the flow */
    const int energy = which == network->carried;
    const int in = energy ? 2 * network->carried : which;
    const int out = energy ? in + 1 : which + network->carried;
    const double sign = flow > 0.0 ? 1.0 : -1.0;
    const int first[2] = {passage->account_a, passage->account_b};
    for (int side = 0; side < 2; side++) {
        if (first[side] < 0)
            continue;
        const bool comes_in = (flow > 0.0) == (side == 0);
        double *into = sheet_row(sheet, network->stiff.states + first[side] + (comes_in ? in : out));
        row_add(into, passage->row_a, row->a, of_a, sign);
        row_add(into, passage->row_b, row->b, of_b, sign);
    }
}

/* d of the enthalpy a mol of a place's gas has, to its states. */
static void enthalpy_row(const struct network *network, int place, const struct place_gas *gas, double factor,
                         const struct scratch *scratch, double *row)
{
    for (int k = 0; k < felt_of(network, place); k++) {
        row[k] += factor * gas->cp * scratch->gradient[place].by[GAS_TEMPERATURE][k];
        if (k < network->species)
            row[k] += factor * (gas->enthalpy[k] - gas->h) / gas->amount;
    }
}

static void add_passage(const struct sheet *sheet, const struct passage *passage, const struct pair *slope, double flow,
                        const struct scratch *scratch)
{
    const struct network *network = sheet->network;
    const bool forward = flow >= 0.0;
    const int up = forward ? passage->a : passage->b;
    const struct place_gas *gas = place_of(scratch, up);
    struct pair row;
    double *upstream = forward ? row.a : row.b;
    for (int j = 0; j < network->carried; j++) {
        pair_scale(slope, gas->share[j], &row);
        for (int k = 0; up >= 0 && k < network->carried; k++)
            upstream[k] += flow * ((k == j) - (k < network->species ? gas->share[j] : 0.0)) / gas->amount;
        add_quantity(sheet, passage, &row, j, flow);
    }
    pair_scale(slope, gas->h, &row);
    enthalpy_row(network, up, gas, flow, scratch, upstream);
    add_quantity(sheet, passage, &row, network->carried, flow);
}

/* d of one gas's diffusion to the states of one side. */
static void diffusion_row(const struct network *network, int place, const struct place_gas *gas, const double *by_share,
                          double by_temperature, const struct scratch *scratch, double *row)
{
    double mean = 0.0;
    for (int j = 0; j < network->species; j++)
        mean += by_share[j] * gas->share[j];
    for (int k = 0; k < felt_of(network, place); k++) {
        row[k] += by_temperature * scratch->gradient[place].by[GAS_TEMPERATURE][k];
        if (k < network->species)
            row[k] += (by_share[k] - mean) / gas->amount;
    }
}

/* Enthalpy that goes along, and heat conducted: what hangs on the temperatures themselves. */
static void exchange_heat_row(const struct network *network, int place, double slope, const struct scratch *scratch,
                              double *row)
{
    for (int k = 0; k < felt_of(network, place); k++)
        row[k] += slope * scratch->gradient[place].by[GAS_TEMPERATURE][k];
}

/* Adds to the row of a volume's side what hangs on the amount of its liquid. */
static void liquid_row(const struct network *network, int p, int volume, double factor, const struct scratch *scratch,
                       struct pair *row)
{
    double *side = network->passage[p].a == volume ? row->a : row->b;
    for (int k = 0; k < network->volume[volume].felt; k++)
        side[k] += factor * scratch->gradient[volume].volume[k];
}

/* d ln reach by the volume of the liquid at a surface. */
static double surface_reach(const struct network *network, int p, const struct scratch *scratch)
{
    const struct pool_level *level = &scratch->volume[network->passage[p].surface].liquid.level;
    return level->area.slope / level->area.value - level->dry.slope / level->dry.value;
}

/* m3 of liquid that volume v holds when it is full. */
static double held_by(const struct network *network, int v)
{
    const struct vessel_shape *shape = &network->volume[v].shape;
    return shape->volume[shape->corners - 1];
}

/* What diffuses goes as the reach at a given ratio of flow to reach: d value/d reach = (value - flow d value/d flow)/reach.
 * Here by a liquid that covers the opening, or at whose surface it begins. */
static void reach_row(const struct network *network, int p, const struct diffusion *diffusion, int i,
                      const struct scratch *scratch, struct pair *row)
{
    const struct passage *passage = &network->passage[p];
    const double by_reach = diffusion->value[i] - scratch->flow[p].value * diffusion->by_flow[i];
    if (passage->surface >= 0)
        liquid_row(network, p, passage->surface, by_reach * surface_reach(network, p, scratch), scratch, row);
    const struct wet *wet = &scratch->dip[p].wet;
    if (wet->open_by_a < 0.0)
        liquid_row(network, p, passage->wet_a, by_reach * wet->open_by_a / wet->open / held_by(network, passage->wet_a),
                   scratch, row);
    if (wet->open_by_b < 0.0)
        liquid_row(network, p, passage->wet_b, by_reach * wet->open_by_b / wet->open / held_by(network, passage->wet_b),
                   scratch, row);
    if (passage->dip < 0 || !(scratch->dip[p].cover_slope > 0.0))
        return;
    const double by_height = -scratch->dip[p].cover_slope / (1.0 - scratch->dip[p].cover) * by_reach;
    liquid_row(network, p, passage->dip, by_height * scratch->volume[passage->dip].liquid.level.height.slope, scratch,
               row);
}

static void add_exchange(const struct sheet *sheet, int p, const struct pair *slope, const struct scratch *scratch)
{
    const struct network *network = sheet->network;
    const struct passage *passage = &network->passage[p];
    const struct place_gas *gas_a = place_of(scratch, passage->a), *gas_b = place_of(scratch, passage->b);
    const struct diffusion_side a = diffusion_side_of(gas_a), b = diffusion_side_of(gas_b);
    struct diffusion diffusion = {0};
    if (scratch->reach[p] > 0.0)
        diffusion = diffusion_between(&network->diffusers, scratch->reach[p], scratch->flow[p].value, &a, &b);
    const double conduct = scratch->conduct[p], conducted = conduct * (a.temperature - b.temperature);
    struct pair heat = {0};
    double enthalpy = conducted, capacity_a = 0.0, capacity_b = 0.0;
    for (int i = 0; i < network->species; i++) {
        const double mean = 0.5 * (gas_a->enthalpy[i] + gas_b->enthalpy[i]);
        struct pair row;
        pair_scale(slope, diffusion.by_flow[i], &row);
        diffusion_row(network, passage->a, gas_a, diffusion.by_share_a[i], diffusion.by_temperature[i], scratch, row.a);
        diffusion_row(network, passage->b, gas_b, diffusion.by_share_b[i], diffusion.by_temperature[i], scratch, row.b);
        if (scratch->reach[p] > 0.0) /* else it is shut by liquid, and nothing diffuses */
            reach_row(network, p, &diffusion, i, scratch, &row);
        add_quantity(sheet, passage, &row, i, diffusion.value[i]);
        enthalpy += mean * diffusion.value[i];
        capacity_a += gas_a->heat[i] * diffusion.value[i];
        capacity_b += gas_b->heat[i] * diffusion.value[i];
        for (int k = 0; k < FELT_MOST; k++) {
            heat.a[k] += mean * row.a[k];
            heat.b[k] += mean * row.b[k];
        }
    }
    exchange_heat_row(network, passage->a, 0.5 * capacity_a + conduct, scratch, heat.a);
    exchange_heat_row(network, passage->b, 0.5 * capacity_b - conduct, scratch, heat.b);
    if (passage->surface >= 0)
        liquid_row(network, p, passage->surface, conducted * surface_reach(network, p, scratch), scratch, &heat);
    add_quantity(sheet, passage, &heat, network->carried, enthalpy);
}

static void share_row(const struct network *network, int place, const struct place_gas *gas, int i, double factor,
                      double *row)
{
    for (int k = 0; place >= 0 && k < network->carried; k++)
        row[k] += factor * ((k == i) - (k < network->species ? gas->share[i] : 0.0)) / gas->amount;
}

/* d ln of what changes places, by the volume of the liquid; what pouring stirs up beside it does not hang on that. */
static double surface_stir(const struct network *network, int p, const struct scratch *scratch)
{
    const struct pool_level *level = &scratch->volume[network->passage[p].surface].liquid.level;
    return level->area.slope / level->area.value * scratch->shaken[p] / scratch->stir[p];
}

static void add_stirring(const struct sheet *sheet, int p, const struct scratch *scratch)
{
    const struct network *network = sheet->network;
    const struct passage *passage = &network->passage[p];
    const struct place_gas *a = place_of(scratch, passage->a), *b = place_of(scratch, passage->b);
    const double stir = scratch->stir[p];
    for (int i = 0; i < network->carried; i++) {
        const double changes = stir * (a->share[i] - b->share[i]);
        struct pair row = {0};
        share_row(network, passage->a, a, i, stir, row.a);
        share_row(network, passage->b, b, i, -stir, row.b);
        if (passage->surface >= 0)
            liquid_row(network, p, passage->surface, changes * surface_stir(network, p, scratch), scratch, &row);
        add_quantity(sheet, passage, &row, i, changes);
    }
    const double changes = stir * (a->h - b->h);
    struct pair heat = {0};
    enthalpy_row(network, passage->a, a, stir, scratch, heat.a);
    enthalpy_row(network, passage->b, b, -stir, scratch, heat.b);
    if (passage->surface >= 0)
        liquid_row(network, p, passage->surface, changes * surface_stir(network, p, scratch), scratch, &heat);
    add_quantity(sheet, passage, &heat, network->carried, changes);
}

/* What the carbon takes up, on its own volume: from the gas rows into its own. */
static void add_uptake(const struct sheet *sheet, const struct volume *volume, const struct place_gas *place,
                       const struct gradient *gradient)
{
    const struct network *network = sheet->network;
    const int species = network->species;
    double pressure[CARRIED_MOST];
    partial_pressures(network, place, pressure);
    const struct uptake taken =
        uptake_rates(&volume->sorbent, place->active, volume->uptake, pressure, place->gas.temperature, place->load);
    for (int i = 0; i < species; i++) {
        double *gas = sheet_row(sheet, volume->at + i) + volume->own;
        double *load = sheet_row(sheet, volume->at + network->carried + 2 + i) + volume->own;
        double mean = 0.0; /* sum over j of da/dp_j share_j: what P brings, and n takes back */
        for (int j = 0; j < species; j++)
            mean += taken.by_pressure[i][j] * place->share[j];
        for (int k = 0; k < volume->felt; k++) {
            double slope = taken.by_temperature[i] * gradient->by[GAS_TEMPERATURE][k];
            if (k < species)
                slope += (taken.by_pressure[i][k] - mean) * place->gas.pressure / place->amount;
            if (k == network->carried + 1)
                slope += mean;
            if (k == network->carried + 2 + i)
                slope += taken.by_amount[i];
            gas[k] -= slope;
            load[k] += slope;
        }
    }
}

/* What a rising level does to the heat of the gas above it: less wall, that holds less. film: its way as it is. */
static void add_level_heat(const struct sheet *sheet, const struct volume *volume, const struct place_gas *place,
                           const struct scratch *scratch, const struct gradient *gradient, const struct heat_way *film,
                           double warmer)
{
    const struct pool_level *level = &place->liquid.level;
    const bool walled = volume->wall > 0.0;
    const double out = place->wall_temperature - scratch->air.temperature;
    const double wall_slope = walled ? -place->wall_temperature * place->wall.slope / place->wall.value : 0.0;
    struct heat_way outer, growth;
    heat_way_growth(&volume->film, level->dry.slope, &growth);
    const double into = heat_growth(film, &growth, warmer, 0.0) + heat_flow(film, warmer, 0.0).slope * wall_slope;
    double lost = walled ? 0.0 : -into;
    if (walled) {
        heat_way_part(&volume->outer, level->dry.value, &outer);
        heat_way_growth(&volume->outer, level->dry.slope, &growth);
        lost = heat_growth(&outer, &growth, out, scratch->air.wind) +
               heat_flow(&outer, out, scratch->air.wind).slope * wall_slope;
    }
    double *energy = sheet_row(sheet, volume->at + sheet->network->carried) + volume->own;
    double *wall = walled ? sheet_row(sheet, volume->at + volume->wall_at) + volume->own : NULL;
    const bool comes_in = walled ? out < 0.0 : warmer > 0.0;
    double *account =
        sheet_row(sheet, sheet->network->stiff.states + volume->account + (comes_in ? HEAT_IN : HEAT_OUT));
    for (int k = 0; k < volume->felt; k++) {
        energy[k] += into * gradient->volume[k];
        account[volume->own + k] += (comes_in ? -lost : lost) * gradient->volume[k];
        if (walled)
            wall[k] -= (into + lost) * gradient->volume[k];
    }
}

static void add_heat(const struct sheet *sheet, const struct volume *volume, const struct place_gas *place,
                     const struct scratch *scratch, const struct gradient *gradient)
{
    const struct network *network = sheet->network;
    if (network->assume.heat != HEAT_FULL)
        return;
    const int wall_column = volume->own + volume->wall_at;
    const bool walled = volume->wall > 0.0;
    double *energy = sheet_row(sheet, volume->at + network->carried);
    double *wall = walled ? sheet_row(sheet, volume->at + volume->wall_at) : NULL;
    const double air = scratch->air.temperature;
    const double outside = walled ? air - place->wall_temperature : air - place->gas.temperature;
    double *account = sheet_row(sheet, network->stiff.states + volume->account + (outside > 0.0 ? HEAT_IN : HEAT_OUT));
    const double sign = outside > 0.0 ? 1.0 : -1.0;
    const double warmer = (walled ? place->wall_temperature : air) - place->gas.temperature;
    struct heat_way part;
    const double film = heat_flow(way_now(volume, place, &volume->film, &part), warmer, 0.0).slope;
    if (volume->pool)
        add_level_heat(sheet, volume, place, scratch, gradient, &part, warmer);
    for (int k = 0; k < volume->felt; k++) {
        const double slope = film * gradient->by[GAS_TEMPERATURE][k];
        energy[volume->own + k] -= slope;
        if (walled)
            wall[volume->own + k] += slope;
        else
            account[volume->own + k] -= sign * slope;
    }
    if (!walled)
        return;
    const double outer = heat_flow(way_now(volume, place, &volume->outer, &part), -outside, scratch->air.wind).slope;
    energy[wall_column] += film / place->wall.value;
    wall[wall_column] -= (outer + film) / place->wall.value;
    account[wall_column] -= sign * outer / place->wall.value;
}

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

static void close_volume(const struct sheet *sheet, int v, const double *rates, const struct scratch *scratch)
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

int network_slopes(const struct network *network, const struct inputs *inputs, double time, const double *y,
                   double *value, struct scratch *scratch)
{
    const int rows = network->stiff.states + network->stiff.accounts;
    const struct sheet sheet = {network, value};
    if (network_state(network, inputs, time, y, scratch, true))
        return 1;
    network_balances(network, y, scratch->rates, scratch);
    memset(value, 0, (size_t)network->pattern_start[rows] * sizeof *value);
    for (int v = 0; v < network->volumes; v++) {
        volume_gradient(network, &network->volume[v], &scratch->volume[v], &scratch->gradient[v]);
        if (network->volume[v].pool)
            height_gradient(network, v, scratch);
    }
    for (int p = 0; p < network->passages; p++) {
        const struct passage *passage = &network->passage[p];
        struct pair *slope = &scratch->slope[p];
        memset(slope, 0, sizeof *slope);
        if (passage->a >= 0)
            flow_gradient(felt_of(network, passage->a), scratch->flow[p].slope_a, &scratch->gradient[passage->a],
                          slope->a);
        if (passage->b >= 0)
            flow_gradient(felt_of(network, passage->b), scratch->flow[p].slope_b, &scratch->gradient[passage->b],
                          slope->b);
        if (passage->dip >= 0)
            for (int k = 0; k < network->volume[passage->dip].felt; k++)
                (passage->dip_at_b ? slope->b : slope->a)[k] +=
                    scratch->dip[p].flow_by_height * scratch->gradient[passage->dip].height[k];
        if (passage->wet_a >= 0)
            liquid_row(network, p, passage->wet_a, scratch->dip[p].wet.flow_by_a / held_by(network, passage->wet_a),
                       scratch, slope);
        if (passage->wet_b >= 0)
            liquid_row(network, p, passage->wet_b, scratch->dip[p].wet.flow_by_b / held_by(network, passage->wet_b),
                       scratch, slope);
        add_passage(&sheet, passage, slope, scratch->flow[p].value, scratch);
        if (scratch->reach[p] > 0.0 || scratch->conduct[p] > 0.0)
            add_exchange(&sheet, p, slope, scratch);
        if (scratch->stir[p] > 0.0)
            add_stirring(&sheet, p, scratch);
    }
    memset(scratch->narrowing, 0, (size_t)network->narrows * sizeof(double));
    memset(scratch->room_slope, 0, (size_t)network->narrows * sizeof(double));
    for (int v = 0; v < network->volumes; v++)
        if (network->volume[v].pool)
            pool_slopes(network, v, scratch, value);
    for (int p = 0; p < network->passages; p++)
        if (scratch->dip[p].spill.flow > 0.0)
            spill_slopes(network, p, scratch, value);
    for (int v = 0; v < network->volumes; v++) {
        if (network->volume[v].carbon > 0.0)
            add_uptake(&sheet, &network->volume[v], &scratch->volume[v], &scratch->gradient[v]);
        add_heat(&sheet, &network->volume[v], &scratch->volume[v], scratch, &scratch->gradient[v]);
        close_volume(&sheet, v, scratch->rates, scratch);
    }
    followers_slopes(network, scratch, value);
    controllers_slopes(network, inputs, y, value, scratch);
    return 0;
}
