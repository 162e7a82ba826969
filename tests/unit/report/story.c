/* tests/unit/report/story.c  The story of a leak test says what was done, what was seen, and why a reading is not what is
 * there. Numbers are looked at only where they follow from the scenario itself. */
#include "report/story.h"

#include "support/told.h"

#define RIG                                                                                                            \
    "ullage: scenario/1\nname: test-rig\nabout: A vessel with holes.\n"                                                \
    "system:\n  name: bench-one\n  parts:\n"                                                                           \
    "    vessel: {type: vessel, volume: 30 L}\n"                                                                       \
    "    small: {type: vessel, volume: 1 L}\n"                                                                         \
    "    between: {type: line, from: vessel, to: small, bore: 8 mm, length: 1 m}\n"                                    \
    "    port: {type: port, of: vessel}\n"                                                                             \
    "    leak: {type: hole, from: vessel, to: air, diameter: 0.4 mm, normally: plugged}\n"                             \
    "    drilled: {type: hole, from: vessel, to: air, diameter: 0.5 mm, wall: 1 mm, normally: plugged}\n"              \
    "    wide: {type: hole, from: vessel, to: air, diameter: 6 mm, normally: plugged}\n"                               \
    "    crack: {type: hole, from: vessel, to: air, shape: crack, passes: 0.5 L/min, normally: plugged}\n"             \
    "equipment:\n"                                                                                                     \
    "  supply: {type: supply, gauge_pressure: 3.0 kPa, flow_limit: 15 L/min, gas: nitrogen, tracer: smoke}\n"          \
    "  meter: {type: meter, of: supply, scale_least: 0.1 mm, scale_most: 2.5 mm}\n"                                    \
    "procedure:\n  steps:\n    - join: {supply: port}\n"
#define SETTLED "    - wait: {until: \"settled(meter.hole, 20 s, 0.002 mm)\", at_most: 30 min}\n"
#define READ                                                                                                           \
    "    - read: {hole: meter.hole, flow: meter.standard_flow, lost: meter.pressure_lost, fits: meter.true_hole}\n"

static const struct {
    const char *scenario;
    const char *says[8];
} stories[] = {
    /* what is done: joined with its gas, tracer, pressure in both units, and the regulator's limit */
    {RIG "    - wait: {for: 2 s}\n" READ,
     {"0:00 Nitrogen with smoke joined at the port at 3.00 kPa (12.0 inH2O), 15.0 L/min at most.",
      "0:02 The meter is off its scale, over 2.50 mm (0.098 in): the gas still goes into filling the system."}},
    {RIG SETTLED READ, {"Meter hole steady after", "no hole it can show, under 0.10 mm (0.004 in)."}},
    {RIG "    - set: {leak: open}\n" SETTLED READ,
     {"Leak open. 0.40 mm (0.016 in) across.", "The meter shows 0.40 mm (0.016 in) at",
      "; there is 0.40 mm (0.016 in): leak, on the vessel."}},
    /* a set step's own name stands for what it commands */
    {RIG "    - {name: Drilled wall out, set: {drilled: open}}\n" SETTLED READ,
     {"Drilled wall out. 0.50 mm (0.020 in) across.", "there is 0.50 mm (0.020 in): drilled, on the vessel.",
      "The drilled wall, 1.00 mm (0.039 in) thick, passes more than a thin hole of its size."}},
    {RIG "    - set: {wide: open}\n    - wait: {for: 60 s}\n" READ,
     {"The meter is off its scale, over 2.50 mm (0.098 in):", "leaves through the wide."}},
    {RIG "    - set: {leak: open, drilled: open}\n" SETTLED READ,
     {"Leak open. 0.40 mm (0.016 in) across. Drilled open. 0.50 mm (0.020 in) across.",
      "more than one hole is open; most leaves through drilled, on the vessel."}},
    {RIG "    - set: {crack: open}\n" SETTLED READ, {"there is a hole of another kind, crack: crack, on the vessel."}},
    {RIG "    - set: {leak.diameter: 0.7 mm, leak: open}\n" SETTLED READ,
     {"Leak diameter now 0.7 mm.", "there is 0.70 mm (0.028 in): leak, on the vessel."}},
    {RIG "    - set: {leak: open}\n    - wait: {for: 20 s}\n    - read: {hole: meter.hole}\n",
     {"of the flow still goes into filling the system."}},
    /* readings of other numbers, verdicts, words, waits that run out, equipment taken off */
    {RIG "    - wait: {until: vessel.gauge_pressure > 1 kPa, at_most: 5 min}\n"
         "    - read: {level: vessel.gauge_pressure}\n"
         "    - judge: {tight: {pass: level > 0 Pa, because: it holds}}\n"
         "    - say: Open the valve by hand.\n"
         "    - {name: Never, wait: {until: vessel.gauge_pressure > 9 kPa, at_most: 90 s}}\n"
         "    - part_from: {supply: port}\n",
     {": vessel.gauge_pressure > 1 kPa.", "Level: 1.00 kPa (4.01 inH2O).", "Tight: pass, it holds.",
      "Open the valve by hand.", "Never. Not within 90.0 s: vessel.gauge_pressure > 9 kPa.", "Supply taken off."}},
    /* what opens by itself is named for what it is: a cap's relief is not its cap */
    {"ullage: scenario/1\nname: a\nsystem:\n  parts:\n"
     "    vessel: {type: vessel, volume: 2 L}\n    port: {type: port, of: vessel}\n"
     "    top: {type: cap, of: vessel, opening_pressure: 2 kPa, opening_vacuum: 1 kPa}\n"
     "    spring: {type: check-valve, from: vessel, to: air, bore: 2 mm, opening_pressure: 1 kPa}\n"
     "equipment:\n  supply: {type: supply, gauge_pressure: 3.0 kPa, flow_limit: 15 L/min}\n"
     "procedure:\n  steps:\n    - join: {supply: port}\n    - wait: {for: 30 s}\n"
     "    - part_from: {supply: port}\n    - wait: {for: 60 s}\n",
     {"Spring opens.", "Top relief opens.", "Supply taken off.", "Top relief shuts."}},
};

