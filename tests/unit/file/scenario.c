/* tests/unit/file/scenario.c  A whole scenario into its description: every key lands where it belongs, in SI, and what is
 * left out is what the files' form says. Also the edits on top: change, --fault, --set. */
#include "network/description.h"
#include "support/near.h"

#include <float.h>
#include <stdbool.h>
#include <unistd.h>

static void problems_shown(const struct ullage_problems *problems)
{
    for (int i = 0; i < ullage_problems_count(problems); i++) {
        const struct ullage_problem problem = ullage_problems_at(problems, i);
        print_message("%d:%d: %s; %s\n", problem.place.line, problem.place.column, problem.wrong, problem.right);
    }
}

static struct ullage_description *described(const char *text)
{
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome = ULLAGE_BAD_INPUT;
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    problems_shown(problems);
    assert_non_null(description);
    assert_int_equal(outcome, ULLAGE_GOOD);
    ullage_problems_free(problems);
    return description;
}

static const struct part *part_of(const struct ullage_description *in, const char *id)
{
    for (int i = 0; i < in->parts; i++)
        if (strcmp(in->part[i].id, id) == 0)
            return &in->part[i];
    fail_msg("there is no part %s", id);
    return NULL;
}

static double number_of(const struct part *part, const char *name)
{
    const int row = rows_find(part->kind->parameter, name);
    assert_true(row >= 0);
    return part->value[row];
}

static const char *word_of(const struct part *part, const char *name)
{
    const int row = words_find(part->kind->word, name);
    assert_true(row >= 0);
    const struct word_row *word = &part->kind->word[row];
    int count = 0;
    return word->choice ? word->choice[part->word[row]] : species_table(&count)[part->word[row]].name;
}

static const struct part_end *end_of(const struct part *part, const char *name)
{
    return &part->end[ends_find(part->kind->end, name)];
}

#define NEAR(got, want) assert_near(#got, got, want, 8.0 * DBL_EPSILON * fabs(want))

static const char whole[] =
    "ullage: scenario/1\n"
    "name: whole\n"
    "about: Every key once.\n"
    "assume: {heat: adiabatic, discharge: 0.65, shell: rigid, gas: dry}\n"
    "surroundings: {pressure: [[0 h, 1013 hPa], [2 h, 1009 hPa]], temperature: [[0 s, 68 degF], [10 min, 25 degC]]}\n"
    "system:\n"
    "  name: bench\n"
    "  parts:\n"
    "    tank: {type: tank, volume: 45 L, height: 220 mm, give: 0.2 L/kPa, openings: {roof: 215 mm, neck: 150 mm},\n"
    "           at: [2, 6.5], turn: 90, shape: saddle, short: the tank}\n"
    "    canister: {type: canister, beds: [{volume: 1.4 L, length: 250 mm}, {volume: 0.3 L, length: 8 cm, carbon: "
    "stock}],\n"
    "               ports: [tank, purge, air]}\n"
    "    vapor-line: {type: line, from: tank.roof, to: canister.tank, bore: 8 mm, length: 1.5 m}\n"
    "    vent-valve: {type: valve, from: canister.air, to: air, bore: 10 mm, closes_in: 50 ms}\n"
    "    service-port: {type: port, of: tank}\n"
    "start:\n"
    "  tank: {gauge_pressure: 14 inH2O, temperature: 30 degC, gas: {air: 40 %, nitrogen: 60 %}}\n"
    "  canister: {pressure: 100 kPa, gas: carbon dioxide}\n"
    "faults:\n"
    "  - {id: a, fault: seal-leak, where: tank.neck, diameter: 0.5 mm, wall: 2 mm, from: 10 s, ramp: 5 s, until: 2 "
    "min, every: 8 s, for: 2 s}\n"
    "  - {id: b, fault: slit, where: vapor-line, width: 3 mm, gap: 0.1 mm}\n"
    "let: {limit: 0.020 in, share: 40 %}\n"
    "equipment:\n"
    "  supply: {type: supply, join: service-port, gauge_pressure: 3.0 kPa, flow_limit: 15 L/min, gas: nitrogen, "
    "tracer: smoke}\n"
    "  meter: {type: meter, of: supply}\n"
    "procedure:\n"
    "  name: watch\n"
    "  steps:\n"
    "    - wait: {for: 1 s}\n"
    "record: {every: 0.5 s, channels: [tank.gauge_pressure, a.flow]}\n"
    "end: 10 min\n"
    "seed: 42\n";

