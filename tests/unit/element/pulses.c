/* tests/unit/element/pulses.c  A valve that is set to a share: its mean is that share, averaged or pulse by pulse, and
 * each edge is where the clock says. */
#include "support/run_text.h"

/* A choked valve between two boundaries: its flow is the same at every moment, times its opening. */
#define ACROSS(valve, steps)                                                                                           \
    "ullage: scenario/1\nname: across\nsystem:\n  parts:\n    purge: {type: valve, from: air, to: intake, bore: 3 "    \
    "mm" valve "}\n    intake: {type: manifold, pressure: 35 kPa}\n"                                                   \
    "    v: {type: vessel, volume: 1 L}\nprocedure:\n  steps:\n    - read: {full: purge.standard_flow}\n" steps

/* m3 at 20 degC and 101325 Pa that came in until the end. */
static double passed(const struct text_run *ran)
{
    for (int k = 0; k < ullage_model_opening_rows(ran->model); k++) {
        const struct ullage_opening_row row = ullage_run_opening(ran->model, ran->run, k);
        if (row.in > 0.0)
            return row.in * 8.31446261815324 * 293.15 / 101325.0;
    }
    return 0.0;
}

static double passes(const char *text, double lasts)
{
    struct text_run ran = text_run(text);
    const double mean = passed(&ran) / lasts / text_reading(&ran, "full");
    text_close(&ran);
    return mean;
}

#define FOR_TWO(share) "    - set: {purge: " share "}\n    - wait: {for: 2 s}\n"

/* Fourteen periods or twenty: whole ones. A command in the middle of one waits for the next. */
static void the_mean_is_the_duty(void **unused)
{
    (void)unused;
    assert_near("averaged", passes(ACROSS("", FOR_TWO("40 %")), 2.0), 0.40, 1e-9);
    assert_near("pulses", passes(ACROSS(", pulses: 10 Hz", FOR_TWO("40 %")), 2.0), 0.40, 1e-9);
    assert_near("edges", passes(ACROSS(", pulses: 10 Hz, closes_in: 10 ms", FOR_TWO("40 %")), 2.0), 0.40, 1e-9);
    assert_near("no time for edges", passes(ACROSS(", pulses: 10 Hz, closes_in: 80 ms", FOR_TWO("5 %")), 2.0), 0.05,
                1e-9);
    assert_near("slow clock", passes(ACROSS(", pulses: 7 Hz, closes_in: 9 ms", FOR_TWO("30 %")), 2.0), 0.30, 1e-9);
    assert_near("shut", passes(ACROSS(", pulses: 10 Hz", FOR_TWO("shut")), 2.0), 0.0, 1e-9);
    const char *next = ACROSS(", pulses: 10 Hz", "    - wait: {for: 40 ms}\n    - set: {purge: shut}\n"
                                                 "    - wait: {for: 960 ms}\n");
    assert_near("from the next period on", passes(next, 1.0), 0.1, 1e-9);
}

static double opening_at(struct text_run *ran, double time, double *value)
{
    assert_int_equal(ullage_run_advance(ran->model, ran->run, time), ULLAGE_PAUSED);
    ullage_run_values(ran->model, ran->run, value, NULL);
    return value[ullage_model_find_channel(ran->model, "purge.open")];
}

static void edges_are_where_the_clock_says(void **unused)
{
    (void)unused;

    static const struct {
        double time, open;
    } want[] = {{0.05, 0.0},  {0.155, 0.0}, {0.202, 0.25}, {0.206, 0.75}, {0.21, 1.0},    {0.229, 1.0},
                {0.234, 0.5}, {0.239, 0.0}, {0.299, 0.0},  {0.304, 0.5},  {0.335, 0.375}, {0.35, 0.0}};
    struct text_run ran = {text_model(ACROSS(", normally: shut, pulses: 10 Hz, closes_in: 8 ms",
                                             "    - wait: {for: 150 ms}\n    - set: {purge: 30 %}\n"
                                             "    - wait: {for: 1 s}\n")),
                           NULL};
    double *value = calloc((size_t)ullage_model_channels(ran.model), sizeof *value);
    ran.run = ullage_run_create(ran.model, NULL);
    for (size_t k = 0; k < sizeof want / sizeof want[0]; k++) {
        char name[32];
        snprintf(name, sizeof name, "at %g s", want[k].time);
        assert_near(name, opening_at(&ran, want[k].time, value), want[k].open, 1e-9);
    }
    free(value);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_mean_is_the_duty),
                                       cmocka_unit_test(edges_are_where_the_clock_says)};
    return cmocka_run_group_tests_name("unit/element/pulses", tests, NULL, NULL) != 0;
}