static void the_story_says_what_happened(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof stories / sizeof stories[0]; i++) {
        struct told told = told_run(stories[i].scenario);
        struct told_page page;
        told_open(&page);
        story_events(page.to, &told.experiment, FIGURE_SHOP);
        char *text = told_close(&page);
        for (int k = 0; k < 8 && stories[i].says[k]; k++)
            text_has(text, stories[i].says[k]);
        assert_null(strstr(text, " ."));
        assert_null(strstr(text, "not known"));
        free(text);
        told_free(&told);
    }
}

/* What the meter's sentence has told is not told again by the readings of its flow, its loss and its fit. */
static void nothing_is_told_twice(void **unused)
{
    (void)unused;
    struct told told = told_run(RIG "    - set: {leak: open}\n" SETTLED READ);
    struct told_page page;
    told_open(&page);
    story_events(page.to, &told.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    assert_null(strstr(text, "Flow:"));
    assert_null(strstr(text, "Lost:"));
    assert_null(strstr(text, "Fits:"));
    free(text);
    told_free(&told);
}

static const struct {
    const char *change, *says;
} reasons[] = {
    {"surroundings: {pressure: 80 kPa}\n",
     "It reads low: its scale was made in air of 101.3 kPa, and here it is 80.0 kPa."},
    {"surroundings: {pressure: 101325 Pa}\n", "there is 0.40 mm"},
};

static void altitude_is_told_as_a_reason(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++) {
        char text[4096];
        snprintf(text, sizeof text, "%s    - set: {leak: open}\n%s%s%s", RIG, SETTLED, READ, reasons[i].change);
        struct told told = told_run(text);
        struct told_page page;
        told_open(&page);
        story_events(page.to, &told.experiment, FIGURE_SHOP);
        char *story = told_close(&page);
        text_has(story, reasons[i].says);
        assert_int_equal(strstr(story, "It reads low") != NULL, i == 0);
        free(story);
        told_free(&told);
    }
}

