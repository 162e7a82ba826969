/* command/fault_readings.c  Each fault of a system at its usual size through one scenario: what a class or a workshop would read.
 * One model and one run for each, on as many threads as there are cores. */
#include "command/faults.h"
#include "command/progress.h"
#include "command/scenario.h"
#include "report/page.h"

#include <math.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { THREADS_MOST = 16, LINE_MOST = 160, ROOM_MOST = 400, WIDTH_LEAST = 9 };

/* What came of one run. */
struct outcome {
    char fault[LINE_MOST]; /* as --fault has it; "" the sound rig */
    char wrong[ROOM_MOST]; /* "": it ran */
    struct ullage_model *model;
    struct ullage_run *run;
};

struct work {
    const char *scenario;
    int count;
    struct outcome *outcome; /* [count], the sound rig first */
    atomic_int next;
};

/* ---- running ---- */

static void outcome_fail(struct outcome *outcome, const struct ullage_problems *problems)
{
    const bool told = problems && ullage_problems_count(problems) > 0;
    snprintf(outcome->wrong, sizeof outcome->wrong, "%s",
             told ? ullage_problems_at(problems, 0).wrong : "memory ran out");
}

static void outcome_follow(struct outcome *outcome)
{
    outcome->run = ullage_run_create(outcome->model, NULL);
    if (!outcome->run)
        outcome_fail(outcome, NULL);
    else if (ullage_run_advance(outcome->model, outcome->run, (double)INFINITY) == ULLAGE_STUCK)
        snprintf(outcome->wrong, sizeof outcome->wrong, "%.380s", ullage_run_trouble(outcome->run));
}

static void outcome_make(struct outcome *outcome, const char *scenario)
{
    const char *fault = outcome->fault;
    struct ullage_edits edits = search_edits();
    edits.fault = &fault;
    edits.faults = *fault ? 1 : 0;
    enum ullage_outcome read = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description =
        problems ? ullage_description_read(scenario, &edits, problems, &read) : NULL;
    outcome->model = description ? ullage_model_create(description, problems) : NULL;
    if (outcome->model)
        outcome_follow(outcome);
    else
        outcome_fail(outcome, problems);
    ullage_description_free(description);
    ullage_problems_free(problems);
}

static void *work_on(void *context)
{
    struct work *work = context;
    for (int k; (k = atomic_fetch_add(&work->next, 1)) < work->count;)
        outcome_make(&work->outcome[k], work->scenario);
    return NULL;
}

/* The same under the eye of the person. */
static void work_on_shown(struct work *work)
{
    struct progress progress = progress_begin();
    for (int k; (k = atomic_fetch_add(&work->next, 1)) < work->count;) {
        progress_show(&progress, (double)k / work->count, (double)NAN);
        outcome_make(&work->outcome[k], work->scenario);
    }
    progress_end(&progress);
}

static void work_all(struct work *work)
{
    pthread_t thread[THREADS_MOST];
    const long cores = sysconf(_SC_NPROCESSORS_ONLN);
    int begun = 0;
    while (begun + 1 < cores && begun < THREADS_MOST && pthread_create(&thread[begun], NULL, work_on, work) == 0)
        begun++;
    work_on_shown(work);
    for (int k = 0; k < begun; k++)
        pthread_join(thread[k], NULL);
}

/* ---- the table ---- */

static struct ullage_reading reading_of(const struct outcome *outcome, int index)
{
    return ullage_run_reading(outcome->run, index);
}

/* The last of its name. False: none was taken. */
static bool reading_find(const struct outcome *outcome, const char *name, struct ullage_reading *found)
{
    bool any = false;
    for (int k = 0; outcome->run && k < ullage_run_readings(outcome->run); k++)
        if (strcmp(reading_of(outcome, k).name, name) == 0) {
            *found = reading_of(outcome, k);
            any = true;
        }
    return any;
}

/* "0.51 mm"; off its scale "> 2.5 mm"; as the sound rig's "=". */
static const char *reading_text(const struct outcome *outcome, const struct outcome *sound, const char *name,
                                char *room)
{
    struct ullage_reading here;
    struct ullage_reading there;
    char value[FIGURE_ROOM];
    if (!reading_find(outcome, name, &here))
        return "none";
    if (outcome != sound && reading_find(sound, name, &there) && !(here.value < there.value) &&
        !(here.value > there.value) && here.over == there.over)
        return "=";
    snprintf(room, FIGURE_ROOM, "%s%.90s",
             here.over > 0   ? "> "
             : here.over < 0 ? "< "
                             : "",
             figure_plain(here.value, here.dimension, value));
    return room;
}

static const char *verdict_text(const struct outcome *outcome, const char *name)
{
    static const char *const words[] = {[ULLAGE_PASS] = "pass", [ULLAGE_FAIL] = "fail", [ULLAGE_OPEN] = "open"};
    const char *text = "none";
    for (int k = 0; outcome->run && k < ullage_run_verdicts(outcome->run); k++)
        if (strcmp(ullage_run_verdict(outcome->run, k).name, name) == 0)
            text = words[ullage_run_verdict(outcome->run, k).result];
    return text;
}

