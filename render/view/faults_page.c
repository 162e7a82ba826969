/* faults_page.c  The drawer in the column. As a list: what is wrong now, then what else can be, with a word to search by. Or
 * one fault: its size as a large figure that typing replaces, its ruler, how it comes about and what it changes. */
#include "view/faults_page.h"

#include "view/chart/chart.h"
#include "view/column.h"
#include "view/leading.h"
#include "view/naming.h"
#include "view/steps.h"
#include "view/times_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define LINE 37.0      /* u from one line of a list to the next */
#define WRONG_MOST 5   /* lines of what is wrong, in the wide form */
#define WRONG_NARROW 2 /* and in the narrow one */
#define MARK 6.0       /* u wide: the bar beside the line under the cursor */
#define HINT_SIZE 20.0
#define SIZE_LEAST 36.0 /* of the large figure, where its unit is long */

double fault_shown(const struct fault_row *row)
{
    if (row->in || row->own || fabs(row->size) > 0.0)
        return row->size;
    if (isfinite(row->usual))
        return row->usual;
    const struct fault_scale scale = fault_scale(row);
    return fault_scale_size(&scale, 0.5);
}

/* ---- words that are clicked ---------------------------------------------------------------------------------------- */
/* Right-aligned at x1, dotted under; returns its left end. */
double drawer_word_draw(struct frame *frame, double x1, double baseline, enum drawer_word word, const char *text)
{
    return column_word(frame, x1, 1.0, baseline, SPOT_DRAWER, (int)word, text);
}

/* A heading with a word at its right in place of a note. */
static void title_draw(struct frame *frame, double x0, double right, double x1, double baseline, const char *text)
{
    const struct text_style style = {26.0, 700, COLOUR_INK, 0.0};
    column_fitted(frame, x0, baseline, right - x0, style, text);
    frame_rule(frame, x0, baseline + 13.0, x1, baseline + 13.0, COLOUR_INK, 1.8);
}

static void heading_draw(struct frame *frame, double x0, double x1, double baseline, const char *text,
                         enum drawer_word word, const char *said)
{
    title_draw(frame, x0, *said ? drawer_word_draw(frame, x1, baseline, word, said) - 16.0 : x1, x1, baseline, text);
}

/* ---- lines of lists ------------------------------------------------------------------------------------------------ */
struct list {
    struct frame *frame;
    const struct scene *scene;
    double x0, x1, baseline;
};

static void cursor_draw(const struct list *list)
{
    frame_bar(list->frame, list->x0 - 16.0, list->baseline - 24.0, MARK, 32.0, COLOUR_INK);
}

/* Where it is: among the faults of one part its opening alone. */
static const char *place_words(const struct scene *scene, const struct fault_row *row)
{
    const char *opening = strstr(row->place, ", ");
    if (scene->view->drawer.part < 0 || row->part != scene->view->drawer.part)
        return row->place;
    return opening ? opening + 2 : "";
}

/* "Seal leak" in ink, where it is in soft ink behind it, its size at the right. */
static void line_draw(struct list *list, int index, bool cursor)
{
    const struct fault_row *row = &list->scene->faults->row[index];
    const struct text_style name = {26.0, row->in ? 600 : 400, COLOUR_INK, 0.0}, place = {22.0, 400, COLOUR_SOFT, 0.0},
                            size = {24.0, row->in ? 600 : 400, row->in ? COLOUR_INK : COLOUR_SOFT, 1.0};
    const struct figure figure = fault_figure(row, fault_shown(row), list->scene->view->units);
    struct frame *frame = list->frame;
    char text[120], size_text[80];
    snprintf(size_text, sizeof size_text, "%s %s", figure.number, figure.unit);
    times_sized(list->scene, row, size_text, text, sizeof text);
    const double right = list->x1 - frame_text(frame, list->x1, list->baseline, size, text) - 14.0;
    double x = list->x0;
    const char letter[2] = {hole_letter(list->scene->plate, row->hole), '\0'};
    if (*letter) {
        scene_letter(frame, x + SCENE_LETTER, list->baseline - 9.0, letter, row->in);
        x += 2.0 * SCENE_LETTER + 10.0;
    }
    const double wide = frame_text_width(frame, name, row->name);
    const char *where = place_words(list->scene, row);
    column_fitted(frame, x, list->baseline, right - x, name, row->name);
    if (*where && x + wide + 12.0 + frame_text_width(frame, place, where) <= right)
        frame_text(frame, x + wide + 12.0, list->baseline, place, where);
    if (cursor)
        cursor_draw(list);
    const struct frame_box box = {list->x0, list->baseline - 26.0, list->x1, list->baseline + 9.0};
    frame_spot(frame, SPOT_FAULT, index, box, 0.0, 0.0);
    list->baseline += LINE;
}

