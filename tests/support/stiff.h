/* tests/support/stiff.h  Stiff systems whose solution is known, and a run of the stepper over them. */
#ifndef SUPPORT_STIFF_H
#define SUPPORT_STIFF_H

#include "run/bdf.h"
#include "support/near.h"

enum { STIFF_MOST = 64 }; /* rows of any system here */

/* ---- a run ---- */

struct stiff_run {
    const struct stiff_system *system;
    struct sparse_plan *plan;
    struct bdf *bdf;
    double time;
    double y[STIFF_MOST];
    int tries;
};

static inline struct stiff_run stiff_begin(const struct stiff_system *system, double tolerance, const double *y)
{
    struct stiff_run run = {.system = system, .plan = sparse_plan_create(system)};
    run.bdf = malloc(bdf_size(system, run.plan));
    assert_non_null(run.bdf);
    bdf_prepare(run.bdf, system, run.plan, tolerance);
    memcpy(run.y, y, (size_t)(system->states + system->accounts) * sizeof *y);
    return run;
}

static inline void stiff_end(struct stiff_run *run)
{
    free(run->bdf);
    sparse_plan_free(run->plan);
}

static inline enum bdf_outcome stiff_try(struct stiff_run *run, double h)
{
    const enum bdf_outcome outcome = bdf_step(run->bdf, run->system, run->plan, run->time, h, run->y);
    if (outcome == BDF_STEPPED)
        run->time += h;
    run->tries++;
    return outcome;
}

/* One accepted step of the stepper's own choice, not past `end`. False: stuck. */
static inline int stiff_step(struct stiff_run *run, double end)
{
    enum bdf_outcome outcome = BDF_SHORTER;
    while (outcome == BDF_SHORTER) {
        const double left = end - run->time;
        const double next = bdf_next(run->bdf);
        outcome = stiff_try(run, next < left ? next : left);
        if (outcome == BDF_STEPPED && next >= left)
            run->time = end;
    }
    return outcome == BDF_STEPPED;
}

static inline int stiff_go(struct stiff_run *run, double end)
{
    int going = 1;
    while (going && run->time < end)
        going = stiff_step(run, end);
    return going;
}

/* ---- full patterns of n columns ---- */

static inline void stiff_full(int rows, int columns, int *start, int *column)
{
    for (int i = 0; i <= rows; i++)
        start[i] = i * columns;
    for (int p = 0; p < rows * columns; p++)
        column[p] = p % columns;
}

/* ---- decay chain: nuclide k decays to k + 1 at its rate, the last into an account ---- */

enum { DECAY = 7 };

static const double decay_rate[DECAY] = {1e3, 1.0, 1e6, 10.0, 1e5, 1e2, 1e4}; /* 1/s */

static inline int decay_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)context;
    f[0] = 0.0;
    for (int k = 0; k < DECAY; k++) {
        const double flow = decay_rate[k] * y[k];
        f[k] -= flow;
        f[k + 1] = flow;
    }
    return 0;
}

/* Rows: 0: one entry; k: columns k-1, k; the account: column DECAY-1. */
static inline int decay_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    for (int k = 0; k < DECAY; k++) {
        value[2 * k] = -decay_rate[k];
        value[2 * k + 1] = decay_rate[k];
    }
    return 0;
}

static const int decay_start[DECAY + 2] = {0, 1, 3, 5, 7, 9, 11, 13, 14};
static const int decay_column[14] = {0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6};
static const double decay_scale[DECAY] = {1, 1, 1, 1, 1, 1, 1};
static const double decay_base[DECAY] = {0};
static const bool decay_amount[DECAY] = {0};

static inline struct stiff_system decay_system(void)
{
    return (struct stiff_system){.states = DECAY,
                                 .accounts = 1,
                                 .start = decay_start,
                                 .column = decay_column,
                                 .scale = decay_scale,
                                 .amount = decay_amount,
                                 .base = decay_base,
                                 .rates = decay_rates,
                                 .slopes = decay_slopes};
}

/* Bateman's solution for 1 of the first nuclide at time 0. */
static inline double decay_exact(int k, double time)
{
    double before = 1.0;
    double sum = 0.0;
    for (int j = 0; j < k; j++)
        before *= decay_rate[j];
    for (int j = 0; j <= k; j++) {
        double term = exp(-decay_rate[j] * time);
        for (int i = 0; i <= k; i++)
            if (i != j)
                term /= decay_rate[i] - decay_rate[j];
        sum += term;
    }
    return before * sum;
}

/* ---- Robertson's kinetics, and an account of all that became the third kind ---- */

