/* wall.c  Who meets which wall where. Requests of pipes, holes, caps and instruments for a place on a wall are gathered,
 * sorted along the wall and spread until WALL_STEP lies between them. */
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define WALL_STEP 56.0
#define WALL_MARGIN 46.0 /* from the corners */
#define JET_WIDTH 46.0
#define JET_MOST 170.0

enum { JET_STEPS = 22 };

#define FIRST_SIDE 40.0 /* u of jet by which the second side must be better */
#define DEAD_END 26.0   /* a closed line goes on this far past the hole near its end */
#define CROWD 110.0     /* holes closer than this share one name: their line's */

struct request {
    int host;
    enum side side;
    double want, got;
    int pipe, end; /* or */
    int body;      /* a wall thing, else -1 */
};

/* thing: a wall thing, which may sit on a side of a host whose pipes all leave by the roof. */
static enum side side_towards(const struct plate_body *host, double x, double y, bool thing)
{
    const bool beside = thing && y > host->box.y0 && y < host->box.y1 && (x < host->box.x0 || x > host->box.x1);
    if (host->drawn->roof_only && !beside)
        return SIDE_UP;
    const double wide = 0.5 * (host->box.x1 - host->box.x0), tall = 0.5 * (host->box.y1 - host->box.y0);
    const double dx = (x - 0.5 * (host->box.x0 + host->box.x1)) / wide;
    const double dy = (y - 0.5 * (host->box.y0 + host->box.y1)) / tall;
    if (fabs(dx) >= fabs(dy))
        return dx < 0.0 ? SIDE_LEFT : SIDE_RIGHT;
    return dy < 0.0 ? SIDE_UP : SIDE_DOWN;
}

static bool lies_along_x(enum side side)
{
    return side == SIDE_UP || side == SIDE_DOWN;
}

static struct request request_for(const struct plate *plate, int host, struct plate_point towards, bool thing)
{
    struct request request = {.host = host, .pipe = -1, .body = -1};
    request.side = side_towards(&plate->body[host], towards.x, towards.y, thing);
    request.want = lies_along_x(request.side) ? towards.x : towards.y;
    return request;
}

static void turn_port(const struct plate_body *body, struct plate_port *port)
{
    double x = body->mirror ? -port->x : port->x, y = port->y;
    int side = (int)port->side;
    if (body->mirror && (side == SIDE_LEFT || side == SIDE_RIGHT))
        side = side == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    for (int quarter = body->turn / 90; quarter > 0; quarter--) {
        const double was = x;
        x = -y;
        y = was;
        side = (side + 1) % 4;
    }
    *port = (struct plate_port){body->x + x, body->y + y, (enum side)side};
}

/* Where an unplaced wall thing would like to be: by the pipe at the opening it names, else a little right of the middle. */
struct plate_point wall_wish(const struct plate *plate, const struct plate_body *thing)
{
    const struct plate_body *host = &plate->body[thing->host_body];
    if (thing->placed)
        return (struct plate_point){thing->x, thing->y};
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++)
            if (plate->pipe[k].end[e].body == thing->host_body && *thing->opening &&
                !strcmp(plate->pipe[k].end[e].opening, thing->opening)) {
                const struct plate_point to = pipe_partner(plate, k, e);
                const double edge = fmin(fmax(to.x, host->box.x0 + WALL_MARGIN), host->box.x1 - WALL_MARGIN);
                return (struct plate_point){edge, host->box.y0 - 1e4};
            }
    const bool instrument = thing->drawn == &gauge_drawn || thing->drawn == &cap_drawn;
    const double share = thing->drawn == &gauge_drawn ? -0.15 : 0.22;
    const double wide = host->box.x1 - host->box.x0;
    if (instrument || host->drawn->roof_only)
        return (struct plate_point){host->x + share * wide, host->box.y0 - 1e4};
    return (struct plate_point){host->box.x1 + 1e4, host->y};
}

static struct plate_point pipe_wish(const struct plate *plate, int pipe, int end)
{
    const struct plate_pipe *at = &plate->pipe[pipe];
    return at->placed ? (struct plate_point){at->x, at->y} : pipe_partner(plate, pipe, end);
}

