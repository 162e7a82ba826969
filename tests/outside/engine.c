/* tests/outside/engine.c  What an engine swallows, and its mixture, against closed forms worked out here: the isentropic
 * nozzle at the speed of sound, stoichiometry from formulas, and the algebra of a mixture that is right.
 *
 * Everything is isothermal and the discharge coefficient frozen, so that hand and program reckon with one temperature. */
#include "property/burning.h"
#include "support/run_text.h"

#define GAS 8.31446261815324 /* J/mol/K */
#define ASKED 5e-3           /* what is asked for: 0.5 % */

/* ---- how much air a fuel needs ---- */

/* kg of air for a kg of fuel. From memory: tables of fuels in textbooks of combustion engines, which take air as 1 mol of
 * oxygen in 4.76. Off by half the last digit. */
static const struct {
    const char *name;
    double ratio, half_digit;
} needs[] = {
    {"propane", 15.67, 0.005}, {"n-butane", 15.46, 0.005}, {"n-pentane", 15.33, 0.005}, {"isooctane", 15.13, 0.005},
    {"benzene", 13.27, 0.005}, {"toluene", 13.50, 0.005},  {"ethanol", 9.00, 0.005},
};

/* Beside the digit: air of 0.2095 against 0.20948, 28.96 against 28.9647, together 3e-4. */
static void fuels_need_so_much_air(void **unused)
{
    (void)unused;
    for (size_t k = 0; k < sizeof needs / sizeof needs[0]; k++) {
        const struct component *fuel = component_find(needs[k].name);
        assert_near(needs[k].name, vapor_air(fuel) / fuel->gas.molar_mass, needs[k].ratio,
                    needs[k].half_digit + 3e-4 * needs[k].ratio);
    }
    assert_near("gasoline", liquid_air(0, NULL, NULL), 14.6, 0.05); /* the same tables */
}

/* ---- a rig whose gas stays as it is ---- */

/* A room of 100 m3, so that what is drawn from it for a minute does not change it by 1e-3. Its air is by its share. */
#define RIG(gas, engine, steps)                                                                                        \
    "ullage: scenario/1\nname: rig\nassume: {heat: isothermal, discharge: 0.8}\n"                                      \
    "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\nsystem:\n  parts:\n"                                   \
    "    room: {type: vessel, volume: 100 m3}\n"                                                                       \
    "    purge: {type: valve, from: room, to: engine, bore: 2 mm, normally: shut}\n"                                   \
    "    engine: {type: engine, normally: idle" engine "}\nstart: {room: {gas: " gas "}}\nprocedure:\n  steps:\n"      \
    "    - wait: {for: 1 s}\n" steps

#define TEMPERATURE 293.15
#define PRESSURE 101325.0
#define IDLE_PRESSURE 39e3 /* well below the critical ratio for any gas here */
#define AIR_MASS 28.9647e-3
#define BUTANE_MASS 58.1222e-3
#define BUTANE_HEAT 98.81 /* J/mol/K [POLING5] */
#define AIR_HEAT 29.10    /* J/mol/K: 7/2 R */

/* mol/s: A p sqrt(gamma/(R T M)) (2/(gamma + 1))^((gamma + 1)/(2 (gamma - 1))) times the coefficient [textbook]. */
static double choked_flow(double share, double duty)
{
    const double mass = share * BUTANE_MASS + (1.0 - share) * AIR_MASS;
    const double heat = share * BUTANE_HEAT + (1.0 - share) * AIR_HEAT, gamma = heat / (heat - GAS);
    const double area = 0.25 * M_PI * 2e-3 * 2e-3;
    return duty * 0.8 * area * PRESSURE * sqrt(gamma / (GAS * TEMPERATURE * mass)) *
           pow(2.0 / (gamma + 1.0), (gamma + 1.0) / (2.0 * (gamma - 1.0)));
}

