/* tests/unit/procedure/weather.c  Surroundings that change while a run goes on: by a procedure, by a scenario's by_hand, by hand; what is
 * told of it; what is refused; and back again to the same bits. */
#include "support/same.h"

#include <stdbool.h>

#define PARTS                                                                                                          \
    "system:\n  parts:\n    vessel: {type: vessel, volume: 10 L}\n    vent: {type: hole, from: vessel, to: air, "      \
    "diameter: 0.3 mm}\n"
#define RIG                                                                                                            \
    "ullage: scenario/1\nname: weather\nsurroundings: {temperature: [[0 s, 20 degC], [1000 s, 30 degC]]}\n" PARTS

static struct text_run begin(const char *text)
{
    struct text_run ran = {text_model(text), NULL};
    ran.run = ullage_run_create(ran.model, NULL);
    assert_non_null(ran.run);
    return ran;
}

static double value_at(struct text_run *ran, double time, const char *channel)
{
    double value[64];
    assert_true(ullage_model_channels(ran->model) <= 64);
    ullage_run_advance(ran->model, ran->run, time);
    ullage_run_values(ran->model, ran->run, value, NULL);
    return value[ullage_model_find_channel(ran->model, channel)];
}

static const char *command(struct text_run *ran, const char *what, const char *value)
{
    return ullage_run_command(ran->model, ran->run, what, value);
}

static int weather_called(const char *label)
{
    for (int k = 0; k < ullage_weathers(); k++)
        if (!strcmp(ullage_weather_at(k).label, label))
            return k;
    fail_msg("there is no %s", label);
    return -1;
}

static struct ullage_weather_now now_of(const struct text_run *ran, const char *label)
{
    return ullage_run_weather(ran->model, ran->run, weather_called(label));
}

/* ---- what comes of it: by hand, from straight lines ---- */
static void a_hand_changes_the_weather(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "end: 1000 s\n");
    assert_near("as the file has it", value_at(&ran, 100.0, "air.temperature"), 294.15, 1e-9);
    assert_false(now_of(&ran, "air temperature").by_hand);
    assert_true(isnan(now_of(&ran, "air temperature").to));
    assert_null(command(&ran, "surroundings.temperature", "35 degC ramp=100s"));
    assert_near("does not jump", value_at(&ran, 100.0, "air.temperature"), 294.15, 1e-9);
    assert_near("half", value_at(&ran, 150.0, "air.temperature"), 0.5 * (294.15 + 308.15), 1e-9);
    assert_near("stays", value_at(&ran, 300.0, "air.temperature"), 308.15, 1e-9);
    const struct ullage_weather_now warm = now_of(&ran, "air temperature");
    assert_true(warm.by_hand);
    assert_near("to", warm.to, 308.15, 1e-9);
    assert_near("since", warm.begins, 100.0, 1e-9);
    assert_near("until", warm.ends, 200.0, 1e-9);
    assert_null(command(&ran, "surroundings.temperature", "as-in-file ramp=1min"));
    assert_near("on its way back", value_at(&ran, 330.0, "air.temperature"), 0.5 * (308.15 + 296.75), 1e-9);
    assert_near("as the file has it again", value_at(&ran, 500.0, "air.temperature"), 298.15, 1e-9);
    assert_false(now_of(&ran, "air temperature").by_hand);
    text_close(&ran);
}

/* Ten seconds where nothing is said; each for itself; another way from where the last one has come to. */
static void each_goes_its_own_way(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "end: 1000 s\n");
    value_at(&ran, 10.0, "time");
    assert_null(command(&ran, "surroundings.sun", "800 W/m2"));
    assert_null(command(&ran, "surroundings.wind", "4 m/s"));
    assert_null(command(&ran, "surroundings.pressure", "990 hPa ramp=20 s"));
    assert_near("sun", value_at(&ran, 15.0, "air.sun"), 400.0, 1e-9);
    assert_near("wind", value_at(&ran, 15.0, "air.wind"), 2.0, 1e-9);
    assert_null(command(&ran, "surroundings.sun", "0 W/m2"));
    assert_near("sun", value_at(&ran, 20.0, "air.sun"), 200.0, 1e-9);
    assert_near("barometer", value_at(&ran, 20.0, "air.pressure"), 0.5 * (101325.0 + 99000.0), 1e-7);
    assert_null(command(&ran, "surroundings.altitude", "1000 m ramp=15 s"));
    assert_near("sun", value_at(&ran, 25.0, "air.sun"), 0.0, 1e-9);
    assert_near("wind", value_at(&ran, 35.0, "air.wind"), 4.0, 1e-9);
    assert_near("altitude", now_of(&ran, "altitude").value, 1000.0, 1e-6);
    assert_near("the same is a pressure", now_of(&ran, "air pressure").to, value_at(&ran, 40.0, "air.pressure"), 1e-9);
    assert_near("temperature is left alone", value_at(&ran, 40.0, "air.temperature"), 293.55, 1e-9);
    text_close(&ran);
}

