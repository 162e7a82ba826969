/* sim/law/convection.c  Natural convection at walls and level surfaces.
 *
 *   wall, cylinder: Nu = (a + 0.387 Ra^(1/6) / (1 + (c/Pr)^(9/16))^(8/27))^2                        [CHURCHILLCHU1975]
 *                   a = 0.825, c = 0.492 on the height; a = 0.60, c = 0.559 on the diameter; for laminar and turbulent
 *                   flow alike, 15 % over the same authors' laminar relation near Ra 1e8
 *   overturning:    Nu = 0.54 Ra^(1/4), from Ra 1e7 on 0.15 Ra^(1/3), on area/perimeter                 [LLOYD1974]
 *                   joined as (x^10 + y^10)^(1/10), 8 % above either where they meet                 [RAITHBY1975]
 *   settled, open:  Nu = 0.52 Ra^(1/5)                                                             [RADZIEMSKA2001]
 *   settled, closed: conduction. Warm fluid over cold does not stir itself.
 *   in a stream:    Nu = sqrt(lam^2 + tur^2), lam = 0.664 Re^(1/2) Pr^(1/3),
 *                   tur = 0.037 Re^0.8 Pr/(1 + 2.443 Re^-0.1 (Pr^(2/3) - 1))                       [GNIELINSKI1975]
 *
 * Ra^(1/6) rises upright from zero, so the difference of temperature d is taken as sqrt(d^2 + W^2), W = 0.05 K: 0.02 %
 * of a coefficient at 1 K, and a finite slope at rest. A level surface is settled for d <= 0; above, overturning takes
 * the share d^2/(d^2 + W^2), 0.25 % short of all at 1 K. Heat so rises with d everywhere: a share that reached under
 * zero would let it fall there. */
#include "law/convection.h"

#include <assert.h>
#include <math.h>

#define STIRRED 0.05 /* K, W */

struct convective convective_gas(double pressure, double temperature, double molar_mass, double heat_capacity,
                                 double viscosity, double conductivity)
{
    const double density = pressure * molar_mass / (GAS_CONSTANT * temperature);
    return convective_liquid(density, 1.0 / temperature, heat_capacity / molar_mass, viscosity, conductivity);
}

struct convective convective_liquid(double density, double expansion, double heat_capacity, double viscosity,
                                    double conductivity)
{
    assert(density > 0.0 && viscosity > 0.0 && conductivity > 0.0);
    const double kinematic = viscosity / density;
    const double thermal = conductivity / (density * heat_capacity);
    return (struct convective){GRAVITY * expansion / (kinematic * thermal), kinematic / thermal, conductivity,
                               kinematic};
}

/* All below is worked out along one quantity on which lengths and difference may hang. */
static struct sloped constant(double value)
{
    return (struct sloped){value, 0.0};
}

static struct sloped itself(double value)
{
    return (struct sloped){value, 1.0};
}

/* Size of a difference, never zero: sqrt(d^2 + W^2). */
static struct sloped size_of(struct sloped difference)
{
    const double size = sqrt(difference.value * difference.value + STIRRED * STIRRED);
    return (struct sloped){size, difference.value / size * difference.slope};
}

/* Rayleigh's number. */
static struct sloped rayleigh(const struct convective *fluid, struct sloped length, struct sloped difference)
{
    const struct sloped size = size_of(difference);
    const double per_kelvin = fluid->buoyancy * length.value * length.value * length.value;
    return (struct sloped){per_kelvin * size.value,
                           per_kelvin * (size.slope + 3.0 * size.value * length.slope / length.value)};
}

/* factor * of^exponent */
static struct sloped power(struct sloped of, double factor, double exponent)
{
    const double value = factor * pow(of.value, exponent);
    return (struct sloped){value, exponent * value / of.value * of.slope};
}

/* (a^n + b^n)^(1/n) of positive a, b, n = 10: the larger, round the corner. */
static struct sloped larger(struct sloped a, struct sloped b)
{
    const double n = 10.0;
    const double most = fmax(a.value, b.value);
    const double a_part = pow(a.value / most, n), b_part = pow(b.value / most, n);
    const double sum = a_part + b_part;
    const double value = most * pow(sum, 1.0 / n);
    return (struct sloped){value, value / sum * (a_part * a.slope / a.value + b_part * b.slope / b.value)};
}

