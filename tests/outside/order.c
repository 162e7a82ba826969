/* tests/outside/order.c  The stepper's error falls as theory says it must.
 *
 * Fixed order and step: BDF of order q has a global error of order h^q (textbook; [HAIRER1996] chapter V.1). Free: one
 * tolerance r rules the error in proportion, which no theorem promises, but which makes r mean something. */
#include "support/stiff.h"

/* Greatest error at held order and step over 4 s, after steps that grow from 1e-7 s have built the history up. Newton,
 * which stops at 0.003 of the tolerance, must leave less than the least error measured, 1e-11. */
static double held_error(double stiffness, int order, double h, double uneven)
{
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, 1e-13);
    double worst = 0.0;
    double step = 1e-7;
    bdf_hold(run.bdf, order);
    for (int k = 0; step < h; k++) {
        assert_int_equal(stiff_try(&run, step), BDF_STEPPED);
        step *= k > 40 ? 1.1 : 1.0;
    }
    const double begun = run.time;
    for (int k = 0; run.time < begun + 4.0; k++) {
        assert_int_equal(stiff_try(&run, k % 2 ? h * (1.0 + uneven) : h * (1.0 - uneven)), BDF_STEPPED);
        worst = fmax(worst, breathe_off(&run));
    }
    assert_int_equal(bdf_order(run.bdf), order);
    stiff_end(&run);
    return worst;
}

static void order_is_kept(double stiffness, double uneven)
{
    for (int order = 1; order <= 5; order++) {
        const double coarse = held_error(stiffness, order, 0.04, uneven);
        const double middle = held_error(stiffness, order, 0.02, uneven);
        const double fine = held_error(stiffness, order, 0.01, uneven);
        assert_near("order, coarse to middle", log2(coarse / middle), order, 0.2);
        assert_near("order, middle to fine", log2(middle / fine), order, 0.2);
    }
}

static void held_order_is_the_order(void **unused)
{
    (void)unused;
    order_is_kept(100.0, 0.0);
    order_is_kept(1e5, 0.0);
}

/* Steps 10 % short and 10 % long by turns: coefficients follow the steps. */
static void uneven_steps_keep_the_order(void **unused)
{
    (void)unused;
    order_is_kept(100.0, 0.1);
}

/* Greatest error of a free run over 10 s. */
static double free_error(double r)
{
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, r);
    double worst = 0.0;
    while (run.time < 10.0) {
        assert_true(stiff_step(&run, 10.0));
        worst = fmax(worst, breathe_off(&run));
    }
    stiff_end(&run);
    return worst;
}

static void tolerance_rules_the_error(void **unused)
{
    (void)unused;
    double error[7];
    for (int k = 0; k < 7; k++)
        error[k] = free_error(pow(10.0, -3.0 - k));
    for (int k = 0; k < 7; k++) {
        assert_true(error[k] < 30.0 * pow(10.0, -3.0 - k));
        for (int i = k + 1; i < 7; i++)
            assert_true(error[i] < 5.0 * error[k]); /* no tighter run is much worse than a looser one */
    }
    const double slope = log10(error[2] / error[6]) / 4.0; /* 1e-5 to 1e-9 */
    assert_near("slope", slope, 1.0, 0.3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(held_order_is_the_order),
        cmocka_unit_test(uneven_steps_keep_the_order),
        cmocka_unit_test(tolerance_rules_the_error),
    };
    return cmocka_run_group_tests_name("order of the stiff stepper", tests, NULL, NULL) != 0;
}