/* A scenario does what a hand does, at the same moments: the same bits. So does a procedure, but that its waits end steps. */
static const char schedule[] =
    "by_hand:\n  - {at: 50 s, set: {surroundings.temperature: 35 degC ramp=2min, surroundings.wind: 3 m/s}}\n"
    "  - {at: 120 s, set: {surroundings.temperature: as-in-file}}\n";

static void by_hand_and_procedure_do_the_same(void **unused)
{
    (void)unused;
    char text[2000];
    snprintf(text, sizeof text, "%send: 300 s\n%s", RIG, schedule);
    struct text_run file = begin(text), hand = begin(RIG "end: 300 s\n");
    struct text_run steps =
        begin(RIG "procedure:\n  steps:\n    - wait: {for: 50 s}\n"
                  "    - set: {surroundings.temperature: warm ramp=2min, surroundings.wind: 3 m/s}\n"
                  "    - wait: {for: 70 s}\n    - set: {surroundings.temperature: as-in-file}\n"
                  "    - wait: {for: 180 s}\nlet: {warm: 35 degC}\n");
    value_at(&hand, 50.0, "time");
    assert_null(command(&hand, "surroundings.temperature", "35 degC ramp=2min"));
    assert_null(command(&hand, "surroundings.wind", "3 m/s"));
    value_at(&hand, 120.0, "time");
    assert_null(command(&hand, "surroundings.temperature", "as-in-file"));
    const double felt = value_at(&file, 300.0, "vessel.temperature");
    value_at(&hand, 300.0, "time");
    assert_same(file.model, file.run, hand.run);
    assert_near("procedure", value_at(&steps, 300.0, "vessel.temperature"), felt, 1e-4); /* 1e-6 of 300 K a step */
    text_close(&steps);
    text_close(&hand);
    text_close(&file);
}

/* What stands in the sun and the wind comes to be as warm, whether a file or a hand has made them; and it feels them. */
static void a_wall_feels_sun_and_wind(void **unused)
{
    (void)unused;
    static const char *const tank =
        "system:\n  parts:\n    tank: {type: tank, volume: 45 L, sunlit: 0.2 m2}\nend: 20 h\n";
    char text[2000];
    snprintf(text, sizeof text, "ullage: scenario/1\nsurroundings: {sun: 600 W/m2, wind: 2 m/s}\n%s", tank);
    struct text_run file = begin(text);
    snprintf(text, sizeof text, "ullage: scenario/1\n%s", tank);
    struct text_run hand = begin(text);
    value_at(&hand, 60.0, "time");
    assert_null(command(&hand, "surroundings.sun", "600 W/m2 ramp=5min"));
    const double still = value_at(&hand, 36000.0, "tank.temperature");
    assert_null(command(&hand, "surroundings.wind", "2 m/s"));
    const double windy = value_at(&hand, 72000.0, "tank.temperature");
    assert_true(still > 293.15 + 5.0 && windy < still - 1.0 && windy > 293.15 + 1.0);
    assert_near("at last", windy, value_at(&file, 72000.0, "tank.temperature"), 1e-3); /* 1e-6 of 300 K, some steps */
    text_close(&hand);
    text_close(&file);
}

static void events_say_what_and_how_long(void **unused)
{
    (void)unused;
    static const char *const told[] = {"to 35 degC within 2 min", "to 3 m/s within 10 s",
                                       "back as in the file within 10 s"};
    char text[2000];
    snprintf(text, sizeof text, "%send: 300 s\n%s", RIG, schedule);
    struct text_run ran = begin(text);
    value_at(&ran, 300.0, "time");
    int found = 0;
    for (int k = 0; k < ullage_run_events(ran.run); k++) {
        const struct ullage_event event = ullage_run_event(ran.run, k);
        if (event.kind != ULLAGE_COMMANDED)
            continue;
        assert_true(event.by_hand && found < 3);
        assert_string_equal(event.text, told[found]);
        assert_string_equal(event.subject, found == 1 ? "surroundings.wind" : "surroundings.temperature");
        found++;
    }
    assert_int_equal(found, 3);
    text_close(&ran);
}

