/* plan.h  How long the steps are expected to take: read off a run that nobody touches, made beforehand. */
#ifndef VIEW_PLAN_H
#define VIEW_PLAN_H

#include "view/snapshot.h"

struct plan {
    int spans;
    struct step_span *span; /* in order of time, all ended */
    double end;             /* s */
};

/* Follows the model to its end, or as far as PLAN_STEPS_MOST steps of the solver go. False when memory is out. */
bool plan_make(struct plan *plan, const struct ullage_model *model);
void plan_free(struct plan *plan);

/* The stretches still to come after the present step, laid end to end from `snapshot->time` on, into span[most]; the first
 * is the rest of the present step. Returns how many. */
int plan_ahead(const struct plan *plan, const struct snapshot *snapshot, struct step_span *span, int most);
/* s: where the clock's axis ends. */
double plan_whole(const struct plan *plan, const struct snapshot *snapshot, double *tick);

/* s: a round end of an axis that holds `end`, and the step of its ticks. */
double clock_whole(double end, double *tick);

#endif
