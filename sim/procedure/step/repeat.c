/* sim/procedure/step/repeat.c  repeat: {times: 3, steps: [...]}, or {until: CONDITION, at_most: 10 min, steps: [...]}. The
 * condition is asked, and the time looked at, after each turn. */
#include "procedure/conduct.h"
#include "procedure/step/steps.h"

#include <math.h>

#define TIMES_MOST 1e6

struct repeat_plan {
    int times;                      /* 0: any number */
    const struct expression *until; /* null: none */
    double most;                    /* s after the first turn began; INFINITY: any time */
};

static const struct step_key repeat_key[] = {{"times", FORM_COUNT, "how often, at most"},
                                             {"until", FORM_CONDITION, "ends it after a turn"},
                                             {"at_most", FORM_TIME, "no new turn begins after this time"},
                                             {"steps", FORM_STEPS, "what is repeated"},
                                             {0}};

static void repeat_check(const struct node *content, struct ullage_problems *problems)
{
    const struct node *steps = node_find(content, "steps");
    if (!steps || steps->count == 0)
        problem_add(problems, content->key_at, "add steps: and a list", "this repeat has no steps");
    if (!node_find(content, "times") && !node_find(content, "at_most"))
        problem_add(problems, content->key_at, "add times: or at_most:", "this repeat has no limit");
}

static int times_compile(struct compiler *at, const struct node *word)
{
    const double times = compile_constant(at, word, ULLAGE_NUMBER);
    if (times >= 1.0 && times <= TIMES_MOST && !(floor(times) < times))
        return (int)times;
    if (!at->failed)
        compile_problem(at, word->at, "write a whole number from 1 to 1000000", "it cannot be repeated so often");
    return 1;
}

static const char *repeat_title(struct arena *arena, const struct node *times, const struct node *until,
                                const struct node *most)
{
    if (until)
        return arena_format(arena, "Repeat until %s", until->text);
    return times ? arena_format(arena, "Repeat %s times", times->text)
                 : arena_format(arena, "Repeat for %s", most->text);
}

static void repeat_compile(struct compiler *at, int index, const struct node *content)
{
    const struct node *times = node_find(content, "times");
    const struct node *until = node_find(content, "until");
    const struct node *most = node_find(content, "at_most");
    struct repeat_plan *plan = compile_take(at, sizeof *plan);
    at->into->step[index].plan = plan;
    at->into->step[index].title = repeat_title(at->scope.arena, times, until, most);
    compile_list(at, node_find(content, "steps"), index);
    if (!plan)
        return;
    plan->times = times ? times_compile(at, times) : 0;
    plan->most = most ? compile_constant(at, most, ULLAGE_TIME) : (double)INFINITY;
    plan->until = until ? compile_expression(at, until, EXPRESSION_TRUTH) : NULL; /* may use what is read inside */
}

static double repeat_longest(const struct procedure *procedure, int index)
{
    const struct repeat_plan *plan = procedure->step[index].plan;
    const double turn = list_longest(procedure, index + 1, index);
    return fmin(plan->times > 0 ? turn * plan->times : (double)INFINITY, plan->most + turn);
}

static bool repeat_done(struct ullage_run *run, int index, const struct repeat_plan *plan)
{
    const int turn = run->turn[index];
    if (turn == 0)
        return false;
    if (plan->until && conduct_value(run, plan->until) > 0.5)
        return true;
    if (turn == plan->times)
        return true;
    const bool late = conduct_now(run) - run->begun[index] >= plan->most;
    if (late && plan->until)
        conduct_tell(run, (struct ullage_event){.kind = ULLAGE_WAIT_EXPIRED, .step = index});
    return late;
}

static int repeat_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    if (run->turn[index] == 0)
        run->begun[index] = conduct_now(run);
    if (repeat_done(run, index, step->plan)) {
        run->turn[index] = 0;
        return step->after;
    }
    run->turn[index]++;
    return index + 1;
}

const struct step_kind repeat_step = {
    .verb = "repeat",
    .meaning = "does steps several times",
    .example = "repeat: {times: 3, steps: [...]}",
    .holds = HOLDS_KEYS,
    .key = repeat_key,
    .check = repeat_check,
    .compile = repeat_compile,
    .longest = repeat_longest,
    .act = repeat_act,
};
