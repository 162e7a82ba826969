/* tests/outside/units.c  Factors to SI against the guide of the US institute of standards and the definitions behind it.
 * Source: NIST Special Publication 811 (2008), appendix B.8, "factors for units listed alphabetically"; printed to seven
 * digits, exact where `exact`. Rows from memory. */
#include "support/near.h"
#include "ullage.h"

#include <float.h>
#include <stdbool.h>

static const struct {
    const char *text;
    int dimension;
    double printed;
    bool exact;
} rows[] = {
    {"1 atm", ULLAGE_PRESSURE, 1.01325e5, true},
    {"1 bar", ULLAGE_PRESSURE, 1.0e5, true},
    {"1 psi", ULLAGE_PRESSURE, 6.894757e3, false},
    {"1 inH2O", ULLAGE_PRESSURE, 2.490889e2, false}, /* inch of water, conventional */
    {"1 mmH2O", ULLAGE_PRESSURE, 9.80665, true},     /* millimeter of water, conventional */
    {"1 inHg", ULLAGE_PRESSURE, 3.386389e3, false},  /* inch of mercury, conventional */
    {"1 mmHg", ULLAGE_PRESSURE, 1.333224e2, false},  /* millimeter of mercury, conventional */
    {"1 in", ULLAGE_LENGTH, 2.54e-2, true},
    {"1 ft", ULLAGE_LENGTH, 3.048e-1, true},
    {"1 in2", ULLAGE_AREA, 6.4516e-4, true},
    {"1 in3", ULLAGE_VOLUME, 1.638706e-5, false},
    {"1 ft3", ULLAGE_VOLUME, 2.831685e-2, false},
    {"1 gal", ULLAGE_VOLUME, 3.785412e-3, false},
    {"1 qt", ULLAGE_VOLUME, 9.463529e-4, false},
    {"1 lb", ULLAGE_MASS, 4.535924e-1, false},
    {"1 h", ULLAGE_TIME, 3.6e3, true},
    {"1 day", ULLAGE_TIME, 8.64e4, true},
    {"1 mph", ULLAGE_SPEED, 4.4704e-1, true},
    {"1 km/h", ULLAGE_SPEED, 2.777778e-1, false},
    {"1 gal/min", ULLAGE_VOLUME_FLOW, 6.309020e-5, false},
    {"1 ft3/min", ULLAGE_VOLUME_FLOW, 4.719474e-4, false},
    {"1 lb/h", ULLAGE_MASS_FLOW, 1.259979e-4, false},
    {"1 lb/ft3", ULLAGE_DENSITY, 1.601846e1, false},
};

static void factors_are_the_printed_ones(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double si = 0.0;
        int dimension = 0;
        assert_null(ullage_quantity_read(rows[i].text, &si, &dimension));
        assert_int_equal(dimension, rows[i].dimension);
        const double last_digit = pow(10.0, floor(log10(rows[i].printed)) - 6.0);
        const double rounding = 4.0 * DBL_EPSILON * rows[i].printed; /* of a product of a few factors */
        assert_near(rows[i].text, si, rows[i].printed, rows[i].exact ? rounding : 0.5 * last_digit);
    }
}

/* The same place: T/K = t/degC + 273.15 = (t/degF + 459.67)/1.8; exact. */
static const struct {
    const char *text;
    double kelvin;
} temperatures[] = {
    {"0 degC", 273.15},  {"-273.15 degC", 0.0}, {"32 degF", 273.15},  {"212 degF", 373.15},
    {"68 degF", 293.15}, {"-40 degF", 233.15},  {"-40 degC", 233.15}, {"-459.67 degF", 0.0},
};

static void degrees_have_their_offset(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof temperatures / sizeof temperatures[0]; i++) {
        double si = 0.0;
        int dimension = 0;
        assert_null(ullage_quantity_read(temperatures[i].text, &si, &dimension));
        assert_int_equal(dimension, ULLAGE_TEMPERATURE);
        assert_near(temperatures[i].text, si, temperatures[i].kelvin, 4.0 * DBL_EPSILON * 373.15);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_are_the_printed_ones),
        cmocka_unit_test(degrees_have_their_offset),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
