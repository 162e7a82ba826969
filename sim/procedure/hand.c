/* sim/procedure/hand.c  Commands from the hand: read, put into the list of orders, done at once. */
#include "base/hash.h"
#include "procedure/history.h"

#include <assert.h>
#include <string.h>

/* ---- reading ---- */

/* "what is wrong; what would be right", kept in the log. */
static const char *sentence_of(struct ullage_run *run, const struct ullage_problems *problems)
{
    if (ullage_problems_count(problems) == 0)
        return "memory is out";
    const struct ullage_problem problem = ullage_problems_at(problems, 0);
    const char *text = arena_format(run->log.arena, "%s; %s", problem.wrong, problem.right);
    return text ? logbook_text(&run->log, text) : "memory is out";
}

const char *hand_read(struct ullage_run *run, const char *what, const char *value, struct setting *into)
{
    struct ullage_problems *problems = ullage_problems_create();
    if (!problems)
        return "memory is out";
    const struct procedure *procedure = run->model->procedure;
    const struct scope scope = {.network = run->model->network,
                                .let = procedure->let,
                                .lets = procedure->lets,
                                .wait = -1,
                                .earliest = conduct_now(run),
                                .arena = run->log.arena,
                                .problems = problems};
    const bool good = hand_setting_read(&scope, (struct phrase){.text = what}, (struct phrase){.text = value}, into);
    const char *wrong = good ? NULL : sentence_of(run, problems);
    ullage_problems_free(problems);
    return wrong;
}

/* ---- the list ---- */
static uint64_t order_chain(uint64_t before, const struct order *order)
{
    uint64_t hash = hash_bytes(before ^ HASH_OF_NOTHING, &order->time, sizeof order->time);
    hash = hash_bytes(hash, order->setting.subject, strlen(order->setting.subject) + 1);
    hash = hash_bytes(hash, order->setting.text, strlen(order->setting.text) + 1);
    const struct setting *setting = &order->setting;
    const struct course *course = &setting->course;
    const double told[] = {setting->value, course->from, course->ramp, course->until, course->every, course->lasts};
    return hash_bytes(hash, told, sizeof told);
}

bool order_put(struct ullage_run *run, int index, double time, const struct setting *setting)
{
    struct order *row = logbook_order(&run->log, index);
    if (!row)
        return false;
    *row = (struct order){.time = time, .setting = *setting};
    row->chain = order_chain(told_chain(&run->log.told, index), row);
    run->log.told.orders = index + 1; /* what was ordered later is forgotten */
    return true;
}

const char *ullage_run_command(const struct ullage_model *model, struct ullage_run *run, const char *what,
                               const char *value)
{
    assert(model == run->model);
    const double now = conduct_now(run);
    struct setting setting;
    const char *wrong = hand_read(run, what, value, &setting);
    if (!wrong && run->history)
        wrong = history_part(run->history, &setting);
    if (wrong)
        return wrong;
    if (!order_put(run, run->progress->orders, now, &setting))
        return "memory is out";
    conduct_advance(run, now, 0);
    return NULL;
}

int ullage_run_orders(const struct ullage_run *run)
{
    return run->progress->orders;
}

struct ullage_order ullage_run_order(const struct ullage_run *run, int index)
{
    assert(0 <= index && index < run->progress->orders);
    const struct order *order = told_order(&run->log.told, index);
    return (struct ullage_order){.time = order->time,
                                 .what = order->setting.subject,
                                 .value = order->setting.text,
                                 .fault = setting_faulty(run->model->network, &order->setting)};
}
