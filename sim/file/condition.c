/* sim/file/condition.c  How a canister is conditioned before the scenario begins. */
#include "file/readers.h"

#include <math.h>
#include <string.h>

/* What the trade does: n-butane in as much of another gas, 40 g/h, until 2 g have come through; 300 bed volumes of air at 22.7
 * L/min (0.8 ft3/min): 40 CFR 86.132-96 and 86.153-98, from memory; the load also in a published abstract on a canister of
 * 1.0 L. Three cycles: of n-butane the next one leaves a thousandth more; of a fuel's heavier vapors the heel goes on growing,
 * as it does in service (tests/outside/conditioning.c). */
static const struct conditioning usual = {.share = 0.5,
                                          .rate = 40e-3 / 3600.0,
                                          .until = 2e-3,
                                          .volumes = 300.0,
                                          .purge_rate = 22.7e-3 / 60.0,
                                          .cycles = 3,
                                          .temperature = 298.15};

static const struct range share_range = {ULLAGE_NUMBER, 0.01, 1.0};
static const struct range rate_range = {ULLAGE_MASS_FLOW, 1e-9, 1.0};
static const struct range until_range = {ULLAGE_MASS, 1e-6, 100.0};
static const struct range volumes_range = {ULLAGE_NUMBER, 0.0, 1e5};
static const struct range purge_range = {ULLAGE_VOLUME_FLOW, 1e-8, 1.0};
static const struct range cycles_range = {ULLAGE_NUMBER, 1.0, 30.0};
static const struct range temperature_range = {ULLAGE_TEMPERATURE, 250.0, 330.0};

static void gas_read(struct reader *reader, const struct node *node, struct conditioning *into)
{
    const char *name[SPECIES_KNOWN + 1] = {"fuel"};
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++)
        name[k + 1] = table[k].gas.name;
    const int chosen = node ? choice_wanted(reader, node, name, count + 1) : -1;
    into->fuel = chosen == 0;
    into->gas = chosen > 0 ? &table[chosen - 1] : NULL;
}

static void load_read(struct reader *reader, const struct node *map, struct conditioning *into)
{
    static const char *const keys[] = {"gas", "share", "rate", "until"};
    if (!map || !map_wanted(reader, map, "load", "write load: {gas: n-butane, rate: 40 g/h, until: 2 g}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "load");
    const struct node *share = node_find(map, "share");
    gas_read(reader, node_find(map, "gas"), into);
    into->share_given = number_wanted(reader, share, share_range, &into->share);
    number_wanted(reader, node_find(map, "rate"), rate_range, &into->rate);
    number_wanted(reader, node_find(map, "until"), until_range, &into->until);
    if (share && into->fuel)
        problem_add(reader->found, share->key_at, "leave it out: the fuel's vapor pressure says it",
                    "share cannot be told of the fuel's vapor");
}

static void purge_read(struct reader *reader, const struct node *map, struct conditioning *into)
{
    static const char *const keys[] = {"volumes", "rate"};
    if (!map || !map_wanted(reader, map, "purge", "write purge: {volumes: 300, rate: 22.7 L/min}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "purge");
    number_wanted(reader, node_find(map, "volumes"), volumes_range, &into->volumes);
    number_wanted(reader, node_find(map, "rate"), purge_range, &into->purge_rate);
}

static void cycles_read(struct reader *reader, const struct node *node, struct conditioning *into)
{
    double cycles = usual.cycles;
    if (!number_wanted(reader, node, cycles_range, &cycles))
        return;
    if (cycles != floor(cycles))
        problem_add(reader->found, node->at, "write a whole number", "%s is no number of cycles", node->text);
    into->cycles = (int)cycles;
}

void condition_read(struct reader *reader, const struct node *map, struct conditioning *into)
{
    static const char *const keys[] = {"load", "purge", "cycles", "temperature"};
    if (!map_wanted(reader, map, "conditioned", "write conditioned: {} or conditioned: {purge: {volumes: 300}}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "conditioned");
    *into = usual;
    into->given = true;
    into->at = map->key_at;
    load_read(reader, node_find(map, "load"), into);
    purge_read(reader, node_find(map, "purge"), into);
    cycles_read(reader, node_find(map, "cycles"), into);
    number_wanted(reader, node_find(map, "temperature"), temperature_range, &into->temperature);
}
