/* tests/outside/puddles.c  Liquid in other places than the tank: what a low spot of a line bears, how it dries, where fuel goes
 * that is pressed out of a tank, a bed that dries out. */
#include "support/run_text.h"

#define GRAVITY 9.80665

static void books_are_kept(const struct text_run *ran)
{
    for (int row = 0; row < ullage_model_ledger_rows(ran->model); row++) {
        const struct ullage_ledger_row book = ullage_run_ledger(ran->model, ran->run, row);
        const double share = !strcmp(book.name, "energy") ? 1e-10 : 1e-12;
        assert_near(book.name, book.residual, 0.0, share * book.scale);
    }
}

/* A vessel of 1 kPa empties through the line until the liquid in its dip holds the rest: rho g h, 740 kg/m3, 10 mm to 120 mm
 * (0.07 kPa to 0.9 kPa); within the 10 Pa of a bubble and 1 % for what n-decane dries meanwhile. */
static void a_low_spot_bears_rho_g_h(void **unused)
{
    (void)unused;
    static const double millimetres[] = {10.0, 40.0, 120.0};
    for (size_t k = 0; k < sizeof millimetres / sizeof *millimetres; k++) {
        char text[900];
        snprintf(text, sizeof text,
                 "ullage: scenario/1\nassume: {heat: isothermal}\n"
                 "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\nsystem:\n  parts:\n"
                 "    tank: {type: tank, volume: 1 L}\n    high: {type: vessel, volume: 10 L}\n"
                 "    low: {type: vessel, volume: 1 L}\n    out: {type: hole, from: low, to: air, diameter: 20 mm}\n"
                 "    line: {type: line, from: high, to: low, bore: 8 mm, length: 1 m, low_spot: 10 mL, "
                 "low_spot_height: %g mm, liquid: 10 mL}\n"
                 "fill: {level: 10 %%, temperature: 20 degC, components: {n-decane: 100 %%}}\n"
                 "start: {high: {gauge_pressure: 1.2 kPa}}\n"
                 "procedure:\n  steps:\n    - wait: {for: 2 min}\n    - read: {gauge: high.gauge_pressure}\n",
                 millimetres[k]);
        const double head = 740.0 * GRAVITY * 1e-3 * millimetres[k];
        struct text_run ran = text_run(text);
        assert_near("gauge", text_reading(&ran, "gauge"), head, 10.0 + 0.01 * head);
        books_are_kept(&ran);
        text_close(&ran);
    }
}

/* Air bubbled through n-pentane takes its vapor along, at most saturated: y = p(20 degC)/p, 56.6 kPa (from memory,
 * handbooks) less some for the cold it makes; of 5 mL, 3.1 g, the last drop goes within the hour, and then the line is as
 * open as one that was dry. */
static double passes(const char *liquid, double *left)
{
    char text[900];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 20 degC}\nsystem:\n  parts:\n"
             "    tank: {type: tank, volume: 1 L}\n    high: {type: vessel, volume: 1 L}\n"
             "    low: {type: vessel, volume: 1 L}\n    out: {type: hole, from: low, to: air, diameter: 20 mm}\n"
             "    line: {type: line, from: high, to: low, bore: 8 mm, length: 1 m, low_spot: 10 mL%s}\n"
             "    port: {type: port, of: high, bore: 8 mm}\n"
             "equipment:\n  supply: {type: supply, join: port, gas: air, gauge_pressure: 3 kPa, flow_limit: 1 L/min}\n"
             "fill: {level: 10 %%, temperature: 20 degC, components: {n-pentane: 100 %%}}\n"
             "procedure:\n  steps:\n    - wait: {for: 30 s}\n    - read: {sealed: high.gauge_pressure}\n"
             "    - wait: {for: 1 h}\n    - read: {gauge: high.gauge_pressure, left: line.liquid}\n",
             liquid);
    struct text_run ran = text_run(text);
    *left = text_reading(&ran, "left");
    const double gauge = text_reading(&ran, "gauge");
    if (*liquid)
        assert_true(text_reading(&ran, "sealed") > 100.0 + gauge);
    books_are_kept(&ran);
    text_close(&ran);
    return gauge;
}

