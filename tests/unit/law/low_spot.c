/* tests/unit/law/low_spot.c  Liquid in a dip of a tube: slopes against differences, limits on either side of the seal. */
#include "law/low_spot.h"

#include "law/passages.h"
#include "support/near.h"

static double cover_at(double full, const void *with)
{
    (void)with;
    return low_spot_cover(full).value;
}

static double takes_at(double full, const void *with)
{
    (void)with;
    return low_spot_takes(full).value;
}

static double left_at(double drop, const void *bears)
{
    return low_spot_left(drop, *(const double *)bears).value;
}

static double left_under(double bears, const void *drop)
{
    return low_spot_left(*(const double *)drop, bears).value;
}

static double dragged_at(double speed, const void *bore)
{
    return low_spot_dragged(speed, *(const double *)bore).value;
}

static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    for (int k = 0; k <= 120; k++) {
        const double full = 0.01 * k + 0.003, bore = 8e-3, speed = 0.1 * k + 0.01;
        const double drop = 25.0 * (k - 60) + 3.0, bears = 7.0 * k;
        const struct left_over left = low_spot_left(drop, bears);
        assert_near("cover", low_spot_cover(full).slope, near_slope(cover_at, NULL, full, 1e-5), 1e-8);
        assert_near("takes", low_spot_takes(full).slope, near_slope(takes_at, NULL, full, 1e-5), 1e-7);
        assert_near("by drop", left.by_drop, near_slope(left_at, &bears, drop, 1e-2), 1e-8);
        assert_near("by bears", left.by_bears, near_slope(left_under, &drop, bears, 1e-2), 1e-8);
        assert_near("dragged", low_spot_dragged(speed, bore).slope, near_slope(dragged_at, &bore, speed, 1e-5), 1e-6);
    }
}

/* Nothing there: all of the drop. Above the seal: the drop less the seal; under it nothing. And as much the other way. */
static void a_seal_bears_its_head(void **unused)
{
    (void)unused;
    assert_near("none", low_spot_left(137.0, 0.0).value, 137.0, 1e-12);
    assert_near("above", low_spot_left(1400.0, 400.0).value, 1000.0, 1e-12);
    assert_true(low_spot_left(389.0, 400.0).value == 0.0);
    for (double drop = -900.0; drop < 900.0; drop += 37.0)
        assert_near("odd", low_spot_left(-drop, 300.0).value, -low_spot_left(drop, 300.0).value, 1e-12);
}

/* A line of 8 mm: sqrt(g d rho_l/rho_g) = sqrt(9.81 * 0.008 * 740/1.5) = 6.2 m/s, flooded from half of that on. Far beyond,
 * sqrt(1.5/740) = 0.045 of what the gas is faster. */
static void a_gas_has_to_be_fast_to_take_liquid_along(void **unused)
{
    (void)unused;
    assert_true(low_spot_dragged(3.0, 8e-3).value == 0.0 && low_spot_dragged(-9.0, 8e-3).value == 0.0);
    assert_true(low_spot_dragged(3.3, 8e-3).value > 0.0);
    assert_near("fast", low_spot_dragged(50.0, 8e-3).value, 0.0450 * (50.0 - 3.11 - 0.31), 0.005);
    assert_true(low_spot_takes(0.5).value == 1.0 && low_spot_takes(1.0).value == 0.0);
}

static double bed_at(double void_share, const void *with)
{
    const struct gas *gas = with;
    return bed_flow(5e-3, 0.1, 2e-3, void_share, &gas[0], &gas[1]).value;
}

static void a_bed_narrows_by_its_voids(void **unused)
{
    (void)unused;
    const struct gas gas[] = {{101825.0, 500.0, 293.15, 0.029, 1.8e-5, 1.4}, {101325.0, 0.0, 300.0, 0.04, 1.5e-5, 1.3}};
    for (double e = 0.02; e < 0.6; e += 0.03) {
        const double slope = bed_void_slope(5e-3, 0.1, 2e-3, e, &gas[0], &gas[1]);
        assert_near_share("by voids", slope, near_slope(bed_at, gas, e, 1e-5), 1e-7);
        assert_near_share("back", bed_void_slope(5e-3, 0.1, 2e-3, e, &gas[1], &gas[0]), -slope, 1e-14);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(slopes_agree_with_differences),
                                       cmocka_unit_test(a_seal_bears_its_head),
                                       cmocka_unit_test(a_gas_has_to_be_fast_to_take_liquid_along),
                                       cmocka_unit_test(a_bed_narrows_by_its_voids)};
    return cmocka_run_group_tests_name("unit/law/low_spot", tests, NULL, NULL) != 0;
}
