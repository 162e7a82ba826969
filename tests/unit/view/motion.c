/* tests/unit/view/motion.c  Speeds of marks, and what flows in each stretch of a branched pipe. */
#include "view/motion.h"

#include "support/stage.h"

#include <stdbool.h>

static double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.58 * size * (double)strlen(text);
}

/* The design's own table of the law v = 42 log10(1 + u / 0.01), in whole u/s; 0.001 m/s by hand: 42 log10(1.1) = 1.74. */
static void speeds_are_the_designs(void **state)
{
    (void)state;
    static const double rows[][2] = {{0.001, 2.0}, {0.01, 13.0},  {0.1, 44.0},
                                     {1.0, 84.0},  {10.0, 126.0}, {60.0, 159.0}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        assert_near("speed", motion_speed(rows[k][0]), rows[k][1], 0.5);
        assert_near("backward", motion_speed(-rows[k][0]), -rows[k][1], 0.5);
    }
    assert_near("at most", motion_speed(1e6), 200.0, 1e-12);
    /* half a spacing of 38 u in one frame of 1/60 s would look like standing or running back */
    assert_true(motion_speed(1e6) / 60.0 < 0.5 * 38.0);
}

static const char branched[] = "ullage: scenario/1\nname: branched\n"
                               "system:\n  parts:\n"
                               "    near: {type: vessel, volume: 20 L}\n"
                               "    line: {type: line, from: near, to: far, bore: 8 mm, length: 2 m}\n"
                               "    far: {type: vessel, volume: 5 L}\n"
                               "    leak: {type: hole, from: line, to: air, diameter: 1 mm}\n"
                               "start: {near: {gauge_pressure: 3 kPa}}\n"
                               "procedure:\n  steps:\n    - wait: {for: 60 s}\n";

static double flow_in(const struct plate *plate, const struct cast *cast, const double *value, int section)
{
    const struct plate_section *at = &plate->section[section];
    double flow = cast_value(cast, value, plate->pipe[at->pipe].part, STANDARD_FLOW);
    for (int k = 0; k < at->terms; k++)
        flow += at->term[k].times * cast_value(cast, value, at->term[k].part, STANDARD_FLOW);
    return flow;
}

/* What comes in and does not go on leaves by the hole: exact, whatever the line's own flow is told to be. */
static void branches_are_booked(void **state)
{
    (void)state;
    struct stage stage = stage_text(branched);
    struct plate plate;
    struct cast cast;
    assert_true(plate_make(&plate, stage.model, (struct text_measure){width_of, NULL}, 20.0, NULL));
    assert_true(cast_make(&cast, stage.model));
    assert_int_equal(plate.sections, 2);
    ullage_run_advance(stage.model, stage.run, 30.0);
    double *value = calloc((size_t)cast.channels, sizeof *value);
    assert_non_null(value);
    ullage_run_values(stage.model, stage.run, value, NULL);
    const double before = flow_in(&plate, &cast, value, 0), after = flow_in(&plate, &cast, value, 1);
    const double leak = cast_value(&cast, value, ullage_model_find_part(stage.model, "leak"), STANDARD_FLOW);
    assert_true(leak > 0.0);
    assert_near_share("lost on the way", before - after, leak, 1e-9);
    /* the two vessels empty together by now: gas flows towards the hole from both sides */
    assert_true(motion_of_section(&plate, &cast, value, 0) > 0.0);
    assert_true(motion_of_section(&plate, &cast, value, 1) < 0.0);
    free(value);
    cast_free(&cast);
    plate_free(&plate);
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(speeds_are_the_designs), cmocka_unit_test(branches_are_booked)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
