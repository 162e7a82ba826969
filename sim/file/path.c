/* sim/file/path.c  Where a path like leak.diameter leads in the trees of a scenario. */
#include "base/text.h"
#include "file/edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STEPS_MOST = 8, NAMES_MOST = PARTS_MOST + 64, RIGHT = 400 };

/* PART.KEY..., taken apart. */
struct path {
    int count;
    const char *step[STEPS_MOST];
    struct ullage_place at[STEPS_MOST];
};

/* What may stand first besides parts and `faults`: keys with keys below, and keys with one value. */
static const char *const sections[] = {"surroundings", "fill", "start", "assume", "let", "record"};
static const char *const scalars[] = {"end", "seed", "name", "about"};

enum { SECTIONS = sizeof sections / sizeof sections[0], SCALARS = sizeof scalars / sizeof scalars[0] };

static bool path_split(struct reader *reader, const char *text, struct ullage_place at, struct path *path)
{
    path->count = 0;
    for (;;) {
        const size_t length = strcspn(text, ".");
        if (length == 0 || path->count == STEPS_MOST) {
            problem_add(reader->found, at, "write PART.PARAMETER or a key of the scenario", "this is no path");
            return false;
        }
        path->step[path->count] = reader_text(reader, arena_format(reader->arena, "%.*s", (int)length, text));
        path->at[path->count++] = at;
        at.column += characters(text, length) + 1;
        if (!text[length])
            return true;
        text += length + 1;
    }
}

static int keys_gathered(const struct node *map, const char **name, int count)
{
    for (int i = 0; map && map->kind == NODE_MAP && i < map->count && count < NAMES_MOST; i++)
        name[count++] = map->child[i]->key;
    return count;
}

static int faults_gathered(const struct node *list, const char **name, int count)
{
    for (int i = 0; list && list->kind == NODE_LIST && i < list->count && count < NAMES_MOST; i++) {
        const char *id = node_word(list->child[i], "id");
        if (id)
            name[count++] = id;
    }
    return count;
}

/* A step that leads nowhere: the nearest of all that could be meant. */
static void step_missing(struct reader *reader, const struct trees *trees, const struct path *path)
{
    const char *name[NAMES_MOST];
    int count = keys_gathered(node_find(trees->system, "parts"), name, 0);
    count = keys_gathered(node_find(trees->scenario, "equipment"), name, count);
    count = faults_gathered(node_find(trees->scenario, "faults"), name, count);
    for (int i = 0; i < SECTIONS && count < NAMES_MOST; i++)
        name[count++] = sections[i];
    for (int i = 0; i < SCALARS && count < NAMES_MOST; i++)
        name[count++] = scalars[i];
    char right[RIGHT], shown[TEXT_SHORT];
    problem_add(reader->found, path->at[0], offer(path->step[0], name, count, "there are", right, sizeof right),
                "%s is no part and no key that can be set", text_short(path->step[0], shown));
}

static bool is_one_of(const char *word, const char *const *names, int count)
{
    for (int i = 0; i < count; i++)
        if (strcmp(word, names[i]) == 0)
            return true;
    return false;
}

/* Where the path's first step (for faults: first two) leads: *used tells how many. Null with a problem added. */
static struct node *path_root(struct reader *reader, struct trees *trees, const struct path *path, int *used)
{
    struct node *scenario = trees->scenario, *faults = node_find(scenario, "faults");
    const char *first = path->step[0];
    *used = 1;
    if (is_one_of(first, sections, SECTIONS))
        return child_under(reader, scenario, first, NODE_MAP, path->at[0]);
    struct node *part = node_find(node_find(trees->system, "parts"), first);
    part = part ? part : node_find(node_find(scenario, "equipment"), first);
    part = part ? part : fault_find(faults, first);
    if (part || strcmp(first, "faults") != 0 || path->count < 2) {
        if (!part)
            step_missing(reader, trees, path);
        return part;
    }
    *used = 2;
    part = fault_find(faults, path->step[1]);
    const char *name[NAMES_MOST];
    char right[RIGHT], shown[TEXT_SHORT];
    if (!part)
        problem_add(reader->found, path->at[1],
                    offer(path->step[1], name, faults_gathered(faults, name, 0), "there are", right, sizeof right),
                    "no fault is called %s", text_short(path->step[1], shown));
    return part;
}

