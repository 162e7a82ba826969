/* tank.c  The fuel tank, cut open: a shell with its gas. Shapes: saddle (over a tunnel), box, cylinder, drum. */
#include "view/naming.h"
#include "view/part/float.h"
#include "view/part/gas.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define WALL 8.0          /* u from the middle of the shell to its inner edge */
#define SADDLE_LEAST 0.03 /* m3: smaller tanks have no tunnel under them where the file does not say */
#define FIGURES_LEAST 32.0
#define TUNNEL_WIDE 150.0
#define TUNNEL_FLAT 72.0
#define TUNNEL_HIGH 58.0

enum tank_shape { BOX, SADDLE, CYLINDER, DRUM };

static enum tank_shape shape_of(const struct ullage_model *model, int part)
{
    const char *const names[] = {"box", "saddle", "cylinder", "drum"};
    const struct ullage_part about = ullage_model_part(model, part);
    for (int k = 0; k < 4; k++)
        if (about.shape && !strcmp(about.shape, names[k]))
            return (enum tank_shape)k;
    return ullage_model_parameter(model, part, "volume") > SADDLE_LEAST ? SADDLE : BOX;
}

static void tank_measure(const struct plate *plate, struct plate_body *body)
{
    const struct frame_box extents[] = {[BOX] = {-240.0, -120.0, 240.0, 120.0},
                                        [SADDLE] = {-320.0, -126.0, 320.0, 126.0},
                                        [CYLINDER] = {-270.0, -105.0, 270.0, 105.0},
                                        [DRUM] = {-150.0, -165.0, 150.0, 165.0}};
    body->extent = extents[shape_of(plate->model, body->part)];
}

/* The middle of the shell, `inset` u inward. */
static void tank_path(struct frame *frame, const struct frame_box *box, enum tank_shape shape, double inset)
{
    const double x0 = box->x0 + WALL + inset, x1 = box->x1 - WALL - inset;
    const double y0 = box->y0 + WALL + inset, y1 = box->y1 - WALL - inset;
    const double radius = (shape == CYLINDER ? 0.5 * (y1 - y0) : shape == DRUM ? 26.0 : 54.0 - inset);
    if (shape != SADDLE) {
        frame_rounded(frame, x0, y0, x1 - x0, y1 - y0, radius);
        return;
    }
    const double middle = 0.5 * (x0 + x1), top = y1 - TUNNEL_HIGH;
    const double wide = TUNNEL_WIDE + 0.6 * inset, flat = TUNNEL_FLAT + 0.5 * inset;
    frame_move(frame, middle + wide, y1);
    frame_curve(frame, middle + wide - 42.0, y1, middle + flat + 36.0, top, middle + flat, top);
    frame_line(frame, middle - flat, top);
    frame_curve(frame, middle - flat - 36.0, top, middle - wide + 42.0, y1, middle - wide, y1);
    const double quarter = 1.5707963267948966;
    frame_arc(frame, x0 + radius, y1 - radius, radius, quarter, 2.0 * quarter);
    frame_arc(frame, x0 + radius, y0 + radius, radius, 2.0 * quarter, 3.0 * quarter);
    frame_arc(frame, x1 - radius, y0 + radius, radius, -quarter, 0.0);
    frame_arc(frame, x1 - radius, y1 - radius, radius, 0.0, quarter);
    frame_close(frame);
}

static bool inside_saddle(const struct gas_space *space, double x, double y)
{
    const struct frame_box shell = box_grown(space->body->box, -2.0 * WALL), *b = &shell;
    const double margin = 15.0, middle = 0.5 * (b->x0 + b->x1);
    const double corner_x = fmax(fmax(b->x0 + 52.0 - x, x - b->x1 + 52.0), 0.0);
    const double corner_y = fmax(fmax(b->y0 + 52.0 - y, y - b->y1 + 52.0), 0.0);
    if (hypot(corner_x, corner_y) > 52.0 - margin)
        return false;
    return y < space->box.y1 - margin && (fabs(x - middle) > TUNNEL_WIDE || y < b->y1 - TUNNEL_HIGH - margin);
}

static bool inside_round(const struct gas_space *space, double x, double y)
{
    const struct frame_box shell = box_grown(space->body->box, -2.0 * WALL), *b = &shell;
    if (y > space->box.y1 - 15.0)
        return false;
    const double radius = 0.5 * (b->y1 - b->y0), off = fmax(fmax(b->x0 + radius - x, x - b->x1 + radius), 0.0);
    return hypot(off, y - 0.5 * (b->y0 + b->y1)) < radius - 15.0;
}

static void tank_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    tank_path(frame, &body->box, shape_of(scene->model, body->part), 0.0);
    frame_stroke(frame, COLOUR_INK, 2.0 * WALL);
    frame_stroke(frame, COLOUR_SHELL, 10.0);
}

