/* sim/procedure/window.h  The last seconds of a channel, kept while a wait goes on: what settled() and rate() look at.
 *
 * From the begin of its wait a window is fed on a grid of its own duration over WINDOW_POINTS; between grid points the
 * past is straight. So memory is bounded, no solver step is shortened, and how a run is cut into pauses changes nothing. */
#ifndef PROCEDURE_WINDOW_H
#define PROCEDURE_WINDOW_H

enum { WINDOW_POINTS = 200 };

struct window {
    int channel;
    double duration; /* s */
    int wait;        /* step during which it is filled */
};

struct window_memory {
    int fed;                          /* grid points so far */
    double sample[WINDOW_POINTS + 1]; /* ring: grid point k stands at k % (WINDOW_POINTS + 1) */
};

/* Moment of grid point `k`, counted from the begin of the wait. s */
double window_moment(const struct window *window, double since, int k);
void window_clear(struct window_memory *memory);
void window_feed(struct window_memory *memory, double value);

/* Largest minus smallest over the last `duration` before `time`, at which the channel is `value`; NaN before the window
 * is full. Fed up to the last grid point at or before `time`. */
double window_spread(const struct window *window, const struct window_memory *memory, double since, double time,
                     double value);
/* Mean rate over the same. per s */
double window_rate(const struct window *window, const struct window_memory *memory, double since, double time,
                   double value);

#endif
