/* sim/file/parts.c  Parts of any kind, read by the tables of their kind. Knows no kind. */
#include "base/text.h"
#include "base/unit.h"
#include "file/readers.h"
#include "property/gas.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SENTENCE = 160, RIGHT = 400, NAMES_MOST = 64 };

/* Keys for the drawing alone and `type`; `shape` only of parts with openings of their own. */
static const char *const common_keys[] = {"type", "at", "turn", "short"};
static const char *const tank_shapes[] = {"box", "saddle", "cylinder", "drum"};

int part_find(const struct ullage_description *in, const char *id)
{
    for (int i = 0; i < in->parts; i++)
        if (in->part[i].id && strcmp(in->part[i].id, id) == 0)
            return i;
    return -1;
}

void part_missing(struct reader *reader, struct ullage_place at, const char *id)
{
    const struct ullage_description *in = reader->into;
    const char *name[PARTS_MOST + 1];
    int count = 0;
    for (int i = 0; i < in->parts && !problems_full(reader->found); i++)
        if (in->part[i].id)
            name[count++] = in->part[i].id;
    char right[RIGHT], shown[TEXT_SHORT];
    problem_add(reader->found, at, offer(id, name, count, "there are", right, sizeof right), "there is no part %s",
                *id ? text_short(id, shown) : "without a name");
}

/* ---- numbers and words of a table ---- */
/* A key of the map is nearly `name`, or glued to its value: "from:vessel". */
static bool key_near(const struct node *map, const char *name)
{
    const size_t length = strlen(name);
    for (int i = 0; i < map->count; i++) {
        const char *key = map->child[i]->key;
        const bool glued = strncmp(key, name, length) == 0 && key[length] == ':';
        if (glued || nearest_name(key, &name, 1))
            return true;
    }
    return false;
}

void numbers_read(struct reader *reader, const struct node *map, bool strangers, const struct row *rows, double *value,
                  struct ullage_place *value_at)
{
    for (int i = 0; rows && rows[i].name; i++) {
        const struct row *row = &rows[i];
        const struct node *node = node_find(map, row->name);
        value[i] = row->usual;
        value_at[i] = (struct ullage_place){0};
        if (node && number_wanted(reader, node, (struct range){row->dimension, row->least, row->most}, &value[i]))
            value_at[i] = node->at;
        char right[SENTENCE];
        if (!node && isnan(row->usual) && !(strangers && key_near(map, row->name)))
            problem_add(reader->found, map->key_at, unit_wanted(row->dimension, right), "%s of %s is missing",
                        row->name, map->key ? map->key : "this");
    }
}

/* Names of all gases that can fill a space. Returns how many. */
static int gas_names(const char **name)
{
    int gases = 0;
    for (int i = 0; i < species_known(); i++)
        if (!species_at(i)->passive)
            name[gases++] = species_at(i)->name;
    return gases;
}

/* Index of the choice, or of the species; -1 where there is none. */
static int word_chosen(struct reader *reader, const struct node *node, const struct word_row *row)
{
    const char *gas[SPECIES_KNOWN];
    if (!row->choice) {
        const int chosen = choice_wanted(reader, node, gas, gas_names(gas));
        return chosen < 0 ? -1 : species_find(gas[chosen]);
    }
    int count = 0;
    while (row->choice[count])
        count++;
    return choice_wanted(reader, node, row->choice, count);
}

static void words_read(struct reader *reader, const struct node *map, const struct word_row *rows, int *word)
{
    for (int i = 0; rows && rows[i].name; i++) {
        const struct node *node = node_find(map, rows[i].name);
        word[i] = node ? word_chosen(reader, node, &rows[i]) : rows[i].usual;
        if (!node && rows[i].usual < 0)
            problem_add(reader->found, map->key_at, rows[i].meaning, "%s of %s is missing", rows[i].name,
                        map->key ? map->key : "this");
    }
}

/* ---- ends and openings ---- */
bool end_read(struct reader *reader, const struct node *node, struct part_end *end)
{
    const char *word = word_wanted(reader, node);
    if (!word)
        return false;
    const char *point = strchr(word, '.');
    const int length = point ? (int)(point - word) : (int)strlen(word);
    end->at = node->at;
    end->part = reader_text(reader, arena_format(reader->arena, "%.*s", length, word));
    end->opening = point ? point + 1 : "";
    const bool air = strcmp(end->part, "air") == 0;
    if (point && (air || !*end->opening)) {
        problem_add(reader->found, node->at, "write PART, PART.OPENING or air", "%s names no opening", word);
        return false;
    }
    return true;
}