static void note_draw(struct list *list, const char *text)
{
    const struct text_style soft = {26.0, 400, COLOUR_SOFT, 0.0};
    frame_text(list->frame, list->x0, list->baseline, soft, text);
    list->baseline += LINE;
}

/* Lines first..first+room of `lines`, those around the cursor; a last line says how many are left out. */
static void lines_draw(struct list *list, const struct drawer_lines *lines, int first, int end, int room, bool cursor)
{
    const struct drawer *drawer = &list->scene->view->drawer;
    const int count = end - first, at = drawer->cursor - first;
    const int top = first + drawer_top(at < 0 ? 0 : at >= count ? count - 1 : at, count, room);
    for (int k = top; k < end && k < top + room; k++)
        line_draw(list, lines->row[k], cursor && k == drawer->cursor);
}

/* ---- what is wrong now --------------------------------------------------------------------------------------------- */
static void wrong_draw(struct list *list, const struct drawer_lines *lines, int room, bool cursor)
{
    const struct fault_row *row = list->scene->faults->row;
    const char *heading = "Wrong now";
    char text[48];
    for (int k = 0; k < lines->wrong; k++)
        if (row[lines->row[k]].waits)
            heading = "Wrong, to come";
    snprintf(text, sizeof text, lines->wrong > room ? "%s: %d" : "%s", heading, lines->wrong);
    double right = list->x1;
    if (lines->wrong) {
        right = drawer_word_draw(list->frame, right, list->baseline, DRAWER_HEALTHY, "all healthy again") - 20.0;
        right = drawer_word_draw(list->frame, right, list->baseline, DRAWER_SOUND,
                                 list->scene->view->sound ? "healthy run off" : "healthy run") -
                16.0;
    }
    title_draw(list->frame, list->x0, right, list->x1, list->baseline, text);
    list->baseline += 50.0;
    if (!lines->wrong)
        note_draw(list, "Nothing.");
    else
        lines_draw(list, lines, 0, lines->wrong, room, cursor);
}

/* ---- the list ------------------------------------------------------------------------------------------------------ */
static void search_draw(struct frame *frame, const struct drawer *drawer, double x0, double x1, double baseline)
{
    const struct text_style style = {24.0, 500, COLOUR_INK, 0.0}, soft = {24.0, 400, COLOUR_SOFT, 0.0};
    const bool empty = !*drawer->search && !drawer->searching;
    char text[SEARCH_MOST + 16];
    snprintf(text, sizeof text, "%s%s", drawer->search, drawer->searching ? "|" : "");
    frame_path(frame);
    frame_rounded(frame, x0, baseline - 27.0, x1 - x0, 37.0, 6.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, drawer->searching ? COLOUR_INK : COLOUR_WALL, drawer->searching ? 3.0 : 1.6);
    column_fitted(frame, x0 + 12.0, baseline, x1 - x0 - 24.0, empty ? soft : style, empty ? "search: /" : text);
    const struct frame_box box = {x0, baseline - 27.0, x1, baseline + 10.0};
    frame_spot(frame, SPOT_DRAWER, DRAWER_SEARCH, box, 0.0, 0.0);
}

static void possible_heading(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                             int count)
{
    const struct drawer *drawer = &scene->view->drawer;
    char text[96], name[64];
    if (drawer->part >= 0) {
        naming_part(scene->model, drawer->part, false, name, sizeof name);
        snprintf(text, sizeof text, "Of the %s", name);
        heading_draw(frame, x0, x1, baseline, text, DRAWER_ALL, "of all parts");
        return;
    }
    snprintf(text, sizeof text, "%d", count);
    column_heading(frame, x0, x1, baseline, "What can be wrong", text);
}

static void hint_draw(struct frame *frame, double x0, double x1, double baseline, const char *text)
{
    const struct text_style soft = {HINT_SIZE, 500, COLOUR_SOFT, 0.0};
    column_fitted(frame, x0, baseline, x1 - x0, soft, text);
}

