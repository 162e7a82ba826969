/* tests/unit/base/noise.c */
#include "base/noise.h"

#include "support/near.h"

#include <math.h>

enum { MANY = 20000 };

static void it_is_the_same_at_each_visit(void **unused)
{
    (void)unused;
    for (int k = 0; k < 100; k++) {
        const double time = 0.37 * k;
        assert_true(noise_at(7, time) == noise_at(7, time));
        assert_true(noise_at(7, time) != noise_at(8, time));
    }
    assert_true(noise_seed(1, 2) != noise_seed(2, 1));
}

/* Independent values, 3 grid points apart: the mean of n has a deviation of 1/sqrt(n), the variance one of sqrt(2/n); four of
 * each. On the grid and between its points. */
static void it_is_normal(void **unused)
{
    (void)unused;
    for (double between = 0.0; between < 1.0; between += 0.25) {
        double sum = 0.0, squares = 0.0;
        int beyond = 0;
        for (int k = 0; k < MANY; k++) {
            const double value = noise_at(42, NOISE_GRID * (3.0 * k + between));
            sum += value;
            squares += value * value;
            beyond += fabs(value) > 1.0;
        }
        assert_near("mean", sum / MANY, 0.0, 4.0 / sqrt(MANY));
        assert_near("variance", squares / MANY, 1.0, 4.0 * sqrt(2.0 / MANY));
        assert_near("beyond one deviation", (double)beyond / MANY, 0.3173, 4.0 * sqrt(0.25 / MANY)); /* any table */
    }
}

static void it_has_no_steps(void **unused)
{
    (void)unused;
    for (int k = 1; k < 200; k++) {
        const double time = NOISE_GRID * k, before = noise_at(3, time - 1e-9), after = noise_at(3, time + 1e-9);
        assert_near("step", after, before, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_the_same_at_each_visit),
        cmocka_unit_test(it_is_normal),
        cmocka_unit_test(it_has_no_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
