/* sim/network/rates.c  The derivative: gases from states, flows from gases, balances from flows.
 *
 * With h_i(T) and cp_i(T) as in property/warmth.c, u_i = h_i - R T and cv_i = cp_i - R, for a volume
 *   V = room + give (p - p_air),  n = sum N_i,  sum N_i u_i(T) = E, solved for T,  C = sum N_i cv_i(T),  K = n R / C
 *   dN_i/dt = flows,   dE/dt = enthalpy flows + heat - p dV/dt,   dV/dt = give (dp/dt - dp_air/dt)
 * and from pV = nRT, with S = (dE/dt without the work) - sum u_i dN_i/dt,
 *   dp/dt = [R T sum dN_i + K S + (1 + K) p give dp_air/dt] / [V + (1 + K) p give]
 * to which (p_eos - p)/DRIFT_TIME is added. Isothermal: T is the surroundings' own, C dT/dt is heat from outside, and
 *   dp/dt = [R T sum dN_i + n R dT/dt + p give dp_air/dt] / [V + p give].
 * A liquid takes a share s of its volume V_l from it (pool.c), and the shell creeps by S, dS/dt = (creep (p - p_air) - S)/
 * creep_time: V = room - s V_l + S + give (p - p_air), and give dp_air/dt above becomes give dp_air/dt + s dV_l/dt - dS/dt.
 * Carbon in a volume holds Q_i mol; its E is that of gas, carbon and what it holds,
 *   E = sum N_i u_i + C_carbon T + sum Q_i (h_i - heat_i),  and  C = sum N_i cv_i + C_carbon + sum Q_i cp_i,
 * and what is taken up, dQ_i/dt = uptake, dN_i/dt = -uptake, moves within one energy: the heat of adsorption needs no term of
 * its own and cannot unbalance the ledger. S then loses sum (h_i - heat_i) dQ_i/dt as well.
 * A flow carries what stands upstream. Every flow is booked twice, once on each side, from the same variable, so that
 * amounts and energy are conserved to round-off whatever the solver does. */
#include "law/uptake.h"
#include "network/inside.h"

#include <string.h>

#define COLDEST 1.0 /* K */
#define HOTTEST 2e4 /* K */

#define STANDARD_DENSITY (STANDARD_PRESSURE / (GAS_CONSTANT * STANDARD_TEMPERATURE)) /* mol/m3 */

const struct place_gas *place_of(const struct scratch *scratch, int place)
{
    return place >= 0 ? &scratch->volume[place] : &scratch->boundary[PLACE_BOUNDARY - place];
}

/* Molar mass, enthalpies, gamma, viscosity from shares and temperature. */
static void mix(const struct network *network, struct place_gas *place, bool slopes)
{
    const struct warmth warmth = gas_warmth(place->gas.temperature);
    double mass = 0.0, cp = 0.0, h = 0.0;
    for (int i = 0; i < network->species; i++) {
        place->enthalpy[i] = species_enthalpy(network->kind[i], place->gas.temperature, &warmth);
        place->heat[i] = species_heat_capacity(network->kind[i], &warmth);
        mass += place->share[i] * network->kind[i]->molar_mass;
        cp += place->share[i] * place->heat[i];
        h += place->share[i] * place->enthalpy[i];
    }
    place->cp = cp;
    place->h = h;
    place->gas.molar_mass = mass;
    place->gas.gamma = cp / (cp - GAS_CONSTANT);
    if (!slopes) {
        place->gas.viscosity =
            mixture_viscosity_value(network->species, network->kind, place->share, place->gas.temperature);
        return;
    }
    const struct mixture_viscosity viscosity =
        mixture_viscosity(network->species, network->kind, place->share, place->gas.temperature);
    place->gas.viscosity = viscosity.value;
    place->viscosity_by_temperature = viscosity.by_temperature;
    memcpy(place->viscosity_by_share, viscosity.by_share, sizeof viscosity.by_share);
}

/* What an energy and its temperature have in common: energy = capacity T + slope gas_warmth(T).integral. */
struct stored {
    double capacity, slope, energy; /* J/K at 298.15 K, J/K2, J */
};