static void every_key_lands_where_it_belongs(void **unused)
{
    (void)unused;
    struct ullage_description *d = described(whole);
    assert_string_equal(d->name, "whole");
    assert_string_equal(d->about, "Every key once.");
    assert_string_equal(d->system, "bench");
    assert_int_equal(d->assume.heat, HEAT_ADIABATIC);
    NEAR(d->assume.discharge, 0.65);
    assert_true(d->assume.rigid && d->assume.dry);
    assert_true(d->end_given && d->every_given && d->seed_given);
    NEAR(d->end, 600.0);
    NEAR(d->every, 0.5);
    assert_int_equal(d->seed, 42);
    assert_int_equal(d->channels->count, 2);
    assert_string_equal(d->channels->child[1]->text, "a.flow");
    assert_int_equal(d->procedure->count, 1);
    assert_string_equal(d->procedure_name, "watch");
    assert_int_equal(d->lets, 2);
    assert_string_equal(d->let[0].name, "limit");
    NEAR(d->let[0].value, 0.508e-3);
    assert_int_equal(d->let[0].dimension, ULLAGE_LENGTH);
    NEAR(d->let[1].value, 0.4);
    ullage_description_free(d);
}

static void parts_are_read_by_their_tables(void **unused)
{
    (void)unused;
    struct ullage_description *d = described(whole);
    assert_int_equal(d->parts, 9);
    assert_int_equal(d->faults, 2);
    const struct part *tank = part_of(d, "tank"), *canister = part_of(d, "canister"), *line = part_of(d, "vapor-line");
    NEAR(number_of(tank, "volume"), 45e-3);
    NEAR(number_of(tank, "give"), 2e-7);
    assert_int_equal(tank->openings, 2);
    assert_string_equal(tank->opening[1].name, "neck");
    NEAR(tank->opening[1].height, 0.15);
    assert_true(tank->placed && tank->turn == 90 && !tank->equipment);
    NEAR(tank->x, 2.0);
    NEAR(tank->y, 6.5);
    assert_string_equal(tank->shape, "saddle");
    assert_string_equal(tank->label, "the tank");
    assert_int_equal(tank->at.line, 9);
    assert_int_equal(tank->at.column, 5);
    assert_int_equal(tank->value_at[rows_find(tank->kind->parameter, "volume")].column, 32);
    assert_int_equal(tank->value_at[rows_find(tank->kind->parameter, "film")].line, 0); /* the default stands */
    assert_int_equal(canister->beds, 2);
    NEAR(canister->bed[1].value[rows_find(canister->kind->bed, "length")], 0.08);
    assert_int_equal(canister->openings, 3);
    assert_string_equal(canister->opening[2].name, "air");
    assert_string_equal(line->label, "vapor line");
    assert_string_equal(line->shape, "");
    assert_false(line->placed);
    assert_string_equal(end_of(line, "from")->part, "tank");
    assert_string_equal(end_of(line, "from")->opening, "roof");
    assert_string_equal(end_of(line, "to")->part, "canister");
    assert_string_equal(end_of(part_of(d, "vent-valve"), "to")->part, "air");
    assert_string_equal(word_of(part_of(d, "vent-valve"), "normally"), "open"); /* a default */
    const struct part *supply = part_of(d, "supply");
    assert_true(supply->equipment && part_of(d, "meter")->equipment);
    assert_string_equal(word_of(supply, "gas"), "nitrogen");
    assert_string_equal(word_of(supply, "tracer"), "smoke");
    assert_string_equal(end_of(supply, "join")->part, "service-port");
    assert_null(end_of(part_of(d, "meter"), "feeds")->part); /* not given */
    ullage_description_free(d);
}

