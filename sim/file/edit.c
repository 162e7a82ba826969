/* sim/file/edit.c  What is said on top of a file is done to its trees before they are read, so that the readers find its
 * mistakes in the same words. A place is then the argument itself: "--set leak.diameter=1mm", line 1, its column. */
#include "base/text.h"
#include "file/readers.h"
#include "file/yaml.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { STEPS_MOST = 8, CHANGES_MOST = 1000, NAMES_MOST = PARTS_MOST + 64, RIGHT = 400 };

/* PART.KEY..., taken apart. */
struct path {
    int count;
    const char *step[STEPS_MOST];
    struct ullage_place at[STEPS_MOST];
};

/* ---- growing a tree ---- */
static struct node *node_new(struct reader *reader, enum node_kind kind, struct ullage_place at)
{
    struct node *node = reader_take(reader, sizeof *node);
    if (node) {
        node->kind = kind;
        node->text = "";
        node->at = node->key_at = at;
    }
    return node;
}

static void child_add(struct reader *reader, struct node *parent, struct node *child)
{
    if (!child)
        return;
    if (parent->count == parent->room) {
        const int room = parent->room ? 2 * parent->room : 8;
        struct node **wider = reader_take(reader, (size_t)room * sizeof(struct node *));
        if (!wider)
            return;
        if (parent->count > 0)
            memcpy(wider, parent->child, (size_t)parent->count * sizeof(struct node *));
        parent->child = wider;
        parent->room = room;
    }
    parent->child[parent->count++] = child;
}

static void map_drop(struct node *map, const char *key)
{
    int kept = 0;
    for (int i = 0; i < map->count; i++)
        if (strcmp(map->child[i]->key, key) != 0)
            map->child[kept++] = map->child[i];
    map->count = kept;
}

/* A copy of `value` under `key`, in the place of what stood there. */
static void map_put(struct reader *reader, struct node *map, const char *key, struct ullage_place key_at,
                    const struct node *value)
{
    struct node *copy = reader_take(reader, sizeof *copy);
    if (!copy)
        return;
    *copy = *value;
    copy->key = key;
    copy->key_at = key_at;
    for (int i = 0; i < map->count; i++)
        if (strcmp(map->child[i]->key, key) == 0) {
            map->child[i] = copy;
            return;
        }
    child_add(reader, map, copy);
}

/* ---- paths ---- */
static int characters(const char *text, size_t bytes)
{
    int count = 0;
    for (size_t i = 0; i < bytes; i++)
        count += ((unsigned char)text[i] & 0xC0) != 0x80;
    return count;
}

static bool path_split(struct reader *reader, const char *text, struct ullage_place at, struct path *path)
{
    path->count = 0;
    for (;;) {
        const size_t length = strcspn(text, ".");
        if (length == 0 || path->count == STEPS_MOST) {
            problem_add(reader->found, at, "write PART.PARAMETER or a key of the scenario", "this is no path");
            return false;
        }
        const char *step = arena_format(reader->arena, "%.*s", (int)length, text);
        if (!step)
            reader->outcome = ULLAGE_OUT_OF_MEMORY;
        path->step[path->count] = step ? step : "";
        path->at[path->count++] = at;
        at.column += characters(text, length) + 1;
        if (!text[length])
            return true;
        text += length + 1;
    }
}

static struct node *fault_find(const struct node *list, const char *id)
{
    for (int i = 0; list && list->kind == NODE_LIST && i < list->count; i++) {
        const char *own = node_word(list->child[i], "id");
        if (own && strcmp(own, id) == 0)
            return list->child[i];
    }
    return NULL;
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
    int keys = 0;
    const char *const *key = scenario_keys(&keys);
    int count = keys_gathered(node_find(trees->system, "parts"), name, 0);
    count = keys_gathered(node_find(trees->scenario, "equipment"), name, count);
    count = faults_gathered(node_find(trees->scenario, "faults"), name, count);
    for (int i = 0; i < keys && count < NAMES_MOST; i++)
        name[count++] = key[i];
    char right[RIGHT], shown[TEXT_SHORT];
    problem_add(reader->found, path->at[0], offer(path->step[0], name, count, "there are", right, sizeof right),
                "%s is no part and no key of a scenario", text_short(path->step[0], shown));
}

