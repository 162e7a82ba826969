/* tests/unit/report/figure.c  Numbers as a person says them. What is wanted was worked out by hand: inches by 25.4 mm,
 * inches of water by 249.08891 Pa. */
#include "report/figure.h"

#include "support/near.h"
#include "ullage.h"

static const struct {
    double value;
    int dimension;
    enum figure_units units;
    const char *want;
} figures[] = {
    {3000.0, ULLAGE_PRESSURE, FIGURE_SHOP, "3.00 kPa (12.0 inH2O)"},
    {-3000.0, ULLAGE_PRESSURE, FIGURE_SHOP, "-3.00 kPa (-12.0 inH2O)"},
    {14.0 * 249.08891, ULLAGE_PRESSURE, FIGURE_SHOP, "3.49 kPa (14.0 inH2O)"},
    {50.0, ULLAGE_PRESSURE, FIGURE_SHOP, "50.0 Pa (0.201 inH2O)"},
    {101325.0, ULLAGE_PRESSURE, FIGURE_SHOP, "101.3 kPa"},
    {99960.0, ULLAGE_PRESSURE, FIGURE_SHOP, "99.96 kPa"},
    {50e3, ULLAGE_PRESSURE, FIGURE_SHOP, "50.0 kPa"},
    {0.0, ULLAGE_PRESSURE, FIGURE_SHOP, "0 Pa"},
    {1.5, ULLAGE_PRESSURE, FIGURE_SHOP, "1.50 Pa"},
    {115.0, ULLAGE_PRESSURE, FIGURE_SHOP, "115 Pa (0.462 inH2O)"},
    {3000.0, ULLAGE_PRESSURE, FIGURE_SI, "3000 Pa"},
    {0.020 * 0.0254, ULLAGE_LENGTH, FIGURE_SHOP, "0.51 mm (0.020 in)"},
    {2.5e-3, ULLAGE_LENGTH, FIGURE_SHOP, "2.50 mm (0.098 in)"},
    {1e-4, ULLAGE_LENGTH, FIGURE_SHOP, "0.10 mm (0.004 in)"},
    {0.04e-3, ULLAGE_LENGTH, FIGURE_SHOP, "0.04 mm (0.00157 in)"},
    {38e-3, ULLAGE_LENGTH, FIGURE_SHOP, "38 mm (1.5 in)"},
    {1.5, ULLAGE_LENGTH, FIGURE_SHOP, "1.50 m"},
    {0.22, ULLAGE_LENGTH, FIGURE_SHOP, "220 mm"},
    {5e-4, ULLAGE_LENGTH, FIGURE_SI, "0.0005 m"},
    {0.57e-3 / 60.0, ULLAGE_VOLUME_FLOW, FIGURE_SHOP, "0.57 L/min"},
    {0.01e-3 / 60.0, ULLAGE_VOLUME_FLOW, FIGURE_SHOP, "0.010 L/min"},
    {15e-3 / 60.0, ULLAGE_VOLUME_FLOW, FIGURE_SHOP, "15.0 L/min"},
    {0.0, ULLAGE_VOLUME_FLOW, FIGURE_SHOP, "0 L/min"},
    {293.15, ULLAGE_TEMPERATURE, FIGURE_SHOP, "20.0 °C"},
    {293.15, ULLAGE_TEMPERATURE, FIGURE_SI, "293.15 K"},
    {45e-3, ULLAGE_VOLUME, FIGURE_SHOP, "45.0 L"},
    {7.4156e-4, ULLAGE_MASS_FLOW, FIGURE_SHOP, "742 mg/s"},
    {0.0412, ULLAGE_AMOUNT, FIGURE_SHOP, "0.0412 mol"},
    {56.27, ULLAGE_TIME, FIGURE_SHOP, "56.3 s"},
    {0.6697, ULLAGE_NUMBER, FIGURE_SHOP, "0.670"},
    {9.996, ULLAGE_NUMBER, FIGURE_SHOP, "10.0"},
    {1e-7, ULLAGE_NUMBER, FIGURE_SHOP, "1e-07"},
    {2.0, ULLAGE_POWERS(3, 1, 0, 0, -2), FIGURE_SHOP, NULL}, /* no name of its own: whatever it is, it says something */
};

