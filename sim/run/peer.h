/* sim/run/peer.h  GSL's own msbdf behind the same run: a second opinion, slower and dense. It shows no polynomial of its
 * steps, so moments inside a step are interpolated by Lagrange through the last accepted states. */
#ifndef RUN_PEER_H
#define RUN_PEER_H

#include <gsl/gsl_odeiv2.h>

#include "base/stiff.h"

struct peer; /* the last states; lives in the run's block */
size_t peer_size(int length);
void peer_restart(struct peer *peer, double time, const double *y, int length);
/* After each accepted step. Counts it. */
void peer_note(struct peer *peer, double time, const double *y, int length, struct stiff_effort *effort);
void peer_interpolate(const struct peer *peer, double time, double *y, int length);

/* Driver with msbdf and the error test of the system's constant scales; null: memory. */
gsl_odeiv2_driver *peer_driver(const gsl_odeiv2_system *gsl, const struct stiff_system *system, double tolerance,
                               double first_step);

#endif
