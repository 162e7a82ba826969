/* times_page.c  The times of a fault in the drawer. The quiet line says them in words and opens; opened, each has a line that is
 * stepped by its signs, by the wheel and by keys, or typed. */
#include "view/times_page.h"

#include "view/column.h"
#include "view/faults_page.h"
#include "view/steps.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define LINE 37.0   /* u from one line to the next */
#define SIGN 15.0   /* u: half of a sign's ring */
#define VALUE 190.0 /* u between the signs */
#define MARK 6.0    /* u wide: the bar beside the line under the cursor */

struct times_clock times_clock_of(const struct scene *scene)
{
    double tick;
    return (struct times_clock){scene->now->time, plan_whole(scene->plan, scene->now, &tick)};
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
static const char *clock_of(const struct scene *scene, double time, char *room, int size)
{
    return clock_text(time, times_clock_of(scene).whole, room, size);
}

const char *times_state(const struct scene *scene, const struct fault_row *row, char *room, int size)
{
    char clock[32];
    if (row->fixed)
        snprintf(room, (size_t)size, "%s", row->in ? "in" : "not in this run");
    else if (row->waits)
        snprintf(room, (size_t)size, "waits for %s", clock_of(scene, row->begins, clock, sizeof clock));
    else if (row->in && row->share < 1.0)
        snprintf(room, (size_t)size, row->poured ? "%.0f %% of it is in" : "comes on: %.0f %% of it",
                 100.0 * row->share);
    else if (row->in && isfinite(row->since))
        snprintf(room, (size_t)size, "in since %s", clock_of(scene, row->since, clock, sizeof clock));
    else
        snprintf(room, (size_t)size, "%s", row->own ? (row->in ? "open" : "plugged") : row->in ? "in" : "not in");
    return room;
}

const char *times_sized(const struct scene *scene, const struct fault_row *row, const char *text, char *room, int size)
{
    char clock[32];
    if (row->waits)
        snprintf(room, (size_t)size, "%s from %s", text, clock_of(scene, row->begins, clock, sizeof clock));
    else if (row->in && row->share < 1.0)
        snprintf(room, (size_t)size, "%.0f %% of %s", 100.0 * row->share, text);
    else
        snprintf(room, (size_t)size, "%s", text);
    return room;
}

/* ---- the quiet line ------------------------------------------------------------------------------------------------ */
double times_line_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                       const struct fault_row *row)
{
    const struct text_style soft = {22.0, 400, COLOUR_SOFT, 0.0};
    const struct ullage_course course = drawer_course(&scene->view->drawer, row, scene->now->time);
    const bool open = scene->view->drawer.time >= 0;
    char words[160];
    if (!fault_timed(row))
        return baseline;
    times_words(&course, times_clock_of(scene), words, sizeof words);
    const double right = drawer_word_draw(frame, x1, baseline, DRAWER_TIMES, open ? "done" : "times") - 14.0;
    column_fitted(frame, x0, baseline, right - x0, soft, *words ? words : row->in ? "and stays" : "from now on");
    return baseline + LINE;
}

/* ---- a line for each ----------------------------------------------------------------------------------------------- */
static void sign_draw(struct frame *frame, double x, double y, bool more, int word)
{
    frame_path(frame);
    frame_circle(frame, x, y, SIGN);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 2.0);
    frame_rule(frame, x - 7.0, y, x + 7.0, y, COLOUR_INK, 2.6);
    if (more)
        frame_rule(frame, x, y - 7.0, x, y + 7.0, COLOUR_INK, 2.6);
    frame_spot(frame, SPOT_DRAWER, word, (struct frame_box){x - SIGN, y - SIGN, x + SIGN, y + SIGN}, 0.0, 0.0);
}

static void line_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                      const struct fault_row *row, const struct ullage_course *course, enum time_line line)
{
    const bool chosen = scene->view->drawer.time == (int)line;
    const struct text_style name = {26.0, 400, COLOUR_INK, 0.0}, value = {26.0, 600, COLOUR_INK, 0.5};
    const int word = DRAWER_TIME_LINE + DRAWER_TIME_WORDS * (int)line;
    const double y = baseline - 9.0, less = x1 - 2.0 * SIGN - VALUE - SIGN, more = x1 - SIGN;
    char text[48];
    if (chosen && *scene->view->typed)
        snprintf(text, sizeof text, "%s|", scene->view->typed);
    else
        time_words(course, line, times_clock_of(scene), text, sizeof text);
    if (row->poured && line == TIME_OVER && !(course->ramp > 0.0) && !(chosen && *scene->view->typed))
        snprintf(text, sizeof text, "as is usual"); /* liquid takes its time */
    column_fitted(frame, x0, baseline, less - SIGN - x0 - 8.0, name, time_name(line));
    frame_text(frame, 0.5 * (less + more), baseline, value, text);
    frame_spot(frame, SPOT_DRAWER, word, (struct frame_box){x0, baseline - 26.0, x1, baseline + 9.0}, 0.0, 0.0);
    sign_draw(frame, less, y, false, word + DRAWER_TIME_LESS - DRAWER_TIME_LINE);
    sign_draw(frame, more, y, true, word + DRAWER_TIME_MORE - DRAWER_TIME_LINE);
    if (chosen)
        frame_bar(frame, x0 - 16.0, baseline - 24.0, MARK, 32.0, COLOUR_INK);
}

double times_lines_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                        const struct fault_row *row)
{
    const struct ullage_course course = drawer_course(&scene->view->drawer, row, scene->now->time);
    for (int line = 0; line < times_lines(row, &course); line++, baseline += LINE)
        line_draw(frame, scene, x0, x1, baseline, row, &course, (enum time_line)line);
    return baseline;
}
