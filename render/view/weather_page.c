/* weather_page.c  Air, sun and wind in the column. As a list: what each is now, and where it goes by hand. Or one of them: where it
 * goes as a large figure that typing replaces, on its ruler, a triangle where it is now, and within how long. */
#include "view/weather_page.h"

#include "view/chart/chart.h"
#include "view/column.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define LINE 46.0 /* u from one row of the list to the next, in the wide form */
#define LINE_NARROW 41.0
#define UNIT_WIDE 80.0 /* u for units, right of the figures */
#define MARK 6.0       /* u wide: the bar beside the row under the cursor */
#define SPAN_GAP 22.0  /* u between the words of how long it takes, at most */

static const struct ullage_weather_now *now_of(const struct scene *scene, int row)
{
    return &scene->now->weather[row];
}

/* Where its knob stands: what is wanted, where it goes by hand, or where it is. */
static double knob_of(const struct scene *scene, int row)
{
    const struct weather_view *view = &scene->view->weather;
    const struct ullage_weather_now *now = now_of(scene, row);
    if (view->held && view->row == row)
        return view->wanted;
    return now->by_hand ? now->to : now->value;
}

static bool on_its_way(const struct scene *scene, int row)
{
    return now_of(scene, row)->ends > scene->now->time;
}

static bool any_by_hand(const struct scene *scene)
{
    for (int k = 0; k < ullage_weathers(); k++)
        if (now_of(scene, k)->by_hand)
            return true;
    return false;
}

/* ---- words --------------------------------------------------------------------------------------------------------- */
static double word_draw(struct frame *frame, double x1, double baseline, enum weather_word word, const char *text)
{
    return column_word(frame, x1, 1.0, baseline, SPOT_WEATHER_WORD, (int)word, text);
}

static void title_draw(struct frame *frame, double x0, double x1, double baseline, const char *text, const char *said,
                       enum weather_word word)
{
    const struct text_style style = {26.0, 700, COLOUR_INK, 0.0};
    frame_text(frame, x0, baseline, style, text);
    if (*said)
        word_draw(frame, x1, baseline, word, said);
    frame_rule(frame, x0, baseline + 13.0, x1, baseline + 13.0, COLOUR_INK, 1.8);
}

static void hint_draw(struct frame *frame, double x0, double baseline, const char *text)
{
    const struct text_style soft = {20.0, 500, COLOUR_SOFT, 0.0};
    frame_text(frame, x0, baseline, soft, text);
}

/* u between the words that choose a time, where `room` u are left for all of them. */
static double span_gap(const struct frame *frame, struct text_style style, double room)
{
    for (int k = 0; k < WEATHER_SPANS; k++)
        room -= frame_text_width(frame, style, weather_span[k].words);
    return fmin(room / (WEATHER_SPANS - 1), SPAN_GAP);
}

/* "takes" and the times to choose from, the chosen one white on ink. */
static void spans_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline)
{
    const struct text_style label = {24.0, 400, COLOUR_INK, 0.0}, style = {24.0, 500, COLOUR_INK, 0.0},
                            chosen = {24.0, 600, COLOUR_WHITE, 0.0};
    const double from = x0 + frame_text(frame, x0, baseline, label, "takes") + 20.0;
    const double gap = span_gap(frame, chosen, x1 - 10.0 - from);
    double x = from;
    for (int k = 0; k < WEATHER_SPANS; k++) {
        const bool is = k == scene->view->weather.span;
        const struct frame_box box = frame_text_box(frame, x, baseline, is ? chosen : style, weather_span[k].words);
        if (is) {
            frame_path(frame);
            frame_rounded(frame, box.x0 - 9.0, baseline - 25.0, box.x1 - box.x0 + 18.0, 35.0, 6.0);
            frame_fill(frame, COLOUR_INK);
        } else {
            frame_path(frame);
            frame_move(frame, box.x0, baseline + 7.0);
            frame_line(frame, box.x1, baseline + 7.0);
            frame_stroke_dashed(frame, COLOUR_INK, 1.8, 2.0, 3.0);
        }
        frame_text(frame, x, baseline, is ? chosen : style, weather_span[k].words);
        frame_spot(frame, SPOT_WEATHER_WORD, WEATHER_SPAN + k, box_grown(box, 6.0), 0.0, 0.0);
        x = box.x1 + gap;
    }
}

