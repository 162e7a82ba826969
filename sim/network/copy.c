/* sim/network/copy.c  What a network keeps of a description, in its own arena: parts, and profiles of the surroundings. */
#include "network/inside.h"

#include <string.h>

static const char *copied(struct arena *arena, const char *text)
{
    return text ? arena_text(arena, text) : NULL;
}

static const struct part_moment *copied_trace(struct arena *arena, const struct part *from)
{
    if (from->moments == 0)
        return NULL;
    const size_t size = (size_t)from->moments * sizeof *from->trace;
    struct part_moment *trace = arena_take(arena, size);
    if (trace)
        memcpy(trace, from->trace, size);
    for (int k = 0; trace && k < from->moments; k++)
        trace[k].at.file = NULL;
    return trace;
}

static void copy_part(struct arena *arena, struct part *into, const struct part *from)
{
    *into = *from;
    into->id = copied(arena, from->id);
    into->at.file = copied(arena, from->at.file);
    into->shape = copied(arena, from->shape);
    into->label = copied(arena, from->label);
    for (int e = 0; e < ENDS_MOST; e++) {
        into->end[e].part = copied(arena, from->end[e].part);
        into->end[e].opening = copied(arena, from->end[e].opening);
        into->end[e].at.file = NULL;
    }
    for (int o = 0; o < from->openings; o++) {
        into->opening[o].name = copied(arena, from->opening[o].name);
        into->opening[o].at.file = NULL;
    }
    for (int r = 0; r < ROWS_MOST; r++)
        into->value_at[r].file = NULL;
    for (int l = 0; l < from->levels; l++)
        into->level[l].at.file = NULL;
    into->trace = copied_trace(arena, from);
    for (int b = 0; b < BEDS_MOST; b++)
        into->bed[b].at.file = NULL;
}

bool parts_copy(struct network *network, const struct ullage_description *from)
{
    network->parts = from->parts;
    network->part = arena_take(network->arena, ((size_t)from->parts + 1) * sizeof *network->part);
    network->parameter_at = arena_take(network->arena, ((size_t)from->parts + 1) * sizeof *network->parameter_at);
    if (!network->part || !network->parameter_at)
        return false;
    for (int k = 0; k < from->parts; k++) {
        copy_part(network->arena, &network->part[k], &from->part[k]);
        if (from->part[k].moments > 0 && !network->part[k].trace)
            return false;
        network->parameter_at[k] = network->parameters;
        network->parameters += rows_count(from->part[k].kind->parameter);
    }
    return true;
}

static bool profile_copy(struct network *network, struct profile *into, const struct profile *from)
{
    into->corners = from->corners;
    into->time = arena_take(network->arena, ((size_t)from->corners + 1) * sizeof *into->time);
    into->value = arena_take(network->arena, ((size_t)from->corners + 1) * sizeof *into->value);
    if (!into->time || !into->value)
        return false;
    memcpy(into->time, from->time, (size_t)from->corners * sizeof *into->time);
    memcpy(into->value, from->value, (size_t)from->corners * sizeof *into->value);
    return true;
}

bool weather_take(struct network *network, const struct surroundings *from)
{
    return profile_copy(network, &network->weather[WEATHER_PRESSURE], &from->pressure) &&
           profile_copy(network, &network->weather[WEATHER_TEMPERATURE], &from->temperature) &&
           profile_copy(network, &network->weather[WEATHER_SUN], &from->sun) &&
           profile_copy(network, &network->weather[WEATHER_WIND], &from->wind);
}
