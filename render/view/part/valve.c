/* valve.c  A valve: a piece of pipe with a blade hanging into its bore, bonnet and coil above. The blade stands where the
 * valve is, the coil is solid ink while it is powered. An end at the atmosphere has a filter. */
#include "view/part/piece.h"

#include <math.h>
#include <string.h>

#define BLADE_LIFT 26.0

static bool rests_open(const struct scene *scene, int part)
{
    const char *normally = ullage_model_word(scene->model, part, "normally");
    return normally && !strcmp(normally, "open");
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

static void valve_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double share = piece_opening(scene, body->part);
    const bool powered = rests_open(scene, body->part) ? share < 0.5 : share > 0.5;
    for (int side = 0; side < 2; side++)
        piece_stream(frame, scene, body, side, 0.0);
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
    frame_home(frame);
    for (int side = 0; side < 2; side++)
        piece_outside(frame, scene, body, side, 0.0);
    piece_words(frame, body, share);
    frame_spot(frame, SPOT_GRIP, body->part, body->box, 0.0, 1.0);
}

const struct drawn valve_drawn = {
    .type = "valve",
    .extent = {-PIECE_HALF, -112.0, PIECE_HALF, 24.0},
    .measure = piece_measure,
    .port = piece_port,
    .passes = true,
    .figure = "open 50 %",
    .slot = {SLOT_BELOW, SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOT_ABOVE, SLOTS},
    .still = piece_still,
    .gas = piece_gas,
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
    piece_filter(frame, 4.0, 0.0);
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
