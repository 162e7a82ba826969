/* tests/unit/view/weather.c  Air, sun and wind in the picture: units and rulers; set by keys alone and by mouse alone. Factors by
 * definition: 1 inHg = 3386.388640341 Pa (conventional), 1 ft = 0.3048 m, 1 mph = 0.44704 m/s, 0 degC = 273.15 K = 32 degF. */
#include "view/weather.h"

#include "support/stage.h"
#include "view/session.h"
#include "view/weather_page.h"

#include <stdbool.h>

enum { WARMTH, BAROMETER, ALTITUDE, SUN, WIND }; /* rows as they are listed */

/* ---- numbers ------------------------------------------------------------------------------------------------------- */
static void figures_are_in_the_trades_units(void **state)
{
    (void)state;

    static const struct {
        int row;
        double si;
        const char *metric, *inch;
    } table[] = {
        {WARMTH, 308.15, "35.0 °C", "95.0 °F"},
        {WARMTH, 263.15, "−10.0 °C", "14.0 °F"},
        {BAROMETER, 101325.0, "1013.2 hPa", "29.92 inHg"},
        {ALTITUDE, 1609.344, "1609 m", "5280 ft"},
        {SUN, 800.0, "800 W/m²", "800 W/m²"},
        {WIND, 4.4704, "4.5 m/s", "10.0 mph"},
    };

    assert_int_equal(ullage_weathers(), WIND + 1);
    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++)
        for (enum units units = UNITS_METRIC; units <= UNITS_INCH; units++) {
            char text[80];
            const struct figure figure = weather_figure(table[k].row, table[k].si, units);
            snprintf(text, sizeof text, "%s %s", figure.number, figure.unit);
            assert_string_equal(text, units == UNITS_METRIC ? table[k].metric : table[k].inch);
        }
}

/* A knob that is let go where it stands says what it stood at: back within half of what it goes by. */
static void rulers_lead_back(void **state)
{
    (void)state;
    for (int row = 0; row < ullage_weathers(); row++)
        for (enum units units = UNITS_METRIC; units <= UNITS_SI; units++) {
            const struct weather_scale *scale = weather_scale(row, units);
            for (double share = 0.0; share <= 1.0; share += 0.01) {
                const double si = weather_at(row, share, units);
                assert_near("share", weather_share(row, si, units), share,
                            0.5000001 * scale->finer / (scale->most - scale->least));
                char text[48];
                double read;
                int dimension;
                weather_text(row, si, 3, units, text, sizeof text);
                assert_string_equal(strstr(text, " ramp="), " ramp=20min");
                *strstr(text, " ramp=") = '\0';
                assert_null(ullage_quantity_read(text, &read, &dimension));
                assert_int_equal(dimension, ullage_weather_at(row).dimension);
                assert_near_share("as a command has it", read, si, 1e-6); /* seven figures */
            }
        }
}

static void steps_stay_within_what_may_be(void **state)
{
    (void)state;
    assert_near("up", weather_step(WARMTH, 293.35, 1, false, UNITS_METRIC), 294.15, 1e-9);
    assert_near("finer", weather_step(WARMTH, 293.15, -1, true, UNITS_METRIC), 293.05, 1e-9);
    assert_near("in degF", weather_step(WARMTH, 293.15, 1, false, UNITS_INCH), (69.0 + 459.67) / 1.8, 1e-9);
    assert_near("no less than nothing", weather_step(WIND, 0.0, -1, false, UNITS_METRIC), 0.0, 1e-12);
    assert_near("no more than a storm", weather_step(WIND, 40.0, 1, false, UNITS_METRIC), 40.0, 1e-12);
}

static void what_is_typed_is_read(void **state)
{
    (void)state;
    double si;
    assert_null(weather_typed(WARMTH, "35", UNITS_METRIC, &si));
    assert_near("degC", si, 308.15, 1e-9);
    assert_null(weather_typed(WARMTH, "95", UNITS_INCH, &si));
    assert_near("degF", si, 308.15, 1e-9);
    assert_null(weather_typed(WARMTH, "-10 degC", UNITS_INCH, &si));
    assert_near("its own unit", si, 263.15, 1e-9);
    assert_null(weather_typed(BAROMETER, "29.92", UNITS_INCH, &si));
    assert_near("inHg", si, 101320.7, 0.1);
    assert_null(weather_typed(ALTITUDE, "1500", UNITS_METRIC, &si));
    assert_near("m", si, 1500.0, 1e-9);
    assert_non_null(weather_typed(SUN, "3 kPa", UNITS_METRIC, &si));
    assert_non_null(weather_typed(SUN, "", UNITS_METRIC, &si));
    assert_non_null(weather_typed(SUN, "much", UNITS_METRIC, &si));
}

