/* clock.c  The time bar: steps are lengths on it, the present one ink, later ones outlined. */
#include "view/chart/chart.h"
#include "view/naming.h"
#include "view/sentence.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define RUN_WITHIN 8.0 /* u: changes of one thing this close are one */

enum { AHEAD_MOST = 128 };

static double bar_x(const struct clock_bar *bar, double time)
{
    return bar->x0 + (bar->x1 - bar->x0) * fmin(fmax(time / bar->whole, 0.0), 1.0);
}

static void span_name(struct frame *frame, double x0, double x1, double middle, struct text_style style,
                      const char *title)
{
    if (*title && frame_text_width(frame, style, title) < x1 - x0 - 14.0)
        frame_text(frame, 0.5 * (x0 + x1), middle + 0.36 * frame_text_size(frame, style.size), style, title);
}

static void done_span(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model, double from,
                      double to, int step, bool present)
{
    const double x0 = bar_x(bar, from), x1 = bar_x(bar, to), gap = x1 - x0 > 4.0 ? 1.2 : 0.0;
    if (x1 - x0 < 0.5)
        return;
    const struct text_style style = {20.0, 600, present ? COLOUR_PAPER : COLOUR_INK, 0.5};
    frame_bar(frame, x0 + gap, bar->y0, x1 - x0 - 2.0 * gap, bar->y1 - bar->y0, present ? COLOUR_INK : COLOUR_SHELL);
    span_name(frame, x0, x1 - (present ? 16.0 : 0.0), 0.5 * (bar->y0 + bar->y1), style, step_title(model, step));
}

static void outline(struct frame *frame, const struct clock_bar *bar, double from, double to, bool dashed)
{
    const double x0 = bar_x(bar, from), x1 = bar_x(bar, to);
    if (x1 - x0 < 4.0)
        return;
    frame_path(frame);
    frame_rectangle(frame, x0 + 1.2, bar->y0 + 0.8, x1 - x0 - 2.4, bar->y1 - bar->y0 - 1.6);
    if (dashed)
        frame_stroke_dashed(frame, COLOUR_INK, 1.6, 6.0, 4.0);
    else
        frame_stroke(frame, COLOUR_INK, 1.6);
}

static void ahead_draw(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                       const struct snapshot *now, const struct plan *plan)
{
    struct step_span ahead[AHEAD_MOST];
    const struct text_style style = {20.0, 500, COLOUR_INK, 0.5};
    const int count = plan_ahead(plan, now, ahead, AHEAD_MOST);
    for (int k = 0; k < count; k++) {
        outline(frame, bar, ahead[k].from, ahead[k].to, k == 0);
        if (k > 0)
            span_name(frame, bar_x(bar, ahead[k].from), bar_x(bar, ahead[k].to), 0.5 * (bar->y0 + bar->y1), style,
                      step_title(model, ahead[k].step));
    }
}

/* Every how many ticks there is room for a name: 1, 2, 5, 10 ... */
static int names_stride(const struct frame *frame, const struct clock_bar *bar, struct text_style style)
{
    static const int strides[] = {1, 2, 5, 10, 20};
    char text[32];
    clock_text(bar->whole, bar->whole, text, sizeof text);
    const double wide = frame_text_width(frame, style, text) + 14.0;
    const double apart = (bar->x1 - bar->x0) * bar->tick / bar->whole;
    for (size_t k = 0; k < sizeof strides / sizeof strides[0]; k++)
        if (strides[k] * apart >= wide)
            return strides[k];
    return 50;
}

