/* sim/property/component.c  Properties of one component by temperature. The table stands in components.c.
 *
 * Vapor pressure. Within the range that was measured, and above it, Antoine's relation
 *   log10(p/bar) = A - B/(T + C);
 * for the butanes that reads 0.4 % to 0.7 % low at 45 degC. Below the range, where Antoine bends wrongly (o-xylene
 * would be 4 % off at 0 degC), Clausius and Clapeyron's with a heat that changes as the heat capacities say:
 *   d ln p/dT = H/(R T^2),  H = H0 + integral of (cp_gas - cp_liquid) from T0,
 * H0 and p taken from Antoine at the lower end T0, so that neither value nor slope jumps; the gas's line goes straight on.
 *
 * Heat. Antoine's slope is not the heat of vaporization: R T^2 d ln p/dT of n-butane at 25 degC is 9 % above what a
 * calorimeter finds, since its vapor at 2.4 bar is not ideal. In a tank, with far less of it in the gas, the
 * calorimeter is right. Hence measured heats at 298.15 K, and the slope that the heat capacities demand; only then is
 * the energy of a substance a function of its state:
 *   L = L(298.15 K) + integral of (cp_gas - cp_liquid),  cp_liquid = a + b x + c x^2,  x = T - 298.15 K,
 * the gas's as in warmth.c. From -20 to 45 degC a line (c = 0) is within 0.8 % of the published curve of most liquids;
 * propane, the butanes, isopentane and ethanol need the square. From 100 K to 800 K none comes near zero.
 *
 * Volume: DIPPR 105.  Diffusivity: [FULLER1969].  Flammable range: Le Chatelier's rule [textbook]. */
#include "property/component.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */
#define BAR 1e5                       /* Pa */
#define COMPARED_DOWN_TO 233.15       /* K: -40 degC */
#define NEAR_CRITICAL 0.9             /* of the critical temperature: above, volumes of liquids run away */

struct temperature_range component_range(const struct component *of)
{
    return (struct temperature_range){COMPARED_DOWN_TO, NEAR_CRITICAL * of->density[2]};
}

static struct thermal saturation_antoine(const struct component *of, double temperature)
{
    const double below = temperature + of->antoine[2];
    const double value = BAR * pow(10.0, of->antoine[0] - of->antoine[1] / below);
    return (struct thermal){value, value * M_LN10 * of->antoine[1] / (below * below)};
}

struct thermal component_heat_capacity(const struct component *of, double temperature)
{
    const double x = temperature - REFERENCE_TEMPERATURE;
    return (struct thermal){of->heat_capacity + x * (of->heat_slope + x * of->heat_bend),
                            of->heat_slope + 2.0 * x * of->heat_bend};
}

/* A heat of vaporization that has its value at t0 and goes as the heat capacities say, both as cubics of T:
 * heat = k0 + k1 T + k2 T^2 + k3 T^3. */
struct cubic {
    double k[4];
};

static struct cubic heat_through(const struct component *of, double t0, double heat)
{
    const double tr = REFERENCE_TEMPERATURE, x = t0 - tr;
    const double a = of->gas.heat_capacity - of->heat_capacity; /* gas less liquid: a + b x + c x^2 */
    const double b = of->gas.heat_slope - of->heat_slope, c = -of->heat_bend;
    const double so_far = x * (a + x * (b / 2.0 + x * c / 3.0));
    const double at_zero = -tr * (a - tr * (b / 2.0 - tr * c / 3.0));
    return (struct cubic){{heat - so_far + at_zero, a - tr * (b - tr * c), b / 2.0 - tr * c, c / 3.0}};
}

