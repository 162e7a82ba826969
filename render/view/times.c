/* times.c  When a fault is there: words, steps, typed times, and back into a command. */
#include "view/times.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MINUTE 60.0
#define HOUR 3600.0
#define LONG_AXIS 5400.0  /* s: from here on clocks tell hours and minutes, as clock_text does */
#define MOMENT_SHARE 20.0 /* steps between two moments, in a whole axis at least */
#define SPAN_SHARE 40.0   /* of the axis: the shortest span that is offered first */
#define AGAIN_SHARE 8.0   /* of the axis: how often what comes again does at first */
#define SAME 1e-9         /* of a step */

/* Spans that a step leads to, s. */
static const double spans[] = {0.1,    0.2,    0.5,    1.0,     2.0,     5.0,     10.0,   15.0,
                               20.0,   30.0,   60.0,   120.0,   300.0,   600.0,   900.0,  1200.0,
                               1800.0, 3600.0, 7200.0, 14400.0, 28800.0, 43200.0, 86400.0};

enum { SPANS = sizeof spans / sizeof spans[0] };

bool fault_timed(const struct fault_row *row)
{
    return !row->own && !row->fixed;
}

struct ullage_course times_usual(void)
{
    return (struct ullage_course){.from = (double)NAN, .until = (double)INFINITY};
}

bool times_are_usual(const struct ullage_course *course)
{
    return isnan(course->from) && isinf(course->until) && !(course->ramp > 0.0) && !(course->every > 0.0);
}

struct ullage_course times_of(const struct fault_row *row)
{
    struct ullage_course course = row->course;
    course.from = row->waits ? row->begins : (double)NAN;
    return course;
}

