/* tests/unit/procedure/pours.c  Liquid that a hand pours into a rig with fuel: told, taken out, gone back over, written down. */
#include "support/near.h"
#include "ullage.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char rig[] =
    "ullage: scenario/1\nname: rig\nend: 10 min\n"
    "fill: {level: 40 %, rvp: 9 psi}\n"
    "system:\n  parts:\n"
    "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm}}\n"
    "    line: {type: line, from: tank.roof, to: bed.tank, bore: 8 mm, length: 1.5 m}\n"
    "    bed: {type: canister, beds: [{volume: 1 L, length: 200 mm, cells: 3}], ports: [tank, air]}\n"
    "    vent: {type: valve, from: bed.air, to: air, bore: 6 mm, normally: open}\n";

struct session {
    char path[64];
    struct ullage_model *model;
    struct ullage_run *run;
};

static const struct ullage_edits every = {.every_fault = true};

static void text_put(char *path, const char *text)
{
    strcpy(path, "/tmp/ullage-pours-XXXXXX");
    const int file = mkstemp(path);
    const size_t size = strlen(text);
    assert_true(file >= 0 && write(file, text, size) == (ssize_t)size && close(file) == 0);
}

static struct session begin(const char *text, const struct ullage_edits *edits)
{
    struct session session;
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    text_put(session.path, text);
    struct ullage_description *description = ullage_description_read(session.path, edits, problems, &outcome);
    session.model = description ? ullage_model_create(description, problems) : NULL;
    if (!session.model)
        fail_msg("line %d: %s", ullage_problems_at(problems, 0).place.line, ullage_problems_at(problems, 0).wrong);
    session.run = ullage_run_create(session.model, NULL);
    assert_non_null(session.run);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return session;
}

static void over(struct session *session)
{
    unlink(session->path);
    ullage_run_free(session->run);
    ullage_model_free(session->model);
}

static const char *command(struct session *session, double time, const char *what, const char *value)
{
    ullage_run_advance(session->model, session->run, time);
    return ullage_run_command(session->model, session->run, what, value);
}

static struct ullage_fault_now now_of(const struct session *session, double time, const char *what)
{
    ullage_run_advance(session->model, session->run, time);
    for (int k = 0; k < ullage_model_faults(session->model); k++)
        if (!strcmp(ullage_model_fault(session->model, k).what, what))
            return ullage_run_fault(session->model, session->run, k);
    fail_msg("there is no %s", what);
    return (struct ullage_fault_now){0};
}

/* ---- by hand ---- */
static void each_can_come_by_hand(void **unused)
{
    (void)unused;
    static const char *const faults[] = {"overfilled tank", "wrong-blend tank", "old-fuel tank",
                                         "liquid-in-low-spot line", "wet bed"};
    struct session session = begin(rig, &every);
    int poured = 0;
    for (int k = 0; k < ullage_model_faults(session.model); k++) {
        const struct ullage_model_fault fault = ullage_model_fault(session.model, k);
        assert_true(fault.ready);
        bool listed = false;
        for (int i = 0; i < 5; i++)
            listed = listed || !strcmp(fault.what, faults[i]);
        assert_int_equal(listed, fault.fault.poured);
        poured += fault.fault.poured;
    }
    assert_int_equal(poured, sizeof faults / sizeof faults[0]);
    over(&session);
}

