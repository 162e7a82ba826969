/* tests/support/bed_bench.c  A canister between a gas that flows in at a set rate and the open air. */
#include "support/bed_bench.h"

enum { CELLS_MOST = 80, CELLS_OTHER = 25, TEXT_ROOM = 4096 };

#define SMOOTH 2e-2 /* m: grains ten times the program's: a hundredth of the drag, 0.1 Pa in the bed of the tables */

/* Cells of each bed, where several make up the whole. */
static int cells_of_bed(int cells)
{
    if (cells <= CELLS_MOST)
        return cells;
    return cells % CELLS_MOST == 0 ? CELLS_MOST : CELLS_OTHER;
}

static void rig_text(const struct bed_rig *rig, char *text)
{
    const int each = cells_of_bed(rig->cells), beds = rig->cells / each;
    assert_int_equal(beds * each, rig->cells);
    char *end = text + sprintf(text,
                               "ullage: scenario/1\nname: bed\nend: 1 s\n"
                               "surroundings: {pressure: 101325 Pa, temperature: 298.15 K}\n%s%s%s"
                               "start: {bed: {gas: {air: 0.5, n-butane: 0.5}}}\nsystem:\n  parts:\n"
                               "    source: {type: manifold, pressure: 101325 Pa}\n"
                               "    inlet: {type: hole, from: source, to: bed.tank, diameter: 10 mm}\n"
                               "    outlet: {type: hole, from: bed.air, to: air, diameter: 50 mm}\n"
                               "    bed: {type: canister, end_space: 0.1 mL, beds: [",
                               rig->heat ? "assume: {heat: " : "", rig->heat ? rig->heat : "", rig->heat ? "}\n" : "");
    for (int b = 0; b < beds; b++)
        end += sprintf(end, "%s{volume: %.17g m^3, length: %.17g m, cells: %d}", b > 0 ? ", " : "", rig->volume / beds,
                       rig->length / beds, each);
    sprintf(end, "]}\n");
}

struct bed_bench bed_bench_open(const struct bed_rig *rig)
{
    char text[TEXT_ROOM];
    rig_text(rig, text);
    struct bed_bench bench = {.bench = network_bench_open(text), .cells = rig->cells};
    bench.bed = network_bench_part(&bench.bench, "bed");
    bench.inlet = network_bench_part(&bench.bench, "inlet");
    bench.source = network_bench_part(&bench.bench, "source");
    bench.outlet = network_bench_part(&bench.bench, "outlet");
    bench.air = network_bench_gas(&bench.bench, "air");
    bench.vapor = network_bench_gas(&bench.bench, "n-butane");
    bed_bench_flow(&bench, 0.0, 0.0);
    return bench;
}

void bed_bench_close(struct bed_bench *bench)
{
    network_bench_close(&bench->bench);
}

struct volume *bed_bench_cell(const struct bed_bench *bench, int cell)
{
    return network_bench_volume(&bench->bench, bench->bed, cell + 1);
}

void bed_bench_plain(struct bed_bench *bench)
{
    enum { GRAIN = 2 }; /* of the canister's constants */

    const struct network *network = bench->bench.network;
    for (int p = 0; p < network->passages; p++) {
        network->passage[p].reach = network->passage[p].conduct = 0.0;
        network->passage[p].reaches = NULL;
        if (network->passage[p].part == bench->bed)
            network->passage[p].constant[GRAIN] = SMOOTH;
    }
}

void bed_bench_gas(struct bed_bench *bench, double gas)
{
    for (int c = 0; c < bench->cells; c++) {
        struct volume *cell = bed_bench_cell(bench, c);
        cell->room = gas * cell->carbon / carbon_table(NULL)[0].density;
    }
}

void bed_bench_sites(struct bed_bench *bench, int sites, const double *capacity, const double *affinity, double heat)
{
    assert_in_range(sites, 1, CARBON_SITES);
    for (int c = 0; c < bench->cells; c++) {
        struct sorbent *sorbent = &bed_bench_cell(bench, c)->sorbent;
        *sorbent = (struct sorbent){.count = sorbent->count};
        for (int s = 0; s < sites; s++) {
            sorbent->capacity[s] = capacity[s];
            sorbent->affinity[bench->vapor][s] = affinity[s];
        }
        sorbent->heat[bench->vapor] = heat;
    }
}

void bed_bench_uptake(struct bed_bench *bench, double rate)
{
    for (int c = 0; c < bench->cells; c++)
        for (int i = 0; i < bench->bench.network->species; i++)
            bed_bench_cell(bench, c)->uptake[i] = rate;
}

void bed_bench_flow(struct bed_bench *bench, double flow, double feed)
{
    network_bench_source(&bench->bench, bench->source, bench->air, bench->vapor, feed);
    network_bench_flow(&bench->bench, bench->inlet, flow);
}

/* ---- what it begins with, and the scales that go with it ---- */

