/* vessel.c  A plain gas volume: a box of its shell with its gas, larger where it is alone. */
#include "view/part/gas.h"
#include "view/part/part.h"

#include <string.h>

#define WALL 5.0
#define HATCH_FROM 0.6 /* of its height */

static int spaces_count(const struct plate *plate)
{
    int count = 0;
    for (int k = 0; k < plate->bodies; k++) {
        const int part = plate->body[k].part;
        if (part < 0)
            continue;
        const char *type = ullage_model_part(plate->model, part).type;
        count += !strcmp(type, "vessel") || !strcmp(type, "tank") || !strcmp(type, "canister");
    }
    return count;
}

static void vessel_measure(const struct plate *plate, struct plate_body *body)
{
    const struct frame_box alone = {-210.0, -140.0, 210.0, 140.0}, one_of_few = {-150.0, -105.0, 150.0, 105.0},
                           one_of_many = {-118.0, -72.0, 118.0, 72.0};
    const int spaces = spaces_count(plate);
    body->extent = spaces <= 1 ? alone : spaces <= 3 ? one_of_few : one_of_many;
}

static void vessel_path(struct frame *frame, const struct frame_box *box, double inset)
{
    frame_rounded(frame, box->x0 + inset, box->y0 + inset, box->x1 - box->x0 - 2.0 * inset,
                  box->y1 - box->y0 - 2.0 * inset, 26.0 - 0.7 * inset);
}

static void vessel_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_path(frame);
    vessel_path(frame, &body->box, WALL);
    frame_stroke(frame, COLOUR_INK, 2.0 * WALL);
    frame_stroke(frame, COLOUR_SHELL, 2.0 * WALL - 6.0);
    scene_words(frame, body, NULL);
}

static void vessel_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    struct frame_box below = box_grown(body->box, -2.0 * WALL); /* clear of the figures */
    below.y0 += HATCH_FROM * (below.y1 - below.y0);
    frame_path(frame);
    vessel_path(frame, &body->box, 2.0 * WALL - 0.5);
    frame_fill(frame, scene_colour(scene, body->part));
    gas_hatch(frame, scene, body->part, below);
}

static void vessel_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    struct gas_space space = gas_box(body, 2.0 * WALL);
    const double wide = body->box.x1 - body->box.x0;
    gas_space_fill(frame, scene, body, &space, wide > 350.0 ? 64.0 : wide > 260.0 ? 46.0 : 32.0);
}

const struct drawn vessel_drawn = {
    .type = "vessel",
    .extent = {-150.0, -105.0, 150.0, 105.0},
    .measure = vessel_measure,
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOT_LEFT, SLOTS},
    .still = vessel_still,
    .gas = vessel_gas,
    .front = vessel_front,
};
