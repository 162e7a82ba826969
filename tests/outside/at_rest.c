/* tests/outside/at_rest.c  Lines and beds at rest: vapor that diffuses along them and heat that is conducted, against
 * closed forms. Values and sources: support/bed_values.h, forms: support/bed_forms.c. Asked for with 40 cells: 1 %.
 *
 * The constants of matter are written out again here: butane in air by Fuller's rule as diffusion.c names it, 0.026 W/m/K
 * for the gas of a line and 0.15 W/m/K for the stock bed, whose way for gas is 0.40 of its section, 1.6 times as long. */
#include "support/bed_bench.h"
#include "support/bed_values.h"

#define TEMPERATURE 298.15 /* K */
#define PRESSURE 101325.0  /* Pa */
#define LONG 0.5           /* m */
#define BORE 10e-3         /* m */
#define SECTION (0.25 * M_PI * BORE * BORE)
#define ALLOWED 0.01

enum { CELLS = 40 };

static const double concentration = PRESSURE / (GAS_CONSTANT * TEMPERATURE);

/* Butane in air, m2/s: molar masses 58.12 and 28.96 g/mol, volumes of diffusion 4 * 15.9 + 10 * 2.31 and 19.7. */
static double diffusivity(void)
{
    const double mass = 2.0 / (1.0 / 58.1222 + 1.0 / 28.9647), size = cbrt(86.7) + cbrt(19.7);
    return 1e-4 * 0.00143 * pow(TEMPERATURE, 1.75) / (1e-5 * PRESSURE * sqrt(mass) * size * size);
}

/* Value half way between two cells, at a share of the length. */
static double look_between(struct network_bench *bench, int part, double share, const char *name)
{
    const int after = (int)lround(share * CELLS);
    return 0.5 *
           (network_bench_look_at(bench, part, after - 1, name) + network_bench_look_at(bench, part, after, name));
}

/* As long as less than a tenth of the length is filled, 40 cells show little of the profile: left out. */
#define SOONEST 0.02

/* Of a profile from 1 to 0, at a quarter, a half and three quarters: 1 %, and where it is thin 1 % of a tenth. */
static void profile_is_filled(const double *got, const double *want)
{
    for (int k = 0; k < 3; k++)
        assert_near("share", got[k], want[k], ALLOWED * fmax(want[k], 0.1));
}

/* ---- a line ---- */

/* From `from` to the air; `parts` stand before it. */
static struct network_bench line_open(const char *assume, const char *parts, const char *from, const char *start)
{
    char text[2048];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nname: line\nend: 1 s\nsurroundings: {pressure: 101325 Pa, temperature: 298.15 K}\n"
             "%sstart: %s\nsystem:\n  parts:\n"
             "    source: {type: manifold, pressure: 101325 Pa}\n%s"
             "    line: {type: line, from: %s, to: air, bore: 10 mm, length: 500 mm, cells: 40}\n",
             assume, start, parts, from);
    return network_bench_open(text);
}

/* A clean line between a trace of vapor and clean air; a vessel apart brings butane among the gases. */
static void a_trace_creeps_along_a_line(void **unused)
{
    (void)unused;
    const double trace = 1e-3;
    struct network_bench bench = line_open("assume: {heat: isothermal}\n", "    spare: {type: vessel, volume: 1 L}\n",
                                           "source", "{spare: {gas: n-butane}}");
    const int line = network_bench_part(&bench, "line");
    network_bench_source(&bench, network_bench_part(&bench, "source"), network_bench_gas(&bench, "air"),
                         network_bench_gas(&bench, "n-butane"), trace);
    network_bench_start(&bench, 1e-8);
    for (size_t i = 0; i < BED_ROWS(tube_filling); i++) {
        double got[3];
        if (tube_filling[i].fourier < SOONEST)
            continue;
        network_bench_go(&bench, tube_filling[i].fourier * LONG * LONG / diffusivity());
        for (int k = 0; k < 3; k++)
            got[k] = look_between(&bench, line, 0.25 * (k + 1), "line.n-butane") / trace;
        profile_is_filled(got, tube_filling[i].share);
    }
    network_bench_close(&bench);
}

