/* route.c  Pipes on the plate: orthogonal, the cheapest way on a lattice (Dijkstra), long ones first, branches last.
 *
 * Cost: length / LATTICE, BEND a corner, NEAR a step beside another pipe, CROSS a step over one. Boxes of bodies and of
 * names are closed. The lattice takes in the coordinates of the pipe's own ends, so that it runs straight into ports. */
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LATTICE 12.0
#define STUB 26.0  /* u straight out of a port */
#define CLEAR 20.0 /* u between a pipe's centre and what it goes around */
#define BEND 8.0
#define NEAR 4.0
#define CROSS 13.0      /* a step; a pipe is about three steps wide */
#define ALONG 60.0      /* a step inside another pipe, along it */
#define BRANCH_END 20.0 /* u from the ends of a pipe that stay free of branches */

enum { MOST_X = 120, MOST_Y = 60, DIRECTIONS = 4 };

struct lattice {
    int columns, rows;
    double x[MOST_X], y[MOST_Y];
    bool closed[MOST_X * MOST_Y];
    unsigned char level[MOST_X * MOST_Y], upright[MOST_X * MOST_Y]; /* another pipe: 1 near, 2 right there */
    float cost[MOST_X * MOST_Y * DIRECTIONS];
    int before[MOST_X * MOST_Y * DIRECTIONS];
    int heap[MOST_X * MOST_Y * DIRECTIONS * 2], heaped;
    float heap_cost[MOST_X * MOST_Y * DIRECTIONS * 2];
};

/* ---- geometry of a pipe ------------------------------------------------------------------------------------------ */
void pipe_measure(struct plate_pipe *pipe)
{
    pipe->length = 0.0;
    for (int k = 1; k < pipe->points; k++)
        pipe->length += hypot(pipe->point[k].x - pipe->point[k - 1].x, pipe->point[k].y - pipe->point[k - 1].y);
}

struct plate_point pipe_at(const struct plate_pipe *pipe, double along, double *dx, double *dy)
{
    double left = fmin(fmax(along, 0.0), pipe->length);
    *dx = 1.0;
    *dy = 0.0;
    for (int k = 1; k < pipe->points; k++) {
        const struct plate_point a = pipe->point[k - 1], b = pipe->point[k];
        const double piece = hypot(b.x - a.x, b.y - a.y);
        if (piece <= 0.0)
            continue;
        *dx = (b.x - a.x) / piece;
        *dy = (b.y - a.y) / piece;
        if (left <= piece)
            return (struct plate_point){a.x + left * *dx, a.y + left * *dy};
        left -= piece;
    }
    return pipe->points ? pipe->point[pipe->points - 1] : (struct plate_point){0.0, 0.0};
}

double pipe_nearest(const struct plate_pipe *pipe, double x, double y)
{
    double best = (double)INFINITY, at = 0.0, begun = 0.0;
    for (int k = 1; k < pipe->points; k++) {
        const struct plate_point a = pipe->point[k - 1], b = pipe->point[k];
        const double piece = hypot(b.x - a.x, b.y - a.y);
        const double share = piece > 0.0 ? ((x - a.x) * (b.x - a.x) + (y - a.y) * (b.y - a.y)) / (piece * piece) : 0.0;
        const double t = fmin(fmax(share, 0.0), 1.0);
        const double distance = hypot(a.x + t * (b.x - a.x) - x, a.y + t * (b.y - a.y) - y);
        if (distance < best) {
            best = distance;
            at = begun + t * piece;
        }
        begun += piece;
    }
    return at;
}

