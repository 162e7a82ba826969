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

double motion_speed(double gas_speed)
{
    const double speed = SPEED_PER_DECADE * log10(1.0 + fabs(gas_speed) / SPEED_FOOT);
    return copysign(fmin(speed, SPEED_MOST), gas_speed);
}

bool motion_make(struct motion *motion, const struct ullage_model *model)
{
    motion->parts = ullage_model_parts(model);
    motion->jets = calloc((size_t)motion->parts + 1, sizeof *motion->jets);
    motion->phase = calloc((size_t)motion->parts + 1, sizeof *motion->phase);
    if (!motion->jets || !motion->phase) {
        motion_free(motion);
        return false;
    }
    for (int p = 0; p < motion->parts; p++) {
        const char *type = ullage_model_part(model, p).type;
        motion->jets[p] = !strcmp(type, "hole") || !strcmp(type, "cap");
    }
    return true;
}

void motion_free(struct motion *motion)
{
    free(motion->jets);
    free(motion->phase);
    *motion = (struct motion){0};
}

double motion_of(const struct motion *motion, const struct cast *cast, const double *value, int part)
{
    if (part < 0)
        return 0.0;
    const double speed = motion->jets[part] ? cast_value(cast, value, part, STANDARD_FLOW) / JET_AREA
                                            : cast_value(cast, value, part, SPEED);
    return isfinite(speed) ? motion_speed(speed) : 0.0;
}

void motion_advance(struct motion *motion, const struct cast *cast, const double *value, double seconds)
{
    for (int p = 0; p < motion->parts; p++)
        motion->phase[p] += seconds * motion_of(motion, cast, value, p);
}

void motion_copy(struct motion *motion, const struct motion *from)
{
    memcpy(motion->phase, from->phase, (size_t)from->parts * sizeof *from->phase);
}
