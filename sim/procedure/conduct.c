/* sim/procedure/conduct.c  The outer loop: steps are done while they take no time, then the physics goes on to whatever comes
 * first: the end of the wait, an order of the hand, the moment asked for. */
#include "procedure/conduct.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

enum { ACTS_MOST = 100000 }; /* steps done at one moment */

static void conduct_stuck(struct ullage_run *run, const char *trouble)
{
    run->progress->stuck = true;
    run->trouble = trouble;
}

/* ---- what comes and goes ---- */
static bool comes(const struct course *course, double time)
{
    const double next = course_corner(course, time);
    return course_share(course, isinf(next) ? time + 1.0 : 0.5 * (time + next)) > 0.0;
}

static bool fault_comes(const struct fault_now *now, double time)
{
    return now->course.given && now->size != 0.0 && comes(&now->course, time);
}

/* Notes what is there from `time` on and was not, or the other way round, and tells it; finds the next corner. */
static void courses_note(struct ullage_run *run, double time, bool tells)
{
    const struct network *network = run->model->network;
    double next = (double)INFINITY;
    for (int f = 0; f < network_faults(network); f++) {
        const struct fault_now now = run_fault(network, run->physics, f);
        const bool there = fault_comes(&now, time);
        const char *id = network_fault(network, f)->id;
        if (there != run->there[f] && tells)
            conduct_tell(run, (struct ullage_event){.time = time,
                                                    .kind = ULLAGE_FAULT_CHANGED,
                                                    .step = -1,
                                                    .subject = id ? id : network_fault_name(network, f),
                                                    .text = there ? "begins" : "ends"});
        run->there[f] = there;
        next = fmin(next, course_corner(&now.course, time));
    }
    run->progress->corner = next;
}

static void courses_follow(struct ullage_run *run, double time)
{
    courses_note(run, time, true);
}

void faults_again(struct ullage_run *run)
{
    courses_note(run, conduct_now(run), false);
}

/* ---- time ---- */
static void samples_until(struct ullage_run *run, double time)
{
    struct progress *progress = run->progress;
    for (;;) {
        const double moment = (double)progress->due * run->model->every;
        if (moment > time)
            return;
        conduct_sample(run, moment);
        progress->due++;
    }
}

static void conduct_move(struct ullage_run *run, double time)
{
    samples_until(run, time);
    while (run->progress->corner <= time)
        courses_follow(run, run->progress->corner);
    run_move(run->physics, time);
    switches_follow(run);
    run->progress->acts = 0;
}

static void conduct_begin(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    if (progress->begun)
        return;
    progress->begun = true;
    progress->step = run->model->procedure->steps > 0 ? 0 : PROCEDURE_OVER;
    samples_until(run, conduct_now(run));
    courses_follow(run, conduct_now(run));
    switches_begin(run);
    watch_again(run);
}

/* ---- steps ---- */
static void conduct_over(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    progress->step = PROCEDURE_OVER;
    progress->waiting = false;
    progress->since = conduct_now(run);
    watch_again(run);
}

static void step_ended(struct ullage_run *run, int index)
{
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_STEP_ENDED, .step = index});
    run->progress->step = conduct_step(run, index)->after;
    if (run->progress->step == PROCEDURE_OVER)
        conduct_over(run);
}

static void step_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    if (run->turn[index] == 0)
        conduct_tell(run, (struct ullage_event){.kind = ULLAGE_STEP_BEGUN, .step = index});
    const int next = step->kind->act(run, index);
    if (next == STEP_WAITS)
        return;
    if (next == step->after && run->turn[index] == 0)
        step_ended(run, index);
    else
        run->progress->step = next;
}

static void conduct_steps(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    while (progress->step >= 0 && !progress->waiting && !progress->stuck) {
        step_act(run, progress->step);
        if (++progress->acts > ACTS_MOST)
            conduct_stuck(run, "the procedure goes round without taking time; put a wait into what is repeated");
    }
}

static void wait_ended(struct ullage_run *run, bool expired)
{
    struct progress *progress = run->progress;
    progress->waiting = false;
    if (expired)
        conduct_tell(run, (struct ullage_event){.kind = ULLAGE_WAIT_EXPIRED, .step = progress->step});
    step_ended(run, progress->step);
}