/* Partial pressures, and what the carbon holds under them [mol]. */
static void at_rest(const struct bed_bench *bench, const struct volume *volume, double share, double temperature,
                    double *partial, double *load)
{
    memset(partial, 0, CARRIED_MOST * sizeof *partial);
    memset(load, 0, CARRIED_MOST * sizeof *load);
    partial[bench->air] = (1.0 - share) * bench->bench.network->reference;
    partial[bench->vapor] = share * bench->bench.network->reference;
    if (volume->carbon > 0.0)
        carbon_loading_value(&volume->sorbent, partial, temperature, load);
    for (int i = 0; i < bench->bench.network->species; i++)
        load[i] *= volume->carbon;
}

void bed_bench_fill(struct bed_bench *bench, int cell, double share, double temperature)
{
    struct volume *volume = bed_bench_cell(bench, cell);
    const struct network *network = bench->bench.network;
    double partial[CARRIED_MOST];
    at_rest(bench, volume, share, temperature, partial, volume->load);
    const struct warmth warmth = gas_warmth(temperature);
    volume->energy = volume->dry * temperature;
    for (int i = 0; i < network->species; i++) {
        const double enthalpy = species_enthalpy(network->kind[i], temperature, &warmth);
        volume->stock[i] = partial[i] * volume->room / (GAS_CONSTANT * temperature);
        volume->energy += volume->stock[i] * (enthalpy - GAS_CONSTANT * temperature);
        if (volume->carbon > 0.0)
            volume->energy += volume->load[i] * (enthalpy - volume->sorbent.heat[i]);
    }
    volume->temperature = temperature;
}

void bed_bench_fill_all(struct bed_bench *bench, double share)
{
    for (int c = -1; c <= bench->cells; c++)
        bed_bench_fill(bench, c, share, bed_bench_cell(bench, c)->temperature);
}

#define STEP_SHARE 0.1 /* of an amount: one unit of the error test, as the program has it */

static void scale_cell(const struct bed_bench *bench, const struct volume *volume, double least, double *scale,
                       double *base)
{
    const struct network *network = bench->bench.network;
    double partial[CARRIED_MOST], load[CARRIED_MOST];
    at_rest(bench, volume, least, volume->temperature, partial, load);
    for (int i = 0; i < network->species; i++)
        base[volume->at + i] = volume->stock[i];
    const double per_pressure = STEP_SHARE * volume->room / (GAS_CONSTANT * volume->temperature);
    scale[volume->at + bench->air] = per_pressure * network->reference;
    scale[volume->at + bench->vapor] = per_pressure * partial[bench->vapor];
    if (!(volume->carbon > 0.0))
        return;
    const int loads = volume->at + network->carried + 2;
    scale[loads + bench->vapor] = STEP_SHARE * load[bench->vapor];
    for (int i = 0; i < network->species; i++)
        base[loads + i] = volume->load[i];
}

void bed_bench_start(struct bed_bench *bench, double least, double tolerance)
{
    struct network *network = bench->bench.network;
    const size_t states = (size_t)network->stiff.states;
    double *scale = arena_take(network->arena, states * sizeof *scale);
    double *base = arena_take(network->arena, states * sizeof *base);
    assert_true(scale && base);
    memcpy(scale, network->stiff.scale, states * sizeof *scale);
    memcpy(base, network->stiff.base, states * sizeof *base);
    for (int c = -1; c <= bench->cells; c++)
        scale_cell(bench, bed_bench_cell(bench, c), least, scale, base);
    network->stiff.scale = scale;
    network->stiff.base = base;
    network_bench_start(&bench->bench, tolerance);
}

/* ---- running and looking ---- */

void bed_bench_go(struct bed_bench *bench, double time)
{
    network_bench_go(&bench->bench, time);
}

double bed_bench_share(struct bed_bench *bench, int cell)
{
    return network_bench_look_at(&bench->bench, bench->bed, cell + 1, "bed.n-butane");
}

double bed_bench_temperature(struct bed_bench *bench, int cell)
{
    return network_bench_look_at(&bench->bench, bench->bed, cell + 1, "bed.temperature");
}

double bed_bench_held(const struct bed_bench *bench)
{
    const struct ullage_ledger_row row = run_ledger(bench->bench.network, bench->bench.run, bench->vapor);
    return row.stored_start + row.stored_change;
}

double bed_bench_left(const struct bed_bench *bench)
{
    return run_ledger(bench->bench.network, bench->bench.run, bench->vapor).out;
}

/* ---- the bed of the tables ---- */

const double bed_bench_flow_of_tables = 0.02 * 5e-3 * 101325.0 / (GAS_CONSTANT * 298.15); /* velocity, section, C */

struct bed_bench bed_bench_of_tables(int cells, const char *heat)
{
    const double section = 5e-3; /* m2 */
    const struct bed_case *bed = &bed_of_the_tables;
    const struct bed_rig rig = {bed->length, bed->length * section, cells, heat};
    struct bed_bench bench = bed_bench_open(&rig);
    bed_bench_plain(&bench);
    bed_bench_gas(&bench, bed->gas);
    return bench;
}