static void list_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    struct drawer_lines lines;
    const struct drawer *drawer = &scene->view->drawer;
    const double foot = layout->wide ? 706.0 : 1066.0;
    struct list list = {frame, scene, layout->column_x0, layout->column_x1, layout->wide ? 116.0 : 760.0};
    drawer_lines(drawer, scene->faults, &lines);
    wrong_draw(&list, &lines, layout->wide ? WRONG_MOST : WRONG_NARROW, true);
    list.baseline += layout->wide ? 22.0 : 2.0;
    if (layout->wide) {
        possible_heading(frame, scene, list.x0, list.x1, list.baseline, lines.count - lines.wrong);
        list.baseline += 54.0;
    }
    const bool narrowed = !layout->wide && drawer->part >= 0;
    const double search_end =
        narrowed ? drawer_word_draw(frame, list.x1, list.baseline, DRAWER_ALL, "of all") - 14.0 : list.x1;
    search_draw(frame, drawer, list.x0, search_end, list.baseline);
    list.baseline += 45.0;
    const double hint = layout->wide ? LINE : 0.0;
    const int room = (int)((foot - hint - list.baseline) / LINE) + 1;
    if (lines.count == lines.wrong)
        note_draw(&list, *drawer->search ? "Nothing of that kind." : "Nothing more.");
    else
        lines_draw(&list, &lines, lines.wrong, lines.count, room, true);
    if (layout->wide)
        hint_draw(frame, list.x0, list.x1, foot, "↑ ↓  Enter ruler  Backspace out  / search  O all healthy");
}

/* ---- one of them --------------------------------------------------------------------------------------------------- */
static void size_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                      const struct fault_row *row)
{
    char text[80];
    struct text_style style = {64.0, 700, COLOUR_INK, 0.0};
    const struct text_style other = {26.0, 600, COLOUR_SOFT, 1.0};
    const enum units units = scene->view->units, others = units == UNITS_INCH ? UNITS_METRIC : UNITS_INCH;
    if (*scene->view->typed && scene->view->drawer.time < 0) {
        snprintf(text, sizeof text, "%s|", scene->view->typed);
        frame_text(frame, x0, baseline, style, text);
        return;
    }
    const struct figure shown = fault_figure(row, fault_shown(row), units),
                        second = fault_figure(row, fault_shown(row), others);
    snprintf(text, sizeof text, "%s %s", shown.number, shown.unit);
    while (style.size > SIZE_LEAST && frame_text_width(frame, style, text) > x1 - x0)
        style.size -= 2.0;
    const double wide = frame_text(frame, x0, baseline, style, text);
    snprintf(text, sizeof text, "%s %s", second.number, second.unit);
    if (strcmp(shown.unit, second.unit) && wide + 20.0 + frame_text_width(frame, other, text) < x1 - x0)
        frame_text(frame, x1, baseline, other, text);
}

static void hole_ruler(struct frame *frame, const struct scene *scene, double x0, double x1, double y, int index)
{
    const struct fault_row *row = &scene->faults->row[index];
    double doubt;
    const int meter = leading_meter(scene);
    const struct ruler ruler = {.x0 = x0 + 20.0,
                                .x1 = x1 - 58.0,
                                .y = y,
                                .units = scene->view->units,
                                .limit = leading_limit(scene->model, &doubt),
                                .reading = meter >= 0 ? scene_value(scene, meter, HOLE) : (double)NAN,
                                .knob = fault_shown(row),
                                .shut = !row->in,
                                .other = row->other,
                                .part = index};
    ruler_draw(frame, &ruler);
}

static void other_ruler(struct frame *frame, const struct scene *scene, double x0, double x1, double y, int index)
{
    const struct fault_row *row = &scene->faults->row[index];
    const struct fault_scale scale = fault_scale(row);
    const struct unit_view unit = fault_unit(row, scene->view->units);
    const struct size_ruler ruler = {.x0 = x0 + 24.0,
                                     .x1 = x1 - 74.0,
                                     .y = y,
                                     .least = unit.scale * scale.least,
                                     .most = unit.scale * scale.most,
                                     .unit = unit.unit,
                                     .log = scale.log,
                                     .in = row->in,
                                     .knob = fault_scale_share(&scale, fault_shown(row)),
                                     .other = isnan(row->other) ? row->other : fault_scale_share(&scale, row->other),
                                     .part = index};
    size_ruler_draw(frame, &ruler);
}

