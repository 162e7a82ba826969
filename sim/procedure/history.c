/* sim/procedure/history.c  Back to any moment: saved moments along the way, and integrating on from the nearest.
 *
 * Moments are kept every so many solver steps; when there is no more room every second one goes and the distance doubles,
 * so going back costs a bounded share of the whole. What a hand has done stands in the run's own list of orders and is
 * done again as time passes there; a moment is good as long as it holds the same orders as that list has before it. */
#include "procedure/conduct.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOMENTS_MOST = 256, STEPS_FIRST = 4 };

struct moment {
    double time;
    void *block;
};

struct ullage_history {
    struct ullage_run *run;
    size_t size;   /* bytes of a block */
    int64_t steps; /* of the solver between two moments */
    int moments;
    struct moment moment[MOMENTS_MOST]; /* in the order of their times */
    double latest;                      /* s, on the present way */
    int orders;                         /* known when latest was noted */
    uint64_t chain;
};

/* ---- which moments are good ---- */
static uint64_t chain_after(const struct ullage_run *run, int orders)
{
    return orders > 0 ? run->log.order[orders - 1].chain : 0;
}

/* Every order of the present way up to that moment is in it, and no other. */
static bool moment_good(const struct ullage_history *history, const struct moment *moment)
{
    const struct ullage_run *run = history->run;
    const struct progress *progress = experiment_progress(moment->block);
    const int orders = progress->orders;
    if (orders > run->log.orders || progress->chain != chain_after(run, orders))
        return false;
    return orders == run->log.orders || run->log.order[orders].time >= moment->time;
}

static void moments_sift(struct ullage_history *history)
{
    int kept = 0;
    for (int k = 0; k < history->moments; k++) {
        if (moment_good(history, &history->moment[k]))
            history->moment[kept++] = history->moment[k];
        else
            free(history->moment[k].block);
    }
    history->moments = kept;
}

/* A command has made another future: what stood after it is forgotten. */
static bool orders_changed(const struct ullage_history *history)
{
    const struct ullage_run *run = history->run;
    return history->orders != run->log.orders || history->chain != chain_after(run, run->log.orders);
}

double ullage_history_latest(const struct ullage_history *history)
{
    const double now = run_now(history->run->physics);
    return orders_changed(history) ? now : fmax(history->latest, now);
}

static void follow_orders(struct ullage_history *history)
{
    const struct ullage_run *run = history->run;
    history->latest = ullage_history_latest(history);
    if (orders_changed(history))
        moments_sift(history);
    history->orders = run->log.orders;
    history->chain = chain_after(run, run->log.orders);
}

/* ---- keeping ---- */
static void moments_thin(struct ullage_history *history)
{
    int kept = 0;
    for (int k = 0; k < history->moments; k++) {
        if (k % 2 == 0)
            history->moment[kept++] = history->moment[k];
        else
            free(history->moment[k].block);
    }
    history->moments = kept;
    history->steps *= 2;
}

static void moment_keep(struct ullage_history *history)
{
    const double now = run_now(history->run->physics);
    if (history->moments > 0 && history->moment[history->moments - 1].time >= now)
        return;
    if (history->moments == MOMENTS_MOST)
        moments_thin(history);
    void *block = malloc(history->size);
    if (!block)
        return; /* going back takes longer, that is all */
    experiment_save(history->run, block);
    history->moment[history->moments++] = (struct moment){now, block};
}

struct ullage_history *ullage_history_create(const struct ullage_model *model, struct ullage_run *run)
{
    assert(model == run->model);
    struct ullage_history *history = calloc(1, sizeof *history);
    if (!history)
        return NULL;
    history->run = run;
    history->size = experiment_size(run);
    history->steps = STEPS_FIRST;
    moment_keep(history);
    follow_orders(history);
    if (history->moments > 0)
        return history;
    ullage_history_free(history);
    return NULL;
}

void ullage_history_free(struct ullage_history *history)
{
    if (!history)
        return;
    for (int k = 0; k < history->moments; k++)
        free(history->moment[k].block);
    free(history);
}

/* ---- going ---- */

/* Solver steps made since the newest moment; below 0: behind it. */
static int64_t steps_gone(const struct ullage_history *history)
{
    return history->run->progress->made - experiment_progress(history->moment[history->moments - 1].block)->made;
}

/* Onward from now, keeping moments. */
static enum ullage_status go_on(struct ullage_history *history, double time)
{
    struct ullage_run *run = history->run;
    for (;;) {
        if (steps_gone(history) >= history->steps)
            moment_keep(history);
        const enum ullage_status status = conduct_advance(run, time, history->steps);
        const double now = run_now(run->physics);
        history->latest = fmax(history->latest, now);
        if (status != ULLAGE_PAUSED || now >= time)
            return status;
    }
}

/* The last moment at or before `time`; the first of all where there is none. */
static const struct moment *nearest_before(const struct ullage_history *history, double time)
{
    int k = history->moments - 1;
    while (k > 0 && history->moment[k].time > time)
        k--;
    return &history->moment[k];
}

enum ullage_status ullage_history_go(struct ullage_history *history, double time)
{
    struct ullage_run *run = history->run;
    follow_orders(history);
    time = fmin(time, history->latest);
    const double now = run_now(run->physics);
    const struct moment *near = nearest_before(history, time);
    if (time < now || near->time > now)
        experiment_restore(run, near->block);
    return go_on(history, time);
}

enum ullage_status ullage_history_advance(struct ullage_history *history, double time)
{
    follow_orders(history);
    if (run_now(history->run->physics) < history->latest && time < history->latest)
        return ullage_history_go(history, time);
    if (run_now(history->run->physics) < history->latest)
        ullage_history_go(history, history->latest);
    return go_on(history, time);
}