int times_lines(const struct fault_row *row, const struct ullage_course *course)
{
    if (row->poured)
        return TIME_AGAIN;
    return course->every > 0.0 ? TIME_LINES : TIME_LASTS;
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
const char *span_text(double seconds, char *room, int size)
{
    if (seconds >= HOUR && fabs(remainder(seconds, HOUR)) < SAME)
        snprintf(room, (size_t)size, "%g h", seconds / HOUR);
    else if (seconds >= MINUTE && fabs(remainder(seconds, MINUTE)) < SAME)
        snprintf(room, (size_t)size, "%g min", seconds / MINUTE);
    else
        snprintf(room, (size_t)size, "%.4g s", seconds);
    return room;
}

const char *time_name(enum time_line line)
{
    static const char *const names[] = {"begins", "grows over", "ends", "again every", "each time for"};
    return names[line];
}

const char *time_words(const struct ullage_course *course, enum time_line line, struct times_clock clock, char *room,
                       int size)
{
    const double at[] = {course->from, course->ramp, course->until, course->every, course->lasts};
    static const char *const usual[] = {"now", "at once", "stays", "no", ""};
    const bool moment = line == TIME_BEGINS || line == TIME_ENDS;
    if (!isfinite(at[line]) || (line != TIME_BEGINS && !(at[line] > 0.0)))
        snprintf(room, (size_t)size, "%s", usual[line]);
    else if (moment)
        clock_text(at[line], clock.whole, room, size);
    else
        span_text(at[line], room, size);
    return room;
}

static void words_add(char *room, int size, const char *before, const char *words)
{
    const size_t used = strlen(room);
    snprintf(room + used, (size_t)size - used, "%s%s%s", used > 0 ? ", " : "", before, words);
}

const char *times_words(const struct ullage_course *course, struct times_clock clock, char *room, int size)
{
    char word[40], second[40], turns[96];
    room[0] = '\0';
    if (isfinite(course->from))
        words_add(room, size, "from ", time_words(course, TIME_BEGINS, clock, word, sizeof word));
    if (course->ramp > 0.0)
        words_add(room, size, "over ", span_text(course->ramp, word, sizeof word));
    if (course->every > 0.0) {
        snprintf(turns, sizeof turns, "%s for %s", span_text(course->every, word, sizeof word),
                 span_text(course->lasts, second, sizeof second));
        words_add(room, size, "every ", turns);
    }
    if (isfinite(course->until))
        words_add(room, size, "until ", time_words(course, TIME_ENDS, clock, word, sizeof word));
    return room;
}

/* ---- changed ------------------------------------------------------------------------------------------------------- */
static double begins_at(const struct ullage_course *course, struct times_clock clock)
{
    return isnan(course->from) ? clock.now : course->from;
}

/* What one line has come to; the others give way. */
static void line_set(struct ullage_course *course, enum time_line line, double value, struct times_clock clock)
{
    double *const at[] = {&course->from, &course->ramp, &course->until, &course->every, &course->lasts};
    *at[line] = value;
    if (!(course->from > clock.now))
        course->from = (double)NAN;
    if (course->until <= begins_at(course, clock))
        course->until = (double)INFINITY;
    if (!(course->every > 0.0))
        course->every = course->lasts = 0.0;
    else if (line == TIME_LASTS)
        course->lasts = fmin(course->lasts, course->every);
    else if (!(course->lasts > 0.0) || course->lasts > course->every)
        course->lasts = 0.5 * course->every;
}

void times_clear(struct ullage_course *course, enum time_line line)
{
    const struct ullage_course usual = times_usual();
    const double clear[] = {usual.from, 0.0, usual.until, 0.0, 0.5 * course->every};
    line_set(course, line, clear[line], (struct times_clock){-(double)INFINITY, 0.0});
}

static double moment_apart(struct times_clock clock)
{
    int k = 0;
    while (k + 1 < SPANS && spans[k + 1] <= clock.whole / MOMENT_SHARE)
        k++;
    return spans[k];
}

/* The next round moment; before `earliest` there is none, NAN. */
static double moment_step(double at, int steps, double earliest, double apart)
{
    const double turn = at / apart, next = steps > 0 ? floor(turn + SAME) + steps : ceil(turn - SAME) + steps;
    return next * apart > earliest * (1.0 + SAME) ? next * apart : (double)NAN;
}

static double span_step(double at, int steps, double first)
{
    int k = 0;
    if (!(at > 0.0) && steps > 0) {
        while (k + 1 < SPANS && spans[k] < first)
            k++;
        return spans[k];
    }
    while (k < SPANS && spans[k] < at * (1.0 - SAME)) /* the first that is not shorter */
        k++;
    if (steps > 0 && k < SPANS && spans[k] > at * (1.0 + SAME)) /* it stands between two: that is a step already */
        steps--;
    k += steps;
    return k < 0 ? 0.0 : spans[k < SPANS ? k : SPANS - 1];
}

void times_step(struct ullage_course *course, enum time_line line, int steps, struct times_clock clock)
{
    const double apart = moment_apart(clock), begins = begins_at(course, clock);
    double value = 0.0;
    switch (line) {
    case TIME_BEGINS:
        value = moment_step(begins, steps, clock.now, apart);
        break;
    case TIME_ENDS:
        value = isinf(course->until) && steps < 0
                    ? (double)NAN
                    : moment_step(isinf(course->until) ? begins : course->until, steps, begins, apart);
        value = isnan(value) ? (double)INFINITY : value;
        break;
    case TIME_OVER:
        value = span_step(course->ramp, steps, clock.whole / SPAN_SHARE);
        break;
    case TIME_AGAIN:
        value = span_step(course->every, steps, clock.whole / AGAIN_SHARE);
        break;
    default:
        value = span_step(course->lasts, steps, spans[0]);
        value = value > 0.0 ? value : course->lasts;
        break;
    }
    line_set(course, line, value, clock);
}

/* "2:00" as the axis has it: minutes and seconds, or hours and minutes. */
static bool clock_read(const char *typed, double whole, double *seconds)
{
    int large, small, end = 0;
    if (sscanf(typed, "%6d:%2d%n", &large, &small, &end) != 2 || typed[end] != '\0' || large < 0 || small < 0 ||
        small > 59)
        return false;
    *seconds = (whole > LONG_AXIS ? HOUR : MINUTE) * large + (whole > LONG_AXIS ? MINUTE : 1.0) * small;
    return true;
}

static const char *time_read(const char *typed, double whole, double *seconds)
{
    char *end;
    int dimension;
    const double bare = strtod(typed, &end);
    if (clock_read(typed, whole, seconds))
        return NULL;
    if (end != typed && *end == '\0') {
        *seconds = bare;
        return isfinite(bare) && bare >= 0.0 ? NULL : "write a time like 30 s";
    }
    const char *wrong = ullage_quantity_read(typed, seconds, &dimension);
    return !wrong && dimension == ULLAGE_TIME && *seconds >= 0.0 ? NULL
                                                                 : "write a time like 30 s, or 2:00 on the clock";
}

const char *times_typed(struct ullage_course *course, enum time_line line, const char *typed, struct times_clock clock)
{
    double seconds;
    const char *wrong = time_read(typed, clock.whole, &seconds);
    if (wrong)
        return wrong;
    if (line == TIME_BEGINS && seconds < clock.now)
        return "that moment is over: go back to it, or before it, first";
    if (line == TIME_ENDS && seconds <= begins_at(course, clock))
        return "it would end before it begins";
    if (line == TIME_LASTS && !(seconds > 0.0))
        return "it has to last a while";
    line_set(course, line, seconds, clock);
    return NULL;
}

/* ---- into a command ------------------------------------------------------------------------------------------------ */
/* To the bit. */
static void time_add(char *room, int size, const char *key, double seconds)
{
    const size_t used = strlen(room);
    const bool minutes = seconds >= MINUTE && !(fabs(remainder(seconds, MINUTE)) > 0.0);
    char number[32];
    for (int digits = 6; digits <= 17; digits++) {
        snprintf(number, sizeof number, "%.*g", digits, minutes ? seconds / MINUTE : seconds);
        if (!(fabs(strtod(number, NULL) - (minutes ? seconds / MINUTE : seconds)) > 0.0))
            break;
    }
    snprintf(room + used, (size_t)size - used, " %s=%s %s", key, number, minutes ? "min" : "s");
}

const char *times_value(const struct fault_row *row, double size, const struct ullage_course *course, double now,
                        bool end_alone, char *room, int room_size)
{
    fault_value(row, size, room, room_size);
    const size_t bare = strlen(room);
    if (course->from > now && !end_alone)
        time_add(room, room_size, "from", course->from);
    if (course->ramp > 0.0 && !end_alone)
        time_add(room, room_size, "ramp", course->ramp);
    if (isfinite(course->until) && course->until > now)
        time_add(room, room_size, "until", course->until);
    if (course->every > 0.0 && !end_alone) {
        time_add(room, room_size, "every", course->every);
        time_add(room, room_size, "for", course->lasts);
    }
    if (strlen(room) == bare) /* said, so that what it had is no more */
        time_add(room, room_size, "ramp", 0.0);
    return room;
}
