/* sim/run/inside.h  What a run is made of: shared by run.c and making.c. */
#ifndef RUN_INSIDE_H
#define RUN_INSIDE_H

#include "network/inside.h"
#include "run/bdf.h"
#include "run/peer.h"
#include "run/run.h"

#define FIRST_STEP 1e-5 /* s, after a change of inputs: short against the fastest line */

struct clock {
    double now, reach, begun; /* s */
    double step;              /* s: what the peer would take next */
    bool fresh;               /* inputs changed at reach: no history to go on from */
    double drift;             /* Pa, largest so far */
    int64_t restarts;         /* times it began anew */
    int64_t stretch, longest; /* steps since then; most steps between two such times */
    struct stiff_effort peer;
};

struct run {
    const struct network *network;
    struct stiff_system system;
    struct sparse_plan *plan;
    struct scratch scratch;
    struct inputs inputs;
    char *block;
    size_t block_size;
    struct clock *clock; /* the rest are places in the block */
    double *y, *parameter;
    struct ramp *opening;
    bool *joined;
    struct fault_now *fault; /* [faults] */
    bool *ails;              /* [parts] */
    struct weather_way *weather; /* [WEATHERS] */
    struct tap_now *tap;     /* [taps] */
    struct pour *pour;       /* [pour_places] */
    bool *was, *on;    /* [switches] before reach, from reach on */
    struct bdf *bdf;   /* null with the peer */
    struct peer *peer; /* null without */
    double *at_time;   /* [n + m] scratch: y interpolated */
    double *values;    /* [entries] */
    struct bdf_door door;
    gsl_odeiv2_system gsl;
    gsl_odeiv2_step *step;
    gsl_odeiv2_control *control;
    gsl_odeiv2_evolve *evolve;
    gsl_odeiv2_driver *driver; /* of the peer: owns its step, control, evolve */
    char trouble[200];
};

static inline int run_length(const struct run *run)
{
    return run->system.states + run->system.accounts;
}

/* The network's rates with the run's inputs, as the stepper calls them; context: the run. */
int run_rates(double time, const double *y, double *dydt, void *context);

#endif
