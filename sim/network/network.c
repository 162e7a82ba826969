/* sim/network/network.c  From a description to a network: what there is, where it stands, how it begins. */
#include "network/inside.h"

#include <stdlib.h>
#include <string.h>

#define PRESSURE_SCALE 1000.0 /* Pa: differences of 1 mPa matter where a vent breathes */
#define INVENTORY_SHARE 0.1   /* of a volume's amount at reference pressure */
#define ENERGY_PER_PRESSURE (1.0 / 0.3)
#define WALL_STEP 1.0        /* K */
#define CONTROLLED_SCALE 1.0 /* a ratio */

static void *network_array(struct network *network, int count, size_t size)
{
    return arena_take(network->arena, (size_t)(count > 0 ? count : 1) * size);
}

/* ---- species: those that can come in at all ---- */

/* The vapor of fuel k; one that is there as a gas already would stand twice, so the fuel's own is the one that counts. */
static void add_vapor(struct network *network, int k)
{
    network->number[network->carried] = species_find(network->fuel[k].gas.name);
    network->kind[network->carried++] = &network->fuel[k].gas;
}

static bool is_fuel(const struct network *network, int number)
{
    for (int k = 0; k < network->fuels; k++)
        if (species_find(network->fuel[k].gas.name) == number)
            return true;
    return false;
}

static bool is_held(const struct held *held, const char *name)
{
    for (int k = 0; held && k < held->species; k++)
        if (!strcmp(held->name[k], name))
            return true;
    return false;
}

/* False with a problem added where there are more than one network carries. */
static bool gather_species(struct network *network, const struct ullage_description *from, const struct blueprint *plan,
                           struct ullage_problems *problems)
{
    int count = network->fuels;
    bool present[SPECIES_KNOWN] = {true}; /* air: the atmosphere is never far */
    const int known = species_known();
    for (int s = 0; s < known; s++) {
        for (int b = 0; b < plan->boundaries; b++)
            present[s] = present[s] || plan->boundary[b].share[s] > 0.0;
        for (int k = 0; k < from->starts; k++)
            present[s] =
                present[s] || from->start[k].share[s] > 0.0 || is_held(from->start[k].held, species_at(s)->name);
        count += present[s] && !is_fuel(network, s);
    }
    if (count > CARRIED_MOST) {
        problem_add(problems, from->at, "leave some of them out", "%d gases are too many: %d can be followed", count,
                    CARRIED_MOST);
        return false;
    }
    for (int round = 0; round < 2; round++) { /* gases first, then what rides along */
        for (int s = 0; s < known; s++)
            if (present[s] && !is_fuel(network, s) && species_at(s)->passive == (round == 1)) {
                network->number[network->carried] = s;
                network->kind[network->carried++] = species_at(s);
            }
        if (round == 0) {
            network->first_fuel = network->carried;
            for (int k = 0; k < network->fuels; k++)
                add_vapor(network, k);
            network->species = network->carried;
        }
    }
    return true;
}

static void take_diffusers(struct network *network)
{
    double mass[CARRIED_MOST], volume[CARRIED_MOST];
    for (int i = 0; i < network->species; i++) {
        mass[i] = network->kind[i]->molar_mass;
        const bool fuel = i >= network->first_fuel && i < network->first_fuel + network->fuels;
        volume[i] = fuel ? network->fuel[i - network->first_fuel].diffusion_volume
                         : species_diffusion_volume(network->number[i]);
    }
    network->diffusers = diffusers_create(network->species, mass, volume);
}

static void carried_shares(const struct network *network, const double *by_number, double *share)
{
    for (int i = 0; i < network->carried; i++)
        share[i] = network->number[i] >= 0 ? by_number[network->number[i]] : 0.0;
}

/* ---- volumes, boundaries, passages ---- */

