/* sim/law/between.c  The gas between two sides, and slopes given back to both. */
#include "law/between.h"

#include <math.h>

/* Over which difference one side's gas takes over from the other's: tanh(difference/BLEND) is within 4 % of +-1 at
 * 0.5 Pa. Small against any pressure a person can read, wide enough for a stepper to follow. */
#define BLEND 0.25      /* Pa */
#define BLEND_OVER 20.0 /* tanh is 1 to the last bit beyond */

static double mix(double share, double a, double b)
{
    return share * a + (1.0 - share) * b;
}

static struct between between(const struct gas *a, const struct gas *b, double share, double pressure_share)
{
    const double difference = a->excess - b->excess;
    return (struct between){.step = fabs(difference),
                            .sign = difference < 0.0 ? -1.0 : 1.0,
                            .share = share,
                            .pressure_share = pressure_share,
                            .pressure = mix(pressure_share, a->pressure, b->pressure),
                            .temperature = mix(share, a->temperature, b->temperature),
                            .molar_mass = mix(share, a->molar_mass, b->molar_mass),
                            .viscosity = mix(share, a->viscosity, b->viscosity),
                            .gamma = mix(share, a->gamma, b->gamma)};
}

struct between between_upstream(const struct gas *a, const struct gas *b)
{
    const double difference = a->excess - b->excess;
    const double upstream = difference < 0.0 ? 0.0 : 1.0;
    if (fabs(difference) > BLEND_OVER * BLEND)
        return between(a, b, upstream, upstream);
    const double lean = tanh(difference / BLEND);
    struct between gas = between(a, b, 0.5 + 0.5 * lean, upstream);
    gas.share_slope = 0.5 * (1.0 - lean * lean) / BLEND;
    return gas;
}

struct between between_mean(const struct gas *a, const struct gas *b)
{
    return between(a, b, 0.5, 0.5);
}

struct flow flow_spread(const struct response *flow, const struct between *gas, const struct gas *a,
                        const struct gas *b)
{
    const double apart[GAS_QUANTITIES] = {[GAS_TEMPERATURE] = a->temperature - b->temperature,
                                          [GAS_MOLAR_MASS] = a->molar_mass - b->molar_mass,
                                          [GAS_VISCOSITY] = a->viscosity - b->viscosity,
                                          [GAS_GAMMA] = a->gamma - b->gamma};
    struct flow out = {.value = gas->sign * flow->value};
    double by_difference = flow->by_step; /* an odd law has an even slope */
    for (int k = GAS_TEMPERATURE; k < GAS_QUANTITIES; k++) {
        const double slope = gas->sign * flow->by[k];
        out.slope_a[k] = gas->share * slope;
        out.slope_b[k] = (1.0 - gas->share) * slope;
        by_difference += gas->share_slope * slope * apart[k];
    }
    const double by_level = gas->sign * flow->by[GAS_PRESSURE];
    out.slope_a[GAS_PRESSURE] = by_difference + gas->pressure_share * by_level;
    out.slope_b[GAS_PRESSURE] = -by_difference + (1.0 - gas->pressure_share) * by_level;
    return out;
}
