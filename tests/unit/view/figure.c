/* tests/unit/view/figure.c  Numbers as a person reads them. Conversions by hand from the definitions of the units. */
#include "view/figure.h"

#include "support/near.h"
#include "ullage.h"

static const struct {
    double si;
    int dimension;
    enum units units;
    const char *text;
} rows[] = {
    {3000.0, ULLAGE_PRESSURE, UNITS_METRIC, "3.00 kPa"},
    {-58300.0, ULLAGE_PRESSURE, UNITS_METRIC, "−58.3 kPa"},
    {3.0, ULLAGE_PRESSURE, UNITS_METRIC, "3.0 Pa"},
    {-20.0, ULLAGE_PRESSURE, UNITS_METRIC, "−20 Pa"},
    {100.0, ULLAGE_PRESSURE, UNITS_METRIC, "0.10 kPa"},
    {0.0046e-3 / 60.0, ULLAGE_VOLUME_FLOW, UNITS_METRIC, "4.6 mL/min"},
    {0.0, ULLAGE_PRESSURE, UNITS_METRIC, "0.00 kPa"},
    {-1e-9, ULLAGE_PRESSURE, UNITS_METRIC, "0.00 kPa"},
    {14.0 * 249.08891, ULLAGE_PRESSURE, UNITS_INCH, "14.0 inH₂O"}, /* the unit's definition in the units list */
    {0.020 * 0.0254, ULLAGE_LENGTH, UNITS_INCH, "0.020 in"},
    {0.020 * 0.0254, ULLAGE_LENGTH, UNITS_METRIC, "0.51 mm"},
    {0.57e-3 / 60.0, ULLAGE_VOLUME_FLOW, UNITS_METRIC, "0.57 L/min"},
    {14.2e-3 / 60.0, ULLAGE_VOLUME_FLOW, UNITS_METRIC, "14.2 L/min"},
    {100e-3 / 60.0, ULLAGE_VOLUME_FLOW, UNITS_METRIC, "100 L/min"},
    {293.15, ULLAGE_TEMPERATURE, UNITS_METRIC, "20.0 °C"},
    {293.15, ULLAGE_TEMPERATURE, UNITS_INCH, "68.0 °F"},
    {293.15, ULLAGE_TEMPERATURE, UNITS_SI, "293.1 K"},
    {0.412, ULLAGE_NUMBER, UNITS_METRIC, "41 %"},
    {0.2 / 60.0, ULLAGE_POWERS(0, 0, -1, 1, 0), UNITS_METRIC, "0.20 K/min"},
};

static void figures_read_well(void **state)
{
    (void)state;
    char text[64];
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        assert_string_equal(figure_text(rows[k].si, rows[k].dimension, rows[k].units, text, sizeof text), rows[k].text);
    assert_string_equal(figure_make((double)NAN, ULLAGE_PRESSURE, UNITS_METRIC).number, "–");
}

static void clocks_read_well(void **state)
{
    (void)state;
    char text[32];
    assert_string_equal(clock_text(134.0, 180.0, text, sizeof text), "2:14");
    assert_string_equal(clock_text(14.0 * 3600.0 + 20.0 * 60.0, 86400.0, text, sizeof text), "14:20 h");
    assert_string_equal(clock_text(3.25, 5.0, text, sizeof text), "3.2 s");
    assert_string_equal(rate_text(3600.0, text, sizeof text), "3,600× real time");
    assert_string_equal(rate_text(0.1, text, sizeof text), "0.1× real time");
}

static void numbers_show_their_step(void **state)
{
    (void)state;
    char text[32];
    assert_string_equal(number_text(-2.0, 1.0, text, sizeof text), "−2");
    assert_string_equal(number_text(0.5, 0.5, text, sizeof text), "0.5");
    assert_string_equal(number_text(1.0, 0.02, text, sizeof text), "1.00");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(figures_read_well), cmocka_unit_test(clocks_read_well),
                                       cmocka_unit_test(numbers_show_their_step)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
