/* tests/outside/valves.c  What parts that open by themselves have as usual values, against what is met on vehicles; and a
 * float's weight against what it holds. */
#include "element/elements.h"
#include "support/near.h"

/* Span of ordinary healthy parts, from memory (general engineering knowledge); no table of a standard is behind it. */
static const struct {
    const struct element_kind *kind;
    const char *row;
    double low, high; /* SI */
    const char *met;
} spans[] = {
    {&relief_kind, "opening_pressure", 500.0, 3500.0, "two-way tank pressure valve, pressure side"},
    {&relief_kind, "opening_vacuum", 300.0, 2500.0, "two-way tank pressure valve, vacuum side"},
    {&roll_over_kind, "bore", 2e-3, 8e-3, "roll-over valve"},
    {&fill_limit_kind, "bore", 12e-3, 22e-3, "fill-limit valve"},
    {&fill_limit_kind, "holds_to", 10.0, 1000.0, "pressure that keeps a fill-limit valve shut"},
    {&cap_kind, "opening_pressure", 15e3, 1e9, "a cap without relief opens at none that a tank sees"},
    {&cap_kind, "opening_vacuum", 6e3, 1e9, "nor at any vacuum"},
};

static const struct row *row_of(const struct element_kind *kind, const char *name)
{
    const int row = rows_find(kind->parameter, name);
    assert_true(row >= 0);
    return &kind->parameter[row];
}

static void usual_values_are_usual(void **unused)
{
    (void)unused;
    for (size_t k = 0; k < sizeof spans / sizeof *spans; k++) {
        const double usual = row_of(spans[k].kind, spans[k].row)->usual;
        if (!(usual >= spans[k].low && usual <= spans[k].high))
            fail_msg("%s: %g is outside %g to %g", spans[k].met, usual, spans[k].low, spans[k].high);
    }
}

/* Reliefs of caps, met from 7 to 15 kPa and from 1 to 6 kPa of vacuum, can be told (from memory, as above). */
static void what_is_met_can_be_told(void **unused)
{
    (void)unused;
    const struct row *pressure = row_of(&cap_kind, "opening_pressure"), *vacuum = row_of(&cap_kind, "opening_vacuum");
    assert_true(pressure->least <= 7e3 && pressure->most >= 15e3);
    assert_true(vacuum->least <= 1e3 && vacuum->most >= 6e3);
}

/* Weight over area of the seat, g = 9.80665 m/s2: a float is some grams (from memory: 3 to 10 g, of plastic). */
static void floats_weigh_some_grams(void **unused)
{
    (void)unused;
    static const struct element_kind *const kind[] = {&roll_over_kind, &fill_limit_kind};
    for (int k = 0; k < 2; k++) {
        const double bore = row_of(kind[k], "bore")->usual;
        const double mass = row_of(kind[k], "holds_to")->usual * 0.25 * M_PI * bore * bore / 9.80665;
        assert_true(mass > 3e-3 && mass < 10e-3);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(usual_values_are_usual),
                                       cmocka_unit_test(what_is_met_can_be_told),
                                       cmocka_unit_test(floats_weigh_some_grams)};
    return cmocka_run_group_tests_name("outside/valves", tests, NULL, NULL) != 0;
}
