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

struct flow bed_flow(double area, double length, double particle, double void_share, const struct gas *a,
                     const struct gas *b)
{
    assert(length > 0.0 && particle > 0.0 && 0.0 < void_share && void_share < 1.0);
    const struct between gas = between_mean(a, b);
    const struct response drive = drive_plain(&gas, particle);
    const double solid = 1.0 - void_share;
    const double grains = length / particle / (void_share * void_share * void_share);
    const double viscous = 2.0 * ERGUN_VISCOUS * solid * solid * grains;
    const double inertial = 2.0 * ERGUN_INERTIAL * solid * grains;
    const struct sloped reynolds = reynolds_quadratic(drive.value, viscous, inertial);
    const struct response flow = reynolds_flow(reynolds, &drive, &gas, area, particle);
    return flow_spread(&flow, &gas, a, b);
}
