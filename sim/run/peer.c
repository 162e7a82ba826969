/* sim/run/peer.c  Lagrange interpolation over the last states of a stepper that shows none of its own. */
#include "run/peer.h"

#include <stdlib.h>
#include <string.h>

enum { KEPT = 4 }; /* states: a cubic */

#define ACCOUNT_SCALE 1e12 /* accounts take no part in the error test */

struct peer {
    int count; /* of states kept, newest last */
    double time[KEPT];
    double y[]; /* [KEPT][length] */
};

size_t peer_size(int length)
{
    return sizeof(struct peer) + (size_t)(KEPT * length) * sizeof(double);
}

static void keep(struct peer *peer, double time, const double *y, int length)
{
    if (peer->count == KEPT) {
        memmove(peer->time, peer->time + 1, (KEPT - 1) * sizeof(double));
        memmove(peer->y, peer->y + length, (size_t)((KEPT - 1) * length) * sizeof(double));
        peer->count--;
    }
    peer->time[peer->count] = time;
    memcpy(&peer->y[(size_t)(peer->count * length)], y, (size_t)length * sizeof(double));
    peer->count++;
}

void peer_restart(struct peer *peer, double time, const double *y, int length)
{
    peer->count = 0;
    keep(peer, time, y, length);
}

void peer_note(struct peer *peer, double time, const double *y, int length, struct stiff_effort *effort)
{
    keep(peer, time, y, length);
    effort->steps++;
}

void peer_interpolate(const struct peer *peer, double time, double *y, int length)
{
    memset(y, 0, (size_t)length * sizeof(double));
    for (int k = 0; k < peer->count; k++) {
        double weight = 1.0;
        for (int j = 0; j < peer->count; j++)
            if (j != k)
                weight *= (time - peer->time[j]) / (peer->time[k] - peer->time[j]);
        for (int i = 0; i < length; i++)
            y[i] += weight * peer->y[k * length + i];
    }
}

gsl_odeiv2_driver *peer_driver(const gsl_odeiv2_system *gsl, const struct stiff_system *system, double tolerance,
                               double first_step)
{
    double *scale = malloc(gsl->dimension * sizeof *scale);
    if (!scale)
        return NULL;
    for (size_t i = 0; i < gsl->dimension; i++)
        scale[i] = i < (size_t)system->states ? system->scale[i] : ACCOUNT_SCALE;
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_scaled_new(gsl, gsl_odeiv2_step_msbdf, first_step, tolerance, 0.0, 1.0, 0.0, scale);
    free(scale);
    return driver;
}
