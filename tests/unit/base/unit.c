/* tests/unit/base/unit.c  How quantities are read, and what is said of those that cannot be. */
#include "base/unit.h"

#include "support/near.h"

#include <float.h>

static const struct {
    const char *text;
    int dimension;
    double si;
} good[] = {
    {"0.020 in", ULLAGE_LENGTH, 0.508e-3},
    {"14inH2O", ULLAGE_PRESSURE, 14 * 249.08891},
    {" 3.0 kPa ", ULLAGE_PRESSURE, 3000.0},
    {"-3.5e2 Pa", ULLAGE_PRESSURE, -350.0},
    {"+5 s", ULLAGE_TIME, 5.0},
    {".5 mm", ULLAGE_LENGTH, 0.5e-3},
    {"5. mm", ULLAGE_LENGTH, 5e-3},
    {"40 %", ULLAGE_NUMBER, 0.4},
    {"400 ppm", ULLAGE_NUMBER, 4e-4},
    {"7", ULLAGE_NUMBER, 7.0},
    {"0.2 L/kPa", ULLAGE_GIVE, 2e-7},
    {"15 L/min", ULLAGE_VOLUME_FLOW, 15e-3 / 60.0},
    {"15 L / min", ULLAGE_VOLUME_FLOW, 15e-3 / 60.0},
    {"100 cm3/min", ULLAGE_VOLUME_FLOW, 100e-6 / 60.0},
    {"2 m^2", ULLAGE_AREA, 2.0},
    {"4 g/h", ULLAGE_MASS_FLOW, 4e-3 / 3600.0},
    {"5 W/m2/K", ULLAGE_HEAT_TRANSFER, 5.0},
    {"5 W/m2/degC", ULLAGE_HEAT_TRANSFER, 5.0},
    {"9 W/m2/degF", ULLAGE_HEAT_TRANSFER, 9.0 * 1.8},
    {"66 g/mol", ULLAGE_MOLAR_MASS, 66e-3},
    {"2 1/h", ULLAGE_RATE, 2.0 / 3600.0},
    {"1500 rpm", ULLAGE_RATE, 25.0},
    {"900 J/K", ULLAGE_HEAT_CAPACITY, 900.0},
    {"3 µm", ULLAGE_LENGTH, 3e-6},
    {"20 °C", ULLAGE_TEMPERATURE, 293.15},
    {"1e-310 m", ULLAGE_LENGTH, 0.0},
    {"5 L/s/Pa/m", ULLAGE_POWERS(3, -1, 1, 0, 0), 5e-3},
};

static void quantities_are_read(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        double si = -1.0, again = -1.0;
        int dimension = -1;
        char room[160];
        const char *sentence = ullage_quantity_read(good[i].text, &si, &dimension);
        if (sentence)
            fail_msg("%s: %s", good[i].text, sentence);
        assert_int_equal(dimension, good[i].dimension);
        assert_near(good[i].text, si, good[i].si, 4.0 * DBL_EPSILON * fabs(good[i].si) + DBL_MIN);
        assert_null(unit_read(good[i].text, good[i].dimension, &again, room));
        assert_true(again == si);
    }
}

static const struct {
    const char *text;
    int dimension;
    const char *sentence;
} bad[] = {
    {"30", ULLAGE_VOLUME, "30 has no unit; write a volume like 45 L"},
    {"0.5 s", ULLAGE_LENGTH, "0.5 s is a time; write a length like 0.5 mm"},
    {"5 mm", ULLAGE_NUMBER, "5 mm is a length; write a number like 0.5 or 40 %"},
    {"5 m4", ULLAGE_LENGTH, "m4 is no unit; did you mean m?"},
    {"14 inHO2", ULLAGE_PRESSURE, "inHO2 is no unit; did you mean inH2O?"},
    {"14 kpa", ULLAGE_PRESSURE, "kpa is no unit; did you mean kPa?"},
    {"14 furlongs", ULLAGE_LENGTH, "furlongs is no unit; write a length like 0.5 mm"},
    {"1,5 mm", ULLAGE_LENGTH, "1,5 mm has a comma; write decimals with a point, like 0.5"},
    {"", ULLAGE_TIME, "nothing stands here; write a time like 10 s"},
    {"soon", ULLAGE_TIME, "soon is no number; write a time like 10 s"},
    {"nan s", ULLAGE_TIME, "nan s is no number; write a time like 10 s"},
    {"inf s", ULLAGE_TIME, "inf s is no number; write a time like 10 s"},
    {"0x10 s", ULLAGE_TIME, "x10 s is no unit; write a time like 10 s"},
    {"- 5 s", ULLAGE_TIME, "- 5 s is no number; write a time like 10 s"},
    {"1e400 mm", ULLAGE_LENGTH, "1e400 mm is too large to be real; write a length like 0.5 mm"},
    {"1e306 km", ULLAGE_LENGTH, "1e306 km is too large to be real; write a length like 0.5 mm"},
    {"5 mm/", ULLAGE_LENGTH, "mm/ is no unit; write a length like 0.5 mm"},
    {"5 /s", ULLAGE_RATE, "/s is no unit; write a rate like 3 1/h"},
    {"5 1", ULLAGE_NUMBER, "1 is no unit; write a number like 0.5 or 40 %"},
    {"5 %2", ULLAGE_NUMBER, "%2 is no unit; did you mean %?"},
    {"5 kg/m3", ULLAGE_POWERS(0, 2, 0, 0, 0), "5 kg/m3 is a density; write it in kg^2"},
    {"5 kg2/s", ULLAGE_LENGTH, "5 kg2/s is in kg^2 s^-1; write a length like 0.5 mm"},
};

