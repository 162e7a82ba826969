/* column.c  The column: one page at a time, in the wide form beside the plate, in the narrow one under it. */
#include "view/column.h"

#include "view/faults_page.h"
#include "view/leading.h"
#include "view/mixture.h"
#include "view/naming.h"
#include "view/steps.h"
#include "view/ways_page.h"
#include "view/weather_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ROW 40.0
#define HELP_KEYS 136.0 /* u for the keys' own names */
#define HELP_ROW 34.0

static const char *const page_word[] = {[PAGE_STEPS] = "Steps",
                                        [PAGE_READINGS] = "Readings",
                                        [PAGE_ENGINE] = "Engine",
                                        [PAGE_FAULTS] = "Faults",
                                        [PAGE_AIR] = "Air",
                                        [PAGE_WAYS] = "Ways"};

/* Which of its letters opens it. */
static const int page_letter[] = {[PAGE_WAYS] = 2, [PAGES] = 0};

/* ---- what the pages share ------------------------------------------------------------------------------------------ */
void column_fitted(struct frame *frame, double x, double baseline, double width, struct text_style style,
                   const char *text)
{
    char room[160];
    snprintf(room, sizeof room, "%s", text);
    if (frame_text_width(frame, style, room) > width)
        style.size = fmin(style.size, 22.0);
    for (char *space = strrchr(room, ' '); space && frame_text_width(frame, style, room) > width;
         space = strrchr(room, ' '))
        *space = '\0';
    frame_text(frame, x, baseline, style, room);
}

void column_heading(struct frame *frame, double x0, double x1, double baseline, const char *text, const char *note)
{
    const struct text_style heading = {26.0, 700, COLOUR_INK, 0.0}, soft = {24.0, 500, COLOUR_SOFT, 1.0};
    const double noted = *note ? frame_text(frame, x1, baseline, soft, note) + 16.0 : 0.0;
    column_fitted(frame, x0, baseline, x1 - x0 - noted, heading, text);
    frame_rule(frame, x0, baseline + 13.0, x1, baseline + 13.0, COLOUR_INK, 1.8);
}

double column_paragraph(struct frame *frame, double x, double baseline, double width, struct text_style style,
                        const char *text)
{
    char line[256];
    const double step = 1.28 * frame_text_size(frame, style.size);
    while (*text) {
        size_t length = 0;
        for (size_t at = 0; at < sizeof line - 1; at++) { /* the longest run of whole words that fits */
            if (text[at] && text[at] != ' ')
                continue;
            snprintf(line, sizeof line, "%.*s", (int)at, text);
            if (length && frame_text_width(frame, style, line) > width)
                break;
            length = at;
            if (!text[at])
                break;
        }
        snprintf(line, sizeof line, "%.*s", (int)length, text);
        frame_text(frame, x, baseline, style, line);
        baseline += step;
        text += length;
        while (*text == ' ')
            text++;
    }
    return baseline;
}

/* Name left, figure and unit in columns of their own right. */
static void value_row(struct frame *frame, double x0, double x1, double baseline, const char *name, const char *sign,
                      struct figure figure)
{
    char number[48];
    struct text_style label = {26.0, 400, COLOUR_INK, 0.0};
    const struct text_style value = {28.0, 600, COLOUR_INK, 1.0}, unit = {22.0, 500, COLOUR_SOFT, 0.0};
    const double unit_x = x1 - 74.0;
    snprintf(number, sizeof number, "%s%s", sign, figure.number);
    const double left = unit_x - 10.0 - frame_text(frame, unit_x - 10.0, baseline, value, number);
    frame_text(frame, unit_x, baseline, unit, figure.unit);
    if (frame_text_width(frame, label, name) > left - x0 - 10.0)
        label.size = 22.0;
    if (frame_text_width(frame, label, name) <= left - x0 - 10.0)
        frame_text(frame, x0, baseline, label, name);
}

void column_row(struct frame *frame, double x0, double x1, double baseline, const char *name, struct figure figure)
{
    value_row(frame, x0, x1, baseline, name, "", figure);
}

