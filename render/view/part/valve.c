/* valve.c  A valve: a piece of pipe with a blade hanging into its bore, bonnet and coil above. The blade stands where the
 * valve is, the coil is solid ink while it is powered. An end at the atmosphere has a filter. */
#include "view/marks.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define PIPE_HALF 12.5
#define BODY_HALF 44.0 /* u of pipe to each side of the blade */
#define STUB 52.0      /* from there to the filter at an open end */
#define BLADE_LIFT 26.0
#define OPEN_FROM 0.995 /* openings that are called so */
#define SHUT_BELOW 0.0005

static void valve_measure(const struct plate *plate, struct plate_body *body)
{
    (void)plate;
    body->extent = (struct frame_box){-BODY_HALF, -112.0, BODY_HALF, 24.0};
    if (body->air[0])
        body->extent.x0 -= STUB + 26.0;
    if (body->air[1])
        body->extent.x1 += STUB + 26.0;
}

static bool valve_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port = !strcmp(key, "from") ? (struct plate_port){-BODY_HALF, 0.0, SIDE_LEFT}
                                 : (struct plate_port){BODY_HALF, 0.0, SIDE_RIGHT};
    return true;
}

/* The pipe of one side, out to the filter where it is open: from x0 to x1 in local u. */
static void side_run(const struct plate_body *body, int side, double *x0, double *x1)
{
    const double far = BODY_HALF + (body->air[side] ? STUB : 0.0);
    *x0 = side ? 0.0 : -far;
    *x1 = side ? far : 0.0;
}

static void filter(struct frame *frame, double x)
{
    frame_path(frame);
    frame_rounded(frame, x - 12.0, -25.0, 24.0, 50.0, 5.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.0);
    frame_path(frame);
    for (int row = 0; row < 6; row++)
        for (int column = 0; column < 3; column++)
            frame_rectangle(frame, x - 6.8 + 5.2 * column, -18.6 + 6.6 * row, 2.6, 4.2);
    frame_fill(frame, COLOUR_INK);
}

static void valve_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    for (int side = 0; side < 2; side++) {
        double x0, x1;
        side_run(body, side, &x0, &x1);
        frame_bar(frame, x0, -PIPE_HALF - 3.0, x1 - x0, 2.0 * PIPE_HALF + 6.0, COLOUR_INK);
    }
    frame_home(frame);
}

/* Which part's gas stands on a side: what the valve's own end names. */
static int side_gas(const struct scene *scene, int part, const char *key)
{
    const struct ullage_part about = ullage_model_part(scene->model, part);
    const struct ullage_link *link = part_link(&about, key);
    return link ? link->part : -1;
}

static void valve_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    for (int side = 0; side < 2; side++) {
        double x0, x1;
        side_run(body, side, &x0, &x1);
        const int gas = side_gas(scene, body->part, side ? "to" : "from");
        frame_bar(frame, x0 - (side ? 0.0 : 1.0), -PIPE_HALF, x1 - x0 + 1.0, 2.0 * PIPE_HALF, scene_colour(scene, gas));
    }
    frame_home(frame);
}

static bool rests_open(const struct scene *scene, int part)
{
    const char *normally = ullage_model_word(scene->model, part, "normally");
    return normally && !strcmp(normally, "open");
}

static void valve_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, double opening)
{
    char words[32];
    if (opening > OPEN_FROM)
        snprintf(words, sizeof words, "open");
    else if (opening < SHUT_BELOW)
        snprintf(words, sizeof words, "shut");
    else
        snprintf(words, sizeof words, "open %.2g %%", 100.0 * opening);
    scene_words(frame, body, words);
    (void)scene;
}

static void coil(struct frame *frame, bool powered)
{
    frame_path(frame);
    frame_rounded(frame, -32.0, -109.0, 64.0, 36.0, 6.0);
    frame_fill(frame, powered ? COLOUR_INK : COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.4);
    frame_path(frame);
    for (int k = 0; k < 3; k++) {
        frame_move(frame, -20.0, -99.0 + 8.0 * k);
        frame_line(frame, 20.0, -99.0 + 8.0 * k);
    }
    frame_stroke(frame, powered ? COLOUR_WHITE : COLOUR_INK, 2.2);
}

static void blade(struct frame *frame, double lift)
{
    frame_rule(frame, 0.0, -73.0, 0.0, -14.0 - lift, COLOUR_INK, 4.6);
    frame_path(frame);
    frame_move(frame, -13.5, -16.0 - lift);
    frame_line(frame, 13.5, -16.0 - lift);
    frame_line(frame, 7.5, 13.0 - lift);
    frame_line(frame, -7.5, 13.0 - lift);
    frame_close(frame);
    frame_fill(frame, COLOUR_INK);
}

