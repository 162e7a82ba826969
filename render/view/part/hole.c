/* hole.c  Holes: in a wall, where they blow or draw in; between two gas spaces, as a plate in a pipe. */
#include "view/marks.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define OPEN_FROM 0.0005
#define TOLD_FROM (0.002e-3 / 60.0) /* m3/s: smaller flows are not told */

static double opening_of(const struct scene *scene, int part)
{
    const double opening = scene_value(scene, part, OPENING);
    return isfinite(opening) ? opening : 1.0;
}

/* "0.50 mm  0.54 L/min"; in brief the flow alone while there is one. */
static const char *hole_words(const struct scene *scene, int part, bool brief, char *room, int size)
{
    char diameter[40] = "", flow[40];
    const double d = scene_told(scene, part, DIAMETER), q = fabs(scene_told_flow(scene, part));
    const char *shape = ullage_model_word(scene->model, part, "shape");
    const bool flows = opening_of(scene, part) >= OPEN_FROM && q >= TOLD_FROM;
    if (isfinite(d) && d > 0.0 && (!shape || !strcmp(shape, "round")) && !(brief && flows))
        scene_text(scene, d, ULLAGE_LENGTH, diameter, sizeof diameter);
    if (opening_of(scene, part) < OPEN_FROM)
        snprintf(room, (size_t)size, "%s%s%s", brief ? "" : diameter, *diameter && !brief ? "  " : "", "plugged");
    else if (flows)
        snprintf(room, (size_t)size, "%s%s%s", diameter, *diameter ? "  " : "",
                 scene_text(scene, q, ULLAGE_VOLUME_FLOW, flow, sizeof flow));
    else
        snprintf(room, (size_t)size, "%s", diameter);
    return room;
}

/* ---- in a wall --------------------------------------------------------------------------------------------------- */
/* +1 where the channel counts outward flow, -1 where the hole's `from` is the atmosphere. */
static double outward(const struct scene *scene, int part)
{
    const struct ullage_part about = ullage_model_part(scene->model, part);
    const struct ullage_link *from = part_link(&about, "from");
    return from && from->part < 0 ? -1.0 : 1.0;
}

static int host_part(const struct scene *scene, const struct plate_body *body)
{
    if (body->host_body >= 0)
        return scene->plate->body[body->host_body].part;
    return body->host_pipe >= 0 ? scene->plate->pipe[body->host_pipe].part : -1;
}

/* Thickness of the wall it goes through, as drawn. */
static double wall_of(const struct scene *scene, const struct plate_body *body)
{
    if (body->host_body < 0)
        return 4.0;
    return scene_type(scene, scene->plate->body[body->host_body].part, "tank") ? 16.0 : 10.0;
}

static void plug(struct frame *frame, double wall)
{
    frame_bar(frame, -4.0, -2.0, 8.0, wall + 3.0, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, -11.0, -11.0, 22.0, 11.0, 2.5);
    frame_fill(frame, COLOUR_INK);
}

static void hole_open(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double d = scene_value(scene, body->part, DIAMETER);
    const double wide = isfinite(d) ? fmin(fmax(3.0 + 3.0e3 * d, 4.0), 14.0) : 6.0;
    const double sign = outward(scene, body->part);
    const int host = host_part(scene, body);
    frame_at(frame, body->x, body->y, body->turn, false);
    frame_bar(frame, -0.5 * wide, -1.0, wide, wall_of(scene, body) + 2.0, scene_colour(scene, host));
    frame_home(frame);
    const struct jet jet = {body->x,
                            body->y,
                            body->side,
                            sign * scene_flow(scene, body->part),
                            sign * scene->motion->part[body->part],
                            body->room,
                            1.0,
                            scene_mix(scene, host)};
    marks_jet(frame, &jet);
}

