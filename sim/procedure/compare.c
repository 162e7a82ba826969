/* sim/procedure/compare.c  Two branches, or two runs, side by side: channel by channel, and from when on. */
#include "procedure/history.h"

#include <math.h>

#define PARTED 1e-4 /* of all that a channel does: what the eye can tell apart on a chart; rounding stays far below */

/* One recorded channel of one run: its rows, and the column in them. */
struct track {
    const struct ullage_history *history; /* null: `run` alone */
    const struct ullage_run *run;
    int branch, column, row;
};

static const double *track_row(const struct track *track)
{
    if (track->history)
        return track->row < ullage_history_samples(track->history, track->branch)
                   ? ullage_history_sample(track->history, track->branch, track->row)
                   : NULL;
    return track->row < ullage_run_samples(track->run) ? ullage_run_sample(track->run, track->row) : NULL;
}

/* The next rows of one moment; false at the end of either. */
static bool rows_next(struct track track[2], const double *row[2])
{
    while ((row[0] = track_row(&track[0])) && (row[1] = track_row(&track[1]))) {
        const double gap = row[1][0] - row[0][0];
        track[0].row += gap >= 0.0;
        track[1].row += gap <= 0.0;
        if (gap == 0.0)
            return true;
    }
    return false;
}

/* Over all moments that both have; returns how many. */
static int tracks_compared(struct track one, struct track other, struct ullage_difference *made)
{
    struct track track[] = {one, other}, again[] = {one, other};
    const double *row[2];
    double least = (double)INFINITY, most = -(double)INFINITY, squares = 0.0;
    int count = 0;
    *made = (struct ullage_difference){.parts_at = (double)NAN, .at = (double)NAN};
    for (; rows_next(track, row); count++) {
        const double a = row[0][one.column], b = row[1][other.column], gap = b - a;
        least = fmin(least, fmin(a, b));
        most = fmax(most, fmax(a, b));
        squares += gap * gap;
        if (fabs(gap) > fabs(made->largest)) {
            made->largest = gap;
            made->at = row[0][0];
        }
    }
    made->mean = count > 0 ? sqrt(squares / count) : 0.0;
    while (isnan(made->parts_at) && rows_next(again, row))
        if (fabs(row[1][other.column] - row[0][one.column]) > PARTED * (most - least))
            made->parts_at = row[0][0];
    return count;
}

int ullage_history_compare(const struct ullage_history *history, int one, int other,
                           struct ullage_difference *difference)
{
    int count = 0;
    for (int k = 0; k < history->run->model->recorded; k++)
        count = tracks_compared((struct track){.history = history, .branch = one, .column = 1 + k},
                                (struct track){.history = history, .branch = other, .column = 1 + k}, &difference[k]);
    return count;
}

int ullage_run_compare(const struct ullage_run *one, int recorded, const struct ullage_run *other, int its,
                       struct ullage_difference *difference)
{
    return tracks_compared((struct track){.run = one, .column = 1 + recorded},
                           (struct track){.run = other, .column = 1 + its}, difference);
}

double ullage_history_parting(const struct ullage_history *history, int one, int other)
{
    if (one == ULLAGE_SOUND || other == ULLAGE_SOUND)
        return 0.0;
    const struct told *a = branch_told(history, one), *b = branch_told(history, other);
    int same = 0;
    while (same < a->orders && same < b->orders && told_order(a, same)->chain == told_order(b, same)->chain)
        same++;
    double time = (double)INFINITY;
    if (same < a->orders)
        time = told_order(a, same)->time;
    if (same < b->orders)
        time = fmin(time, told_order(b, same)->time);
    return time;
}
