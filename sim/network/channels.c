/* sim/network/channels.c  Every number a person can see, by name: what all volumes and passages show, and what a kind
 * shows beyond that. */
#include "base/noise.h"
#include "network/inside.h"

#include <string.h>

/* What a channel is: its row says which. Kinds' own rows count on from KIND_FIRST. */
enum {
    TIME,
    AIR_PRESSURE,
    AIR_TEMPERATURE,
    AIR_SUN,
    AIR_WIND,
    PRESSURE,
    GAUGE,
    TEMPERATURE,
    WALL,
    AMOUNT,
    ROOM,
    FLOW,
    STANDARD_FLOW,
    SPEED,
    VAPOR,
    LIQUID_FLOW,
    SHARE_FIRST,
    KIND_FIRST = SHARE_FIRST + CARRIED_MOST
};

static const struct show_row common[] = {
    [TIME] = {"time", ULLAGE_TIME, "since the scenario began"},
    [AIR_PRESSURE] = {"pressure", ULLAGE_PRESSURE, "of the surroundings, absolute"},
    [AIR_TEMPERATURE] = {"temperature", ULLAGE_TEMPERATURE, "of the surroundings"},
    [AIR_SUN] = {"sun", ULLAGE_HEAT_FLUX, "on a surface that faces it"},
    [AIR_WIND] = {"wind", ULLAGE_SPEED, "past all walls"},
    [PRESSURE] = {"pressure", ULLAGE_PRESSURE, "absolute"},
    [GAUGE] = {"gauge_pressure", ULLAGE_PRESSURE, "against the surroundings of that moment"},
    [TEMPERATURE] = {"temperature", ULLAGE_TEMPERATURE, "of its gas"},
    [WALL] = {"wall_temperature", ULLAGE_TEMPERATURE, "of its wall"},
    [AMOUNT] = {"amount", ULLAGE_AMOUNT, "gas in it"},
    [ROOM] = {"volume", ULLAGE_VOLUME, "of its gas space now"},
    [FLOW] = {"flow", ULLAGE_MASS_FLOW, "mass through it, from its beginning to its end"},
    [STANDARD_FLOW] = {"standard_flow", ULLAGE_VOLUME_FLOW, "volume through it, told at 20 degC and 101325 Pa"},
    [SPEED] = {"speed", ULLAGE_SPEED, "mean speed of the gas in its bore"},
    [LIQUID_FLOW] = {"liquid_flow", ULLAGE_VOLUME_FLOW, "liquid that leaves the tank by it, to the outside"},
    [VAPOR] = {"fuel_vapor", ULLAGE_NUMBER, "mole share of fuel in its gas"},
};

#define MOLAR_VOLUME (GAS_CONSTANT * STANDARD_TEMPERATURE / STANDARD_PRESSURE) /* m3/mol, standard */

/* ---- making the list ---- */

struct maker {
    struct network *network;
    bool count_only, out_of_memory;
};

static void add(struct maker *maker, int part, const char *quantity, int dimension, const char *meaning, int row)
{
    struct network *network = maker->network;
    const int at = network->channels++;
    if (maker->count_only)
        return;
    struct arena *arena = network->arena;
    const char *owner = part >= 0 ? network->part[part].id : "air";
    const char *name = row == TIME ? "time" : arena_format(arena, "%s.%s", owner, quantity);
    if (!name)
        maker->out_of_memory = true;
    network->channel[at] = (struct ullage_channel){name, part, quantity, dimension, meaning};
    network->channel_row[at] = row;
}

static void add_common(struct maker *maker, int part, int row)
{
    add(maker, part, common[row].name, common[row].dimension, common[row].meaning, row);
}

/* "carbon dioxide" shows as carbon_dioxide. */
static const char *share_name(struct maker *maker, const struct species *kind)
{
    char *name = arena_text(maker->network->arena, kind->name);
    for (char *c = name; c && *c; c++)
        if (*c == ' ')
            *c = '_';
    return name ? name : "";
}

static int own_passages(const struct network *network, int part)
{
    int count = 0;
    for (int p = 0; p < network->passages; p++)
        count += network->passage[p].part == part && !network->passage[p].inner;
    return count;
}

bool is_vapor(const struct network *network, int i)
{
    int carriers;
    species_table(&carriers);
    return i < network->species && (network->number[i] < 0 || network->number[i] >= carriers);
}

static bool has_vapor(const struct network *network)
{
    for (int i = 0; i < network->species; i++)
        if (is_vapor(network, i))
            return true;
    return false;
}

