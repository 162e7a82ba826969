/* sim/run/run.c  A run: its clock, its steps, its inputs.
 *
 * Everything that decides the future lies in one block: clock, state, inputs, what the stepper remembers. The rest
 * (scratch, GSL's objects) is rebuilt or overwritten at each call. Invariants:
 *   clock.begun <= clock.now <= clock.reach;  y is the state at reach;
 *   between begun and reach the stepper's polynomial is the solution;
 *   inputs have no corner strictly between begun and reach (a corner ends a step, the next one starts afresh);
 *   what is poured from reach on is worked out when the next step is taken: it holds between begun and reach;
 *   no switch is due between begun and reach: the step in which one rises ends at that moment, and the bit flips there.
 *   So `on` holds from reach on, `was` before it; they differ only while reach is such a moment. */
#include "run/inside.h"

#include "base/hash.h"
#include "run/switches.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <string.h>

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

static double fault_corner(const struct run *run, double time)
{
    double next = (double)INFINITY;
    for (int f = 0; f < run->network->faults; f++)
        next = sooner(next, course_corner(&run->fault[f].course, time), time);
    for (int t = 0; t < run->network->taps; t++)
        next = sooner(next, run->tap[t].held.ends, time);
    return next;
}

/* The next moment at which an input has a corner. */
static double next_corner(const struct run *run, double time)
{
    const struct network *network = run->network;
    double next = fault_corner(run, time);
    for (int k = 0; k < network->parts; k++) {
        next = sooner(next, run->opening[k].begins, time);
        next = sooner(next, run->opening[k].ends, time);
        const struct part *of = &network->part[k];
        struct parameters room;
        const struct command_view view = {of, parameters_now(network, &run->inputs, k, time, &room), &run->opening[k]};
        if (of->kind->corner)
            next = sooner(next, of->kind->corner(&view, time), time);
    }
    return sooner(next, weather_corner(network, &run->inputs, time), time);
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
    run->clock->restarts++;
    run->clock->stretch = 0;
}

/* The size that a tap's fault has from `time` on. */
static double tap_asked(const struct run *run, int tap, double time)
{
    const struct fault_now *fault = &run->fault[run->network->tap[tap].fault];
    const struct course *course = &fault->course;
    const bool there = !course->given || (course->from <= time && time < course->until);
    return there ? fault->size : 0.0;
}

/* Faults of liquid that come, go or change their size at reach begin to pour there. */
static void taps_follow(struct run *run)
{
    const struct network *network = run->network;
    const double time = run->clock->reach;
    bool known = false;
    for (int t = 0; t < network->taps; t++) {
        const double asked = tap_asked(run, t, time);
        if (asked == run->tap[t].aim)
            continue;
        if (!known && network_state(network, &run->inputs, time, run->y, &run->scratch, false))
            return; /* no step will go on from there */
        known = true;
        tap_turn(network, &run->scratch, t, time, asked, run->fault[network->tap[t].fault].course.ramp, &run->tap[t],
                 run->pour);
    }
}

