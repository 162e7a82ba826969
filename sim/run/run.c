/* sim/run/run.c  A run: its block of memory, its inputs, its steps.
 *
 * Everything that decides the future lies in one block: clock, state, inputs, what the stepper remembers. The rest
 * (scratch, GSL's objects) is rebuilt or overwritten at each call. Invariants:
 *   clock.begun <= clock.now <= clock.reach;  y is the state at reach;
 *   between begun and reach the stepper's polynomial is the solution;
 *   inputs have no corner strictly between begun and reach (a corner ends a step, the next one starts afresh);
 *   no switch is due between begun and reach: the step in which one rises ends at that moment, and the bit flips there.
 *   So `on` holds from reach on, `was` before it; they differ only while reach is such a moment. */
#include "run/run.h"

#include "network/inside.h"
#include "run/bdf.h"
#include "run/peer.h"
#include "run/switches.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_STEP 1e-5 /* s, after a change of inputs: short against the fastest line */

struct clock {
    double now, reach, begun; /* s */
    double step;              /* s: what the peer would take next */
    bool fresh;               /* inputs changed at reach: no history to go on from */
    double drift;             /* Pa, largest so far */
    struct stiff_effort peer;
};

struct run {
    const struct network *network;
    struct stiff_system system;
    struct sparse_plan *plan;
    struct scratch scratch;
    struct inputs inputs;
    char *block;
    size_t block_size;
    struct clock *clock; /* the rest are places in the block */
    double *y, *parameter;
    struct ramp *opening;
    bool *joined;
    bool *was, *on;    /* [switches] before reach, from reach on */
    struct bdf *bdf;   /* null with the peer */
    struct peer *peer; /* null without */
    double *at_time;   /* [n + m] scratch: y interpolated */
    double *values;    /* [entries] */
    struct bdf_door door;
    gsl_odeiv2_system gsl;
    gsl_odeiv2_step *step;
    gsl_odeiv2_control *control;
    gsl_odeiv2_evolve *evolve;
    gsl_odeiv2_driver *driver; /* of the peer: owns its step, control, evolve */
    char trouble[200];
};

/* ---- functions the stepper calls ---- */

static int run_rates(double time, const double *y, double *dydt, void *context)
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

static int run_length(const struct run *run)
{
    return run->system.states + run->system.accounts;
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
    run->bdf = with_bdf ? (void *)(run->block + at[7]) : NULL;
    run->peer = with_bdf ? NULL : (void *)(run->block + at[7]);
}

static bool take_scratch(struct run *run)
{
    const size_t length = (size_t)run_length(run), entries = (size_t)run->system.start[run_length(run)];
    run->at_time = calloc(length + 1, sizeof(double));
    run->values = calloc(entries + 1, sizeof(double));
    return scratch_take(run->network, &run->scratch) && run->at_time && run->values;
}

