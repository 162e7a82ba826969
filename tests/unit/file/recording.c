/* tests/unit/file/recording.c  What was done by hand, written down: done again it gives the same bits, and as a scenario of its own
 * the same readings. */
#include "support/same.h"

#include <unistd.h>

struct done {
    double time;
    const char *what, *value;
};

/* A time with no short decimal; two at one moment; one where a wait of the procedure ends. */
static const struct done hands[] = {{10.1, "leak", "20 %"},
                                    {100.0 / 3.0, "vent", "open"},
                                    {100.0 / 3.0, "vent", "40 %"},
                                    {41.7, "surroundings.temperature", "31 degC ramp=70s"},
                                    {50.0, "surroundings.altitude", "300 m"},
                                    {52.0, "supply", "part"},
                                    {60.0, "supply", "join port"},
                                    {75.3, "surroundings.temperature", "as-in-file ramp=15 s"},
                                    {90.0, "leak.diameter", "0.7 mm"},
                                    {90.0, "vent", "shut"}};

enum { HANDS = sizeof hands / sizeof hands[0], WEATHER = 3 /* of them: any rig stands in the air */ };

static void text_put(char *path, const char *text)
{
    strcpy(path, "/tmp/ullage-recording-XXXXXX");
    const int file = mkstemp(path);
    const size_t size = strlen(text);
    assert_true(file >= 0 && write(file, text, size) == (ssize_t)size && close(file) == 0);
}

static struct ullage_model *model_read(const char *path, const struct ullage_edits *edits)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, edits, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    if (!model)
        fail_msg("%s:%d: %s", path, ullage_problems_at(problems, 0).place.line, ullage_problems_at(problems, 0).wrong);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return model;
}

/* A scenario with something of everything, in a file; what was done to it by hand up to 130 s. */
struct evening {
    char path[64];
    struct ullage_edits edits;
    struct ullage_model *model;
    struct ullage_run *run;
};

static const char *const sets[] = {"tank.volume=40 L"};
static const char *const faults[] = {"leak canister.tank diameter=0.4mm from=40s every=20s for=7s"};

static struct evening evening_spent(double until)
{
    struct evening evening = {.edits = {.set = sets, .sets = 1, .fault = faults, .faults = 1}};
    char text[4000];
    snprintf(text, sizeof text,
             "%sseed: 7\nchange: {vapor-line.bore: 9 mm}\nby_hand: [{at: 15 s, set: {leak: 60 %%}}]\n", rig_pull_up);
    text_put(evening.path, text);
    evening.model = model_read(evening.path, &evening.edits);
    evening.run = ullage_run_create(evening.model, &(struct ullage_method){.tolerance = 1e-5});
    for (int k = 0; k < HANDS; k++) {
        assert_int_equal(ullage_run_advance(evening.model, evening.run, hands[k].time), ULLAGE_PAUSED);
        assert_null(ullage_run_command(evening.model, evening.run, hands[k].what, hands[k].value));
    }
    ullage_run_advance(evening.model, evening.run, until);
    return evening;
}

static void evening_over(struct evening *evening)
{
    unlink(evening->path);
    ullage_run_free(evening->run);
    ullage_model_free(evening->model);
}

static struct ullage_recording *recording_of(const struct evening *evening)
{
    char path[64], *text = ullage_recording_text(evening->run, evening->path, &evening->edits);
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    assert_non_null(text);
    text_put(path, text);
    struct ullage_recording *recording = ullage_recording_read(path, problems, &outcome);
    if (!recording)
        fail_msg("line %d: %s\n%s", ullage_problems_at(problems, 0).place.line, ullage_problems_at(problems, 0).wrong,
                 text);
    ullage_text_free(text);
    ullage_problems_free(problems);
    unlink(path);
    return recording;
}

static void a_recording_says_all(void **unused)
{
    (void)unused;
    struct evening evening = evening_spent(130.0);
    struct ullage_recording *recording = recording_of(&evening);
    const struct ullage_recorded about = ullage_recording_about(recording);
    assert_string_equal(about.scenario, evening.path);
    assert_string_equal(about.name, "pull-up");
    assert_string_equal(about.method.solver, "bdf");
    assert_near("tolerance", about.method.tolerance, 1e-5, 0.0);
    assert_true(about.method.seeded && about.method.seed == 7);
    assert_int_equal(about.edits.sets, 1);
    assert_string_equal(about.edits.set[0], sets[0]);
    assert_int_equal(about.edits.faults, 1);
    assert_string_equal(about.edits.fault[0], faults[0]);
    assert_near("end", about.end, 130.0, 0.0);
    assert_true(about.hash == ullage_run_hash(evening.run));
    assert_int_equal(about.commands, HANDS);
    for (int k = 0; k < HANDS; k++) {
        const struct ullage_order order = ullage_recording_command(recording, k);
        assert_near("time", order.time, hands[k].time, 0.0);
        assert_string_equal(order.what, hands[k].what);
        assert_string_equal(order.value, hands[k].value);
    }
    ullage_recording_free(recording);
    evening_over(&evening);
}

