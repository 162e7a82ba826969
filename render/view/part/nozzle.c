/* nozzle.c  A filling nozzle: its spout in the mouth of the neck or drawn out of it, fuel in the spout and falling from its
 * end while it pours, the lever pulled up then and dropped when it has shut itself off.
 *
 * Local coordinates: (0, 0) is the middle of the mouth, the handle lies to the right, or left where the plate ends. */
#include "view/part/nozzle.h"

#include "view/marks.h"
#include "view/part/part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define AXIS (-58.0) /* u: height of the handle */
#define BODY_FROM 76.0
#define BODY_TO 202.0
#define BODY_HALF 21.0
#define HOSE_TO 204.0
#define SPOUT_WIDE 20.0 /* of ink; its metal inside that, the fuel inside that */
#define SPOUT_BORE 14.0
#define FUEL_WIDE 9.0
#define SPOUT_DEEP 34.0 /* of its end under the mouth */
#define OUT_ASIDE 50.0  /* from in the mouth to beside it */
#define OUT_UP (-10.0)
#define DROP_EVERY 26.0 /* u between two that fall */
#define DROP_ASIDE 6.0
#define DROP 1.35
#define ROOF 14.0        /* u: of a tank, with its wall */
#define FREE_FALL 120.0  /* where there is no tank */
#define POURS_FROM 1e-9  /* m3/s */
#define CAP_FREE 0.00005 /* openings from which a cap makes room for a spout, and from which it is off */
#define CAP_OFF 0.995

/* ---- where it stands ----------------------------------------------------------------------------------------------- */
int nozzle_mouth(const struct plate *plate, int nozzle)
{
    const struct ullage_part part = ullage_model_part(plate->model, nozzle);
    const struct ullage_link *draws = part_link(&part, "draws");
    for (int k = 0; k < plate->bodies && draws && draws->part >= 0; k++) {
        if (plate->body[k].drawn != &cap_drawn)
            continue;
        const struct ullage_part cap = ullage_model_part(plate->model, plate->body[k].part);
        const struct ullage_link *of = part_link(&cap, "of");
        if (of && of->part == draws->part)
            return k;
    }
    return -1;
}

/* Over the tank that it fills, as high as a mouth would be. */
static struct plate_point over_tank(const struct plate *plate, const struct plate_body *nozzle)
{
    const struct ullage_part part = ullage_model_part(plate->model, nozzle->part);
    const struct ullage_link *into = part_link(&part, "into");
    const int tank = into && into->part >= 0 ? plate->body_of[into->part] : -1;
    if (tank < 0)
        return (struct plate_point){nozzle->x, nozzle->y};
    const struct frame_box *box = &plate->body[tank].box;
    return (struct plate_point){box->x0 + 0.2 * (box->x1 - box->x0), box->y0 - 40.0};
}

void nozzles_place(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++) {
        struct plate_body *nozzle = &plate->body[k];
        if (nozzle->drawn != &nozzle_drawn)
            continue;
        const int mouth = nozzle_mouth(plate, nozzle->part);
        const struct plate_point at =
            mouth >= 0 ? (struct plate_point){plate->body[mouth].x, plate->body[mouth].y} : over_tank(plate, nozzle);
        nozzle->x = at.x;
        nozzle->y = at.y;
        nozzle->turn = 0;
        nozzle->mirror = at.x + nozzle->extent.x1 > PLATE_WIDTH;
        nozzle->placed = true;
        body_settle(nozzle);
    }
}

/* ---- what it does -------------------------------------------------------------------------------------------------- */
static bool pours(const struct scene *scene, int nozzle)
{
    return scene_value(scene, nozzle, RATE) > POURS_FROM;
}

static bool has_shut(const struct scene *scene, int nozzle)
{
    return scene_value(scene, nozzle, SHUT_OFF) > 0.5;
}

/* In its mouth while it is at work, and while a cap is held ajar by it. */
static bool stands_in(const struct scene *scene, int nozzle)
{
    const int mouth = nozzle_mouth(scene->plate, nozzle);
    const double ajar = mouth >= 0 ? scene_value(scene, scene->plate->body[mouth].part, OPENING) : 0.0;
    return pours(scene, nozzle) || has_shut(scene, nozzle) || (ajar > CAP_FREE && ajar < CAP_OFF);
}

bool nozzle_in(const struct scene *scene, int cap)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (scene_type(scene, p, "nozzle")) {
            const int mouth = nozzle_mouth(scene->plate, p);
            if (mouth >= 0 && scene->plate->body[mouth].part == cap && stands_in(scene, p))
                return true;
        }
    return false;
}

/* ---- how it looks -------------------------------------------------------------------------------------------------- */
static void spout_path(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_move(frame, x + BODY_FROM + 2.0, y + AXIS);
    frame_curve(frame, x + 34.0, y + AXIS, x, y - 44.0, x, y - 8.0);
    frame_line(frame, x, y + SPOUT_DEEP);
}

static void spout(struct frame *frame, double x, double y, bool full)
{
    spout_path(frame, x, y);
    frame_stroke(frame, COLOUR_INK, SPOUT_WIDE);
    frame_stroke(frame, COLOUR_SHELL, SPOUT_BORE);
    if (full)
        frame_stroke(frame, COLOUR_LIQUID, FUEL_WIDE);
}

