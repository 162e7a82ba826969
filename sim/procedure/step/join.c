/* sim/procedure/step/join.c  join: {EQUIPMENT: PORT}. Hooks shop equipment up; what was joined elsewhere comes off first. */
#include "procedure/conduct.h"
#include "procedure/setting.h"
#include "procedure/step/steps.h"

struct join_plan {
    int count;
    struct joint joint[];
};

static bool feeds(struct compiler *at, int part, struct phrase where)
{
    if (part < 0)
        return false;
    const struct part *equipment = network_part(at->scope.network, part);
    if (!equipment->kind->feeds)
        problem_add(at->scope.problems, where.at, "join a supply", "a %s cannot be joined to a port",
                    equipment->kind->name);
    return equipment->kind->feeds;
}

static bool is_port(struct compiler *at, int part, struct phrase where)
{
    if (part < 0)
        return false;
    const struct element_kind *kind = network_part(at->scope.network, part)->kind;
    const bool port = kind == element_find("port");
    if (!port)
        problem_add(at->scope.problems, where.at, "join it to a port", "nothing can be joined to a %s", kind->name);
    return port;
}

/* "nitrogen with smoke", or what the equipment is called. */
static const char *fed(struct compiler *at, const struct part *part)
{
    const struct word_row *rows = part->kind->word;
    const int gas = rows ? words_find(rows, "gas") : -1;
    const int tracer = rows ? words_find(rows, "tracer") : -1;
    if (gas < 0 || part->word[gas] < 0)
        return part_label(at->scope.arena, part);
    const char *name = species_at(part->word[gas])->name;
    const char *rides = tracer >= 0 && part->word[tracer] > 0 ? rows[tracer].choice[part->word[tracer]] : NULL;
    return rides ? arena_format(at->scope.arena, "%s with %s", name, rides) : arena_text(at->scope.arena, name);
}

static const char *join_words(struct compiler *at, struct joint joint)
{
    const char *gas = fed(at, network_part(at->scope.network, joint.equipment));
    const char *port = part_label(at->scope.arena, network_part(at->scope.network, joint.port));
    return gas && port ? arena_format(at->scope.arena, "%s joined at the %s", gas, port) : NULL;
}

static void join_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    struct join_plan *plan = compile_take(at, sizeof *plan + (size_t)content->count * sizeof plan->joint[0]);
    const char *title = "";
    for (int i = 0; plan && i < content->count; i++) {
        const struct node *word = content->child[i];
        const struct phrase what = {word->key, word->key_at};
        const struct joint joint = {part_read(&at->scope, what), part_read(&at->scope, phrase_of(word))};
        if (!feeds(at, joint.equipment, what) || !is_port(at, joint.port, phrase_of(word))) {
            at->failed = true;
            continue;
        }
        plan->joint[plan->count++] = joint;
        title = listed(at->scope.arena, title, join_words(at, joint));
    }
    step->gas = true;
    step->plan = plan;
    step->title = title ? capitalised(arena_text(at->scope.arena, title)) : NULL;
}

static int join_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct join_plan *plan = step->plan;
    for (int i = 0; i < plan->count; i++)
        conduct_join(run, index, plan->joint[i].equipment, plan->joint[i].port, false);
    return step->after;
}

const struct step_kind join_step = {
    .verb = "join",
    .meaning = "hooks shop equipment up to a port",
    .example = "join: {supply: service-port}",
    .holds = HOLDS_NAMES,
    .changes = true,
    .compile = join_compile,
    .act = join_act,
};
