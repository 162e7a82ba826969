/* manifold.c  The engine's intake as a boundary: a plenum with its runners, at the pressure that the file gives. */
#include "view/part/gas.h"
#include "view/part/part.h"

#include <math.h>

enum { RUNNERS = 3 };

static void manifold_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_at(frame, body->x, body->y, 0, false);
    for (int k = 0; k < RUNNERS; k++)
        frame_bar(frame, -60.0 + 44.0 * k, 24.0, 32.0, 46.0, COLOUR_INK);
    frame_path(frame);
    frame_rounded(frame, -83.0, -30.0, 166.0, 60.0, 14.0);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_home(frame);
}

static void manifold_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const unsigned colour = scene_colour(scene, body->part);
    frame_at(frame, body->x, body->y, 0, false);
    frame_path(frame);
    frame_rounded(frame, -81.0, -28.0, 162.0, 56.0, 12.0);
    frame_fill(frame, colour);
    for (int k = 0; k < RUNNERS; k++)
        frame_bar(frame, -57.0 + 44.0 * k, 24.0, 26.0, 46.5, colour);
    frame_home(frame);
    const struct frame_box left = {body->x - 81.0, body->y - 26.0, body->x - 68.0, body->y + 26.0};
    const struct frame_box right = {body->x + 68.0, body->y - 26.0, body->x + 81.0, body->y + 26.0};
    gas_hatch(frame, scene, body->part, left); /* clear of the figure */
    gas_hatch(frame, scene, body->part, right);
}

static void manifold_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char text[48];
    const double gauge = scene_told(scene, body->part, GAUGE);
    frame_at(frame, body->x, body->y, 0, false);
    for (int k = 0; k < RUNNERS; k++) /* where the runners go on */
        frame_rule(frame, -64.0 + 44.0 * k, 70.0, -24.0 + 44.0 * k, 70.0, COLOUR_INK, 4.0);
    frame_home(frame);
    const struct text_style style = {28.0, 600, COLOUR_INK, 0.5};
    if (isfinite(gauge))
        frame_text_fit(frame, body->x, body->y + 10.0, 130.0, style,
                       scene_text(scene, gauge, ULLAGE_PRESSURE, text, sizeof text));
    scene_words(frame, body, NULL);
}

const struct drawn manifold_drawn = {
    .type = "manifold",
    .extent = {-85.0, -32.0, 85.0, 72.0},
    .slot = {SLOT_BELOW, SLOT_ABOVE, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = manifold_still,
    .gas = manifold_gas,
    .front = manifold_front,
};
