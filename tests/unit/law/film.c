/* tests/unit/law/film.c  Evaporation, condensation, boiling: closed form, equilibrium, joints, slopes. */
#include "law/film.h"

#include "support/near.h"

enum { VAPORS = 3 };

struct state {
    double saturation[VAPORS], partial[VAPORS], transfer[VAPORS], pressure, temperature;
};

static struct film_side side_of(const struct state *s, int count)
{
    return (struct film_side){count,         0.3,        s->pressure, s->temperature,
                              s->saturation, s->partial, s->transfer, FILM_BOILING};
}

static struct state state_draw(uint64_t *stream)
{
    struct state s = {.pressure = near_draw_between(stream, 6e4, 1.1e5),
                      .temperature = near_draw_between(stream, 260.0, 340.0)};
    const double gas = near_draw_between(stream, 0.05, 1.0) * s.pressure;
    const double liquid = near_draw_between(stream, 0.05, 1.2) * s.pressure;
    for (int k = 0; k < VAPORS; k++) {
        s.saturation[k] = liquid / VAPORS * near_draw_between(stream, 0.5, 1.5);
        s.partial[k] = gas / VAPORS * near_draw_between(stream, 0.5, 1.0);
        s.transfer[k] = near_draw_decades(stream, 1e-4, 1e-2);
    }
    return s;
}

/* ---- closed form ------------------------------------------------------------------------------------------------- */

/* One vapor through still gas: k p/(R T) ln((p - p_v)/(p - p*)) (Stefan). The law's joint moves pressures of 1 kPa and
 * more by (50 Pa/1 kPa)^2 at most, hence 2.5e-3 there and (50/i)^2 in general. */
static void one_vapor_follows_stefan(void **unused)
{
    (void)unused;
    uint64_t stream = 41;
    for (int n = 0; n < 300; n++) {
        struct state s = state_draw(&stream);
        const double inert = near_draw_decades(&stream, 1e3, 0.99 * s.pressure);
        const double surface = near_draw_decades(&stream, 1e3, 0.99 * s.pressure);
        s.partial[0] = s.pressure - inert;
        s.saturation[0] = s.pressure - surface;
        double value;
        const struct film_side side = side_of(&s, 1);
        film_values(&side, &value);
        const double scale = 0.3 * s.transfer[0] * s.pressure / (GAS_CONSTANT * s.temperature);
        const double least = fmin(inert, surface);
        assert_near("flux", value, scale * log(inert / surface),
                    scale * (50.0 / least) * (50.0 / least) * (2.0 + fabs(log(inert / surface))));
    }
}

/* Vapors with one transfer coefficient: the film equations N_k = N (y*_k e^f - y_k)/(e^f - 1) with
 * N = k C f, f = ln(i/i*), each solved by itself; the same joint. */
static void equal_vapors_follow_the_film_equations(void **unused)
{
    (void)unused;
    uint64_t stream = 42;
    for (int n = 0; n < 300; n++) {
        struct state s = state_draw(&stream);
        double inert = s.pressure, surface = s.pressure, value[VAPORS];
        for (int k = 0; k < VAPORS; k++) {
            s.transfer[k] = s.transfer[0];
            s.saturation[k] *= 0.5;
            inert -= s.partial[k];
            surface -= s.saturation[k];
        }
        if (fmin(inert, surface) < 2e3)
            continue;
        const struct film_side side = side_of(&s, VAPORS);
        film_values(&side, value);
        const double f = log(inert / surface);
        const double all = 0.3 * s.transfer[0] / (GAS_CONSTANT * s.temperature) * f;
        for (int k = 0; k < VAPORS; k++) {
            const double want = all * (s.saturation[k] * exp(f) - s.partial[k]) / expm1(f);
            const double scale = 0.3 * s.transfer[0] * s.pressure / (GAS_CONSTANT * s.temperature);
            assert_near("flux", value[k], want, 4.0 * scale * 6.25e-4); /* (50 Pa/2 kPa)^2 */
        }
    }
}

/* ---- equilibrium, direction -------------------------------------------------------------------------------------- */

static void equilibrium_passes_nothing(void **unused)
{
    (void)unused;
    uint64_t stream = 43;
    for (int n = 0; n < 200; n++) {
        struct state s = state_draw(&stream);
        double sum = 0.0, value[VAPORS];
        for (int k = 0; k < VAPORS; k++)
            sum += s.saturation[k] = s.partial[k];
        if (n % 2)
            s.pressure = sum; /* no air left */
        const struct film_side side = side_of(&s, VAPORS);
        film_values(&side, value);
        for (int k = 0; k < VAPORS; k++)
            assert_true(value[k] == 0.0);
    }
}

