/* charts.c  What stands under the plate: strips over one clock, their names and figures, the time bar. */
#include "view/charts.h"

#include "view/chart/chart.h"
#include "view/leading.h"
#include "view/plate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct charts {
    struct clock_bar bar;
    struct strip strip[STRIPS];
    struct strip_data data[STRIPS][3]; /* ours, and what lies behind: another branch, the sound run */
    int behind[STRIPS];                /* how many of those there are */
    enum trace_style style[2];
    double present[STRIPS];
};

static int strip_channel(const struct scene *scene, int strip)
{
    const int recorded = scene->view->strip[strip];
    return recorded >= 0 && recorded < scene->cast->recorded_count ? scene->cast->recorded[recorded] : -1;
}

static int strips_shown(const struct view *view)
{
    return view->strip[STRIPS - 1] >= 0 ? STRIPS : STRIPS - 1;
}

static bool is_hole_channel(const struct ullage_channel *channel)
{
    return channel->dimension == ULLAGE_LENGTH && strstr(channel->quantity, "hole");
}

static void behind_add(struct charts *charts, int strip, const struct traces *traces, int column,
                       enum trace_style style)
{
    const int at = charts->behind[strip]++;
    charts->data[strip][1 + at] = (struct strip_data){traces, column};
    charts->style[at] = style;
}

static void charts_make(struct charts *charts, const struct scene *scene, const struct layout *layout)
{
    double tick, doubt;
    const double whole = plan_whole(scene->plan, scene->now, &tick);
    charts->bar = (struct clock_bar){.x0 = layout->chart_x0,
                                     .x1 = layout->chart_x1,
                                     .y0 = layout->bar_y0,
                                     .y1 = layout->bar_y1,
                                     .whole = whole,
                                     .tick = tick};
    for (int k = 0; k < strips_shown(scene->view); k++) {
        const int channel = strip_channel(scene, k);
        struct strip *strip = &charts->strip[k];
        *strip = (struct strip){.x0 = layout->chart_x0,
                                .x1 = layout->chart_x1,
                                .y0 = layout->strip_y[k],
                                .y1 = layout->strip_y[k] + layout->strip_high,
                                .whole = whole,
                                .bright = scene->view->bright};
        if (channel < 0)
            continue;
        const struct ullage_channel about = ullage_model_channel(scene->model, channel);
        const int column = 1 + scene->view->strip[k];
        charts->data[k][0] = (struct strip_data){scene->traces, column};
        if (scene->behind)
            behind_add(charts, k, scene->behind, column, TRACE_BRANCH);
        if (scene->sound)
            behind_add(charts, k, scene->sound, column, TRACE_BEHIND);
        charts->present[k] = scene->now->value[channel];
        const double limit = is_hole_channel(&about) ? leading_limit(scene->model, &doubt) : (double)NAN;
        strip_scale(strip, &about, scene->view->units, charts->data[k], 1 + charts->behind[k],
                    isfinite(limit) ? limit : charts->present[k]);
    }
}

/* Where the sound run's trace of a strip ends; y NAN: there is none yet. */
static struct plate_point sound_end(const struct charts *charts, int index)
{
    const struct strip_data *data = &charts->data[index][charts->behind[index]];
    const int rows = data->traces->rows;
    if (rows < 2)
        return (struct plate_point){0.0, (double)NAN};
    const double *row = data->traces->row + (size_t)(rows - 1) * (size_t)data->traces->columns;
    return (struct plate_point){strip_x(&charts->strip[index], row[0]),
                                strip_y(&charts->strip[index], row[data->column])};
}

/* The strip on which the sound run ends farthest from this one: there it is named. */
static int sound_strip(const struct scene *scene, const struct charts *charts)
{
    int best = -1;
    double farthest = -1.0;
    for (int k = 0; scene->sound && k < strips_shown(scene->view); k++) {
        if (strip_channel(scene, k) < 0)
            continue;
        const double apart = fabs(sound_end(charts, k).y - strip_y(&charts->strip[k], charts->present[k]));
        if (apart > farthest) {
            best = k;
            farthest = apart;
        }
    }
    return best;
}

/* Behind its end, where the paper is still empty; near the paper's own end before it. */
static void sound_note(struct frame *frame, const struct charts *charts, int index)
{
    struct text_style style = {22.0, 500, COLOUR_GHOST, 0.0};
    const struct plate_point end = sound_end(charts, index);
    const struct strip *strip = &charts->strip[index];
    const double wide = frame_text_width(frame, style, "healthy run"), size = frame_text_size(frame, style.size);
    if (!isfinite(end.y))
        return;
    const double y = fmin(fmax(end.y + 0.36 * size, strip->y0 + 0.76 * size), strip->y1);
    const bool behind = end.x + 12.0 + wide < strip->x1;
    if (!behind)
        style.anchor = 1.0;
    frame_text(frame, end.x + (behind ? 12.0 : -12.0), behind ? y : fmax(y - size, strip->y0 + 0.76 * size), style,
               "healthy run");
}

