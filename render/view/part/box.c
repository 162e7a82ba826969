/* box.c  Any part that has no drawing of its own: a plain box with its name and what it has of numbers. */
#include "view/part/part.h"

#include <math.h>

static void box_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_path(frame);
    frame_rounded(frame, body->box.x0 + 2.0, body->box.y0 + 2.0, body->box.x1 - body->box.x0 - 4.0,
                  body->box.y1 - body->box.y0 - 4.0, 8.0);
    frame_stroke(frame, COLOUR_INK, 4.0);
    scene_words(frame, body, NULL);
}

static void box_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    frame_rounded(frame, body->box.x0 + 4.0, body->box.y0 + 4.0, body->box.x1 - body->box.x0 - 8.0,
                  body->box.y1 - body->box.y0 - 8.0, 6.0);
    frame_fill(frame, scene_colour(scene, body->part));
}

static void box_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char text[48];
    const double gauge = scene_told(scene, body->part, GAUGE);
    const double rate = scene_told(scene, body->part, RATE); /* of liquid, where that is what it is there for */
    const double flow = isfinite(rate) ? rate : scene_told(scene, body->part, STANDARD_FLOW);
    struct text_style style = {28.0, 600, COLOUR_INK, 0.5};
    if (isfinite(gauge))
        frame_text(frame, body->x, body->y, style, scene_text(scene, gauge, ULLAGE_PRESSURE, text, sizeof text));
    if (isfinite(flow))
        frame_text(frame, body->x, body->y + 34.0, style,
                   scene_text(scene, flow, ULLAGE_VOLUME_FLOW, text, sizeof text));
}

const struct drawn box_drawn = {
    .type = "",
    .extent = {-105.0, -55.0, 105.0, 55.0},
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = box_still,
    .gas = box_gas,
    .front = box_front,
};
