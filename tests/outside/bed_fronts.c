/* tests/outside/bed_fronts.c  The closed forms of support/bed_forms.h against values worked out apart: quadratures in
 * 30 digits, Laplace inversions in 60, cell models. They are what a bed of cells is then held against.
 *
 * Values are printed with nine digits: half of the last is 5e-9 at most, which is what is allowed unless said. */
#include "property/carbon.h"
#include "support/bed_forms.h"
#include "support/bed_values.h"
#include "support/near.h"

#define PRINTED 5e-9

static const struct bed_case *const bed = &bed_of_the_tables;

static void a_step_spreads(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < BED_ROWS(bed_step); i++) {
        assert_near_share("gas", bed_j(bed_step[i].xi, bed_step[i].tau), bed_step[i].gas, PRINTED);
        assert_near("carbon", 1.0 - bed_j(bed_step[i].tau, bed_step[i].xi), bed_step[i].carbon,
                    PRINTED * bed_step[i].carbon + 1e-13);
    }
}

static void linear_rows(const struct bed_linear_row *row, size_t count, double rate)
{
    for (size_t i = 0; i < count; i++) {
        assert_near_share("gas", bed_linear_gas(bed, 2.0, rate, row[i].place, row[i].time), row[i].gas, PRINTED);
        if (row[i].carbon >= 0.0)
            assert_near_share("carbon", bed_linear_carbon(bed, 2.0, rate, row[i].place, row[i].time), row[i].carbon,
                              PRINTED);
    }
}

static void a_linear_front_passes_the_bed(void **unused)
{
    (void)unused;
    linear_rows(bed_linear_2, BED_ROWS(bed_linear_2), 1.0 / 3000.0);
    linear_rows(bed_linear_10, BED_ROWS(bed_linear_10), 1.0 / 600.0);
    linear_rows(bed_linear_50, BED_ROWS(bed_linear_50), 1.0 / 120.0);
    assert_near_share("stoichiometric", bed_stoichiometric_time(bed, 2.0), 6004.0, 1e-15);
}

static void cells_spread_it_more(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < BED_ROWS(bed_cells); i++)
        assert_near_share("gas", bed_cells_gas(bed, 2.0, 1.0 / 120.0, bed_cells[i].cells, bed_cells[i].time),
                          bed_cells[i].gas, PRINTED);
    for (size_t i = 0; i < BED_ROWS(bed_cells_variance); i++) {
        const double mean = bed_stoichiometric_time(bed, 2.0);
        const double own = 2.0 * bed->length * bed->density * 2.0 * 120.0 / bed->velocity;
        assert_near_share("variance", own + mean * mean / bed_cells_variance[i].cells, bed_cells_variance[i].variance,
                          PRINTED);
    }
}

static void a_langmuir_front_keeps_its_shape(void **unused)
{
    (void)unused;
    const double stoichiometric = bed_stoichiometric_time(bed, 0.02 * 1000.0 / (1.0 + 4.0));
    assert_near_share("stoichiometric", stoichiometric, 12004.0, 1e-15);
    for (size_t i = 0; i < BED_ROWS(bed_constant_pattern); i++)
        assert_near_share("time", stoichiometric + bed_pattern_time(4.0, bed_constant_pattern[i].gas) / 0.005,
                          bed_constant_pattern[i].time, PRINTED);
    for (size_t i = 0; i < BED_ROWS(bed_pattern_shape); i++)
        assert_near_share("shape", bed_pattern_time(bed_pattern_shape[i].b_feed, bed_pattern_shape[i].gas),
                          bed_pattern_shape[i].time, PRINTED);
}

static void a_purge_spreads(void **unused)
{
    (void)unused;
    const struct bed_langmuir langmuir = {0.02, 1000.0, 0.004};
    for (size_t i = 0; i < BED_ROWS(bed_purge); i++) {
        /* the last trace is what is left of one: 1e-15 of it */
        assert_near("gas", bed_purge_gas(bed, &langmuir, bed->length, bed_purge[i].time), bed_purge[i].gas,
                    PRINTED * bed_purge[i].gas + 1e-15);
        assert_near("heel", bed_purge_heel(bed, &langmuir, bed_purge[i].time), bed_purge[i].heel,
                    PRINTED * bed_purge[i].heel + 1e-14);
    }
    for (size_t i = 0; i < BED_ROWS(bed_purge_profile); i++)
        assert_near_share("profile", bed_purge_gas(bed, &langmuir, bed_purge_profile[i].place, 6000.0),
                          bed_purge_profile[i].gas, PRINTED);
}

/* Butane at 298.15 K on the stock carbon: constants of the fit, written out again. mol/kg against its share of 1
 * atm. */