static void faults_become_holes(void **unused)
{
    (void)unused;
    struct ullage_description *d = described(whole);
    const struct part *a = part_of(d, "a"), *b = part_of(d, "b");
    assert_ptr_equal(a, &d->part[7]); /* after system and equipment */
    assert_string_equal(a->kind->name, "hole");
    assert_string_equal(word_of(a, "shape"), "round");
    assert_string_equal(word_of(a, "normally"), "open");
    NEAR(number_of(a, "diameter"), 0.5e-3);
    NEAR(number_of(a, "wall"), 2e-3);
    assert_string_equal(end_of(a, "from")->part, "tank");
    assert_string_equal(end_of(a, "from")->opening, "neck");
    assert_string_equal(end_of(a, "to")->part, "air");
    assert_true(a->course.given);
    NEAR(a->course.from, 10.0);
    NEAR(a->course.ramp, 5.0);
    NEAR(a->course.until, 120.0);
    NEAR(a->course.every, 8.0);
    NEAR(a->course.lasts, 2.0);
    assert_string_equal(word_of(b, "shape"), "slit");
    NEAR(number_of(b, "width"), 3e-3);
    NEAR(number_of(b, "gap"), 0.1e-3);
    assert_false(b->course.given);
    ullage_description_free(d);
}

static void surroundings_and_starts(void **unused)
{
    (void)unused;
    struct ullage_description *d = described(whole);
    assert_int_equal(d->surroundings.pressure.corners, 2);
    NEAR(d->surroundings.pressure.time[1], 7200.0);
    NEAR(d->surroundings.pressure.value[1], 100900.0);
    NEAR(d->surroundings.temperature.value[0], 293.15);
    NEAR(d->surroundings.temperature.value[1], 298.15);
    assert_int_equal(d->starts, 2);
    const struct start *tank = &d->start[0], *canister = &d->start[1];
    assert_ptr_equal(&d->part[tank->part], part_of(d, "tank"));
    assert_true(tank->gauge_given && !tank->pressure_given && tank->temperature_given && tank->gas_given);
    NEAR(tank->gauge, 14.0 * 249.08891);
    NEAR(tank->temperature, 303.15);
    NEAR(tank->share[species_find("air")], 0.4);
    NEAR(tank->share[species_find("nitrogen")], 0.6);
    assert_true(canister->pressure_given && !canister->gauge_given && !canister->temperature_given);
    NEAR(canister->share[species_find("carbon dioxide")], 1.0);
    ullage_description_free(d);
}

#define SYSTEM                                                                                                         \
    "system: {parts: {vessel: {type: vessel, volume: 30 L}, leak: {type: hole, from: vessel, to: air, diameter: 0.5 "  \
    "mm}}}\n"

static void what_is_left_out_is_ideal(void **unused)
{
    (void)unused;
    struct ullage_description *d = described("ullage: scenario/1\n" SYSTEM);
    assert_string_equal(d->name, "unnamed");
    assert_string_equal(d->about, "");
    assert_string_equal(d->system, "");
    assert_int_equal(d->surroundings.pressure.corners, 1);
    NEAR(d->surroundings.pressure.value[0], 101325.0);
    NEAR(d->surroundings.temperature.value[0], 293.15);
    assert_int_equal(d->assume.heat, HEAT_FULL);
    assert_true(d->assume.discharge == 0.0 && !d->assume.rigid && !d->assume.dry);
    assert_false(d->end_given || d->every_given || d->seed_given);
    assert_null(d->procedure);
    assert_null(d->channels);
    assert_int_equal(d->starts + d->lets + d->faults, 0);
    assert_string_equal(word_of(part_of(d, "leak"), "shape"), "round");
    assert_true(number_of(part_of(d, "leak"), "wall") == 0.0);
    ullage_description_free(d);
}

/* Geometric altitude by the standard atmosphere: 84559.7 Pa, 278.402 K at 1500 m [USSA1976]. */
static void altitude_sets_pressure_and_temperature(void **unused)
{
    (void)unused;
    struct ullage_description *d = described("ullage: scenario/1\nsurroundings: {altitude: 1500 m}\n" SYSTEM);
    assert_near("pressure", d->surroundings.pressure.value[0], 84559.7, 0.05);
    assert_near("temperature", d->surroundings.temperature.value[0], 278.402, 0.0005);
    assert_true(d->surroundings.altitude_given && !d->surroundings.pressure_given);
    ullage_description_free(d);
    d = described("ullage: scenario/1\nsurroundings: {altitude: 1500 m, temperature: 20 degC}\n" SYSTEM);
    assert_near("temperature", d->surroundings.temperature.value[0], 293.15, 1e-9);
    ullage_description_free(d);
}