/* Condensation is evaporation seen from the other side, while nothing boils. */
static void condensation_is_the_same_law(void **unused)
{
    (void)unused;
    uint64_t stream = 44;
    for (int n = 0; n < 200; n++) {
        struct state s = state_draw(&stream);
        s.pressure *= 2.0;
        struct state turned = s;
        memcpy(turned.saturation, s.partial, sizeof s.partial);
        memcpy(turned.partial, s.saturation, sizeof s.saturation);
        double there[VAPORS], back[VAPORS];
        const struct film_side one = side_of(&s, VAPORS), other = side_of(&turned, VAPORS);
        film_values(&one, there);
        film_values(&other, back);
        for (int k = 0; k < VAPORS; k++)
            assert_near("flux", there[k], -back[k], 1e-12 * fabs(back[k]) + 1e-18);
    }
}

/* Warmer liquid, more vapor: from far under the bubble point to far over it, finite all the way. */
static void boiling_goes_on_from_evaporation(void **unused)
{
    (void)unused;
    struct state s = {.partial = {2e4}, .transfer = {2e-3}, .pressure = 1e5, .temperature = 310.0};
    double before = -1.0, value = 0.0;
    for (double saturation = 2.0e4; saturation <= 1.5e5; saturation += 10.0) {
        s.saturation[0] = saturation;
        const struct film_side side = side_of(&s, 1);
        film_values(&side, &value);
        assert_true(value >= 0.0 && value > before);
        before = value;
    }
    /* 50 kPa over: boiling, and the film's logarithm of 80 kPa of air over (50 Pa)^2/50 kPa = 0.05 Pa */
    const double boils = 0.3 * FILM_BOILING * (5e4 - 50.0);
    const double per_pascal = 0.3 * 2e-3 / (GAS_CONSTANT * 310.0);
    assert_near_share("over", value, boils + per_pascal * 1.5e5 * log(8e4 / 0.05), 1e-5);
    /* The film's share where boiling begins: the bulk's 80 kPa of air over the joint's 50 Pa. */
    s.saturation[0] = s.pressure;
    const struct film_side side = side_of(&s, 1);
    film_values(&side, &value);
    assert_near_share("at the bubble point", value, per_pascal * 1e5 * log(8e4 / 50.0), 1e-3);
}

/* ---- slopes ------------------------------------------------------------------------------------------------------ */

enum { BY_PRESSURE = 3 * VAPORS, BY_TEMPERATURE };

struct probe {
    const struct state *state;
    int of, by;
};

static double *quantity(struct state *s, int by)
{
    return by < VAPORS         ? &s->saturation[by]
           : by < 2 * VAPORS   ? &s->partial[by - VAPORS]
           : by < 3 * VAPORS   ? &s->transfer[by - 2 * VAPORS]
           : by == BY_PRESSURE ? &s->pressure
                               : &s->temperature;
}

static double probe_film(double change, const void *with)
{
    const struct probe *probe = with;
    struct state moved = *probe->state;
    *quantity(&moved, probe->by) += change;
    double value[VAPORS];
    const struct film_side side = side_of(&moved, VAPORS);
    film_values(&side, value);
    return value[probe->of];
}

static double film_slope(const struct film *film, int of, int by)
{
    return by < VAPORS         ? film->by_saturation[of][by]
           : by < 2 * VAPORS   ? film->by_partial[of][by - VAPORS]
           : by < 3 * VAPORS   ? (by - 2 * VAPORS == of ? film->by_transfer[of] : 0.0)
           : by == BY_PRESSURE ? film->by_pressure[of]
                               : film->by_temperature[of];
}

/* Bends at +-50 Pa around the bubble point; away from the corner of the second derivative where boiling sets in, and
 * where it becomes straight. */
static int near_a_kink(const struct state *s)
{
    double excess = -s->pressure;
    for (int k = 0; k < VAPORS; k++)
        excess += s->saturation[k];
    return fabs(excess) < 3.0 || fabs(excess - 100.0) < 3.0;
}

static void slope_check(const struct state *s)
{
    const struct film_side side = side_of(s, VAPORS);
    const struct film film = film_evaporation(&side);
    double value[VAPORS];
    film_values(&side, value);
    assert_memory_equal(value, film.value, sizeof value);
    for (int i = 0; i < VAPORS; i++)
        for (int by = 0; by <= BY_TEMPERATURE; by++) {
            struct state copy = *s;
            const double size = *quantity(&copy, by);
            const int pressures = by < 2 * VAPORS || by == BY_PRESSURE;
            const double h = pressures ? 0.5 : 1e-3 * size;
            const double want = near_slope(probe_film, &(struct probe){s, i, by}, 0.0, h);
            /* round-off: of a flux that is the difference of two as large as k p A/(R T) */
            const double flux =
                fabs(film.value[i]) + 0.3 * s->transfer[i] * s->pressure / (GAS_CONSTANT * s->temperature);
            char name[60];
            snprintf(name, sizeof name, "vapor %d by %d", i, by);
            assert_near(name, film_slope(&film, i, by), want, 1e-6 * fabs(want) + 1e-15 * flux / h);
        }
}

