/* sim/run/bdf.c  Stiff integration by backward differentiation of variable order and step.
 *
 * Method: fixed-leading-coefficient BDF of orders 1..5 [JacksonSacksDavis1980], history as Nordsieck columns
 * h^j y^(j)/j! [ByrneHindmarsh1975] [BrownByrneHindmarsh1989], modified Newton on
 *     e = gamma f(t_n, w_0 + e) - w_1/l_1,   gamma = h/l_1   (w: the predicted columns),
 * with M = I - gamma' J factored once for many steps (sparse.c). Coefficients, error constants: bdf_formula.c.
 *
 * Invariants
 *  1. History, the block's first array, is that of the last accepted step, at its order and its length. A step works on
 *     a copy and replaces the history only when it is accepted. So a failure undoes nothing, and the dense output is
 *     that of the last step even after order and length of the next have been chosen.
 *  2. The next order and length are only noted (next_order, next_step); each attempt applies them to its copy.
 *  3. States and accounts go through the same sums: prediction, residual, correction, change of order, interpolation.
 *     A Newton correction has d_acc = r_acc + gamma' J_acc d. Where w'J = 0 and w'f = 0, w'd = w'r = 0 follows, hence
 *     w'y stays put to round-off in every iterate, converged or not.
 *  4. The block holds no pointer, and nothing outside is remembered: a copy of it goes on with the same bits.
 *
 * Newton stops at NEWTON_SHARE of the tolerance. What it leaves in stiff states enters the history, and a predictor of
 * order q multiplies that by up to 2^(q+1) - 1; at the usual tenth of the tolerance that can lock a run into tiny steps.
 *
 * A step the caller cuts short (to end at an event without a restart) says little about the next one. Under half of the
 * length proposed, order and wait stay as they were; the proposal stands, reached by factors of CUT_GROWTH, because
 * the slope over a very short step is mostly what Newton left, and a longer step multiplies it by the ratio. */
#include "run/bdf.h"

#include "run/bdf_formula.h"
#include "run/sparse.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <string.h>

enum {
    COLUMNS = BDF_ORDERS + 1,
    PAST = BDF_ORDERS + 1,
    SLOPES_AGE = 50,     /* accepted steps a Jacobian may serve */
    ITERATIONS = 4,      /* of Newton */
    ITERATIONS_LOOSE = 6 /* at tolerances above LOOSE */
};

static const double LOOSE = 1e-5;
static const double NEWTON_SHARE = 0.003;
static const double DIVERGED = 2.0;      /* a correction this many times the last one */
static const double RATE_MEMORY = 0.3;   /* the remembered rate of convergence falls no faster than this */
static const double GAMMA_MOVED = 0.2;   /* relative change of gamma that asks for new factors */
static const double WORST_GROWTH = 1e8;  /* of L in sparse.c: more than half of the digits would be lost */
static const double AMOUNT_SLACK = 10.0; /* tolerances an amount may lie below zero */

/* Step control: an estimate d of this order allows a step longer by 1 / ((bias d)^(1/(order + 1)) + ADDED). The biases
 * ask a change of order for more than keeping it [BrownByrneHindmarsh1989]. */
static const double BIAS = 6.0, BIAS_HIGHER = 10.0, ADDED = 1e-6;
static const double WORTH = 1.5;        /* a smaller gain leaves the step, and the factors of M, as they are */
static const double GROWTH_FIRST = 1e4; /* after the first step, whose length is a guess */
static const double GROWTH = 10.0;
static const double CUT_GROWTH = 10.0;
static const double SHRINK_LEAST = 0.1, SHRINK_AGAIN = 0.2; /* after one, after two failures of the error test */
static const double SHRINK_NEWTON = 0.25;
static const double FIRST_STEP = 1e-5; /* s; a guess on the short side costs a step, one too long several */

enum { ERRORS_KEEP_ORDER = 2, FAILURES_KEEP_HISTORY = 6, FAILURES_STUCK = 40 };

