/* tests/unit/procedure/faults.c  What is wrong over time: by the file, by a procedure, by hand; and back again to the same bits. */
#include "support/near.h"
#include "support/run_text.h"

#include <string.h>

#define RIG                                                                                                            \
    "ullage: scenario/1\nname: wrong\nassume: {heat: isothermal}\nend: 60 s\n"                                         \
    "system:\n  parts:\n"                                                                                              \
    "    vessel: {type: vessel, volume: 50 L}\n"                                                                       \
    "    valve: {type: valve, from: vessel, to: air, bore: 1 mm, normally: open}\n"                                    \
    "    sensor: {type: sensor, of: vessel, time_constant: 100 ms}\n    plain: {type: gauge, of: vessel}\n"            \
    "start: {vessel: {gauge_pressure: 3 kPa}}\n"

static double value_of(const struct text_run *ran, const char *channel)
{
    double value[64];
    assert_true(ullage_model_channels(ran->model) <= 64);
    ullage_run_values(ran->model, ran->run, value, NULL);
    return value[ullage_model_find_channel(ran->model, channel)];
}

static struct text_run begin(const char *text)
{
    struct text_run ran = {text_model(text), NULL};
    ran.run = ullage_run_create(ran.model, NULL);
    assert_non_null(ran.run);
    return ran;
}

static double value_at(struct text_run *ran, double time, const char *channel)
{
    ullage_run_advance(ran->model, ran->run, time);
    return value_of(ran, channel);
}

static int fault_of(const struct text_run *ran, const char *what)
{
    for (int k = 0; k < ullage_model_faults(ran->model); k++)
        if (!strcmp(ullage_model_fault(ran->model, k).what, what))
            return k;
    fail_msg("there is no %s", what);
    return -1;
}

static struct ullage_fault_now now_of(const struct text_run *ran, const char *what)
{
    return ullage_run_fault(ran->model, ran->run, fault_of(ran, what));
}

static const char *command(struct text_run *ran, const char *what, const char *value)
{
    return ullage_run_command(ran->model, ran->run, what, value);
}

/* ---- by the file ---- */
static void a_command_is_overridden_in_its_course(void **unused)
{
    (void)unused;
    struct text_run ran = begin(
        RIG "faults: [{id: f, fault: restricted, where: valve, share: 80 %, from: 10 s, ramp: 10 s, until: 40 s}]\n");
    assert_near("before", value_at(&ran, 5.0, "valve.open"), 1.0, 1e-12);
    assert_near("on the ramp", value_at(&ran, 15.0, "valve.open"), 0.6, 1e-12);
    assert_near("there", value_at(&ran, 25.0, "valve.open"), 0.2, 1e-12);
    assert_near("share", now_of(&ran, "restricted valve").share, 1.0, 1e-12);
    assert_near("since", now_of(&ran, "restricted valve").since, 10.0, 1e-12);
    assert_near("gone", value_at(&ran, 45.0, "valve.open"), 1.0, 1e-12);
    int told = 0;
    for (int k = 0; k < ullage_run_events(ran.run); k++)
        told += ullage_run_event(ran.run, k).kind == ULLAGE_FAULT_CHANGED;
    assert_int_equal(told, 2);
    text_close(&ran);
}

static void a_parameter_comes_and_goes(void **unused)
{
    (void)unused;
    struct text_run ran = begin(
        RIG "faults: [{id: f, fault: offset, where: sensor, offset: -500 Pa, from: 5 s, every: 20 s, for: 4 s}]\n");
    static const double moments[] = {2.0, 7.0, 12.0, 27.0, 32.0};
    static const double offsets[] = {0.0, -500.0, 0.0, -500.0, 0.0};
    for (int k = 0; k < 5; k++) {
        ullage_run_advance(ran.model, ran.run, moments[k]);
        const double truth = value_of(&ran, "vessel.gauge_pressure"), shown = value_of(&ran, "sensor.gauge_pressure");
        assert_near("offset", shown - truth, offsets[k], 0.1 * 100.0 + 1.0); /* it lags by 0.1 s of some 100 Pa/s */
    }
    text_close(&ran);
}