/* One step down from a map, made where there is none, or from a list, whose items are counted from 1. Null where that leads
 * nowhere. */
static struct node *step_down(struct reader *reader, struct node *from, const struct path *path, int step)
{
    const char *name = path->step[step];
    if (from->kind == NODE_LIST) {
        const long item = strspn(name, "0123456789") == strlen(name) ? strtol(name, NULL, 10) : 0;
        if (item >= 1 && item <= from->count)
            return from->child[item - 1];
        char right[RIGHT], shown[TEXT_SHORT];
        snprintf(right, sizeof right, "number them from 1 to %d", from->count);
        problem_add(reader->found, path->at[step], right, "%s has no item %s", path->step[step - 1],
                    text_short(name, shown));
        return NULL;
    }
    const struct node *list = node_find(from, name);
    const bool listed = list && list->kind == NODE_LIST;
    return child_under(reader, from, name, listed ? NODE_LIST : NODE_MAP, path->at[step]);
}

/* Follows the path down to the map that holds its last step; null, mostly with a problem added. */
static struct node *path_map(struct reader *reader, struct trees *trees, const struct path *path)
{
    int used = 0;
    struct node *at = path_root(reader, trees, path, &used);
    if (at && used >= path->count) {
        problem_add(reader->found, path->at[path->count - 1], "name one of its keys, like PART.PARAMETER",
                    "%s has more than one value", path->step[path->count - 1]);
        return NULL;
    }
    for (int i = used; at && i < path->count - 1; i++)
        at = step_down(reader, at, path, i);
    return at && at->kind == NODE_MAP ? at : NULL;
}

/* Two keys that say the same in two ways: setting one takes the other's place. */
static void alternative_dropped(struct node *map, const struct path *path)
{
    static const char *const pairs[][3] = {{"surroundings", "pressure", "altitude"},
                                           {"start", "pressure", "gauge_pressure"}};
    const char *key = path->step[path->count - 1];
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (strcmp(path->step[0], pairs[i][0]) != 0)
            continue;
        if (strcmp(key, pairs[i][1]) == 0)
            map_drop(map, pairs[i][2]);
        if (strcmp(key, pairs[i][2]) == 0)
            map_drop(map, pairs[i][1]);
    }
}

/* A name that is not in `let` changes nothing anywhere: surely a slip. */
static bool let_known(struct reader *reader, const struct node *map, const struct path *path)
{
    const char *key = path->step[path->count - 1];
    if (strcmp(path->step[0], "let") != 0 || node_find(map, key))
        return true;
    const char *name[NAMES_MOST];
    char right[RIGHT], shown[TEXT_SHORT];
    problem_add(reader->found, path->at[path->count - 1],
                offer(key, name, keys_gathered(map, name, 0), "there are", right, sizeof right),
                "nothing is called %s in let", text_short(key, shown));
    return false;
}

void path_set(struct reader *reader, struct trees *trees, const char *text, struct ullage_place at,
              const struct node *value)
{
    struct path path;
    if (!path_split(reader, text, at, &path))
        return;
    const bool scalar = path.count == 1 && is_one_of(path.step[0], scalars, SCALARS);
    const int before = ullage_problems_count(reader->found);
    struct node *map = scalar ? trees->scenario : path_map(reader, trees, &path);
    if (!map && ullage_problems_count(reader->found) == before)
        problem_add(reader->found, at, "name a key that holds one value", "this path leads through a value");
    if (!map || !let_known(reader, map, &path))
        return;
    map_put(reader, map, path.step[path.count - 1], path.at[path.count - 1], value);
    alternative_dropped(map, &path);
}