/* ---- what is refused ---- */
static const struct {
    const char *what, *value, *says;
} refused[] = {
    {"surroundings", "35 degC", "surroundings.temperature"},
    {"surroundings.temprature", "35 degC", "did you mean surroundings.temperature?"},
    {"surroundings.humidity", "40 %", "these can be set"},
    {"air.temperature", "35 degC", "did you mean surroundings.temperature?"},
    {"surroundings.temperature", "35", "unit"},
    {"surroundings.temperature", "35 kPa", "this is Pa"},
    {"surroundings.temperature", "500 degC", "cannot be 500 degC"},
    {"surroundings.temperature", "off", "as-in-file"},
    {"surroundings.temperature", "off ramp=20s", "as-in-file"},
    {"surroundings.temperature", "", "is missing"},
    {"surroundings.temperature", "ramp=20s", "is missing"},
    {"surroundings.temperature", "35 degC ramp=1s", "10 s at least"},
    {"surroundings.temperature", "35 degC ramp=-1min", "10 s at least"},
    {"surroundings.temperature", "35 degC ramp=", "is missing"},
    {"surroundings.temperature", "35 degC ramp=2", "unit"},
    {"surroundings.temperature", "35 degC ramp=2 K", "this is K"},
    {"surroundings.temperature", "35 degC over=2min", "ramp=20min"},
    {"surroundings.temperature", "35 degC ramp=2min ramp=3min", "ramp=20min"},
    {"surroundings.pressure", "0 kPa", "cannot be 0 kPa"},
    {"surroundings.altitude", "12 km", "altitude"},
    {"surroundings.sun", "-5 W/m2", "cannot be -5 W/m2"},
    {"surroundings.wind", "90 m/s", "cannot be 90 m/s"},
};

static void slips_are_answered(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "end: 100 s\n");
    for (size_t k = 0; k < sizeof refused / sizeof refused[0]; k++) {
        const char *wrong = command(&ran, refused[k].what, refused[k].value);
        if (!wrong || !strstr(wrong, refused[k].says) || !strstr(wrong, "; "))
            fail_msg("%s: %s: %s", refused[k].what, refused[k].value, wrong ? wrong : "it was taken");
    }
    assert_int_equal(ullage_run_orders(ran.run), 0);
    text_close(&ran);
}

