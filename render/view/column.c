/* column.c  The column: one page at a time, in the wide form beside the plate, in the narrow one under it. */
#include "view/column.h"

#include "view/chart/chart.h"
#include "view/leading.h"
#include "view/mixture.h"
#include "view/naming.h"
#include "view/steps.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ROW 40.0
#define HELP_KEYS 136.0 /* u for the keys' own names */

static const char *const page_word[] = {[PAGE_STEPS] = "Steps", [PAGE_READINGS] = "Readings", [PAGE_ENGINE] = "Engine", [PAGE_LEAKS] = "Leaks"};

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
int column_holes(const struct scene *scene, int *part, int most)
{
    int count = 0;
    for (int p = 0; p < scene->cast->parts && count < most; p++)
        if (hole_letter(scene->model, p) && scene->cast->channel[p][DIAMETER] >= 0)
            part[count++] = p;
    return count;
}

bool page_holds(const struct scene *scene, enum page page)
{
    int part[1];
    if (page == PAGE_STEPS)
        return ullage_model_steps(scene->model) > 0;
    if (page == PAGE_READINGS)
        return scene->now->readings > 0 || leading_meter(scene) >= 0;
    if (page == PAGE_ENGINE)
        return mixture_engine(scene) >= 0;
    return column_holes(scene, part, 1) > 0;
}

