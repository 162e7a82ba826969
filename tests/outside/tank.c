/* tests/outside/tank.c  A tank with liquid in it, against closed forms made here. */
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

#define R_GAS 8.31446261815324 /* J/mol/K, SI 2019 */
#define ROOM_VOLUME 0.045      /* m3, rigid */
#define CLOSED_FORM 1e-3       /* what is asked for: 0.1 % */

/* n-pentane: Antoine of Poling, Prausnitz, O'Connell, 5th ed., appendix A (bar, K). */
static double vapor_pressure(double temperature)
{
    return 1e5 * pow(10.0, 3.97786 - 1064.84 / (temperature - 41.136));
}

/* n-pentane: saturated liquid, mol/m3, Perry's 8th ed. table 2-32 (DIPPR 105). */
static double liquid_density(double temperature)
{
    return 849.47 / pow(0.26726, 1.0 + pow(1.0 - temperature / 469.7, 0.27789));
}

struct sealed {
    double air, pentane; /* mol, liquid and vapor together */
};

/* Half full at the first temperature under air at 101325 Pa in all, its vapor saturated. */
static struct sealed sealed_tank(double temperature)
{
    const double gas = 0.5 * ROOM_VOLUME, vapor = vapor_pressure(temperature);
    return (struct sealed){(101325.0 - vapor) * gas / (R_GAS * temperature),
                           0.5 * ROOM_VOLUME * liquid_density(temperature) + vapor * gas / (R_GAS * temperature)};
}

/* Liquid that is left at a temperature: what the gas space above it does not hold, found by repetition. */
static double sealed_gas(const struct sealed *tank, double temperature)
{
    double liquid = tank->pentane;
    for (int k = 0; k < 100; k++) {
        const double gas = ROOM_VOLUME - liquid / liquid_density(temperature);
        liquid = tank->pentane - vapor_pressure(temperature) * gas / (R_GAS * temperature);
    }
    return ROOM_VOLUME - liquid / liquid_density(temperature);
}

static void sealed_tank_warms(void **unused)
{
    (void)unused;
    static const double celsius[] = {10.0, 25.0, 35.0};
    for (size_t k = 0; k < sizeof celsius / sizeof *celsius; k++) {
        char text[1024];
        snprintf(text, sizeof text,
                 "ullage: scenario/1\nassume: {heat: isothermal, shell: rigid}\n"
                 "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [2 h, %g degC]]}\n"
                 "fill: {level: 50 %%, temperature: 20 degC, components: {n-pentane: 100 %%}}\n"
                 "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm}\n"
                 "procedure:\n  steps:\n    - wait: {for: 40 h}\n"
                 "    - read: {pressure: tank.pressure, vapor: tank.fuel_vapor, holds: tank.fuel_vapor_pressure}\n",
                 celsius[k]);
        const double temperature = 273.15 + celsius[k];
        const struct sealed tank = sealed_tank(293.15);
        const double gas = sealed_gas(&tank, temperature), vapor = vapor_pressure(temperature);
        const double pressure = vapor + tank.air * R_GAS * temperature / gas;
        struct text_run ran = text_run(text);
        assert_near_share("pressure", text_reading(&ran, "pressure"), pressure, CLOSED_FORM);
        assert_near_share("vapor", text_reading(&ran, "vapor"), vapor / pressure, CLOSED_FORM);
        assert_near_share("what it holds", text_reading(&ran, "holds"), vapor, CLOSED_FORM);
        text_close(&ran);
    }
}

/* A canister full of butane, swept by a gas of which it takes little up, gives back what it held: the books of carbon, gas
 * and openings must close on the same grams. And sweeping longer leaves less. */
