/* tests/outside/grams.c  Grams of fuel, by where they are, against what closed forms and scales give. */
#include "support/run_text.h"

#define R_GAS 8.31446261815324 /* J/mol/K, SI 2019 */
#define PENTANE 72.149e-3      /* kg/mol, standard atomic weights */
#define ATMOSPHERE 101325.0    /* Pa */

/* n-pentane: Antoine of Poling, Prausnitz, O'Connell, 5th ed., appendix A (bar, K). */
static double vapor_pressure(double temperature)
{
    return 1e5 * pow(10.0, 3.97786 - 1064.84 / (temperature - 41.136));
}

static double held(const struct ullage_fuel *fuel, bool now)
{
    return now ? fuel->liquid.now + fuel->gas.now + fuel->carbon.now
               : fuel->liquid.start + fuel->gas.start + fuel->carbon.start;
}

/* A shut tank, half full of n-pentane, goes from 20 to 35 degC: its gas holds p V M / (R T) at first and at last, V as the
 * program shows it, and what the gas has gained the liquid has lost. Antoine and the ideal gas: 0.1 %. */
static void a_warmed_tank_makes_its_vapor(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run("ullage: scenario/1\nassume: {heat: isothermal, shell: rigid}\n"
                 "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [2 h, 35 degC]]}\n"
                 "fill: {level: 50 %, temperature: 20 degC, components: {n-pentane: 100 %}}\n"
                 "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm}\n"
                 "procedure:\n  steps:\n    - read: {cold: tank.volume}\n    - wait: {for: 40 h}\n"
                 "    - read: {warm: tank.volume}\n");
    const struct ullage_fuel fuel = ullage_run_fuel(ran.model, ran.run);
    const double cold = PENTANE * vapor_pressure(293.15) * text_reading(&ran, "cold") / (R_GAS * 293.15);
    const double warm = PENTANE * vapor_pressure(308.15) * text_reading(&ran, "warm") / (R_GAS * 308.15);
    assert_near_share("vapor at first", fuel.gas.start, cold, 1e-3);
    assert_near_share("vapor at last", fuel.gas.now, warm, 1e-3);
    assert_near("made", fuel.liquid.start - fuel.liquid.now, fuel.gas.now - fuel.gas.start, 1e-12 * fuel.liquid.start);
    assert_true(fuel.carbon.start == 0.0 && fuel.carbon.now == 0.0);
    assert_true(fuel.in == 0.0 && fuel.out == 0.0);
    text_close(&ran);
}

/* From 80 to 50 % of 45 L run out of a low hole: 13.5 L of n-decane, 0.730 kg/L at 20 degC (CRC handbook; 0.5 % is what the
 * density is good for). Its vapor, 0.17 kPa at most of what the roof lets in and out, weighs nothing beside that. */
static void what_ran_out_is_weighed(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run("ullage: scenario/1\nassume: {heat: isothermal, shell: rigid}\n"
                 "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\n"
                 "system:\n  parts:\n"
                 "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm, low: 20 mm}}\n"
                 "    vent: {type: hole, from: tank.roof, to: air, diameter: 20 mm}\n"
                 "    leak: {type: hole, from: tank.low, to: air, diameter: 2 mm}\n"
                 "fill: {level: 80 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
                 "procedure:\n  steps:\n    - wait: {until: tank.level < 50 %, at_most: 10 h}\n");
    const struct ullage_fuel fuel = ullage_run_fuel(ran.model, ran.run);
    assert_near_share("liquid", fuel.liquid.start - fuel.liquid.now, 13.5 * 0.730, 0.005);
    assert_near_share("out", fuel.out, 13.5 * 0.730, 0.005);
    const double vapor = fuel.out + fuel.gas.now - fuel.gas.start - fuel.drained;
    assert_near("vapor made", fuel.liquid.start - fuel.liquid.now - fuel.drained, vapor, 1e-12 * fuel.liquid.start);
    assert_true(vapor > 0.0 && vapor < 1e-3); /* at most 0.17 kPa in 36 L: 0.36 g */
    text_close(&ran);
}