/* How carbon holds species i: a fuel's vapor as its component says, air and test gases by their rows. */
static struct adsorbate adsorbate_at(const struct network *network, int i)
{
    const int fuel = i - network->first_fuel;
    const char *name = network->kind[i]->name;
    const struct component *component =
        0 <= fuel && fuel < network->fuels ? &network->fuel[fuel] : component_find(name);
    return component ? adsorbate_of(component) : adsorbate_table(NULL)[adsorbate_find(name)];
}

/* The carbon among the gases of this network. */
static void take_carbon(const struct network *network, struct volume *into, const struct volume_plan *from)
{
    const struct carbon *carbon = &carbon_table(NULL)[from->carbon_kind];
    struct adsorbate held[SPECIES_MOST];
    const struct adsorbate *adsorbate[SPECIES_MOST];
    for (int i = 0; i < network->species; i++) {
        held[i] = adsorbate_at(network, i);
        adsorbate[i] = &held[i];
        into->uptake[i] = from->uptake;
    }
    into->carbon = from->carbon;
    into->dry = from->carbon * carbon->heat_capacity;
    into->aged = from->aged;
    into->sorbent = sorbent_create(carbon, from->grade, network->species, adsorbate);
    into->felt += network->species;
}

static bool take_volumes(struct network *network, const struct blueprint *plan)
{
    network->volumes = plan->volumes;
    network->volume = network_array(network, plan->volumes, sizeof *network->volume);
    if (!network->volume)
        return false;
    const bool full = network->assume.heat == HEAT_FULL;
    int state = 0, account = 0;
    for (int v = 0; v < plan->volumes; v++) {
        const struct volume_plan *from = &plan->volume[v];
        struct volume *into = &network->volume[v];
        *into = (struct volume){.part = from->part,
                                .room = from->volume,
                                .give = network->assume.rigid ? 0.0 : from->give,
                                .creep = network->assume.rigid ? 0.0 : from->creep,
                                .creep_time = from->creep_time,
                                .wall = full ? from->wall : 0.0,
                                .sides = full ? from->sides : 0.0,
                                .wet = from->wet,
                                .shape = from->shape,
                                .sunlit = from->sunlit,
                                .liquid_in = from->liquid_in,
                                .liquid_share = from->liquid_share,
                                .at = state,
                                .account = account};
        if (full) {
            into->film = from->film;
            into->outer = from->outer;
        }
        into->felt = network->carried + 2;
        if (from->carbon > 0.0)
            take_carbon(network, into, from);
        into->wall_at = into->felt;
        if (from->over >= 0 && !pool_take(network, into, from))
            return false;
        into->block = into->wall_at + (into->wall > 0.0);
        into->creep_at = into->creep > 0.0 ? into->block++ : -1;
        state += into->block;
        account += into->pool ? POOL_ACCOUNTS : VOLUME_ACCOUNTS;
    }
    network->stiff.states = state;
    network->stiff.accounts = account;
    return true;
}

static bool take_boundaries(struct network *network, const struct blueprint *plan)
{
    network->boundaries = plan->boundaries;
    network->boundary = network_array(network, plan->boundaries, sizeof *network->boundary);
    if (!network->boundary)
        return false;
    for (int b = 0; b < plan->boundaries; b++) {
        network->boundary[b].part = plan->boundary[b].part;
        network->boundary[b].pressure = plan->boundary[b].pressure;
        carried_shares(network, plan->boundary[b].share, network->boundary[b].share);
        for (int k = 0; k < network->fuels; k++)
            network->boundary[b].share[network->first_fuel + k] += plan->boundary[b].vapor[k];
    }
    return true;
}

static int side_accounts(struct network *network, int place)
{
    if (place >= 0)
        return -1;
    const int first = network->stiff.accounts;
    network->stiff.accounts += 2 * network->carried + 2;
    return first;
}

static int joint_index(const struct network *network, int equipment, int port)
{
    for (int j = 0; j < network->joints; j++)
        if (network->joint[j].equipment == equipment && network->joint[j].port == port)
            return j;
    return -1;
}

