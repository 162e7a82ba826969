/* tests/unit/procedure/history.c  Pausing anywhere, going back and forth, commands of the hand: the same bits every time. */
#include "support/near.h"
#include "support/rigs.h"
#include "support/run_text.h"
#include "support/same.h"
#include "ullage.h"

#include <stdbool.h>

static void pauses_change_nothing(void **unused)
{
    (void)unused;
    struct ullage_model *model = settling_model();
    struct ullage_run *straight = ullage_run_create(model, NULL);
    assert_int_equal(ullage_run_advance(model, straight, (double)INFINITY), ULLAGE_FINISHED);
    assert_int_equal(ullage_run_readings(straight), 3 + 4 + 2 + 2);
    uint64_t draws = 5;
    for (int times = 0; times < 3; times++) {
        struct ullage_run *paused = ullage_run_create(model, NULL);
        enum ullage_status status = ULLAGE_PAUSED;
        for (double time = 0.0; status == ULLAGE_PAUSED; time += near_draw_decades(&draws, 1e-6, 5.0)) {
            status = ullage_run_advance(model, paused, time);
            assert_true(status == ULLAGE_FINISHED || ullage_run_time(paused) == time);
        }
        assert_int_equal(status, ULLAGE_FINISHED);
        assert_same(model, straight, paused);
        assert_int_equal(ullage_run_effort(straight).steps, ullage_run_effort(paused).steps);
        ullage_run_free(paused);
    }
    ullage_run_free(straight);
    ullage_model_free(model);
}

static void going_back_and_forth_changes_nothing(void **unused)
{
    (void)unused;
    struct ullage_model *model = settling_model();
    struct ullage_run *straight = ullage_run_create(model, NULL);
    struct ullage_run *scrubbed = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, scrubbed);
    assert_int_equal(ullage_history_advance(history, 100.0), ULLAGE_PAUSED);
    uint64_t draws = 11;
    for (int times = 0; times < 40; times++) {
        const double time = near_draw_between(&draws, 0.0, 100.0);
        assert_int_equal(ullage_history_go(history, time), ULLAGE_PAUSED);
        assert_near("where asked", ullage_run_time(scrubbed), time, 0.0);
        assert_near("latest", ullage_history_latest(history), 100.0, 0.0);
        struct ullage_run *direct = ullage_run_create(model, NULL);
        ullage_run_advance(model, direct, time);
        assert_same(model, direct, scrubbed);
        ullage_run_free(direct);
    }
    assert_int_equal(ullage_history_advance(history, (double)INFINITY), ULLAGE_FINISHED);
    ullage_run_advance(model, straight, (double)INFINITY);
    assert_same(model, straight, scrubbed);
    ullage_history_go(history, 1e9);
    assert_same(model, straight, scrubbed);
    ullage_history_free(history);
    ullage_run_free(scrubbed);
    ullage_run_free(straight);
    ullage_model_free(model);
}

/* ---- by hand ---- */
static const struct {
    double time;
    const char *what, *value;
} hands[] = {{0.0, "leak", "open"}, {20.0, "leak.diameter", "0.7 mm"}, {20.0, "vent", "40 %"}, {41.25, "vent", "shut"}};

enum { HANDS = sizeof hands / sizeof hands[0] };

static void hands_until(struct ullage_model *model, struct ullage_run *run, int from, double time)
{
    for (int k = from; k < HANDS && hands[k].time <= time; k++) {
        ullage_run_advance(model, run, hands[k].time);
        assert_null(ullage_run_command(model, run, hands[k].what, hands[k].value));
    }
    ullage_run_advance(model, run, time);
}

static void what_the_hand_did_is_done_again(void **unused)
{
    (void)unused;
    struct ullage_model *model = settling_model();
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    for (int k = 0; k < HANDS; k++) {
        ullage_history_advance(history, hands[k].time);
        assert_null(ullage_run_command(model, run, hands[k].what, hands[k].value));
    }
    ullage_history_advance(history, 80.0);
    uint64_t draws = 3;
    for (int times = 0; times < 30; times++) {
        const double time = times == 0 ? 20.0 : near_draw_between(&draws, 0.0, 80.0);
        ullage_history_go(history, time);
        struct ullage_run *direct = ullage_run_create(model, NULL);
        hands_until(model, direct, 0, time);
        assert_same(model, direct, run);
        ullage_run_free(direct);
    }
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
}

