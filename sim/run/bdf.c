/* sim/run/bdf.c  Stiff integration by backward differentiation of variable order and step.
 *
 * Method: fixed-leading-coefficient BDF of orders 1..5 [JACKSON1980], history as Nordsieck columns
 * h^j y^(j)/j! [BYRNE1975] [BROWN1989], modified Newton on
 *     e = gamma f(t_n, w_0 + e) - w_1/l_1,   gamma = h/l_1   (w: the predicted columns),
 * with M = I - gamma' J factored once for many steps (bdf_newton.c, sparse.c). Coefficients and error constants are in
 * bdf_formula.c.
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
 * A step the caller cuts short (to end at an event without a restart) says little about the next one: the proposal it
 * was cut from stands, unless the error seen speaks against it. And a very short one would spoil the history. The slope
 * over it is mostly what Newton left, which longer steps multiply by the ratio of lengths. So a step of no more than
 * EXTENSION of the last one's length moves the last one's end instead: the history's polynomial is carried on to t_n
 * and corrected there by the formula of one step from t_{n-2} to t_n. With l the last corrector and e' its correction,
 * e + l(h/h') e' is then what such a step's correction would have been, and history, error estimate and gamma are as if
 * it had been made so. (The polynomial passes by y_{n-1} within the tolerance, not through it.) */
#include "run/bdf.h"

#include "run/bdf_block.h"
#include "run/sparse.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <string.h>

static const double AMOUNT_SLACK = 10.0; /* tolerances an amount may lie below zero */

/* Step control: an estimate d of this order allows a step longer by 1 / ((bias d)^(1/(order + 1)) + ADDED). The biases
 * ask a change of order for more than keeping it [BROWN1989]. */
static const double BIAS = 6.0, BIAS_HIGHER = 10.0, ADDED = 1e-6;
static const double BIAS_STANDS = 2.0;  /* what was proposed before a cut stands if it looks like passing */
static const double WORTH = 1.5;        /* a smaller gain leaves the step, and the factors of M, as they are */
static const double GROWTH_FIRST = 1e4; /* after the first step, whose length is a guess */
static const double GROWTH = 10.0;
static const double EXTENSION = 0.5, EXTENSION_ERROR = 0.9; /* share of the last step; of the tolerance expected */
static const double CUT = 0.5; /* of what was proposed: less says nothing about the order */
static const double SHRINK_LEAST = 0.1, SHRINK_AGAIN = 0.2; /* after one, after two failures of the error test */
static const double SHRINK_NEWTON = 0.25;
static const double FIRST_STEP = 1e-5; /* s; a guess on the short side costs a step, one too long several */

enum { ERRORS_KEEP_ORDER = 2, FAILURES_KEEP_HISTORY = 6, FAILURES_STUCK = 40 };

/* ---- the block ---- */

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

size_t bdf_kept(const struct bdf *bdf)
{
    return sizeof *bdf + block_kept(bdf) * sizeof bdf->room[0];
}

