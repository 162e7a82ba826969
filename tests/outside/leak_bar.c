/* tests/outside/leak_bar.c  The main job on the shipped rig: what the meter reads of the leak bar's plugs, full laws, 20
 * degC, sea level, dry. Common practice, no source: the tester reads what is there, within 3 %. */
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

static struct text_run run_file(const char *path)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, NULL, problems, &outcome);
    struct text_run ran = {description ? ullage_model_create(description, problems) : NULL, NULL};
    ullage_description_free(description);
    ullage_problems_free(problems);
    assert_non_null(ran.model);
    ran.run = ullage_run_create(ran.model, NULL);
    assert_int_equal(ullage_run_advance(ran.model, ran.run, (double)INFINITY), ULLAGE_FINISHED);
    return ran;
}

static double plug_diameter(const struct text_run *ran, const char *plug)
{
    return ullage_model_parameter(ran->model, ullage_model_find_part(ran->model, plug), "diameter");
}

static void the_tester_reads_what_is_there(void **unused)
{
    (void)unused;
    struct text_run ran = run_file("scenarios/first-leak.yaml");
    static const char *const plug[] = {"plug-2", "plug-3", "plug-4"};
    static const char *const reading[] = {"plug_2", "plug_3", "plug_4"};
    static const double drilled[] = {1.0e-3, 0.5e-3, 0.3e-3};
    for (int k = 0; k < 3; k++) {
        assert_near("drilled as the bar says", plug_diameter(&ran, plug[k]), drilled[k], 1e-9);
        assert_near_share(plug[k], text_reading(&ran, reading[k]), drilled[k], 0.03);
    }
    text_close(&ran);
}

/* A hole passes as d^2 sqrt(dp) (textbook, incompressible: 1 % at 3 kPa). What is lost on the way therefore makes the
 * reading low by (1 - lost/set)^(1/4), and the corrected reading is the hole. */
static void the_largest_reads_low_by_what_is_lost(void **unused)
{
    (void)unused;
    struct text_run ran = run_file("scenarios/first-leak.yaml");
    const double hole = plug_diameter(&ran, "plug-1"), lost = text_reading(&ran, "plug_1_lost");
    const double set = ullage_model_parameter(ran.model, ullage_model_find_part(ran.model, "supply"), "gauge_pressure");
    assert_near("drilled as the bar says", hole, 2.0e-3, 1e-9);
    assert_true(lost > 20.0 && lost < 0.2 * set);
    assert_true(text_reading(&ran, "plug_1") < hole);
    assert_near_share("reads low by", text_reading(&ran, "plug_1"), hole * pow(1.0 - lost / set, 0.25), 0.01);
    assert_near_share("corrected", text_reading(&ran, "plug_1_corrected"), hole, 0.01);
    text_close(&ran);
}

/* The sound rig shows no hole; full scale while it fills; the vent takes the pressure away at the end. */
static void the_sound_rig_is_sound(void **unused)
{
    (void)unused;
    struct text_run ran = run_file("scenarios/first-leak.yaml");
    bool over_first = false, under_sound = false;
    for (int k = 0; k < ullage_run_readings(ran.run); k++) {
        const struct ullage_reading reading = ullage_run_reading(ran.run, k);
        over_first = over_first || (!strcmp(reading.name, "rush") && reading.over > 0);
        under_sound = under_sound || (!strcmp(reading.name, "sound") && reading.over < 0);
    }
    assert_true(over_first && under_sound);
    double value[512];
    ullage_run_values(ran.model, ran.run, value, NULL);
    assert_near("vented", value[ullage_model_find_channel(ran.model, "tank.gauge_pressure")], 0.0, 50.0);
    text_close(&ran);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_tester_reads_what_is_there),
                                       cmocka_unit_test(the_largest_reads_low_by_what_is_lost),
                                       cmocka_unit_test(the_sound_rig_is_sound)};
    return cmocka_run_group_tests_name("outside/leak_bar", tests, NULL, NULL) != 0;
}
