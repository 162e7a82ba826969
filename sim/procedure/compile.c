/* sim/procedure/compile.c  From a tree of steps to a procedure: names become indices, dimensions are checked, and every step
 * learns which one follows it. */
#include "procedure/step.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_MOST = 12 }; /* repeat in when in repeat ... */

/* ---- for the verbs ---- */
void compile_problem(struct compiler *at, struct ullage_place place, const char *right, const char *wrong)
{
    problem_add(at->scope.problems, place, right, "%s", wrong);
    at->failed = true;
}

void *compile_take(struct compiler *at, size_t bytes)
{
    void *taken = arena_take(at->scope.arena, bytes);
    at->failed = at->failed || !taken;
    return taken;
}

const struct expression *compile_phrase(struct compiler *at, struct phrase phrase, int wanted)
{
    const struct expression *expression = expression_read(&at->scope, phrase, wanted);
    if (!expression)
        at->failed = true;
    else if (expression->channels > at->into->widest)
        at->into->widest = expression->channels;
    return expression;
}

const struct expression *compile_expression(struct compiler *at, const struct node *word, int wanted)
{
    return compile_phrase(at, phrase_of(word), wanted);
}

double compile_constant(struct compiler *at, const struct node *word, int dimension)
{
    double value = 0.0;
    if (!constant_read(&at->scope, phrase_of(word), dimension, &value))
        at->failed = true;
    return value;
}

/* ---- steps ---- */
static const char *step_title(struct compiler *at, const struct shape *shape)
{
    const char *title = shape->name ? arena_text(at->scope.arena, shape->name->text) : "";
    at->failed = at->failed || !title;
    return title;
}

/* Adds one step with all that is inside it; returns its index, or -1. */
static int compile_step(struct compiler *at, const struct node *node, int depth)
{
    const struct shape shape = shape_read(node, at->scope.problems);
    if (!shape.kind) {
        at->failed = true;
        return -1;
    }
    const int index = at->into->steps++;
    struct step *step = &at->into->step[index];
    *step = (struct step){
        .kind = shape.kind, .at = shape.content->key_at, .depth = depth, .after = PROCEDURE_OVER, .other = -1};
    step->named = shape.name && shape.name->text[0];
    shape.kind->compile(at, index, shape.content);
    if (step->named || !step->title)
        step->title = step_title(at, &shape);
    return index;
}

int compile_list(struct compiler *at, const struct node *list, int parent)
{
    const int depth = parent < 0 ? 0 : at->into->step[parent].depth + 1;
    int first = -1;
    int last = -1;
    if (depth > DEPTH_MOST) {
        compile_problem(at, list->at, "write the steps one after the other", "too much is nested here");
        return -1;
    }
    for (int i = 0; i < list->count; i++) {
        const int index = compile_step(at, list->child[i], depth);
        if (index < 0)
            continue;
        if (last >= 0)
            at->into->step[last].after = index;
        first = first < 0 ? index : first;
        last = index;
    }
    if (last >= 0)
        at->into->step[last].after = parent < 0 ? PROCEDURE_OVER : parent;
    return first;
}

/* ---- which waits end a solver step ---- */

/* Can an input change, or all be over, before another wait begins, from `from` on? pending holds at least three places a
 * step; seen[step] == mark: looked at already. */
static bool changes_follow(const struct procedure *procedure, int from, int mark, int *pending, int *seen)
{
    int count = 0;
    pending[count++] = from;
    while (count > 0) {
        const int index = pending[--count];
        if (index == PROCEDURE_OVER)
            return true;
        const struct step *step = &procedure->step[index];
        if (step->kind->changes)
            return true;
        if (seen[index] == mark || step->most > 0.0)
            continue;
        seen[index] = mark;
        pending[count++] = step->after;
        if (index + 1 < procedure->steps && procedure->step[index + 1].depth > step->depth)
            pending[count++] = index + 1;
        if (step->other >= 0)
            pending[count++] = step->other;
    }
    return false;
}

static void find_exact(struct compiler *at)
{
    struct procedure *into = at->into;
    const size_t steps = (size_t)into->steps;
    int *pending = compile_take(at, (3 * steps + 1) * sizeof *pending);
    int *seen = compile_take(at, (steps + 1) * sizeof *seen);
    for (int k = 0; pending && seen && k < into->steps; k++)
        if (into->step[k].most > 0.0)
            into->step[k].exact = changes_follow(into, into->step[k].after, k + 1, pending, seen);
}

/* ---- how long ---- */
double list_longest(const struct procedure *procedure, int first, int parent)
{
    const int end = parent < 0 ? PROCEDURE_OVER : parent;
    double longest = 0.0;
    for (int k = first; k >= 0 && k != end; k = procedure->step[k].after) {
        const struct step *step = &procedure->step[k];
        longest += step->kind->longest ? step->kind->longest(procedure, k) : step->most;
    }
    return longest;
}

double procedure_longest(const struct procedure *procedure)
{
    return list_longest(procedure, procedure->steps > 0 ? 0 : -1, -1);
}

/* ---- joints ---- */
static int part_of(const struct ullage_description *description, const char *id)
{
    for (int k = 0; k < description->parts; k++)
        if (!strcmp(description->part[k].id, id))
            return k;
    return -1;
}