/* What the carbon holds; adds its heat capacity, and the heat bound by it to the energy. */
static void carbon_holds(const struct network *network, const struct volume *volume, const double *own,
                         struct place_gas *place, struct stored *all)
{
    all->capacity += volume->dry;
    for (int i = 0; i < network->species; i++) {
        place->load[i] = volume->load[i] + own[network->carried + 2 + i];
        all->capacity += place->load[i] * network->kind[i]->heat_capacity;
        all->slope += place->load[i] * network->kind[i]->heat_slope;
        all->energy += place->load[i] * volume->sorbent.heat[i];
    }
}

/* Temperature and heat capacities of gas, and of all with the carbon. False: the energy is none that it can have. */
static bool warm(const struct network *network, const struct stored *gas, const struct stored *all, double air,
                 struct place_gas *place)
{
    const bool held = network->assume.heat == HEAT_ISOTHERMAL;
    if (!(gas->capacity > 0.0 && all->capacity > 0.0))
        return false;
    const double temperature = held ? air : warmth_temperature(all->capacity, all->slope, all->energy);
    const struct warmth warmth = gas_warmth(temperature);
    place->gas.temperature = temperature;
    place->gas_capacity = gas->capacity + gas->slope * warmth.value;
    place->gas_warming = gas->slope * warmth.slope;
    place->heat_capacity = all->capacity + all->slope * warmth.value;
    place->warming = all->slope * warmth.slope;
    return temperature > COLDEST && temperature < HOTTEST && place->gas_capacity > 0.0 && place->heat_capacity > 0.0;
}

/* 0, or 1 where the state is none that a gas can have. */
static int volume_gas(const struct network *network, int v, const double *y, struct scratch *scratch, bool slopes)
{
    const struct volume *volume = &network->volume[v];
    const struct surroundings_now *air = &scratch->air;
    struct place_gas *place = &scratch->volume[v];
    const double *own = &y[volume->at];
    double amount = 0.0;
    struct stored gas = {.energy = volume->energy + own[network->carried]};
    for (int i = 0; i < network->species; i++) {
        const double here = volume->stock[i] + own[i];
        amount += here;
        gas.capacity += here * (network->kind[i]->heat_capacity - GAS_CONSTANT);
        gas.slope += here * network->kind[i]->heat_slope;
    }
    struct stored all = gas;
    place->amount = amount;
    if (volume->carbon > 0.0)
        carbon_holds(network, volume, own, place, &all);
    if (!(amount > 0.0 && warm(network, &gas, &all, air->temperature, place)))
        return 1;
    place->gas.excess = own[network->carried + 1];
    place->gas.pressure = network->reference + place->gas.excess;
    place->empty = volume->room;
    if (volume->pool && pool_state(network, v, air->temperature, own, &place->liquid))
        return 1;
    if (volume->liquid_in >= 0)
        place->empty -= volume->liquid_share * scratch->volume[volume->liquid_in].liquid.volume;
    place->creeping = 0.0;
    if (volume->creep_at >= 0) {
        place->empty += own[volume->creep_at];
        place->creeping =
            (volume->creep * (place->gas.pressure - air->pressure) - own[volume->creep_at]) / volume->creep_time;
    }
    place->room = place->empty + volume->give * (place->gas.pressure - air->pressure);
    if (!(place->gas.pressure > 0.0 && place->room > 0.0))
        return 1;
    for (int i = 0; i < network->carried; i++)
        place->share[i] = (volume->stock[i] + own[i]) / amount;
    place->wall = volume->pool ? place->liquid.level.upper : (struct sloped){volume->wall, 0.0};
    place->wall_temperature = volume->wall > 0.0 && network->assume.heat == HEAT_FULL
                                  ? (volume->wall_energy + own[volume->wall_at]) / place->wall.value
                                  : place->gas.temperature;
    mix(network, place, slopes);
    return 0;
}

double part_opening(const struct network *network, const struct inputs *inputs, int part, double time)
{
    const struct part *of = &network->part[part];
    const struct ramp *ramp = &inputs->opening[part];
    struct parameters room;
    const struct command_view view = {of, parameters_now(network, inputs, part, time, &room), ramp};
    const double commanded = of->kind->opens ? of->kind->opens(&view, time) : ramp_value(ramp, time);
    return opening_now(network, inputs, part, time, commanded);
}