/* Both at once on one part, and in their order in the file. */
static void several_at_once(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "faults:\n  - {id: a, fault: restricted, where: valve, share: 50 %}\n"
                                    "  - {id: b, fault: stuck-open, where: valve, share: 30 %}\n"
                                    "  - {id: c, fault: offset, where: sensor, offset: 1 kPa}\n"
                                    "  - {id: d, fault: short-circuit, where: sensor, share: 0 %}\n");
    assert_near("half", value_at(&ran, 1.0, "valve.open"), 0.5, 1e-12);
    assert_null(command(&ran, "valve", "10 %"));
    assert_near("a third at least", value_at(&ran, 1.0, "valve.open"), 0.3, 1e-12);
    assert_near("no size", now_of(&ran, "short-circuit sensor").share, 0.0, 1e-12);
    text_close(&ran);
}

static void a_stuck_reading_stays(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "faults: [{id: f, fault: stuck, where: sensor, from: 10 s, until: 30 s}]\n");
    const double before = value_at(&ran, 10.0, "sensor.gauge_pressure");
    assert_near("stays", value_at(&ran, 29.0, "sensor.gauge_pressure"), before, 1e-3);
    assert_true(value_of(&ran, "vessel.gauge_pressure") < 0.9 * before);
    const double truth = value_at(&ran, 32.0, "vessel.gauge_pressure");
    assert_near("follows again", value_of(&ran, "sensor.gauge_pressure"), truth, 10.0);
    text_close(&ran);
}

/* ---- by a procedure ---- */
static void a_procedure_changes_a_size(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "faults: [{id: f, fault: offset, where: sensor, offset: 0 Pa}]\n"
                                    "procedure:\n  steps:\n    - wait: {for: 5 s}\n    - set: {f.offset: 400 Pa}\n"
                                    "    - wait: {for: 5 s}\n    - set: {\"stuck-shut valve\": 100 %}\n"
                                    "    - wait: {for: 5 s}\n    - set: {\"stuck-shut valve\": off, f.offset: 0 Pa}\n"
                                    "    - wait: {for: 5 s}\n");
    ullage_run_advance(ran.model, ran.run, 9.0);
    assert_near("size", now_of(&ran, "offset sensor").size, 400.0, 1e-12);
    assert_near("shut", value_at(&ran, 12.0, "valve.open"), 0.0, 1e-12);
    assert_near("since", now_of(&ran, "stuck-shut valve").since, 10.0, 1e-9);
    assert_near("open", value_at(&ran, 18.0, "valve.open"), 1.0, 1e-12);
    assert_near("well", now_of(&ran, "offset sensor").size, 0.0, 1e-12);
    text_close(&ran);
}

/* What a procedure or by_hand names is made for it: a hole, a state of a reading. */
static void what_is_named_can_come(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "procedure:\n  steps:\n    - wait: {for: 5 s}\n    - set: {\"leak vessel\": 2 mm}\n"
                                    "    - wait: {for: 5 s}\n    - set: {\"leak vessel\": off}\n"
                                    "by_hand: [{at: 7 s, set: {\"stuck plain\": 100 %}}]\n");
    const int leak = fault_of(&ran, "leak vessel");
    assert_true(ullage_model_fault(ran.model, leak).ready && ullage_model_fault(ran.model, leak).hole >= 0);
    assert_true(value_at(&ran, 4.0, "leak vessel.flow") == 0.0);
    assert_true(value_at(&ran, 6.0, "leak vessel.flow") > 1e-5);
    assert_near("size", now_of(&ran, "leak vessel").size, 2e-3, 1e-12);
    const double stuck = value_at(&ran, 7.0, "plain.gauge_pressure");
    assert_near("stuck", value_at(&ran, 9.0, "plain.gauge_pressure"), stuck, 0.05 * stuck);
    assert_true(value_of(&ran, "vessel.gauge_pressure") < 0.9 * stuck);
    assert_true(value_at(&ran, 11.0, "leak vessel.flow") == 0.0);
    text_close(&ran);
}