static const struct {
    const char *what, *value, *told;
} refused[] = {{"vent", "shutt", "shut"},
               {"vnet", "shut", "vent"},
               {"vent", "140 %", "100 %"},
               {"leak.diametre", "1 mm", "diameter"},
               {"leak.diameter", "1 s", "m"},
               {"tank.volume", "1 L", "volume"},
               {"tank", "open", "command"},
               {"leak.diameter", "", "end"},
               {"leak.diameter", "tank.pressure", "m"}};

static void wrong_commands_are_refused(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    struct ullage_run *run = ullage_run_create(model, NULL);
    ullage_run_advance(model, run, 1.0);
    const int events = ullage_run_events(run);
    for (size_t k = 0; k < sizeof refused / sizeof refused[0]; k++) {
        const char *wrong = ullage_run_command(model, run, refused[k].what, refused[k].value);
        if (!wrong || !strstr(wrong, refused[k].told))
            fail_msg("%s %s: %s", refused[k].what, refused[k].value, wrong ? wrong : "taken");
    }
    assert_int_equal(ullage_run_events(run), events);
    ullage_run_free(run);
    ullage_model_free(model);
}

static void a_hand_is_told_apart_from_the_procedure(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    struct ullage_run *run = ullage_run_create(model, NULL);
    ullage_run_advance(model, run, 1.0);
    assert_null(ullage_run_command(model, run, "leak", "30 %"));
    const struct ullage_event event = ullage_run_event(run, ullage_run_events(run) - 1);
    assert_int_equal(event.kind, ULLAGE_COMMANDED);
    assert_true(event.by_hand);
    assert_string_equal(event.subject, "leak");
    assert_string_equal(event.text, "30 %");
    assert_near("opening", event.number, 0.3, 1e-15);
    assert_int_equal(event.step, -1);
    double since, share;
    assert_int_equal(ullage_run_step(run, &since, &share), 2);
    assert_near("since", since, 0.0, 0.0);
    assert_near("share", share, 1.0 / 90.0, 1e-15);
    ullage_run_free(run);
    ullage_model_free(model);
}

/* A flag that is up stops before the next solver step; lowered, the run goes on as if nothing had been. */
static void a_flag_stops_the_run(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_run *straight = ullage_run_create(model, NULL);
    volatile sig_atomic_t stop = 1;
    ullage_run_heed(run, &stop);
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_STOPPED);
    stop = 0;
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_FINISHED);
    ullage_run_advance(model, straight, (double)INFINITY);
    assert_same(model, straight, run);
    ullage_run_free(straight);
    ullage_run_free(run);
    ullage_model_free(model);
}

/* Played in frames, each shorter than a solver step, moments are kept all the same: stopped before its first solver step,
 * a walk back stands at the moment it began from. */
static void frames_keep_moments(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    volatile sig_atomic_t stop = 0;
    ullage_run_heed(run, &stop);
    for (int frame = 0; frame <= 8000; frame++)
        ullage_history_advance(history, frame * 0.01);
    stop = 1;
    ullage_history_go(history, 79.0);
    assert_true(ullage_run_time(run) > 60.0 && ullage_run_time(run) <= 79.0);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
}

/* The peer cannot be saved in the middle: it starts afresh, so a scrub is right to the tolerance, not to the bit. Largest
 * change of a start in the middle: some 10 steps at 1e-6 of 1000 Pa each. */
static void the_peer_goes_back_too(void **unused)
{
    (void)unused;
    const struct ullage_method peer = {.solver = "msbdf"};
    struct ullage_model *model = text_model(rig_smooth);
    struct ullage_run *run = ullage_run_create(model, &peer);
    struct ullage_history *history = ullage_history_create(model, run);
    assert_int_equal(ullage_history_advance(history, 100.0), ULLAGE_FINISHED);
    const double first = ullage_run_reading(run, 0).value;
    ullage_history_go(history, 12.0);
    assert_int_equal(ullage_run_readings(run), 0);
    assert_int_equal(ullage_history_advance(history, 100.0), ULLAGE_FINISHED);
    assert_near("again", ullage_run_reading(run, 0).value, first, 1e-2);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pauses_change_nothing),
        cmocka_unit_test(going_back_and_forth_changes_nothing),
        cmocka_unit_test(what_the_hand_did_is_done_again),
        cmocka_unit_test(wrong_commands_are_refused),
        cmocka_unit_test(a_hand_is_told_apart_from_the_procedure),
        cmocka_unit_test(a_flag_stops_the_run),
        cmocka_unit_test(frames_keep_moments),
        cmocka_unit_test(the_peer_goes_back_too),
    };
    return cmocka_run_group_tests_name("procedure/history", tests, NULL, NULL) != 0;
}
