/* sim/procedure/experiment.c  The door's run: made, freed, saved, asked. */
#include "procedure/conduct.h"

#include "base/hash.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TOLERANCE_USUAL 1e-6

/* ---- the block: progress, then all that lies behind it ---- */
enum { PIECES = 8, GRAIN = 16 };

static size_t rounded(size_t bytes)
{
    return (bytes + GRAIN) / GRAIN * GRAIN;
}

/* Sets the pieces' places in `block`; returns the size of the whole. block null: only that. */
static size_t lay_out(struct ullage_run *run, char *block)
{
    const struct procedure *procedure = run->model->procedure;
    const size_t slots = (size_t)procedure->slots;
    const size_t steps = (size_t)procedure->steps;
    const size_t size[PIECES] = {sizeof(struct progress),
                                 slots * sizeof(double),
                                 steps * sizeof(double),
                                 slots * sizeof(int),
                                 steps * sizeof(int),
                                 (size_t)network_faults(run->model->network) * sizeof(bool),
                                 (size_t)network_switches(run->model->network) * sizeof(struct switched),
                                 (size_t)procedure->windows * sizeof(struct window_memory)};
    size_t at[PIECES + 1] = {0};
    for (int k = 0; k < PIECES; k++)
        at[k + 1] = at[k] + rounded(size[k]);
    if (block) {
        run->progress = (void *)block;
        run->slot = (void *)(block + at[1]);
        run->begun = (void *)(block + at[2]);
        run->over = (void *)(block + at[3]);
        run->turn = (void *)(block + at[4]);
        run->there = (void *)(block + at[5]);
        run->switched = (void *)(block + at[6]);
        run->memory = (void *)(block + at[7]);
    }
    return at[PIECES];
}

static bool take_memory(struct ullage_run *run)
{
    const struct ullage_model *model = run->model;
    run->block = lay_out(run, NULL);
    char *block = calloc(1, run->block);
    if (!block)
        return false;
    lay_out(run, block);
    run->look = calloc((size_t)model->procedure->widest + 1, sizeof *run->look);
    run->look_off = calloc((size_t)network_channels(model->network) + 1, sizeof *run->look_off);
    return run->look && run->look_off && logbook_open(&run->log, 1 + model->recorded, network_channels(model->network));
}

static void begin_progress(struct ullage_run *run)
{
    *run->progress = (struct progress){
        .step = -1, .wait = -1, .deadline = (double)INFINITY, .turns = (double)INFINITY, .corner = (double)INFINITY};
    for (int k = 0; k < run->model->procedure->slots; k++)
        run->slot[k] = (double)NAN;
}

struct ullage_run *ullage_run_create(const struct ullage_model *model, const struct ullage_method *method)
{
    const struct ullage_method usual = {.solver = "bdf"};
    const struct ullage_method *by = method ? method : &usual;
    struct ullage_run *run = calloc(1, sizeof *run);
    if (!run)
        return NULL;
    run->model = model;
    run->trouble = "";
    run->seed = by->seeded ? by->seed : model->seed;
    run->tolerance = by->tolerance > 0.0 ? by->tolerance : TOLERANCE_USUAL;
    run->physics = run_create(model->network, by->solver ? by->solver : usual.solver, run->tolerance);
    if (run->physics && take_memory(run)) {
        run_seed(run->physics, run->seed);
        begin_progress(run);
        return run;
    }
    ullage_run_free(run);
    return NULL;
}

void ullage_run_free(struct ullage_run *run)
{
    if (!run)
        return;
    logbook_close(&run->log);
    run_free(run->physics);
    free(run->progress);
    free(run->look);
    free(run->look_off);
    free(run);
}

/* ---- saving ---- */
size_t experiment_size(const struct ullage_run *run)
{
    return run->block + run_block_size(run->model->network, run->physics);
}

void experiment_save(const struct ullage_run *run, void *block)
{
    memcpy(block, run->progress, run->block);
    run_save(run->model->network, run->physics, (char *)block + run->block);
}

void experiment_restore(struct ullage_run *run, const void *block)
{
    memcpy(run->progress, block, run->block);
    run_restore(run->model->network, run->physics, (const char *)block + run->block);
    run->trouble = "";
}

const struct progress *experiment_progress(const void *block)
{
    return block;
}

