/* sim/run/bdf_block.h  What bdf.c and bdf_newton.c share: the block of one integration, one attempt at a step. */
#ifndef RUN_BDF_BLOCK_H
#define RUN_BDF_BLOCK_H

#include "run/bdf.h"
#include "run/bdf_formula.h"

enum {
    COLUMNS = BDF_ORDERS + 1, /* of a history */
    PAST = BDF_ORDERS + 1
};

struct bdf {
    int states, rows;      /* n, n + m */
    size_t slopes, factor; /* entries of J with the rows of accounts; of L and U */
    double tolerance;

    /* the last accepted step */
    double time, step; /* its end, its length: the history's scale (s) */
    int order;         /* 0: none yet */
    double past[PAST]; /* lengths of accepted steps since the restart, newest first (s) */
    double d;          /* its local error, 1 = the tolerance */
    double error;      /* local error = error * e */
    double lead;       /* h^(q+1) y^(q+1)/(q+1)! = lead * e */

    /* the next one */
    bool fresh; /* starts from y alone */
    int next_order;
    double next_step;
    double wanted;        /* what the error allows; next_step may be less after a step cut short */
    int wait;             /* steps until the order is thought about */
    int made;             /* steps since the restart */
    int held;             /* order to hold; 0: free */
    int errors, failures; /* since the last accepted step: of the error test, of any kind */

    /* Newton */
    bool stale;      /* slopes must be evaluated anew */
    int age;         /* accepted steps since they were */
    double sloped;   /* when J was evaluated, at block_sloped (s) */
    double factored; /* gamma' (s); 0: no factors */
    double rate;     /* of convergence, as seen since the factors were made */

    struct stiff_effort effort;
    double room[]; /* the arrays below, in their order: what the next step goes on from, then what it works in */
};

enum block_vector {
    E, /* correction of the attempt */
    Y, /* predicted state + e */
    F, /* rates there, then the Newton correction */
    VECTORS
};

static inline double *block_history(struct bdf *bdf) /* [COLUMNS][rows] */
{
    return bdf->room;
}

static inline double *block_done(struct bdf *bdf) /* correction of the last accepted step [rows] */
{
    return bdf->room + COLUMNS * (size_t)bdf->rows;
}

static inline double *block_sloped(struct bdf *bdf) /* the state that J is of [rows] */
{
    return block_done(bdf) + bdf->rows;
}

static inline double *block_copy(struct bdf *bdf) /* the attempt's columns, predicted [COLUMNS][rows] */
{
    return block_sloped(bdf) + bdf->rows;
}

static inline double *block_vector(struct bdf *bdf, enum block_vector which) /* [rows] */
{
    return block_copy(bdf) + (COLUMNS + (size_t)which) * (size_t)bdf->rows;
}

static inline double *block_work(struct bdf *bdf) /* [states] */
{
    return block_vector(bdf, VECTORS);
}

static inline double *block_slopes(struct bdf *bdf) /* J [slopes]: of `sloped`, and what stands in block_sloped */
{
    return block_work(bdf) + bdf->states;
}

static inline double *block_factor(struct bdf *bdf) /* L and U [factor]: of J and `factored` */
{
    return block_slopes(bdf) + bdf->slopes;
}

static inline size_t block_kept(const struct bdf *bdf) /* of room, without what a step works in */
{
    return (COLUMNS + 2) * (size_t)bdf->rows;
}

static inline size_t block_length(const struct bdf *bdf) /* of room */
{
    return block_kept(bdf) + (COLUMNS + VECTORS) * (size_t)bdf->rows + (size_t)bdf->states + bdf->slopes + bdf->factor;
}

struct attempt {
    struct bdf *bdf;
    const struct stiff_system *system;
    const struct sparse_plan *plan;
    double start, time; /* of the step: begin and end (s) */
    double length;      /* h (s) */
    bool extends;       /* the last step, moving its end, rather than adding one: formula.step is that of both */
    struct bdf_formula formula;
    double d; /* estimate of the local error, 1 = the tolerance */
};

/* Rates into f; false where the system will not have this state, or gives something not finite. */
bool bdf_rates(const struct attempt *attempt, double time, const double *y, double *f);

/* Root mean square of v_i / (r s_i) over the states. */
double bdf_norm(const struct attempt *attempt, const double *v);

/* Finds e such that predicted + e satisfies the formula. False: it did not converge, or left the domain. */
bool bdf_newton(const struct attempt *attempt);

#endif