static struct thermal saturation_cold(const struct component *of, double temperature)
{
    const double t0 = of->antoine_low, t = temperature;
    const struct thermal end = saturation_antoine(of, t0);
    const struct cubic heat = heat_through(of, t0, GAS_CONSTANT * t0 * t0 * end.slope / end.value);
    const double *k = heat.k;
    const double exponent = /* integral of heat/T^2 */
        k[0] * (1.0 / t0 - 1.0 / t) + k[1] * log(t / t0) + (t - t0) * (k[2] + 0.5 * k[3] * (t + t0));
    const double value = end.value * exp(exponent / GAS_CONSTANT);
    return (struct thermal){value, value * (k[0] + t * (k[1] + t * (k[2] + t * k[3]))) / (GAS_CONSTANT * t * t)};
}

struct thermal component_saturation(const struct component *of, double temperature)
{
    assert(temperature > 0.0);
    return temperature < of->antoine_low ? saturation_cold(of, temperature) : saturation_antoine(of, temperature);
}

struct thermal component_vaporization(const struct component *of, double temperature)
{
    const struct warmth warmth = gas_warmth(temperature);
    const struct thermal liquid = component_energy(of, temperature);
    return (struct thermal){species_enthalpy(&of->gas, temperature, &warmth) - liquid.value,
                            species_heat_capacity(&of->gas, &warmth) - liquid.slope};
}

struct thermal component_volume(const struct component *of, double temperature)
{
    const double critical = of->density[2];
    const double t = fmin(temperature, NEAR_CRITICAL * critical);
    const double distance = 1.0 - t / critical;
    const double power = pow(distance, of->density[3]);
    const double value = pow(of->density[1], 1.0 + power) / of->density[0];
    const double slope = -value * log(of->density[1]) * of->density[3] * power / (distance * critical);
    return (struct thermal){value + slope * (temperature - t), slope};
}

struct thermal component_energy(const struct component *of, double temperature)
{
    const struct warmth reference = gas_warmth(REFERENCE_TEMPERATURE);
    const double at_reference = species_enthalpy(&of->gas, REFERENCE_TEMPERATURE, &reference) - of->vaporization_heat;
    const double x = temperature - REFERENCE_TEMPERATURE;
    const double warmed = x * (of->heat_capacity + x * (of->heat_slope / 2.0 + x * of->heat_bend / 3.0));
    return (struct thermal){at_reference + warmed, component_heat_capacity(of, temperature).value};
}

static const struct {
    double molar_mass, volume; /* kg/mol; Fuller's volume */
} carriers[] = {
    [CARRIER_AIR] = {28.9647e-3, 19.7},
    [CARRIER_NITROGEN] = {28.0134e-3, 18.5},
    [CARRIER_CARBON_DIOXIDE] = {44.0095e-3, 26.9},
};

/* D = 0.00143 T^1.75 / (p sqrt(M) (v1^(1/3) + v2^(1/3))^2), cm2/s with p in bar and M = 2/(1/M1 + 1/M2) in g/mol; here
 * turned to SI. Against sixteen measured pairs within 9 %, but for ethanol in carbon dioxide (24 %) [FULLER1969]. */
struct diffusivity component_diffusivity(const struct component *of, enum carrier into, double temperature,
                                         double pressure)
{
    assert(temperature > 0.0 && pressure > 0.0);
    const double mass = 2.0 / (1.0 / of->gas.molar_mass + 1.0 / carriers[into].molar_mass) * 1e3; /* g/mol */
    const double reach = cbrt(of->diffusion_volume) + cbrt(carriers[into].volume);
    const double value = 1e-4 * 0.00143 * pow(temperature, 1.75) * BAR / (pressure * sqrt(mass) * reach * reach);
    return (struct diffusivity){value, 1.75 * value / temperature, -value / pressure};
}

struct flammable vapor_flammable(int count, const struct component *const *component, const double *share)
{
    double sum = 0.0;
    double low = 0.0;
    double high = 0.0;
    for (int k = 0; k < count; k++) {
        const double part = fmax(share[k], 0.0);
        sum += part;
        low += part / component[k]->flammable_low;
        high += part / component[k]->flammable_high;
    }
    assert(sum > 0.0);
    return (struct flammable){sum / low, sum / high};
}
