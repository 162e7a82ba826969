/* sim/law/porous.c  Porous spot: Darcy, with the gas expanding on its way.
 *
 *   mdot = k A M (p1^2 - p2^2)/(2 mu depth R T) = k A rho dp/(mu depth),  rho of the mean pressure
 *
 * In terms of the drive on the depth: X = (2 depth^2/k) Re. Creeping only; inertia in the pores is left out. [textbook] */
#include "law/between.h"
#include "law/passages.h"

struct flow porous_flow(double permeability, double area, double depth, const struct gas *a, const struct gas *b)
{
    if (permeability <= 0.0)
        return (struct flow){0};
    const struct between gas = between_mean(a, b);
    const struct response drive = drive_plain(&gas, depth);
    const struct sloped reynolds = reynolds_quadratic(drive.value, 2.0 * depth * depth / permeability, 0.0);
    const struct response flow = reynolds_flow(reynolds, &drive, &gas, area, depth);
    return flow_spread(&flow, &gas, a, b);
}
