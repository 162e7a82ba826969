/* sim/law/sum.h  Flows side by side, and a share of one: value and slopes alike. */
#ifndef LAW_SUM_H
#define LAW_SUM_H

#include "law/flow.h"

static inline struct flow flow_times(struct flow flow, double factor)
{
    flow.value *= factor;
    for (int q = 0; q < GAS_QUANTITIES; q++) {
        flow.slope_a[q] *= factor;
        flow.slope_b[q] *= factor;
    }
    return flow;
}

static inline struct flow flow_plus(struct flow one, struct flow other)
{
    one.value += other.value;
    for (int q = 0; q < GAS_QUANTITIES; q++) {
        one.slope_a[q] += other.slope_a[q];
        one.slope_b[q] += other.slope_b[q];
    }
    return one;
}

#endif
