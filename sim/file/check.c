/* sim/file/check.c  A file of any kind, checked as far as it can be alone: a scenario by making its model, a system by
 * drawing its blueprint, a procedure by the form of its steps. */
#include "file/scenario.h"
#include "file/source.h"
#include "procedure/procedure.h"

#include <string.h>

static void scenario_checked(struct reader *reader, struct node *tree, const char *path)
{
    const int before = ullage_problems_count(reader->found);
    scenario_tree_read(reader, tree, path);
    if (reader->outcome != ULLAGE_GOOD || ullage_problems_count(reader->found) > before)
        return;
    struct ullage_model *model = ullage_model_create(reader->into, reader->found);
    if (!model) /* sorted already: what is wrong may have left the count as it was */
        reader->outcome = ullage_problems_count(reader->found) > 0 ? ULLAGE_BAD_INPUT : ULLAGE_OUT_OF_MEMORY;
    ullage_model_free(model);
}

static void system_checked(struct reader *reader, struct node *tree, const char *path)
{
    (void)path;
    const int before = ullage_problems_count(reader->found);
    const struct trees trees = {.system = tree, .own_system = true};
    if (!parts_few(reader, &trees))
        return;
    system_read(reader, &trees);
    if (reader->outcome != ULLAGE_GOOD || ullage_problems_count(reader->found) > before)
        return;
    struct blueprint blueprint = {0};
    blueprint_draw(&blueprint, reader->into->part, reader->into->parts, reader->found);
    if (blueprint.out_of_memory)
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    blueprint_clear(&blueprint);
}

/* What a step needs parts for is judged where there are parts: in a scenario. */
static void procedure_checked(struct reader *reader, struct node *tree, const char *path)
{
    (void)path;
    const struct trees trees = {.procedure = tree, .own_procedure = true};
    procedure_read(reader, &trees);
    procedure_check(reader->into->procedure, reader->found);
}

static void blend_checked(struct reader *reader, struct node *tree, const char *path)
{
    (void)path;
    blend_tree_read(reader, tree);
}

static void recording_checked(struct reader *reader, struct node *tree, const char *path)
{
    struct recording_text into;
    (void)path;
    recording_tree_read(reader, tree, &into);
}

static const struct {
    const char *form;
    void (*checked)(struct reader *reader, struct node *tree, const char *path);
} forms[] = {
    {"scenario/1", scenario_checked}, {"system/1", system_checked},       {"procedure/1", procedure_checked},
    {"blend/1", blend_checked},       {"recording/1", recording_checked},
};

enum { FORMS = sizeof forms / sizeof forms[0] };

void form_checked(struct reader *reader, struct node *tree, const char *path)
{
    const char *form[FORMS];
    for (int i = 0; i < FORMS; i++)
        form[i] = forms[i].form;
    const struct node *said = node_find(tree, "ullage");
    if (!said) {
        form_wanted(reader, tree, forms[0].form); /* says what is missing */
        return;
    }
    const int chosen = choice_wanted(reader, said, form, FORMS);
    if (chosen >= 0)
        forms[chosen].checked(reader, tree, path);
}

enum ullage_outcome ullage_check(const char *path, const struct ullage_edits *edits, struct ullage_problems *problems)
{
    struct reader reader;
    const int before = ullage_problems_count(problems);
    if (!reader_begin(&reader, edits, problems))
        return reader.outcome;
    struct node *tree = source_tree(&reader, path);
    if (tree)
        form_checked(&reader, tree, path);
    reader_judge(&reader, before);
    arena_free(reader.arena);
    return reader.outcome;
}
