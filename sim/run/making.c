/* sim/run/making.c  Runs made and freed: the one block, laid out; scratch; the stepper and what GSL wants for it. */
#include "run/inside.h"
#include "run/switches.h"

#include <stdlib.h>
#include <string.h>

/* ---- functions the stepper calls ---- */

int run_rates(double time, const double *y, double *dydt, void *context)
{
    struct run *run = context;
    return network_rates(run->network, &run->inputs, time, y, dydt, &run->scratch);
}

static int run_slopes(double time, const double *y, double *value, void *context)
{
    struct run *run = context;
    return network_slopes(run->network, &run->inputs, time, y, value, &run->scratch);
}

/* ---- making and freeing ---- */

static size_t rounded(size_t bytes)
{
    return (bytes + 63) / 64 * 64;
}

/* Lays the block out; with no block yet it only measures. */
static void lay_out(struct run *run, bool with_bdf)
{
    const struct network *network = run->network;
    const size_t size[] = {sizeof(struct clock),
                           (size_t)run_length(run) * sizeof(double),
                           (size_t)network->parameters * sizeof(double),
                           (size_t)network->parts * sizeof(struct ramp),
                           (size_t)network->joints * sizeof(bool),
                           (size_t)network->switches * sizeof(bool),
                           (size_t)network->switches * sizeof(bool),
                           (size_t)network->faults * sizeof(struct fault_now),
                           (size_t)network->parts * sizeof(bool),
                           WEATHERS * sizeof(struct weather_way),
                           (size_t)network->taps * sizeof(struct tap_now),
                           (size_t)network->pour_places * sizeof(struct pour),
                           with_bdf ? bdf_size(&run->system, run->plan) : peer_size(run_length(run))};

    enum { PIECES = sizeof size / sizeof size[0] };

    size_t at[PIECES], next = 0;
    for (int k = 0; k < PIECES; k++) {
        at[k] = next;
        next += rounded(size[k] + 1);
    }
    run->block_size = next;
    if (!run->block)
        return;
    run->clock = (void *)(run->block + at[0]);
    run->y = (void *)(run->block + at[1]);
    run->parameter = (void *)(run->block + at[2]);
    run->opening = (void *)(run->block + at[3]);
    run->joined = (void *)(run->block + at[4]);
    run->was = (void *)(run->block + at[5]);
    run->on = (void *)(run->block + at[6]);
    run->fault = (void *)(run->block + at[7]);
    run->ails = (void *)(run->block + at[8]);
    run->weather = (void *)(run->block + at[9]);
    run->tap = (void *)(run->block + at[10]);
    run->pour = (void *)(run->block + at[11]);
    run->bdf = with_bdf ? (void *)(run->block + at[12]) : NULL;
    run->peer = with_bdf ? NULL : (void *)(run->block + at[12]);
}

static bool take_scratch(struct run *run)
{
    const size_t length = (size_t)run_length(run), entries = (size_t)run->system.start[run_length(run)];
    run->at_time = calloc(length + 1, sizeof(double));
    run->values = calloc(entries + 1, sizeof(double));
    return scratch_take(run->network, &run->scratch) && run->at_time && run->values;
}

/* It has had time to settle. */
static void begin_follower(struct run *run, const struct follower *follower)
{
    const struct network *network = run->network;
    if (follower->follows == FOLLOWS_PRESSURE)
        run->y[follower->at] = network->volume[follower->place].excess;
    else if (!network_state(network, &run->inputs, 0.0, run->y, &run->scratch, false))
        run->y[follower->at] = follower_sees(network, follower, &run->scratch);
}

static void begin_state(struct run *run)
{
    const struct network *network = run->network;
    for (int v = 0; v < network->volumes; v++) /* all other states are deviations from the start */
        run->y[network->volume[v].at + network->carried + 1] = network->volume[v].excess;
    for (int f = 0; f < network->followers; f++)
        if (network->follower[f].at >= 0 && network->follower[f].place >= 0)
            begin_follower(run, &network->follower[f]);
}

