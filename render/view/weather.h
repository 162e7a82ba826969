/* weather.h  The surroundings as a person sets them: in which units, on which ruler, within how long. Knows no ink. Rows are those
 * of ullage_weather_at. */
#ifndef VIEW_WEATHER_H
#define VIEW_WEATHER_H

#include "view/figure.h"

#include <stdbool.h>

enum { WEATHERS_MOST = 8, WEATHER_SPANS = 5 };

/* What the person has chosen of its page. */
struct weather_view {
    int row;       /* whose ruler is open; -1: none, the list is */
    int cursor;    /* row that keys act on */
    int span;      /* how long a way takes: of weather_span */
    bool held;     /* the knob is being dragged: */
    double wanted; /* SI, to there */
};

/* "20 min" as it is read, "20min" as a command has it. */
struct weather_span {
    const char *words, *value;
};
extern const struct weather_span weather_span[WEATHER_SPANS];

/* One quantity's unit and ruler; shown = si * scale + offset. */
struct weather_scale {
    int dimension;
    double scale, offset;
    const char *unit, *file_unit;
    double least, most;         /* shown, at the ends of the ruler: what days bring. What is typed may go farther */
    double step, finer, digits; /* shown: of an arrow; of one with Shift, and of dragging; of figures */
};
const struct weather_scale *weather_scale(int row, enum units units);

struct figure weather_figure(int row, double si, enum units units);
double weather_share(int row, double si, enum units units); /* of the ruler, 0..1 */
double weather_at(int row, double share, enum units units); /* SI */
double weather_step(int row, double si, int by, bool fine,
                    enum units units); /* SI, on the ruler's own steps, within what may be */
/* What was typed: a bare number is in the unit shown. Null, or a sentence that says what would be right. */
const char *weather_typed(int row, const char *typed, enum units units, double *si);
/* "35 degC ramp=20min" */
const char *weather_text(int row, double si, int span, enum units units, char *room, int size);
/* The row of "surroundings.temperature"; -1: it is none of them. */
int weather_row(const char *key);

#endif