/* ---- the lattice ------------------------------------------------------------------------------------------------- */
static int axis_make(double *axis, int most, double length, const double *own, int owns)
{
    int count = 0;
    for (int step = 0; step * LATTICE <= length && count < most - owns; step++) {
        const double at = step * LATTICE;
        bool close = false;
        for (int k = 0; k < owns; k++)
            close = close || fabs(own[k] - at) < 0.5 * LATTICE;
        if (!close)
            axis[count++] = at;
    }
    for (int k = 0; k < owns; k++) {
        bool twice = false;
        for (int j = 0; j < k; j++)
            twice = twice || fabs(own[j] - own[k]) < 1e-6;
        if (twice)
            continue;
        int at = count++;
        for (; at > 0 && axis[at - 1] > own[k]; at--)
            axis[at] = axis[at - 1];
        axis[at] = own[k];
    }
    return count;
}

static int axis_find(const double *axis, int count, double value)
{
    int best = 0;
    for (int k = 1; k < count; k++)
        if (fabs(axis[k] - value) < fabs(axis[best] - value))
            best = k;
    return best;
}

static int node_of(const struct lattice *lattice, int column, int row)
{
    return row * lattice->columns + column;
}

static void box_mark(struct lattice *lattice, struct frame_box box, bool closed)
{
    for (int row = 0; row < lattice->rows; row++)
        for (int column = 0; column < lattice->columns; column++) {
            const double x = lattice->x[column], y = lattice->y[row];
            if (x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1)
                lattice->closed[node_of(lattice, column, row)] = closed;
        }
}

static void pipe_mark(struct lattice *lattice, const struct plate_pipe *pipe)
{
    for (int k = 1; k < pipe->points; k++) {
        const struct plate_point a = pipe->point[k - 1], b = pipe->point[k];
        const bool level = fabs(a.y - b.y) < 0.5;
        const struct frame_box run = {fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
        for (int row = 0; row < lattice->rows; row++)
            for (int column = 0; column < lattice->columns; column++) {
                const double x = lattice->x[column], y = lattice->y[row];
                const double off =
                    hypot(fmax(fmax(run.x0 - x, x - run.x1), 0.0), fmax(fmax(run.y0 - y, y - run.y1), 0.0));
                const unsigned char mark = off < 0.5 * pipe->width + 6.0 ? 2 : off < 46.0 ? 1 : 0;
                unsigned char *at = level ? &lattice->level[node_of(lattice, column, row)]
                                          : &lattice->upright[node_of(lattice, column, row)];
                *at = mark > *at ? mark : *at;
            }
    }
}

static void lattice_make(struct lattice *lattice, const struct plate *plate, int self, const struct plate_port port[2])
{
    const double own_x[4] = {port[0].x, port[1].x, port[0].x + STUB * side_x(port[0].side),
                             port[1].x + STUB * side_x(port[1].side)};
    const double own_y[4] = {port[0].y, port[1].y, port[0].y + STUB * side_y(port[0].side),
                             port[1].y + STUB * side_y(port[1].side)};
    memset(lattice, 0, sizeof *lattice);
    lattice->columns = axis_make(lattice->x, MOST_X, PLATE_WIDTH, own_x, 4);
    lattice->rows = axis_make(lattice->y, MOST_Y, PLATE_HEIGHT, own_y, 4);
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *body = &plate->body[k];
        const bool floating = body->drawn && body->host_pipe >= 0; /* it goes where its pipe goes */
        if (!floating)
            box_mark(lattice, box_grown(body->box, CLEAR), true);
        if (body->label.placed)
            box_mark(lattice, box_grown(body->label.box, CLEAR), true);
        if (floating && body->placed && body->host_pipe != self) /* it may blow, and its size stands below */
            box_mark(lattice, (struct frame_box){body->x - 46.0, body->y - 110.0, body->x + 46.0, body->y + 70.0},
                     true);
    }
    for (int k = 0; k < plate->pipes; k++)
        if (k != self && plate->pipe[k].points)
            pipe_mark(lattice, &plate->pipe[k]);
    for (int k = 0; k < plate->pipes; k++)
        if (plate->pipe[k].label.placed)
            box_mark(lattice, box_grown(plate->pipe[k].label.box, CLEAR), true);
    for (int e = 0; e < 2; e++) {
        const double far_x = port[e].x + STUB * side_x(port[e].side), far_y = port[e].y + STUB * side_y(port[e].side);
        box_mark(lattice,
                 (struct frame_box){fmin(port[e].x, far_x) - 1.0, fmin(port[e].y, far_y) - 1.0,
                                    fmax(port[e].x, far_x) + 1.0, fmax(port[e].y, far_y) + 1.0},
                 false);
    }
}