/* ---- a run and its picture ----------------------------------------------------------------------------------------- */
static double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.55 * size * (double)strlen(text);
}

static const struct text_measure measure = {width_of, NULL};

static const char rig[] = "ullage: scenario/1\nname: outdoors\nsystem:\n  parts:\n"
                          "    tank: {type: tank, volume: 30 L, at: [3, 5]}\n"
                          "    line: {type: line, from: tank, to: vent, bore: 10 mm, length: 0.5 m}\n"
                          "    vent: {type: valve, from: line, to: air, bore: 8 mm, normally: open, at: [9, 2]}\n"
                          "procedure:\n  steps:\n    - {name: Stand, wait: {for: 2 h}}\n"
                          "record: {every: 5 s, channels: [tank.gauge_pressure, air.temperature]}\n";

struct desk {
    struct stage stage;
    struct session session;
};

static void desk_open(struct desk *desk, int width, int height)
{
    desk->stage = stage_text(rig);
    assert_true(session_make(&desk->session, desk->stage.model, desk->stage.run, measure, width, height, true));
    assert_non_null(session_frame(&desk->session));
}

static void desk_close(struct desk *desk)
{
    session_free(&desk->session);
    stage_close(&desk->stage);
}

static void key(struct desk *desk, int pressed)
{
    session_input(&desk->session, (struct input){.kind = INPUT_KEY, .key = pressed});
    assert_non_null(session_frame(&desk->session));
}

static void keys(struct desk *desk, const char *pressed)
{
    for (; *pressed; pressed++)
        key(desk, *pressed);
}

static void play(struct desk *desk, double seconds)
{
    desk->session.view.playing = true;
    desk->session.view.rate = 1.0;
    for (int k = 0; k < 10; k++)
        session_tick(&desk->session, seconds / 10.0);
    desk->session.view.playing = false;
    assert_non_null(session_frame(&desk->session));
}

static double air(const struct desk *desk, int row)
{
    return desk->session.now.weather[row].value;
}

static const char *ordered(const struct desk *desk, int order)
{
    assert_true(order < ullage_run_orders(desk->session.run));
    return ullage_run_order(desk->session.run, order).value;
}

static void by_keys_alone(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk, 1280, 720);
    key(&desk, 'a');
    assert_int_equal(desk.session.view.page, PAGE_AIR);
    keys(&desk, "35");
    assert_int_equal(desk.session.view.weather.row, WARMTH);
    key(&desk, KEY_ENTER);
    assert_string_equal(ordered(&desk, 0), "35 degC ramp=10s");
    play(&desk, 20.0);
    assert_near("warm", air(&desk, WARMTH), 308.15, 1e-9);
    keys(&desk, "tt"); /* five minutes */
    key(&desk, KEY_DOWN);
    assert_string_equal(ordered(&desk, 1), "34 degC ramp=5min");
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.weather.row, -1);
    key(&desk, KEY_DOWN);
    key(&desk, KEY_DOWN);
    key(&desk, KEY_ENTER);
    assert_int_equal(desk.session.view.weather.row, ALTITUDE);
    key(&desk, KEY_UP);
    assert_string_equal(ullage_run_order(desk.session.run, 2).what, "surroundings.altitude");
    assert_string_equal(ordered(&desk, 2), "100 m ramp=5min");
    keys(&desk, "-200");
    key(&desk, KEY_BACKSPACE);
    key(&desk, KEY_ENTER);
    assert_string_equal(ordered(&desk, 3), "-20 m ramp=5min");
    key(&desk, KEY_BACKSPACE);
    assert_string_equal(ordered(&desk, 4), "as-in-file ramp=5min");
    key(&desk, KEY_BACKSPACE); /* it is already */
    assert_int_equal(ullage_run_orders(desk.session.run), 5);
    keys(&desk, "99 kPa ramp");
    key(&desk, KEY_ENTER); /* another kind */
    assert_int_equal(ullage_run_orders(desk.session.run), 5);
    assert_true(*desk.session.view.message);
    keys(&desk, "12000");
    key(&desk, KEY_ENTER); /* beyond the lowest layer of the atmosphere */
    assert_int_equal(ullage_run_orders(desk.session.run), 5);
    assert_non_null(strstr(desk.session.view.message, "altitude"));
    key(&desk, KEY_ESCAPE);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.page, PAGE_STEPS);
    desk_close(&desk);
}

/* ---- mouse --------------------------------------------------------------------------------------------------------- */
static const struct frame_spot *spot_of(const struct desk *desk, enum spot_kind what, int part)
{
    for (int k = 0; k < desk->session.frame.spots; k++)
        if (desk->session.frame.spot[k].what == what && desk->session.frame.spot[k].part == part)
            return &desk->session.frame.spot[k];
    fail_msg("no such spot: %d of %d", (int)what, part);
    return NULL;
}

