/* sim/procedure/step/read.c  read: {NAME: EXPRESSION, ...}. Notes values under a name; later expressions may use them. */
#include "base/text.h"
#include "procedure/conduct.h"
#include "procedure/step/steps.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

struct read_plan {
    int count;

    struct read_one {
        int slot;
        const struct expression *value;
    } one[];
};

/* Can it stand in an expression? */
static bool name_fits(const char *name)
{
    static const char *const taken[] = {"and", "or", "not", "time"};

    for (size_t k = 0; k < sizeof taken / sizeof taken[0]; k++)
        if (!strcmp(name, taken[k]))
            return false;
    if (!isalpha((unsigned char)name[0]) && name[0] != '_')
        return false;
    for (const char *c = name; *c; c++)
        if (!isalnum((unsigned char)*c) && *c != '_' && (*c != '-' || !isalnum((unsigned char)c[1])))
            return false;
    return strlen(name) < TEXT_SHORT;
}

static bool name_good(struct compiler *at, const struct node *word)
{
    char shown[TEXT_SHORT];
    const char *right = NULL;
    if (!name_fits(word->key))
        right = "write letters, digits, _ or -, beginning with a letter; and, or, not and time are taken";
    for (int k = 0; k < at->scope.lets && !right; k++)
        if (!strcmp(at->scope.let[k].name, word->key))
            right = "take another: this one stands in let";
    if (right)
        problem_add(at->scope.problems, word->key_at, right, "%s cannot name a reading", text_short(word->key, shown));
    at->failed = at->failed || right;
    return !right;
}

/* The slot of that name; made where there is none yet. -1: a problem was added. */
static int slot_place(struct compiler *at, const struct node *word, const struct expression *value)
{
    struct procedure *into = at->into;
    for (int k = 0; k < at->scope.slots; k++) {
        if (strcmp(into->slot[k].name, word->key))
            continue;
        if (into->slot[k].dimension == value->dimension)
            return k;
        compile_problem(at, word->key_at, "take another name for it",
                        "this name stands for another kind of quantity already");
        return -1;
    }
    struct slot *slot = &into->slot[at->scope.slots];
    *slot = (struct slot){.name = arena_text(at->scope.arena, word->key),
                          .dimension = value->dimension,
                          .footing = value->footing,
                          .channel = value->bare_channel};
    if (value->bare_slot >= 0)
        slot->channel = into->slot[value->bare_slot].channel;
    at->failed = at->failed || !slot->name;
    return slot->name ? at->scope.slots++ : -1;
}

static void read_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    struct read_plan *plan = compile_take(at, sizeof *plan + (size_t)content->count * sizeof plan->one[0]);
    const char *names = "";
    for (int i = 0; plan && i < content->count; i++) {
        const struct node *word = content->child[i];
        const struct expression *value = compile_expression(at, word, EXPRESSION_ANY);
        const int slot = name_good(at, word) && value ? slot_place(at, word, value) : -1;
        if (slot < 0)
            continue;
        plan->one[plan->count++] = (struct read_one){slot, value};
        names = listed(at->scope.arena, names, name_words(at->scope.arena, word->key));
    }
    step->plan = plan;
    step->title = names ? arena_format(at->scope.arena, "Read %s", names) : NULL;
}

static int read_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct read_plan *plan = step->plan;
    for (int i = 0; i < plan->count; i++)
        conduct_read(run, index, plan->one[i].slot, plan->one[i].value);
    return step->after;
}

const struct step_kind read_step = {
    .verb = "read",
    .meaning = "notes values under a name",
    .example = "read: {hole: meter.hole}",
    .holds = HOLDS_NAMES,
    .compile = read_compile,
    .act = read_act,
};
