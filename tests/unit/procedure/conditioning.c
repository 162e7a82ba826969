/* tests/unit/procedure/conditioning.c  A conditioned canister begins at rest with what the bench left in it; the same bits
 * whether it was followed now or kept; more purging, or warmer, leaves less; the gas that loads is the one told, or the usual. */
#include "procedure/conditioning.h"

#include "network/inside.h"
#include "support/near.h"
#include "support/run_text.h"

#include <dirent.h>
#include <unistd.h>

/* Few cells: a matter of milliseconds. */
#define RIG(start, more)                                                                                               \
    "ullage: scenario/1\nname: rig\nsystem:\n  parts:\n"                                                               \
    "    canister: {type: canister, beds: [{volume: 0.6 L, length: 150 mm, cells: 4}, "                                \
    "{volume: 0.2 L, length: 60 mm, cells: 2, capacity: 0.7}]}\n"                                                      \
    "    vent: {type: hole, from: canister.air, to: air, diameter: 8 mm}\n"                                            \
    "start:\n  canister: {" start "}\n" more "end: 1 h\n"

struct ready {
    struct arena *arena;
    struct ullage_description *description, conditioned;
    struct network *network;
};

static struct ready ready_with(const char *text, const char *keep)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ready ready = {.arena = arena_create(), .description = ullage_description_text(text, problems, &outcome)};
    assert_non_null(ready.description);
    ready.conditioned = *ready.description;
    ready.conditioned.keep = keep;
    assert_true(conditionings_make(ready.arena, &ready.conditioned, problems));
    ready.network = network_create(&ready.conditioned, NULL, 0, problems);
    assert_non_null(ready.network);
    ullage_problems_free(problems);
    return ready;
}

static void ready_clear(struct ready *ready)
{
    network_free(ready->network);
    ullage_description_free(ready->description);
    arena_free(ready->arena);
}

/* g of everything but air on the carbon. */
static double grams(const char *text)
{
    struct ready ready = ready_with(text, NULL);
    double mass = 0.0;
    for (int v = 0; v < ready.network->volumes; v++)
        for (int i = 1; i < ready.network->species; i++)
            mass += 1e3 * ready.network->volume[v].load[i] * ready.network->kind[i]->molar_mass;
    ready_clear(&ready);
    return mass;
}

static bool has_gas(const struct network *network, const char *name)
{
    for (int i = 0; i < network->carried; i++)
        if (!strcmp(network->kind[i]->name, name))
            return true;
    return false;
}

/* ---- it begins at rest ---- */

static void cell_at_rest(const struct network *network, const struct volume *volume, double pressure,
                         double temperature)
{
    double amount = 0.0, energy = volume->dry * temperature, partial[CARRIED_MOST], loading[CARRIED_MOST];
    const struct warmth warmth = gas_warmth(temperature);
    for (int i = 0; i < network->species; i++)
        amount += volume->stock[i];
    assert_near_share("pressure", amount * GAS_CONSTANT * temperature / volume->room, pressure, 1e-13);
    for (int i = 0; i < network->species; i++) {
        const double enthalpy = species_enthalpy(network->kind[i], temperature, &warmth);
        partial[i] = volume->stock[i] / amount * pressure;
        energy += volume->stock[i] * (enthalpy - GAS_CONSTANT * temperature) +
                  volume->load[i] * (enthalpy - volume->sorbent.heat[i]);
    }
    assert_near_share("energy", volume->energy, energy, 1e-13);
    carbon_loading_value(&volume->sorbent, partial, temperature, loading);
    for (int i = 0; i < network->species; i++)
        assert_near_share(network->kind[i]->name, volume->carbon * loading[i], volume->load[i], 1e-10);
}

static void begins_at_rest(void **unused)
{
    (void)unused;
    static const char *const starts[] = {
        RIG("conditioned: {}, temperature: 35 degC, gauge_pressure: 2 kPa", ""),
        RIG("conditioned: {load: {gas: fuel}}, temperature: 35 degC, gauge_pressure: 2 kPa",
            "fill: {components: {n-butane: 6 %, isopentane: 30 %, n-hexane: 34 %, toluene: 30 %}}\n")};
    for (size_t k = 0; k < sizeof starts / sizeof starts[0]; k++) {
        struct ready ready = ready_with(starts[k], NULL);
        const struct network *network = ready.network;
        int cells = 0;
        for (int v = 0; v < network->volumes; v++)
            if (network->volume[v].carbon > 0.0) {
                assert_true(network->volume[v].load[1] > 0.0);
                cell_at_rest(network, &network->volume[v], STANDARD_PRESSURE + 2e3, 308.15);
                cells++;
            }
        assert_int_equal(cells, 6);
        ready_clear(&ready);
    }
}

