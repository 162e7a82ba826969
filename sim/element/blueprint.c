/* sim/element/blueprint.c  Parts into volumes, boundaries, passages, followers, controllers, switches; ends into places. */
#include "element/blueprint.h"

#include "element/element.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROOM_VOLUME, ROOM_BOUNDARY, ROOM_PASSAGE, ROOM_FOLLOWER, ROOM_SWITCH, ROOM_OPENING, ROOM_CONTROLLER };

/* Makes room for one more in an array of `size` items; false when memory is out. */
static bool grow(struct blueprint *into, int kind, void **array, int count, size_t size)
{
    if (count < into->room[kind])
        return true;
    const int room = into->room[kind] ? 2 * into->room[kind] : 16;
    void *wider = realloc(*array, (size_t)room * size);
    if (!wider) {
        into->out_of_memory = true;
        return false;
    }
    *array = wider;
    into->room[kind] = room;
    return true;
}

int blueprint_volume(struct blueprint *into, struct volume_plan plan)
{
    if (!grow(into, ROOM_VOLUME, (void **)&into->volume, into->volumes, sizeof plan))
        return -1;
    into->volume[into->volumes] = plan;
    return into->volumes++;
}

int blueprint_boundary(struct blueprint *into, struct boundary_plan plan)
{
    if (!grow(into, ROOM_BOUNDARY, (void **)&into->boundary, into->boundaries, sizeof plan))
        return -1;
    into->boundary[into->boundaries] = plan;
    return PLACE_BOUNDARY - into->boundaries++;
}

int blueprint_passage(struct blueprint *into, struct passage_plan plan)
{
    if (!grow(into, ROOM_PASSAGE, (void **)&into->passage, into->passages, sizeof plan))
        return -1;
    into->passage[into->passages] = plan;
    return into->passages++;
}

int blueprint_follower(struct blueprint *into, struct follower_plan plan)
{
    if (!grow(into, ROOM_FOLLOWER, (void **)&into->follower, into->followers, sizeof plan))
        return -1;
    into->follower[into->followers] = plan;
    return into->followers++;
}

int blueprint_switch(struct blueprint *into, struct switch_plan plan)
{
    if (!grow(into, ROOM_SWITCH, (void **)&into->toggle, into->switches, sizeof plan))
        return -1;
    into->toggle[into->switches] = plan;
    return into->switches++;
}

int blueprint_controller(struct blueprint *into, struct controller_plan plan)
{
    if (!grow(into, ROOM_CONTROLLER, (void **)&into->controller, into->controllers, sizeof plan))
        return -1;
    into->controller[into->controllers] = plan;
    return into->controllers++;
}

static void opening_add(struct blueprint *into, struct registered_opening opening)
{
    if (grow(into, ROOM_OPENING, (void **)&into->opening, into->openings, sizeof *into->opening))
        into->opening[into->openings++] = opening;
}

void blueprint_opening(struct blueprint *into, int part, const char *name, int place)
{
    opening_add(into, (struct registered_opening){part, name, place, 0.0, 0.0});
}

void blueprint_opening_at(struct blueprint *into, int part, const char *name, int place, double height)
{
    opening_add(into, (struct registered_opening){part, name, place, height, 0.0});
}

void blueprint_opening_within(struct blueprint *into, int part, const char *name, int place, double within)
{
    opening_add(into, (struct registered_opening){part, name, place, 0.0, within});
}

int blueprint_find(const struct blueprint *at, const char *id)
{
    for (int k = 0; k < at->parts; k++)
        if (!strcmp(at->part[k].id, id))
            return k;
    return -1;
}

/* Null: none of that name. */
static const struct registered_opening *opening_find(const struct blueprint *at, int part, const char *opening)
{
    for (int k = 0; k < at->openings; k++)
        if (at->opening[k].part == part && !strcmp(at->opening[k].name, opening))
            return &at->opening[k];
    return NULL;
}

int blueprint_place(const struct blueprint *at, int part, const char *opening)
{
    const struct registered_opening *found = opening_find(at, part, opening);
    return found ? found->place : -1;
}

/* The end of `target` that names `part` back: its index in the kind's end table, or -1. */
static int end_back(const struct blueprint *at, int target, int part)
{
    const struct part *other = &at->part[target];
    const int ends = ends_count(other->kind->end);
    for (int e = 0; e < ends; e++)
        if (other->end[e].part && !strcmp(other->end[e].part, at->part[part].id))
            return e;
    return -1;
}

/* A tank's opening may be named by the file's list alone: it then reaches the tank's only gas space. */
static bool opening_listed(const struct part *part, const char *name)
{
    for (int k = 0; k < part->openings; k++)
        if (!strcmp(part->opening[k].name, name))
            return true;
    return false;
}

enum attachment_kind blueprint_attachment_kind(const struct blueprint *at, int part, int end)
{
    const char *id = at->part[part].end[end].part;
    if (!id)
        return ATTACHED_NOWHERE;
    if (!strcmp(id, "air"))
        return ATTACHED_PLACE;
    const int target = blueprint_find(at, id);
    if (target < 0)
        return ATTACHED_NOWHERE;
    if (at->part[target].kind->is_passage)
        return ATTACHED_PASSAGE;
    /* Two lines that name each other share one passage: the one listed first makes it. */
    const bool mutual = end_back(at, target, part) >= 0 && !at->part[part].kind->is_passage;
    return mutual && target < part && at->part[target].kind->passages ? ATTACHED_BACK : ATTACHED_PLACE;
}