static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 45;
    int seen = 0, boiled = 0;
    for (int n = 0; n < 600; n++) {
        struct state s = state_draw(&stream);
        if (n % 3 == 0) { /* right around the bubble point */
            double sum = 0.0;
            for (int k = 0; k < VAPORS; k++)
                sum += s.saturation[k];
            s.pressure = sum + near_draw_between(&stream, -300.0, 300.0);
        }
        if (near_a_kink(&s))
            continue;
        seen++;
        boiled += s.pressure < s.saturation[0] + s.saturation[1] + s.saturation[2];
        slope_check(&s);
    }
    assert_true(seen > 500 && boiled > 100);
}

/* No jump of a slope where boiling sets in, nor where it becomes straight. */
static void joints_are_smooth(void **unused)
{
    (void)unused;
    uint64_t stream = 46;
    const double joint[] = {0.0, 100.0};
    for (int n = 0; n < 100; n++)
        for (int at = 0; at < 2; at++) {
            struct state s = state_draw(&stream);
            const double sum = s.saturation[0] + s.saturation[1] + s.saturation[2];
            struct film film[2];
            for (int side = 0; side < 2; side++) {
                s.pressure = sum - joint[at] + (side ? 1e-6 : -1e-6);
                const struct film_side here = side_of(&s, VAPORS);
                film[side] = film_evaporation(&here);
            }
            for (int i = 0; i < VAPORS; i++) {
                const double scale = 0.3 * FILM_BOILING; /* the slope that comes in */
                assert_near("value", film[0].value[i], film[1].value[i], 1e-5 * scale + 1e-6 * fabs(film[0].value[i]));
                assert_near("by pressure", film[0].by_pressure[i], film[1].by_pressure[i], 1e-6 * scale);
                for (int j = 0; j < VAPORS; j++)
                    assert_near("by saturation", film[0].by_saturation[i][j], film[1].by_saturation[i][j],
                                1e-6 * scale);
            }
        }
}

/* ---- running dry ------------------------------------------------------------------------------------------------- */

static double wetness(double amount, const void *trace)
{
    return film_wetness(amount, *(const double *)trace).value;
}

static void a_surface_runs_dry_smoothly(void **unused)
{
    (void)unused;
    const double trace = 1e-3;
    assert_true(film_wetness(0.0, trace).value == 0.0);
    assert_near("much", film_wetness(100.0, trace).value, 1.0 - 1e-5, 1e-9);
    for (double amount = -2e-3; amount < 1e-2; amount += 1.1e-4) {
        const double want = near_slope(wetness, &trace, amount, 1e-6);
        if (fabs(amount) > 1e-5)
            assert_near_share("slope", film_wetness(amount, trace).slope, want, 1e-9);
    }
    assert_near_share("joint", film_wetness(-1e-12, trace).slope, film_wetness(1e-12, trace).slope, 1e-8);
}

/* Lewis: with equal diffusivities, the transfer coefficient is the heat coefficient over the heat capacity. Butane in
 * air: 9.57e-6 against 2.1e-5 m2/s, to the power 2/3: 0.592. */
static void vapor_crosses_as_heat_does(void **unused)
{
    (void)unused;
    const struct sloped heat = {6.0, 0.25};
    const struct sloped same = film_transfer(heat, 1200.0, 2e-5, 2e-5, 2.0 / 3.0);
    assert_near_share("same", same.value, 0.005, 1e-15);
    assert_near_share("slope", same.slope, 0.25 / 1200.0, 1e-15);
    assert_near("butane", film_transfer(heat, 1200.0, 9.57e-6, 2.1e-5, 2.0 / 3.0).value / same.value, 0.592, 5e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_vapor_follows_stefan),
        cmocka_unit_test(equal_vapors_follow_the_film_equations),
        cmocka_unit_test(equilibrium_passes_nothing),
        cmocka_unit_test(condensation_is_the_same_law),
        cmocka_unit_test(boiling_goes_on_from_evaporation),
        cmocka_unit_test(slopes_agree_with_differences),
        cmocka_unit_test(joints_are_smooth),
        cmocka_unit_test(a_surface_runs_dry_smoothly),
        cmocka_unit_test(vapor_crosses_as_heat_does),
    };
    return cmocka_run_group_tests_name("film", tests, NULL, NULL) != 0;
}