static int requests_gather(struct plate *plate, struct request *request)
{
    int count = 0;
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            struct pipe_end *end = &plate->pipe[k].end[e];
            if (end->body < 0 || end->dead)
                continue;
            const struct plate_body *body = &plate->body[end->body];
            if (body->drawn->port && body->drawn->port(body, end->key, end->opening, &end->port)) {
                turn_port(body, &end->port);
                continue;
            }
            request[count] = request_for(plate, end->body, pipe_wish(plate, k, e), false);
            request[count].pipe = k;
            request[count++].end = e;
        }
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *thing = &plate->body[k];
        if (thing->host_body < 0 || thing->drawn == &nozzle_drawn || (thing->drawn == &hole_drawn && !thing->placed))
            continue; /* holes without a place come last: loose.c */
        request[count] = request_for(plate, thing->host_body, wall_wish(plate, thing), true);
        request[count++].body = k;
    }
    return count;
}

static int request_before(const void *a, const void *b)
{
    const struct request *p = a, *q = b;
    if (p->host != q->host)
        return p->host - q->host;
    if (p->side != q->side)
        return (int)p->side - (int)q->side;
    if (p->want < q->want || q->want < p->want)
        return p->want < q->want ? -1 : 1;
    return p->body != q->body ? p->body - q->body : p->pipe - q->pipe;
}

/* Spreads requests first..last of one wall between its corners. */
static void wall_spread(const struct plate *plate, struct request *request, int first, int last)
{
    const struct frame_box *box = &plate->body[request[first].host].box;
    const bool across = lies_along_x(request[first].side);
    const double low = across ? box->x0 : box->y0, high = across ? box->x1 : box->y1;
    const double margin = fmin(WALL_MARGIN, 0.3 * (high - low));
    const double room = high - low - 2.0 * margin;
    const double step = last > first ? fmin(WALL_STEP, room / (last - first)) : 0.0;
    for (int k = first; k <= last; k++) {
        request[k].got = fmin(fmax(request[k].want, low + margin), high - margin);
        if (k > first)
            request[k].got = fmax(request[k].got, request[k - 1].got + step);
    }
    double limit = high - margin;
    for (int k = last; k >= first; k--, limit -= step)
        request[k].got = fmin(request[k].got, limit);
}

struct plate_port wall_point(const struct frame_box *box, enum side side, double along)
{
    switch (side) {
    case SIDE_UP:
        return (struct plate_port){along, box->y0, side};
    case SIDE_DOWN:
        return (struct plate_port){along, box->y1, side};
    case SIDE_LEFT:
        return (struct plate_port){box->x0, along, side};
    default:
        return (struct plate_port){box->x1, along, side};
    }
}

void wall_thing_set(struct plate_body *thing, struct plate_port port)
{
    thing->x = port.x;
    thing->y = port.y;
    thing->side = port.side;
    thing->turn = 90 * (int)port.side;
    thing->mirror = false;
    thing->placed = true;
    body_settle(thing);
}

static void dead_ends(struct plate *plate)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            struct pipe_end *end = &plate->pipe[k].end[e];
            if (!end->dead)
                continue;
            const struct plate_body *hole = &plate->body[end->body];
            const struct plate_point from = pipe_partner(plate, k, e);
            const bool rightward = from.x <= hole->x;
            end->port = (struct plate_port){hole->x + (rightward ? DEAD_END : -DEAD_END), hole->y,
                                            rightward ? SIDE_LEFT : SIDE_RIGHT};
        }
}

bool plate_walls(struct plate *plate)
{
    struct request *request = calloc(2 * (size_t)plate->pipes + (size_t)plate->bodies + 1, sizeof *request);
    if (!request)
        return false;
    const int count = requests_gather(plate, request);
    qsort(request, (size_t)count, sizeof *request, request_before);
    for (int first = 0; first < count;) {
        int last = first;
        while (last + 1 < count && request[last + 1].host == request[first].host &&
               request[last + 1].side == request[first].side)
            last++;
        wall_spread(plate, request, first, last);
        first = last + 1;
    }
    for (int k = 0; k < count; k++) {
        const struct plate_port port = wall_point(&plate->body[request[k].host].box, request[k].side, request[k].got);
        if (request[k].body >= 0)
            wall_thing_set(&plate->body[request[k].body], port);
        else
            plate->pipe[request[k].pipe].end[request[k].end].port = port;
    }
    dead_ends(plate);
    free(request);
    return true;
}

