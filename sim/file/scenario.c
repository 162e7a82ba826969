/* sim/file/scenario.c  A scenario from its file: what it names is found, edits are made to the trees, and each key goes to
 * its reader. The doors ullage_description_read, _text, _free. */
#include "file/scenario.h"

#include "base/text.h"
#include "file/readers.h"
#include "file/source.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const keys[] = {
    "ullage", "name", "about",     "assume",    "surroundings", "system", "start", "fill",    "change",
    "faults", "let",  "equipment", "procedure", "record",       "end",    "seed",  "by_hand",
};

const char *const *scenario_keys(int *count)
{
    *count = sizeof keys / sizeof keys[0];
    return keys;
}

/* ---- finding what a scenario names ---- */
/* The tree of the file that a word names; null with a problem added. */
static struct node *named_tree(struct reader *reader, const struct node *node, const char *beside, const char *folder,
                               const char *form)
{
    if (!word_wanted(reader, node))
        return NULL;
    const char *path = source_find(reader, node, beside, folder, form);
    struct node *tree = path ? source_tree(reader, path) : NULL;
    return tree && form_wanted(reader, tree, form) ? tree : NULL;
}

static bool system_found(struct reader *reader, const char *path, struct trees *trees)
{
    struct node *node = node_find(trees->scenario, "system");
    if (!node) {
        problem_add(reader->found, trees->scenario->at, "write system: NAME, or system: with parts below",
                    "this scenario has no system");
        return false;
    }
    trees->own_system = node->kind == NODE_WORD;
    trees->system = node;
    if (trees->own_system)
        trees->system = named_tree(reader, node, path, "systems", "system/1");
    else if (!map_wanted(reader, node, "system", "write system: NAME, or system: with parts below"))
        trees->system = NULL;
    return trees->system != NULL;
}

static void procedure_found(struct reader *reader, const char *path, struct trees *trees)
{
    struct node *node = node_find(trees->scenario, "procedure");
    if (!node)
        return;
    trees->own_procedure = node->kind == NODE_WORD;
    trees->procedure = node;
    if (trees->own_procedure)
        trees->procedure = named_tree(reader, node, path, "procedures", "procedure/1");
    else if (!map_wanted(reader, node, "procedure", "write procedure: NAME, or procedure: with steps below"))
        trees->procedure = NULL;
}

/* ---- small keys ---- */
static const char *text_of(struct reader *reader, const struct node *map, const char *key, const char *otherwise)
{
    const struct node *node = node_find(map, key);
    const char *text = node ? word_wanted(reader, node) : NULL;
    return text ? text : otherwise;
}

static void seed_read(struct reader *reader, const struct node *node)
{
    const char *text = node ? word_wanted(reader, node) : NULL;
    if (!text)
        return;
    char shown[TEXT_SHORT];
    errno = 0;
    const bool digits = *text && text[strspn(text, "0123456789")] == '\0';
    reader->into->seed = digits ? strtoull(text, NULL, 10) : 0;
    reader->into->seed_given = digits && errno == 0 && reader->into->seed <= INT64_MAX; /* JSON keeps no larger one */
    if (!reader->into->seed_given)
        problem_add(reader->found, node->at, "write a whole number from 0 to 9223372036854775807", "%s is no seed",
                    text_short(text, shown));
}

/* ---- system and procedure ---- */
void system_read(struct reader *reader, const struct trees *trees)
{
    static const char *const own[] = {"name", "about", "parts", "ullage"};
    const int count = (int)(sizeof own / sizeof own[0]) - !trees->own_system; /* `ullage` only in a file */
    keys_wanted(reader, trees->system, own, count, "a system");
    reader->into->system = text_of(reader, trees->system, "name", "");
    text_of(reader, trees->system, "about", "");
    parts_read(reader, trees);
}

void procedure_read(struct reader *reader, const struct trees *trees)
{
    static const char *const own[] = {"name", "about", "steps", "ullage"};
    const char *example = "write steps: [{wait: {for: 10 s}}]";
    const int count = (int)(sizeof own / sizeof own[0]) - !trees->own_procedure;
    struct ullage_description *into = reader->into;
    if (!trees->procedure)
        return;
    keys_wanted(reader, trees->procedure, own, count, "a procedure");
    into->procedure_name = text_of(reader, trees->procedure, "name", "");
    text_of(reader, trees->procedure, "about", "");
    const struct node *steps = node_find(trees->procedure, "steps");
    if (!steps)
        problem_add(reader->found, trees->procedure->at, example, "this procedure has no steps");
    else if (list_wanted(reader, steps, "steps", example))
        into->procedure = steps;
}