/* Whether one of its openings is in a tank with liquid; of two, the first. */
static void take_dip(const struct network *network, const struct passage_plan *from, struct passage *into)
{
    if (from->inner)
        return;
    const int place[2] = {from->a, from->b};
    const double height[2] = {from->height_a, from->height_b};
    for (int side = 1; side >= 0; side--)
        if (place[side] >= 0 && network->volume[place[side]].pool && height[side] > 0.0) {
            into->dip = place[side];
            into->dip_at_b = side == 1;
            into->dip_height = height[side];
        }
}

/* Where liquid runs by it: from a tank or a low spot into a gas that is all of what is over the liquid there. */
static void take_spill(const struct network *network, struct passage *into)
{
    const int source = into->dip >= 0 ? into->dip : into->wet_b < 0 ? into->wet_a : -1;
    const int sink = source >= 0 ? (source == into->a ? into->b : into->a) : -1;
    const bool takes = sink >= 0 && into->seep && network->volume[sink].pool &&
                       network->volume[sink].pool->over == sink && network->volume[sink].pool->begun >= 0.0;
    into->source = takes ? source : -1;
    into->sink = takes ? sink : -1;
}

static int wet_side(const struct network *network, bool wet, int place)
{
    return wet && place >= 0 && network->volume[place].pool ? place : -1;
}

static bool take_passages(struct network *network, const struct blueprint *plan)
{
    network->passage = network_array(network, plan->passages, sizeof *network->passage);
    if (!network->passage)
        return false;
    for (int p = 0; p < plan->passages; p++) {
        const struct passage_plan *from = &plan->passage[p];
        const int joint = from->joint_of < 0 ? -1 : joint_index(network, from->joint_of, from->part);
        if (from->joint_of >= 0 && joint < 0)
            continue; /* nobody joins these two */
        struct passage *into = &network->passage[network->passages++];
        *into = (struct passage){.part = from->part,
                                 .a = from->a,
                                 .b = from->b,
                                 .joint_of = from->joint_of,
                                 .beside = from->beside,
                                 .law = from->law,
                                 .bore = from->bore,
                                 .reach = from->reach,
                                 .reaches = from->reaches,
                                 .conduct = network->assume.heat == HEAT_FULL ? from->conduct : 0.0,
                                 .section = from->section,
                                 .seep = from->seep,
                                 .lift = from->lift,
                                 .wet = from->wet,
                                 .wet_a = wet_side(network, from->wet_a, from->a),
                                 .wet_b = wet_side(network, from->wet_b, from->b),
                                 .pour = from->b >= 0 && network->volume[from->b].pool ? from->pour : NULL,
                                 .warmth = network->parameter_at[from->part] + from->warmth,
                                 .dip = -1,
                                 .inner = from->inner,
                                 .surface = from->surface ? from->b : -1,
                                 .stirred = from->stirred > 0 ? network->parameter_at[from->part] + from->stirred : -1,
                                 .joint = joint};
        memcpy(into->constant, from->constant, sizeof into->constant);
        take_dip(network, from, into);
        take_spill(network, into);
        into->account_a = side_accounts(network, into->a);
        into->account_b = side_accounts(network, into->b);
    }
    return true;
}

static bool take_places(struct network *network, struct blueprint *plan)
{
    network->main_volume = network_array(network, network->parts, sizeof *network->main_volume);
    network->feeds = network_array(network, network->parts, sizeof *network->feeds);
    if (!network->main_volume || !network->feeds)
        return false;
    for (int k = 0; k < network->parts; k++) {
        const int place = blueprint_place(plan, k, "");
        const int end = ends_find(network->part[k].kind->end, "feeds");
        network->main_volume[k] = place >= 0 ? place : -1;
        network->feeds[k] = end >= 0 && network->part[k].end[end].part ? blueprint_attachment(plan, k, end).place : -1;
    }
    return true;
}

/* ---- joints ---- */

static bool add_joint(struct network *network, int equipment, int port, bool joined)
{
    const int known = joint_index(network, equipment, port);
    if (known >= 0) {
        network->joined[known] = network->joined[known] || joined;
        return true;
    }
    network->joint[network->joints] = (struct joint){equipment, port};
    network->joined[network->joints++] = joined;
    return true;
}