static void a_low_spot_dries(void **unused)
{
    (void)unused;
    double left, none;
    const double dried = passes(", liquid: 5 mL", &left), dry = passes("", &none);
    assert_near("left", left, 0.0, 1e-9);
    assert_near_share("as a dry one", dried, dry, 0.01);
}

/* A tank full to over its opening, pressed by 3 kPa of gas: fuel runs into the line, fills its dip and runs on into the sump of
 * the canister. What the tank loses lies there, but for what evaporates (n-decane: 1 %). */
static void fuel_pressed_out_of_a_tank_lies_in_line_and_canister(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 20 degC}\nsystem:\n  parts:\n"
        "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 180 mm}}\n"
        "    line: {type: line, from: tank.roof, to: canister.tank, bore: 8 mm, length: 1.5 m, low_spot: 20 mL}\n"
        "    canister: {type: canister, sump: 0.5 L, beds: [{volume: 1 L, length: 200 mm, cells: 4}]}\n"
        "    out: {type: hole, from: canister.air, to: air, diameter: 10 mm}\n"
        "fill: {level: 90 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
        "start: {tank: {gauge_pressure: 3 kPa}}\n"
        "procedure:\n  steps:\n    - read: {before: tank.level}\n    - wait: {for: 5 min}\n"
        "    - read: {after: tank.level, line: line.liquid, canister: canister.liquid, gauge: tank.gauge_pressure}\n");
    const double lost = 0.045 * (text_reading(&ran, "before") - text_reading(&ran, "after"));
    assert_true(text_reading(&ran, "line") > 15e-6 && text_reading(&ran, "canister") > 50e-6);
    assert_near_share("what it lost", text_reading(&ran, "line") + text_reading(&ran, "canister"), lost, 0.01);
    /* the gas has grown by what left: 4.5 L at 104.3 kPa; it ends where it bears no more than the head that is left */
    assert_true(text_reading(&ran, "gauge") < 500.0);
    books_are_kept(&ran);
    text_close(&ran);
}

/* A bed half full of liquid, swept with air until all of it is gone: it takes as much pressure as one that was never wet. */
static double bed_drop(const char *wet, double *soon, double *left)
{
    char text[900];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 30 degC}\nsystem:\n  parts:\n"
             "    tank: {type: tank, volume: 1 L}\n"
             "    canister: {type: canister, beds: [{volume: 0.2 L, length: 100 mm, cells: 5%s}]}\n"
             "    out: {type: hole, from: canister.air, to: air, diameter: 10 mm}\n"
             "    port: {type: port, of: canister.tank, bore: 20 mm}\n"
             "equipment:\n  supply: {type: supply, join: port, gas: air, gauge_pressure: 3 kPa, flow_limit: 10 L/min}\n"
             "fill: {level: 10 %%, temperature: 30 degC, components: {n-pentane: 100 %%}}\n"
             "procedure:\n  steps:\n    - wait: {for: 5 s}\n    - read: {soon: canister.drop}\n"
             "    - wait: {for: 12 h}\n    - read: {drop: canister.drop, left: canister.liquid, load: canister.load}\n",
             wet);
    struct text_run ran = text_run(text);
    *soon = text_reading(&ran, "soon");
    *left = text_reading(&ran, "left");
    const double drop = text_reading(&ran, "drop");
    books_are_kept(&ran);
    text_close(&ran);
    return drop;
}

static void a_wet_bed_dries(void **unused)
{
    (void)unused;
    double wet_soon, dry_soon, left, none;
    const double dried = bed_drop(", wet: 50 %", &wet_soon, &left), dry = bed_drop("", &dry_soon, &none);
    assert_true(wet_soon > 2.0 * dry_soon);
    assert_near("left", left, 0.0, 1e-8);
    assert_near_share("as a dry one", dried, dry, 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_low_spot_bears_rho_g_h), cmocka_unit_test(a_low_spot_dries),
                                       cmocka_unit_test(fuel_pressed_out_of_a_tank_lies_in_line_and_canister),
                                       cmocka_unit_test(a_wet_bed_dries)};
    return cmocka_run_group_tests_name("outside/puddles", tests, NULL, NULL) != 0;
}