struct bdf {
    int states, rows;      /* n, n + m */
    size_t slopes, factor; /* entries of J with the rows of accounts; of L and U */
    double tolerance;

    /* the last accepted step */
    double time, step; /* its end, its length: the history's scale (s); 0: none yet */
    int order;
    double past[PAST]; /* lengths of accepted steps since the restart, newest first (s) */
    double error;      /* local error = error * e */
    double lead;       /* h^(q+1) y^(q+1)/(q+1)! = lead * e */

    /* the next one */
    bool fresh; /* starts from y alone */
    int next_order;
    double next_step;
    double wanted;        /* what the error allows; next_step may be less after a step cut short */
    int wait;             /* steps until the order is thought about */
    int made;             /* steps since the restart */
    int held;             /* order to hold; 0: free */
    int errors, failures; /* since the last accepted step: of the error test, of any kind */

    /* Newton */
    bool stale;      /* slopes must be evaluated anew */
    int age;         /* accepted steps since they were */
    double factored; /* gamma' (s); 0: no factors */
    double rate;     /* of convergence, as seen since the factors were made */

    struct stiff_effort effort;
    double
        room[]; /* history [COLUMNS rows], copy [COLUMNS rows], e, e_done, y, f [rows each], work [n], slopes, factor */
};

/* ---- the block ---- */

static double *block_history(struct bdf *bdf)
{
    return bdf->room;
}

static double *block_copy(struct bdf *bdf)
{
    return bdf->room + COLUMNS * (size_t)bdf->rows;
}

enum vector { E, E_DONE, Y, F, VECTORS };

static double *block_vector(struct bdf *bdf, enum vector which)
{
    return bdf->room + (2 * COLUMNS + (size_t)which) * (size_t)bdf->rows;
}

static double *block_work(struct bdf *bdf)
{
    return block_vector(bdf, VECTORS);
}

static double *block_slopes(struct bdf *bdf)
{
    return block_work(bdf) + bdf->states;
}

static double *block_factor(struct bdf *bdf)
{
    return block_slopes(bdf) + bdf->slopes;
}

static size_t block_length(const struct bdf *bdf)
{
    return (2 * COLUMNS + VECTORS) * (size_t)bdf->rows + (size_t)bdf->states + bdf->slopes + bdf->factor;
}

static struct bdf block_head(const struct stiff_system *system, const struct sparse_plan *plan)
{
    const int rows = system->states + system->accounts;
    return (struct bdf){.states = system->states,
                        .rows = rows,
                        .slopes = (size_t)system->start[rows],
                        .factor = (size_t)sparse_nonzeros(plan)};
}

size_t bdf_size(const struct stiff_system *system, const struct sparse_plan *plan)
{
    const struct bdf head = block_head(system, plan);
    return sizeof head + block_length(&head) * sizeof head.room[0];
}

void bdf_prepare(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan, double tolerance)
{
    assert(tolerance > 0.0);
    memset(bdf, 0, bdf_size(system, plan)); /* padding too: equal runs are equal bytes */
    const struct bdf head = block_head(system, plan);
    bdf->states = head.states;
    bdf->rows = head.rows;
    bdf->slopes = head.slopes;
    bdf->factor = head.factor;
    bdf->tolerance = tolerance;
    bdf_restart(bdf, 0.0);
}

void bdf_restart(struct bdf *bdf, double first_step)
{
    assert(first_step >= 0.0);
    bdf->fresh = true;
    bdf->stale = true;
    bdf->next_order = 1;
    bdf->next_step = first_step > 0.0 ? first_step : FIRST_STEP;
    bdf->wanted = bdf->next_step;
    bdf->errors = 0;
    bdf->failures = 0;
}

void bdf_hold(struct bdf *bdf, int order)
{
    assert(0 <= order && order <= BDF_ORDERS);
    bdf->held = order;
}

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

/* ---- one attempt ---- */

struct attempt {
    struct bdf *bdf;
    const struct stiff_system *system;
    const struct sparse_plan *plan;
    double time; /* its end (s) */
    struct bdf_formula formula;
    double d; /* estimate of the local error, 1 = the tolerance */
};

