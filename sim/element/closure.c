/* sim/element/closure.c  Openings, and what closes them: valves, caps, seats. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

struct flow opening_flow(double diameter, double wall, double discharge, const struct gas *a, const struct gas *b)
{
    if (!(diameter > 0.0))
        return (struct flow){0};
    return discharge > 0.0 ? nozzle_flow(0.25 * M_PI * diameter * diameter, discharge, a, b)
                           : hole_flow(diameter, wall, a, b);
}

struct flow closure_flow(const struct passage_view *at, double bore, double leak, const struct gas *a,
                         const struct gas *b)
{
    struct flow through = {0};
    if (at->opening > 0.0)
        through = flow_times(opening_flow(bore, 0.0, at->discharge, a, b), at->opening);
    if (leak > 0.0 && at->opening < 1.0)
        through = flow_plus(through, flow_times(opening_flow(leak, 0.0, at->discharge, a, b), 1.0 - at->opening));
    return through;
}

struct flow seat_flow(struct sloped share, double bore, double leak, double discharge, const struct gas *a,
                      const struct gas *b)
{
    const struct flow tight = opening_flow(leak, 0.0, discharge, a, b);
    if (!(share.value > 0.0))
        return tight;
    const struct flow wide = opening_flow(bore, 0.0, discharge, a, b);
    struct flow through = flow_plus(flow_times(wide, share.value), flow_times(tight, 1.0 - share.value));
    const double lifts = share.slope * (wide.value - tight.value);
    through.slope_a[GAS_PRESSURE] += lifts;
    through.slope_b[GAS_PRESSURE] -= lifts;
    return through;
}

double closure_seeps(const struct passage_view *at, double bore, double leak)
{
    return sqrt(at->opening * bore * bore + (1.0 - at->opening) * leak * leak);
}
