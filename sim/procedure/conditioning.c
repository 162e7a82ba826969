/* sim/procedure/conditioning.c  The bench: a canister, a feed at either side, and an opening that is free or plugged at
 * either side. What comes of it depends on nothing but its recipe, and is kept under that. */
#include "procedure/conditioning.h"

#include "procedure/feed.h"
#include "procedure/keep.h"
#include "procedure/recipe.h"
#include "run/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BENCH_PRESSURE STANDARD_PRESSURE
#define BENCH_TOLERANCE 1e-6
#define OPENING 30e-3 /* m: of the free ways out; 3 Pa at 100 L/min */

enum { CANISTER, LOADS, PURGES, VENT, RETURN, BENCH_PARTS };

enum { STEPS_MOST = 200000, HALVINGS = 60, FIRST_STEPS = 12 };

struct bench {
    const struct conditioning *told;
    struct part part[BENCH_PARTS];
    double zero, pressure, temperature; /* the surroundings' only corners */
    struct ullage_description description;
    double bed_volume, amount_per_mass; /* m3; mol/kg of the vapor that loads */
    struct network *network;
    struct run *run;
    int steps;
};

/* ---- the gas that loads ---- */

static bool fuel_holds(const struct fill *fill, const struct component *gas)
{
    for (int k = 0; k < fill->fuels; k++)
        if (!strcmp(fill->fuel[k].gas.name, gas->gas.name))
            return true;
    return false;
}

/* Null: the scenario's own fuel. */
static const struct component *loading_gas(const struct conditioning *told, const struct fill *fill)
{
    const struct component *butane = component_find("n-butane");
    if (told->gas || told->fuel)
        return told->gas;
    return !fill->given || told->share_given || fuel_holds(fill, butane) ? butane : NULL;
}

/* Mole shares of the fuel's vapor in air over it; all of it where it would boil. */
static void vapor_shares(const struct fill *fill, double temperature, double *share)
{
    struct liquid liquid;
    const struct component *component[LIQUID_MOST];
    double held = 0.0;
    for (int k = 0; k < fill->fuels; k++)
        component[k] = &fill->fuel[k];
    liquid_prepare(&liquid, fill->fuels, component);
    liquid_pressure_values(&liquid, fill->amount, temperature, share);
    for (int k = 0; k < fill->fuels; k++)
        held += share[k];
    for (int k = 0; k < fill->fuels; k++)
        share[k] /= fmax(held, BENCH_PRESSURE);
}

/* The bench knows what loads as its fuel, though no tank holds any. Fills the shares of the feed. */
static void fuel_make(struct bench *bench, const struct fill *fill, double *share)
{
    const struct component *gas = loading_gas(bench->told, fill);
    struct fill *into = &bench->description.fill;
    if (!gas) {
        *into = *fill;
        vapor_shares(fill, bench->told->temperature, share);
    } else {
        *into = (struct fill){.given = true, .fuels = 1, .fuel = {*gas}, .amount = {1.0}};
        share[0] = bench->told->share;
    }
    double vapor = 0.0, mass = 0.0;
    for (int k = 0; k < into->fuels; k++) {
        vapor += share[k];
        mass += share[k] * into->fuel[k].gas.molar_mass;
    }
    bench->amount_per_mass = vapor / mass;
    bench->part[LOADS].value[FEED_RATE] = bench->told->rate / mass;
}

/* ---- the parts ---- */

static struct part bench_part(const struct element_kind *kind, const char *id)
{
    struct part part = {.id = id, .kind = kind};
    for (int r = 0; kind->parameter[r].name; r++)
        part.value[r] = kind->parameter[r].usual;
    return part;
}

static struct part way_out(const char *id, const char *opening)
{
    const struct element_kind *hole = element_find("hole");
    struct part part = bench_part(hole, id);
    part.value[rows_find(hole->parameter, "diameter")] = OPENING;
    part.end[ends_find(hole->end, "from")] = (struct part_end){.part = "canister", .opening = opening};
    part.end[ends_find(hole->end, "to")] = (struct part_end){.part = "air"};
    return part;
}

static struct part feed_to(const char *id, const char *opening)
{
    struct part part = bench_part(&feed_kind, id);
    part.end[0] = (struct part_end){.part = "canister", .opening = opening};
    return part;
}

