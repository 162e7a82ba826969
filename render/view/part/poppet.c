/* poppet.c  Valves that pressure opens: a check valve as a triangle against a bar that gas lifts off it, a two-way relief as
 * two of them, one for each way, in one body. A bar that is off its seat stands clear of it even when it is a hair open. */
#include "view/part/piece.h"

#include <math.h>

#define BODY_WIDE 36.0  /* u to each side */
#define CHECK_HIGH 27.0 /* of the body, up and down */
#define RELIEF_HIGH 50.0
#define RELIEF_ROW 25.0 /* of each way's middle from the body's */
#define TIP 4.0         /* where triangle and bar meet */
#define BAR 7.0
#define LEAST_LIFT 5.0
#define LIFT 15.0 /* wide open */

static double bar_lift(double opening)
{
    return opening < PIECE_SHUT_BELOW ? 0.0 : fmax(LEAST_LIFT, LIFT * fmin(opening, 1.0));
}

/* One way's room in the body, from y0 to y1: gas before its bar, gas behind it. way: +1 `from` to `to`, -1 the other. */
static void way_gas(struct frame *frame, const struct scene *scene, int part, double y0, double y1, double way,
                    double lift)
{
    const double split = way * (TIP + 0.5 * BAR + lift);
    frame_bar(frame, -BODY_WIDE, y0, BODY_WIDE + split, y1 - y0, scene_colour(scene, piece_side_gas(scene, part, 0)));
    frame_bar(frame, split, y0, BODY_WIDE - split, y1 - y0, scene_colour(scene, piece_side_gas(scene, part, 1)));
}

static void way_valve(struct frame *frame, double y, double high, double way, double lift)
{
    const double half = fmin(high, 22.0) - 4.0;
    frame_path(frame);
    frame_move(frame, way * (TIP - 29.0), y - half);
    frame_line(frame, way * TIP, y);
    frame_line(frame, way * (TIP - 29.0), y + half);
    frame_close(frame);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.4);
    const double bar = way * (TIP + 0.5 * BAR + lift);
    frame_bar(frame, bar - 0.5 * BAR, y - high, BAR, 2.0 * high, COLOUR_INK);
}

static void body_outline(struct frame *frame, double high)
{
    frame_path(frame);
    for (int side = -1; side <= 1; side += 2) { /* with an opening at each end where the pipe goes in */
        frame_move(frame, -BODY_WIDE, side * (PIECE_PIPE_HALF + 1.5));
        frame_line(frame, -BODY_WIDE, side * high);
        frame_line(frame, BODY_WIDE, side * high);
        frame_line(frame, BODY_WIDE, side * (PIECE_PIPE_HALF + 1.5));
    }
    frame_stroke(frame, COLOUR_INK, 3.4);
}

static void check_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double opening = piece_opening(scene, body->part), lift = bar_lift(opening);
    for (int side = 0; side < 2; side++)
        piece_stream(frame, scene, body, side, 0.0);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    way_gas(frame, scene, body->part, -CHECK_HIGH, CHECK_HIGH, 1.0, lift);
    way_valve(frame, 0.0, CHECK_HIGH, 1.0, lift);
    body_outline(frame, CHECK_HIGH);
    frame_home(frame);
    for (int side = 0; side < 2; side++)
        piece_outside(frame, scene, body, side, 0.0);
    piece_words(frame, body, opening);
}

/* Its one number is how far it is open; which seat is lifted, the flow says. */
static void relief_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double opening = piece_opening(scene, body->part);
    const bool inward = scene_flow(scene, body->part) < 0.0;
    for (int side = 0; side < 2; side++)
        piece_stream(frame, scene, body, side, 0.0);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    for (int row = 0; row < 2; row++) { /* pressure above, vacuum below */
        const double lift = (row == 1) == inward ? bar_lift(opening) : 0.0;
        const double way = row ? -1.0 : 1.0, y = way * -RELIEF_ROW;
        way_gas(frame, scene, body->part, y - RELIEF_ROW, y + RELIEF_ROW, way, lift);
        way_valve(frame, y, RELIEF_ROW, way, lift);
    }
    frame_rule(frame, -TIP - LIFT - BAR, 0.0, TIP + LIFT + BAR, 0.0, COLOUR_INK, 3.4);
    body_outline(frame, RELIEF_HIGH);
    frame_home(frame);
    for (int side = 0; side < 2; side++)
        piece_outside(frame, scene, body, side, 0.0);
    piece_words(frame, body, opening);
}

const struct drawn check_drawn = {
    .type = "check-valve",
    .extent = {-PIECE_HALF, -CHECK_HIGH - 2.0, PIECE_HALF, CHECK_HIGH + 2.0},
    .measure = piece_measure,
    .port = piece_port,
    .passes = true,
    .figure = "open 50 %",
    .slot = {SLOT_BELOW, SLOT_ABOVE, SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = piece_still,
    .gas = piece_gas,
    .front = check_front,
};

const struct drawn relief_drawn = {
    .type = "relief",
    .extent = {-PIECE_HALF, -RELIEF_HIGH - 2.0, PIECE_HALF, RELIEF_HIGH + 2.0},
    .measure = piece_measure,
    .port = piece_port,
    .passes = true,
    .figure = "open 50 %",
    .slot = {SLOT_BELOW, SLOT_ABOVE, SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = piece_still,
    .gas = piece_gas,
    .front = relief_front,
};
