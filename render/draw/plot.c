/* plot.c  A sheet of strip charts, one for each recorded channel, over one clock; the steps as a bar below. */
#include "draw/plot.h"

#include "draw/sheet.h"
#include "view/cast.h"
#include "view/chart/chart.h"
#include "view/leading.h"
#include "view/naming.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SHEET_WIDTH 1600.0 /* u; one px, or one point, each */
#define MARGIN 40.0
#define CHART_X0 330.0
#define HEAD 116.0  /* u: title and its rule */
#define STRIP 132.0 /* u high */
#define STRIP_GAP 34.0
#define STRIP_LOW 84.0 /* where there are many */
#define MANY 8
#define FOOT 116.0 /* u: bar, ticks, last line */
#define BAR_HIGH 32.0
#define TEXT_LEAST 20.0

enum { CHANNELS_MOST = 60 };

/* One run's part in the plot. */
struct player {
    const struct plot_source *source;
    struct traces traces;
    struct snapshot end;
    int recorded;
};

struct sheet {
    struct player main, other;
    bool two;
    double height, strip_high, whole, tick;
    enum units units;
};

static bool player_make(struct player *player, const struct plot_source *source)
{
    player->source = source;
    player->recorded = ullage_model_recorded(source->model);
    if (player->recorded > CHANNELS_MOST)
        player->recorded = CHANNELS_MOST;
    traces_make(&player->traces, source->model);
    traces_take(&player->traces, source->run);
    if (player->traces.out_of_memory || !snapshot_make(&player->end, source->model))
        return false;
    snapshot_take(&player->end, source->model, source->run, 0.0);
    return !player->end.out_of_memory;
}

static void player_free(struct player *player)
{
    traces_free(&player->traces);
    snapshot_free(&player->end);
}

/* The column in a run's samples of the channel of that name; -1: it keeps none. */
static int column_of(const struct player *player, const char *name)
{
    for (int k = 0; k < player->recorded; k++) {
        const int channel = ullage_model_recorded_channel(player->source->model, k);
        if (!strcmp(ullage_model_channel(player->source->model, channel).name, name))
            return 1 + k;
    }
    return -1;
}

static const char *name_of(const struct plot_source *source)
{
    return source->name ? source->name : ullage_model_name(source->model);
}

/* ---- head ---------------------------------------------------------------------------------------------------------- */
static void key_draw(struct frame *frame, const struct sheet *sheet)
{
    const struct text_style style = {22.0, 500, COLOUR_INK, 1.0};
    double x = SHEET_WIDTH - MARGIN;
    const char *const names[] = {name_of(sheet->other.source), name_of(sheet->main.source)};
    for (int k = 0; k < 2; k++) {
        x -= frame_text(frame, x, 62.0, style, names[k]) + 12.0;
        frame_path(frame);
        frame_move(frame, x - 54.0, 55.0);
        frame_line(frame, x, 55.0);
        if (k == 0)
            frame_stroke_dashed(frame, COLOUR_GHOST, 3.5, 2.0, 8.0);
        else
            frame_stroke(frame, COLOUR_INK, 4.0);
        x -= 84.0;
    }
}

static void head_draw(struct frame *frame, const struct sheet *sheet)
{
    char title[96], words[96];
    const struct ullage_model *model = sheet->main.source->model;
    const char *system = ullage_model_system(model);
    const struct text_style bold = {30.0, 700, COLOUR_INK, 0.0}, light = {28.0, 400, COLOUR_SOFT, 0.0};
    naming_words(*system ? system : ullage_model_name(model), true, title, sizeof title);
    naming_words(*system ? ullage_model_name(model) : "", false, words, sizeof words);
    const double after = MARGIN + frame_text(frame, MARGIN, 62.0, bold, title) + 20.0;
    frame_text(frame, after, 62.0, light, words);
    frame_rule(frame, MARGIN, 82.0, SHEET_WIDTH - MARGIN, 82.0, COLOUR_INK, 2.0);
    if (sheet->two)
        key_draw(frame, sheet);
}

/* ---- strips -------------------------------------------------------------------------------------------------------- */
static void gutter_draw(struct frame *frame, const struct sheet *sheet, int channel, double top, double other)
{
    char text[96];
    const struct ullage_channel about = ullage_model_channel(sheet->main.source->model, channel);
    const struct text_style name = {26.0, 500, COLOUR_INK, 0.0}, big = {40.0, 600, COLOUR_INK, 0.0},
                            unit = {26.0, 500, COLOUR_SOFT, 0.0}, ghost = {22.0, 500, COLOUR_GHOST, 0.0};
    const double room = CHART_X0 - MARGIN - 80.0;
    channel_words(sheet->main.source->model, channel, false, text, sizeof text);
    frame_text_fit(frame, MARGIN, top + 20.0, room, name, text);
    const struct figure figure = figure_make(sheet->main.end.value[channel], about.dimension, sheet->units);
    const double after = MARGIN + frame_text(frame, MARGIN, top + 62.0, big, figure.number) + 10.0;
    frame_text(frame, after, top + 62.0, unit, figure.unit);
    if (isfinite(other)) {
        figure_text(other, about.dimension, sheet->units, text, sizeof text);
        frame_text(frame, MARGIN, top + 94.0, ghost, text);
    }
}