static void assert_done_again(const struct evening *evening)
{
    struct ullage_recording *recording = recording_of(evening);
    const struct ullage_recorded about = ullage_recording_about(recording);
    struct ullage_model *model = model_read(evening->path, &about.edits);
    struct ullage_run *run = ullage_run_create(model, &about.method);
    struct ullage_problems *problems = ullage_problems_create();
    assert_true(ullage_recording_suits(recording, model, problems));
    for (int k = 0; k < about.commands; k++) {
        const struct ullage_order order = ullage_recording_command(recording, k);
        ullage_run_advance(model, run, order.time);
        assert_null(ullage_run_command(model, run, order.what, order.value));
    }
    ullage_run_advance(model, run, about.end);
    assert_true(ullage_run_hash(run) == about.hash);
    assert_same(model, evening->run, run);
    ullage_problems_free(problems);
    ullage_run_free(run);
    ullage_model_free(model);
    ullage_recording_free(recording);
}

static void done_again_it_has_the_same_bits(void **unused)
{
    (void)unused;
    struct evening evening = evening_spent(130.0);
    assert_done_again(&evening);
    evening_over(&evening);
}

/* A fault that was put in with a course: recorded while it waits, while it comes on, and when it is over. */
static void so_has_a_fault_that_comes_later(void **unused)
{
    (void)unused;
    static const double moments[] = {101.0, 107.5, 130.0};
    struct evening evening = evening_spent(100.0);
    assert_null(ullage_run_command(evening.model, evening.run, "restricted vent",
                                   "40 % from=102.7s ramp=1.5 s until=120s every=5 s for=3s"));
    for (int k = 0; k < 3; k++) {
        ullage_run_advance(evening.model, evening.run, moments[k]);
        assert_done_again(&evening);
    }
    evening_over(&evening);
}

static void commands_of_another_rig_do_not_suit(void **unused)
{
    (void)unused;
    struct evening evening = evening_spent(130.0);
    struct ullage_recording *recording = recording_of(&evening);
    struct ullage_model *other = text_model(rig_smooth);
    struct ullage_problems *problems = ullage_problems_create();
    assert_false(ullage_recording_suits(recording, other, problems));
    assert_int_equal(ullage_problems_count(problems), HANDS - WEATHER);
    /* ullage, scenario, name, seed, solver, tolerance, set and its one, fault and its one, by_hand: then the commands */
    assert_int_equal(ullage_problems_at(problems, 0).place.line, 12);
    assert_int_equal(ullage_problems_at(problems, 0).place.column, (int)strlen("  - {at: 10.1 s, set: {") + 1);
    ullage_problems_free(problems);
    ullage_model_free(other);
    ullage_recording_free(recording);
    evening_over(&evening);
}

/* The scenario that is saved is the same tree with its edits made, so that even the steps of the solver are the same: its readings
 * have the same bits, to the end that the run had not reached yet. */
static void as_a_scenario_it_runs_by_itself(void **unused)
{
    (void)unused;
    struct evening evening = evening_spent(130.0);
    enum ullage_outcome outcome;
    char path[64];
    struct ullage_problems *problems = ullage_problems_create();
    char *text = ullage_scenario_text(evening.path, &evening.edits, evening.run, problems, &outcome);
    assert_non_null(text);
    text_put(path, text);
    struct ullage_model *model = model_read(path, NULL);
    struct ullage_run *run = ullage_run_create(model, &(struct ullage_method){.tolerance = 1e-5});
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_FINISHED);
    assert_int_equal(ullage_run_advance(evening.model, evening.run, (double)INFINITY), ULLAGE_FINISHED);
    assert_int_equal(ullage_run_orders(run), 0);
    assert_int_equal(ullage_run_readings(run), 9);
    assert_same(model, evening.run, run);
    ullage_text_free(text);
    ullage_problems_free(problems);
    unlink(path);
    ullage_run_free(run);
    ullage_model_free(model);
    evening_over(&evening);
}

/* A fault that was put in, made larger and taken out by hand stands in the saved scenario's list. Its holes are others than the one
 * of the run, so the solver steps elsewhere: 1e-6 of 1000 Pa a step, some hundred steps. */
