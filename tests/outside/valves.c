/* tests/outside/valves.c  What parts that open by themselves have as usual values, against what is met on vehicles; and a
 * float's weight against what it holds. And the shipped rig's fill-limit valve at its work. */
#include "element/elements.h"
#include "support/near.h"
#include "support/run_text.h"

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

/* ---- the shipped rig ---- */

#define RIG "ullage: scenario/1\nname: limited\nsystem: scenarios/systems/heron\n"

/* A fill at 38 L/min, lines widened as where a canister is made to take it. */
static struct text_run filled(const char *fault)
{
    char text[1600];
    snprintf(
        text, sizeof text,
        RIG
        "surroundings: {temperature: 20 degC}\n"
        "fill: {level: 40 %%, temperature: 20 degC, rvp: 9 psi, fuel: quick}\n"
        "equipment:\n"
        "  nozzle: {type: nozzle, into: tank.neck, draws: neck, rate: 38 L/min, temperature: 20 degC, spout: 440 mm}\n"
        "change: {canister.beds.1.carbon: stock, canister.sump: 0.3 L, vapor-line.bore: 16 mm,\n"
        "         vapor-line.low_spot: 15 mL, vent-line.bore: 20 mm, vent-valve.bore: 18 mm}\n"
        "procedure:\n  steps:\n    - set: {cap: 5 %%}\n    - set: {nozzle: filling}\n"
        "    - wait: {until: nozzle.shut_off > 0.5, at_most: 5 min}\n    - read: {level: tank.level}\n"
        "    - set: {nozzle: off, cap: on}\n    - wait: {for: 10 s}\n"
        "    - read: {open: fill-limit.open, gauge: tank.gauge_pressure,\n"
        "             past: vapor-line.liquid + canister.liquid}\n%s",
        fault);
    return text_run(text);
}

/* A fill-limit valve is shut at 88 to 98 % (from memory, as the spans above); what lets the tank breathe then leaves no
 * pressure. Jammed, a fill gives up early, holed, late, and fuel gets past it: common practice, no source. */
static void a_fill_ends_where_it_should(void **unused)
{
    (void)unused;
    struct text_run sound = filled(""), shut = filled("faults: [{id: f, fault: stuck-shut, where: fill-limit}]\n"),
                    open = filled("faults: [{id: f, fault: stuck-open, where: fill-limit}]\n");
    const double level = text_reading(&sound, "level");
    assert_true(level > 0.88 && level < 0.98);
    assert_true(text_reading(&sound, "open") == 0.0 && text_reading(&open, "open") == 1.0);
    assert_near("gauge", text_reading(&sound, "gauge"), 0.0, 20.0);
    assert_near("past a sound one", text_reading(&sound, "past"), 0.0, 1e-8);
    assert_true(text_reading(&shut, "level") < level - 0.1 && text_reading(&open, "level") > level + 0.01);
    assert_true(text_reading(&open, "past") > 10e-6);
    text_close(&sound);
    text_close(&shut);
    text_close(&open);
}

/* A leak test of a tank so full that the float is shut goes by the roll-over valve's hole: thin sharp holes one behind the
 * other pass what one of (1/a^4 + 1/b^4)^(-1/4) does, by the root law; within 3 %, for a hole of 2 mm and one of 1 mm differ
 * by so much from it. n-decane: no vapor comes in between. At half a tank the wide valve is open and takes nothing off. */
static void a_full_tank_is_tested_by_its_roll_over_valve(void **unused)
{
    (void)unused;
    static const double hole[] = {2.0, 1.0};
    for (int k = 0; k < 4; k++) {
        const double a = hole[k % 2], through = k < 2 ? 2.0 : (double)INFINITY;
        char text[1200];
        snprintf(text, sizeof text,
                 RIG "fill: {level: %s %%, temperature: 20 degC, components: {n-decane: 100 %%}}\n"
                     "faults: [{id: f, fault: leak, where: tank.sender, diameter: %g mm}]\n"
                     "equipment:\n"
                     "  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 15 L/min, gas: nitrogen}\n"
                     "  meter: {type: meter, of: supply, feeds: vapor-line, time_constant: 1 s, scale_least: 0.1 mm}\n"
                     "procedure:\n  steps:\n    - set: {vent-valve: shut}\n    - join: {supply: service-port}\n"
                     "    - wait: {for: 5 min}\n    - read: {hole: meter.true_hole, open: fill-limit.open}\n",
                 k < 2 ? "95" : "50", a);
        struct text_run ran = text_run(text);
        assert_true(text_reading(&ran, "open") == (k < 2 ? 0.0 : 1.0));
        assert_near_share("hole", 1e3 * text_reading(&ran, "hole"), pow(pow(a, -4.0) + pow(through, -4.0), -0.25),
                          0.03);
        text_close(&ran);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(usual_values_are_usual), cmocka_unit_test(what_is_met_can_be_told),
        cmocka_unit_test(floats_weigh_some_grams), cmocka_unit_test(a_fill_ends_where_it_should),
        cmocka_unit_test(a_full_tank_is_tested_by_its_roll_over_valve)};
    return cmocka_run_group_tests_name("outside/valves", tests, NULL, NULL) != 0;
}
