/* sim/law/nozzle.c  Ideal gas through an isentropic nozzle.
 *
 *   mass flow = Cd area p_up psi sqrt(M/(R T)),  psi^2 = (2 g/(g-1)) (r^(2/g) - r^((g+1)/g)),
 *   r = p_down/p_up, not below (2/(g+1))^(g/(g-1)), where the throat reaches sound and no longer feels what lies behind.
 *
 * psi^2 is worked out from drop = 1 - r = step/p_up as  -(2 g/(g-1)) r^(2/g) (r^((g-1)/g) - 1)  with log1p and expm1:
 * no digits are lost at a drop of 1e-8, where the difference of the two powers would have none left.
 * Source: [NACA1135] eqs 43-45, 80. */
#include "law/between.h"
#include "law/passages.h"

#include <math.h>
#include <stdbool.h>

/* Under this difference the root is replaced: its slope at zero has no bound. */
#define ROOT_FROM 1.0 /* Pa */

struct expansion isentropic_square(double drop, double gamma)
{
    const double k = (gamma - 1.0) / gamma;
    const double log_critical = -log(0.5 * (gamma + 1.0)) / k;
    const double log_ratio = fmax(log1p(-drop), log_critical);
    const bool choked = log_ratio <= log_critical;
    const double cooling = expm1(k * log_ratio);          /* T/T_up - 1 */
    const double thinning = exp(2.0 * log_ratio / gamma); /* (rho/rho_up)^2 */
    const double value = -2.0 * thinning * cooling / k;
    const double warm = 2.0 * thinning * (1.0 + cooling);
    const double by_log_ratio = 2.0 * value / gamma - warm;
    const double by_gamma = -((value + warm * log_ratio) / k + 2.0 * value * log_ratio) / (gamma * gamma);
    return (struct expansion){value, choked ? 0.0 : -by_log_ratio / (1.0 - drop), by_gamma};
}

/* psi as a function of psi^2, and of its square at ROOT_FROM below which a cubic stands in for the root. */
struct root {
    double value, by_square, by_joint;
};

static struct root root_plain(double square)
{
    const double root = sqrt(square);
    return (struct root){root, 0.5 / root, 0.0};
}

/* sqrt(joint) (5 z - z^3)/4 with z = square/joint: value and slope of the root at z = 1, finite slope at 0. */
static struct root root_cubic(double square, double joint)
{
    const double z = square / joint;
    const double scale = sqrt(joint);
    const double value = scale * z * (5.0 - z * z) / 4.0;
    const double by_square = (5.0 - 3.0 * z * z) / (4.0 * scale);
    return (struct root){value, by_square, 0.5 * value / joint - by_square * z};
}

struct flow nozzle_flow(double area, double discharge, const struct gas *a, const struct gas *b)
{
    const struct between gas = between_upstream(a, b);
    const double p = gas.pressure;
    const double drop = fmin(gas.step / p, 1.0);
    const struct expansion here = isentropic_square(drop, gas.gamma);
    struct expansion joint = {0};
    struct root psi;
    if (gas.step >= ROOT_FROM) {
        psi = root_plain(here.value);
    } else {
        joint = isentropic_square(fmin(ROOT_FROM / p, 1.0), gas.gamma);
        psi = root_cubic(here.value, joint.value);
    }
    const double scale = discharge * area * p / sqrt(gas.molar_mass * GAS_CONSTANT * gas.temperature);
    const double by_drop = scale * psi.by_square * here.by_drop;
    const double by_joint_drop = scale * psi.by_joint * joint.by_drop;
    struct response flow = {.value = scale * psi.value, .by_step = by_drop / p};
    flow.by[GAS_PRESSURE] = (flow.value - by_drop * drop - by_joint_drop * ROOT_FROM / p) / p;
    flow.by[GAS_TEMPERATURE] = -0.5 * flow.value / gas.temperature;
    flow.by[GAS_MOLAR_MASS] = -0.5 * flow.value / gas.molar_mass;
    flow.by[GAS_GAMMA] = scale * (psi.by_square * here.by_gamma + psi.by_joint * joint.by_gamma);
    return flow_spread(&flow, &gas, a, b);
}

struct response sonic_flow(double area, const struct between *gas)
{
    const double p = gas->pressure + 0.5 * gas->step; /* the higher one, seen from the mean */
    const struct expansion choked = isentropic_square(1.0, gas->gamma);
    const double per_pressure = area * sqrt(choked.value / (gas->molar_mass * GAS_CONSTANT * gas->temperature));
    struct response flow = {.value = per_pressure * p, .by_step = 0.5 * per_pressure};
    flow.by[GAS_PRESSURE] = per_pressure;
    flow.by[GAS_TEMPERATURE] = -0.5 * flow.value / gas->temperature;
    flow.by[GAS_MOLAR_MASS] = -0.5 * flow.value / gas->molar_mass;
    flow.by[GAS_GAMMA] = 0.5 * flow.value * choked.by_gamma / choked.value;
    return flow;
}
