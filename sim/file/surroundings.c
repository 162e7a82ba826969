/* sim/file/surroundings.c  Weather: constants, or profiles over time. */
#include "file/readers.h"
#include "law/flow.h"
#include "property/gas.h"

#include <math.h>

/* What the models hold for: the lowest layer of the standard atmosphere, gases far from condensing. SI. */
static const struct range altitude_range = {ULLAGE_LENGTH, -1000.0, 11000.0};
static const struct range pressure_range = {ULLAGE_PRESSURE, 1e3, 1e6};
static const struct range temperature_range = {ULLAGE_TEMPERATURE, 200.0, 400.0};
/* Sun: more than reaches the ground on a clear noon, with what snow sends back. Wind: a storm. */
static const struct range sun_range = {ULLAGE_HEAT_FLUX, 0.0, 1500.0};
static const struct range wind_range = {ULLAGE_SPEED, 0.0, 40.0};
static const struct range time_range = {ULLAGE_TIME, 0.0, HUGE_VAL};

static bool profile_room(struct reader *reader, struct profile *profile, int corners)
{
    profile->time = reader_take(reader, (size_t)corners * sizeof(double));
    profile->value = reader_take(reader, (size_t)corners * sizeof(double));
    profile->corners = profile->time && profile->value ? corners : 0;
    return profile->corners > 0;
}

static void constant_set(struct reader *reader, struct profile *profile, double value)
{
    if (profile_room(reader, profile, 1))
        profile->value[0] = value;
}

/* One corner [TIME, VALUE], later than the one before. */
static void corner_read(struct reader *reader, const struct node *node, struct range range, struct profile *profile,
                        int corner)
{
    if (node->kind != NODE_LIST || node->count != 2) {
        problem_add(reader->found, node->at, "write [TIME, VALUE], like [2 h, 22 degC]",
                    "a corner of a profile has two values");
        return;
    }
    number_wanted(reader, node->child[1], range, &profile->value[corner]);
    if (!number_wanted(reader, node->child[0], time_range, &profile->time[corner]))
        return;
    if (corner > 0 && profile->time[corner] <= profile->time[corner - 1])
        problem_add(reader->found, node->child[0]->at, "let times rise from corner to corner",
                    "this corner is not later than the one before");
}

static void profile_read(struct reader *reader, const struct node *node, struct range range, struct profile *profile)
{
    double value = 0.0;
    if (node->kind != NODE_LIST) {
        if (number_wanted(reader, node, range, &value))
            constant_set(reader, profile, value);
        return;
    }
    if (node->count == 0)
        problem_add(reader->found, node->at, "write [[0 h, VALUE], [2 h, VALUE]]", "this profile has no corner");
    else if (profile_room(reader, profile, node->count))
        for (int i = 0; i < node->count; i++)
            corner_read(reader, node->child[i], range, profile, i);
}

static void pressure_read(struct reader *reader, const struct node *map)
{
    struct surroundings *into = &reader->into->surroundings;
    const struct node *pressure = node_find(map, "pressure"), *altitude = node_find(map, "altitude");
    if (pressure && altitude)
        problem_add(reader->found, altitude->key_at, "keep one of them",
                    "altitude and pressure both say how thick the air is");
    into->altitude_given = number_wanted(reader, altitude, altitude_range, &into->altitude);
    into->pressure_given = pressure != NULL;
    if (pressure)
        profile_read(reader, pressure, pressure_range, &into->pressure);
    else
        constant_set(reader, &into->pressure,
                     into->altitude_given ? standard_pressure(into->altitude) : STANDARD_PRESSURE);
}

static void temperature_read(struct reader *reader, const struct node *map)
{
    struct surroundings *into = &reader->into->surroundings;
    const struct node *temperature = node_find(map, "temperature");
    into->temperature_given = temperature != NULL;
    if (temperature)
        profile_read(reader, temperature, temperature_range, &into->temperature);
    else
        constant_set(reader, &into->temperature,
                     into->altitude_given ? standard_temperature(into->altitude) : STANDARD_TEMPERATURE);
}

/* What is not there unless given. */
static void course_read(struct reader *reader, const struct node *node, struct range range, struct profile *into)
{
    if (node)
        profile_read(reader, node, range, into);
    else
        constant_set(reader, into, 0.0);
}

void surroundings_read(struct reader *reader, const struct node *map)
{
    static const char *const keys[] = {"pressure", "altitude", "temperature", "sun", "wind"};
    if (map && map_wanted(reader, map, "surroundings", "write {pressure: 101325 Pa, temperature: 20 degC}"))
        keys_wanted(reader, map, keys, sizeof keys / sizeof keys[0], "the surroundings");
    pressure_read(reader, map);
    temperature_read(reader, map);
    course_read(reader, node_find(map, "sun"), sun_range, &reader->into->surroundings.sun);
    course_read(reader, node_find(map, "wind"), wind_range, &reader->into->surroundings.wind);
}
