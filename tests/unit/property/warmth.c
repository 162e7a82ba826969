/* tests/unit/property/warmth.c  Heat capacities and enthalpies belong to each other, and temperatures come back. */
#include "property/component.h"
#include "property/liquid.h"
#include "support/fuels.h"
#include "support/near.h"

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */

static double integral(double t, const void *with)
{
    (void)with;
    return gas_warmth(t).integral;
}

static double value(double t, const void *with)
{
    (void)with;
    return gas_warmth(t).value;
}

/* From 120 to 220 K the integral is a cubic: differences of fourth order have no error there. Across 120 and 220 K, where
 * only the second slope jumps, from one side. */
static void slopes_belong_to_values(void **unused)
{
    (void)unused;
    for (double t = 10.0; t < 2000.0; t += 7.3) {
        const struct warmth at = gas_warmth(t);
        if (fabs(t - 120.0) < 2.0 || fabs(t - 220.0) < 2.0)
            continue;
        assert_near("value", at.value, near_slope(integral, NULL, t, 0.5), 1e-8 * (1.0 + fabs(at.value)));
        assert_near("slope", at.slope, near_slope(value, NULL, t, 0.5), 1e-10);
    }
    for (double t = 120.0; t < 221.0; t += 100.0) {
        const struct warmth low = gas_warmth(nextafter(t, 0.0)), high = gas_warmth(t);
        assert_near("value", low.value, high.value, 1e-12);
        assert_near("slope", low.slope, high.slope, 1e-12);
        assert_near("integral", low.integral, high.integral, 1e-10);
    }
    assert_near("straight", gas_warmth(REFERENCE_TEMPERATURE + 20.0).value, 20.0, 1e-12);
    assert_near("from 0 K", gas_warmth(0.0).integral, 0.0, 0.0);
}

/* Of every gas there is, from the coldest to the hottest that a volume may be. */
static void enthalpy_rises_everywhere(void **unused)
{
    (void)unused;
    for (int s = 0; s < species_known(); s++) {
        const struct species *of = species_at(s);
        double below = 0.0;
        for (double t = 1.0; !of->passive && t < 2e4; t *= 1.02) {
            const struct warmth warmth = gas_warmth(t);
            const double inner = species_enthalpy(of, t, &warmth) - GAS_CONSTANT * t;
            assert_true(species_heat_capacity(of, &warmth) > 3.0 * GAS_CONSTANT);
            assert_true(inner > below);
            below = inner;
        }
    }
}

/* Of mixtures over carbon and without: to 4 rounding errors of the energy, whatever the temperature. */
static void temperature_comes_back(void **unused)
{
    (void)unused;
    uint64_t stream = 11;
    for (int i = 0; i < 2000; i++) {
        const double t = exp(near_draw_between(&stream, 0.0, log(2e4)));
        const double capacity = near_draw_between(&stream, 25.0, 300.0);
        const double slope = near_draw(&stream) * 3e-3 * capacity;
        const double energy = capacity * t + slope * gas_warmth(t).integral;
        const double got = warmth_temperature(capacity, slope, energy),
                     again = warmth_temperature(capacity, slope, energy);
        const double size = capacity * t + slope * (130.0 * fmin(t, 220.0) + fabs(gas_warmth(t).integral));
        assert_near("temperature", got, t, 4.0 * 2.3e-16 * size / (capacity + slope * gas_warmth(t).value));
        assert_memory_equal(&got, &again, sizeof got);
    }
    assert_true(isnan(warmth_temperature(1.0, 0.0, (double)NAN)));
    assert_true(warmth_temperature(30.0, 0.1, -5.0) < 0.0);
}

static void a_liquids_temperature_comes_back(void **unused)
{
    (void)unused;
    const double skin = 1.0;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    uint64_t stream = 13;
    for (int i = 0; i < 500; i++) {
        double amount[LIQUID_MOST], t = near_draw_between(&stream, 150.0, 600.0);
        for (int k = 0; k < 8; k++)
            amount[k] = near_draw(&stream) * (i % 3 ? 10.0 : 1e-3);
        const struct thermal energy = liquid_energy(&liquid, amount, t);
        const double got = liquid_temperature(&liquid, amount, skin, energy.value + skin * t);
        const double cold = liquid_energy(&liquid, amount, REFERENCE_TEMPERATURE).value;
        assert_near("temperature", got, t,
                    8.0 * 2.3e-16 * (fabs(energy.value) + fabs(cold) + energy.slope * t) / (energy.slope + skin) +
                        1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes_belong_to_values),
        cmocka_unit_test(enthalpy_rises_everywhere),
        cmocka_unit_test(temperature_comes_back),
        cmocka_unit_test(a_liquids_temperature_comes_back),
    };
    return cmocka_run_group_tests_name("warmth", tests, NULL, NULL) != 0;
}