/* A pair, unless it is there or unknown; how many there are then. */
static int joint_add(const struct ullage_description *description, const char *what, const char *where,
                     struct joint *joint, int count, int most)
{
    const int equipment = part_of(description, what), port = part_of(description, where);
    bool known = equipment < 0 || port < 0;
    for (int k = 0; k < count && k < most; k++)
        known = known || (joint[k].equipment == equipment && joint[k].port == port);
    if (known)
        return count;
    if (count < most)
        joint[count] = (struct joint){equipment, port};
    return count + 1;
}

static int joints_of(const struct ullage_description *description, const struct node *join, struct joint *joint,
                     int count, int most)
{
    if (join->kind != NODE_MAP)
        return count;
    for (int i = 0; i < join->count; i++)
        if (join->child[i]->kind == NODE_WORD)
            count = joint_add(description, join->child[i]->key, join->child[i]->text, joint, count, most);
    return count;
}

static int joints_inside(const struct ullage_description *description, const struct node *node, struct joint *joint,
                         int count, int most)
{
    for (int i = 0; i < node->count; i++) {
        const struct node *child = node->child[i];
        if (child->key && !strcmp(child->key, "join"))
            count = joints_of(description, child, joint, count, most);
        else if (child->kind != NODE_WORD)
            count = joints_inside(description, child, joint, count, most);
    }
    return count;
}

static bool is_joint(const struct ullage_description *description, const char *what, const char *where)
{
    const int equipment = part_of(description, what), port = part_of(description, where);
    return equipment >= 0 && port >= 0 && description->part[equipment].kind->feeds &&
           description->part[port].kind == element_find("port");
}

/* {supply: join port}, among what is done by hand. */
static int joints_by_hand(const struct ullage_description *description, struct joint *joint, int count, int most)
{
    static const char join[] = "join ";
    for (int k = 0; k < description->by_hands; k++)
        for (int i = 0; i < description->by_hand[k].set->count; i++) {
            const struct node *word = description->by_hand[k].set->child[i];
            const char *port = word->text + sizeof join - 1;
            if (!strncmp(word->text, join, sizeof join - 1) && is_joint(description, word->key, port))
                count = joint_add(description, word->key, port, joint, count, most);
        }
    return count;
}

int procedure_joints(const struct ullage_description *description, struct joint *joint, int most)
{
    const int steps = description->procedure ? joints_inside(description, description->procedure, joint, 0, most) : 0;
    return joints_by_hand(description, joint, steps, most);
}

/* ---- the whole ---- */
static int nodes_in(const struct node *node)
{
    int count = 1;
    for (int i = 0; i < node->count; i++)
        count += nodes_in(node->child[i]);
    return count;
}

static bool lets_copy(struct procedure *into, const struct ullage_description *from)
{
    into->let = arena_take(into->arena, (size_t)(from->lets + 1) * sizeof *into->let);
    if (!into->let)
        return false;
    for (into->lets = 0; into->lets < from->lets; into->lets++) {
        struct named_value *let = &into->let[into->lets];
        *let = from->let[into->lets];
        let->name = arena_text(into->arena, let->name);
        let->at.file = NULL;
        if (!let->name)
            return false;
    }
    return true;
}

static bool procedure_rooms(struct procedure *into, size_t nodes)
{
    into->step = arena_take(into->arena, nodes * sizeof *into->step);
    into->slot = arena_take(into->arena, nodes * sizeof *into->slot);
    into->window = arena_take(into->arena, WINDOWS_MOST * sizeof *into->window);
    return into->step && into->slot && into->window;
}

static bool procedure_compile(struct procedure *into, const struct ullage_description *description,
                              const struct network *network, struct ullage_problems *problems)
{
    const struct node *steps = description->procedure;
    if (!lets_copy(into, description) || !procedure_rooms(into, steps ? (size_t)nodes_in(steps) : 1))
        return false;
    struct compiler at = {.into = into,
                          .scope = {.network = network,
                                    .let = into->let,
                                    .lets = into->lets,
                                    .slot = into->slot,
                                    .window = into->window,
                                    .windows = &into->windows,
                                    .wait = -1,
                                    .arena = into->arena,
                                    .problems = problems}};
    if (steps && steps->kind != NODE_LIST)
        compile_problem(&at, steps->at, "write a list of steps, each behind a dash", "these are no steps");
    else if (steps)
        compile_list(&at, steps, -1);
    into->slots = at.scope.slots;
    if (!at.failed)
        find_exact(&at);
    return !at.failed;
}

struct procedure *procedure_create(const struct ullage_description *description, const struct network *network,
                                   struct ullage_problems *problems)
{
    struct procedure *procedure = calloc(1, sizeof *procedure);
    if (!procedure)
        return NULL;
    procedure->arena = arena_create();
    if (procedure->arena && procedure_compile(procedure, description, network, problems))
        return procedure;
    procedure_free(procedure);
    return NULL;
}

void procedure_free(struct procedure *procedure)
{
    if (!procedure)
        return;
    arena_free(procedure->arena);
    free(procedure);
}
