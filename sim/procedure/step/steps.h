/* sim/procedure/step/steps.h  Every verb's table. */
#ifndef PROCEDURE_STEP_STEPS_H
#define PROCEDURE_STEP_STEPS_H

#include "procedure/step.h"

extern const struct step_kind set_step, join_step, part_from_step, wait_step, read_step, judge_step, say_step,
    repeat_step, when_step;

#endif
