/* tests/unit/procedure/conduct.c  The outer loop: moments of conditions against closed forms, and that neither pauses nor
 * records change a bit.
 *
 * The subject of the closed forms is a sensor of lag 5 s at a manifold 2000 Pa under the surroundings: from 0 it shows
 *     m(t) = -2000 Pa (1 - exp(-t/5 s)).
 * It is integrated at tolerance 1e-8 of 1000 Pa a step; TRUTH is what that may add up to over the steps of one lag. */
#include "support/near.h"
#include "support/run_text.h"
#include "ullage.h"

#include <float.h>

#define LAG 5.0      /* s */
#define DEPTH 2000.0 /* Pa */
#define TRUTH 1e-3   /* Pa: 1e-5 Pa a step, 100 steps */

static const char sensor_head[] = "ullage: scenario/1\n"
                                  "name: sensor\n"
                                  "surroundings: {pressure: 100 kPa, temperature: 20 degC}\n"
                                  "system:\n"
                                  "  parts:\n"
                                  "    intake: {type: manifold, pressure: 98 kPa}\n"
                                  "    sensor: {type: sensor, of: intake, time_constant: 5 s}\n"
                                  "    dial: {type: gauge, of: intake, least: -1500 Pa, most: 1500 Pa}\n"
                                  "    vessel: {type: vessel, volume: 1 L}\n"
                                  "    valve: {type: valve, from: vessel, to: air, bore: 2 mm, normally: shut}\n";

static const struct ullage_method fine = {.solver = "bdf", .tolerance = 1e-8};

static struct text_run sensor_run(const char *rest)
{
    char text[4096];
    snprintf(text, sizeof text, "%s%s", sensor_head, rest);
    return text_run_with(text, &fine);
}

static struct text_run sensor_steps(const char *steps)
{
    char rest[3000];
    snprintf(rest, sizeof rest, "procedure:\n  steps:\n%s", steps);
    return sensor_run(rest);
}

/* Events of a kind. */
static int told(const struct ullage_run *run, enum ullage_event_kind kind)
{
    int count = 0;
    for (int k = 0; k < ullage_run_events(run); k++)
        count += ullage_run_event(run, k).kind == kind;
    return count;
}

static struct ullage_event told_first(const struct ullage_run *run, enum ullage_event_kind kind)
{
    for (int k = 0; k < ullage_run_events(run); k++)
        if (ullage_run_event(run, k).kind == kind)
            return ullage_run_event(run, k);
    fail_msg("no such event");
    return (struct ullage_event){0};
}

/* ---- moments ---- */
static void a_crossing_is_found_where_it_is(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {until: sensor.gauge_pressure < -1 kPa, at_most: 1 min}\n"
                                       "    - read: {at: time, shown: sensor.gauge_pressure}\n");
    const double slope = (DEPTH - 1000.0) / LAG; /* Pa/s there */
    const double at = text_reading(&ran, "at"), shown = text_reading(&ran, "shown");
    assert_near("moment", at, LAG * log(2.0), TRUTH / slope);
    assert_near("on the true side", shown, -1000.0, 1e-12 * at * slope + 4.0 * DBL_EPSILON * 1000.0);
    assert_true(shown < -1000.0);
    assert_int_equal(told(ran.run, ULLAGE_WAIT_EXPIRED), 0);
    text_close(&ran);
}

/* True for 1.8 s only: -5 ln(0.35) less 5 ln 2. */
static void a_condition_that_passes_is_seen(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps(
        "    - wait: {until: sensor.gauge_pressure < -1 kPa and not sensor.gauge_pressure < -1.3 kPa, at_most: 1 min}\n"
        "    - read: {at: time}\n");
    assert_near("moment", text_reading(&ran, "at"), LAG * log(2.0), TRUTH / ((DEPTH - 1000.0) / LAG));
    text_close(&ran);
}

/* The largest less the smallest of the last 10 s is 2000 exp(-t/5) (exp(2) - 1). The past is straight between points 0.05 s
 * apart: wrong by a share (0.05/5)^2/8 at most. */
static void settled_is_found_where_it_is(void **unused)
{
    (void)unused;
    struct text_run ran =
        sensor_steps("    - wait: {until: \"settled(sensor.gauge_pressure, 10 s, 20 Pa)\", at_most: 5 min}\n"
                     "    - read: {at: time, rate: \"rate(sensor.gauge_pressure, 10 s)\"}\n");
    const double at = LAG * log(DEPTH * (exp(2.0) - 1.0) / 20.0);
    const double straight = 1.25e-5 * DEPTH * exp(-(at - 10.0) / LAG);
    assert_near("settled", text_reading(&ran, "at"), at, (straight + TRUTH) / (20.0 / LAG));
    assert_near("rate", text_reading(&ran, "rate"), -2.0, (straight + TRUTH) / 10.0);
    text_close(&ran);
}