static void ends_read(struct reader *reader, const struct node *map, bool strangers, struct part *part)
{
    const struct end_row *rows = part->kind->end;
    for (int i = 0; rows && rows[i].name; i++) {
        const struct node *node = node_find(map, rows[i].name);
        if (node)
            end_read(reader, node, &part->end[i]);
        else if (rows[i].required && !(strangers && key_near(map, rows[i].name)))
            problem_add(reader->found, map->key_at, "name the part it leads to, or air", "end %s of %s is missing",
                        rows[i].name, part->id);
    }
}

static struct part_opening *opening_add(struct reader *reader, struct part *part, struct ullage_place at,
                                        const char *name)
{
    if (part->openings == OPENINGS_MOST) {
        problem_add(reader->found, at, "give at most 12", "%s has too many openings", part->id);
        return NULL;
    }
    if (!name_wanted(reader, at, name, false))
        return NULL;
    for (int i = 0; i < part->openings; i++)
        if (strcmp(part->opening[i].name, name) == 0) {
            problem_add(reader->found, at, "give each name once", "%s has two openings called %s", part->id, name);
            return NULL;
        }
    struct part_opening *opening = &part->opening[part->openings++];
    *opening = (struct part_opening){.name = name, .at = at};
    return opening;
}

static void openings_read(struct reader *reader, const struct node *map, struct part *part)
{
    const struct range height = {ULLAGE_LENGTH, 0.0, HUGE_VAL};
    if (!map_wanted(reader, map, "openings", "write {NAME: HEIGHT}, like {roof: 215 mm}"))
        return;
    for (int i = 0; i < map->count; i++) {
        const struct node *node = map->child[i];
        struct part_opening *opening = opening_add(reader, part, node->key_at, node->key);
        if (opening)
            number_wanted(reader, node, height, &opening->height);
    }
}

static void ports_read(struct reader *reader, const struct node *list, struct part *part)
{
    if (!list_wanted(reader, list, "ports", "write [NAME, ...], like [tank, purge, air]"))
        return;
    for (int i = 0; i < list->count; i++) {
        const char *name = word_wanted(reader, list->child[i]);
        if (name)
            opening_add(reader, part, list->child[i]->at, name);
    }
}

/* ---- beds ---- */
static int row_names(const struct row *rows, const char **name, int count)
{
    for (int i = 0; rows && rows[i].name; i++)
        name[count++] = rows[i].name;
    return count;
}

static int word_names(const struct word_row *rows, const char **name, int count)
{
    for (int i = 0; rows && rows[i].name; i++)
        name[count++] = rows[i].name;
    return count;
}

static void bed_read(struct reader *reader, const struct node *map, struct part *part)
{
    const char *name[NAMES_MOST];
    struct ullage_place value_at[BED_ROWS_MOST];
    if (!map_wanted(reader, map, "a bed", "write {volume: 1.4 L, length: 250 mm}"))
        return;
    if (part->beds == BEDS_MOST) {
        problem_add(reader->found, map->at, "give at most 4", "%s has too many beds", part->id);
        return;
    }
    struct part_bed *bed = &part->bed[part->beds++];
    const int names = word_names(part->kind->bed_word, name, row_names(part->kind->bed, name, 0));
    const bool known = keys_wanted(reader, map, name, names, "a bed");
    bed->at = map->at;
    numbers_read(reader, map, !known, part->kind->bed, bed->value, value_at);
    words_read(reader, map, part->kind->bed_word, bed->word);
}

static void beds_read(struct reader *reader, const struct node *list, struct part *part)
{
    if (!list || (list->kind == NODE_LIST && list->count == 0))
        problem_add(reader->found, part->at, "write beds: [{volume: 1.4 L, length: 250 mm}]", "%s has no bed",
                    part->id);
    else if (list_wanted(reader, list, "beds", "write [{volume: 1.4 L, length: 250 mm}]"))
        for (int i = 0; i < list->count; i++)
            bed_read(reader, list->child[i], part);
}

/* ---- what only the drawing uses ---- */
static void centre_read(struct reader *reader, const struct node *node, struct part *part)
{
    const struct range grid = {ULLAGE_NUMBER, -1000.0, 1000.0};
    if (!node)
        return;
    if (node->kind != NODE_LIST || node->count != 2) {
        problem_add(reader->found, node->at, "write two numbers, like at: [2, 6]",
                    "at is the centre of the drawn part");
        return;
    }
    part->placed =
        number_wanted(reader, node->child[0], grid, &part->x) && number_wanted(reader, node->child[1], grid, &part->y);
}

