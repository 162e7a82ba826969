/* motion.c  Marks move with the flow: v = 42 log10(1 + |u| / 0.01 m/s) u/s, never over 200 so that 60 frames a second show
 * no false backward motion at their spacing of 38 u. */
#include "view/motion.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SPEED_PER_DECADE 42.0 /* u/s */
#define SPEED_FOOT 0.01       /* m/s */
#define SPEED_MOST 200.0      /* u/s */
#define JET_AREA 2e-5         /* m2: what drifts from a hole goes as if its flow went through this */
#define SPOUT_AREA 3e-4       /* m2: that fuel falls from */
#define PI 3.141592653589793

double motion_speed(double gas_speed)
{
    const double speed = SPEED_PER_DECADE * log10(1.0 + fabs(gas_speed) / SPEED_FOOT);
    return copysign(fmin(speed, SPEED_MOST), gas_speed);
}

bool motion_make(struct motion *motion, const struct plate *plate)
{
    motion->parts = plate->parts;
    motion->sections = plate->sections;
    motion->part = calloc((size_t)motion->parts + 1, sizeof *motion->part);
    motion->section = calloc((size_t)motion->sections + 1, sizeof *motion->section);
    if (motion->part && motion->section)
        return true;
    motion_free(motion);
    return false;
}

void motion_free(struct motion *motion)
{
    free(motion->part);
    free(motion->section);
    *motion = (struct motion){0};
}

double motion_of_part(const struct plate *plate, const struct cast *cast, const double *value, int part)
{
    if (part < 0)
        return 0.0;
    const char *type = ullage_model_part(plate->model, part).type;
    const double rate = cast_value(cast, value, part, RATE);
    if (isfinite(rate))
        return motion_speed(rate / SPOUT_AREA);
    const bool jet = !strcmp(type, "hole") || !strcmp(type, "cap");
    const double speed =
        jet ? cast_value(cast, value, part, STANDARD_FLOW) / JET_AREA : cast_value(cast, value, part, SPEED);
    return isfinite(speed) ? motion_speed(speed) : 0.0;
}

static double flow_of(const struct cast *cast, const double *value, int part)
{
    const double flow = cast_value(cast, value, part, STANDARD_FLOW);
    return isfinite(flow) ? flow : 0.0;
}

double motion_of_section(const struct plate *plate, const struct cast *cast, const double *value, int section)
{
    const struct plate_section *at = &plate->section[section];
    double flow = flow_of(cast, value, plate->pipe[at->pipe].part);
    double largest = fabs(flow);
    for (int k = 0; k < at->terms; k++) {
        const double one = at->term[k].times * flow_of(cast, value, at->term[k].part);
        flow += one;
        largest = fmax(largest, fabs(one));
    }
    if (!(at->bore > 0.0) || fabs(flow) < 1e-3 * largest) /* a difference of equals is none */
        return 0.0;
    return motion_speed(flow / (0.25 * PI * at->bore * at->bore));
}

void motion_advance(struct motion *motion, const struct plate *plate, const struct cast *cast, const double *value,
                    double seconds)
{
    for (int p = 0; p < motion->parts; p++)
        motion->part[p] += seconds * motion_of_part(plate, cast, value, p);
    for (int s = 0; s < motion->sections; s++)
        motion->section[s] += seconds * motion_of_section(plate, cast, value, s);
}

void motion_copy(struct motion *motion, const struct motion *from)
{
    memcpy(motion->part, from->part, (size_t)from->parts * sizeof *from->part);
    memcpy(motion->section, from->section, (size_t)from->sections * sizeof *from->section);
}
