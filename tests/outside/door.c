/* tests/outside/door.c  Another C program at the door: describe a vessel with a hole, run it, read time and pressure,
 * and find what the textbook says. Nothing of sim/ is seen but ullage.h. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "ullage.h"

/* clang-format off */
static const char vessel_text[] =
    "ullage: scenario/1\n"
    "name: door\n"
    "assume: {heat: isothermal, discharge: 0.6}\n"
    "surroundings: {pressure: 101325 Pa, temperature: 20 degC}\n"
    "system:\n"
    "  parts:\n"
    "    vessel: {type: vessel, volume: 30 L}\n"
    "    leak:   {type: hole, from: vessel, to: air, diameter: 0.5 mm}\n"
    "start:\n"
    "  vessel: {gauge_pressure: 14 inH2O}\n"
    "procedure:\n"
    "  steps:\n"
    "    - wait: {until: vessel.gauge_pressure < 8 inH2O, at_most: 30 min}\n"
    "    - read: {decay_time: time}\n";
/* clang-format on */

#define INCH_OF_WATER 249.08891 /* Pa */

static struct ullage_model *model_of(const char *text, struct ullage_problems *problems)
{
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    ullage_description_free(description);
    return model;
}

/* Isothermal vessel through a small hole, dp small against p: [textbook, incompressible]
 *     t = sqrt(2) V (sqrt(dp1) - sqrt(dp2)) / (Cd A sqrt(Rs T p))
 * To first order in x = dp/p compressibility changes the flow by sqrt(1 + x) (denser gas before the hole) times
 * 1 - 3 x / (4 gamma) (isentropic expansion in it): together 1 - 0.036 x, and x is at most 0.034. So 0.12 %, and as much
 * again for the second order. */
static void vessel_empties_as_the_textbook_says(void **state)
{
    (void)state;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = model_of(vessel_text, problems);
    assert_int_equal(ullage_problems_count(problems), 0);
    assert_non_null(model);
    struct ullage_run *run = ullage_run_create(model, NULL);
    assert_non_null(run);
    assert_int_equal(ullage_run_advance(model, run, (double)INFINITY), ULLAGE_FINISHED);
    assert_int_equal(ullage_run_readings(run), 1);

    const struct ullage_reading reading = ullage_run_reading(run, 0);
    const double area = 0.25 * M_PI * 0.5e-3 * 0.5e-3;
    const double gas = 287.05 * 293.15 * 101325.0; /* Rs T p of air, J/kg Pa */
    const double roots = sqrt(14.0 * INCH_OF_WATER) - sqrt(8.0 * INCH_OF_WATER);
    const double by_hand = M_SQRT2 * 0.030 * roots / (0.6 * area * sqrt(gas));
    assert_string_equal(reading.name, "decay_time");
    assert_int_equal(reading.dimension, ULLAGE_TIME);
    assert_true(fabs(reading.value / by_hand - 1.0) < 0.0024);

    ullage_run_free(run);
    ullage_model_free(model);
    ullage_problems_free(problems);
}

/* The pressure on the way, asked for by the name a file would use: under the start, over the end, and falling. */
static void channels_answer_on_the_way(void **state)
{
    (void)state;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = model_of(vessel_text, problems);
    assert_non_null(model);
    struct ullage_run *run = ullage_run_create(model, NULL);
    const int pressure = ullage_model_find_channel(model, "vessel.gauge_pressure");
    assert_in_range(pressure, 0, ullage_model_channels(model) - 1);
    assert_int_equal(ullage_model_find_channel(model, "vessel.gage_pressure"), -1);
    const int channels = ullage_model_channels(model);
    double before = 14.0 * INCH_OF_WATER * (1.0 + 1e-9);
    double *value = calloc((size_t)channels, sizeof *value);
    assert_non_null(value);
    for (int k = 1; k <= 5; k++) {
        assert_int_equal(ullage_run_advance(model, run, 10.0 * k), ULLAGE_PAUSED);
        ullage_run_values(model, run, value, NULL);
        assert_true(value[pressure] < before && value[pressure] > 8.0 * INCH_OF_WATER);
        before = value[pressure];
    }
    free(value);
    ullage_run_free(run);
    ullage_model_free(model);
    ullage_problems_free(problems);
}

/* Two runs of one model know nothing of each other: in turn or one after the other, the same bits. */
static void runs_share_a_model(void **state)
{
    (void)state;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = model_of(vessel_text, problems);
    assert_non_null(model);
    struct ullage_run *one = ullage_run_create(model, NULL);
    struct ullage_run *two = ullage_run_create(model, NULL);
    for (int k = 1; k <= 4; k++) {
        ullage_run_advance(model, one, 10.0 * k);
        ullage_run_advance(model, two, 10.0 * k);
    }
    assert_true(ullage_run_hash(one) == ullage_run_hash(two));
    ullage_run_command(model, two, "leak", "plugged");
    ullage_run_advance(model, one, 50.0);
    ullage_run_advance(model, two, 50.0);
    assert_true(ullage_run_hash(one) != ullage_run_hash(two));
    ullage_run_free(one);
    ullage_run_free(two);
    ullage_model_free(model);
    ullage_problems_free(problems);
}

/* What a user of the library gets wrong is told with line and column, not by a crash. */
static void mistakes_have_a_place(void **state)
{
    (void)state;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = model_of("ullage: scenario/1\nname: door\nsystem:\n  parts:\n"
                                          "    vessel: {type: vessel, volum: 30 L}\n",
                                          problems);
    assert_null(model);
    assert_true(ullage_problems_count(problems) > 0);
    const struct ullage_problem first = ullage_problems_at(problems, 0);
    assert_int_equal(first.place.line, 5);
    assert_int_equal(first.place.column, 28);
    assert_non_null(strstr(first.wrong, "volum"));
    ullage_problems_free(problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vessel_empties_as_the_textbook_says),
        cmocka_unit_test(channels_answer_on_the_way),
        cmocka_unit_test(runs_share_a_model),
        cmocka_unit_test(mistakes_have_a_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