/* Returns where its tick labels begin. */
static double strip_draw(struct frame *frame, const struct scene *scene, const struct charts *charts, int index)
{
    const int channel = strip_channel(scene, index);
    if (channel < 0)
        return charts->bar.x0;
    const struct strip *strip = &charts->strip[index];
    const struct strip_data *data = charts->data[index];
    const struct ullage_channel about = ullage_model_channel(scene->model, channel);
    double doubt;
    const double limit = is_hole_channel(&about) ? leading_limit(scene->model, &doubt) : (double)NAN;
    if (strip->pressure)
        strip_area(frame, strip, &data[0], scene->now->time, charts->present[index]);
    const double left = strip_grid(frame, strip);
    for (int k = 0; k < charts->behind[index]; k++)
        strip_trace(frame, strip, &data[1 + k], (double)INFINITY, (double)NAN, charts->style[k]);
    if (scene->now->latest > scene->now->time)
        strip_trace(frame, strip, &data[0], scene->now->latest, (double)NAN, TRACE_BRANCH);
    strip_trace(frame, strip, &data[0], scene->now->time, charts->present[index], TRACE_INK);
    if (index == sound_strip(scene, charts))
        sound_note(frame, charts, index);
    if (isfinite(limit)) {
        char text[64], size[40];
        snprintf(text, sizeof text, "limit %s", scene_text(scene, limit, ULLAGE_LENGTH, size, sizeof size));
        strip_limit(frame, strip, limit, text, scene->now->time);
    }
    return left;
}

/* Name and figure of a strip, in the room before its ticks; smaller beside a low strip. */
static void gutter_name(struct frame *frame, const struct scene *scene, const struct layout *layout, int index,
                        double right)
{
    const int channel = strip_channel(scene, index);
    if (channel < 0)
        return;
    char text[96];
    const bool low = layout->strip_high < 80.0;
    const double room = right - PICTURE_MARGIN - 14.0, top = layout->strip_y[index];
    const double baseline = top + (low ? 57.0 : 68.0);
    struct text_style name = {26.0, 500, COLOUR_INK, 0.0}, unit = {low ? 22.0 : 26.0, 500, COLOUR_SOFT, 0.0};
    const struct text_style big = {low ? 40.0 : 46.0, 600, COLOUR_INK, 0.0};
    const struct ullage_channel about = ullage_model_channel(scene->model, channel);
    channel_words(scene->model, channel, false, text, sizeof text);
    if (frame_text_width(frame, name, text) > room)
        name.size = 22.0;
    if (frame_text_width(frame, name, text) > room)
        channel_words(scene->model, channel, true, text, sizeof text);
    frame_text_fit(frame, PICTURE_MARGIN, top + (low ? 17.0 : 20.0), room, name, text);
    const struct figure figure = figure_make(scene->told[channel], about.dimension, scene->view->units);
    const double wide = frame_text_fit(frame, PICTURE_MARGIN, baseline, room, big, figure.number) + 11.0;
    while (unit.size > TEXT_LEAST && frame_text_width(frame, unit, figure.unit) > room - wide)
        unit.size -= 1.0;
    if (frame_text_width(frame, unit, figure.unit) <= room - wide + 6.0)
        frame_text(frame, PICTURE_MARGIN + wide, baseline, unit, figure.unit);
    const struct frame_box box = {PICTURE_MARGIN, top, layout->chart_x0 - 60.0, top + layout->strip_high};
    frame_spot(frame, SPOT_GUTTER, index, box, 0.0, 0.0);
}

static void run_sign(struct frame *frame, double x, double baseline, bool playing)
{
    if (!playing) {
        frame_bar(frame, x, baseline - 26.0, 8.0, 26.0, COLOUR_INK);
        frame_bar(frame, x + 14.0, baseline - 26.0, 8.0, 26.0, COLOUR_INK);
        return;
    }
    frame_path(frame);
    frame_move(frame, x, baseline - 27.0);
    frame_line(frame, x + 23.0, baseline - 13.0);
    frame_line(frame, x, baseline + 1.0);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
}

