/* sim/procedure/history.c  Back to any moment: the nearest kept one before it, and integrating on from there. */
#include "procedure/history.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

struct ullage_history *history_begin(struct ullage_run *run, size_t bytes)
{
    struct ullage_history *history = calloc(1, sizeof *history);
    if (!history)
        return NULL;
    history->run = run;
    history->bytes = bytes;
    moment_keep(history);
    branch_begin(history);
    if (history->moments > 0) {
        run->history = history;
        return history;
    }
    free(history);
    return NULL;
}

struct ullage_history *ullage_history_create(const struct ullage_model *model, struct ullage_run *run)
{
    assert(model == run->model && !run->history);
    return history_begin(run, MOMENTS_BYTES);
}

void ullage_history_free(struct ullage_history *history)
{
    if (!history)
        return;
    sound_free(history);
    moments_free(history);
    for (int k = 0; k < history->branches; k++)
        if (k != history->present)
            told_free(&history->branch[k].told);
    history->run->history = NULL;
    free(history);
}

/* ---- how far ---- */
double ullage_history_latest(const struct ullage_history *history)
{
    return fmax(history->branch[history->present].latest, conduct_now(history->run));
}

void history_note(struct ullage_history *history)
{
    struct branch *branch = &history->branch[history->present];
    const int samples = history->run->progress->samples, events = history->run->progress->events;
    branch->latest = ullage_history_latest(history);
    branch->samples = samples > branch->samples ? samples : branch->samples;
    branch->events = events > branch->events ? events : branch->events;
}

/* ---- going ---- */
enum ullage_status history_go_on(struct ullage_history *history, double time)
{
    struct ullage_run *run = history->run;
    for (;;) {
        moment_keep(history);
        const enum ullage_status status = conduct_advance(run, time, history->steps);
        history_note(history);
        if (status != ULLAGE_PAUSED || conduct_now(run) >= time)
            return status;
    }
}

enum ullage_status history_return(struct ullage_history *history, double time)
{
    experiment_restore(history->run, moment_before(history, &history->run->log.told, time)->block);
    return history_go_on(history, time);
}

static enum ullage_status go(struct ullage_history *history, double time)
{
    struct ullage_run *run = history->run;
    history_note(history);
    time = fmin(time, ullage_history_latest(history));
    const double now = conduct_now(run);
    if (time < now || moment_before(history, &run->log.told, time)->time > now)
        return history_return(history, time);
    return history_go_on(history, time);
}

enum ullage_status ullage_history_go(struct ullage_history *history, double time)
{
    const enum ullage_status status = go(history, time);
    sound_follow(history);
    return status;
}

enum ullage_status ullage_history_advance(struct ullage_history *history, double time)
{
    enum ullage_status status = go(history, time);
    if (status == ULLAGE_PAUSED && conduct_now(history->run) < time)
        status = history_go_on(history, time);
    sound_follow(history);
    return status;
}
