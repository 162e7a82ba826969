/* canister.c  The canister: drawn as an empty plenum, tank's side left, purge below, air's side right. */
#include "view/part/gas.h"
#include "view/part/part.h"

#include <string.h>

#define WALL 3.0

static bool canister_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)key;
    const struct frame_box *e = &body->extent;
    if (!strcmp(opening, "tank"))
        *port = (struct plate_port){e->x0, -34.0, SIDE_LEFT};
    else if (!strcmp(opening, "purge"))
        *port = (struct plate_port){e->x0 + 76.0, e->y1, SIDE_DOWN};
    else if (!strcmp(opening, "air"))
        *port = (struct plate_port){e->x1, -4.0, SIDE_RIGHT};
    else
        return false;
    return true;
}

static void canister_path(struct frame *frame, const struct frame_box *box, double inset)
{
    frame_rounded(frame, box->x0 + inset, box->y0 + inset, box->x1 - box->x0 - 2.0 * inset,
                  box->y1 - box->y0 - 2.0 * inset, 18.0 - 0.7 * inset);
}

static void canister_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    (void)scene;
    frame_path(frame);
    canister_path(frame, &body->box, 0.5 * WALL);
    frame_stroke(frame, COLOUR_INK, WALL + 1.0);
    scene_words(frame, body, NULL);
}

static void canister_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    canister_path(frame, &body->box, WALL);
    frame_fill(frame, scene_colour(scene, body->part));
}

static void canister_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    struct gas_space space = gas_box(body, WALL);
    gas_space_fill(frame, scene, body, &space, 46.0);
}

const struct drawn canister_drawn = {
    .type = "canister",
    .extent = {-126.0, -80.0, 126.0, 80.0},
    .port = canister_port,
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOTS},
    .still = canister_still,
    .gas = canister_gas,
    .front = canister_front,
};