double boundary_pressure(const struct network *network, const struct inputs *inputs, const struct boundary *boundary,
                         double time, double ambient)
{
    if (!boundary->pressure)
        return ambient;
    const int part = boundary->part;
    struct parameters room;
    const struct boundary_view view = {&network->part[part], parameters_now(network, inputs, part, time, &room),
                                       part_opening(network, inputs, part, time), time, ambient};
    return boundary->pressure(&view);
}

static void boundary_gas(const struct network *network, const struct inputs *inputs, const struct boundary *boundary,
                         double time, const struct surroundings_now *air, struct place_gas *place)
{
    place->gas.pressure = boundary_pressure(network, inputs, boundary, time, air->pressure);
    place->gas.excess = place->gas.pressure - network->reference;
    place->gas.temperature = air->temperature;
    memcpy(place->share, boundary->share, sizeof boundary->share);
    mix(network, place, false);
}

double passage_opening(const struct network *network, const struct inputs *inputs, const struct passage *passage,
                       double time)
{
    if (passage->joint >= 0)
        return inputs->joined[passage->joint] ? 1.0 : 0.0;
    return part_opening(network, inputs, passage->part, time);
}

/* Share of what volume v holds that liquid fills; -1: it does not matter. */
static double full_share(const struct network *network, int v, const struct scratch *scratch)
{
    if (v < 0)
        return -1.0;
    const struct vessel_shape *shape = &network->volume[v].shape;
    return scratch->volume[v].liquid.volume / shape->volume[shape->corners - 1];
}

/* No liquid on either side that could hinder it: none of either has come. */
static bool is_dry(const struct passage *passage, const struct scratch *scratch)
{
    return (passage->wet_a < 0 || scratch->volume[passage->wet_a].liquid.asleep) &&
           (passage->wet_b < 0 || scratch->volume[passage->wet_b].liquid.asleep);
}

/* Past liquid that lies there, and some of that with the gas. */
static struct flow wet_flow(const struct network *network, const struct passage *passage,
                            const struct passage_view *view, const struct scratch *scratch, struct dip_now *now)
{
    const struct gas *a = &place_of(scratch, passage->a)->gas, *b = &place_of(scratch, passage->b)->gas;
    now->wet = (struct wet){.open = 1.0};
    if (is_dry(passage, scratch))
        return passage->law(view, a, b);
    now->wet = (struct wet){.full_a = full_share(network, passage->wet_a, scratch),
                            .full_b = full_share(network, passage->wet_b, scratch),
                            .open = 1.0};
    const struct flow flow = passage->wet(view, a, b, &now->wet);
    if (passage->sink >= 0 && now->wet.runs > 0.0) {
        const struct vessel_shape *shape = &network->volume[passage->wet_a].shape;
        now->spill = spill_taken(network, passage, scratch,
                                 (struct spill_now){now->wet.runs, now->wet.runs_by_flow, now->wet.runs_by_drop,
                                                    now->wet.runs_by_a / shape->volume[shape->corners - 1], 0.0});
    }
    return flow;
}

static struct flow passage_flow(const struct network *network, const struct inputs *inputs,
                                const struct passage *passage, double time, const struct scratch *scratch,
                                struct dip_now *dip)
{
    const double opening = passage_opening(network, inputs, passage, time);
    *dip = (struct dip_now){0};
    if (passage->joint >= 0 && !(opening > 0.0))
        return (struct flow){0};
    struct parameters room;
    const struct passage_view view = {parameters_now(network, inputs, passage->part, time, &room), passage->constant,
                                      opening, network->assume.discharge,
                                      &inputs->on[network->switch_at[passage->part]]};
    if (passage->pour) {
        dip->pour = passage->pour(&view);
        dip->warmth = view.parameter[passage->warmth - network->parameter_at[passage->part]];
    }
    if (passage->dip >= 0)
        return dip_flow(network, passage, &view, scratch, dip);
    if (passage->wet)
        return wet_flow(network, passage, &view, scratch, dip);
    return passage->law(&view, &place_of(scratch, passage->a)->gas, &place_of(scratch, passage->b)->gas);
}

