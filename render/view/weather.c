/* weather.c  Units and rulers of air, sun and wind. Factors are exact by definition; the inch of mercury is the conventional one, as
 * the units list has it. */
#include "view/weather.h"

#include "ullage.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ZERO_CELSIUS 273.15         /* K */
#define ZERO_FAHRENHEIT 459.67      /* degF over absolute zero */
#define MERCURY_INCH 3386.388640341 /* Pa */
#define FOOT 0.3048                 /* m */
#define MILE_AN_HOUR 0.44704        /* m/s */

const struct weather_span weather_span[WEATHER_SPANS] = {
    {"10 s", "10s"}, {"1 min", "1min"}, {"5 min", "5min"}, {"20 min", "20min"}, {"1 h", "1h"}};

/* clang-format off */
static const struct weather_scale metric[] = {
    {ULLAGE_TEMPERATURE, 1.0, -ZERO_CELSIUS, "°C", "degC", -30.0, 50.0, 1.0, 0.1, 0.1},
    {ULLAGE_PRESSURE, 1e-2, 0.0, "hPa", "hPa", 900.0, 1060.0, 1.0, 0.1, 0.1},
    {ULLAGE_LENGTH, 1.0, 0.0, "m", "m", 0.0, 4000.0, 100.0, 10.0, 1.0},
    {ULLAGE_HEAT_FLUX, 1.0, 0.0, "W/m²", "W/m2", 0.0, 1200.0, 50.0, 10.0, 1.0},
    {ULLAGE_SPEED, 1.0, 0.0, "m/s", "m/s", 0.0, 20.0, 0.5, 0.1, 0.1},
};
static const struct weather_scale inch[] = {
    {ULLAGE_TEMPERATURE, 1.8, -ZERO_FAHRENHEIT, "°F", "degF", -20.0, 120.0, 1.0, 0.1, 0.1},
    {ULLAGE_PRESSURE, 1.0 / MERCURY_INCH, 0.0, "inHg", "inHg", 27.0, 31.0, 0.05, 0.01, 0.01},
    {ULLAGE_LENGTH, 1.0 / FOOT, 0.0, "ft", "ft", 0.0, 12000.0, 500.0, 50.0, 1.0},
    {ULLAGE_HEAT_FLUX, 1.0, 0.0, "W/m²", "W/m2", 0.0, 1200.0, 50.0, 10.0, 1.0},
    {ULLAGE_SPEED, 1.0 / MILE_AN_HOUR, 0.0, "mph", "mph", 0.0, 45.0, 1.0, 0.1, 0.1},
};
static const struct weather_scale kelvin =
    {ULLAGE_TEMPERATURE, 1.0, 0.0, "K", "K", 240.0, 320.0, 1.0, 0.1, 0.1};

/* clang-format on */

const struct weather_scale *weather_scale(int row, enum units units)
{
    const int dimension = ullage_weather_at(row).dimension;
    const struct weather_scale *of = units == UNITS_INCH ? inch : metric;
    if (units == UNITS_SI && dimension == ULLAGE_TEMPERATURE)
        return &kelvin;
    while (of->dimension != dimension)
        of++;
    return of;
}

/* ---- figures ------------------------------------------------------------------------------------------------------- */
static double shown(const struct weather_scale *scale, double si)
{
    return si * scale->scale + scale->offset;
}

static double meant(const struct weather_scale *scale, double number)
{
    return (number - scale->offset) / scale->scale;
}

struct figure weather_figure(int row, double si, enum units units)
{
    const struct weather_scale *scale = weather_scale(row, units);
    struct figure figure;
    number_text(shown(scale, si), scale->digits, figure.number, sizeof figure.number);
    snprintf(figure.unit, sizeof figure.unit, "%s", scale->unit);
    return figure;
}

/* ---- the ruler ----------------------------------------------------------------------------------------------------- */
static double rounded(double number, double step)
{
    return step * floor(number / step + 0.5);
}

static double allowed(int row, double si)
{
    const struct ullage_weather weather = ullage_weather_at(row);
    return fmin(fmax(si, weather.least), weather.most);
}

double weather_share(int row, double si, enum units units)
{
    const struct weather_scale *scale = weather_scale(row, units);
    const double share = (shown(scale, si) - scale->least) / (scale->most - scale->least);
    return fmin(fmax(share, 0.0), 1.0);
}

double weather_at(int row, double share, enum units units)
{
    const struct weather_scale *scale = weather_scale(row, units);
    const double within = fmin(fmax(share, 0.0), 1.0);
    return meant(scale, rounded(scale->least + within * (scale->most - scale->least), scale->finer));
}

double weather_step(int row, double si, int by, bool fine, enum units units)
{
    const struct weather_scale *scale = weather_scale(row, units);
    const double step = fine ? scale->finer : scale->step;
    return allowed(row, meant(scale, rounded(shown(scale, si) + by * step, step)));
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
const char *weather_typed(int row, const char *typed, enum units units, double *si)
{
    char *end;
    int dimension;
    const double bare = strtod(typed, &end);
    if (end != typed && *end == '\0') {
        *si = meant(weather_scale(row, units), bare);
        return isfinite(*si) ? NULL : "that is no number";
    }
    const char *wrong = ullage_quantity_read(typed, si, &dimension);
    if (wrong)
        return wrong;
    return dimension == ullage_weather_at(row).dimension ? NULL : "that is a quantity of another kind";
}

const char *weather_text(int row, double si, int span, enum units units, char *room, int size)
{
    const struct weather_scale *scale = weather_scale(row, units);
    snprintf(room, (size_t)size, "%.7g %s ramp=%s", shown(scale, si), scale->file_unit, weather_span[span].value);
    return room;
}

int weather_row(const char *key)
{
    for (int k = 0; k < ullage_weathers(); k++)
        if (!strcmp(ullage_weather_at(k).key, key))
            return k;
    return -1;
}
