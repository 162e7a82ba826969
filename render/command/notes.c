/* command/notes.c  What a run was told: written beside and renamed; read and done again. */
#include "command/notes.h"

#include "command/deliver.h"
#include "command/progress.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

/* ---- before the run ---------------------------------------------------------------------------------------------- */
static bool path_good(const char *command, const char *option, const char *path, const char *scenario)
{
    if (!path)
        return true;
    if (strcmp(path, "-") == 0)
        fprintf(stderr, "ullage %s: --%s goes to a file, not to standard output\n", command, option);
    else if (place_same(path, scenario))
        fprintf(stderr, "ullage %s: --%s %s would write over the scenario\n", command, option, path);
    else
        return true;
    return false;
}

bool notes_check(const struct notes *notes, const char *command, const char *scenario)
{
    if (!path_good(command, "record", notes->record, scenario) || !path_good(command, "save", notes->save, scenario))
        return false;
    if (!notes->record || !notes->save || !place_same(notes->record, notes->save))
        return true;
    fprintf(stderr, "ullage %s: --record and --save both go to %s\n", command, notes->save);
    return false;
}

static bool one_open(const char *path, struct output **output)
{
    int failure = 0;
    if (!path)
        return true;
    *output = output_open(path, &failure);
    if (!*output)
        unwritable_print(path, failure);
    return *output;
}

enum exit_code notes_open(struct notes *notes)
{
    if (one_open(notes->record, &notes->record_output) && one_open(notes->save, &notes->save_output))
        return EXIT_DONE;
    notes_drop(notes);
    return EXIT_FILE;
}

void notes_drop(struct notes *notes)
{
    output_drop(notes->record_output);
    output_drop(notes->save_output);
    notes->record_output = NULL;
    notes->save_output = NULL;
}

/* ---- after the run ----------------------------------------------------------------------------------------------- */

/* Takes the text. */
static enum exit_code text_put(char *text, const char *path, struct output **output)
{
    struct output *closing = *output;
    *output = NULL;
    if (!text) {
        fputs("ullage: memory ran out\n", stderr);
        output_drop(closing);
        return EXIT_NUMBERS;
    }
    fputs(text, output_stream(closing));
    ullage_text_free(text);
    const int failure = output_close(closing);
    if (failure)
        unwritable_print(path, failure);
    return failure ? EXIT_FILE : EXIT_DONE;
}

/* The scenario is read again: it may be gone by now, or another. */
static enum exit_code save_write(struct notes *notes, const char *path, const struct settings *settings,
                                 const struct ullage_run *run)
{
    enum ullage_outcome outcome = ULLAGE_OUT_OF_MEMORY;
    struct ullage_problems *problems = ullage_problems_create();
    char *text = problems ? ullage_scenario_text(path, &settings->edits, run, problems, &outcome) : NULL;
    const bool said = problems && !text && ullage_problems_count(problems) > 0;
    if (said)
        problems_print(problems);
    ullage_problems_free(problems);
    if (!said)
        return text_put(text, notes->save, &notes->save_output);
    output_drop(notes->save_output);
    notes->save_output = NULL;
    return outcome_code(outcome);
}

enum exit_code notes_write(struct notes *notes, const char *path, const struct settings *settings,
                           const struct ullage_run *run)
{
    enum exit_code record = EXIT_DONE, save = EXIT_DONE;
    if (notes->record_output)
        record = text_put(ullage_recording_text(run, path, &settings->edits), notes->record, &notes->record_output);
    if (notes->save_output)
        save = save_write(notes, path, settings, run);
    return record != EXIT_DONE ? record : save;
}

/* ---- done again -------------------------------------------------------------------------------------------------- */

/* The recorded words, then those of the command line, as a list of its own in the place of the old one. */
static bool words_join(const char *const **list, int *count, const char *const *recorded, int more)
{
    const char **joined = calloc((size_t)(*count + more) + 1, sizeof *joined);
    if (!joined)
        return false;
    for (int k = 0; k < more; k++)
        joined[k] = recorded[k];
    for (int k = 0; k < *count; k++)
        joined[more + k] = (*list)[k];
    free((void *)*list); /* made by settings_read, given out as const */
    *list = joined;
    *count += more;
    return true;
}

