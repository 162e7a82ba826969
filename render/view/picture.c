/* picture.c  The whole picture: head, sentence, plate, key, column, gutter, charts, time bar. Still things first, so that a
 * painter can keep them; then what changes, from the back to the front. */
#include "view/picture.h"

#include "view/charts.h"
#include "view/column.h"
#include "view/key.h"
#include "view/marks.h"
#include "view/naming.h"
#include "view/part/float.h"
#include "view/part/part.h"
#include "view/puddle.h"
#include "view/sentence.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define EDGE 3.0 /* u of ink to each side of a pipe's gas */

/* ---- head and sentence --------------------------------------------------------------------------------------------- */
static void head_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    char title[96], words[96];
    const char *system = ullage_model_system(scene->model), *name = ullage_model_name(scene->model);
    const struct text_style bold = {30.0, 700, COLOUR_INK, 0.0}, light = {28.0, 400, COLOUR_SOFT, 0.0};
    naming_words(*system ? system : name, true, title, sizeof title);
    naming_words(*system ? name : "", false, words, sizeof words);
    const double left = column_words(frame, scene, layout);
    const double after = PICTURE_MARGIN + frame_text(frame, PICTURE_MARGIN, 52.0, bold, title) + 20.0;
    double free_from = after;
    if (*words && after + frame_text_width(frame, light, words) < left - 20.0)
        free_from += frame_text(frame, after, 52.0, light, words) + 24.0;
    frame_rule(frame, PICTURE_MARGIN, 74.0, layout->width - PICTURE_MARGIN, 74.0, COLOUR_INK, 2.0);
    const struct text_style soft = {22.0, 500, COLOUR_SOFT, 1.0};
    const double right = layout->wide ? layout->column_x0 - 44.0 : left - 10.0;
    if (*scene->view->message && right - frame_text_width(frame, soft, scene->view->message) > free_from)
        frame_text(frame, right, 50.0, soft, scene->view->message);
}

static void sentence_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    char text[320];
    const double width = (layout->wide ? layout->column_x0 - 44.0 : layout->width - PICTURE_MARGIN) - PICTURE_MARGIN;
    struct text_style style = {28.0, 500, COLOUR_INK, 0.0};
    if (*scene->now->said)
        snprintf(text, sizeof text, "%s", scene->now->said);
    else
        sentence_make(scene->model, scene->told, scene->now->step, text, sizeof text);
    if (frame_text_width(frame, style, text) > width && !*scene->now->said) /* the physics before the step's name */
        sentence_make(scene->model, scene->told, -1, text, sizeof text);
    while (frame_text_width(frame, style, text) > width && style.size > frame->least_text)
        style.size -= 1.0;
    for (char *space = strrchr(text, ' '); space && frame_text_width(frame, style, text) > width;
         space = strrchr(text, ' '))
        *space = '\0';
    frame_text(frame, PICTURE_MARGIN, 116.0, style, text);
}

/* ---- plate --------------------------------------------------------------------------------------------------------- */
/* A pipe is drawn from inside one wall to inside the other. A branch begins at the wall of its host. */
static void pipe_reach(const struct plate *plate, const struct plate_pipe *pipe, double inside, double *begin,
                       double *end)
{
    double cut[2];
    for (int e = 0; e < 2; e++) {
        const struct pipe_end *at = &pipe->end[e];
        cut[e] = at->pipe >= 0 ? 0.5 * plate->pipe[at->pipe].width - 1.0 : at->dead ? 0.0 : -inside;
    }
    *begin = cut[0];
    *end = pipe->length - cut[1];
}

/* Straight on beyond its ends, into the walls it meets. */
static void pipe_stroke(struct frame *frame, const struct plate_pipe *pipe, double begin, double end, unsigned colour,
                        double width)
{
    frame_path(frame);
    pipe_path(frame, pipe, fmax(begin, 0.0), fmin(end, pipe->length));
    frame_stroke(frame, colour, width);
    const struct plate_point *a = pipe->point, *b = &pipe->point[pipe->points - 1];
    if (begin < 0.0) {
        const double x = side_x(pipe->end[0].port.side), y = side_y(pipe->end[0].port.side);
        frame_rule(frame, a->x + x, a->y + y, a->x + begin * x, a->y + begin * y, colour, width);
    }
    if (end > pipe->length) {
        const double over = pipe->length - end, x = side_x(pipe->end[1].port.side), y = side_y(pipe->end[1].port.side);
        frame_rule(frame, b->x + x, b->y + y, b->x + over * x, b->y + over * y, colour, width);
    }
}

/* A hose that is not joined hangs from its equipment and ends short of the port. */
static double hose_end(const struct scene *scene, const struct plate_pipe *pipe, double end)
{
    return pipe->hose && !scene_joined(scene, pipe->equipment) ? 0.45 * pipe->length : end;
}

