/* sim/law/dip.c  Openings that a liquid can cover.
 *
 *   cover  c = t^2 (3 - 2 t),  t = (rise/radius + 1)/2 in 0..1: the share of a disc's height, smoothed at both ends
 *   head   integral of c over the rise: 2 radius (t^3 - t^4/2), from there on the rise itself
 *   drain  Q = Cd A sqrt(2/rho) dp/sqrt(dp + d0): an orifice of Cd = 0.61 (plane jet, potential flow), in its creeping
 *          limit Q = d^3 dp/(24 mu) [SAMPSON1891], which sets d0 = (6 pi Cd mu/d)^2 2/rho */
#include "law/dip.h"

#include <assert.h>
#include <math.h>

#define CONTRACTS 0.61

static double dipped(double rise, double radius)
{
    assert(radius > 0.0);
    return fmin(fmax(0.5 * (rise / radius + 1.0), 0.0), 1.0);
}

struct sloped dip_cover(double rise, double radius)
{
    const double t = dipped(rise, radius);
    return (struct sloped){t * t * (3.0 - 2.0 * t), 3.0 * t * (1.0 - t) / radius};
}

struct sloped dip_head(double rise, double radius)
{
    const double t = dipped(rise, radius);
    const double head = rise > radius ? rise : 2.0 * radius * t * t * t * (1.0 - 0.5 * t);
    return (struct sloped){head, t * t * (3.0 - 2.0 * t)};
}

struct sloped dip_drain(double diameter, double density, double viscosity, double drop)
{
    if (!(drop > 0.0 && diameter > 0.0))
        return (struct sloped){0.0, 0.0};
    const double orifice = CONTRACTS * 0.25 * M_PI * diameter * diameter * sqrt(2.0 / density);
    const double creeps = 6.0 * M_PI * CONTRACTS * viscosity / diameter;
    const double below = drop + creeps * creeps * 2.0 / density;
    const double root = sqrt(below);
    return (struct sloped){orifice * drop / root, orifice / root * (1.0 - 0.5 * drop / below)};
}
