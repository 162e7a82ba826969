/* section.c  Pipes cut at their branches, and what flows in each piece.
 *
 * A line tells one flow: that of the ends it makes itself, their mean where it makes both (then it holds for the middle).
 * Between branches the flow differs from it by what the branches bring or take; what the line's own gas stores meanwhile is
 * left out, as is right when the flow is steady. */
#include "view/part/part.h"
#include "view/plate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BRANCHES_MOST = SECTION_TERMS - 1 };

struct branch {
    double along;
    int part;
    double sign; /* +1: its flow counts into the pipe */
};

static void branch_add(struct branch *branch, int *count, struct branch one)
{
    if (*count == BRANCHES_MOST)
        return;
    int at = (*count)++;
    for (; at > 0 && branch[at - 1].along > one.along; at--)
        branch[at] = branch[at - 1];
    branch[at] = one;
}

/* A hole's flow counts from its `from`: out of the pipe, unless that is the other side. */
static double hole_sign(const struct plate *plate, const struct plate_body *hole, int pipe)
{
    const struct ullage_part part = ullage_model_part(plate->model, hole->part);
    const struct ullage_link *from = part_link(&part, "from");
    return from && from->part == plate->pipe[pipe].part ? -1.0 : 1.0;
}

static int branches_of(const struct plate *plate, int pipe, struct branch *branch)
{
    int count = 0;
    for (int k = 0; k < plate->pipes; k++)
        for (int e = 0; e < 2; e++) {
            const struct plate_pipe *other = &plate->pipe[k];
            if (other->end[e].pipe != pipe)
                continue;
            const struct plate_port *port = &other->end[e].port;
            branch_add(
                branch, &count,
                (struct branch){pipe_nearest(&plate->pipe[pipe], port->x, port->y), other->part, e ? 1.0 : -1.0});
        }
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *body = &plate->body[k];
        if (body->host_pipe == pipe && body->drawn == &hole_drawn)
            branch_add(branch, &count,
                       (struct branch){pipe_nearest(&plate->pipe[pipe], body->x, body->y), body->part,
                                       hole_sign(plate, body, pipe)});
    }
    return count;
}

/* Whether the line itself makes the passage at this end: it does not where a valve, hole or cap stands. */
static bool makes_end(const struct plate *plate, const struct plate_pipe *pipe, int end)
{
    const struct pipe_end *at = &pipe->end[end];
    if (at->body < 0)
        return true;
    return !at->dead && !plate->body[at->body].drawn->passes;
}

/* Share of all branches that lies before the place whose flow the line tells. */
static double told_at(const struct plate *plate, const struct plate_pipe *pipe)
{
    const bool first = makes_end(plate, pipe, 0), last = makes_end(plate, pipe, 1);
    return first == last ? 0.5 : first ? 0.0 : 1.0;
}

static double bore_of(const struct plate *plate, const struct plate_pipe *pipe)
{
    const double bore = ullage_model_parameter(plate->model, pipe->part, pipe->hose ? "hose_bore" : "bore");
    const double diameter = ullage_model_parameter(plate->model, pipe->part, "diameter");
    return isfinite(bore) ? bore : isfinite(diameter) ? diameter : 0.0;
}

static void sections_add(struct plate *plate, int index)
{
    const struct plate_pipe *pipe = &plate->pipe[index];
    struct branch branch[BRANCHES_MOST];
    const int count = branches_of(plate, index, branch);
    const double before = told_at(plate, pipe);
    for (int piece = 0; piece <= count; piece++) {
        struct plate_section *section = &plate->section[plate->sections++];
        *section = (struct plate_section){.pipe = index,
                                          .begin = piece ? branch[piece - 1].along : 0.0,
                                          .end = piece < count ? branch[piece].along : pipe->length,
                                          .bore = bore_of(plate, pipe)};
        for (int k = 0; k < count; k++) {
            const double times = branch[k].sign * ((k < piece ? 1.0 : 0.0) - before);
            if (fabs(times) > 0.0)
                section->term[section->terms].part = branch[k].part, section->term[section->terms++].times = times;
        }
    }
}

bool plate_sections(struct plate *plate)
{
    plate->section = calloc(2 * (size_t)plate->pipes + (size_t)plate->bodies + 1, sizeof *plate->section);
    plate->sections = 0;
    if (!plate->section)
        return false;
    for (int k = 0; k < plate->pipes; k++)
        sections_add(plate, k);
    return true;
}