/* Brought into an oven: the carbon would press with more than there is, and gives. */
static void a_full_bed_in_the_heat_gives(void **unused)
{
    (void)unused;
    struct text_run ran =
        text_run(RIG("conditioned: {purge: {volumes: 0}}, temperature: 90 degC",
                     "surroundings: {temperature: 90 degC}\n"
                     "procedure:\n  steps:\n    - read: {first: canister.load, share: canister.fuel_vapor}\n"
                     "    - wait: {for: 30 min}\n    - read: {left: canister.load}\n"));
    assert_true(text_reading(&ran, "left") < 0.9 * text_reading(&ran, "first"));
    for (int r = 0; r < ullage_model_ledger_rows(ran.model); r++) {
        const struct ullage_ledger_row row = ullage_run_ledger(ran.model, ran.run, r);
        assert_near(row.name, row.residual, 0.0, (strcmp(row.name, "energy") ? 1e-12 : 1e-10) * row.scale);
    }
    text_close(&ran);
}

/* ---- what is left ---- */

static void more_purging_leaves_less(void **unused)
{
    (void)unused;
    const double loaded = grams(RIG("conditioned: {purge: {volumes: 0}}", ""));
    const double usual = grams(RIG("conditioned: {}", ""));
    assert_true(usual < 0.6 * loaded);
    assert_true(grams(RIG("conditioned: {purge: {volumes: 600}}", "")) < 0.9 * usual);
    assert_true(grams(RIG("conditioned: {temperature: 40 degC}", "")) < 0.9 * usual);
    assert_true(grams(RIG("conditioned: {load: {until: 10 g}}", "")) > usual);
    assert_true(grams(RIG("conditioned: {cycles: 1}", "")) < usual);
    /* 40 g/h is another last bit than 40e-3/3600: another path within the tolerance of the bench */
    assert_near_share("usual, told",
                      grams(RIG("conditioned: {load: {gas: n-butane, share: 50 %, rate: 40 g/h, until: 2 g}, "
                                "purge: {volumes: 300, rate: 22.7 L/min}, cycles: 3, temperature: 25 degC}",
                                "")),
                      usual, 1e-6);
}

/* Loaded, the tank's side is the fuller one cell for cell; where the rest of the carbon is poorer is no matter of ours. */
static void the_front_comes_from_the_tank(void **unused)
{
    (void)unused;
    struct ready ready = ready_with(RIG("conditioned: {purge: {volumes: 0}, cycles: 1}", ""), NULL);
    const struct volume *volume = ready.network->volume;
    for (int v = 2; v <= 4; v++)
        assert_true(volume[v].load[1] < volume[v - 1].load[1]);
    assert_true(volume[0].carbon == 0.0);
    assert_near("gas that loads, at the tank's side", volume[0].stock[1] / (volume[0].stock[0] + volume[0].stock[1]),
                0.5, 1e-3);
    ready_clear(&ready);
}

/* ---- which gas ---- */

#define FUEL(components) "fill: {components: {" components "}}\n"

static void the_gas_is_the_one_told_or_the_usual(void **unused)
{
    (void)unused;

    static const struct {
        const char *text, *holds;
        int gases; /* air and what there is besides */
    } row[] = {
        {RIG("conditioned: {}", ""), "n-butane", 2},
        {RIG("conditioned: {load: {gas: propane}}", ""), "propane", 2},
        {RIG("conditioned: {}", FUEL("n-butane: 10 %, toluene: 90 %")), "n-butane", 3},
        {RIG("conditioned: {}", FUEL("n-pentane: 50 %, toluene: 50 %")), "n-pentane", 3},
        {RIG("conditioned: {load: {share: 40 %}}", FUEL("n-pentane: 50 %, toluene: 50 %")), "n-butane", 4},
        {RIG("conditioned: {load: {gas: n-butane}}", FUEL("n-pentane: 50 %, toluene: 50 %")), "n-butane", 4},
    };

    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        struct ready ready = ready_with(row[k].text, NULL);
        assert_true(has_gas(ready.network, row[k].holds));
        assert_int_equal(ready.network->species, row[k].gases);
        for (int i = 0; i < ready.network->species; i++)
            if (!strcmp(ready.network->kind[i]->name, row[k].holds))
                assert_true(ready.network->volume[1].load[i] > 0.0);
        ready_clear(&ready);
    }
}

/* ---- kept ---- */

static void assert_same_held(const struct held *one, const struct held *other)
{
    const size_t size = (size_t)one->volumes * (size_t)one->species * sizeof(double);
    assert_int_equal(one->volumes, other->volumes);
    assert_memory_equal(one->load, other->load, size);
    assert_memory_equal(one->share, other->share, size);
}

