/* tests/support/network_bench.h  A network made from a scenario's text, to be changed from inside before its run is made,
 * and run without the door. */
#ifndef SUPPORT_NETWORK_BENCH_H
#define SUPPORT_NETWORK_BENCH_H

#include "network/inside.h"
#include "run/run.h"
#include "support/near.h"
#include "ullage.h"

struct network_bench {
    struct ullage_description *description;
    struct network *network;
    struct run *run; /* null until network_bench_start */
};

static inline struct network_bench network_bench_open(const char *text)
{
    struct network_bench bench = {NULL, NULL, NULL};
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    bench.description = ullage_description_text(text, problems, &outcome);
    if (bench.description)
        bench.network = network_create(bench.description, NULL, 0, problems);
    for (int k = 0; k < ullage_problems_count(problems); k++)
        print_message("%s; %s\n", ullage_problems_at(problems, k).wrong, ullage_problems_at(problems, k).right);
    ullage_problems_free(problems);
    assert_non_null(bench.network);
    return bench;
}

static inline void network_bench_close(struct network_bench *bench)
{
    run_free(bench->run);
    network_free(bench->network);
    ullage_description_free(bench->description);
}

static inline int network_bench_part(const struct network_bench *bench, const char *id)
{
    const int part = network_find_part(bench->network, id);
    assert_true(part >= 0);
    return part;
}

/* Index of a gas among those carried. */
static inline int network_bench_gas(const struct network_bench *bench, const char *name)
{
    for (int i = 0; i < bench->network->carried; i++)
        if (!strcmp(bench->network->kind[i]->name, name))
            return i;
    fail_msg("no %s in the network", name);
    return -1;
}

/* Volume `index` of a part, in the order they were built. */
static inline struct volume *network_bench_volume(const struct network_bench *bench, int part, int index)
{
    int first = 0;
    while (bench->network->volume[first].part != part)
        first++;
    assert_in_range(first + index, 0, bench->network->volumes - 1);
    assert_int_equal(bench->network->volume[first + index].part, part);
    return &bench->network->volume[first + index];
}

/* What a source holds: two gases. */
static inline void network_bench_source(struct network_bench *bench, int part, int gas, int vapor, double share)
{
    for (int b = 0; b < bench->network->boundaries; b++)
        if (bench->network->boundary[b].part == part) {
            bench->network->boundary[b].share[gas] = 1.0 - share;
            bench->network->boundary[b].share[vapor] = share;
        }
}

static inline struct flow network_bench_set_flow(const struct passage_view *at, const struct gas *a,
                                                 const struct gas *b)
{
    (void)a;
    (void)b;
    return (struct flow){.value = at->constant[0]};
}

/* `flow` [mol/s] through a part's passage from now on, whatever the pressures. */
static inline void network_bench_flow(struct network_bench *bench, int part, double flow)
{
    for (int p = 0; p < bench->network->passages; p++)
        if (bench->network->passage[p].part == part) {
            bench->network->passage[p].law = network_bench_set_flow;
            bench->network->passage[p].constant[0] = flow;
        }
    if (bench->run)
        run_command(bench->network, bench->run, part, 1.0); /* the stepper starts afresh */
}

static inline void network_bench_start(struct network_bench *bench, double tolerance)
{
    bench->run = run_create(bench->network, "bdf", tolerance);
    assert_non_null(bench->run);
}

static inline void network_bench_go(struct network_bench *bench, double time)
{
    while (run_reach(bench->run) < time)
        if (run_extend(bench->network, bench->run, (double)INFINITY) != RUN_GOOD)
            fail_msg("%s", run_trouble(bench->run));
    run_move(bench->run, time);
}

static inline double network_bench_look(const struct network_bench *bench, const char *name)
{
    double value;
    const int channel = network_find_channel(bench->network, name);
    assert_true(channel >= 0);
    run_look(bench->network, bench->run, run_now(bench->run), 1, &channel, &value, NULL);
    return value;
}

/* A part's channels tell of its main volume; here of any of its volumes. */
static inline double network_bench_look_at(struct network_bench *bench, int part, int index, const char *name)
{
    bench->network->main_volume[part] = (int)(network_bench_volume(bench, part, index) - bench->network->volume);
    return network_bench_look(bench, name);
}

#endif
