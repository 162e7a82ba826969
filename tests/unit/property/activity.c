/* Activity coefficients: slopes, Gibbs and Duhem, and the first drop of ethanol. */
#include "property/activity.h"

#include "support/fuels.h"
#include "support/near.h"

#define WARM 293.15

typedef void model_of(const struct activity *, const double *, double, struct coefficients *);

static void draw_amounts(uint64_t *stream, int count, double *amount)
{
    for (int k = 0; k < count; k++)
        amount[k] = near_draw_decades(stream, 1e-4, 100.0);
}

/* From four differences at h and 2 h: what is left is h^4 times a fifth slope, and eps/h. With h a thousandth of the
 * amount (or 0.05 K) about 1e-11 of ln gamma per share; 1e-6 is asked. */
static void slopes_of(model_of *model)
{
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    uint64_t stream = 5;
    for (int round = 0; round < 40; round++) {
        double amount[8];
        struct coefficients at;
        draw_amounts(&stream, 8, amount);
        const double t = near_draw_between(&stream, 230.0, 350.0);
        model(&liquid.activity, amount, t, &at);
        for (int j = 0; j < 9; j++) { /* the ninth is temperature */
            const double h = j < 8 ? 1e-3 * amount[j] : 0.05;
            struct coefficients moved[4];
            const double step[4] = {-2.0 * h, -h, h, 2.0 * h};
            for (int s = 0; s < 4; s++) {
                double there[8];
                memcpy(there, amount, sizeof there);
                if (j < 8)
                    there[j] += step[s];
                model(&liquid.activity, there, j < 8 ? t : t + step[s], &moved[s]);
            }
            for (int i = 0; i < 8; i++) {
                const double wide = (moved[3].log[i] - moved[0].log[i]) / (4.0 * h);
                const double narrow = (moved[2].log[i] - moved[1].log[i]) / (2.0 * h);
                const double want = (4.0 * narrow - wide) / 3.0;
                const double got = j < 8 ? at.by_amount[i][j] : at.by_temperature[i];
                assert_near(fuel_eight[i], got, want, 1e-6 * fabs(want) + 1e-14 / h);
            }
        }
    }
}

static void slopes_of_the_plain_model(void **unused)
{
    (void)unused;
    slopes_of(activity_plain);
}

static void slopes_of_the_divided_model(void **unused)
{
    (void)unused;
    slopes_of(activity_divided);
}

/* sum_j n_j d ln g_i/d n_j = 0 and d ln g_i/d n_j = d ln g_j/d n_i: to the rounding of some twenty terms, each of the
 * size of the largest in its sum. */
static void gibbs_and_duhem(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    uint64_t stream = 6;
    for (int round = 0; round < 200; round++) {
        double amount[8];
        struct coefficients at;
        draw_amounts(&stream, 8, amount);
        activity_divided(&liquid.activity, amount, WARM, &at);
        for (int i = 0; i < 8; i++) {
            double sum = 0.0;
            double size = 0.0;
            for (int j = 0; j < 8; j++) {
                sum += amount[j] * at.by_amount[i][j];
                size += fabs(amount[j] * at.by_amount[i][j]);
                assert_true(at.by_amount[i][j] == at.by_amount[j][i]);
            }
            assert_near("sum n d ln gamma", sum, 0.0, 1e-13 * (1.0 + size));
        }
    }
}

/* Only ratios of amounts matter. */
static void scale_of_amounts(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    const double amount[8] = {1, 2, 3, 4, 5, 6, 7, 8};
    double more[8];
    struct coefficients one;
    struct coefficients other;
    for (int k = 0; k < 8; k++)
        more[k] = 1024.0 * amount[k];
    activity_divided(&liquid.activity, amount, WARM, &one);
    activity_divided(&liquid.activity, more, WARM, &other);
    for (int k = 0; k < 8; k++)
        assert_near("ln gamma", other.log[k], one.log[k], 1e-14);
}

static void without_ethanol_raoult_holds_exactly(void **unused)
{
    (void)unused;
    const struct liquid eight = fuel_liquid(8, fuel_eight);
    const struct liquid seven = fuel_liquid(7, fuel_eight);
    const double amount[8] = {1, 2, 3, 4, 5, 6, 7, 0};
    struct coefficients at;
    activity_divided(&eight.activity, amount, WARM, &at);
    for (int i = 0; i < 7; i++) {
        assert_true(at.log[i] == 0.0 && at.by_temperature[i] == 0.0);
        for (int j = 0; j < 7; j++)
            assert_true(at.by_amount[i][j] == 0.0);
    }
    assert_true(at.log[7] > 2.0); /* ready for the first drop */
    activity_divided(&seven.activity, amount, WARM, &at);
    for (int i = 0; i < 7; i++)
        assert_true(at.log[i] == 0.0);
}

/* As the first drop goes in, ln gamma moves with its size and not before. */
static void first_drop_goes_in_smoothly(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    double amount[8] = {1, 2, 3, 4, 5, 6, 7, 0};
    struct coefficients dry;
    activity_divided(&liquid.activity, amount, WARM, &dry);
    for (double drop = 1e-12; drop < 1e-3; drop *= 10.0) {
        struct coefficients wet;
        amount[7] = drop;
        activity_divided(&liquid.activity, amount, WARM, &wet);
        for (int i = 0; i < 8; i++) /* second order in the drop: its share squared times some hundred; rounding */
            assert_near(fuel_eight[i], wet.log[i], dry.log[i] + drop * dry.by_amount[i][7],
                        200.0 * drop * drop / (28.0 * 28.0) * 28.0 + 2e-14);
    }
}

static void pure_liquids_are_ideal(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    for (int k = 0; k < 8; k++) {
        double amount[8] = {0};
        struct coefficients at;
        amount[k] = 3.0;
        activity_plain(&liquid.activity, amount, WARM, &at);
        assert_near(fuel_eight[k], at.log[k], 0.0, 2e-14);
        activity_divided(&liquid.activity, amount, WARM, &at);
        assert_near(fuel_eight[k], at.log[k], 0.0, 2e-14);
        for (int i = 0; i < 8; i++)
            assert_true(isfinite(at.log[i]) && isfinite(at.by_amount[i][k]));
    }
}

/* Round-off below nothing counts as none; no liquid at all is no trouble. */
static void below_nothing_is_nothing(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    const double none[8] = {1, 0, 3, 0, 5, 6, 7, 2};
    const double less[8] = {1, -1e-12, 3, -1e-9, 5, 6, 7, 2};
    struct coefficients one;
    struct coefficients other;
    activity_divided(&liquid.activity, none, WARM, &one);
    activity_divided(&liquid.activity, less, WARM, &other);
    for (int i = 0; i < 8; i++) {
        assert_true(one.log[i] == other.log[i]);
        assert_true(other.by_amount[i][1] == 0.0 && other.by_amount[i][3] == 0.0);
    }
    const double gone[8] = {-1e-15, 0, 0, -1e-15, 0, 0, 0, 0};
    activity_divided(&liquid.activity, gone, WARM, &other);
    for (int i = 0; i < 8; i++)
        assert_true(other.log[i] == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes_of_the_plain_model),
        cmocka_unit_test(slopes_of_the_divided_model),
        cmocka_unit_test(gibbs_and_duhem),
        cmocka_unit_test(scale_of_amounts),
        cmocka_unit_test(without_ethanol_raoult_holds_exactly),
        cmocka_unit_test(first_drop_goes_in_smoothly),
        cmocka_unit_test(pure_liquids_are_ideal),
        cmocka_unit_test(below_nothing_is_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