static void conduct_finish(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const double now = conduct_now(run);
    const double *last = progress->samples > 0 ? logbook_sample(&run->log, progress->samples - 1) : NULL;
    if (!last || last[0] < now)
        conduct_sample(run, now);
    progress->finished = true;
    progress->waiting = false;
    progress->step = PROCEDURE_OVER;
}

/* ---- what happens at this very moment ---- */
static void hand_does(struct ullage_run *run, const struct setting *setting)
{
    if (setting->row == SETTING_JOINS)
        conduct_join(run, -1, setting->part, setting->port, true);
    else if (setting->row == SETTING_PARTS)
        conduct_part(run, -1, setting->part, -1, true);
    else
        conduct_set(run, -1, setting, true);
    run->progress->stuck = false; /* it may be what was needed */
    run->progress->finished = false;
    watch_again(run);
}

/* What the scenario says is done by hand. */
static bool schedule_given(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const struct ullage_model *model = run->model;
    if (progress->scheduled >= model->scheduled || model->schedule[progress->scheduled].time > conduct_now(run))
        return false;
    hand_does(run, &model->schedule[progress->scheduled++].setting);
    return true;
}

static bool order_given(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const struct told *told = &run->log.told;
    if (progress->orders >= told->orders || told_order(told, progress->orders)->time > conduct_now(run))
        return false;
    const struct order *order = told_order(told, progress->orders);
    progress->chain = order->chain;
    progress->orders++;
    hand_does(run, &order->setting);
    return true;
}

static bool something_ends(struct ullage_run *run)
{
    struct progress *progress = run->progress;
    const double now = conduct_now(run);
    if (progress->finished || progress->stuck)
        return false;
    if (progress->waiting && progress->turns <= now) {
        wait_ended(run, false);
        return true;
    }
    if (progress->waiting && progress->deadline <= now) {
        wait_ended(run, conduct_step(run, progress->step)->until);
        return true;
    }
    if (now >= run->model->stop || (progress->step == PROCEDURE_OVER && isinf(run->model->stop))) {
        conduct_finish(run);
        return true;
    }
    return false;
}

/* The first moment at which the loop has to look again. */
static double next_moment(const struct ullage_run *run)
{
    const struct progress *progress = run->progress;
    double moment = fmin(progress->ahead, run->model->stop);
    if (progress->waiting)
        moment = fmin(moment, fmin(progress->turns, progress->deadline));
    if (progress->scheduled < run->model->scheduled)
        moment = fmin(moment, run->model->schedule[progress->scheduled].time);
    if (progress->orders < run->log.told.orders)
        moment = fmin(moment, told_order(&run->log.told, progress->orders)->time);
    return moment;
}

/* ---- the loop ---- */
static bool stop_asked(const struct ullage_run *run)
{
    return run->stop && *run->stop;
}

static enum ullage_status status_of(struct ullage_run *run)
{
    if (run->log.out_of_memory)
        conduct_stuck(run, "memory is out");
    if (run->progress->stuck)
        return ULLAGE_STUCK;
    return run->progress->finished ? ULLAGE_FINISHED : ULLAGE_PAUSED;
}

/* At one moment the procedure comes first, then the hand: as it was when a person who had paused there gave the order. */
enum ullage_status conduct_advance(struct ullage_run *run, double time, int64_t steps)
{
    struct progress *progress = run->progress;
    assert(!isnan(time));
    conduct_begin(run);
    for (;;) {
        conduct_steps(run);
        if (something_ends(run) || schedule_given(run) || order_given(run))
            continue;
        if (status_of(run) != ULLAGE_PAUSED)
            return status_of(run);
        if (conduct_now(run) >= time)
            return ULLAGE_PAUSED;
        if (stop_asked(run))
            return ULLAGE_STOPPED;
        if (progress->ahead <= conduct_now(run) && !watch_ahead(run, &steps)) {
            if (steps > 0)
                conduct_stuck(run, run_trouble(run->physics));
            return status_of(run);
        }
        conduct_move(run, fmin(time, next_moment(run)));
        if (conduct_now(run) >= progress->ahead)
            watch_arrived(run);
    }
}
