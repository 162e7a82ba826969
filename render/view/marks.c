/* marks.c  Forms of marks, and where they stand.
 *
 * Along a pipe mark k stands at phase + SPACING k. Its kind follows from its rank, the k-th term of an even sequence, against
 * the mole shares at that place: the same share gives the same row, and a change of share arrives where the gas does. */
#include "view/marks.h"

#include "view/scatter.h"

#include <math.h>
#include <string.h>

#define SPACING 38.0
#define LINE_SCALE 1.25 /* marks in lines against those in the key */
#define CORNER 22.0     /* u radius of a pipe's bends */
#define TAIL_PER_SPEED 0.105
#define TAIL_MOST 17.0
#define MARK_MARGIN 13.0 /* u from a pipe's ends */
#define STANDING 0.2     /* u/s: slower marks have no tail */
#define GOLDEN 0.6180339887498949
#define EVEN_X 0.7548776662466927 /* plastic-number sequence: any first n points lie evenly in the square */
#define EVEN_Y 0.5698402909980532
#define PUFF_APART 24.0 /* u between the middles of two */
#define PUFF_CELL 31.0  /* u: a full space holds one puff in a square of this side */
#define DOT 3.3         /* u: radius of a dot of vapor */

enum { PUFFS_MOST = 300, TRIES = 12 };

#define TURN 6.283185307179586

static double part_of(double x)
{
    return x - floor(x);
}

/* ---- forms ------------------------------------------------------------------------------------------------------- */
struct pose {
    double x, y, cosine, sine, size;
};

static struct pose pose_of(double x, double y, double heading, double size)
{
    return (struct pose){x, y, cos(heading), sin(heading), size};
}

static void posed_move(struct frame *frame, const struct pose *pose, double along, double across)
{
    frame_move(frame, pose->x + pose->size * (along * pose->cosine - across * pose->sine),
               pose->y + pose->size * (along * pose->sine + across * pose->cosine));
}

static void posed_line(struct frame *frame, const struct pose *pose, double along, double across)
{
    frame_line(frame, pose->x + pose->size * (along * pose->cosine - across * pose->sine),
               pose->y + pose->size * (along * pose->sine + across * pose->cosine));
}

static void draw_chevron(struct frame *frame, const struct pose *pose, double tail)
{
    frame_path(frame);
    posed_move(frame, pose, -1.0, -5.0);
    posed_line(frame, pose, 5.0, 0.0);
    posed_line(frame, pose, -1.0, 5.0);
    if (tail > 0.0) {
        posed_move(frame, pose, 4.0, 0.0);
        posed_line(frame, pose, 4.0 - tail, 0.0);
    }
    frame_stroke_round(frame, COLOUR_INK, 2.4 * pose->size);
}

static void draw_triangle(struct frame *frame, const struct pose *pose, double tail)
{
    if (tail > 0.0) {
        frame_path(frame);
        posed_move(frame, pose, -3.0, 0.0);
        posed_line(frame, pose, -3.0 - tail, 0.0);
        frame_stroke_round(frame, COLOUR_INK, 2.0 * pose->size);
    }
    frame_path(frame);
    posed_move(frame, pose, -4.5, -5.6);
    posed_line(frame, pose, 6.5, 0.0);
    posed_line(frame, pose, -4.5, 5.6);
    frame_close(frame);
    frame_fill(frame, COLOUR_WHITE);
    frame_stroke_round(frame, COLOUR_INK, 1.8 * pose->size);
}

/* Blunt end leading. */
static void draw_drop(struct frame *frame, const struct pose *pose, double tail)
{
    if (tail > 0.0) {
        frame_path(frame);
        posed_move(frame, pose, -6.0, 0.0);
        posed_line(frame, pose, -6.0 - tail, 0.0);
        frame_stroke_round(frame, COLOUR_FUEL, 2.0 * pose->size);
    }
    frame_path(frame);
    posed_move(frame, pose, -9.0, 0.0);
    posed_line(frame, pose, -1.0, -4.9);
    posed_line(frame, pose, -1.0, 4.9);
    frame_close(frame);
    frame_circle(frame, pose->x + pose->size * pose->cosine, pose->y + pose->size * pose->sine, 5.3 * pose->size);
    frame_fill(frame, COLOUR_FUEL);
}

