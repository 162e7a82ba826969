/* sim/procedure/moments.c  Moments along the way, for going back to.
 *
 * They are kept every so many solver steps; where there is no more room every second one goes and the distance doubles, so that
 * going back costs a bounded share of the whole, and memory has its bound. */
#include "procedure/history.h"

#include <stdlib.h>

enum { STEPS_FIRST = 4, MOMENTS_LEAST = 16 };

/* Every order of that way up to the moment is in it, and no other. */
static bool moment_good(const struct moment *moment, const struct told *told)
{
    if (moment->orders > told->orders || moment->chain != told_chain(told, moment->orders))
        return false;
    return moment->orders == told->orders || told_order(told, moment->orders)->time >= moment->time;
}

static void moment_drop(struct ullage_history *history, int index, int *kept, bool stays)
{
    if (stays)
        history->moment[(*kept)++] = history->moment[index];
    else
        free(history->moment[index].block);
}

static void moments_thin(struct ullage_history *history)
{
    int kept = 0;
    for (int k = 0; k < history->moments; k++)
        moment_drop(history, k, &kept, k % 2 == 0);
    history->moments = kept;
    history->steps *= 2;
}

void moments_sift(struct ullage_history *history)
{
    int kept = 0;
    for (int k = 0; k < history->moments; k++) {
        bool good = false;
        for (int branch = 0; branch < history->branches; branch++)
            good = good || moment_good(&history->moment[k], branch_told(history, branch));
        moment_drop(history, k, &kept, good);
    }
    history->moments = kept;
}

const struct moment *moment_before(const struct ullage_history *history, const struct told *told, double time)
{
    const struct moment *best = &history->moment[0];
    for (int k = 1; k < history->moments; k++) {
        const struct moment *moment = &history->moment[k];
        if (moment->time <= time && moment->time >= best->time && moment_good(moment, told))
            best = moment;
    }
    return best;
}

static void measure(struct ullage_history *history)
{
    history->size = experiment_size(history->run);
    history->steps = STEPS_FIRST;
    const size_t fit = history->bytes / history->size;
    history->room = fit > MOMENTS_MOST ? MOMENTS_MOST : fit < MOMENTS_LEAST ? MOMENTS_LEAST : (int)fit;
}

void moment_keep(struct ullage_history *history)
{
    const struct progress *progress = history->run->progress;
    const double now = conduct_now(history->run);
    if (history->moments == 0)
        measure(history);
    else if (progress->made - moment_before(history, &history->run->log.told, now)->made < history->steps)
        return;
    if (history->moments == history->room)
        moments_thin(history);
    void *block = malloc(history->size);
    if (!block)
        return;
    experiment_save(history->run, block);
    history->moment[history->moments++] =
        (struct moment){now, progress->made, progress->orders, progress->chain, block};
}

void moments_free(struct ullage_history *history)
{
    for (int k = 0; k < history->moments; k++)
        free(history->moment[k].block);
}
