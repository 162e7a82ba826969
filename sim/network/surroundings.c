/* sim/network/surroundings.c  Air, sun and wind in time: profiles of the file, straight between corners and level outside,
 * until a hand sends one of them another way. That begins where it stands and goes straight, so that none ever jumps: its slope
 * does, and there a step has to end. An altitude is told as the pressure that the standard atmosphere has there: what is felt
 * of a hill in the time that a vehicle needs for it. Straight in time is the pressure, as a barometer would show it. */
#include "law/flow.h"
#include "network/inside.h"
#include "property/gas.h"

/* ---- what there is ---- */

enum { KEY_ALTITUDE = 2 }; /* row of weather_key[] */

/* What the models hold for: the lowest layer of the standard atmosphere, gases far from condensing. Sun: more than reaches the
 * ground on a clear noon, with what snow sends back. Wind: a storm. */
const struct row weather_key[] = {
    {"temperature", ULLAGE_TEMPERATURE, STANDARD_TEMPERATURE, 200.0, 400.0, "of the air", true},
    {"pressure", ULLAGE_PRESSURE, STANDARD_PRESSURE, 1e3, 1e6, "of the air, absolute", true},
    {"altitude", ULLAGE_LENGTH, 0.0, -1000.0, 11000.0, "its pressure, as thick as the standard atmosphere is there",
     true},
    {"sun", ULLAGE_HEAT_FLUX, 0.0, 0.0, 1500.0, "on a surface that faces it", true},
    {"wind", ULLAGE_SPEED, 0.0, 0.0, 40.0, "past all walls", true},
    {0}};

enum weather weather_of_key(int key)
{
    static const enum weather of[] = {WEATHER_TEMPERATURE, WEATHER_PRESSURE, WEATHER_PRESSURE, WEATHER_SUN,
                                      WEATHER_WIND};

    return of[key];
}

double weather_from_key(int key, double value)
{
    return key == KEY_ALTITUDE ? standard_pressure(value) : value;
}

double weather_as_key(int key, double weather)
{
    return key == KEY_ALTITUDE ? standard_altitude(weather) : weather;
}

/* ---- as the file has it ---- */

/* Index of the last corner at or before `time`; -1 before the first. */
static int profile_piece(const struct profile *profile, double time)
{
    int low = -1, high = profile->corners;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        *(profile->time[middle] <= time ? &low : &high) = middle;
    }
    return low;
}

static double profile_slope(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    if (k < 0 || k + 1 >= profile->corners)
        return 0.0;
    return (profile->value[k + 1] - profile->value[k]) / (profile->time[k + 1] - profile->time[k]);
}

static double profile_value(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    if (k < 0)
        return profile->value[0];
    return profile->value[k] + profile_slope(profile, time) * (time - profile->time[k]);
}

static double profile_corner(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    return profile->corners > 1 && k + 1 < profile->corners ? profile->time[k + 1] : (double)INFINITY;
}

/* ---- as a hand has it ---- */

/* Where the way leads. */
static double way_end(const struct profile *file, const struct weather_way *way)
{
    return way->back ? profile_value(file, way->ends) : way->to;
}

static double way_slope(const struct profile *file, const struct weather_way *way, double time)
{
    if (time >= way->ends)
        return way->back ? profile_slope(file, time) : 0.0;
    return time < way->begins ? 0.0 : (way_end(file, way) - way->from) / (way->ends - way->begins);
}

static double way_value(const struct profile *file, const struct weather_way *way, double time)
{
    if (time >= way->ends)
        return way->back ? profile_value(file, time) : way->to;
    return time < way->begins ? way->from : way->from + way_slope(file, way, time) * (time - way->begins);
}

static double way_corner(const struct profile *file, const struct weather_way *way, double time)
{
    if (time < way->ends)
        return time < way->begins ? way->begins : way->ends;
    return way->back ? profile_corner(file, time) : (double)INFINITY;
}

/* ---- both ---- */

/* The hand's way for it; null: there is none. */
static const struct weather_way *way_of(const struct inputs *inputs, enum weather which)
{
    return inputs->weather && inputs->weather[which].given ? &inputs->weather[which] : NULL;
}

double weather_value(const struct network *network, const struct inputs *inputs, enum weather which, double time)
{
    const struct weather_way *way = way_of(inputs, which);
    const struct profile *file = &network->weather[which];
    return way ? way_value(file, way, time) : profile_value(file, time);
}

double weather_slope(const struct network *network, const struct inputs *inputs, enum weather which, double time)
{
    const struct weather_way *way = way_of(inputs, which);
    const struct profile *file = &network->weather[which];
    return way ? way_slope(file, way, time) : profile_slope(file, time);
}

double weather_corner(const struct network *network, const struct inputs *inputs, double time)
{
    double next = (double)INFINITY;
    for (enum weather w = 0; w < WEATHERS; w++) {
        const struct weather_way *way = way_of(inputs, w);
        const struct profile *file = &network->weather[w];
        next = fmin(next, way ? way_corner(file, way, time) : profile_corner(file, time));
    }
    return next;
}

double weather_begins(const struct network *network, enum weather which)
{
    return profile_value(&network->weather[which], 0.0);
}

struct surroundings_now surroundings_at(const struct network *network, const struct inputs *inputs, double time)
{
    const bool full = network->assume.heat == HEAT_FULL;
    return (struct surroundings_now){.pressure = weather_value(network, inputs, WEATHER_PRESSURE, time),
                                     .pressure_rate = weather_slope(network, inputs, WEATHER_PRESSURE, time),
                                     .temperature = weather_value(network, inputs, WEATHER_TEMPERATURE, time),
                                     .temperature_rate = weather_slope(network, inputs, WEATHER_TEMPERATURE, time),
                                     .sun = full ? weather_value(network, inputs, WEATHER_SUN, time) : 0.0,
                                     .wind = full ? weather_value(network, inputs, WEATHER_WIND, time) : 0.0};
}

const struct component *network_fuel_unknown(const struct network *network, double temperature)
{
    for (int k = 0; k < network->fuels; k++) {
        const struct temperature_range good = component_range(&network->fuel[k]);
        if (temperature < good.low || temperature > good.high)
            return &network->fuel[k];
    }
    return NULL;
}

static double fuel_volume(const struct network *network, double temperature)
{
    double sum = 0.0;
    for (int k = 0; k < network->fuels; k++)
        sum += network->fuel_stock[k] * component_volume(&network->fuel[k], temperature).value;
    return sum;
}

double network_fuel_swells(const struct network *network, double temperature)
{
    if (network->fuels == 0)
        return 0.0;
    return network->fill_level * fuel_volume(network, temperature) / fuel_volume(network, network->fill_temperature);
}