static void swept_carbon_gives_back(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
        "system:\n  parts:\n    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 10}]}\n"
        "    out: {type: valve, from: canister.tank, to: air, bore: 20 mm}\n"
        "    port: {type: port, of: canister.air, bore: 20 mm}\n"
        "start: {canister: {temperature: 25 degC, gas: {n-butane: 50 %, nitrogen: 50 %}}}\n"
        "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 3 kPa, flow_limit: 5 L/min}\n"
        "procedure:\n  steps:\n    - read: {full: canister.load, cold: canister.coldest}\n"
        "    - wait: {for: 10 min}\n    - read: {some: canister.load, colder: canister.coldest}\n"
        "    - wait: {for: 50 min}\n    - read: {less: canister.load}\n");
    const double full = text_reading(&ran, "full"), some = text_reading(&ran, "some");
    /* 300 kg/m3 of the fitted carbon at 50 % butane, 298.15 K: 5.204 mol/kg, 91 g a litre (computed apart from the fit) */
    assert_near_share("held at first", full, 0.5 * 0.0912, 0.02);
    assert_true(some < full && text_reading(&ran, "less") < some);
    assert_true(text_reading(&ran, "colder") < text_reading(&ran, "cold") - 5.0); /* it takes heat to leave */
    double out = 0.0;
    for (int k = 0; k < ullage_model_opening_rows(ran.model); k++) {
        const struct ullage_opening_row row = ullage_run_opening(ran.model, ran.run, k);
        if (!strcmp(row.species, "n-butane"))
            out += (row.out - row.in) * 58.1222e-3; /* kg/mol, IUPAC atomic weights */
    }
    /* its gas, 0.4 L in the bed and 0.1 L at its ends, was half butane: 0.59 g more than the carbon lost */
    assert_near("gone by the openings, less what its gas held", out, full - text_reading(&ran, "less"), 0.6e-3);
    text_close(&ran);
}

/* n-pentane: heat of vaporisation, J/mol, Perry's 8th ed. table 2-150 (DIPPR 106). */
static double vaporization_heat(double temperature)
{
    return 39109.0 * pow(1.0 - temperature / 469.7, 0.38681);
}

#define PENTANE_MASS 72.1488e-3 /* kg/mol, IUPAC atomic weights */
#define BOILING_RATE 0.01       /* what is asked for: 1 % */

/* A tank half full of pentane, kept from its surroundings, takes up heat that fuel brings back from an engine, and boils
 * off as much as that heat makes: heat/Hvap, at its boiling point under the pressure outside. The hole is wide. */
static void a_tank_boils_by_the_heat_that_comes_in(void **unused)
{
    (void)unused;

    static const struct {
        double pressure, heat, boils; /* Pa, outside; W; K */
    } row[] = {
        {101325.0, 200.0, 309.21}, /* CRC Handbook */
        {101325.0, 80.0, 309.21},
        {70000.0, 200.0, 298.79}, /* the vapor pressure above, solved for 70 kPa; some 3000 m */
    };

    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        char text[1024];
        snprintf(text, sizeof text,
                 "ullage: scenario/1\nassume: {shell: rigid}\n"
                 "surroundings: {pressure: %g Pa, temperature: 20 degC}\n"
                 "fill: {level: 50 %%, temperature: 20 degC, components: {n-pentane: 100 %%}}\n"
                 "system:\n  parts:\n"
                 "    tank: {type: tank, volume: 10 L, height: 50 mm, wall_thickness: 1 mm, film: 1e-6 W/m2/K,\n"
                 "      outer_film: 1e-6 W/m2/K, returned: %g W}\n"
                 "    open: {type: valve, from: tank, to: air, bore: 50 mm}\n"
                 "procedure:\n  steps:\n    - wait: {for: 60 min}\n    - read: {first: tank.fuel}\n"
                 "    - wait: {for: 15 min}\n    - read: {second: tank.fuel, warm: tank.liquid_temperature}\n",
                 row[k].pressure, row[k].heat);
        const double boils = row[k].boils;
        assert_near_share("boiling point", vapor_pressure(boils), row[k].pressure, 1e-3);
        struct text_run ran = text_run(text);
        const double gone = (text_reading(&ran, "first") - text_reading(&ran, "second")) / (PENTANE_MASS * 900.0);
        print_message("%.0f Pa, %.0f W: %.3f mmol/s at %.2f K\n", row[k].pressure, row[k].heat, 1e3 * gone,
                      text_reading(&ran, "warm"));
        assert_near("boils at", text_reading(&ran, "warm"), boils, 0.3);
        assert_near_share("rate", gone, row[k].heat / vaporization_heat(boils), BOILING_RATE);
        text_close(&ran);
    }
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(sealed_tank_warms), cmocka_unit_test(swept_carbon_gives_back),
                                       cmocka_unit_test(a_tank_boils_by_the_heat_that_comes_in)};
    return cmocka_run_group_tests_name("outside/tank", tests, NULL, NULL) != 0;
}
