/* sim/procedure/sound.c  The sound run that goes along: a run and a history of its own, under our orders but those about faults.
 *
 * Its orders are ours told again. Where ours have become others, by a command or on another branch, it goes back to the first
 * that differs and on from there; it has one branch. */
#include "procedure/history.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- begun and ended ---- */
static bool same_records(const struct ullage_model *one, const struct ullage_model *other)
{
    bool same = one->recorded == other->recorded && one->every == other->every;
    for (int k = 0; same && k < one->recorded; k++)
        same = !strcmp(network_channel(one->network, one->channel[k]).name,
                       network_channel(other->network, other->channel[k]).name);
    return same && network_channels(one->network) == network_channels(other->network);
}

bool ullage_history_accompany(struct ullage_history *history, const struct ullage_model *sound)
{
    const struct ullage_run *run = history->run;
    const struct ullage_method method = {ullage_run_effort(run).method, run->tolerance, run->seed, true};
    sound_free(history);
    struct ullage_run *along = same_records(run->model, sound) ? ullage_run_create(sound, &method) : NULL;
    history->sound = along ? history_begin(along, MOMENTS_BYTES_SOUND) : NULL;
    if (!history->sound) {
        ullage_run_free(along);
        return false;
    }
    along->stop = run->stop;
    history->followed_orders = 0;
    history->followed = 0;
    sound_follow(history);
    return true;
}

void sound_free(struct ullage_history *history)
{
    struct ullage_run *along = history->sound ? history->sound->run : NULL;
    ullage_history_free(history->sound);
    ullage_run_free(along);
    history->sound = NULL;
}

/* ---- its orders ---- */
static bool order_same(const struct order *one, const struct order *other)
{
    return one->time == other->time && !strcmp(one->setting.subject, other->setting.subject) &&
           !strcmp(one->setting.text, other->setting.text);
}

/* The next of ours from `index` on that is not about a fault; the end. */
static int next_order(const struct ullage_run *run, int index)
{
    const struct told *told = &run->log.told;
    while (index < told->orders && setting_faulty(run->model->network, &told_order(told, index)->setting))
        index++;
    return index;
}

/* It has done the first `kept` of its orders and knows no more. */
static void orders_cut(struct ullage_history *sound, int kept, double time)
{
    struct ullage_run *along = sound->run;
    along->log.told.orders = kept;
    history_return(sound, fmin(time, conduct_now(along)));
    sound->branch[0].latest = conduct_now(along);
    sound->branch[0].samples = along->progress->samples;
    sound->branch[0].events = along->progress->events;
    moments_sift(sound);
}

/* Ours from `index` on, told again as the orders from `kept` on. */
static void orders_tell(struct ullage_history *history, int index, int kept)
{
    const struct ullage_run *run = history->run;
    struct ullage_run *along = history->sound->run;
    for (; index < run->log.told.orders; index = next_order(run, index + 1)) {
        const struct order *order = told_order(&run->log.told, index);
        struct setting setting;
        if (!hand_read(along, order->setting.subject, order->setting.text, &setting))
            kept += order_put(along, kept, order->time, &setting);
    }
}

static void orders_follow(struct ullage_history *history)
{
    const struct told *told = &history->run->log.told, *its = &history->sound->run->log.told;
    int kept = 0, index = next_order(history->run, 0);
    while (kept < its->orders && index < told->orders && order_same(told_order(its, kept), told_order(told, index))) {
        kept++;
        index = next_order(history->run, index + 1);
    }
    double time = kept < its->orders ? told_order(its, kept)->time : (double)INFINITY;
    if (index < told->orders)
        time = fmin(time, told_order(told, index)->time);
    if (kept < its->orders || index < told->orders)
        orders_cut(history->sound, kept, time);
    orders_tell(history, index, kept);
}

/* ---- its time ---- */
void sound_follow(struct ullage_history *history)
{
    struct ullage_history *sound = history->sound;
    if (!sound)
        return;
    const struct told *told = &history->run->log.told;
    const uint64_t chain = told_chain(told, told->orders);
    const double latest = ullage_history_latest(history);
    if (history->followed != chain || history->followed_orders != told->orders) {
        orders_follow(history);
        history->sound_over = false;
    }
    history->followed = chain;
    history->followed_orders = told->orders;
    if (!history->sound_over && ullage_history_latest(sound) < latest)
        history->sound_over = ullage_history_advance(sound, latest) == ULLAGE_FINISHED;
    ullage_history_go(sound, conduct_now(history->run));
}