static void settled_waits_for_its_window(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {for: 3 s}\n"
                                       "    - wait: {until: \"settled(intake.pressure, 7 s, 1 Pa)\", at_most: 7 s}\n"
                                       "    - read: {at: time}\n"
                                       "    - wait: {until: \"settled(intake.pressure, 7 s, 1 Pa)\", at_most: 6.9 s}\n"
                                       "    - read: {late: time}\n");
    assert_near("full", text_reading(&ran, "at"), 10.0, 0.0);
    assert_near("not full", text_reading(&ran, "late"), 16.9, 0.0);
    assert_int_equal(told(ran.run, ULLAGE_WAIT_EXPIRED), 1);
    text_close(&ran);
}

static void a_true_condition_does_not_wait(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {until: intake.pressure < 99 kPa, at_most: 1 min}\n"
                                       "    - read: {at: time}\n");
    assert_near("at once", text_reading(&ran, "at"), 0.0, 0.0);
    text_close(&ran);
}

static void a_wait_gives_up_and_the_procedure_goes_on(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {until: sensor.gauge_pressure < -3 kPa, at_most: 20 s}\n"
                                       "    - read: {at: time}\n");
    assert_near("time limit", text_reading(&ran, "at"), 20.0, 0.0);
    const struct ullage_event expired = told_first(ran.run, ULLAGE_WAIT_EXPIRED);
    assert_near("told", expired.time, 20.0, 0.0);
    assert_int_equal(expired.step, 0);
    text_close(&ran);
}

/* Numbers that no input follows are outputs: the solver's steps are the same with and without them. */
static void outputs_shorten_no_step(void **unused)
{
    (void)unused;
    const char *plain = "    - wait: {for: 30 s}\n";
    const char *busy = "    - wait: {for: 7.7 s}\n"
                       "    - read: {a: sensor.gauge_pressure}\n"
                       "    - wait: {until: sensor.gauge_pressure < -1.7 kPa, at_most: 1 min}\n"
                       "    - say: there\n"
                       "    - wait: {until: time >= 30 s, at_most: 1 min}\n";
    struct text_run one = sensor_steps(plain);
    char rest[1000];
    snprintf(rest, sizeof rest, "procedure:\n  steps:\n%send: 30 s\nrecord: {every: 0.01 s}\n", busy);
    struct text_run two = sensor_run(rest);
    assert_int_equal(ullage_run_effort(one.run).steps, ullage_run_effort(two.run).steps);
    assert_int_equal(ullage_run_effort(one.run).derivatives, ullage_run_effort(two.run).derivatives);
    assert_int_equal(ullage_run_samples(two.run), 3001);
    text_close(&one);
    text_close(&two);
}

static void inputs_change_when_the_wait_is_up(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {for: 10 s}\n"
                                       "    - set: {intake.pressure: 100 kPa}\n"
                                       "    - wait: {for: 5 s}\n"
                                       "    - read: {shown: sensor.gauge_pressure}\n");
    assert_near("command", told_first(ran.run, ULLAGE_COMMANDED).time, 10.0, 0.0);
    assert_near("number", told_first(ran.run, ULLAGE_COMMANDED).number, 1e5, 0.0);
    assert_near("answer", text_reading(&ran, "shown"), -DEPTH * (1.0 - exp(-2.0)) * exp(-1.0), TRUTH);
    text_close(&ran);
}

/* ---- readings and verdicts ---- */
static void readings_stand_at_the_end_of_the_scale(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - wait: {for: 1 s}\n"
                                       "    - read: {dial: dial.gauge_pressure, again: dial, twice: dial * 2}\n");
    const struct ullage_reading dial = ullage_run_reading(ran.run, 0);
    assert_near("dial", dial.value, -1500.0, 0.0);
    assert_int_equal(dial.over, -1);
    assert_string_equal(dial.channel, "dial.gauge_pressure");
    const struct ullage_reading again = ullage_run_reading(ran.run, 1);
    assert_int_equal(again.over, -1);
    assert_string_equal(again.channel, "dial.gauge_pressure");
    const struct ullage_reading twice = ullage_run_reading(ran.run, 2);
    assert_int_equal(twice.over, 0);
    assert_string_equal(twice.channel, "");
    const int pressure = ullage_model_find_channel(ran.model, "intake.pressure");
    assert_near("kept beside", ullage_run_reading_values(ran.run, 2)[pressure], 98e3, 0.0);
    text_close(&ran);
}

