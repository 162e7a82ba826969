/* loose.c  Holes that the file gives no place: tried along the walls of their host, those first where the jet has most room,
 * until the name finds room as well. */
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define STEP 12.0
#define MARGIN 46.0     /* from the corners */
#define APART 44.0      /* from ports and other wall things */
#define WISH_WEIGHT 0.1 /* u of jet that a u nearer to the wish is worth */
#define ROOM_LEAST 40.0 /* u of jet below which a name is not worth a place */
#define TAKEN 500.0     /* u of jet that a place already taken costs */

enum { CANDIDATES_MOST = 256 };

struct candidate {
    struct plate_port port;
    double worth;
};

static bool wall_taken(const struct plate *plate, int self, struct plate_port port)
{
    const int host = plate->body[self].host_body;
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            const struct pipe_end *end = &plate->pipe[k].end[e];
            if (end->body == host && hypot(end->port.x - port.x, end->port.y - port.y) < APART)
                return true;
        }
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *other = &plate->body[k];
        if (k != self && other->drawn->wall && other->placed && other->host_body == host &&
            hypot(other->x - port.x, other->y - port.y) < APART)
            return true;
    }
    return false;
}

static int on_walls(const struct plate *plate, int self, struct candidate *candidate)
{
    const struct plate_body *host = &plate->body[plate->body[self].host_body];
    const struct plate_point wish = wall_wish(plate, &plate->body[self]);
    int count = 0;
    for (int side = SIDE_UP; side <= SIDE_LEFT; side++) {
        if (host->drawn->roof_only && side != SIDE_UP)
            continue;
        const bool across = side == SIDE_UP || side == SIDE_DOWN;
        const double low = across ? host->box.x0 : host->box.y0, high = across ? host->box.x1 : host->box.y1;
        const double margin = fmin(MARGIN, 0.3 * (high - low));
        const int steps = (int)floor((high - low - 2.0 * margin) / STEP);
        for (int k = 0; k <= steps && count < CANDIDATES_MOST; k++) {
            const struct plate_port port = wall_point(&host->box, (enum side)side, low + margin + k * STEP);
            const double away = hypot(port.x - fmin(fmax(wish.x, host->box.x0), host->box.x1),
                                      port.y - fmin(fmax(wish.y, host->box.y0), host->box.y1));
            const double room = jet_room(plate, self, port) - (wall_taken(plate, self, port) ? TAKEN : 0.0);
            candidate[count++] = (struct candidate){port, room - WISH_WEIGHT * away};
        }
    }
    return count;
}

/* On a line, the middle is liked best. */
static int on_line(const struct plate *plate, int self, struct candidate *candidate)
{
    const struct plate_pipe *pipe = &plate->pipe[plate->body[self].host_pipe];
    const double margin = fmin(STEP, 0.4 * pipe->length);
    int count = 0;
    const int steps = (int)floor((pipe->length - 2.0 * margin) / STEP);
    for (int k = 0; k <= steps && count + 2 <= CANDIDATES_MOST; k++)
        for (int side = 0; side < 2; side++) {
            const double along = margin + k * STEP;
            const struct plate_port port = line_point(pipe, along, side == 1);
            const double away = fabs(along - 0.5 * pipe->length);
            candidate[count++] = (struct candidate){port, jet_room(plate, self, port) - WISH_WEIGHT * away};
        }
    return count;
}

static int better(const void *a, const void *b)
{
    const struct candidate *p = a, *q = b;
    if (p->worth > q->worth || p->worth < q->worth)
        return p->worth > q->worth ? -1 : 1;
    const double x = p->port.x - q->port.x, y = p->port.y - q->port.y;
    return x < 0.0 ? -1 : x > 0.0 ? 1 : y < 0.0 ? -1 : y > 0.0;
}

static void hole_set(struct plate *plate, int self, struct candidate *candidate, const struct frame *ruler)
{
    struct plate_body *hole = &plate->body[self];
    const int count = hole->host_body >= 0 ? on_walls(plate, self, candidate) : on_line(plate, self, candidate);
    qsort(candidate, (size_t)count, sizeof *candidate, better);
    for (int c = 0; c < count && candidate[c].worth > ROOM_LEAST; c++) {
        wall_thing_set(hole, candidate[c].port);
        if (plate_name(plate, self, ruler))
            return;
    }
    for (int c = 0; c < count; c++) { /* no room for a name anywhere: the column's letter */
        wall_thing_set(hole, candidate[c].port);
        if (plate_letter(plate, self, ruler))
            return;
    }
    if (count)
        wall_thing_set(hole, candidate[0].port);
    plate->unnamed++;
}

bool plate_loose_holes(struct plate *plate, const struct frame *ruler)
{
    struct candidate *candidate = calloc(CANDIDATES_MOST, sizeof *candidate);
    if (!candidate)
        return false;
    for (int k = 0; k < plate->bodies; k++)
        if (plate->body[k].loose)
            hole_set(plate, k, candidate, ruler);
    free(candidate);
    return true;
}