/* ---- pages --------------------------------------------------------------------------------------------------------- */
bool page_holds(const struct scene *scene, enum page page)
{
    if (page == PAGE_STEPS)
        return ullage_model_steps(scene->model) > 0;
    if (page == PAGE_READINGS)
        return scene->now->readings > 0 || leading_meter(scene) >= 0;
    if (page == PAGE_ENGINE)
        return mixture_engine(scene) >= 0;
    if (page == PAGE_AIR)
        return true;
    if (page == PAGE_WAYS)
        return scene->branches && scene->branches->count > 1;
    return scene->faults->count > 0;
}

double column_words(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    double x = layout->width - PICTURE_MARGIN;
    for (int page = PAGES - 1; page >= 0; page--) {
        if (!page_holds(scene, (enum page)page))
            continue;
        const bool chosen = (int)scene->view->page == page;
        const struct text_style style = {26.0, chosen ? 700 : 500, chosen ? COLOUR_INK : COLOUR_SOFT, 1.0};
        const int at = page_letter[page];
        char before[16], letter[2] = {page_word[page][at], '\0'};
        snprintf(before, sizeof before, "%.*s", at, page_word[page]);
        const struct frame_box box = frame_text_box(frame, x, 50.0, style, page_word[page]);
        frame_text(frame, x, 50.0, style, page_word[page]);
        frame_bar(frame, box.x0 + frame_text_width(frame, style, before), 56.0, frame_text_width(frame, style, letter),
                  2.2, style.colour);
        if (chosen)
            frame_bar(frame, box.x0, 66.0, box.x1 - box.x0, 9.0, COLOUR_INK);
        frame_spot(frame, SPOT_PAGE, page, box, 0.0, 0.0);
        x = box.x0 - 30.0;
    }
    return x;
}

static void readings_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                          int rows)
{
    const struct snapshot *now = scene->now;
    const struct text_style soft = {26.0, 400, COLOUR_SOFT, 0.0};
    char name[96];
    if (!now->readings)
        frame_text(frame, x0, baseline, soft, "Nothing has been read yet.");
    for (int k = now->readings > rows ? now->readings - rows : 0; k < now->readings; k++, baseline += ROW) {
        const struct ullage_reading *reading = &now->reading[k];
        naming_words(reading->name, false, name, sizeof name);
        value_row(frame, x0, x1, baseline, name,
                  reading->over > 0   ? "> "
                  : reading->over < 0 ? "< "
                                      : "",
                  figure_make(reading->value, reading->dimension, scene->view->units));
    }
}

/* ---- keys ---------------------------------------------------------------------------------------------------------- */
static const struct {
    const char *key, *does;
} keys[] = {
    {"space", "run, pause"},
    {". ,", "one sample on, back"},
    {"[ ]  − +", "slower, faster"},
    {"← →", "back, on in time"},
    {"Home End", "start, latest"},
    {"Tab", "next part; then F: its faults"},
    {"Enter", "open or shut it"},
    {"S R E F A Y", "pages of this column"},
    {"↑ ↓ 0–9", "choose a fault, its size"},
    {"/  O", "search faults, all healthy"},
    {"Backspace", "take out a fault, a branch"},
    {"T", "when a fault comes, ends"},
    {"N H", "next branch, healthy run"},
    {"Y  L", "all branches, name one"},
    {"U B", "units, bright room"},
    {"W K", "write picture, scenario"},
    {"Esc  Q", "back, leave the program"},
};

