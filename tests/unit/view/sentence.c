/* tests/unit/view/sentence.c  The sentence follows the physics: the same rig, told at different moments. */
#include "view/sentence.h"

#include "support/stage.h"

#define PARTS                                                                                                          \
    "ullage: scenario/1\nname: told\nsurroundings: {pressure: 101325 Pa, temperature: 20 degC}\nsystem:\n  parts:\n"

static const char rig[] =
    PARTS "    tank: {type: tank, volume: 30 L}\n    port: {type: port, of: tank}\n"
          "    plug-1: {type: hole, from: tank, to: air, diameter: 2 mm, normally: plugged}\n"
          "equipment:\n  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 15 L/min, gas: nitrogen}\n"
          "procedure:\n  steps:\n"
          "    - {name: Gas on, join: {supply: port}}\n    - wait: {for: 3 s}\n"
          "    - {name: Hold, wait: {for: 897 s}}\n"
          "    - {name: Plug out, set: {plug-1: open}}\n    - wait: {for: 60 s}\n"
          "    - {name: Gas off, set: {supply: off}}\n    - wait: {for: 2 s}\n"
          "    - {name: Plug back, set: {plug-1: plugged}}\n    - wait: {for: 60 s}\n";

static void told(const struct stage *stage, double time, const char *begins, const char *holds)
{
    char text[320];
    double since, share, value[400];
    assert_true(ullage_model_channels(stage->model) <= 400);
    ullage_run_advance(stage->model, stage->run, time);
    ullage_run_values(stage->model, stage->run, value, NULL);
    sentence_make(stage->model, value, ullage_run_step(stage->run, &since, &share), text, sizeof text);
    if (strncmp(text, begins, strlen(begins)) || !strstr(text, holds))
        fail_msg("at %g s: \"%s\", wanted \"%s ... %s\"", time, text, begins, holds);
}

static void a_leak_test_is_told(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    told(&stage, 1.0, "Gas on. ", "filling the system");
    told(&stage, 890.0, "Hold. ", "holds its pressure");
    told(&stage, 950.0, "Plug out. ", "In equals out: nearly all the supply gives leaves at plug 1.");
    told(&stage, 961.0, "Gas off. ", "The tank lets gas out by plug 1.");
    told(&stage, 1020.0, "Plug back. ", "holds its pressure");
    stage_close(&stage);
}

static void small_systems_are_told(void **state)
{
    (void)state;
    struct stage draws = stage_text(PARTS "    vessel: {type: vessel, volume: 30 L}\n"
                                          "    leak: {type: hole, from: vessel, to: air, diameter: 1 mm}\n"
                                          "start: {vessel: {gauge_pressure: -2 kPa}}\n"
                                          "procedure:\n  steps:\n    - {name: Leave, wait: {for: 60 s}}\n");
    told(&draws, 1.0, "Leave. ", "The vessel draws gas in by the leak.");
    stage_close(&draws);
    struct stage meets =
        stage_text(PARTS "    near: {type: vessel, volume: 20 L}\n    far: {type: vessel, volume: 5 L}\n"
                         "    between: {type: hole, from: near, to: far, diameter: 1 mm}\n"
                         "start: {near: {gauge_pressure: 3 kPa}}\n"
                         "procedure:\n  steps:\n    - {name: Meet, wait: {for: 60 s}}\n");
    told(&meets, 1.0, "Meet. ", "through the hole until the pressures on both sides meet");
    stage_close(&meets);
    struct stage choked = stage_text(PARTS "    manifold: {type: manifold, pressure: 35 kPa}\n"
                                           "    purge: {type: valve, from: air, to: manifold, bore: 4 mm}\n"
                                           "procedure:\n  steps:\n    - {name: Pull, wait: {for: 5 s}}\n");
    told(&choked, 1.0, "Pull. ", "choked");
    stage_close(&choked);
    struct stage still = stage_text(PARTS "    vessel: {type: vessel, volume: 30 L}\n"
                                          "procedure:\n  steps:\n    - {name: Rest, wait: {for: 5 s}}\n");
    told(&still, 1.0, "Rest. ", "same pressure");
    stage_close(&still);
}

/* A hole of which liquid stands outside the meter's reach. */
static void liquid_that_runs_out_is_told_first(void **state)
{
    (void)state;
    struct stage stage = stage_text(
        PARTS "    tank: {type: tank, volume: 30 L, height: 200 mm, openings: {foot: 20 mm}}\n    port: {type: port, "
              "of: tank}\n"
              "    leak: {type: hole, from: tank.foot, to: air, diameter: 1 mm, normally: plugged}\n"
              "fill: {level: 50 %, rvp: 9 psi}\n"
              "equipment:\n  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 15 L/min, gas: nitrogen}\n"
              "procedure:\n  steps:\n    - {name: Gas on, join: {supply: port}}\n    - wait: {for: 60 s}\n"
              "    - {name: Leak, set: {leak: open}}\n    - wait: {for: 60 s}\n");
    told(&stage, 50.0, "Gas on. ", "full and tight");
    told(&stage, 110.0, "Leak. ", "Liquid fuel runs out by the hole at the foot: no meter of gas shows that.");
    stage_close(&stage);
}

/* The vessel that the hole is in, not the largest there is. */
static void the_space_is_the_one_that_leaks(void **state)
{
    (void)state;
    struct stage stage = stage_open("scenarios/hold-14-8.yaml", NULL);
    told(&stage, 5.0, "The small one. ", "Vessel small lets gas out by the small hole.");
    stage_close(&stage);
}

/* Out while the tank warms, in while it cools. */
static void a_day_with_carbon_is_told(void **state)
{
    (void)state;
    struct stage stage = stage_open("scenarios/warm-day.yaml", NULL);
    told(&stage, 5.0 * 3600.0, "It warms. ", "breathes out: the carbon keeps its vapor, air leaves by the vent valve.");
    told(&stage, 16.0 * 3600.0, "It cools. ", "draws air in through the carbon, which gives vapor back.");
    stage_close(&stage);
}

static void a_purge_is_told(void **state)
{
    (void)state;
    struct stage stage = stage_open("scenarios/purge-drive.yaml", NULL);
    told(&stage, 70.0, "", "The engine draws air in through the carbon, and vapor out of it.");
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_leak_test_is_told),
                                       cmocka_unit_test(small_systems_are_told),
                                       cmocka_unit_test(liquid_that_runs_out_is_told_first),
                                       cmocka_unit_test(the_space_is_the_one_that_leaks),
                                       cmocka_unit_test(a_day_with_carbon_is_told),
                                       cmocka_unit_test(a_purge_is_told)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
