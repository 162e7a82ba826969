/* The one-component fuel against the relation it is made from, the table it comes with, and the blend.
 *
 * US EPA, Compilation of Air Pollutant Emission Factors, volume I, chapter 7.1: figure 7.1-14b (equation, S = 3) and
 * table 7.1-2 (psi, printed to 0.1; molar mass of the vapor). Read in secondary copies, which agree. The table has 21
 * points; at 63, three times as many volatilities, the equation is judged. */
#include "property/quick_fuel.h"

#include "support/fuels.h"
#include "support/near.h"

static double kelvin(double fahrenheit)
{
    return (fahrenheit + 459.67) / 1.8;
}

static void table_of_the_epa(void **unused)
{
    (void)unused;

    static const struct {
        double psi, mass, pressure[7]; /* g/mol; psi at 40, 50 .. 100 degF */
    } row[] = {
        {13.0, 62.0, {4.7, 5.7, 6.9, 8.3, 9.9, 11.7, 13.8}},
        {10.0, 66.0, {3.4, 4.2, 5.2, 6.2, 7.4, 8.8, 10.5}},
        {7.0, 68.0, {2.3, 2.9, 3.5, 4.3, 5.2, 6.2, 7.4}},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct component fuel = quick_fuel(row[i].psi * FUEL_PSI);
        for (int t = 0; t < 7; t++)
            assert_near_share("psi", component_saturation(&fuel, kelvin(40.0 + 10.0 * t)).value / FUEL_PSI,
                              row[i].pressure[t], 0.03);
        assert_near("g/mol", 1e3 * fuel.gas.molar_mass, row[i].mass, 1e-10);
    }
}

/* As printed, in psi and degF. The program's own form of it differs in rounding only; 0.2 % is allowed. */
static double equation(double rvp, double fahrenheit)
{
    const double f = fahrenheit + 459.6;
    return exp((0.7553 - 413.0 / f) * sqrt(3.0) * log10(rvp) - (1.854 - 1042.0 / f) * sqrt(3.0) +
               (2416.0 / f - 2.013) * log10(rvp) - 8742.0 / f + 15.64);
}

static void equation_of_the_epa(void **unused)
{
    (void)unused;
    static const double psi[9] = {5.0, 7.0, 7.8, 8.3, 9.0, 10.0, 11.5, 13.0, 15.0};
    for (int i = 0; i < 9; i++) {
        const struct component fuel = quick_fuel(psi[i] * FUEL_PSI);
        for (double f = 40.0; f < 101.0; f += 10.0)
            assert_near_share("psi", component_saturation(&fuel, kelvin(f)).value / FUEL_PSI, equation(psi[i], f),
                              1e-12);
    }
}

/* A printed pair: 8.6 psi at 59 degF, 11.7 psi at 86 degF, by the equation, Pa. */
static void worked_values(void **unused)
{
    (void)unused;
    const struct component mild = quick_fuel(8.6 * FUEL_PSI);
    const struct component strong = quick_fuel(11.7 * FUEL_PSI);
    assert_near_share("59 degF", component_saturation(&mild, kelvin(59.0)).value, 29626.0, 0.002);
    assert_near_share("86 degF", component_saturation(&strong, kelvin(86.0)).value, 68134.0, 0.002);
}

/* A component like any other: slopes and density. */
static void component_like_any_other(void **unused)
{
    (void)unused;
    for (double psi = 5.0; psi < 16.01; psi += 1.0) {
        const struct component fuel = quick_fuel(psi * FUEL_PSI);
        for (double t = 230.0; t < 340.0; t += 10.0) {
            const double h = 0.01;
            const double want =
                (component_saturation(&fuel, t + h).value - component_saturation(&fuel, t - h).value) / (2.0 * h);
            const struct thermal p = component_saturation(&fuel, t);
            assert_near_share("slope", p.slope, want, 1e-6);
        }
        assert_near_share("density", fuel.gas.molar_mass / component_volume(&fuel, BLENDING_TEMPERATURE).value, 740.0,
                          1e-12);
    }
}

