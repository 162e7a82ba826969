/* float.c  Valves that liquid shuts: a chamber on the tank, a float in it under a seat, the way out above the seat. The float
 * of a roll-over valve is a ball, that of a fill-limit valve a cup with a disc. It hangs low, or closes the seat. */
#include "view/part/piece.h"

#include <string.h>

#define CHAMBER_WIDE 29.0 /* u to each side */
#define CHAMBER_ROOF (-26.0)
#define CHAMBER_FLOOR 42.0
#define FOOT 58.0      /* where the pipe from the tank comes in */
#define WAY (-46.0)    /* height of the pipe that leads on */
#define SEAT_HALF 10.0 /* of the opening in the roof */
#define WALL 6.0       /* of that roof, thick enough to be seen from afar */

#define BALL 17.0
#define BALL_SHUT (CHAMBER_ROOF + 0.5 * WALL + 12.0) /* its middle; it reaches into the seat */
#define BALL_OPEN (CHAMBER_FLOOR - 4.0 - BALL)

#define CUP_HALF 19.0
#define CUP_HIGH 26.0
#define DISC 6.0

static void float_measure(const struct plate *plate, struct plate_body *body)
{
    (void)plate;
    piece_measure_at(body, WAY);
}

static bool float_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port = !strcmp(key, "from") ? (struct plate_port){0.0, FOOT, SIDE_DOWN}
                                 : (struct plate_port){PIECE_HALF, WAY, SIDE_RIGHT};
    return true;
}

static void float_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    const double half = PIECE_PIPE_HALF + 3.0;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -half, WAY - half, half + piece_far(body, 1), 2.0 * half, COLOUR_INK);
    frame_bar(frame, -half, CHAMBER_FLOOR, 2.0 * half, FOOT - CHAMBER_FLOOR, COLOUR_INK);
    frame_home(frame);
}

static void float_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double half = PIECE_PIPE_HALF;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -half, WAY - half, half + piece_far(body, 1) + 1.0, 2.0 * half,
              scene_colour(scene, piece_side_gas(scene, body->part, 1)));
    frame_bar(frame, -half, CHAMBER_FLOOR - 2.0, 2.0 * half, FOOT - CHAMBER_FLOOR + 3.0,
              scene_colour(scene, piece_side_gas(scene, body->part, 0)));
    frame_home(frame);
}

/* Chamber with its seat; gas of the tank under it, of what it leads to in the seat's opening. */
static void chamber(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_bar(frame, -CHAMBER_WIDE, CHAMBER_ROOF, 2.0 * CHAMBER_WIDE, CHAMBER_FLOOR - CHAMBER_ROOF,
              scene_colour(scene, piece_side_gas(scene, body->part, 0)));
    frame_path(frame);
    for (int side = -1; side <= 1; side += 2) {
        frame_move(frame, side * (PIECE_PIPE_HALF + 1.5), CHAMBER_FLOOR);
        frame_line(frame, side * CHAMBER_WIDE, CHAMBER_FLOOR);
        frame_line(frame, side * CHAMBER_WIDE, CHAMBER_ROOF);
    }
    frame_stroke(frame, COLOUR_INK, 3.4);
    for (int side = -1; side <= 1; side += 2)
        frame_bar(frame, side > 0 ? SEAT_HALF : -CHAMBER_WIDE - 1.7, CHAMBER_ROOF - 0.5 * WALL,
                  CHAMBER_WIDE + 1.7 - SEAT_HALF, WALL, COLOUR_INK);
    frame_bar(frame, -SEAT_HALF, WAY + PIECE_PIPE_HALF - 1.0, 2.0 * SEAT_HALF,
              CHAMBER_ROOF + 0.5 * WALL - WAY - PIECE_PIPE_HALF + 1.0,
              scene_colour(scene, piece_side_gas(scene, body->part, 1)));
}

static void ball(struct frame *frame, double opening)
{
    frame_path(frame);
    frame_circle(frame, 0.0, BALL_SHUT + (BALL_OPEN - BALL_SHUT) * opening, BALL);
    frame_fill(frame, COLOUR_INK);
}

static void cup(struct frame *frame, double opening)
{
    const double shut = CHAMBER_ROOF + 0.5 * WALL, open = CHAMBER_FLOOR - 4.0 - CUP_HIGH - DISC;
    const double top = shut + (open - shut) * opening;
    frame_bar(frame, -SEAT_HALF - 7.0, top, 2.0 * SEAT_HALF + 14.0, DISC, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, -CUP_HALF, top + DISC + 2.0, 2.0 * CUP_HALF, CUP_HIGH - 2.0, 4.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.4);
}

static void float_front(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                        void (*draw)(struct frame *frame, double opening))
{
    const double opening = piece_opening(scene, body->part);
    piece_stream(frame, scene, body, 1, WAY);
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    chamber(frame, scene, body);
    draw(frame, opening);
    frame_home(frame);
    piece_outside(frame, scene, body, 1, WAY);
    piece_words(frame, body, opening);
}

static void roll_over_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    float_front(frame, scene, body, ball);
}

static void fill_limit_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    float_front(frame, scene, body, cup);
}

#define FLOAT_EXTENT                                                                                                   \
    {                                                                                                                  \
        -CHAMBER_WIDE - 3.0, WAY - 26.0, PIECE_HALF, FOOT                                                              \
    }

const struct drawn roll_over_drawn = {
    .type = "roll-over",
    .extent = FLOAT_EXTENT,
    .measure = float_measure,
    .port = float_port,
    .passes = true,
    .figure = "open",
    .slot = {SLOT_LEFT, SLOT_RIGHT, SLOT_UPPER_LEFT, SLOT_UPPER_RIGHT, SLOT_ABOVE, SLOTS},
    .still = float_still,
    .gas = float_gas,
    .front = roll_over_front,
};

const struct drawn fill_limit_drawn = {
    .type = "fill-limit",
    .extent = FLOAT_EXTENT,
    .measure = float_measure,
    .port = float_port,
    .passes = true,
    .figure = "open",
    .slot = {SLOT_LEFT, SLOT_RIGHT, SLOT_UPPER_LEFT, SLOT_UPPER_RIGHT, SLOT_ABOVE, SLOTS},
    .still = float_still,
    .gas = float_gas,
    .front = fill_limit_front,
};