/* mol/s that it fills itself with: 2 L, 80 % of it, once in two of 700 turns a minute. */
static double swallowed(void)
{
    return 0.8 * 2e-3 * 0.5 * 700.0 / 60.0 * IDLE_PRESSURE / (GAS * TEMPERATURE);
}

#define OPEN(share) "    - set: {purge: " share "}\n    - wait: {for: 60 s}\n"
#define READ                                                                                                           \
    "    - read: {flow: engine.purge_flow, ratio: engine.air_ratio, correction: engine.correction, fuel: "             \
    "engine.purged_fuel, air: engine.air_flow, injected: engine.injected, through: purge.flow}\n"

static void a_choked_valve_passes_what_sound_lets_by(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(RIG("air", "", OPEN("open") READ));
    assert_near_share("air", text_reading(&ran, "flow"), AIR_MASS * choked_flow(0.0, 1.0), ASKED);
    assert_near_share("the valve says the same", text_reading(&ran, "through"), text_reading(&ran, "flow"), 1e-9);
    text_close(&ran);
    ran = text_run(RIG("{air: 70 %, n-butane: 30 %}", "", OPEN("25 %") READ));
    const double mass = 0.3 * BUTANE_MASS + 0.7 * AIR_MASS;
    assert_near_share("butane in it, a quarter of the time", text_reading(&ran, "flow"), mass * choked_flow(0.3, 0.25),
                      ASKED);
    text_close(&ran);
}

/* ---- the mixture ---- */

#define AIR_OF_BUTANE (6.5 / 0.2095 * 28.96e-3) /* kg/mol: C4H10 + 6.5 O2, air by hand */

/* Open loop: injected is what all the swallowed gas would ask for as air. */
static void a_known_vapor_makes_a_known_ratio(void **unused)
{
    (void)unused;

    static const struct {
        const char *text;
        double share, duty;
    } want[] = {
        {RIG("{air: 70 %, n-butane: 30 %}", ", correction_limit: 0", OPEN("10 %") READ), 0.3, 0.1},
        {RIG("{air: 70 %, n-butane: 30 %}", ", correction_limit: 0", OPEN("open") READ), 0.3, 1.0},
        {RIG("{air: 95 %, n-butane: 5 %}", ", correction_limit: 0", OPEN("40 %") READ), 0.05, 0.4},
    };

    for (size_t k = 0; k < sizeof want / sizeof want[0]; k++) {
        struct text_run ran = text_run(want[k].text);
        const double all = swallowed(), vapor = want[k].share * choked_flow(want[k].share, want[k].duty);
        const double air = AIR_MASS * (all - vapor);
        const double need = AIR_MASS * all + AIR_OF_BUTANE * vapor;
        assert_near_share("ratio", text_reading(&ran, "ratio"), air / need, ASKED);
        assert_near_share("air", text_reading(&ran, "air"), air, ASKED);
        assert_near_share("fuel", text_reading(&ran, "fuel"), BUTANE_MASS * vapor, ASKED);
        assert_near_share("injected", text_reading(&ran, "injected"), AIR_MASS * all / 14.6, ASKED);
        text_close(&ran);
    }
}

/* Closed: all (1 + c) M_air + need of the vapor = M_air (all - vapor). */
static void the_correction_restores_the_mixture(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(RIG("{air: 80 %, n-butane: 20 %}", "", OPEN("10 %") READ));
    const double all = swallowed(), vapor = 0.2 * choked_flow(0.2, 0.1);
    const double correction = -(vapor + AIR_OF_BUTANE * vapor / AIR_MASS) / all;
    assert_near_share("correction", text_reading(&ran, "correction"), correction, ASKED);
    assert_near("ratio", text_reading(&ran, "ratio"), 1.0, 1e-4);
    assert_near_share("injected", text_reading(&ran, "injected"), AIR_MASS * all * (1.0 + correction) / 14.6, ASKED);
    text_close(&ran);
}

