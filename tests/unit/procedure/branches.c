/* tests/unit/procedure/branches.c  Another way from a past moment: kept, named, switched between, compared, and the sound run
 * along. What a branch is told against is a run of its own, given the same commands and never taken back. */
#include "support/same.h"

#include <unistd.h>

struct told_command {
    double time;
    const char *what, *value;
};

/* Along one branch; ends with a null. */
static const struct told_command way_one[] = {{10.0, "leak", "open"}, {0.0, NULL, NULL}};
static const struct told_command way_two[] = {
    {5.0, "vent", "50 %"}, {30.0, "leak.diameter", "0.7 mm"}, {0.0, NULL, NULL}};
static const struct told_command way_three[] = {{5.0, "vent", "50 %"}, {20.0, "vent", "shut"}, {0.0, NULL, NULL}};

static struct ullage_run *direct_run(const struct ullage_model *model, const struct told_command *told, double time)
{
    struct ullage_run *run = ullage_run_create(model, NULL);
    for (; told->what && told->time <= time; told++) {
        ullage_run_advance(model, run, told->time);
        assert_null(ullage_run_command(model, run, told->what, told->value));
    }
    ullage_run_advance(model, run, time);
    return run;
}

static void assert_on_way(const struct ullage_model *model, const struct ullage_run *run,
                          const struct told_command *told)
{
    struct ullage_run *direct = direct_run(model, told, ullage_run_time(run));
    assert_same(model, direct, run);
    ullage_run_free(direct);
}

struct stage {
    struct ullage_model *model;
    struct ullage_run *run;
    struct ullage_history *history;
};

/* way_one to 60 s; way_two from 5 s to 50 s; way_three from 20 s of that one to 40 s. */
static struct stage three_ways(void)
{
    struct stage stage = {.model = settling_model()};
    stage.run = ullage_run_create(stage.model, NULL);
    struct ullage_history *history = stage.history = ullage_history_create(stage.model, stage.run);
    ullage_history_advance(history, 10.0);
    assert_null(ullage_run_command(stage.model, stage.run, "leak", "open"));
    ullage_history_advance(history, 60.0);
    ullage_history_go(history, 5.0);
    assert_null(ullage_run_command(stage.model, stage.run, "vent", "50 %"));
    assert_near("latest", ullage_history_latest(history), 5.0, 0.0);
    ullage_history_advance(history, 30.0);
    assert_null(ullage_run_command(stage.model, stage.run, "leak.diameter", "0.7 mm"));
    ullage_history_advance(history, 50.0);
    ullage_history_go(history, 20.0);
    assert_null(ullage_run_command(stage.model, stage.run, "vent", "shut"));
    ullage_history_advance(history, 40.0);
    return stage;
}

static void stage_strike(struct stage *stage)
{
    ullage_history_free(stage->history);
    ullage_run_free(stage->run);
    ullage_model_free(stage->model);
}

static const struct told_command *const ways[] = {way_one, way_two, way_three};

static void a_command_at_a_past_moment_begins_a_branch(void **unused)
{
    (void)unused;
    static const struct ullage_branch want[] = {{"first", false, -1, 0.0, 60.0, 0},
                                                {"vent 50 %", false, 0, 5.0, 50.0, 1},
                                                {"vent shut", false, 1, 20.0, 40.0, 2}};
    struct stage stage = three_ways();
    assert_int_equal(ullage_history_branches(stage.history), 3);
    assert_int_equal(ullage_history_present(stage.history), 2);
    for (int k = 0; k < 3; k++) {
        const struct ullage_branch branch = ullage_history_branch(stage.history, k);
        assert_string_equal(branch.name, want[k].name);
        assert_int_equal(branch.parent, want[k].parent);
        assert_near("parted at", branch.parted_at, want[k].parted_at, 0.0);
        assert_near("latest", branch.latest, want[k].latest, 0.0);
        assert_int_equal(branch.born, want[k].born);
    }
    stage_strike(&stage);
}

