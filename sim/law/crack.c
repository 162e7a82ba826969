/* sim/law/crack.c  Crack of unknown shape: the power law of air-leak practice.
 *
 *   mdot = C rho dp (dp^2 + p1^2)^((n-1)/2),  p1 = 1 Pa,  rho upstream
 *
 * Linear below p1, so that the slope at zero is finite; C dp^n above. It knows no sound: a fit to small differences,
 * good for small differences. */
#include "law/between.h"
#include "law/passages.h"

#include <assert.h>
#include <math.h>

#define LINEAR_BELOW 1.0 /* Pa */

struct flow crack_flow(double coefficient, double exponent, const struct gas *a, const struct gas *b)
{
    assert(0.5 <= exponent && exponent <= 1.0);
    const struct between gas = between_upstream(a, b);
    const double square = gas.step * gas.step + LINEAR_BELOW * LINEAR_BELOW;
    const double slope = coefficient * pow(square, 0.5 * (exponent - 1.0)); /* of volume flow, as if straight */
    const double bend = 1.0 + (exponent - 1.0) * gas.step * gas.step / square;
    const double molar_density = gas.pressure / (GAS_CONSTANT * gas.temperature);
    const double value = molar_density * slope * gas.step;
    const struct response flow = {
        .value = value,
        .by_step = molar_density * slope * bend,
        .by = {[GAS_PRESSURE] = value / gas.pressure, [GAS_TEMPERATURE] = -value / gas.temperature}};
    return flow_spread(&flow, &gas, a, b);
}
