/* sim/procedure/step/set.c  set: {PART: WORD, PART: 40 %, PART.PARAMETER: VALUE}. Commands, and parameters that may change. */
#include "procedure/conduct.h"
#include "procedure/setting.h"
#include "procedure/step/steps.h"

struct set_plan {
    int count;
    struct setting setting[];
};

static void set_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    struct set_plan *plan = compile_take(at, sizeof *plan + (size_t)content->count * sizeof plan->setting[0]);
    const char *title = "";
    for (int i = 0; plan && i < content->count; i++) {
        const struct node *word = content->child[i];
        struct setting *setting = &plan->setting[plan->count];
        const struct phrase what = {word->key, word->key_at};
        if (!setting_read(&at->scope, what, phrase_of(word), setting)) {
            at->failed = true;
            continue;
        }
        plan->count++;
        title = listed(at->scope.arena, title, setting_title(&at->scope, setting));
        step->gas = step->gas || setting_feeds(at->scope.network, setting);
    }
    step->plan = plan;
    step->title = title ? capitalised(arena_text(at->scope.arena, title)) : NULL;
}

static int set_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct set_plan *plan = step->plan;
    for (int i = 0; i < plan->count; i++)
        conduct_set(run, index, &plan->setting[i], false);
    return step->after;
}

const struct step_kind set_step = {
    .verb = "set",
    .meaning = "commands a part, or changes a parameter of it",
    .example = "set: {vent-valve: shut, leak.diameter: 0.7 mm}",
    .holds = HOLDS_NAMES,
    .changes = true,
    .compile = set_compile,
    .act = set_act,
};
