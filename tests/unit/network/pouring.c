/* tests/unit/network/pouring.c  What a fault of liquid pours, at what rates, and what stands in the books of it. */
#include "property/volatility.h"
#include "support/network_bench.h"

#include <string.h>

#define BEGINS                                                                                                         \
    "ullage: scenario/1\nname: poured\nassume: {heat: isothermal, shell: rigid}\nend: 1 h\n"                           \
    "fill: {level: 40 %, rvp: 9 psi}\n"                                                       \
    "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm, layer: 0}\n"
#define LINE                                                                                                           \
    "    vessel: {type: vessel, volume: 1 L}\n"                                                                        \
    "    line: {type: line, from: tank, to: vessel, bore: 8 mm, length: 1.5 m}\n"
#define BED                                                                                                            \
    "    bed: {type: canister, beds: [{volume: 1 L, length: 200 mm, cells: 4, carbon: stock},\n"                       \
    "                                 {volume: 0.5 L, length: 100 mm, cells: 2, carbon: none}], ports: [tank, air]}\n" \
    "    vent: {type: hole, from: bed.air, to: air, diameter: 5 mm}\n"

#define VOLUME 45e-3  /* m3 */
#define ROUNDED 1e-12 /* of what is summed, over some hundred steps */

static struct network_bench begin(const char *text)
{
    struct network_bench bench = network_bench_open(text);
    network_bench_start(&bench, 1e-6);
    return bench;
}

static int fault_of(const struct network_bench *bench, const char *name)
{
    const int fault = network_find_fault(bench->network, name);
    assert_true(fault >= 0);
    return fault;
}

/* m3 at a temperature of what a fault has poured so far, and in + out of the components as mol. */
struct brought {
    double volume, in, out;
};

static struct brought brought(const struct network_bench *bench, const char *name, double temperature)
{
    const struct network *network = bench->network;
    struct brought sum = {0};
    for (int row = 0; row < run_opening_rows(network); row++) {
        const struct ullage_opening_row told = run_opening_row(network, bench->run, row);
        if (!told.poured || strcmp(told.part, name) != 0)
            continue;
        assert_true(told.fuel);
        sum.in += told.in;
        sum.out += told.out;
        for (int k = 0; k < network->fuels; k++)
            if (!strcmp(network->fuel[k].gas.name, told.species))
                sum.volume += (told.in - told.out) * component_volume(&network->fuel[k], temperature).value;
    }
    return sum;
}

static void books_close(const struct network_bench *bench)
{
    for (int row = 0; row < run_ledger_rows(bench->network); row++) {
        const struct ullage_ledger_row told = run_ledger(bench->network, bench->run, row);
        if (!(fabs(told.residual) <= ROUNDED * told.scale))
            fail_msg("%s: %g of %g is unaccounted for", told.name, told.residual, told.scale);
    }
}

/* ---- more, and less ---- */
static void so_much_more_comes_and_goes(void **unused)
{
    (void)unused;
    struct network_bench bench = begin(
        BEGINS
        "faults: [{id: f, fault: overfilled, where: tank, volume: 5 L, from: 1 min, ramp: 20 s, until: 3 min}]\n");
    network_bench_go(&bench, 60.0);
    assert_near("before", brought(&bench, "overfilled tank", 293.15).volume, 0.0, 0.0);
    network_bench_go(&bench, 70.0);
    assert_near("half", brought(&bench, "overfilled tank", 293.15).volume, 2.5e-3, ROUNDED * 5e-3);
    assert_near("share", run_fault_share(bench.network, bench.run, 0), 0.5, ROUNDED);
    books_close(&bench);
    network_bench_go(&bench, 100.0);
    assert_near("all", brought(&bench, "overfilled tank", 293.15).volume, 5e-3, ROUNDED * 5e-3);
    assert_near("share", run_fault_share(bench.network, bench.run, 0), 1.0, 0.0);
    network_bench_go(&bench, 190.0);
    assert_near("half of it left", run_fault_share(bench.network, bench.run, 0), 0.5, ROUNDED);
    network_bench_go(&bench, 300.0);
    assert_near("none", brought(&bench, "overfilled tank", 293.15).volume, 0.0, 2.0 * ROUNDED * 5e-3);
    assert_true(brought(&bench, "overfilled tank", 293.15).out > 20.0);
    assert_near("gone", run_fault_share(bench.network, bench.run, 0), 0.0, 0.0);
    books_close(&bench);
    network_bench_close(&bench);
}

/* Without a ramp a pump trickles: 10 L/min. */
static void a_trickle_takes_its_time(void **unused)
{
    (void)unused;
    struct network_bench bench =
        begin(BEGINS "faults: [{id: f, fault: overfilled, where: tank, volume: 5 L, from: 1 min}]\n");
    network_bench_go(&bench, 60.0 + 15.0);
    assert_near("half", brought(&bench, "overfilled tank", 293.15).volume, 2.5e-3, ROUNDED * 5e-3);
    network_bench_close(&bench);
}

