/* frame.c  Building a frame: growing pools, paths in local coordinates, texts with their boxes. */
#include "view/frame.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CAPITALS 0.76 /* of the size above the baseline, and tails below it: Inter's capitals 0.73, tails 0.20 */
#define TAILS 0.21
#define QUARTER 1.5707963267948966

/* Room for `more` items beyond `count`; false when memory is out. */
static bool pool_grow(struct frame *frame, void *pool, int count, int more, int *room, size_t size)
{
    void **items = pool;
    if (count + more <= *room)
        return true;
    const int wanted = 2 * (count + more) + 64;
    void *grown = realloc(*items, (size_t)wanted * size);
    if (!grown) {
        frame->out_of_memory = true;
        return false;
    }
    *items = grown;
    *room = wanted;
    return true;
}

void frame_clear(struct frame *frame, double width, double height, double least_text, struct text_measure measure)
{
    frame->width = width;
    frame->height = height;
    frame->least_text = least_text;
    frame->measure = measure;
    frame->nodes = frame->shapes = frame->bytes = frame->shades = frame->words = frame->spots = 0;
    frame->still = frame->begun = 0;
    frame->out_of_memory = false;
    frame_origin(frame, 0.0, 0.0);
    frame_home(frame);
}

void frame_free(struct frame *frame)
{
    free(frame->node);
    free(frame->shape);
    free(frame->text);
    free(frame->shade);
    free(frame->word);
    free(frame->spot);
    *frame = (struct frame){0};
}

void frame_still(struct frame *frame)
{
    frame->still = frame->shapes;
}

/* ---- local coordinates ------------------------------------------------------------------------------------------- */
void frame_origin(struct frame *frame, double x, double y)
{
    frame->origin_x = x;
    frame->origin_y = y;
}

void frame_at(struct frame *frame, double x, double y, int turn, bool mirror)
{
    frame->place = (struct frame_place){x, y, turn, mirror};
}

void frame_home(struct frame *frame)
{
    frame->place = (struct frame_place){0};
}

static void to_picture(const struct frame *frame, double x, double y, float *out)
{
    const struct frame_place *place = &frame->place;
    const double across = place->mirror ? -x : x;
    double turned[2] = {across, y};
    for (int quarter = place->turn / 90; quarter > 0; quarter--) {
        const double was = turned[0];
        turned[0] = -turned[1];
        turned[1] = was;
    }
    out[0] = (float)(frame->origin_x + place->x + turned[0]);
    out[1] = (float)(frame->origin_y + place->y + turned[1]);
}

/* ---- paths ------------------------------------------------------------------------------------------------------- */
static struct frame_node *node_add(struct frame *frame, enum node_op op)
{
    if (!pool_grow(frame, &frame->node, frame->nodes, 1, &frame->node_room, sizeof *frame->node))
        return NULL;
    struct frame_node *node = &frame->node[frame->nodes++];
    memset(node, 0, sizeof *node);
    node->op = op;
    return node;
}

void frame_path(struct frame *frame)
{
    frame->begun = frame->nodes;
}

static void point_add(struct frame *frame, enum node_op op, double x, double y)
{
    struct frame_node *node = node_add(frame, op);
    if (node)
        to_picture(frame, x, y, node->x);
}

void frame_move(struct frame *frame, double x, double y)
{
    point_add(frame, NODE_MOVE, x, y);
}

void frame_line(struct frame *frame, double x, double y)
{
    point_add(frame, NODE_LINE, x, y);
}

void frame_curve(struct frame *frame, double x1, double y1, double x2, double y2, double x, double y)
{
    struct frame_node *node = node_add(frame, NODE_CURVE);
    if (!node)
        return;
    to_picture(frame, x1, y1, &node->x[0]);
    to_picture(frame, x2, y2, &node->x[2]);
    to_picture(frame, x, y, &node->x[4]);
}

void frame_close(struct frame *frame)
{
    node_add(frame, NODE_CLOSE);
}

/* One curve of at most a quarter turn; the handles' length keeps its middle on the circle. */
static void arc_piece(struct frame *frame, double x, double y, double radius, double from, double to)
{
    const double handle = radius * 4.0 / 3.0 * tan(0.25 * (to - from));
    frame_curve(frame, x + radius * cos(from) - handle * sin(from), y + radius * sin(from) + handle * cos(from),
                x + radius * cos(to) + handle * sin(to), y + radius * sin(to) - handle * cos(to), x + radius * cos(to),
                y + radius * sin(to));
}