/* A fuel is known between two temperatures only; butane's begin above -50 degC. */
static void air_is_not_colder_than_the_fuel_is_known(void **unused)
{
    (void)unused;
    struct text_run ran = begin("ullage: scenario/1\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                                "fill: {level: 40 %, rvp: 9 psi}\nend: 100 s\n");
    const char *wrong = command(&ran, "surroundings.temperature", "-60 degC");
    assert_non_null(wrong);
    assert_non_null(strstr(wrong, "in the fuel at -60 degC"));
    assert_null(command(&ran, "surroundings.temperature", "30 degC"));
    text_close(&ran);
}

/* 97 % of a tank at 20 degC are more than all of it at 65 degC: a gasoline swells by a thousandth for each degree. */
static void air_is_not_so_warm_that_the_fuel_runs_over(void **unused)
{
    (void)unused;
    struct text_run ran = begin("ullage: scenario/1\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                                "fill: {level: 97 %, rvp: 9 psi}\nend: 100 s\n");
    const char *wrong = command(&ran, "surroundings.temperature", "65 degC");
    assert_non_null(wrong);
    assert_non_null(strstr(wrong, "swells to 10"));
    assert_null(command(&ran, "surroundings.temperature", "35 degC"));
    text_close(&ran);
}

/* ---- the same bits ---- */
static void weather_done(struct text_run *ran, struct ullage_history *history, double until, double piece)
{
    static const struct {
        double time;
        const char *what, *value;
    } hands[] = {{33.3, "surroundings.temperature", "32 degC ramp=1min"},
                 {50.0, "surroundings.pressure", "100 kPa"},
                 {55.0, "surroundings.altitude", "800 m ramp=90s"},
                 {61.0, "surroundings.sun", "700 W/m2 ramp=15s"},
                 {100.0, "surroundings.temperature", "as-in-file ramp=5min"}};

    size_t next = 0;
    for (double time = piece; next < sizeof hands / sizeof hands[0] || time < until; time += piece) {
        const double to = next < sizeof hands / sizeof hands[0] ? fmin(time, hands[next].time) : fmin(time, until);
        if (history)
            ullage_history_advance(history, to);
        else
            ullage_run_advance(ran->model, ran->run, to);
        if (next < sizeof hands / sizeof hands[0] && to == hands[next].time) {
            assert_null(command(ran, hands[next].what, hands[next].value));
            next++;
        }
    }
    ullage_run_advance(ran->model, ran->run, until);
}

static void in_pieces_it_has_the_same_bits(void **unused)
{
    (void)unused;
    struct text_run whole = begin(RIG "end: 500 s\n"), pieces = begin(RIG "end: 500 s\n");
    weather_done(&whole, NULL, 500.0, 1000.0);
    weather_done(&pieces, NULL, 500.0, 0.7);
    assert_same(whole.model, whole.run, pieces.run);
    text_close(&pieces);
    text_close(&whole);
}

static void back_and_on_it_has_the_same_bits(void **unused)
{
    (void)unused;
    struct text_run forward = begin(RIG "end: 500 s\n"), ran = begin(RIG "end: 500 s\n");
    struct ullage_history *history = ullage_history_create(ran.model, ran.run);
    weather_done(&forward, NULL, 500.0, 1000.0);
    weather_done(&ran, history, 500.0, 1000.0);
    static const double back[] = {20.0, 60.0, 33.3, 101.0, 0.0};
    for (size_t k = 0; k < sizeof back / sizeof back[0]; k++) {
        ullage_history_go(history, back[k]);
        ullage_history_advance(history, 500.0);
        assert_same(forward.model, forward.run, ran.run);
    }
    /* Another way from the past on is a branch, called by what was done. */
    ullage_history_go(history, 40.0);
    assert_null(command(&ran, "surroundings.wind", "6 m/s ramp=1min"));
    assert_int_equal(ullage_history_branches(history), 2);
    assert_string_equal(ullage_history_branch(history, 1).name, "wind to 6 m/s within 1 min");
    ullage_history_advance(history, 500.0);
    assert_near("what came later is forgotten there", now_of(&ran, "air pressure").value, 101325.0, 1e-9);
    assert_true(now_of(&ran, "air temperature").by_hand);
    ullage_history_switch(history, 0);
    ullage_history_advance(history, 500.0);
    assert_same(forward.model, forward.run, ran.run);
    ullage_history_free(history);
    text_close(&ran);
    text_close(&forward);
}

/* Weather is no fault: the sound run goes through it, too, and where nothing is wrong it is the run. */
static void the_sound_run_has_the_same_weather(void **unused)
{
    (void)unused;
    struct text_run ran = begin(RIG "end: 500 s\n");
    struct ullage_model *sound = text_model(RIG "end: 500 s\n");
    struct ullage_history *history = ullage_history_create(ran.model, ran.run);
    assert_true(ullage_history_accompany(history, sound));
    weather_done(&ran, history, 400.0, 1000.0);
    ullage_history_advance(history, 450.0);
    double ours[64], its[64];
    ullage_run_values(ran.model, ran.run, ours, NULL);
    assert_true(ullage_history_values(history, ULLAGE_SOUND, 450.0, its, NULL));
    assert_memory_equal(ours, its, (size_t)ullage_model_channels(ran.model) * sizeof(double));
    assert_true(fabs(ours[ullage_model_find_channel(ran.model, "air.sun")] - 700.0) < 1e-9);
    assert_false(ullage_run_order(ran.run, 0).fault);
    ullage_history_free(history);
    ullage_model_free(sound);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_hand_changes_the_weather),
        cmocka_unit_test(each_goes_its_own_way),
        cmocka_unit_test(by_hand_and_procedure_do_the_same),
        cmocka_unit_test(a_wall_feels_sun_and_wind),
        cmocka_unit_test(events_say_what_and_how_long),
        cmocka_unit_test(slips_are_answered),
        cmocka_unit_test(air_is_not_colder_than_the_fuel_is_known),
        cmocka_unit_test(air_is_not_so_warm_that_the_fuel_runs_over),
        cmocka_unit_test(in_pieces_it_has_the_same_bits),
        cmocka_unit_test(back_and_on_it_has_the_same_bits),
        cmocka_unit_test(the_sound_run_has_the_same_weather),
    };
    return cmocka_run_group_tests_name("procedure/weather", tests, NULL, NULL) != 0;
}
