/* report/figure.c  Numbers as a person says them: three figures, the unit that makes them short, and for pressures and
 * holes both the metric unit and the shop's. */
#include "report/figure.h"

#include "ullage.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Units of one dimension, largest first; the first whose `least` (in SI) the value reaches is taken. */
struct scale {
    int dimension;
    double least, factor, offset; /* SI = number * factor + offset */
    const char *unit;
};

/* clang-format off */
static const struct scale scales[] = {
    {ULLAGE_LENGTH,        1.0,    1.0,       0.0,    "m"},
    {ULLAGE_LENGTH,        0.0,    1e-3,      0.0,    "mm"},
    {ULLAGE_AREA,          1.0,    1.0,       0.0,    "m2"},
    {ULLAGE_AREA,          1e-4,   1e-4,      0.0,    "cm2"},
    {ULLAGE_AREA,          0.0,    1e-6,      0.0,    "mm2"},
    {ULLAGE_VOLUME,        1.0,    1.0,       0.0,    "m3"},
    {ULLAGE_VOLUME,        1e-4,   1e-3,      0.0,    "L"},
    {ULLAGE_VOLUME,        0.0,    1e-6,      0.0,    "mL"},
    {ULLAGE_MASS,          1.0,    1.0,       0.0,    "kg"},
    {ULLAGE_MASS,          1e-4,   1e-3,      0.0,    "g"},
    {ULLAGE_MASS,          0.0,    1e-6,      0.0,    "mg"},
    {ULLAGE_AMOUNT,        0.0,    1.0,       0.0,    "mol"},
    {ULLAGE_DENSITY,       0.0,    1.0,       0.0,    "kg/m3"},
    {ULLAGE_PRESSURE,      1000.0, 1e3,       0.0,    "kPa"},
    {ULLAGE_PRESSURE,      0.0,    1.0,       0.0,    "Pa"},
    {ULLAGE_PRESSURE_RATE, 0.0,    1.0,       0.0,    "Pa/s"},
    {ULLAGE_TEMPERATURE,   0.0,    1.0,       273.15, "°C"},
    {ULLAGE_MASS_FLOW,     1e-3,   1e-3,      0.0,    "g/s"},
    {ULLAGE_MASS_FLOW,     0.0,    1e-6,      0.0,    "mg/s"},
    {ULLAGE_AMOUNT_FLOW,   0.0,    1.0,       0.0,    "mol/s"},
    {ULLAGE_VOLUME_FLOW,   0.0,    1e-3 / 60, 0.0,    "L/min"},
    {ULLAGE_GIVE,          0.0,    1e-6,      0.0,    "L/kPa"},
    {ULLAGE_ENERGY,        1e3,    1e3,       0.0,    "kJ"},
    {ULLAGE_ENERGY,        0.0,    1.0,       0.0,    "J"},
    {ULLAGE_POWER,         0.0,    1.0,       0.0,    "W"},
    {ULLAGE_SPEED,         0.0,    1.0,       0.0,    "m/s"},
    {ULLAGE_RATE,          0.0,    1.0,       0.0,    "/s"},
    {ULLAGE_HEAT_CAPACITY, 0.0,    1.0,       0.0,    "J/K"},
    {ULLAGE_HEAT_FLUX,     0.0,    1.0,       0.0,    "W/m2"},
    {ULLAGE_HEAT_TRANSFER, 0.0,    1.0,       0.0,    "W/m2/K"},
};
/* clang-format on */

static const double inch = 0.0254;             /* m, by definition */
static const double inch_of_water = 249.08891; /* Pa */
static const double column_most = 25e3;        /* Pa: nobody tells more than 100 inches of water so */
static const double column_least = 2.0;        /* Pa: nor less than a hundredth of one */
static const double inches_most = 0.05;        /* m: larger things are not told in inches */

