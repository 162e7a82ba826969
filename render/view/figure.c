/* figure.c  Numbers for persons. Factors are exact by definition (inch, inch of water at 4 degC as the units list has it). */
#include "view/figure.h"

#include "ullage.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define INCH 0.0254          /* m */
#define WATER_INCH 249.08891 /* Pa */
#define ZERO_CELSIUS 273.15  /* K */
#define WARMING ULLAGE_POWERS(0, 0, -1, 1, 0)
#define SMALL_LEAST 5e-5     /* of a unit: what is smaller is none */

/* How one dimension is shown. digits: significant ones wanted; decimals: the most and the fewest. */
struct habit {
    int dimension;
    double scale, offset;
    const char *unit;
    int digits, fewest, most;
    double small; /* shown sizes below this are told in thousandths: 20 Pa rather than 0.020 kPa; 0: never */
    const char *thousandth;
};

/* clang-format off */
static const struct habit metric[] = {
    {ULLAGE_NUMBER, 100.0, 0.0, "%", 2, 0, 1, 0.0, ""},
    {ULLAGE_PRESSURE, 1e-3, 0.0, "kPa", 3, 1, 2, 0.0995, "Pa"},
    {ULLAGE_PRESSURE_RATE, 1.0, 0.0, "Pa/s", 3, 0, 2, 0.0, ""},
    {ULLAGE_VOLUME_FLOW, 6e4, 0.0, "L/min", 3, 0, 2, 0.0995, "mL/min"},
    {ULLAGE_MASS_FLOW, 6e4, 0.0, "g/min", 3, 0, 3, 0.0, ""},
    {ULLAGE_AMOUNT_FLOW, 60.0, 0.0, "mol/min", 3, 0, 4, 0.0, ""},
    {ULLAGE_LENGTH, 1e3, 0.0, "mm", 3, 1, 2, 0.0, ""},
    {ULLAGE_VOLUME, 1e3, 0.0, "L", 3, 1, 2, 0.0, ""},
    {ULLAGE_TEMPERATURE, 1.0, -ZERO_CELSIUS, "°C", 3, 1, 1, 0.0, ""},
    {ULLAGE_TIME, 1.0, 0.0, "s", 3, 0, 2, 0.0, ""},
    {WARMING, 60.0, 0.0, "K/min", 3, 0, 2, 0.0, ""},
    {ULLAGE_MASS, 1e3, 0.0, "g", 3, 1, 2, 0.0, ""},
    {ULLAGE_SPEED, 1.0, 0.0, "m/s", 3, 0, 3, 0.0, ""},
    {ULLAGE_HEAT_FLUX, 1.0, 0.0, "W/m²", 3, 0, 1, 0.0, ""},
};
static const struct habit inch[] = {
    {ULLAGE_PRESSURE, 1.0 / WATER_INCH, 0.0, "inH₂O", 3, 1, 2, 0.0, ""},
    {ULLAGE_LENGTH, 1.0 / INCH, 0.0, "in", 3, 3, 3, 0.0, ""},
    {ULLAGE_TEMPERATURE, 1.8, 32.0 - 1.8 * ZERO_CELSIUS, "°F", 3, 1, 1, 0.0, ""},
};
static const struct habit si_units[] = {
    {ULLAGE_NUMBER, 1.0, 0.0, "", 3, 0, 3, 0.0, ""},
    {ULLAGE_PRESSURE, 1.0, 0.0, "Pa", 4, 0, 1, 0.0, ""},
    {ULLAGE_VOLUME_FLOW, 1e6, 0.0, "cm³/s", 3, 0, 2, 0.0, ""},
    {ULLAGE_MASS_FLOW, 1e6, 0.0, "mg/s", 3, 0, 2, 0.0, ""},
    {ULLAGE_LENGTH, 1e3, 0.0, "mm", 3, 1, 2, 0.0, ""},
    {ULLAGE_TEMPERATURE, 1.0, 0.0, "K", 4, 1, 1, 0.0, ""},
    {WARMING, 1e3, 0.0, "mK/s", 3, 0, 2, 0.0, ""},
    {ULLAGE_TIME, 1.0, 0.0, "s", 3, 0, 2, 0.0, ""},
};

/* clang-format on */

static const struct habit *habit_find(const struct habit *habit, size_t count, int dimension)
{
    for (size_t k = 0; k < count; k++)
        if (habit[k].dimension == dimension)
            return &habit[k];
    return NULL;
}

