/* sim/file/text.c  Texts for a file: a recording of a run, and the scenario that does what a run has been through. */
#include "file/edit.h"
#include "file/scenario.h"
#include "file/source.h"
#include "file/write.h"
#include "procedure/conduct.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

void ullage_text_free(char *text)
{
    free(text);
}

/* As few digits as read back to the same bits. */
static void number_write(FILE *to, double number)
{
    char text[32];
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, number);
        if (strtod(text, NULL) == number)
            break;
    }
    fputs(text, to);
}

/* ---- what was done by hand ---- */
static void order_write(FILE *to, double time, const char *what, const char *value)
{
    fputs("  - {at: ", to);
    number_write(to, time);
    fputs(" s, set: {", to);
    word_write(to, what, false);
    fputs(": ", to);
    word_write(to, value, false);
    fputs("}}\n", to);
}

/* In the order in which it was done: at one moment what the scenario says comes first. */
static void by_hand_write(FILE *to, const struct ullage_run *run, bool scheduled)
{
    const struct ullage_model *model = run->model;
    int due = scheduled ? 0 : model->scheduled, given = 0;
    const int orders = ullage_run_orders(run);
    if (due < model->scheduled || orders > 0)
        fputs("by_hand:\n", to);
    while (due < model->scheduled || given < orders) {
        const struct order *order = given < orders ? told_order(&run->log.told, given) : NULL;
        const bool first = due < model->scheduled && (!order || model->schedule[due].time <= order->time);
        const struct setting *setting = first ? &model->schedule[due].setting : &order->setting;
        order_write(to, first ? model->schedule[due].time : order->time, setting->subject, setting->text);
        due += first;
        given += !first;
    }
}

/* ---- a recording ---- */
static void words_write(FILE *to, const char *key, const char *const *word, int count)
{
    if (count > 0)
        fprintf(to, "%s:\n", key);
    for (int k = 0; k < count; k++) {
        fputs("  - ", to);
        word_write(to, word[k], true);
        fputc('\n', to);
    }
}

static void recording_write(FILE *to, const struct ullage_run *run, const char *scenario,
                            const struct ullage_edits *edits)
{
    fputs("ullage: recording/1\nscenario: ", to);
    word_write(to, scenario, false);
    fputs("\nname: ", to);
    word_write(to, run->model->name, false);
    fprintf(to, "\nseed: %" PRIu64 "\nsolver: %s\ntolerance: ", run->seed, ullage_run_effort(run).method);
    number_write(to, run->tolerance);
    fputc('\n', to);
    if (edits) {
        words_write(to, "set", edits->set, edits->sets);
        words_write(to, "fault", edits->fault, edits->faults);
        if (edits->every_fault)
            fputs("every_fault: yes\n", to);
    }
    by_hand_write(to, run, false);
    fputs("end: ", to);
    number_write(to, ullage_run_time(run));
    fprintf(to, " s\nhash: \"%016" PRIx64 "\"\n", ullage_run_hash(run));
}

char *ullage_recording_text(const struct ullage_run *run, const char *scenario, const struct ullage_edits *edits)
{
    char *text = NULL;
    size_t size = 0;
    FILE *to = open_memstream(&text, &size);
    if (!to)
        return NULL;
    recording_write(to, run, scenario, edits);
    const bool failed = ferror(to) != 0;
    if (fclose(to) == 0 && !failed)
        return text;
    free(text);
    return NULL;
}

/* ---- a scenario ---- */

/* A copy of a map of a file of its own, without what only stands in files. */
static const struct node *put_in(struct reader *reader, struct node *map, const char *key)
{
    struct node *own = node_new(reader, NODE_MAP, map->at);
    for (int i = 0; own && i < map->count; i++)
        if (strcmp(map->child[i]->key, "ullage"))
            child_add(reader, own, map->child[i]);
    if (own)
        own->key = key;
    return own;
}

static void scenario_write(FILE *to, struct reader *reader, const struct trees *trees, const struct ullage_run *run)
{
    const struct node *map = trees->scenario;
    for (int i = 0; i < map->count; i++) {
        const struct node *node = map->child[i];
        if (!strcmp(node->key, "change") || !strcmp(node->key, "by_hand") || !strcmp(node->key, "seed"))
            continue;
        if (!strcmp(node->key, "system") && trees->own_system)
            node = put_in(reader, trees->system, "system");
        else if (!strcmp(node->key, "procedure") && trees->own_procedure)
            node = put_in(reader, trees->procedure, "procedure");
        if (node)
            entry_write(to, node, 0);
    }
    fprintf(to, "seed: %" PRIu64 "\n", run->seed);
    by_hand_write(to, run, true);
}

static char *text_of(struct reader *reader, const char *path, const struct ullage_run *run)
{
    struct trees trees;
    char *text = NULL;
    size_t size = 0;
    struct node *tree = source_tree(reader, path);
    if (!tree || !scenario_trees(reader, tree, path, &trees))
        return NULL;
    FILE *to = open_memstream(&text, &size);
    bool good = to;
    if (to) {
        scenario_write(to, reader, &trees, run);
        good = !ferror(to);
        good = fclose(to) == 0 && good;
    }
    if (good)
        return text;
    reader->outcome = ULLAGE_OUT_OF_MEMORY;
    free(text);
    return NULL;
}

char *ullage_scenario_text(const char *path, const struct ullage_edits *edits, const struct ullage_run *run,
                           struct ullage_problems *problems, enum ullage_outcome *outcome)
{
    struct reader reader;
    const int before = ullage_problems_count(problems);
    if (!reader_begin(&reader, edits, problems)) {
        *outcome = reader.outcome;
        return NULL;
    }
    path = reader_text(&reader, arena_text(reader.arena, path));
    char *text = text_of(&reader, path, run);
    reader_judge(&reader, before);
    *outcome = reader.outcome;
    arena_free(reader.arena);
    if (reader.outcome == ULLAGE_GOOD)
        return text;
    free(text);
    return NULL;
}
