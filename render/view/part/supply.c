/* supply.c  The shop's gas supply with its meter: a box with a wheel that turns with the flow, what it gives, and the
 * caution that belongs beside it. */
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define WHEEL_X (-86.0)
#define WHEEL 29.0
#define TURN_PER_PHASE 0.02 /* rad/u of phase */

enum { SPOKES = 6 };

static void wheel(struct frame *frame, double angle)
{
    frame_path(frame);
    frame_circle(frame, WHEEL_X, 0.0, WHEEL);
    frame_fill(frame, COLOUR_PAPER);
    frame_stroke(frame, COLOUR_INK, 3.4);
    frame_path(frame);
    for (int k = 0; k < SPOKES; k++) {
        const double a = angle + k * 6.283185307179586 / SPOKES;
        frame_move(frame, WHEEL_X + 5.0 * cos(a), 5.0 * sin(a));
        frame_line(frame, WHEEL_X + (WHEEL - 6.0) * cos(a + 0.22), (WHEEL - 6.0) * sin(a + 0.22));
    }
    frame_stroke_round(frame, COLOUR_INK, 4.0);
    frame_path(frame);
    frame_circle(frame, WHEEL_X, 0.0, 4.5);
    frame_fill(frame, COLOUR_INK);
}

static const char *gas_name(const struct scene *scene, int part, char *room, int size)
{
    const char *gas = ullage_model_word(scene->model, part, "gas");
    const char *tracer = ullage_model_word(scene->model, part, "tracer");
    const bool nitrogen = gas && !strcmp(gas, "nitrogen"), carbon = gas && !strcmp(gas, "carbon dioxide");
    snprintf(room, (size_t)size, "%s%s",
             nitrogen ? "N₂"
             : carbon ? "CO₂"
             : gas    ? gas
                      : "gas",
             tracer && !strcmp(tracer, "smoke") ? ", smoke" : "");
    return room;
}

/* What the meter shows, or what flows where there is none. */
static double shown_flow(const struct scene *scene, const struct plate_body *body)
{
    const double read = scene_told(scene, body->meter, STANDARD_FLOW);
    return isfinite(read) ? read : scene_told_flow(scene, body->part);
}

static void supply_texts(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char flow[40], gas[40], set[40], line[96];
    struct text_style big = {30.0, 600, COLOUR_INK, 0.0}, small = {22.0, 500, COLOUR_SOFT, 0.0};
    const double x = body->x - 44.0;
    scene_text(scene, shown_flow(scene, body), ULLAGE_VOLUME_FLOW, flow, sizeof flow);
    const double setting = scene_value(scene, body->part, SET_PRESSURE);
    gas_name(scene, body->part, gas, sizeof gas);
    snprintf(line, sizeof line, "%s%s%s", gas, isfinite(setting) ? ", " : "",
             isfinite(setting) ? scene_text(scene, setting, ULLAGE_PRESSURE, set, sizeof set) : "");
    const double room = body->box.x1 - x - 10.0;
    if (frame_text_width(frame, small, line) > room)
        snprintf(line, sizeof line, "%s", gas);
    frame_text_fit(frame, x, body->y - 4.0, room, big, flow);
    frame_text(frame, x, body->y + 26.0, small, line);
}

static void supply_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    frame_rounded(frame, body->box.x0 + 2.0, body->box.y0 + 2.0, body->box.x1 - body->box.x0 - 4.0,
                  body->box.y1 - body->box.y0 - 4.0, 10.0);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke(frame, COLOUR_INK, 4.0);
    (void)scene;
}

/* The caution stands wherever gas could be put on a real system. */
static void caution(struct frame *frame, const struct plate_body *body)
{
    const struct plate_label *label = &body->label;
    if (!label->placed)
        return;
    struct text_style style = {22.0, 600, COLOUR_INK, label->anchor};
    frame_text(frame, label->x, label->baseline, style, "Inert gas,");
    frame_text(frame, label->x, label->baseline + label->step, style, "≤ 3.5 kPa");
}

static void supply_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_at(frame, body->x, body->y, 0, false);
    wheel(frame, TURN_PER_PHASE * scene->motion->part[body->part]);
    frame_home(frame);
    supply_texts(frame, scene, body);
    caution(frame, body);
    frame_spot(frame, SPOT_TOGGLE, body->part, body->box, 0.0, 1.0);
}

static bool supply_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)opening;
    if (strcmp(key, "hose"))
        return false; /* a line that it feeds leaves where it likes */
    *port = (struct plate_port){0.0, body->extent.y0, SIDE_UP};
    return true;
}

const struct drawn supply_drawn = {
    .type = "supply",
    .extent = {-134.0, -47.0, 134.0, 47.0},
    .port = supply_port,
    .figure = "≤ 3.5 kPa",
    .slot = {SLOT_RIGHT, SLOT_LEFT, SLOT_BELOW, SLOTS},
    .still = supply_still,
    .front = supply_front,
};