/* m: as far as it is open now. */
static double passage_reach(const struct network *network, const struct inputs *inputs, const struct passage *passage,
                            double time)
{
    double reach = passage->reach;
    if (passage->reaches) {
        struct parameters room;
        const struct passage_view view = {.parameter = parameters_now(network, inputs, passage->part, time, &room),
                                          .constant = passage->constant,
                                          .on = &inputs->on[network->switch_at[passage->part]]};
        reach = passage->reaches(&view);
    }
    return reach > 0.0 ? reach * passage_opening(network, inputs, passage, time) : 0.0;
}

/* kg of carbon that has not aged. */
static double active_carbon(const struct network *network, const struct inputs *inputs, const struct volume *volume,
                            double time)
{
    struct parameters room;
    const double *parameter = parameters_now(network, inputs, volume->part, time, &room);
    return volume->aged > 0 ? volume->carbon * (1.0 - parameter[volume->aged]) : volume->carbon;
}

/* Heat that parameters put into a liquid and its wall. */
static void pool_heat(const struct network *network, const struct inputs *inputs, const struct pool *pool,
                      struct pool_now *now)
{
    const bool full = network->assume.heat == HEAT_FULL;
    now->exhaust = full && pool->exhaust >= 0 ? inputs->parameter[pool->exhaust] : 0.0;
    now->returned = full && pool->returned >= 0 ? inputs->parameter[pool->returned] : 0.0;
}

/* What a surface that follows the level lets by: see passage_plan. */
static void surface_passage(const struct pool_level *level, int p, struct scratch *scratch)
{
    scratch->reach[p] *= level->area.value / level->dry.value;
    scratch->conduct[p] *= level->area.value / level->dry.value;
    scratch->stir[p] *= level->area.value;
}

#define SPLASH                                                                                                         \
    10.0 /* m3 of gas stirred up by a m3 of fuel that runs in (from memory: a tank that is filled is mixed) */

static void splash(const struct network *network, int v, double pour, struct scratch *scratch)
{
    for (int p = 0; p < network->passages; p++)
        if (network->passage[p].inner && network->passage[p].stirred >= 0 && network->passage[p].b == v)
            scratch->stir[p] += SPLASH * pour * STANDARD_DENSITY;
}

int network_state(const struct network *network, const struct inputs *inputs, double time, const double *y,
                  struct scratch *scratch, bool slopes)
{
    const double when = time < inputs->before ? time : nextafter(inputs->before, -(double)INFINITY);
    scratch->time = when;
    scratch->air = surroundings_at(network, inputs, when);
    for (int v = 0; v < network->volumes; v++) {
        if (network->volume[v].pool)
            pour_look(network, inputs, when, v, &scratch->volume[v].liquid);
        if (volume_gas(network, v, y, scratch, slopes))
            return 1;
        if (network->volume[v].carbon > 0.0)
            scratch->volume[v].active = active_carbon(network, inputs, &network->volume[v], when);
        if (network->volume[v].pool)
            pool_heat(network, inputs, network->volume[v].pool, &scratch->volume[v].liquid);
    }
    for (int b = 0; b < network->boundaries; b++)
        boundary_gas(network, inputs, &network->boundary[b], when, &scratch->air, &scratch->boundary[b]);
    for (int p = 0; p < network->passages; p++) {
        const struct passage *passage = &network->passage[p];
        scratch->flow[p] = passage_flow(network, inputs, passage, when, scratch, &scratch->dip[p]);
        scratch->reach[p] = passage_reach(network, inputs, passage, when);
        if (passage->dip >= 0)
            scratch->reach[p] *= 1.0 - scratch->dip[p].cover;
        if (passage->wet)
            scratch->reach[p] *= scratch->dip[p].wet.open;
        scratch->stir[p] =
            passage->stirred >= 0 ? passage->section * inputs->parameter[passage->stirred] * STANDARD_DENSITY : 0.0;
        scratch->conduct[p] = passage->conduct;
        if (passage->surface >= 0)
            surface_passage(&scratch->volume[passage->surface].liquid.level, p, scratch);
        scratch->shaken[p] = scratch->stir[p];
    }
    for (int p = 0; p < network->passages; p++)
        if (scratch->dip[p].pour > 0.0)
            splash(network, network->passage[p].b, scratch->dip[p].pour, scratch);
    followers_look(network, inputs, when, scratch);
    return 0;
}