static void bench_describe(struct bench *bench, const struct ullage_description *from, const struct part *canister)
{
    const struct conditioning *told = bench->told;
    bench->part[CANISTER] = *canister;
    bench->part[CANISTER].id = "canister";
    bench->part[CANISTER].openings = 0; /* the ports that every canister has */
    bench->part[CANISTER].course = (struct course){0};
    for (int r = 0; canister->kind->parameter[r].name; r++) /* what was wrong with it from the start was so then */
        bench->part[CANISTER].value[r] = parameter_at_start(from, (int)(canister - from->part), r);
    bench->part[LOADS] = feed_to("loads", "tank");
    bench->part[PURGES] = feed_to("purges", "air");
    bench->part[VENT] = way_out("vent", "air");
    bench->part[RETURN] = way_out("return", "tank");
    bench->part[PURGES].value[FEED_RATE] = told->purge_rate * STANDARD_PRESSURE / (GAS_CONSTANT * STANDARD_TEMPERATURE);
    for (int b = 0; b < canister->beds; b++) {
        bench->bed_volume += canister->bed[b].value[rows_find(canister->kind->bed, "volume")];
        bench->part[CANISTER].bed[b].value[rows_find(canister->kind->bed, "wet")] = 0.0; /* it got wet afterwards */
    }
    bench->pressure = BENCH_PRESSURE;
    bench->temperature = told->temperature;
    bench->description = (struct ullage_description){
        .name = "", .about = "", .system = "", .procedure_name = "", .parts = BENCH_PARTS, .part = bench->part};
    bench->description.assume = from->assume;
    bench->description.surroundings.pressure = (struct profile){1, &bench->zero, &bench->pressure};
    bench->description.surroundings.temperature = (struct profile){1, &bench->zero, &bench->temperature};
    bench->description.surroundings.sun = bench->description.surroundings.wind =
        (struct profile){1, &bench->zero, &bench->zero}; /* indoors */
    fuel_make(bench, &from->fill, &bench->part[LOADS].value[FEED_SHARE]);
}

/* ---- following it ---- */

static bool bench_step(struct bench *bench, double limit)
{
    return bench->steps++ < STEPS_MOST && run_extend(bench->network, bench->run, limit) == RUN_GOOD;
}

/* kg of the vapor that loads which have left at the air's side. */
static double bench_vented(const struct bench *bench, double time)
{
    const struct fill *fill = &bench->description.fill;
    double mass = 0.0;
    for (int r = run_opening_rows(bench->network) - 1; r >= 0; r--) {
        const struct ullage_opening_row row = run_opening_row_at(bench->network, bench->run, time, r);
        for (int k = 0; k < fill->fuels && !strcmp(row.part, bench->part[VENT].id); k++)
            if (!strcmp(row.species, fill->fuel[k].gas.name))
                mass += row.out * fill->fuel[k].gas.molar_mass;
    }
    return mass;
}

/* Where, from `begun` to reach, so much had left. */
static double moment_of(const struct bench *bench, double begun, double wanted)
{
    double early = begun, late = run_reach(bench->run);
    for (int k = 0; k < HALVINGS; k++) {
        const double middle = 0.5 * (early + late);
        *(bench_vented(bench, middle) < wanted ? &early : &late) = middle;
    }
    return late;
}

static void bench_turn(struct bench *bench, bool loads)
{
    run_command(bench->network, bench->run, LOADS, loads ? 1.0 : 0.0);
    run_command(bench->network, bench->run, VENT, loads ? 1.0 : 0.0);
    run_command(bench->network, bench->run, PURGES, loads ? 0.0 : 1.0);
    run_command(bench->network, bench->run, RETURN, loads ? 0.0 : 1.0);
}

static bool bench_load(struct bench *bench)
{
    const double wanted = bench_vented(bench, run_now(bench->run)) + bench->told->until;
    bench_turn(bench, true);
    double begun = run_reach(bench->run);
    while (bench_vented(bench, run_reach(bench->run)) < wanted) {
        begun = run_reach(bench->run);
        if (!bench_step(bench, (double)INFINITY))
            return false;
    }
    run_move(bench->run, moment_of(bench, begun, wanted));
    return true;
}

static bool bench_purge(struct bench *bench)
{
    bench_turn(bench, false);
    const double end = run_now(bench->run) + bench->told->volumes * bench->bed_volume / bench->told->purge_rate;
    while (run_reach(bench->run) < end)
        if (!bench_step(bench, end))
            return false;
    run_move(bench->run, end);
    return true;
}

static bool bench_cycles(struct bench *bench)
{
    for (int cycle = 0; cycle < bench->told->cycles; cycle++)
        if (!bench_load(bench) || !bench_purge(bench))
            return false;
    return true;
}

/* ---- what comes of it ---- */

/* Loads and shares in a row of numbers: 2 volumes species. */
static int bench_numbers(const struct bench *bench)
{
    return 2 * network_volumes(bench->network, CANISTER) * network_species(bench->network);
}