/* "Air temperature" */
static const char *heading_of(int row, char *room, int size)
{
    snprintf(room, (size_t)size, "%s", ullage_weather_at(row).label);
    if (*room >= 'a' && *room <= 'z')
        *room = (char)(*room - 'a' + 'A');
    return room;
}

static const char *clock_of(const struct scene *scene, double time, char *room, int size)
{
    double tick;
    return clock_text(time, plan_whole(scene->plan, scene->now, &tick), room, size);
}

/* ---- the list ------------------------------------------------------------------------------------------------------ */
/* "to 35.0 °C at 1:20", "by hand", "back at 1:20", "" */
static void way_words(const struct scene *scene, int row, char *room, int size)
{
    const struct ullage_weather_now *now = now_of(scene, row);
    const struct figure to = weather_figure(row, now->to, scene->view->units);
    char clock[32];
    *room = '\0';
    if (now->by_hand && on_its_way(scene, row))
        snprintf(room, (size_t)size, "to %s %s at %s", to.number, to.unit,
                 clock_of(scene, now->ends, clock, sizeof clock));
    else if (now->by_hand)
        snprintf(room, (size_t)size, "by hand");
    else if (on_its_way(scene, row))
        snprintf(room, (size_t)size, "back at %s", clock_of(scene, now->ends, clock, sizeof clock));
}

static void row_draw(struct frame *frame, const struct scene *scene, int row, double x0, double x1, double baseline)
{
    const bool by_hand = now_of(scene, row)->by_hand;
    const struct text_style name = {26.0, by_hand ? 600 : 400, COLOUR_INK, 0.0}, note = {22.0, 400, COLOUR_SOFT, 0.0},
                            value = {28.0, 600, COLOUR_INK, 1.0}, unit = {22.0, 500, COLOUR_SOFT, 0.0};
    const struct figure figure = weather_figure(row, now_of(scene, row)->value, scene->view->units);
    char text[80];
    const double unit_x = x1 - UNIT_WIDE;
    const double left = unit_x - 10.0 - frame_text(frame, unit_x - 10.0, baseline, value, figure.number);
    frame_text(frame, unit_x, baseline, unit, figure.unit);
    const double after = x0 + frame_text(frame, x0, baseline, name, heading_of(row, text, sizeof text)) + 14.0;
    way_words(scene, row, text, sizeof text);
    if (frame_text_width(frame, note, text) > left - 14.0 - after && by_hand)
        snprintf(text, sizeof text, "by hand");
    if (*text && after + frame_text_width(frame, note, text) < left - 14.0)
        frame_text(frame, after, baseline, note, text);
    if (row == scene->view->weather.cursor)
        frame_bar(frame, x0 - 16.0, baseline - 24.0, MARK, 32.0, COLOUR_INK);
    const struct frame_box box = {x0, baseline - 28.0, x1, baseline + 10.0};
    frame_spot(frame, SPOT_WEATHER, row, box, 0.0, 0.0);
}

