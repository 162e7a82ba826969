/* tests/invariant/shipped.c  Every scenario that ships ends by itself, with its books closed, and shows what its `about`
 * says it shows. */
#include "support/near.h"
#include "ullage.h"

#include <glob.h>
#include <stdbool.h>

#define SPECIES_LEFT 1e-12 /* of the row's scale: promised in README.md */
#define ENERGY_LEFT 1e-10

struct shipped {
    struct ullage_model *model;
    struct ullage_run *run;
};

static struct shipped shipped_run(const char *path)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders, .searches = 1};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct shipped ran = {description ? ullage_model_create(description, problems) : NULL, NULL};
    for (int k = 0; k < ullage_problems_count(problems); k++)
        print_message("%s:%d: %s\n", path, ullage_problems_at(problems, k).place.line,
                      ullage_problems_at(problems, k).wrong);
    ullage_description_free(description);
    ullage_problems_free(problems);
    assert_non_null(ran.model);
    ran.run = ullage_run_create(ran.model, NULL);
    assert_non_null(ran.run);
    if (ullage_run_advance(ran.model, ran.run, (double)INFINITY) != ULLAGE_FINISHED)
        fail_msg("%s does not end: %s", path, ullage_run_trouble(ran.run));
    return ran;
}

static void shipped_close(struct shipped *ran)
{
    ullage_run_free(ran->run);
    ullage_model_free(ran->model);
}

/* The only reading of that name. */
static struct ullage_reading reading(const struct shipped *ran, const char *name)
{
    for (int k = 0; k < ullage_run_readings(ran->run); k++)
        if (!strcmp(ullage_run_reading(ran->run, k).name, name))
            return ullage_run_reading(ran->run, k);
    fail_msg("no reading %s", name);
    return (struct ullage_reading){0};
}

static double value(const struct shipped *ran, const char *name)
{
    return reading(ran, name).value;
}

static enum ullage_result verdict(const struct shipped *ran, const char *name)
{
    for (int k = 0; k < ullage_run_verdicts(ran->run); k++)
        if (!strcmp(ullage_run_verdict(ran->run, k).name, name))
            return ullage_run_verdict(ran->run, k).result;
    fail_msg("no verdict %s", name);
    return ULLAGE_OPEN;
}

static void check_books(const char *path, const struct shipped *ran)
{
    for (int k = 0; k < ullage_model_ledger_rows(ran->model); k++) {
        const struct ullage_ledger_row row = ullage_run_ledger(ran->model, ran->run, k);
        const double allowed = strcmp(row.name, "energy") ? SPECIES_LEFT : ENERGY_LEFT;
        char name[256];
        snprintf(name, sizeof name, "%s %s", path, row.name);
        assert_near(name, row.residual, 0.0, allowed * row.scale);
        assert_near(name, row.in - row.out - row.stored_change - row.residual, 0.0, 1e-15 * row.scale);
    }
}

static void every_scenario_ends_with_its_books_closed(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 8);
    for (size_t k = 0; k < found.gl_pathc; k++) {
        struct shipped ran = shipped_run(found.gl_pathv[k]);
        check_books(found.gl_pathv[k], &ran);
        shipped_close(&ran);
    }
    globfree(&found);
}

