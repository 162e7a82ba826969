/* sim/procedure/step/part_from.c  part_from: EQUIPMENT, [EQUIPMENT, ...] or {EQUIPMENT: PORT}. Takes shop equipment off. */
#include "procedure/conduct.h"
#include "procedure/setting.h"
#include "procedure/step/steps.h"

struct part_plan {
    int count;
    struct joint joint[]; /* port -1: from wherever it is */
};

static bool comes_off(struct compiler *at, int equipment, struct phrase where)
{
    if (equipment < 0)
        return false;
    const struct part *part = network_part(at->scope.network, equipment);
    if (!part->kind->feeds)
        problem_add(at->scope.problems, where.at, "name the supply that comes off", "a %s is never joined to a port",
                    part->kind->name);
    return part->kind->feeds;
}

static bool was_joined(struct compiler *at, struct joint joint, struct phrase where)
{
    if (joint.port >= 0 && network_joint(at->scope.network, joint.equipment, joint.port) >= 0)
        return true;
    if (joint.port >= 0)
        problem_add(at->scope.problems, where.at, "name the port it was joined to, or none",
                    "it is never joined there");
    return false;
}

/* One entry: a word, or a name with a port. */
static bool joint_read(struct compiler *at, const struct node *entry, struct joint *into)
{
    const struct phrase what = entry->key ? (struct phrase){entry->key, entry->key_at} : phrase_of(entry);
    *into = (struct joint){part_read(&at->scope, what), -1};
    if (!comes_off(at, into->equipment, what))
        return false;
    if (!entry->key)
        return true;
    into->port = part_read(&at->scope, phrase_of(entry));
    return was_joined(at, *into, phrase_of(entry));
}

static void part_from_compile(struct compiler *at, int index, const struct node *content)
{
    struct step *step = &at->into->step[index];
    const bool single = content->kind == NODE_WORD;
    const int count = single ? 1 : content->count;
    struct part_plan *plan = compile_take(at, sizeof *plan + (size_t)count * sizeof plan->joint[0]);
    const char *names = "";
    for (int i = 0; plan && i < count; i++) {
        struct node entry = single ? *content : *content->child[i];
        if (single)
            entry.key = NULL;
        struct joint *joint = &plan->joint[plan->count];
        if (!joint_read(at, &entry, joint)) {
            at->failed = true;
            continue;
        }
        plan->count++;
        names = listed(at->scope.arena, names,
                       part_label(at->scope.arena, network_part(at->scope.network, joint->equipment)));
    }
    step->plan = plan;
    step->title = names ? capitalised(arena_format(at->scope.arena, "%s taken off", names)) : NULL;
}

static int part_from_act(struct ullage_run *run, int index)
{
    const struct step *step = conduct_step(run, index);
    const struct part_plan *plan = step->plan;
    for (int i = 0; i < plan->count; i++)
        conduct_part(run, index, plan->joint[i].equipment, plan->joint[i].port, false);
    return step->after;
}

const struct step_kind part_from_step = {
    .verb = "part_from",
    .meaning = "takes shop equipment off its port",
    .example = "part_from: supply",
    .holds = HOLDS_LINKS,
    .changes = true,
    .compile = part_from_compile,
    .act = part_from_act,
};