static void begin_state(struct run *run)
{
    const struct network *network = run->network;
    for (int v = 0; v < network->volumes; v++) /* all other states are deviations from the start */
        run->y[network->volume[v].at + network->carried + 1] = network->volume[v].excess;
    for (int k = 0; k < network->parts; k++) {
        const int f = network->follower_of[k];
        if (f >= 0 && network->follower[f].at >= 0 && network->follower[f].place >= 0)
            run->y[network->follower[f].at] = network->volume[network->follower[f].place].excess;
    }
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
    run->inputs = (struct inputs){run->parameter, run->opening, run->joined, INFINITY, run->on};
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

/* ---- the clock ---- */

double run_now(const struct run *run)
{
    return run->clock->now;
}

double run_reach(const struct run *run)
{
    return run->clock->reach;
}

const char *run_trouble(const struct run *run)
{
    return run->trouble;
}

void run_move(struct run *run, double time)
{
    run->clock->now = fmin(fmax(time, run->clock->now), run->clock->reach);
}

static double sooner(double best, double candidate, double time)
{
    return candidate > time && candidate < best ? candidate : best;
}

double run_next_corner(const struct network *network, const struct run *run, double time, int *part)
{
    double next = INFINITY;
    (void)run;
    *part = -1;
    for (int k = 0; k < network->parts; k++) {
        const double corner = course_corner(&network->part[k].course, time);
        if (corner < next) {
            next = corner;
            *part = k;
        }
    }
    return next;
}

/* The next moment at which an input has a corner. */
static double next_corner(const struct run *run, double time)
{
    const struct network *network = run->network;
    int part;
    double next = run_next_corner(network, run, time, &part);
    for (int k = 0; k < network->parts; k++) {
        next = sooner(next, run->opening[k].begins, time);
        next = sooner(next, run->opening[k].ends, time);
    }
    next = sooner(next, profile_corner(&network->pressure, time), time);
    next = sooner(next, profile_corner(&network->sun, time), time);
    next = sooner(next, profile_corner(&network->wind, time), time);
    return sooner(next, profile_corner(&network->temperature, time), time);
}

/* ---- stepping ---- */

/* Names the gas space whose pressure changes fastest: where the trouble most likely is. */
static void tell_trouble(struct run *run)
{
    const struct network *network = run->network;
    int worst = 0;
    const bool alive = !run_rates(run->clock->reach, run->y, run->scratch.rates, run);
    for (int v = 1; alive && v < network->volumes; v++) {
        const int p = network->volume[v].at + network->carried + 1;
        const int q = network->volume[worst].at + network->carried + 1;
        if (fabs(run->scratch.rates[p]) > fabs(run->scratch.rates[q]))
            worst = v;
    }
    const char *id = network->volumes ? network->part[network->volume[worst].part].id : "the system";
    snprintf(run->trouble, sizeof run->trouble,
             "no step is short enough at %.9g s; the pressure of %s changes by %.3g Pa/s", run->clock->reach, id,
             alive ? run->scratch.rates[network->volume[worst].at + network->carried + 1] : (double)NAN);
}

/* y at a moment between begun and reach. */
static const double *state_at(const struct run *run, double time)
{
    if (time >= run->clock->reach)
        return run->y;
    if (run->bdf)
        bdf_interpolate(run->bdf, &run->system, time, run->at_time);
    else
        peer_interpolate(run->peer, time, run->at_time, run_length(run));
    return run->at_time;
}

/* Switches before reach, or from reach on. */
static const bool *bits_at(const struct run *run, double time)
{
    return time < run->clock->reach ? run->was : run->on;
}

/* The solution is known to `time` only, before reach. */
static void end_at(struct run *run, double time)
{
    memcpy(run->y, state_at(run, time), (size_t)run_length(run) * sizeof(double));
    run->clock->reach = time;
}

static const double *solution_at(const void *run, double time)
{
    return state_at(run, time);
}

/* Ends the step where the first switch is due, and flips all that are. */
static void end_at_switch(struct run *run)
{
    struct clock *clock = run->clock;
    const struct stretch over = {run->network, &run->inputs, clock->begun, clock->reach, solution_at, run};
    double moment;
    if (!switches_rise(&over, &moment))
        return;
    if (moment < clock->reach)
        end_at(run, moment);
    switches_flip(run->network, &run->inputs, moment, run->y, run->on);
    clock->fresh = true;
}

/* The step to try towards `limit`: two even ones rather than one that leaves a crumb. */
static double step_towards(const struct run *run, double limit)
{
    const double wanted = run->bdf ? bdf_next(run->bdf) : run->clock->step;
    const double left = limit - run->clock->reach;
    if (wanted >= left)
        return left;
    return wanted > 0.5 * left ? 0.5 * left : wanted;
}

static void restart(struct run *run)
{
    gsl_odeiv2_step_reset(run->step);
    gsl_odeiv2_evolve_reset(run->evolve);
    if (run->bdf)
        bdf_restart(run->bdf, FIRST_STEP);
    else
        peer_restart(run->peer, run->clock->reach, run->y, run_length(run));
    run->clock->step = FIRST_STEP;
    run->clock->fresh = false;
}

enum run_status run_extend(const struct network *network, struct run *run, double limit)
{
    struct clock *clock = run->clock;
    const double corner = next_corner(run, clock->reach);
    const double end = fmin(limit, corner);
    if (clock->fresh)
        restart(run);
    clock->begun = clock->reach;
    memcpy(run->was, run->on, (size_t)network->switches * sizeof(bool));
    run->inputs.before = corner;
    double time = clock->reach;
    double h = step_towards(run, end);
    const int status = gsl_odeiv2_evolve_apply(run->evolve, run->control, run->step, &run->gsl, &time, end, &h, run->y);
    run->inputs.before = INFINITY;
    if (status != GSL_SUCCESS || !(time > clock->begun)) {
        tell_trouble(run);
        return RUN_STUCK;
    }
    clock->reach = time;
    clock->step = h;
    if (run->peer)
        peer_note(run->peer, time, run->y, run_length(run), &clock->peer);
    clock->fresh = time == corner;
    end_at_switch(run);
    clock->drift = fmax(clock->drift, network_drift(network, &run->inputs, clock->reach, run->y, &run->scratch));
    return RUN_GOOD;
}

/* Before an input changes: the solution ends at now. */
static void drop_beyond_now(struct run *run)
{
    if (run->clock->now < run->clock->reach) {
        end_at(run, run->clock->now);
        memcpy(run->on, run->was, (size_t)run->network->switches * sizeof(bool));
    }
    run->clock->reach = run->clock->begun = run->clock->now;
    run->clock->fresh = true;
}

/* What an input has made due. */
static void flip_at_once(struct run *run)
{
    switches_flip(run->network, &run->inputs, run->clock->now, run->y, run->on);
}

/* ---- looking ---- */

void run_look(const struct network *network, const struct run *run, double time, int count, const int *channel,
              double *value, signed char *off_scale)
{
    struct scratch scratch = run->scratch;
    struct inputs inputs = run->inputs;
    inputs.on = bits_at(run, time);
    channels_look(network, &inputs, time, state_at(run, time), &scratch, count, channel, value, off_scale);
}

void run_look_all(const struct network *network, const struct run *run, double time, double *value,
                  signed char *off_scale)
{
    run_look(network, run, time, network->channels, NULL, value, off_scale);
}

void run_cells(const struct network *network, const struct run *run, double time, int part, struct ullage_cell *cell)
{
    struct scratch scratch = run->scratch;
    cells_look(network, &run->inputs, time, state_at(run, time), &scratch, part, cell);
}

/* ---- inputs ---- */

double run_opening(const struct network *network, const struct run *run, int part, double time)
{
    (void)network;
    return ramp_value(&run->opening[part], time);
}

void run_command(const struct network *network, struct run *run, int part, double opening)
{
    const struct element_kind *kind = network->part[part].kind;
    drop_beyond_now(run);
    const double now = run->clock->now, from = ramp_value(&run->opening[part], now);
    const double lasts =
        kind->moves_in ? kind->moves_in(&run->parameter[network->parameter_at[part]], from, opening) : 0.0;
    run->opening[part] = (struct ramp){now, now + lasts, from, opening};
    flip_at_once(run);
}

void run_parameter(const struct network *network, struct run *run, int part, int row, double value)
{
    drop_beyond_now(run);
    run->parameter[network->parameter_at[part] + row] = value;
    flip_at_once(run);
}

double run_parameter_value(const struct network *network, const struct run *run, int part, int row)
{
    return run->parameter[network->parameter_at[part] + row];
}

void run_join(const struct network *network, struct run *run, int joint, bool joined)
{
    (void)network;
    drop_beyond_now(run);
    run->joined[joint] = joined;
}

bool run_joined(const struct network *network, const struct run *run, int joint)
{
    (void)network;
    return run->joined[joint];
}

bool run_switch(const struct network *network, const struct run *run, int index)
{
    (void)network;
    return bits_at(run, run->clock->now)[index];
}

/* ---- saving ---- */

size_t run_block_size(const struct network *network, const struct run *run)
{
    (void)network;
    return run->block_size;
}

void run_save(const struct network *network, const struct run *run, void *block)
{
    (void)network;
    memcpy(block, run->block, run->block_size);
}

void run_restore(const struct network *network, struct run *run, const void *block)
{
    (void)network;
    memcpy(run->block, block, run->block_size);
    run->trouble[0] = '\0';
    if (run->bdf) /* the step's own memory is in the block; GSL keeps only whether the last try was refused */
        gsl_odeiv2_evolve_reset(run->evolve);
    else
        run->clock->fresh = true; /* the peer's memory cannot be saved: it starts afresh */
}

static uint64_t hash_bytes(uint64_t hash, const void *data, size_t size)
{
    const unsigned char *byte = data;
    for (size_t k = 0; k < size; k++)
        hash = (hash ^ byte[k]) * 1099511628211u; /* FNV-1a, 64 bits */
    return hash;
}

uint64_t run_hash(const struct network *network, const struct run *run)
{
    uint64_t hash = 14695981039346656037u;
    hash = hash_bytes(hash, &run->clock->now, sizeof(double));
    hash = hash_bytes(hash, state_at(run, run->clock->now), (size_t)run_length(run) * sizeof(double));
    hash = hash_bytes(hash, run->parameter, (size_t)network->parameters * sizeof(double));
    hash = hash_bytes(hash, run->opening, (size_t)network->parts * sizeof(struct ramp));
    hash = hash_bytes(hash, run->joined, (size_t)network->joints * sizeof(bool));
    return hash_bytes(hash, bits_at(run, run->clock->now), (size_t)network->switches * sizeof(bool));
}

/* ---- books ---- */

int run_ledger_rows(const struct network *network)
{
    return ledger_rows(network);
}

struct ullage_ledger_row run_ledger(const struct network *network, const struct run *run, int row)
{
    return ledger_row(network, state_at(run, run->clock->now), row);
}

int run_opening_rows(const struct network *network)
{
    return ledger_opening_rows(network);
}

struct ullage_opening_row run_opening_row(const struct network *network, const struct run *run, int row)
{
    return ledger_opening_row(network, state_at(run, run->clock->now), row);
}

struct ullage_effort run_effort(const struct run *run)
{
    const struct stiff_effort made = run->bdf ? bdf_effort(run->bdf) : run->clock->peer;
    return (struct ullage_effort){.method = run->bdf ? "bdf" : "msbdf",
                                  .steps = made.steps,
                                  .derivatives = made.derivatives,
                                  .jacobians = made.jacobians,
                                  .factorizations = made.factorizations,
                                  .rejected = made.rejected,
                                  .newton_failures = made.newton_failures,
                                  .largest_drift = run->clock->drift};
}
