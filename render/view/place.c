/* place.c  Where bodies stand: on the file's own grid where it gives places, else in columns by distance.
 *
 * File's grid: the box around all given places is fitted into the plate with equal cells, at most CELL_WIDTH x CELL_HEIGHT.
 * Without it: columns by graph distance from the largest gas space, equipment under its port. Then bodies are pushed apart
 * until GAP lies between them. */
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CELL_WIDTH 110.0
#define CELL_HEIGHT 80.0
#define CELL_STEP 0.02 /* by which cells are made smaller until all fits */

enum { CELL_STEPS = 36 };

#define GAP 24.0
#define COLUMN_GAP_LEAST 60.0
#define COLUMN_GAP 150.0 /* between columns: a length of line to see flow on, and a label beside it */
#define ROW_GAP 110.0
#define HOSE_FALL 54.0 /* from a port down to the top of the equipment under it */

void body_settle(struct plate_body *body)
{
    struct frame_box e = body->extent;
    if (body->mirror)
        e = (struct frame_box){-e.x1, e.y0, -e.x0, e.y1};
    for (int quarter = body->turn / 90; quarter > 0; quarter--)
        e = (struct frame_box){-e.y1, e.x0, -e.y0, e.x1};
    body->box = (struct frame_box){body->x + e.x0, body->y + e.y0, body->x + e.x1, body->y + e.y1};
}

/* A hole that closes a line's end gives that end its place, so it needs one of its own. */
static bool ends_a_line(const struct plate *plate, int body)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++)
            if (plate->pipe[k].end[e].dead && plate->pipe[k].end[e].body == body)
                return true;
    return false;
}

static bool stands_free(const struct plate *plate, int body)
{
    const struct plate_body *at = &plate->body[body];
    return !at->drawn->wall || (at->host_body < 0 && at->host_pipe < 0) || ends_a_line(plate, body);
}

/* Its place follows from a neighbour's when the file gives none. */
static bool follows(const struct plate *plate, const struct plate_body *body)
{
    bool hose = false; /* a supply that feeds a line of its own stands where it likes */
    for (int k = 0; k < plate->pipes; k++)
        hose = hose || (plate->pipe[k].hose && plate->pipe[k].equipment == body->part);
    return body->drawn == &outside_drawn || (body->drawn == &supply_drawn && hose) || body->drawn == &port_drawn;
}

static bool grid_given(const struct plate *plate)
{
    int given = 0;
    for (int k = 0; k < plate->bodies; k++) {
        const bool free = stands_free(plate, k) && !follows(plate, &plate->body[k]);
        if (free && !plate->body[k].placed)
            return false;
        given += plate->body[k].placed;
    }
    return given > 0;
}

/* ---- neighbours: bodies that a pipe joins, directly or over the pipe it branches from ---- */
static int pipe_end_body(const struct plate *plate, int pipe, int end)
{
    const struct pipe_end *at = &plate->pipe[pipe].end[end];
    if (at->body >= 0)
        return at->body;
    if (at->pipe < 0)
        return -1;
    const struct pipe_end *host = plate->pipe[at->pipe].end;
    return host[0].body >= 0 ? host[0].body : host[1].body;
}

static int neighbour(const struct plate *plate, int pipe, int body)
{
    for (int e = 0; e < 2; e++)
        if (pipe_end_body(plate, pipe, e) == body)
            return pipe_end_body(plate, pipe, 1 - e);
    return -1;
}

struct plate_point pipe_partner(const struct plate *plate, int pipe, int end)
{
    const struct pipe_end *other = &plate->pipe[pipe].end[1 - end];
    if (other->body >= 0)
        return (struct plate_point){plate->body[other->body].x, plate->body[other->body].y};
    struct plate_point sum = {0.0, 0.0};
    int ends = 0;
    for (int e = 0; e < 2 && other->pipe >= 0; e++) {
        const int body = plate->pipe[other->pipe].end[e].body;
        if (body < 0)
            continue;
        sum.x += plate->body[body].x;
        sum.y += plate->body[body].y;
        ends++;
    }
    return (struct plate_point){sum.x / fmax(ends, 1), sum.y / fmax(ends, 1)};
}

/* ---- followers: outside ends, ports, equipment ------------------------------------------------------------------- */
static void follower_place(struct plate *plate, int body)
{
    struct plate_body *at = &plate->body[body];
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        const int end = pipe->end[0].body == body ? 0 : pipe->end[1].body == body ? 1 : -1;
        if (end < 0 || (pipe->hose && at->drawn == &port_drawn))
            continue;
        const struct plate_point from = pipe_partner(plate, k, end);
        const bool below = at->drawn != &outside_drawn;
        const int partner = pipe->end[1 - end].body;
        const double half = partner >= 0 ? plate->body[partner].extent.x1 : 0.0;
        at->x = from.x + (below ? 0.0 : half + COLUMN_GAP + 60.0);
        at->y = from.y + (below ? HOSE_FALL - at->extent.y0 : 0.0);
        at->placed = true;
        return;
    }
}