void frame_arc(struct frame *frame, double x, double y, double radius, double from, double to)
{
    const int pieces = (int)ceil(fabs(to - from) / QUARTER - 1e-9);
    const double turn = (to - from) / fmax(pieces, 1);
    const bool first = frame->nodes == frame->begun || frame->node[frame->nodes - 1].op == NODE_CLOSE;
    point_add(frame, first ? NODE_MOVE : NODE_LINE, x + radius * cos(from), y + radius * sin(from));
    for (int k = 0; k < pieces; k++)
        arc_piece(frame, x, y, radius, from + k * turn, from + (k + 1) * turn);
}

void frame_rectangle(struct frame *frame, double x, double y, double w, double h)
{
    frame_move(frame, x, y);
    frame_line(frame, x + w, y);
    frame_line(frame, x + w, y + h);
    frame_line(frame, x, y + h);
    frame_close(frame);
}

void frame_rounded(struct frame *frame, double x, double y, double w, double h, double radius)
{
    const double r = fmin(radius, 0.5 * fmin(w, h));
    frame_move(frame, x + r, y);
    frame_arc(frame, x + w - r, y + r, r, -QUARTER, 0.0);
    frame_arc(frame, x + w - r, y + h - r, r, 0.0, QUARTER);
    frame_arc(frame, x + r, y + h - r, r, QUARTER, 2.0 * QUARTER);
    frame_arc(frame, x + r, y + r, r, 2.0 * QUARTER, 3.0 * QUARTER);
    frame_close(frame);
}

void frame_circle(struct frame *frame, double x, double y, double radius)
{
    frame_move(frame, x + radius, y);
    frame_arc(frame, x, y, radius, 0.0, 4.0 * QUARTER);
    frame_close(frame);
}

/* ---- ink --------------------------------------------------------------------------------------------------------- */
static struct frame_shape *shape_add(struct frame *frame, enum shape_kind kind, unsigned colour)
{
    if (!pool_grow(frame, &frame->shape, frame->shapes, 1, &frame->shape_room, sizeof *frame->shape))
        return NULL;
    struct frame_shape *shape = &frame->shape[frame->shapes++];
    memset(shape, 0, sizeof *shape); /* padding too: painters compare bytes */
    shape->kind = kind;
    shape->colour = colour;
    shape->first = frame->begun;
    shape->count = frame->nodes - frame->begun;
    shape->shade = -1;
    return shape;
}

void frame_fill(struct frame *frame, unsigned colour)
{
    shape_add(frame, SHAPE_FILL, colour);
}

void frame_fill_shaded(struct frame *frame, const struct frame_shade *shade)
{
    struct frame_shape *shape = shape_add(frame, SHAPE_FILL, shade->colour[0]);
    if (!shape || !pool_grow(frame, &frame->shade, frame->shades, 1, &frame->shade_room, sizeof *frame->shade))
        return;
    frame->shade[frame->shades] = *shade;
    shape->shade = frame->shades++;
}

void frame_stroke(struct frame *frame, unsigned colour, double width)
{
    struct frame_shape *shape = shape_add(frame, SHAPE_STROKE, colour);
    if (shape)
        shape->width = (float)width;
}

void frame_stroke_round(struct frame *frame, unsigned colour, double width)
{
    struct frame_shape *shape = shape_add(frame, SHAPE_STROKE, colour);
    if (!shape)
        return;
    shape->width = (float)width;
    shape->round = 1;
}

void frame_stroke_dashed(struct frame *frame, unsigned colour, double width, double on, double off)
{
    struct frame_shape *shape = shape_add(frame, SHAPE_STROKE, colour);
    if (!shape)
        return;
    shape->width = (float)width;
    shape->on = (float)on;
    shape->off = (float)off;
}

void frame_clip(struct frame *frame)
{
    shape_add(frame, SHAPE_CLIP, 0);
}

void frame_unclip(struct frame *frame)
{
    frame_path(frame);
    shape_add(frame, SHAPE_UNCLIP, 0);
}