/* A hose of 3 mm takes a good part of the pressure of a hole of 2 mm. */
static void pressure_lost_on_the_way_is_told(void **unused)
{
    (void)unused;
    struct told told =
        told_run("ullage: scenario/1\nname: narrow\n"
                 "system:\n  parts:\n"
                 "    vessel: {type: vessel, volume: 5 L}\n"
                 "    port: {type: port, of: vessel}\n"
                 "    leak: {type: hole, from: vessel, to: air, diameter: 1 mm}\n"
                 "equipment:\n"
                 "  supply: {type: supply, gauge_pressure: 3.0 kPa, flow_limit: 15 L/min, gas: air, hose_bore: 3 mm}\n"
                 "  meter: {type: meter, of: supply}\n"
                 "procedure:\n  steps:\n    - join: {supply: port}\n" SETTLED READ);
    struct told_page page;
    told_open(&page);
    story_events(page.to, &told.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    text_has(text, "of the set pressure is lost on the way. Corrected for what arrives: 1.00 mm (0.039 in).");
    free(text);
    told_free(&told);
}

static void what_the_hand_does_is_marked(void **unused)
{
    (void)unused;
    struct told told = told_ready(RIG "    - wait: {for: 10 s}\n");
    assert_int_equal(ullage_run_advance(told.model, told.run, 4.0), ULLAGE_PAUSED);
    assert_null(ullage_run_command(told.model, told.run, "leak", "open"));
    assert_int_equal(ullage_run_advance(told.model, told.run, 6.0), ULLAGE_PAUSED);
    assert_null(ullage_run_command(told.model, told.run, "surroundings.temperature", "35 degC ramp=20min"));
    assert_null(ullage_run_command(told.model, told.run, "surroundings.altitude", "800 m"));
    assert_int_equal(ullage_run_advance(told.model, told.run, (double)INFINITY), ULLAGE_FINISHED);
    struct told_page page;
    told_open(&page);
    story_events(page.to, &told.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    text_has(text, "0:04 By hand: Leak open. 0.40 mm (0.016 in) across.");
    text_has(text, "0:06 By hand: Air temperature to 35 degC within 20 min. By hand: Altitude to 800 m within 10 s.");
    free(text);
    told_free(&told);
}

static void faults_that_come_and_go_are_told(void **unused)
{
    (void)unused;
    struct told told =
        told_run(RIG "    - wait: {for: 60 s}\n"
                     "faults:\n  - {id: b, fault: leak, where: vessel, diameter: 1 mm, from: 10 s, until: 30 s}\n"
                     "by_hand: [{at: 40 s, set: {\"leak small\": 2 mm from=45s ramp=1 s}}]\n");
    struct told_page page;
    told_open(&page);
    story_events(page.to, &told.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    text_has(text, "0:10 Fault b begins. 1.00 mm (0.039 in) across.");
    text_has(text, "0:30 Fault b ends.");
    text_has(text, "0:40 By hand: Leak small 2 mm, from 45s, ramp 1 s.");
    text_has(text, "0:45 Fault leak small begins.");
    assert_null(strstr(text, "0 mm (0 in)"));
    free(text);
    told_free(&told);
}

static void the_setting_names_rig_spaces_gas_and_air(void **unused)
{
    (void)unused;
    struct told told = told_run(RIG "surroundings: {altitude: 1500 m}\n");
    struct told_page page;
    told_open(&page);
    story_setting(page.to, &told.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    text_has(text,
             "Bench one: vessel 30 L, small 1 L, holding air at the start. Around it 5.3 °C, 846 hPa."); /* USSA 1976 */
    text_has(text, "A vessel with holes.");
    free(text);
    told_open(&page);
    story_setting(page.to, &told.experiment, FIGURE_SI);
    text = told_close(&page);
    text_has(text, "vessel 0.03 m3, small 0.001 m3,");
    text_has(text, " K, 845");
    free(text);
    told_free(&told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_story_says_what_happened),
        cmocka_unit_test(nothing_is_told_twice),
        cmocka_unit_test(altitude_is_told_as_a_reason),
        cmocka_unit_test(pressure_lost_on_the_way_is_told),
        cmocka_unit_test(what_the_hand_does_is_marked),
        cmocka_unit_test(faults_that_come_and_go_are_told),
        cmocka_unit_test(the_setting_names_rig_spaces_gas_and_air),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