/* ---- the whole ---- */
/* Surroundings come before starts, which may be told against them; parts before both. */
static void scenario_read(struct reader *reader, const struct trees *trees)
{
    const struct range end = {ULLAGE_TIME, 0.0, HUGE_VAL};
    const struct node *map = trees->scenario;
    struct ullage_description *into = reader->into;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "a scenario");
    into->at = map->at;
    into->name = text_of(reader, map, "name", "unnamed");
    into->about = text_of(reader, map, "about", "");
    assume_read(reader, node_find(map, "assume"));
    surroundings_read(reader, node_find(map, "surroundings"));
    system_read(reader, trees);
    start_read(reader, node_find(map, "start"));
    fill_read(reader, node_find(map, "fill"));
    fault_fuel_made(reader);
    fuel_warmth_check(reader, node_find(map, "fill"), node_find(map, "surroundings"));
    fuel_brim_check(reader, node_find(map, "fill"));
    let_read(reader, node_find(map, "let"));
    procedure_read(reader, trees);
    by_hand_read(reader, node_find(map, "by_hand"));
    record_read(reader, node_find(map, "record"));
    into->end_given = number_wanted(reader, node_find(map, "end"), end, &into->end);
    seed_read(reader, node_find(map, "seed"));
}

bool scenario_trees(struct reader *reader, struct node *tree, const char *path, struct trees *trees)
{
    *trees = (struct trees){.scenario = tree};
    if (!form_wanted(reader, tree, "scenario/1"))
        return false;
    procedure_found(reader, path, trees);
    if (!system_found(reader, path, trees) || !parts_few(reader, trees))
        return false;
    edits_made(reader, trees);
    return parts_few(reader, trees);
}

void scenario_tree_read(struct reader *reader, struct node *tree, const char *path)
{
    struct trees trees;
    if (scenario_trees(reader, tree, path, &trees))
        scenario_read(reader, &trees);
}

bool reader_begin(struct reader *reader, const struct ullage_edits *edits, struct ullage_problems *problems)
{
    *reader = (struct reader){.arena = arena_create(), .found = problems, .edits = edits};
    reader->into = reader->arena ? reader_take(reader, sizeof *reader->into) : NULL;
    if (!reader->into) {
        arena_free(reader->arena);
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
        return false;
    }
    *reader->into = (struct ullage_description){
        .arena = reader->arena, .name = "", .about = "", .system = "", .procedure_name = ""};
    reader->into->sound = edits && edits->sound;
    if (edits && edits->keep)
        reader->into->keep = reader_text(reader, arena_text(reader->arena, edits->keep));
    return true;
}

void reader_judge(struct reader *reader, int problems_before)
{
    if (problems_out_of_memory(reader->found))
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    if (reader->outcome == ULLAGE_GOOD && ullage_problems_count(reader->found) > problems_before)
        reader->outcome = ULLAGE_BAD_INPUT;
    problems_sort(reader->found);
}

/* path or text, the other one null. */
static struct ullage_description *description_read(const char *path, const char *text, const struct ullage_edits *edits,
                                                   struct ullage_problems *problems, enum ullage_outcome *outcome)
{
    struct reader reader;
    const int before = ullage_problems_count(problems);
    if (!reader_begin(&reader, edits, problems)) {
        *outcome = reader.outcome;
        return NULL;
    }
    path = path ? arena_text(reader.arena, path) : NULL;
    struct node *tree = NULL;
    if (path)
        tree = source_tree(&reader, path);
    else if (text)
        tree = text_tree(&reader, text, strlen(text), (struct ullage_place){NULL, 1, 1});
    else
        reader.outcome = ULLAGE_OUT_OF_MEMORY;
    if (tree)
        scenario_tree_read(&reader, tree, path);
    reader_judge(&reader, before);
    *outcome = reader.outcome;
    if (reader.outcome == ULLAGE_GOOD)
        return reader.into;
    arena_free(reader.arena);
    return NULL;
}

struct ullage_description *ullage_description_read(const char *path, const struct ullage_edits *edits,
                                                   struct ullage_problems *problems, enum ullage_outcome *outcome)
{
    if (strcmp(path, "-") == 0) {
        problem_add(problems, (struct ullage_place){path, 0, 0}, "name a file",
                    "a scenario cannot be read from a pipe");
        *outcome = ULLAGE_BAD_INPUT;
        return NULL;
    }
    return description_read(path, NULL, edits, problems, outcome);
}

struct ullage_description *ullage_description_text(const char *text, struct ullage_problems *problems,
                                                   enum ullage_outcome *outcome)
{
    return description_read(NULL, text, NULL, problems, outcome);
}

struct ullage_description *ullage_description_of_system(const char *system, const struct ullage_edits *edits,
                                                        struct ullage_problems *problems, enum ullage_outcome *outcome)
{
    struct arena *arena = arena_create();
    const char *text =
        arena ? arena_format(arena, "ullage: scenario/1\nname: system\nsystem: '%s'\nend: 1 s\n", system) : NULL;
    struct ullage_description *description = description_read(NULL, text, edits, problems, outcome);
    arena_free(arena);
    return description;
}

void ullage_description_free(struct ullage_description *description)
{
    if (description)
        arena_free(description->arena);
}