static void butane(double share, double *loading, double *slope)
{
    static const double capacity[] = {1.346, 2.982, 7.907}, affinity[] = {1.540, 0.1128, 0.004017}; /* 1/kPa */
    *loading = *slope = 0.0;
    for (int s = 0; s < 3; s++) {
        const double b = 101.325 * affinity[s];
        *loading += capacity[s] * b * share / (1.0 + b * share);
        *slope += capacity[s] * b / ((1.0 + b * share) * (1.0 + b * share));
    }
}

static const struct bed_vapor much_butane = {101325.0 / (8.314462618 * 298.15), butane};

static void much_butane_fills_the_bed(void **unused)
{
    (void)unused;
    const double volume = 1e-3; /* m3 */
    for (size_t i = 0; i < BED_ROWS(bed_bulk); i++) {
        double loading, slope;
        butane(bed_bulk[i].share, &loading, &slope);
        const double time = bed_bulk_time(bed, &much_butane, bed_bulk[i].share);
        assert_near_share("loading", loading, bed_bulk[i].loading, PRINTED);
        assert_near_share("time", time, bed_bulk[i].time, PRINTED);
        assert_near_share("slowed", bed_bulk_slowed(bed, &much_butane, bed_bulk[i].share), bed_bulk[i].slowed, PRINTED);
        const double held = 0.40 * much_butane.concentration * bed_bulk[i].share + 300.0 * loading;
        assert_near_share("held", 58.1222 * volume * held, bed_bulk[i].held, PRINTED);
        if (bed_bulk[i].share == 0.5)
            assert_near_share("40 g/h", 58.1222 * volume * held / 40.0 * 3600.0, 8209.27949, PRINTED);
    }
}

/* The program's stock carbon is the one of these tables. */
static void the_stock_carbon_is_meant(void **unused)
{
    (void)unused;
    const struct adsorbate *const gas = &adsorbate_table(NULL)[adsorbate_find("n-butane")];
    const struct sorbent stock =
        sorbent_create(&carbon_table(NULL)[carbon_find("stock")], (struct carbon_grade){1.0, 1.0, 0.0}, 1, &gas);
    for (double share = 1e-6; share <= 1.0; share *= 3.0) {
        double loading, slope;
        butane(share, &loading, &slope);
        const double pressure = share * 101325.0;
        const struct loading got = carbon_loading(&stock, &pressure, 298.15);
        assert_near_share("loading", got.value[0], loading, 1e-14);
        assert_near_share("slope", got.by_pressure[0][0] * 101325.0, slope, 1e-14);
    }
}

static void purge_rows(const struct bed_purge_row *row, size_t count, double from)
{
    for (size_t i = 0; i < count; i++) {
        const struct bed_purged purged = bed_bulk_purge(bed, &much_butane, from, row[i].share);
        assert_near_share("time", purged.time, row[i].time, 2.0 * PRINTED);
        assert_near_share("retained", purged.retained, row[i].retained, 1e-7);
    }
}

static void purge_volumes(const struct bed_volumes_row *row, size_t count, double from)
{
    for (size_t i = 0; i < count; i++) {
        const struct bed_purged purged = bed_bulk_purge(bed, &much_butane, from, row[i].share);
        assert_near_share("volumes", purged.time * bed->velocity / bed->length, row[i].volumes, 4.0 * PRINTED);
        assert_near_share("retained", purged.retained, row[i].retained, 1e-7);
    }
}

/* Both sides are quadratures here; the reference holds its inventories to eight digits. */
static void it_is_purged_again(void **unused)
{
    (void)unused;
    purge_rows(bed_bulk_purge_50, BED_ROWS(bed_bulk_purge_50), 0.5);
    purge_rows(bed_bulk_purge_100, BED_ROWS(bed_bulk_purge_100), 0.999999);
    purge_volumes(bed_bulk_purge_50_volumes, BED_ROWS(bed_bulk_purge_50_volumes), 0.5);
    purge_volumes(bed_bulk_purge_100_volumes, BED_ROWS(bed_bulk_purge_100_volumes), 0.999999);
    assert_near_share("faster", bed_bulk_purge(bed, &much_butane, 0.5, 0.5).faster, 1.97633562, 2.0 * PRINTED);
    assert_near_share("faster", bed_bulk_purge(bed, &much_butane, 0.999999, 0.999999).faster, 37.1731394,
                      2.0 * PRINTED);
}

