/* tests/outside/bed.c  The packed bed against Ergun's relation, worked out apart from this program.
 *
 * Air: mu 1.82e-5 Pa s, R 287.05 J/kg/K, 20 degC; outlet 101325 Pa; bed 0.2 m long, 5e-3 m2. Volume flow at the outlet.
 * "exact": the gas expands on its way (isothermal), which is what the law's mean density amounts to: the difference left
 * is the last digit of the table. "plain": outlet density throughout, 1 %. */
#include "law/passages.h"
#include "support/near.h"

static double litres(double particle, double void_share, double step)
{
    const struct gas up = {STANDARD_PRESSURE + step, step, STANDARD_TEMPERATURE, GAS_CONSTANT / 287.05, 1.82e-5, 1.4};
    const struct gas down = {STANDARD_PRESSURE, 0.0, STANDARD_TEMPERATURE, GAS_CONSTANT / 287.05, 1.82e-5, 1.4};
    return bed_flow(5e-3, 0.2, 1e-3 * particle, void_share, &up, &down).value * GAS_CONSTANT * STANDARD_TEMPERATURE /
           STANDARD_PRESSURE * 6e4;
}

static const struct {
    const char *name;
    double particle, void_share, step, flow; /* mm, -, Pa, L/min */
    double share;
} row[] = {
    {"exact", 2.0, 0.40, 13.3447481, 5.0, 1e-7},   {"exact", 2.0, 0.40, 59.9497945, 20.0, 1e-7},
    {"exact", 2.0, 0.40, 182.679257, 50.0, 1e-7},  {"exact", 2.0, 0.40, 474.32801, 100.0, 1e-7},
    {"plain", 2.0, 0.40, 100.0, 30.88906, 0.01},   {"plain", 2.0, 0.40, 500.0, 103.495778, 0.01},
    {"plain", 2.0, 0.40, 1000.0, 162.96195, 0.01}, {"plain", 2.0, 0.40, 2000.0, 249.132592, 0.01},
    {"plain", 1.0, 0.38, 769.765229, 50.0, 0.01},  {"plain", 1.5, 0.38, 371.512177, 50.0, 0.01},
    {"plain", 3.0, 0.40, 93.4584558, 50.0, 0.01},
};

static void bed_follows_ergun(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_near_share(row[i].name, litres(row[i].particle, row[i].void_share, row[i].step), row[i].flow,
                          row[i].share);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(bed_follows_ergun)};
    return cmocka_run_group_tests_name("bed against the outside", tests, NULL, NULL) != 0;
}