/* The opening that an end meets on `target`: the one it names, the end that names it back, or the part as such. */
static const struct registered_opening *opening_met(struct blueprint *at, int part, const struct part_end *end,
                                                    int target)
{
    const struct part *other = &at->part[target];
    if (end->opening && *end->opening) {
        const struct registered_opening *named = opening_find(at, target, end->opening);
        if (named)
            return named;
        if (opening_listed(other, end->opening))
            return opening_find(at, target, "");
        if (at->out_of_memory) /* it may be what there was no room for */
            return NULL;
        const char *names[OPENINGS_MOST + 4] = {0};
        int count = 0;
        for (int k = 0; k < at->openings && count < OPENINGS_MOST; k++)
            if (at->opening[k].part == target && *at->opening[k].name)
                names[count++] = at->opening[k].name;
        for (int k = 0; k < other->openings && count < OPENINGS_MOST; k++)
            names[count++] = other->opening[k].name;
        const char *near = nearest_name(end->opening, names, count);
        char right[160];
        snprintf(right, sizeof right, "did you mean %s?", near ? near : "");
        problem_add(at->problems, end->at,
                    near    ? right
                    : count ? "name one of its openings"
                            : "name the part alone",
                    "%s has no opening %s", other->id, end->opening);
        return NULL;
    }
    const int back = end_back(at, target, part);
    const struct registered_opening *named = back >= 0 ? opening_find(at, target, other->kind->end[back].name) : NULL;
    return named ? named : opening_find(at, target, "");
}

static void refuse_passage(struct blueprint *at, int part, const struct part_end *end, int target)
{
    const struct part *here = &at->part[part];
    if (here->kind->is_passage)
        problem_add(at->problems, end->at, "put a line or a vessel between them",
                    "%s and %s meet without any gas space between them", here->id, at->part[target].id);
    else if (end_back(at, target, part) < 0)
        problem_add(at->problems, end->at, "let one of its ends name this part",
                    "%s ends at %s, but %s does not reach back for it", here->id, at->part[target].id,
                    at->part[target].id);
}

struct attachment blueprint_attachment(struct blueprint *at, int part, int end)
{
    const struct part_end *given = &at->part[part].end[end];
    struct attachment met = {blueprint_attachment_kind(at, part, end), -1, -1, 0.0, 0.0};
    if (met.kind == ATTACHED_NOWHERE)
        return met;
    if (!strcmp(given->part, "air")) {
        met.place = PLACE_AIR;
        return met;
    }
    met.part = blueprint_find(at, given->part);
    if (met.kind == ATTACHED_PASSAGE) {
        refuse_passage(at, part, given, met.part);
        return met;
    }
    const struct registered_opening *opening = opening_met(at, part, given, met.part);
    if (opening) {
        met.place = opening->place;
        met.height = opening->height;
        met.within = opening->within;
    } else {
        met.kind = ATTACHED_NOWHERE;
        const struct element_kind *kind = at->part[met.part].kind;
        if (!(given->opening && *given->opening) && !at->out_of_memory)
            problem_add(at->problems, given->at, "name a part that holds gas, or air", "%s is a %s and holds no gas",
                        given->part, kind->name);
    }
    return met;
}

/* A way from a place back to itself moves nothing: it is a slip of the pen. */
static void refuse_loops(struct blueprint *at)
{
    for (int k = 0; k < at->passages; k++)
        if (at->passage[k].a == at->passage[k].b && at->passage[k].a != -1)
            problem_add(at->problems, at->part[at->passage[k].part].at, "let its two ends name different parts",
                        "%s leads from a gas space back into itself, a loop of no volume",
                        at->part[at->passage[k].part].id);
}

static void draw_rounds(struct blueprint *into)
{
    blueprint_boundary(into, (struct boundary_plan){.part = -1, .share = {1.0}});
    for (int k = 0; k < into->parts; k++)
        if (into->part[k].kind->check)
            into->part[k].kind->check(&into->part[k], into->problems);
    for (int k = 0; k < into->parts; k++)
        if (into->part[k].kind->stores)
            into->part[k].kind->stores(into, k);
    for (int k = 0; k < into->parts; k++)
        if (into->part[k].kind->passages)
            into->part[k].kind->passages(into, k);
    for (int k = 0; k < into->parts; k++)
        if (into->part[k].kind->instruments)
            into->part[k].kind->instruments(into, k);
    if (!into->out_of_memory) /* else places that there was no room for look like loops */
        refuse_loops(into);
}

bool blueprint_draw(struct blueprint *into, const struct part *part, int parts, struct ullage_problems *problems)
{
    into->part = part;
    into->parts = parts;
    into->problems = problems;
    const int before = ullage_problems_count(problems);
    draw_rounds(into);
    return !into->out_of_memory && ullage_problems_count(problems) == before;
}

void blueprint_clear(struct blueprint *blueprint)
{
    free(blueprint->volume);
    free(blueprint->boundary);
    free(blueprint->passage);
    free(blueprint->follower);
    free(blueprint->toggle);
    free(blueprint->controller);
    free(blueprint->opening);
    *blueprint = (struct blueprint){0};
}