void mark_puff(struct frame *frame, double x, double y, double size)
{
    static const double lobe[3][3] = {{-3.6, 1.6, 3.5}, {0.2, -2.3, 4.3}, {3.9, 1.7, 3.4}}; /* x, y, radius */
    const double edge[2] = {1.7, 0.0};
    for (int pass = 0; pass < 2; pass++) {
        frame_path(frame);
        for (int k = 0; k < 3; k++)
            frame_circle(frame, x + size * lobe[k][0], y + size * lobe[k][1], size * lobe[k][2] + edge[pass]);
        frame_fill(frame, pass ? COLOUR_WHITE : COLOUR_INK);
    }
}

void mark_draw(struct frame *frame, enum mark mark, double x, double y, double heading, double size, double tail)
{
    const struct pose pose = pose_of(x, y, heading, size);
    if (mark == MARK_AIR)
        draw_chevron(frame, &pose, tail);
    else if (mark == MARK_CLEAN)
        draw_triangle(frame, &pose, tail);
    else if (mark == MARK_VAPOR)
        draw_drop(frame, &pose, tail);
    else {
        if (tail > 0.0) {
            frame_path(frame);
            posed_move(frame, &pose, 8.2, -3.6);
            posed_line(frame, &pose, 12.4, 0.0);
            posed_line(frame, &pose, 8.2, 3.6);
            frame_stroke_round(frame, COLOUR_INK, 2.0 * size);
        }
        mark_puff(frame, x, y, size);
    }
}

/* ---- pipes as they are drawn ------------------------------------------------------------------------------------- */
static double corner_radius(const struct plate_pipe *pipe, int corner)
{
    const struct plate_point a = pipe->point[corner - 1], b = pipe->point[corner], c = pipe->point[corner + 1];
    return fmin(CORNER, 0.5 * fmin(hypot(b.x - a.x, b.y - a.y), hypot(c.x - b.x, c.y - b.y)));
}

struct plate_point pipe_drawn_at(const struct plate_pipe *pipe, double along, double *heading)
{
    double dx, dy, begun = 0.0;
    struct plate_point at = pipe_at(pipe, along, &dx, &dy);
    *heading = atan2(dy, dx);
    for (int k = 1; k + 1 < pipe->points; k++) {
        const struct plate_point a = pipe->point[k - 1], b = pipe->point[k], c = pipe->point[k + 1];
        begun += hypot(b.x - a.x, b.y - a.y);
        const double radius = corner_radius(pipe, k), off = along - begun;
        if (fabs(off) >= radius || radius <= 0.0)
            continue;
        const double t = 0.5 * (off / radius + 1.0); /* a parabola through the corner's two ends hugs the arc */
        const double in = hypot(b.x - a.x, b.y - a.y), out = hypot(c.x - b.x, c.y - b.y);
        const double ax = (b.x - a.x) / in, ay = (b.y - a.y) / in, cx = (c.x - b.x) / out, cy = (c.y - b.y) / out;
        at.x = b.x - radius * ax * (1.0 - t) * (1.0 - t) + radius * cx * t * t;
        at.y = b.y - radius * ay * (1.0 - t) * (1.0 - t) + radius * cy * t * t;
        *heading = atan2(ay * (1.0 - t) + cy * t, ax * (1.0 - t) + cx * t);
    }
    return at;
}

