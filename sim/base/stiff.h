/* sim/base/stiff.h  What a stiff solver must know of a system: rates, sparse slopes, scales. Known to no physics.
 *
 * y holds n states followed by m accounts. Accounts have rows but no columns: nothing depends on them, they are carried
 * along in the same Newton solve (d_acc = r_acc + gamma J_acc d), so that every linear invariant between states and
 * accounts holds to round-off, converged or not. */
#ifndef BASE_STIFF_H
#define BASE_STIFF_H

#include <stdbool.h>
#include <stdint.h>

struct stiff_system {
    int states, accounts; /* n, m */
    /* Slopes by rows: row i (0..n+m) has entries start[i]..start[i+1] in column[] (0..n, ascending). Fixed for life;
     * every diagonal entry of the n state rows is present. [start: n+m+1] */
    const int *start, *column;
    const double *scale;  /* s_i of the error norm, > 0 [n]; sqrt(mean((e_i / (r s_i))^2)) <= 1 */
    const bool *amount;   /* true where a state is an amount that must not fall under base + y < -10 r s [n] */
    const double *base;   /* what the state was at 0: absolute amount = base + y [n] */
    /* Both return 0, or non-zero where the state is outside the domain: the step is then shortened. Pure. */
    int (*rates)(double time, const double *y, double *dydt, void *context);       /* dydt[n+m] */
    int (*slopes)(double time, const double *y, double *value, void *context);     /* value[start[n+m]] */
    void *context;
};

struct stiff_effort {
    int64_t steps, derivatives, jacobians, factorizations, rejected, newton_failures;
};

#endif