/* ---- a heap of states: node * DIRECTIONS + heading ---------------------------------------------------------------- */
static void heap_add(struct lattice *lattice, int state, float cost)
{
    if (lattice->heaped >= (int)(sizeof lattice->heap / sizeof lattice->heap[0]))
        return; /* full: the way found may be longer, never wrong */
    int at = lattice->heaped++;
    for (; at > 0 && lattice->heap_cost[(at - 1) / 2] > cost; at = (at - 1) / 2) {
        lattice->heap[at] = lattice->heap[(at - 1) / 2];
        lattice->heap_cost[at] = lattice->heap_cost[(at - 1) / 2];
    }
    lattice->heap[at] = state;
    lattice->heap_cost[at] = cost;
}

static int heap_take(struct lattice *lattice, float *cost)
{
    const int best = lattice->heap[0];
    *cost = lattice->heap_cost[0];
    const int last = lattice->heap[--lattice->heaped];
    const float last_cost = lattice->heap_cost[lattice->heaped];
    int at = 0;
    for (int child = 1; child < lattice->heaped; child = 2 * at + 1) {
        if (child + 1 < lattice->heaped && lattice->heap_cost[child + 1] < lattice->heap_cost[child])
            child++;
        if (last_cost <= lattice->heap_cost[child])
            break;
        lattice->heap[at] = lattice->heap[child];
        lattice->heap_cost[at] = lattice->heap_cost[child];
        at = child;
    }
    lattice->heap[at] = last;
    lattice->heap_cost[at] = last_cost;
    return best;
}

/* ---- the search -------------------------------------------------------------------------------------------------- */
/* What one step onto `node` costs beyond its length. */
static double step_toll(const struct lattice *lattice, int node, bool level, bool bends)
{
    const unsigned char along = level ? lattice->level[node] : lattice->upright[node];
    const unsigned char across = level ? lattice->upright[node] : lattice->level[node];
    double toll = bends ? BEND : 0.0;
    toll += along == 2 ? ALONG : along == 1 ? NEAR : 0.0;
    toll += across == 2 ? (bends ? ALONG : CROSS) : 0.0;
    return toll;
}

static void step_try(struct lattice *lattice, int state, float cost, int heading)
{
    const int node = state / DIRECTIONS, was = state % DIRECTIONS;
    const int column = node % lattice->columns + (int)side_x((enum side)heading);
    const int row = node / lattice->columns + (int)side_y((enum side)heading);
    if ((heading + 2) % DIRECTIONS == was || column < 0 || row < 0 || column >= lattice->columns ||
        row >= lattice->rows)
        return;
    const int next = node_of(lattice, column, row);
    if (lattice->closed[next])
        return;
    const double length = fabs(lattice->x[column] - lattice->x[node % lattice->columns]) +
                          fabs(lattice->y[row] - lattice->y[node / lattice->columns]);
    const bool level = heading == SIDE_LEFT || heading == SIDE_RIGHT;
    const float total = cost + (float)(length / LATTICE + step_toll(lattice, next, level, heading != was));
    const int arrived = next * DIRECTIONS + heading;
    if (total < lattice->cost[arrived]) {
        lattice->cost[arrived] = total;
        lattice->before[arrived] = state;
        heap_add(lattice, arrived, total);
    }
}

