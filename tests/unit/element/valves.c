/* tests/unit/element/valves.c  Parts that open and shut by themselves: at which pressure, at which level, and what they pass. */
#include "support/run_text.h"

/* A vessel that a bigger one under `feed` fills through a pinhole, and that a hole empties when it is opened. */
#define FED(feed, part)                                                                                                \
    "ullage: scenario/1\nname: fed\nassume: {heat: isothermal}\nsystem:\n  parts:\n"                                   \
    "    big: {type: vessel, volume: 200 L}\n    v: {type: vessel, volume: 10 L}\n"                                    \
    "    feed: {type: hole, from: big, to: v, diameter: 1 mm}\n"                                                       \
    "    drain: {type: hole, from: v, to: air, diameter: 2 mm, normally: plugged}\n"                                   \
    "    part: " part "\nstart:\n  big: {gauge_pressure: " feed "}\nprocedure:\n  steps:\n"

/* Where it opens, then, fed no more and drained, where it is back on its seat. */
#define UP_AND_DOWN                                                                                                    \
    "    - wait: {until: part.open > 0, at_most: 10 min}\n    - read: {opens: v.gauge_pressure}\n"                     \
    "    - wait: {for: 10 s}\n    - set: {feed: plugged, drain: open}\n"                                               \
    "    - wait: {until: part.open <= 0, at_most: 10 min}\n    - read: {reseats: v.gauge_pressure}\n"

static void opens_and_reseats(const char *text, double opens, double reseats)
{
    struct text_run ran = text_run(text);
    assert_near_share("opens", text_reading(&ran, "opens"), opens, 1e-9);
    assert_near_share("reseats", text_reading(&ran, "reseats"), reseats, 1e-9);
    text_close(&ran);
}

static void seats_open_and_reseat_at_their_pressures(void **unused)
{
    (void)unused;
    opens_and_reseats(FED("3 kPa", "{type: check-valve, from: v, to: air, bore: 4 mm, opening_pressure: 500 Pa, "
                                   "hysteresis: 30 %}") UP_AND_DOWN,
                      500.0, 350.0);
    opens_and_reseats(FED("3 kPa", "{type: relief, from: v, to: air, bore: 4 mm}") UP_AND_DOWN, 1500.0, 1200.0);
    opens_and_reseats(FED("-3 kPa", "{type: relief, from: v, to: air, bore: 4 mm, hysteresis: 10 %}") UP_AND_DOWN,
                      -1000.0, -900.0);
    opens_and_reseats(
        FED("9 kPa", "{type: cap, of: v, opening_pressure: 7 kPa, opening_vacuum: 3 kPa}") //
        "    - wait: {until: part.relief > 0, at_most: 10 min}\n    - read: {opens: v.gauge_pressure}\n"
        "    - wait: {for: 10 s}\n    - set: {feed: plugged, drain: open}\n"
        "    - wait: {until: part.relief <= 0, at_most: 10 min}\n    - read: {reseats: v.gauge_pressure}\n",
        7000.0, 5600.0);
}

/* Between two boundaries, against a hole of the same bore; full at twice the opening pressure of 1 kPa. */
#define ACROSS(gauge, steps)                                                                                           \
    "ullage: scenario/1\nname: across\nsystem:\n  parts:\n    m: {type: manifold, pressure: " gauge "}\n"              \
    "    part: {type: check-valve, from: m, to: air, bore: 3 mm, opening_pressure: 1 kPa, seat_leak: 0.1 mm}\n"        \
    "    hole: {type: hole, from: m, to: air, diameter: 3 mm}\n"                                                       \
    "    leak: {type: hole, from: m, to: air, diameter: 0.1 mm}\n"                                                     \
    "procedure:\n  steps:\n" steps                                                                                     \
    "    - read: {open: part.open, flow: part.flow, hole: hole.flow, leak: leak.flow}\n"

/* `share` of the hole and the rest of the leak. */
static void passes(const char *text, double share)
{
    struct text_run ran = text_run(text);
    const double hole = text_reading(&ran, "hole"), leak = text_reading(&ran, "leak");
    assert_near("open", text_reading(&ran, "open"), share, 1e-12);
    assert_near("flow", text_reading(&ran, "flow"), share * hole + (1.0 - share) * leak, 1e-12 * fabs(hole));
    text_close(&ran);
}

static void flow_goes_with_the_lift(void **unused)
{
    (void)unused;
    passes(ACROSS("104 kPa", ""), 1.0);
    passes(ACROSS("101.325 kPa", ""), 0.0);
    passes(ACROSS("102.325 kPa", ""), 0.0); /* at the opening pressure, not above it */
    passes(ACROSS("102.725 kPa", ""), 0.5); /* 1.4 of 0.8 to 2 kPa */
    passes(ACROSS("98 kPa", ""), 0.0);      /* never the other way */
}

/* A parameter that is set takes hold at once, as if a spring were changed by hand. */
static void parameters_are_live(void **unused)
{
    (void)unused;
    passes(ACROSS("102.825 kPa", "    - set: {part.opening_pressure: 2 kPa}\n"), 0.0);
    passes(ACROSS("102.125 kPa",
                  "    - set: {part.opening_pressure: 500 Pa}\n    - set: {part.opening_pressure: 1 kPa}\n"),
           0.0); /* 0.8 kPa: back on its seat as soon as that is below where it reseats */
    passes(ACROSS("102.225 kPa",
                  "    - set: {part.opening_pressure: 500 Pa}\n    - set: {part.opening_pressure: 1 kPa}\n"),
           1.0 / 12.0); /* 0.9 kPa: it stays off */
}