static void begin_inputs(struct run *run)
{
    const struct network *network = run->network;
    for (int k = 0; k < network->parts; k++) {
        const struct part *part = &network->part[k];
        const int rows = rows_count(part->kind->parameter);
        memcpy(&run->parameter[network->parameter_at[k]], part->value, (size_t)rows * sizeof(double));
        const double rest = part->kind->at_rest ? part->kind->at_rest(part) : 1.0;
        run->opening[k] = (struct ramp){0.0, 0.0, rest, rest};
    }
    memcpy(run->joined, network->joined, (size_t)network->joints * sizeof(bool));
    for (int f = 0; f < network->faults; f++) {
        run->fault[f] = fault_begins(network, f);
        if (run->fault[f].size != 0.0 && fault_ails(network, f))
            run->ails[network->fault[f].part] = true;
    }
    for (int t = 0; t < network->taps; t++)
        run->tap[t] = tap_begins(network, t);
    run->inputs =
        (struct inputs){run->parameter, run->opening, run->joined, (double)INFINITY, run->on, run->fault, run->ails, 0,
                        run->weather,   run->tap,     run->pour};
}

/* As the start asks for. */
static void begin_switches(struct run *run)
{
    switches_flip(run->network, &run->inputs, 0.0, run->y, run->on);
    memcpy(run->was, run->on, (size_t)run->network->switches * sizeof(bool));
}

static bool take_bdf(struct run *run, double tolerance)
{
    bdf_prepare(run->bdf, &run->system, run->plan, tolerance);
    run->door = (struct bdf_door){&run->system, run->plan, run->bdf, run->values, NULL};
    run->gsl = bdf_door_system(&run->door);
    run->step = gsl_odeiv2_step_alloc(step_bdf, run->gsl.dimension);
    run->control = control_of_bdf(&run->door);
    run->evolve = gsl_odeiv2_evolve_alloc(run->gsl.dimension);
    return run->step && run->control && run->evolve;
}

static bool take_peer(struct run *run, double tolerance)
{
    run->door = (struct bdf_door){&run->system, run->plan, NULL, run->values, &run->clock->peer};
    run->gsl = bdf_door_system(&run->door);
    run->driver = peer_driver(&run->gsl, &run->system, tolerance, FIRST_STEP);
    if (!run->driver)
        return false;
    run->step = run->driver->s;
    run->control = run->driver->c;
    run->evolve = run->driver->e;
    return true;
}

struct run *run_create(const struct network *network, const char *solver, double tolerance)
{
    const bool own = !strcmp(solver, "bdf");
    if (!own && strcmp(solver, "msbdf"))
        return NULL;
    struct run *run = calloc(1, sizeof *run);
    if (!run)
        return NULL;
    run->network = network;
    run->system = network->stiff;
    run->system.rates = run_rates;
    run->system.slopes = run_slopes;
    run->system.context = run;
    run->plan = sparse_plan_create(&run->system);
    if (run->plan) {
        lay_out(run, own);
        run->block = calloc(1, run->block_size);
    }
    if (run->block && take_scratch(run)) {
        lay_out(run, own);
        begin_inputs(run);
        begin_state(run);
        begin_switches(run);
        run->clock->fresh = true;
        run->clock->step = FIRST_STEP;
        if (own ? take_bdf(run, tolerance) : take_peer(run, tolerance))
            return run;
    }
    run_free(run);
    return NULL;
}

void run_free(struct run *run)
{
    if (!run)
        return;
    if (run->driver) {
        gsl_odeiv2_driver_free(run->driver);
    } else {
        if (run->evolve)
            gsl_odeiv2_evolve_free(run->evolve);
        if (run->control)
            gsl_odeiv2_control_free(run->control);
        if (run->step)
            gsl_odeiv2_step_free(run->step);
    }
    sparse_plan_free(run->plan);
    free(run->at_time);
    free(run->values);
    scratch_release(&run->scratch);
    free(run->block);
    free(run);
}