/* Coefficient from Nusselt's number. */
static struct sloped coefficient(const struct convective *fluid, struct sloped length, struct sloped nusselt)
{
    assert(length.value > 0.0);
    const double scale = fluid->conductivity / length.value;
    return (struct sloped){scale * nusselt.value,
                           scale * (nusselt.slope - nusselt.value * length.slope / length.value)};
}

static struct sloped boundary_layer(const struct convective *fluid, struct sloped length, struct sloped difference,
                                    double rest, double prandtl)
{
    const double slip = pow(1.0 + pow(prandtl / fluid->prandtl, 9.0 / 16.0), 8.0 / 27.0);
    const struct sloped stirred = power(rayleigh(fluid, length, difference), 0.387 / slip, 1.0 / 6.0);
    const double root = rest + stirred.value;
    return coefficient(fluid, length, (struct sloped){root * root, 2.0 * root * stirred.slope});
}

struct sloped convection_wall_along(const struct convective *fluid, struct sloped height, struct sloped difference)
{
    return boundary_layer(fluid, height, difference, 0.825, 0.492);
}

struct sloped convection_wall(const struct convective *fluid, double height, double difference)
{
    return convection_wall_along(fluid, constant(height), itself(difference));
}

struct sloped convection_cylinder_along(const struct convective *fluid, double diameter, struct sloped difference)
{
    return boundary_layer(fluid, constant(diameter), difference, 0.60, 0.559);
}

struct sloped convection_cylinder(const struct convective *fluid, double diameter, double difference)
{
    return convection_cylinder_along(fluid, diameter, itself(difference));
}

static struct sloped overturning(const struct convective *fluid, double size, struct sloped difference)
{
    const struct sloped ra = rayleigh(fluid, constant(size), difference);
    return coefficient(fluid, constant(size), larger(power(ra, 0.54, 1.0 / 4.0), power(ra, 0.15, 1.0 / 3.0)));
}

/* From the coefficient of a settled fluid, for differences under zero, to that of one that overturns. */
static struct sloped change_over(struct sloped settled, struct sloped stirred, struct sloped difference)
{
    if (difference.value <= 0.0)
        return settled;
    const double square = difference.value * difference.value;
    const double below = square + STIRRED * STIRRED;
    const double share = square / below;
    const double share_slope = 2.0 * difference.value * STIRRED * STIRRED / (below * below) * difference.slope;
    const double more = stirred.value - settled.value;
    return (struct sloped){settled.value + share * more,
                           settled.slope + share * (stirred.slope - settled.slope) + share_slope * more};
}

struct sloped convection_plate_along(const struct convective *fluid, double size, struct sloped difference)
{
    const struct sloped settled =
        coefficient(fluid, constant(size), power(rayleigh(fluid, constant(size), difference), 0.52, 1.0 / 5.0));
    return change_over(settled, overturning(fluid, size, difference), difference);
}

struct sloped convection_plate(const struct convective *fluid, double size, double difference)
{
    return convection_plate_along(fluid, size, itself(difference));
}

struct sloped convection_layer_along(const struct convective *fluid, double size, struct sloped path,
                                     struct sloped difference)
{
    const double conducts = fluid->conductivity / path.value;
    const struct sloped still = {conducts, -conducts * path.slope / path.value};
    const struct sloped stirred = larger(overturning(fluid, size, difference), still);
    return change_over(still, stirred, difference);
}

struct sloped convection_layer(const struct convective *fluid, double size, double path, double difference)
{
    return convection_layer_along(fluid, size, constant(path), itself(difference));
}

struct sloped convection_forced_along(const struct convective *fluid, struct sloped length, double speed)
{
    const double re = fabs(speed) * length.value / fluid->kinematic, pr = fluid->prandtl;
    if (!(re > 0.0))
        return constant(0.0);
    const double laminar = 0.664 * sqrt(re) * cbrt(pr);
    const double sublayer = 2.443 * pow(re, -0.1) * (pow(pr, 2.0 / 3.0) - 1.0);
    const double turbulent = 0.037 * pow(re, 0.8) * pr / (1.0 + sublayer);
    const double both = hypot(laminar, turbulent);
    /* exponents of Re, each weighted by its square */
    const double bend = 0.8 + 0.1 * sublayer / (1.0 + sublayer);
    const double exponent = (0.5 * laminar * laminar + bend * turbulent * turbulent) / (both * both);
    const double value = fluid->conductivity / length.value * both;
    return (struct sloped){value, value * (exponent - 1.0) * length.slope / length.value};
}

double convection_forced(const struct convective *fluid, double length, double speed)
{
    return convection_forced_along(fluid, constant(length), speed).value;
}
