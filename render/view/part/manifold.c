/* manifold.c  The engine's intake as a boundary: a plenum with its runners, at the pressure that the file gives. */
#include <math.h>

#include "view/part/gas.h"
#include "view/part/part.h"

enum { RUNNERS = 3 };

static void manifold_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_at(frame, body->x, body->y, 0, false);
    for (int k = 0; k < RUNNERS; k++)
        frame_bar(frame, -66.0 + 50.0 * k, 24.0, 32.0, 46.0, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, -93.0, -30.0, 186.0, 60.0, 14.0);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_home(frame);
}

static void manifold_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const unsigned colour = scene_colour(scene, body->part);
    frame_at(frame, body->x, body->y, 0, false);
    frame_path(frame);
    frame_rounded(frame, -91.0, -28.0, 182.0, 56.0, 12.0);
    frame_fill(frame, colour);
    for (int k = 0; k < RUNNERS; k++)
        frame_bar(frame, -63.0 + 50.0 * k, 24.0, 26.0, 46.5, colour);
    frame_home(frame);
    const struct frame_box inside = {body->x - 91.0, body->y - 28.0, body->x + 91.0, body->y + 28.0};
    gas_hatch(frame, scene, body->part, inside);
}

static void manifold_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char text[48];
    const double gauge = scene_value(scene, body->part, GAUGE);
    frame_at(frame, body->x, body->y, 0, false);
    for (int k = 0; k < RUNNERS; k++) /* where the runners go on */
        frame_rule(frame, -70.0 + 50.0 * k, 70.0, -30.0 + 50.0 * k, 70.0, COLOUR_INK, 4.0);
    frame_home(frame);
    scene_words(frame, body, isfinite(gauge) ? scene_text(scene, gauge, ULLAGE_PRESSURE, text, sizeof text) : NULL);
}

const struct drawn manifold_drawn = {
    .type = "manifold",
    .extent = {-95.0, -32.0, 95.0, 72.0},
    .figure = "−000.0 kPa",
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = manifold_still,
    .gas = manifold_gas,
    .front = manifold_front,
};