/* Pulled up against the handle, or hanging down to its guard. */
static void lever(struct frame *frame, double x, double y, bool up)
{
    const double below = y + AXIS + BODY_HALF;
    frame_path(frame);
    frame_move(frame, x + BODY_FROM + 12.0, below);
    frame_line(frame, x + BODY_FROM + 20.0, below + 25.0);
    frame_line(frame, x + BODY_TO - 8.0, below + 25.0);
    frame_line(frame, x + BODY_TO - 8.0, below);
    frame_stroke_round(frame, COLOUR_INK, 3.6);
    frame_path(frame);
    frame_move(frame, x + BODY_FROM + 18.0, below + 2.0);
    frame_line(frame, x + BODY_TO - 18.0, below + (up ? 5.0 : 17.0));
    frame_stroke_round(frame, COLOUR_INK, 6.5);
}

static void handle(struct frame *frame, double x, double y)
{
    frame_path(frame);
    frame_move(frame, x + BODY_TO - 4.0, y + AXIS);
    frame_line(frame, x + HOSE_TO, y + AXIS);
    frame_stroke_round(frame, COLOUR_INK, 12.0);
    frame_path(frame);
    frame_rounded(frame, x + BODY_FROM, y + AXIS - BODY_HALF, BODY_TO - BODY_FROM, 2.0 * BODY_HALF, 9.0);
    frame_fill(frame, COLOUR_INK);
}

/* How far down drops are drawn: to the roof of the tank, under which figures stand, or to the first bend of the neck. */
static double fall_to(const struct scene *scene, const struct plate_body *nozzle)
{
    const struct ullage_part part = ullage_model_part(scene->model, nozzle->part);
    const struct ullage_link *into = part_link(&part, "into");
    const int tank = into && into->part >= 0 ? scene->plate->body_of[into->part] : -1;
    double far = tank >= 0 ? scene->plate->body[tank].box.y0 + ROOF : nozzle->y + FREE_FALL;
    const int pipe = nozzle->host_pipe;
    for (int p = 0; pipe >= 0 && p < scene->plate->pipe[pipe].points; p++) {
        const struct plate_point at = scene->plate->pipe[pipe].point[p];
        if (fabs(at.x - nozzle->x) > 4.0)
            far = fmin(far, at.y - 30.0);
    }
    return far;
}

/* What falls from the spout's end, broken into drops. */
static void stream(struct frame *frame, const struct scene *scene, const struct plate_body *nozzle)
{
    const double from = nozzle->y + SPOUT_DEEP + 12.0, to = fall_to(scene, nozzle) - 6.0;
    const double phase = fmod(scene->motion->part[nozzle->part], 2.0 * DROP_EVERY);
    int count = 0;
    for (double y = from - 2.0 * DROP_EVERY + phase; y < to; y += DROP_EVERY, count++) {
        if (y < from)
            continue;
        const double x = nozzle->x + (count % 2 ? DROP_ASIDE : -DROP_ASIDE);
        frame_path(frame);
        frame_move(frame, x, y - 9.0 * DROP);
        frame_line(frame, x + 4.6 * DROP, y - 1.0 * DROP);
        frame_line(frame, x - 4.6 * DROP, y - 1.0 * DROP);
        frame_close(frame);
        frame_circle(frame, x, y + 1.0 * DROP, 5.0 * DROP);
        frame_fill(frame, COLOUR_LIQUID);
    }
}

/* What it does, on the handle: the unit gives way where letters are large. */
static void handle_words(struct frame *frame, double x, double y, const char *words)
{
    const struct text_style style = {22.0, 600, COLOUR_WHITE, 0.5};
    const double middle = x + 0.5 * (BODY_FROM + BODY_TO), room = BODY_TO - BODY_FROM - 10.0;
    char text[48];
    struct text_style least = style;
    least.size = 1.0; /* drawn at the least size */
    snprintf(text, sizeof text, "%s", words);
    char *space = strchr(text, ' ');
    if (space && frame_text_width(frame, least, text) > room)
        *space = '\0';
    frame_text_fit(frame, middle, y + AXIS + 0.36 * style.size, room, style, text);
}

static void nozzle_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    char rate[48];
    const bool running = pours(scene, body->part), in = stands_in(scene, body->part);
    const double x = in ? 0.0 : OUT_ASIDE, y = in ? 0.0 : OUT_UP;
    if (running)
        stream(frame, scene, body);
    frame_at(frame, body->x, body->y, 0, body->mirror);
    spout(frame, x, y, running);
    handle(frame, x, y);
    lever(frame, x, y, running);
    scene_text(scene, scene_told(scene, body->part, RATE), ULLAGE_VOLUME_FLOW, rate, sizeof rate);
    handle_words(frame, x, y, running ? rate : has_shut(scene, body->part) ? "shut off" : in ? "waits" : "out");
    frame_home(frame);
    scene_words(frame, body, NULL);
    frame_spot(frame, SPOT_TOGGLE, body->part, body->box, 0.0, 1.0);
}

const struct drawn nozzle_drawn = {
    .type = "nozzle",
    .extent = {26.0, AXIS - BODY_HALF + OUT_UP - 2.0, HOSE_TO + OUT_ASIDE + 4.0, AXIS + BODY_HALF + 30.0},
    .wall = true,
    .slot = {SLOT_UPPER_RIGHT, SLOT_RIGHT, SLOT_ABOVE, SLOT_BELOW, SLOT_LEFT, SLOTS},
    .front = nozzle_front,
};