/* In columns of their own between x0 and x1. */
static void help_draw(struct frame *frame, double x0, double x1, double heading, int columns)
{
    const struct text_style key = {22.0, 700, COLOUR_INK, 0.0}, does = {22.0, 400, COLOUR_INK, 0.0};
    const int count = (int)(sizeof keys / sizeof keys[0]), rows = (count + columns - 1) / columns;
    column_heading(frame, x0, x1, heading, "Keys", "?");
    for (int k = 0; k < count; k++) {
        const double x = x0 + (x1 - x0) / columns * (k / rows), baseline = heading + 52.0 + HELP_ROW * (k % rows);
        frame_text(frame, x, baseline, key, keys[k].key);
        frame_text(frame, x + HELP_KEYS, baseline, does, keys[k].does);
    }
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */
static void trouble_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, double heading)
{
    const struct text_style style = {26.0, 400, COLOUR_INK, 0.0};
    column_heading(frame, layout->column_x0, layout->column_x1, heading, "The numbers failed", "");
    column_paragraph(frame, layout->column_x0, heading + 52.0, layout->column_x1 - layout->column_x0, style,
                     scene->now->trouble);
}

static void column_wide(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const double x0 = layout->column_x0, x1 = layout->column_x1;
    const struct leading_place leading = {x0, x1, 486.0, 568.0, 655.0};
    if (scene->view->page == PAGE_FAULTS) {
        faults_page_draw(frame, scene, layout);
        return;
    }
    if (scene->view->page == PAGE_AIR) {
        weather_page_draw(frame, scene, layout);
        return;
    }
    if (scene->view->page == PAGE_WAYS) {
        ways_page_draw(frame, scene, layout);
        return;
    }
    if (scene->view->page == PAGE_ENGINE) {
        mixture_wide(frame, scene, layout);
        return;
    }
    const bool leads = leading_holds(scene);
    if (scene->view->page == PAGE_STEPS) {
        steps_wide(frame, scene, layout, leads ? 446.0 : 700.0);
    } else {
        column_heading(frame, x0, x1, 116.0, "Readings", "");
        readings_draw(frame, scene, x0, x1, 168.0, leads ? 7 : 13);
    }
    if (leads)
        leading_draw(frame, scene, &leading);
}

static void column_narrow(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const double x0 = layout->column_x0, x1 = layout->column_x1;
    const struct leading_place leading = {x0, x1, 872.0, 948.0, 1024.0};
    if (scene->view->page == PAGE_FAULTS) {
        faults_page_draw(frame, scene, layout);
    } else if (scene->view->page == PAGE_AIR) {
        weather_page_draw(frame, scene, layout);
    } else if (scene->view->page == PAGE_WAYS) {
        ways_page_draw(frame, scene, layout);
    } else if (scene->view->page == PAGE_ENGINE) {
        mixture_narrow(frame, scene, layout);
    } else if (scene->view->page == PAGE_READINGS) {
        column_heading(frame, x0, x1, 760.0, "Readings", "");
        readings_draw(frame, scene, x0, x1, 810.0, 7);
    } else {
        steps_narrow(frame, scene, layout);
        leading_draw(frame, scene, &leading);
    }
}

double column_word(struct frame *frame, double x, double anchor, double baseline, enum spot_kind spot, int which,
                   const char *text)
{
    const struct text_style style = {22.0, 600, COLOUR_INK, anchor};
    const struct frame_box box = frame_text_box(frame, x, baseline, style, text);
    frame_text(frame, x, baseline, style, text);
    frame_path(frame);
    frame_move(frame, box.x0, baseline + 7.0);
    frame_line(frame, box.x1, baseline + 7.0);
    frame_stroke_dashed(frame, COLOUR_INK, 1.8, 2.0, 3.0);
    frame_spot(frame, spot, which, box_grown(box, 4.0), 0.0, 0.0);
    return anchor > 0.5 ? box.x0 : box.x1;
}

void column_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const double heading = layout->wide ? 116.0 : 760.0;
    if (*scene->now->trouble)
        trouble_draw(frame, scene, layout, heading);
    else if (scene->view->help)
        help_draw(frame, layout->wide ? layout->column_x0 : PICTURE_MARGIN, layout->column_x1, heading,
                  layout->wide ? 1 : 3);
    else if (layout->wide)
        column_wide(frame, scene, layout);
    else
        column_narrow(frame, scene, layout);
}
