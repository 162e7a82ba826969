/* sim/run/sparse.h  Elimination of M = I - gamma J on a fixed pattern: the numbers' side of the plan in bdf.h. */
#ifndef RUN_SPARSE_H
#define RUN_SPARSE_H

#include "run/bdf.h"

/* Entries of L and U together, diagonal included: the length of `factor` below. */
int sparse_nonzeros(const struct sparse_plan *plan);

/* Factors M = I - gamma J. slope: J's entries in the order of system->column (rows of accounts are not looked at);
 * factor [sparse_nonzeros]. Returns the growth max |L_ik| s_k / s_i: moderate for a well-posed step, infinite where a
 * pivot vanished and factor is of no use. */
double sparse_factorize(const struct sparse_plan *plan, const struct stiff_system *system, const double *slope,
                        double gamma, double *factor);

/* Solves M x = b in place of b [n]. work [n]. */
void sparse_solve(const struct sparse_plan *plan, const double *factor, double *b, double *work);

#endif
