/* tests/outside/bed_cells.c  The program's cells against exact values: a linear isotherm, whose row of cells is known in
 * closed form, and a front that keeps its shape. Values and sources: support/bed_values.h, forms: support/bed_forms.c.
 *
 * The vapor is a trace (1e-6 of the gas), so that velocity stays what it is; nothing diffuses or is conducted beside the
 * flow, and 0.1 Pa is lost in the bed. What is then left between the program and the closed form of its own cells is the
 * 1e-6 by which the bed holds more under that pressure, and the integrator's tolerance, 1e-7 a step. Against the bed itself stands the error of the cells: flow that carries what stands
 * upstream spreads a front as an axial dispersion of velocity * cell / 2 would. */
#include "support/bed_bench.h"
#include "support/bed_values.h"

#define FEED 1e-6      /* share of vapor */
#define TOLERANCE 1e-7 /* of the integrator */
#define HENRY 2.0      /* m3/kg: q = K c */
#define RATE (1.0 / 120.0)

static const double concentration = 101325.0 / (GAS_CONSTANT * 298.15); /* mol/m3 of all gas */

/* A clean bed with q = K c: one site of which only 1e-9 is ever filled. */
static struct bed_bench linear_bed(int cells)
{
    const double filled = 1e-9;
    const double capacity = HENRY * FEED * concentration / filled, affinity = filled / (FEED * 101325.0);
    struct bed_bench bench = bed_bench_of_tables(cells, "isothermal");
    bed_bench_sites(&bench, 1, &capacity, &affinity, 0.0);
    bed_bench_uptake(&bench, RATE);
    bed_bench_flow(&bench, bed_bench_flow_of_tables, FEED);
    bed_bench_fill_all(&bench, 0.0);
    bed_bench_start(&bench, FEED, TOLERANCE);
    return bench;
}

static double exit_share(struct bed_bench *bench, double time)
{
    bed_bench_go(bench, time);
    return bed_bench_share(bench, bench->cells - 1) / FEED;
}

/* How far the exit may be off: 1.3e-6 of the time at a slope of at most 2 of the feed in the logarithm of time, and some
 * hundred steps of an error of 1e-7 of a tenth. */
#define OFF 5e-6

static void a_step_comes_out_of_equal_cells(void **unused)
{
    (void)unused;
    struct bed_bench bench = {0};
    for (size_t i = 0; i < BED_ROWS(bed_cells); i++) {
        if (i == 0 || bed_cells[i].cells != bed_cells[i - 1].cells) {
            if (i > 0)
                bed_bench_close(&bench);
            bench = linear_bed(bed_cells[i].cells);
        }
        assert_near("exit", exit_share(&bench, bed_cells[i].time), bed_cells[i].gas, OFF);
    }
    bed_bench_close(&bench);
}

/* Mean and variance of the time in which vapor passes: moments of what is still missing at the exit after a step, by
 * Simpson's rule; at 40000 s less than 1e-14 is missing. Exact: mean as in the bed, variance its own and mean^2/cells. */
static void vapor_takes_its_time(void **unused)
{
    enum { STEPS = 2000 };

    (void)unused;
    const double step = 40000.0 / STEPS;
    for (size_t i = 0; i < BED_ROWS(bed_cells_variance); i++) {
        struct bed_bench bench = linear_bed(bed_cells_variance[i].cells);
        double mean = 0.0, square = 0.0;
        for (int k = 0; k <= STEPS; k++) {
            const double time = step * k;
            const double weight = step / 3.0 * (k == 0 || k == STEPS ? 1.0 : k % 2 ? 4.0 : 2.0);
            const double missing = 1.0 - exit_share(&bench, time);
            mean += weight * missing;
            square += weight * 2.0 * time * missing;
        }
        bed_bench_close(&bench);
        assert_near_share("mean", mean, bed_stoichiometric_time(&bed_of_the_tables, HENRY), 2e-6);
        assert_near_share("variance", square - mean * mean, bed_cells_variance[i].variance, 1e-4);
    }
}

/* Against the bed, not its cells, 100 of them: 0.5 % of the feed when as much has come in as it holds. */
static void a_hundred_cells_stand_for_a_bed(void **unused)
{
    (void)unused;
    const double time = bed_stoichiometric_time(&bed_of_the_tables, HENRY);
    struct bed_bench bench = linear_bed(100);
    const double got = exit_share(&bench, time);
    bed_bench_close(&bench);
    assert_near("cells", got, bed_cells_gas(&bed_of_the_tables, HENRY, RATE, 100, time), OFF);
    assert_near("bed", got, bed_linear_gas(&bed_of_the_tables, HENRY, RATE, bed_of_the_tables.length, time), 5e-3);
}

/* ---- a front that keeps its shape ---- */

/* When half the feed leaves: Langmuir, b c0 = 4, q0/c0 = 4 m3/kg, rate 0.005 1/s. */
static double half_time(int cells)
{
    const double capacity = 5.0 * FEED * concentration, affinity = 4.0 / (FEED * 101325.0);
    const double step = 2.0; /* s: over which the front at the exit is straight to 1e-5 of its height */
    struct bed_bench bench = bed_bench_of_tables(cells, "isothermal");
    bed_bench_sites(&bench, 1, &capacity, &affinity, 0.0);
    bed_bench_uptake(&bench, 0.005);
    bed_bench_flow(&bench, bed_bench_flow_of_tables, FEED);
    bed_bench_fill_all(&bench, 0.0);
    bed_bench_start(&bench, FEED, TOLERANCE);
    double before = 0.0, now = exit_share(&bench, 11000.0);
    double time = 11000.0;
    while (now < 0.5) {
        before = now;
        now = exit_share(&bench, time += step);
    }
    bed_bench_close(&bench);
    return time - step * (now - 0.5) / (now - before);
}

/* 0.5 % of the time at any number of cells from the stock 20 on (0.43 % there). The error nearly halves with the cells, as
 * carrying what stands upstream has it: two runs without the error of first order come within 1e-4, about the square of
 * the 0.7 % of the bed that one cell is. */
static void a_langmuir_front_leaves_in_time(void **unused)
{
    (void)unused;
    const double exact =
        bed_stoichiometric_time(&bed_of_the_tables, 4.0) + bed_pattern_time(4.0, 0.5) / 0.005; /* 11942.63 s */
    const double coarse = half_time(20), fine = half_time(80), finest = half_time(160);
    assert_near_share("20 cells", coarse, exact, 5e-3);
    assert_near_share("80 cells", fine, exact, 5e-3);
    assert_near_share("160 cells", finest, exact, 5e-3);
    assert_near_share("without end", 2.0 * finest - fine, exact, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_comes_out_of_equal_cells),
        cmocka_unit_test(vapor_takes_its_time),
        cmocka_unit_test(a_hundred_cells_stand_for_a_bed),
        cmocka_unit_test(a_langmuir_front_leaves_in_time),
    };
    return cmocka_run_group_tests_name("a bed of cells", tests, NULL, NULL) != 0;
}