/* Books `amount` [mol/s or J/s] into one of a pair of accounts by its sign: in where positive. */
static void book(double *accounts, int in, int out, double amount)
{
    accounts[amount > 0.0 ? in : out] += fabs(amount);
}

/* One side of a flow: into a volume's balance, or into the accounts of a boundary. `sign` -1 on side a, +1 on side b. */
static void book_side(const struct network *network, int place, int account, double sign, const double *carried,
                      double enthalpy, double *dydt)
{
    const int count = network->carried;
    if (place >= 0) {
        double *own = &dydt[network->volume[place].at];
        for (int i = 0; i < count; i++)
            own[i] += sign * carried[i];
        own[count] += sign * enthalpy;
        return;
    }
    double *rows = &dydt[network->stiff.states + account];
    for (int i = 0; i < count; i++)
        book(rows, i, count + i, -sign * carried[i]); /* what a boundary loses comes into the system */
    book(rows, 2 * count, 2 * count + 1, -sign * enthalpy);
}

static void book_flow(const struct network *network, const struct passage *passage, double flow,
                      const struct scratch *scratch, double *dydt)
{
    const struct place_gas *up = place_of(scratch, flow >= 0.0 ? passage->a : passage->b);
    double carried[CARRIED_MOST];
    for (int i = 0; i < network->carried; i++)
        carried[i] = flow * up->share[i];
    const double enthalpy = flow * up->h;
    book_side(network, passage->a, passage->account_a, -1.0, carried, enthalpy, dydt);
    book_side(network, passage->b, passage->account_b, 1.0, carried, enthalpy, dydt);
}

struct diffusion_side diffusion_side_of(const struct place_gas *place)
{
    return (struct diffusion_side){place->share, place->gas.temperature};
}

/* What diffuses and what is conducted beside the flow; smoke is a mist and does neither. */
static void book_exchange(const struct network *network, int p, const struct scratch *scratch, double *dydt)
{
    const struct passage *passage = &network->passage[p];
    const struct place_gas *place_a = place_of(scratch, passage->a), *place_b = place_of(scratch, passage->b);
    const struct diffusion_side a = diffusion_side_of(place_a), b = diffusion_side_of(place_b);
    double carried[CARRIED_MOST] = {0.0};
    double enthalpy = scratch->conduct[p] * (a.temperature - b.temperature);
    if (scratch->reach[p] > 0.0)
        diffusion_values(&network->diffusers, scratch->reach[p], scratch->flow[p].value, &a, &b, carried);
    for (int i = 0; i < network->species; i++)
        enthalpy += 0.5 * (place_a->enthalpy[i] + place_b->enthalpy[i]) * carried[i];
    book_side(network, passage->a, passage->account_a, -1.0, carried, enthalpy, dydt);
    book_side(network, passage->b, passage->account_b, 1.0, carried, enthalpy, dydt);
}

/* Gas that changes places: as much each way, with all it carries. */
static void book_stirring(const struct network *network, int p, const struct scratch *scratch, double *dydt)
{
    const struct passage *passage = &network->passage[p];
    const struct place_gas *a = place_of(scratch, passage->a), *b = place_of(scratch, passage->b);
    double carried[CARRIED_MOST];
    for (int i = 0; i < network->carried; i++)
        carried[i] = scratch->stir[p] * (a->share[i] - b->share[i]);
    const double enthalpy = scratch->stir[p] * (a->h - b->h);
    book_side(network, passage->a, passage->account_a, -1.0, carried, enthalpy, dydt);
    book_side(network, passage->b, passage->account_b, 1.0, carried, enthalpy, dydt);
}

const struct heat_way *way_now(const struct volume *volume, const struct place_gas *place, const struct heat_way *whole,
                               struct heat_way *part)
{
    if (!volume->pool)
        return whole;
    heat_way_part(whole, place->liquid.level.dry.value, part);
    return part;
}