/* The liquid of a half full tank swells as it is warmed, and shrinks again. */
#define SWELLS(part, steps)                                                                                            \
    "ullage: scenario/1\nname: swells\nassume: {heat: isothermal}\n"                                                   \
    "surroundings: {temperature: [[0 min, 20 degC], [10 min, 40 degC], [30 min, 0 degC]]}\n"                           \
    "fill: {level: 50 %, temperature: 20 degC, components: {n-decane: 100 %}}\nsystem:\n  parts:\n"                    \
    "    tank: {type: tank, volume: 40 L, height: 200 mm, openings: {top: 101 mm}}\n"                                  \
    "    v: {type: vessel, volume: 1 L}\n    vent: {type: hole, from: v, to: air, diameter: 5 mm}\n"                   \
    "    loose: {type: hole, from: tank, to: air, diameter: 3 mm, normally: plugged}\n"                                \
    "    part: " part "\nprocedure:\n  steps:\n" steps

#define SHUTS_AND_OPENS                                                                                                \
    "    - wait: {until: part.open < 0.5, at_most: 10 min}\n    - read: {shuts: tank.liquid_height}\n"                 \
    "    - wait: {until: part.open > 0.5, at_most: 30 min}\n    - read: {opens: tank.liquid_height}\n"

static void a_float_goes_with_the_liquid(void **unused)
{
    (void)unused;
    static const char *const text[] = {
        SWELLS("{type: fill-limit, from: tank.top, to: v, drop: 0.4 mm}", SHUTS_AND_OPENS),
        SWELLS("{type: roll-over, from: tank.top, to: v, drop: 0.4 mm}", SHUTS_AND_OPENS)};
    for (int k = 0; k < 2; k++) {
        struct text_run ran = text_run(text[k]);
        assert_near("shuts", text_reading(&ran, "shuts"), 0.1010, 1e-10);
        assert_near("opens", text_reading(&ran, "opens"), 0.1006, 1e-10);
        text_close(&ran);
    }
}

/* One that nothing lifts stays down, and nothing is told of it; of one that stays open by a part, as much is left. */
static void a_holed_float_stays_down(void **unused)
{
    (void)unused;
    static const char *const text[] = {
        SWELLS("{type: fill-limit, from: tank.top, to: v, held_open: 1}",
               "    - wait: {for: 10 min}\n    - read: {open: part.open, height: tank.liquid_height}\n"),
        SWELLS("{type: fill-limit, from: tank.top, to: v, held_open: 0.3}",
               "    - wait: {for: 10 min}\n    - read: {open: part.open, height: tank.liquid_height}\n")};
    for (int k = 0; k < 2; k++) {
        struct text_run ran = text_run(text[k]);
        assert_true(text_reading(&ran, "height") > 0.1012);
        assert_near("open", text_reading(&ran, "open"), k == 0 ? 1.0 : 0.3, 1e-12);
        text_close(&ran);
    }
}

/* Pressure holds the float on its seat when the liquid has gone, until the difference falls to what it weighs. */
static void pressure_holds_a_float_up(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(SWELLS("{type: roll-over, from: tank.top, to: v, drop: 0.4 mm, holds_to: 700 Pa}",
                                          "    - wait: {for: 10 min}\n    - set: {part: rolled}\n"
                                          "    - read: {shut: part.open}\n    - wait: {for: 30 s}\n"
                                          "    - set: {loose: open}\n    - wait: {for: 100 s}\n"
                                          "    - set: {loose: plugged}\n    - wait: {for: 12 min}\n"
                                          "    - read: {vacuum: tank.gauge_pressure, still: part.open}\n"
                                          "    - set: {part: upright}\n    - read: {again: part.open}\n"));
    assert_true(text_reading(&ran, "shut") == 0.0 && text_reading(&ran, "still") == 0.0);
    assert_true(text_reading(&ran, "vacuum") < 0.0); /* which does not hold it */
    assert_true(text_reading(&ran, "again") == 1.0);
    text_close(&ran);
    /* Dry: rolled under pressure, set upright it is corked until the vessel has leaked down. */
    ran = text_run(
        "ullage: scenario/1\nname: corked\nsystem:\n  parts:\n    tank: {type: tank, volume: 40 L}\n"
        "    part: {type: roll-over, from: tank, to: air, bore: 4 mm, holds_to: 700 Pa}\n"
        "    loose: {type: hole, from: tank, to: air, diameter: 1 mm}\nstart:\n  tank: {gauge_pressure: 5 kPa}\n"
        "procedure:\n  steps:\n    - set: {part: rolled}\n    - wait: {for: 1 s}\n    - set: {part: upright}\n"
        "    - read: {corked: part.open}\n    - wait: {until: part.open > 0.5, at_most: 10 min}\n"
        "    - read: {frees: tank.gauge_pressure}\n    - wait: {for: 60 s}\n    - read: {left: tank.gauge_pressure}\n");
    assert_true(text_reading(&ran, "corked") == 0.0);
    assert_near_share("frees", text_reading(&ran, "frees"), 700.0, 1e-9);
    assert_true(text_reading(&ran, "left") < 1.0);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seats_open_and_reseat_at_their_pressures),
        cmocka_unit_test(flow_goes_with_the_lift),
        cmocka_unit_test(parameters_are_live),
        cmocka_unit_test(a_float_goes_with_the_liquid),
        cmocka_unit_test(a_holed_float_stays_down),
        cmocka_unit_test(pressure_holds_a_float_up),
    };
    return cmocka_run_group_tests_name("unit/element/valves", tests, NULL, NULL) != 0;
}