static void drawing_read(struct reader *reader, const struct node *map, struct part *part)
{
    static const char *const turns[] = {"0", "90", "180", "270"};
    const struct node *turn = node_find(map, "turn"), *name = node_find(map, "short");
    const struct node *shape = part->kind->opening_list ? node_find(map, "shape") : NULL;
    centre_read(reader, node_find(map, "at"), part);
    if (turn) {
        const int quarter = choice_wanted(reader, turn, turns, 4);
        part->turn = quarter < 0 ? 0 : 90 * quarter;
    }
    if (shape) {
        const int chosen = choice_wanted(reader, shape, tank_shapes, 4);
        part->shape = chosen < 0 ? "" : tank_shapes[chosen];
    }
    const char *label = name ? word_wanted(reader, name) : NULL;
    if (label)
        part->label = label;
}

/* A part's id as a person reads it: "vapor-line" is "vapor line". */
const char *label_of(struct reader *reader, const char *id)
{
    char *label = arena_text(reader->arena, id);
    if (!label) {
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
        return "";
    }
    for (char *c = label; *c; c++)
        if (*c == '-')
            *c = ' ';
    return label;
}

/* ---- a part ---- */
static const struct element_kind *kind_read(struct reader *reader, const struct node *map)
{
    const struct element_kind *const *kinds = element_kinds();
    const char *name[NAMES_MOST];
    int count = 0;
    for (; kinds[count]; count++)
        name[count] = kinds[count]->name;
    const struct node *type = node_find(map, "type");
    if (type) {
        const int chosen = choice_wanted(reader, type, name, count);
        return chosen < 0 ? NULL : kinds[chosen];
    }
    char right[RIGHT];
    const int used = snprintf(right, sizeof right, "write type: ");
    names_listed(name, count, right + used, sizeof right - (size_t)used);
    problem_add(reader->found, map->key_at, right, "type of %s is missing", map->key);
    return NULL;
}

static bool part_keys_wanted(struct reader *reader, const struct node *map, const struct element_kind *kind)
{
    const char *name[NAMES_MOST];
    int count = word_names(kind->word, name, row_names(kind->parameter, name, 0));
    for (int i = 0; kind->end && kind->end[i].name; i++)
        name[count++] = kind->end[i].name;
    if (kind->opening_list) {
        name[count++] = "openings";
        name[count++] = "shape";
    }
    if (kind->level_list)
        name[count++] = "levels";
    if (kind->trace_list)
        name[count++] = "trace";
    if (kind->port_list)
        name[count++] = "ports";
    if (kind->bed)
        name[count++] = "beds";
    for (size_t i = 0; i < sizeof common_keys / sizeof common_keys[0]; i++)
        name[count++] = common_keys[i];
    char whose[64];
    snprintf(whose, sizeof whose, "%s %s", strchr("aeiou", kind->name[0]) ? "an" : "a", kind->name);
    return keys_wanted(reader, map, name, count, whose);
}

static void part_read(struct reader *reader, const struct node *map, struct part *part)
{
    if (!map_wanted(reader, map, "a part", "write {type: vessel, volume: 30 L}"))
        return;
    part->kind = kind_read(reader, map);
    if (!part->kind)
        return;
    const bool known = part_keys_wanted(reader, map, part->kind);
    numbers_read(reader, map, !known, part->kind->parameter, part->value, part->value_at);
    words_read(reader, map, part->kind->word, part->word);
    ends_read(reader, map, !known, part);
    if (part->kind->opening_list)
        openings_read(reader, node_find(map, "openings"), part);
    if (part->kind->level_list)
        levels_read(reader, node_find(map, "levels"), part);
    if (part->kind->trace_list)
        trace_read(reader, node_find(map, "trace"), part);
    if (part->kind->port_list)
        ports_read(reader, node_find(map, "ports"), part);
    if (part->kind->bed)
        beds_read(reader, node_find(map, "beds"), part);
    drawing_read(reader, map, part);
}

/* ---- ids ---- */
void id_wanted(struct reader *reader, struct ullage_place at, const char *id)
{
    int count = 0;
    const char *const *key = scenario_keys(&count);
    bool taken = strcmp(id, "air") == 0 || strcmp(id, "time") == 0;
    for (int i = 0; i < count; i++)
        taken = taken || strcmp(id, key[i]) == 0;
    if (taken)
        problem_add(reader->found, at, "choose another name for it",
                    "no part can be called %s: it means something else", id);
    else
        name_wanted(reader, at, id, false);
}