static bool take_joints(struct network *network, const struct joint *join, int joins, struct ullage_problems *problems)
{
    network->joint = network_array(network, network->parts + joins, sizeof *network->joint);
    network->joined = network_array(network, network->parts + joins, sizeof *network->joined);
    if (!network->joint || !network->joined)
        return false;
    for (int k = 0; k < network->parts; k++) {
        const struct part *part = &network->part[k];
        const int end = ends_find(part->kind->end, "join");
        if (end < 0 || !part->end[end].part)
            continue;
        const int port = network_find_part(network, part->end[end].part);
        if (port >= 0 && !strcmp(network->part[port].kind->name, "port"))
            add_joint(network, k, port, true);
        else
            problem_add(problems, part->at, "join it to a port", "%s is joined to %s, which is no port", part->id,
                        part->end[end].part);
    }
    for (int j = 0; j < joins; j++)
        add_joint(network, join[j].equipment, join[j].port, false);
    return true;
}

/* ---- how it begins ---- */

static const struct start *start_of(const struct ullage_description *from, int part)
{
    for (int k = 0; k < from->starts; k++)
        if (from->start[k].part == part)
            return &from->start[k];
    return NULL;
}

static void load_carbon(const struct network *network, struct volume *volume, double active, const double *share,
                        double pressure, double temperature)
{
    double partial[CARRIED_MOST], loading[CARRIED_MOST];
    for (int i = 0; i < network->species; i++)
        partial[i] = share[i] * pressure;
    carbon_loading_value(&volume->sorbent, partial, temperature, loading);
    for (int i = 0; i < network->species; i++)
        volume->load[i] = active * loading[i];
}

/* The energy of the carbon and of what it holds. */
static void warm_carbon(const struct network *network, struct volume *volume, double temperature, struct warmth warmth)
{
    volume->energy += volume->dry * temperature;
    for (int i = 0; i < network->species; i++)
        volume->energy +=
            volume->load[i] * (species_enthalpy(network->kind[i], temperature, &warmth) - volume->sorbent.heat[i]);
}

static void begin_volume(struct network *network, int v, const struct start *start, const struct surroundings_now *air,
                         double active, struct ullage_problems *problems)
{
    struct volume *volume = &network->volume[v];
    double pressure = air->pressure, temperature = air->temperature;
    double share[SPECIES_KNOWN] = {1.0};
    if (start && start->pressure_given)
        pressure = start->pressure;
    if (start && start->gauge_given)
        pressure = air->pressure + start->gauge;
    if (start && start->temperature_given)
        temperature = start->temperature;
    if (start && start->gas_given)
        memcpy(share, start->share, sizeof share);
    double carried[CARRIED_MOST];
    carried_shares(network, share, carried);
    double empty = volume->room, full_grains = 0.0;
    if (volume->wet > 0.0)
        full_grains = wetting_fills(network, volume, pressure, temperature, carried, &volume->pool->begun);
    if (volume->wet > 0.0)
        volume->pool->shut = !(volume->pool->begun > 0.0);
    if (volume->liquid_in >= 0) { /* the volume of the liquid comes first among those it takes room from */
        const struct pool *pool = network->volume[volume->liquid_in].pool;
        const bool tank = pool->begun < 0.0; /* gas in other places begins as it would without a liquid */
        if (tank && !(start && start->temperature_given))
            temperature = network->fill_temperature;
        if (volume->pool)
            pool_fill(network, v, tank ? network->fill_temperature : temperature);
        empty -= volume->liquid_share * pool_begins(pool);
        if (tank)
            pool_saturates(network, pool, pressure, start && start->saturation_given ? start->saturation : 1.0,
                           carried);
    }
    if (start && start->held && !held_begin(network, volume, start->held, pressure, temperature, carried))
        problem_add(problems, start->at, "let it hold less", "the carbon of %s cannot hold what it begins with",
                    network->part[volume->part].id);
    if (volume->wet > 0.0)
        wetting_shares(network, volume, full_grains, pressure, temperature, carried);
    const double room = empty + volume->give * (pressure - air->pressure);
    const double rt = GAS_CONSTANT * temperature, amount = pressure * room / rt;
    const struct warmth warmth = gas_warmth(temperature);
    for (int i = 0; i < network->carried; i++) {
        volume->stock[i] = amount * carried[i];
        if (i < network->species)
            volume->energy += volume->stock[i] * (species_enthalpy(network->kind[i], temperature, &warmth) - rt);
    }
    if (volume->carbon > 0.0) {
        if (!(start && start->held) || volume->wet > 0.0) /* at rest with its gas */
            load_carbon(network, volume, active, carried, pressure, temperature);
        warm_carbon(network, volume, temperature, warmth);
    }
    volume->temperature = temperature;
    volume->excess = pressure - network->reference;
    volume->wall_energy = wall_at_start(network, v) * temperature;
}

