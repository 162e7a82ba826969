/* label.c  Names beside their bodies: a few slots each, the first that is free wins. A name that finds no room is left
 * out and counted; the part says it when it is pointed at. */
#include "view/naming.h"
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NAME_SIZE 26.0
#define FIGURE_SIZE 28.0
#define SMALL_SIZE 22.0
#define LINE_STEP 1.22 /* of the size, from one baseline to the next */
#define BESIDE 12.0    /* between a body and its name */
#define PORT_DEEP 46.0 /* kept free before a port, for its line */
#define PORT_WIDE 44.0
#define JET_DEEP 96.0 /* kept free before a hole, for its jet */
#define JET_WIDE 62.0
#define ONE_LINE_GAP 10.0 /* between name and figure on one line */
#define LINE_JETS 160.0   /* over the holes of a line, up to its name */
#define HOLE_JET 104.0    /* the same over a hole in a roof */
#define CAP_JET 70.0      /* kept free over a cap, for what blows when it is off */
#define LETTER_RING 16.0  /* radius */
#define LETTER_NEAR 34.0  /* from its hole */

enum { LETTER_TURNS = 12, LETTER_RINGS = 7 };

#define CAPITALS 0.76
#define TAILS 0.21

static const struct text_style name_style = {NAME_SIZE, 500, COLOUR_INK, 0.0};
static const struct text_style figure_style = {FIGURE_SIZE, 600, COLOUR_INK, 0.0};

static void name_write(const struct plate *plate, struct plate_body *body)
{
    char *name = body->label.name;
    const int room = (int)sizeof body->label.name;
    const bool latent = ullage_model_part(plate->model, body->part).latent;
    if (body->drawn == &hole_drawn && *body->opening && !latent)
        snprintf(name, (size_t)room, "%s leak", body->opening);
    else
        naming_part(plate->model, body->part, false, name, room);
    naming_capital(name);
}

/* The box kept free before an opening in a wall. */
static struct frame_box before(double x, double y, enum side side, double deep, double wide)
{
    const double tx = x + deep * side_x(side), ty = y + deep * side_y(side);
    const double across = side == SIDE_UP || side == SIDE_DOWN ? 0.5 * wide : 0.0;
    const double down = across > 0.0 ? 0.0 : 0.5 * wide;
    return (struct frame_box){fmin(x, tx) - across, fmin(y, ty) - down, fmax(x, tx) + across, fmax(y, ty) + down};
}

/* Ports whose pipe has no way yet keep room for it. */
static bool ports_clear(const struct plate *plate, struct frame_box box)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            const struct pipe_end *end = &plate->pipe[k].end[e];
            if (end->body >= 0 && !plate->pipe[k].points &&
                box_overlaps(box, before(end->port.x, end->port.y, end->port.side, PORT_DEEP, PORT_WIDE)))
                return false;
        }
    return true;
}

/* Pipes that are routed already. */
static bool pipes_clear(const struct plate *plate, struct frame_box box)
{
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        for (int p = 1; p < pipe->points; p++) {
            const struct plate_point a = pipe->point[p - 1], b = pipe->point[p];
            const struct frame_box run = {fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
            if (box_overlaps(box, box_grown(run, 0.5 * pipe->width + 5.0)))
                return false;
        }
    }
    return true;
}

static bool label_clear(const struct plate *plate, int self, struct frame_box box)
{
    if (box.x0 < 0.0 || box.y0 < 0.0 || box.x1 > PLATE_WIDTH || box.y1 > PLATE_HEIGHT)
        return false;
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *other = &plate->body[k];
        const bool unset = other->drawn->wall && !other->placed;
        if (!unset && box_overlaps(box, box_grown(other->box, k == self ? 0.0 : 6.0)))
            return false;
        if (other->label.placed && k != self && box_overlaps(box, box_grown(other->label.box, 6.0)))
            return false;
        if (other->drawn == &hole_drawn && !unset && k != self &&
            box_overlaps(box, before(other->x, other->y, other->side, JET_DEEP, JET_WIDE)))
            return false;
    }
    for (int k = 0; k < plate->pipes; k++)
        if (plate->pipe[k].label.placed && box_overlaps(box, box_grown(plate->pipe[k].label.box, 6.0)))
            return false;
    return ports_clear(plate, box) && pipes_clear(plate, box);
}

