/* sim/run/bdf_formula.h  One step's numbers of the backward differentiation formula: none of them depends on y. */
#ifndef RUN_BDF_FORMULA_H
#define RUN_BDF_FORMULA_H

enum { BDF_ORDERS = 5 };

struct bdf_formula {
    int order;                   /* q */
    double step;                 /* h (s) */
    double back[BDF_ORDERS + 2]; /* back[i] = (t_n - t_{n-i}) / h; [1..q+1] */
    double l[BDF_ORDERS + 1];    /* corrector polynomial: history += l[j] e; l[0] = 1; gamma = h / l[1] */
    double error;                /* local error of this step = error * e */
    double lead;                 /* h^(q+1) y^(q+1) / (q+1)! = lead * e */
    double lower;                /* local error had the order been q-1 = lower * (column q of the history) */
    double higher; /* local error had it been q+1 = higher * (h^(q+1) y^(q+1)/(q+1)! less its last value) */
};

/* past[0..q]: lengths of the steps before this one, newest first; past[i] for i < q-1 must be > 0 (s). */
struct bdf_formula bdf_formula_make(int order, double step, const double *past);

/* Change of order of a history scaled by past[0], past[0] being the step just made; c[j], j = 2..: what to take of
 * column q off column j so that column q can go (values and slope at t_n, values at t_{n-1}.. stay). */
void bdf_formula_drop(int order, const double *past, double *c);

/* The same upwards: column j += c[j] e, j = 2..q+1, makes the history pass through t_{n-q} too. */
void bdf_formula_raise(int order, const double *past, double *c);

/* x^(1/k), x >= 0, to 1e-4 at least, from + - * / alone: the same bits on every machine. */
double bdf_root(double x, int k);

#endif