/* What does not fit is not poured; what was not there is not drawn off. */
static void a_tank_takes_what_fits(void **unused)
{
    (void)unused;
    struct network_bench bench = begin(
        BEGINS "change: {fill.level: 90 %}\n"
               "faults: [{id: f, fault: overfilled, where: tank, volume: 10 L, from: 10 s, ramp: 5 s, until: 60 s}]\n");
    const double before = network_bench_look(&bench, "tank.level");
    network_bench_go(&bench, 50.0);
    const double fits = (0.98 - before) * VOLUME;
    assert_near("fits", brought(&bench, "overfilled tank", 293.15).volume, fits,
                1e-6 * fits); /* some evaporates before */
    assert_near("share", run_fault_share(bench.network, bench.run, 0), fits / 10e-3, 1e-5);
    network_bench_go(&bench, 100.0);
    assert_near("taken back", brought(&bench, "overfilled tank", 293.15).volume, 0.0, 2.0 * ROUNDED * fits);
    books_close(&bench);
    network_bench_close(&bench);
}

/* A size changed while it comes: from what has been poured to what is wanted then. */
static void a_size_is_changed_on_its_way(void **unused)
{
    (void)unused;
    struct network_bench bench = begin(BEGINS);
    const struct course ramp = {.given = true, .from = (double)NAN, .ramp = 10.0, .until = (double)INFINITY},
                        as_it_is = {.from = (double)NAN, .until = (double)INFINITY};
    const int fault = fault_of(&bench, "overfilled tank");
    network_bench_go(&bench, 10.0);
    run_fault_put(bench.network, bench.run, fault, 4e-3, &ramp);
    network_bench_go(&bench, 15.0);
    run_fault_put(bench.network, bench.run, fault, 1e-3, &as_it_is);
    assert_near("so far", brought(&bench, "overfilled tank", 293.15).volume, 2e-3, ROUNDED * 4e-3);
    network_bench_go(&bench, 20.0);
    assert_near("on its way back", brought(&bench, "overfilled tank", 293.15).volume, 1.5e-3, ROUNDED * 4e-3);
    network_bench_go(&bench, 30.0);
    assert_near("there", brought(&bench, "overfilled tank", 293.15).volume, 1e-3, ROUNDED * 4e-3);
    run_fault_put(bench.network, bench.run, fault, 0.0, &as_it_is);
    network_bench_go(&bench, 60.0);
    assert_near("off", brought(&bench, "overfilled tank", 293.15).volume, 0.0, 2.0 * ROUNDED * 4e-3);
    books_close(&bench);
    network_bench_close(&bench);
}

/* ---- another fuel ---- */

#define BISECTED                                                                                                       \
    1e-3 /* Pa: sixty halvings end far nearer; what evaporates meanwhile from a tank at rest is counted apart */

/* The volume stays, the vapor pressure is another; back again all is as it was. */
static void another_fuel_is_of_that_pressure(void **unused)
{
    (void)unused;

    static const struct {
        const char *name;
        double size, sign;
    } faults[] = {{"wrong-blend tank", 15e3, 1.0}, {"old-fuel tank", 20e3, -1.0}};

    for (int k = 0; k < 2; k++) {
        struct network_bench bench = begin(BEGINS);
        const struct course now = {.given = true, .from = (double)NAN, .ramp = 30.0, .until = (double)INFINITY};
        network_bench_go(&bench, 10.0);
        const double before = network_bench_look(&bench, "tank.rvp"), level = network_bench_look(&bench, "tank.level");
        run_fault_put(bench.network, bench.run, fault_of(&bench, faults[k].name), faults[k].size, &now);
        network_bench_go(&bench, 40.0);
        const struct brought brings = brought(&bench, faults[k].name, 293.15);
        assert_near("volume", brings.volume, 0.0, ROUNDED * VOLUME);
        assert_true(brings.in > 1.0 && brings.out > 1.0);
        /* the gas takes up, or gives off, some grams of the lightest in 13 kg while it is changed */
        assert_near("pressure", network_bench_look(&bench, "tank.rvp") - before, faults[k].sign * faults[k].size,
                    0.005 * faults[k].size);
        run_fault_put(bench.network, bench.run, fault_of(&bench, faults[k].name), 0.0, &now);
        network_bench_go(&bench, 400.0);
        assert_near("as before", network_bench_look(&bench, "tank.rvp"), before, 0.005 * faults[k].size);
        assert_near("level", network_bench_look(&bench, "tank.level"), level, 1e-3);
        books_close(&bench);
        network_bench_close(&bench);
    }
}

/* ---- where none was ---- */

