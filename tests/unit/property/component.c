/* Components: the table is whole, slopes are slopes, nothing jumps where one relation takes over from another. */
#include "property/component.h"

#include "support/near.h"

/* A slope's error from differences: h^4 and eps f/h, h = 0.05 K: 1e-9 of the value per kelvin; asked is 1e-6. */
#define SLOPE 1e-6
#define STEP 0.05

struct asked {
    struct thermal (*property)(const struct component *, double);
    const struct component *of;
};

static double value_at(double temperature, const void *with)
{
    const struct asked *asked = with;
    return asked->property(asked->of, temperature).value;
}

static void slope_is_slope(const struct asked *asked, double temperature)
{
    const struct thermal got = asked->property(asked->of, temperature);
    const double want = near_slope(value_at, asked, temperature, STEP);
    assert_near(asked->of->gas.name, got.slope, want, SLOPE * (fabs(want) + 1e-3 * fabs(got.value)));
    assert_true(isfinite(got.value));
}

static void slopes(void **unused)
{
    (void)unused;
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++)
        for (double t = 205.3; t < 400.0; t += 11.0) {
            const struct component *of = &table[k];
            if (fabs(t - of->antoine_low) > 3.0 * STEP)
                slope_is_slope(&(struct asked){component_saturation, of}, t);
            if (fabs(t - 0.9 * of->density[2]) > 3.0 * STEP)
                slope_is_slope(&(struct asked){component_volume, of}, t);
            slope_is_slope(&(struct asked){component_vaporization, of}, t);
            slope_is_slope(&(struct asked){component_energy, of}, t);
        }
}

static void curves_meet(struct thermal (*property)(const struct component *, double), const struct component *of,
                        double at)
{
    const double gap = 1e-9 * at;
    const struct thermal below = property(of, at - gap);
    const struct thermal above = property(of, at + gap);
    assert_near(of->gas.name, above.value, below.value + 2.0 * gap * below.slope, 1e-13 * below.value);
    assert_near(of->gas.name, above.slope, below.slope, 1e-7 * below.slope); /* 2 gap times the second slope */
}

static void no_jump_where_relations_meet(void **unused)
{
    (void)unused;
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++) {
        curves_meet(component_saturation, &table[k], table[k].antoine_low);
        curves_meet(component_volume, &table[k], 0.9 * table[k].density[2]);
    }
}

static void pressure_and_volume_rise(void **unused)
{
    (void)unused;
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++)
        for (double t = 120.0; t < 600.0; t += 1.0) {
            assert_true(component_saturation(&table[k], t).slope > 0.0);
            assert_true(component_volume(&table[k], t).slope > 0.0);
        }
}

/* What leaves the liquid and enters the gas at one temperature takes up the heat of vaporization, no more. */
static void energies_differ_by_the_heat(void **unused)
{
    (void)unused;
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++)
        for (double t = 230.0; t < 360.0; t += 13.0) {
            const struct warmth warmth = gas_warmth(t);
            const double gas = species_enthalpy(&table[k].gas, t, &warmth);
            const double liquid = component_energy(&table[k], t).value;
            const double heat = component_vaporization(&table[k], t).value;
            assert_near(table[k].gas.name, gas - liquid, heat, 1e-15 * 4.0 * (gas + fabs(liquid)));
        }
}

static void diffusivity_slopes(void **unused)
{
    (void)unused;
    const struct component *of = component_find("n-butane");
    const double t = 290.0;
    const double p = 98e3;
    for (enum carrier into = CARRIER_AIR; into <= CARRIER_CARBON_DIOXIDE; into++) {
        const struct diffusivity at = component_diffusivity(of, into, t, p);
        const double by_t =
            (component_diffusivity(of, into, t + 1e-3, p).value - component_diffusivity(of, into, t - 1e-3, p).value) /
            2e-3;
        const double by_p =
            (component_diffusivity(of, into, t, p + 1.0).value - component_diffusivity(of, into, t, p - 1.0).value) /
            2.0;
        assert_near_share("by temperature", at.by_temperature, by_t, 1e-8);
        assert_near_share("by pressure", at.by_pressure, by_p, 1e-8);
    }
}

static void table_is_whole(void **unused)
{
    (void)unused;
    int count;
    const struct component *table = component_table(&count);
    assert_true(count >= 14);
    for (int k = 0; k < count; k++) {
        const struct component *of = &table[k];
        int groups = 0;
        for (int g = 0; g < UNIFAC_GROUPS; g++)
            groups += of->group[g];
        assert_ptr_equal(component_find(of->gas.name), of); /* so names are different, too */
        assert_true(groups > 0 && of->diffusion_volume > 0.0);
        assert_true(0.0 < of->flammable_low && of->flammable_low < of->flammable_high && of->flammable_high < 1.0);
        assert_true(of->heat_capacity > of->gas.heat_capacity && of->gas.heat_capacity > 4.0 * 8.3145);
        assert_true(of->antoine_low < of->antoine_high);
        assert_true(component_range(of).low < 240.0 && component_range(of).high > 330.0);
        for (double t = 220.0; t < 400.0; t += 20.0) {
            double viscosity;
            double slope;
            species_viscosity(&of->gas, t, &viscosity, &slope);
            assert_true(3e-6 < viscosity && viscosity < 14e-6 && slope > 0.0);
            const struct species *alone = &of->gas;
            const double conductivity = mixture_conductivity(1, &alone, (const double[]){1.0}, t);
            assert_true(4e-3 < conductivity && conductivity < 40e-3);
        }
    }
    assert_null(component_find("ether"));
}

/* Two vapors that burn alike, mixed, burn alike; one alone is itself; what is below nothing counts as none. */
static void mixed_vapor_burns_between(void **unused)
{
    (void)unused;
    const struct component *pair[2] = {component_find("n-butane"), component_find("toluene")};
    const struct flammable alone = vapor_flammable(2, pair, (const double[]){3.0, -1e-18});
    assert_near("low", alone.low, pair[0]->flammable_low, 1e-16);
    assert_near("high", alone.high, pair[0]->flammable_high, 1e-16);
    const struct flammable both = vapor_flammable(2, pair, (const double[]){1.0, 1.0});
    assert_near("low", both.low, 2.0 / (1.0 / 0.014 + 1.0 / 0.010), 1e-15);
    assert_near("high", both.high, 2.0 / (1.0 / 0.093 + 1.0 / 0.078), 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes),
        cmocka_unit_test(no_jump_where_relations_meet),
        cmocka_unit_test(pressure_and_volume_rise),
        cmocka_unit_test(energies_differ_by_the_heat),
        cmocka_unit_test(diffusivity_slopes),
        cmocka_unit_test(table_is_whole),
        cmocka_unit_test(mixed_vapor_burns_between),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