static void it_says_how_far_it_has_come(void **unused)
{
    (void)unused;
    struct session session = begin(rig, &every);
    const double before = ullage_run_fuel(session.model, session.run).liquid.now;
    assert_null(command(&session, 60.0, "overfilled tank", "5 L"));
    assert_near("not yet", now_of(&session, 60.0, "overfilled tank").share, 0.0, 0.0);
    const struct ullage_fault_now half = now_of(&session, 75.0, "overfilled tank"); /* at 10 L/min */
    assert_near("half", half.share, 0.5, 1e-12);
    assert_near("since", half.since, 60.0, 1e-12);
    assert_near("size", half.size, 5e-3, 1e-15);
    assert_near("all", now_of(&session, 95.0, "overfilled tank").share, 1.0, 0.0);
    const struct ullage_fuel fuel = ullage_run_fuel(session.model, session.run);
    assert_true(fuel.drained < -3.0 && fuel.liquid.now - before > 3.0); /* some 3.7 kg are filled in */
    assert_null(command(&session, 100.0, "overfilled tank", "off"));
    assert_near("not in", now_of(&session, 101.0, "overfilled tank").share, 0.0, 0.0);
    assert_near("drawn off", ullage_run_fuel(session.model, session.run).drained, fuel.drained, 0.15);
    now_of(&session, 140.0, "overfilled tank");
    assert_near("all of it", ullage_run_fuel(session.model, session.run).drained, 0.0, 0.01 * 3.7);
    over(&session);
}

static void it_comes_when_it_is_told_to(void **unused)
{
    (void)unused;
    struct session session = begin(rig, &every);
    assert_null(command(&session, 10.0, "wet bed", "10 % from=1min ramp=10s until=2min"));
    assert_true(now_of(&session, 30.0, "wet bed").begins == 60.0);
    assert_near("half", now_of(&session, 65.0, "wet bed").share, 0.5, 1e-12);
    assert_near("there", now_of(&session, 100.0, "wet bed").share, 1.0, 0.0);
    assert_near("half gone", now_of(&session, 125.0, "wet bed").share, 0.5, 1e-12);
    assert_near("gone", now_of(&session, 140.0, "wet bed").share, 0.0, 0.0);
    over(&session);
}

static void what_cannot_be_is_refused(void **unused)
{
    (void)unused;
    struct session session = begin(rig, NULL);
    const char *wrong = command(&session, 1.0, "overfilled tank", "5 L every=20s for=10s");
    assert_true(wrong && strstr(wrong, "again and again"));
    wrong = command(&session, 1.0, "wet bed", "10 %");
    assert_true(wrong && strstr(wrong, "made without wet bed"));
    wrong = command(&session, 1.0, "liquid-in-low-spot line", "5 mL");
    assert_true(wrong && strstr(wrong, "made without"));
    over(&session);
    static const char blend[] = "rvp: 9 psi";
    const char *at = strstr(rig, blend) + sizeof blend - 1;
    char text[2000];
    snprintf(text, sizeof text, "%.*s, fuel: quick%s", (int)(at - rig), rig, at);
    session = begin(text, &every);
    wrong = command(&session, 1.0, "wrong-blend tank", "5 kPa");
    assert_true(wrong && strstr(wrong, "one substance"));
    assert_null(command(&session, 1.0, "wet bed", "10 %"));
    over(&session);
}

/* ---- and back ---- */
static void going_back_over_it_brings_all_bits(void **unused)
{
    (void)unused;
    struct session session = begin(rig, &every);
    struct ullage_history *history = ullage_history_create(session.model, session.run);

    static const struct {
        double time;
        const char *what, *value;
    } done[] = {{20.0, "wet bed", "10 %"},
                {25.0, "wrong-blend tank", "10 kPa ramp=1min"},
                {40.0, "wrong-blend tank", "5 kPa"},
                {50.0, "liquid-in-low-spot line", "5 mL from=55s until=80s"},
                {71.0, "wet bed", "off"}};

    uint64_t hash[20];
    for (int k = 0, at = 0; k < 20; k++) {
        for (; at < 5 && done[at].time < 7.0 * k; at++) {
            ullage_history_advance(history, done[at].time);
            assert_null(ullage_run_command(session.model, session.run, done[at].what, done[at].value));
        }
        ullage_history_advance(history, 7.0 * k);
        hash[k] = ullage_run_hash(session.run);
    }
    for (int k = 19, times = 0; times < 60; times++, k = (k * 7 + 3) % 20) {
        ullage_history_go(history, 7.0 * k);
        assert_true(ullage_run_hash(session.run) == hash[k]);
        ullage_history_advance(history, 7.0 * ((k + 2) % 20 > k ? (k + 2) % 20 : 19));
        assert_true(ullage_run_hash(session.run) == hash[(k + 2) % 20 > k ? (k + 2) % 20 : 19]);
    }
    ullage_history_go(history, 10.0);
    assert_near("not yet", now_of(&session, 10.0, "wet bed").share, 0.0, 0.0);
    ullage_history_free(history);
    over(&session);
}