void pipe_path(struct frame *frame, const struct plate_pipe *pipe, double begin, double end)
{
    double heading, begun = 0.0;
    const double handle = 1.0 - 0.5523;
    const struct plate_point first = pipe_drawn_at(pipe, begin, &heading), last = pipe_drawn_at(pipe, end, &heading);
    frame_move(frame, first.x, first.y);
    for (int k = 1; k + 1 < pipe->points; k++) {
        const struct plate_point a = pipe->point[k - 1], b = pipe->point[k], c = pipe->point[k + 1];
        const double in = hypot(b.x - a.x, b.y - a.y), out = hypot(c.x - b.x, c.y - b.y);
        begun += in;
        const double r = corner_radius(pipe, k);
        if (begun - r <= begin || begun + r >= end)
            continue;
        const double ax = (b.x - a.x) / in, ay = (b.y - a.y) / in, cx = (c.x - b.x) / out, cy = (c.y - b.y) / out;
        frame_line(frame, b.x - r * ax, b.y - r * ay);
        frame_curve(frame, b.x - r * handle * ax, b.y - r * handle * ay, b.x + r * handle * cx, b.y + r * handle * cy,
                    b.x + r * cx, b.y + r * cy);
    }
    frame_line(frame, last.x, last.y);
}

/* ---- marks along a pipe ------------------------------------------------------------------------------------------ */
static enum mark mark_by_rank(struct mix mix, double rank)
{
    if (rank < mix.smoke)
        return MARK_SMOKE;
    if (rank < mix.smoke + mix.clean)
        return MARK_CLEAN;
    return rank < mix.smoke + mix.clean + mix.vapor ? MARK_VAPOR : MARK_AIR;
}

static bool has_gas(const struct scene *scene, int part)
{
    return part >= 0 && (isfinite(scene_value(scene, part, SHARE_AIR)) || scene_type(scene, part, "supply"));
}

/* What equipment feeds through a port; `own` while nothing is joined. */
static struct mix port_mix(const struct scene *scene, int port, struct mix own)
{
    for (int p = 0; p < scene->cast->parts; p++)
        if (scene->now->joined[p] == port)
            return scene_mix(scene, p);
    return own;
}

/* What comes through a valve or a hole from its far side. */
static struct mix far_mix(const struct scene *scene, const struct pipe_end *end, int part, struct mix own)
{
    const struct ullage_part about = ullage_model_part(scene->model, part);
    const struct ullage_link *far = part_link(&about, strcmp(end->key, "to") ? "to" : "from");
    if (!far || far->part < 0)
        return (struct mix){.air = 1.0};
    return has_gas(scene, far->part) ? scene_mix(scene, far->part) : own;
}

/* What lies before the end that gas comes in by; between branches that is the line's own. */
static struct mix inflow_mix(const struct scene *scene, const struct plate_section *section, bool forward,
                             struct mix own)
{
    const struct plate_pipe *pipe = &scene->plate->pipe[section->pipe];
    const struct pipe_end *end = &pipe->end[forward ? 0 : 1];
    const bool branch = forward ? section->begin > 0.0 : section->end < pipe->length;
    if (branch || end->dead)
        return own;
    if (end->pipe >= 0)
        return scene_mix(scene, scene->plate->pipe[end->pipe].gas);
    const int part = end->body >= 0 ? scene->plate->body[end->body].part : -1;
    if (part < 0)
        return (struct mix){.air = 1.0};
    if (has_gas(scene, part))
        return scene_mix(scene, part);
    return scene_type(scene, part, "port") ? port_mix(scene, part, own) : far_mix(scene, end, part, own);
}

static struct mix mix_between(struct mix a, struct mix b, double share)
{
    return (struct mix){a.air + share * (b.air - a.air), a.clean + share * (b.clean - a.clean),
                        a.smoke + share * (b.smoke - a.smoke), a.vapor + share * (b.vapor - a.vapor)};
}