double column_words(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    double x = layout->width - PICTURE_MARGIN;
    for (int page = PAGES - 1; page >= 0; page--) {
        if (!page_holds(scene, (enum page)page))
            continue;
        const bool chosen = (int)scene->view->page == page;
        const struct text_style style = {26.0, chosen ? 700 : 500, chosen ? COLOUR_INK : COLOUR_SOFT, 1.0};
        const char letter[2] = {page_word[page][0], '\0'};
        const struct frame_box box = frame_text_box(frame, x, 50.0, style, page_word[page]);
        frame_text(frame, x, 50.0, style, page_word[page]);
        frame_bar(frame, box.x0, 56.0, frame_text_width(frame, style, letter), 2.2, style.colour);
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

/* ---- the slider of a hole ------------------------------------------------------------------------------------------ */
int column_hole(const struct scene *scene)
{
    int part[HOLES_MOST], best = -1;
    double most = -1.0;
    const int count = column_holes(scene, part, HOLES_MOST);
    for (int k = 0; k < count; k++) {
        const double opening = scene_value(scene, part[k], OPENING);
        const double flow = opening > 0.0 ? fabs(scene_flow(scene, part[k])) : -1.0;
        if (part[k] == scene->view->hole)
            return part[k];
        if (best < 0 || flow > most) {
            best = part[k];
            most = flow;
        }
    }
    return best;
}

static void letters_draw(struct frame *frame, const struct scene *scene, double x1, double y, const int *part,
                         int count, int chosen)
{
    double x = x1 - SCENE_LETTER;
    for (int k = count - 1; k >= 0; k--, x -= 2.0 * SCENE_LETTER + 9.0) {
        const char letter[2] = {hole_letter(scene->model, part[k]), '\0'};
        scene_letter(frame, x, y, letter, part[k] == chosen);
        const struct frame_box box = {x - SCENE_LETTER, y - SCENE_LETTER, x + SCENE_LETTER, y + SCENE_LETTER};
        frame_spot(frame, SPOT_PLACE, part[k], box, 0.0, 0.0);
    }
}

static void size_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                      double diameter)
{
    char text[48];
    const struct text_style style = {64.0, 700, COLOUR_INK, 0.0}, other = {26.0, 600, COLOUR_SOFT, 1.0};
    const bool inch = scene->view->units == UNITS_INCH;
    if (*scene->view->typed) {
        snprintf(text, sizeof text, "%s|", scene->view->typed);
        frame_text(frame, x0, baseline, style, text);
        return;
    }
    figure_text(diameter, ULLAGE_LENGTH, inch ? UNITS_INCH : UNITS_METRIC, text, sizeof text);
    frame_text(frame, x0, baseline, style, text);
    figure_text(diameter, ULLAGE_LENGTH, inch ? UNITS_METRIC : UNITS_INCH, text, sizeof text);
    frame_text(frame, x1, baseline, other, text);
}

static void hole_rows(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline, int part,
                      int rows)
{
    const int meter = leading_meter(scene);
    const double opening = scene_value(scene, part, OPENING);
    struct figure state = {"open", ""};
    if (isfinite(opening) && opening < 0.001)
        snprintf(state.number, sizeof state.number, "plugged");

    const struct {
        const char *name;
        struct figure figure;
        bool there;
    } row[] = {
        {"gas through it", figure_make(fabs(scene_told_flow(scene, part)), ULLAGE_VOLUME_FLOW, scene->view->units),
         true},
        {"the hole is", state, true},
        {"the meter shows", figure_make(scene_told(scene, meter, HOLE), ULLAGE_LENGTH, scene->view->units), meter >= 0},
        {"corrected for losses on the way",
         figure_make(scene_told(scene, meter, TRUE_HOLE), ULLAGE_LENGTH, scene->view->units), meter >= 0},
    };

    for (size_t k = 0; k < sizeof row / sizeof row[0] && rows > 0; k++) {
        if (!row[k].there)
            continue;
        value_row(frame, x0, x1, baseline, row[k].name, "", row[k].figure);
        baseline += ROW;
        rows--;
    }
}

struct slider_place {
    double heading, figure, ruler, rows;
    int most;
};

static void leaks_draw(struct frame *frame, const struct scene *scene, double x0, double x1,
                       const struct slider_place *place)
{
    int part[HOLES_MOST];
    double doubt;
    char name[96];
    const int count = column_holes(scene, part, HOLES_MOST), chosen = column_hole(scene);
    if (chosen < 0)
        return;
    const double diameter = scene_value(scene, chosen, DIAMETER);
    const int body = scene->plate->body_of[chosen];
    snprintf(name, sizeof name, "%s", body >= 0 ? scene->plate->body[body].label.name : "");
    if (!*name)
        naming_part(scene->model, chosen, true, name, sizeof name);
    column_heading(frame, x0, x1, place->heading, name, "");
    if (count > 1)
        letters_draw(frame, scene, x1, place->heading - 9.0, part, count, chosen);
    size_draw(frame, scene, x0, x1, place->figure, diameter);
    const struct ruler ruler = {.x0 = x0 + 20.0,
                                .x1 = x1 - 58.0,
                                .y = place->ruler,
                                .units = scene->view->units,
                                .limit = leading_limit(scene->model, &doubt),
                                .reading = leading_meter(scene) >= 0 ? scene_value(scene, leading_meter(scene), HOLE)
                                                                     : (double)NAN,
                                .knob = diameter,
                                .part = chosen};
    ruler_draw(frame, &ruler);
    hole_rows(frame, scene, x0, x1, place->rows, chosen, place->most);
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
    {"Tab", "next part"},
    {"Enter", "open or shut it"},
    {"↑ ↓", "the size chosen"},
    {"0–9 .", "type a size"},
    {"S R E L", "pages of this column"},
    {"U", "units"},
    {"B", "bright room"},
    {"W", "write the picture"},
    {"Esc", "leave"},
};

/* In columns of their own between x0 and x1. */
static void help_draw(struct frame *frame, double x0, double x1, double heading, int columns)
{
    const struct text_style key = {22.0, 700, COLOUR_INK, 0.0}, does = {22.0, 400, COLOUR_INK, 0.0};
    const int count = (int)(sizeof keys / sizeof keys[0]), rows = (count + columns - 1) / columns;
    column_heading(frame, x0, x1, heading, "Keys", "?");
    for (int k = 0; k < count; k++) {
        const double x = x0 + (x1 - x0) / columns * (k / rows), baseline = heading + 52.0 + 40.0 * (k % rows);
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
    const struct slider_place slider = {116.0, 196.0, 310.0, 410.0, 4};
    if (scene->view->page == PAGE_LEAKS) {
        leaks_draw(frame, scene, x0, x1, &slider);
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
    const struct slider_place slider = {760.0, 836.0, 938.0, 1030.0, 1};
    if (scene->view->page == PAGE_LEAKS) {
        leaks_draw(frame, scene, x0, x1, &slider);
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
