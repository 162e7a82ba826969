/* scene.c  Questions that drawn parts ask. */
#include "view/scene.h"

#include "view/part/part.h"

#include <math.h>
#include <string.h>

#define PRESENT 0.002 /* mole share from which a gas is told of */

const struct text_style scene_name_style = {26.0, 500, COLOUR_INK, 0.0};
const struct text_style scene_figure_style = {28.0, 600, COLOUR_INK, 0.0};
const struct text_style scene_small_style = {22.0, 600, COLOUR_INK, 0.0};
const struct text_style scene_note_style = {22.0, 500, COLOUR_SOFT, 0.0};

double scene_value(const struct scene *scene, int part, enum quantity quantity)
{
    return cast_value(scene->cast, scene->now->value, part, quantity);
}

double scene_told(const struct scene *scene, int part, enum quantity quantity)
{
    return cast_value(scene->cast, scene->told, part, quantity);
}

double scene_told_flow(const struct scene *scene, int part)
{
    const double flow = scene_told(scene, part, STANDARD_FLOW);
    return isfinite(flow) ? flow : 0.0;
}

int scene_cells(const struct scene *scene, int part, const struct ullage_cell **cell)
{
    const int *of = scene->now->cell_of;
    *cell = scene->now->cell + (part < 0 ? 0 : of[part]);
    return part < 0 ? 0 : of[part + 1] - of[part];
}

const struct ullage_cell *scene_told_cell(const struct scene *scene, const struct ullage_cell *cell)
{
    return scene->told_cell + (cell - scene->now->cell);
}

double scene_gauge(const struct scene *scene, int part)
{
    const double gauge = scene_value(scene, part, GAUGE);
    return isfinite(gauge) ? gauge : 0.0;
}

bool scene_type(const struct scene *scene, int part, const char *type)
{
    return part >= 0 && !strcmp(ullage_model_part(scene->model, part).type, type);
}

static bool word_is(const struct scene *scene, int part, const char *name, const char *wanted)
{
    const char *word = ullage_model_word(scene->model, part, name);
    return word && !strcmp(word, wanted);
}

/* What a supply feeds: its own gas, whatever lies before it. */
static struct mix supply_mix(const struct scene *scene, int part)
{
    if (word_is(scene, part, "tracer", "smoke"))
        return (struct mix){.smoke = 1.0};
    return word_is(scene, part, "gas", "air") ? (struct mix){.air = 1.0} : (struct mix){.clean = 1.0};
}

struct mix scene_mix(const struct scene *scene, int part)
{
    if (scene_type(scene, part, "supply"))
        return supply_mix(scene, part);
    const double air = scene_value(scene, part, SHARE_AIR), smoke = scene_value(scene, part, SHARE_SMOKE);
    const double vapor = scene_value(scene, part, SHARE_VAPOR);
    struct mix mix = {.air = isfinite(air) ? air : 1.0,
                      .smoke = isfinite(smoke) ? smoke : 0.0,
                      .vapor = isfinite(vapor) ? vapor : 0.0};
    mix.vapor = fmin(fmax(mix.vapor, 0.0), 1.0);
    mix.smoke = fmin(fmax(mix.smoke, 0.0), 1.0 - mix.vapor);
    mix.air = fmin(fmax(mix.air, 0.0), 1.0 - mix.vapor - mix.smoke);
    mix.clean = 1.0 - mix.air - mix.smoke - mix.vapor;
    if (mix.clean < PRESENT) /* rounding of the others */
        mix.clean = 0.0;
    return mix;
}

unsigned scene_colour(const struct scene *scene, int part)
{
    return colour_pressure(scene_gauge(scene, part), scene->view->bright);
}

double scene_flow(const struct scene *scene, int part)
{
    const double flow = scene_value(scene, part, STANDARD_FLOW);
    return isfinite(flow) ? flow : 0.0;
}

bool scene_joined(const struct scene *scene, int equipment)
{
    return equipment >= 0 && scene->now->joined[equipment] >= 0;
}

const char *scene_text(const struct scene *scene, double si, int dimension, char *room, int size)
{
    return figure_text(si, dimension, scene->view->units, room, size);
}

/* Name and figure on one line, centred on the label's middle. */
static void one_line(struct frame *frame, const struct plate_label *label, const char *figure)
{
    const double gap = 10.0, name = frame_text_width(frame, scene_name_style, label->name);
    const double whole = name + (figure && *figure ? gap + frame_text_width(frame, scene_figure_style, figure) : 0.0);
    const double x = label->x - label->anchor * whole;
    frame_text(frame, x, label->baseline, scene_name_style, label->name);
    if (figure)
        frame_text(frame, x + name + gap, label->baseline, scene_figure_style, figure);
}

void scene_letter(struct frame *frame, double x, double y, const char *letter, bool chosen)
{
    const struct text_style style = {20.0, 700, chosen ? COLOUR_PAPER : COLOUR_INK, 0.5};
    frame_path(frame);
    frame_circle(frame, x, y, SCENE_LETTER);
    frame_fill(frame, chosen ? COLOUR_INK : COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 2.0);
    frame_text(frame, x, y + 0.36 * frame_text_size(frame, style.size), style, letter);
}

void scene_words(struct frame *frame, const struct plate_body *body, const char *figure)
{
    const struct plate_label *label = &body->label;
    if (!label->placed)
        return;
    if (label->letter) {
        const char letter[2] = {label->letter, '\0'};
        scene_letter(frame, 0.5 * (label->box.x0 + label->box.x1), 0.5 * (label->box.y0 + label->box.y1), letter,
                     false);
        return;
    }
    if (body->drawn->one_line) {
        one_line(frame, label, figure);
        return;
    }
    struct text_style style = scene_name_style;
    style.anchor = label->anchor;
    frame_text(frame, label->x, label->baseline, style, label->name);
    style = scene_figure_style;
    style.anchor = label->anchor;
    if (figure && label->step > 0.0)
        frame_text(frame, label->x, label->baseline + label->step, style, figure);
}