static void add_volume(struct maker *maker, int part, int v)
{
    const struct network *network = maker->network;
    for (int row = PRESSURE; row <= ROOM; row++) {
        const bool there = (row != WALL || network->volume[v].wall > 0.0) &&
                           (row != ROOM || network->volume[v].give > 0.0 || network->volume[v].liquid_in >= 0);
        if (there)
            add_common(maker, part, row);
    }
    if (has_vapor(network))
        add_common(maker, part, VAPOR);
    for (int i = 0; i < network->carried; i++) {
        const struct species *kind = network->kind[i];
        add(maker, part, maker->count_only ? "" : share_name(maker, kind), ULLAGE_NUMBER,
            kind->passive ? "mole share of gas that carries it" : "mole share in its gas", SHARE_FIRST + i);
    }
}

/* Whether a way of the part's leads from under a liquid to the outside. */
static bool lets_liquid_out(const struct network *network, int part)
{
    for (int p = 0; p < network->passages; p++) {
        const struct passage *passage = &network->passage[p];
        if (passage->part == part && passage->dip >= 0 && passage->seep &&
            (passage->dip_at_b ? passage->a : passage->b) < 0)
            return true;
    }
    return false;
}

static void add_part(struct maker *maker, int part)
{
    const struct network *network = maker->network;
    if (network->main_volume[part] >= 0)
        add_volume(maker, part, network->main_volume[part]);
    if (own_passages(network, part) > 0)
        for (int row = FLOW; row <= SPEED; row++)
            add_common(maker, part, row);
    if (lets_liquid_out(network, part))
        add_common(maker, part, LIQUID_FLOW);
    const struct show_row *shows = network->part[part].kind->shows;
    for (int s = 0; s < shows_count(shows); s++)
        add(maker, part, shows[s].name, shows[s].dimension, shows[s].meaning, KIND_FIRST + s);
}

static void add_all(struct maker *maker)
{
    maker->network->channels = 0;
    add_common(maker, -1, TIME);
    add_common(maker, -1, AIR_PRESSURE);
    add_common(maker, -1, AIR_TEMPERATURE);
    add_common(maker, -1, AIR_SUN);
    add_common(maker, -1, AIR_WIND);
    for (int k = 0; k < maker->network->parts; k++)
        add_part(maker, k);
}

bool channels_make(struct network *network)
{
    struct maker maker = {network, true, false};
    add_all(&maker);
    network->channel = arena_take(network->arena, (size_t)network->channels * sizeof *network->channel);
    network->channel_row = arena_take(network->arena, (size_t)network->channels * sizeof *network->channel_row);
    if (!network->channel || !network->channel_row)
        return false;
    maker.count_only = false;
    add_all(&maker);
    return !maker.out_of_memory;
}

int network_channels(const struct network *network)
{
    return network->channels;
}

struct ullage_channel network_channel(const struct network *network, int index)
{
    return network->channel[index];
}

int network_find_channel(const struct network *network, const char *name)
{
    for (int c = 0; c < network->channels; c++)
        if (!strcmp(network->channel[c].name, name))
            return c;
    return -1;
}

const char *network_nearest_channel(const struct network *network, const char *name)
{
    const char *best = NULL;
    for (int c = 0; c < network->channels; c++) { /* against the best so far, so that no list of names is made */
        const char *pair[2] = {best, network->channel[c].name};
        best = nearest_name(name, best ? pair : pair + 1, best ? 2 : 1);
        if (!best)
            best = nearest_name(name, &pair[1], 1);
    }
    return best;
}

/* ---- looking ---- */

static struct liquid_look look_at_liquid(const struct volume *volume, const struct place_gas *place)
{
    const struct pool *pool = volume->pool;
    struct liquid_look look = {.liquid = &pool->liquid,
                               .amount = place->liquid.amount,
                               .volume = place->liquid.volume,
                               .height = shape_height(&volume->shape, place->liquid.volume).value,
                               .temperature = place->liquid.temperature};
    for (int k = 0; k < pool->liquid.count; k++)
        look.pressure += place->liquid.saturation.value[k];
    return look;
}

double vapor_share(const struct network *network, const struct place_gas *place)
{
    double share = 0.0;
    for (int i = 0; i < network->species; i++)
        share += is_vapor(network, i) ? place->share[i] : 0.0;
    return share;
}

double fuel_loaded(const struct network *network, const struct volume *volume, const struct place_gas *place)
{
    double mass = 0.0;
    for (int i = 0; volume->carbon > 0.0 && i < network->species; i++)
        if (is_vapor(network, i))
            mass += place->load[i] * network->kind[i]->molar_mass;
    return mass;
}

static struct volume_look look_at_volume(const struct place_gas *place, const struct network *network, double *share)
{
    memset(share, 0, SPECIES_KNOWN * sizeof *share);
    for (int i = 0; i < network->carried; i++)
        if (network->number[i] >= 0)
            share[network->number[i]] = place->share[i];
    return (struct volume_look){.gas = place->gas,
                                .amount = place->amount,
                                .volume = place->room,
                                .wall_temperature = place->wall_temperature,
                                .share = share};
}