static bool settings_join(struct replay *replay, struct settings *settings)
{
    const struct ullage_recorded about = ullage_recording_about(replay->recording);
    struct ullage_edits *edits = &settings->edits;
    struct ullage_method *method = &settings->method;
    replay->changed =
        edits->sets > 0 || edits->faults > 0 || method->solver || method->tolerance > 0.0 || method->seeded;
    method->solver = method->solver ? method->solver : about.method.solver;
    method->tolerance = method->tolerance > 0.0 ? method->tolerance : about.method.tolerance;
    method->seed = method->seeded ? method->seed : about.method.seed;
    method->seeded = true;
    edits->every_fault = edits->every_fault || about.edits.every_fault;
    return words_join(&edits->set, &edits->sets, about.edits.set, about.edits.sets) &&
           words_join(&edits->fault, &edits->faults, about.edits.fault, about.edits.faults);
}

bool is_recording(const char *path)
{
    struct ullage_heading heading = {0};
    return ullage_heading_read(path, &heading) && strncmp(heading.form, "recording/", 10) == 0;
}

enum exit_code replay_open(struct replay *replay, const char *path, struct settings *settings)
{
    enum ullage_outcome outcome = ULLAGE_OUT_OF_MEMORY;
    struct ullage_problems *problems = ullage_problems_create();
    *replay = (struct replay){.path = path};
    if (problems)
        replay->recording = ullage_recording_read(path, problems, &outcome);
    if (problems && !replay->recording)
        problems_print(problems);
    ullage_problems_free(problems);
    if (replay->recording && settings_join(replay, settings))
        return EXIT_DONE;
    if (replay->recording || outcome == ULLAGE_OUT_OF_MEMORY)
        fputs("ullage: memory ran out\n", stderr);
    return replay->recording ? EXIT_NUMBERS : outcome_code(outcome);
}

void replay_close(struct replay *replay)
{
    ullage_recording_free(replay->recording);
    *replay = (struct replay){0};
}

enum exit_code replay_check(const struct replay *replay, const struct ullage_model *model)
{
    struct ullage_problems *problems = ullage_problems_create();
    const bool suits = problems && ullage_recording_suits(replay->recording, model, problems);
    const bool said = problems && ullage_problems_count(problems) > 0;
    if (said)
        problems_print(problems);
    else if (!suits)
        fputs("ullage: memory ran out\n", stderr);
    ullage_problems_free(problems);
    return suits ? EXIT_DONE : said ? EXIT_BAD_INPUT : EXIT_NUMBERS;
}

enum ullage_status replay_follow(const struct replay *replay, const struct ullage_model *model, struct ullage_run *run,
                                 double *seconds)
{
    const struct ullage_recorded about = ullage_recording_about(replay->recording);
    enum ullage_status status = ULLAGE_PAUSED;
    double whole = 0.0;
    for (int k = 0; k <= about.commands && status != ULLAGE_STUCK && status != ULLAGE_STOPPED; k++) {
        const bool last = k == about.commands;
        const struct ullage_order order =
            last ? (struct ullage_order){.time = about.end} : ullage_recording_command(replay->recording, k);
        status = run_follow_to(model, run, order.time, seconds);
        whole += *seconds;
        if (!last && status != ULLAGE_STOPPED && ullage_run_time(run) == order.time) {
            (void)ullage_run_command(model, run, order.what, order.value); /* replay_check has tried it */
            status = ULLAGE_PAUSED;
        }
    }
    *seconds = whole;
    return status;
}

bool replay_tell(const struct replay *replay, const struct ullage_model *model, const struct ullage_run *run, FILE *to)
{
    const struct ullage_recorded about = ullage_recording_about(replay->recording);
    const bool other = strcmp(about.name, ullage_model_name(model)) != 0;
    const bool same = ullage_run_hash(run) == about.hash && ullage_run_time(run) == about.end;
    if (same && to)
        fprintf(to, "Replayed %s: %d %s, the same to the bit.\n", replay->path, about.commands,
                about.commands == 1 ? "command" : "commands");
    if (!same)
        fprintf(stderr,
                "ullage run: %s came out otherwise: %016" PRIx64 " at %.9g s, recorded was %016" PRIx64
                " at %.9g s%s%s%s\n",
                replay->path, ullage_run_hash(run), ullage_run_time(run), about.hash, about.end,
                other ? "; it is of another scenario, " : "", other ? about.name : "",
                replay->changed ? "; the command line changes it" : "");
    return same || other || replay->changed;
}
