/* sim/property/quick_fuel.c  Gasoline as one component on the published relation [AP42]:
 *
 *   p = exp{[0.7553 - 413.0/(T + 459.6)] sqrt(S) lg RVP - [1.854 - 1042/(T + 459.6)] sqrt(S)
 *           + [2416/(T + 459.6) - 2.013] lg RVP - 8742/(T + 459.6) + 15.64}
 *
 * p in psi, T in degF, RVP in psi, S = 3, the slope of the distillation curve of motor gasoline. It is Antoine's form:
 * T + 459.6 = 1.8 (T_K - 0.07/1.8), so the fuel is a component like any other.
 *
 * One substance cannot be vapor and liquid of a mixture at once: this one has the molar mass of the vapor. Kilogram for
 * kilogram the rest is that of the base blend (blend.c): density, expansion, heat capacities, and the heat of
 * vaporization of its vapor by calorimeter. The pressure curve itself would ask for 8 % more heat, as Antoine's does
 * for the butanes. It does not weather: its pressure stays as it evaporates.
 *
 * On carbon its vapor is held as the vapor of the blend: butanes and pentanes far below their own vapor pressures. Taken
 * as saturated, which the rule of likeness would with the fuel's own pressure, it would be held half as much again. Hence
 * likeness 1 to n-butane and the pressure that a liquid made of the vapor would have at 25 degC, which is what the blend's
 * vapor has by Raoult: 194, 209, 230, 241 kPa at 7, 9, 11.5, 13 psi. The two pressures over a carbon that has taken in
 * vapor as the blend gives it and as much of this fuel's then agree to 5 % of the load, from 0.05 to 0.3 kg/kg and from
 * 7 to 13 psi (tests/outside/quick_carbon.c). */
#include "property/quick_fuel.h"

#include <assert.h>
#include <math.h>

#define PSI 6894.757293168361   /* Pa [SP811] */
#define BAR 1e5                 /* Pa */
#define FAHRENHEIT_OFFSET 459.6 /* as printed in [AP42]; exact is 459.67 */
#define DISTILLATION_SLOPE 3.0  /* S, degF per % of volume: motor gasoline */

#define DENSITY 740.0             /* kg/m3 at 60 degF [SURROGATE7] */
#define LIQUID_HEAT 2000.0        /* J/kg/K [SURROGATE7] */
#define LIQUID_HEAT_SLOPE 3.55    /* J/kg/K2, the same: 3.50 to 3.61 from 7 to 13 psi */
#define GAS_HEAT 1650.0           /* J/kg/K: vapor of [SURROGATE7] */
#define GAS_HEAT_SLOPE 4.5        /* J/kg/K2, the same: 4.44 to 4.61 */
#define VAPORIZATION_HEAT 345e3   /* J/kg: vapor of [SURROGATE7] at 25 degC, 342 to 350 from 7 to 13 psi */
#define DIFFUSION_PER_MASS 1480.0 /* Fuller's volume over kg/mol: vapor of [SURROGATE7] */

/* kg/mol of the vapor: 68, 66 and 62 g/mol at 7, 10 and 13 psi [AP42]; straight between and beyond. */
static double vapor_mass(double rvp)
{
    const double psi = rvp / PSI;
    return 1e-3 * (psi < 10.0 ? 66.0 - (psi - 10.0) * 2.0 / 3.0 : 66.0 - (psi - 10.0) * 4.0 / 3.0);
}

/* Pa at 25 degC over a liquid made of the vapor alone; straight in the RVP within 1 % from 7 to 13 psi [SURROGATE7]. */
static double vapor_condenses(double rvp)
{
    return 1e3 * (193.8 + 7.8 * (rvp / PSI - 7.0));
}

struct component quick_fuel(double rvp)
{
    assert(QUICK_FUEL_LEAST <= rvp && rvp <= QUICK_FUEL_MOST);
    const double lg = log10(rvp / PSI);
    const double root = sqrt(DISTILLATION_SLOPE);
    const double a = 15.64 - 1.854 * root + (0.7553 * root - 2.013) * lg;
    const double b = (8742.0 - 1042.0 * root + (413.0 * root - 2416.0) * lg) / 1.8; /* K */
    const double mass = vapor_mass(rvp);
    struct component fuel = {
        .gas = {.name = "gasoline",
                .molar_mass = mass,
                .heat_capacity = GAS_HEAT * mass,
                .heat_slope = GAS_HEAT_SLOPE * mass,
                .viscosity = {6.3412e-8, 0.84758, 41.718, 0.0}, /* n-pentane's */
                .conductivity = {-684.4, 0.764, -1.055e9, 0.0}, /* n-pentane's */
                .source = "[AP42], [SURROGATE7]"},
        .antoine = {a / M_LN10 + log10(PSI / BAR), b / M_LN10, (FAHRENHEIT_OFFSET - 459.67) / 1.8},
        .antoine_low = 0.0,
        .antoine_high = 310.93,
        .vaporization_heat = VAPORIZATION_HEAT * mass,
        .density = {0.0, 0.26211, 540.2, 0.28141}, /* expands as n-heptane, nearly as [SURROGATE7] does */
        .heat_capacity = LIQUID_HEAT * mass,
        .heat_slope = LIQUID_HEAT_SLOPE * mass,
        .diffusion_volume = DIFFUSION_PER_MASS * mass,
        .flammable_low = 0.014,  /* gasoline [NFPA497] */
        .flammable_high = 0.076, /* the same */
        .likeness = 1.0,
        .vapor_condenses = vapor_condenses(rvp),
    };
    fuel.density[0] = 1.0;
    fuel.density[0] = DENSITY / mass * component_volume(&fuel, BLENDING_TEMPERATURE).value;
    return fuel;
}