/* ---- by hand ---- */
static void a_hand_puts_in_and_takes_out(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG);
    ullage_run_advance(ran.model, ran.run, 8.0);
    assert_null(command(&ran, "stuck-shut valve", "90 %"));
    assert_near("shut", value_at(&ran, 9.0, "valve.open"), 0.1, 1e-12);
    assert_near("since", now_of(&ran, "stuck-shut valve").since, 8.0, 1e-12);
    assert_null(command(&ran, "stuck-shut valve", "60 %"));
    assert_near("less shut", value_at(&ran, 10.0, "valve.open"), 0.4, 1e-12);
    assert_near("still since", now_of(&ran, "stuck-shut valve").since, 8.0, 1e-12);
    assert_null(command(&ran, "stuck-shut valve", "off"));
    assert_near("sound", value_at(&ran, 11.0, "valve.open"), 1.0, 1e-12);
    assert_near("not there", now_of(&ran, "stuck-shut valve").share, 0.0, 1e-12);
    text_close(&ran);
}

/* What a file can say of when a fault is there, a hand can. */
static void a_hand_says_when(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG), file = begin(RIG "faults: [{id: f, fault: restricted, where: valve, share: 80 %, "
                                                       "from: 10 s, ramp: 2 s, until: 40 s, every: 10 s, for: 5 s}]\n");
    ullage_run_advance(ran.model, ran.run, 8.0);
    assert_null(command(&ran, "restricted valve", "80 % from=10 s ramp=2s until=40s every=10s for=5 s"));
    assert_near("size", now_of(&ran, "restricted valve").size, 0.8, 1e-12);
    assert_true(now_of(&ran, "restricted valve").share == 0.0);
    assert_true(now_of(&ran, "restricted valve").begins == 10.0);
    for (int k = 0; k < 110; k++) {
        const double time = 8.25 + 0.3 * k; /* on its way, there, gone and come again */
        assert_near("as by the file", value_at(&ran, time, "valve.open"), value_at(&file, time, "valve.open"), 1e-12);
        const struct ullage_fault_now one = now_of(&ran, "restricted valve"), other = now_of(&file, "restricted valve");
        assert_true(one.share == other.share && one.since == other.since && one.begins == other.begins);
    }
    assert_true(isinf(now_of(&ran, "restricted valve").begins)); /* it is over */
    assert_near("until", now_of(&ran, "restricted valve").course.until, 40.0, 1e-12);
    text_close(&file);
    text_close(&ran);
}

static double begins_of(const struct text_run *ran)
{
    return now_of(ran, "stuck-shut valve").begins;
}

/* Between its turns it waits for the next; a size alone leaves it its course, but puts in at once what still waits. */
static void what_waits_is_told(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG);
    assert_true(isinf(begins_of(&ran)));
    assert_null(command(&ran, "stuck-shut valve", "50 % every=8s for=2s"));
    assert_true(begins_of(&ran) == 0.0);
    ullage_run_advance(ran.model, ran.run, 5.0);
    assert_true(begins_of(&ran) == 8.0 && now_of(&ran, "stuck-shut valve").share == 0.0);
    assert_null(command(&ran, "stuck-shut valve", "60 %"));
    assert_true(begins_of(&ran) == 8.0);
    assert_near("in its turn", value_at(&ran, 9.0, "valve.open"), 0.4, 1e-12);
    assert_null(command(&ran, "stuck-shut valve", "60 % from=30 s"));
    assert_near("waits anew", value_at(&ran, 10.0, "valve.open"), 1.0, 1e-12);
    assert_true(begins_of(&ran) == 30.0);
    assert_null(command(&ran, "stuck-shut valve", "70 %"));
    assert_near("at once", value_at(&ran, 11.0, "valve.open"), 0.3, 1e-12);
    assert_true(begins_of(&ran) == 10.0 && isinf(now_of(&ran, "stuck-shut valve").course.until));
    assert_null(command(&ran, "stuck-shut valve", "70 % until=50s")); /* its end alone */
    assert_true(begins_of(&ran) == 10.0 && now_of(&ran, "stuck-shut valve").course.until == 50.0);
    assert_null(command(&ran, "stuck-shut valve", "100 % ramp=10 s until=20s"));
    assert_near("on its way", value_at(&ran, 16.0, "valve.open"), 0.5, 1e-12);
    assert_near("over", value_at(&ran, 21.0, "valve.open"), 1.0, 1e-12);
    text_close(&ran);
}

