/* tests/unit/law/convection.c  Natural convection: slopes, zero, the two sides of a level surface. */
#include "law/convection.h"

#include "support/near.h"

static struct convective air(void)
{
    return convective_gas(STANDARD_PRESSURE, 300.0, 28.9647e-3, 29.1, 1.85e-5, 0.0262);
}

static struct convective fuel(void)
{
    return convective_liquid(700.0, 1.3e-3, 2150.0, 4e-4, 0.12);
}

static struct sloped wall(const struct convective *fluid, double difference)
{
    return convection_wall(fluid, 0.25, difference);
}

static struct sloped cylinder(const struct convective *fluid, double difference)
{
    return convection_cylinder(fluid, 0.1, difference);
}

static struct sloped plate(const struct convective *fluid, double difference)
{
    return convection_plate(fluid, 0.1, difference);
}

static struct sloped layer(const struct convective *fluid, double difference)
{
    return convection_layer(fluid, 0.1, 0.1, difference);
}

typedef struct sloped law(const struct convective *fluid, double difference);

static law *const laws[] = {wall, cylinder, plate, layer};

enum { LAWS = sizeof laws / sizeof laws[0] };

struct probe {
    law *law;
    struct convective fluid;
};

static double probe_coefficient(double difference, const void *with)
{
    const struct probe *probe = with;
    return probe->law(&probe->fluid, difference).value;
}

/* The smoothing bends on 0.05 K. Powers of powers: some thirty roundings. The step stays on its side of zero, where the
 * second derivative of level surfaces jumps. */
static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    for (int l = 0; l < LAWS; l++)
        for (int liquid = 0; liquid < 2; liquid++) {
            const struct probe probe = {laws[l], liquid ? fuel() : air()};
            for (double size = 1e-4; size < 50.0; size *= 1.3)
                for (int side = -1; side <= 1; side += 2) {
                    const double h = 1e-2 * fmin(size, 0.1);
                    const double want = near_slope(probe_coefficient, &probe, side * size, h);
                    const struct sloped got = laws[l](&probe.fluid, side * size);
                    assert_near("slope", got.slope, want, 1e-6 * fabs(want) + 3e-14 * got.value / h);
                }
        }
}

static void rest_is_finite(void **unused)
{
    (void)unused;
    const struct convective fluids[] = {air(), fuel()};
    for (int l = 0; l < LAWS; l++)
        for (int f = 0; f < 2; f++) {
            const struct sloped rest = laws[l](&fluids[f], 0.0);
            const struct sloped below = laws[l](&fluids[f], -1e-12);
            const struct sloped above = laws[l](&fluids[f], 1e-12);
            assert_true(rest.value > 0.0 && isfinite(rest.slope));
            assert_near_share("value", below.value, above.value, 1e-6);
            assert_near("slope", below.slope, above.slope, 1e-6 * (rest.value + fabs(rest.slope)));
        }
}

/* A wall and a cylinder do not care which side is warm; a level surface does. */
static void only_level_surfaces_know_up_from_down(void **unused)
{
    (void)unused;
    const struct convective gas = air();
    for (double d = 0.01; d < 30.0; d *= 2.0) {
        assert_true(wall(&gas, d).value == wall(&gas, -d).value);
        assert_true(cylinder(&gas, d).value == cylinder(&gas, -d).value);
        assert_true(plate(&gas, d).value > plate(&gas, -d).value);
        assert_true(layer(&gas, d).value > layer(&gas, -d).value);
    }
}

/* Warm over cold in a closed space: conduction over the path, 0.0262 W/m/K over 0.1 m. */
static void a_settled_layer_conducts(void **unused)
{
    (void)unused;
    const struct convective gas = air();
    assert_near_share("layer", layer(&gas, -0.01).value, 0.262, 1e-15);
    assert_near_share("layer", layer(&gas, -10.0).value, 0.262, 1e-15);
}

/* Heat rises with the difference. */
static void heat_is_monotone(void **unused)
{
    (void)unused;
    const struct convective fluids[] = {air(), fuel()};
    for (int l = 0; l < LAWS; l++)
        for (int f = 0; f < 2; f++) {
            double before = -(double)INFINITY;
            for (double d = -20.0; d <= 20.0; d += 0.005) {
                const double heat = laws[l](&fluids[f], d).value * d;
                assert_true(heat > before);
                before = heat;
            }
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes_agree_with_differences),
        cmocka_unit_test(rest_is_finite),
        cmocka_unit_test(only_level_surfaces_know_up_from_down),
        cmocka_unit_test(a_settled_layer_conducts),
        cmocka_unit_test(heat_is_monotone),
    };
    return cmocka_run_group_tests_name("convection", tests, NULL, NULL) != 0;
}