static void state_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                       const struct fault_row *row, bool narrow)
{
    const struct text_style style = {26.0, 500, COLOUR_INK, 0.0};
    char text[80];
    const char *toggle = row->own ? (row->in ? "plug it" : "open it") : fault_put_in(row) ? "take it out" : "put it in";
    double right = row->fixed ? x1 : drawer_word_draw(frame, x1, baseline, DRAWER_TOGGLE, toggle) - 14.0;
    if (narrow && fault_timed(row))
        right = drawer_word_draw(frame, right - 6.0, baseline, DRAWER_TIMES,
                                 scene->view->drawer.time >= 0 ? "done" : "times") -
                14.0;
    column_fitted(frame, x0, baseline, right - x0, style, times_state(scene, row, text, sizeof text));
}

/* What it does, in numbers: of a hole the gas through it, and what the meter makes of that. */
static double effect_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                          const struct fault_row *row)
{
    const int meter = leading_meter(scene);
    const enum units units = scene->view->units;
    if (row->hole < 0)
        return baseline;
    column_row(frame, x0, x1, baseline, "gas through it",
               figure_make(fabs(scene_told_flow(scene, row->hole)), ULLAGE_VOLUME_FLOW, units));
    if (meter >= 0) {
        baseline += LINE;
        column_row(frame, x0, x1, baseline, "the meter shows",
                   figure_make(scene_told(scene, meter, HOLE), ULLAGE_LENGTH, units));
    }
    return baseline + LINE;
}

static double told_draw(struct frame *frame, double x0, double x1, double baseline, const char *what, const char *text)
{
    const struct text_style lead = {22.0, 600, COLOUR_SOFT, 0.0}, style = {22.0, 400, COLOUR_INK, 0.0};
    if (!*text)
        return baseline;
    frame_text(frame, x0, baseline, lead, what);
    return column_paragraph(frame, x0, baseline + 28.0, x1 - x0, style, text) + 8.0;
}

static void fault_heading(const struct scene *scene, const struct fault_row *row, char *room, int size)
{
    const int body = row->own ? scene->plate->body_of[row->hole] : -1;
    const char *name =
        body >= 0 && *scene->plate->body[body].label.name ? scene->plate->body[body].label.name : row->name;
    snprintf(room, (size_t)size, "%s%s%s", name, *row->place ? ", " : "", row->place);
}

static void one_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, int index)
{
    const struct fault_row *row = &scene->faults->row[index];
    const double x0 = layout->column_x0, x1 = layout->column_x1, top = layout->wide ? 116.0 : 760.0;
    const double ruler = top + (layout->wide ? 194.0 : 178.0);
    char text[176];
    const bool times = scene->view->drawer.time >= 0 && fault_timed(row);
    fault_heading(scene, row, text, sizeof text);
    heading_draw(frame, x0, x1, top, text, DRAWER_LIST, "list");
    if (times && !layout->wide) {
        times_lines_draw(frame, scene, x0, x1, top + 52.0, row);
        state_draw(frame, scene, x0, x1, ruler + 92.0, row, true);
        return;
    }
    size_draw(frame, scene, x0, x1, top + (layout->wide ? 80.0 : 76.0), row);
    if (row->round)
        hole_ruler(frame, scene, x0, x1, ruler, index);
    else
        other_ruler(frame, scene, x0, x1, ruler, index);
    state_draw(frame, scene, x0, x1, ruler + 92.0, row, !layout->wide);
    if (!layout->wide)
        return;
    double baseline = times_line_draw(frame, scene, x0, x1, ruler + 92.0 + LINE, row);
    if (times) {
        times_lines_draw(frame, scene, x0, x1, baseline + 8.0, row);
        hint_draw(frame, x0, x1, 706.0, "↑ ↓  + −  0–9 type: 1:30, 90 s  Backspace usual  T done");
        return;
    }
    baseline = effect_draw(frame, scene, x0, x1, baseline, row);
    baseline = told_draw(frame, x0, x1, baseline + 4.0, "How it comes about", row->comes);
    told_draw(frame, x0, x1, baseline, "What it changes", row->changes);
    hint_draw(frame, x0, x1, 706.0, "0–9 type it  ↑ ↓ size  Enter in, out  T times  Esc list");
}

void faults_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const int open = scene->view->drawer.row;
    if (open >= 0 && open < scene->faults->count)
        one_draw(frame, scene, layout, open);
    else
        list_draw(frame, scene, layout);
}