/* Heat into the gas [W]; the wall's balance and the heat account on the way. */
static double gas_heat(const struct network *network, const struct volume *volume, const struct place_gas *place,
                       const struct surroundings_now *air, double *dydt)
{
    double *accounts = &dydt[network->stiff.states + volume->account];
    if (network->assume.heat != HEAT_FULL)
        return 0.0;
    const double shone = volume->sunlit * air->sun;
    struct heat_way film, outer;
    book(accounts, HEAT_IN, HEAT_OUT, shone);
    if (!(volume->wall > 0.0)) {
        const double heat =
            heat_flow(way_now(volume, place, &volume->film, &film), air->temperature - place->gas.temperature, 0.0)
                .value;
        book(accounts, HEAT_IN, HEAT_OUT, heat);
        return heat + shone;
    }
    const double heat =
        heat_flow(way_now(volume, place, &volume->film, &film), place->wall_temperature - place->gas.temperature, 0.0)
            .value;
    const double lost =
        heat_flow(way_now(volume, place, &volume->outer, &outer), place->wall_temperature - air->temperature, air->wind)
            .value;
    dydt[volume->at + volume->wall_at] += shone - lost - heat;
    book(accounts, HEAT_IN, HEAT_OUT, -lost);
    return heat;
}

double pressure_of_state(const struct volume *volume, const struct place_gas *place, double ambient)
{
    const double nrt = place->amount * GAS_CONSTANT * place->gas.temperature;
    const double b = place->empty - volume->give * ambient;
    return 2.0 * nrt / (b + sqrt(b * b + 4.0 * volume->give * nrt));
}

struct intake volume_intake(const struct network *network, const struct volume *volume, const struct place_gas *place,
                            const double *own)
{
    struct intake sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < network->species; i++) {
        sum.amount += own[i];
        sum.energy += own[i] * inner_energy(place, i);
        sum.capacity += own[i] * (place->heat[i] - GAS_CONSTANT);
    }
    const double *taken = &own[network->carried + 2];
    for (int i = 0; volume->carbon > 0.0 && i < network->species; i++) {
        sum.energy += taken[i] * load_energy(volume, place, i);
        sum.capacity += taken[i] * place->heat[i];
    }
    return sum;
}

void partial_pressures(const struct network *network, const struct place_gas *place, double *pressure)
{
    for (int i = 0; i < network->species; i++)
        pressure[i] = place->share[i] * place->gas.pressure;
}

/* Moves what the carbon takes up from the gas to it. */
static void take_up(const struct network *network, const struct volume *volume, const struct place_gas *place,
                    double *own)
{
    double pressure[CARRIED_MOST], taken[CARRIED_MOST];
    partial_pressures(network, place, pressure);
    uptake_values(&volume->sorbent, place->active, volume->uptake, pressure, place->gas.temperature, place->load,
                  taken);
    for (int i = 0; i < network->species; i++) {
        own[i] -= taken[i];
        own[network->carried + 2 + i] += taken[i];
    }
}

static void close_isothermal(const struct network *network, const struct volume *volume, const struct place_gas *place,
                             const struct surroundings_now *air, double *dydt)
{
    double *own = &dydt[volume->at];
    const struct intake in = volume_intake(network, volume, place, own);
    const double p = place->gas.pressure, t = air->temperature, give = volume->give;
    const double rate = (GAS_CONSTANT * (t * in.amount + place->amount * air->temperature_rate) +
                         p * (give * air->pressure_rate + place->narrowing)) /
                        (place->room + p * give);
    const double work = p * give * (rate - air->pressure_rate);
    const double energy = in.energy + place->heat_capacity * air->temperature_rate;
    const double heat =
        energy - own[network->carried] + work - p * place->narrowing; /* what it takes to hold the temperature */
    double *accounts = &dydt[network->stiff.states + volume->account];
    book(accounts, HEAT_IN, HEAT_OUT, heat);
    book(accounts, WORK_IN, WORK_OUT, -work - p * place->creeping);
    own[network->carried] = energy;
    own[network->carried + 1] = rate + (pressure_of_state(volume, place, air->pressure) - p) / DRIFT_TIME;
}