static struct passage_look look_at_passage(const struct scratch *scratch, const struct passage *passage, double flow)
{
    const struct place_gas *up = place_of(scratch, flow >= 0.0 ? passage->a : passage->b);
    return (struct passage_look){place_of(scratch, passage->a)->gas, place_of(scratch, passage->b)->gas, flow,
                                 up->gas.molar_mass};
}

enum { OWN_MOST = 165 }; /* four channelled beds of 40 cells: their passages */

struct room {
    struct parameters parameter, controlled;
    struct controller_view controller;
    double arriving[SPECIES_MOST];
    struct liquid_look liquid[OWN_MOST];
    struct volume_look volume[OWN_MOST];
    struct passage_look passage[OWN_MOST];
    double share[OWN_MOST][SPECIES_KNOWN];
};

struct looking {
    const struct network *network;
    const struct inputs *inputs;
    const struct scratch *scratch;
    const double *y;
    double time;
};

static void look_at_part(const struct looking *at, int part, struct room *room, struct part_look *look)
{
    const struct network *network = at->network;
    *look = (struct part_look){.part = &network->part[part],
                               .time = at->time,
                               .ambient_pressure = at->scratch->air.pressure,
                               .ambient_temperature = at->scratch->air.temperature,
                               .parameter = parameters_now(network, at->inputs, part, at->time, &room->parameter),
                               .set = &at->inputs->parameter[network->parameter_at[part]],
                               .seed = noise_seed(at->inputs->seed, (uint64_t)part),
                               .opening = part_opening(network, at->inputs, part, at->time),
                               .on = &at->inputs->on[network->switch_at[part]],
                               .volume = room->volume,
                               .passage = room->passage,
                               .air = &place_of(at->scratch, PLACE_AIR)->gas};
    for (int v = 0; v < network->volumes; v++)
        if (network->volume[v].part == part && look->volumes < OWN_MOST) {
            struct volume_look *seen = &room->volume[look->volumes];
            *seen = look_at_volume(&at->scratch->volume[v], network, room->share[look->volumes]);
            seen->vapor = vapor_share(network, &at->scratch->volume[v]);
            seen->loaded = fuel_loaded(network, &network->volume[v], &at->scratch->volume[v]);
            if (network->volume[v].pool) {
                room->liquid[look->volumes] = look_at_liquid(&network->volume[v], &at->scratch->volume[v]);
                seen->liquid = &room->liquid[look->volumes];
            }
            look->volumes++;
        }
    for (int p = 0; p < network->passages; p++)
        if (network->passage[p].part == part && !network->passage[p].inner && look->passages < OWN_MOST)
            room->passage[look->passages++] =
                look_at_passage(at->scratch, &network->passage[p], at->scratch->flow[p].value);
    const int c = network->controller_of[part];
    if (c >= 0) {
        room->controller = controller_sees(network, at->inputs, &network->controller[c], at->y, at->scratch, &room->controlled, room->arriving);
        look->controller = &room->controller;
    }
    const int f = network->follower_of[part];
    if (f >= 0)
        look->follower = network->follower[f].at >= 0 ? at->y[network->follower[f].at]
                                                      : follower_sees(network, &network->follower[f], at->scratch);
}

/* Gas of the place that drives the leak a meter looks for: named, or where its supply is joined now. */
static const struct gas *fed_gas(const struct looking *at, int part, int of)
{
    const struct network *network = at->network;
    if (network->feeds[part] != -1)
        return &place_of(at->scratch, network->feeds[part])->gas;
    for (int p = 0; p < network->passages; p++)
        if (network->passage[p].joint >= 0 && network->passage[p].joint_of == of &&
            at->inputs->joined[network->passage[p].joint])
            return &place_of(at->scratch, network->passage[p].b)->gas;
    return NULL;
}

static int part_named_of(const struct network *network, int part)
{
    const int end = ends_find(network->part[part].kind->end, "of");
    const char *id = end >= 0 ? network->part[part].end[end].part : NULL;
    return id ? network_find_part(network, id) : -1;
}

/* A kind's own rows, all at once. shown and off_scale hold [ROWS_MOST]. */
static void show_kind(const struct looking *at, int part, double *shown, signed char *off_scale)
{
    struct room own_room, other_room;
    struct part_look own, other;
    look_at_part(at, part, &own_room, &own);
    const int of = part_named_of(at->network, part);
    if (of >= 0) {
        look_at_part(at, of, &other_room, &other);
        own.of = &other;
        own.fed = fed_gas(at, part, of);
    }
    memset(off_scale, 0, ROWS_MOST);
    at->network->part[part].kind->show(&own, shown, off_scale);
}

