/* tank.c  The fuel tank, cut open: a shell with its gas. Shapes: saddle (over a tunnel), box, cylinder, drum. */
#include "view/part/gas.h"
#include "view/part/part.h"

#include <math.h>
#include <string.h>

#define WALL 8.0          /* u from the middle of the shell to its inner edge */
#define SADDLE_LEAST 0.03 /* m3: smaller tanks have no tunnel under them where the file does not say */
#define TUNNEL_WIDE 150.0
#define TUNNEL_FLAT 72.0
#define TUNNEL_HIGH 58.0

enum tank_shape { BOX, SADDLE, CYLINDER, DRUM };

static enum tank_shape shape_of(const struct ullage_model *model, int part)
{
    const char *const names[] = {"box", "saddle", "cylinder", "drum"};
    const struct ullage_part about = ullage_model_part(model, part);
    for (int k = 0; k < 4; k++)
        if (about.shape && !strcmp(about.shape, names[k]))
            return (enum tank_shape)k;
    return ullage_model_parameter(model, part, "volume") > SADDLE_LEAST ? SADDLE : BOX;
}

static void tank_measure(const struct plate *plate, struct plate_body *body)
{
    const struct frame_box extents[] = {[BOX] = {-240.0, -120.0, 240.0, 120.0},
                                        [SADDLE] = {-320.0, -126.0, 320.0, 126.0},
                                        [CYLINDER] = {-270.0, -105.0, 270.0, 105.0},
                                        [DRUM] = {-150.0, -165.0, 150.0, 165.0}};
    body->extent = extents[shape_of(plate->model, body->part)];
}

/* The middle of the shell, `inset` u inward. */
static void tank_path(struct frame *frame, const struct frame_box *box, enum tank_shape shape, double inset)
{
    const double x0 = box->x0 + WALL + inset, x1 = box->x1 - WALL - inset;
    const double y0 = box->y0 + WALL + inset, y1 = box->y1 - WALL - inset;
    const double radius = (shape == CYLINDER ? 0.5 * (y1 - y0) : shape == DRUM ? 26.0 : 54.0 - inset);
    if (shape != SADDLE) {
        frame_rounded(frame, x0, y0, x1 - x0, y1 - y0, radius);
        return;
    }
    const double middle = 0.5 * (x0 + x1), top = y1 - TUNNEL_HIGH;
    const double wide = TUNNEL_WIDE + 0.6 * inset, flat = TUNNEL_FLAT + 0.5 * inset;
    frame_move(frame, middle + wide, y1);
    frame_curve(frame, middle + wide - 42.0, y1, middle + flat + 36.0, top, middle + flat, top);
    frame_line(frame, middle - flat, top);
    frame_curve(frame, middle - flat - 36.0, top, middle - wide + 42.0, y1, middle - wide, y1);
    const double quarter = 1.5707963267948966;
    frame_arc(frame, x0 + radius, y1 - radius, radius, quarter, 2.0 * quarter);
    frame_arc(frame, x0 + radius, y0 + radius, radius, 2.0 * quarter, 3.0 * quarter);
    frame_arc(frame, x1 - radius, y0 + radius, radius, -quarter, 0.0);
    frame_arc(frame, x1 - radius, y1 - radius, radius, 0.0, quarter);
    frame_close(frame);
}

static bool inside_saddle(const struct gas_space *space, double x, double y)
{
    const struct frame_box *b = &space->box;
    const double margin = 15.0, middle = 0.5 * (b->x0 + b->x1);
    const double corner_x = fmax(fmax(b->x0 + 52.0 - x, x - b->x1 + 52.0), 0.0);
    const double corner_y = fmax(fmax(b->y0 + 52.0 - y, y - b->y1 + 52.0), 0.0);
    if (hypot(corner_x, corner_y) > 52.0 - margin)
        return false;
    return fabs(x - middle) > TUNNEL_WIDE || y < b->y1 - TUNNEL_HIGH - margin;
}

static bool inside_round(const struct gas_space *space, double x, double y)
{
    const struct frame_box *b = &space->box;
    const double radius = 0.5 * (b->y1 - b->y0), off = fmax(fmax(b->x0 + radius - x, x - b->x1 + radius), 0.0);
    return hypot(off, y - 0.5 * (b->y0 + b->y1)) < radius - 15.0;
}

static void tank_still(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    tank_path(frame, &body->box, shape_of(scene->model, body->part), 0.0);
    frame_stroke(frame, COLOUR_INK, 2.0 * WALL);
    frame_stroke(frame, COLOUR_SHELL, 10.0);
}

static void tank_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    frame_path(frame);
    tank_path(frame, &body->box, shape_of(scene->model, body->part), WALL - 1.0);
    frame_fill(frame, scene_colour(scene, body->part));
}

static void tank_front(struct frame *frame, const struct scene *scene, const struct plate_body *body)
{
    const enum tank_shape shape = shape_of(scene->model, body->part);
    struct gas_space space = gas_box(body, 2.0 * WALL);
    if (shape == SADDLE)
        space.inside = inside_saddle;
    else if (shape == CYLINDER)
        space.inside = inside_round;
    const double x = body->box.x0 + (shape == CYLINDER ? 92.0 : 52.0);
    gas_figures(frame, scene, body->part, x, body->box.y0 + 52.0, 64.0, &space);
    marks_space(frame, &space, scene_mix(scene, body->part));
}

const struct drawn tank_drawn = {
    .type = "tank",
    .extent = {-320.0, -126.0, 320.0, 126.0},
    .measure = tank_measure,
    .roof_only = true,
    .nameless = true,
    .slot = {SLOTS},
    .still = tank_still,
    .gas = tank_gas,
    .front = tank_front,
};
