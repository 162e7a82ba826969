/* Blends: shares of volume, the base of a wanted volatility, weathering. */
#include "property/blend.h"

#include "support/fuels.h"
#include "support/near.h"

static double share_sum(const struct blend *blend)
{
    double sum = 0.0;
    for (int k = 0; k < blend->count; k++)
        sum += blend->share[k];
    return sum;
}

static void base_has_the_wanted_volatility(void **unused)
{
    (void)unused;
    double before = 0.0;
    for (double psi = 5.0; psi < 16.01; psi += 0.25) {
        struct blend blend;
        double amount[LIQUID_MOST];
        assert_true(blend_base(psi * FUEL_PSI, &blend));
        const struct liquid liquid = fuel_liquid(7, fuel_eight);
        blend_amounts(&blend, 2.0, amount);
        assert_near_share("dvpe", liquid_volatility(&liquid, amount).dvpe, psi * FUEL_PSI, 1e-11);
        assert_near("shares", share_sum(&blend), 1.0, 1e-15 * 8.0);
        const double light = blend.share[0] + blend.share[1];
        assert_true(light > before);
        before = light;
        for (int k = 0; k < 7; k++)
            assert_true(blend.share[k] > 0.0);
    }
}

static void base_ends(void **unused)
{
    (void)unused;
    struct blend blend;
    assert_false(blend_base(4.99 * FUEL_PSI, &blend));
    assert_false(blend_base(16.01 * FUEL_PSI, &blend));
    assert_false(blend_base((double)NAN, &blend));
    assert_true(blend_base(blend_base_least(), &blend) && blend_base(blend_base_most(), &blend));
}

static void shares_and_amounts_are_inverse(void **unused)
{
    (void)unused;
    struct blend blend;
    double amount[LIQUID_MOST];
    assert_true(blend_base(9.0 * FUEL_PSI, &blend));
    assert_true(blend_add(&blend, component_find("ethanol"), 0.1));
    assert_near("sum", share_sum(&blend), 1.0, 1e-14);
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    blend_amounts(&blend, 0.03, amount);
    assert_near("volume", liquid_volume(&liquid, amount, BLENDING_TEMPERATURE).value, 0.03, 1e-16);
    const struct blend back = blend_of(&liquid, amount);
    for (int k = 0; k < 8; k++)
        assert_near(fuel_eight[k], back.share[k], blend.share[k], 1e-15);
    while (blend.count < LIQUID_MOST)
        assert_true(blend_add(&blend, component_find("n-decane"), 0.0));
    assert_false(blend_add(&blend, component_find("n-decane"), 0.0));
}

/* A binary ideal liquid whose vapor is carried away: n1/n10 = (n2/n20)^alpha [Rayleigh, textbook]. */
static void weathering_follows_rayleigh(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_pair("isopentane", "n-heptane");
    const double t = 295.0;
    const double start[2] = {2.0, 3.0};
    double left[2] = {2.0, 3.0};
    const double mass = liquid_mass(&liquid, left);
    liquid_weather(&liquid, left, t, 0.3, 0.0);
    const double alpha =
        component_saturation(liquid.component[0], t).value / component_saturation(liquid.component[1], t).value;
    assert_near("mass", liquid_mass(&liquid, left), 0.7 * mass, 1e-13 * mass);
    assert_near("Rayleigh", log(left[0] / start[0]), alpha * log(left[1] / start[1]), 1e-8);
}

/* With still air the slower vapor of the heavy component keeps more of it behind. */
static void slow_vapor_stays(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_pair("ethanol", "isooctane");
    double free[2] = {1.0, 1.0};
    double still[2] = {1.0, 1.0};
    liquid_weather(&liquid, free, 295.0, 0.2, 0.0);
    liquid_weather(&liquid, still, 295.0, 0.2, 1.0);
    assert_true(still[1] > free[1] + 1e-3 && still[0] < free[0]);
    double whole[2] = {1.0, 1.0};
    liquid_weather(&liquid, whole, 295.0, 0.0, 1.0);
    assert_true(whole[0] == 1.0 && whole[1] == 1.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(base_has_the_wanted_volatility),
        cmocka_unit_test(base_ends),
        cmocka_unit_test(shares_and_amounts_are_inverse),
        cmocka_unit_test(weathering_follows_rayleigh),
        cmocka_unit_test(slow_vapor_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