enum run_status run_extend(const struct network *network, struct run *run, double limit)
{
    struct clock *clock = run->clock;
    if (clock->fresh) {
        taps_follow(run);
        restart(run);
    }
    const double corner = next_corner(run, clock->reach);
    const double end = fmin(limit, corner);
    clock->begun = clock->reach;
    memcpy(run->was, run->on, (size_t)network->switches * sizeof(bool));
    run->inputs.before = corner;
    double time = clock->reach;
    double h = step_towards(run, end);
    const int status = gsl_odeiv2_evolve_apply(run->evolve, run->control, run->step, &run->gsl, &time, end, &h, run->y);
    run->inputs.before = (double)INFINITY;
    if (status != GSL_SUCCESS || !(time > clock->begun)) {
        tell_trouble(run);
        return RUN_STUCK;
    }
    clock->reach = time;
    clock->step = h;
    if (run->peer)
        peer_note(run->peer, time, run->y, run_length(run), &clock->peer);
    clock->fresh = time == corner;
    clock->stretch++;
    clock->longest = clock->stretch > clock->longest ? clock->stretch : clock->longest;
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
    struct parameters room;
    const double *parameter = parameters_now(network, &run->inputs, part, now, &room);
    const double lasts = kind->moves_in ? kind->moves_in(parameter, from, opening) : 0.0;
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

/* Whether any fault of the part moves its parameters or its command. */
static void note_ails(struct run *run, int part)
{
    const struct network *network = run->network;
    run->ails[part] = false;
    for (int f = network->first_fault[part]; f >= 0; f = network->next_fault[f])
        if (run->fault[f].size != 0.0 && fault_ails(network, f))
            run->ails[part] = true;
}

struct fault_now run_fault(const struct network *network, const struct run *run, int fault)
{
    struct fault_now now = run->fault[fault];
    const int row = network_fault_size_row(network, fault);
    if (row >= 0)
        now.size = run->parameter[network->parameter_at[network->fault[fault].hole] + row];
    return now;
}

void run_fault_size(const struct network *network, struct run *run, int fault, double size)
{
    const int row = network_fault_size_row(network, fault);
    drop_beyond_now(run);
    run->fault[fault].size = size;
    if (row >= 0)
        run->parameter[network->parameter_at[network->fault[fault].hole] + row] = size;
    note_ails(run, network->fault[fault].part);
    flip_at_once(run);
}

void run_fault_put(const struct network *network, struct run *run, int fault, double size, const struct course *told)
{
    const struct fault_now before = run_fault(network, run, fault);
    const double now = run->clock->now, ramp = before.course.ramp; /* by which liquid is drawn off, too */
    run->fault[fault].course = size != 0.0 ? course_put(&before.course, before.size != 0.0, told, now)
                                           : (struct course){.from = now, .ramp = ramp, .until = (double)INFINITY};
    run_fault_size(network, run, fault, size);
}

/* From where it is now. */
static void weather_goes(const struct network *network, struct run *run, enum weather which, struct weather_way way,
                         double lasts)
{
    drop_beyond_now(run);
    way.given = true;
    way.begins = run->clock->now;
    way.ends = way.begins + lasts;
    way.from = weather_value(network, &run->inputs, which, way.begins);
    run->weather[which] = way;
    flip_at_once(run);
}

void run_weather(const struct network *network, struct run *run, enum weather which, double value, double lasts)
{
    weather_goes(network, run, which, (struct weather_way){.to = value}, lasts);
}

void run_weather_back(const struct network *network, struct run *run, enum weather which, double lasts)
{
    weather_goes(network, run, which, (struct weather_way){.back = true}, lasts);
}

struct weather_way run_weather_way(const struct run *run, enum weather which)
{
    return run->weather[which];
}

double run_weather_value(const struct network *network, const struct run *run, enum weather which)
{
    return weather_value(network, &run->inputs, which, run->clock->now);
}

double run_fault_share(const struct network *network, const struct run *run, int fault)
{
    const struct fault_now *now = &run->fault[fault];
    const int tap = network->tap_of[fault];
    if (!(run_fault(network, run, fault).size != 0.0))
        return 0.0;
    if (tap < 0)
        return course_share(&now->course, run->clock->now);
    return fmin(ramp_value(&run->tap[tap].held, run->clock->now) / now->size, 1.0);
}

void run_seed(struct run *run, uint64_t seed)
{
    run->inputs.seed = seed;
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
    return run->bdf ? (size_t)((char *)run->bdf - run->block) + bdf_kept(run->bdf) : run->block_size;
}

void run_save(const struct network *network, const struct run *run, void *block)
{
    memcpy(block, run->block, run_block_size(network, run));
}

void run_restore(const struct network *network, struct run *run, const void *block)
{
    memcpy(run->block, block, run_block_size(network, run));
    run->trouble[0] = '\0';
    if (run->bdf) { /* the step's own memory is in the block; GSL keeps only whether the last try was refused */
        bdf_revive(run->bdf, &run->system, run->plan);
        gsl_odeiv2_evolve_reset(run->evolve);
    } else {
        run->clock->fresh = true; /* the peer's memory cannot be saved: it starts afresh */
    }
}

uint64_t run_hash(const struct network *network, const struct run *run)
{
    uint64_t hash = HASH_OF_NOTHING;
    hash = hash_bytes(hash, &run->clock->now, sizeof(double));
    hash = hash_bytes(hash, state_at(run, run->clock->now), (size_t)run_length(run) * sizeof(double));
    hash = hash_bytes(hash, run->parameter, (size_t)network->parameters * sizeof(double));
    hash = hash_bytes(hash, run->opening, (size_t)network->parts * sizeof(struct ramp));
    hash = hash_bytes(hash, run->joined, (size_t)network->joints * sizeof(bool));
    for (int f = 0; f < network->faults; f++) {
        const struct course *course = &run->fault[f].course;
        const double told[] = {run->fault[f].size, course->from, course->ramp, course->until, course->every, course->lasts};
        hash = hash_bytes(hash, told, sizeof told);
    }
    for (enum weather w = 0; w < WEATHERS; w++) {
        const struct weather_way *way = &run->weather[w];
        const double told[] = {way->given, way->back, way->begins, way->ends, way->from, way->to};
        hash = hash_bytes(hash, told, sizeof told);
    }
    for (int p = 0; p < network->pour_places; p++)
        if (tap_runs(&run->tap[network->pour_place[p].tap], run->clock->now))
            hash = hash_bytes(hash, &run->pour[p], sizeof run->pour[p]);
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
    return run_opening_row_at(network, run, run->clock->now, row);
}

struct ullage_opening_row run_opening_row_at(const struct network *network, const struct run *run, double time, int row)
{
    return ledger_opening_row(network, state_at(run, time), row);
}

bool run_held(const struct network *network, const struct run *run, int part, double *load, double *share)
{
    struct scratch scratch = run->scratch;
    struct inputs inputs = run->inputs;
    const double now = run->clock->now;
    inputs.on = bits_at(run, now);
    if (network_state(network, &inputs, now, state_at(run, now), &scratch, false))
        return false;
    held_look(network, &scratch, part, load, share);
    return true;
}

struct ullage_fuel run_fuel(const struct network *network, const struct run *run)
{
    return ledger_fuel(network, state_at(run, run->clock->now));
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
                                  .restarts = run->clock->restarts,
                                  .longest = run->clock->longest,
                                  .largest_drift = run->clock->drift};
}
