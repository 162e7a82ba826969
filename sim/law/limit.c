/* sim/law/limit.c  A flow held under a bound that it may near but not pass.
 *
 *   F / (1 + |F/most|^8)^(1/8):  8 % under the bound where the free flow equals it,
 *   2e-5 under the free flow at a third of it.
 *
 * The eighth power is taken of whichever ratio is under 1, so nothing overflows. */
#include "law/between.h"
#include "law/passages.h"

#include <assert.h>
#include <math.h>

static double eighth_power(double x)
{
    const double x2 = x * x;
    const double x4 = x2 * x2;
    return x4 * x4;
}

static double eighth_root(double x)
{
    return sqrt(sqrt(sqrt(x)));
}

struct held held_under(double free, double most)
{
    assert(most >= 0.0);
    const double size = fabs(free);
    if (size < most) {
        const double ratio = free / most;
        const double power = eighth_power(ratio);
        const double root = eighth_root(1.0 + power);
        const double by_free = 1.0 / (root * (1.0 + power));
        return (struct held){free / root, by_free, ratio * power * by_free};
    }
    if (most == 0.0)
        return (struct held){0};
    const double ratio = most / size;
    const double power = eighth_power(ratio);
    const double root = eighth_root(1.0 + power);
    const double by_most = copysign(1.0 / (root * (1.0 + power)), free);
    return (struct held){copysign(most / root, free), fabs(by_most) * ratio * power, by_most};
}

struct flow flow_held_under(struct flow free, double most)
{
    const struct held held = held_under(free.value, most);
    struct flow flow = {.value = held.value};
    for (int k = 0; k < GAS_QUANTITIES; k++) {
        flow.slope_a[k] = held.by_free * free.slope_a[k];
        flow.slope_b[k] = held.by_free * free.slope_b[k];
    }
    return flow;
}
