/* sim/file/text.c  Texts for a file: a recording of a run, and the scenario that does what a run has been through. */
#include "file/edit.h"
#include "file/scenario.h"
#include "file/source.h"
#include "file/write.h"
#include "procedure/conduct.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

void ullage_text_free(char *text)
{
    free(text);
}

enum { NUMBER_ROOM = 32 };

/* As few digits as read back to the same bits. Returns room. */
static const char *number_text(double number, char room[NUMBER_ROOM])
{
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(room, NUMBER_ROOM, "%.*g", digits, number);
        if (strtod(room, NULL) == number)
            break;
    }
    return room;
}

/* ---- what was done by hand ---- */
static void order_write(FILE *to, double time, const char *what, const char *value)
{
    char room[NUMBER_ROOM];
    fprintf(to, "  - {at: %s s, set: {", number_text(time, room));
    word_write(to, what, false);
    fputs(": ", to);
    word_write(to, value, false);
    fputs("}}\n", to);
}

/* What was done, in its order: at one moment what the scenario says comes first. */
struct done {
    const struct ullage_run *run;
    int due, given; /* next of the schedule, of the orders */
    double time;
    const struct setting *setting;
};

static struct done done_begin(const struct ullage_run *run, bool scheduled)
{
    return (struct done){.run = run, .due = scheduled ? 0 : run->model->scheduled};
}

static bool done_next(struct done *done)
{
    const struct ullage_model *model = done->run->model;
    const bool due = done->due < model->scheduled, given = done->given < ullage_run_orders(done->run);
    const struct order *order = given ? told_order(&done->run->log.told, done->given) : NULL;
    const bool first = due && (!order || model->schedule[done->due].time <= order->time);
    if (!due && !given)
        return false;
    done->time = first ? model->schedule[done->due].time : order->time;
    done->setting = first ? &model->schedule[done->due].setting : &order->setting;
    done->due += first;
    done->given += !first;
    return true;
}

/* One fault as the hand has left it, from what was done last to it on. */
struct handled {
    double size;
    struct course course;
    bool changes; /* its size while it is in */
    bool goes_on; /* with another size, in the midst of a ramp, or of what comes and goes */
};

/* Goes on to what is done to it next. False: nothing more is. */
static bool handled_next(struct handled *handled, struct done *done, int fault)
{
    while (done_next(done)) {
        const struct setting *setting = done->setting;
        if (setting->fault != fault)
            continue;
        const struct course before = handled->course;
        const bool there = handled->size != 0.0;
        handled->course = course_put(&before, there, &setting->course, done->time);
        handled->changes = there && setting->value != 0.0;
        handled->goes_on = there && setting->value != 0.0 && before.from < done->time && done->time < before.until &&
                           handled->course.from == before.from &&
                           (before.every > 0.0 || done->time < before.from + before.ramp);
        handled->size = setting->value;
        return true;
    }
    return false;
}

/* A fault that the file has not: in the saved scenario it stands among its faults. What grows from when it came on cannot be told
 * there size by size, nor can what is changed while it comes on, or comes and goes; nor liquid of which more is poured. */
static bool becomes_fault(const struct ullage_run *run, int fault)
{
    const struct fault *of = fault >= 0 ? network_fault(run->model->network, fault) : NULL;
    struct done done = done_begin(run, true);
    bool becomes = of && !of->id && of->row->way != FAULT_GROWS;
    for (struct handled handled = {0}; becomes && handled_next(&handled, &done, fault);)
        becomes = !handled.goes_on && !(handled.changes && fault_is_pour(of->row));
    return becomes;
}

static void by_hand_write(FILE *to, const struct ullage_run *run, bool saves)
{
    const char *heading = "by_hand:\n";
    for (struct done done = done_begin(run, saves); done_next(&done);) {
        if (saves && becomes_fault(run, done.setting->fault))
            continue;
        fputs(heading, to);
        heading = "";
        order_write(to, done.time, done.setting->subject, done.setting->text);
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
    char room[NUMBER_ROOM];
    fputs("ullage: recording/1\nscenario: ", to);
    word_write(to, scenario, false);
    fputs("\nname: ", to);
    word_write(to, run->model->name, false);
    fprintf(to, "\nseed: %" PRIu64 "\nsolver: %s\ntolerance: %s\n", run->seed, ullage_run_effort(run).method,
            number_text(run->tolerance, room));
    if (edits) {
        words_write(to, "set", edits->set, edits->sets);
        words_write(to, "fault", edits->fault, edits->faults);
        if (edits->every_fault)
            fputs("every_fault: yes\n", to);
    }
    by_hand_write(to, run, false);
    fprintf(to, "end: %s s\nhash: \"%016" PRIx64 "\"\n", number_text(ullage_run_time(run), room), ullage_run_hash(run));
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

/* When the hand came to that fault again; INFINITY: never. */
static double fault_until(struct done done, int fault)
{
    while (done_next(&done))
        if (done.setting->fault == fault)
            return done.time;
    return (double)INFINITY;
}

static const char *time_add(struct reader *reader, const char *line, const char *key, double time)
{
    char room[NUMBER_ROOM];
    return reader_text(reader, arena_format(reader->arena, "%s %s=%s s", line, key, number_text(time, room)));
}

/* "SIZE_KEY=SIZE from=..." up to `until`, as --fault would say it. */
static const char *fault_line(struct reader *reader, const struct network *network, int fault,
                              const struct handled *handled, double until)
{
    const struct fault_row *row = network_fault(network, fault)->row;
    const struct course *course = &handled->course;
    char room[NUMBER_ROOM], unit[64] = "";
    if (row->dimension != ULLAGE_NUMBER)
        ullage_dimension_name(row->dimension, unit);
    const char *line =
        reader_text(reader, arena_format(reader->arena, "%s %s=%s %s", network_fault_name(network, fault), row->size,
                                         number_text(handled->size, room), unit));
    line = time_add(reader, line, "from", course->from);
    if (course->ramp > 0.0)
        line = time_add(reader, line, "ramp", course->ramp);
    if (isfinite(until))
        line = time_add(reader, line, "until", until);
    if (course->every > 0.0)
        line = time_add(reader, time_add(reader, line, "every", course->every), "for", course->lasts);
    return line;
}

/* One more of the scenario's faults for each time the hand left it in some way. */
static void fault_put(struct reader *reader, struct trees *trees, const struct ullage_run *run, int fault)
{
    struct done done = done_begin(run, true);
    for (struct handled handled = {0}; handled_next(&handled, &done, fault);) {
        const double until = fmin(fault_until(done, fault), handled.course.until);
        if (handled.size == 0.0 || until <= fmax(handled.course.from, done.time))
            continue;
        struct handled from_then = handled;
        if (handled.course.from < done.time) { /* it had come, with another size */
            from_then.course.from = done.time;
            from_then.course.ramp = 0.0;
        }
        fault_line_read(reader, trees, fault_line(reader, run->model->network, fault, &from_then, until));
    }
}

static void faults_put(struct reader *reader, struct trees *trees, const struct ullage_run *run)
{
    for (int f = 0; f < network_faults(run->model->network); f++)
        if (becomes_fault(run, f))
            fault_put(reader, trees, run, f);
}

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
    faults_put(reader, &trees, run);
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
