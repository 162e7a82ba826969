/* sim/file/fill.c  What the tank holds: how full, how warm, and which fuel. */
#include "base/unit.h"
#include "file/readers.h"
#include "file/source.h"
#include "network/network.h"
#include "property/blend.h"
#include "property/quick_fuel.h"

#include <stdio.h>
#include <string.h>

#define SHARES_ROUNDING 1e-6

static const char *const fuels[] = {"blend", "quick", NULL};

enum { FUEL_BLEND, FUEL_QUICK };

/* Components by volume at 60 degF become mol in a cubic metre. */
static void fuel_take(struct reader *reader, const struct blend *blend)
{
    struct fill *fill = &reader->into->fill;
    fill->fuels = blend->count;
    for (int k = 0; k < blend->count; k++)
        fill->fuel[k] = *blend->component[k];
    blend_amounts(blend, 1.0, fill->amount);
}

static const struct component *component_wanted(struct reader *reader, const struct node *node)
{
    const char *name[SPECIES_KNOWN];
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++)
        name[k] = table[k].gas.name;
    const struct component *component = component_find(node->key);
    char right[400];
    if (!component)
        problem_add(reader->found, node->key_at, offer(node->key, name, count, "there are", right, sizeof right),
                    "%s is no component known here", node->key);
    return component;
}

static void components_read(struct reader *reader, const struct node *map)
{
    const struct range share = {ULLAGE_NUMBER, 0.0, 1.0};
    const int before = ullage_problems_count(reader->found);
    struct blend blend = {0};
    double sum = 0.0;
    if (!map_wanted(reader, map, "components", "write components: {n-pentane: 60 %, toluene: 40 %}"))
        return;
    for (int k = 0; k < map->count; k++) {
        const struct component *component = component_wanted(reader, map->child[k]);
        double part = 0.0;
        if (blend.count == LIQUID_MOST) {
            problem_add(reader->found, map->child[k]->key_at, "leave the smallest out",
                        "a fuel has %d components at most", LIQUID_MOST);
            return;
        }
        if (!component || !number_wanted(reader, map->child[k], share, &part))
            continue;
        sum += part;
        blend.component[blend.count] = component;
        blend.share[blend.count++] = part;
    }
    if (ullage_problems_count(reader->found) > before)
        return;
    if (!(fabs(sum - 1.0) <= SHARES_ROUNDING)) {
        problem_add(reader->found, map->at, "let shares add up to 100 %", "these shares add up to %.6g %%",
                    100.0 * sum);
        return;
    }
    fuel_take(reader, &blend);
}

static void volatility_read(struct reader *reader, const struct node *node, bool quick)
{
    const struct range range = {ULLAGE_PRESSURE, quick ? QUICK_FUEL_LEAST : blend_base_least(),
                                quick ? QUICK_FUEL_MOST : blend_base_most()};
    struct fill *fill = &reader->into->fill;
    double rvp;
    if (!number_wanted(reader, node, range, &rvp))
        return;
    struct blend blend;
    if (!quick && blend_base(rvp, &blend)) {
        fuel_take(reader, &blend);
        return;
    }
    fill->fuels = 1;
    fill->fuel[0] = quick_fuel(rvp);
    fill->amount[0] = 1.0 / component_volume(&fill->fuel[0], BLENDING_TEMPERATURE).value;
}

void blend_tree_read(struct reader *reader, const struct node *tree)
{
    static const char *const keys[] = {"ullage", "name", "about", "components"};
    keys_wanted(reader, tree, keys, sizeof keys / sizeof keys[0], "a blend");
    const struct node *components = node_find(tree, "components");
    if (components)
        components_read(reader, components);
    else
        problem_add(reader->found, tree->at, "write components: {n-pentane: 100 %}", "this blend has no components");
}

/* A blend's file holds components as a scenario may. */
static void blend_read(struct reader *reader, const struct node *node)
{
    const char *path = word_wanted(reader, node) ? source_find(reader, node, node->at.file, "fuels", "blend/1") : NULL;
    const struct node *tree = path ? source_tree(reader, path) : NULL;
    if (tree && form_wanted(reader, tree, "blend/1"))
        blend_tree_read(reader, tree);
}

static void fuel_read(struct reader *reader, const struct node *map)
{
    const struct node *fuel = node_find(map, "fuel"), *rvp = node_find(map, "rvp");
    const struct node *components = node_find(map, "components"), *blend = node_find(map, "blend");
    const int chosen = fuel ? choice_wanted(reader, fuel, fuels, 2) : FUEL_BLEND;
    if ((components != NULL) + (rvp != NULL) + (blend != NULL) > 1)
        problem_add(reader->found, (components ? components : blend)->key_at, "keep one of rvp, blend, components",
                    "the fuel is told twice");
    else if (components)
        components_read(reader, components);
    else if (blend)
        blend_read(reader, blend);
    else if (rvp && chosen >= 0)
        volatility_read(reader, rvp, chosen == FUEL_QUICK);
    else if (!rvp)
        problem_add(reader->found, map->key_at, "add rvp: 9 psi, blend: summer, or components: {n-pentane: 100 %}",
                    "%s does not say which fuel", map->key);
}

/* ---- what runs in at the pump ---- */

static bool is_quick(const struct component *fuel)
{
    return !component_find(fuel->gas.name);
}

/* Its place among the tank's components; one of its own, of which the tank has none, where it is not there. -1: no room. */
static int pumped_place(struct fill *tank, const struct component *fuel)
{
    for (int k = 0; k < tank->fuels; k++)
        if (!strcmp(tank->fuel[k].gas.name, fuel->gas.name))
            return k;
    if (tank->fuels == LIQUID_MOST)
        return -1;
    tank->fuel[tank->fuels] = *fuel;
    tank->amount[tank->fuels] = 0.0;
    return tank->fuels++;
}