/* Root mean square of v_i / (r s_i) over the states. */
static double error_norm(const struct bdf *bdf, const struct stiff_system *system, const double *v)
{
    double sum = 0.0;
    for (int i = 0; i < bdf->states; i++) {
        const double share = v[i] / system->scale[i];
        sum += share * share;
    }
    return sqrt(sum / bdf->states) / bdf->tolerance;
}

static bool all_finite(const double *v, size_t count)
{
    bool finite = true;
    for (size_t i = 0; i < count; i++)
        finite &= fabs(v[i]) <= DBL_MAX;
    return finite;
}

/* False where the system will not have this state. */
static bool rates_at(struct bdf *bdf, const struct stiff_system *system, double time, const double *y, double *f)
{
    bdf->effort.derivatives++;
    return system->rates(time, y, f, system->context) == 0 && all_finite(f, (size_t)bdf->rows);
}

/* to += factor * from */
static void column_add(int rows, double factor, const double *from, double *to)
{
    for (int i = 0; i < rows; i++)
        to[i] += factor * from[i];
}

/* The copy starts from y and its slope alone. */
static bool copy_start(struct bdf *bdf, const struct stiff_system *system, double time, double step, const double *y)
{
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    if (!rates_at(bdf, system, time, y, w + rows))
        return false;
    for (int i = 0; i < rows; i++) {
        w[i] = y[i];
        w[rows + i] *= step;
    }
    return true;
}

/* The copy takes the history over, at the order and the length of the next step. */
static void copy_history(struct bdf *bdf, double step)
{
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    double c[COLUMNS + 1];
    memcpy(w, block_history(bdf), (size_t)(bdf->order + 1) * (size_t)rows * sizeof *w);
    for (int q = bdf->order; q > bdf->next_order; q--) {
        bdf_formula_drop(q, bdf->past, c);
        for (int j = 2; j < q; j++)
            column_add(rows, -c[j], w + q * rows, w + j * rows);
    }
    if (bdf->next_order > bdf->order) {
        bdf_formula_raise(bdf->order, bdf->past, c);
        memset(w + bdf->next_order * rows, 0, (size_t)rows * sizeof *w);
        for (int j = 2; j <= bdf->next_order; j++)
            column_add(rows, c[j], block_vector(bdf, E_DONE), w + j * rows);
    }
    double scale = 1.0;
    for (int j = 1; j <= bdf->next_order; j++) {
        scale *= step / bdf->step;
        for (int i = 0; i < rows; i++)
            w[j * rows + i] *= scale;
    }
}

/* The copy's polynomial about t_{n-1} becomes the one about t_n: Pascal's triangle. */
static void copy_predict(struct bdf *bdf)
{
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    for (int k = 1; k <= bdf->next_order; k++)
        for (int j = bdf->next_order; j >= k; j--)
            column_add(rows, 1.0, w + j * rows, w + (j - 1) * rows);
}

/* ---- Newton ---- */

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
        bdf->effort.jacobians++;
        if (system->slopes(attempt->time, block_copy(bdf), value, system->context) || !all_finite(value, bdf->slopes))
            return false;
        bdf->stale = false;
        bdf->age = 0;
    }
    const double gamma = attempt->formula.step / attempt->formula.l[1];
    bdf->effort.factorizations++;
    if (sparse_factorize(attempt->plan, system, value, gamma, block_factor(bdf), block_work(bdf)) > WORST_GROWTH)
        return false;
    bdf->factored = gamma;
    bdf->rate = 1.0;
    return true;
}

/* d := the Newton correction for the residual d, accounts behind the states. Where gamma has moved since M was made the
 * correction is weighed for the stiff and the slow part alike. */
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
    if (!rates_at(bdf, attempt->system, attempt->time, y, f))
        return false;
    for (int i = 0; i < bdf->rows; i++)
        f[i] = gamma * f[i] - w[bdf->rows + i] / leading - e[i];
    correction_solve(attempt, f);
    column_add(bdf->rows, 1.0, f, e);
    return true;
}

