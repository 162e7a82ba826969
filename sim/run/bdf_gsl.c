/* sim/run/bdf_gsl.c  The stiff stepper through GSL's door: a gsl_odeiv2_step_type, and a control that passes its choice
 * of step on. Other step types (msbdf) can be driven with the same system, and see a dense Jacobian.
 *
 * How it fits gsl_odeiv2_evolve_apply:
 *  - accepted: the control's hadjust hands bdf_next out as the next step. evolve forgets it when the step ended at the
 *    target time, so a step cut short by an event is not fed back as a suggestion.
 *  - refused: evolve knows one answer to a failed apply, to halve the step and try again from the saved y. Where our
 *    own choice lies below that, apply goes on failing at once, without a call of the system, until evolve is there.
 *  - stuck: GSL_EBADFUNC, the code at which evolve gives up for good. For the same reason a state outside the domain is
 *    never answered with it, but with GSL_FAILURE. */
#include "run/bdf.h"

#include <assert.h>
#include <float.h>
#include <gsl/gsl_errno.h>
#include <stdlib.h>
#include <string.h>

struct door_step {
    const struct bdf_door *door; /* null until set_driver or the first apply */
    bool refused;                /* the last apply was */
};

struct door_control {
    const struct bdf_door *door;
};

/* ---- the step ---- */

static void *step_alloc(size_t dimension)
{
    (void)dimension; /* all memory is the door's */
    return calloc(1, sizeof(struct door_step));
}

static int step_driver(void *state, const gsl_odeiv2_driver *driver)
{
    struct door_step *const step = state;
    if (!driver->sys)
        return GSL_EFAULT;
    step->door = driver->sys->params;
    return GSL_SUCCESS;
}

static int step_apply(void *state, size_t dimension, double time, double h, double *y, double *error,
                      const double *slope_in, double *slope_out, const gsl_odeiv2_system *system)
{
    struct door_step *const step = state;
    const struct bdf_door *const door = system->params;
    (void)slope_in;
    assert(door->bdf && dimension == (size_t)(door->system->states + door->system->accounts));
    step->door = door;
    if (step->refused && h > bdf_next(door->bdf))
        return GSL_FAILURE;
    const enum bdf_outcome outcome = bdf_step(door->bdf, door->system, door->plan, time, h, y);
    step->refused = outcome == BDF_SHORTER;
    if (outcome == BDF_STUCK)
        return GSL_EBADFUNC;
    if (outcome == BDF_SHORTER)
        return GSL_FAILURE;
    bdf_last(door->bdf, error, slope_out);
    return GSL_SUCCESS;
}

/* After a discontinuity, and before the first step. */
static int step_reset(void *state, size_t dimension)
{
    struct door_step *const step = state;
    (void)dimension;
    step->refused = false;
    if (step->door)
        bdf_restart(step->door->bdf, 0.0);
    return GSL_SUCCESS;
}

static unsigned int step_order(void *state)
{
    const struct door_step *const step = state;
    return step->door ? (unsigned int)bdf_order(step->door->bdf) : 1U;
}

static const gsl_odeiv2_step_type step_kind = {
    .name = "bdf",
    .can_use_dydt_in = 0,
    .gives_exact_dydt_out = 0,
    .alloc = step_alloc,
    .apply = step_apply,
    .set_driver = step_driver,
    .reset = step_reset,
    .order = step_order,
    .free = free,
};

const gsl_odeiv2_step_type *const step_bdf = &step_kind;

/* ---- the control ---- */

static void *control_alloc(void)
{
    return calloc(1, sizeof(struct door_control));
}

static int control_init(void *state, double absolute, double relative, double of_y, double of_slope)
{
    (void)state;
    (void)absolute;
    (void)relative;
    (void)of_y;
    (void)of_slope;
    return GSL_SUCCESS; /* the stepper has its tolerance already */
}

/* An applied step has passed the stepper's own test, so this never asks for it again. */
static int control_adjust(void *state, size_t dimension, unsigned int order, const double *y, const double *error,
                          const double *slope, double *h)
{
    const struct door_control *const control = state;
    (void)dimension;
    (void)order;
    (void)y;
    (void)error;
    (void)slope;
    const double made = *h;
    *h = bdf_next(control->door->bdf);
    return *h > made ? GSL_ODEIV_HADJ_INC : GSL_ODEIV_HADJ_NIL;
}

static int control_level(void *state, const double y, const double slope, const double h, const size_t index,
                         double *level)
{
    const struct door_control *const control = state;
    const struct stiff_system *const system = control->door->system;
    (void)y;
    (void)slope;
    (void)h;
    const bool account = index >= (size_t)system->states; /* any error is allowed there */
    *level = account ? DBL_MAX : bdf_tolerance(control->door->bdf) * system->scale[index];
    return GSL_SUCCESS;
}

static int control_driver(void *state, const gsl_odeiv2_driver *driver)
{
    (void)state;
    (void)driver;
    return GSL_SUCCESS;
}

static const gsl_odeiv2_control_type control_kind = {
    .name = "bdf",
    .alloc = control_alloc,
    .init = control_init,
    .hadjust = control_adjust,
    .errlevel = control_level,
    .set_driver = control_driver,
    .free = free,
};

gsl_odeiv2_control *control_of_bdf(struct bdf_door *door)
{
    assert(door->bdf);
    gsl_odeiv2_control *const control = gsl_odeiv2_control_alloc(&control_kind);
    if (control)
        ((struct door_control *)control->state)->door = door;
    return control;
}

/* ---- the system as GSL knows one ---- */

static int door_rates(double time, const double *y, double *slope, void *params)
{
    const struct bdf_door *const door = params;
    if (door->effort)
        door->effort->derivatives++;
    return door->system->rates(time, y, slope, door->system->context) ? GSL_FAILURE : GSL_SUCCESS;
}

/* dfdt is left at zero: a stiff_system does not know it, and msbdf does not ask for it. */
static int door_slopes(double time, const double *y, double *dense, double *dfdt, void *params)
{
    const struct bdf_door *const door = params;
    const struct stiff_system *const system = door->system;
    const size_t rows = (size_t)(system->states + system->accounts);
    if (door->effort)
        door->effort->jacobians++;
    if (system->slopes(time, y, door->values, system->context))
        return GSL_FAILURE;
    memset(dense, 0, rows * rows * sizeof *dense);
    memset(dfdt, 0, rows * sizeof *dfdt);
    for (size_t i = 0; i < rows; i++)
        for (int p = system->start[i]; p < system->start[i + 1]; p++)
            dense[i * rows + (size_t)system->column[p]] = door->values[p];
    return GSL_SUCCESS;
}

gsl_odeiv2_system bdf_door_system(struct bdf_door *door)
{
    const size_t rows = (size_t)(door->system->states + door->system->accounts);
    return (gsl_odeiv2_system){door_rates, door_slopes, rows, door};
}
