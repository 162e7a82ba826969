/* command/run.c  `ullage run`: follows a scenario to its end, tells what happened, writes what was asked for. */
#include "command/command.h"
#include "command/deliver.h"
#include "command/interrupt.h"
#include "command/notes.h"
#include "command/progress.h"
#include "command/scenario.h"
#include "command/suggest.h"
#include "report/comparison.h"
#include "report/results.h"
#include "report/story.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CSV = OPTIONS_SHARED, JSON, PLOT, AGAINST, RECORD, REPLAY, SAVE, EXPECT, QUIET };

static const struct option_row run_option[] = {
    SHARED_OPTIONS,
    {"csv", "FILE", NULL, false, "writes the recorded samples; - is standard output"},
    {"json", "FILE", NULL, false, "writes readings, verdicts, ledger, cautions; - is standard output"},
    {"plot", "FILE", NULL, false, "draws the recorded channels over time; .svg, .png or .pdf"},
    {"against", "OTHER", NULL, false,
     "runs a second scenario as its file has it, or does a recording again; tells what differs, lays it behind the "
     "plot"},
    {"record", "FILE", NULL, false, "writes every command with its time, so that it can be done again; a text"},
    {"replay", "FILE", NULL, false, "does a recording again, to its end, and says whether it comes out the same"},
    {"save", "FILE", NULL, false, "writes a scenario that does by itself what was done by hand"},
    {"expect", "pass|fail", NULL, false, "exit code 1 unless every verdict is a pass, or any is a fail"},
    {"quiet", NULL, NULL, false, "tells nothing; errors are told all the same"},
    {0}};

static const char *const run_example[] = {
    "ullage run scenarios/first-leak.yaml --csv leak.csv --json leak.json --plot leak.png",
    "ullage run scenarios/first-leak.yaml --set plug-3.diameter=1.0mm --against scenarios/first-leak.yaml",
    "ullage run scenarios/cap-off.yaml --quiet --csv - | head",
    "ullage run scenarios/first-leak.yaml --replay evening.yaml --save mine.yaml",
    "ullage run scenarios/first-leak.yaml --replay evening.yaml --against morning.yaml",
    NULL};

/* Everything that one `ullage run` holds. */
struct job {
    const char *path, *other_path;
    struct settings settings, other; /* of the other: as its file has it, or its recording */
    struct delivery delivery;
    struct notes notes;
    struct replay replay[2]; /* this, other */
    bool quiet, expecting;
    enum ullage_result expected;
    struct ullage_model *model[2]; /* this, other */
    struct ullage_run *run[2];
    double *start[2];
    struct experiment experiment[2];
    double seconds;
};

static bool expect_read(const char *text, struct job *job)
{
    job->expecting = true;
    job->expected = strcmp(text, "fail") == 0 ? ULLAGE_FAIL : ULLAGE_PASS;
    if (job->expected == ULLAGE_FAIL || strcmp(text, "pass") == 0)
        return true;
    fprintf(stderr, "ullage run: --expect %s is not known; pass or fail\n", text);
    return false;
}

/* The other is told no more than its file says, but how to step. */
static enum exit_code replays_read(const char *replay, struct job *job)
{
    job->other = (struct settings){.edits = search_edits(), .method = job->settings.method};
    const enum exit_code code = replay ? replay_open(&job->replay[0], replay, &job->settings) : EXIT_DONE;
    if (code != EXIT_DONE || !job->other_path)
        return code;
    if (is_recording(job->other_path))
        return replay_open(&job->replay[1], job->other_path, &job->other);
    job->other.method = job->settings.method;
    return EXIT_DONE;
}

static enum exit_code job_read(const struct words *words, struct job *job)
{
    const char *expect = words_value(words, EXPECT);
    job->path = words->operand[0];
    job->other_path = words_value(words, AGAINST);
    job->quiet = words_have(words, QUIET);
    job->delivery = (struct delivery){
        .csv = words_value(words, CSV), .json = words_value(words, JSON), .plot = words_value(words, PLOT)};
    job->notes = (struct notes){.record = words_value(words, RECORD), .save = words_value(words, SAVE)};
    const enum exit_code code = settings_read(words, &job->settings);
    if (code != EXIT_DONE)
        return code;
    if ((expect && !expect_read(expect, job)) || !delivery_check(&job->delivery, job->path, job->other_path) ||
        !notes_check(&job->notes, "run", job->path))
        return EXIT_BAD_INPUT;
    return replays_read(words_value(words, REPLAY), job);
}

static enum exit_code out_of_memory(void)
{
    fputs("ullage: memory ran out\n", stderr);
    return EXIT_NUMBERS;
}

/* One of the two, ready to be followed, with its channels as they stand at the start. */
static enum exit_code experiment_open(struct job *job, int which)
{
    const struct settings *settings = which ? &job->other : &job->settings;
    const struct replay *replay = &job->replay[which];
    const char *path = which && !replay->recording ? job->other_path : job->path;
    const enum exit_code code = scenario_open(path, &settings->edits, &job->model[which]);
    if (code != EXIT_DONE)
        return code;
    job->run[which] = ullage_run_create(job->model[which], &settings->method);
    job->start[which] = calloc((size_t)ullage_model_channels(job->model[which]), sizeof *job->start[which]);
    if (!job->run[which] || !job->start[which])
        return out_of_memory();
    ullage_run_values(job->model[which], job->run[which], job->start[which], NULL);
    job->experiment[which] = (struct experiment){job->model[which], job->run[which], job->start[which]};
    return replay->recording ? replay_check(replay, job->model[which]) : EXIT_DONE;
}

