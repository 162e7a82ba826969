/* tests/outside/film.c  The film against a tube of still gas, and a pool that boils. */
#include "law/film.h"

#include "support/bed_values.h"
#include "support/near.h"

/* A film as thick as a tube is long, transfer D/L: Stefan's flux, values worked out apart (bed_values.h). The joint
 * moves pressures of gas that stays by (50 Pa/i)^2, 1e-6 here. */
static void a_thick_film_is_a_tube(void **unused)
{
    (void)unused;
    const double transfer = 9.6e-6 / 0.5, clean = 0.0;
    for (size_t i = 0; i < BED_ROWS(tube_stefan); i++) {
        const double saturation = tube_stefan[i].share * STANDARD_PRESSURE;
        const struct film_side side = {1, 1.0, STANDARD_PRESSURE, 298.15, &saturation, &clean, &transfer, FILM_BOILING};
        double value;
        film_values(&side, &value);
        const double scale = transfer * STANDARD_PRESSURE / (GAS_CONSTANT * 298.15);
        assert_near("flux", value, tube_stefan[i].flux, 2e-6 * scale + 5e-9 * tube_stefan[i].flux);
    }
}

/* n-pentane: vapor pressure by Antoine's equation with the constants of Poling, Prausnitz, O'Connell, 5th edition,
 * appendix A; heat of vaporisation at its boiling point 25.79 kJ/mol (CRC Handbook). */
static double pentane_pressure(double temperature)
{
    return 1e5 * pow(10.0, 3.97786 - 1064.84 / (temperature - 41.136));
}

#define PENTANE_HEAT 25790.0 /* J/mol */

/* mol/s from 0.3 m2 at 1 atm under gas half of vapor, at usual transfer. */
static double pool_rate(double temperature)
{
    const double transfer = 2e-3, partial = 0.5 * STANDARD_PRESSURE;
    const double saturation = pentane_pressure(temperature);
    const struct film_side side = {1,           0.3,      STANDARD_PRESSURE, temperature,
                                   &saturation, &partial, &transfer,         FILM_BOILING};
    double value;
    film_values(&side, &value);
    return value;
}

/* Where the pool settles under a heat [W], by bisection: rate * heat of vaporisation = heat. */
static double pool_temperature(double heat)
{
    double low = 250.0, high = 400.0;
    for (int n = 0; n < 100; n++)
        *(pool_rate(0.5 * (low + high)) * PENTANE_HEAT < heat ? &low : &high) = 0.5 * (low + high);
    return 0.5 * (low + high);
}

/* A heated pool boils off heat/Hvap, and stays at its boiling point while it does: 309.21 K (CRC Handbook). Little heat
 * the film carries, between 290 K, where the pool is in equilibrium with the half atmosphere of vapor over it, and
 * boiling. 10 kW is far over what a tank sees, 33 kW/m2: by boiling alone 13 kPa over the bubble point, at 3.3 kPa/K
 * 4 K. */
static void a_pool_boils_at_its_boiling_point(void **unused)
{
    (void)unused;
    const double boils = 309.21;
    assert_near("boiling point", pentane_pressure(boils), STANDARD_PRESSURE, 100.0);

    const struct {
        double heat, least, most; /* W; K over the boiling point */
    } row[] = {{100.0, -19.0, 0.0}, {1e3, -19.0, 0.0}, {5e3, 0.0, 2.0}, {1e4, 0.0, 4.0}};

    double before = 0.0;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double temperature = pool_temperature(row[i].heat);
        assert_near_share("has settled", pool_rate(temperature), row[i].heat / PENTANE_HEAT, 1e-9);
        print_message("%6.0f W on 0.3 m2 of pentane: %+.3f K of its boiling point\n", row[i].heat, temperature - boils);
        assert_true(row[i].least <= temperature - boils && temperature - boils <= row[i].most);
        assert_true(temperature > before);
        before = temperature;
    }
}

/* Vapors that hardly touch each other leave by pressure times a power of diffusivity: what an open dish shows. Ethanol
 * beside n-pentane at the same small pressure: (1.2253/0.84574)^n with diffusivities in air by Fuller's relation, n =
 * 2/3 and 1, as worked out by hand: 1.2803 and 1.4488. */
static void the_quick_leave_first(void **unused)
{
    (void)unused;
    const double exponent[] = {2.0 / 3.0, 1.0}, want[] = {1.2803, 1.4488};
    const struct sloped heat = {5.0, 0.0};
    for (int i = 0; i < 2; i++) {
        const double transfer[] = {film_transfer(heat, 1200.0, 1.2253e-5, 2.1e-5, exponent[i]).value,
                                   film_transfer(heat, 1200.0, 8.4574e-6, 2.1e-5, exponent[i]).value};
        const double saturation[] = {100.0, 100.0}, partial[] = {0.0, 0.0};
        const struct film_side side = {2, 1.0, STANDARD_PRESSURE, 298.15, saturation, partial, transfer, 0.0};
        double value[2];
        film_values(&side, value);
        assert_near("ratio", value[0] / value[1], want[i], 2e-4);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_thick_film_is_a_tube),
        cmocka_unit_test(a_pool_boils_at_its_boiling_point),
        cmocka_unit_test(the_quick_leave_first),
    };
    return cmocka_run_group_tests_name("film", tests, NULL, NULL) != 0;
}
