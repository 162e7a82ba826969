/* painter.c  From a frame's shapes to cairo. Antialias FAST looks like DEFAULT and costs half (measured at twice the size). */
#include "draw/painter.h"

#include "draw/font.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct painter {
    struct font *font;
    cairo_surface_t *still; /* the still shapes as last painted; null: none */
    uint64_t still_hash;
};

struct painter *painter_create(char *trouble)
{
    struct painter *painter = calloc(1, sizeof *painter);
    struct font *font = font_create(trouble);
    if (!painter || !font) {
        free(painter);
        font_free(font);
        return NULL;
    }
    painter->font = font;
    return painter;
}

void painter_free(struct painter *painter)
{
    if (!painter)
        return;
    if (painter->still)
        cairo_surface_destroy(painter->still);
    font_free(painter->font);
    free(painter);
}

const char *painter_font(const struct painter *painter)
{
    return font_family(painter->font);
}

static double measure_width(void *with, const char *text, double size, int weight)
{
    const struct painter *painter = with;
    double width, baseline;
    font_set(painter->font, text, size, weight, &width, &baseline);
    return width;
}

struct text_measure painter_measure(struct painter *painter)
{
    return (struct text_measure){measure_width, painter};
}

/* ---- shapes -------------------------------------------------------------------------------------------------------- */
static void set_colour(cairo_t *to, unsigned colour)
{
    cairo_set_source_rgb(to, (double)(colour >> 16 & 0xFF) / 255.0, (double)(colour >> 8 & 0xFF) / 255.0,
                         (double)(colour & 0xFF) / 255.0);
}

static void trace_path(cairo_t *to, const struct frame *frame, const struct frame_shape *shape)
{
    cairo_new_path(to);
    for (int k = shape->first; k < shape->first + shape->count; k++) {
        const struct frame_node *node = &frame->node[k];
        const double x = (double)node->x[0], y = (double)node->x[1];
        switch (node->op) {
        case NODE_MOVE:
            cairo_move_to(to, x, y);
            break;
        case NODE_LINE:
            cairo_line_to(to, x, y);
            break;
        case NODE_CURVE:
            cairo_curve_to(to, x, y, (double)node->x[2], (double)node->x[3], (double)node->x[4], (double)node->x[5]);
            break;
        case NODE_CLOSE:
            cairo_close_path(to);
            break;
        }
    }
}

static void fill_shape(cairo_t *to, const struct frame *frame, const struct frame_shape *shape)
{
    trace_path(to, frame, shape);
    if (shape->shade < 0) {
        set_colour(to, shape->colour);
        cairo_fill(to);
        return;
    }
    const struct frame_shade *shade = &frame->shade[shape->shade];
    cairo_pattern_t *pattern = cairo_pattern_create_linear(0.0, (double)shade->y0, 0.0, (double)shade->y1);
    for (int k = 0; k < shade->stops; k++) {
        const unsigned c = shade->colour[k];
        cairo_pattern_add_color_stop_rgb(pattern, (double)shade->at[k], (double)(c >> 16 & 0xFF) / 255.0,
                                         (double)(c >> 8 & 0xFF) / 255.0, (double)(c & 0xFF) / 255.0);
    }
    cairo_set_source(to, pattern);
    cairo_fill(to);
    cairo_pattern_destroy(pattern);
}