static void pipe_outer(struct frame *frame, const struct scene *scene, const struct plate_pipe *pipe)
{
    if (pipe->points < 2)
        return;
    const double end = hose_end(scene, pipe, pipe->length);
    frame_path(frame);
    pipe_path(frame, pipe, 0.0, end);
    frame_stroke(frame, COLOUR_INK, pipe->width + 2.0 * EDGE);
    for (int e = 0; e < 2; e++)
        if (pipe->end[e].dead) { /* closed */
            const struct plate_port *port = &pipe->end[e].port;
            const double half = 0.5 * pipe->width + EDGE;
            frame_bar(frame, port->x - 3.0, port->y - half, 6.0, 2.0 * half, COLOUR_INK);
        }
}

static void pipe_inner(struct frame *frame, const struct scene *scene, const struct plate_pipe *pipe)
{
    if (pipe->points < 2)
        return;
    double begin, end;
    pipe_reach(scene->plate, pipe, 2.0, &begin, &end);
    for (int e = 0; e < 2; e++) { /* shells are thick */
        const int body = pipe->end[e].body;
        const int part = body >= 0 && !pipe->end[e].dead ? scene->plate->body[body].part : -1;
        const double wall = scene_type(scene, part, "tank")       ? 17.0
                            : scene_type(scene, part, "vessel")   ? 11.0
                            : scene_type(scene, part, "canister") ? 5.0
                            : scene_type(scene, part, "port")     ? 6.0
                                                                  : 3.0;
        if (pipe->end[e].pipe < 0 && !pipe->end[e].dead && !scene_type(scene, part, "supply")) {
            if (e == 0)
                begin = -wall;
            else
                end = pipe->length + wall;
        }
    }
    if (pipe->hose)
        begin = 2.0;
    const bool joined = !pipe->hose || scene_joined(scene, pipe->equipment);
    const unsigned colour =
        pipe->hose ? (joined ? scene_colour(scene, pipe->equipment) : COLOUR_PAPER) : scene_colour(scene, pipe->gas);
    pipe_stroke(frame, pipe, begin, hose_end(scene, pipe, end) - (joined ? 0.0 : 3.0), colour, pipe->width);
}

/* Where two pipes cross, the lower one is cut by white. */
static void crossings_cut(struct frame *frame, const struct plate *plate, int upper)
{
    const struct plate_pipe *over = &plate->pipe[upper];
    for (int k = 0; k < upper; k++) {
        const struct plate_pipe *under = &plate->pipe[k];
        for (int p = 1; p < over->points; p++)
            for (int q = 1; q < under->points; q++) {
                const struct plate_point a = over->point[p - 1], b = over->point[p];
                const struct plate_point c = under->point[q - 1], d = under->point[q];
                const bool level = fabs(a.y - b.y) < 0.5, other_level = fabs(c.y - d.y) < 0.5;
                if (level == other_level)
                    continue;
                const double x = level ? c.x : a.x, y = level ? a.y : c.y;
                const bool on = x > fmin(level ? a.x : c.x, level ? b.x : d.x) + 4.0 &&
                                x < fmax(level ? a.x : c.x, level ? b.x : d.x) - 4.0 &&
                                y > fmin(level ? c.y : a.y, level ? d.y : b.y) + 4.0 &&
                                y < fmax(level ? c.y : a.y, level ? d.y : b.y) - 4.0;
                if (on)
                    frame_bar(frame, x - 24.0, y - 24.0, 48.0, 48.0, COLOUR_PAPER);
            }
    }
}

static void plate_still(struct frame *frame, const struct scene *scene)
{
    const struct plate *plate = scene->plate;
    for (int k = 0; k < plate->pipes; k++)
        if (!plate->pipe[k].hose)
            pipe_outer(frame, scene, &plate->pipe[k]);
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].drawn->still)
            plate->body[k].drawn->still(frame, scene, &plate->body[k]);
}

static void plate_spots(struct frame *frame, const struct plate *plate)
{
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        for (int p = 1; p < pipe->points; p++) {
            const struct plate_point a = pipe->point[p - 1], b = pipe->point[p];
            const struct frame_box run = {fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
            frame_spot(frame, SPOT_PLATE_PART, pipe->part, box_grown(run, 0.5 * pipe->width), 0.0, 0.0);
        }
    }
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].part >= 0)
            frame_spot(frame, SPOT_PLATE_PART, plate->body[k].part, plate->body[k].box, 0.0, 0.0);
    struct frame_box box;
    for (int k = 0; k < plate->pipes; k++)
        for (int host = 0; host < plate->bodies; host++)
            if (float_hangs(plate, k, host, &box))
                frame_spot(frame, SPOT_PLATE_PART, plate->pipe[k].part, box, 0.0, 0.0);
}