static void first_leak_clears_the_rig_and_tells_the_plugs_apart(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/first-leak.yaml");
    assert_int_equal(reading(&ran, "rush").over, 1);
    assert_int_equal(reading(&ran, "sound").over, -1);
    assert_int_equal(verdict(&ran, "sound_rig"), ULLAGE_PASS);
    assert_int_equal(verdict(&ran, "plug_1"), ULLAGE_FAIL);
    assert_int_equal(verdict(&ran, "plug_2"), ULLAGE_FAIL);
    assert_int_equal(verdict(&ran, "plug_3"), ULLAGE_OPEN); /* 0.500 mm against a line of 0.508 mm */
    assert_int_equal(verdict(&ran, "plug_4"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* Cap off: full scale, and a tank that holds nothing. Then halving the slit halves the flow and takes the hole read down
 * by root two, but for the share of 3.0 kPa that the larger flow loses on the way: flow goes with the root of what is
 * left of the pressure, the hole read with the root of the flow. */
static void cap_off_reads_full_scale_and_falls_in_step(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/cap-off.yaml");
    assert_int_equal(reading(&ran, "cap_off").over, 1);
    assert_int_equal(reading(&ran, "half_covered").over, 1);
    assert_true(value(&ran, "cap_off_tank") < 0.01 * 3.0e3);
    assert_int_equal(verdict(&ran, "cap_off"), ULLAGE_FAIL);
    const double lost = (3.0e3 - value(&ran, "slit_tank")) / 3.0e3;
    assert_near_share("half the slit, half the flow", value(&ran, "half_slit_flow"), 0.5 * value(&ran, "slit_flow"),
                      lost);
    assert_near_share("the hole read falls by root two", value(&ran, "half_slit"), M_SQRT1_2 * value(&ran, "slit"),
                      lost);
    assert_near_share("and again", value(&ran, "quarter_slit"), M_SQRT1_2 * value(&ran, "half_slit"), 0.25 * lost);
    assert_int_equal(reading(&ran, "cap_on").over, -1);
    assert_int_equal(verdict(&ran, "cap_on"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* Closed form: gas shared by volume at one temperature. The scenario waits until the pressure has moved by
 * 1 Pa at most in a minute, and the gas takes the wall's temperature in far less than that. */
static void vessels_meet_where_the_gas_is_shared(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/equalise.yaml");
    const double meet = 12.0 * 249.08891 * 20.0 / 25.0;
    assert_near("near", value(&ran, "near"), meet, 1.0);
    assert_near("far", value(&ran, "far"), meet, 1.0);
    shipped_close(&ran);
}

static void a_choked_valve_takes_no_notice_of_more_vacuum(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/choked-nozzle.yaml");
    assert_near_share("choked", value(&ran, "at_35_kPa"), value(&ran, "at_53_kPa"), 1e-12);
    assert_true(value(&ran, "at_70_kPa") < value(&ran, "at_53_kPa"));
    assert_true(value(&ran, "at_90_kPa") < value(&ran, "at_70_kPa"));
    shipped_close(&ran);
}

static void a_plugged_vessel_warms_and_its_pressure_creeps_up(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/blow-down.yaml");
    assert_true(value(&ran, "coldest") < 293.15 - 10.0);
    /* Amount and volume stay, so pressure goes with temperature [textbook]; 0.1 Pa: drift against the equation of state. */
    const double warmed = (101325.0 + 50e3) * value(&ran, "temperature") / value(&ran, "coldest") - 101325.0;
    assert_near("crept up to", value(&ran, "crept_up_to"), warmed, 0.1);
    shipped_close(&ran);
}

static void a_day_of_weather_hardly_moves_a_vented_vessel(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/weather-day.yaml");
    const int column = 2; /* vessel.gauge_pressure, behind time, air.temperature, air.pressure */
    double most = 0.0;
    for (int k = 0; k < ullage_run_samples(ran.run); k++)
        most = fmax(most, fabs(ullage_run_sample(ran.run, k)[1 + column]));
    assert_true(ullage_run_samples(ran.run) > 700);
    assert_true(1.0 < most && most < 4.0); /* Pa, as the file says */
    shipped_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_scenario_ends_with_its_books_closed),
        cmocka_unit_test(first_leak_clears_the_rig_and_tells_the_plugs_apart),
        cmocka_unit_test(cap_off_reads_full_scale_and_falls_in_step),
        cmocka_unit_test(vessels_meet_where_the_gas_is_shared),
        cmocka_unit_test(a_choked_valve_takes_no_notice_of_more_vacuum),
        cmocka_unit_test(a_plugged_vessel_warms_and_its_pressure_creeps_up),
        cmocka_unit_test(a_day_of_weather_hardly_moves_a_vented_vessel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