/* The same words in a procedure and in by_hand; what has passed by then is as if it had been put in before. */
static void procedures_say_when(void **unused)
{
    (void)unused;
    struct text_run ran =
        begin(RIG "let: {later: 30 s}\nprocedure:\n  steps:\n    - wait: {for: 5 s}\n"
                  "    - set: {\"stuck-shut valve\": 50 % ramp=later until=40 s}\n"
                  "    - set: {\"stuck-open valve\": 10 % from=2 s until=3 s}\n    - wait: {for: 50 s}\n"
                  "by_hand: [{at: 7 s, set: {\"leak vessel\": 2 mm from=12s}}]\n");
    assert_near("on its way", value_at(&ran, 20.0, "valve.open"), 0.75, 1e-12);
    assert_near("from when it was set", now_of(&ran, "stuck-shut valve").since, 5.0, 1e-12);
    assert_true(isinf(now_of(&ran, "stuck-open valve").begins));
    assert_near("hole", now_of(&ran, "leak vessel").since, 12.0, 1e-12);
    assert_true(value_of(&ran, "leak vessel.flow") > 1e-5);
    assert_near("over", value_at(&ran, 41.0, "valve.open"), 1.0, 1e-12);
    text_close(&ran);
}

static void what_makes_no_sense_is_refused(void **unused)
{
    (void)unused;

    static const struct {
        const char *what, *value, *says;
    } cases[] = {
        {"stuck-shut valve", "3 mm", "this is m"},
        {"stuck-shut valve", "120 %", "it goes from 0 to 1"},
        {"stuck-shot valve", "1", "did you mean"},
        {"seal-leak vessel", "1 mm", "was made without"},
        {"leak vessel", "1 mm", "was made without"},
        {"stuck-shut vessel", "1", "there is no fault"},
        {"f.offset", "10 Pa", "there is no part f"},
        {"overfilled tank", "1 L", "there is no fault"},
        {"stuck plain", "1", "was made without"},
        {"stuck-shut valve", "50 % from=3s", "before it is put in, at 4 s"},
        {"stuck-shut valve", "50 % until=4s", "ends before it begins"},
        {"stuck-shut valve", "50 % from=9s until=8s", "ends before it begins"},
        {"stuck-shut valve", "50 % every=9s", "without the other"},
        {"stuck-shut valve", "50 % every=2s for=3s", "longer than"},
        {"stuck-shut valve", "50 % every=0s for=0s", "at least 1 ms"},
        {"stuck-shut valve", "50 % ramp=-1s", "at least 0 s"},
        {"stuck-shut valve", "50 % form=9s", "did you mean from"},
        {"stuck-shut valve", "50 % share=9s", "does not say when"},
        {"stuck-shut valve", "50 % ramp=1s ramp=2s", "told twice"},
        {"stuck-shut valve", "50 % ramp=1 mm", "this is m"},
        {"stuck-shut valve", "50 % ramp=", "end with a value"},
        {"stuck-shut valve", "50 % ramp=1e400s", "write"},
        {"stuck-shut valve", "from=9s", "has no size"},
        {"stuck-shut valve", "=", "has no size"},
        {"stuck-shut valve", "off from=9s", "takes a fault out at once"},
        {"valve", "50 % from=9s", "does not belong here"},
    };
    struct text_run ran = begin(RIG);
    ullage_run_advance(ran.model, ran.run, 4.0);
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        const char *wrong = command(&ran, cases[k].what, cases[k].value);
        if (!wrong || !strstr(wrong, cases[k].says))
            fail_msg("%s %s: %s", cases[k].what, cases[k].value, wrong ? wrong : "was taken");
    }
    text_close(&ran);
}