/* Where a label of w x h would lie in a slot; anchor is where its lines are aligned. */
static struct frame_box slot_box(const struct plate_body *body, enum label_slot slot, double w, double h,
                                 double *anchor)
{
    const struct frame_box *b = &body->box;
    const double cy = 0.5 * (b->y0 + b->y1);
    const bool hole = body->drawn == &hole_drawn;
    const double beside = hole ? 0.5 * JET_WIDE : BESIDE; /* names of holes stand clear of the jet */
    const bool sideways = hole && (body->side == SIDE_LEFT || body->side == SIDE_RIGHT);
    const double over = sideways ? body->y - 0.5 * JET_WIDE - 8.0 : hole ? body->y - 16.0 : cy - 14.0;
    const double cx = body->drawn->wall ? 0.5 * (b->x0 + b->x1) : body->x;
    struct frame_box box = {cx - 0.5 * w, 0.0, 0.0, 0.0};
    *anchor = 0.5;
    if (slot == SLOT_RIGHT || slot == SLOT_UPPER_RIGHT) {
        box.x0 = b->x1 + beside;
        *anchor = 0.0;
    } else if (slot == SLOT_LEFT || slot == SLOT_UPPER_LEFT) {
        box.x0 = b->x0 - beside - w;
        *anchor = 1.0;
    }
    box.x1 = box.x0 + w;
    if (slot == SLOT_ABOVE)
        box.y0 = b->y0 - (body->drawn == &cap_drawn ? CAP_JET : hole ? HOLE_JET : 8.0) - h;
    else if (slot == SLOT_BELOW)
        box.y0 = b->y1 + 8.0;
    else if (slot == SLOT_UPPER_RIGHT || slot == SLOT_UPPER_LEFT)
        box.y0 = over - h;
    else
        box.y0 = cy - 0.5 * h;
    box.y1 = box.y0 + h;
    return box;
}

static void label_set(struct plate_label *label, struct frame_box box, double anchor, double size, double step)
{
    label->placed = true;
    label->box = box;
    label->anchor = anchor;
    label->x = box.x0 + anchor * (box.x1 - box.x0);
    label->baseline = box.y0 + CAPITALS * size;
    label->step = step;
}

/* Looks for room for the name with the widest of its figures. */
static bool label_try(struct plate *plate, int index, const struct frame *ruler, const char *figure)
{
    struct plate_body *body = &plate->body[index];
    const double size = frame_text_size(ruler, NAME_SIZE), high = frame_text_size(ruler, FIGURE_SIZE);
    const bool below = figure && !body->drawn->one_line;
    const double step = below ? LINE_STEP * fmax(size, high) : 0.0;
    const double name = frame_text_width(ruler, name_style, body->label.name);
    const double wide = figure ? frame_text_width(ruler, figure_style, figure) : 0.0;
    const double w = body->drawn->one_line ? name + wide + ONE_LINE_GAP : fmax(name, wide);
    const double h = CAPITALS * size + step + TAILS * fmax(size, below ? high : 0.0);
    for (int k = 0; body->drawn->slot[k] != SLOTS; k++) {
        double anchor;
        const struct frame_box box = slot_box(body, body->drawn->slot[k], w, h, &anchor);
        if (label_clear(plate, index, box)) {
            label_set(&body->label, box, anchor, size, step);
            return true;
        }
    }
    return false;
}

bool plate_name(struct plate *plate, int index, const struct frame *ruler)
{
    struct plate_body *body = &plate->body[index];
    if (!*body->label.name)
        name_write(plate, body);
    if (!body->label.wanted || label_try(plate, index, ruler, body->label.figure))
        return true;
    body->label.brief = body->drawn->brief && label_try(plate, index, ruler, body->drawn->brief);
    return body->label.brief;
}