static void list_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const double x0 = layout->column_x0, x1 = layout->column_x1, line = layout->wide ? LINE : LINE_NARROW;
    const struct text_style soft = {22.0, 400, COLOUR_SOFT, 0.0};
    const double top = layout->wide ? 116.0 : 760.0;
    double baseline = top + (layout->wide ? 56.0 : 50.0);
    title_draw(frame, x0, x1, top, "Air, sun, wind", any_by_hand(scene) ? "all as the file has it" : "",
               WEATHER_ALL_BACK);
    for (int k = 0; k < ullage_weathers(); k++, baseline += line)
        row_draw(frame, scene, k, x0, x1, baseline);
    if (!layout->wide) {
        spans_draw(frame, scene, x0, x1, 1046.0);
        return;
    }
    baseline += 14.0;
    spans_draw(frame, scene, x0, x1, baseline);
    column_paragraph(frame, x0, baseline + 52.0, x1 - x0, soft,
                     "What is set goes straight from where it is, in the time that is chosen, and stays. An altitude "
                     "changes the pressure of the air alone, as driving up a hill does.");
    hint_draw(frame, x0, 706.0, "↑ ↓  Enter ruler  0–9 type  T time  Backspace as the file");
}

/* ---- one of them --------------------------------------------------------------------------------------------------- */
static void figure_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline, int row)
{
    const struct text_style style = {64.0, 700, COLOUR_INK, 0.0}, other = {26.0, 600, COLOUR_SOFT, 1.0};
    const enum units units = scene->view->units, others = units == UNITS_INCH ? UNITS_METRIC : UNITS_INCH;
    char text[80];
    if (*scene->view->typed) {
        snprintf(text, sizeof text, "%s|", scene->view->typed);
        frame_text(frame, x0, baseline, style, text);
        return;
    }
    const struct figure shown = weather_figure(row, knob_of(scene, row), units),
                        second = weather_figure(row, knob_of(scene, row), others);
    snprintf(text, sizeof text, "%s %s", shown.number, shown.unit);
    const double wide = frame_text(frame, x0, baseline, style, text);
    snprintf(text, sizeof text, "%s %s", second.number, second.unit);
    if (strcmp(shown.unit, second.unit) && wide + 20.0 + frame_text_width(frame, other, text) < x1 - x0)
        frame_text(frame, x1, baseline, other, text);
}

/* A triangle under the line where it is now. */
static void now_mark(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_move(frame, x, y + 2.0);
    frame_line(frame, x + 10.0, y + 20.0);
    frame_line(frame, x - 10.0, y + 20.0);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
    frame_stroke(frame, COLOUR_PAPER, 1.6);
}

static void scale_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double y, int row)
{
    const enum units units = scene->view->units;
    const struct weather_scale *scale = weather_scale(row, units);
    const double knob = knob_of(scene, row), value = now_of(scene, row)->value;
    const struct size_ruler ruler = {.x0 = x0 + 24.0,
                                     .other = (double)NAN,
                                     .x1 = x1 - 74.0,
                                     .y = y,
                                     .least = scale->least,
                                     .most = scale->most,
                                     .unit = scale->unit,
                                     .in = now_of(scene, row)->by_hand || scene->view->weather.held,
                                     .knob = weather_share(row, knob, units),
                                     .spot = SPOT_WEATHER_SLIDER,
                                     .part = row};
    size_ruler_draw(frame, &ruler);
    if (fabs(weather_share(row, value, units) - ruler.knob) > 0.0)
        now_mark(frame, ruler.x0 + (ruler.x1 - ruler.x0) * weather_share(row, value, units), y);
}

/* "now 22.5 °C, there at 1:20", in brief "there at 1:20"; "by hand since 0:50", "back at 1:20", "as the file has it" */
static void state_words(const struct scene *scene, int row, bool brief, char *room, int size)
{
    const struct ullage_weather_now *now = now_of(scene, row);
    const struct figure value = weather_figure(row, now->value, scene->view->units);
    const char *comes = now->by_hand ? "there" : "back";
    char clock[32];
    clock_of(scene, on_its_way(scene, row) ? now->ends : now->begins, clock, sizeof clock);
    if (on_its_way(scene, row) && brief)
        snprintf(room, (size_t)size, "%s at %s", comes, clock);
    else if (on_its_way(scene, row))
        snprintf(room, (size_t)size, "now %s %s, %s at %s", value.number, value.unit, comes, clock);
    else if (now->by_hand)
        snprintf(room, (size_t)size, "by hand since %s", clock);
    else
        snprintf(room, (size_t)size, "as the file has it");
}