/* Hither and thither, on all branches, past and present, on at the end of each. */
static void every_branch_is_what_it_was(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    uint64_t draws = 21;
    for (int times = 0; times < 60; times++) {
        const int branch = (int)near_draw_between(&draws, 0.0, 3.0);
        ullage_history_switch(stage.history, branch);
        assert_int_equal(ullage_history_present(stage.history), branch);
        const double latest = ullage_history_latest(stage.history);
        const double time = near_draw_between(&draws, 0.0, latest + 2.0);
        if (time < latest)
            ullage_history_go(stage.history, time);
        else
            ullage_history_advance(stage.history, time);
        assert_near("where asked", ullage_run_time(stage.run), time, 0.0);
        assert_on_way(stage.model, stage.run, ways[branch]);
    }
    assert_int_equal(ullage_history_branches(stage.history), 3);
    stage_strike(&stage);
}

/* A switch keeps the moment, where the other branch has come so far. */
static void a_switch_keeps_the_moment(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    ullage_history_switch(stage.history, 0);
    assert_near("the same moment", ullage_run_time(stage.run), 40.0, 0.0);
    ullage_history_go(stage.history, 55.0);
    ullage_history_switch(stage.history, 1);
    assert_near("its end", ullage_run_time(stage.run), 50.0, 0.0);
    stage_strike(&stage);
}

static void branches_are_named(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    char long_name[100];
    memset(long_name, 'x', sizeof long_name);
    long_name[61] = '\0';
    assert_null(ullage_history_branch_name(stage.history, 1, "half open"));
    assert_string_equal(ullage_history_branch(stage.history, 1).name, "half open");
    assert_true(ullage_history_branch(stage.history, 1).named);
    assert_null(ullage_history_branch_name(stage.history, 1, "half open"));
    assert_non_null(strstr(ullage_history_branch_name(stage.history, 2, "half open"), "another"));
    assert_non_null(strstr(ullage_history_branch_name(stage.history, 2, ""), "empty"));
    assert_non_null(strstr(ullage_history_branch_name(stage.history, 2, long_name), "long"));
    assert_string_equal(ullage_history_branch(stage.history, 2).name, "vent shut");
    stage_strike(&stage);
}

static void branches_are_forgotten(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    assert_false(ullage_history_forget(stage.history, 0)); /* the first */
    assert_false(ullage_history_forget(stage.history, 2)); /* the present one */
    assert_true(ullage_history_forget(stage.history, 1));
    assert_int_equal(ullage_history_branches(stage.history), 2);
    assert_int_equal(ullage_history_present(stage.history), 1);
    const struct ullage_branch child = ullage_history_branch(stage.history, 1);
    assert_string_equal(child.name, "vent shut");
    assert_int_equal(child.parent, 0);
    assert_near("parted from the first", child.parted_at, 5.0, 0.0);
    ullage_history_go(stage.history, 12.0);
    assert_on_way(stage.model, stage.run, way_three);
    ullage_history_switch(stage.history, 0);
    assert_true(ullage_history_forget(stage.history, 1));
    ullage_history_go(stage.history, 33.0);
    assert_on_way(stage.model, stage.run, way_one);
    stage_strike(&stage);
}

/* One branch after another from the same moment: the oldest without a name makes room, the first and those with names stay;
 * where all have names there is no room. */