/* What streams through an open end: marks between blade and filter. */
static void stub_marks(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side)
{
    const double speed = motion_of_part(scene->plate, scene->cast, scene->now->value, body->part);
    if (fabs(speed) < 0.2)
        return;
    const bool outward = side ? speed > 0.0 : speed < 0.0;
    const double phase = scene->motion->part[body->part];
    const double step = 38.0, moved = fmod(fmod(phase, step) + step, step);
    const int gas = side_gas(scene, body->part, side ? "from" : "to");
    const struct mix mix = outward ? scene_mix(scene, gas) : (struct mix){.air = 1.0};
    const enum mark mark = mix.smoke > 0.5   ? MARK_SMOKE
                           : mix.clean > 0.5 ? MARK_CLEAN
                           : mix.vapor > 0.5 ? MARK_VAPOR
                                             : MARK_AIR;
    const double run = STUB - 14.0, at = moved * run / step;
    const double local = side ? 24.0 + at : -24.0 - run + at;
    const struct plate_point away = {body->mirror ? -local : local, 0.0};
    const double quarter = 1.5707963267948966,
                 base = (body->mirror ? 2.0 : 0.0) * quarter + quarter * (body->turn / 90);
    const double heading = speed > 0.0 ? base : base + 2.0 * quarter;
    const double c = cos(quarter * (body->turn / 90)), s = sin(quarter * (body->turn / 90));
    mark_draw(frame, mark, body->x + c * away.x, body->y + s * away.x, heading, 1.25, fmin(13.0, 0.1 * fabs(speed)));
}

static void outside_words(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side)
{
    const int channel = ullage_model_find_channel(scene->model, "air.temperature");
    if (channel < 0 || body->turn != 0)
        return;
    char text[40];
    struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    const double x = body->x + (side != (int)body->mirror ? 1.0 : -1.0) * (BODY_HALF + STUB - 14.0);
    scene_text(scene, scene->now->value[channel], ULLAGE_TEMPERATURE, text, sizeof text);
    frame_text(frame, x, body->y - 36.0, style, text);
    frame_text(frame, x, body->y - 36.0 - 1.25 * frame_text_size(frame, style.size), style, "outside");
}

static void valve_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double opening = scene_value(scene, body->part, OPENING);
    const double share = isfinite(opening) ? opening : 1.0;
    const bool powered = rests_open(scene, body->part) ? share < 0.5 : share > 0.5;
    for (int side = 0; side < 2; side++)
        if (body->air[side])
            stub_marks(frame, scene, body, side);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_path(frame);
    frame_rectangle(frame, -20.0, -74.0, 40.0, 60.0);
    frame_fill(frame, COLOUR_PAPER);
    frame_path(frame);
    frame_move(frame, -20.0, -14.0);
    frame_line(frame, -20.0, -74.0);
    frame_line(frame, 20.0, -74.0);
    frame_line(frame, 20.0, -14.0);
    frame_stroke(frame, COLOUR_INK, 3.4);
    frame_bar(frame, -21.0, 12.0, 42.0, 8.0, COLOUR_INK); /* the seat */
    coil(frame, powered);
    blade(frame, BLADE_LIFT * share);
    for (int side = 0; side < 2; side++)
        if (body->air[side])
            filter(frame, (side ? 1.0 : -1.0) * (BODY_HALF + STUB));
    frame_home(frame);
    for (int side = 0; side < 2; side++)
        if (body->air[side])
            outside_words(frame, scene, body, side);
    valve_words(frame, scene, body, share);
    frame_spot(frame, SPOT_GRIP, body->part, body->box, 0.0, 1.0);
}

const struct drawn valve_drawn = {
    .type = "valve",
    .extent = {-BODY_HALF, -112.0, BODY_HALF, 24.0},
    .measure = valve_measure,
    .port = valve_port,
    .figure = "open 50 %",
    .slot = {SLOT_BELOW, SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOT_ABOVE, SLOTS},
    .still = valve_still,
    .gas = valve_gas,
    .front = valve_front,
};

/* ---- the open end of a line ---- */
static bool outside_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)key;
    (void)opening;
    *port = (struct plate_port){-8.0, 0.0, SIDE_LEFT};
    return true;
}

static void outside_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    const struct text_style style = {20.0, 500, COLOUR_SOFT, 0.5};
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    filter(frame, 4.0);
    frame_home(frame);
    frame_text(frame, body->x, body->y - 38.0, style, "outside");
}

const struct drawn outside_drawn = {
    .type = "",
    .extent = {-20.0, -62.0, 34.0, 28.0},
    .port = outside_port,
    .nameless = true,
    .slot = {SLOTS},
    .front = outside_front,
};