static void state_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline, int row)
{
    const struct text_style style = {26.0, 500, COLOUR_INK, 0.0};
    const bool by_hand = now_of(scene, row)->by_hand;
    const double right = by_hand ? word_draw(frame, x1, baseline, WEATHER_BACK, "as the file") - 14.0 : x1;
    char text[120];
    state_words(scene, row, false, text, sizeof text);
    if (frame_text_width(frame, style, text) > right - x0)
        state_words(scene, row, true, text, sizeof text);
    if (frame_text_width(frame, style, text) <= right - x0)
        frame_text(frame, x0, baseline, style, text);
}

static bool sunlit(const struct ullage_model *model)
{
    for (int p = 0; p < ullage_model_parts(model); p++)
        if (ullage_model_parameter(model, p, "sunlit") > 0.0)
            return true;
    return false;
}

static const char *told_of(const struct scene *scene, int row)
{
    switch (ullage_weather_at(row).dimension) {
    case ULLAGE_TEMPERATURE:
        return "Of the air around. Walls follow it slowly, and by them gas, fuel and carbon.";
    case ULLAGE_PRESSURE:
        return "What a barometer shows. A gauge on what is shut shows its fall as a rise.";
    case ULLAGE_LENGTH:
        return "Where the standard atmosphere is as thin. It changes the pressure of the air alone, not its warmth.";
    case ULLAGE_HEAT_FLUX:
        return sunlit(scene->model) ? "On a surface that faces it: some 1,000 W/m² on a clear noon."
                                    : "Nothing here stands in the sun: no part has a sunlit area.";
    default:
        return "Past all walls. It cools what the sun, or the fuel, has warmed.";
    }
}

static void one_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, int row)
{
    const struct text_style soft = {22.0, 400, COLOUR_SOFT, 0.0};
    const double x0 = layout->column_x0, x1 = layout->column_x1, top = layout->wide ? 116.0 : 760.0;
    const double ruler = top + (layout->wide ? 176.0 : 136.0);
    char text[64];
    title_draw(frame, x0, x1, top, heading_of(row, text, sizeof text), "all five", WEATHER_LIST);
    figure_draw(frame, scene, x0, x1, top + (layout->wide ? 88.0 : 76.0), row);
    scale_draw(frame, scene, x0, x1, ruler, row);
    state_draw(frame, scene, x0, x1, ruler + (layout->wide ? 100.0 : 92.0), row);
    spans_draw(frame, scene, x0, x1, ruler + (layout->wide ? 156.0 : 150.0));
    if (!layout->wide)
        return;
    column_paragraph(frame, x0, ruler + 212.0, x1 - x0, soft, told_of(scene, row));
    hint_draw(frame, x0, 706.0, "0–9 type  ↑ ↓ step  T time  Backspace as the file  Esc");
}

void weather_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    if (scene->view->weather.row >= 0)
        one_draw(frame, scene, layout, scene->view->weather.row);
    else
        list_draw(frame, scene, layout);
}

/* ---- what a person wants ------------------------------------------------------------------------------------------- */
static const struct intent nothing = {INTENT_NONE, 0, 0.0, "", ""};

static struct intent command(int row, const char *value)
{
    struct intent intent = nothing;
    intent.kind = INTENT_COMMAND;
    snprintf(intent.what, sizeof intent.what, "%s", ullage_weather_at(row).key);
    snprintf(intent.value, sizeof intent.value, "%s", value);
    return intent;
}

static struct intent weather_to(const struct view *view, int row, double si)
{
    char value[48];
    return command(row, weather_text(row, si, view->weather.span, view->units, value, sizeof value));
}

static struct intent weather_back(const struct view *view, const struct scene *scene, int row)
{
    char value[48];
    if (!now_of(scene, row)->by_hand)
        return nothing;
    snprintf(value, sizeof value, "as-in-file ramp=%s", weather_span[view->weather.span].value);
    return command(row, value);
}