static void ticks_draw(struct frame *frame, const struct clock_bar *bar)
{
    char text[32];
    struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    const double foot = bar->foot > 0.0 ? bar->foot : bar->y1;
    const double baseline = foot + 12.0 + 0.76 * frame_text_size(frame, style.size);
    const int ticks = (int)lround(bar->whole / bar->tick), stride = names_stride(frame, bar, style);
    double free_from = -1e9;
    for (int k = 0; k <= ticks; k++) {
        const double x = bar_x(bar, k * bar->tick);
        frame_rule(frame, x, foot + 2.0, x, foot + 9.0, COLOUR_SOFT, 1.6);
        if (k % stride)
            continue;
        const bool last = k == ticks; /* its name ends with the bar */
        style.anchor = last ? 1.0 : 0.5;
        clock_text(k * bar->tick, bar->whole, text, sizeof text);
        const double at = last ? x + 2.0 : x;
        if (frame_text_box(frame, at, baseline, style, text).x0 < free_from + 8.0)
            continue;
        free_from = frame_text_box(frame, at, baseline, style, text).x1;
        frame_text(frame, at, baseline, style, text);
    }
}

/* Spans between `from` and `until` of the bar. */
static void spans_draw(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                       const struct snapshot *now)
{
    const double end = bar->until > 0.0 ? fmin(bar->until, now->time) : now->time;
    for (int k = 0; k < now->spans; k++) {
        const double from = fmax(now->span[k].from, bar->from), to = fmin(now->span[k].to, end);
        const bool present = isinf(now->span[k].to) && !(bar->until > 0.0);
        if (to > from)
            done_span(frame, bar, model, from, to, now->span[k].step, present);
    }
}

void clock_bar_past(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                    const struct snapshot *now)
{
    spans_draw(frame, bar, model, now);
    if (!now->spans)
        frame_bar(frame, bar->x0, bar->y0, bar_x(bar, bar->until) - bar->x0, bar->y1 - bar->y0, COLOUR_SHELL);
}

void clock_bar_draw(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                    const struct snapshot *now, const struct plan *plan)
{
    spans_draw(frame, bar, model, now);
    if (plan)
        ahead_draw(frame, bar, model, now, plan);
    if (!now->spans) { /* no procedure: the time that has gone */
        const double x = bar_x(bar, bar->from);
        frame_bar(frame, x, bar->y0, fmax(bar_x(bar, now->time) - x, 0.0), bar->y1 - bar->y0, COLOUR_SHELL);
        outline(frame, bar, bar->from, bar->whole, true);
    }
    ticks_draw(frame, bar);
}

void clock_now(struct frame *frame, const struct clock_bar *bar, double time, double top)
{
    const double x = bar_x(bar, time);
    frame_rule(frame, x, top, x, bar->y1, COLOUR_INK, 2.4);
    frame_path(frame);
    frame_move(frame, x, bar->y0 - 12.0);
    frame_line(frame, x + 13.0, bar->y0 - 1.0);
    frame_line(frame, x + 13.0, bar->y0 + 13.0);
    frame_line(frame, x - 13.0, bar->y0 + 13.0);
    frame_line(frame, x - 13.0, bar->y0 - 1.0);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
    frame_stroke(frame, COLOUR_PAPER, 2.0);
}

/* What a fault is called in the story, "seal-leak tank.roof", in words. */
static void fault_words(char *id)
{
    for (char *c = id; *c; c++)
        if (*c == '-' || *c == '.')
            *c = ' ';
}

/* Bytes up to the next word that has a "=" in it: "0.5 mm" of "0.5 mm from=90 s". */
static int piece_length(const char *text)
{
    const char *equals = strchr(text, '=');
    int length = (int)(equals ? equals - text : (ptrdiff_t)strlen(text));
    while (equals && length > 0 && text[length - 1] != ' ')
        length--;
    while (length > 0 && text[length - 1] == ' ')
        length--;
    return length;
}

