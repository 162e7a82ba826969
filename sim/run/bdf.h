/* sim/run/bdf.h  Variable-order BDF (1..5), fixed leading coefficient, Nordsieck history, own sparse LU on a fixed
 * pattern, dense output. Method, invariants and sources: bdf.c, sparse.c. */
#ifndef RUN_BDF_H
#define RUN_BDF_H

#include "base/stiff.h"

#include <gsl/gsl_odeiv2.h>

/* The elimination plan of a pattern: minimum degree order, fill, positions. Immutable; shared by runs and threads. */
struct sparse_plan;
struct sparse_plan *sparse_plan_create(const struct stiff_system *system); /* null: memory */
void sparse_plan_free(struct sparse_plan *plan);

/* All that one integration remembers, in one block of bdf_size() bytes without pointers into itself or elsewhere. To save it
 * is to copy its first bdf_kept() bytes; once they stand there again, bdf_revive makes the rest, the Jacobian of then and its
 * factors, to the same bits. */
struct bdf;
size_t bdf_size(const struct stiff_system *system, const struct sparse_plan *plan);
size_t bdf_kept(const struct bdf *bdf);
void bdf_revive(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan);

/* Makes the block ready: tolerance r > 0. */
void bdf_prepare(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan, double tolerance);

/* Forgets history (after a discontinuity): the next step starts at order 1 with `first_step` s, or a guess where 0. */
void bdf_restart(struct bdf *bdf, double first_step);

/* For tests of convergence: no error test, every step has the caller's length, and the order goes up by one after order
 * + 1 steps, or down at once, until it is `order`; start with tiny steps, the first being of order 1. 0: free again. */
void bdf_hold(struct bdf *bdf, int order);

/* The step bdf would take next (s); the caller may take less, which does not count as a wish for shorter ones. */
double bdf_next(const struct bdf *bdf);

enum bdf_outcome { BDF_STEPPED, BDF_SHORTER, BDF_STUCK };
/* Tries one step of exactly h from (time, y), which are where the last accepted step ended, as it left them, unless
 * bdf_restart was called (the time is asserted, but for rounding).
 * BDF_STEPPED: y[n+m] is the new state. BDF_SHORTER: y untouched, bdf_next says what to try (Newton failed, the error
 * was too large, or an amount would go too low). BDF_STUCK: y untouched, and shorter steps are below the resolution of
 * time, or forty in a row have failed. `context` of the system is passed on to its functions. */
enum bdf_outcome bdf_step(struct bdf *bdf, const struct stiff_system *system, const struct sparse_plan *plan,
                          double time, double h, double *y);

/* The step's own polynomial: y[n+m] at `time` inside the last accepted step (or a little outside). Where that was cut
 * short it may pass by the state it began with, within the tolerance. */
void bdf_interpolate(const struct bdf *bdf, const struct stiff_system *system, double time, double *y);
/* The same for chosen entries only: value[i] = y[index[i]]. */
void bdf_interpolate_some(const struct bdf *bdf, const struct stiff_system *system, double time, int count,
                          const int *index, double *value);

/* The last accepted step: its order; the estimate of its local error and the slope of its polynomial at its end,
 * both [n+m]. */
int bdf_order(const struct bdf *bdf);
void bdf_last(const struct bdf *bdf, double *error, double *slope);

double bdf_tolerance(const struct bdf *bdf);
struct stiff_effort bdf_effort(const struct bdf *bdf);

/* ---- the same through GSL's door ----
 * A gsl_odeiv2_step_type and a control that returns the stepper's own choice. params of the gsl_odeiv2_system must be a
 * struct bdf_door (set_driver looks there); other step types (msbdf) can be driven with the same gsl_odeiv2_system: its
 * function and dense jacobian are made by bdf_door_system. */
struct bdf_door {
    const struct stiff_system *system;
    const struct sparse_plan *plan;
    struct bdf *bdf;             /* null: none of ours behind it (msbdf) */
    double *values;              /* room for the sparse slopes [start[n+m]] */
    struct stiff_effort *effort; /* counts calls made through the door; may be null */
};

extern const gsl_odeiv2_step_type *const step_bdf;
gsl_odeiv2_system bdf_door_system(struct bdf_door *door);
gsl_odeiv2_control *control_of_bdf(struct bdf_door *door); /* null: memory */

#endif