void marks_section(struct frame *frame, const struct scene *scene, int index)
{
    const struct plate_section *section = &scene->plate->section[index];
    const struct plate_pipe *pipe = &scene->plate->pipe[section->pipe];
    const double speed = motion_of_section(scene->plate, scene->cast, scene->now->value, index);
    const double phase = scene->motion->section[index];
    const double tail = fabs(speed) < STANDING ? 0.0 : fmin(TAIL_MOST, TAIL_PER_SPEED * fabs(speed));
    const bool forward = speed >= 0.0;
    const struct mix own = scene_mix(scene, has_gas(scene, pipe->part) ? pipe->part : pipe->gas);
    const struct mix in = inflow_mix(scene, section, forward, own);
    const double low = section->begin + (section->begin > 0.0 ? 6.0 : MARK_MARGIN);
    const double high = section->end - (section->end < pipe->length ? 6.0 : MARK_MARGIN);
    const int64_t first = (int64_t)ceil((low - phase) / SPACING), last = (int64_t)floor((high - phase) / SPACING);
    for (int64_t k = first; k <= last; k++) {
        const double along = phase + SPACING * (double)k;
        const double gone = forward ? along / pipe->length : 1.0 - along / pipe->length;
        const struct mix here = tail > 0.0 ? mix_between(in, own, gone) : own;
        double heading;
        const struct plate_point at = pipe_drawn_at(pipe, along, &heading);
        mark_draw(frame, mark_by_rank(here, part_of((double)k * GOLDEN + 0.5)), at.x, at.y,
                  forward ? heading : heading + 0.5 * TURN, LINE_SCALE, tail / LINE_SCALE);
    }
}

/* ---- gas spaces -------------------------------------------------------------------------------------------------- */
static bool space_free(const struct gas_space *space, double x, double y)
{
    const struct frame_box puff = {x - 11.0, y - 10.0, x + 11.0, y + 10.0};
    for (int k = 0; k < space->clear; k++)
        if (box_overlaps(puff, space->keep[k]))
            return false;
    return space->inside(space, x, y);
}

/* How rich the gas is: dots. Of the places on the paper those are taken whose rank lies below the share; each stays where it
 * is when more come, or when the liquid rises. */
static void marks_vapor(struct frame *frame, const struct gas_space *space, double share)
{
    const struct frame_box *box = &space->box;
    const int ranks = (int)ceil(share * SCATTER_PLACES - 0.5);
    frame_path(frame);
    for (double left = box->x0; left < box->x1; left += SCATTER_TILE)
        for (double top = box->y0; top < box->y1; top += SCATTER_TILE)
            for (int k = 0; k < ranks; k++) {
                const struct scatter_place at = scatter_place(k);
                if (space_free(space, left + at.x, top + at.y))
                    frame_circle(frame, left + at.x, top + at.y, DOT);
            }
    if (frame->nodes > frame->begun)
        frame_fill(frame, COLOUR_FUEL);
}

/* The first `count` places of an even sequence that keep PUFF_APART from all before them; each stays when more come. */
static int puff_places(const struct gas_space *space, int count, struct plate_point *place)
{
    const double wide = space->box.x1 - space->box.x0, tall = space->box.y1 - space->box.y0;
    int found = 0;
    for (int k = 1; found < count && k < TRIES * PUFFS_MOST; k++) {
        const double x = space->box.x0 + wide * part_of(0.5 + EVEN_X * k);
        const double y = space->box.y0 + tall * part_of(0.5 + EVEN_Y * k);
        bool apart = true;
        for (int j = 0; j < found && apart; j++)
            apart = hypot(x - place[j].x, y - place[j].y) >= PUFF_APART;
        if (apart)
            place[found++] = (struct plate_point){x, y};
    }
    return found;
}

void marks_space(struct frame *frame, const struct gas_space *space, struct mix mix)
{
    struct plate_point place[PUFFS_MOST];
    const double wide = space->box.x1 - space->box.x0, tall = space->box.y1 - space->box.y0;
    const double full = fmin(fmax(wide * tall, 0.0) / (PUFF_CELL * PUFF_CELL), PUFFS_MOST);
    marks_vapor(frame, space, mix.vapor);
    const int puffs = (int)floor(full * mix.smoke);
    const int all = puff_places(space, (int)floor(full * (mix.smoke + mix.clean)), place);
    for (int k = 0; k < all; k++) {
        if (!space_free(space, place[k].x, place[k].y))
            continue;
        if (k < puffs)
            mark_puff(frame, place[k].x, place[k].y, 1.25);
        else
            mark_draw(frame, MARK_CLEAN, place[k].x, place[k].y, -0.25 * TURN, 1.0, 0.0);
    }
}