static void faults_by_hand_become_faults(void **unused)
{
    (void)unused;
    static const struct done put[] = {{30.0, "seam-leak tank", "0.5 mm"},
                                      {61.5, "seam-leak tank", "0.8 mm"},
                                      {80.0, "vent", "20 %"},
                                      {81.0, "leak tank", "0.3 mm from=85.5s ramp=2s every=4s for=3s"},
                                      {95.0, "seam-leak tank", "off"},
                                      {95.0, "leak canister", "0.2 mm ramp=20s"},
                                      {96.0, "leak tank", "0.2 mm from=2min until=3min"},
                                      {105.0, "leak canister", "0.4 mm"}};
    const struct ullage_edits edits = {.every_fault = true};
    char path[64];
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    text_put(path, rig_pull_up);
    struct ullage_model *model = model_read(path, &edits);
    struct ullage_run *run = ullage_run_create(model, NULL);
    for (size_t k = 0; k < sizeof put / sizeof put[0]; k++) {
        ullage_run_advance(model, run, put[k].time);
        assert_null(ullage_run_command(model, run, put[k].what, put[k].value));
    }
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_FINISHED);
    char *text = ullage_scenario_text(path, &edits, run, problems, &outcome);
    assert_non_null(text);
    unlink(path);
    assert_non_null(strstr(text, "diameter: 0.0005 m, from: 30 s, until: 61.5 s"));
    assert_non_null(strstr(text, "diameter: 0.0008 m, from: 61.5 s, until: 95 s"));
    assert_non_null(strstr(
        text, "diameter: 0.0003 m\n    from: 85.5 s\n    ramp: 2 s\n    until: 96 s\n    every: 4 s\n    for: 3 s"));
    assert_non_null(strstr(text, "diameter: 0.0002 m, from: 120 s, until: 180 s"));
    assert_null(strstr(strstr(text, "by_hand:"), "seam"));
    assert_null(strstr(strstr(text, "by_hand:"), "leak tank"));
    assert_non_null(strstr(text, "at: 95 s, set: {leak canister: 0.2 mm ramp=20s}")); /* changed on its way */
    assert_non_null(strstr(text, "at: 105 s, set: {leak canister: 0.4 mm}"));
    text_put(path, text);
    struct ullage_model *saved = model_read(path, NULL);
    struct ullage_run *again = ullage_run_create(saved, NULL);
    assert_int_equal(ullage_run_advance(saved, again, (double)INFINITY), ULLAGE_FINISHED);
    assert_int_equal(ullage_run_readings(again), ullage_run_readings(run));
    assert_near("filled", ullage_run_reading(again, 0).value, ullage_run_reading(run, 0).value, 0.1);
    assert_near("leaking", ullage_run_reading(again, 3).value, ullage_run_reading(run, 3).value, 0.1);
    ullage_text_free(text);
    ullage_problems_free(problems);
    unlink(path);
    ullage_run_free(again);
    ullage_model_free(saved);
    ullage_run_free(run);
    ullage_model_free(model);
}

/* Where a wait ends at the very moment of a command, the procedure went first, and does so again on the way back. */
static void the_procedure_goes_before_the_hand(void **unused)
{
    (void)unused;
    struct evening evening = evening_spent(90.0);
    struct ullage_run *again = ullage_run_create(evening.model, &(struct ullage_method){.tolerance = 1e-5});
    struct ullage_history *history = ullage_history_create(evening.model, again);
    for (int k = 0; k < HANDS; k++) {
        ullage_history_advance(history, hands[k].time);
        assert_null(ullage_run_command(evening.model, again, hands[k].what, hands[k].value));
    }
    ullage_history_advance(history, 120.0);
    ullage_history_go(history, 20.0);
    ullage_history_go(history, 90.0);
    assert_same(evening.model, evening.run, again);
    ullage_history_go(history, 120.0);
    ullage_run_advance(evening.model, evening.run, 120.0);
    assert_same(evening.model, evening.run, again);
    ullage_history_free(history);
    ullage_run_free(again);
    evening_over(&evening);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_recording_says_all),
        cmocka_unit_test(done_again_it_has_the_same_bits),
        cmocka_unit_test(so_has_a_fault_that_comes_later),
        cmocka_unit_test(commands_of_another_rig_do_not_suit),
        cmocka_unit_test(as_a_scenario_it_runs_by_itself),
        cmocka_unit_test(faults_by_hand_become_faults),
        cmocka_unit_test(the_procedure_goes_before_the_hand),
    };
    return cmocka_run_group_tests_name("file/recording", tests, NULL, NULL) != 0;
}