/* ---- edits ---- */
static char *file_of(const char *text)
{
    static char name[] = "/tmp/ullage-scenario-XXXXXX";
    strcpy(name + strlen(name) - 6, "XXXXXX");
    const int file = mkstemp(name);
    assert_true(file >= 0);
    assert_int_equal(write(file, text, strlen(text)), (ssize_t)strlen(text));
    close(file);
    return name;
}

struct edit {
    const char *set[4], *fault[4];
};

static struct ullage_description *edited(const char *text, struct edit edit)
{
    struct ullage_edits edits = {.set = edit.set, .fault = edit.fault};
    while (edits.sets < 4 && edit.set[edits.sets])
        edits.sets++;
    while (edits.faults < 4 && edit.fault[edits.faults])
        edits.faults++;
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome = ULLAGE_BAD_INPUT;
    const char *path = file_of(text);
    struct ullage_description *d = ullage_description_read(path, &edits, problems, &outcome);
    unlink(path);
    problems_shown(problems);
    assert_int_equal(outcome, ULLAGE_GOOD);
    ullage_problems_free(problems);
    return d;
}

static void parameters_are_set(void **unused)
{
    (void)unused;
    struct ullage_description *d =
        edited(whole, (struct edit){.set = {"tank.volume=50L", "supply.gas=carbon dioxide", "tank.openings.roof=20 cm",
                                            "a.diameter=0.7mm"}});
    NEAR(number_of(part_of(d, "tank"), "volume"), 50e-3);
    assert_string_equal(word_of(part_of(d, "supply"), "gas"), "carbon dioxide");
    NEAR(part_of(d, "tank")->opening[0].height, 0.2);
    NEAR(number_of(part_of(d, "a"), "diameter"), 0.7e-3);
    ullage_description_free(d);
    d = edited(whole, (struct edit){.set = {"faults.a.ramp=1 s", "vapor-line.from=tank.neck", "meter.time_constant=2s",
                                            "canister.beds.2.length=7 cm"}});
    NEAR(part_of(d, "a")->course.ramp, 1.0);
    assert_string_equal(end_of(part_of(d, "vapor-line"), "from")->opening, "neck");
    NEAR(number_of(part_of(d, "meter"), "time_constant"), 2.0);
    const struct part *canister = part_of(d, "canister");
    NEAR(canister->bed[1].value[rows_find(canister->kind->bed, "length")], 0.07);
    NEAR(canister->bed[0].value[rows_find(canister->kind->bed, "length")], 0.25);
    NEAR(number_of(part_of(d, "meter"), "time_constant"), 2.0); /* not in the file */
    ullage_description_free(d);
}

static double bed_number(const struct ullage_description *d, int bed, const char *name)
{
    const struct part *canister = part_of(d, "canister");
    return canister->bed[bed].value[rows_find(canister->kind->bed, name)];
}

static const char one_bed[] = "system:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                              "    canister: {type: canister, beds: [{volume: 1 L, length: 20 cm}]}\n";

/* By number, in `change` as on the command line. */
static void beds_are_set(void **unused)
{
    (void)unused;
    char text[1024];
    snprintf(text, sizeof text, "ullage: scenario/1\nend: 1 h\nchange: {canister.beds.1.capacity: 0.5}\n%s", one_bed);
    struct ullage_description *d = edited(text, (struct edit){.set = {"canister.beds.1.wet=20 %"}});
    NEAR(bed_number(d, 0, "capacity"), 0.5);
    NEAR(bed_number(d, 0, "wet"), 0.2);
    ullage_description_free(d);
    d = edited(text, (struct edit){.set = {"canister.beds.1.capacity=0.7", "canister.beds.1.carbon=dense"}});
    NEAR(bed_number(d, 0, "capacity"), 0.7);
    assert_int_equal(part_of(d, "canister")->bed[0].word[0], 1);
    ullage_description_free(d);
}

static void keys_of_the_scenario_are_set(void **unused)
{
    (void)unused;
    struct ullage_description *d =
        edited(whole, (struct edit){.set = {"let.limit=0.5mm", "end=5 min", "seed=7", "record.every=2s"}});
    NEAR(d->let[0].value, 0.5e-3);
    NEAR(d->end, 300.0);
    assert_int_equal(d->seed, 7);
    NEAR(d->every, 2.0);
    ullage_description_free(d);
    d = edited("ullage: scenario/1\n" SYSTEM,
               (struct edit){.set = {"assume.discharge=0.6", "end=1h", "record.every=3 s",
                                     "start.vessel.gauge_pressure=13inH2O"}});
    NEAR(d->assume.discharge, 0.6);
    NEAR(d->end, 3600.0);
    NEAR(d->every, 3.0);
    NEAR(d->start[0].gauge, 13.0 * 249.08891);
    ullage_description_free(d);
}