struct intent weather_nudge(struct view *view, const struct scene *scene, int row, int steps, bool fine)
{
    return weather_to(view, row, weather_step(row, knob_of(scene, row), steps, fine, view->units));
}

void weather_open(struct view *view, int row)
{
    view->page = PAGE_AIR;
    view->typed[0] = '\0';
    view->weather.row = row;
    view->weather.held = false;
    if (row >= 0)
        view->weather.cursor = row;
}

bool weather_escape(struct view *view)
{
    const bool open = view->weather.row >= 0;
    view->weather.row = -1;
    return open;
}

void weather_hold(struct view *view, int row, double share)
{
    view->weather.held = true;
    view->weather.wanted = weather_at(row, share, view->units);
}

struct intent weather_let_go(struct view *view)
{
    if (!view->weather.held)
        return nothing;
    view->weather.held = false;
    return weather_to(view, view->weather.row, view->weather.wanted);
}

struct intent weather_word_click(struct view *view, const struct scene *scene, int word)
{
    struct intent intent = nothing;
    view->typed[0] = '\0';
    if (word >= WEATHER_SPAN)
        view->weather.span = word - WEATHER_SPAN;
    else if (word == WEATHER_LIST)
        view->weather.row = -1;
    else if (word == WEATHER_BACK)
        return weather_back(view, scene, view->weather.row);
    else
        intent.kind = INTENT_FILE_WEATHER;
    return intent;
}

/* ---- keys ---------------------------------------------------------------------------------------------------------- */
static struct intent typed_done(struct view *view, int row)
{
    char typed[TYPED_MOST + 1];
    double si;
    snprintf(typed, sizeof typed, "%s", view->typed);
    view->typed[0] = '\0';
    const char *wrong = weather_typed(row, typed, view->units, &si);
    if (!wrong)
        return weather_to(view, row, si);
    snprintf(view->message, sizeof view->message, "%s: %s", typed, wrong);
    return nothing;
}

static struct intent typing_key(int key, struct view *view, int row)
{
    if (key == KEY_ENTER)
        return typed_done(view, row);
    typed_key(view, key);
    return nothing;
}

/* A digit, or the sign of what may be below nothing. */
static bool begins_value(int row, enum units units, int key)
{
    const struct weather_scale *scale = weather_scale(row, units);
    const double least = ullage_weather_at(row).least * scale->scale + scale->offset;
    return (key >= '0' && key <= '9') || (key == '-' && least < 0.0);
}

static struct intent arrow(struct view *view, const struct scene *scene, int up, bool fine)
{
    struct weather_view *weather = &view->weather;
    if (weather->row >= 0)
        return weather_nudge(view, scene, weather->row, up, fine);
    const int wanted = weather->cursor - up;
    weather->cursor = wanted < 0 ? 0 : wanted < ullage_weathers() ? wanted : ullage_weathers() - 1;
    return nothing;
}

bool weather_page_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent)
{
    const int key = input->key, row = view->weather.row >= 0 ? view->weather.row : view->weather.cursor;
    *intent = nothing;
    if (*view->typed) {
        *intent = typing_key(key, view, row);
    } else if (begins_value(row, view->units, key)) {
        weather_open(view, row);
        typed_key(view, key);
    } else if (key == 't' || key == 'T') {
        view->weather.span = (view->weather.span + (input->shift ? WEATHER_SPANS - 1 : 1)) % WEATHER_SPANS;
    } else if (view->focus < 0 && (key == KEY_UP || key == KEY_DOWN)) {
        *intent = arrow(view, scene, key == KEY_UP ? 1 : -1, input->shift);
    } else if (view->focus < 0 && key == KEY_ENTER) {
        weather_open(view, row);
    } else if (view->focus < 0 && key == KEY_BACKSPACE) {
        *intent = weather_back(view, scene, row);
    } else
        return false;
    return true;
}
