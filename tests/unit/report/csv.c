/* tests/unit/report/csv.c  Numbers in files read back to the same bits, and are no longer than that takes. */
#include "report/csv.h"

#include "support/told.h"

#include <float.h>

static void reads_back(double value)
{
    char room[NUMBER_ROOM];
    const double back = strtod(number_exact(value, room), NULL);
    if (memcmp(&back, &value, sizeof value) != 0)
        fail_msg("%a became %s, which reads as %a", value, room, back);
    assert_true(strlen(room) < NUMBER_ROOM - 1);
}

static void numbers_read_back_to_the_same_bits(void **unused)
{
    (void)unused;
    static const double edge[] = {0.0,      -0.0,      DBL_MIN,  DBL_TRUE_MIN, DBL_MAX,
                                  -DBL_MAX, 1.0 / 3.0, 101325.0, 0.1,          9007199254740993.0};
    for (size_t i = 0; i < sizeof edge / sizeof edge[0]; i++)
        reads_back(edge[i]);
    uint64_t stream = 12;
    for (int i = 0; i < 100000; i++) {
        reads_back(near_draw_decades(&stream, 1e-12, 1e12));
        reads_back(near_draw_between(&stream, -1.0, 1.0));
    }
}

static void short_numbers_stay_short(void **unused)
{
    (void)unused;
    char room[NUMBER_ROOM];
    assert_string_equal(number_exact(0.1, room), "0.1");
    assert_string_equal(number_exact(101325.0, room), "101325");
    assert_string_equal(number_exact(-2.5e-7, room), "-2.5e-07");
    assert_string_equal(number_exact((double)NAN, room), "nan");
    assert_string_equal(number_exact((double)INFINITY, room), "inf");
}

static void rows_are_the_samples_of_the_run(void **unused)
{
    (void)unused;
    struct told told =
        told_run("ullage: scenario/1\nname: rows\n"
                 "system:\n  parts:\n"
                 "    vessel: {type: vessel, volume: 1 L}\n"
                 "    leak: {type: hole, from: vessel, to: air, diameter: 1 mm}\n"
                 "start:\n  vessel: {gauge_pressure: 3 kPa}\n"
                 "procedure:\n  steps:\n    - wait: {for: 5 s}\n"
                 "record: {every: 0.5 s, channels: [vessel.gauge_pressure, leak.standard_flow, leak.open]}\n");
    struct told_page page;
    told_open(&page);
    csv_write(page.to, &told.experiment, NULL);
    char *text = told_close(&page);
    char *line = strtok(text, "\n");
    assert_string_equal(line, "time_s,vessel.gauge_pressure_Pa,leak.standard_flow_m3/s,leak.open_1");
    for (int row = 0; row < ullage_run_samples(told.run); row++) {
        line = strtok(NULL, "\n");
        assert_non_null(line);
        for (int column = 0; column < 4; column++) {
            const double got = strtod(line, &line);
            assert_memory_equal(&got, &ullage_run_sample(told.run, row)[column], sizeof got);
            assert_int_equal(*line++, column < 3 ? ',' : '\0');
        }
    }
    assert_null(strtok(NULL, "\n"));
    assert_int_equal(ullage_run_samples(told.run), 11);
    free(text);
    told_free(&told);
}

static void a_stop_ends_between_rows(void **unused)
{
    (void)unused;
    struct told told = told_run("ullage: scenario/1\nname: rows\n"
                                "system:\n  parts:\n    vessel: {type: vessel, volume: 1 L}\n"
                                "procedure:\n  steps:\n    - wait: {for: 5 s}\n"
                                "record: {every: 0.5 s, channels: [vessel.pressure]}\n");
    struct told_page page;
    const volatile sig_atomic_t stop = 1;
    told_open(&page);
    csv_write(page.to, &told.experiment, &stop);
    char *text = told_close(&page);
    assert_string_equal(text, "time_s,vessel.pressure_Pa\n");
    free(text);
    told_free(&told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_read_back_to_the_same_bits),
        cmocka_unit_test(short_numbers_stay_short),
        cmocka_unit_test(rows_are_the_samples_of_the_run),
        cmocka_unit_test(a_stop_ends_between_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
