/* sim/procedure/step/judge.c  judge: {NAME: {pass: CONDITION, fail: CONDITION, because: TEXT}}. Passed where pass holds,
 * else failed where fail holds, else open. */
#include "procedure/conduct.h"
#include "procedure/message.h"
#include "procedure/step/steps.h"

struct judge_plan {
    int count;

    struct judge_one {
        const char *name;
        const struct expression *pass, *fail; /* null: never */
        struct message because;
    } one[];
};

static const struct step_key judge_key[] = {{"pass", FORM_CONDITION, "when it is passed"},
                                            {"fail", FORM_CONDITION, "when it is failed"},
                                            {"because", FORM_TEXT, "the reason to be told with it"},
                                            {0}};

static void judge_check(const struct node *content, struct ullage_problems *problems)
{
    for (int i = 0; i < content->count; i++) {
        const struct node *one = content->child[i];
        if (!node_find(one, "pass") && !node_find(one, "fail"))
            problem_add(problems, one->key_at, "write pass: CONDITION, fail: CONDITION or both",
                        "this judgement can neither pass nor fail");
    }
}

static void judge_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    struct judge_plan *plan = compile_take(at, sizeof *plan + (size_t)content->count * sizeof plan->one[0]);
    const char *names = "";
    for (int i = 0; plan && i < content->count; i++) {
        const struct node *map = content->child[i];
        const struct node *pass = node_find(map, "pass");
        const struct node *fail = node_find(map, "fail");
        const struct node *because = node_find(map, "because");
        struct judge_one *one = &plan->one[plan->count++];
        one->name = arena_text(at->scope.arena, map->key);
        one->pass = pass ? compile_expression(at, pass, EXPRESSION_TRUTH) : NULL;
        one->fail = fail ? compile_expression(at, fail, EXPRESSION_TRUTH) : NULL;
        one->because = because ? message_read(at, because) : (struct message){0};
        at->failed = at->failed || !one->name;
        names = listed(at->scope.arena, names, name_words(at->scope.arena, map->key));
    }
    step->plan = plan;
    step->title = names ? arena_format(at->scope.arena, "Judge %s", names) : NULL;
}

static int judge_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct judge_plan *plan = step->plan;
    for (int i = 0; i < plan->count; i++) {
        const struct judge_one *one = &plan->one[i];
        enum ullage_result result = ULLAGE_OPEN;
        if (one->pass && conduct_value(run, one->pass) > 0.5)
            result = ULLAGE_PASS;
        else if (one->fail && conduct_value(run, one->fail) > 0.5)
            result = ULLAGE_FAIL;
        conduct_judge(run, index, one->name, message_write(run, one->because), result);
    }
    return step->after;
}

const struct step_kind judge_step = {
    .verb = "judge",
    .meaning = "passes, fails or leaves open, with a reason",
    .example = "judge: {leak: {pass: hole < limit, fail: hole >= limit, because: the usual line}}",
    .holds = HOLDS_MAPS,
    .key = judge_key,
    .check = judge_check,
    .compile = judge_compile,
    .act = judge_act,
};
