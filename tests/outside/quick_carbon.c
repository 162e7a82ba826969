/* tests/outside/quick_carbon.c  The one-component fuel on carbon against the blend it stands for.
 *
 * What a tank breathes into carbon stays there, so the carbon holds the blend's components as its vapor brings them. The
 * partial pressures over such a carbon are found here by repetition; the quick fuel, under the same pressure in all, has
 * to be held in the same mass. The blends are the base of 7, 9, 11.5 and 13 psi; stock carbon, air beside it to one
 * atmosphere, 25 degC. 5 % is what quick_fuel.c promises. */
#include "property/carbon.h"
#include "property/quick_fuel.h"
#include "support/fuels.h"
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

#define ATMOSPHERE 101325.0 /* Pa */
#define ROOM 298.15         /* K */
#define PROMISED 0.05

static const struct carbon_grade plain = {1.0, 1.0, 0.0};

static struct sorbent sorbent_over(int count, const struct component *const *component)
{
    struct adsorbate held[ADSORBATES_MOST];
    const struct adsorbate *list[ADSORBATES_MOST];
    for (int k = 0; k < count; k++) {
        held[k] = adsorbate_of(component[k]);
        list[k] = &held[k];
    }
    list[count] = &adsorbate_table(NULL)[adsorbate_find("air")];
    return sorbent_create(&carbon_table(NULL)[carbon_find("stock")], plain, count + 1, list);
}

/* Pressure of all vapors over carbon that holds amount[count] mol/kg. */
static double pressure_over(const struct sorbent *sorbent, int count, const double *amount)
{
    double pressure[ADSORBATES_MOST], loading[ADSORBATES_MOST], sum = 0.0, off = 1.0;
    for (int k = 0; k < count; k++)
        pressure[k] = 10.0 / sorbent->affinity[k][0] * 1e-3;
    for (int round = 0; round < 20000 && off > 1e-12; round++) {
        sum = off = 0.0;
        for (int k = 0; k < count; k++)
            sum += pressure[k];
        pressure[count] = ATMOSPHERE - sum;
        carbon_loading_value(sorbent, pressure, ROOM, loading);
        for (int k = 0; k < count; k++) {
            const double factor = amount[k] / loading[k];
            off = fmax(off, fabs(factor - 1.0));
            pressure[k] *= sqrt(factor);
        }
    }
    assert_true(off <= 1e-12);
    return sum;
}

static double quick_load(double rvp, double pressure)
{
    const struct component fuel = quick_fuel(rvp);
    const struct component *const list[] = {&fuel};
    const struct sorbent sorbent = sorbent_over(1, list);
    double loading[2];
    carbon_loading_value(&sorbent, (double[]){pressure, ATMOSPHERE - pressure}, ROOM, loading);
    return loading[0] * fuel.gas.molar_mass;
}

static void held_as_the_blends_vapor(void **unused)
{
    (void)unused;
    static const double psi[] = {7.0, 9.0, 11.5, 13.0}, wanted[] = {0.05, 0.1, 0.15, 0.2, 0.25, 0.3}; /* kg/kg */
    for (size_t f = 0; f < sizeof psi / sizeof *psi; f++) {
        struct blend blend;
        struct liquid liquid;
        double amount[LIQUID_MOST], vapor[LIQUID_MOST], mass = 0.0;
        assert_true(blend_base(psi[f] * FUEL_PSI, &blend));
        blend_amounts(&blend, 1.0, amount);
        liquid_prepare(&liquid, blend.count, blend.component);
        liquid_pressure_values(&liquid, amount, ROOM, vapor);
        for (int k = 0; k < blend.count; k++)
            mass += vapor[k] * blend.component[k]->gas.molar_mass;
        const struct sorbent sorbent = sorbent_over(blend.count, blend.component);
        for (size_t g = 0; g < sizeof wanted / sizeof *wanted; g++) {
            for (int k = 0; k < blend.count; k++)
                amount[k] = wanted[g] * vapor[k] / mass;
            const double pressure = pressure_over(&sorbent, blend.count, amount);
            char name[60];
            snprintf(name, sizeof name, "kg/kg of %g psi at %.0f Pa", psi[f], pressure);
            assert_near_share(name, quick_load(psi[f] * FUEL_PSI, pressure), wanted[g], PROMISED);
        }
    }
}