static enum solved newton_iterate(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const int most = bdf->tolerance > LOOSE ? ITERATIONS_LOOSE : ITERATIONS;
    double last = 0.0;
    memset(block_vector(bdf, E), 0, (size_t)bdf->rows * sizeof(double));
    for (int made = 0; made < most; made++) {
        if (!correction_make(attempt))
            return OUTSIDE;
        const double size = error_norm(bdf, attempt->system, block_vector(bdf, F));
        if (made > 0)
            bdf->rate = fmax(RATE_MEMORY * bdf->rate, size / last);
        if (attempt->formula.error * size * fmin(1.0, bdf->rate) <= NEWTON_SHARE)
            return SOLVED;
        if (!(size <= DBL_MAX) || (made > 0 && size > DIVERGED * last))
            return UNSOLVED;
        last = size;
    }
    return UNSOLVED;
}

static enum solved newton_solve(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const double gamma = attempt->formula.step / attempt->formula.l[1];
    bool renew = bdf->stale || bdf->age >= SLOPES_AGE;
    const bool moved = bdf->factored <= 0.0 || fabs(gamma / bdf->factored - 1.0) > GAMMA_MOVED;
    if ((renew || moved) && !matrix_renew(attempt, renew))
        return OUTSIDE;
    enum solved solved = newton_iterate(attempt);
    if (solved == UNSOLVED && !renew) {
        renew = true;
        solved = matrix_renew(attempt, renew) ? newton_iterate(attempt) : OUTSIDE;
    }
    if (solved != SOLVED)
        bdf->stale = true;
    return solved;
}

/* ---- judgement ---- */

/* How much longer than this one a step may be whose local error is estimated as d, of the given order. */
static double allowed(double bias, double d, int order)
{
    return 1.0 / (bdf_root(bias * d, order + 1) + ADDED);
}

static bool amounts_too_low(const struct attempt *attempt, const double *before, const double *after)
{
    const struct stiff_system *const system = attempt->system;
    for (int i = 0; i < system->states; i++) {
        const double least = -AMOUNT_SLACK * attempt->bdf->tolerance * system->scale[i];
        if (system->amount[i] && system->base[i] + after[i] < least && after[i] < before[i])
            return true;
    }
    return false;
}

/* Notes what to try instead: a step of `share` of this one. */
static enum bdf_outcome step_refused(const struct attempt *attempt, double share)
{
    struct bdf *const bdf = attempt->bdf;
    const double start = attempt->time - attempt->formula.step;
    bdf->next_step = share * attempt->formula.step;
    bdf->wanted = bdf->next_step;
    bdf->failures++;
    if (bdf->failures > FAILURES_KEEP_HISTORY) {
        bdf->fresh = true; /* it may be the history that misleads */
        bdf->next_order = 1;
    }
    return bdf->failures > FAILURES_STUCK || start + bdf->next_step <= start ? BDF_STUCK : BDF_SHORTER;
}

static enum bdf_outcome step_unsolved(const struct attempt *attempt)
{
    attempt->bdf->effort.newton_failures++;
    return step_refused(attempt, SHRINK_NEWTON);
}

static enum bdf_outcome step_inexact(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    bdf->effort.rejected++;
    bdf->errors++;
    if (bdf->errors > ERRORS_KEEP_ORDER) { /* these derivatives are not to be trusted */
        bdf->fresh = bdf->next_order == 1;
        bdf->next_order = bdf->next_order > 1 ? bdf->next_order - 1 : 1;
        bdf->wait = bdf->next_order + 1;
        return step_refused(attempt, SHRINK_LEAST);
    }
    const double share = fmax(SHRINK_LEAST, allowed(BIAS, attempt->d, attempt->formula.order));
    return step_refused(attempt, bdf->errors > 1 ? fmin(SHRINK_AGAIN, share) : share);
}

static enum bdf_outcome step_too_low(const struct attempt *attempt)
{
    attempt->bdf->effort.rejected++;
    return step_refused(attempt, SHRINK_NEWTON);
}

