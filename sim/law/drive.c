/* sim/law/drive.c  The chain that holes, slits, tubes, beds and porous spots have in common.
 *
 *   X = 2 rho dp l^2/mu^2      drive: square of the Reynolds number of flow without friction
 *   X = K0 Re + K Re^2         what the passage makes of it: K0 creeping, K inertia (it may hang on X itself)
 *   mol flow = area mu Re/(l M)
 *
 * X goes to zero with dp, so Re = X/K0 there and the flow has a finite slope: no square root is left bare. */
#include "law/between.h"

#include <math.h>

/* Coefficients of discharge of a sharp hole against the ratio r of the pressures, lowest power first: the jet contracts
 * less as r falls, from 0.600 at r = 1 to 0.841 into a vacuum. Put in relation to r = 1, where hole.c takes over.
 * [PERRYJA1949] */
static const double sharp[] = {0.8414, -0.1002, 0.8415, -3.9, 4.6001, -1.6827};

enum { SHARP_TERMS = sizeof sharp / sizeof sharp[0] };

static struct sloped polynomial(double x)
{
    struct sloped p = {0};
    for (int i = SHARP_TERMS - 1; i >= 0; i--) {
        p.slope = p.slope * x + p.value;
        p.value = p.value * x + sharp[i];
    }
    return p;
}

struct response drive_plain(const struct between *gas, double length)
{
    const double mu = gas->viscosity;
    const double density = gas->pressure * gas->molar_mass / (GAS_CONSTANT * gas->temperature);
    const double by_step = 2.0 * density * (length / mu) * (length / mu);
    const double x = by_step * gas->step;
    return (struct response){.value = x,
                             .by_step = by_step,
                             .by = {[GAS_PRESSURE] = x / gas->pressure,
                                    [GAS_TEMPERATURE] = -x / gas->temperature,
                                    [GAS_MOLAR_MASS] = x / gas->molar_mass,
                                    [GAS_VISCOSITY] = -2.0 * x / mu}};
}

/* X = (l p/mu)^2 M/(R T) psi^2 c^2, since 2 rho dp eps^2 = p^2 M/(R T) psi^2 c^2 with eps against dp, psi against p.
 * c = 1 + thin (sharp(r)/sharp(1) - 1). */
struct response drive_expanding(const struct between *gas, double length, double thin)
{
    const double p = gas->pressure;
    const double mu = gas->viscosity;
    const double drop = fmin(gas->step / p, 1.0);
    const struct expansion psi = isentropic_square(drop, gas->gamma);
    const struct sloped now = polynomial(1.0 - drop);
    const double usual = polynomial(1.0).value;
    const double c = 1.0 + thin * (now.value / usual - 1.0);
    const double c_by_drop = -thin * now.slope / usual;

    const double scale = (length * p / mu) * (length * p / mu) * gas->molar_mass / (GAS_CONSTANT * gas->temperature);
    const double x = scale * psi.value * c * c;
    const double by_drop = scale * c * (psi.by_drop * c + 2.0 * psi.value * c_by_drop);
    return (struct response){.value = x,
                             .by_step = by_drop / p,
                             .by = {[GAS_PRESSURE] = (2.0 * x - by_drop * drop) / p,
                                    [GAS_TEMPERATURE] = -x / gas->temperature,
                                    [GAS_MOLAR_MASS] = x / gas->molar_mass,
                                    [GAS_VISCOSITY] = -2.0 * x / mu,
                                    [GAS_GAMMA] = scale * psi.by_gamma * c * c}};
}

struct response reynolds_flow(struct sloped reynolds, const struct response *drive, const struct between *gas,
                              double area, double length)
{
    const double scale = area * gas->viscosity / (length * gas->molar_mass);
    const double by_drive = scale * reynolds.slope;
    struct response flow = {.value = scale * reynolds.value, .by_step = by_drive * drive->by_step};
    for (int k = 0; k < GAS_QUANTITIES; k++)
        flow.by[k] = by_drive * drive->by[k];
    flow.by[GAS_VISCOSITY] += flow.value / gas->viscosity;
    flow.by[GAS_MOLAR_MASS] -= flow.value / gas->molar_mass;
    return flow;
}

struct sloped reynolds_quadratic(double drive, double viscous, double inertial)
{
    return reynolds_varying(drive, viscous, (struct sloped){inertial, 0.0});
}

struct sloped reynolds_varying(double drive, double viscous, struct sloped inertial)
{
    const double root = sqrt(viscous * viscous + 4.0 * inertial.value * drive); /* K0 + 2 K Re */
    const double re = 2.0 * drive / (viscous + root);
    return (struct sloped){re, (1.0 - re * re * inertial.slope) / root};
}