static void followers_place(struct plate *plate)
{
    const struct drawn *const round[] = {&outside_drawn, &port_drawn, &supply_drawn}; /* a supply goes by its port */
    for (int r = 0; r < 3; r++)
        for (int k = 0; k < plate->bodies; k++)
            if (!plate->body[k].placed && plate->body[k].drawn == round[r])
                follower_place(plate, k);
}

/* ---- the file's grid --------------------------------------------------------------------------------------------- */
static struct frame_box bodies_box(const struct plate *plate)
{
    const double far = (double)INFINITY;
    struct frame_box all = {far, far, -far, -far};
    for (int k = 0; k < plate->bodies; k++) {
        const struct frame_box *box = &plate->body[k].box;
        if (!plate->body[k].placed)
            continue;
        all.x0 = fmin(all.x0, box->x0);
        all.y0 = fmin(all.y0, box->y0);
        all.x1 = fmax(all.x1, box->x1);
        all.y1 = fmax(all.y1, box->y1);
    }
    return all;
}

static void bodies_settle(struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++)
        body_settle(&plate->body[k]);
}

/* What the file gives: a point in cells, and whether it does. Bodies first, then pipes. */
struct given {
    double x, y;
    bool placed;
};

static void grid_read(const struct plate *plate, struct given *given)
{
    for (int k = 0; k < plate->bodies; k++)
        given[k] = (struct given){plate->body[k].x, plate->body[k].y, plate->body[k].placed};
    for (int k = 0; k < plate->pipes; k++)
        given[plate->bodies + k] = (struct given){plate->pipe[k].x, plate->pipe[k].y, plate->pipe[k].placed};
}

static void grid_scale(struct plate *plate, const struct given *given, double share)
{
    for (int k = 0; k < plate->bodies; k++) {
        plate->body[k].x = share * CELL_WIDTH * given[k].x;
        plate->body[k].y = share * CELL_HEIGHT * given[k].y;
        plate->body[k].placed = given[k].placed;
    }
    for (int k = 0; k < plate->pipes; k++) {
        plate->pipe[k].x = share * CELL_WIDTH * given[plate->bodies + k].x;
        plate->pipe[k].y = share * CELL_HEIGHT * given[plate->bodies + k].y;
    }
}

static void grid_place(struct plate *plate, struct given *given)
{
    bool fits = false;
    grid_read(plate, given);
    for (int k = 0; !fits && k < CELL_STEPS; k++) {
        grid_scale(plate, given, 1.0 - k * CELL_STEP);
        followers_place(plate);
        bodies_settle(plate);
        const struct frame_box all = bodies_box(plate);
        fits = all.x1 - all.x0 <= PLATE_WIDTH && all.y1 - all.y0 <= PLATE_HEIGHT;
    }
}

/* ---- columns ----------------------------------------------------------------------------------------------------- */
static double body_volume(const struct plate *plate, int body)
{
    const int part = plate->body[body].part;
    const double volume = part < 0 ? 0.0 : ullage_model_parameter(plate->model, part, "volume");
    return isfinite(volume) ? volume : 0.0;
}

static int root_find(const struct plate *plate)
{
    int root = -1;
    for (int k = 0; k < plate->bodies; k++)
        if (stands_free(plate, k) && !follows(plate, &plate->body[k]) &&
            (root < 0 || body_volume(plate, k) > body_volume(plate, root)))
            root = k;
    return root;
}

/* Graph distance from the root; parts that nothing joins to it come last. Returns the number of columns. */
static int columns_count(const struct plate *plate, int *column)
{
    const int root = root_find(plate);
    for (int k = 0; k < plate->bodies; k++)
        column[k] = k == root ? 0 : -1;
    int columns = 1;
    for (int reach = 0; reach < columns; reach++)
        for (int k = 0; k < plate->pipes; k++)
            for (int e = 0; e < 2; e++) {
                const int here = pipe_end_body(plate, k, e);
                const int next = here >= 0 ? neighbour(plate, k, here) : -1;
                if (next < 0 || column[here] != reach || column[next] >= 0)
                    continue;
                column[next] = reach + 1;
                columns = reach + 2;
            }
    int loose = 0;
    for (int k = 0; k < plate->bodies; k++)
        if (column[k] < 0 && stands_free(plate, k) && !follows(plate, &plate->body[k])) {
            column[k] = columns;
            loose = 1;
        }
    return columns + loose;
}

static bool in_column(const struct plate *plate, const int *column, int body, int wanted)
{
    return column[body] == wanted && stands_free(plate, body) && !follows(plate, &plate->body[body]);
}

