/* tests/unit/element/engine.c  An engine's loads, its trace, its loop; and that a run goes back over them. */
#include "support/run_text.h"

#define GAS 8.31446261815324 /* J/mol/K */
#define AIR 28.9647e-3       /* kg/mol */

#define RIG(engine, steps)                                                                                             \
    "ullage: scenario/1\nname: rig\nsurroundings: {pressure: 100 kPa, temperature: 20 degC}\nsystem:\n  parts:\n"      \
    "    v: {type: vessel, volume: 40 L}\n    vent: {type: hole, from: v, to: air, diameter: 12 mm}\n"                 \
    "    purge: {type: valve, from: v, to: engine, bore: 2 mm, normally: shut}\n"                                      \
    "    engine: {type: engine" engine                                                                                 \
    "}\nstart: {v: {gas: {air: 50 %, n-butane: 50 %}}}\nprocedure:\n  steps:\n" steps

#define READ(name)                                                                                                     \
    "    - read: {p" name ": engine.manifold_pressure, a" name ": engine.air_flow, i" name ": engine.injected, r" name \
    ": engine.air_ratio, c" name ": engine.correction}\n"

/* Speed and density: 2 L, 80 % of it filled once in two turns. */
static double swallowed(double speed, double pressure)
{
    return 0.8 * 2e-3 * 0.5 * speed * pressure * AIR / (GAS * 293.15);
}

static void words_and_shares_are_loads(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        RIG("", READ("0")                                                                                          //
            "    - set: {engine: idle}\n    - wait: {for: 2 s}\n" READ("1")                                        //
            "    - set: {engine: town}\n    - wait: {for: 0.5 s}\n" READ("2") "    - wait: {for: 2 s}\n" READ("3") //
            "    - set: {engine: 62.5 %}\n    - wait: {for: 2 s}\n" READ("4")                                      //
            "    - set: {engine: boost}\n    - wait: {for: 9 s}\n" READ("5")                                       //
            "    - set: {engine: off}\n    - wait: {for: 9 s}\n" READ("6")));

    static const struct {
        const char *name;
        double pressure, rpm;
    } want[] = {{"0", 100e3, 0.0},     {"1", 39e3, 700.0},   {"2", 42e3, 1100.0}, {"3", 45e3, 1500.0},
                {"4", 50.5e3, 1950.0}, {"5", 160e3, 3000.0}, {"6", 100e3, 0.0}};

    for (size_t k = 0; k < sizeof want / sizeof want[0]; k++) {
        char name[8];
        const double air = swallowed(want[k].rpm / 60.0, want[k].pressure);
        snprintf(name, sizeof name, "p%s", want[k].name);
        assert_near_share(name, text_reading(&ran, name), want[k].pressure, 1e-12);
        snprintf(name, sizeof name, "a%s", want[k].name);
        assert_near(name, text_reading(&ran, name), air, 1e-12);
        snprintf(name, sizeof name, "i%s", want[k].name);
        assert_near(name, text_reading(&ran, name), air / 14.61, 1e-3 * air);
        snprintf(name, sizeof name, "r%s", want[k].name);
        assert_near(name, text_reading(&ran, name), 1.0, 1e-12);
    }
    text_close(&ran);
}

static void a_trace_is_followed_until_a_command(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(RIG(", trace: [[2 s, 40 kPa, 4 g/s], [4 s, 60 kPa, 10 g/s], [10 s, 30 kPa, 3 g/s]]",
                     READ("0") "    - wait: {for: 3 s}\n" READ("1") "    - wait: {for: 4 s}\n" READ("2") //
                     "    - wait: {for: 60 s}\n" READ("3") "    - set: {engine: town}\n" READ("4")));

    static const struct {
        const char *pressure, *air;
        double kilopascal, gram;
    } want[] = {{"p0", "a0", 40.0, 4.0}, {"p1", "a1", 50.0, 7.0}, {"p2", "a2", 45.0, 6.5}, {"p3", "a3", 30.0, 3.0}};

    for (size_t k = 0; k < sizeof want / sizeof want[0]; k++) {
        assert_near_share(want[k].pressure, text_reading(&ran, want[k].pressure), 1e3 * want[k].kilopascal, 1e-12);
        assert_near_share(want[k].air, text_reading(&ran, want[k].air), 1e-3 * want[k].gram, 1e-12);
    }
    assert_near_share("p4", text_reading(&ran, "p4"), 45e3, 1e-12);
    text_close(&ran);
}

/* Too much vapor: the correction stops at its limit; without it, it comes back and the mixture is right again. */
static void the_correction_stops_at_its_limit(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(RIG(", normally: idle, correction_limit: 10 %",
                                       "    - set: {purge: open}\n    - wait: {for: 20 s}\n" READ("1") //
                                       "    - set: {purge: shut}\n    - wait: {for: 60 s}\n" READ("2") //
                                       "    - set: {engine: off}\n    - wait: {for: 60 s}\n" READ("3")));
    assert_near("limit", text_reading(&ran, "c1"), -0.1, 0.0);
    assert_true(text_reading(&ran, "r1") < 0.9);
    assert_near("back", text_reading(&ran, "c2"), 0.0, 1e-6);
    assert_near("right", text_reading(&ran, "r2"), 1.0, 1e-6);
    assert_near("off", text_reading(&ran, "r3"), 1.0, 1e-6);
    text_close(&ran);
}

/* Back to a moment in the middle of a correction, and forward: the same bits. */
static void a_run_goes_back(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(
        RIG(", normally: idle", "    - set: {purge: 30 %}\n    - wait: {for: 5 s}\n    - set: {engine: motorway}\n"
                                "    - wait: {for: 15 s}\n"));
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    ullage_history_advance(history, 6.3);
    const uint64_t there = ullage_run_hash(run);
    ullage_history_advance(history, 15.0);
    const uint64_t later = ullage_run_hash(run);
    assert_true(there != later);
    ullage_history_go(history, 6.3);
    assert_true(ullage_run_hash(run) == there);
    ullage_history_go(history, 15.0);
    assert_true(ullage_run_hash(run) == later);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_and_shares_are_loads),
        cmocka_unit_test(a_trace_is_followed_until_a_command),
        cmocka_unit_test(the_correction_stops_at_its_limit),
        cmocka_unit_test(a_run_goes_back),
    };
    return cmocka_run_group_tests_name("unit/element/engine", tests, NULL, NULL) != 0;
}
