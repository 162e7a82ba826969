/* float.c  Valves that liquid shuts: a cage that hangs from the roof into the tank, a float in it under a seat, and a piece of
 * pipe over the roof. The float of a roll-over valve is a ball, that of a fill-limit valve a cup with a disc. It stands at the
 * bottom, or closes the seat; the tank's liquid, which is drawn behind, is seen to lift it. */
#include "view/part/float.h"

#include "view/part/piece.h"

#include <string.h>

#define UP 270     /* `to` is over `from` */
#define REACH 11.0 /* u of pipe to each side of the middle */

/* The cage, from where its pipe meets the tank: u into it. */
#define SHELL 16.0
#define CAGE_WIDE 24.0 /* to each side */
#define CAGE_FLOOR 64.0
#define SEAT_HALF 9.0 /* of the opening in the seat */
#define LEDGE 6.0     /* thick enough to be seen from afar */
#define SEAT (SHELL + LEDGE)
#define FEET 9.0 /* that a float at the bottom stands on */

#define BALL 13.0
#define BALL_SHUT (SEAT + 9.4) /* its middle; it reaches into the seat */
#define BALL_OPEN (CAGE_FLOOR - 3.0 - BALL)

#define CUP_HALF 15.0
#define CUP_HIGH 21.0
#define DISC 5.0
#define DISC_HALF 15.0

static void float_measure(const struct plate *plate, struct plate_body *body)
{
    if (body->turn == 0)
        body->turn = UP;
    piece_measure(plate, body);
}

static bool float_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)opening;
    *port = !strcmp(key, "from") ? (struct plate_port){-REACH, 0.0, SIDE_LEFT}
                                 : (struct plate_port){REACH, 0.0, SIDE_RIGHT};
    return true;
}

/* `half` wide to each side, `over` longer at its ends. */
static void float_pipe(struct frame *frame, const struct plate_body *body, double half, double over, unsigned colour)
{
    const double from = (body->air[0] ? piece_far(body, 0) : REACH) + over;
    const double to = (body->air[1] ? piece_far(body, 1) : REACH) + over;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, -from, -half, from + to, 2.0 * half, colour);
    frame_home(frame);
}

static void float_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    float_pipe(frame, body, PIECE_PIPE_HALF + 3.0, 0.0, COLOUR_INK);
}

static void float_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    float_pipe(frame, body, PIECE_PIPE_HALF, 1.0, scene_colour(scene, piece_side_gas(scene, body->part, 1)));
}

/* ---- in the tank --------------------------------------------------------------------------------------------------- */

static bool is_float(const struct plate *plate, int part)
{
    const char *type = part >= 0 ? ullage_model_part(plate->model, part).type : "";
    return !strcmp(type, "fill-limit") || !strcmp(type, "roll-over");
}

/* Of a pipe that is the way from a tank to a float: its end at the tank; -1: it is none. */
static int tank_end(const struct plate *plate, const struct plate_pipe *pipe)
{
    for (int e = 0; e < 2; e++)
        if (!strcmp(pipe->end[1 - e].key, "from") && pipe->end[e].body >= 0 && is_float(plate, pipe->part))
            return e;
    return -1;
}

bool float_hangs(const struct plate *plate, int pipe, int host, struct frame_box *box)
{
    const struct plate_pipe *at = &plate->pipe[pipe];
    const int end = tank_end(plate, at);
    if (end < 0 || at->end[end].body != host)
        return false;
    const struct plate_port *port = &at->end[end].port;
    *box =
        (struct frame_box){port->x - CAGE_WIDE - 4.0, port->y, port->x + CAGE_WIDE + 4.0, port->y + CAGE_FLOOR + 4.0};
    return port->side == SIDE_UP;
}

/* To where its pipe meets the tank, turned so that down is into it. */
static void cage_place(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const struct plate *plate = scene->plate;
    for (int k = 0; k < plate->pipes; k++) {
        const int end = plate->pipe[k].part == body->part ? tank_end(plate, &plate->pipe[k]) : -1;
        if (end < 0)
            continue;
        const struct plate_port *port = &plate->pipe[k].end[end].port;
        frame_at(frame, port->x, port->y, 90 * (int)port->side, false);
        return;
    }
    frame_at(frame, body->x, body->y + REACH, 0, false);
}

/* Its sides with the feet they end in, and the seat; in the seat's opening stands gas of what it leads to. */
static void cage(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    for (int side = -1; side <= 1; side += 2) {
        frame_move(frame, side * (CAGE_WIDE - FEET), CAGE_FLOOR);
        frame_line(frame, side * CAGE_WIDE, CAGE_FLOOR);
        frame_line(frame, side * CAGE_WIDE, SHELL);
    }
    frame_stroke(frame, COLOUR_INK, 3.4);
    for (int side = -1; side <= 1; side += 2)
        frame_bar(frame, side > 0 ? SEAT_HALF : -CAGE_WIDE - 1.7, SHELL, CAGE_WIDE + 1.7 - SEAT_HALF, LEDGE,
                  COLOUR_INK);
    frame_bar(frame, -SEAT_HALF, SHELL - 1.0, 2.0 * SEAT_HALF, LEDGE + 1.0,
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
    const double open = CAGE_FLOOR - 3.0 - CUP_HIGH - DISC, top = SEAT + (open - SEAT) * opening;
    frame_bar(frame, -DISC_HALF, top, 2.0 * DISC_HALF, DISC, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, -CUP_HALF, top + DISC + 1.0, 2.0 * CUP_HALF, CUP_HIGH - 1.0, 4.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 3.0);
}

static void float_front(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                        void (*draw)(struct frame *frame, double opening))
{
    const double opening = piece_opening(scene, body->part);
    for (int side = 0; side < 2; side++)
        piece_stream(frame, scene, body, side, 0.0);
    for (int side = 0; side < 2; side++)
        piece_outside(frame, scene, body, side, 0.0);
    piece_words(frame, body, opening);
    cage_place(frame, scene, body);
    cage(frame, scene, body);
    draw(frame, opening);
    frame_home(frame);
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
        -REACH, -PIECE_PIPE_HALF - 4.0, REACH, PIECE_PIPE_HALF + 4.0                                                   \
    }

const struct drawn roll_over_drawn = {
    .type = "roll-over",
    .extent = FLOAT_EXTENT,
    .measure = float_measure,
    .port = float_port,
    .passes = true,
    .nameless = true,
    .slot = {SLOTS},
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
    .nameless = true,
    .slot = {SLOTS},
    .still = float_still,
    .gas = float_gas,
    .front = fill_limit_front,
};