static void pumped_take(struct reader *reader, const struct node *map, const struct fill *pump)
{
    struct fill *tank = &reader->into->fill;
    if (tank->fuels == 0 || pump->fuels == 0)
        return;
    if (is_quick(&tank->fuel[0]) || is_quick(&pump->fuel[0])) {
        problem_add(reader->found, map->at, "leave out fuel: quick, or pump",
                    "the quick fuel is one substance, and mixes with no other");
        return;
    }
    tank->pump_given = true;
    for (int k = 0; k < pump->fuels; k++) {
        const int at = pumped_place(tank, &pump->fuel[k]);
        if (at < 0) {
            char right[100];
            snprintf(right, sizeof right, "let both have %d together", LIQUID_MOST);
            problem_add(reader->found, map->at, right, "the fuels of tank and pump have too many components");
            return;
        }
        tank->pumped[at] = pump->amount[k];
    }
}

static void pump_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"rvp", "blend", "components"};
    struct fill *fill = &reader->into->fill;
    if (!map || !map_wanted(reader, map, "pump", "write pump: {blend: winter}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "pump");
    const struct fill tank = *fill;
    fill->fuels = 0;
    fuel_read(reader, map);
    const struct fill pump = *fill;
    *fill = tank;
    pumped_take(reader, map, &pump);
}

/* ---- temperatures ---- */
/* One problem, of the first component that does not reach there. */
static void warmth_check(struct reader *reader, const struct node *node, double temperature)
{
    const struct fill *fill = &reader->into->fill;
    for (int k = 0; k < fill->fuels; k++) {
        const struct temperature_range good = component_range(&fill->fuel[k]);
        if (good.low <= temperature && temperature <= good.high)
            continue;
        char right[100];
        snprintf(right, sizeof right, "write a temperature from %.4g to %.4g degC, or another fuel",
                 good.low - ZERO_CELSIUS, good.high - ZERO_CELSIUS);
        problem_add(reader->found, node->at, right, "nothing is known of %s in the fuel at %.4g degC",
                    fill->fuel[k].gas.name, temperature - ZERO_CELSIUS);
        return;
    }
}

void fuel_warmth_check(struct reader *reader, const struct node *fill, const struct node *surroundings)
{
    const struct profile *outside = &reader->into->surroundings.temperature;
    const struct node *begins = node_find(fill, "temperature"), *said = node_find(surroundings, "temperature");
    if (begins)
        warmth_check(reader, begins, reader->into->fill.temperature);
    if (!said)
        said = node_find(surroundings, "altitude");
    for (int k = 0; said && k < outside->corners; k++) {
        const struct node *corner = said->kind == NODE_LIST ? said->child[k] : said;
        const bool pair = corner->kind == NODE_LIST && corner->count == 2;
        if (outside->value[k] > 0.0) /* 0: none could be read there */
            warmth_check(reader, pair ? corner->child[1] : corner, outside->value[k]);
    }
}

static double fuel_volume(const struct fill *fill, double temperature)
{
    double sum = 0.0;
    for (int k = 0; k < fill->fuels; k++)
        sum += fill->amount[k] * component_volume(&fill->fuel[k], temperature).value;
    return sum;
}

void fuel_brim_check(struct reader *reader, const struct node *fill)
{
    const struct ullage_description *into = reader->into;
    const struct node *level = node_find(fill, "level");
    double hottest = into->fill.temperature;
    for (int k = 0; k < into->surroundings.temperature.corners; k++)
        hottest = fmax(hottest, into->surroundings.temperature.value[k]);
    if (!level || into->fill.fuels == 0)
        return;
    const double swelling = fuel_volume(&into->fill, hottest) / fuel_volume(&into->fill, into->fill.temperature);
    if (into->fill.level * swelling <= FUEL_FULLEST)
        return;
    char right[100];
    snprintf(right, sizeof right, "let it be at most %.3g %%", 100.0 * FUEL_FULLEST / swelling);
    problem_add(reader->found, level->at, right, "at %.4g degC, as outside, this fuel swells to %.4g %% of the tank",
                hottest - ZERO_CELSIUS, 100.0 * into->fill.level * swelling);
}

void fill_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"level", "temperature", "rvp", "fuel", "blend", "components", "pump"};
    const struct range level = {ULLAGE_NUMBER, 1e-3, 0.98}, warm = {ULLAGE_TEMPERATURE, 230.0, 350.0};
    struct ullage_description *into = reader->into;
    if (!map || !map_wanted(reader, map, "fill", "write fill: {level: 40 %, rvp: 9 psi}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "fill");
    const double outside = into->surroundings.temperature.corners ? into->surroundings.temperature.value[0] : 293.15;
    into->fill = (struct fill){.given = true, .level = 0.4, .temperature = outside};
    number_wanted(reader, node_find(map, "level"), level, &into->fill.level);
    if (number_wanted(reader, node_find(map, "temperature"), warm, &into->fill.temperature) &&
        into->assume.heat == HEAT_ISOTHERMAL && fabs(into->fill.temperature - outside) > 1e-6)
        problem_add(reader->found, node_find(map, "temperature")->at, "let it be the surroundings' first temperature",
                    "the fuel begins at another temperature than the surroundings, but heat is isothermal");
    fuel_read(reader, map);
    pump_read(reader, node_find(map, "pump"));
}