/* ---- what comes next ---- */

struct choice {
    int order;
    double growth;
};

/* Estimate for order q + 1, from how h^(q+1) y^(q+1) changed since the step before (its e: `before`). Uses f as room. */
static double error_higher(const struct attempt *attempt, const double *e, const double *before)
{
    struct bdf *const bdf = attempt->bdf;
    const struct bdf_formula *const formula = &attempt->formula;
    double *const change = block_vector(bdf, F);
    double scale = 1.0;
    for (int j = 0; j <= formula->order; j++)
        scale *= formula->step / bdf->step;
    for (int i = 0; i < bdf->states; i++)
        change[i] = formula->lead * e[i] - scale * bdf->lead * before[i];
    return formula->higher * error_norm(bdf, attempt->system, change);
}

/* The order that allows the longest step, given new history and e, and e_done and lead still of the step before. */
static struct choice order_choose(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const int q = attempt->formula.order;
    const struct choice same = {q, allowed(BIAS, attempt->d, q)};
    struct choice lower = {q - 1, 0.0};
    struct choice higher = {q + 1, 0.0};
    if (q > 1) {
        const double d = attempt->formula.lower * error_norm(bdf, attempt->system, block_history(bdf) + q * bdf->rows);
        lower.growth = allowed(BIAS, d, q - 1);
    }
    if (q < BDF_ORDERS) {
        const double d = error_higher(attempt, block_vector(bdf, E), block_vector(bdf, E_DONE));
        higher.growth = allowed(BIAS_HIGHER, d, q + 1);
    }
    if (same.growth >= lower.growth && same.growth >= higher.growth)
        return same;
    return lower.growth >= higher.growth ? lower : higher;
}

/* After a step cut to under half of what the error allows: no thought of order, back to that length. */
static void next_after_cut(struct bdf *bdf, double step)
{
    if (bdf->wait < 2)
        bdf->wait = 2;
    bdf->next_step = fmin(bdf->wanted, CUT_GROWTH * step);
}

static void next_choose(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const int q = attempt->formula.order;
    const double step = attempt->formula.step;
    struct choice choice = {q, allowed(BIAS, attempt->d, q)};
    const double stands = fmin(bdf->wanted, choice.growth * step);
    const double limit = bdf->failures > 0 ? 1.0 : bdf->made == 1 ? GROWTH_FIRST : GROWTH;
    bdf->wait--;
    if (bdf->failures > 0) {
        bdf->wait = bdf->wait > 2 ? bdf->wait : 2;
    } else if (bdf->wait <= 0) {
        choice = order_choose(attempt);
        bdf->wait = 2;
    }
    choice.growth = fmin(choice.growth, limit);
    if (choice.growth < WORTH)
        choice = (struct choice){q, 1.0};
    if (choice.order != q)
        bdf->wait = choice.order + 1;
    bdf->next_order = choice.order;
    bdf->next_step = fmax(choice.growth * step, stands);
    bdf->wanted = bdf->next_step;
}

/* Under bdf_hold: up by one order whenever there is history enough, the length is the caller's. */
static void next_held(struct bdf *bdf, double step)
{
    bdf->wait--;
    if (bdf->wait <= 0 && bdf->next_order < bdf->held) {
        bdf->next_order++;
        bdf->wait = bdf->next_order + 1;
    }
    bdf->next_step = step;
    bdf->wanted = step;
}

/* ---- acceptance ---- */

static void history_replace(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const int rows = bdf->rows;
    const double *const e = block_vector(bdf, E);
    double *const z = block_history(bdf);
    memcpy(z, block_copy(bdf), (size_t)(attempt->formula.order + 1) * (size_t)rows * sizeof *z);
    for (int j = 0; j <= attempt->formula.order; j++)
        column_add(rows, attempt->formula.l[j], e, z + j * rows);
}