void bdf_revive(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan)
{
    if (bdf->stale) /* after a restart the system may be another; both are made before they are used */
        return;
    system->slopes(bdf->sloped, block_sloped(bdf), block_slopes(bdf), system->context);
    if (bdf->factored > 0.0)
        sparse_factorize(plan, system, block_slopes(bdf), bdf->factored, block_factor(bdf));
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

/* to += factor * from */
static void column_add(int rows, double factor, const double *from, double *to)
{
    for (int i = 0; i < rows; i++)
        to[i] += factor * from[i];
}

/* The copy starts from y and its slope alone. */
static bool copy_start(const struct attempt *attempt, const double *y)
{
    struct bdf *const bdf = attempt->bdf;
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    if (!bdf_rates(attempt, attempt->start, y, w + rows))
        return false;
    for (int i = 0; i < rows; i++) {
        w[i] = y[i];
        w[rows + i] *= attempt->formula.step;
    }
    return true;
}

/* The copy takes the history over, at another order if need be. */
static void copy_history(struct bdf *bdf, int order)
{
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    double c[COLUMNS + 1];
    memcpy(w, block_history(bdf), (size_t)(bdf->order + 1) * (size_t)rows * sizeof *w);
    for (int q = bdf->order; q > order; q--) {
        bdf_formula_drop(q, bdf->past, c);
        for (int j = 2; j < q; j++)
            column_add(rows, -c[j], w + q * rows, w + j * rows);
    }
    if (order > bdf->order) {
        bdf_formula_raise(bdf->order, bdf->past, c);
        memset(w + order * rows, 0, (size_t)rows * sizeof *w);
        for (int j = 2; j <= order; j++)
            column_add(rows, c[j], block_done(bdf), w + j * rows);
    }
}

static void copy_scale(struct bdf *bdf, int order, double ratio)
{
    double *column = block_copy(bdf);
    double scale = 1.0;
    for (int j = 1; j <= order; j++) {
        column += bdf->rows;
        scale *= ratio;
        for (int i = 0; i < bdf->rows; i++)
            column[i] *= scale;
    }
}

/* The copy's polynomial about t_{n-1} becomes the one about t_n: Pascal's triangle. */
static void copy_shift(struct bdf *bdf, int order)
{
    const int rows = bdf->rows;
    double *const w = block_copy(bdf);
    for (int k = 1; k <= order; k++)
        for (int j = order; j >= k; j--)
            column_add(rows, 1.0, w + j * rows, w + (j - 1) * rows);
}

/* Fills the copy with the attempt's prediction. False: the system will not have y. */
static bool copy_predict(const struct attempt *attempt, const double *y)
{
    struct bdf *const bdf = attempt->bdf;
    const int order = attempt->formula.order;
    if (bdf->fresh) {
        if (!copy_start(attempt, y))
            return false;
    } else {
        copy_history(bdf, order);
        copy_scale(bdf, order, attempt->length / bdf->step);
    }
    copy_shift(bdf, order);
    if (attempt->extends)
        copy_scale(bdf, order, attempt->formula.step / attempt->length);
    return true;
}

/* ---- judgement ---- */

/* How much longer than this one a step may be whose local error is estimated as d, of the given order. */
static double allowed(double bias, double d, int order)
{
    return 1.0 / (bdf_root(bias * d, order + 1) + ADDED);
}

/* Would the attempt take an amount below what the tolerance excuses? One that was there before may rise. */
static bool amounts_too_low(const struct attempt *attempt, const double *before)
{
    const struct stiff_system *const system = attempt->system;
    const double *const predicted = block_copy(attempt->bdf);
    const double *const e = block_vector(attempt->bdf, E);
    for (int i = 0; i < system->states; i++) {
        const double after = predicted[i] + e[i];
        const double least = -AMOUNT_SLACK * attempt->bdf->tolerance * system->scale[i];
        if (system->amount[i] && system->base[i] + after < least && after < before[i])
            return true;
    }
    return false;
}

/* Notes what to try instead: a step of `share` of this one. */
static enum bdf_outcome step_refused(const struct attempt *attempt, double share)
{
    struct bdf *const bdf = attempt->bdf;
    bdf->next_step = share * attempt->length;
    bdf->wanted = bdf->next_step;
    bdf->failures++;
    if (bdf->failures > FAILURES_KEEP_HISTORY) {
        bdf->fresh = true; /* it may be the history that misleads */
        bdf->next_order = 1;
    }
    return bdf->failures > FAILURES_STUCK || attempt->start + bdf->next_step <= attempt->start ? BDF_STUCK
                                                                                               : BDF_SHORTER;
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

/* Estimate for order q + 1, from how h^(q+1) y^(q+1) changed since the step before (its e: `before`). f gives room. */
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
    return formula->higher * bdf_norm(attempt, change);
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
        const double d = attempt->formula.lower * bdf_norm(attempt, block_history(bdf) + q * bdf->rows);
        lower.growth = allowed(BIAS, d, q - 1);
    }
    if (q < BDF_ORDERS) {
        const double d = error_higher(attempt, block_vector(bdf, E), block_done(bdf));
        higher.growth = allowed(BIAS_HIGHER, d, q + 1);
    }
    if (same.growth >= lower.growth && same.growth >= higher.growth)
        return same;
    return lower.growth >= higher.growth ? lower : higher;
}

/* After a step cut to less than CUT of what the error allows: no thought of order, back to that length. */
static void next_after_cut(struct bdf *bdf, double step)
{
    bdf->wait = bdf->wait > 2 ? bdf->wait : 2;
    bdf->next_step = fmin(bdf->wanted, GROWTH * step);
}

