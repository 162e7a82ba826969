/* sim/law/bed.c  Packed bed of grains, D particle diameter, e void share, G mass flow per bed area:
 *
 *   rho dp/L = 150 mu (1-e)^2/(e^3 D^2) G + 1.75 (1-e)/(e^3 D) G^2,   rho of the mean pressure
 *
 * In terms of the drive on D, Re = G D/mu:  X = 300 (1-e)^2/e^3 (L/D) Re + 3.5 (1-e)/e^3 (L/D) Re^2. [ERGUN1952] */
#include "law/between.h"
#include "law/passages.h"

#include <assert.h>

#define ERGUN_VISCOUS 150.0
#define ERGUN_INERTIAL 1.75

/* X = viscous Re + inertial Re^2 */
struct ergun {
    double viscous, inertial;
};

static struct ergun ergun(double length, double particle, double void_share)
{
    assert(length > 0.0 && particle > 0.0 && 0.0 < void_share && void_share < 1.0);
    const double solid = 1.0 - void_share;
    const double grains = length / particle / (void_share * void_share * void_share);
    return (struct ergun){2.0 * ERGUN_VISCOUS * solid * solid * grains, 2.0 * ERGUN_INERTIAL * solid * grains};
}

struct flow bed_flow(double area, double length, double particle, double void_share, const struct gas *a,
                     const struct gas *b)
{
    const struct between gas = between_mean(a, b);
    const struct response drive = drive_plain(&gas, particle);
    const struct ergun loss = ergun(length, particle, void_share);
    const struct sloped reynolds = reynolds_quadratic(drive.value, loss.viscous, loss.inertial);
    const struct response flow = reynolds_flow(reynolds, &drive, &gas, area, particle);
    return flow_spread(&flow, &gas, a, b);
}

/* The same X: 0 = viscous' Re + inertial' Re^2 + (viscous + 2 inertial Re) Re'. */
double bed_void_slope(double area, double length, double particle, double void_share, const struct gas *a,
                      const struct gas *b)
{
    const struct between gas = between_mean(a, b);
    const struct response drive = drive_plain(&gas, particle);
    const struct ergun loss = ergun(length, particle, void_share);
    const double re = reynolds_quadratic(drive.value, loss.viscous, loss.inertial).value;
    const double solid = 1.0 - void_share, cubed = 3.0 / void_share;
    const double more = loss.viscous * (2.0 / solid + cubed) + loss.inertial * (1.0 / solid + cubed) * re;
    const struct sloped reynolds = {re * more / (loss.viscous + 2.0 * loss.inertial * re), 0.0};
    const struct response slope = reynolds_flow(reynolds, &drive, &gas, area, particle);
    return flow_spread(&slope, &gas, a, b).value;
}
