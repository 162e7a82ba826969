/* sim/file/surroundings.c  Weather: constants, or profiles over time. Keys and ranges: network/surroundings.c. */
#include "file/readers.h"
#include "law/flow.h"
#include "network/network.h"
#include "property/gas.h"

#include <math.h>

static const struct range time_range = {ULLAGE_TIME, 0.0, HUGE_VAL};

/* Of a key of weather_key[]. */
static struct range key_range(const char *key)
{
    const struct row *row = &weather_key[rows_find(weather_key, key)];
    return (struct range){row->dimension, row->least, row->most};
}

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
    into->altitude_given = number_wanted(reader, altitude, key_range("altitude"), &into->altitude);
    into->pressure_given = pressure != NULL;
    if (pressure)
        profile_read(reader, pressure, key_range("pressure"), &into->pressure);
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
        profile_read(reader, temperature, key_range("temperature"), &into->temperature);
    else
        constant_set(reader, &into->temperature,
                     into->altitude_given ? standard_temperature(into->altitude) : STANDARD_TEMPERATURE);
}

/* What is not there unless given. */
static void course_read(struct reader *reader, const struct node *map, const char *key, struct profile *into)
{
    const struct node *node = node_find(map, key);
    if (node)
        profile_read(reader, node, key_range(key), into);
    else
        constant_set(reader, into, 0.0);
}

void surroundings_read(struct reader *reader, const struct node *map)
{
    enum { KEYS_MOST = 16 };

    const char *keys[KEYS_MOST];
    int count = 0;
    for (; weather_key[count].name; count++)
        keys[count] = weather_key[count].name;
    if (map && map_wanted(reader, map, "surroundings", "write {pressure: 101325 Pa, temperature: 20 degC}"))
        keys_wanted(reader, map, keys, count, "the surroundings");
    pressure_read(reader, map);
    temperature_read(reader, map);
    course_read(reader, map, "sun", &reader->into->surroundings.sun);
    course_read(reader, map, "wind", &reader->into->surroundings.wind);
}