static struct habit habit_of(int dimension, enum units units, char *room)
{
    const struct habit *found = NULL;
    if (units == UNITS_INCH)
        found = habit_find(inch, sizeof inch / sizeof inch[0], dimension);
    if (units == UNITS_SI)
        found = habit_find(si_units, sizeof si_units / sizeof si_units[0], dimension);
    else if (!found)
        found = habit_find(metric, sizeof metric / sizeof metric[0], dimension);
    if (found)
        return *found;
    return (struct habit){dimension, 1.0, 0.0, ullage_dimension_name(dimension, room), 3, 0, -1, 0.0, ""};
}

struct unit_view unit_view(int dimension, enum units units)
{
    return unit_view_of(dimension, units, (double)INFINITY);
}

struct unit_view unit_view_of(int dimension, enum units units, double largest)
{
    char room[64];
    const struct habit habit = habit_of(dimension, units, room);
    const bool small = fabs(largest * habit.scale) < habit.small;
    struct unit_view view = {habit.scale * (small ? 1e3 : 1.0), habit.offset, ""};
    snprintf(view.unit, sizeof view.unit, "%s", small ? habit.thousandth : habit.unit);
    return view;
}

/* Replaces the hyphen that printf writes before a negative number, and drops it before a zero. */
static void minus_mend(char *room, int size)
{
    char *hyphen = strchr(room, '-');
    if (!hyphen)
        return;
    if (hyphen == room && !strpbrk(room, "123456789")) {
        memmove(room, room + 1, strlen(room));
        return;
    }
    char after[64];
    snprintf(after, sizeof after, "%s", hyphen + 1);
    snprintf(hyphen, (size_t)(size - (hyphen - room)), "−%s", after);
}

static int decimals_for(double shown, const struct habit *habit)
{
    const double size = fabs(shown);
    const int whole = size >= 1.0 ? (int)floor(log10(size)) + 1 : 1;
    const int wanted = habit->digits - whole;
    return wanted < habit->fewest ? habit->fewest : wanted > habit->most ? habit->most : wanted;
}

/* As few thousandths as are worth telling, in the smaller unit. */
static bool told_small(double shown, const struct habit *habit)
{
    return fabs(shown) < habit->small && fabs(shown) >= SMALL_LEAST;
}

struct figure figure_make(double si, int dimension, enum units units)
{
    char room[64];
    const struct habit habit = habit_of(dimension, units, room);
    const double shown = si * habit.scale + habit.offset;
    const bool small = told_small(shown, &habit);
    struct figure figure = {"", ""};
    snprintf(figure.unit, sizeof figure.unit, "%s", small ? habit.thousandth : habit.unit);
    if (!isfinite(shown))
        snprintf(figure.number, sizeof figure.number, "–");
    else if (small)
        snprintf(figure.number, sizeof figure.number, "%.*f", fabs(shown) < 0.00995 ? 1 : 0, 1e3 * shown);
    else if (habit.most < 0)
        snprintf(figure.number, sizeof figure.number, "%.3g", shown);
    else
        snprintf(figure.number, sizeof figure.number, "%.*f", decimals_for(shown, &habit), shown);
    minus_mend(figure.number, sizeof figure.number);
    return figure;
}

const char *figure_text(double si, int dimension, enum units units, char *room, int size)
{
    const struct figure figure = figure_make(si, dimension, units);
    snprintf(room, (size_t)size, "%s%s%s", figure.number, *figure.unit ? " " : "", figure.unit);
    return room;
}

const char *number_text(double shown, double digit, char *room, int size)
{
    const int decimals = digit >= 1.0 ? 0 : (int)ceil(-log10(digit) - 1e-9);
    snprintf(room, (size_t)size, "%.*f", decimals > 9 ? 9 : decimals, shown);
    minus_mend(room, size);
    return room;
}

const char *clock_text(double time, double whole, char *room, int size)
{
    const int64_t seconds = (int64_t)floor(fmax(time, 0.0) + 1e-9);
    if (whole <= 20.0)
        snprintf(room, (size_t)size, "%.*f s", whole > 2.0 ? 1 : whole > 0.2 ? 2 : 3, time);
    else if (whole <= 5400.0)
        snprintf(room, (size_t)size, "%d:%02d", (int)(seconds / 60), (int)(seconds % 60));
    else
        snprintf(room, (size_t)size, "%d:%02d h", (int)(seconds / 3600), (int)(seconds / 60 % 60));
    return room;
}

const char *rate_text(double rate, char *room, int size)
{
    char number[32];
    if (rate >= 1000.0)
        snprintf(number, sizeof number, "%d,%03d", (int)rate / 1000, (int)rate % 1000);
    else
        snprintf(number, sizeof number, "%g", rate);
    snprintf(room, (size_t)size, "%s× real time", number);
    return room;
}
