/* sim/procedure/shape.c  The form of a step: one verb, the keys it takes, words where words belong. Looks at no names. */
#include "base/text.h"
#include "procedure/step.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

enum { NAMES_MOST = 16, SENTENCE = 200 };

static void say_unknown(struct ullage_problems *problems, const struct node *child, const char *what,
                        const char *const *names, int count)
{
    char shown[TEXT_SHORT], right[SENTENCE] = "there are";
    const char *nearest = nearest_name(child->key, names, count);
    if (nearest)
        snprintf(right, sizeof right, "did you mean %s?", nearest);
    for (int k = 0; !nearest && k < count; k++) {
        const size_t length = strlen(right);
        snprintf(right + length, sizeof right - length, "%s %s", k > 0 ? "," : "", names[k]);
    }
    problem_add(problems, child->key_at, right, "%s is no %s", text_short(child->key, shown), what);
}

/* right null: what holds for all nodes of that kind. */
static bool expect_kind(const struct node *node, enum node_kind kind, const char *right,
                        struct ullage_problems *problems)
{
    static const char *const usual[] = {
        [NODE_WORD] = "write a single value here",
        [NODE_LIST] = "write a list here, each entry behind a dash",
        [NODE_MAP] = "write names with values here, like {for: 10 s}",
    };
    static const char *const found[] = {[NODE_WORD] = "a single value", [NODE_LIST] = "a list", [NODE_MAP] = "a map"};
    if (node->kind == kind)
        return true;
    problem_add(problems, node->key ? node->key_at : node->at, right ? right : usual[kind], "%s%s%s stands here",
                node->key ? node->key : "", node->key ? ": " : "", found[node->kind]);
    return false;
}

/* ---- maps of known keys ---- */
static int keys_names(const struct step_key *key, const char *names[NAMES_MOST])
{
    int count = 0;
    while (key[count].name) {
        assert(count < NAMES_MOST);
        names[count] = key[count].name;
        count++;
    }
    return count;
}

static bool keys_good(const struct node *map, const struct step_key *key, struct ullage_problems *problems)
{
    const char *names[NAMES_MOST];
    const int count = keys_names(key, names);
    if (!expect_kind(map, NODE_MAP, NULL, problems))
        return false;
    bool good = true;
    for (int i = 0; i < map->count; i++) {
        const struct node *child = map->child[i];
        int k = 0;
        while (k < count && strcmp(child->key, names[k]))
            k++;
        if (k == count) {
            say_unknown(problems, child, "key of this step", names, count);
            good = false;
        } else {
            good = expect_kind(child, key[k].form == FORM_STEPS ? NODE_LIST : NODE_WORD, NULL, problems) && good;
        }
    }
    return good;
}

/* ---- maps and lists of names ---- */
static bool words_good(const struct node *holder, struct ullage_problems *problems)
{
    bool good = true;
    for (int i = 0; i < holder->count; i++)
        good = expect_kind(holder->child[i], NODE_WORD, NULL, problems) && good;
    return good;
}

static bool some(const struct node *holder, struct ullage_problems *problems)
{
    if (holder->count == 0)
        problem_add(problems, holder->key_at, "name at least one thing, or take the step out",
                    "%s: nothing stands here", holder->key);
    return holder->count > 0;
}

static bool maps_good(const struct node *map, const struct step_key *key, struct ullage_problems *problems)
{
    bool good = some(map, problems);
    for (int i = 0; good && i < map->count; i++)
        good = keys_good(map->child[i], key, problems);
    return good;
}

static bool content_good(const struct node *content, const struct step_kind *kind, struct ullage_problems *problems)
{
    char right[SENTENCE];
    snprintf(right, sizeof right, "write it like %s", kind->example);
    switch (kind->holds) {
    case HOLDS_KEYS:
        return expect_kind(content, NODE_MAP, right, problems) && keys_good(content, kind->key, problems);
    case HOLDS_NAMES:
        return expect_kind(content, NODE_MAP, right, problems) && some(content, problems) &&
               words_good(content, problems);
    case HOLDS_MAPS:
        return expect_kind(content, NODE_MAP, right, problems) && maps_good(content, kind->key, problems);
    case HOLDS_TEXT:
        return expect_kind(content, NODE_WORD, right, problems);
    case HOLDS_LINKS:
        return content->kind == NODE_WORD || (some(content, problems) && words_good(content, problems));
    }
    return false;
}

/* ---- the step ---- */
static int verbs(const char *names[NAMES_MOST])
{
    const struct step_kind *const *kinds = step_kinds();
    int count = 0;
    while (kinds[count]) {
        assert(count < NAMES_MOST - 1);
        names[count] = kinds[count]->verb;
        count++;
    }
    names[count] = "name";
    return count + 1;
}

static bool verb_find(const struct node *step, struct shape *shape, struct ullage_problems *problems)
{
    const char *names[NAMES_MOST];
    const int count = verbs(names);
    for (int i = 0; i < step->count; i++) {
        const struct node *child = step->child[i];
        const struct step_kind *kind = step_find(child->key);
        if (!strcmp(child->key, "name")) {
            shape->name = child;
        } else if (!kind) {
            say_unknown(problems, child, "verb of a step", names, count);
            return false;
        } else if (shape->kind) {
            problem_add(problems, child->key_at, "put a dash before it: a step does one thing",
                        "%s stands in the same step as %s", kind->verb, shape->kind->verb);
            return false;
        } else {
            shape->kind = kind;
            shape->content = child;
        }
    }
    if (!shape->kind)
        problem_add(problems, step->at, "write what it does, like wait: {for: 10 s}", "this step has no verb");
    return shape->kind;
}

struct shape shape_read(const struct node *step, struct ullage_problems *problems)
{
    struct shape shape = {0};
    const int before = ullage_problems_count(problems);
    if (!expect_kind(step, NODE_MAP, "write what it does, like wait: {for: 10 s}", problems) ||
        !verb_find(step, &shape, problems))
        return (struct shape){0};
    bool good = !shape.name || expect_kind(shape.name, NODE_WORD, NULL, problems);
    good = content_good(shape.content, shape.kind, problems) && good;
    if (good && shape.kind->check)
        shape.kind->check(shape.content, problems);
    return good && ullage_problems_count(problems) == before ? shape : (struct shape){0};
}

static void check_inside(const struct node *content, const struct step_key *key, struct ullage_problems *problems)
{
    for (; key && key->name; key++) {
        const struct node *list = key->form == FORM_STEPS ? node_find(content, key->name) : NULL;
        if (list)
            procedure_check(list, problems);
    }
}

void procedure_check(const struct node *steps, struct ullage_problems *problems)
{
    if (!steps || !expect_kind(steps, NODE_LIST, NULL, problems))
        return;
    for (int i = 0; i < steps->count; i++) {
        const struct shape shape = shape_read(steps->child[i], problems);
        if (shape.kind && shape.kind->holds == HOLDS_KEYS)
            check_inside(shape.content, shape.kind->key, problems);
    }
}