/* Raoult over a liquid of the vapor's own composition: where the quick fuel's second number comes from. */
static void its_vapor_condenses_as_the_blends(void **unused)
{
    (void)unused;
    for (double psi = 7.0; psi < 13.1; psi += 1.0) {
        struct blend blend;
        struct liquid liquid;
        double amount[LIQUID_MOST], vapor[LIQUID_MOST];
        assert_true(blend_base(psi * FUEL_PSI, &blend));
        blend_amounts(&blend, 1.0, amount);
        liquid_prepare(&liquid, blend.count, blend.component);
        liquid_pressure_values(&liquid, amount, ROOM, vapor);
        assert_near_share("Pa", quick_fuel(psi * FUEL_PSI).vapor_condenses,
                          liquid_bubble_pressure(&liquid, vapor, ROOM).value, 0.01);
    }
}

/* ---- a day ------------------------------------------------------------------------------------------------------- */

struct day {
    double held, next_morning, lost; /* kg */
};

/* A vented tank of 45 L, 40 % full, whose surroundings warm by 13 K and cool again, behind a bed of `litres`. */
static struct day day_of(const char *fuel, double litres)
{
    char text[1600];
    snprintf(text, sizeof text,
             "ullage: scenario/1\n"
             "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 22 degC], [9 h, 35 degC], [24 h, 22 degC]]}\n"
             "fill: {level: 40 %%, temperature: 22 degC, rvp: 9 psi%s}\n"
             "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm}\n"
             "    canister: {type: canister, beds: [{volume: %g L, length: 100 mm}]}\n"
             "    way: {type: line, from: tank, to: canister.tank, bore: 8 mm, length: 1 m}\n"
             "    vent: {type: valve, from: canister.air, to: air, bore: 8 mm}\n"
             "procedure:\n  steps:\n    - wait: {for: 9 h}\n    - read: {held: canister.load}\n"
             "    - wait: {for: 15 h}\n    - read: {next_morning: canister.load}\n",
             fuel, litres);
    struct text_run ran = text_run(text);
    struct day day = {text_reading(&ran, "held"), text_reading(&ran, "next_morning"), 0.0};
    for (int row = 0; row < ullage_model_opening_rows(ran.model); row++) {
        const struct ullage_opening_row here = ullage_run_opening(ran.model, ran.run, row);
        const struct component *component = component_find(here.species);
        if (strcmp(here.species, "air"))
            day.lost += (here.out - here.in) *
                        (component ? component->gas.molar_mass : quick_fuel(9.0 * FUEL_PSI).gas.molar_mass);
    }
    text_close(&ran);
    return day;
}

static void day_print(const char *what, double litres, const struct day *day)
{
    print_message("%-6s %5.2f L: %6.2f g held when warmest, %6.2f g next morning, %6.3f g past it\n", what, litres,
                  1e3 * day->held, 1e3 * day->next_morning, 1e3 * day->lost);
}

/* A bed that holds the day's vapor holds the quick fuel's within 5 %: the two make as much vapor within 3 % (that is the
 * pressure's own share), and all of it stays. One that is too small passes it at about the same time; the blend then keeps
 * its heavy ends and the quick fuel has none, so that up to twice as much may come out: that is printed, and its sign. */
static void day_is_the_blends(void **unused)
{
    (void)unused;
    const struct day blend = day_of("", 1.4), quick = day_of(", fuel: quick", 1.4);
    day_print("blend", 1.4, &blend);
    day_print("quick", 1.4, &quick);
    assert_near_share("held", quick.held, blend.held, PROMISED);
    assert_near_share("next morning", quick.next_morning, blend.next_morning, PROMISED);
    const struct day small = day_of("", 0.1), quick_small = day_of(", fuel: quick", 0.1);
    day_print("blend", 0.1, &small);
    day_print("quick", 0.1, &quick_small);
    assert_near_share("held by a small bed", quick_small.held, small.held, 0.1);
    assert_true(quick_small.lost > small.lost && quick_small.lost < 2.0 * small.lost);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(held_as_the_blends_vapor),
                                       cmocka_unit_test(its_vapor_condenses_as_the_blends),
                                       cmocka_unit_test(day_is_the_blends)};
    return cmocka_run_group_tests_name("outside/quick_carbon", tests, NULL, NULL) != 0;
}