/* 0.5 L/min of n-butane for 10 min: 5 standard litres, M p V / (R T) = 12.08 g, of which a bed of 150 g of carbon keeps
 * nearly all, and every gram of the rest is in gas or past the vent. The flow limit is met from the first moment on but for
 * what the supply's hose takes to fill: 1 %. */
static void butane_stays_in_the_bed(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
        "system:\n  parts:\n    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 10}]}\n"
        "    out: {type: valve, from: canister.air, to: air, bore: 20 mm}\n"
        "    port: {type: port, of: canister.tank, bore: 20 mm}\n"
        "equipment:\n  supply: {type: supply, join: port, gas: n-butane, gauge_pressure: 3 kPa, "
        "flow_limit: 0.5 L/min}\n"
        "procedure:\n  steps:\n    - wait: {for: 10 min}\n    - read: {load: canister.load}\n");
    const struct ullage_fuel fuel = ullage_run_fuel(ran.model, ran.run);
    const double sent = 58.122e-3 * ATMOSPHERE * 5e-3 / (R_GAS * 293.15); /* n-butane: standard atomic weights */
    assert_near_share("in", fuel.in, sent, 0.01);
    assert_near_share("carbon", fuel.carbon.now, text_reading(&ran, "load"), 1e-12);
    assert_true(fuel.carbon.now > 0.9 * sent && fuel.liquid.start == 0.0);
    assert_near("all of it", held(&fuel, true) - held(&fuel, false), fuel.in - fuel.out, 1e-12 * fuel.in);
    assert_true(fabs(fuel.residual) < 1e-12 * fuel.in);
    text_close(&ran);
}

/* The fuel is the sum of the ledger's rows that say they are fuel, each by its molar mass. */
static void a_blend_is_the_sum_of_its_rows(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [1 h, 35 degC]]}\n"
        "fill: {level: 40 %, temperature: 20 degC, components: {n-butane: 10 %, n-pentane: 30 %, isooctane: 60 %}}\n"
        "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm}}\n"
        "    line: {type: line, from: tank.roof, to: canister.tank, bore: 8 mm, length: 1 m}\n"
        "    canister: {type: canister, beds: [{volume: 0.2 L, length: 80 mm, cells: 5}]}\n"
        "    out: {type: valve, from: canister.air, to: air, bore: 10 mm}\n"
        "procedure:\n  steps:\n    - wait: {for: 2 h}\n    - read: {load: canister.load}\n");
    const struct ullage_fuel fuel = ullage_run_fuel(ran.model, ran.run);
    double start = 0.0, change = 0.0, out = 0.0;
    int fuels = 0;
    for (int k = 0; k < ullage_model_ledger_rows(ran.model); k++) {
        const struct ullage_ledger_row row = ullage_run_ledger(ran.model, ran.run, k);
        fuels += row.fuel;
        assert_true(row.fuel == (strcmp(row.name, "air") && strcmp(row.name, "energy")));
        start += row.fuel ? row.molar_mass * row.stored_start : 0.0;
        change += row.fuel ? row.molar_mass * row.stored_change : 0.0;
        out += row.fuel ? row.molar_mass * row.out : 0.0;
    }
    assert_int_equal(fuels, 3);
    assert_near_share("start", held(&fuel, false), start, 1e-14);
    assert_near("change", held(&fuel, true) - held(&fuel, false), change, 1e-14 * start);
    assert_near_share("out", fuel.out, out, 1e-14);
    assert_true(fuel.out > 0.0 && fuel.carbon.now > 5e-3);
    assert_near_share("carbon", fuel.carbon.now, text_reading(&ran, "load"), 1e-12);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_warmed_tank_makes_its_vapor),
        cmocka_unit_test(what_ran_out_is_weighed),
        cmocka_unit_test(butane_stays_in_the_bed),
        cmocka_unit_test(a_blend_is_the_sum_of_its_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
