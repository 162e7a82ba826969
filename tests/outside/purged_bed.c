/* tests/outside/purged_bed.c  A loaded bed purged by an engine: its vacuum draws air through the bed, and a choked valve
 * lets through what sound can carry, more or less of it as the mixture changes. By the theory of equilibrium what stays
 * hangs on the volume of air that has come in alone, not on how fast (support/bed_values.h; bed_purge.c has the same bed
 * under a steady flow, and tells what its cells cost: 160 of them keep 1.3 % too much after 100 bed volumes, 2.4 % after
 * 300). */
#include "support/bed_bench.h"
#include "support/bed_values.h"

enum { CELLS = 160 };

#define AT_ONCE 10.0    /* 1/s: uptake */
#define BED_VOLUME 1e-3 /* m3 */
#define TEMPERATURE 298.15
#define PRESSURE 101325.0

static const char text[] =
    "ullage: scenario/1\nname: purged\nend: 1 s\nassume: {heat: isothermal, discharge: 0.8}\n"
    "surroundings: {pressure: 101325 Pa, temperature: 298.15 K}\nstart: {bed: {gas: {air: 0.5, n-butane: 0.5}}}\n"
    "system:\n  parts:\n"
    "    inlet: {type: hole, from: air, to: bed.air, diameter: 50 mm}\n"
    "    purge: {type: valve, from: bed.tank, to: engine, bore: 0.9 mm}\n"
    "    engine: {type: engine, normally: idle}\n"
    "    bed: {type: canister, end_space: 0.1 mL, beds: [{volume: 0.25 L, length: 50 mm, cells: 40}, {volume: 0.25 L, "
    "length: 50 mm, cells: 40}, {volume: 0.25 L, length: 50 mm, cells: 40}, {volume: 0.25 L, length: 50 mm, cells: "
    "40}]}\n";

/* The bed of the tables, half butane, with the program's own carbon, which here holds no air. */
static struct bed_bench loaded_bed(void)
{
    const struct carbon *carbon = &carbon_table(NULL)[carbon_find("stock")];
    const struct adsorbate *butane = &adsorbate_table(NULL)[adsorbate_find("n-butane")];
    struct bed_bench bench = {.bench = network_bench_open(text), .cells = CELLS};
    bench.bed = network_bench_part(&bench.bench, "bed");
    bench.air = network_bench_gas(&bench.bench, "air");
    bench.vapor = network_bench_gas(&bench.bench, "n-butane");
    bed_bench_plain(&bench);
    bed_bench_gas(&bench, 0.40);
    bed_bench_sites(&bench, CARBON_SITES, carbon->capacity, butane->affinity, 0.0);
    bed_bench_uptake(&bench, AT_ONCE);
    bed_bench_fill_all(&bench, 0.5);
    bed_bench_start(&bench, 1.0, 1e-6);
    return bench;
}

/* mol of a gas that came in, less what went out, through a part. */
static double passed(const struct bed_bench *bench, const char *part, const char *gas)
{
    double in = 0.0;
    for (int k = 0; k < run_opening_rows(bench->bench.network); k++) {
        const struct ullage_opening_row row = run_opening_row(bench->bench.network, bench->bench.run, k);
        if (!strcmp(row.part, part) && !strcmp(row.species, gas))
            in += row.in - row.out;
    }
    return in;
}

/* Bed volumes of air drawn in. */
static double drawn(const struct bed_bench *bench)
{
    return passed(bench, "inlet", "air") * GAS_CONSTANT * TEMPERATURE / PRESSURE / BED_VOLUME;
}

/* On to so many bed volumes, by strides of 5 s; the rest as fast as the last of them. */
static double go_on_to(struct bed_bench *bench, double volumes, double time)
{
    const double stride = 5.0;
    double before = drawn(bench), last = 0.0;
    while (before + last < volumes) {
        bed_bench_go(bench, time += stride);
        last = drawn(bench) - before;
        before += last;
    }
    time += stride * (volumes - before) / last;
    bed_bench_go(bench, time);
    return time;
}

static void what_stays_is_a_matter_of_volume(void **unused)
{
    static const struct {
        double volumes, within;
    } asked[] = {{100.0, 0.02}, {150.0, 0.02}, {300.0, 0.025}}; /* the last: cells, see above */

    (void)unused;
    struct bed_bench bench = loaded_bed();
    const double full = bed_bench_held(&bench);
    double time = 0.0;
    for (size_t k = 0; k < sizeof asked / sizeof asked[0]; k++) {
        size_t row = 0;
        while (bed_bulk_purge_50_volumes[row].volumes < asked[k].volumes)
            row++;
        time = go_on_to(&bench, asked[k].volumes, time);
        const double kept = bed_bench_held(&bench) / full;
        print_message("%.0f bed volumes in %.0f s: %.4f stay, %.4f by theory\n", drawn(&bench), time, kept,
                      bed_bulk_purge_50_volumes[row].retained);
        assert_near_share("kept", kept, bed_bulk_purge_50_volumes[row].retained, asked[k].within);
        assert_near_share("what is gone went to the engine", -passed(&bench, "purge", "n-butane"),
                          full - bed_bench_held(&bench), 1e-3); /* end spaces hold some, too */
    }
    bed_bench_close(&bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_stays_is_a_matter_of_volume)};
    return cmocka_run_group_tests_name("outside/purged_bed", tests, NULL, NULL) != 0;
}
