/* tests/outside/bed_heat.c  Heat of adsorption in the program's adiabatic cells against the theory of equilibrium: fronts
 * that leave a plateau of one temperature behind or before them. Values and sources: support/bed_values.h.
 *
 * Nothing diffuses or is conducted, uptake takes a second. A plateau's temperature follows from balances over the fronts
 * on both sides of it, which hold for any cells; the cells only say how much room it has between them. The tables are for
 * a trace, whose gas keeps its flow; here vapor is 0.1 to 2.4 % of it, and air has 1004.7 J/kg/K where the tables have
 * 1006: 2 % is asked, and where the balance can be made with these two in it, what a front makes of ripple that steps from
 * cell to cell. */
#include "support/bed_bench.h"
#include "support/bed_values.h"

#define COLD 298.15        /* K */
#define ADSORPTION 35000.0 /* J/mol */
#define DRY 900.0          /* J/kg/K, the program's carbon */
#define AIR 29.1006        /* J/mol/K at 25 degC: 1004.69 J/kg/K at 28.965 g/mol, the program's air, */
#define AIR_SLOPE 0.00156  /* J/mol/K2: and what a kelvin adds, 0.05 % over a plateau of 18 K */
#define FAVOURABLE 4.0     /* b c0 of the Langmuir isotherm */
#define RIPPLE 5e-4        /* of a plateau some ten cells before a front that is two cells wide */
#define TOLERANCE 1e-7     /* of the integrator: 1e-7 K a step, for it counts the carbon's kelvins */

static const double concentration = 101325.0 / (GAS_CONSTANT * COLD); /* mol/m3 of all gas */

static struct bed_bench hot_bed(int cells, double capacity, double affinity, double feed)
{
    struct bed_bench bench = bed_bench_of_tables(cells, "adiabatic");
    bed_bench_sites(&bench, 1, &capacity, &affinity, ADSORPTION);
    bed_bench_uptake(&bench, 1.0);
    bed_bench_flow(&bench, bed_bench_flow_of_tables, feed);
    bed_bench_fill_all(&bench, 0.0);
    bed_bench_start(&bench, feed, TOLERANCE);
    assert_near_share("dry", bed_bench_cell(&bench, 0)->dry, DRY * bed_bench_cell(&bench, 0)->carbon, 1e-12);
    assert_near_share("air", bench.bench.network->kind[bench.air]->heat_capacity, AIR, 1e-4);
    assert_near_share("air", bench.bench.network->kind[bench.air]->heat_slope, AIR_SLOPE, 1e-4);
    return bench;
}

/* The balance over the front with the gas that it takes away in it: what goes on, in moles beside the moving front, is
 * (1 - y) q0/y of air for q0 taken up, and the heat of q0 warms it and the carbon it passes. The air's heat capacity is
 * that of half way up. */
static double plateau(double loading, double share)
{
    double rise = 0.0;
    for (int k = 0; k < 8; k++) /* each time 0.1 % of what is left */
        rise = ADSORPTION * loading / ((AIR + 0.5 * AIR_SLOPE * rise) * loading * (1.0 - share) / share - DRY);
    return rise;
}

/* Heat runs ahead: between it and the front the gas is warm and clean; behind the front all is as the feed. */
static void heat_runs_ahead(void **unused)
{
    (void)unused;
    const int cells = 80;
    for (size_t i = 0; i < BED_ROWS(bed_adiabatic); i++) {
        const double loading = bed_adiabatic[i].loading, share = bed_adiabatic[i].feed / concentration;
        struct bed_bench bench =
            hot_bed(cells, loading * (1.0 + FAVOURABLE) / FAVOURABLE, FAVOURABLE / (share * 101325.0), share);
        bed_bench_go(&bench, 0.5 * bed_adiabatic[i].mass_leaves); /* the front is half way, the heat has left */
        assert_true(bed_adiabatic[i].heat_leaves < 0.5 * bed_adiabatic[i].mass_leaves);
        for (int cell = cells * 3 / 4; cell < cells; cell += 5) {
            const double rise = bed_bench_temperature(&bench, cell) - COLD;
            assert_near_share("plateau", rise, bed_adiabatic[i].rise, 0.02);
            assert_near_share("plateau, balance", rise, plateau(loading, share), RIPPLE);
            assert_near("clean", bed_bench_share(&bench, cell) / share, 0.0, 1e-6);
        }
        assert_near("behind", bed_bench_temperature(&bench, cells / 4) - COLD, 0.0, 1e-3);
        assert_near_share("fed", bed_bench_share(&bench, cells / 4), share, 1e-4);
        bed_bench_close(&bench);
    }
}

/* The front runs ahead and hot, and a slow wave behind it brings the cold feed. The plateau where cells give it most room:
 * its temperature and how much vapor passes the hot bed. */
static void a_hot_front_runs_ahead(void **unused)
{
    (void)unused;
    const int cells = 160, here = 127; /* 0.8 of the way */
    const double share = 1.0 / concentration, affinity = 0.05 / (GAS_CONSTANT * COLD);
    struct bed_bench bench = hot_bed(cells, 5.0, affinity, share);
    bed_bench_go(&bench, 1000.0); /* front gone at 511 s, rear wave from 2988 s on */
    assert_near_share("temperature", bed_bench_temperature(&bench, here) - COLD, bed_hot_front.temperature - COLD,
                      0.02);
    assert_near_share("gas", bed_bench_share(&bench, here) / share, bed_hot_front.gas, 0.02);
    bed_bench_close(&bench);
}

/* A pure wave of heat, clean gas into a warm clean bed. Cells spread it and leave its mean time as it is: the integral of
 * what is still warm at the exit, here by the midpoint rule. */
static void heat_alone_passes(void **unused)
{
    (void)unused;
    const int cells = 160;
    const double warm = COLD + 1.0, nothing = 1e-12;
    const double one = 1.0;
    struct bed_bench bench = bed_bench_of_tables(cells, "adiabatic");
    bed_bench_sites(&bench, 1, &one, &nothing, 0.0);
    bed_bench_flow(&bench, bed_bench_flow_of_tables, 0.0);
    for (int c = -1; c <= cells; c++)
        bed_bench_fill(&bench, c, 0.0, warm);
    bed_bench_start(&bench, 1e-3, TOLERANCE);
    const struct bed_heat heat = {AIR * concentration, DRY, 0.0};
    const double leaves = bed_heat_time(&bed_of_the_tables, &heat);
    double mean = 0.0;
    const double step = 20.0;
    for (double time = 0.5 * step; time < 2.0 * leaves; time += step) {
        bed_bench_go(&bench, time);
        mean += step * (bed_bench_temperature(&bench, cells - 1) - COLD);
    }
    bed_bench_close(&bench);
    assert_near_share("heat leaves", mean, leaves, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heat_runs_ahead),
        cmocka_unit_test(a_hot_front_runs_ahead),
        cmocka_unit_test(heat_alone_passes),
    };
    return cmocka_run_group_tests_name("heat in a bed of cells", tests, NULL, NULL) != 0;
}
