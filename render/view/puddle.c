/* puddle.c  Liquid in the low spot of a line: a band on the floor of its lowest level stretch, as high in its bore as the spot is
 * full; what is more than that makes it longer. */
#include "view/puddle.h"

#include <math.h>

#define DAMP 0.02  /* share under which nothing is seen */
#define LONG 80.0  /* u of a spot that is full */
#define BENDS 30.0 /* u at either end of a stretch: the corners */
#define SLOPE 10.0 /* u by which its ends draw in */

double puddle_share(const struct scene *scene, int part, const char *held)
{
    const double liquid = scene_value(scene, part, LIQUID_VOLUME);
    const double room =
        fmax(ullage_model_parameter(scene->model, part, held), ullage_model_parameter(scene->model, part, "liquid"));
    const double share = liquid / room;
    return isfinite(share) && share > DAMP ? share : 0.0;
}

static double stretch_length(const struct plate_pipe *pipe, int k)
{
    return fabs(pipe->point[k].x - pipe->point[k - 1].x);
}

/* The level stretch that lies lowest, of equal ones the longest: up to its point; 0: none. */
static int lowest_stretch(const struct plate_pipe *pipe)
{
    int best = 0;
    for (int k = 1; k < pipe->points; k++) {
        const double y = pipe->point[k].y, length = stretch_length(pipe, k);
        if (fabs(y - pipe->point[k - 1].y) > 0.5 || length < 2.0 * BENDS)
            continue;
        const double lower = best ? y - pipe->point[best].y : 1.0;
        if (lower > 0.5 || (lower > -0.5 && length > stretch_length(pipe, best)))
            best = k;
    }
    return best;
}

void puddle_line(struct frame *frame, const struct scene *scene, const struct plate_pipe *pipe)
{
    const double share = pipe->line ? puddle_share(scene, pipe->part, "low_spot") : 0.0;
    const int at = lowest_stretch(pipe);
    if (!(share > 0.0) || !at)
        return;
    const double middle = 0.5 * (pipe->point[at].x + pipe->point[at - 1].x);
    const double half = 0.5 * fmin(LONG * fmax(share, 1.0), stretch_length(pipe, at) - BENDS);
    const double floor = pipe->point[at].y + 0.5 * pipe->width, top = floor - pipe->width * fmin(share, 1.0);
    frame_path(frame);
    frame_move(frame, middle - half, top);
    frame_line(frame, middle + half, top);
    frame_line(frame, middle + half - SLOPE, floor);
    frame_line(frame, middle - half + SLOPE, floor);
    frame_close(frame);
    frame_fill(frame, COLOUR_LIQUID);
    frame_rule(frame, middle - half, top, middle + half, top, COLOUR_INK, 2.4);
}
