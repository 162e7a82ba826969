/* tests/support/bed_bench.h  The program's own bed of cells on a bench where everything of it can be set: its isotherm,
 * its gas space, what it begins with and what flows in. The network integrates it as any canister; only numbers of the
 * network are changed before the run is made. Two gases: air, which the carbon does not hold unless it is left as the
 * program has it, and a vapor (the row of n-butane). SI units. */
#ifndef SUPPORT_BED_BENCH_H
#define SUPPORT_BED_BENCH_H

#include "support/bed_forms.h"
#include "support/network_bench.h"

struct bed_rig {
    double length, volume; /* m, m3: of the whole bed */
    int cells;             /* up to 80, or 2, 3, 4 times 80 or 25: then in equal beds one behind the other */
    const char *heat;      /* "isothermal", "adiabatic"; null: the full law, walls and all */
};

struct bed_bench {
    struct network_bench bench;
    int cells, bed, inlet, source, outlet; /* parts */
    int air, vapor;                        /* carried gases */
};

/* A network without flow; its carbon the program's. The run is made by bed_bench_start. */
struct bed_bench bed_bench_open(const struct bed_rig *rig);
void bed_bench_close(struct bed_bench *bench);

/* Nothing diffuses and nothing is conducted along the bed; hardly any pressure is lost in it. */
void bed_bench_plain(struct bed_bench *bench);

void bed_bench_gas(struct bed_bench *bench, double gas); /* m3 of gas in a m3 of bed */
/* Capacities [mol/kg] and affinities [1/Pa at 298.15 K] of the vapor's sites, its heat [J/mol]; air is not held. */
void bed_bench_sites(struct bed_bench *bench, int sites, const double *capacity, const double *affinity, double heat);
void bed_bench_uptake(struct bed_bench *bench, double rate); /* 1/s */

/* mol/s into the bed from now on, `feed` of it vapor. Negative: drawn out there, and air comes in at the other end. */
void bed_bench_flow(struct bed_bench *bench, double flow, double feed);

/* A cell begins at rest with its gas. cell 0..cells-1; -1: the space before the bed; cells: the one behind. */
void bed_bench_fill(struct bed_bench *bench, int cell, double share, double temperature);
void bed_bench_fill_all(struct bed_bench *bench, double share);
struct volume *bed_bench_cell(const struct bed_bench *bench, int cell);

/* The error test looks at shares of the vapor as small as `least`. */
void bed_bench_start(struct bed_bench *bench, double least, double tolerance);
void bed_bench_go(struct bed_bench *bench, double time); /* forward only */

/* Now. */
double bed_bench_share(struct bed_bench *bench, int cell);
double bed_bench_temperature(struct bed_bench *bench, int cell);
double bed_bench_held(const struct bed_bench *bench); /* mol of vapor in gas and carbon */
double bed_bench_left(const struct bed_bench *bench); /* mol of vapor that left the bed since the start */

/* The bed of the tables (bed_values.h): its size, its gas, nothing that spreads, its flow of mol/s. */
extern const double bed_bench_flow_of_tables;
struct bed_bench bed_bench_of_tables(int cells, const char *heat);

#endif
