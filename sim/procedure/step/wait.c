/* sim/procedure/step/wait.c  wait: {for: 10 s}, or {until: CONDITION, at_most: 5 min}. Lets the physics go on. */
#include "procedure/conduct.h"
#include "procedure/step/steps.h"

#include <stdio.h>

#define LONGEST 3.2e8      /* s: ten years */
#define WINDOWS_A_WAIT 1e6 /* windows of settled and rate that may follow one another in a wait */

static const struct step_key wait_key[] = {{"for", FORM_TIME, "how long it waits"},
                                           {"until", FORM_CONDITION, "what it waits for"},
                                           {"at_most", FORM_TIME, "when it gives up waiting for it"},
                                           {0}};

static void wait_check(const struct node *content, struct ullage_problems *problems)
{
    const struct node *time = node_find(content, "for");
    const struct node *until = node_find(content, "until");
    const struct node *most = node_find(content, "at_most");
    if (time && (until || most))
        problem_add(problems, (until ? until : most)->key_at,
                    "write for: TIME alone, or until: CONDITION with at_most: TIME", "this wait has two ends");
    else if (!time && !until)
        problem_add(problems, content->key_at, "write for: 10 s, or until: CONDITION with at_most: 5 min",
                    "this wait does not say how long");
    else if (until && !most)
        problem_add(problems, content->key_at, "add at_most: and a time, like at_most: 5 min",
                    "this wait has no time limit");
}

static double time_compile(struct compiler *at, const struct node *word)
{
    const double time = compile_constant(at, word, ULLAGE_TIME);
    if (!at->failed && !(time >= 0.0 && time <= LONGEST))
        compile_problem(at, word->at, "write a time from 0 s to ten years", "no one waits that long");
    return time;
}

static void windows_check(struct compiler *at, int index, const struct node *until)
{
    const struct procedure *into = at->into;
    for (int k = 0; k < into->windows; k++)
        if (into->window[k].wait == index && into->window[k].duration * WINDOWS_A_WAIT < into->step[index].most)
            compile_problem(at, until->at, "look back over a longer time, or wait less long",
                            "settled or rate looks back over less than a millionth of this wait");
}

static void wait_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    const struct node *time = node_find(content, "for");
    const struct node *until = node_find(content, "until");
    at->scope.wait = index;
    if (time) {
        step->least = step->most = time_compile(at, time);
        step->title = arena_format(at->scope.arena, "Wait %s", time->text);
        return;
    }
    const struct node *most = node_find(content, "at_most");
    step->most = time_compile(at, most);
    step->until = compile_expression(at, until, EXPRESSION_TRUTH);
    step->title = arena_format(at->scope.arena, "Wait until %s, at most %s", until->text, most->text);
    windows_check(at, index, until);
}

static int wait_act(struct ullage_run *run, int index)
{
    conduct_wait(run, index);
    return STEP_WAITS;
}

const struct step_kind wait_step = {
    .verb = "wait",
    .meaning = "lets time go by, or waits for a condition",
    .example = "wait: {until: tank.gauge_pressure < 8 inH2O, at_most: 5 min}",
    .holds = HOLDS_KEYS,
    .key = wait_key,
    .check = wait_check,
    .compile = wait_compile,
    .act = wait_act,
};
