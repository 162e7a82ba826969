/* sim/run/switches.c  Margins over a step.
 *
 * They are looked at in LOOKS even moments of it, so that an excursion shorter than the step is seen unless it is shorter
 * than such a part as well. Within the first part at whose end a margin is above zero, bisection on "is any?" closes in on
 * the moment; what is returned is the bracket's upper end, at which one was seen to be above zero. At the beginning of a
 * stretch none is, but for what the polynomial passes by the state it began with: then that moment is the one found.
 *
 * No bit flips twice at one moment, for its two margins are never above zero together (element/blueprint.h); and the next
 * flip takes time, for the hysteresis has to be crossed by states, which do not jump. */
#include "run/switches.h"

#include <assert.h>
#include <float.h>

enum { LOOKS = 4 };

#define CLOSE 1e-13 /* of the stretch */

static bool switches_due(const struct stretch *over, double time)
{
    const double *y = over->state(over->solution, time);
    for (int s = 0; s < over->network->switches; s++)
        if (network_margin(over->network, over->inputs, time, y, s, over->inputs->on[s]) > 0.0)
            return true;
    return false;
}

static double rising_moment(const struct stretch *over, double before, double after)
{
    const double close = fmax(CLOSE * (over->ends - over->begins), 2.0 * DBL_EPSILON * fabs(after));
    while (after - before > close) {
        const double middle = before + 0.5 * (after - before);
        if (!(before < middle && middle < after))
            break;
        if (switches_due(over, middle))
            after = middle;
        else
            before = middle;
    }
    return after;
}

bool switches_rise(const struct stretch *over, double *moment)
{
    double before = over->begins;
    for (int k = 1; k <= LOOKS && over->network->switches > 0; k++) {
        const double after = k < LOOKS ? over->begins + (over->ends - over->begins) * k / LOOKS : over->ends;
        if (switches_due(over, after)) {
            *moment = rising_moment(over, before, after);
            return true;
        }
        before = after;
    }
    return false;
}

bool switches_flip(const struct network *network, const struct inputs *inputs, double time, const double *y, bool *on)
{
    bool flipped = false;
    for (int s = 0; s < network->switches; s++)
        if (network_margin(network, inputs, time, y, s, on[s]) > 0.0) {
            on[s] = !on[s];
            assert(!(network_margin(network, inputs, time, y, s, on[s]) > 0.0));
            flipped = true;
        }
    return flipped;
}
