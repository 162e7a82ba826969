/* tests/unit/run/bdf_newton.c  Newton solves the step's equation, with factors of this gamma or of one nearby. */
#include "support/stiff.h"

/* y' = -rate (y - t^2), one state. */
static int lag_rates(double time, const double *y, double *f, void *context)
{
    f[0] = -*(const double *)context * (y[0] - time * time);
    return 0;
}

static int lag_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    value[0] = -*(const double *)context;
    return 0;
}

/* y' = 3 t^2. */
static int cube_rates(double time, const double *y, double *f, void *context)
{
    (void)y;
    (void)context;
    f[0] = 3.0 * time * time;
    return 0;
}

static int cube_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    value[0] = 0.0;
    return 0;
}

static const int one_start[2] = {0, 1};
static const int one_column[1] = {0};
static const double one_scale[1] = {1.0};
static const double one_base[1] = {0.0};
static const bool one_amount[1] = {false};

static struct stiff_system lag_system(double *rate)
{
    return (struct stiff_system){.states = 1,
                                 .start = one_start,
                                 .column = one_column,
                                 .scale = one_scale,
                                 .amount = one_amount,
                                 .base = one_base,
                                 .rates = rate ? lag_rates : cube_rates,
                                 .slopes = rate ? lag_slopes : cube_slopes,
                                 .context = rate};
}

static double euler(double rate, double h, double time, double y)
{
    return (y + h * rate * time * time) / (1.0 + h * rate);
}

/* Order 1 is the implicit Euler rule, whose value is known: Newton must meet it to its share of the tolerance (0.003,
 * halved by order 1's error constant), also when the step, and so gamma, has moved by 15 % under old factors, after
 * ninety steps of a linear system, which converge at once, have brought its remembered rate to nothing. */
static void moved_gamma_is_no_excuse(void **unused)
{
    (void)unused;
    for (double rate = 1.0; rate < 1e7; rate *= 10.0) {
        const double r = 1e-6;
        const struct stiff_system system = lag_system(&rate);
        struct stiff_run run = stiff_begin(&system, r, (const double[]){0.3});
        bdf_hold(run.bdf, 1);
        for (int k = 0; k < 90; k++) {
            const double want = euler(rate, 0.005, run.time + 0.005, run.y[0]);
            assert_int_equal(stiff_try(&run, 0.005), BDF_STEPPED);
            assert_near("equal steps", run.y[0], want, 0.006 * r);
        }
        const struct stiff_effort before = bdf_effort(run.bdf);
        const double want = euler(rate, 0.00575, run.time + 0.00575, run.y[0]);
        assert_int_equal(stiff_try(&run, 0.00575), BDF_STEPPED);
        assert_near("a longer one", run.y[0], want, 0.006 * r);
        assert_int_equal(bdf_effort(run.bdf).factorizations, before.factorizations);
        stiff_end(&run);
    }
}

/* Stiff, gamma moved by 15 %, a correction of 100 tolerances: weighed corrections leave 0.15 / 2.15 each, and four are
 * enough (50 x 0.07^3 x 0.07 < 0.003); unweighed ones leave 0.15, and four are not. */
static void weighed_corrections_save_factors(void **unused)
{
    (void)unused;
    double rate = 1e8;
    const double h = sqrt(0.5e-4); /* second difference of t^2: 2 h^2 = 100 r */
    const struct stiff_system system = lag_system(&rate);
    struct stiff_run run = stiff_begin(&system, 1e-6, (const double[]){0.0});
    bdf_hold(run.bdf, 1);
    for (int k = 0; k < 30; k++)
        assert_int_equal(stiff_try(&run, h), BDF_STEPPED);
    const struct stiff_effort before = bdf_effort(run.bdf);
    assert_int_equal(stiff_try(&run, 1.15 * h), BDF_STEPPED);
    const struct stiff_effort after = bdf_effort(run.bdf);
    assert_int_equal(after.factorizations, before.factorizations);
    assert_int_equal(after.derivatives, before.derivatives + 4);
    stiff_end(&run);
}