/* ---- written down ---- */

/* One that was put in and taken out stands among the faults; of one whose size was changed, by hand all. */
static void a_scenario_is_made_of_it(void **unused)
{
    (void)unused;
    struct session session = begin(rig, &every);
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    assert_null(command(&session, 20.0, "wet bed", "10 % ramp=8s"));
    assert_null(command(&session, 30.0, "old-fuel tank", "10 kPa"));
    assert_null(command(&session, 50.0, "overfilled tank", "1 L"));
    assert_null(command(&session, 60.0, "overfilled tank", "2 L"));
    assert_null(command(&session, 90.0, "wet bed", "off"));
    ullage_run_advance(session.model, session.run, 400.0);
    char *text = ullage_scenario_text(session.path, &every, session.run, problems, &outcome);
    assert_non_null(text);
    assert_non_null(strstr(text, "fault: wet"));
    assert_non_null(strstr(text, "from: 20 s"));
    assert_non_null(strstr(text, "until: 90 s"));
    assert_non_null(strstr(text, "fault: old-fuel"));
    assert_non_null(strstr(text, "{overfilled tank: 2 L}"));
    struct session again = begin(text, NULL);
    ullage_run_advance(again.model, again.run, 400.0);
    const struct ullage_fuel one = ullage_run_fuel(session.model, session.run),
                             other = ullage_run_fuel(again.model, again.run);
    assert_near("liquid", other.liquid.now, one.liquid.now, 1e-5); /* 10 mg: others among the states, so other steps */
    assert_near("drained", other.drained, one.drained, 1e-5);
    assert_near("held", other.carbon.now, one.carbon.now, 1e-5);
    ullage_text_free(text);
    ullage_problems_free(problems);
    over(&again);
    over(&session);
}

/* The commands alone, done again: the same bits. */
static void a_recording_does_it_again(void **unused)
{
    (void)unused;
    struct session session = begin(rig, &every), again = begin(rig, &every);
    assert_null(command(&session, 20.0, "liquid-in-low-spot line", "5 mL"));
    assert_null(command(&session, 50.0, "overfilled tank", "1 L from=100s ramp=10s until=3min"));
    ullage_run_advance(session.model, session.run, 400.0);
    for (int k = 0; k < ullage_run_orders(session.run); k++) {
        const struct ullage_order order = ullage_run_order(session.run, k);
        assert_true(order.fault);
        assert_null(command(&again, order.time, order.what, order.value));
    }
    for (double time = 60.0; time < 400.0; time += 31.0) /* in other pieces */
        ullage_run_advance(again.model, again.run, time);
    ullage_run_advance(again.model, again.run, 400.0);
    assert_true(ullage_run_hash(again.run) == ullage_run_hash(session.run));
    over(&again);
    over(&session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_can_come_by_hand),
        cmocka_unit_test(it_says_how_far_it_has_come),
        cmocka_unit_test(it_comes_when_it_is_told_to),
        cmocka_unit_test(what_cannot_be_is_refused),
        cmocka_unit_test(going_back_over_it_brings_all_bits),
        cmocka_unit_test(a_scenario_is_made_of_it),
        cmocka_unit_test(a_recording_does_it_again),
    };
    return cmocka_run_group_tests_name("unit/procedure/pours", tests, NULL, NULL) != 0;
}