static void there_is_an_end_to_branches(void **unused)
{
    (void)unused;
    struct stage stage = {.model = settling_model()};
    char value[32];
    stage.run = ullage_run_create(stage.model, NULL);
    stage.history = ullage_history_create(stage.model, stage.run);
    ullage_history_advance(stage.history, 20.0);
    for (int k = 1; k <= 14; k++) {
        ullage_history_go(stage.history, 8.0);
        snprintf(value, sizeof value, "%d %%", k);
        assert_null(ullage_run_command(stage.model, stage.run, "vent", value));
        ullage_history_advance(stage.history, 9.0);
        if (k == 1)
            ullage_history_branch_name(stage.history, 1, "kept");
    }
    assert_int_equal(ullage_history_branches(stage.history), ULLAGE_BRANCHES_MOST);
    assert_string_equal(ullage_history_branch(stage.history, 1).name, "kept");
    assert_string_equal(ullage_history_branch(stage.history, 2).name, "vent 5 %");
    for (int k = 2; k < ULLAGE_BRANCHES_MOST; k++) {
        snprintf(value, sizeof value, "way %d", k);
        assert_null(ullage_history_branch_name(stage.history, k, value));
    }
    ullage_history_go(stage.history, 8.0);
    assert_non_null(strstr(ullage_run_command(stage.model, stage.run, "vent", "99 %"), "no room"));
    assert_int_equal(ullage_history_branches(stage.history), ULLAGE_BRANCHES_MOST);
    stage_strike(&stage);
}

/* Dragging a size at one moment: one branch, called after where it was let go. */
static void what_is_dragged_is_one_branch(void **unused)
{
    (void)unused;
    struct stage stage = {.model = settling_model()};
    stage.run = ullage_run_create(stage.model, NULL);
    stage.history = ullage_history_create(stage.model, stage.run);
    ullage_history_advance(stage.history, 20.0);
    ullage_history_go(stage.history, 8.0);
    assert_null(ullage_run_command(stage.model, stage.run, "leak.diameter", "0.6 mm"));
    assert_null(ullage_run_command(stage.model, stage.run, "leak.diameter", "0.8 mm"));
    assert_int_equal(ullage_history_branches(stage.history), 2);
    assert_string_equal(ullage_history_branch(stage.history, 1).name, "leak.diameter 0.8 mm");
    stage_strike(&stage);
}

/* ---- looked at from elsewhere ---- */
static void a_branch_is_seen_from_another(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    const size_t channels = (size_t)ullage_model_channels(stage.model);
    double *value = calloc(channels, sizeof *value), *want = calloc(channels, sizeof *want);
    for (int branch = 0; branch < 3; branch++) {
        const double time = 11.0 + 9.0 * branch, latest = ullage_history_branch(stage.history, branch).latest;
        struct ullage_run *direct = direct_run(stage.model, ways[branch], time);
        ullage_run_values(stage.model, direct, want, NULL);
        assert_true(ullage_history_values(stage.history, branch, time, value, NULL));
        assert_memory_equal(value, want, channels * sizeof *want);
        ullage_run_free(direct);
        direct = direct_run(stage.model, ways[branch], latest);
        assert_int_equal(ullage_history_samples(stage.history, branch), ullage_run_samples(direct));
        for (int row = 0; row < ullage_run_samples(direct); row++)
            assert_memory_equal(ullage_history_sample(stage.history, branch, row), ullage_run_sample(direct, row),
                                4 * sizeof(double));
        ullage_run_free(direct);
        assert_false(ullage_history_values(stage.history, branch, latest + 1.0, value, NULL));
    }
    assert_on_way(stage.model, stage.run, way_three);
    assert_near("still there", ullage_run_time(stage.run), 40.0, 0.0);
    free(value);
    free(want);
    stage_strike(&stage);
}

/* The moments of the commands, read off the lists above. */
/* What stood how on a branch is known without going there: told against going there. */
static void assert_stood(struct stage *stage, int branch, double time)
{
    double *value = calloc((size_t)ullage_model_channels(stage->model), sizeof *value);
    static const char *const of[] = {"leak.diameter", "vent.open", "leak.open"};
    static const char *const what[] = {"leak.diameter", "vent", "leak"};
    assert_non_null(value);
    assert_true(ullage_history_values(stage->history, branch, time, value, NULL));
    for (int k = 0; k < 3; k++) {
        const int channel = ullage_model_find_channel(stage->model, of[k]);
        const double stood = ullage_history_setting(stage->history, branch, time, what[k]);
        if (channel >= 0) /* valves are on their way for a while after a command */
            assert_near(what[k], stood, value[channel], 1e-12);
    }
    free(value);
}