static void figures_read_as_told(void **unused)
{
    (void)unused;
    char room[FIGURE_ROOM];
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        const char *got = figure_value(figures[i].value, figures[i].dimension, figures[i].units, room);
        if (figures[i].want)
            assert_string_equal(got, figures[i].want);
        else
            assert_true(strlen(got) > 1);
    }
}

static void what_is_not_known_is_told(void **unused)
{
    (void)unused;
    char room[FIGURE_ROOM];
    assert_string_equal(figure_value((double)NAN, ULLAGE_PRESSURE, FIGURE_SHOP, room), "not known");
    assert_string_equal(figure_value((double)NAN, ULLAGE_PRESSURE, FIGURE_SI, room), "not known");
}

static void huge_and_tiny_fit_the_room(void **unused)
{
    (void)unused;
    static const int dimension[] = {ULLAGE_PRESSURE, ULLAGE_LENGTH,      ULLAGE_VOLUME_FLOW, ULLAGE_TIME,
                                    ULLAGE_NUMBER,   ULLAGE_TEMPERATURE, ULLAGE_ENERGY};
    static const double value[] = {1.7976931348623157e308, -1.7976931348623157e308, 4.9e-324, 1e15, -1e-15, HUGE_VAL};
    for (size_t d = 0; d < sizeof dimension / sizeof dimension[0]; d++)
        for (size_t v = 0; v < sizeof value / sizeof value[0]; v++) {
            char room[FIGURE_ROOM + 1];
            room[FIGURE_ROOM] = '#';
            assert_true(strlen(figure_value(value[v], dimension[d], FIGURE_SHOP, room)) < FIGURE_ROOM);
            assert_true(strlen(figure_plain(value[v], dimension[d], room)) < FIGURE_ROOM);
            assert_int_equal(room[FIGURE_ROOM], '#');
        }
}

static const struct {
    double seconds;
    const char *clock, *span;
} moments[] = {
    {0.0, "0:00", "0 s"},       {0.4, "0:00", "0.40 s"},          {52.0, "0:52", "52.0 s"},
    {59.6, "1:00", "59.6 s"},   {151.0, "2:31", "2 min 31 s"},    {120.0, "2:00", "2 min"},
    {3599.9, "1:00:00", "1 h"}, {3751.0, "1:02:31", "1 h 3 min"}, {86400.0, "24:00:00", "24 h"},
};

static void moments_and_spans_read_as_told(void **unused)
{
    (void)unused;
    char room[FIGURE_ROOM];
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; i++) {
        assert_string_equal(figure_clock(moments[i].seconds, room), moments[i].clock);
        assert_string_equal(figure_span(moments[i].seconds, room), moments[i].span);
    }
    assert_string_equal(figure_span((double)INFINITY, room), "without end");
}

static void times_and_words(void **unused)
{
    (void)unused;
    char room[FIGURE_ROOM];
    assert_string_equal(figure_times(2.0, room), "twice as");
    assert_string_equal(figure_times(0.5, room), "half as");
    assert_string_equal(figure_times(1.4, room), "1.4 times as");
    assert_string_equal(figure_words("vent-valve", true, room), "Vent valve");
    assert_string_equal(figure_words("half_slit", false, room), "half slit");
    assert_string_equal(figure_words("", true, room), "");
}

static void plain_figures_are_short(void **unused)
{
    (void)unused;
    char room[FIGURE_ROOM];
    assert_string_equal(figure_plain(8e-3, ULLAGE_LENGTH, room), "8 mm");
    assert_string_equal(figure_plain(45e-3, ULLAGE_VOLUME, room), "45 L");
    assert_string_equal(figure_plain(0.2e-6, ULLAGE_GIVE, room), "0.2 L/kPa");
    assert_string_equal(figure_plain(0.5, ULLAGE_NUMBER, room), "0.5");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_read_as_told),
        cmocka_unit_test(what_is_not_known_is_told),
        cmocka_unit_test(huge_and_tiny_fit_the_room),
        cmocka_unit_test(moments_and_spans_read_as_told),
        cmocka_unit_test(times_and_words),
        cmocka_unit_test(plain_figures_are_short),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