static void next_choose(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    const int q = attempt->formula.order;
    const double step = attempt->formula.step;
    struct choice choice = {q, allowed(BIAS, attempt->d, q)};
    const double stands = fmin(bdf->wanted, allowed(BIAS_STANDS, attempt->d, q) * step);
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

/* Under bdf_hold: one order nearer whenever there is history enough, the length is the caller's. */
static void next_held(struct bdf *bdf, double step)
{
    bdf->wait--;
    if (bdf->next_order > bdf->held) {
        bdf->next_order--;
    } else if (bdf->wait <= 0 && bdf->next_order < bdf->held) {
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

/* `whole`: the correction of all of the step that now is the last one. */
static void step_accept(const struct attempt *attempt, const double *whole, double *y)
{
    struct bdf *const bdf = attempt->bdf;
    history_replace(attempt);
    if (!attempt->extends)
        past_push(bdf, attempt->length);
    else
        bdf->past[0] = attempt->formula.step;
    if (bdf->held)
        next_held(bdf, attempt->length);
    else if (attempt->extends)
        bdf->next_step = bdf->wanted;
    else if (!bdf->fresh && attempt->length < CUT * bdf->wanted)
        next_after_cut(bdf, attempt->length);
    else
        next_choose(attempt);
    memcpy(block_done(bdf), whole, (size_t)bdf->rows * sizeof *whole);
    memcpy(y, block_history(bdf), (size_t)bdf->rows * sizeof *y);
    bdf->time = attempt->time;
    bdf->step = attempt->formula.step;
    bdf->order = attempt->formula.order;
    bdf->d = attempt->d;
    bdf->error = attempt->formula.error;
    bdf->lead = attempt->formula.lead;
    bdf->fresh = false;
    bdf->errors = 0;
    bdf->failures = 0;
    bdf->age++;
    bdf->effort.steps++;
}

/* ---- a step ---- */

/* Is the step so short that it had better move the end of the last one? */
static bool step_extends(const struct bdf *bdf, double h)
{
    if (bdf->fresh || bdf->held || bdf->failures > 0 || h > EXTENSION * bdf->step || h >= CUT * bdf->wanted)
        return false;
    double d = bdf->d;
    for (int j = 0; j <= bdf->order; j++)
        d *= 1.0 + h / bdf->step;
    return d < EXTENSION_ERROR;
}

static struct bdf_formula step_formula(const struct attempt *attempt)
{
    const struct bdf *const bdf = attempt->bdf;
    const double none[PAST] = {0.0};
    if (attempt->extends)
        return bdf_formula_make(bdf->order, bdf->step + attempt->length, bdf->past + 1);
    return bdf_formula_make(bdf->next_order, attempt->length, bdf->fresh ? none : bdf->past);
}

/* e; of an extension, that of the one step it stands for, put together in y. */
static const double *correction_whole(const struct attempt *attempt)
{
    struct bdf *const bdf = attempt->bdf;
    if (!attempt->extends)
        return block_vector(bdf, E);
    const struct bdf_formula last = bdf_formula_make(bdf->order, bdf->step, bdf->past + 1);
    double share = 0.0;
    for (int j = last.order; j >= 0; j--)
        share = share * attempt->length / bdf->step + last.l[j];
    double *const whole = block_vector(bdf, Y);
    memcpy(whole, block_vector(bdf, E), (size_t)bdf->rows * sizeof *whole);
    column_add(bdf->rows, share, block_done(bdf), whole);
    return whole;
}

enum bdf_outcome bdf_step(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan,
                          double time, double h, double *y)
{
    assert(h > 0.0);
    assert(bdf->fresh || fabs(time - bdf->time) <= fmax(1e-6 * bdf->step, 4.0 * DBL_EPSILON * fabs(time)));
    if (time + h <= time)
        return BDF_STUCK;
    struct attempt attempt = {.bdf = bdf, .system = system, .plan = plan, .start = time, .time = time + h, .length = h};
    attempt.extends = step_extends(bdf, h);
    attempt.formula = step_formula(&attempt);
    if (!copy_predict(&attempt, y) || !bdf_newton(&attempt))
        return step_unsolved(&attempt);
    const double *const whole = correction_whole(&attempt);
    attempt.d = attempt.formula.error * bdf_norm(&attempt, whole);
    if (attempt.d > 1.0 && !bdf->held)
        return step_inexact(&attempt);
    if (amounts_too_low(&attempt, y) && !bdf->held)
        return step_too_low(&attempt);
    step_accept(&attempt, whole, y);
    return BDF_STEPPED;
}