static void judgements_pass_fail_or_stay_open(void **unused)
{
    (void)unused;
    struct text_run ran =
        sensor_steps("    - wait: {for: 1 s}\n"
                     "    - when: {if: time > 2 s, steps: [read: {later: time}]}\n"
                     "    - judge:\n"
                     "        a: {pass: time < 2 s, fail: time >= 2 s, because: \"it is {time in ms}, {{not} 2 s\"}\n"
                     "        b: {pass: time > 2 s, fail: time <= 2 s}\n"
                     "        c: {pass: time > 2 s, fail: time > 3 s}\n"
                     "        d: {pass: later > 0 s, fail: later <= 0 s}\n");

    static const enum ullage_result results[] = {ULLAGE_PASS, ULLAGE_FAIL, ULLAGE_OPEN, ULLAGE_OPEN};

    assert_int_equal(ullage_run_verdicts(ran.run), 4);
    for (int k = 0; k < 4; k++)
        assert_int_equal(ullage_run_verdict(ran.run, k).result, results[k]);
    assert_string_equal(ullage_run_verdict(ran.run, 0).reason, "it is 1000 ms, {not} 2 s");
    assert_string_equal(ullage_run_verdict(ran.run, 1).reason, "");
    text_close(&ran);
}

static void sentences_hold_values(void **unused)
{
    (void)unused;
    struct text_run ran =
        sensor_steps("    - say: \"{intake.pressure} is {intake.pressure in inHg}, {40 %}, {20 degC}, "
                     "{intake.pressure / 1 Pa}, {2 L/min}, {0.00012 mm}\"\n"
                     "    - wait: {for: 1 s}\n");
    assert_string_equal(told_first(ran.run, ULLAGE_SAID).text,
                        "98.0 kPa is 28.9 inHg, 0.400, 20.0 degC, 98000, 2.00 L/min, 0.000120 mm");
    text_close(&ran);
}

/* ---- blocks ---- */
static void repeats_count_their_turns(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - repeat:\n"
                                       "        times: 3\n"
                                       "        steps:\n"
                                       "          - wait: {for: 2 s}\n"
                                       "          - repeat: {times: 2, steps: [read: {turn: time}]}\n"
                                       "    - repeat:\n"
                                       "        until: sum > 10 s\n"
                                       "        at_most: 1 min\n"
                                       "        steps: [wait: {for: 3 s}, read: {sum: time}]\n"
                                       "    - repeat: {until: sum > 1 h, at_most: 7 s, steps: [wait: {for: 3 s}]}\n"
                                       "    - read: {end: time}\n");
    assert_int_equal(ullage_run_readings(ran.run), 6 + 2 + 1);
    assert_near("third turn", ullage_run_reading(ran.run, 5).time, 6.0, 0.0);
    assert_near("until", text_reading(&ran, "sum"), 12.0, 0.0);
    assert_near("at most", text_reading(&ran, "end"), 21.0, 0.0); /* the turn begun at 18 s ends */
    assert_int_equal(told(ran.run, ULLAGE_WAIT_EXPIRED), 1);
    assert_int_equal(told(ran.run, ULLAGE_STEP_BEGUN), told(ran.run, ULLAGE_STEP_ENDED));
    text_close(&ran);
}

static void one_of_two_ways_is_taken(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_steps("    - repeat:\n"
                                       "        times: 2\n"
                                       "        steps:\n"
                                       "          - wait: {for: 1 s}\n"
                                       "          - when:\n"
                                       "              if: time > 1.5 s\n"
                                       "              steps: [say: late, say: so]\n"
                                       "              else: [say: early]\n"
                                       "    - when: {if: time < 1 s, steps: [say: never]}\n");
    static const char *const said[] = {"early", "late", "so"};

    int k = 0;
    for (int e = 0; e < ullage_run_events(ran.run); e++)
        if (ullage_run_event(ran.run, e).kind == ULLAGE_SAID)
            assert_string_equal(ullage_run_event(ran.run, e).text, said[k++]);
    assert_int_equal(k, 3);
    assert_int_equal(told(ran.run, ULLAGE_STEP_BEGUN), told(ran.run, ULLAGE_STEP_ENDED));
    text_close(&ran);
}

static void a_procedure_that_goes_round_is_stopped(void **unused)
{
    (void)unused;
    char text[4096];
    snprintf(
        text, sizeof text, "%s%s", sensor_head,
        "procedure:\n  steps:\n    - repeat: {times: 1000000, steps: [wait: {until: time >= 0 s, at_most: 1 s}]}\n");
    struct ullage_model *model = text_model(text);
    struct ullage_run *run = ullage_run_create(model, NULL);
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_STUCK);
    assert_non_null(strstr(ullage_run_trouble(run), "round"));
    ullage_run_free(run);
    ullage_model_free(model);
}