static void begin(struct network *network, const struct ullage_description *from, struct ullage_problems *problems)
{
    const struct surroundings_now air = {.pressure = weather_begins(network, WEATHER_PRESSURE),
                                         .temperature = weather_begins(network, WEATHER_TEMPERATURE)};
    network->reference = air.pressure;
    for (int v = 0; v < network->volumes; v++) {
        struct volume *volume = &network->volume[v];
        const struct start *start = start_of(from, volume->part);
        if (volume->wet > 0.0 && network->fuels == 0) {
            problem_add(problems, from->part[volume->part].at, "give fill: what it is wet with, or leave wet out",
                        "%s has a wet bed and there is no fuel", network->part[volume->part].id);
            return;
        }
        const double gauge = start && start->pressure_given ? start->pressure - air.pressure
                             : start && start->gauge_given  ? start->gauge
                                                            : 0.0;
        if (!(air.pressure + gauge > 0.0) || !(volume->room + volume->give * gauge > 0.0)) {
            problem_add(problems, start ? start->at : from->part[volume->part].at, "start nearer to the surroundings",
                        "%s cannot begin at %g Pa over the surroundings", network->part[volume->part].id, gauge);
            continue;
        }
        const double aged = volume->aged > 0 ? parameter_at_start(from, volume->part, volume->aged) : 0.0;
        begin_volume(network, v, start, &air, volume->carbon * (1.0 - aged), problems);
    }
}

/* ---- scales of the error test ---- */

/* mol that all sites of a volume's carbon hold together. */
static double full_load(const struct volume *volume)
{
    double sites = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sites += volume->sorbent.capacity[s];
    return volume->carbon * sites;
}

static bool take_scales(struct network *network)
{
    const int states = network->stiff.states;
    double *scale = network_array(network, states, sizeof *scale);
    double *base = network_array(network, states, sizeof *base);
    bool *amount = network_array(network, states, sizeof *amount);
    if (!scale || !base || !amount)
        return false;
    for (int v = 0; v < network->volumes; v++) {
        const struct volume *volume = &network->volume[v];
        const double inventory = network->reference * volume->room;
        for (int i = 0; i < network->carried; i++) {
            scale[volume->at + i] = INVENTORY_SHARE * inventory / (GAS_CONSTANT * volume->temperature);
            base[volume->at + i] = volume->stock[i];
            amount[volume->at + i] = true;
        }
        scale[volume->at + network->carried] =
            volume->carbon > 0.0 ? volume->dry * WALL_STEP : INVENTORY_SHARE * inventory * ENERGY_PER_PRESSURE;
        scale[volume->at + network->carried + 1] = PRESSURE_SCALE;
        for (int i = 0; volume->carbon > 0.0 && i < network->species; i++) {
            scale[volume->at + network->carried + 2 + i] = INVENTORY_SHARE * full_load(volume);
            base[volume->at + network->carried + 2 + i] = volume->load[i];
            amount[volume->at + network->carried + 2 + i] = true;
        }
        if (volume->wall > 0.0)
            scale[volume->at + volume->wall_at] = wall_at_start(network, v) * WALL_STEP;
        if (volume->creep_at >= 0)
            scale[volume->at + volume->creep_at] = volume->creep * PRESSURE_SCALE;
        if (volume->pool)
            pool_scales(network, v, &scale[volume->at], &base[volume->at], &amount[volume->at]);
    }
    for (int f = 0; f < network->followers; f++)
        if (network->follower[f].at >= 0)
            scale[network->follower[f].at] = follower_scale(&network->follower[f]);
    for (int c = 0; c < network->controllers; c++)
        for (int k = 0; k < network->controller[c].states; k++)
            scale[network->controller[c].at + k] = CONTROLLED_SCALE;
    if (network->idle)
        scale[0] = 1.0;
    network->stiff.scale = scale;
    network->stiff.base = base;
    network->stiff.amount = amount;
    return true;
}