/* Factors serve until gamma has moved by 20 %, slopes for fifty steps. */
static void factors_and_slopes_are_renewed_in_time(void **unused)
{
    (void)unused;
    double rate = 1.0;
    const struct stiff_system system = lag_system(&rate);
    struct stiff_run run = stiff_begin(&system, 1e-6, (const double[]){0.0});
    bdf_hold(run.bdf, 1);
    for (int k = 0; k < 50; k++)
        assert_int_equal(stiff_try(&run, 0.01), BDF_STEPPED);
    assert_int_equal(bdf_effort(run.bdf).jacobians, 1);
    assert_int_equal(bdf_effort(run.bdf).factorizations, 1);
    assert_int_equal(stiff_try(&run, 0.01), BDF_STEPPED);
    assert_int_equal(bdf_effort(run.bdf).jacobians, 2);
    assert_int_equal(stiff_try(&run, 0.0119), BDF_STEPPED);
    assert_int_equal(bdf_effort(run.bdf).factorizations, 2);
    assert_int_equal(stiff_try(&run, 0.0121), BDF_STEPPED);
    assert_int_equal(bdf_effort(run.bdf).factorizations, 3);
    assert_int_equal(bdf_effort(run.bdf).jacobians, 2);
    bdf_restart(run.bdf, 0.01); /* the system may be another one now */
    assert_int_equal(stiff_try(&run, 0.01), BDF_STEPPED);
    assert_int_equal(bdf_effort(run.bdf).jacobians, 3);
    stiff_end(&run);
}

/* From order 3 down to 2: the history keeps y_{n-1}, its slope and y_{n-2}. With equal steps the quadratic through
 * these, w, and the slope condition h f_n = h w' + 3/2 e give y_n = w + e. */
static void lower_order_goes_on_from_the_same_values(void **unused)
{
    (void)unused;
    const double h = 0.1;
    const struct stiff_system system = lag_system(NULL);
    struct stiff_run run = stiff_begin(&system, 1e-8, (const double[]){0.0});
    bdf_hold(run.bdf, 3);
    double before = 0.0;
    for (int k = 0; k < 12; k++) {
        before = run.y[0];
        assert_int_equal(stiff_try(&run, h), BDF_STEPPED);
    }
    assert_int_equal(bdf_order(run.bdf), 3);
    bdf_hold(run.bdf, 2);
    before = run.y[0];
    assert_int_equal(stiff_try(&run, h), BDF_STEPPED); /* still of order 3, chosen before */
    const double last = run.y[0];
    const double slope = h * 3.0 * run.time * run.time;
    const double curve = before - last + slope; /* w = last + slope x + curve x^2 */
    const double next = run.time + h;
    const double e = (h * 3.0 * next * next - slope - 2.0 * curve) / 1.5;
    assert_int_equal(stiff_try(&run, h), BDF_STEPPED);
    assert_int_equal(bdf_order(run.bdf), 2);
    assert_near("order 2", run.y[0], last + slope + curve + e, 1e-13);
    stiff_end(&run);
}

/* Free: an order is kept for order + 1 steps at least before the next higher one is taken. Returns the highest. */
static int order_rises_slowly_at(double stiffness, double r, double first_step)
{
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, r);
    int order = 1;
    int kept = 0;
    int highest = 0;
    bdf_restart(run.bdf, first_step);
    for (int k = 0; k < 120; k++) {
        assert_true(stiff_step(&run, 1e3));
        const int now = bdf_order(run.bdf);
        if (now > order)
            assert_true(now == order + 1 && kept >= order + 1);
        kept = now == order ? kept + 1 : 1;
        order = now;
        highest = now > highest ? now : highest;
    }
    stiff_end(&run);
    return highest;
}

static void order_rises_slowly(void **unused)
{
    (void)unused;
    int highest = 0;
    for (double stiffness = 0.1; stiffness < 1e5; stiffness *= 10.0)
        for (double r = 1e-3; r > 1e-11; r /= 10.0)
            for (double first = 1e-8; first < 0.1; first *= 10.0) {
                const int reached = order_rises_slowly_at(stiffness, r, first);
                highest = reached > highest ? reached : highest;
            }
    assert_int_equal(highest, 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moved_gamma_is_no_excuse),
        cmocka_unit_test(weighed_corrections_save_factors),
        cmocka_unit_test(factors_and_slopes_are_renewed_in_time),
        cmocka_unit_test(lower_order_goes_on_from_the_same_values),
        cmocka_unit_test(order_rises_slowly),
    };
    return cmocka_run_group_tests_name("a step's equation", tests, NULL, NULL) != 0;
}
