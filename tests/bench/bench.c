/* tests/bench/bench.c  Our stepper beside GSL's msbdf on the same equations: counts and processor time.
 *
 *     bench [--repeat N] [--json FILE] SCENARIO...
 *
 * For each scenario and tolerance both methods run N times in turn (ours, GSL's, ours, ...), so that a machine that
 * grows busy slows both; the median time of each counts, and ratios say more than seconds. Counts are exact and the same
 * in every repeat (checked). A run of over two seconds is not repeated; one that fails, or takes over ten minutes, msbdf
 * half a minute, says how far it came, and its ratios are left out. GSL does not tell how often msbdf factorizes. */
#include "ullage.h"

#include <getopt.h>
#include <jansson.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { METHODS = 2, TOLERANCES = 3, REPEATS_MOST = 99 };

static const char *const method_name[METHODS] = {"bdf", "msbdf"};
static const double tolerances[TOLERANCES] = {1e-4, 1e-6, 1e-8};
static const unsigned patience[METHODS] = {600, 30}; /* s; a run that takes longer is given up */
static const double long_enough = 2.0;               /* s; a run that takes longer is not repeated */

static volatile sig_atomic_t too_long;

struct measure {
    int repeats;
    double seconds[REPEATS_MOST]; /* processor time of each repeat [repeats] */
    struct ullage_effort effort;
    bool finished;
    double end; /* s of simulated time reached */
};

static void on_alarm(int signal_number)
{
    (void)signal_number;
    too_long = 1;
}

static double processor_seconds(void)
{
    struct timespec now;
    if (clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now))
        return 0.0;
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double measure_median(const struct measure *of)
{
    double sorted[REPEATS_MOST];
    memcpy(sorted, of->seconds, (size_t)of->repeats * sizeof *sorted);
    qsort(sorted, (size_t)of->repeats, sizeof *sorted, by_size);
    return sorted[of->repeats / 2];
}

/* One more run, added to what was measured before. False: counts differ from an earlier repeat, or memory is out. */
static bool measure_once(struct measure *into, const struct ullage_model *model, int m, double tolerance)
{
    struct ullage_run *run =
        ullage_run_create(model, &(struct ullage_method){.solver = method_name[m], .tolerance = tolerance});
    if (!run)
        return false;
    too_long = 0;
    ullage_run_heed(run, &too_long);
    alarm(patience[m]);
    const double before = processor_seconds();
    const enum ullage_status status = ullage_run_advance(model, run, HUGE_VAL);
    into->seconds[into->repeats++] = processor_seconds() - before;
    alarm(0);
    const struct ullage_effort effort = ullage_run_effort(run);
    const bool same = into->repeats == 1 || effort.derivatives == into->effort.derivatives;
    into->effort = effort;
    into->finished = status == ULLAGE_FINISHED;
    into->end = ullage_run_time(run);
    ullage_run_free(run);
    return same;
}

static bool pair_measure(struct measure pair[METHODS], const struct ullage_model *model, double tolerance, int repeats)
{
    for (int k = 0; k < repeats; k++)
        for (int m = 0; m < METHODS; m++) {
            struct measure *into = &pair[m];
            const bool again = k == 0 || (into->finished && into->seconds[0] < long_enough);
            if (again && !measure_once(into, model, m, tolerance))
                return false;
        }
    return true;
}

static void measure_print(const char *scenario, double tolerance, const char *method, const struct measure *of)
{
    const struct ullage_effort *e = &of->effort;
    char factorizations[32] = "-";
    if (e->factorizations > 0)
        snprintf(factorizations, sizeof factorizations, "%lld", (long long)e->factorizations);
    printf("%-16s %7.0e  %-6s %8lld %11lld %9lld %7s %9.2f", scenario, tolerance, method, (long long)e->steps,
           (long long)e->derivatives, (long long)e->jacobians, factorizations, 1e3 * measure_median(of));
    if (of->finished)
        printf("\n");
    else
        printf("  ended at %.6g s of the run\n", of->end);
}

static json_t *measure_json(const struct measure *of)
{
    const struct ullage_effort *e = &of->effort;
    return json_pack("{sI sI sI sI sf si sb sf}", "steps", (json_int_t)e->steps, "derivatives",
                     (json_int_t)e->derivatives, "jacobians", (json_int_t)e->jacobians, "factorizations",
                     (json_int_t)e->factorizations, "seconds", measure_median(of), "repeats", of->repeats, "finished",
                     of->finished, "end_time_s", of->end);
}