static int search(struct lattice *lattice, int start, int goal)
{
    for (int k = 0; k < lattice->columns * lattice->rows * DIRECTIONS; k++) {
        lattice->cost[k] = INFINITY;
        lattice->before[k] = -1;
    }
    lattice->cost[start] = 0.0f;
    heap_add(lattice, start, 0.0f);
    while (lattice->heaped) {
        float cost;
        const int state = heap_take(lattice, &cost);
        if (state == goal)
            return state;
        if (cost > lattice->cost[state])
            continue;
        for (int heading = 0; heading < DIRECTIONS; heading++)
            step_try(lattice, state, cost, heading);
    }
    return -1;
}

/* ---- one pipe ---------------------------------------------------------------------------------------------------- */
static void point_add(struct plate_pipe *pipe, double x, double y)
{
    if (pipe->points >= 2) { /* straight on: the corner between is none */
        const struct plate_point a = pipe->point[pipe->points - 2], b = pipe->point[pipe->points - 1];
        if (fabs((b.x - a.x) * (y - b.y) - (b.y - a.y) * (x - b.x)) < 1e-6)
            pipe->points--;
    }
    if (pipe->points < PIPE_POINTS)
        pipe->point[pipe->points++] = (struct plate_point){x, y};
}

static void path_take(struct plate_pipe *pipe, const struct lattice *lattice, int state,
                      const struct plate_port port[2])
{
    struct plate_point back[512];
    int count = 0;
    for (int at = state; at >= 0 && count < 512; at = lattice->before[at]) {
        const int node = at / DIRECTIONS;
        back[count++] = (struct plate_point){lattice->x[node % lattice->columns], lattice->y[node / lattice->columns]};
    }
    pipe->points = 0;
    point_add(pipe, port[0].x, port[0].y);
    while (count--)
        point_add(pipe, back[count].x, back[count].y);
    point_add(pipe, port[1].x, port[1].y);
}

/* Ports that look straight at each other need no search. */
static bool straight(const struct plate *plate, int self, const struct plate_port port[2])
{
    const double dx = port[1].x - port[0].x, dy = port[1].y - port[0].y;
    const double ahead = dx * side_x(port[0].side) + dy * side_y(port[0].side);
    const bool facing = ((int)port[0].side + 2) % 4 == (int)port[1].side;
    if (!facing || ahead <= 0.0 || fabs(hypot(dx, dy) - ahead) > 0.5)
        return false;
    const struct frame_box run = {fmin(port[0].x, port[1].x) + 1.0, fmin(port[0].y, port[1].y) + 1.0,
                                  fmax(port[0].x, port[1].x) - 1.0, fmax(port[0].y, port[1].y) - 1.0};
    const struct frame_box wide = {fmin(run.x0, run.x1) - 2.0, fmin(run.y0, run.y1) - 2.0, fmax(run.x0, run.x1) + 2.0,
                                   fmax(run.y0, run.y1) + 2.0};
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *body = &plate->body[k];
        const bool own = plate->pipe[self].end[0].body == k || plate->pipe[self].end[1].body == k;
        if (!own && body->host_pipe < 0 && box_overlaps(wide, body->box))
            return false;
    }
    return true;
}

/* Ports that look straight at each other but for a little: the one that has no fixed place on its wall gives way. */
static void straighten(const struct plate *plate, int self, struct plate_port port[2])
{
    for (int e = 0; e < 2; e++) {
        const int body = plate->pipe[self].end[e].body;
        if (body < 0 || plate->body[body].drawn->port)
            continue;
        if (port[e].side == SIDE_LEFT || port[e].side == SIDE_RIGHT)
            port[e].y = port[1 - e].y;
        else
            port[e].x = port[1 - e].x;
        return;
    }
}