static void ring_draw(struct frame *frame, struct frame_box box)
{
    const struct frame_box ring = box_grown(box, 7.0);
    frame_path(frame);
    frame_rounded(frame, ring.x0, ring.y0, ring.x1 - ring.x0, ring.y1 - ring.y0, 10.0);
    frame_stroke(frame, COLOUR_INK, 4.0);
}

static void rings_draw(struct frame *frame, const struct scene *scene)
{
    const struct view *view = scene->view;
    if (view->focus >= 0)
        ring_draw(frame, scene->plate->body[view->focus].box);
    const int body = view->hover >= 0 ? scene->plate->body_of[view->hover] : -1;
    if (body >= 0 && body != view->focus)
        ring_draw(frame, scene->plate->body[body].box);
}

static void line_name(struct frame *frame, const struct scene *scene, const struct plate_label *label, double leaving)
{
    char flow[48];
    const bool below = label->step > 0.0;
    const struct text_style name = {26.0, 500, COLOUR_INK, below ? label->anchor : 0.0},
                            figure = {28.0, 600, COLOUR_INK, below ? label->anchor : 0.0};
    const double x = below ? label->x : label->box.x0;
    const double wide = frame_text(frame, x, label->baseline, name, label->name);
    scene_text(scene, leaving, ULLAGE_VOLUME_FLOW, flow, sizeof flow);
    frame_text(frame, below ? x : x + wide + 10.0, label->baseline + label->step, figure, flow);
}

/* Names of lines that carry several holes, with what leaves by them all. */
static void line_names(struct frame *frame, const struct scene *scene)
{
    const struct plate *plate = scene->plate;
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_label *label = &plate->pipe[k].label;
        if (!label->placed)
            continue;
        double leaving = 0.0;
        for (int b = 0; b < plate->bodies; b++)
            if (plate->body[b].host_pipe == k && plate->body[b].drawn == &hole_drawn)
                leaving += fabs(scene_told_flow(scene, plate->body[b].part));
        line_name(frame, scene, label, leaving);
        const struct plate_body *last = &plate->body[plate->pipe[k].end[plate->pipe[k].end[1].dead ? 1 : 0].body];
        const struct text_style unit = {20.0, 500, COLOUR_SOFT, 0.0}, size = {22.0, 600, COLOUR_INK, 0.0};
        const double half = 0.5 * frame_text_width(frame, size, "0.00");
        frame_text(frame, last->label.x + half + 5.0, last->label.baseline, unit,
                   unit_view(ULLAGE_LENGTH, scene->view->units).unit);
    }
}

static void plate_live(struct frame *frame, const struct scene *scene)
{
    const struct plate *plate = scene->plate;
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].drawn->gas)
            plate->body[k].drawn->gas(frame, scene, &plate->body[k]);
    for (int k = 0; k < plate->pipes; k++)
        if (plate->pipe[k].hose)
            pipe_outer(frame, scene, &plate->pipe[k]);
    for (int k = 0; k < plate->pipes; k++) {
        crossings_cut(frame, plate, k);
        if (plate->pipe[k].points > 1)
            pipe_inner(frame, scene, &plate->pipe[k]);
    }
    for (int k = 0; k < plate->sections; k++) {
        const struct plate_pipe *pipe = &plate->pipe[plate->section[k].pipe];
        if (pipe->points > 1 && (!pipe->hose || scene_joined(scene, pipe->equipment)))
            marks_section(frame, scene, k);
    }
    for (int k = 0; k < plate->pipes; k++)
        puddle_line(frame, scene, &plate->pipe[k]);
    plate_spots(frame, plate);
    for (int round = 0; round < 2; round++) /* tanks, then what hangs in them */
        for (int k = 0; k < plate->bodies; k++)
            if (plate->body[k].drawn->front && plate->body[k].drawn->roof_only == (round == 0))
                plate->body[k].drawn->front(frame, scene, &plate->body[k]);
    line_names(frame, scene);
    rings_draw(frame, scene);
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */
void picture_draw(struct frame *frame, const struct scene *scene, struct text_measure measure)
{
    const struct layout layout = layout_make(scene->view->width, scene->view->height);
    frame_clear(frame, layout.width, PICTURE_HEIGHT, layout.least_text, measure);
    frame_bar(frame, 0.0, 0.0, layout.width, PICTURE_HEIGHT, COLOUR_PAPER);
    key_still(frame, scene, &layout);
    frame_origin(frame, layout.plate_x, layout.plate_y);
    plate_still(frame, scene);
    frame_origin(frame, 0.0, 0.0);
    frame_still(frame);
    head_draw(frame, scene, &layout);
    sentence_draw(frame, scene, &layout);
    key_live(frame, scene, &layout);
    frame_origin(frame, layout.plate_x, layout.plate_y);
    plate_live(frame, scene);
    frame_origin(frame, 0.0, 0.0);
    column_draw(frame, scene, &layout);
    if (layout.wide || !scene->view->help) /* else the keys stand there */
        charts_draw(frame, scene, &layout);
}