static void heat_runs_ahead(void **unused)
{
    (void)unused;
    const double density = 101325.0 * 0.0289647 / (8.314462618 * 298.15);
    const struct bed_heat heat = {density * 1006.0, 900.0, 35000.0};
    assert_near_share("wave", bed->length / bed_heat_time(bed, &heat), 8.80674137e-05, PRINTED);
    for (size_t i = 0; i < BED_ROWS(bed_adiabatic); i++) {
        assert_near_share("rise", bed_plateau_rise(&heat, bed_adiabatic[i].loading, bed_adiabatic[i].feed),
                          bed_adiabatic[i].rise, PRINTED);
        assert_near_share("heat leaves", bed_heat_time(bed, &heat), bed_adiabatic[i].heat_leaves, PRINTED);
        assert_near_share("front leaves",
                          bed_stoichiometric_time(bed, bed_adiabatic[i].loading / bed_adiabatic[i].feed),
                          bed_adiabatic[i].mass_leaves, PRINTED);
    }
    for (size_t i = 0; i < BED_ROWS(bed_rise_most); i++) {
        const double q = bed_rise_most[i].loading;
        assert_near_share("most", 28790.0 * q / (900.0 + q * 98.49), bed_rise_most[i].rise, PRINTED);
    }
}

static void a_hot_front_runs_ahead(void **unused)
{
    (void)unused;
    const double density = 101325.0 * 0.0289647 / (8.314462618 * 298.15);
    const struct bed_heat heat = {density * 1006.0, 900.0, 35000.0};
    const struct bed_langmuir langmuir = {5.0, 0.05, 1.0};
    const struct bed_hot hot = bed_hot_front_of(bed, &heat, &langmuir, 298.15);
    assert_near_share("temperature", hot.temperature, bed_hot_front.temperature, PRINTED);
    assert_near_share("gas", hot.gas, bed_hot_front.gas, PRINTED);
    assert_near_share("loading", hot.loading, bed_hot_front.loading, PRINTED);
    assert_near_share("front", hot.front, bed_hot_front.front, PRINTED);
    assert_near_share("rear, first", hot.rear_first, bed_hot_front.rear_first, PRINTED);
    assert_near_share("rear, last", hot.rear_last, bed_hot_front.rear_last, PRINTED);
}

static void tubes_at_rest(void **unused)
{
    (void)unused;
    const double concentration = 101325.0 / (8.314462618 * 298.15);
    const double per_flux = concentration * 9.6e-6 / 0.5;
    for (size_t i = 0; i < BED_ROWS(tube_stefan); i++) {
        const double flux = per_flux * tube_stefan_flux(tube_stefan[i].share);
        const double area = 0.25 * 3.14159265358979 * 1e-4;
        assert_near_share("flux", flux, tube_stefan[i].flux, PRINTED);
        assert_near_share("rate", flux * area * 58.1222e3 * 3600.0, tube_stefan[i].rate, PRINTED);
        assert_near_share("over Fick", flux / (per_flux * tube_stefan[i].share), tube_stefan[i].over_fick, PRINTED);
        assert_near_share("middle", tube_stefan_middle(tube_stefan[i].share), tube_stefan[i].middle, PRINTED);
    }
    for (size_t i = 0; i < BED_ROWS(tube_filling); i++) {
        for (int k = 0; k < 3; k++)
            assert_near_share("share", tube_filled(tube_filling[i].fourier, 0.25 * (k + 1)), tube_filling[i].share[k],
                              PRINTED);
        /* the series it was summed by leaves 1e-25 */
        assert_near("flux", tube_exit_flux(tube_filling[i].fourier), tube_filling[i].flux,
                    PRINTED * tube_filling[i].flux + 1e-25);
    }
}

static void cooling_rows(const struct cooling_row *row, size_t count, double (*form)(double, double, double))
{
    for (size_t i = 0; i < count; i++) {
        const double biot = row[i].biot, fourier = row[i].fourier;
        assert_near_share("middle", form(biot, fourier, 0.0), row[i].middle, PRINTED);
        assert_near_share("half", form(biot, fourier, 0.5), row[i].half, PRINTED);
        assert_near("surface", form(biot, fourier, 1.0), row[i].surface, PRINTED * row[i].surface + 1e-14);
    }
}

static void bodies_cool(void **unused)
{
    (void)unused;
    cooling_rows(cooling_slab, BED_ROWS(cooling_slab), cooled_slab);
    cooling_rows(cooling_cylinder, BED_ROWS(cooling_cylinder), cooled_cylinder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_spreads),
        cmocka_unit_test(a_linear_front_passes_the_bed),
        cmocka_unit_test(cells_spread_it_more),
        cmocka_unit_test(a_langmuir_front_keeps_its_shape),
        cmocka_unit_test(a_purge_spreads),
        cmocka_unit_test(much_butane_fills_the_bed),
        cmocka_unit_test(the_stock_carbon_is_meant),
        cmocka_unit_test(it_is_purged_again),
        cmocka_unit_test(heat_runs_ahead),
        cmocka_unit_test(a_hot_front_runs_ahead),
        cmocka_unit_test(tubes_at_rest),
        cmocka_unit_test(bodies_cool),
    };
    return cmocka_run_group_tests_name("bed fronts", tests, NULL, NULL) != 0;
}
