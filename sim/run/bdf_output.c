/* sim/run/bdf_output.c  What an integration can tell: its next step, its effort, and the polynomial of its last step.
 *
 * The history is that polynomial: y(t) = sum of column j times ((t - t_n) / h)^j, by Horner's rule. Columns obey every
 * linear invariant of the system (bdf.c), and so does any value between them. */
#include "run/bdf_block.h"

#include <assert.h>

double bdf_next(const struct bdf *bdf)
{
    return bdf->next_step;
}

int bdf_order(const struct bdf *bdf)
{
    return bdf->order;
}

double bdf_tolerance(const struct bdf *bdf)
{
    return bdf->tolerance;
}

struct stiff_effort bdf_effort(const struct bdf *bdf)
{
    return bdf->effort;
}

/* ---- the step's own polynomial ---- */

static double polynomial_at(const struct bdf *bdf, double x, int row)
{
    const double *const z = bdf->room; /* the history */
    double value = z[bdf->order * bdf->rows + row];
    for (int j = bdf->order - 1; j >= 0; j--)
        value = value * x + z[j * bdf->rows + row];
    return value;
}

void bdf_interpolate(const struct bdf *bdf, const struct stiff_system *system, double time, double *y)
{
    assert(bdf->order > 0 && system->states == bdf->states);
    (void)system;
    const double x = (time - bdf->time) / bdf->step;
    for (int i = 0; i < bdf->rows; i++)
        y[i] = polynomial_at(bdf, x, i);
}

void bdf_interpolate_some(const struct bdf *bdf, const struct stiff_system *system, double time, int count,
                          const int *index, double *value)
{
    assert(bdf->order > 0 && system->states == bdf->states);
    (void)system;
    const double x = (time - bdf->time) / bdf->step;
    for (int i = 0; i < count; i++)
        value[i] = polynomial_at(bdf, x, index[i]);
}

void bdf_last(const struct bdf *bdf, double *error, double *slope)
{
    assert(bdf->order > 0);
    const double *const z = bdf->room;
    const double *const e = z + COLUMNS * (size_t)bdf->rows; /* block_done */
    for (int i = 0; i < bdf->rows; i++) {
        error[i] = bdf->error * e[i];
        slope[i] = z[bdf->rows + i] / bdf->step;
    }
}
