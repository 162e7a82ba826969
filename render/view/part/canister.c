/* canister.c  The canister: tank's side left, with the purge below, air's side right; between them its beds in section. One
 * without carbon is an empty space and drawn as one. */
#include "view/part/bed.h"
#include "view/part/gas.h"
#include "view/part/part.h"
#include "view/puddle.h"

#include <math.h>
#include <string.h>

#define WALL 3.0
#define HALF_WIDE 186.0
#define HALF_HIGH 80.0
#define END_SPACE 52.0   /* u wide: the gas before and behind the beds */
#define PURGE_AT 36.0    /* u from the tank's end to the middle of the purge line */
#define SUMP_HIGH 40.0   /* u that a full sump stands at the tank's end */
#define PURGE_HALF 14.0  /* the purge line goes on up through it, so far to each side */
#define DOT_MARGIN 7.0   /* u from the walls of such a space */
#define WARMTH_HIGH 52.0 /* u of the strip over the columns */

static const struct bed_place bed_place = {.x0 = -HALF_WIDE + WALL + END_SPACE,
                                           .x1 = HALF_WIDE - WALL - END_SPACE,
                                           .roof = -HALF_HIGH + WALL,
                                           .over = -HALF_HIGH + WALL + WARMTH_HIGH,
                                           .foot = HALF_HIGH - WALL};

static bool canister_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port)
{
    (void)key;
    const struct frame_box *e = &body->extent;
    if (!strcmp(opening, "tank"))
        *port = (struct plate_port){e->x0, -34.0, SIDE_LEFT};
    else if (!strcmp(opening, "purge"))
        *port = (struct plate_port){e->x0 + PURGE_AT, e->y1, SIDE_DOWN};
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
    frame_path(frame);
    canister_path(frame, &body->box, 0.5 * WALL);
    frame_stroke(frame, COLOUR_INK, WALL + 1.0);
    if (!bed_there(scene, body->part))
        scene_words(frame, body, NULL);
}

/* Sieves hold the carbon. */
static void sieves(struct frame *frame, const struct plate_body *body)
{
    const double x[] = {bed_place.x0, bed_place.x1};
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    for (int k = 0; k < 2; k++) {
        frame_path(frame);
        frame_move(frame, x[k], bed_place.roof);
        frame_line(frame, x[k], bed_place.foot);
        frame_stroke_dashed(frame, COLOUR_INK, 3.0, 4.0, 3.5);
    }
    frame_home(frame);
}

static void canister_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    canister_path(frame, &body->box, WALL);
    frame_fill(frame, scene_colour(scene, body->part));
    if (bed_there(scene, body->part))
        bed_ground(frame, scene, body, &bed_place);
}

/* ---- gas before and behind the beds ---- */
static bool inside_end(const struct gas_space *space, double x, double y)
{
    const struct frame_box b = box_grown(space->box, -DOT_MARGIN);
    return x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1;
}

/* Behind the beds is what goes on from there; before them the canister's own gas. */
static struct mix end_mix(const struct scene *scene, const struct plate_body *body, bool behind)
{
    const struct plate *plate = scene->plate;
    for (int k = 0; behind && k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            const struct pipe_end *end = &plate->pipe[k].end[e];
            if (end->body >= 0 && &plate->body[end->body] == body && !strcmp(end->opening, "air"))
                return scene_mix(scene, plate->pipe[k].gas);
        }
    return scene_mix(scene, body->part);
}

static void end_marks(struct frame *frame, const struct scene *scene, const struct plate_body *body, bool behind)
{
    if (body->turn != 0)
        return;
    const struct frame_box inner = box_grown(body->box, -WALL);
    struct gas_space space = {.box = inner, .inside = inside_end, .body = body};
    if (behind != body->mirror)
        space.box.x0 = inner.x1 - END_SPACE;
    else
        space.box.x1 = inner.x0 + END_SPACE;
    marks_space(frame, &space, end_mix(scene, body, behind));
}

/* Liquid at the foot of the tank's end; the purge line draws from over it. */
static void sump(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const double share = fmin(puddle_share(scene, body->part, "sump"), 1.0);
    const double left = -HALF_WIDE + WALL, foot = HALF_HIGH - WALL, pipe = -HALF_WIDE + PURGE_AT;
    const double top = foot - SUMP_HIGH * share, lip = foot - SUMP_HIGH - 8.0;
    if (!(share > 0.0))
        return;
    frame_at(frame, body->x, body->y, body->turn, body->mirror);
    frame_bar(frame, left, top, END_SPACE, foot - top, COLOUR_LIQUID);
    frame_rule(frame, left, top, left + END_SPACE, top, COLOUR_INK, 2.4);
    frame_bar(frame, pipe - PURGE_HALF, lip, 2.0 * PURGE_HALF, foot - lip + WALL, scene_colour(scene, body->part));
    for (int side = -1; side <= 1; side += 2)
        frame_bar(frame, pipe + side * PURGE_HALF - 1.5, lip, 3.0, foot - lip, COLOUR_INK);
    frame_home(frame);
}

static void canister_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char words[64];
    if (!bed_there(scene, body->part)) {
        struct gas_space space = gas_box(body, WALL);
        gas_space_fill(frame, scene, body, &space, 46.0);
        sump(frame, scene, body);
        return;
    }
    bed_load(frame, scene, body, &bed_place);
    bed_warmth(frame, scene, body, &bed_place);
    sieves(frame, body);
    end_marks(frame, scene, body, false);
    end_marks(frame, scene, body, true);
    sump(frame, scene, body);
    scene_words(frame, body, bed_words(scene, body->part, words, sizeof words));
}

const struct drawn canister_drawn = {
    .type = "canister",
    .extent = {-HALF_WIDE, -HALF_HIGH, HALF_WIDE, HALF_HIGH},
    .port = canister_port,
    .figure = "000.0 g   00.0 %",
    .one_line = true,
    .slot = {SLOT_ABOVE, SLOT_BELOW, SLOT_RIGHT, SLOTS},
    .still = canister_still,
    .gas = canister_gas,
    .front = canister_front,
};
