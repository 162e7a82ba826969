/* sim/procedure/watch.c  Looking out for the end of a wait inside the known solution.
 *
 * Every solver step is cut at WATCH_POINTS even points and at the grid of the wait's windows. Between two of them the
 * condition is taken to turn at most once; where it is true at the later one, the moment it turned is found by halving on
 * its truth along the solver's own polynomial, and the later end, where it is true, is returned. No step is shortened. */
#include "procedure/conduct.h"

#include <math.h>

enum { WATCH_POINTS = 4 };

#define MOMENT 1e-12 /* of the time: how closely a condition's moment is found */

static const struct step *present_wait(const struct ullage_run *run)
{
    return run->progress->waiting ? conduct_step(run, run->progress->wait) : NULL;
}

static bool is_true(struct ullage_run *run, double time)
{
    const struct step *wait = present_wait(run);
    return wait && wait->until && conduct_value_at(run, wait->until, time) > 0.5;
}

/* ---- windows ---- */
static void windows_feed(struct ullage_run *run)
{
    const struct procedure *procedure = run->model->procedure;
    const struct progress *progress = run->progress;
    for (int k = 0; k < procedure->windows; k++) {
        const struct window *window = &procedure->window[k];
        double value;
        if (window->wait != progress->wait ||
            window_moment(window, progress->since, run->memory[k].fed) > conduct_now(run))
            continue;
        run_look(run->model->network, run->physics, conduct_now(run), 1, &window->channel, &value, NULL);
        window_feed(&run->memory[k], value);
    }
}

/* The next grid point of a window of this wait, if that comes before `point`. */
static double windows_point(const struct ullage_run *run, double point)
{
    const struct procedure *procedure = run->model->procedure;
    const struct progress *progress = run->progress;
    for (int k = 0; k < procedure->windows; k++)
        if (procedure->window[k].wait == progress->wait)
            point = fmin(point, window_moment(&procedure->window[k], progress->since, run->memory[k].fed));
    return point;
}

/* ---- beginning ---- */
void watch_again(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const double now = conduct_now(run);
    progress->watched = now;
    progress->ahead = now;
    progress->turns = progress->waiting && is_true(run, now) ? now : (double)INFINITY;
}

void watch_begin(struct ullage_run *run)
{
    const struct procedure *procedure = run->model->procedure;
    run->progress->waiting = true;
    for (int k = 0; k < procedure->windows; k++)
        if (procedure->window[k].wait == run->progress->wait)
            window_clear(&run->memory[k]);
    windows_feed(run);
    watch_again(run);
}

/* ---- looking ahead ---- */

/* A solver step must not go beyond the moment at which an input may change, or all is over. */
static bool solver_step(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const struct ullage_model *model = run->model;
    double limit = model->stop;
    if (progress->waiting && conduct_step(run, progress->wait)->exact)
        limit = fmin(limit, progress->deadline);
    progress->step_begun = run_reach(run->physics);
    return run_extend(model->network, run->physics, limit) == RUN_GOOD;
}

/* The next even point of the solver's step after `watched`. */
static double even_point(const struct progress *progress, double reach)
{
    const double length = reach - progress->step_begun;
    for (int k = 1; k < WATCH_POINTS; k++) {
        const double point = progress->step_begun + length * (double)k / (double)WATCH_POINTS;
        if (point > progress->watched)
            return point;
    }
    return reach;
}

static double turning_moment(struct ullage_run *run, double before, double after)
{
    while (after - before > MOMENT * after) {
        const double middle = before + 0.5 * (after - before);
        if (!(before < middle && middle < after))
            break;
        if (is_true(run, middle))
            after = middle;
        else
            before = middle;
    }
    return after;
}

bool watch_ahead(struct ullage_run *run, int64_t *steps)
{
    struct progress *progress = run->progress;
    if (progress->watched >= run_reach(run->physics)) {
        if (*steps <= 0 || !solver_step(run))
            return false;
        --*steps;
        progress->made++;
    }
    const double reach = run_reach(run->physics);
    const bool condition = progress->waiting && conduct_step(run, progress->wait)->until;
    progress->ahead = condition ? even_point(progress, reach) : reach;
    if (progress->waiting)
        progress->ahead = windows_point(run, progress->ahead);
    progress->turns = (double)INFINITY;
    if (condition && is_true(run, progress->ahead))
        progress->turns = turning_moment(run, progress->watched, progress->ahead);
    return true;
}

void watch_arrived(struct ullage_run *run)
{
    if (run->progress->waiting)
        windows_feed(run);
    run->progress->watched = run->progress->ahead;
}
