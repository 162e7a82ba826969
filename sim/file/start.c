/* sim/file/start.c  What parts begin with. */
#include "base/text.h"
#include "file/readers.h"

#include <math.h>
#include <string.h>

#define GAS_THINNEST 1.0      /* Pa, absolute: below it gas is no continuum in millimetre holes */
#define GAS_DENSEST 1e7       /* Pa, absolute: above it gases are far from ideal */
#define SHARES_ROUNDING 1e-6  /* how far shares may be from 100 % in sum */
#define SAME_TEMPERATURE 1e-6 /* K: 68 degF is 20 degC */

static const struct range pressure_range = {ULLAGE_PRESSURE, GAS_THINNEST, GAS_DENSEST};
static const struct range gauge_range = {ULLAGE_PRESSURE, -GAS_DENSEST, GAS_DENSEST};
static const struct range temperature_range = {ULLAGE_TEMPERATURE, 150.0, 600.0};
static const struct range share_range = {ULLAGE_NUMBER, 0.0, 1.0};

static int gas_wanted(struct reader *reader, struct ullage_place at, const char *name)
{
    int gases = 0;
    const char *gas[SPECIES_KNOWN];
    for (int i = 0; i < species_known(); i++) {
        if (species_at(i)->passive)
            continue;
        if (strcmp(species_at(i)->name, name) == 0)
            return i;
        gas[gases++] = species_at(i)->name;
    }
    char right[160], shown[TEXT_SHORT];
    problem_add(reader->found, at, offer(name, gas, gases, "there are", right, sizeof right), "%s is no gas known here",
                *name ? text_short(name, shown) : "nothing");
    return -1;
}

static void mixture_read(struct reader *reader, const struct node *map, struct start *start)
{
    const int before = ullage_problems_count(reader->found);
    double sum = 0.0;
    for (int i = 0; i < map->count; i++) {
        const struct node *node = map->child[i];
        const int gas = gas_wanted(reader, node->key_at, node->key);
        double share = 0.0;
        if (gas >= 0 && number_wanted(reader, node, share_range, &share))
            start->share[gas] = share;
        sum += share;
    }
    if (ullage_problems_count(reader->found) > before)
        return;
    if (fabs(sum - 1.0) > SHARES_ROUNDING) {
        problem_add(reader->found, map->at, "let shares add up to 100 %", "these shares add up to %.6g %%",
                    100.0 * sum);
        return;
    }
    for (int i = 0; i < SPECIES_KNOWN; i++)
        start->share[i] /= sum;
    start->gas_given = true;
}

static void gas_read(struct reader *reader, const struct node *node, struct start *start)
{
    if (node->kind == NODE_MAP) {
        mixture_read(reader, node, start);
        return;
    }
    const char *word = word_wanted(reader, node);
    const int gas = word ? gas_wanted(reader, node->at, word) : -1;
    start->gas_given = gas >= 0;
    if (start->gas_given)
        start->share[gas] = 1.0;
}

static void pressure_read(struct reader *reader, const struct node *map, struct start *start)
{
    const struct surroundings *around = &reader->into->surroundings;
    const struct node *pressure = node_find(map, "pressure"), *gauge = node_find(map, "gauge_pressure");
    if (pressure && gauge)
        problem_add(reader->found, gauge->key_at, "keep one of them",
                    "pressure and gauge_pressure both say how much gas there is");
    start->pressure_given = number_wanted(reader, pressure, pressure_range, &start->pressure);
    start->gauge_given = number_wanted(reader, gauge, gauge_range, &start->gauge);
    const double ambient = around->pressure.corners > 0 ? around->pressure.value[0] : GAS_DENSEST;
    if (start->gauge_given && ambient + start->gauge < GAS_THINNEST)
        problem_add(reader->found, gauge->at, "stay above an absolute pressure of 1 Pa",
                    "%s is below no pressure at all: the surroundings begin at %.6g Pa", gauge->text, ambient);
}

static void temperature_read(struct reader *reader, const struct node *map, struct start *start)
{
    const struct ullage_description *in = reader->into;
    const struct node *node = node_find(map, "temperature");
    start->temperature_given = number_wanted(reader, node, temperature_range, &start->temperature);
    if (!start->temperature_given)
        return;
    start->temperature_at = node->at;
    const struct profile *around = &in->surroundings.temperature;
    const bool held = in->assume.heat == HEAT_ISOTHERMAL && around->corners > 0;
    if (held && fabs(start->temperature - around->value[0]) > SAME_TEMPERATURE)
        problem_add(reader->found, node->at,
                    "begin at the temperature of the surroundings, or leave heat: isothermal out",
                    "%s begins at another temperature than the surroundings, but heat is isothermal", map->key);
}

/* How much vapor a tank's gas begins with, as a share of what its liquid holds. */
static void saturation_read(struct reader *reader, const struct node *map, struct start *start)
{
    start->saturation_given = number_wanted(reader, node_find(map, "saturation"), share_range, &start->saturation);
}

/* Of what a canister's carbon holds the gas follows. */
static void conditioned_read(struct reader *reader, const struct node *map, struct start *start)
{
    const struct node *conditioned = node_find(map, "conditioned"), *gas = node_find(map, "gas");
    if (!conditioned)
        return;
    const struct element_kind *kind = reader->into->part[start->part].kind;
    if (kind && !kind->bed)
        problem_add(reader->found, conditioned->key_at, "condition a canister", "%s is a %s and has no beds", map->key,
                    kind->name);
    if (gas)
        problem_add(reader->found, gas->key_at, "keep one of gas and conditioned",
                    "the gas of a conditioned canister follows from what it holds");
    condition_read(reader, conditioned, &start->conditioning);
}

static void part_start_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"pressure", "gauge_pressure", "temperature",
                                       "gas",      "saturation",     "conditioned"};
    struct ullage_description *into = reader->into;
    const int part = part_find(into, map->key);
    if (part < 0) {
        part_missing(reader, map->key_at, map->key);
        return;
    }
    const struct element_kind *kind = into->part[part].kind;
    if (kind && !kind->has_volumes) {
        problem_add(reader->found, map->key_at, "start parts that hold gas", "%s is a %s and holds no gas", map->key,
                    kind->name);
        return;
    }
    if (!map_wanted(reader, map, map->key, "write {gauge_pressure: 14 inH2O, temperature: 20 degC, gas: air}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "a start");
    struct start *start = &into->start[into->starts++];
    *start = (struct start){.part = part, .at = map->key_at};
    pressure_read(reader, map, start);
    temperature_read(reader, map, start);
    saturation_read(reader, map, start);
    conditioned_read(reader, map, start);
    if (node_find(map, "gas"))
        gas_read(reader, node_find(map, "gas"), start);
}

void start_read(struct reader *reader, const struct node *map)
{
    struct ullage_description *into = reader->into;
    if (!map_wanted(reader, map, "start", "write start: {vessel: {gauge_pressure: 14 inH2O}}"))
        return;
    into->start = reader_take(reader, (size_t)map->count * sizeof(struct start));
    for (int i = 0; into->start && i < map->count; i++)
        part_start_read(reader, map->child[i]);
}
