/* tests/unit/report/csv.c  Numbers in files read back to the same bits, and are no longer than that takes. */
#include "report/csv.h"

#include "support/near.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_read_back_to_the_same_bits),
        cmocka_unit_test(short_numbers_stay_short),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