/* What is set takes the place of the other way of saying the same. */
static void alternatives_give_way(void **unused)
{
    (void)unused;
    struct ullage_description *d =
        edited(whole, (struct edit){.set = {"surroundings.altitude=0 m", "start.tank.pressure=1 bar",
                                            "start.canister.gauge_pressure=0 Pa"}});
    assert_true(d->surroundings.altitude_given && !d->surroundings.pressure_given);
    assert_near("pressure", d->surroundings.pressure.value[0], 101325.0, 1e-6);
    assert_true(d->start[0].pressure_given && !d->start[0].gauge_given);
    assert_true(d->start[1].gauge_given && !d->start[1].pressure_given);
    ullage_description_free(d);
    d = edited(whole,
               (struct edit){.set = {"surroundings.altitude=0 m", "surroundings.pressure=90 kPa"}}); /* the later one */
    assert_false(d->surroundings.altitude_given);
    NEAR(d->surroundings.pressure.value[0], 90e3);
    ullage_description_free(d);
}

static void profiles_can_be_set(void **unused)
{
    (void)unused;
    struct ullage_description *d = edited(
        whole, (struct edit){.set = {"surroundings.temperature=[[0 s, 20 degC], [1 h, 30 degC], [2 h, 25 degC]]"}});
    assert_int_equal(d->surroundings.temperature.corners, 3);
    NEAR(d->surroundings.temperature.value[1], 303.15);
    ullage_description_free(d);
}

static void faults_are_added(void **unused)
{
    (void)unused;
    struct ullage_description *d =
        edited("ullage: scenario/1\n" SYSTEM,
               (struct edit){.set = {"leak-2.diameter=3mm"},
                             .fault = {"leak vessel diameter=1mm", "leak vessel  diameter=0.5 mm from=10 s until=1 min",
                                       "crack vessel passes=2 L/min id=c"}});
    assert_int_equal(d->faults, 3);
    NEAR(number_of(part_of(d, "leak-2"), "diameter"), 3e-3); /* leak is a part; --set comes after --fault */
    NEAR(number_of(part_of(d, "leak-3"), "diameter"), 0.5e-3);
    NEAR(part_of(d, "leak-3")->course.from, 10.0);
    NEAR(part_of(d, "leak-3")->course.until, 60.0);
    assert_string_equal(word_of(part_of(d, "c"), "shape"), "crack");
    ullage_description_free(d);
}

/* change stands in the file; --set comes after it. */
static void changes_are_made_first(void **unused)
{
    (void)unused;
    const char *text =
        "ullage: scenario/1\nchange: {vessel.volume: 50 L, leak.diameter: 2 mm, start.vessel.gas: nitrogen}\n" SYSTEM;
    struct ullage_description *d = edited(text, (struct edit){.set = {"leak.diameter=3mm"}});
    NEAR(number_of(part_of(d, "vessel"), "volume"), 50e-3);
    NEAR(number_of(part_of(d, "leak"), "diameter"), 3e-3);
    NEAR(d->start[0].share[species_find("nitrogen")], 1.0);
    const struct part *vessel = part_of(d, "vessel");
    assert_int_equal(vessel->value_at[0].line, 2); /* where the value was written */
    assert_int_equal(vessel->value_at[0].column, 25);
    ullage_description_free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_lands_where_it_belongs),
        cmocka_unit_test(parts_are_read_by_their_tables),
        cmocka_unit_test(faults_become_holes),
        cmocka_unit_test(surroundings_and_starts),
        cmocka_unit_test(what_is_left_out_is_ideal),
        cmocka_unit_test(altitude_sets_pressure_and_temperature),
        cmocka_unit_test(parameters_are_set),
        cmocka_unit_test(beds_are_set),
        cmocka_unit_test(keys_of_the_scenario_are_set),
        cmocka_unit_test(alternatives_give_way),
        cmocka_unit_test(profiles_can_be_set),
        cmocka_unit_test(faults_are_added),
        cmocka_unit_test(changes_are_made_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