/* Mean over the part's own passages (a line's two ends, a valve's one), or the sum over what is joined to a port. What goes
 * beside some of them adds to each. */
static double part_flow(const struct looking *at, int part, double *molar_flow)
{
    double moles = 0.0, mass = 0.0;
    int own = 0;
    for (int p = 0; p < at->network->passages; p++) {
        const struct passage *passage = &at->network->passage[p];
        if (passage->part != part || passage->inner)
            continue;
        const struct passage_look look = look_at_passage(at->scratch, passage, at->scratch->flow[p].value);
        const double times = passage->beside > 0 ? passage->beside : 1.0;
        moles += times * look.flow;
        mass += times * look.flow * look.molar_mass;
        own += passage->joint < 0 && !passage->beside;
    }
    *molar_flow = own > 1 ? moles / own : moles;
    return own > 1 ? mass / own : mass;
}

static double part_speed(const struct looking *at, int part)
{
    double moles;
    part_flow(at, part, &moles);
    for (int p = 0; p < at->network->passages; p++) {
        const struct passage *passage = &at->network->passage[p];
        if (passage->part != part || !(passage->bore > 0.0))
            continue;
        const struct gas *gas = &place_of(at->scratch, moles >= 0.0 ? passage->a : passage->b)->gas;
        return moles * GAS_CONSTANT * gas->temperature / gas->pressure / (0.25 * M_PI * passage->bore * passage->bore);
    }
    return 0.0;
}

/* Amount and room of a gas space, with the layer over its liquid. */
struct extent {
    double amount, room;
};

static struct extent whole_gas(const struct looking *at, int v)
{
    const struct place_gas *place = at->scratch->volume;
    struct extent sum = {place[v].amount, place[v].room};
    for (int u = 0; u < at->network->volumes; u++)
        if (u != v && at->network->volume[v].pool && at->network->volume[u].liquid_in == v) {
            sum.amount += place[u].amount;
            sum.room += place[u].room;
        }
    return sum;
}

static double part_drain(const struct looking *at, int part)
{
    double sum = 0.0;
    for (int p = 0; p < at->network->passages; p++)
        sum += at->network->passage[p].part == part ? at->scratch->dip[p].drain : 0.0;
    return sum;
}

static double common_value(const struct looking *at, int part, int row)
{
    double moles;
    const struct network *network = at->network;
    if (row == TIME)
        return at->time;
    if (row == AIR_PRESSURE)
        return at->scratch->air.pressure;
    if (row == AIR_TEMPERATURE)
        return at->scratch->air.temperature;
    if (row == AIR_SUN) /* as it shines, whether or not heat is followed */
        return weather_value(network, at->inputs, WEATHER_SUN, at->scratch->time);
    if (row == AIR_WIND)
        return weather_value(network, at->inputs, WEATHER_WIND, at->scratch->time);
    if (row == FLOW)
        return part_flow(at, part, &moles);
    if (row == STANDARD_FLOW)
        return part_flow(at, part, &moles), moles * MOLAR_VOLUME;
    if (row == SPEED)
        return part_speed(at, part);
    if (row == LIQUID_FLOW)
        return part_drain(at, part);
    const struct place_gas *place = &at->scratch->volume[network->main_volume[part]];
    switch (row) {
    case PRESSURE:
        return place->gas.pressure;
    case GAUGE:
        return place->gas.excess - place_of(at->scratch, PLACE_AIR)->gas.excess;
    case TEMPERATURE:
        return place->gas.temperature;
    case WALL:
        return place->wall_temperature;
    case AMOUNT:
        return whole_gas(at, network->main_volume[part]).amount;
    case ROOM:
        return whole_gas(at, network->main_volume[part]).room;
    case VAPOR:
        return vapor_share(network, place);
    default:
        return place->share[row - SHARE_FIRST];
    }
}

void channels_look(const struct network *network, const struct inputs *inputs, double time, const double *y,
                   struct scratch *scratch, int count, const int *channel, double *value, signed char *off_scale)
{
    const struct looking at = {network, inputs, scratch, y, time};
    double shown[ROWS_MOST] = {0.0};
    signed char off[ROWS_MOST] = {0};
    int showed = -1;
    if (network_state(network, inputs, time, y, scratch, false)) {
        for (int c = 0; c < count; c++)
            value[c] = (double)NAN;
        return;
    }
    for (int c = 0; c < count; c++) {
        const int index = channel ? channel[c] : c;
        const int part = network->channel[index].part, row = network->channel_row[index];
        if (row >= KIND_FIRST && part != showed)
            show_kind(&at, showed = part, shown, off);
        value[c] = row >= KIND_FIRST ? shown[row - KIND_FIRST] : common_value(&at, part, row);
        if (off_scale)
            off_scale[c] = row >= KIND_FIRST ? off[row - KIND_FIRST] : 0;
    }
}
