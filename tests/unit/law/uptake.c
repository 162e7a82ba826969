/* tests/unit/law/uptake.c  Linear driving force: at rest in equilibrium, slopes, and diffusion into a ball. */
#include "law/uptake.h"

#include "support/near.h"

enum { COMPANY = 3 };

static struct sorbent sorbent_of_three(void)
{
    const struct adsorbate *const row = adsorbate_table(NULL);
    const struct adsorbate *const list[COMPANY] = {&row[adsorbate_find("air")], &row[adsorbate_find("n-butane")],
                                                   &row[adsorbate_find("n-heptane")]};
    return sorbent_create(carbon_table(NULL), (struct carbon_grade){1.0, 1.0, 0.0}, COMPANY, list);
}

static const double rate[COMPANY] = {0.5, 0.03, 0.002};

static void equilibrium_stands_still(void **unused)
{
    (void)unused;
    const struct sorbent sorbent = sorbent_of_three();
    const double mass = 0.025;
    const double pressure[COMPANY] = {9e4, 1e4, 10.0};
    double amount[COMPANY], value[COMPANY];
    carbon_loading_value(&sorbent, pressure, 305.0, amount);
    for (int i = 0; i < COMPANY; i++)
        amount[i] *= mass;
    uptake_values(&sorbent, mass, rate, pressure, 305.0, amount, value);
    for (int i = 0; i < COMPANY; i++)
        assert_true(value[i] == 0.0);
}

struct probe {
    int of, by; /* by: 0..2 pressures, 3 temperature, 4..6 amounts */
    double state[2 * COMPANY + 1];
};

static double probe_uptake(double change, const void *with)
{
    struct probe moved = *(const struct probe *)with;
    moved.state[moved.by] += change;
    const struct sorbent sorbent = sorbent_of_three();
    double value[COMPANY];
    uptake_values(&sorbent, 0.025, rate, moved.state, moved.state[COMPANY], &moved.state[COMPANY + 1], value);
    return value[moved.of];
}

static void slope_check(struct probe *at, const struct uptake *uptake)
{
    for (at->of = 0; at->of < COMPANY; at->of++)
        for (at->by = 0; at->by < 2 * COMPANY + 1; at->by++) {
            const double own = at->by - COMPANY - 1 == at->of ? 1.0 : 0.0;
            const double slope = at->by < COMPANY    ? uptake->by_pressure[at->of][at->by]
                                 : at->by == COMPANY ? uptake->by_temperature[at->of]
                                                     : own * uptake->by_amount[at->of];
            const double h = 1e-3 * at->state[at->by] * (at->by == COMPANY ? 0.1 : 1.0);
            const double want = near_slope(probe_uptake, at, 0.0, h);
            assert_near("slope", slope, want, 1e-6 * fabs(want) + 1e-15 * rate[at->of] / h);
        }
}

static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 21;
    const struct sorbent sorbent = sorbent_of_three();
    for (int n = 0; n < 100; n++) {
        struct probe at;
        for (int i = 0; i < COMPANY; i++) {
            at.state[i] = near_draw_decades(&stream, 0.1, 1e5);
            at.state[COMPANY + 1 + i] = near_draw_decades(&stream, 1e-4, 0.2);
        }
        at.state[COMPANY] = near_draw_between(&stream, 250.0, 370.0);
        const struct uptake uptake =
            uptake_rates(&sorbent, 0.025, rate, at.state, at.state[COMPANY], &at.state[COMPANY + 1]);
        double value[COMPANY];
        uptake_values(&sorbent, 0.025, rate, at.state, at.state[COMPANY], &at.state[COMPANY + 1], value);
        assert_memory_equal(value, uptake.value, sizeof value);
        slope_check(&at, &uptake);
    }
}

/* Share of its final uptake that a ball has not yet taken, surface suddenly at its final value (Crank, The Mathematics
 * of Diffusion, 1975, equation 6.20): 6/pi^2 sum exp(-n^2 pi^2 D t/r^2)/n^2. */
static double ball_missing(double fourier)
{
    const double pi = 3.14159265358979323846;
    double sum = 0.0;
    for (int n = 1; n < 400; n++)
        sum += exp(-n * n * pi * pi * fourier) / (n * n);
    return 6.0 / (pi * pi) * sum;
}

/* The law is made to have the area over the curve of a ball right: integral of what is missing = r^2/(15 D),
 * exactly. */
static void grain_takes_as_long_as_a_ball(void **unused)
{
    (void)unused;
    const double diffusivity = 2e-9, grain = 2e-3;
    const double k = uptake_rate_of_grain(diffusivity, grain);
    const double per_fourier = 0.25 * grain * grain / diffusivity; /* r^2/D */

    /* in z = sqrt(Fourier number) the curve is smooth at its start: Simpson to z = 2 */
    enum { STEPS = 2000 };

    const double h = 2.0 / STEPS;
    double sum = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        const double z = h * i;
        const double weight = i == 0 || i == STEPS ? 1.0 : i % 2 ? 4.0 : 2.0;
        sum += weight * h / 3.0 * 2.0 * z * ball_missing(z * z);
    }
    assert_near_share("time", 1.0 / k, per_fourier * sum, 1e-5); /* the series ends after 400 terms */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equilibrium_stands_still),
        cmocka_unit_test(slopes_agree_with_differences),
        cmocka_unit_test(grain_takes_as_long_as_a_ball),
    };
    return cmocka_run_group_tests_name("uptake", tests, NULL, NULL) != 0;
}