static void how_things_stood_on_a_branch(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    static const double moments[] = {2.0, 8.0, 15.0, 25.0, 35.0};
    for (int branch = 0; branch < 3; branch++)
        for (int k = 0; k < 5; k++)
            assert_stood(&stage, branch, moments[k]);
    assert_near("not before", ullage_history_setting(stage.history, 1, 29.0, "leak.diameter"), 0.5e-3, 1e-9);
    assert_near("from then on", ullage_history_setting(stage.history, 1, 30.0, "leak.diameter"), 0.7e-3, 1e-12);
    assert_true(isnan(ullage_history_setting(stage.history, 1, 55.0, "leak"))); /* it went to 50 s */
    assert_true(isnan(ullage_history_setting(stage.history, 1, 20.0, "no-such")));
    assert_true(isnan(ullage_history_setting(stage.history, 1, 20.0, "leak.no_such")));
    assert_true(isnan(ullage_history_setting(stage.history, ULLAGE_SOUND, 20.0, "leak")));
    stage_strike(&stage);
}

/* The same of faults: of the file, by the procedure, by hand with a course, in three sizes. */
static void how_faults_stood_on_a_branch(void **unused)
{
    (void)unused;
    static const char text[] =
        "ullage: scenario/1\nname: wrong\nassume: {heat: isothermal}\nend: 60 s\nsystem:\n  parts:\n"
        "    vessel: {type: vessel, volume: 50 L}\n"
        "    valve: {type: valve, from: vessel, to: air, bore: 1 mm, normally: open}\n"
        "    sensor: {type: sensor, of: vessel}\n"
        "faults: [{id: f, fault: offset, where: sensor, offset: 100 Pa, from: 5 s}]\n"
        "procedure:\n  steps:\n    - wait: {for: 12 s}\n    - set: {f.offset: 400 Pa}\n    - wait: {for: 40 s}\n";
    static const char *const faults[] = {"offset sensor", "restricted valve"};
    struct stage stage = {.model = text_model(text)};
    stage.run = ullage_run_create(stage.model, NULL);
    stage.history = ullage_history_create(stage.model, stage.run);
    ullage_history_advance(stage.history, 10.0);
    assert_null(ullage_run_command(stage.model, stage.run, faults[1], "80 % from=20 s every=10s for=6 s until=45s"));
    ullage_history_advance(stage.history, 25.0);
    assert_null(ullage_run_command(stage.model, stage.run, faults[1], "60 %"));
    ullage_history_advance(stage.history, 50.0);
    ullage_history_go(stage.history, 15.0);
    assert_null(ullage_run_command(stage.model, stage.run, faults[0], "off"));
    ullage_history_advance(stage.history, 50.0);
    for (int branch = 0; branch < 2; branch++) {
        ullage_history_switch(stage.history, branch);
        for (double time = 1.0; time < 50.0; time += 4.0)
            for (int k = 0; k < ullage_model_faults(stage.model); k++) {
                const char *what = ullage_model_fault(stage.model, k).what;
                ullage_history_go(stage.history, time);
                const struct ullage_fault_now there = ullage_run_fault(stage.model, stage.run, k);
                ullage_history_switch(stage.history, 1 - branch); /* seen from the other one */
                assert_near(what, ullage_history_setting(stage.history, branch, time, what),
                            there.share > 0.0 ? there.size : 0.0, 1e-12);
                ullage_history_switch(stage.history, branch);
            }
    }
    stage_strike(&stage);
}

static void where_branches_part(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    assert_near("0, 1", ullage_history_parting(stage.history, 0, 1), 5.0, 0.0);
    assert_near("0, 2", ullage_history_parting(stage.history, 2, 0), 5.0, 0.0);
    assert_near("1, 2", ullage_history_parting(stage.history, 1, 2), 20.0, 0.0);
    assert_true(isinf(ullage_history_parting(stage.history, 1, 1)));
    stage_strike(&stage);
}