static void clock_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, double whole)
{
    char text[48];
    const struct text_style big = {46.0, 600, COLOUR_INK, 0.0}, soft = {22.0, 500, COLOUR_SOFT, 0.0};
    const double baseline = layout->bar_y0 + 34.0;
    run_sign(frame, PICTURE_MARGIN, baseline - 4.0, scene->view->playing);
    const double wide =
        frame_text(frame, PICTURE_MARGIN + 38.0, baseline, big, clock_text(scene->now->time, whole, text, sizeof text));
    const struct frame_box clock = {PICTURE_MARGIN, baseline - 44.0, PICTURE_MARGIN + 38.0 + wide, baseline + 8.0};
    frame_spot(frame, SPOT_CLOCK, 0, clock, 0.0, 0.0);
    const double below = baseline + 34.0;
    rate_text(scene->view->rate, text, sizeof text);
    if (frame_text_width(frame, soft, text) > layout->chart_x0 - PICTURE_MARGIN - 50.0)
        snprintf(strstr(text, "×") ? strstr(text, "×") : text, 4, "×");
    const double rate = frame_text(frame, PICTURE_MARGIN, below, soft, text);
    const double half = 0.5 * rate;
    const struct frame_box less = {PICTURE_MARGIN, below - 22.0, PICTURE_MARGIN + half, below + 8.0};
    const struct frame_box more = {PICTURE_MARGIN + half, below - 22.0, PICTURE_MARGIN + rate, below + 8.0};
    frame_spot(frame, SPOT_RATE_LESS, 0, less, 0.0, 0.0);
    frame_spot(frame, SPOT_RATE_MORE, 0, more, 0.0, 0.0);
}

void charts_draw(struct frame *frame, const struct scene *scene, const struct layout *whole)
{
    struct charts charts = {0};
    struct layout own = *whole;
    const struct layout *layout = &own;
    layout_strips(&own, strips_shown(scene->view));
    charts_make(&charts, scene, layout);
    for (int k = 0; k < strips_shown(scene->view); k++) {
        const double left = strip_draw(frame, scene, &charts, k);
        gutter_name(frame, scene, layout, k, left);
    }
    const double foot = layout->strip_y[strips_shown(scene->view) - 1] + layout->strip_high;
    clock_events(frame, &charts.bar, scene->model, scene->now, scene->view->units, layout->strip_y[0], foot);
    const struct ways ways = ways_make(scene->branches, &charts.bar);
    if (ways.count)
        ways_draw(frame, &ways, scene->branches, scene->model, scene->now);
    charts.bar = ways.bar;
    clock_bar_draw(frame, &charts.bar, scene->model, scene->now, scene->plan);
    if (ways.count)
        ways_nodes(frame, &ways, scene->branches);
    clock_now(frame, &charts.bar, scene->now->time, layout->strip_y[0] - 4.0);
    const struct frame_box box = {charts.bar.x0, charts.bar.y0, charts.bar.x1, charts.bar.y1};
    frame_spot(frame, SPOT_TIME_BAR, 0, box, 0.0, charts.bar.whole);
    clock_draw(frame, scene, layout, charts.bar.whole);
}

/* ---- strips at first ----------------------------------------------------------------------------------------------- */
static struct ullage_channel recorded_channel(const struct ullage_model *model, int recorded)
{
    return ullage_model_channel(model, ullage_model_recorded_channel(model, recorded));
}

static bool records_load(const struct ullage_model *model)
{
    for (int k = 0; k < ullage_model_recorded(model); k++)
        if (!strcmp(recorded_channel(model, k).quantity, "load"))
            return true;
    return false;
}

/* How much a channel is worth a strip of its own at first. Where carbon is at work, days go by and temperatures rule. */
static int strip_worth(const struct ullage_channel *channel, bool carbon)
{
    if (!strcmp(channel->quantity, "gauge_pressure"))
        return 7;
    if (!strcmp(channel->quantity, "hole"))
        return 6;
    if (!strcmp(channel->quantity, "load"))
        return 5;
    if (carbon && channel->dimension == ULLAGE_TEMPERATURE)
        return 4;
    if (channel->dimension == ULLAGE_VOLUME_FLOW || channel->dimension == ULLAGE_MASS_FLOW)
        return 3;
    return channel->part >= 0 ? 2 : 1;
}

/* The recorded channel most worth a strip beside those taken; another kind of number tells more. */
static int best_strip(const struct ullage_model *model, const int *taken, int count)
{
    const bool carbon = records_load(model);
    int best = -1, most = -1;
    for (int k = 0; k < ullage_model_recorded(model); k++) {
        const struct ullage_channel channel = recorded_channel(model, k);
        int worth = strip_worth(&channel, carbon);
        bool free = true;
        for (int t = 0; t < count; t++) {
            free = free && taken[t] != k;
            if (recorded_channel(model, taken[t]).dimension == channel.dimension)
                worth = 0;
        }
        if (free && worth > most) {
            most = worth;
            best = k;
        }
    }
    return best;
}

void charts_strips(const struct ullage_model *model, int strip[STRIPS])
{
    const int wanted = records_load(model) ? STRIPS : STRIPS - 1;
    for (int s = 0; s < STRIPS; s++)
        strip[s] = s < wanted && (s == 0 || strip[s - 1] >= 0) ? best_strip(model, strip, s) : -1;
}

int charts_next_strip(const struct ullage_model *model, int strip)
{
    const int recorded = ullage_model_recorded(model);
    return recorded > 0 ? (strip + 1) % recorded : -1;
}
