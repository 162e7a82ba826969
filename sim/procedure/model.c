/* sim/procedure/model.c  The door's model: made of a description, and asked. */
#include "procedure/model.h"

#include "procedure/conditioning.h"
#include "procedure/step.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- making ---- */
static struct network *network_of(const struct ullage_description *description, struct ullage_problems *problems)
{
    const int most = procedure_joints(description, NULL, 0);
    struct joint *joint = calloc((size_t)most + 1, sizeof *joint);
    if (!joint)
        return NULL;
    const int joints = most > 0 ? procedure_joints(description, joint, most) : 0;
    struct ullage_description ready = *description;
    struct arena *arena = arena_create();
    const bool conditioned = arena && conditionings_make(arena, &ready, problems);
    struct network *network = conditioned ? network_create(&ready, joint, joints, problems) : NULL;
    arena_free(arena);
    free(joint);
    return network;
}

static bool words_make(struct ullage_model *model, const struct ullage_description *description)
{
    const int parts = network_parts(model->network);
    model->name = arena_text(model->arena, description->name);
    model->about = arena_text(model->arena, description->about);
    model->system = arena_text(model->arena, description->system);
    model->label = arena_take(model->arena, ((size_t)parts + 1) * sizeof *model->label);
    bool good = model->name && model->about && model->system && model->label;
    for (int k = 0; good && k < parts; k++) {
        model->label[k] = part_label(model->arena, network_part(model->network, k));
        good = model->label[k];
    }
    return good;
}

static bool ending_make(struct ullage_model *model, const struct ullage_description *description,
                        struct ullage_problems *problems)
{
    model->stop = description->end_given ? description->end : (double)INFINITY;
    model->longest = description->end_given ? description->end : procedure_longest(model->procedure);
    model->seed = description->seed_given ? description->seed : 1;
    if (description->end_given || model->procedure->steps > 0)
        return true;
    problem_add(problems, description->at, "add end: and a time, or a procedure with a wait",
                "nothing says when this run ends");
    return false;
}

static bool model_make(struct ullage_model *model, const struct ullage_description *description,
                       struct ullage_problems *problems)
{
    model->arena = arena_create();
    model->network = model->arena ? network_of(description, problems) : NULL;
    if (!model->network || !words_make(model, description))
        return false;
    model->procedure = procedure_create(description, model->network, problems);
    return model->procedure && ending_make(model, description, problems) &&
           record_make(model, description, problems) && schedule_make(model, description, problems);
}

struct ullage_model *ullage_model_create(const struct ullage_description *description, struct ullage_problems *problems)
{
    struct ullage_model *model = calloc(1, sizeof *model);
    if (model && model_make(model, description, problems))
        return model;
    problems_sort(problems);
    ullage_model_free(model);
    return NULL;
}

void ullage_model_free(struct ullage_model *model)
{
    if (!model)
        return;
    procedure_free(model->procedure);
    network_free(model->network);
    arena_free(model->arena);
    free(model);
}

/* ---- as a whole ---- */
const char *ullage_model_name(const struct ullage_model *model)
{
    return model->name;
}

const char *ullage_model_about(const struct ullage_model *model)
{
    return model->about;
}

const char *ullage_model_system(const struct ullage_model *model)
{
    return model->system;
}

uint64_t ullage_model_seed(const struct ullage_model *model)
{
    return model->seed;
}

double ullage_model_end(const struct ullage_model *model)
{
    return model->longest;
}

double ullage_model_every(const struct ullage_model *model)
{
    return model->every;
}

int ullage_model_ledger_rows(const struct ullage_model *model)
{
    return run_ledger_rows(model->network);
}

int ullage_model_opening_rows(const struct ullage_model *model)
{
    return run_opening_rows(model->network);
}

/* ---- parts ---- */
int ullage_model_parts(const struct ullage_model *model)
{
    return network_parts(model->network);
}

static struct ullage_link link_of(const struct ullage_model *model, const struct part *part, int end)
{
    const struct part_end *at = &part->end[end];
    int other = -2;
    if (at->part)
        other = !strcmp(at->part, "air") ? -1 : network_find_part(model->network, at->part);
    return (struct ullage_link){
        .key = part->kind->end[end].name, .part = other, .opening = at->opening ? at->opening : ""};
}

struct ullage_part ullage_model_part(const struct ullage_model *model, int index)
{
    const struct part *part = network_part(model->network, index);
    struct ullage_part told = {.id = part->id,
                               .type = part->kind->name,
                               .label = model->label[index],
                               .equipment = part->equipment,
                               .latent = part->latent,
                               .placed = part->placed,
                               .x = part->x,
                               .y = part->y,
                               .turn = part->turn,
                               .shape = part->shape ? part->shape : "",
                               .links = ends_count(part->kind->end)};
    assert(told.links <= (int)(sizeof told.link / sizeof told.link[0]));
    for (int k = 0; k < told.links; k++)
        told.link[k] = link_of(model, part, k);
    return told;
}

int ullage_model_find_part(const struct ullage_model *model, const char *id)
{
    return network_find_part(model->network, id);
}

double ullage_model_parameter(const struct ullage_model *model, int part, const char *name)
{
    const struct part *of = network_part(model->network, part);
    const int row = rows_find(of->kind->parameter, name);
    return row >= 0 ? of->value[row] : (double)NAN;
}

const char *ullage_model_word(const struct ullage_model *model, int part, const char *name)
{
    const struct part *of = network_part(model->network, part);
    const int row = words_find(of->kind->word, name);
    if (row < 0 || of->word[row] < 0)
        return NULL;
    const char *const *choice = of->kind->word[row].choice;
    return choice ? choice[of->word[row]] : species_at(of->word[row])->name;
}

int ullage_model_cells(const struct ullage_model *model, int part)
{
    return network_cells(model->network, part);
}

/* ---- channels ---- */
int ullage_model_channels(const struct ullage_model *model)
{
    return network_channels(model->network);
}

struct ullage_channel ullage_model_channel(const struct ullage_model *model, int index)
{
    return network_channel(model->network, index);
}

int ullage_model_find_channel(const struct ullage_model *model, const char *name)
{
    return network_find_channel(model->network, name);
}

int ullage_model_recorded(const struct ullage_model *model)
{
    return model->recorded;
}

int ullage_model_recorded_channel(const struct ullage_model *model, int index)
{
    return model->channel[index];
}

/* ---- steps and values ---- */
int ullage_model_steps(const struct ullage_model *model)
{
    return model->procedure->steps;
}

struct ullage_step ullage_model_step(const struct ullage_model *model, int index)
{
    const struct step *step = &model->procedure->step[index];
    return (struct ullage_step){.verb = step->kind->verb,
                                .title = step->title,
                                .named = step->named,
                                .depth = step->depth,
                                .least = step->least,
                                .most = step->most,
                                .condition = step->until ? step->until->text : "",
                                .gas = step->gas};
}

int ullage_model_lets(const struct ullage_model *model)
{
    return model->procedure->lets;
}

const char *ullage_model_let(const struct ullage_model *model, int index, double *value, int *dimension)
{
    const struct named_value *let = &model->procedure->let[index];
    *value = let->value;
    *dimension = let->dimension;
    return let->name;
}
