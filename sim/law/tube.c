/* sim/law/tube.c  Tube: friction through all regimes, minor losses, never faster than sound.
 *
 *   dp = (f L/d + K) rho v^2/2,  rho of the mean pressure, so that p1^2 - p2^2 drives a long tube
 *   f  = 8 ((8/Re)^12 + (A + B)^(-3/2))^(1/12),
 *   A  = (2.457 ln(1/((7/Re)^0.9 + 0.27 e/d)))^16,  B = (37530/Re)^16                            [CHURCHILL1977]
 *
 * With X = 2 rho dp d^2/mu^2 (drive.c):  X = (L/d) (f Re) Re + K Re^2. Written for f Re, which is 64 at rest and never
 * falls; so X rises with Re everywhere, through the transition too, and has one inverse. Re is found by Newton's method
 * in logarithms from above, kept between bounds; slopes come from the same relation at the Re found.
 * A screen or filter in it takes pressure in step with the flow and the viscosity, without a transition of its own.
 * The free flow is held under that of sound in the bore (limit.c). */
#include "law/between.h"
#include "law/passages.h"

#include <assert.h>
#include <math.h>

#define PI 3.14159265358979323846

#define STILL_LAMINAR 500.0 /* Re; below, turbulence adds under 1e-24 to f Re */
#define ROUGHEST 0.05       /* e/d: where the charts of friction end */
#define CLOSE_ENOUGH 1e-13  /* of ln Re */

static double twelfth_root(double x)
{
    return cbrt(sqrt(sqrt(x)));
}

static double sixteenth_power(double x)
{
    const double x2 = x * x;
    const double x4 = x2 * x2;
    const double x8 = x4 * x4;
    return x8 * x8;
}

/* f Re; slope by ln Re. */
static struct sloped friction(double re, double relative_roughness)
{
    if (re < STILL_LAMINAR)
        return (struct sloped){64.0, 0.0};
    const double thinning = pow(7.0 / re, 0.9);
    const double inside = thinning + 0.27 * relative_roughness;
    const double log_inside = log(inside);
    const double a = sixteenth_power(2.457 * log_inside);
    const double b = sixteenth_power(37530.0 / re);
    const double a_slope = -a * 16.0 * 0.9 * thinning / (inside * log_inside);
    const double b_slope = -16.0 * b;

    const double re2 = re * re;
    const double quotient = re2 * re2 * re2 * re2 / (a + b);
    const double turbulent = quotient * sqrt(quotient);
    const double laminar = 68719476736.0; /* 8^12 */
    const double turbulent_slope = 1.5 * turbulent * (8.0 - (a_slope + b_slope) / (a + b));
    const double value = 8.0 * twelfth_root(laminar + turbulent);
    return (struct sloped){value, value * turbulent_slope / (12.0 * (laminar + turbulent))};
}

/* The tube as ratios. */
struct shape {
    double stretch, relative_roughness, loss; /* L/d, e/d, K */
    double screen;                            /* X/Re of what takes pressure in step with the flow */
};

/* X; slope by ln Re. */
static struct sloped tube_drive(const struct shape *shape, double re)
{
    const struct sloped f = friction(re, shape->relative_roughness);
    const double rub = shape->stretch * re;
    const double swirl = shape->loss * re * re, seep = shape->screen * re;
    return (struct sloped){rub * f.value + swirl + seep, rub * (f.value + f.slope) + 2.0 * swirl + seep};
}

/* Re with slope d/dX. Laminar friction gives an upper bound of Re; friction at that bound, a lower one. */
static struct sloped tube_reynolds(const struct shape *shape, double drive)
{
    enum { STEPS_MOST = 100 };
    const struct sloped laminar = reynolds_quadratic(drive, 64.0 * shape->stretch + shape->screen, shape->loss);
    if (laminar.value < STILL_LAMINAR)
        return laminar;
    double high = laminar.value;
    const double most_friction = friction(high, shape->relative_roughness).value;
    double low = reynolds_quadratic(drive, most_friction * shape->stretch + shape->screen, shape->loss).value;
    double re = high;
    struct sloped at = tube_drive(shape, re);
    for (int i = 0; i < STEPS_MOST; i++) {
        const double change = -log(at.value / drive) * at.value / at.slope;
        if (fabs(change) < CLOSE_ENOUGH)
            break;
        *(change < 0.0 ? &high : &low) = re;
        re *= exp(change);
        if (!(low < re && re < high))
            re = sqrt(low * high);
        at = tube_drive(shape, re);
    }
    return (struct sloped){re, re / at.slope};
}

static struct response tube_held(const struct response *free, const struct response *most)
{
    const struct held held = held_under(free->value, most->value);
    struct response flow = {.value = held.value,
                            .by_step = held.by_free * free->by_step + held.by_most * most->by_step};
    for (int k = 0; k < GAS_QUANTITIES; k++)
        flow.by[k] = held.by_free * free->by[k] + held.by_most * most->by[k];
    return flow;
}

struct flow tube_flow(double bore, double length, double roughness, double loss, const struct gas *a,
                      const struct gas *b)
{
    return screened_flow(bore, length, roughness, loss, 0.0, a, b);
}

/* A screen takes mu r V, with the volume flow V = pi d mu Re/(4 rho): X = pi/2 r d^3 Re. */
struct flow screened_flow(double bore, double length, double roughness, double loss, double resists,
                          const struct gas *a, const struct gas *b)
{
    assert(length > 0.0 && loss >= 0.0 && roughness >= 0.0 && resists >= 0.0);
    if (bore <= 0.0)
        return (struct flow){0};
    const struct between gas = between_mean(a, b);
    const struct shape shape = {length / bore, fmin(roughness / bore, ROUGHEST), loss,
                                0.5 * PI * resists * bore * bore * bore};
    const double area = 0.25 * PI * bore * bore;
    const struct response drive = drive_plain(&gas, bore);
    const struct sloped reynolds = tube_reynolds(&shape, drive.value);
    const struct response free = reynolds_flow(reynolds, &drive, &gas, area, bore);
    const struct response most = sonic_flow(area, &gas);
    const struct response flow = tube_held(&free, &most);
    return flow_spread(&flow, &gas, a, b);
}
