/* tests/unit/element/tank.c  How high the liquid of a tank stands: by a level table, or as in a box. */
#include "support/run_text.h"

#define TANK(levels, level)                                                                                            \
    "ullage: scenario/1\nname: tank\nassume: {heat: isothermal}\nfill: {level: " level ", temperature: 20 degC, "      \
    "components: {n-decane: 100 %}}\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm" levels    \
    "}\nprocedure:\n  steps:\n    - read: {height: tank.liquid_height}\n"

#define SADDLE ", levels: [[0 L, 0 mm], [9 L, 40 mm], [22.5 L, 100 mm], [36 L, 150 mm], [45 L, 220 mm]]"

/* At a corner of the table the level is the corner's; of a box it goes with the volume. */
static void liquid_stands_as_the_table_says(void **unused)
{
    (void)unused;
    assert_near("box", text_read(TANK("", "50 %"), "height"), 0.110, 1e-9);
    assert_near("box, a fifth", text_read(TANK("", "20 %"), "height"), 0.044, 1e-9);
    assert_near("table, half", text_read(TANK(SADDLE, "50 %"), "height"), 0.100, 1e-9);
    assert_near("table, a fifth", text_read(TANK(SADDLE, "20 %"), "height"), 0.040, 1e-9);
    const double between = text_read(TANK(SADDLE, "65 %"), "height");
    assert_true(between > 0.100 && between < 0.150);
    assert_near("no liquid",
                text_read("ullage: scenario/1\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                          "procedure:\n  steps:\n    - read: {height: tank.liquid_height}\n",
                          "height"),
                0.0, 0.0);
}

/* The last of the liquid goes, and with it the vapor; what is left is air, and the books are kept. */
static void a_tank_runs_dry(void **unused)
{
    (void)unused;
    static const char *const fuel[] = {"components: {n-pentane: 100 %}", "components: {n-pentane: 60 %, ethanol: 40 %}",
                                       "rvp: 9 psi", "rvp: 9 psi, fuel: quick"};
    for (size_t k = 0; k < sizeof fuel / sizeof *fuel; k++) {
        char text[600];
        snprintf(text, sizeof text,
                 "ullage: scenario/1\nfill: {level: 0.1 %%, temperature: 20 degC, %s}\nsystem:\n  parts:\n"
                 "    tank: {type: tank, volume: 45 L, height: 220 mm}\n"
                 "    mouth: {type: hole, from: tank, to: air, diameter: 60 mm}\n"
                 "procedure:\n  steps:\n    - wait: {for: 20000 h}\n    - read: {fuel: tank.fuel, vapor: "
                 "tank.fuel_vapor, rvp: tank.rvp, liquid: tank.liquid_temperature, gauge: tank.gauge_pressure}\n",
                 fuel[k]);
        struct text_run ran = text_run(text);
        assert_near("fuel", text_reading(&ran, "fuel"), 0.0, 1e-5);
        assert_near("vapor", text_reading(&ran, "vapor"), 0.0, 1e-5);
        assert_near("gauge", text_reading(&ran, "gauge"), 0.0, 1e-3);
        assert_near("liquid", text_reading(&ran, "liquid"), 293.15, 1e-3);
        for (int row = 0; row < ullage_model_ledger_rows(ran.model); row++) {
            const struct ullage_ledger_row book = ullage_run_ledger(ran.model, ran.run, row);
            assert_near("unaccounted", book.residual, 0.0, 1e-12 * book.scale);
        }
        text_close(&ran);
    }
}

