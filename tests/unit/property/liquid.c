/* The liquid: slopes of all partial pressures, drying up, boiling, the flash. */
#include "property/liquid.h"

#include "support/fuels.h"
#include "support/near.h"

#define GAS_CONSTANT 8.31446261815324

static const double e10[8] = {0.0423, 0.0182, 0.1353, 0.0852,
                              0.1982, 0.1802, 0.1455, 0.1950}; /* mole shares, rounded */

static void pressures_have_their_slopes(void **unused)
{
    (void)unused;
    uint64_t stream = 11;
    for (int round = 0; round < 60; round++) {
        struct liquid liquid = fuel_liquid(8, fuel_eight);
        liquid.last_drop = round % 2 ? 0.0 : 0.3;
        double amount[8];
        for (int k = 0; k < 8; k++)
            amount[k] = near_draw_decades(&stream, 1e-3, 100.0);
        const double t = near_draw_between(&stream, 235.0, 345.0);
        struct pressures at;
        liquid_pressures(&liquid, amount, t, &at);
        for (int j = 0; j < 9; j++) {
            const double h = j < 8 ? 1e-3 * amount[j] : 0.05;
            const double step[4] = {-2.0 * h, -h, h, 2.0 * h};
            struct pressures moved[4];
            for (int s = 0; s < 4; s++) {
                double there[8];
                memcpy(there, amount, sizeof there);
                if (j < 8)
                    there[j] += step[s];
                liquid_pressures(&liquid, there, j < 8 ? t : t + step[s], &moved[s]);
            }
            for (int i = 0; i < 8; i++) {
                const double wide = (moved[3].value[i] - moved[0].value[i]) / (4.0 * h);
                const double narrow = (moved[2].value[i] - moved[1].value[i]) / (2.0 * h);
                const double want = (4.0 * narrow - wide) / 3.0;
                const double got = j < 8 ? at.by_amount[i][j] : at.by_temperature[i];
                assert_near(fuel_eight[i], got, want, 1e-6 * fabs(want) + 1e-13 * at.value[i] / h);
            }
        }
    }
}

static void values_alone_are_the_same_bits(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    double value[8];
    struct pressures at;
    liquid_pressures(&liquid, e10, 299.0, &at);
    liquid_pressure_values(&liquid, e10, 299.0, value);
    for (int k = 0; k < 8; k++)
        assert_true(value[k] == at.value[k]);
    liquid_pressure_values(&liquid, (const double[8]){0}, 299.0, value);
    assert_true(value[0] == 0.0 && value[7] == 0.0);
}

/* A trace that round-off has made negative has a negative pressure and the slope of one that is there. */
static void a_trace_passes_through_nothing_straight(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    double amount[8];
    memcpy(amount, e10, sizeof amount);
    struct pressures above;
    struct pressures below;
    amount[0] = 1e-13;
    liquid_pressures(&liquid, amount, 300.0, &above);
    amount[0] = -1e-13;
    liquid_pressures(&liquid, amount, 300.0, &below);
    assert_near("mirror", below.value[0], -above.value[0], 1e-11 * above.value[0]);
    assert_near_share("slope", below.by_amount[0][0], above.by_amount[0][0], 1e-11);
}

static void a_liquid_dries_up(void **unused)
{
    (void)unused;
    struct liquid liquid = fuel_liquid(8, fuel_eight);
    struct pressures at;
    const double nothing[8] = {0};
    liquid_pressures(&liquid, nothing, 300.0, &at);
    assert_true(at.value[0] == 0.0 && at.by_amount[0][0] == 0.0);
    const double full = liquid_bubble_pressure(&liquid, e10, 300.0).value;
    liquid.last_drop = 1e-6;
    double amount[8];
    for (int k = 0; k < 8; k++)
        amount[k] = 1e-6 * e10[k];
    double total = 0.0;
    for (int k = 0; k < 8; k++)
        total += e10[k];
    assert_near_share("half a drop", liquid_bubble_pressure(&liquid, amount, 300.0).value, full * total / (1.0 + total),
                      1e-12);
}

static void boiling_is_the_inverse(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    for (double p = 300.0; p < 5e5; p *= 2.3) {
        const double t = liquid_boiling_temperature(&liquid, e10, p);
        assert_near_share("pressure", liquid_bubble_pressure(&liquid, e10, t).value, p, 1e-11);
    }
}

static void volume_and_energy_have_their_slopes(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    const double h = 0.05;
    for (double t = 240.0; t < 340.0; t += 17.0) {
        const double volume = (liquid_volume(&liquid, e10, t + h).value - liquid_volume(&liquid, e10, t - h).value);
        const double energy = (liquid_energy(&liquid, e10, t + h).value - liquid_energy(&liquid, e10, t - h).value);
        assert_near_share("volume", liquid_volume(&liquid, e10, t).slope, volume / (2.0 * h), 1e-6);
        /* heat_bend h^2/3 of a cubic's slope, as a share of the heat capacity: 1e-8 at most */
        assert_near_share("energy", liquid_energy(&liquid, e10, t).slope, energy / (2.0 * h), 1e-8);
    }
}

/* One more mol adds what it should; without ethanol mixing costs nothing. */
static void mixing_heat_has_its_slopes(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    double by[8];
    (void)liquid_mixing_heat(&liquid, e10, by);
    for (int k = 0; k < 8; k++) {
        double there[8];
        const double h = 1e-4 * e10[k];
        memcpy(there, e10, sizeof there);
        there[k] = e10[k] + h;
        const double more = liquid_mixing_heat(&liquid, there, NULL);
        there[k] = e10[k] - h;
        assert_near_share(fuel_eight[k], by[k], (more - liquid_mixing_heat(&liquid, there, NULL)) / (2.0 * h), 1e-6);
    }
    const double dry[8] = {1, 2, 3, 4, 5, 6, 7, 0};
    assert_true(liquid_mixing_heat(&liquid, dry, NULL) == 0.0);
}

/* From a vessel just larger than the liquid to one that holds hardly any: what is gone is vapor at the pressures of
 * what is left. */
static void flash_is_at_rest(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    const double t = 305.0;
    const double own = liquid_volume(&liquid, e10, t).value;
    for (double ratio = 1.001; ratio < 700.0; ratio *= 1.9) {
        double rest[8];
        struct pressures over;
        assert_true(liquid_flash(&liquid, e10, t, ratio * own, rest));
        liquid_pressures(&liquid, rest, t, &over);
        const double gas = ratio * own - liquid_volume(&liquid, rest, t).value;
        for (int k = 0; k < 8; k++)
            assert_near(fuel_eight[k], rest[k] + over.value[k] * gas / (GAS_CONSTANT * t), e10[k], 1e-12);
    }
    double rest[8];
    assert_false(liquid_flash(&liquid, e10, t, 5000.0 * own, rest));
    assert_true(rest[0] == 0.0 && rest[7] == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pressures_have_their_slopes),
        cmocka_unit_test(values_alone_are_the_same_bits),
        cmocka_unit_test(a_trace_passes_through_nothing_straight),
        cmocka_unit_test(a_liquid_dries_up),
        cmocka_unit_test(boiling_is_the_inverse),
        cmocka_unit_test(volume_and_energy_have_their_slopes),
        cmocka_unit_test(mixing_heat_has_its_slopes),
        cmocka_unit_test(flash_is_at_rest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
