/* tests/bench/history.c  How long a return to any moment takes, and how much memory a past does: SCENARIO [BRANCHES
 * [faults]]; with `faults` as the picture runs it, every hole there that may come by hand.
 *
 * Follows the scenario to its end in a history, then goes to 300 moments drawn at random, then begins branches at moments in its
 * first tenth and follows each to the end, and goes to 300 moments on branches drawn at random. Prints the worst and the mean
 * return of both, in time of the processor, and the largest memory the process had. */
#include "support/near.h"
#include "ullage.h"

#include <stdbool.h>
#include <sys/resource.h>
#include <time.h>

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now); /* others use the machine too */
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double megabytes(void)
{
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    return (double)used.ru_maxrss / 1024.0;
}

static struct ullage_model *model_read(const char *path, bool every_fault)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders, .searches = 1, .every_fault = every_fault};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    ullage_description_free(description);
    ullage_problems_free(problems);
    return model;
}

static void returns_told(const char *what, struct ullage_history *history)
{
    uint64_t draws = 7;
    double worst = 0.0, whole = 0.0;
    const int times = 300;
    for (int k = 0; k < times; k++) {
        const int branch = (int)near_draw_between(&draws, 0.0, ullage_history_branches(history));
        ullage_history_switch(history, branch);
        const double begun = seconds();
        ullage_history_go(history, near_draw_between(&draws, 0.0, ullage_history_latest(history)));
        const double took = seconds() - begun;
        worst = fmax(worst, took);
        whole += took;
    }
    printf("%-10s return: mean %.1f ms, worst %.1f ms; %d branches, %d samples of each; %.0f MB at most\n", what,
           1e3 * whole / times, 1e3 * worst, ullage_history_branches(history), ullage_history_samples(history, 0),
           megabytes());
}

/* The first valve there is, opened a little more each time. */
static void branches_begin(const struct ullage_model *model, struct ullage_run *run, struct ullage_history *history,
                           int count)
{
    const double end = ullage_history_latest(history);
    int part = 0;
    while (part < ullage_model_parts(model) && strcmp(ullage_model_part(model, part).type, "valve"))
        part++;
    for (int k = 1; k <= count && part < ullage_model_parts(model); k++) {
        char share[16];
        snprintf(share, sizeof share, "%d %%", 3 * k);
        ullage_history_switch(history, 0);
        ullage_history_go(history, 0.1 * end * k / count);
        ullage_run_command(model, run, ullage_model_part(model, part).id, share);
        ullage_history_advance(history, (double)INFINITY);
    }
}

int main(int argc, char **argv)
{
    struct ullage_model *model = argc > 1 ? model_read(argv[1], argc > 3) : NULL;
    struct ullage_run *run = model ? ullage_run_create(model, NULL) : NULL;
    struct ullage_history *history = run ? ullage_history_create(model, run) : NULL;
    if (!history) {
        fputs("history SCENARIO [BRANCHES [faults]]\n", stderr);
        return 2;
    }
    const double begun = seconds();
    ullage_history_advance(history, (double)INFINITY);
    printf("%s: %.0f s in %.2f s; %d channels recorded every %g s; %lld steps\n", argv[1], ullage_run_time(run),
           seconds() - begun, ullage_model_recorded(model), ullage_model_every(model),
           (long long)ullage_run_effort(run).steps);
    returns_told("one way", history);
    branches_begin(model, run, history, argc > 2 ? atoi(argv[2]) : 11);
    returns_told("branches", history);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
    return 0;
}
