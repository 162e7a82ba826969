/* tests/outside/weather.c  Weather that changes by hand, against what is known of gas under a barometer. Gauge pressure is what there is
 * over the air around (definition). Ideal gas: p V = n R T, R = 8.314462618 J/mol/K (CODATA 2018, exact since 2019). Pressure by
 * altitude: US Standard Atmosphere 1976, which up to 32 km is ISO 2533:1975, geometric altitude, its printed table from memory. */
#include "support/run_text.h"

#define GAS 8.314462618 /* J/mol/K */
#define SHARE                                                                                                          \
    2e-6 /* of a pressure or an amount: the run's tolerance is 1e-6 a step, and sums of its errors are small */

/* A vessel, and what is done to the air around it. */
static struct text_run told(const char *parts, const char *by_hand, const char *reads)
{
    char text[3000];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nname: told\nassume: {heat: isothermal}\n"
             "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\n"
             "system:\n  parts:\n    vessel: {type: vessel, volume: 50 L}\n%s"
             "start: {vessel: {gas: air, gauge_pressure: 1 kPa}}\n"
             "by_hand:\n  - {at: 60 s, set: {%s}}\n"
             "procedure:\n  steps:\n    - wait: {for: 1 h}\n    - read: {%s}\n",
             parts, by_hand, reads);
    return text_run(text);
}

#define SEALED "    gauge: {type: gauge, of: vessel}\n"
#define OPEN "    mouth: {type: hole, from: vessel, to: air, diameter: 12 mm}\n"

/* The barometer falls by 20 hPa: a gauge on what is shut rises by as much, and what is in there does not feel it. */
static void a_gauge_feels_the_barometer(void **unused)
{
    (void)unused;
    static const double falls[] = {2000.0, 500.0, -1500.0};
    for (size_t k = 0; k < sizeof falls / sizeof falls[0]; k++) {
        char hand[100];
        snprintf(hand, sizeof hand, "surroundings.pressure: %.17g Pa ramp=20min", 101325.0 - falls[k]);
        struct text_run ran = told(SEALED, hand, "shown: gauge.gauge_pressure, inside: vessel.pressure");
        assert_near("gauge", text_reading(&ran, "shown") - 1000.0, falls[k], SHARE * 102325.0);
        assert_near("inside", text_reading(&ran, "inside"), 102325.0, SHARE * 102325.0);
        text_close(&ran);
    }
}

/* p / T stays where nothing can leave (Gay-Lussac). */
static void what_is_shut_warms_by_gay_lussac(void **unused)
{
    (void)unused;
    static const double celsius[] = {45.0, 21.0, -15.0};
    for (size_t k = 0; k < sizeof celsius / sizeof celsius[0]; k++) {
        char hand[100];
        snprintf(hand, sizeof hand, "surroundings.temperature: %g degC ramp=7min", celsius[k]);
        struct text_run ran = told(SEALED, hand, "inside: vessel.pressure");
        const double kelvin = 273.15 + celsius[k];
        assert_near_share("p/T", text_reading(&ran, "inside") / kelvin, 102325.0 / 293.15, SHARE);
        text_close(&ran);
    }
}

/* What of a gas leaves a vessel that is open: n = p V / (R T) before less the same after; and the books close. */
static void what_is_open_breathes(void **unused)
{
    (void)unused;

    static const struct {
        const char *hand;
        double pressure, temperature; /* Pa, K at last */
    } row[] = {
        {"surroundings.temperature: 40 degC ramp=10min", 101325.0, 313.15},
        {"surroundings.pressure: 98 kPa ramp=10min", 98000.0, 293.15},
        {"surroundings.temperature: 5 degC", 101325.0, 278.15}, /* as soon as can be */
        {"surroundings.altitude: 2000 m ramp=15min", 79501.0, 293.15},
    };

    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        struct text_run ran = told(OPEN, row[k].hand, "left: vessel.amount");
        const double left = row[k].pressure * 0.05 / (GAS * row[k].temperature);
        const double printed = k == 3 ? 0.5 / 79501.0 : 0.0; /* half of the table's last digit */
        assert_near_share(row[k].hand, text_reading(&ran, "left"), left, SHARE + printed);
        for (int r = 0; r < ullage_model_ledger_rows(ran.model); r++) {
            const struct ullage_ledger_row book = ullage_run_ledger(ran.model, ran.run, r);
            assert_near(book.name, book.residual, 0.0, 1e-12 * book.scale); /* round-off of some thousand sums */
        }
        text_close(&ran);
    }
}

/* Up a hill: the air gets thin, and stays as warm as it was. */
static void a_hill_is_a_thin_air(void **unused)
{
    (void)unused;

    static const struct {
        const char *altitude;
        double pressure, rounding; /* Pa, half of the last printed digit */
    } table[] = {{"1000 m", 89876.0, 0.5},
                 {"2000 m", 79501.0, 0.5},
                 {"3000 m", 70121.0, 0.5},
                 {"4000 m", 61660.0, 0.5},
                 {"0 m", 101325.0, 0.5}};

    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++) {
        char hand[100];
        snprintf(hand, sizeof hand, "surroundings.altitude: %s ramp=25min", table[k].altitude);
        struct text_run ran =
            told(SEALED, hand, "air: air.pressure, shown: gauge.gauge_pressure, warm: air.temperature");
        assert_near("air", text_reading(&ran, "air"), table[k].pressure, table[k].rounding);
        assert_near("gauge", text_reading(&ran, "shown"), 102325.0 - table[k].pressure,
                    table[k].rounding + SHARE * 102325.0);
        assert_near("temperature", text_reading(&ran, "warm"), 293.15, 1e-9);
        text_close(&ran);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_gauge_feels_the_barometer),
        cmocka_unit_test(what_is_shut_warms_by_gay_lussac),
        cmocka_unit_test(what_is_open_breathes),
        cmocka_unit_test(a_hill_is_a_thin_air),
    };
    return cmocka_run_group_tests_name("outside/weather", tests, NULL, NULL) != 0;
}