/* Vapor let into a small vessel as fast as Stefan's tube draws it from a share at the closed end: that share comes up in
 * the vessel, and half way the one that still air lets stand there. A line that is shut at one end settles with the
 * time constant 4 L^2/(pi^2 D), the vessel makes it twice that at most: 25 of them. */
static void still_air_lets_vapor_through(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < BED_ROWS(tube_stefan); i++) {
        struct network_bench bench = line_open("assume: {heat: isothermal}\n",
                                               "    vessel: {type: vessel, volume: 10 mL}\n"
                                               "    inlet: {type: hole, from: source, to: vessel, diameter: 1 mm}\n",
                                               "vessel", "{vessel: {gas: {air: 0.5, n-butane: 0.5}}}");
        const int line = network_bench_part(&bench, "line"), vessel = network_bench_part(&bench, "vessel");
        const double flux = concentration * diffusivity() / LONG * -log1p(-tube_stefan[i].share);
        network_bench_source(&bench, network_bench_part(&bench, "source"), network_bench_gas(&bench, "air"),
                             network_bench_gas(&bench, "n-butane"), 1.0);
        network_bench_flow(&bench, network_bench_part(&bench, "inlet"), flux * SECTION);
        for (int p = 0; p < bench.network->passages; p++)
            if (bench.network->passage[p].part == network_bench_part(&bench, "inlet"))
                bench.network->passage[p].reaches = NULL; /* nothing diffuses against that flow */
        network_bench_start(&bench, 1e-7);
        network_bench_go(&bench, 25.0 * 8.0 * LONG * LONG / (M_PI * M_PI * diffusivity()));
        assert_near_share("end", network_bench_look_at(&bench, vessel, 0, "vessel.n-butane"), tube_stefan[i].share,
                          ALLOWED);
        assert_near_share("middle", look_between(&bench, line, 0.5, "line.n-butane"), tube_stefan[i].middle, ALLOWED);
        network_bench_close(&bench);
    }
}

/* Gas a little warmer than both its ends, wall out of the way: a slab whose half thickness is half the line. Gas is drawn
 * in as it cools, which is of the second order. */
static void gas_cools_as_a_slab(void **unused)
{
    (void)unused;
    const double warmer = 0.3;
    struct network_bench bench = line_open("", "", "source", "{line: {temperature: 298.45 K}}");
    const int line = network_bench_part(&bench, "line");
    for (int c = 0; c < CELLS; c++)
        network_bench_volume(&bench, line, c)->film = heat_fixed(0.0);
    const double heat_capacity = concentration * bench.network->kind[0]->heat_capacity; /* J/m3/K: at one pressure */
    network_bench_start(&bench, 1e-8);
    for (size_t i = 0; i < BED_ROWS(cooling_slab); i++) {
        const struct cooling_row *row = &cooling_slab[i];
        if (row->biot < 1e300)
            continue;
        network_bench_go(&bench, row->fourier * 0.25 * LONG * LONG * heat_capacity / 0.026);
        const double middle = look_between(&bench, line, 0.5, "line.temperature") - TEMPERATURE;
        const double half = look_between(&bench, line, 0.25, "line.temperature") - TEMPERATURE;
        assert_near_share("middle", middle / warmer, row->middle, ALLOWED);
        assert_near_share("half", half / warmer, row->half, ALLOWED);
    }
    network_bench_close(&bench);
}

/* ---- a bed ---- */

static const struct bed_rig resting = {0.2, 1e-3, CELLS, "isothermal"}, cooling = {0.2, 1e-3, CELLS, NULL};

/* A trace goes into a clean bed that takes it up, between ends that gas reaches so well that they stay what they are:
 * diffusion is slower by what the bed holds over what the gas does. */