static double share(int64_t ours, int64_t theirs)
{
    return theirs > 0 ? (double)ours / (double)theirs : 0.0;
}

/* Ours over GSL's; under 1: ours takes less. */
static json_t *ratio_json(const struct measure pair[METHODS])
{
    const struct ullage_effort *a = &pair[0].effort;
    const struct ullage_effort *b = &pair[1].effort;
    if (!pair[0].finished || !pair[1].finished)
        return json_null();
    return json_pack("{sf sf sf sf}", "steps", share(a->steps, b->steps), "derivatives",
                     share(a->derivatives, b->derivatives), "jacobians", share(a->jacobians, b->jacobians), "seconds",
                     measure_median(&pair[0]) / measure_median(&pair[1]));
}

static void ratio_print(const struct measure pair[METHODS])
{
    const struct ullage_effort *a = &pair[0].effort;
    const struct ullage_effort *b = &pair[1].effort;
    if (pair[0].finished && pair[1].finished)
        printf("%-16s %7s  %-6s %8.2f %11.2f %9.2f %7s %9.3f\n", "", "", "ratio", share(a->steps, b->steps),
               share(a->derivatives, b->derivatives), share(a->jacobians, b->jacobians), "",
               measure_median(&pair[0]) / measure_median(&pair[1]));
}

static void problems_print(const struct ullage_problems *problems)
{
    for (int k = 0; k < ullage_problems_count(problems); k++) {
        const struct ullage_problem p = ullage_problems_at(problems, k);
        fprintf(stderr, "%s:%d:%d: %s; %s\n", p.place.file ? p.place.file : "", p.place.line, p.place.column, p.wrong,
                p.right);
    }
}

static struct ullage_model *model_read(const char *path)
{
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome;
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders, .searches = 1};
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    problems_print(problems);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return model;
}

static bool scenario_bench(const char *path, int repeats, json_t *rows)
{
    struct ullage_model *model = model_read(path);
    bool good = model != NULL;
    for (int t = 0; good && t < TOLERANCES; t++) {
        struct measure pair[METHODS] = {0};
        good = pair_measure(pair, model, tolerances[t], repeats);
        if (!good)
            fprintf(stderr, "%s: two runs of one method differ, or memory is out\n", path);
        for (int m = 0; good && m < METHODS; m++)
            measure_print(m || t ? "" : ullage_model_name(model), tolerances[t], method_name[m], &pair[m]);
        if (good) {
            ratio_print(pair);
            json_array_append_new(rows, json_pack("{ss sf so so so}", "scenario", ullage_model_name(model), "tolerance",
                                                  tolerances[t], "bdf", measure_json(&pair[0]), "msbdf",
                                                  measure_json(&pair[1]), "ratio", ratio_json(pair)));
        }
        fflush(stdout);
    }
    ullage_model_free(model);
    return good;
}

int main(int argc, char **argv)
{
    static const struct option options[] = {
        {"repeat", required_argument, NULL, 'r'}, {"json", required_argument, NULL, 'j'}, {0}};
    int repeats = 5;
    const char *file = NULL;
    for (int option; (option = getopt_long(argc, argv, "", options, NULL)) != -1;) {
        if (option == 'r')
            repeats = (int)strtol(optarg, NULL, 10);
        else if (option == 'j')
            file = optarg;
        else
            return 2;
    }
    if (repeats < 1 || repeats > REPEATS_MOST || optind == argc) {
        fprintf(stderr, "usage: bench [--repeat 1..%d] [--json FILE] SCENARIO...\n", REPEATS_MOST);
        return 2;
    }
    if (sigaction(SIGALRM, &(struct sigaction){.sa_handler = on_alarm}, NULL))
        return 1;
    json_t *rows = json_array();
    bool good = true;
    printf("%-16s %7s  %-6s %8s %11s %9s %7s %9s\n", "scenario", "rtol", "method", "steps", "derivatives", "Jacobians",
           "LUs", "ms");
    for (int k = optind; k < argc; k++)
        good = scenario_bench(argv[k], repeats, rows) && good;
    if (file && json_dump_file(rows, file, JSON_INDENT(2)))
        good = false;
    json_decref(rows);
    return good ? 0 : 1;
}
