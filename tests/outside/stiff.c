/* tests/outside/stiff.c  The stiff stepper on the problems everybody uses, against their published solutions.
 *
 * Values: the collections of stiff test problems ([HAIRER1996] and the test set for IVP solvers of Amsterdam and Bari),
 * from memory; worked out again apart from this program with scipy's solve_ivp, method Radau, relative tolerance 1e-12,
 * which agrees in all digits given here. Steps and calls of a peer of the same family: scipy's method BDF, relative
 * tolerance 1e-6. */
#include "support/stiff.h"

static double off_by(const struct stiff_run *run, const double *want)
{
    double sum = 0.0;
    for (int i = 0; i < run->system->states; i++)
        sum += pow((run->y[i] - want[i]) / run->system->scale[i], 2.0);
    return sqrt(sum / run->system->states);
}

/* Each of N steps may err by the tolerance, one way or the other; N such errors add up to about sqrt(N), and to more
 * than twice that hardly ever. */
static double allowed(const struct stiff_run *run)
{
    return 2.0 * sqrt((double)bdf_effort(run->bdf).steps) * bdf_tolerance(run->bdf);
}

/* Robertson's kinetics, three rates from 0.04 to 3e7, over eleven decades of time. Below nothing the kinetics run away:
 * the last row, 2e-8 and 8e-14 left, can only be asked of tolerances that tell these from less than nothing. */
static void robertson(void **unused)
{
    static const struct {
        double time, y[3];
    } published[] = {
        {0.4, {9.851721138610e-1, 3.386395378975e-5, 1.479402218522e-2}},
        {40.0, {7.158270687194e-1, 9.185534764558e-6, 2.841637457458e-1}},
        {4e5, {4.938274520981e-3, 1.984994087955e-8, 9.950617056291e-1}},
        {1e11, {2.083340149701e-8, 8.333360770335e-14, 9.999999791665e-1}},
    };

    (void)unused;
    const struct stiff_system system = robertson_system();
    for (double r = 1e-5; r > 1e-10; r /= 10.0) {
        struct stiff_run run = stiff_begin(&system, r, robertson_first);
        for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
            if (published[i].y[0] < 0.1 * r)
                continue;
            assert_true(stiff_go(&run, published[i].time));
            assert_near("Robertson", off_by(&run, published[i].y), 0.0, allowed(&run));
            assert_near("sum", run.y[0] + run.y[1] + run.y[2], 1.0, 1e-13);
            assert_near("account", run.y[3], run.y[2], 1e-13);
        }
        stiff_end(&run);
    }
}

/* Van der Pol's oscillator, mu = 1e6: y'' = 1e6 ((1 - y^2) y' - y). Two relaxations between 0 and 2. y' moves by 1e6 in
 * them and is weighed as y is, the peer's tolerance is relative: no counts are compared. */
static int pol_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)context;
    f[0] = y[1];
    f[1] = 1e6 * ((1.0 - y[0] * y[0]) * y[1] - y[0]);
    return 0;
}

static int pol_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)context;
    value[0] = 0.0;
    value[1] = 1.0;
    value[2] = 1e6 * (-2.0 * y[0] * y[1] - 1.0);
    value[3] = 1e6 * (1.0 - y[0] * y[0]);
    return 0;
}

static void van_der_pol(void **unused)
{
    static const double published[2] = {1.706167732170, -0.8928097010248}; /* at 2 */
    static const double scale[2] = {1.0, 1.0};
    static const double base[2] = {0.0};
    static const bool amount[2] = {false};
    int start[3];
    int column[4];
    (void)unused;
    stiff_full(2, 2, start, column);
    const struct stiff_system system = {.states = 2,
                                        .start = start,
                                        .column = column,
                                        .scale = scale,
                                        .amount = amount,
                                        .base = base,
                                        .rates = pol_rates,
                                        .slopes = pol_slopes};
    for (double r = 1e-5; r > 1e-9; r /= 10.0) {
        struct stiff_run run = stiff_begin(&system, r, (const double[]){2.0, 0.0});
        assert_true(stiff_go(&run, 2.0));
        assert_near("van der Pol", off_by(&run, published), 0.0, allowed(&run));
        stiff_end(&run);
    }
}

/* "High irradiance responses": eight kinds in a plant's morphogenesis, one fast reaction. */
enum { KINDS = 8 };

static int light_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)context;
    const double bound = 280.0 * y[5] * y[7];
    f[0] = -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007;
    f[1] = 1.71 * y[0] - 8.75 * y[1];
    f[2] = -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4];
    f[3] = 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3];
    f[4] = -1.745 * y[4] + 0.43 * y[5] + 0.43 * y[6];
    f[5] = -bound + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6];
    f[6] = bound - 1.81 * y[6];
    f[7] = -f[6];
    return 0;
}

static int light_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)context;
    const double by5 = 280.0 * y[7];
    const double by7 = 280.0 * y[5];
    const double full[KINDS][KINDS] = {
        {-1.71, 0.43, 8.32},
        {1.71, -8.75},
        {0, 0, -10.03, 0.43, 0.035},
        {0, 8.32, 1.71, -1.12},
        {0, 0, 0, 0, -1.745, 0.43, 0.43},
        {0, 0, 0, 0.69, 1.71, -by5 - 0.43, 0.69, -by7},
        {0, 0, 0, 0, 0, by5, -1.81, by7},
        {0, 0, 0, 0, 0, -by5, 1.81, -by7},
    };
    memcpy(value, full, sizeof full);
    return 0;
}

static void irradiance_responses(void **unused)
{
    static const double published[KINDS] = {7.371312573325e-4, 1.442485726316e-4, 5.888729740967e-5, 1.175651343283e-3,
                                            2.386356198831e-3, 6.238968252743e-3, 2.849998395185e-3, 2.850001604815e-3};
    static const double first[KINDS] = {1.0, 0, 0, 0, 0, 0, 0, 0.0057};
    static const double scale[KINDS] = {0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01};
    static const double base[KINDS] = {0.0};
    static const bool amount[KINDS] = {true, true, true, true, true, true, true, true};
    int start[KINDS + 1];
    int column[KINDS * KINDS];
    (void)unused;
    stiff_full(KINDS, KINDS, start, column);
    const struct stiff_system system = {.states = KINDS,
                                        .start = start,
                                        .column = column,
                                        .scale = scale,
                                        .amount = amount,
                                        .base = base,
                                        .rates = light_rates,
                                        .slopes = light_slopes};
    for (double r = 1e-4; r > 1e-9; r /= 10.0) {
        struct stiff_run run = stiff_begin(&system, r, first);
        assert_true(stiff_go(&run, 321.8122));
        assert_near("responses", off_by(&run, published), 0.0, allowed(&run));
        if (r > 0.5e-6 && r < 2e-6) { /* the peer: 328 steps, 911 calls, 25 Jacobians, 85 factorizations */
            const struct stiff_effort effort = bdf_effort(run.bdf);
            assert_true(effort.steps < 328 * 3 / 2);
            assert_true(effort.derivatives < 911 * 3 / 2);
            assert_true(effort.jacobians < 25 * 3 / 2);
            assert_true(effort.factorizations < 85 * 3 / 2);
        }
        stiff_end(&run);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(robertson),
        cmocka_unit_test(van_der_pol),
        cmocka_unit_test(irradiance_responses),
    };
    return cmocka_run_group_tests_name("published stiff problems", tests, NULL, NULL) != 0;
}