/* Ethanol brings oxygen of its own and nitrogen none: C2H6O + 3 O2. */
static void oxygen_counts_on_both_sides(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(RIG("{nitrogen: 96 %, ethanol: 4 %}", ", correction_limit: 0", OPEN("open") READ));
    const double ethanol_mass = 46.0684e-3, nitrogen_mass = 28.0134e-3;
    const double purge = text_reading(&ran, "flow") / (0.04 * ethanol_mass + 0.96 * nitrogen_mass);
    const double all = swallowed();
    const double need = AIR_MASS * all + 3.0 / 0.2095 * 28.96e-3 * 0.04 * purge;
    assert_near_share("ratio", text_reading(&ran, "ratio"), AIR_MASS * (all - purge) / need, ASKED);
    text_close(&ran);
}

/* ---- how late the sensor tells it ---- */

/* Four equal lags answer a step with 1 - exp(-x)(1 + x + x^2/2 + x^3/6), x = t over one of them: Erlang's distribution
 * [textbook]. Its mean is the delay. */
static void the_sensor_is_late(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(RIG("{air: 70 %, n-butane: 30 %}", ", correction_limit: 0, delay: 0.8 s",
                                       "    - set: {purge: 20 %}\n    - wait: {for: 0.4 s}\n"
                                       "    - read: {half: engine.air_ratio}\n    - wait: {for: 0.4 s}\n"
                                       "    - read: {once: engine.air_ratio}\n    - wait: {for: 0.8 s}\n"
                                       "    - read: {twice: engine.air_ratio}\n    - wait: {for: 60 s}\n"
                                       "    - read: {last: engine.air_ratio}\n"));

    static const struct {
        const char *name;
        double lags;
    } at[] = {{"half", 2.0}, {"once", 4.0}, {"twice", 8.0}};

    const double fall = text_reading(&ran, "last") - 1.0;
    for (size_t k = 0; k < sizeof at / sizeof at[0]; k++) {
        const double x = at[k].lags;
        const double share = 1.0 - exp(-x) * (1.0 + x + x * x / 2.0 + x * x * x / 6.0);
        assert_near_share(at[k].name, (text_reading(&ran, at[k].name) - 1.0) / fall, share, ASKED);
    }
    text_close(&ran);
}

/* ---- a rig in order ---- */

static struct ullage_model *shipped_model(const char *path)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders, .searches = 1};
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    assert_non_null(description);
    struct ullage_model *model = ullage_model_create(description, problems);
    assert_non_null(model);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return model;
}

/* More than 1 L in the 240 s of a transient drive passes (US inspection guidance, from memory). Heron from its start. */
static void a_sound_rig_purges_a_litre_in_four_minutes(void **unused)
{
    (void)unused;
    struct text_run ran = {shipped_model("scenarios/purge-drive.yaml"), NULL};
    ran.run = ullage_run_create(ran.model, NULL);
    assert_int_equal(ullage_run_advance(ran.model, ran.run, 240.0), ULLAGE_PAUSED);
    double purged = 0.0;
    for (int k = 0; k < ullage_model_opening_rows(ran.model); k++) {
        const struct ullage_opening_row row = ullage_run_opening(ran.model, ran.run, k);
        if (!strcmp(row.part, "purge-valve"))
            purged += row.out * GAS * TEMPERATURE / PRESSURE;
    }
    print_message("%.1f L in 240 s\n", 1e3 * purged);
    assert_true(purged > 1e-3);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fuels_need_so_much_air),
        cmocka_unit_test(a_choked_valve_passes_what_sound_lets_by),
        cmocka_unit_test(a_known_vapor_makes_a_known_ratio),
        cmocka_unit_test(the_correction_restores_the_mixture),
        cmocka_unit_test(oxygen_counts_on_both_sides),
        cmocka_unit_test(the_sensor_is_late),
        cmocka_unit_test(a_sound_rig_purges_a_litre_in_four_minutes),
    };
    return cmocka_run_group_tests_name("outside/engine", tests, NULL, NULL) != 0;
}