/* Stacks one column around y = 0 and returns its width. */
static double column_stack(struct plate *plate, const int *column, int wanted, double x)
{
    double height = -ROW_GAP, width = 0.0;
    for (int k = 0; k < plate->bodies; k++)
        if (in_column(plate, column, k, wanted)) {
            const struct frame_box *e = &plate->body[k].extent;
            height += e->y1 - e->y0 + ROW_GAP;
            width = fmax(width, e->x1 - e->x0);
        }
    double y = -0.5 * height;
    const bool alone = height < 1.5 * PLATE_HEIGHT && height > 0.0;
    for (int k = 0; k < plate->bodies; k++) {
        if (!in_column(plate, column, k, wanted))
            continue;
        struct plate_body *body = &plate->body[k];
        const double tall = body->extent.y1 - body->extent.y0;
        body->x = x + 0.5 * width;
        /* a body alone in its column stands with its line, not its box, at the middle */
        body->y = alone && fabs(tall - height) < 1.0 ? 0.0 : y - body->extent.y0;
        body->placed = true;
        y += tall + ROW_GAP;
    }
    return width;
}

static void columns_place(struct plate *plate, int *column)
{
    const int columns = columns_count(plate, column);
    double x = 0.0, width = 0.0;
    for (int c = 0; c < columns; c++)
        width += column_stack(plate, column, c, 0.0);
    const double room = (PLATE_WIDTH - width) / fmax(columns - 1, 1);
    for (int c = 0; c < columns; c++)
        x += column_stack(plate, column, c, x) + fmin(COLUMN_GAP, fmax(room, COLUMN_GAP_LEAST));
    followers_place(plate);
    bodies_settle(plate);
}

/* ---- apart, and into the middle ---------------------------------------------------------------------------------- */
static void push(struct plate_body *still, struct plate_body *moved)
{
    const double across = fmin(still->box.x1 - moved->box.x0, moved->box.x1 - still->box.x0) + GAP;
    const double down = fmin(still->box.y1 - moved->box.y0, moved->box.y1 - still->box.y0) + GAP;
    if (across < down)
        moved->x += moved->x < still->x ? -across : across;
    else
        moved->y += moved->y < still->y ? -down : down;
    body_settle(moved);
}

static void push_apart(struct plate *plate)
{
    for (int round = 0; round < 8; round++)
        for (int k = 1; k < plate->bodies; k++)
            for (int j = 0; j < k; j++)
                if (stands_free(plate, k) && stands_free(plate, j) && !ends_a_line(plate, k) &&
                    !ends_a_line(plate, j) &&
                    box_overlaps(box_grown(plate->body[k].box, 0.5 * GAP), box_grown(plate->body[j].box, 0.5 * GAP)))
                    push(&plate->body[j], &plate->body[k]);
}

static void centre(struct plate *plate)
{
    const struct frame_box all = bodies_box(plate);
    const double dx = 0.5 * PLATE_WIDTH - 0.5 * (all.x0 + all.x1);
    const double dy = 0.5 * PLATE_HEIGHT - 0.5 * (all.y0 + all.y1);
    for (int k = 0; k < plate->bodies; k++) {
        plate->body[k].x += dx;
        plate->body[k].y += dy;
        body_settle(&plate->body[k]);
    }
    for (int k = 0; k < plate->pipes; k++) {
        plate->pipe[k].x += dx;
        plate->pipe[k].y += dy;
    }
}

/* Whether gas comes into a part from one side: into one that stands on a tank it comes from below. */
static bool enters_sideways(const struct plate_body *body)
{
    struct plate_port port;
    if (!body->drawn->port(body, "from", "", &port))
        return true;
    return port.side == SIDE_LEFT || port.side == SIDE_RIGHT;
}

/* A part whose `from` side looks right is drawn the other way round. */
static void mirrors(struct plate *plate)
{
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            const struct pipe_end *end = &plate->pipe[k].end[e];
            if (end->body < 0 || end->dead || !plate->body[end->body].drawn->port)
                continue;
            struct plate_body *body = &plate->body[end->body];
            const double dx = pipe_partner(plate, k, e).x - body->x;
            const bool sideways = enters_sideways(body);
            if (sideways && (!strcmp(end->key, "from") || !strcmp(end->opening, "tank")))
                body->mirror = dx > 1.0;
            else if (!strcmp(end->key, "to") && (body->air[0] || !sideways))
                body->mirror = dx < -1.0;
        }
}

bool plate_place(struct plate *plate)
{
    int *column = calloc((size_t)plate->bodies + 1, sizeof *column);
    struct given *given = calloc((size_t)(plate->bodies + plate->pipes) + 1, sizeof *given);
    if (column && given && plate->bodies > 0) {
        if (grid_given(plate))
            grid_place(plate, given);
        else
            columns_place(plate, column);
        mirrors(plate);
        bodies_settle(plate);
        push_apart(plate);
        centre(plate);
    }
    const bool good = column && given;
    free(column);
    free(given);
    return good;
}