/* How far from the blend of the same DVPE: not judged but for what the two share by design. */
static void distance_from_the_blend(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(7, fuel_eight);
    for (double psi = 7.0; psi < 13.01; psi += 2.0) {
        struct blend blend;
        double amount[LIQUID_MOST];
        struct pressures over;
        assert_true(blend_base(psi * FUEL_PSI, &blend));
        blend_amounts(&blend, 1.0, amount);
        const struct component fuel = quick_fuel(psi * FUEL_PSI);
        liquid_pressures(&liquid, amount, BLENDING_TEMPERATURE, &over);
        double pressure = 0.0;
        double heat = 0.0;
        for (int k = 0; k < 7; k++) {
            pressure += over.value[k];
            heat += over.value[k] * liquid.component[k]->vaporization_heat;
        }
        const double cold = liquid_bubble_pressure(&liquid, amount, 273.15).value;
        const double hot = liquid_bubble_pressure(&liquid, amount, 318.15).value;
        const struct thermal volume = liquid_volume(&liquid, amount, BLENDING_TEMPERATURE);
        const struct thermal own = component_volume(&fuel, BLENDING_TEMPERATURE);
        const double mass = liquid_mass(&liquid, amount), own_mass = fuel.gas.molar_mass;
        const double liquid_heat = liquid_energy(&liquid, amount, 298.15).slope / mass;
        double left[LIQUID_MOST];
        memcpy(left, amount, sizeof left);
        liquid_weather(&liquid, left, 298.15, 0.05, 2.0 / 3.0);
        print_message(
            "%4.1f psi, quick over blend: pressure at 0 degC %+.1f %%, 15.6 %+.1f %%, 45 %+.1f %%; vapor's molar "
            "mass %+.1f %%; heat of vaporization %+.1f %%; expansion %+.1f %%; liquid's heat capacity %+.1f %%; "
            "after 5 %% of the mass has gone the blend's DVPE is %.2f psi\n",
            psi, 100.0 * (component_saturation(&fuel, 273.15).value / cold - 1.0),
            100.0 * (component_saturation(&fuel, BLENDING_TEMPERATURE).value / pressure - 1.0),
            100.0 * (component_saturation(&fuel, 318.15).value / hot - 1.0),
            100.0 * (fuel.gas.molar_mass / vapor_molar_mass(&liquid, over.value) - 1.0),
            100.0 * (fuel.vaporization_heat / (heat / pressure) - 1.0),
            100.0 * (own.slope / own.value / (volume.slope / volume.value) - 1.0),
            100.0 * (fuel.heat_capacity / own_mass / liquid_heat - 1.0),
            liquid_volatility(&liquid, left).dvpe / FUEL_PSI);
        assert_near_share("pressure", component_saturation(&fuel, BLENDING_TEMPERATURE).value, pressure, 0.02);
        assert_near_share("molar mass", fuel.gas.molar_mass, vapor_molar_mass(&liquid, over.value), 0.02);
        for (double t = 253.15; t < 318.2; t += 13.0) {
            const struct warmth warmth = gas_warmth(t);
            double over_heat = 0.0;
            for (int k = 0; k < 7; k++)
                over_heat += over.value[k] * species_heat_capacity(&liquid.component[k]->gas, &warmth);
            assert_near_share("liquid's heat", component_heat_capacity(&fuel, t).value / own_mass,
                              liquid_energy(&liquid, amount, t).slope / mass, 0.02);
            assert_near_share("vapor's heat", species_heat_capacity(&fuel.gas, &warmth) / own_mass,
                              over_heat / pressure / vapor_molar_mass(&liquid, over.value), 0.02);
        }
        assert_near_share("expansion", own.slope / own.value, volume.slope / volume.value, 0.08);
        assert_near_share("heat", fuel.vaporization_heat, heat / pressure, 0.02);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_of_the_epa),        cmocka_unit_test(equation_of_the_epa),
        cmocka_unit_test(worked_values),           cmocka_unit_test(component_like_any_other),
        cmocka_unit_test(distance_from_the_blend),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