static enum exit_code experiment_follow(struct job *job, int which)
{
    double seconds = 0.0;
    const struct replay *replay = &job->replay[which];
    const enum ullage_status status = replay->recording
                                          ? replay_follow(replay, job->model[which], job->run[which], &seconds)
                                          : run_follow(job->model[which], job->run[which], &seconds);
    if (which == 0)
        job->seconds = seconds;
    if (status != ULLAGE_STUCK)
        return EXIT_DONE;
    char clock[FIGURE_ROOM];
    fprintf(stderr, "ullage: the numbers failed at %s of %s: %s\n",
            figure_clock(ullage_run_time(job->run[which]), clock), which ? job->other_path : job->path,
            ullage_run_trouble(job->run[which]));
    return EXIT_NUMBERS;
}

static void files_tell(FILE *to, const struct delivery *delivery, const struct notes *notes)
{
    const char *const path[] = {delivery->csv, delivery->json, delivery->plot, notes->record, notes->save};
    bool any = false;
    for (size_t i = 0; i < sizeof path / sizeof path[0]; i++) {
        if (!path[i])
            continue;
        fprintf(to, any ? "  %s" : "Written: %s", path[i]);
        any = true;
    }
    if (any)
        fputc('\n', to);
}

static void job_tell(FILE *to, const struct job *job, const char *program, bool written)
{
    const struct experiment *of = &job->experiment[0];
    const enum figure_units units = job->settings.units;
    story_setting(to, of, units);
    story_events(to, of, units);
    readings_write(to, of, units);
    verdicts_write(to, of);
    ledger_write(to, of);
    if (job->other_path)
        comparison_write(to, of, &job->experiment[1], units);
    cautions_write(to, of);
    if (written && !delivery_uses_stdout(&job->delivery))
        files_tell(to, &job->delivery, &job->notes);
    suggest_write(to, program, job->path, of);
}

static enum exit_code expectation(const struct job *job)
{
    if (!job->expecting || experiment_expected(&job->experiment[0], job->expected))
        return EXIT_DONE;
    fprintf(stderr, "ullage run: %s was expected; %s\n", result_word(job->expected),
            ullage_run_verdicts(job->run[0]) == 0 ? "the procedure judges nothing"
            : job->expected == ULLAGE_PASS        ? "not every verdict is a pass"
                                                  : "no verdict is a fail");
    return EXIT_NOT_EXPECTED;
}

/* Whether what was done again came out the same. */
static bool replays_tell(const struct job *job, FILE *to)
{
    bool same = true;
    for (int which = 0; which < 2; which++)
        if (job->replay[which].recording && !replay_tell(&job->replay[which], job->model[which], job->run[which], to))
            same = false;
    return same;
}

/* The story goes to standard output, unless data goes there. */
static enum exit_code job_deliver(struct job *job, const char *program, FILE *to)
{
    const struct ullage_method *method = &job->settings.method;
    const struct json_circumstances circumstances = {
        .seed = method->seeded ? method->seed : ullage_model_seed(job->model[0]), .seconds = job->seconds};
    const struct experiment *other = job->other_path ? &job->experiment[1] : NULL;
    const enum exit_code files =
        delivery_write(&job->delivery, &job->experiment[0], other, &circumstances, job->settings.units);
    const enum exit_code notes = notes_write(&job->notes, job->path, &job->settings, job->run[0]);
    FILE *talk = delivery_uses_stdout(&job->delivery) ? stderr : to;
    const bool same = replays_tell(job, job->quiet ? NULL : talk);
    if (!job->quiet && !*interrupt_flag())
        job_tell(talk, job, program, files == EXIT_DONE && notes == EXIT_DONE);
    if (files != EXIT_DONE || notes != EXIT_DONE)
        return files != EXIT_DONE ? files : notes;
    return same ? expectation(job) : EXIT_NOT_EXPECTED;
}

static enum exit_code job_follow(struct job *job, const char *program, FILE *to)
{
    const int count = job->other_path ? 2 : 1;
    enum exit_code code = EXIT_DONE;
    for (int which = 0; which < count && code == EXIT_DONE; which++)
        code = experiment_open(job, which);
    if (code == EXIT_DONE)
        code = delivery_open(&job->delivery);
    if (code == EXIT_DONE)
        code = notes_open(&job->notes);
    for (int which = 0; which < count && code == EXIT_DONE && !*interrupt_flag(); which++)
        code = experiment_follow(job, which);
    return code != EXIT_DONE || *interrupt_flag() ? code : job_deliver(job, program, to);
}

static enum exit_code words_follow(const struct words *words, FILE *to)
{
    struct job job = {0};
    enum exit_code code = job_read(words, &job);
    if (code == EXIT_DONE)
        code = job_follow(&job, words->program, to);
    delivery_drop(&job.delivery);
    notes_drop(&job.notes);
    for (int which = 0; which < 2; which++) {
        ullage_run_free(job.run[which]);
        ullage_model_free(job.model[which]);
        free(job.start[which]);
        replay_close(&job.replay[which]);
    }
    settings_clear(&job.settings);
    settings_clear(&job.other);
    return code;
}

const struct command command_run = {
    .name = "run",
    .operands = "SCENARIO",
    .least = 1,
    .most = 1,
    .about = "Runs a scenario and tells what happened: steps, readings, verdicts with reasons, the ledger.",
    .more =
        "The story goes to standard output, or to standard error where CSV, JSON or a plot goes to standard output. "
        "Files are written beside their place and renamed, so a full disk or Ctrl-C leaves the old ones whole. CSV "
        "and JSON are in SI units and read back to the same bits. A replay takes edits, seed and method from the "
        "recording; "
        "where nothing else is asked for and it does not come out the same, the exit code is 1.",
    .example = run_example,
    .option = run_option,
    .follow = words_follow,
};
