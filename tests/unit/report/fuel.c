/* tests/unit/report/fuel.c  The account of fuel in words: one figure for all components, and nothing where there is none. */
#include "report/fuel.h"

#include "report/results.h"
#include "report/story.h"
#include "support/told.h"

static void setting(FILE *to, const struct experiment *of)
{
    story_setting(to, of, FIGURE_SHOP);
}

static char *written(void (*write)(FILE *to, const struct experiment *of), const char *scenario)
{
    struct told told = told_run(scenario);
    struct told_page page;
    told_open(&page);
    write(page.to, &told.experiment);
    told_free(&told);
    return told_close(&page);
}

#define WARMS "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [1 h, 35 degC]]}\n"
#define COOLS "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [1 h, 0 degC]]}\n"
#define TANK                                                                                                           \
    "system:\n  parts:\n"                                                                                              \
    "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm, low: 20 mm}}\n"
#define FILL                                                                                                           \
    "fill: {level: 40 %, temperature: 20 degC, components: {n-butane: 10 %, n-pentane: 30 %, isooctane: 60 %}}\n"
#define WAIT "procedure:\n  steps:\n    - wait: {for: 1 h}\n"

static void figures_are_short_and_end_at_a_milligram(void **unused)
{
    (void)unused;

    static const struct {
        double mass; /* kg */
        const char *figure;
    } row[] = {{0.0, "0 g"},           {0.49e-6, "0 g"},      {0.6e-6, "0.001 g"},
               {0.1234e-3, "0.123 g"}, {1.234e-3, "1.23 g"},  {12.34e-3, "12.3 g"},
               {0.1234, "123 g"},      {1.23456, "1.235 kg"}, {12.3456, "12.35 kg"}};

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char room[FIGURE_ROOM];
        assert_string_equal(fuel_figure(row[i].mass, room), row[i].figure);
    }
}

static void a_warm_tank_tells_its_vapor_by_opening(void **unused)
{
    (void)unused;
    char *text =
        written(ledger_write, "ullage: scenario/1\nname: a\n" WARMS FILL TANK
                              "    vent: {type: hole, from: tank.roof, to: air, diameter: 5 mm}\n"
                              "    shut: {type: valve, from: tank.roof, to: air, bore: 5 mm, normally: shut}\n" WAIT);
    text_has(text, "Fuel kept in sight: ");
    text_has(text, "g of vapor made, over what condensed again. The liquid was ");
    text_has(text, "gas spaces: ");
    text_has(text, "more than at first");
    text_has(text, "vent: air");
    text_has(text, "mol) out");
    text_has(text, "All of it is accounted for: no component is off by more than ");
    assert_null(strstr(text, "ran out"));
    assert_null(strstr(text, "shut:"));    /* nothing passed it */
    assert_null(strstr(text, "carbon"));   /* there is none */
    assert_null(strstr(text, "n-butane")); /* components are for the JSON */
    assert_null(strstr(text, " in\n"));    /* no fuel comes from outside; nor air, while it warms */
    free(text);
}

static void a_cold_tank_condenses_and_loses_nothing(void **unused)
{
    (void)unused;
    char *text =
        written(ledger_write, "ullage: scenario/1\nname: a\n" COOLS FILL TANK
                              "    shut: {type: valve, from: tank.roof, to: air, bore: 5 mm, normally: shut}\n" WAIT);
    text_has(text, "g of vapor condensed, more than was made.");
    text_has(text, "less than at first");
    text_has(text, "openings: no fuel passed them");
    free(text);
}

/* What runs out is no vapor, and the account does not call it so. */
static void liquid_that_runs_out_is_not_called_vapor(void **unused)
{
    (void)unused;
    char *text = written(ledger_write, "ullage: scenario/1\nname: a\n" WARMS FILL TANK
                                       "    leak: {type: hole, from: tank.low, to: air, diameter: 1 mm}\n" WAIT);
    text_has(text, " g of vapor made, over what condensed again. ");
    text_has(text, "kg ran out as liquid. The liquid was ");
    text_has(text, "leak: ");
    free(text);
}

static void vapor_without_liquid_says_so(void **unused)
{
    (void)unused;
    char *text =
        written(ledger_write, "ullage: scenario/1\nname: a\nsystem:\n  parts:\n"
                              "    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 10}]}\n"
                              "    out: {type: valve, from: canister.air, to: air, bore: 20 mm}\n"
                              "    port: {type: port, of: canister.tank, bore: 20 mm}\n"
                              "equipment:\n  supply: {type: supply, join: port, gas: n-butane, gauge_pressure: 3 kPa, "
                              "flow_limit: 0.5 L/min}\n"
                              "procedure:\n  steps:\n    - wait: {for: 10 min}\n");
    text_has(text, "Fuel kept in sight: no liquid, vapor alone. carbon: ");
    text_has(text, "g held, none at first");
    text_has(text, "supply: 12.");
    text_has(text, "(0.208 mol) in"); /* 5 L of 24.0552 L/mol */
    free(text);
}

static void without_fuel_there_is_nothing_to_tell(void **unused)
{
    (void)unused;
    char *text = written(fuel_write, "ullage: scenario/1\nname: a\nsystem:\n  parts:\n"
                                     "    vessel: {type: vessel, volume: 10 L}\n" WAIT);
    assert_string_equal(text, "");
    free(text);
}

static void the_setting_tells_fuel_as_one(void **unused)
{
    (void)unused;
    char *text = written(setting, "ullage: scenario/1\nname: a\n" WARMS FILL TANK WAIT);
    text_has(text, "holding air and 1"); /* 18 L of some 0.74 kg/L: 13 kg */
    text_has(text, "kg of fuel at the start.");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_are_short_and_end_at_a_milligram),
        cmocka_unit_test(a_warm_tank_tells_its_vapor_by_opening),
        cmocka_unit_test(a_cold_tank_condenses_and_loses_nothing),
        cmocka_unit_test(liquid_that_runs_out_is_not_called_vapor),
        cmocka_unit_test(vapor_without_liquid_says_so),
        cmocka_unit_test(without_fuel_there_is_nothing_to_tell),
        cmocka_unit_test(the_setting_tells_fuel_as_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
