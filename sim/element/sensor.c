/* sim/element/sensor.c  The vehicle's sensors of the tank's level and of its fuel's temperature: each follows with a lag, an
 * error, noise, steps and a range, as the pressure sensor does. What has no fuel in it has no level, and is as warm as its
 * gas. */
#include "element/elements.h"

enum { TIME_CONSTANT, ZERO_ERROR, GAIN_ERROR, RESOLUTION, LEAST, MOST, STUCK, NOISE, OPEN_CIRCUIT, SHORT_CIRCUIT };

enum { OF };

#define SENSOR_ROWS(dimension, error, least, most, fullest)                                                            \
    {"time_constant", ULLAGE_TIME, 0.0, 0.0, 600.0, "of its lag", false},                                              \
        {"zero_error", dimension, 0.0, -(error), error, "what it shows too much", true},                               \
        {"gain_error", ULLAGE_NUMBER, 0.0, -0.9, 10.0, "share by which it shows too much", true},                      \
        {"resolution", dimension, 0.0, 0.0, error, "steps of its reading; 0: none", false},                            \
        {"least", dimension, least, 0.0, fullest, "lower end of its range", false},                                    \
        {"most", dimension, most, 0.0, fullest, "upper end of its range", false},                                      \
        {"stuck", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share by which it does not follow any more", true},                   \
        {"noise", dimension, 0.0, 0.0, error, "it jumps about by this, root of the mean square", true},                \
        {"open_circuit",                                                                                               \
         ULLAGE_NUMBER,                                                                                                \
         0.0,                                                                                                          \
         0.0,                                                                                                          \
         1.0,                                                                                                          \
         "share by which it is drawn to the upper end of its range",                                                   \
         true},                                                                                                        \
        {"short_circuit",                                                                                              \
         ULLAGE_NUMBER,                                                                                                \
         0.0,                                                                                                          \
         0.0,                                                                                                          \
         1.0,                                                                                                          \
         "share by which it is drawn to the lower end of its range",                                                   \
         true},                                                                                                        \
    {                                                                                                                  \
        0                                                                                                              \
    }

static const struct row level_parameter[] = {SENSOR_ROWS(ULLAGE_NUMBER, 1.0, 0.0, 1.0, 2.0)};
static const struct row temperature_parameter[] = {SENSOR_ROWS(ULLAGE_TEMPERATURE, 500.0, 213.15, 423.15, 1000.0)};

static const struct end_row level_end[] = {{"of", true, "the tank whose level it shows"}, {0}};
static const struct end_row temperature_end[] = {{"of", true, "the tank, or gas space, whose temperature it shows"},
                                                 {0}};

static const struct show_row level_shows[] = {{"level", ULLAGE_NUMBER, "what it shows of the tank's inside"}, {0}};
static const struct show_row temperature_shows[] = {
    {"temperature", ULLAGE_TEMPERATURE, "what it shows, of the fuel where there is any"}, {0}};

static void sensor_build(struct blueprint *into, int part, enum follows follows)
{
    const struct attachment of = blueprint_attachment(into, part, OF);
    if (of.kind == ATTACHED_PLACE)
        blueprint_follower(into, (struct follower_plan){.part = part,
                                                        .follows = follows,
                                                        .place = of.place,
                                                        .passage = -1,
                                                        .lag = into->part[part].value[TIME_CONSTANT],
                                                        .lag_row = TIME_CONSTANT,
                                                        .stuck_row = STUCK});
}

static void level_instruments(struct blueprint *into, int part)
{
    sensor_build(into, part, FOLLOWS_LEVEL);
}

static void temperature_instruments(struct blueprint *into, int part)
{
    sensor_build(into, part, FOLLOWS_TEMPERATURE);
}

static void sensor_check(const struct part *part, struct ullage_problems *problems)
{
    if (!(part->value[LEAST] < part->value[MOST]))
        problem_add(problems, part->at, "let least lie below most", "%s has a range of no width", part->id);
}

static void sensor_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    const double *p = at->parameter;
    const struct instrument dial = {p[ZERO_ERROR],   p[GAIN_ERROR],   p[RESOLUTION],
                                    p[LEAST],        p[MOST],         instrument_noise(at, p[NOISE]),
                                    p[OPEN_CIRCUIT], p[SHORT_CIRCUIT]};
    shown[0] = instrument_shows(&dial, at->follower, &off_scale[0]);
}

const struct element_kind level_sensor_kind = {
    .name = "level-sensor",
    .meaning = "the vehicle's own sensor of the tank's level",
    .parameter = level_parameter,
    .fault = level_fault,
    .end = level_end,
    .shows = level_shows,
    .check = sensor_check,
    .instruments = level_instruments,
    .show = sensor_show,
};

const struct element_kind temperature_sensor_kind = {
    .name = "temperature-sensor",
    .meaning = "the vehicle's own sensor of the fuel's temperature",
    .parameter = temperature_parameter,
    .fault = temperature_fault,
    .end = temperature_end,
    .shows = temperature_shows,
    .check = sensor_check,
    .instruments = temperature_instruments,
    .show = sensor_show,
};