/* Rounds to `figures` significant ones, without an exponent where that stays short. */
static void number_put(double value, int figures, char *room)
{
    char rounded[32];
    snprintf(rounded, sizeof rounded, "%.*e", figures - 1, value); /* rounding first: 9.996 has its point after two */
    const char *mark = strchr(rounded, 'e');
    const int exponent = mark ? (int)strtol(mark + 1, NULL, 10) : 0;
    const int decimals = figures - 1 - exponent;
    if (value == 0.0)
        snprintf(room, FIGURE_ROOM, "0");
    else if (exponent < -4 || exponent > 6)
        snprintf(room, FIGURE_ROOM, "%.*g", figures, value);
    else
        snprintf(room, FIGURE_ROOM, "%.*f", decimals > 0 ? decimals : 0, value);
}

/* The row of scales for a value, or null where the dimension has none. */
static const struct scale *scale_find(double value, int dimension)
{
    for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++)
        if (scales[i].dimension == dimension && fabs(value) >= scales[i].least)
            return &scales[i];
    return NULL;
}

static const char *si_put(double value, int dimension, int figures, char *room)
{
    char unit[64];
    ullage_dimension_name(dimension, unit);
    snprintf(room, FIGURE_ROOM, "%.*g%s%s", figures, value, strcmp(unit, "1") == 0 ? "" : " ",
             strcmp(unit, "1") == 0 ? "" : unit);
    return room;
}

static const char *scaled_put(double value, const struct scale *scale, int figures, char *room)
{
    char number[FIGURE_ROOM];
    number_put((value - scale->offset) / scale->factor, figures, number);
    snprintf(room, FIGURE_ROOM, "%.60s %s", number, scale->unit);
    return room;
}

/* "3.00 kPa (12.0 inH2O)"; the atmosphere itself is told in kPa alone. */
static const char *pressure_put(double value, char *room)
{
    char metric[FIGURE_ROOM];
    char shop[FIGURE_ROOM];
    const bool alone = fabs(value) > column_most || fabs(value) < column_least;
    scaled_put(value, scale_find(value, ULLAGE_PRESSURE), fabs(value) >= 99950.0 ? 4 : 3, metric);
    number_put(value / inch_of_water, 3, shop);
    if (alone)
        snprintf(room, FIGURE_ROOM, "%s", metric);
    else
        snprintf(room, FIGURE_ROOM, "%.40s (%.40s inH2O)", metric, shop);
    return room;
}

/* "0.51 mm (0.020 in)": as finely as holes are told; larger things with three figures, in inches up to 50 mm. */
static const char *length_put(double value, char *room)
{
    const double size = fabs(value);
    if (size > inches_most)
        return scaled_put(value, scale_find(value, ULLAGE_LENGTH), 3, room);
    if (size >= 1e-4 && size < 1e-2)
        snprintf(room, FIGURE_ROOM, "%.2f mm (%.3f in)", value / 1e-3, value / inch);
    else
        snprintf(room, FIGURE_ROOM, "%.3g mm (%.3g in)", value / 1e-3, value / inch);
    return room;
}

/* "0.57 L/min": hundredths are the finest a flow tube is read to, and small flows keep two figures. */
static const char *flow_put(double value, char *room)
{
    const double litres_a_minute = value / (1e-3 / 60.0);
    const double size = fabs(litres_a_minute);
    char number[FIGURE_ROOM];
    number_put(litres_a_minute, size < 0.0995 ? 2 : 3, number);
    if (size >= 0.0995 && size < 0.995)
        snprintf(number, sizeof number, "%.2f", litres_a_minute);
    snprintf(room, FIGURE_ROOM, "%.60s L/min", number);
    return room;
}

const char *figure_value(double value, int dimension, enum figure_units units, char *room)
{
    if (isnan(value)) {
        snprintf(room, FIGURE_ROOM, "not known");
        return room;
    }
    if (units == FIGURE_SI)
        return si_put(value, dimension, 6, room);
    switch (dimension) {
    case ULLAGE_PRESSURE:
        return pressure_put(value, room);
    case ULLAGE_LENGTH:
        return length_put(value, room);
    case ULLAGE_VOLUME_FLOW:
        return flow_put(value, room);
    case ULLAGE_TIME:
        return figure_span(value, room);
    case ULLAGE_TEMPERATURE:
        snprintf(room, FIGURE_ROOM, "%.1f °C", value - 273.15);
        return room;
    case ULLAGE_NUMBER:
        number_put(value, 3, room);
        return room;
    default:
        break;
    }
    const struct scale *scale = scale_find(value, dimension);
    return scale ? scaled_put(value, scale, 3, room) : si_put(value, dimension, 3, room);
}

