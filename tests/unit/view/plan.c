/* tests/unit/view/plan.c  What is kept of a run for its picture: steps done and to come, what is joined, traces. */
#include "view/plan.h"

#include "support/stage.h"
#include "view/traces.h"

static const char rig[] = "ullage: scenario/1\nname: planned\nsystem:\n  parts:\n"
                          "    tank: {type: vessel, volume: 30 L}\n    port: {type: port, of: tank}\n"
                          "    leak: {type: hole, from: tank, to: air, diameter: 1 mm, normally: plugged}\n"
                          "equipment:\n  supply: {type: supply, gauge_pressure: 3 kPa}\n"
                          "procedure:\n  steps:\n"
                          "    - {name: Gas on, join: {supply: port}}\n    - {name: Fill, wait: {for: 20 s}}\n"
                          "    - read: {full: tank.gauge_pressure}\n    - {name: Gas off, part_from: {supply: port}}\n"
                          "    - {name: Rest, wait: {for: 10 s}}\n"
                          "record: {every: 1 s, channels: [tank.gauge_pressure]}\n";

static void steps_done_and_to_come(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    struct plan plan;
    struct snapshot now = {0};
    struct step_span ahead[16];
    double tick;
    assert_true(plan_make(&plan, stage.model));
    assert_true(snapshot_make(&now, stage.model));
    assert_near("end", plan.end, 30.0, 1e-9);
    ullage_run_advance(stage.model, stage.run, 5.0);
    snapshot_take(&now, stage.model, stage.run, 0.0);
    const int supply = ullage_model_find_part(stage.model, "supply"),
              port = ullage_model_find_part(stage.model, "port");
    assert_int_equal(now.joined[supply], port);
    assert_string_equal(ullage_model_step(stage.model, now.step).title, "Fill");
    const int count = plan_ahead(&plan, &now, ahead, 16);
    assert_int_equal(count, 2);
    assert_near("the rest of this step", ahead[0].to, 20.0, 1e-9);
    assert_near("then the next", ahead[1].to, 30.0, 1e-9);
    assert_near("axis", plan_whole(&plan, &now, &tick), 30.0, 1e-9);
    assert_near("tick", tick, 5.0, 1e-9);
    ullage_run_advance(stage.model, stage.run, 25.0);
    snapshot_take(&now, stage.model, stage.run, 0.0);
    assert_int_equal(now.joined[supply], -1);
    assert_int_equal(now.readings, 1);
    ullage_run_advance(stage.model, stage.run, 60.0);
    snapshot_take(&now, stage.model, stage.run, 0.0);
    assert_int_equal(plan_ahead(&plan, &now, ahead, 16), 0);
    snapshot_free(&now);
    plan_free(&plan);
    stage_close(&stage);
}

static void axes_end_round(void **state)
{
    (void)state;
    for (double end = 0.03; end < 1e6; end *= 1.37) {
        double tick;
        const double whole = clock_whole(end, &tick);
        assert_true(whole >= end * (1.0 - 1e-9) && whole <= end + tick);
        assert_true(whole <= 10.0 * tick * (1.0 + 1e-9));
        assert_near("a whole number of ticks", whole / tick, round(whole / tick), 1e-6);
    }
}

static void traces_follow_the_run(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    struct traces traces;
    traces_make(&traces, stage.model);
    ullage_run_advance(stage.model, stage.run, 10.0);
    traces_take(&traces, stage.run);
    traces_take(&traces, stage.run); /* nothing twice */
    assert_int_equal(traces.rows, ullage_run_samples(stage.run));
    ullage_run_advance(stage.model, stage.run, 20.0);
    traces_take(&traces, stage.run);
    assert_int_equal(traces.rows, ullage_run_samples(stage.run));
    traces_free(&traces);
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(steps_done_and_to_come), cmocka_unit_test(axes_end_round),
                                       cmocka_unit_test(traces_follow_the_run)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
