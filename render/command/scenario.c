/* command/scenario.c  From a scenario's name on the command line to a model. */
#include "command/scenario.h"

#include "command/keep.h"

#include <errno.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double tolerance_least = 1e-12;
static const double tolerance_most = 1e-2;

enum { PROBLEMS_PRINTED = 100 };

/* What is searched: where the program was installed, then the tree it was built from. */
static const char *const folders[] = {ULLAGE_DATA_DIR, ULLAGE_SOURCE_DIR "/scenarios", NULL};

const char *const *search_folders(void)
{
    return folders;
}

struct ullage_edits search_edits(void)
{
    return (struct ullage_edits){
        .search = folders, .searches = (int)(sizeof folders / sizeof folders[0]) - 1, .keep = keep_folder()};
}

/* ---- shared options ---------------------------------------------------------------------------------------------- */

static bool option_seed(const char *text, struct ullage_method *method)
{
    char *end;
    errno = 0;
    const unsigned long long seed = strtoull(text, &end, 10);
    method->seed = seed;
    method->seeded = true;
    if (*text >= '0' && *text <= '9' && *end == '\0' && errno == 0 && seed <= INT64_MAX)
        return true;
    fprintf(stderr, "ullage: --seed %s is no whole number from 0 to %" PRId64 "\n", text, INT64_MAX);
    return false;
}

static bool option_tolerance(const char *text, struct ullage_method *method)
{
    int dimension = 0;
    const char *wrong = ullage_quantity_read(text, &method->tolerance, &dimension);
    if (!wrong && dimension == ULLAGE_NUMBER && method->tolerance >= tolerance_least &&
        method->tolerance <= tolerance_most)
        return true;
    fprintf(stderr, "ullage: --rtol %s is no number from %g to %g\n", text, tolerance_least, tolerance_most);
    return false;
}

static bool option_solver(const char *text, struct ullage_method *method)
{
    method->solver = text;
    if (strcmp(text, "bdf") == 0 || strcmp(text, "msbdf") == 0)
        return true;
    fprintf(stderr, "ullage: --solver %s is not known; bdf or msbdf\n", text);
    return false;
}

static bool option_units(const char *text, enum figure_units *units)
{
    *units = strcmp(text, "si") == 0 ? FIGURE_SI : FIGURE_SHOP;
    if (*units == FIGURE_SI || strcmp(text, "shop") == 0)
        return true;
    fprintf(stderr, "ullage: --units %s is not known; shop or si\n", text);
    return false;
}

static bool singles_read(const struct words *words, struct settings *settings)
{
    const char *seed = words_value(words, OPTION_SEED);
    const char *units = words_value(words, OPTION_UNITS);
    const char *solver = words_value(words, OPTION_SOLVER);
    const char *tolerance = words_value(words, OPTION_RTOL);
    return (!seed || option_seed(seed, &settings->method)) && (!units || option_units(units, &settings->units)) &&
           (!solver || option_solver(solver, &settings->method)) &&
           (!tolerance || option_tolerance(tolerance, &settings->method));
}

enum exit_code settings_read(const struct words *words, struct settings *settings)
{
    *settings = (struct settings){.edits = search_edits()};
    const size_t most = (size_t)words->options + 1;
    const char **set = calloc(most, sizeof *set);
    const char **fault = calloc(most, sizeof *fault);
    settings->edits.set = set;
    settings->edits.fault = fault;
    if (!set || !fault) {
        fputs("ullage: memory ran out\n", stderr);
        return EXIT_NUMBERS;
    }
    settings->edits.sets = words_values(words, OPTION_SET, set);
    settings->edits.faults = words_values(words, OPTION_FAULT, fault);
    return singles_read(words, settings) ? EXIT_DONE : EXIT_BAD_INPUT;
}

void settings_clear(struct settings *settings)
{
    free((void *)settings->edits.set); /* given out as const, made here */
    free((void *)settings->edits.fault);
    *settings = (struct settings){0};
}

bool quantity_option(const char *option, const char *text, int dimension, double *value)
{
    int got = 0;
    char unit[64];
    const char *wrong = ullage_quantity_read(text, value, &got);
    if (!wrong && got == dimension)
        return true;
    ullage_dimension_name(dimension, unit);
    if (wrong)
        fprintf(stderr, "ullage: --%s %s: %s\n", option, text, wrong);
    else
        fprintf(stderr, "ullage: --%s %s has the wrong unit; give it in %s or the like\n", option, text, unit);
    return false;
}

/* ---- reading ----------------------------------------------------------------------------------------------------- */

static void problem_print(struct ullage_problem problem)
{
    const struct ullage_place at = problem.place;
    const bool advice = problem.right && *problem.right;
    if (at.file && at.line > 0)
        fprintf(stderr, "%s:%d:%d: ", at.file, at.line, at.column);
    else if (at.file)
        fprintf(stderr, "%s: ", at.file);
    else
        fputs("ullage: ", stderr);
    fprintf(stderr, "%s%s%s\n", problem.wrong, advice ? "; " : "", advice ? problem.right : "");
}

void problems_print(const struct ullage_problems *problems)
{
    const int count = ullage_problems_count(problems);
    for (int i = 0; i < count && i < PROBLEMS_PRINTED; i++)
        problem_print(ullage_problems_at(problems, i));
    if (count > PROBLEMS_PRINTED)
        fprintf(stderr, "and %d more\n", count - PROBLEMS_PRINTED);
}

enum exit_code outcome_code(enum ullage_outcome outcome)
{
    switch (outcome) {
    case ULLAGE_GOOD:
        return EXIT_DONE;
    case ULLAGE_UNREADABLE:
        return EXIT_FILE;
    case ULLAGE_OUT_OF_MEMORY:
        return EXIT_NUMBERS;
    case ULLAGE_BAD_INPUT:
        break;
    }
    return EXIT_BAD_INPUT;
}

/* A refusal without a reason can only be memory. */
static enum exit_code refusal(const struct ullage_problems *problems, enum ullage_outcome outcome)
{
    problems_print(problems);
    if (ullage_problems_count(problems) > 0 && outcome != ULLAGE_OUT_OF_MEMORY)
        return outcome_code(outcome);
    fputs("ullage: memory ran out\n", stderr);
    return EXIT_NUMBERS;
}

typedef struct ullage_description *description_reader(const char *path, const struct ullage_edits *edits,
                                                      struct ullage_problems *problems, enum ullage_outcome *outcome);

static enum exit_code model_open(description_reader *read, const char *path, const struct ullage_edits *edits,
                                 struct ullage_model **model)
{
    enum ullage_outcome outcome = ULLAGE_OUT_OF_MEMORY;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = problems ? read(path, edits, problems, &outcome) : NULL;
    *model = NULL;
    if (description) {
        *model = ullage_model_create(description, problems);
        outcome = ULLAGE_BAD_INPUT; /* should there be no model */
    }
    const enum exit_code code = *model ? EXIT_DONE : problems ? refusal(problems, outcome) : EXIT_NUMBERS;
    ullage_description_free(description);
    ullage_problems_free(problems);
    return code;
}

enum exit_code scenario_open(const char *path, const struct ullage_edits *edits, struct ullage_model **model)
{
    return model_open(ullage_description_read, path, edits, model);
}

enum exit_code system_open(const char *name, const struct ullage_edits *edits, struct ullage_model **model)
{
    struct ullage_heading heading = {0};
    const bool scenario = ullage_heading_read(name, &heading) && strncmp(heading.form, "scenario/", 9) == 0;
    return model_open(scenario ? ullage_description_read : ullage_description_of_system, name, edits, model);
}