/* ---- the whole ---- */

static bool copy_fuel(struct network *network, const struct fill *fill)
{
    network->fuels = fill->given ? fill->fuels : 0;
    network->fill_level = fill->level;
    network->fill_temperature = fill->temperature;
    network->fuel = network_array(network, network->fuels, sizeof *network->fuel);
    network->fuel_stock = network_array(network, network->fuels, sizeof *network->fuel_stock);
    network->fuel_pumped = network_array(network, network->fuels, sizeof *network->fuel_pumped);
    if (!network->fuel || !network->fuel_stock || !network->fuel_pumped)
        return false;
    for (int k = 0; k < network->fuels; k++) {
        network->fuel[k] = fill->fuel[k];
        network->fuel_stock[k] = fill->amount[k];
        network->fuel_pumped[k] = fill->pump_given ? fill->pumped[k] : fill->amount[k];
    }
    return true;
}

static bool make(struct network *network, const struct ullage_description *from, struct blueprint *plan,
                 const struct joint *join, int joins, struct ullage_problems *problems)
{
    network->assume = from->assume;
    if (!weather_take(network, &from->surroundings) || !copy_fuel(network, &from->fill) ||
        !parts_copy(network, from) || !network_faults_take(network, from) || !take_joints(network, join, joins, problems) || ullage_problems_count(problems))
        return false;
    if (!gather_species(network, from, plan, problems))
        return false;
    take_diffusers(network);
    if (!take_volumes(network, plan) || !take_boundaries(network, plan) || !take_passages(network, plan) ||
        !followers_take(network, plan) || !controllers_take(network, plan) || !switches_take(network, plan) ||
        !take_places(network, plan) || !taps_take(network))
        return false;
    network->idle = network->stiff.states == 0;
    network->stiff.states += network->idle;
    begin(network, from, problems);
    return !ullage_problems_count(problems) && take_scales(network) && pattern_make(network) && channels_make(network);
}

struct network *network_create(const struct ullage_description *description, const struct joint *join, int joins,
                               struct ullage_problems *problems)
{
    struct arena *arena = arena_create();
    struct network *network = arena ? arena_take(arena, sizeof *network) : NULL;
    if (!network) {
        arena_free(arena);
        return NULL;
    }
    network->arena = arena;
    struct blueprint plan = {.discharge = description->assume.discharge,
                             .rigid = description->assume.rigid,
                             .fuelled = description->fill.given && description->fill.fuels > 0};
    const bool good = blueprint_draw(&plan, description->part, description->parts, problems) &&
                      make(network, description, &plan, join, joins, problems);
    blueprint_clear(&plan);
    if (good)
        return network;
    network_free(network);
    return NULL;
}

void network_free(struct network *network)
{
    if (network)
        arena_free(network->arena);
}

int network_parts(const struct network *network)
{
    return network->parts;
}

const struct part *network_part(const struct network *network, int index)
{
    return &network->part[index];
}

int network_find_part(const struct network *network, const char *id)
{
    for (int k = 0; k < network->parts; k++)
        if (!strcmp(network->part[k].id, id))
            return k;
    return -1;
}

int network_joint(const struct network *network, int equipment, int port)
{
    return joint_index(network, equipment, port);
}