static void mistakes_are_told(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char room[160];
        double si = 42.0;
        const char *sentence = unit_read(bad[i].text, bad[i].dimension, &si, room);
        assert_non_null(sentence);
        assert_string_equal(sentence, bad[i].sentence);
        assert_true(si == 42.0); /* left alone */
    }
}

/* Powers beyond what a dimension holds are refused, not wrapped round into another dimension. */
static void powers_do_not_wrap(void **unused)
{
    (void)unused;
    double si = 0.0;
    int dimension = 0;
    assert_null(ullage_quantity_read("1 L3/m", &si, &dimension)); /* m^8 */
    assert_non_null(ullage_quantity_read("1 L3/Pa3/Pa3/Pa3", &si, &dimension));
    assert_non_null(ullage_quantity_read("1 Pa3/L3/L3", &si, &dimension));
    assert_non_null(ullage_quantity_read("1 1/L3/L3", &si, &dimension));
}

static void a_long_word_fits_its_sentence(void **unused)
{
    (void)unused;
    char text[4000] = "5 ", room[160];
    double si = 0.0;
    for (size_t i = 2; i + 3 < sizeof text; i += 2)
        memcpy(text + i, "é", 3); /* two bytes and the end */
    for (int dimension = -3; dimension < 40; dimension++) {
        const char *sentence = unit_read(text, dimension, &si, room);
        assert_non_null(sentence);
        assert_true(strlen(sentence) < sizeof room);
    }
}

/* Every unit of the list reads as itself, and no name stands twice. */
static void the_list_reads_back(void **unused)
{
    (void)unused;
    int count = 0;
    const struct ullage_unit *unit = ullage_units(&count);
    assert_true(count > 50);
    for (int i = 0; i < count; i++) {
        char text[40];
        if (strcmp(unit[i].name, "1") == 0) /* only above a stroke */
            continue;
        double one = 0.0, two = 0.0;
        int dimension = -1;
        snprintf(text, sizeof text, "1 %s", unit[i].name);
        assert_null(ullage_quantity_read(text, &one, &dimension));
        assert_int_equal(dimension, (int)unit[i].dimension);
        text[0] = '2';
        assert_null(ullage_quantity_read(text, &two, &dimension));
        assert_near(unit[i].name, two - one, unit[i].factor, 4.0 * DBL_EPSILON * fabs(two));
        assert_near(unit[i].name, 2.0 * one - two, unit[i].offset, 8.0 * DBL_EPSILON * fabs(two));
        assert_true(unit[i].factor > 0.0 && strlen(unit[i].meaning) > 0);
        for (int k = 0; k < i; k++)
            assert_string_not_equal(unit[k].name, unit[i].name);
    }
}

static const struct {
    int dimension;
    const char *name;
} names[] = {
    {ULLAGE_NUMBER, "1"},
    {ULLAGE_PRESSURE, "Pa"},
    {ULLAGE_VOLUME_FLOW, "m3/s"},
    {ULLAGE_HEAT_TRANSFER, "W/m2/K"},
    {ULLAGE_POWERS(2, 0, -1, 0, 0), "m^2 s^-1"},
    {ULLAGE_POWERS(-3, 0, 0, 0, 1), "m^-3 mol"},
    {ULLAGE_POWERS(-15, -15, -15, -15, -15), "m^-15 kg^-15 s^-15 K^-15 mol^-15"},
    {ULLAGE_POWERS(15, 15, 15, 15, 15), "m^15 kg^15 s^15 K^15 mol^15"},
};

static void dimensions_have_names(void **unused)
{
    (void)unused;
    char room[64];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        assert_string_equal(ullage_dimension_name(names[i].dimension, room), names[i].name);
}

static void numbers_end_where_they_end(void **unused)
{
    (void)unused;
    const char *text = "12.5e3kPa";
    assert_ptr_equal(number_end(text, false), text + 6);
    text = "2e";
    assert_ptr_equal(number_end(text, false), text + 1);
    text = "3e+ 4";
    assert_ptr_equal(number_end(text, false), text + 1);
    text = "-4";
    assert_null(number_end(text, false));
    assert_ptr_equal(number_end(text, true), text + 2);
    assert_null(number_end(".", true));
    assert_null(number_end("", true));
    assert_null(number_end("e5", true));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quantities_are_read),        cmocka_unit_test(mistakes_are_told),
        cmocka_unit_test(powers_do_not_wrap),         cmocka_unit_test(a_long_word_fits_its_sentence),
        cmocka_unit_test(the_list_reads_back),        cmocka_unit_test(dimensions_have_names),
        cmocka_unit_test(numbers_end_where_they_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