static void tank_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    tank_path(frame, &body->box, shape_of(scene->model, body->part), WALL - 1.0);
    frame_fill(frame, scene_colour(scene, body->part));
}

/* Width of the section at height y: the tunnel takes from it. */
static double section_width(const struct frame_box *box, enum tank_shape shape, double y)
{
    const double whole = box->x1 - box->x0, over = box->y1 - TUNNEL_HIGH;
    if (shape == CYLINDER) {
        const double radius = 0.5 * (box->y1 - box->y0), off = y - 0.5 * (box->y0 + box->y1);
        return whole - 2.0 * (radius - sqrt(fmax(radius * radius - off * off, 0.0)));
    }
    if (shape != SADDLE || y < over)
        return whole;
    return whole - 2.0 * (TUNNEL_FLAT + (TUNNEL_WIDE - TUNNEL_FLAT) * (y - over) / TUNNEL_HIGH);
}

/* Where the liquid stands: under it lies the share `level` of the section. */
static double surface_height(const struct frame_box *box, enum tank_shape shape, double level)
{
    enum { SLICES = 200 };

    const double step = (box->y1 - box->y0) / SLICES;
    double area = 0.0, below = 0.0;
    for (int k = 0; k < SLICES; k++)
        area += section_width(box, shape, box->y0 + (k + 0.5) * step);
    for (int k = SLICES - 1; k >= 0; k--) {
        const double slice = section_width(box, shape, box->y0 + (k + 0.5) * step);
        if (below + slice > level * area)
            return box->y0 + (k + 1) * step - step * (level * area - below) / slice;
        below += slice;
    }
    return box->y0;
}

/* Level of the liquid as drawn, u; the bottom where there is none. */
static double tank_surface(const struct scene *scene, const struct plate_body *body, enum tank_shape shape)
{
    const struct frame_box inside = box_grown(body->box, -2.0 * WALL);
    const double level = scene_value(scene, body->part, LEVEL);
    return isfinite(level) && level > 0.0 ? surface_height(&inside, shape, level) : inside.y1;
}

static void tank_liquid(struct frame *frame, const struct plate_body *body, enum tank_shape shape, double surface)
{
    const struct frame_box *box = &body->box;
    frame_path(frame);
    tank_path(frame, box, shape, WALL - 1.0);
    frame_clip(frame);
    frame_bar(frame, box->x0, surface, box->x1 - box->x0, box->y1 - surface, COLOUR_LIQUID);
    for (double y = surface + 26.0; y < box->y1; y += 26.0) /* it stands still, and so do its strokes */
        for (double x = box->x0 + 30.0 + fmod(37.0 * y, 60.0); x < box->x1; x += 118.0)
            frame_rule(frame, x, y, x + 46.0, y, COLOUR_LIQUID_STROKE, 2.0);
    frame_rule(frame, box->x0, surface, box->x1, surface, COLOUR_INK, 4.0);
    frame_unclip(frame);
}

/* Where words may reach down to: over the tunnel of a saddle. */
static double words_floor(const struct plate_body *body, enum tank_shape shape)
{
    return body->box.y1 - 2.0 * WALL - (shape == SADDLE ? TUNNEL_HIGH : 0.0) - 4.0;
}

/* Under the surface, or on the gas over it where the liquid is shallow. */
static void liquid_words(struct frame *frame, const struct scene *scene, double x, double surface, double foot,
                         struct gas_space *space)
{
    char litres[40], warmth[40], text[96];
    struct text_style style = {26.0, 600, COLOUR_WHITE, 0.0};
    const int part = space->body->part;
    const double volume = scene_told(scene, part, LEVEL) * ullage_model_parameter(scene->model, part, "volume");
    double baseline = surface + 18.0 + 0.76 * frame_text_size(frame, style.size);
    snprintf(text, sizeof text, "%s   %s", scene_text(scene, volume, ULLAGE_VOLUME, litres, sizeof litres),
             scene_text(scene, scene_told(scene, part, LIQUID_TEMPERATURE), ULLAGE_TEMPERATURE, warmth, sizeof warmth));
    if (baseline > foot) {
        style.colour = COLOUR_INK;
        baseline = fmin(surface - 14.0, foot - 6.0);
    }
    gas_keep_clear(space, frame_text_box(frame, x, baseline, style, text));
    frame_text(frame, x, baseline, style, text);
}

/* Figures of the gas, as large as it takes them. False: it takes none. */
static bool gas_takes_words(struct frame *frame, const struct scene *scene, double x, double surface, bool wet,
                            struct gas_space *space)
{
    static const double sizes[] = {64.0, 46.0, FIGURES_LEAST};
    const double top = space->body->box.y0 + (wet ? 26.0 : 52.0);
    for (size_t k = 0; k < sizeof sizes / sizeof sizes[0]; k++)
        if (top + gas_figures_high(frame, sizes[k]) + 6.0 < surface) {
            gas_figures(frame, scene, space->body->part, x, top, sizes[k], space);
            return true;
        }
    return false;
}