/* Against the same sums over two runs that were never in a history. Half the rows up to 50 s are past the parting. */
static void branches_are_compared(void **unused)
{
    (void)unused;
    struct stage stage = three_ways();
    struct ullage_difference difference[3], same[3];
    struct ullage_run *one = direct_run(stage.model, way_one, 60.0), *two = direct_run(stage.model, way_two, 50.0);
    assert_int_equal(ullage_history_compare(stage.history, 0, 1, difference), 101);
    for (int k = 0; k < 3; k++) {
        double largest = 0.0, at = (double)NAN, squares = 0.0;
        for (int row = 0; row < 101; row++) {
            const double gap = ullage_run_sample(two, row)[1 + k] - ullage_run_sample(one, row)[1 + k];
            squares += gap * gap;
            if (fabs(gap) > fabs(largest)) {
                largest = gap;
                at = ullage_run_sample(one, row)[0];
            }
        }
        assert_near("largest", difference[k].largest, largest, 0.0);
        assert_near("mean", difference[k].mean, sqrt(squares / 101.0), 1e-12 * fabs(largest));
        if (largest != 0.0)
            assert_near("at", difference[k].at, at, 0.0);
    }
    assert_near("the vent's flow", difference[2].parts_at, 5.5, 0.0); /* the first row after 5 s */
    assert_int_equal(ullage_history_compare(stage.history, 1, 1, same), 101);
    for (int k = 0; k < 3; k++)
        assert_true(same[k].largest == 0.0 && isnan(same[k].parts_at) && isnan(same[k].at));
    ullage_run_free(one);
    ullage_run_free(two);
    stage_strike(&stage);
}

/* ---- the sound run ---- */
static struct ullage_model *faulty_model(const char *fault, bool sound)
{
    char text[4000], path[] = "/tmp/ullage-branches-XXXXXX";
    const char *record = strstr(rig_pull_up, "record:");
    const int length = snprintf(text, sizeof text, "%.*s%s%s", (int)(record - rig_pull_up), rig_pull_up, fault, record);
    const int file = mkstemp(path);
    assert_true(file >= 0 && write(file, text, (size_t)length) == length && close(file) == 0);
    const struct ullage_edits edits = {.sound = sound};
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    assert_non_null(model);
    ullage_description_free(description);
    ullage_problems_free(problems);
    unlink(path);
    return model;
}

static const char fault_text[] =
    "faults:\n  - {id: rust, fault: leak, where: canister.tank, diameter: 0.8 mm, from: 30 s}\n";

/* Without its fault the rig is the one it was: a second hole that is never there takes nothing. Solvers step elsewhere, so to
 * their tolerance: 1e-6 of 1000 Pa a step, some hundred steps. */
static void a_sound_model_has_no_faults(void **unused)
{
    (void)unused;
    struct ullage_model *sound = faulty_model(fault_text, true), *never = text_model(rig_pull_up);
    struct ullage_run *a = ullage_run_create(sound, NULL), *b = ullage_run_create(never, NULL);
    ullage_run_advance(sound, a, (double)INFINITY);
    ullage_run_advance(never, b, (double)INFINITY);
    assert_int_equal(ullage_run_readings(a), ullage_run_readings(b));
    assert_near("filled", ullage_run_reading(a, 0).value, ullage_run_reading(b, 0).value, 0.1);
    for (int k = 0; k < ullage_run_events(a); k++)
        assert_int_not_equal(ullage_run_event(a, k).kind, ULLAGE_FAULT_CHANGED);
    ullage_run_free(a);
    ullage_run_free(b);
    ullage_model_free(sound);
    ullage_model_free(never);
}

