/* sim/procedure/compare.c  Two branches side by side: channel by channel, and from when on. */
#include "procedure/history.h"

#include <math.h>

#define PARTED 1e-4 /* of all that a channel does: what the eye can tell apart on a chart; rounding stays far below */

/* Rows of the two at the same moments. */
struct pair {
    const struct ullage_history *history;
    int branch[2], row[2];
};

static const double *pair_row(const struct pair *pair, int which)
{
    const int row = pair->row[which];
    return row < ullage_history_samples(pair->history, pair->branch[which])
               ? ullage_history_sample(pair->history, pair->branch[which], row)
               : NULL;
}

/* The next rows of one moment into row[2]; false at the end of either. */
static bool pair_next(struct pair *pair, const double *row[2])
{
    while ((row[0] = pair_row(pair, 0)) && (row[1] = pair_row(pair, 1))) {
        const double gap = row[1][0] - row[0][0];
        pair->row[0] += gap >= 0.0;
        pair->row[1] += gap <= 0.0;
        if (gap == 0.0)
            return true;
    }
    return false;
}

/* One channel over all moments. */
static struct ullage_difference channel_compared(struct pair pair, int column)
{
    struct ullage_difference made = {.parts_at = (double)NAN, .at = (double)NAN};
    struct pair again = pair;
    const double *row[2];
    double least = (double)INFINITY, most = -(double)INFINITY, squares = 0.0;
    int count = 0;
    for (; pair_next(&pair, row); count++) {
        const double gap = row[1][column] - row[0][column];
        least = fmin(least, fmin(row[0][column], row[1][column]));
        most = fmax(most, fmax(row[0][column], row[1][column]));
        squares += gap * gap;
        if (fabs(gap) > fabs(made.largest)) {
            made.largest = gap;
            made.at = row[0][0];
        }
    }
    made.mean = count > 0 ? sqrt(squares / count) : 0.0;
    while (isnan(made.parts_at) && pair_next(&again, row))
        if (fabs(row[1][column] - row[0][column]) > PARTED * (most - least))
            made.parts_at = row[0][0];
    return made;
}

int ullage_history_compare(const struct ullage_history *history, int one, int other,
                           struct ullage_difference *difference)
{
    const struct pair begin = {history, {one, other}, {0, 0}};
    struct pair pair = begin;
    const double *row[2];
    int count = 0;
    while (pair_next(&pair, row))
        count++;
    for (int k = 0; k < history->run->model->recorded; k++)
        difference[k] = channel_compared(begin, 1 + k);
    return count;
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