static void past_push(struct bdf *bdf, double step)
{
    if (bdf->fresh) {
        memset(bdf->past, 0, sizeof bdf->past);
        bdf->made = 0;
        bdf->wait = 2;
    }
    memmove(bdf->past + 1, bdf->past, (PAST - 1) * sizeof bdf->past[0]);
    bdf->past[0] = step;
    bdf->made++;
}

static void step_accept(const struct attempt *attempt, double *y)
{
    struct bdf *const bdf = attempt->bdf;
    const double step = attempt->formula.step;
    past_push(bdf, step);
    history_replace(attempt);
    if (bdf->held)
        next_held(bdf, step);
    else if (!bdf->fresh && step < 0.5 * bdf->wanted)
        next_after_cut(bdf, step);
    else
        next_choose(attempt);
    memcpy(block_vector(bdf, E_DONE), block_vector(bdf, E), (size_t)bdf->rows * sizeof(double));
    memcpy(y, block_history(bdf), (size_t)bdf->rows * sizeof *y);
    bdf->time = attempt->time;
    bdf->step = step;
    bdf->order = attempt->formula.order;
    bdf->error = attempt->formula.error;
    bdf->lead = attempt->formula.lead;
    bdf->fresh = false;
    bdf->errors = 0;
    bdf->failures = 0;
    bdf->age++;
    bdf->effort.steps++;
}

enum bdf_outcome bdf_step(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan,
                          double time, double h, double *y)
{
    assert(h > 0.0);
    if (time + h <= time)
        return BDF_STUCK;
    struct attempt attempt = {.bdf = bdf, .system = system, .plan = plan, .time = time + h};
    const double none[PAST] = {0.0};
    attempt.formula = bdf_formula_make(bdf->next_order, h, bdf->fresh ? none : bdf->past);
    if (!bdf->fresh)
        copy_history(bdf, h);
    else if (!copy_start(bdf, system, time, h, y))
        return step_unsolved(&attempt);
    copy_predict(bdf);
    if (newton_solve(&attempt) != SOLVED)
        return step_unsolved(&attempt);
    const double *const e = block_vector(bdf, E);
    attempt.d = attempt.formula.error * error_norm(bdf, system, e);
    if (!bdf->held) {
        double *const trial = block_vector(bdf, Y);
        for (int i = 0; i < bdf->states; i++)
            trial[i] = block_copy(bdf)[i] + e[i];
        if (attempt.d > 1.0)
            return step_inexact(&attempt);
        if (amounts_too_low(&attempt, y, trial))
            return step_too_low(&attempt);
    }
    step_accept(&attempt, y);
    return BDF_STEPPED;
}

/* ---- the step's own polynomial ---- */

static double polynomial_at(const struct bdf *bdf, double x, int row)
{
    const double *const z = bdf->room;
    double value = z[bdf->order * bdf->rows + row];
    for (int j = bdf->order - 1; j >= 0; j--)
        value = value * x + z[j * bdf->rows + row];
    return value;
}

void bdf_interpolate(const struct bdf *bdf, const struct stiff_system *system, double time, double *y)
{
    assert(bdf->order > 0 && system->states == bdf->states);
    const double x = (time - bdf->time) / bdf->step;
    for (int i = 0; i < bdf->rows; i++)
        y[i] = polynomial_at(bdf, x, i);
    (void)system;
}

void bdf_interpolate_some(const struct bdf *bdf, const struct stiff_system *system, double time, int count,
                          const int *index, double *value)
{
    assert(bdf->order > 0 && system->states == bdf->states);
    const double x = (time - bdf->time) / bdf->step;
    for (int i = 0; i < count; i++)
        value[i] = polynomial_at(bdf, x, index[i]);
    (void)system;
}

void bdf_last(const struct bdf *bdf, double *error, double *slope)
{
    assert(bdf->order > 0);
    const double *const z = bdf->room;
    const double *const e = z + (2 * COLUMNS + E_DONE) * (size_t)bdf->rows;
    for (int i = 0; i < bdf->rows; i++) {
        error[i] = bdf->error * e[i];
        slope[i] = z[bdf->rows + i] / bdf->step;
    }
}