/* The hash of the first steps stands in the recipe for all that no list of inputs has: the laws, the stepper, the machine. */
static char *bench_recipe(struct bench *bench)
{
    struct run *first = run_create(bench->network, "bdf", BENCH_TOLERANCE);
    if (!first)
        return NULL;
    struct bench trial = *bench;
    trial.run = first;
    bench_turn(&trial, true);
    for (int k = 0; k < FIRST_STEPS && bench_step(&trial, (double)INFINITY); k++)
        run_move(first, run_reach(first));
    bench_turn(&trial, false);
    for (int k = 0; k < FIRST_STEPS && bench_step(&trial, (double)INFINITY); k++)
        run_move(first, run_reach(first));
    char *recipe = recipe_text(&bench->description, bench->told, BENCH_TOLERANCE, run_hash(bench->network, first));
    run_free(first);
    return recipe;
}

/* Amounts that an integrator left a little under zero are none. */
static bool bench_look(const struct bench *bench, double *value, int count)
{
    if (!run_held(bench->network, bench->run, CANISTER, value, value + count / 2))
        return false;
    for (int k = 0; k < count; k++)
        value[k] = fmax(value[k], 0.0);
    return true;
}

/* False: the numbers failed, or memory is out. */
static bool bench_follow(struct bench *bench, double *value, int count)
{
    bench->run = run_create(bench->network, "bdf", BENCH_TOLERANCE);
    return bench->run && bench_cycles(bench) && bench_look(bench, value, count);
}

static bool holds_fuel(const struct bench *bench, const double *load, int count)
{
    const int species = network_species(bench->network);
    for (int k = 0; k < count; k++)
        if (k % species > 0 && load[k] > 0.0) /* 0 is air */
            return true;
    return false;
}

static struct held *held_make(struct arena *arena, const struct bench *bench, const double *value, int count)
{
    struct held *held = arena_take(arena, sizeof *held);
    const int species = network_species(bench->network);
    const char **name = arena_take(arena, (size_t)species * sizeof *name);
    if (!held || !name)
        return NULL;
    for (int k = 0; k < species; k++)
        if (!(name[k] = arena_text(arena, network_species_name(bench->network, k))))
            return NULL;
    *held = (struct held){network_volumes(bench->network, CANISTER), species, name, value, value + count / 2};
    return held;
}

static void tell_failure(const struct bench *bench, const char *id, struct ullage_problems *problems)
{
    const struct conditioning *told = bench->told;
    const bool stuck = bench->run && *run_trouble(bench->run);
    if (stuck || bench->steps >= STEPS_MOST)
        problem_add(problems, told->at, "condition it in fewer cycles, or nearer to usual rates",
                    "conditioning %s comes to no end: %s", id,
                    stuck ? run_trouble(bench->run) : "it takes too many steps");
}

/* The numbers, kept or found now. */
static const struct held *bench_result(struct arena *arena, struct bench *bench, const char *keep, const char *id,
                                       struct ullage_problems *problems)
{
    const int count = bench_numbers(bench);
    double *value = arena_take(arena, (size_t)count * sizeof *value);
    char *recipe = value ? bench_recipe(bench) : NULL;
    bool good = recipe && keep_find(keep, recipe, value, count);
    if (recipe && !good) {
        good = bench_follow(bench, value, count);
        if (good)
            keep_put(keep, recipe, value, count);
        else
            tell_failure(bench, id, problems);
    }
    free(recipe);
    if (good && !holds_fuel(bench, value, count / 2)) {
        problem_add(problems, bench->told->at, "give its beds carbon: stock, or load it with another gas",
                    "the beds of %s hold nothing of what they are loaded with", id);
        good = false;
    }
    return good ? held_make(arena, bench, value, count) : NULL;
}

static const struct held *conditioned(struct arena *arena, const struct ullage_description *from,
                                      const struct start *start, struct ullage_problems *problems)
{
    struct bench bench = {.told = &start->conditioning};
    const struct part *canister = &from->part[start->part];
    if (bench.told->fuel && !from->fill.given) {
        problem_add(problems, bench.told->at, "add fill: {level: 40 %, rvp: 9 psi}, or load it with n-butane",
                    "%s is to be loaded with the fuel's vapor, but there is no fuel", canister->id);
        return NULL;
    }
    bench_describe(&bench, from, canister);
    bench.network = network_create(&bench.description, NULL, 0, problems);
    const struct held *held = bench.network ? bench_result(arena, &bench, from->keep, canister->id, problems) : NULL;
    run_free(bench.run);
    network_free(bench.network);
    return held;
}

bool conditionings_make(struct arena *arena, struct ullage_description *description, struct ullage_problems *problems)
{
    struct start *start = arena_take(arena, ((size_t)description->starts + 1) * sizeof *start);
    if (!start)
        return false;
    for (int k = 0; k < description->starts; k++) {
        start[k] = description->start[k];
        if (!start[k].conditioning.given)
            continue;
        start[k].held = conditioned(arena, description, &start[k], problems);
        if (!start[k].held)
            return false;
    }
    description->start = start;
    return true;
}
