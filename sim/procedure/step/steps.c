/* sim/procedure/step/steps.c  The list of verbs. A new verb: one file, one row here. */
#include "procedure/step/steps.h"

#include <string.h>

static const struct step_kind *const kinds[] = {
    &set_step,   &join_step, &part_from_step, &wait_step, &read_step,
    &judge_step, &say_step,  &repeat_step,    &when_step, NULL,
};

const struct step_kind *const *step_kinds(void)
{
    return kinds;
}

const struct step_kind *step_find(const char *verb)
{
    for (int k = 0; kinds[k]; k++)
        if (!strcmp(kinds[k]->verb, verb))
            return kinds[k];
    return NULL;
}