/* ---- and back ---- */
static void going_back_brings_noise_back(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "seed: 7\n");
    struct ullage_history *history = ullage_history_create(ran.model, ran.run);
    assert_non_null(history);
    ullage_history_advance(history, 5.0);
    assert_null(command(&ran, "noisy sensor", "200 Pa"));
    assert_null(command(&ran, "slow sensor", "3 s"));
    double shown[20];
    uint64_t hash[20];
    for (int k = 0; k < 20; k++) {
        ullage_history_advance(history, 6.0 + k);
        shown[k] = value_of(&ran, "sensor.gauge_pressure");
        hash[k] = ullage_run_hash(ran.run);
    }
    for (int k = 19; k >= 0; k -= 3) {
        ullage_history_go(history, 6.0 + k);
        assert_true(value_of(&ran, "sensor.gauge_pressure") == shown[k]);
        assert_true(ullage_run_hash(ran.run) == hash[k]);
    }
    ullage_history_go(history, 2.0);
    assert_near("not yet", now_of(&ran, "noisy sensor").share, 0.0, 1e-12);
    ullage_history_free(history);
    text_close(&ran);
}

/* ---- holes that may come ---- */
static struct text_run rig_with_every_hole(void)
{
    const struct ullage_edits edits = {.every_fault = true};
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description =
        ullage_description_read("scenarios/smoke-test.yaml", &edits, problems, &outcome);
    assert_non_null(description);
    struct text_run ran = {ullage_model_create(description, problems), NULL};
    assert_non_null(ran.model);
    ran.run = ullage_run_create(ran.model, NULL);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return ran;
}

static double pressure_after(const char *what, const char *value)
{
    struct text_run ran = rig_with_every_hole();
    ullage_run_advance(ran.model, ran.run, 20.0);
    if (what)
        assert_null(command(&ran, what, value));
    ullage_run_advance(ran.model, ran.run, 40.0);
    double *values = calloc((size_t)ullage_model_channels(ran.model), sizeof *values);
    assert_non_null(values);
    ullage_run_values(ran.model, ran.run, values, NULL);
    const double pressure = values[ullage_model_find_channel(ran.model, "tank.gauge_pressure")];
    free(values);
    text_close(&ran);
    return pressure;
}

static void a_hole_comes_by_hand(void **unused)
{
    (void)unused;
    const double sound = pressure_after(NULL, NULL);
    assert_true(pressure_after("seal-leak tank.neck", "5 mm") < 0.95 * sound);
    assert_near("off", pressure_after("seal-leak tank.neck", "off"), sound, 1e-5 * sound);
}

static void latent_holes_are_not_recorded(void **unused)
{
    (void)unused;
    struct text_run ran = rig_with_every_hole();
    int latent = 0;
    for (int k = 0; k < ullage_model_parts(ran.model); k++)
        latent += ullage_model_part(ran.model, k).latent;
    assert_true(latent > 20);
    for (int k = 0; k < ullage_model_recorded(ran.model); k++) {
        const int part = ullage_model_channel(ran.model, ullage_model_recorded_channel(ran.model, k)).part;
        assert_false(ullage_model_part(ran.model, part).latent);
    }
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_command_is_overridden_in_its_course),
        cmocka_unit_test(a_parameter_comes_and_goes),
        cmocka_unit_test(several_at_once),
        cmocka_unit_test(a_stuck_reading_stays),
        cmocka_unit_test(a_procedure_changes_a_size),
        cmocka_unit_test(what_is_named_can_come),
        cmocka_unit_test(a_hand_puts_in_and_takes_out),
        cmocka_unit_test(a_hand_says_when),
        cmocka_unit_test(what_waits_is_told),
        cmocka_unit_test(procedures_say_when),
        cmocka_unit_test(what_makes_no_sense_is_refused),
        cmocka_unit_test(going_back_brings_noise_back),
        cmocka_unit_test(a_hole_comes_by_hand),
        cmocka_unit_test(latent_holes_are_not_recorded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