/* ---- jets -------------------------------------------------------------------------------------------------------- */
#define JET_FOOT (0.01e-3 / 60.0) /* m3/s */
#define JET_LEAST (0.002e-3 / 60.0)
#define JET_HALF_ANGLE 0.28 /* rad */
#define DRIFTER_ROOM 15.0   /* u of jet to each thing that drifts from it */

enum { WEDGES = 4, DRIFTERS = 7 };

static void wedge(struct frame *frame, const struct pose *pose, double from, double to, double thin, double wide)
{
    posed_move(frame, pose, from, -0.5 * thin);
    posed_line(frame, pose, to, -0.5 * wide);
    posed_line(frame, pose, to, 0.5 * wide);
    posed_line(frame, pose, from, 0.5 * thin);
    frame_close(frame);
}

static void jet_wedges(struct frame *frame, const struct jet *jet, double heading, double length, bool blowing)
{
    frame_path(frame);
    for (int k = 0; k < WEDGES; k++) {
        const double across = (k - 0.5 * (WEDGES - 1)) / (0.5 * (WEDGES - 1)); /* -1..1 */
        const double offset = across * (3.0 + 16.0 * (jet->width - 1.0));
        const double x = jet->x + offset * -sin(heading), y = jet->y + offset * cos(heading);
        const struct pose pose = pose_of(x, y, heading + across * JET_HALF_ANGLE, 1.0);
        const double reach = length * (0.66 - 0.12 * fabs(across));
        wedge(frame, &pose, 7.0, reach, blowing ? 2.2 : 7.0, blowing ? 6.5 : 1.2);
    }
    frame_fill(frame, COLOUR_INK);
}

/* What has left drifts on and grows; what is drawn in comes from outside as chevrons that point at the hole. */
static void jet_drifters(struct frame *frame, const struct jet *jet, double heading, double length, bool blowing)
{
    const int drifters = (int)fmin(DRIFTERS, length / DRIFTER_ROOM);
    for (int k = 0; k < drifters; k++) {
        const double turn = part_of(k * GOLDEN + 0.3);
        const double moved = part_of((k + 0.5) / drifters + jet->phase / (0.7 * length));
        const double gone = moved;
        const double reach = length * (0.62 + 0.58 * gone);
        const double angle = heading + (2.0 * turn - 1.0) * JET_HALF_ANGLE * 1.05;
        const double base = (2.0 * turn - 1.0) * 10.0 * (jet->width - 1.0);
        const double x = jet->x + reach * cos(angle) - base * sin(heading);
        const double y = jet->y + reach * sin(angle) + base * cos(heading);
        const enum mark mark = blowing ? mark_by_rank(jet->mix, part_of((k + 1) * GOLDEN)) : MARK_AIR;
        const double size = blowing ? 0.8 + 0.5 * gone : 1.0;
        if (mark == MARK_SMOKE)
            mark_puff(frame, x, y, size);
        else if (blowing || k % 2 == 0)
            mark_draw(frame, mark, x, y, blowing ? angle : angle + 0.5 * TURN, size, 0.0);
    }
}

void marks_jet(struct frame *frame, const struct jet *jet)
{
    const double flow = fabs(jet->flow);
    if (flow < JET_LEAST)
        return;
    const double heading = atan2(side_y(jet->side), side_x(jet->side));
    const double wanted = 24.0 + 36.0 * log10(1.0 + flow / JET_FOOT);
    const double length = fmin(wanted, fmax(jet->room, 40.0) / 1.25);
    const bool blowing = jet->flow > 0.0;
    jet_drifters(frame, jet, heading, length, blowing);
    jet_wedges(frame, jet, heading, length, blowing);
}
