/* plan.c  The steps to come. What a hand changes later shifts them; the lengths stay those of the untouched run. */
#include "view/plan.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PLAN_STEPS_MOST 100000 /* of the solver: some seconds of work at most */
#define PLAN_SLICES 64
#define FALLBACK 60.0 /* s: length of an axis about whose end nothing is known */

enum { TICKS_MOST = 10, AHEAD_MOST = 256 };

static void plan_follow(const struct ullage_model *model, struct ullage_run *run)
{
    const double end = ullage_model_end(model);
    const double slice = isfinite(end) ? end / PLAN_SLICES : FALLBACK;
    enum ullage_status status = ULLAGE_PAUSED;
    for (int k = 1; status == ULLAGE_PAUSED && ullage_run_effort(run).steps < PLAN_STEPS_MOST; k++)
        status = ullage_run_advance(model, run, k * slice);
}

bool plan_make(struct plan *plan, const struct ullage_model *model)
{
    *plan = (struct plan){0};
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct snapshot end = {0};
    bool good = run && snapshot_make(&end, model);
    if (good) {
        plan_follow(model, run);
        snapshot_take(&end, model, run, 0.0);
        plan->end = end.time;
        plan->span = malloc((size_t)(end.spans + 1) * sizeof *plan->span);
        good = plan->span && !end.out_of_memory;
    }
    for (int k = 0; good && k < end.spans; k++) {
        plan->span[k] = end.span[k];
        if (isinf(plan->span[k].to))
            plan->span[k].to = end.time;
        plan->spans = k + 1;
    }
    snapshot_free(&end);
    ullage_run_free(run);
    return good;
}

void plan_free(struct plan *plan)
{
    free(plan->span);
    *plan = (struct plan){0};
}

/* Which stretch of the plan the snapshot stands in: as many begun, counting repeats. */
static int plan_present(const struct plan *plan, const struct snapshot *snapshot)
{
    const int at = snapshot->spans - 1;
    return at < plan->spans ? at : plan->spans;
}

int plan_ahead(const struct plan *plan, const struct snapshot *snapshot, struct step_span *span, int most)
{
    int count = 0;
    double time = snapshot->time;
    if (snapshot->step == -2)
        return 0;
    for (int k = plan_present(plan, snapshot); k >= 0 && k < plan->spans && count < most; k++) {
        double length = plan->span[k].to - plan->span[k].from;
        if (k == snapshot->spans - 1)
            length = fmax(length - (snapshot->time - snapshot->span[k].from), 0.0);
        if (length <= 0.0 && k != snapshot->spans - 1)
            continue;
        span[count++] = (struct step_span){plan->span[k].step, time, time + length};
        time += length;
    }
    return count;
}

static double tick_for(double whole)
{
    static const double steps[] = {0.01, 0.02, 0.05, 0.1, 0.2, 0.5,  1,    2,    5,     10,    15,    30,
                                   60,   120,  300,  600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400};
    for (size_t k = 0; k < sizeof steps / sizeof steps[0]; k++)
        if (whole <= TICKS_MOST * steps[k])
            return steps[k];
    return 86400.0 * ceil(whole / (86400.0 * TICKS_MOST));
}

double clock_whole(double end, double *tick)
{
    const double whole = end > 0.0 ? end : FALLBACK;
    *tick = tick_for(whole);
    return *tick * ceil(whole / *tick - 1e-9);
}

double plan_whole(const struct plan *plan, const struct snapshot *snapshot, double *tick)
{
    struct step_span ahead[AHEAD_MOST];
    const int count = plan_ahead(plan, snapshot, ahead, AHEAD_MOST);
    const double whole = fmax(snapshot->latest, count ? ahead[count - 1].to : snapshot->time);
    return clock_whole(whole > 0.0 ? whole : plan->end, tick);
}