struct named {
    const char *id;
    struct ullage_place at;
    int order; /* as they stand in the description */
};

static int id_order(const void *a, const void *b)
{
    const struct named *one = a, *two = b;
    const int id = strcmp(one->id, two->id);
    return id != 0 ? id : one->order - two->order;
}

static void ids_unique(struct reader *reader)
{
    const struct ullage_description *in = reader->into;
    struct named sorted[PARTS_MOST];
    int count = 0;
    for (int i = 0; i < in->parts && count < PARTS_MOST; i++)
        if (in->part[i].id)
            sorted[count++] = (struct named){in->part[i].id, in->part[i].at, i};
    for (int f = 0; f < in->faults && count < PARTS_MOST; f++)
        if (in->fault[f].id && in->fault[f].hole < 0)
            sorted[count++] = (struct named){in->fault[f].id, in->fault[f].at, in->parts + f};
    qsort(sorted, (size_t)count, sizeof sorted[0], id_order);
    for (int i = 1; i < count; i++)
        if (strcmp(sorted[i - 1].id, sorted[i].id) == 0)
            problem_add(reader->found, sorted[i].at, "give it a name of its own",
                        "%s is the name of another part as well", sorted[i].id);
}

static void ends_wanted(struct reader *reader)
{
    const struct ullage_description *in = reader->into;
    for (int i = 0; i < in->parts; i++)
        for (int e = 0; e < ENDS_MOST; e++) {
            const struct part_end *end = &in->part[i].end[e];
            if (end->part && strcmp(end->part, "air") != 0 && part_find(in, end->part) < 0)
                part_missing(reader, end->at, end->part);
        }
}

/* ---- all of them ---- */
static int children(const struct node *node, enum node_kind kind)
{
    return node && node->kind == kind ? node->count : 0;
}

static void section_read(struct reader *reader, const struct node *section, bool equipment)
{
    struct ullage_description *into = reader->into;
    for (int i = 0; i < children(section, NODE_MAP); i++) {
        const struct node *node = section->child[i];
        struct part *part = &into->part[into->parts++];
        *part = (struct part){.id = node->key, .at = node->key_at, .equipment = equipment, .shape = ""};
        part->label = label_of(reader, part->id);
        id_wanted(reader, node->key_at, node->key);
        part_read(reader, node, part);
    }
}

bool parts_few(struct reader *reader, const struct trees *trees)
{
    const struct node *parts = node_find(trees->system, "parts");
    const int count = children(parts, NODE_MAP) + children(node_find(trees->scenario, "equipment"), NODE_MAP) +
                      children(node_find(trees->scenario, "faults"), NODE_LIST);
    if (count > PARTS_MOST)
        problem_add(reader->found, parts ? parts->key_at : trees->scenario->at, "keep a system under 1000 parts",
                    "%d parts and faults are too many", count);
    return count <= PARTS_MOST;
}

/* `section` of a tree; null where it is missing or, with a problem added, no map (list). */
static const struct node *section_of(struct reader *reader, const struct node *tree, const char *section,
                                     enum node_kind kind, const char *example)
{
    const struct node *node = node_find(tree, section);
    const bool good =
        kind == NODE_MAP ? map_wanted(reader, node, section, example) : list_wanted(reader, node, section, example);
    return good ? node : NULL;
}

void parts_read(struct reader *reader, const struct trees *trees)
{
    const struct node *parts =
        section_of(reader, trees->system, "parts", NODE_MAP, "write parts: {vessel: {type: vessel, volume: 30 L}}");
    const struct node *equipment = section_of(reader, trees->scenario, "equipment", NODE_MAP,
                                              "write equipment: {supply: {type: supply, gauge_pressure: 3 kPa}}");
    const struct node *faults = section_of(reader, trees->scenario, "faults", NODE_LIST,
                                           "write faults: [{id: a, fault: leak, where: PART, diameter: 0.5 mm}]");
    const int count = children(parts, NODE_MAP) + children(equipment, NODE_MAP) + children(faults, NODE_LIST);
    if (!node_find(trees->system, "parts") || (parts && parts->count == 0))
        problem_add(reader->found, parts ? parts->at : trees->system->at,
                    "write parts: {vessel: {type: vessel, volume: 30 L}}", "this system has no parts");
    reader->into->part = reader_take(reader, (size_t)count * sizeof(struct part));
    if (!reader->into->part)
        return;
    section_read(reader, parts, false);
    section_read(reader, equipment, true);
    faults_read(reader, trees, faults);
    ids_unique(reader);
    ends_wanted(reader);
}