static void stroke_shape(cairo_t *to, const struct frame *frame, const struct frame_shape *shape)
{
    const double dash[2] = {(double)shape->on, (double)shape->off};
    trace_path(to, frame, shape);
    set_colour(to, shape->colour);
    cairo_set_line_width(to, (double)shape->width);
    cairo_set_line_cap(to, shape->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(to, shape->round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    cairo_set_dash(to, dash, shape->on > 0.0f ? 2 : 0, 0.0);
    cairo_stroke(to);
}

static void write_text(struct painter *painter, cairo_t *to, const struct frame *frame, const struct frame_shape *shape)
{
    double width, baseline;
    PangoLayout *layout =
        font_set(painter->font, frame->text + shape->first, (double)shape->size, shape->weight, &width, &baseline);
    set_colour(to, shape->colour);
    cairo_move_to(to, (double)shape->x, (double)shape->y - baseline);
    pango_cairo_show_layout(to, layout);
}

static void paint_shapes(struct painter *painter, const struct frame *frame, int first, int last, cairo_t *to)
{
    for (int k = first; k < last; k++) {
        const struct frame_shape *shape = &frame->shape[k];
        switch (shape->kind) {
        case SHAPE_FILL:
            fill_shape(to, frame, shape);
            break;
        case SHAPE_STROKE:
            stroke_shape(to, frame, shape);
            break;
        case SHAPE_TEXT:
            write_text(painter, to, frame, shape);
            break;
        case SHAPE_CLIP:
            trace_path(to, frame, shape);
            cairo_save(to);
            cairo_clip(to);
            break;
        case SHAPE_UNCLIP:
            cairo_restore(to);
            break;
        }
    }
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */
static void prepare(cairo_t *to, const struct painter_fit *fit)
{
    cairo_identity_matrix(to);
    set_colour(to, COLOUR_PAPER);
    cairo_paint(to);
    cairo_translate(to, fit->left, fit->top);
    cairo_scale(to, fit->scale, fit->scale);
    cairo_set_antialias(to, CAIRO_ANTIALIAS_FAST);
    cairo_set_tolerance(to, 0.1);
}

static uint64_t bytes_hash(uint64_t hash, const void *bytes, size_t count)
{
    const unsigned char *byte = bytes;
    for (size_t k = 0; k < count; k++)
        hash = (hash ^ byte[k]) * 1099511628211u;
    return hash;
}

/* Of all that the still shapes are made of. Their nodes and texts stand first in the frame's pools. */
static uint64_t still_hash(const struct frame *frame, const struct painter_fit *fit)
{
    uint64_t hash = 14695981039346656037u;
    int nodes = 0, bytes = 0;
    for (int k = 0; k < frame->still; k++) {
        const struct frame_shape *shape = &frame->shape[k];
        const int end = shape->first + shape->count;
        if (shape->kind == SHAPE_TEXT)
            bytes = end > bytes ? end : bytes;
        else
            nodes = end > nodes ? end : nodes;
    }
    hash = bytes_hash(hash, frame->shape, (size_t)frame->still * sizeof *frame->shape);
    hash = bytes_hash(hash, frame->node, (size_t)nodes * sizeof *frame->node);
    hash = bytes_hash(hash, frame->text, (size_t)bytes);
    return bytes_hash(hash, fit, sizeof *fit);
}

static void still_renew(struct painter *painter, const struct frame *frame, const struct painter_fit *fit)
{
    if (painter->still)
        cairo_surface_destroy(painter->still);
    painter->still = cairo_image_surface_create(CAIRO_FORMAT_RGB24, fit->width, fit->height);
    cairo_t *onto = cairo_create(painter->still);
    prepare(onto, fit);
    paint_shapes(painter, frame, 0, frame->still, onto);
    cairo_destroy(onto);
}

void painter_paint(struct painter *painter, const struct frame *frame, cairo_t *to, const struct painter_fit *fit)
{
    const uint64_t hash = still_hash(frame, fit);
    if (!painter->still || hash != painter->still_hash) {
        still_renew(painter, frame, fit);
        painter->still_hash = hash;
    }
    prepare(to, fit);
    cairo_save(to);
    cairo_identity_matrix(to);
    cairo_set_operator(to, CAIRO_OPERATOR_SOURCE);
    cairo_set_source_surface(to, painter->still, 0.0, 0.0);
    cairo_paint(to);
    cairo_restore(to);
    paint_shapes(painter, frame, frame->still, frame->shapes, to);
}

void painter_paint_whole(struct painter *painter, const struct frame *frame, cairo_t *to, const struct painter_fit *fit)
{
    prepare(to, fit);
    paint_shapes(painter, frame, 0, frame->shapes, to);
}

bool canvas_paint(struct painter *painter, const struct frame *frame, const struct painter_fit *fit, void *pixels,
                  int stride)
{
    cairo_surface_t *surface =
        cairo_image_surface_create_for_data(pixels, CAIRO_FORMAT_RGB24, fit->width, fit->height, stride);
    cairo_t *to = cairo_create(surface);
    const bool good = cairo_status(to) == CAIRO_STATUS_SUCCESS;
    if (good)
        painter_paint(painter, frame, to, fit);
    cairo_destroy(to);
    cairo_surface_destroy(surface);
    return good;
}
