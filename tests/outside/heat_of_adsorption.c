/* tests/outside/heat_of_adsorption.c  The heat of adsorption, straight from measured isotherms, without the model.
 *
 * Where a loading is reached at several temperatures: heat = -R d ln p/d(1/T), by a straight line through the points.
 * ln p at a loading is read between two measured points, straight in ln p against ln q. Butane and propane: sets B and
 * P of isotherms.h; temperatures to whole kelvin and 1 % of digitising leave +-3 kJ/mol at one loading, +-1.5 where six
 * even isotherms run side by side. */
#include "outside/isotherms.h"
#include "property/carbon.h"
#include "support/near.h"

#define GAS_CONSTANT 8.31446261815324

/* ln p at a loading; 0 where the set does not reach over it. */
static int pressure_at(const struct isotherm *set, double loading, double *log_pressure)
{
    for (size_t i = 1; i < set->points; i++) {
        const struct measured *const a = &set->point[i - 1];
        const struct measured *const b = &set->point[i];
        if (a->loading > loading || b->loading < loading)
            continue;
        const double share = log(loading / a->loading) / log(b->loading / a->loading);
        *log_pressure = log(a->pressure) + share * log(b->pressure / a->pressure);
        return 1;
    }
    return 0;
}

struct line {
    int points;
    double x, y, xx, xy;
};

static void line_add(struct line *line, double x, double y)
{
    line->points++;
    line->x += x;
    line->y += y;
    line->xx += x * x;
    line->xy += x * y;
}

static double line_slope(const struct line *line)
{
    return (line->points * line->xy - line->x * line->y) / (line->points * line->xx - line->x * line->x);
}

/* kJ/mol, from a gas's sets whose names begin with `letter`; the second record of one temperature, B20, left out. NAN
 * where fewer than `least` of them reach over the loading. */
static double heat_at(char letter, const char *gas, double loading, int least)
{
    struct line line = {0};
    for (int i = 0; i < ISOTHERMS; i++) {
        double log_pressure;
        if (isotherms[i].name[0] != letter || strcmp(isotherms[i].gas, gas) || strcmp(isotherms[i].name, "B20") == 0)
            continue;
        if (pressure_at(&isotherms[i], loading, &log_pressure))
            line_add(&line, 1.0 / isotherms[i].temperature - 1.0 / 320.0, log_pressure);
    }
    return line.points >= least ? -1e-3 * GAS_CONSTANT * line_slope(&line) : (double)NAN;
}

static double heat_of(const char *gas)
{
    return 1e-3 * adsorbate_table(NULL)[adsorbate_find(gas)].heat;
}

static void heats_are_the_measured_ones(char letter, const char *gas, const double *loading, int count, double allowed)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        const double heat = heat_at(letter, gas, loading[i], 4);
        print_message("%s at %.1f mol/kg: %.1f kJ/mol by regression, the model %.2f\n", gas, loading[i], heat,
                      heat_of(gas));
        assert_near(gas, heat_of(gas), heat, allowed);
        sum += heat;
    }
    assert_near(gas, heat_of(gas), sum / count, 0.5 * allowed);
}

static void butane(void **unused)
{
    (void)unused;
    const double loading[] = {2.5, 3.0, 3.5, 4.0, 4.5, 5.0};
    heats_are_the_measured_ones('B', "n-butane", loading, 6, 3.0);
    assert_near("n-butane", heat_of("n-butane"), 28.8, 3.0);
}

static void propane(void **unused)
{
    (void)unused;
    const double loading[] = {1.5, 2.0, 2.5, 3.0, 3.5};
    heats_are_the_measured_ones('P', "propane", loading, 5, 1.5);
    assert_near("propane", heat_of("propane"), 25.3, 1.5);
}

/* Pentane and toluene were measured at few temperatures, on carbons that were not told or of peat: what the regression
 * gives, the model's heat, which is by likeness, and what is usually quoted for vapors on carbon (from memory) are shown
 * beside each other, not judged. The measured isotherms of butane lie at the low end; heat is an input for that reason. */
static void usual_quotes_are_shown(void **unused)
{
    (void)unused;

    static const struct {
        const char *gas;
        char letter;      /* sets */
        double low, high; /* kJ/mol */
    } quoted[] = {{"n-butane", 'B', 35.0, 50.0},
                  {"n-pentane", 'D', 42.0, 55.0},
                  {"toluene", 'D', 55.0, 75.0},
                  {"toluene", 'N', 55.0, 75.0},
                  {"ethanol", 'D', 45.0, 55.0}};

    for (size_t i = 0; i < sizeof quoted / sizeof quoted[0]; i++) {
        const double heat = heat_of(quoted[i].gas);
        assert_true(heat > 0.0);
        print_message("%s: the model %.1f kJ/mol, usually quoted %.0f to %.0f: %.1f under the low end\n", quoted[i].gas,
                      heat, quoted[i].low, quoted[i].high, fmax(0.0, quoted[i].low - heat));
        for (double loading = 0.5; loading < 5.0; loading += 0.5) {
            const double measured = heat_at(quoted[i].letter, quoted[i].gas, loading, 3);
            if (isfinite(measured))
                print_message("  sets %c at %.1f mol/kg: %.1f kJ/mol by regression\n", quoted[i].letter, loading,
                              measured);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(butane),
        cmocka_unit_test(propane),
        cmocka_unit_test(usual_quotes_are_shown),
    };
    return cmocka_run_group_tests_name("heat of adsorption", tests, NULL, NULL) != 0;
}