static void crowded_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, bool open)
{
    char text[32];
    const struct unit_view unit = unit_view(ULLAGE_LENGTH, scene->view->units);
    const double shown = scene_value(scene, body->part, DIAMETER) * unit.scale;
    const bool tenths = fabs(10.0 * shown - round(10.0 * shown)) < 1e-6;
    const struct text_style style = {22.0, open ? 700 : 500, open ? COLOUR_INK : COLOUR_SOFT, 0.5};
    number_text(shown, scene->view->units == UNITS_INCH ? 0.001 : tenths ? 0.1 : 0.01, text, sizeof text);
    const bool whole_zero = scene->view->units == UNITS_INCH && text[0] == '0'; /* .079 as it is stamped */
    frame_text(frame, body->label.x, body->label.baseline, style, text + (whole_zero ? 1 : 0));
}

static void hole_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const bool open = opening_of(scene, body->part) >= OPEN_FROM;
    if (open) {
        hole_open(frame, scene, body);
    } else {
        frame_at(frame, body->x, body->y, body->turn, false);
        plug(frame, wall_of(scene, body));
        frame_home(frame);
    }
    char words[80];
    if (body->crowded && body->label.placed)
        crowded_words(frame, scene, body, open);
    else
        scene_words(frame, body, hole_words(scene, body->part, body->label.brief, words, sizeof words));
    frame_spot(frame, SPOT_TOGGLE, body->part, box_grown(body->box, 6.0), 0.0, 1.0);
}

const struct drawn hole_drawn = {
    .type = "hole",
    .extent = {-12.0, -12.0, 12.0, 4.0},
    .wall = true,
    .figure = "0.00 mm  00.0 L/min",
    .brief = "00.0 L/min",
    .slot = {SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOT_ABOVE, SLOT_RIGHT, SLOT_LEFT, SLOT_BELOW, SLOTS},
    .front = hole_front,
};

/* ---- between two gas spaces -------------------------------------------------------------------------------------- */
#define HALF 30.0
#define PIPE_HALF 12.5

static bool orifice_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port =
        !strcmp(key, "from") ? (struct plate_port){-HALF, 0.0, SIDE_LEFT} : (struct plate_port){HALF, 0.0, SIDE_RIGHT};
    return true;
}

static void orifice_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -HALF, -PIPE_HALF - 3.0, 2.0 * HALF, 2.0 * PIPE_HALF + 6.0, COLOUR_INK);
    frame_bar(frame, -4.0, -27.0, 8.0, 54.0, COLOUR_INK); /* the plate's flanges */
    frame_home(frame);
}

static void orifice_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const struct ullage_part part = ullage_model_part(scene->model, body->part);
    const struct ullage_link *from = part_link(&part, "from"), *to = part_link(&part, "to");
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -HALF - 1.0, -PIPE_HALF, HALF + 1.0, 2.0 * PIPE_HALF, scene_colour(scene, from ? from->part : -1));
    frame_bar(frame, 0.0, -PIPE_HALF, HALF + 1.0, 2.0 * PIPE_HALF, scene_colour(scene, to ? to->part : -1));
    frame_home(frame);
}

static void orifice_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char words[80];
    const double gap = opening_of(scene, body->part) >= OPEN_FROM ? 3.2 : 0.0;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_path(frame);
    for (int side = -1; side <= 1; side += 2) { /* countersunk to an edge in the middle */
        frame_move(frame, -6.0, side * (PIPE_HALF + 2.0));
        frame_line(frame, 6.0, side * (PIPE_HALF + 2.0));
        frame_line(frame, 1.5, side * gap);
        frame_line(frame, -1.5, side * gap);
        frame_close(frame);
    }
    frame_fill(frame, COLOUR_INK);
    frame_home(frame);
    scene_words(frame, body, hole_words(scene, body->part, body->label.brief, words, sizeof words));
    frame_spot(frame, SPOT_TOGGLE, body->part, body->box, 0.0, 1.0);
}

const struct drawn orifice_drawn = {
    .type = "",
    .extent = {-HALF, -28.0, HALF, 28.0},
    .port = orifice_port,
    .passes = true,
    .figure = "0.00 mm  00.0 L/min",
    .brief = "00.0 L/min",
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOTS},
    .still = orifice_still,
    .gas = orifice_gas,
    .front = orifice_front,
};
