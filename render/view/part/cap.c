/* cap.c  A cap on the mouth of a neck: on, drawn aside by the share it leaves free, or hanging beside the neck. */
#include "view/marks.h"
#include "view/part/nozzle.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>

#define NECK_HALF 20.0
#define CAP_HALF 36.0 /* its edge stands where the free part of the mouth begins */
#define OFF_FROM 0.995
#define ON_BELOW 0.00005
#define TETHER_X (-58.0) /* where it hangs when it is off */
#define TETHER_Y 46.0

static bool cap_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)body;
    (void)key;
    (void)opening;
    *port = (struct plate_port){0.0, 0.0, SIDE_DOWN};
    return true;
}

static void cap_form(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_rounded(frame, x - CAP_HALF, y - 14.0, 2.0 * CAP_HALF, 22.0, 3.0);
    frame_rounded(frame, x - 22.0, y - 32.0, 44.0, 20.0, 3.0);
    frame_fill(frame, COLOUR_INK);
}

/* On its side, hung by its tether. */
static void cap_hung(struct frame *frame)
{
    frame_path(frame);
    frame_move(frame, -NECK_HALF - 3.0, 22.0);
    frame_curve(frame, -34.0, 18.0, -44.0, 20.0, TETHER_X + 4.0, TETHER_Y - 30.0);
    frame_stroke_round(frame, COLOUR_INK, 2.6);
    frame_path(frame);
    frame_rounded(frame, TETHER_X - 2.0, TETHER_Y - 36.0, 22.0, 72.0, 3.0);
    frame_rounded(frame, TETHER_X - 20.0, TETHER_Y - 22.0, 20.0, 44.0, 3.0);
    frame_fill(frame, COLOUR_INK);
}

static const char *cap_words(double opening, char *room, int size)
{
    if (opening > OFF_FROM)
        snprintf(room, (size_t)size, "off");
    else if (opening < ON_BELOW)
        snprintf(room, (size_t)size, "on");
    else
        snprintf(room, (size_t)size, "%.2g %%", 100.0 * opening);
    return room;
}

static void cap_jet(struct frame *frame, const struct scene *scene, const struct plate_body *body, double opening,
                    bool spout)
{
    const struct ullage_part part = ullage_model_part(scene->model, body->part);
    const struct ullage_link *of = part_link(&part, "of");
    /* the free part of the mouth lies on the right, or beside a spout on the left */
    const double aside = spout ? 2.0 - NECK_HALF : (1.0 - fmin(opening, 1.0)) * NECK_HALF;
    const struct jet jet = {body->x + aside,
                            body->y,
                            body->side,
                            scene_flow(scene, body->part),
                            scene->motion->part[body->part],
                            spout ? 70.0 : fmax(body->room - 4.0, 40.0),
                            spout ? 0.7 : 1.0 + 0.6 * fmin(opening, 1.0),
                            scene_mix(scene, of ? of->part : -1)};
    marks_jet(frame, &jet);
}

static void cap_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double now = scene_value(scene, body->part, OPENING);
    const double opening = isfinite(now) ? now : 0.0;
    char words[32];
    const bool spout = nozzle_in(scene, body->part);
    cap_jet(frame, scene, body, opening, spout);
    frame_at(frame, body->x, body->y, body->turn, false);
    frame_bar(frame, -NECK_HALF - 7.0, -3.0, 14.0, 7.0, COLOUR_INK); /* the rim of the mouth */
    frame_bar(frame, NECK_HALF - 7.0 + 0.0, -3.0, 14.0, 7.0, COLOUR_INK);
    if (opening > OFF_FROM || spout)
        cap_hung(frame);
    else
        cap_form(frame, opening < ON_BELOW ? 0.0 : -CAP_HALF + NECK_HALF - 2.0 * NECK_HALF * opening,
                 opening < ON_BELOW ? 0.0 : -3.0);
    frame_home(frame);
    scene_words(frame, body, cap_words(opening, words, sizeof words));
    frame_spot(frame, SPOT_GRIP, body->part, box_grown(body->box, 4.0), 0.0, 1.0);
}

const struct drawn cap_drawn = {
    .type = "cap",
    .extent = {-78.0, -34.0, 38.0, 12.0}, /* with room to hang beside its neck */
    .port = cap_port,
    .passes = true,
    .figure = "0.5 %",
    .one_line = true,
    .slot = {SLOT_ABOVE, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .front = cap_front,
};