static void mouse(struct desk *desk, enum input_kind kind, struct frame_box box, double across)
{
    const struct layout layout = layout_make(desk->session.view.width, desk->session.view.height);
    struct input input = {.kind = kind};
    input.x = layout.left + layout.scale * (box.x0 + across * (box.x1 - box.x0));
    input.y = layout.top + layout.scale * 0.5 * (box.y0 + box.y1);
    session_input(&desk->session, input);
    assert_non_null(session_frame(&desk->session));
}

static void click(struct desk *desk, enum spot_kind what, int part)
{
    const struct frame_box box = spot_of(desk, what, part)->box;
    mouse(desk, INPUT_PRESS, box, 0.5);
    mouse(desk, INPUT_RELEASE, box, 0.5);
}

static void by_mouse_alone(int width, int height)
{
    static struct desk desk;
    desk_open(&desk, width, height);
    click(&desk, SPOT_WEATHER, -1); /* "outside 20 °C" on the plate */
    assert_int_equal(desk.session.view.page, PAGE_AIR);
    click(&desk, SPOT_WEATHER_WORD, WEATHER_SPAN + 1);
    click(&desk, SPOT_WEATHER, SUN);
    const struct frame_box ruler = spot_of(&desk, SPOT_WEATHER_SLIDER, SUN)->box;
    mouse(&desk, INPUT_PRESS, ruler, 0.2);
    mouse(&desk, INPUT_MOVE, ruler, 0.4);
    mouse(&desk, INPUT_MOVE, ruler, 0.75);
    assert_int_equal(ullage_run_orders(desk.session.run), 0); /* it is told when it is let go */
    assert_true(desk.session.view.weather.held);
    mouse(&desk, INPUT_RELEASE, ruler, 0.75);
    assert_int_equal(ullage_run_orders(desk.session.run), 1);
    assert_string_equal(ordered(&desk, 0), "900 W/m2 ramp=1min");
    play(&desk, 30.0);
    assert_near("on its way", air(&desk, SUN), 450.0, 1e-6);
    click(&desk, SPOT_WEATHER_WORD, WEATHER_LIST);
    click(&desk, SPOT_WEATHER, BAROMETER);
    mouse(&desk, INPUT_PRESS, spot_of(&desk, SPOT_WEATHER_SLIDER, BAROMETER)->box, 0.0);
    mouse(&desk, INPUT_RELEASE, spot_of(&desk, SPOT_WEATHER_SLIDER, BAROMETER)->box, 0.0);
    assert_string_equal(ordered(&desk, 1), "900 hPa ramp=1min");
    click(&desk, SPOT_WEATHER_WORD, WEATHER_BACK);
    assert_string_equal(ordered(&desk, 2), "as-in-file ramp=1min");
    click(&desk, SPOT_WEATHER_WORD, WEATHER_LIST);
    click(&desk, SPOT_WEATHER_WORD, WEATHER_ALL_BACK); /* the sun alone is by hand still */
    assert_int_equal(ullage_run_orders(desk.session.run), 4);
    assert_string_equal(ullage_run_order(desk.session.run, 3).what, "surroundings.sun");
    play(&desk, 70.0);
    assert_near("dark again", air(&desk, SUN), 0.0, 1e-9);
    assert_near("barometer", air(&desk, BAROMETER), 101325.0, 1e-6);
    desk_close(&desk);
}

static void by_mouse_in_both_forms(void **state)
{
    (void)state;
    by_mouse_alone(1280, 720);
    by_mouse_alone(1024, 768);
}

/* Back in time, then other weather: another way. */
static void in_the_past_it_branches(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk, 1280, 720);
    play(&desk, 60.0);
    key(&desk, KEY_HOME);
    keys(&desk, "a");
    keys(&desk, "5");
    key(&desk, KEY_ENTER);
    assert_int_equal(desk.session.branches.count, 2);
    play(&desk, 30.0);
    assert_near("cold", air(&desk, WARMTH), 278.15, 1e-9);
    key(&desk, 'n');
    assert_near("as it was", air(&desk, WARMTH), 293.15, 1e-9);
    desk_close(&desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_are_in_the_trades_units),
        cmocka_unit_test(rulers_lead_back),
        cmocka_unit_test(steps_stay_within_what_may_be),
        cmocka_unit_test(what_is_typed_is_read),
        cmocka_unit_test(by_keys_alone),
        cmocka_unit_test(by_mouse_in_both_forms),
        cmocka_unit_test(in_the_past_it_branches),
    };
    return cmocka_run_group_tests_name("view/weather", tests, NULL, NULL) != 0;
}