/* ---- wall things on pipes ---------------------------------------------------------------------------------------- */
static bool pipe_meets(const struct plate_pipe *pipe, struct frame_box tip)
{
    for (int p = 1; p < pipe->points; p++) {
        const struct plate_point a = pipe->point[p - 1], b = pipe->point[p];
        const struct frame_box run = {fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
        if (box_overlaps(tip, box_grown(run, 0.5 * pipe->width)))
            return true;
    }
    return false;
}

static bool tip_meets(const struct plate *plate, int self, struct frame_box tip)
{
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *body = &plate->body[k];
        const bool there = !body->drawn->wall || body->placed;
        if (there && k != self && k != plate->body[self].host_body && box_overlaps(tip, body->box))
            return true;
        if (body->label.placed && box_overlaps(tip, body->label.box))
            return true;
    }
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        const bool own = k == plate->body[self].host_pipe || pipe->end[0].body == self || pipe->end[1].body == self;
        if ((pipe->label.placed && box_overlaps(tip, pipe->label.box)) || (!own && pipe_meets(pipe, tip)))
            return true;
    }
    return false;
}

/* How far a jet can go before it meets anything drawn or the plate's edge. */
double jet_room(const struct plate *plate, int self, struct plate_port port)
{
    for (int step = 0; step < JET_STEPS; step++) {
        const double far = JET_MOST * (step + 6) / (JET_STEPS + 6);
        const double x = port.x + far * side_x(port.side), y = port.y + far * side_y(port.side);
        const double half = 0.5 * JET_WIDTH, across = side_x(port.side) != 0.0 ? 2.0 : half;
        const struct frame_box tip = {x - across, y - (across < half ? half : 2.0), x + across,
                                      y + (across < half ? half : 2.0)};
        if (x < 0.0 || x > PLATE_WIDTH || y < 0.0 || y > PLATE_HEIGHT || tip_meets(plate, self, tip))
            return far;
    }
    return JET_MOST;
}

struct plate_port line_point(const struct plate_pipe *pipe, double along, bool other_side)
{
    double dx, dy;
    const struct plate_point on = pipe_at(pipe, along, &dx, &dy);
    const bool level = fabs(dx) > fabs(dy);
    const enum side side = level ? (other_side ? SIDE_DOWN : SIDE_UP) : (other_side ? SIDE_LEFT : SIDE_RIGHT);
    const double out = 0.5 * pipe->width + 3.0;
    return (struct plate_port){on.x + out * side_x(side), on.y + out * side_y(side), side};
}

/* A thing whose place on its line the file gives: to the side where its jet has more room, up and right first. */
static void line_wall_set(struct plate *plate, int index)
{
    struct plate_body *thing = &plate->body[index];
    const struct plate_pipe *pipe = &plate->pipe[thing->host_pipe];
    const double along = thing->placed ? pipe_nearest(pipe, thing->x, thing->y) : 0.5 * pipe->length;
    const struct plate_port first = line_point(pipe, along, false), second = line_point(pipe, along, true);
    const bool better = jet_room(plate, index, second) > jet_room(plate, index, first) + FIRST_SIDE;
    wall_thing_set(thing, better ? second : first);
}

void plate_crowds(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++)
        for (int j = 0; j < plate->bodies; j++) {
            struct plate_body *a = &plate->body[k];
            const struct plate_body *b = &plate->body[j];
            if (k != j && a->placed && b->placed && a->drawn == &hole_drawn && b->drawn == &hole_drawn &&
                a->host_pipe >= 0 && a->host_pipe == b->host_pipe && hypot(a->x - b->x, a->y - b->y) < CROWD)
                a->crowded = true;
        }
}

void plate_line_walls(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].host_pipe >= 0 && plate->body[k].drawn->wall && plate->body[k].drawn != &nozzle_drawn &&
            !plate->body[k].loose)
            line_wall_set(plate, k);
}

void plate_jets(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++) {
        struct plate_body *thing = &plate->body[k];
        if (thing->drawn->wall || thing->drawn == &cap_drawn)
            thing->room = jet_room(plate, k, (struct plate_port){thing->x, thing->y, thing->side});
    }
}
