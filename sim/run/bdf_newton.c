/* sim/run/bdf_newton.c  Modified Newton for one step's equation, states and accounts in one solve.
 *
 * Sought is e with  e = gamma f(t_n, w_0 + e) - w_1/l_1.  With M = I - gamma' J, factored at some earlier gamma' and J
 * kept through many steps, one iteration solves M d = r, r the residual, for the states; accounts, on which nothing
 * depends, follow by d_acc = r_acc + gamma' J_acc d. All of d is weighed by 2 / (1 + gamma/gamma'), the mean of what
 * stiff (gamma'/gamma) and slow states (1) would need, and added to e.
 *
 * It stops when what it leaves, judged by the rate of convergence seen and remembered, is NEWTON_SHARE of the
 * tolerance. What is left in stiff states enters the history, and a predictor of order q multiplies it by up to
 * 2^(q+1) - 1; at the usual tenth of the tolerance that can lock a run into tiny steps for ever. */
#include "run/bdf_block.h"
#include "run/sparse.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <string.h>

enum {
    SLOPES_AGE = 50,     /* accepted steps a Jacobian may serve */
    ITERATIONS = 4,      /* of Newton */
    ITERATIONS_LOOSE = 6 /* at tolerances above LOOSE */
};

static const double LOOSE = 1e-5;
static const double NEWTON_SHARE = 0.003;
static const double DIVERGED = 2.0;     /* a correction this many times the last one */
static const double RATE_MEMORY = 0.3;  /* the remembered rate of convergence falls no faster than this */
static const double GAMMA_MOVED = 0.2;  /* relative change of gamma that asks for new factors */
static const double WORST_GROWTH = 1e8; /* of L in sparse.c: more than half of the digits would be lost */

static bool all_finite(const double *v, int count)
{
    bool finite = true;
    for (int i = 0; i < count; i++)
        finite &= fabs(v[i]) <= DBL_MAX;
    return finite;
}

bool bdf_rates(const struct attempt *attempt, double time, const double *y, double *f)
{
    struct bdf *const bdf = attempt->bdf;
    const struct stiff_system *const system = attempt->system;
    bdf->effort.derivatives++;
    return system->rates(time, y, f, system->context) == 0 && all_finite(f, bdf->rows);
}

double bdf_norm(const struct attempt *attempt, const double *v)
{
    const struct bdf *const bdf = attempt->bdf;
    const double *const scale = attempt->system->scale;
    double sum = 0.0;
    for (int i = 0; i < bdf->states; i++) {
        const double share = v[i] / scale[i];
        sum += share * share;
    }
    return sqrt(sum / bdf->states) / bdf->tolerance;
}

enum solved { SOLVED, UNSOLVED, OUTSIDE };

/* Factors M at the attempt's gamma, with slopes at the predicted state when they are to be new. */
static bool matrix_renew(const struct attempt *attempt, bool slopes)
{
    struct bdf *const bdf = attempt->bdf;
    const struct stiff_system *const system = attempt->system;
    double *const value = block_slopes(bdf);
    bdf->factored = 0.0;
    if (slopes) {
        bdf->stale = true;
        bdf->sloped = attempt->time;
        memcpy(block_sloped(bdf), block_copy(bdf), (size_t)bdf->rows * sizeof(double));
        bdf->effort.jacobians++;
        if (system->slopes(attempt->time, block_sloped(bdf), value, system->context) ||
            !all_finite(value, system->start[bdf->rows]))
            return false;
        bdf->stale = false;
        bdf->age = 0;
    }
    const double gamma = attempt->formula.step / attempt->formula.l[1];
    bdf->effort.factorizations++;
    if (sparse_factorize(attempt->plan, system, value, gamma, block_factor(bdf)) > WORST_GROWTH)
        return false;
    bdf->factored = gamma;
    bdf->rate = 1.0;
    return true;
}

/* d := the correction for the residual d. */
static void correction_solve(const struct attempt *attempt, double *d)
{
    struct bdf *const bdf = attempt->bdf;
    const struct stiff_system *const system = attempt->system;
    const double *const value = block_slopes(bdf);
    const double gamma = attempt->formula.step / attempt->formula.l[1];
    sparse_solve(attempt->plan, block_factor(bdf), d, block_work(bdf));
    for (int i = bdf->states; i < bdf->rows; i++) {
        double sum = 0.0;
        for (int p = system->start[i]; p < system->start[i + 1]; p++)
            sum += value[p] * d[system->column[p]];
        d[i] += bdf->factored * sum;
    }
    const double weight = 2.0 / (1.0 + gamma / bdf->factored);
    for (int i = 0; i < bdf->rows; i++)
        d[i] *= weight;
}

/* y = w_0 + e; false outside the domain. Leaves the correction of e in f, and adds it to e. */
static bool correction_make(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const double *const w = block_copy(bdf);
    double *const e = block_vector(bdf, E);
    double *const y = block_vector(bdf, Y);
    double *const f = block_vector(bdf, F);
    const double leading = attempt->formula.l[1];
    const double gamma = attempt->formula.step / leading;
    for (int i = 0; i < bdf->rows; i++)
        y[i] = w[i] + e[i];
    if (!bdf_rates(attempt, attempt->time, y, f))
        return false;
    for (int i = 0; i < bdf->rows; i++)
        f[i] = gamma * f[i] - w[bdf->rows + i] / leading - e[i];
    correction_solve(attempt, f);
    for (int i = 0; i < bdf->rows; i++)
        e[i] += f[i];
    return true;
}

/* What an iteration leaves of the error at least, because gamma has moved since M was made and the correction was
 * weighed: on a linear system the remembered rate is that of round-off, and would let a first iteration pass. */
static double gamma_rate(const struct attempt *attempt)
{
    const double ratio = attempt->formula.step / attempt->formula.l[1] / attempt->bdf->factored;
    return fabs(ratio - 1.0) / (ratio + 1.0);
}

static enum solved newton_iterate(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const double least_rate = gamma_rate(attempt);
    const int most = bdf->tolerance > LOOSE ? ITERATIONS_LOOSE : ITERATIONS;
    double last = 0.0;
    memset(block_vector(bdf, E), 0, (size_t)bdf->rows * sizeof(double));
    for (int made = 0; made < most; made++) {
        if (!correction_make(attempt))
            return OUTSIDE;
        const double size = bdf_norm(attempt, block_vector(bdf, F));
        if (made > 0)
            bdf->rate = fmax(RATE_MEMORY * bdf->rate, size / last);
        if (attempt->formula.error * size * fmin(1.0, fmax(bdf->rate, least_rate)) <= NEWTON_SHARE)
            return SOLVED;
        if (!(size <= DBL_MAX) || (made > 0 && size > DIVERGED * last))
            return UNSOLVED;
        last = size;
    }
    return UNSOLVED;
}

bool bdf_newton(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const double gamma = attempt->formula.step / attempt->formula.l[1];
    bool renew = bdf->stale || bdf->age >= SLOPES_AGE;
    const bool moved = bdf->factored <= 0.0 || fabs(gamma / bdf->factored - 1.0) > GAMMA_MOVED;
    if ((renew || moved) && !matrix_renew(attempt, renew))
        return false;
    enum solved solved = newton_iterate(attempt);
    if (solved == UNSOLVED && !renew) {
        renew = true;
        solved = matrix_renew(attempt, renew) ? newton_iterate(attempt) : OUTSIDE;
    }
    if (solved != SOLVED)
        bdf->stale = true;
    return solved == SOLVED;
}