/* The commands of `told` that are not about the fault, done to the sound model alone. */
static void assert_along(struct ullage_history *history, const struct ullage_model *sound, double time,
                         const struct told_command *told)
{
    const size_t channels = (size_t)ullage_model_channels(sound);
    double *value = calloc(channels, sizeof *value), *want = calloc(channels, sizeof *want);
    struct ullage_run *direct = direct_run(sound, told, time);
    ullage_run_values(sound, direct, want, NULL);
    assert_true(ullage_history_values(history, ULLAGE_SOUND, time, value, NULL));
    assert_memory_equal(value, want, channels * sizeof *want);
    assert_true(ullage_history_samples(history, ULLAGE_SOUND) >= ullage_run_samples(direct));
    for (int row = 0; row < ullage_run_samples(direct); row++)
        assert_memory_equal(ullage_history_sample(history, ULLAGE_SOUND, row), ullage_run_sample(direct, row),
                            4 * sizeof(double));
    ullage_run_free(direct);
    free(value);
    free(want);
}

static void a_sound_run_goes_along(void **unused)
{
    (void)unused;
    static const struct told_command first[] = {{20.0, "vent", "30 %"}, {50.0, "vent", "shut"}, {0.0, NULL, NULL}};
    static const struct told_command second[] = {{20.0, "vent", "30 %"}, {35.0, "leak", "open"}, {0.0, NULL, NULL}};
    struct ullage_model *model = faulty_model(fault_text, false), *sound = faulty_model(fault_text, true);
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    struct ullage_difference difference[3];
    assert_int_equal(ullage_history_samples(history, ULLAGE_SOUND), 0);
    ullage_history_advance(history, 20.0);
    assert_null(ullage_run_command(model, run, "vent", "30 %"));
    assert_true(ullage_history_accompany(history, sound));
    ullage_history_advance(history, 40.0);
    assert_null(ullage_run_command(model, run, "rust.diameter", "1.4 mm"));
    ullage_history_advance(history, 50.0);
    assert_null(ullage_run_command(model, run, "vent", "shut"));
    ullage_history_advance(history, 80.0);
    assert_along(history, sound, 80.0, first);
    assert_along(history, sound, 15.0, first);
    ullage_history_go(history, 35.0);
    assert_null(ullage_run_command(model, run, "leak", "open"));
    ullage_history_advance(history, 60.0);
    assert_along(history, sound, 60.0, second);
    ullage_history_switch(history, 0);
    assert_along(history, sound, 80.0, first);
    assert_true(ullage_history_compare(history, ULLAGE_SOUND, 0, difference) >= 160);
    assert_true(difference[0].parts_at >= 30.0 && difference[0].parts_at <= 31.0 && difference[0].largest < -100.0);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
    ullage_model_free(sound);
}

static void a_strange_model_does_not_go_along(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up), *other = text_model(rig_smooth);
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    assert_false(ullage_history_accompany(history, other));
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
    ullage_model_free(other);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_command_at_a_past_moment_begins_a_branch),
        cmocka_unit_test(every_branch_is_what_it_was),
        cmocka_unit_test(a_switch_keeps_the_moment),
        cmocka_unit_test(branches_are_named),
        cmocka_unit_test(branches_are_forgotten),
        cmocka_unit_test(there_is_an_end_to_branches),
        cmocka_unit_test(what_is_dragged_is_one_branch),
        cmocka_unit_test(a_branch_is_seen_from_another),
        cmocka_unit_test(how_things_stood_on_a_branch),
        cmocka_unit_test(how_faults_stood_on_a_branch),
        cmocka_unit_test(where_branches_part),
        cmocka_unit_test(branches_are_compared),
        cmocka_unit_test(a_sound_model_has_no_faults),
        cmocka_unit_test(a_sound_run_goes_along),
        cmocka_unit_test(a_strange_model_does_not_go_along),
    };
    return cmocka_run_group_tests_name("procedure/branches", tests, NULL, NULL) != 0;
}