/* A line that may get liquid is as one that may not, until it does. */
static void what_awaits_liquid_is_dry(void **unused)
{
    (void)unused;
    struct network_bench plain = begin(BEGINS LINE BED "start: {vessel: {gauge_pressure: 2 kPa}}\n");
    struct network_bench awaits =
        begin(BEGINS LINE BED "start: {vessel: {gauge_pressure: 2 kPa}}\n"
                              "faults: [{id: l, fault: liquid-in-low-spot, where: line, volume: 8 mL, from: 1 h},\n"
                              "         {id: w, fault: wet, where: bed, share: 20 %, from: 1 h}]\n");
    static const char *const channels[] = {"vessel.gauge_pressure", "line.gauge_pressure", "bed.gauge_pressure"};
    for (double time = 0.1; time < 2.0; time += 0.4) {
        network_bench_go(&plain, time);
        network_bench_go(&awaits, time);
        for (int k = 0; k < 3; k++) /* other states in the error test: other steps, each within 1e-6 of 1 kPa */
            assert_near(channels[k], network_bench_look(&awaits, channels[k]), network_bench_look(&plain, channels[k]),
                        0.02);
    }
    assert_near("none", network_bench_look(&awaits, "line.liquid"), 0.0, 0.0);
    network_bench_close(&plain);
    network_bench_close(&awaits);
}

static void liquid_lies_where_none_was(void **unused)
{
    (void)unused;
    struct network_bench bench =
        begin(BEGINS LINE
              "faults: [{id: l, fault: liquid-in-low-spot, where: line, volume: 8 mL, from: 10 s, until: 60 s}]\n");
    network_bench_go(&bench, 10.0);
    assert_near("none", network_bench_look(&bench, "line.liquid"), 0.0, 0.0);
    network_bench_go(&bench, 15.0);
    assert_near("poured", brought(&bench, "liquid-in-low-spot line", 293.15).volume, 8e-6, ROUNDED * 8e-6);
    assert_true(network_bench_look(&bench, "line.liquid") > 7e-6);
    network_bench_go(&bench, 100.0);
    assert_true(network_bench_look(&bench, "line.liquid") >= 0.0 && network_bench_look(&bench, "line.liquid") < 1e-6);
    books_close(&bench);
    network_bench_close(&bench);
}

/* Into every cell that share of its room, of all beds. */
static void a_bed_is_soaked_alike(void **unused)
{
    (void)unused;
    struct network_bench bench = begin(
        BEGINS BED "faults: [{id: w, fault: wet, where: bed, share: 10 %, from: 10 s, ramp: 4 s, until: 2 min}]\n");
    const struct network *network = bench.network;
    const int bed = network_bench_part(&bench, "bed");
    double room = 0.0;
    for (int v = 0; v < network->volumes; v++)
        room += network->volume[v].part == bed && network->volume[v].pool ? network->volume[v].room : 0.0;
    assert_int_equal(network->tap[network->tap_of[0]].places, 6);
    network_bench_go(&bench, 12.0);
    assert_near("half", brought(&bench, "wet bed", 293.15).volume, 0.05 * room, ROUNDED * room);
    network_bench_go(&bench, 14.0);
    assert_near("all", brought(&bench, "wet bed", 293.15).volume, 0.1 * room, ROUNDED * room);
    network_bench_go(&bench, 100.0);
    const double left =
        network_bench_look(&bench, "bed.liquid"); /* in the bed without carbon: the grains have taken up the rest */
    assert_true(left > 0.05 * 0.1 * room && left < 0.9 * 0.1 * room);
    network_bench_go(&bench, 200.0);
    assert_true(network_bench_look(&bench, "bed.liquid") >= 0.0 &&
                network_bench_look(&bench, "bed.liquid") < 0.05 * left);
    books_close(&bench);
    network_bench_close(&bench);
}

/* ---- and back ---- */

/* Saved while it pours, and gone on from there: the same bits. */
static void a_pour_is_saved(void **unused)
{
    (void)unused;
    struct network_bench bench = begin(
        BEGINS BED "faults: [{id: f, fault: wrong-blend, where: tank, pressure: 10 kPa, from: 10 s, until: 40 s},\n"
                   "         {id: w, fault: wet, where: bed, share: 10 %, from: 12 s}]\n");
    void *block = malloc(run_block_size(bench.network, bench.run));
    assert_non_null(block);
    for (double save = 5.0; save < 60.0; save += 4.1) {
        network_bench_go(&bench, save);
        const uint64_t then = run_hash(bench.network, bench.run);
        run_save(bench.network, bench.run, block);
        network_bench_go(&bench, save + 20.0);
        const uint64_t later = run_hash(bench.network, bench.run);
        run_restore(bench.network, bench.run, block);
        assert_true(run_hash(bench.network, bench.run) == then);
        network_bench_go(&bench, save + 20.0);
        assert_true(run_hash(bench.network, bench.run) == later);
        run_restore(bench.network, bench.run, block);
    }
    free(block);
    network_bench_close(&bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(so_much_more_comes_and_goes),
        cmocka_unit_test(a_trickle_takes_its_time),
        cmocka_unit_test(a_tank_takes_what_fits),
        cmocka_unit_test(a_size_is_changed_on_its_way),
        cmocka_unit_test(another_fuel_is_of_that_pressure),
        cmocka_unit_test(what_awaits_liquid_is_dry),
        cmocka_unit_test(liquid_lies_where_none_was),
        cmocka_unit_test(a_bed_is_soaked_alike),
        cmocka_unit_test(a_pour_is_saved),
    };
    return cmocka_run_group_tests_name("unit/network/pouring", tests, NULL, NULL) != 0;
}
