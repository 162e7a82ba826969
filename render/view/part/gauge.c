/* gauge.c  Instruments: a letter in a ring on a stem; P for pressure, F for flow, L for level, T for temperature. */
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define RING 26.0
#define RING_UP 58.0 /* from the wall to the ring's centre */

static const char *letter_of(const struct scene *scene, int part)
{
    return scene_type(scene, part, "meter")                ? "F"
           : scene_type(scene, part, "level-sensor")       ? "L"
           : scene_type(scene, part, "temperature-sensor") ? "T"
                                                           : "P";
}

static void gauge_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const struct text_style letter = {26.0, 600, COLOUR_INK, 0.5};
    const double x = body->x + RING_UP * side_x(body->side), y = body->y + RING_UP * side_y(body->side);
    frame_rule(frame, body->x, body->y, x, y, COLOUR_INK, 4.6);
    frame_path(frame);
    frame_circle(frame, x, y, RING);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 4.0);
    frame_text(frame, x, y + 0.36 * frame_text_size(frame, letter.size), letter,
               letter_of(scene, body->part));
}

static void gauge_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char text[48];
    const double gauge = scene_told(scene, body->part, GAUGE), flow = scene_told(scene, body->part, STANDARD_FLOW);
    const double level = scene_told(scene, body->part, LEVEL), warmth = scene_told(scene, body->part, TEMPERATURE);
    if (isfinite(level))
        snprintf(text, sizeof text, "%.0f %%", 100.0 * level);
    else if (isfinite(warmth))
        scene_text(scene, warmth, ULLAGE_TEMPERATURE, text, sizeof text);
    else if (isfinite(gauge))
        scene_text(scene, gauge, ULLAGE_PRESSURE, text, sizeof text);
    else
        scene_text(scene, flow, ULLAGE_VOLUME_FLOW, text, sizeof text);
    scene_words(frame, body, text);
}

const struct drawn gauge_drawn = {
    .type = "gauge",
    .extent = {-28.0, -86.0, 28.0, 0.0},
    .wall = true,
    .figure = "−0.00 kPa",
    .slot = {SLOT_RIGHT, SLOT_LEFT, SLOT_ABOVE, SLOT_BELOW, SLOTS},
    .still = gauge_still,
    .front = gauge_front,
};
