/* tests/unit/law/heat.c  Heat over surfaces as they stand: slopes, signs, limits; wind, and gas nearly at rest. */
#include "law/heat.h"

#include "support/near.h"

static struct convective air(void)
{
    return convective_gas(STANDARD_PRESSURE, 300.0, 28.9647e-3, 29.1, 1.85e-5, 0.0262);
}

static struct heat_way way_of(enum stance stance, double path, double beside)
{
    struct heat_way way = {0};
    heat_way_add(&way, (struct surface){stance, 0.3, beside, 0.25, path, air(), false});
    return way;
}

struct probe {
    struct heat_way way;
    double wind;
};

static double flow_at(double difference, const void *with)
{
    const struct probe *probe = with;
    return heat_flow(&probe->way, difference, probe->wind).value;
}

/* As in unit/law/convection: bends on 0.05 K, so (h/0.05)^4 of the slope is what differences leave, and round-off of
 * 1e-15 of the flow over h. */
static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    for (int stance = SURFACE_FIXED; stance <= SURFACE_OVER; stance++)
        for (int k = 0; k < 4; k++) {
            const struct probe probe = {way_of((enum stance)stance, k & 1 ? 0.05 : 0.0, 2.0), k & 2 ? 3.0 : 0.0};
            for (double d = -20.013; d < 20.0; d += 1.37) {
                const double h = 1e-3;
                const struct sloped flow = heat_flow(&probe.way, d, probe.wind);
                assert_near("slope", flow.slope, near_slope(flow_at, &probe, d, h),
                            1e-6 * fabs(flow.slope) + 1e-14 * fabs(flow.value) / h);
            }
        }
}

static void heat_goes_from_warm_to_cold(void **unused)
{
    (void)unused;
    for (int stance = SURFACE_FIXED; stance <= SURFACE_OVER; stance++) {
        const struct heat_way way = way_of((enum stance)stance, 0.0, 1.0);
        double last = -INFINITY;
        for (double d = -30.0; d <= 30.0; d += 0.5) {
            const double flow = heat_flow(&way, d, 0.0).value;
            assert_true(flow * d >= 0.0 && flow > last);
            last = flow;
        }
    }
}

/* A cold roof stirs the gas below it, a warm one does not; a floor the other way. */
static void level_surfaces_have_two_sides(void **unused)
{
    (void)unused;
    const struct heat_way roof = way_of(SURFACE_OVER, 0.05, 0.0), floor = way_of(SURFACE_UNDER, 0.05, 0.0);
    assert_true(-heat_flow(&roof, -10.0, 0.0).value > 3.0 * heat_flow(&roof, 10.0, 0.0).value);
    assert_near_share("floor", heat_flow(&floor, 10.0, 0.0).value, -heat_flow(&roof, -10.0, 0.0).value, 1e-14);
    /* at rest under a warm roof: 0.0262 W/m/K over 50 mm, 0.3 m2, 10 K */
    assert_near_share("settled", heat_flow(&roof, 10.0, 0.0).value, 0.0262 / 0.05 * 0.3 * 10.0, 1e-14);
}

/* A wall in a closed space conducts at least; joined as the sum of cubes, 3.1 % above it where convection is half of it. */
static void what_is_nearly_at_rest_conducts(void **unused)
{
    (void)unused;
    const struct heat_way closed = way_of(SURFACE_STANDS, 0.02, 0.0), open = way_of(SURFACE_STANDS, 0.0, 0.0);
    const double still = 0.0262 / 0.02 * 0.3, d = 1e-3;
    const double free = heat_flow(&open, d, 0.0).value / d;
    assert_near_share("both", heat_flow(&closed, d, 0.0).value / d, cbrt(still * still * still + free * free * free),
                      1e-13);
    assert_true(free < still);
}

static void wind_joins_and_surfaces_add(void **unused)
{
    (void)unused;
    const struct heat_way way = way_of(SURFACE_STANDS, 0.0, 0.0);
    const struct convective fluid = air();
    const double free = convection_wall(&fluid, 0.25, 8.0).value, forced = convection_forced(&fluid, 0.25, 5.0);
    assert_near_share("wind", heat_flow(&way, 8.0, 5.0).value,
                      0.3 * 8.0 * cbrt(free * free * free + forced * forced * forced), 1e-13);
    struct heat_way two = way;
    heat_way_add(&two, way.surface[0]);
    heat_way_add(&two, (struct surface){.stance = SURFACE_FIXED, .area = 0.1, .coefficient = 7.0});
    assert_near_share("sum", heat_flow(&two, 8.0, 0.0).value, 2.0 * heat_flow(&way, 8.0, 0.0).value + 5.6, 1e-14);
    const struct heat_way none = heat_fixed(0.0), some = heat_fixed(4.0);
    assert_false(heat_way_open(&none));
    assert_true(heat_flow(&some, 2.0, 9.0).value == 8.0);
}

struct parting {
    struct heat_way whole;
    double difference, wind;
};

static double heat_at(double share, const void *with)
{
    const struct parting *at = with;
    struct heat_way part;
    heat_way_part(&at->whole, share, &part);
    return heat_flow(&part, at->difference, at->wind).value;
}

/* Half of the height: half of the sides, and half as far from a level surface to the middle. By the share it is smooth. */
static void a_level_parts_the_ways(void **unused)
{
    (void)unused;
    struct parting at = {way_of(SURFACE_STANDS, 0.0, 2.0), 0.0, 0.0};
    at.whole.surface[0].side = true;
    for (int stance = SURFACE_UNDER; stance <= SURFACE_OVER; stance++)
        heat_way_add(&at.whole, (struct surface){(enum stance)stance, 0.2, 1.0, 0.05, 0.1, air(), false});
    struct heat_way half, growth;
    heat_way_part(&at.whole, 0.5, &half);
    assert_near("area", half.surface[0].area, 0.15, 1e-15);
    assert_near("height", half.surface[0].length, 0.125, 1e-15);
    assert_near("path", half.surface[1].path, 0.05, 1e-15);
    assert_near("roof", half.surface[2].area, 0.2, 0.0);
    for (int k = 0; k < 40; k++) {
        const double share = 0.02 + 0.024 * k, slope = 3.0, h = 1e-4;
        at.difference = k % 3 ? 11.0 : -7.0;
        at.wind = k % 2 ? 4.0 : 0.0;
        heat_way_part(&at.whole, share, &half);
        heat_way_growth(&at.whole, slope, &growth);
        const double by_share = near_slope(heat_at, &at, share, h);
        assert_near("slope", heat_growth(&half, &growth, at.difference, at.wind), slope * by_share,
                    1e-7 * fabs(slope * by_share) + 1e-9 * fabs(heat_at(share, &at)));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes_agree_with_differences), cmocka_unit_test(heat_goes_from_warm_to_cold),
        cmocka_unit_test(level_surfaces_have_two_sides), cmocka_unit_test(what_is_nearly_at_rest_conducts),
        cmocka_unit_test(wind_joins_and_surfaces_add),   cmocka_unit_test(a_level_parts_the_ways),
    };
    return cmocka_run_group_tests_name("unit/law/heat", tests, NULL, NULL) != 0;
}