/* A branch leaves its host square to it, nearest to where it is going. */
static struct plate_port branch_port(const struct plate *plate, const struct plate_pipe *host, double x, double y)
{
    (void)plate;
    const double low = fmin(BRANCH_END, 0.5 * host->length);
    const double along = fmin(fmax(pipe_nearest(host, x, y), low), host->length - low);
    double dx, dy;
    const struct plate_point at = pipe_at(host, along, &dx, &dy);
    const bool level = fabs(dx) > fabs(dy);
    const enum side side = level ? (y < at.y ? SIDE_UP : SIDE_DOWN) : (x < at.x ? SIDE_LEFT : SIDE_RIGHT);
    return (struct plate_port){at.x, at.y, side};
}

static struct plate_port end_port(const struct plate *plate, int self, int end)
{
    const struct pipe_end *at = &plate->pipe[self].end[end], *other = &plate->pipe[self].end[1 - end];
    if (at->pipe < 0)
        return at->port;
    const struct plate_point to =
        other->body >= 0 ? (struct plate_point){other->port.x, other->port.y} : pipe_partner(plate, self, end);
    return branch_port(plate, &plate->pipe[at->pipe], to.x, to.y);
}

static int state_at(const struct lattice *lattice, struct plate_port port, bool arriving)
{
    const int column = axis_find(lattice->x, lattice->columns, port.x + STUB * side_x(port.side));
    const int row = axis_find(lattice->y, lattice->rows, port.y + STUB * side_y(port.side));
    const int heading = arriving ? ((int)port.side + 2) % DIRECTIONS : (int)port.side;
    return node_of(lattice, column, row) * DIRECTIONS + heading;
}

static bool pipe_route(struct plate *plate, struct lattice *lattice, int self)
{
    struct plate_pipe *pipe = &plate->pipe[self];
    struct plate_port port[2] = {end_port(plate, self, 0), end_port(plate, self, 1)};
    pipe->points = 0;
    bool found = true;
    if (straight(plate, self, port)) {
        straighten(plate, self, port);
        point_add(pipe, port[0].x, port[0].y);
        point_add(pipe, port[1].x, port[1].y);
    } else {
        lattice_make(lattice, plate, self, port);
        const int reached = search(lattice, state_at(lattice, port[0], false), state_at(lattice, port[1], true));
        found = reached >= 0;
        if (found) {
            path_take(pipe, lattice, reached, port);
        } else { /* across everything, so that it is seen and mended */
            point_add(pipe, port[0].x, port[0].y);
            point_add(pipe, port[1].x, port[0].y);
            point_add(pipe, port[1].x, port[1].y);
        }
    }
    for (int e = 0; e < 2; e++)
        pipe->end[e].port = port[e];
    pipe_measure(pipe);
    return found;
}

static double reach_of(const struct plate_pipe *pipe)
{
    return fabs(pipe->end[0].port.x - pipe->end[1].port.x) + fabs(pipe->end[0].port.y - pipe->end[1].port.y);
}

static bool host_routed(const struct plate *plate, const struct plate_pipe *pipe)
{
    for (int e = 0; e < 2; e++)
        if (pipe->end[e].pipe >= 0 && !plate->pipe[pipe->end[e].pipe].points)
            return false;
    return true;
}

/* The longest pipe that can be routed now; -1: none. */
static int next_pipe(const struct plate *plate)
{
    int best = -1;
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        if (!pipe->points && host_routed(plate, pipe) && (best < 0 || reach_of(pipe) > reach_of(&plate->pipe[best])))
            best = k;
    }
    return best;
}

static bool is_host(const struct plate *plate, int pipe)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++)
            if (plate->pipe[k].end[e].pipe == pipe)
                return true;
    return false;
}

bool plate_routes(struct plate *plate)
{
    struct lattice *lattice = malloc(sizeof *lattice);
    if (!lattice)
        return false;
    for (int k = next_pipe(plate); k >= 0; k = next_pipe(plate))
        pipe_route(plate, lattice, k);
    plate->unrouted = 0;
    for (int k = 0; k < plate->pipes; k++) /* once more, now that each knows the others */
        if (!is_host(plate, k))
            plate->unrouted += !pipe_route(plate, lattice, k);
    free(lattice);
    return true;
}