/* "air temperature to 35.0 °C" of "to 35 degC within 20 min"; "wind back as in the file" */
static void weather_words(int row, const char *told, enum units units, char *room, int size)
{
    const char *within = strstr(told, " within "), *label = ullage_weather_at(row).label;
    char to[64];
    double si;
    int dimension;
    snprintf(to, sizeof to, "%.*s", within ? (int)(within - told) : (int)strlen(told), told);
    const bool quantity = !strncmp(to, "to ", 3) && !ullage_quantity_read(to + 3, &si, &dimension);
    const struct figure figure = weather_figure(row, quantity ? si : 0.0, units);
    if (quantity)
        snprintf(room, (size_t)size, "%s to %s %s", label, figure.number, figure.unit);
    else
        snprintf(room, (size_t)size, "%s %s", label, to);
}

/* "plug 3 0.70 mm", "cap off", "seal leak tank roof 0.50 mm" */
static void event_words(const struct ullage_model *model, const struct moment_mark *mark, enum units units,
                        double whole, char *room, int size)
{
    static const char key[] = " from=";
    char id[96], value[64], begins[48] = "", clock[40];
    double si;
    int dimension;
    snprintf(id, sizeof id, "%s", mark->subject ? mark->subject : "");
    if (weather_row(id) >= 0) {
        weather_words(weather_row(id), mark->text, units, room, size);
        return;
    }
    const bool fault = strchr(id, ' ') != NULL;
    char *point = fault ? NULL : strchr(id, '.');
    if (point)
        *point = '\0';
    const int part = ullage_model_find_part(model, id);
    const char *text = mark->text ? mark->text : "", *from = strstr(text, key);
    snprintf(value, sizeof value, "%.*s", piece_length(text), text);
    if (from) {
        snprintf(clock, sizeof clock, "%.*s", piece_length(from + sizeof key - 1), from + sizeof key - 1);
        if (!ullage_quantity_read(clock, &si, &dimension) && dimension == ULLAGE_TIME)
            clock_text(si, whole, clock, sizeof clock);
        snprintf(begins, sizeof begins, " from %s", clock);
    }
    const bool sized = (point || fault) && !ullage_quantity_read(value, &si, &dimension);
    if (sized && !(fault && dimension == ULLAGE_TEMPERATURE)) /* a fault's size is a difference */
        figure_text(si, dimension, units, value, sizeof value);
    if (fault)
        fault_words(id);
    if (part >= 0)
        naming_part(model, part, false, id, sizeof id);
    snprintf(room, (size_t)size, "%s %s%s", id, value, begins);
}

/* The last of a run of changes of the same thing that lie too close to be told apart. */
static int run_end(const struct clock_bar *bar, const struct snapshot *now, int mark)
{
    while (mark + 1 < now->marks && now->mark[mark].subject && now->mark[mark + 1].subject &&
           !strcmp(now->mark[mark].subject, now->mark[mark + 1].subject) &&
           bar_x(bar, now->mark[mark + 1].time) - bar_x(bar, now->mark[mark].time) < RUN_WITHIN)
        mark++;
    return mark;
}

void clock_events(struct frame *frame, const struct clock_bar *bar, const struct ullage_model *model,
                  const struct snapshot *now, enum units units, double top, double bottom)
{
    char text[256];
    const struct text_style style = {22.0, 600, COLOUR_INK, 0.0};
    const double present = bar_x(bar, now->time);
    double free_from = bar->x0;
    for (int k = 0; k < now->marks; k++) {
        k = run_end(bar, now, k);
        const double x = bar_x(bar, now->mark[k].time);
        frame_path(frame);
        frame_move(frame, x, top);
        frame_line(frame, x, bottom);
        frame_stroke_dashed(frame, COLOUR_INK, 2.0, 2.0, 5.0);
        event_words(model, &now->mark[k], units, bar->whole, text, sizeof text);
        const double wide = frame_text_width(frame, style, text);
        const bool crosses = x + 9.0 < present && x + 9.0 + wide > present - 6.0;
        const double left = crosses || x + 9.0 + wide > bar->x1 ? x - 9.0 - wide : x + 9.0;
        if (left < free_from)
            continue;
        frame_text(frame, left, bottom - 8.0, style, text);
        free_from = left + wide + 12.0;
    }
}