/* ---- the end ---- */
static void the_end_cuts_or_waits(void **unused)
{
    (void)unused;
    struct text_run cut = sensor_run("procedure:\n  steps: [wait: {for: 10 s}, read: {x: time}]\nend: 4 s\n");
    assert_near("cut", ullage_run_time(cut.run), 4.0, 0.0);
    assert_int_equal(ullage_run_readings(cut.run), 0);
    text_close(&cut);
    struct text_run later = sensor_run("procedure:\n  steps: [wait: {for: 10 s}, read: {x: time}]\nend: 14 s\n");
    assert_near("later", ullage_run_time(later.run), 14.0, 0.0);
    assert_int_equal(ullage_run_readings(later.run), 1);
    text_close(&later);
    struct text_run same = sensor_run("procedure:\n  steps: [wait: {for: 10 s}, read: {x: time}]\nend: 10 s\n");
    assert_int_equal(ullage_run_readings(same.run), 1);
    text_close(&same);
    struct text_run bare = sensor_run("end: 3 s\n");
    assert_near("bare", ullage_run_time(bare.run), 3.0, 0.0);
    text_close(&bare);
}

static void samples_stand_on_their_grid(void **unused)
{
    (void)unused;
    struct text_run ran =
        sensor_run("procedure:\n  steps: [wait: {for: 1.05 s}]\n"
                   "record: {every: 0.1 s, channels: [time, sensor.gauge_pressure, intake.pressure]}\n");
    assert_int_equal(ullage_model_recorded(ran.model), 2);
    assert_int_equal(ullage_run_samples(ran.run), 12);
    for (int k = 0; k < 11; k++)
        assert_near("time", ullage_run_sample(ran.run, k)[0], k * 0.1, 0.0);
    assert_near("last", ullage_run_sample(ran.run, 11)[0], 1.05, 0.0);
    for (int k = 0; k < 12; k++) {
        const double *row = ullage_run_sample(ran.run, k);
        assert_near("shown", row[1], -DEPTH * (1.0 - exp(-row[0] / LAG)), TRUTH);
        assert_near("pressure", row[2], 98e3, 0.0);
    }
    text_close(&ran);
}

static void what_comes_and_goes_is_told(void **unused)
{
    (void)unused;
    struct text_run ran = sensor_run(
        "faults: [{id: a, fault: leak, where: vessel, diameter: 0.5 mm, from: 1 s, every: 4 s, for: 2 s, until: 6 s}]\n"
        "procedure:\n  steps: [wait: {for: 20 s}]\n");
    static const double times[] = {1.0, 3.0, 5.0, 6.0};

    int k = 0;
    for (int e = 0; e < ullage_run_events(ran.run); e++) {
        const struct ullage_event event = ullage_run_event(ran.run, e);
        if (event.kind != ULLAGE_FAULT_CHANGED)
            continue;
        assert_true(k < 4);
        assert_near("time", event.time, times[k], 0.0);
        assert_string_equal(event.text, k % 2 == 0 ? "begins" : "ends");
        assert_string_equal(event.subject, "a");
        k++;
    }
    assert_int_equal(k, 4);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_crossing_is_found_where_it_is),
        cmocka_unit_test(a_condition_that_passes_is_seen),
        cmocka_unit_test(settled_is_found_where_it_is),
        cmocka_unit_test(settled_waits_for_its_window),
        cmocka_unit_test(a_true_condition_does_not_wait),
        cmocka_unit_test(a_wait_gives_up_and_the_procedure_goes_on),
        cmocka_unit_test(outputs_shorten_no_step),
        cmocka_unit_test(inputs_change_when_the_wait_is_up),
        cmocka_unit_test(readings_stand_at_the_end_of_the_scale),
        cmocka_unit_test(judgements_pass_fail_or_stay_open),
        cmocka_unit_test(sentences_hold_values),
        cmocka_unit_test(repeats_count_their_turns),
        cmocka_unit_test(one_of_two_ways_is_taken),
        cmocka_unit_test(a_procedure_that_goes_round_is_stopped),
        cmocka_unit_test(the_end_cuts_or_waits),
        cmocka_unit_test(samples_stand_on_their_grid),
        cmocka_unit_test(what_comes_and_goes_is_told),
    };
    return cmocka_run_group_tests_name("procedure/conduct", tests, NULL, NULL) != 0;
}