void frame_rule(struct frame *frame, double x0, double y0, double x1, double y1, unsigned colour, double width)
{
    frame_path(frame);
    frame_move(frame, x0, y0);
    frame_line(frame, x1, y1);
    frame_stroke(frame, colour, width);
}

void frame_bar(struct frame *frame, double x, double y, double w, double h, unsigned colour)
{
    frame_path(frame);
    frame_rectangle(frame, x, y, w, h);
    frame_fill(frame, colour);
}

/* ---- texts ------------------------------------------------------------------------------------------------------- */
double frame_text_size(const struct frame *frame, double size)
{
    return fmax(size, frame->least_text);
}

double frame_text_width(const struct frame *frame, struct text_style style, const char *text)
{
    return frame->measure.width(frame->measure.with, text, frame_text_size(frame, style.size), style.weight);
}

struct frame_box frame_text_box(const struct frame *frame, double x, double baseline, struct text_style style,
                                const char *text)
{
    const double width = frame_text_width(frame, style, text);
    const double size = frame_text_size(frame, style.size);
    const double left = x - style.anchor * width;
    return (struct frame_box){left, baseline - CAPITALS * size, left + width, baseline + TAILS * size};
}

double frame_text(struct frame *frame, double x, double baseline, struct text_style style, const char *text)
{
    const int length = (int)strlen(text);
    if (!length || !pool_grow(frame, &frame->text, frame->bytes, length + 1, &frame->byte_room, 1) ||
        !pool_grow(frame, &frame->word, frame->words, 1, &frame->word_room, sizeof *frame->word))
        return 0.0;
    float at[2];
    to_picture(frame, x, baseline, at);
    const struct frame_box box = frame_text_box(frame, (double)at[0], (double)at[1], style, text);
    frame_path(frame);
    struct frame_shape *shape = shape_add(frame, SHAPE_TEXT, style.colour);
    if (!shape)
        return 0.0;
    shape->first = frame->bytes;
    shape->count = length;
    shape->x = (float)box.x0;
    shape->y = at[1];
    shape->size = (float)frame_text_size(frame, style.size);
    shape->weight = style.weight;
    memcpy(frame->text + frame->bytes, text, (size_t)length + 1);
    frame->word[frame->words++] = (struct frame_word){box, (double)shape->size, frame->bytes};
    frame->bytes += length + 1;
    return box.x1 - box.x0;
}

double frame_text_fit(struct frame *frame, double x, double baseline, double room, struct text_style style,
                      const char *text)
{
    while (style.size > frame->least_text && frame_text_width(frame, style, text) > room)
        style.size -= 1.0;
    return frame_text(frame, x, baseline, style, text);
}

/* ---- spots ------------------------------------------------------------------------------------------------------- */
void frame_spot(struct frame *frame, enum spot_kind what, int part, struct frame_box box, double from, double to)
{
    const struct frame_box moved = {box.x0 + frame->origin_x, box.y0 + frame->origin_y, box.x1 + frame->origin_x,
                                    box.y1 + frame->origin_y};
    if (pool_grow(frame, &frame->spot, frame->spots, 1, &frame->spot_room, sizeof *frame->spot))
        frame->spot[frame->spots++] = (struct frame_spot){what, part, moved, from, to};
}

static double box_distance(struct frame_box box, double x, double y)
{
    const double dx = fmax(fmax(box.x0 - x, x - box.x1), 0.0);
    const double dy = fmax(fmax(box.y0 - y, y - box.y1), 0.0);
    return hypot(dx, dy);
}

const struct frame_spot *frame_spot_at(const struct frame *frame, double x, double y, double reach)
{
    const struct frame_spot *best = NULL;
    double nearest = reach;
    for (int k = 0; k < frame->spots; k++) {
        const struct frame_spot *spot = &frame->spot[k];
        const double distance = box_distance(spot->box, x, y);
        const bool closer = best && distance < nearest;
        const bool above = distance <= nearest && (!best || spot->what >= best->what);
        if (closer || above) {
            best = spot;
            nearest = distance;
        }
    }
    return best;
}

bool box_overlaps(struct frame_box a, struct frame_box b)
{
    return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

struct frame_box box_grown(struct frame_box box, double by)
{
    return (struct frame_box){box.x0 - by, box.y0 - by, box.x1 + by, box.y1 + by};
}
