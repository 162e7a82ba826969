/* sim/file/rest.c  Frozen laws, named values, what to record. */
#include "base/text.h"
#include "base/unit.h"
#include "file/readers.h"

#include <math.h>
#include <string.h>

void later_refused(struct reader *reader, const struct node *map, const char *key, const char *why, const char *right)
{
    const struct node *node = node_find(map, key);
    if (node)
        problem_add(reader->found, node->key_at, right, "%s", why);
}

/* ---- assume ---- */
void assume_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"heat", "discharge", "shell", "gas"};
    static const char *const heats[] = {"isothermal", "adiabatic"};
    static const char *const shells[] = {"rigid"};
    static const char *const gases[] = {"dry"};
    const struct range discharge = {ULLAGE_NUMBER, 0.01, 1.0};
    struct assumptions *into = &reader->into->assume;
    if (!map_wanted(reader, map, "assume", "write {heat: isothermal, discharge: 0.6}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "assume");
    const struct node *heat = node_find(map, "heat"), *shell = node_find(map, "shell"), *gas = node_find(map, "gas");
    if (heat) {
        const int chosen = choice_wanted(reader, heat, heats, 2);
        into->heat = chosen == 0 ? HEAT_ISOTHERMAL : chosen == 1 ? HEAT_ADIABATIC : HEAT_FULL;
    }
    number_wanted(reader, node_find(map, "discharge"), discharge, &into->discharge);
    into->rigid = shell && choice_wanted(reader, shell, shells, 1) == 0;
    into->dry = gas && choice_wanted(reader, gas, gases, 1) == 0;
}

/* ---- let ---- */
static bool let_name_wanted(struct reader *reader, const struct node *node)
{
    static const char *const taken[] = {"time", "air", "and", "or", "not"};
    for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++)
        if (strcmp(node->key, taken[i]) == 0) {
            problem_add(reader->found, node->key_at, "choose another name", "%s means something else in conditions",
                        node->key);
            return false;
        }
    return name_wanted(reader, node->key_at, node->key, true);
}

void let_read(struct reader *reader, const struct node *map)
{
    struct ullage_description *into = reader->into;
    if (!map_wanted(reader, map, "let", "write let: {limit: 0.020 in}"))
        return;
    into->let = reader_take(reader, (size_t)map->count * sizeof(struct named_value));
    for (int i = 0; into->let && i < map->count; i++) {
        const struct node *node = map->child[i];
        const char *text = let_name_wanted(reader, node) ? word_wanted(reader, node) : NULL;
        struct named_value *value = &into->let[into->lets];
        *value = (struct named_value){.name = node->key, .at = node->at};
        const char *sentence = text ? ullage_quantity_read(text, &value->value, &value->dimension) : NULL;
        if (sentence)
            problem_say(reader->found, node->at, sentence);
        else if (text)
            into->lets++;
    }
}

/* ---- record ---- */
void record_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"every", "channels"};
    const struct range every = {ULLAGE_TIME, 1e-6, HUGE_VAL};
    struct ullage_description *into = reader->into;
    if (!map_wanted(reader, map, "record", "write {every: 0.5 s, channels: [tank.gauge_pressure]}"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "record");
    into->every_given = number_wanted(reader, node_find(map, "every"), every, &into->every);
    const struct node *channels = node_find(map, "channels");
    if (!list_wanted(reader, channels, "channels", "write [tank.gauge_pressure, leak.flow]"))
        return;
    into->channels = channels;
    for (int i = 0; i < channels->count; i++)
        word_wanted(reader, channels->child[i]);
}
