/* sim/law/hole.c  Round hole of any wall thickness, and the hole that a flow amounts to.
 *
 * lam = wall/diameter, w = share that behaves as thin, X = drive (drive.c), Re = 4 mdot/(pi mu d):
 *
 *   K0 = 12 pi + 64 lam                                       creeping: [SAMPSON1891] thin, [DAGAN1982] thick
 *   R1 = 2 X/(K0 + sqrt(K0^2 + 8 X))                          first estimate of Re
 *   G  = 1 - exp(-R1/20.4)                                    inertia takes over
 *   H  = 1.60 + 0.45/(1 + (R1/(105 (lam + 0.25)^1.22))^1.6)   the jet fills the bore
 *   s  = 1/(1 + (2720 lam^0.68/R1)^(0.76 + 2.82 lam))         the jet leaves free; none from lam = 2 on
 *   K  = G (H + (2.66 - H) s w),   Re = 2 X/(K0 + sqrt(K0^2 + 4 K X))
 *
 * A dozen constants fitted to a solution of the steady Navier-Stokes equations for lam 0.02 to 8 and Re 0.1 to 1500
 * [HOLE158]: 0.75 % off in the mean square, 2.7 % at worst. Cd ends at 0.613 (thin) or 0.79 (lam >= 1) for large Re.
 *
 * Under lam = 0.02 nothing was fitted, and s would switch at Re 25, long before there is a jet to leave free: at Re 95
 * Cd would be 0.60, where the solution has 0.65 (lam 0.02) and [WU2002] has 0.69. There K stays what it is at 0.02;
 * K0 goes on to the thin limit, which is exact. */
#include "law/between.h"
#include "law/passages.h"

#include <math.h>

#define PI 3.14159265358979323846

#define FREE_JET_INERTIA 2.66  /* K of a jet that leaves free: Cd 0.613 */
#define FULL_BORE_INERTIA 1.60 /* K of a bore filled again: Cd 0.79 */
#define FITTED_FROM 0.02       /* lam */
#define NO_FREE_JET_FROM 2.0   /* lam */
#define INERTIA_FROM 20.4      /* Re */
#define THIN_UNTIL 0.7         /* lam at which half the hole behaves as thin */

double thin_share(double depth_over_width)
{
    const double x2 = (depth_over_width / THIN_UNTIL) * (depth_over_width / THIN_UNTIL);
    return 1.0 / (1.0 + x2 * x2 * x2);
}

struct sloped reynolds_estimate(double drive, double viscous)
{
    return reynolds_quadratic(drive, viscous, 2.0);
}

struct sloped inertia_share(struct sloped estimate)
{
    const double share = -expm1(-estimate.value / INERTIA_FROM);
    return (struct sloped){share, (1.0 - share) / INERTIA_FROM * estimate.slope};
}

/* H, with slope d/dR1. The 1.6th power goes by logarithm, which free_jet() shares. */
static struct sloped bore_filling(double lam, double estimate, double log_estimate)
{
    const double log_half = log(105.0) + 1.22 * log(lam + 0.25);
    const double power = exp(1.6 * (log_estimate - log_half));
    const double left = 1.0 / (1.0 + power);
    return (struct sloped){FULL_BORE_INERTIA + 0.45 * left, -0.45 * left * left * 1.6 * power / estimate};
}

/* s, with slope d/dR1. */
static struct sloped free_jet(double lam, double estimate, double log_estimate)
{
    if (lam >= NO_FREE_JET_FROM)
        return (struct sloped){0.0, 0.0};
    const double exponent = 0.76 + 2.82 * lam;
    const double log_half = log(2720.0) + 0.68 * log(lam);
    const double share = 1.0 / (1.0 + exp(exponent * (log_half - log_estimate)));
    return (struct sloped){share, exponent * share * (1.0 - share) / estimate};
}

/* K, with slope d/dX. */
static struct sloped hole_inertia(double lam, struct sloped estimate)
{
    const double log_estimate = log(estimate.value);
    const struct sloped g = inertia_share(estimate);
    const struct sloped h = bore_filling(lam, estimate.value, log_estimate);
    const struct sloped s = free_jet(lam, estimate.value, log_estimate);
    const double w = thin_share(lam);
    const double full = h.value + (FREE_JET_INERTIA - h.value) * s.value * w;
    const double full_slope = h.slope * (1.0 - s.value * w) + (FREE_JET_INERTIA - h.value) * s.slope * w;
    return (struct sloped){g.value * full, g.slope * full + g.value * full_slope * estimate.slope};
}

static struct sloped hole_reynolds(double drive, double wall_over_diameter)
{
    const double viscous = 12.0 * PI + 64.0 * wall_over_diameter;
    const struct sloped estimate = reynolds_estimate(drive, viscous);
    if (estimate.value < 1e-12) /* creeping to the last bit */
        return (struct sloped){drive / viscous, 1.0 / viscous};
    return reynolds_varying(drive, viscous, hole_inertia(fmax(wall_over_diameter, FITTED_FROM), estimate));
}

struct flow hole_flow(double diameter, double wall, const struct gas *a, const struct gas *b)
{
    if (diameter <= 0.0)
        return (struct flow){0};
    const struct between gas = between_upstream(a, b);
    const double stretch = wall / diameter;
    const struct response drive = drive_expanding(&gas, diameter, thin_share(stretch));
    const struct sloped reynolds = hole_reynolds(drive.value, stretch);
    const struct response flow = reynolds_flow(reynolds, &drive, &gas, 0.25 * PI * diameter * diameter, diameter);
    return flow_spread(&flow, &gas, a, b);
}

/* With no wall neither stretch nor expansion know the diameter: drive = unit d^2, flow = c d Re(drive). In logarithms
 * the relation is nearly straight, of slope 2 to 3, and three or four Newton steps end in round-off. */
double equivalent_hole(double flow, const struct gas *a, const struct gas *b, double largest)
{
    enum { STEPS_MOST = 40 };
    const struct between gas = between_upstream(a, b);
    if (!(flow > 0.0) || gas.sign < 0.0 || !(gas.step > 0.0))
        return 0.0;
    if (hole_flow(largest, 0.0, a, b).value <= flow)
        return largest;
    const double unit = drive_expanding(&gas, 1.0, thin_share(0.0)).value;
    const double per_diameter = 0.25 * PI * gas.viscosity / gas.molar_mass;
    double diameter = largest;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double drive = unit * diameter * diameter;
        const struct sloped re = hole_reynolds(drive, 0.0);
        const double steepness = 1.0 + 2.0 * drive * re.slope / re.value;
        const double change = log(flow / (per_diameter * diameter * re.value)) / steepness;
        diameter *= exp(change);
        if (fabs(change) < 1e-9) /* the step after it would be its square */
            break;
    }
    return fmin(diameter, largest);
}