const char *figure_plain(double value, int dimension, char *room)
{
    const struct scale *scale = scale_find(value, dimension);
    if (!scale || !isfinite(value))
        return si_put(value, dimension, 4, room);
    const double told = (value - scale->offset) / scale->factor;
    snprintf(room, FIGURE_ROOM, "%.*g %s", fabs(told) < 9999.5 ? 4 : 5, told, scale->unit);
    return room;
}

const char *figure_difference(double value, int dimension, char *room)
{
    const int kelvin_rate = ULLAGE_POWERS(0, 0, -1, 1, 0);
    if (dimension == ULLAGE_TEMPERATURE)
        snprintf(room, FIGURE_ROOM, "%.4g K", value);
    else if (dimension == kelvin_rate)
        snprintf(room, FIGURE_ROOM, "%.4g K/s", value);
    else if (dimension == ULLAGE_RATE)
        snprintf(room, FIGURE_ROOM, "%.4g 1/s", value);
    else
        figure_plain(value, dimension, room);
    return room;
}

const char *figure_clock(double seconds, char *room)
{
    const double whole = floor(fmax(seconds, 0.0) + 0.5);
    const double hours = floor(whole / 3600.0);
    const int minutes = (int)(fmod(whole, 3600.0) / 60.0);
    const int rest = (int)fmod(whole, 60.0);
    if (hours > 0.0)
        snprintf(room, FIGURE_ROOM, "%.0f:%02d:%02d", hours, minutes, rest);
    else
        snprintf(room, FIGURE_ROOM, "%d:%02d", minutes, rest);
    return room;
}

/* "2 min 31 s", "3 h 20 min", and without the second part where that is none. */
static void two_units_put(double large, const char *large_unit, int small, const char *small_unit, char *room)
{
    if (small > 0)
        snprintf(room, FIGURE_ROOM, "%.0f %s %d %s", large, large_unit, small, small_unit);
    else
        snprintf(room, FIGURE_ROOM, "%.0f %s", large, large_unit);
}

const char *figure_span(double seconds, char *room)
{
    const double whole = floor(seconds + 0.5);
    const double minutes = floor(seconds / 60.0 + 0.5);
    char number[FIGURE_ROOM];
    if (!isfinite(seconds)) {
        snprintf(room, FIGURE_ROOM, "without end");
    } else if (seconds < 119.95) {
        number_put(seconds, fabs(seconds) < 9.995 ? 2 : 3, number);
        snprintf(room, FIGURE_ROOM, "%.60s s", number);
    } else if (whole < 3600.0) {
        two_units_put(floor(whole / 60.0), "min", (int)fmod(whole, 60.0), "s", room);
    } else {
        two_units_put(floor(minutes / 60.0), "h", (int)fmod(minutes, 60.0), "min", room);
    }
    return room;
}

const char *figure_times(double ratio, char *room)
{
    char number[FIGURE_ROOM];
    if (fabs(ratio - 2.0) < 0.005)
        snprintf(room, FIGURE_ROOM, "twice as");
    else if (fabs(ratio - 0.5) < 0.00125)
        snprintf(room, FIGURE_ROOM, "half as");
    else {
        number_put(ratio, ratio < 10.0 ? 2 : 3, number);
        snprintf(room, FIGURE_ROOM, "%.60s times as", number);
    }
    return room;
}

const char *figure_words(const char *name, bool capital, char *room)
{
    snprintf(room, FIGURE_ROOM, "%s", name);
    for (char *at = room; *at; at++)
        if (*at == '-' || *at == '_' || *at == '.')
            *at = ' ';
    if (capital && *room >= 'a' && *room <= 'z')
        *room = (char)(*room - 'a' + 'A');
    return room;
}