/* A name that stood before in the sound run's list. */
static bool reading_again(const struct outcome *sound, int index)
{
    for (int k = 0; k < index; k++)
        if (strcmp(reading_of(sound, k).name, reading_of(sound, index).name) == 0)
            return true;
    return false;
}

static int column_width(const struct work *work, const char *name)
{
    char room[FIGURE_ROOM];
    int width = cell_wider(WIDTH_LEAST, name);
    for (int k = 0; k < work->count; k++)
        if (!*work->outcome[k].wrong)
            width = cell_wider(width, reading_text(&work->outcome[k], work->outcome, name, room));
    return width + 2;
}

/* One line; outcome null: the heads. */
static void line_write(FILE *to, const struct work *work, const struct outcome *outcome)
{
    const struct outcome *sound = work->outcome;
    char room[FIGURE_ROOM];
    for (int k = 0; k < ullage_run_readings(sound->run); k++) {
        const char *name = reading_of(sound, k).name;
        if (!reading_again(sound, k))
            cell_put(to, outcome ? reading_text(outcome, sound, name, room) : name, column_width(work, name));
    }
    for (int k = 0; k < ullage_run_verdicts(sound->run); k++) {
        const char *name = ullage_run_verdict(sound->run, k).name;
        cell_put(to, outcome ? verdict_text(outcome, name) : name, cell_wider(WIDTH_LEAST, name) + 2);
    }
    fputc('\n', to);
}

static void table_write(FILE *to, const struct work *work)
{
    int width = 0;
    for (int k = 0; k < work->count; k++)
        width = cell_wider(width, work->outcome[k].fault);
    cell_put(to, "", width + 2);
    line_write(to, work, NULL);
    for (int k = 0; k < work->count; k++) {
        const struct outcome *outcome = &work->outcome[k];
        cell_put(to, *outcome->fault ? outcome->fault : "sound", width + 2);
        if (*outcome->wrong)
            fprintf(to, "%s\n", outcome->wrong);
        else
            line_write(to, work, outcome);
    }
}

/* ---- the whole ---- */

/* Every fault that a person would try: those with a usual size. The first is the sound rig. */
static bool work_list(struct work *work, const struct ullage_model *model)
{
    work->outcome = calloc((size_t)ullage_model_faults(model) + 1, sizeof *work->outcome);
    if (!work->outcome)
        return false;
    work->count = 1;
    for (int part = 0; part < ullage_model_parts(model); part++)
        for (int k = 0; k < ullage_model_faults(model); k++) {
            const struct ullage_model_fault fault = ullage_model_fault(model, k);
            char size[FIGURE_ROOM];
            if (fault.part != part || *fault.id || isnan(fault.fault.usual))
                continue;
            snprintf(work->outcome[work->count++].fault, LINE_MOST, "%.90s %.20s=%.40s", fault.what, fault.fault.size,
                     figure_difference(fault.fault.usual, fault.fault.dimension, size));
        }
    return true;
}

static bool same_system(const struct ullage_model *model, const char *system)
{
    struct ullage_edits edits = search_edits();
    struct ullage_model *named = NULL;
    if (!system)
        return true;
    if (system_open(system, &edits, &named) != EXIT_DONE)
        return false;
    const bool same = strcmp(ullage_model_system(named), ullage_model_system(model)) == 0;
    if (!same)
        fprintf(stderr, "ullage list: the scenario is about %s\n", ullage_model_system(model));
    ullage_model_free(named);
    return same;
}

static enum exit_code work_told(FILE *to, struct work *work)
{
    work_all(work);
    const struct outcome *sound = work->outcome;
    if (*sound->wrong) {
        fprintf(stderr, "ullage list: the sound rig does not come through: %s\n", sound->wrong);
        return EXIT_NUMBERS;
    }
    if (ullage_run_readings(sound->run) + ullage_run_verdicts(sound->run) == 0) {
        fprintf(stderr, "ullage list: %s takes no readings\n", work->scenario);
        return EXIT_BAD_INPUT;
    }
    table_write(to, work);
    fputs("\n= as the sound rig's, to the last bit.\n", to);
    return EXIT_DONE;
}

enum exit_code fault_readings_write(FILE *to, const char *system, const char *scenario)
{
    struct ullage_edits edits = search_edits();
    edits.every_fault = true;
    struct ullage_model *model = NULL;
    struct work work = {.scenario = scenario};
    enum exit_code code = scenario_open(scenario, &edits, &model);
    if (code == EXIT_DONE && !same_system(model, system))
        code = EXIT_BAD_INPUT;
    if (code == EXIT_DONE)
        code = work_list(&work, model) ? work_told(to, &work) : EXIT_NUMBERS;
    for (int k = 0; k < work.count; k++) {
        ullage_run_free(work.outcome[k].run);
        ullage_model_free(work.outcome[k].model);
    }
    free(work.outcome);
    ullage_model_free(model);
    return code;
}