bool plate_letter(struct plate *plate, int index, const struct frame *ruler)
{
    struct plate_body *body = &plate->body[index];
    const double half = 0.5 * fmax(2.0 * LETTER_RING, frame_text_size(ruler, 20.0));
    body->label.letter = hole_letter(plate, body->part);
    for (int ring = 0; body->label.letter && ring < LETTER_RINGS; ring++)
        for (int turn = 0; turn < LETTER_TURNS; turn++) {
            const double far = LETTER_NEAR + 10.0 * ring;
            const double angle = 6.283185307179586 * turn / LETTER_TURNS;
            const double x = body->x + far * cos(angle), y = body->y + far * sin(angle);
            const struct frame_box box = {x - half, y - half, x + half, y + half};
            if (label_clear(plate, index, box)) {
                label_set(&body->label, box, 0.5, 20.0, 0.0);
                return true;
            }
        }
    return false;
}

/* One of several holes on a line: its size alone, on the side away from its jet. */
static void crowded_label(struct plate_body *body, const struct frame *ruler)
{
    const double size = frame_text_size(ruler, SMALL_SIZE);
    const struct text_style style = {SMALL_SIZE, 600, COLOUR_INK, 0.5};
    const double wide = frame_text_width(ruler, style, "0.00");
    const double out = 38.0 + 0.5 * size; /* from the hole over the line to the middle of the figure */
    const double x = body->x - out * side_x(body->side), y = body->y - out * side_y(body->side);
    const struct frame_box box = {x - 0.5 * wide, y - 0.5 * size, x + 0.5 * wide, y + 0.5 * size};
    label_set(&body->label, box, 0.5, 0.0, 0.0);
    body->label.baseline = y + 0.36 * size;
    body->label.box.x1 += frame_text_width(ruler, style, " mm"); /* the unit behind the last one */
    body->label.figure = NULL;
    body->label.name[0] = '\0';
}

/* A line that ends in a crowd of holes is named once for all of them: over their jets where there is room, else beyond
 * its closed end. */
static void line_label(struct plate *plate, int index, const struct plate_body *hole, const struct plate_port *port,
                       const struct frame *ruler)
{
    struct plate_pipe *pipe = &plate->pipe[index];
    struct plate_label *label = &pipe->label;
    naming_part(plate->model, pipe->part, true, label->name, (int)sizeof label->name);
    const double size = frame_text_size(ruler, NAME_SIZE);
    const double name = frame_text_width(ruler, name_style, label->name);
    const double figure = frame_text_width(ruler, figure_style, "00.0 L/min");
    const bool rightward = port->side == SIDE_LEFT, above = hole->y > LINE_JETS + size;
    const double h = (CAPITALS + TAILS) * size, wide = above ? name + ONE_LINE_GAP + figure : fmax(name, figure);
    const double step = above ? 0.0 : LINE_STEP * frame_text_size(ruler, FIGURE_SIZE);
    double first = port->x, last = port->x; /* of the holes */
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].host_pipe == index && plate->body[k].drawn == &hole_drawn) {
            first = fmin(first, plate->body[k].x + BESIDE);
            last = fmax(last, plate->body[k].x - BESIDE);
        }
    const double left =
        above ? (rightward ? first : last - wide) : (rightward ? port->x + 14.0 : port->x - 14.0 - wide);
    const double top = above ? fmax(hole->y - LINE_JETS - h, 2.0) : port->y - 0.5 * (h + step);
    label_set(label, (struct frame_box){left, top, left + wide, top + h + step}, rightward != above ? 0.0 : 1.0, size,
              step);
}

void plate_line_labels(struct plate *plate, const struct frame *ruler)
{
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        const int end = pipe->end[1].dead ? 1 : pipe->end[0].dead ? 0 : -1;
        if (end >= 0 && plate->body[pipe->end[end].body].crowded)
            line_label(plate, k, &plate->body[pipe->end[end].body], &pipe->end[end].port, ruler);
    }
}

void plate_labels(struct plate *plate, const struct frame *ruler, bool late)
{
    for (int k = 0; k < plate->bodies; k++) {
        struct plate_body *body = &plate->body[k];
        if (body->late != late || body->part < 0 || body->loose) /* loose ones have theirs with their place */
            continue;
        name_write(plate, body);
        if (body->crowded)
            crowded_label(body, ruler);
        else
            plate->unnamed += !plate_name(plate, k, ruler);
    }
}