static void close_balance(const struct network *network, const struct volume *volume, const struct place_gas *place,
                          const struct surroundings_now *air, double *dydt)
{
    double *own = &dydt[volume->at];
    const struct intake in = volume_intake(network, volume, place, own);
    own[network->carried] += gas_heat(network, volume, place, air, dydt);
    const double p = place->gas.pressure, t = place->gas.temperature, give = volume->give;
    const double k = place->amount * GAS_CONSTANT / place->heat_capacity;
    const double s = own[network->carried] - in.energy;
    const double rate =
        (GAS_CONSTANT * t * in.amount + k * s + (1.0 + k) * p * (give * air->pressure_rate + place->narrowing)) /
        (place->room + (1.0 + k) * p * give);
    const double work = p * give * (rate - air->pressure_rate);
    own[network->carried] -= work - p * place->narrowing;
    book(&dydt[network->stiff.states + volume->account], WORK_IN, WORK_OUT, -work - p * place->creeping);
    own[network->carried + 1] = rate + (pressure_of_state(volume, place, air->pressure) - p) / DRIFT_TIME;
}

/* What goes on inside a volume, and its books at the end. */
static void close_volume(const struct network *network, int v, struct scratch *scratch, double *dydt)
{
    const struct volume *volume = &network->volume[v];
    struct place_gas *place = &scratch->volume[v];
    if (volume->carbon > 0.0)
        take_up(network, volume, place, &dydt[volume->at]);
    place->narrowing = -place->creeping;
    if (volume->liquid_in >= 0)
        place->narrowing += volume->liquid_share * scratch->volume[volume->liquid_in].liquid.swelling;
    if (volume->creep_at >= 0)
        dydt[volume->at + volume->creep_at] = place->creeping;
    (network->assume.heat == HEAT_ISOTHERMAL ? close_isothermal : close_balance)(network, volume, place, &scratch->air,
                                                                                 dydt);
}

void network_balances(const struct network *network, const double *y, double *dydt, struct scratch *scratch)
{
    memset(dydt, 0, (size_t)(network->stiff.states + network->stiff.accounts) * sizeof *dydt);
    for (int p = 0; p < network->passages; p++)
        if (scratch->flow[p].value != 0.0)
            book_flow(network, &network->passage[p], scratch->flow[p].value, scratch, dydt);
    for (int p = 0; p < network->passages; p++)
        if (scratch->reach[p] > 0.0 || scratch->conduct[p] > 0.0)
            book_exchange(network, p, scratch, dydt);
    for (int p = 0; p < network->passages; p++)
        if (scratch->stir[p] > 0.0)
            book_stirring(network, p, scratch, dydt);
    for (int p = 0; p < network->passages; p++)
        if (scratch->dip[p].drain > 0.0 || scratch->dip[p].pour > 0.0)
            dip_book(network, p, scratch, dydt);
    for (int v = 0; v < network->volumes; v++)
        if (network->volume[v].pool)
            pool_balance(network, v, scratch, dydt);
    for (int v = 0; v < network->volumes; v++)
        close_volume(network, v, scratch, dydt);
    followers_rates(network, y, dydt, scratch);
}

int network_rates(const struct network *network, const struct inputs *inputs, double time, const double *y,
                  double *dydt, struct scratch *scratch)
{
    if (network_state(network, inputs, time, y, scratch, false))
        return 1;
    network_balances(network, y, dydt, scratch);
    taps_book(network, inputs, scratch->time, dydt, scratch);
    controllers_rates(network, inputs, y, dydt, scratch);
    return 0;
}

double network_drift(const struct network *network, const struct inputs *inputs, double time, const double *y,
                     struct scratch *scratch)
{
    double worst = 0.0;
    if (network_state(network, inputs, time, y, scratch, false))
        return (double)INFINITY;
    for (int v = 0; v < network->volumes; v++)
        worst = fmax(worst, fabs(scratch->volume[v].gas.pressure -
                                 pressure_of_state(&network->volume[v], &scratch->volume[v], scratch->air.pressure)));
    return worst;
}
