/* sim/procedure/window.c  A ring of samples on a grid, and what can be said about the time it covers. */
#include "procedure/window.h"

#include <math.h>

enum { RING = WINDOW_POINTS + 1 };

double window_moment(const struct window *window, double since, int k)
{
    return since + window->duration * (double)k / (double)WINDOW_POINTS;
}

void window_clear(struct window_memory *memory)
{
    memory->fed = 0;
}

void window_feed(struct window_memory *memory, double value)
{
    memory->sample[memory->fed % RING] = value;
    memory->fed++;
}

/* The value one duration before `time`, which lies between the oldest grid point kept and the one after it. */
static double window_oldest(const struct window *window, const struct window_memory *memory, double since, double time)
{
    const int newest = memory->fed - 1;
    if (newest < WINDOW_POINTS - 1 || time < window_moment(window, since, WINDOW_POINTS))
        return (double)NAN;
    if (newest < WINDOW_POINTS) /* full to the day, the last grid point being `time` itself */
        return memory->sample[0];
    const double step = window->duration / (double)WINDOW_POINTS;
    const double share = fmin(fmax((time - window_moment(window, since, newest)) / step, 0.0), 1.0);
    const double before = memory->sample[(newest - WINDOW_POINTS) % RING];
    const double after = memory->sample[(newest - WINDOW_POINTS + 1) % RING];
    return before + share * (after - before);
}

double window_spread(const struct window *window, const struct window_memory *memory, double since, double time,
                     double value)
{
    const double oldest = window_oldest(window, memory, since, time);
    if (isnan(oldest) || isnan(value))
        return (double)NAN;
    double least = fmin(oldest, value);
    double most = fmax(oldest, value);
    for (int k = memory->fed - WINDOW_POINTS; k < memory->fed; k++) {
        least = fmin(least, memory->sample[k % RING]);
        most = fmax(most, memory->sample[k % RING]);
    }
    return most - least;
}

double window_rate(const struct window *window, const struct window_memory *memory, double since, double time,
                   double value)
{
    return (value - window_oldest(window, memory, since, time)) / window->duration;
}