/* ---- finding what is meant ---- */
static bool is_one_of(const char *word, const char *const *names, int count)
{
    for (int i = 0; i < count; i++)
        if (strcmp(word, names[i]) == 0)
            return true;
    return false;
}

static const char *const sections[] = {"surroundings", "fill", "start", "assume", "let", "record"};
static const char *const scalars[] = {"end", "seed", "name", "about"};

enum { SECTIONS = sizeof sections / sizeof sections[0], SCALARS = sizeof scalars / sizeof scalars[0] };

/* The map under `key`, made where there is none. Null where something else stands there. */
static struct node *map_under(struct reader *reader, struct node *map, const char *key, struct ullage_place at)
{
    struct node *child = node_find(map, key);
    if (child)
        return child->kind == NODE_MAP ? child : NULL;
    struct node *made = node_new(reader, NODE_MAP, at);
    if (!made)
        return NULL;
    map_put(reader, map, key, at, made);
    return node_find(map, key);
}

/* Where the path's first step (for faults: first two) leads: *used tells how many. Null with a problem added. */
static struct node *path_root(struct reader *reader, struct trees *trees, const struct path *path, int *used)
{
    struct node *scenario = trees->scenario, *faults = node_find(scenario, "faults");
    const char *first = path->step[0];
    *used = 1;
    if (is_one_of(first, sections, SECTIONS))
        return map_under(reader, scenario, first, path->at[0]);
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

/* Follows the path down to the map that holds its last step; null with a problem added. */
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
        at = at->kind == NODE_MAP ? map_under(reader, at, path->step[i], path->at[i]) : NULL;
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

static void path_set(struct reader *reader, struct trees *trees, const char *text, struct ullage_place at,
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

/* ---- change ---- */
static void changes_made(struct reader *reader, struct trees *trees)
{
    const struct node *change = node_find(trees->scenario, "change");
    if (!map_wanted(reader, change, "change", "write {PART.PARAMETER: VALUE}, like {tank.volume: 50 L}"))
        return;
    if (change->count > CHANGES_MOST) {
        problem_add(reader->found, change->key_at, "change the system's file instead", "%d changes are too many",
                    change->count);
        return;
    }
    for (int i = 0; i < change->count; i++)
        path_set(reader, trees, change->child[i]->key, change->child[i]->key_at, change->child[i]);
}

/* ---- --set ---- */
/* The value of an argument: a word as it stands, or a list or map in YAML. */
static struct node *value_node(struct reader *reader, const char *text, struct ullage_place at)
{
    if (*text == '[' || *text == '{')
        return yaml_tree(reader->arena, text, strlen(text), at, reader->found);
    struct node *node = node_new(reader, NODE_WORD, at);
    if (node)
        node->text = text;
    return node;
}

/* The argument's own text as a place; null when memory is out or it is no text. */
static const char *argument_place(struct reader *reader, const char *option, const char *text, struct ullage_place *at)
{
    char *own = arena_text(reader->arena, text);
    char *name = arena_format(reader->arena, "%s %s", option, text);
    if (!own || !name) {
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
        return NULL;
    }
    text_tame(name);
    *at = (struct ullage_place){name, 1, 1};
    return strlen(text) <= YAML_WORD_MOST && bytes_good(own, strlen(own), *at, reader->found) ? own : NULL;
}

static void set_made(struct reader *reader, struct trees *trees, const char *argument)
{
    struct ullage_place at;
    const char *text = argument_place(reader, "--set", argument, &at);
    if (!text)
        return;
    const char *equals = strchr(text, '=');
    if (!equals) {
        problem_add(reader->found, at, "write PATH=VALUE, like leak.diameter=0.5mm", "there is no = in it");
        return;
    }
    const char *path = arena_format(reader->arena, "%.*s", (int)(equals - text), text);
    struct ullage_place value_at = at;
    value_at.column += characters(text, (size_t)(equals - text)) + 1;
    const struct node *value = value_node(reader, equals + 1, value_at);
    if (path && value)
        path_set(reader, trees, path, at, value);
}

/* ---- --fault ---- */
/* "KIND WHERE key=value key=value ...": a value may hold spaces, the next key ends it. */
struct fault_words {
    const char *at; /* what has not been read */
    int column;
};

/* The next word; null at the end. *column receives its own. */
static const char *fault_word(struct reader *reader, struct fault_words *words, int *column)
{
    const size_t gap = strspn(words->at, " ");
    words->at += gap;
    words->column += (int)gap;
    const size_t length = strcspn(words->at, " ");
    if (length == 0)
        return NULL;
    const char *word = arena_format(reader->arena, "%.*s", (int)length, words->at);
    *column = words->column;
    words->column += characters(words->at, length);
    words->at += length;
    return word;
}

static void fault_put(struct reader *reader, struct node *map, const char *key, struct ullage_place key_at,
                      const char *text, struct ullage_place at)
{
    struct node *value = node_new(reader, NODE_WORD, at);
    if (!value)
        return;
    value->text = text;
    map_put(reader, map, key, key_at, value);
}

/* key=value, or more of the value before. */
static void fault_pair(struct reader *reader, struct node *map, const char *word, struct ullage_place at)
{
    const char *equals = strchr(word, '=');
    if (equals) {
        const char *key = arena_format(reader->arena, "%.*s", (int)(equals - word), word);
        struct ullage_place value_at = at;
        value_at.column += characters(word, (size_t)(equals - word)) + 1;
        if (key)
            fault_put(reader, map, key, at, equals + 1, value_at);
        return;
    }
    struct node *last = map->child[map->count - 1];
    if (strcmp(last->key, "where") == 0)
        problem_add(reader->found, at, "write KEY=VALUE, like diameter=0.5mm", "there is no = in %s", word);
    else
        last->text = arena_format(reader->arena, "%s %s", last->text, word);
}

/* The fault's name as its id; with -2, -3 where something is called so already. */
static const char *fault_id(struct reader *reader, const struct trees *trees, const char *name)
{
    const struct node *scenario = trees->scenario;
    const char *id = name;
    for (int i = 2; id; i++) {
        const bool taken = node_find(node_find(trees->system, "parts"), id) ||
                           node_find(node_find(scenario, "equipment"), id) ||
                           fault_find(node_find(scenario, "faults"), id);
        if (!taken)
            return id;
        id = arena_format(reader->arena, "%s-%d", name, i);
    }
    return name;
}

static void fault_made(struct reader *reader, struct trees *trees, const char *argument)
{
    struct ullage_place at, where_at;
    const char *text = argument_place(reader, "--fault", argument, &at);
    if (!text)
        return;
    struct fault_words words = {text, 1};
    where_at = at;
    const char *kind = fault_word(reader, &words, &at.column), *where = fault_word(reader, &words, &where_at.column);
    struct node *map = node_new(reader, NODE_MAP, at);
    if (!map)
        return;
    if (!kind || !where || strchr(kind, '=') || strchr(where, '=')) {
        problem_add(reader->found, at, "write \"leak PART diameter=0.5mm\"",
                    "a fault names its kind and its place first");
        return;
    }
    fault_put(reader, map, "id", at, fault_id(reader, trees, kind), at);
    fault_put(reader, map, "fault", at, kind, at);
    fault_put(reader, map, "where", where_at, where, where_at);
    const char *word;
    struct ullage_place word_at = at;
    while ((word = fault_word(reader, &words, &word_at.column)))
        fault_pair(reader, map, word, word_at);
    struct node *faults = node_find(trees->scenario, "faults");
    if (!faults) {
        map_put(reader, trees->scenario, "faults", at, node_new(reader, NODE_LIST, at));
        faults = node_find(trees->scenario, "faults");
    }
    if (faults && faults->kind == NODE_LIST)
        child_add(reader, faults, map);
}

void edits_made(struct reader *reader, struct trees *trees)
{
    const struct ullage_edits *edits = reader->edits;
    changes_made(reader, trees);
    for (int i = 0; edits && i < edits->faults; i++)
        fault_made(reader, trees, edits->fault[i]);
    for (int i = 0; edits && i < edits->sets; i++)
        set_made(reader, trees, edits->set[i]);
}