static int files_in(const char *folder, char *path, size_t room)
{
    DIR *listed = opendir(folder);
    int files = 0;
    for (struct dirent *entry = listed ? readdir(listed) : NULL; entry; entry = readdir(listed))
        if (entry->d_name[0] != '.') {
            assert_true(snprintf(path, room, "%s/%s", folder, entry->d_name) < (int)room);
            files++;
        }
    if (listed)
        closedir(listed);
    return files;
}

static void kept_is_the_same_to_the_bit(void **unused)
{
    (void)unused;
    static const char text[] = RIG("conditioned: {}", "");
    char folder[] = "/tmp/ullage-conditioning-XXXXXX", path[512];
    assert_non_null(mkdtemp(folder));
    struct ready without = ready_with(text, NULL), first = ready_with(text, folder);
    assert_int_equal(files_in(folder, path, sizeof path), 1);
    struct ready again = ready_with(text, folder);
    assert_same_held(without.conditioned.start[0].held, first.conditioned.start[0].held);
    assert_same_held(without.conditioned.start[0].held, again.conditioned.start[0].held);
    assert_int_equal(truncate(path, 1000), 0);
    struct ready broken = ready_with(text, folder);
    assert_same_held(without.conditioned.start[0].held, broken.conditioned.start[0].held);
    ready_clear(&without);
    ready_clear(&first);
    ready_clear(&again);
    ready_clear(&broken);
    assert_int_equal(files_in(folder, path, sizeof path), 1);
    assert_int_equal(unlink(path), 0);
    assert_int_equal(rmdir(folder), 0);
}

/* What matters makes another recipe; what does not, like a name or where it is told, makes none. */
static void all_that_matters_is_in_the_recipe(void **unused)
{
    (void)unused;
    static const char *const different[] = {
        RIG("conditioned: {cycles: 1}", ""),
        RIG("conditioned: {cycles: 2}", ""),
        RIG("conditioned: {cycles: 1, temperature: 26 degC}", ""),
        RIG("conditioned: {cycles: 1, load: {until: 3 g}}", ""),
        RIG("conditioned: {cycles: 1, load: {rate: 41 g/h}}", ""),
        RIG("conditioned: {cycles: 1, load: {share: 51 %}}", ""),
        RIG("conditioned: {cycles: 1, load: {gas: isobutane}}", ""),
        RIG("conditioned: {cycles: 1, purge: {volumes: 301}}", ""),
        RIG("conditioned: {cycles: 1, purge: {rate: 22.6 L/min}}", ""),
        RIG("conditioned: {cycles: 1}", "assume: {heat: adiabatic}\n"),
        RIG("conditioned: {cycles: 1}", "change: {canister.film: 9 W/m2/K}\n"),
        RIG("conditioned: {cycles: 1}", "change: {canister.beds.2.heat: 1.1}\n"),
        RIG("conditioned: {cycles: 1}", "change: {canister.beds.1.carbon: dense}\n"),
        RIG("conditioned: {cycles: 1}", "change: {canister.beds.1.cells: 5}\n"),
    };
    static const char *const same[] = {
        RIG("conditioned: {cycles: 1}, temperature: 30 degC", "change: {vent.diameter: 9 mm}\nabout: other\n"),
        RIG("conditioned: {cycles: 1}", "surroundings: {temperature: 10 degC, pressure: 90 kPa}\n"),
    };

    enum { DIFFERENT = sizeof different / sizeof different[0], SAME = sizeof same / sizeof same[0] };

    char folder[] = "/tmp/ullage-conditioning-XXXXXX", path[512];
    assert_non_null(mkdtemp(folder));
    for (int k = 0; k < DIFFERENT + SAME; k++) {
        struct ready ready = ready_with(k < DIFFERENT ? different[k] : same[k - DIFFERENT], folder);
        ready_clear(&ready);
        assert_int_equal(files_in(folder, path, sizeof path), k < DIFFERENT ? k + 1 : DIFFERENT);
    }
    while (files_in(folder, path, sizeof path) > 0)
        assert_int_equal(unlink(path), 0);
    assert_int_equal(rmdir(folder), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(begins_at_rest),
        cmocka_unit_test(a_full_bed_in_the_heat_gives),
        cmocka_unit_test(more_purging_leaves_less),
        cmocka_unit_test(the_front_comes_from_the_tank),
        cmocka_unit_test(the_gas_is_the_one_told_or_the_usual),
        cmocka_unit_test(kept_is_the_same_to_the_bit),
        cmocka_unit_test(all_that_matters_is_in_the_recipe),
    };
    return cmocka_run_group_tests_name("conditioning", tests, NULL, NULL) != 0;
}