static void strip_draw(struct frame *frame, const struct sheet *sheet, int index, double top)
{
    const struct ullage_model *model = sheet->main.source->model;
    const int channel = ullage_model_recorded_channel(model, index);
    const struct ullage_channel about = ullage_model_channel(model, channel);
    const int behind = sheet->two ? column_of(&sheet->other, about.name) : -1;
    const struct strip_data data[2] = {{&sheet->main.traces, 1 + index}, {&sheet->other.traces, behind}};
    double doubt, other = (double)NAN;
    const bool hole = about.dimension == ULLAGE_LENGTH && strstr(about.quantity, "hole");
    const double limit = hole ? leading_limit(model, &doubt) : (double)NAN;
    struct strip strip = {
        .x0 = CHART_X0, .x1 = SHEET_WIDTH - MARGIN, .y0 = top, .y1 = top + sheet->strip_high, .whole = sheet->whole};
    strip_scale(&strip, &about, sheet->units, data, behind >= 0 ? 2 : 1, limit);
    if (strip.pressure)
        strip_area(frame, &strip, &data[0], sheet->main.end.time, sheet->main.end.value[channel]);
    strip_grid(frame, &strip);
    if (behind >= 0) {
        const int there = ullage_model_find_channel(sheet->other.source->model, about.name);
        other = sheet->other.end.value[there];
        strip_trace(frame, &strip, &data[1], sheet->other.end.time, other, TRACE_BEHIND);
    }
    strip_trace(frame, &strip, &data[0], sheet->main.end.time, sheet->main.end.value[channel], TRACE_INK);
    if (isfinite(limit)) {
        char text[64], size[40];
        snprintf(text, sizeof text, "limit %s", figure_text(limit, ULLAGE_LENGTH, sheet->units, size, sizeof size));
        strip_limit(frame, &strip, limit, text, (double)INFINITY);
    }
    gutter_draw(frame, sheet, channel, top, other);
}

/* ---- foot ---------------------------------------------------------------------------------------------------------- */
static void foot_draw(struct frame *frame, const struct sheet *sheet, double top)
{
    char text[160];
    const struct text_style soft = {TEXT_LEAST, 500, COLOUR_SOFT, 0.0}, right = {TEXT_LEAST, 500, COLOUR_SOFT, 1.0};
    const struct ullage_model *model = sheet->main.source->model;
    const struct clock_bar bar = {.x0 = CHART_X0,
                                  .x1 = SHEET_WIDTH - MARGIN,
                                  .y0 = top,
                                  .y1 = top + BAR_HIGH,
                                  .whole = sheet->whole,
                                  .tick = sheet->tick};
    clock_bar_draw(frame, &bar, model, &sheet->main.end, NULL);
    clock_events(frame, &bar, model, &sheet->main.end, sheet->units, HEAD, top - 8.0);
    const double baseline = top + BAR_HIGH + 70.0;
    frame_text(frame, MARGIN, baseline, soft, "figures: at the end");
    snprintf(text, sizeof text, "seed %llu   model for teaching", (unsigned long long)ullage_model_seed(model));
    frame_text(frame, SHEET_WIDTH - MARGIN, baseline, right, text);
}

static void sheet_draw(struct frame *frame, const struct sheet *sheet, struct text_measure measure)
{
    frame_clear(frame, SHEET_WIDTH, sheet->height, TEXT_LEAST, measure);
    frame_bar(frame, 0.0, 0.0, SHEET_WIDTH, sheet->height, COLOUR_PAPER);
    head_draw(frame, sheet);
    double top = HEAD;
    for (int k = 0; k < sheet->main.recorded; k++) {
        strip_draw(frame, sheet, k, top);
        top += sheet->strip_high + STRIP_GAP;
    }
    foot_draw(frame, sheet, top + 4.0);
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */
static bool sheet_make(struct sheet *sheet, const struct plot_source *main, const struct plot_source *other, bool si)
{
    *sheet = (struct sheet){.two = other != NULL, .units = si ? UNITS_SI : UNITS_METRIC};
    if (!player_make(&sheet->main, main) || (other && !player_make(&sheet->other, other)))
        return false;
    const int strips = sheet->main.recorded;
    sheet->strip_high = strips > MANY ? STRIP_LOW : STRIP;
    sheet->height = HEAD + strips * (sheet->strip_high + STRIP_GAP) + FOOT + 4.0;
    const double end = fmax(sheet->main.end.time, other ? sheet->other.end.time : 0.0);
    sheet->whole = clock_whole(end, &sheet->tick);
    return true;
}

static bool sheet_paint(const struct sheet *sheet, const char *path, char *trouble)
{
    struct painter *painter = painter_create(trouble);
    if (!painter)
        return false;
    struct frame frame = {0};
    sheet_draw(&frame, sheet, painter_measure(painter));
    const struct painter_fit fit = {1.0, 0.0, 0.0, (int)SHEET_WIDTH, (int)ceil(sheet->height)};
    bool good = !frame.out_of_memory;
    if (good)
        good = sheet_write(painter, &frame, &fit, path, trouble) == DRAW_GOOD;
    else
        snprintf(trouble, DRAW_TROUBLE, "no memory for the plot");
    frame_free(&frame);
    painter_free(painter);
    return good;
}

bool plot_takes(const char *path)
{
    return sheet_form(path) != SHEET_UNKNOWN;
}

bool plot_write(const struct plot_source *main, const struct plot_source *other, const char *path, bool si,
                char *trouble)
{
    struct sheet sheet;
    trouble[0] = '\0';
    bool good = sheet_make(&sheet, main, other, si);
    if (good)
        good = sheet_paint(&sheet, path, trouble);
    else
        snprintf(trouble, DRAW_TROUBLE, "no memory for the plot");
    player_free(&sheet.main);
    player_free(&sheet.other);
    return good;
}