/* No part above which a channel of the shell's slow give could be seen: 1 kPa for long gains give + creep, at first give. */
static void a_shell_creeps(void **unused)
{
    (void)unused;
    static const char text[] =
        "ullage: scenario/1\nassume: {heat: isothermal}\nsystem:\n  parts:\n"
        "    tank: {type: tank, volume: 45 L, give: 0.2 L/kPa, creep: 0.1 L/kPa, creep_time: 200 s}\n"
        "    big: {type: manifold, pressure: 102325 Pa}\n"
        "    way: {type: hole, from: big, to: tank, diameter: 20 mm}\n"
        "procedure:\n  steps:\n    - wait: {for: 4 s}\n    - read: {soon: tank.volume}\n    - wait: {for: 196 s}\n"
        "    - read: {later: tank.volume}\n    - wait: {for: 1 h}\n    - read: {late: tank.volume}\n";
    struct text_run ran = text_run(text);
    const double kilopascal = (102325.0 - 101325.0) / 1000.0;
    assert_near("soon", text_reading(&ran, "soon"), 0.045 + 0.2e-3 * kilopascal, 0.1e-3 * 4.0 / 200.0);
    assert_near("later", text_reading(&ran, "later"), 0.045 + (0.2e-3 + 0.1e-3 * (1.0 - exp(-1.0))) * kilopascal, 1e-6);
    assert_near("late", text_reading(&ran, "late"), 0.045 + 0.3e-3 * kilopascal, 1e-8);
    text_close(&ran);
}

/* A hole spreads gas as a disc does: the share of nitrogen falls as exp(-D d t/V) [SAITO1968]; D of nitrogen in air
 * 0.20 cm2/s at 20 degC (from memory, handbooks; 5 %). */
static void a_hole_lets_gas_diffuse(void **unused)
{
    (void)unused;
    const double share =
        text_read("ullage: scenario/1\nassume: {heat: isothermal}\nsystem:\n  parts:\n"
                  "    jar: {type: vessel, volume: 1 L}\n"
                  "    hole: {type: hole, from: jar, to: air, diameter: 5 mm}\n"
                  "start: {jar: {gas: nitrogen}}\n"
                  "procedure:\n  steps:\n    - wait: {for: 7000 s}\n    - read: {share: jar.nitrogen}\n",
                  "share");
    assert_near_share("rate", -log(share), 0.20e-4 * 5e-3 * 7000.0 / 1e-3, 0.06);
}

/* Warm fuel under a cold roof: what rises condenses there and runs back. The gas above holds less than at the liquid, more
 * than the roof would hold; nothing leaves the liquid for good. */
static void dew_falls_on_a_cold_roof(void **unused)
{
    (void)unused;
    static const char text[] =
        "ullage: scenario/1\nsurroundings: {temperature: -5 degC}\nsystem:\n  parts:\n"
        "    tank: {type: tank, volume: 45 L, height: 220 mm, returned: 40 W}\n"
        "fill: {level: 40 %, temperature: 10 degC, components: {n-pentane: 100 %}}\n"
        "procedure:\n  steps:\n    - wait: {for: 60 h}\n    - read: {low: tank.film_vapor, high: tank.fuel_vapor, "
        "pressure: tank.pressure, holds: tank.fuel_vapor_pressure, roof: tank.wall_temperature, fuel: tank.fuel, "
        "liquid: tank.liquid_temperature}\n    - wait: {for: 10 h}\n    - read: {later: tank.fuel}\n";
    struct text_run ran = text_run(text);
    const double roof = text_reading(&ran, "roof"), high = text_reading(&ran, "high") * text_reading(&ran, "pressure");
    const double cold = 1e5 * pow(10.0, 3.97786 - 1064.84 / (roof - 41.136)); /* Antoine of Poling, bar, K */
    assert_true(text_reading(&ran, "liquid") > roof + 2.0);
    assert_true(high > cold && high < text_reading(&ran, "low") * text_reading(&ran, "pressure"));
    assert_true(text_reading(&ran, "low") * text_reading(&ran, "pressure") < text_reading(&ran, "holds"));
    assert_near_share("fuel", text_reading(&ran, "later"), text_reading(&ran, "fuel"), 1e-4);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(liquid_stands_as_the_table_says),
                                       cmocka_unit_test(a_tank_runs_dry), cmocka_unit_test(a_shell_creeps),
                                       cmocka_unit_test(a_hole_lets_gas_diffuse),
                                       cmocka_unit_test(dew_falls_on_a_cold_roof)};
    return cmocka_run_group_tests_name("unit/element/tank", tests, NULL, NULL) != 0;
}
