/* sim/file/recording.c  A recording: read, asked, held against a model. Written by text.c. */
#include "base/text.h"
#include "file/scenario.h"
#include "file/source.h"
#include "procedure/conduct.h"

#include <assert.h>
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double tolerance_least = 1e-12, tolerance_most = 1e-2;

struct ullage_recording {
    struct arena *arena;
    struct recording_text text;
    int orders;
    struct ullage_order *order; /* [orders] */
};

/* ---- reading ---- */
static bool whole_number(const char *text, int base, uint64_t most, uint64_t *value)
{
    static const char digits[] = "0123456789abcdef";
    char allowed[sizeof digits];
    memcpy(allowed, digits, sizeof digits);
    allowed[base] = '\0';
    errno = 0;
    *value = strtoull(text, NULL, base);
    return *text && text[strspn(text, allowed)] == '\0' && errno == 0 && *value <= most;
}

static const struct node *needed(struct reader *reader, const struct node *map, const char *key)
{
    const struct node *node = node_find(map, key);
    if (!node)
        problem_add(reader->found, map->at, "write the recording anew with --record", "%s of this recording is missing",
                    key);
    return node && word_wanted(reader, node) ? node : NULL;
}

static void seed_read(struct reader *reader, const struct node *map, struct ullage_method *method)
{
    const struct node *node = needed(reader, map, "seed");
    char shown[TEXT_SHORT];
    method->seeded = true;
    if (node && !whole_number(node->text, 10, INT64_MAX, &method->seed))
        problem_add(reader->found, node->at, "write a whole number from 0 to 9223372036854775807", "%s is no seed",
                    text_short(node->text, shown));
}

static void hash_read(struct reader *reader, const struct node *map, uint64_t *hash)
{
    const struct node *node = needed(reader, map, "hash");
    char shown[TEXT_SHORT];
    if (node && (strlen(node->text) != 16 || !whole_number(node->text, 16, UINT64_MAX, hash)))
        problem_add(reader->found, node->at, "it is 16 digits from 0 to f", "%s is no hash",
                    text_short(node->text, shown));
}

static void method_read(struct reader *reader, const struct node *map, struct ullage_method *method)
{
    static const char *const solvers[] = {"bdf", "msbdf"};
    const struct range tolerance = {ULLAGE_NUMBER, tolerance_least, tolerance_most};
    const struct node *solver = needed(reader, map, "solver");
    const int chosen = solver ? choice_wanted(reader, solver, solvers, 2) : -1;
    method->solver = solvers[chosen > 0];
    number_wanted(reader, needed(reader, map, "tolerance"), tolerance, &method->tolerance);
    seed_read(reader, map, method);
}

/* A list of words that may be missing. */
static const char *const *words_read(struct reader *reader, const struct node *map, const char *key, int *count)
{
    const struct node *list = node_find(map, key);
    *count = 0;
    if (!list_wanted(reader, list, key, "write [\"leak.diameter=0.5mm\"]"))
        return NULL;
    const char **words = reader_take(reader, ((size_t)list->count + 1) * sizeof *words);
    for (int i = 0; words && i < list->count; i++) {
        words[*count] = word_wanted(reader, list->child[i]);
        *count += words[*count] != NULL;
    }
    return words;
}

void recording_tree_read(struct reader *reader, const struct node *map, struct recording_text *into)
{
    static const char *const keys[] = {"ullage", "scenario", "name",    "seed", "solver", "tolerance",
                                       "set",    "fault",    "by_hand", "end",  "hash",   "every_fault"};
    const struct range end = {ULLAGE_TIME, 0.0, HUGE_VAL};
    struct ullage_recorded *about = &into->about;
    *into = (struct recording_text){.about = {.scenario = "", .name = ""}, .by_hand = reader->into};
    if (!form_wanted(reader, map, "recording/1"))
        return;
    keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "a recording");
    const struct node *scenario = needed(reader, map, "scenario"), *name = needed(reader, map, "name");
    about->scenario = scenario ? scenario->text : "";
    about->name = name ? name->text : "";
    method_read(reader, map, &about->method);
    about->edits.set = words_read(reader, map, "set", &about->edits.sets);
    about->edits.fault = words_read(reader, map, "fault", &about->edits.faults);
    const struct node *every = node_find(map, "every_fault");
    about->edits.every_fault = every && choice_wanted(reader, every, (const char *const[]){"no", "yes"}, 2) == 1;
    by_hand_read(reader, node_find(map, "by_hand"));
    const bool ends = number_wanted(reader, needed(reader, map, "end"), end, &about->end);
    hash_read(reader, map, &about->hash);
    const struct ullage_description *told = reader->into;
    if (ends && told->by_hands > 0 && told->by_hand[told->by_hands - 1].time > about->end)
        problem_add(reader->found, node_find(map, "end")->at, "let it end after the last of by_hand",
                    "this recording ends before its last command");
}

static bool orders_take(struct ullage_recording *recording)
{
    const struct ullage_description *told = recording->text.by_hand;
    int most = 0;
    for (int k = 0; k < told->by_hands; k++)
        most += told->by_hand[k].set->count;
    recording->order = arena_take(recording->arena, ((size_t)most + 1) * sizeof *recording->order);
    for (int k = 0; recording->order && k < told->by_hands; k++)
        for (int i = 0; i < told->by_hand[k].set->count; i++) {
            const struct node *word = told->by_hand[k].set->child[i];
            recording->order[recording->orders++] =
                (struct ullage_order){.time = told->by_hand[k].time, .what = word->key, .value = word->text};
        }
    recording->text.about.commands = recording->orders;
    return recording->order;
}

struct ullage_recording *ullage_recording_read(const char *path, struct ullage_problems *problems,
                                               enum ullage_outcome *outcome)
{
    struct reader reader;
    const int before = ullage_problems_count(problems);
    struct ullage_recording *recording = calloc(1, sizeof *recording);
    *outcome = ULLAGE_OUT_OF_MEMORY;
    if (!recording || !reader_begin(&reader, NULL, problems)) {
        free(recording);
        return NULL;
    }
    recording->arena = reader.arena;
    path = reader_text(&reader, arena_text(reader.arena, path));
    struct node *tree = source_tree(&reader, path);
    if (tree)
        recording_tree_read(&reader, tree, &recording->text);
    reader_judge(&reader, before);
    if (reader.outcome == ULLAGE_GOOD && !orders_take(recording))
        reader.outcome = ULLAGE_OUT_OF_MEMORY;
    *outcome = reader.outcome;
    if (reader.outcome == ULLAGE_GOOD)
        return recording;
    ullage_recording_free(recording);
    return NULL;
}

void ullage_recording_free(struct ullage_recording *recording)
{
    if (!recording)
        return;
    arena_free(recording->arena);
    free(recording);
}

/* ---- asked ---- */
struct ullage_recorded ullage_recording_about(const struct ullage_recording *recording)
{
    return recording->text.about;
}

struct ullage_order ullage_recording_command(const struct ullage_recording *recording, int index)
{
    assert(0 <= index && index < recording->orders);
    return recording->order[index];
}

bool ullage_recording_suits(const struct ullage_recording *recording, const struct ullage_model *model,
                            struct ullage_problems *problems)
{
    const struct ullage_description *told = recording->text.by_hand;
    struct setting *setting = calloc((size_t)recording->orders + 1, sizeof *setting);
    bool good = setting;
    for (int k = 0; setting && k < told->by_hands; k++) {
        const struct by_hand *of = &told->by_hand[k];
        good = schedule_read(model, recording->arena, of, setting, problems) == of->set->count && good;
    }
    free(setting);
    return good;
}
