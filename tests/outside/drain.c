/* tests/outside/drain.c  Holes under the liquid of a tank: Torricelli's clock, the seal against gas, bubbles.
 *
 * n-decane at 20 degC: hardly any vapor (0.17 kPa), so that what is looked at is the liquid alone. */
#include "support/run_text.h"

#define GRAVITY 9.80665
#define JET 0.61 /* of the section of a thin round hole: the contracted jet (common practice, no source) */

#define TANK                                                                                                           \
    "ullage: scenario/1\nassume: {heat: isothermal, shell: rigid}\n"                                                   \
    "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\n"                                                      \
    "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm, low: 20 mm}}\n"

/* A vented box, 45 L and 220 mm high, from 80 % to 50 %: t = (A/(0.61 a)) sqrt(2/g) (sqrt h1 - sqrt h2), heads over the
 * hole. 2 mm: the viscous part of the law slows it by d0/dp/2, under 0.1 %; the vent takes 0.3 mm of head: 0.2 %. */
static void a_vented_tank_runs_out_by_the_clock(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(TANK "    vent: {type: hole, from: tank.roof, to: air, diameter: 20 mm}\n"
                      "    leak: {type: hole, from: tank.low, to: air, diameter: 2 mm}\n"
                      "fill: {level: 80 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
                      "procedure:\n  steps:\n    - wait: {until: tank.level < 50 %, at_most: 10 h}\n"
                      "    - read: {took: time, runs: leak.liquid_flow, gas: leak.flow}\n");
    const double area = 0.045 / 0.220, hole = 0.25 * 3.14159265358979 * 2e-3 * 2e-3;
    const double from = 0.8 * 0.220 - 0.020, to = 0.5 * 0.220 - 0.020;
    const double clock = area / (JET * hole) * sqrt(2.0 / GRAVITY) * (sqrt(from) - sqrt(to));
    assert_near_share("time", text_reading(&ran, "took"), clock, 0.004);
    assert_near_share("flow", text_reading(&ran, "runs"), JET * hole * sqrt(2.0 * GRAVITY * to), 0.004);
    assert_near("gas", text_reading(&ran, "gas"), 0.0, 1e-12);
    text_close(&ran);
}

/* Shut, the gas above is drawn down until it holds the head: p falls by rho g (h - 20 mm) and no more runs out. */
static void a_shut_tank_holds_its_liquid(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(TANK "    leak: {type: hole, from: tank.low, to: air, diameter: 1 mm}\n"
                      "fill: {level: 50 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
                      "procedure:\n  steps:\n    - wait: {for: 3 h}\n"
                      "    - read: {gauge: tank.gauge_pressure, height: tank.liquid_height, runs: leak.liquid_flow}\n");
    /* 740 kg/m3 is what the program takes for the head of any fuel; n-decane has 730 */
    const double head = 740.0 * GRAVITY * (text_reading(&ran, "height") - 0.020);
    assert_near("gauge", text_reading(&ran, "gauge"), -head, 0.5);
    assert_near("runs", text_reading(&ran, "runs"), 0.0, 1e-10);
    text_close(&ran);
}

/* Air is drawn in through the liquid where the gas above stands lower than the head: bubbles until it does not. */
static void air_bubbles_through(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(TANK "    leak: {type: hole, from: tank.low, to: air, diameter: 1 mm}\n"
                      "fill: {level: 50 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
                      "start: {tank: {gauge_pressure: -3 kPa}}\n"
                      "procedure:\n  steps:\n    - wait: {for: 5 s}\n    - read: {in: leak.flow, out: leak.liquid_flow}\n"
                      "    - wait: {for: 1 h}\n"
                      "    - read: {gauge: tank.gauge_pressure, height: tank.liquid_height}\n");
    assert_true(text_reading(&ran, "in") < -1e-6);
    assert_near("out", text_reading(&ran, "out"), 0.0, 0.0);
    assert_near("gauge", text_reading(&ran, "gauge"), -740.0 * GRAVITY * (text_reading(&ran, "height") - 0.020), 1.0);
    text_close(&ran);
}

/* A leak under the liquid is no leak to a gas test: nothing passes at 3 kPa but fuel. */
static void a_leak_under_the_liquid_reads_nothing(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(TANK "    port: {type: port, of: tank.roof}\n"
                      "    leak: {type: hole, from: tank.low, to: air, diameter: 0.5 mm}\n"
                      "equipment:\n  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 15 L/min, gas: nitrogen, "
                      "join: port}\n"
                      "fill: {level: 50 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
                      "procedure:\n  steps:\n    - wait: {for: 10 min}\n"
                      "    - read: {gas: leak.flow, fuel: leak.liquid_flow, in: supply.standard_flow}\n");
    const double hole = 0.25 * 3.14159265358979 * 0.5e-3 * 0.5e-3;
    const double drop = 3000.0 + 740.0 * GRAVITY * 0.09;
    assert_near("gas", text_reading(&ran, "gas"), 0.0, 1e-12);
    assert_near_share("fuel", text_reading(&ran, "fuel"), JET * hole * sqrt(2.0 * drop / 740.0), 0.02);
    /* what goes in is the room that the fuel leaves, at 3 kPa over 101325 Pa */
    assert_near_share("in", text_reading(&ran, "in"), text_reading(&ran, "fuel") * 104325.0 / 101325.0, 0.02);
    text_close(&ran);
}

/* A float that does not lift is a hole to the liquid, Torricelli's again, and so is a seat that leaks under one that does; a
 * sound one lets nothing by. The seat of 2 mm stands half of that above where the float would lift. */
static void a_float_under_liquid(void **unused)
{
    (void)unused;
    static const struct {
        const char *float_is;
        double hole; /* m */
    } row[] = {{"held_open: 1", 2e-3}, {"seat_leak: 0.5 mm", 0.5e-3}, {"drop: 5 mm", 0.0}};
    static const char *const kind[] = {"fill-limit", "roll-over"};
    for (int k = 0; k < 6; k++) {
        char text[1000];
        snprintf(text, sizeof text,
                 TANK "    vent: {type: hole, from: tank.roof, to: air, diameter: 20 mm}\n"
                      "    float: {type: %s, from: tank.low, to: air, bore: 2 mm, %s}\n"
                      "fill: {level: 50 %%, temperature: 20 degC, components: {n-decane: 100 %%}}\n"
                      "procedure:\n  steps:\n    - wait: {for: 10 s}\n"
                      "    - read: {height: tank.liquid_height, runs: float.liquid_flow, gas: float.flow}\n",
                 kind[k / 3], row[k % 3].float_is);
        struct text_run ran = text_run(text);
        const double area = 0.25 * 3.14159265358979 * row[k % 3].hole * row[k % 3].hole;
        const double jet = JET * area * sqrt(2.0 * GRAVITY * (text_reading(&ran, "height") - 0.021));
        assert_near("flow", text_reading(&ran, "runs"), jet, 0.01 * jet); /* 0.5 mm: 0.6 % by its viscous part */
        assert_near("gas", text_reading(&ran, "gas"), 0.0, 1e-12);
        text_close(&ran);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_vented_tank_runs_out_by_the_clock), cmocka_unit_test(a_shut_tank_holds_its_liquid),
        cmocka_unit_test(air_bubbles_through), cmocka_unit_test(a_leak_under_the_liquid_reads_nothing),
        cmocka_unit_test(a_float_under_liquid)};
    return cmocka_run_group_tests_name("outside/drain", tests, NULL, NULL) != 0;
}