/* ---- going on ---- */
enum ullage_status ullage_run_advance(const struct ullage_model *model, struct ullage_run *run, double time)
{
    assert(model == run->model);
    return conduct_advance(run, time, INT64_MAX);
}

void ullage_run_heed(struct ullage_run *run, const volatile sig_atomic_t *stop)
{
    run->stop = stop;
}

/* ---- asked ---- */
double ullage_run_time(const struct ullage_run *run)
{
    return conduct_now(run);
}

const char *ullage_run_trouble(const struct ullage_run *run)
{
    return run->progress->stuck ? run->trouble : "";
}

void ullage_run_values(const struct ullage_model *model, const struct ullage_run *run, double *value,
                       signed char *off_scale)
{
    run_look_all(model->network, run->physics, conduct_now(run), value, off_scale);
}

void ullage_run_cells(const struct ullage_model *model, const struct ullage_run *run, int part,
                      struct ullage_cell *cell)
{
    run_cells(model->network, run->physics, conduct_now(run), part, cell);
}

int ullage_run_samples(const struct ullage_run *run)
{
    return run->progress->samples;
}

const double *ullage_run_sample(const struct ullage_run *run, int row)
{
    assert(0 <= row && row < run->progress->samples);
    return rows_at(&run->log.told.sample, row);
}

int ullage_run_readings(const struct ullage_run *run)
{
    return run->progress->readings;
}

struct ullage_reading ullage_run_reading(const struct ullage_run *run, int index)
{
    assert(0 <= index && index < run->progress->readings);
    return *(const struct ullage_reading *)rows_at(&run->log.told.reading, index);
}

const double *ullage_run_reading_values(const struct ullage_run *run, int index)
{
    assert(0 <= index && index < run->progress->readings);
    return rows_at(&run->log.told.reading_values, index);
}

int ullage_run_verdicts(const struct ullage_run *run)
{
    return run->progress->verdicts;
}

struct ullage_verdict ullage_run_verdict(const struct ullage_run *run, int index)
{
    assert(0 <= index && index < run->progress->verdicts);
    return *(const struct ullage_verdict *)rows_at(&run->log.told.verdict, index);
}

int ullage_run_events(const struct ullage_run *run)
{
    return run->progress->events;
}

struct ullage_event ullage_run_event(const struct ullage_run *run, int index)
{
    assert(0 <= index && index < run->progress->events);
    return *(const struct ullage_event *)rows_at(&run->log.told.event, index);
}

int ullage_run_step(const struct ullage_run *run, double *since, double *share)
{
    const struct progress *progress = run->progress;
    const double gone = conduct_now(run) - progress->since;
    const double lasts = progress->deadline - progress->since;
    *since = progress->since;
    *share = progress->waiting && lasts > 0.0 ? fmin(gone / lasts, 1.0) : 0.0;
    return progress->step;
}

struct ullage_ledger_row ullage_run_ledger(const struct ullage_model *model, const struct ullage_run *run, int row)
{
    return run_ledger(model->network, run->physics, row);
}

struct ullage_opening_row ullage_run_opening(const struct ullage_model *model, const struct ullage_run *run, int row)
{
    return run_opening_row(model->network, run->physics, row);
}

struct ullage_fuel ullage_run_fuel(const struct ullage_model *model, const struct ullage_run *run)
{
    return run_fuel(model->network, run->physics);
}

struct ullage_effort ullage_run_effort(const struct ullage_run *run)
{
    return run_effort(run->physics);
}

uint64_t ullage_run_hash(const struct ullage_run *run)
{
    const struct procedure *procedure = run->model->procedure;
    const struct progress *progress = run->progress;
    uint64_t hash = run_hash(run->model->network, run->physics);
    hash = hash_bytes(hash, &progress->step, sizeof progress->step);
    hash = hash_bytes(hash, &progress->since, sizeof progress->since);
    hash = hash_bytes(hash, &progress->deadline, sizeof progress->deadline);
    hash = hash_bytes(hash, run->slot, (size_t)procedure->slots * sizeof *run->slot);
    hash = hash_bytes(hash, run->turn, (size_t)procedure->steps * sizeof *run->turn);
    return hash_bytes(hash, &run->seed, sizeof run->seed);
}
