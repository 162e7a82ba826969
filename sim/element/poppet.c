/* sim/element/poppet.c  A seat under a spring: what check valves, two-way reliefs and the reliefs of caps have in common.
 *
 * On its seat the gas pushes on the bore alone; once it has lifted, on the rim as well. So it lifts off at `opens` and the
 * spring's line begins lower, at the pressure of reseating: lift is proportional to the excess over that,
 *   lift = (difference - reseats) / (full - reseats),  reseats = opens (1 - hysteresis),  full = opens (1 + overpressure),
 * up to wide open, where the bore and no longer the gap is the narrowest. It pops to hysteresis/(hysteresis +
 * overpressure) of its lift, settles where what it passes is what comes, and is back on its seat without a jump: a small
 * steady flow holds it a hair open and does not make it chatter. Vents for tanks of low pressure are wide open at some
 * 1.8 to 2 times their set pressure, and close some 10 to 30 % under it (from memory, makers' and tank vents' practice).
 * The corner at full lift is rounded, so that the flow has one continuous slope. */
#include "element/elements.h"

#define ROUNDING 0.1 /* of the lift, on either side of the corner */

static double reseats(const struct poppet *poppet)
{
    return poppet->opens * (1.0 - poppet->hysteresis);
}

double poppet_margin(const struct poppet *poppet, double difference, bool on)
{
    return on ? reseats(poppet) - difference : difference - poppet->opens;
}

struct sloped poppet_lift(const struct poppet *poppet, double difference)
{
    const double range = poppet->opens * (poppet->hysteresis + poppet->overpressure);
    const double lift = (difference - reseats(poppet)) / range;
    if (lift <= 0.0) /* about to be found back on its seat */
        return (struct sloped){0.0, 0.0};
    if (lift >= 1.0 + ROUNDING)
        return (struct sloped){1.0, 0.0};
    const double over = fmax(0.0, lift - (1.0 - ROUNDING));
    return (struct sloped){lift - over * over / (4.0 * ROUNDING), (1.0 - over / (2.0 * ROUNDING)) / range};
}

struct sloped two_way_lift(const struct two_way *relief, const bool *on, double difference)
{
    const struct sloped none = {0.0, 0.0};
    const struct sloped out = on[0] ? poppet_lift(&relief->seat[0], difference) : none;
    const struct sloped in = on[1] ? poppet_lift(&relief->seat[1], -difference) : none;
    return (struct sloped){out.value + in.value,
                           out.slope - in.slope}; /* of the two only one is off its seat for long */
}

void two_way_build(struct blueprint *into, int part, int a, int b, struct two_way_words words,
                   double (*pressure_margin)(const struct switch_view *at, bool on),
                   double (*vacuum_margin)(const struct switch_view *at, bool on))
{
    struct switch_plan plan = {
        .part = part, .a = a, .b = b, .margin = pressure_margin, .turns_on = words.opens, .turns_off = words.shuts};
    blueprint_switch(into, plan);
    plan.margin = vacuum_margin;
    plan.turns_on = words.opens_inward;
    blueprint_switch(into, plan);
}