/* Of a nearly full tank: all of them stand in the liquid, those of the gas left; its own right of them or, where something
 * hangs into it there, under them. */
static void sunk_words(struct frame *frame, const struct scene *scene, double x, double surface, double foot, bool hung,
                       struct gas_space *space)
{
    struct gas_space under = *space;
    const double top = surface + 16.0, large = 46.0;
    const double size = top + gas_figures_high(frame, large) < foot ? large : FIGURES_LEAST;
    const double below = top + gas_figures_high(frame, size) - 6.0;
    const bool fits = below + 18.0 + 0.76 * frame_text_size(frame, 26.0) < foot + 8.0;
    under.ink = COLOUR_WHITE;
    under.box.y1 = space->body->box.y1 - 2.0 * WALL;
    gas_figures(frame, scene, space->body->part, x, top, size, &under);
    space->clear = under.clear;
    memcpy(space->keep, under.keep, sizeof space->keep);
    if (hung && fits)
        liquid_words(frame, scene, x, below, foot + 8.0, space);
    else
        liquid_words(frame, scene, x + 0.53 * (space->body->box.x1 - space->body->box.x0), surface, foot, space);
}

/* What hangs from the roof; smoke keeps clear of it. */
static bool roof_hung(const struct scene *scene, const struct plate_body *body, struct gas_space *space)
{
    bool hung = false;
    struct frame_box box;
    for (int k = 0; k < scene->plate->pipes; k++)
        if (float_hangs(scene->plate, k, (int)(body - scene->plate->body), &box)) {
            gas_keep_clear(space, box);
            hung = true;
        }
    return hung;
}

static bool is_free(const struct gas_space *space, struct frame_box box)
{
    for (int k = 0; k < space->clear; k++)
        if (box_overlaps(box, space->keep[k]))
            return false;
    return true;
}

/* Names of what hangs there under it, on gas or in the liquid, where the figures leave room. */
static void hung_names(struct frame *frame, const struct scene *scene, const struct plate_body *body, double surface,
                       double foot, struct gas_space *space)
{
    struct frame_box cage;
    char name[48];
    for (int k = 0; k < scene->plate->pipes; k++) {
        if (!float_hangs(scene->plate, k, (int)(body - scene->plate->body), &cage))
            continue;
        struct text_style style = {26.0, 500, COLOUR_INK, 0.5};
        const double high = 0.76 * frame_text_size(frame, style.size), x = 0.5 * (cage.x0 + cage.x1);
        const double under = cage.y1 + 12.0,
                     top = under < surface && under + high > surface - 6.0 ? surface + 8.0 : under;
        naming_part(scene->model, scene->plate->pipe[k].part, true, name, sizeof name);
        style.colour = top > surface ? COLOUR_WHITE : COLOUR_INK;
        const struct frame_box box = frame_text_box(frame, x, top + high, style, name);
        if (box.y1 > foot || box.x0 < body->box.x0 + 24.0 || box.x1 > body->box.x1 - 24.0 || !is_free(space, box))
            continue;
        frame_text(frame, x, top + high, style, name);
        gas_keep_clear(space, box);
    }
}

static void tank_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const enum tank_shape shape = shape_of(scene->model, body->part);
    struct gas_space space = gas_box(body, 2.0 * WALL);
    const double surface = tank_surface(scene, body, shape);
    const bool wet = surface < space.box.y1;
    if (wet)
        tank_liquid(frame, body, shape, surface);
    space.box.y1 = surface;
    if (shape == SADDLE)
        space.inside = inside_saddle;
    else if (shape == CYLINDER)
        space.inside = inside_round;
    const double x = body->box.x0 + (shape == CYLINDER ? 92.0 : 52.0);
    const double foot = words_floor(body, shape);
    const bool hung = roof_hung(scene, body, &space);
    if (!gas_takes_words(frame, scene, x, surface, wet, &space))
        sunk_words(frame, scene, x, surface, foot, hung, &space);
    else if (wet)
        liquid_words(frame, scene, x, surface, foot + 8.0, &space);
    hung_names(frame, scene, body, surface, foot, &space);
    marks_space(frame, &space, scene_mix(scene, body->part));
}

const struct drawn tank_drawn = {
    .type = "tank",
    .extent = {-320.0, -126.0, 320.0, 126.0},
    .measure = tank_measure,
    .roof_only = true,
    .nameless = true,
    .slot = {SLOTS},
    .still = tank_still,
    .gas = tank_gas,
    .front = tank_front,
};