static inline int robertson_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)context;
    const double first = 0.04 * y[0];
    const double back = 1e4 * y[1] * y[2];
    const double third = 3e7 * y[1] * y[1];
    f[0] = back - first;
    f[1] = first - back - third;
    f[2] = third;
    f[3] = third;
    return 0;
}

static inline int robertson_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)context;
    const double back1 = 1e4 * y[2];
    const double back2 = 1e4 * y[1];
    const double third = 6e7 * y[1];
    const double rows[12] = {-0.04, back1, back2, 0.04, -back1 - third, -back2, 0.0, third, 0.0, 0.0, third, 0.0};
    memcpy(value, rows, sizeof rows);
    return 0;
}

static const int robertson_start[5] = {0, 3, 6, 9, 12};
static const int robertson_column[12] = {0, 1, 2, 0, 1, 2, 0, 1, 2, 0, 1, 2};
static const double robertson_scale[3] = {1.0, 1e-4, 1.0};
static const double robertson_base[3] = {0};
static const bool robertson_amount[3] = {true, true, true};
static const double robertson_first[4] = {1.0, 0.0, 0.0, 0.0};

static inline struct stiff_system robertson_system(void)
{
    return (struct stiff_system){.states = 3,
                                 .accounts = 1,
                                 .start = robertson_start,
                                 .column = robertson_column,
                                 .scale = robertson_scale,
                                 .amount = robertson_amount,
                                 .base = robertson_base,
                                 .rates = robertson_rates,
                                 .slopes = robertson_slopes};
}

/* ---- a row of vessels that breathes ----
 * y' = A (y - g(t)) + g'(t) with the solution g, slow and stiff modes together. A is diffusion at `stiffness` 1/s
 * between neighbours, 1 1/s from the first to outside; g_i = cos(t + 0.3 i). */

enum { BREATHE = 12 };

static inline double breathe_exact(int i, double time)
{
    return cos(time + 0.3 * i);
}

static inline int breathe_rates(double time, const double *y, double *f, void *context)
{
    const double stiffness = *(const double *)context;
    double off[BREATHE];
    for (int i = 0; i < BREATHE; i++) {
        off[i] = y[i] - breathe_exact(i, time);
        f[i] = -sin(time + 0.3 * i);
    }
    f[0] -= off[0];
    for (int i = 0; i + 1 < BREATHE; i++) {
        const double flow = stiffness * (off[i] - off[i + 1]);
        f[i] -= flow;
        f[i + 1] += flow;
    }
    return 0;
}

static inline int breathe_slopes(double time, const double *y, double *value, void *context)
{
    const double stiffness = *(const double *)context;
    (void)time;
    (void)y;
    int p = 0;
    for (int i = 0; i < BREATHE; i++) {
        const int neighbours = (i > 0) + (i + 1 < BREATHE);
        if (i > 0)
            value[p++] = stiffness;
        value[p++] = -stiffness * neighbours - (i == 0 ? 1.0 : 0.0);
        if (i + 1 < BREATHE)
            value[p++] = stiffness;
    }
    return 0;
}

static const int breathe_start[BREATHE + 1] = {0, 2, 5, 8, 11, 14, 17, 20, 23, 26, 29, 32, 34};
static const int breathe_column[34] = {0, 1, 0, 1, 2, 1, 2, 3, 2, 3, 4, 3,  4, 5,  4,  5,  6,
                                       5, 6, 7, 6, 7, 8, 7, 8, 9, 8, 9, 10, 9, 10, 11, 10, 11};
static const double breathe_scale[BREATHE] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
static const double breathe_base[BREATHE] = {0};
static const bool breathe_amount[BREATHE] = {0};

static inline struct stiff_system breathe_system(double *stiffness)
{
    return (struct stiff_system){.states = BREATHE,
                                 .start = breathe_start,
                                 .column = breathe_column,
                                 .scale = breathe_scale,
                                 .amount = breathe_amount,
                                 .base = breathe_base,
                                 .rates = breathe_rates,
                                 .slopes = breathe_slopes,
                                 .context = stiffness};
}

/* Root mean square of what a run is off by. */
static inline double breathe_off(const struct stiff_run *run)
{
    double sum = 0.0;
    for (int i = 0; i < BREATHE; i++)
        sum += pow(run->y[i] - breathe_exact(i, run->time), 2.0);
    return sqrt(sum / BREATHE);
}

static inline struct stiff_run breathe_begin(const struct stiff_system *system, double tolerance)
{
    double y[BREATHE];
    for (int i = 0; i < BREATHE; i++)
        y[i] = breathe_exact(i, 0.0);
    return stiff_begin(system, tolerance, y);
}

#endif