static void a_trace_creeps_into_a_bed(void **unused)
{
    (void)unused;
    const double trace = 1e-4, henry = 0.05, filled = 1e-9; /* -, m3/kg: q = K c, share of the site */
    const double capacity = henry * trace * concentration / filled, affinity = filled / (trace * PRESSURE);
    struct bed_bench bench = bed_bench_open(&resting);
    for (int p = 0; p < bench.bench.network->passages; p++)
        if (bench.bench.network->passage[p].part != bench.bed) {
            bench.bench.network->passage[p].reaches = NULL;
            bench.bench.network->passage[p].reach = 10.0; /* m; a stretch of the bed has 0.3 */
        }
    bed_bench_sites(&bench, 1, &capacity, &affinity, 0.0);
    bed_bench_uptake(&bench, 10.0);
    bed_bench_flow(&bench, 0.0, trace);
    bed_bench_fill_all(&bench, 0.0);
    bed_bench_start(&bench, trace, 1e-7);
    const double holds = 0.80 + 300.0 * henry; /* m3 of gas, or as good, in a m3 */
    for (size_t i = 0; i < BED_ROWS(tube_filling); i++) {
        double got[3];
        if (tube_filling[i].fourier < SOONEST)
            continue;
        bed_bench_go(&bench, tube_filling[i].fourier * 0.2 * 0.2 * holds / (diffusivity() * 0.40 / 1.6));
        for (int k = 0; k < 3; k++) {
            const int after = (k + 1) * CELLS / 4;
            got[k] = 0.5 * (bed_bench_share(&bench, after - 1) + bed_bench_share(&bench, after)) / trace;
        }
        profile_is_filled(got, tube_filling[i].share);
    }
    bed_bench_close(&bench);
}

/* A warm bed between two ends that are held cold through their walls. */
static void a_bed_cools_as_a_slab(void **unused)
{
    (void)unused;
    const double warmer = 0.3, none = 1.0, nothing = 1e-12;
    struct bed_bench bench = bed_bench_open(&cooling);
    for (int c = -1; c <= CELLS; c++) {
        struct volume *here = bed_bench_cell(&bench, c);
        const bool end = c < 0 || c == CELLS;
        here->film = here->outer = heat_fixed(end ? 30.0 : 0.0); /* W/K; half a cell conducts 0.3 */
        here->room = end ? 5e-5 : here->room;                    /* m3, as where nothing is said */
    }
    bed_bench_sites(&bench, 1, &none, &nothing, 0.0);
    for (int c = 0; c < CELLS; c++)
        bed_bench_fill(&bench, c, 0.0, TEMPERATURE + warmer);
    bed_bench_fill(&bench, -1, 0.0, TEMPERATURE);
    bed_bench_fill(&bench, CELLS, 0.0, TEMPERATURE);
    bed_bench_start(&bench, 1.0, 1e-6);
    const double heat_capacity =
        300.0 * 900.0 + 0.80 * concentration * bench.bench.network->kind[bench.air]->heat_capacity; /* J/m3/K */
    for (size_t i = 0; i < BED_ROWS(cooling_slab); i++) {
        const struct cooling_row *row = &cooling_slab[i];
        if (row->biot < 1e300)
            continue;
        bed_bench_go(&bench, row->fourier * 0.1 * 0.1 * heat_capacity / 0.15);
        const double middle = bed_bench_temperature(&bench, 19) + bed_bench_temperature(&bench, 20);
        const double half = bed_bench_temperature(&bench, 9) + bed_bench_temperature(&bench, 10);
        assert_near_share("middle", (0.5 * middle - TEMPERATURE) / warmer, row->middle, ALLOWED);
        assert_near_share("half", (0.5 * half - TEMPERATURE) / warmer, row->half, ALLOWED);
    }
    bed_bench_close(&bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trace_creeps_along_a_line), cmocka_unit_test(still_air_lets_vapor_through),
        cmocka_unit_test(gas_cools_as_a_slab),         cmocka_unit_test(a_trace_creeps_into_a_bed),
        cmocka_unit_test(a_bed_cools_as_a_slab),
    };
    return cmocka_run_group_tests_name("at rest", tests, NULL, NULL) != 0;
}
