/* sim/procedure/step/when.c  when: {if: CONDITION, steps: [...], else: [...]}. Does the one or the other. */
#include "procedure/conduct.h"
#include "procedure/step/steps.h"

#include <math.h>

struct when_plan {
    const struct expression *condition;
    int first; /* of steps */
};

static const struct step_key when_key[] = {{"if", FORM_CONDITION, "what decides"},
                                           {"steps", FORM_STEPS, "what is done when it holds"},
                                           {"else", FORM_STEPS, "what is done when it does not"},
                                           {0}};

static void when_check(const struct node *content, struct ullage_problems *problems)
{
    const struct node *steps = node_find(content, "steps");
    const struct node *other = node_find(content, "else");
    if (!node_find(content, "if"))
        problem_add(problems, content->key_at, "add if: and a condition", "this step does not say when");
    if (!steps || steps->count == 0)
        problem_add(problems, content->key_at, "add steps: and a list", "this step has nothing to do");
    if (other && other->count == 0)
        problem_add(problems, other->key_at, "add steps to it, or take it out", "else has nothing to do");
}

static void when_compile(struct compiler *at, int index, const struct node *content)
{
    const struct node *condition = node_find(content, "if");
    const struct node *other = node_find(content, "else");
    struct when_plan *plan = compile_take(at, sizeof *plan);
    at->into->step[index].plan = plan;
    at->into->step[index].title = arena_format(at->scope.arena, "When %s", condition->text);
    if (!plan)
        return;
    plan->condition = compile_expression(at, condition, EXPRESSION_TRUTH);
    plan->first = compile_list(at, node_find(content, "steps"), index);
    at->into->step[index].other = other ? compile_list(at, other, index) : -1;
}

static double when_longest(const struct procedure *procedure, int index)
{
    const double other = list_longest(procedure, procedure->step[index].other, index);
    return fmax(list_longest(procedure, index + 1, index), other);
}

/* It comes by twice: before what it chose, and after. */
static int when_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct when_plan *plan = step->plan;
    if (run->turn[index] > 0) {
        run->turn[index] = 0;
        return step->after;
    }
    const int chosen = conduct_value(run, plan->condition) > 0.5 ? plan->first : step->other;
    run->turn[index] = chosen >= 0;
    return chosen >= 0 ? chosen : step->after;
}

const struct step_kind when_step = {
    .verb = "when",
    .meaning = "does steps only if a condition holds",
    .example = "when: {if: hole > limit, steps: [...], else: [...]}",
    .holds = HOLDS_KEYS,
    .key = when_key,
    .check = when_check,
    .compile = when_compile,
    .longest = when_longest,
    .act = when_act,
};
