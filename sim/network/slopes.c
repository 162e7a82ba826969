/* sim/network/slopes.c  The Jacobian of rates.c, by hand.
 *
 * 1. Per volume, how T, M, viscosity, gamma depend on its own states (struct gradient; p is a state itself):
 *      dT/dN_i = -u_i/C,  dT/dE = 1/C,  dM/dN_i = (m_i - M)/n,  dx_j/dN_i = (delta_ij - x_j)/n,
 *      dC = sum cv_i dN_i + sum cp_i dQ_i + C' dT, C' what a kelvin adds;  gamma = 1 + n R/C_gas.
 * 2. Per passage, the law's slopes times these give dF over both blocks; each carried quantity is F x_j, enthalpy F h,
 *    so its row is x_j dF, plus F dx_j on the upstream side. The same numbers go with both signs into both volumes, so
 *    that the columns of a conserved quantity cancel to the last bit.
 * 3. Heat, on its own volume.
 * 4. The rows of energy and pressure last, from the finished rows: slopes_close.c. */
#include "law/uptake.h"
#include "network/sheet.h"

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
    if (scratch->volume[v].liquid.asleep) /* volume_gradient has set it to nothing */
        return;
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

/* What T, p and the rest of each volume's gas are to its own states. */
static void gradients_make(const struct network *network, struct scratch *scratch)
{
    for (int v = 0; v < network->volumes; v++) {
        volume_gradient(network, &network->volume[v], &scratch->volume[v], &scratch->gradient[v]);
        if (network->volume[v].pool)
            height_gradient(network, v, scratch);
    }
}

/* dF of a passage, to the states of both sides that it feels: their gases, and liquid at its opening or in its way. */
static void way_slope(const struct network *network, int p, const struct scratch *scratch, struct pair *slope)
{
    const struct passage *passage = &network->passage[p];
    const struct flow *flow = &scratch->flow[p];
    const struct dip_now *dip = &scratch->dip[p];
    memset(slope, 0, sizeof *slope);
    if (passage->a >= 0)
        flow_gradient(felt_of(network, passage->a), flow->slope_a, &scratch->gradient[passage->a], slope->a);
    if (passage->b >= 0)
        flow_gradient(felt_of(network, passage->b), flow->slope_b, &scratch->gradient[passage->b], slope->b);
    if (passage->dip >= 0)
        for (int k = 0; k < network->volume[passage->dip].felt; k++)
            (passage->dip_at_b ? slope->b : slope->a)[k] +=
                dip->flow_by_height * scratch->gradient[passage->dip].height[k];
    if (passage->wet_a >= 0)
        liquid_row(network, p, passage->wet_a, dip->wet.flow_by_a / held_by(network, passage->wet_a), scratch, slope);
    if (passage->wet_b >= 0)
        liquid_row(network, p, passage->wet_b, dip->wet.flow_by_b / held_by(network, passage->wet_b), scratch, slope);
}

static void add_way(const struct sheet *sheet, int p, struct scratch *scratch)
{
    struct pair *slope = &scratch->slope[p];
    way_slope(sheet->network, p, scratch, slope);
    add_passage(sheet, &sheet->network->passage[p], slope, scratch->flow[p].value, scratch);
    if (scratch->reach[p] > 0.0 || scratch->conduct[p] > 0.0)
        add_exchange(sheet, p, slope, scratch);
    if (scratch->stir[p] > 0.0)
        add_stirring(sheet, p, scratch);
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
    gradients_make(network, scratch);
    for (int p = 0; p < network->passages; p++)
        add_way(&sheet, p, scratch);
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
        slopes_close(&sheet, v, scratch->rates, scratch);
    }
    followers_slopes(network, scratch, value);
    taps_slopes(network, inputs, scratch->time, value, scratch);
    controllers_slopes(network, inputs, y, value, scratch);
    return 0;
}
