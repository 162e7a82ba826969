/* tests/unit/network/surroundings.c  Profiles of the file and ways that a hand has told: values, slopes, corners. All by hand, from
 * straight lines; nothing is left out but rounding. */
#include "property/gas.h"
#include "support/network_bench.h"

#include <math.h>

#define ROUNDING 1e-12 /* a few products and sums of doubles, as a share */

static const char text[] =
    "ullage: scenario/1\n"
    "surroundings: {temperature: [[100 s, 290 K], [200 s, 300 K], [400 s, 280 K]], wind: 2 m/s}\n"
    "system:\n  parts:\n    vessel: {type: vessel, volume: 1 L}\nend: 500 s\n";

static const struct inputs by_file = {0};

static double value_at(const struct network *network, const struct inputs *inputs, double time)
{
    return weather_value(network, inputs, WEATHER_TEMPERATURE, time);
}

static void file_goes_from_corner_to_corner(void **unused)
{
    (void)unused;
    static const double row[][3] = {{0.0, 290.0, 0.0},    {100.0, 290.0, 0.1},  {150.0, 295.0, 0.1},
                                    {200.0, 300.0, -0.1}, {300.0, 290.0, -0.1}, {400.0, 280.0, 0.0},
                                    {1e6, 280.0, 0.0}}; /* s, K, K/s from there on */
    struct network_bench bench = network_bench_open(text);
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        assert_near_share("K", value_at(bench.network, &by_file, row[k][0]), row[k][1], ROUNDING);
        assert_near("K/s", weather_slope(bench.network, &by_file, WEATHER_TEMPERATURE, row[k][0]), row[k][2], ROUNDING);
    }
    assert_near("first corner", weather_corner(bench.network, &by_file, 0.0), 100.0, 0.0);
    assert_near("next corner", weather_corner(bench.network, &by_file, 100.0), 200.0, 0.0);
    assert_true(isinf(weather_corner(bench.network, &by_file, 400.0)));
    network_bench_close(&bench);
}

/* From 295 K at 150 s within 20 s to 305 K, and on at that. */
static void a_way_goes_straight_and_stays(void **unused)
{
    (void)unused;
    const struct weather_way way[WEATHERS] = {
        [WEATHER_TEMPERATURE] = {.given = true, .begins = 150.0, .ends = 170.0, .from = 295.0, .to = 305.0}};
    const struct inputs inputs = {.weather = way};
    struct network_bench bench = network_bench_open(text);
    assert_near_share("begins", value_at(bench.network, &inputs, 150.0), 295.0, ROUNDING);
    assert_near_share("half", value_at(bench.network, &inputs, 160.0), 300.0, ROUNDING);
    assert_near("slope", weather_slope(bench.network, &inputs, WEATHER_TEMPERATURE, 150.0), 0.5, ROUNDING);
    assert_near("ends", value_at(bench.network, &inputs, 170.0), 305.0, 0.0);
    assert_near("level", weather_slope(bench.network, &inputs, WEATHER_TEMPERATURE, 170.0), 0.0, 0.0);
    assert_near("past the file's corners", value_at(bench.network, &inputs, 450.0), 305.0, 0.0);
    assert_near("its end is a corner", weather_corner(bench.network, &inputs, 150.0), 170.0, 0.0);
    assert_true(isinf(weather_corner(bench.network, &inputs, 170.0)));
    assert_near("wind is the file's", weather_value(bench.network, &inputs, WEATHER_WIND, 160.0), 2.0, 0.0);
    network_bench_close(&bench);
}

/* From 310 K at 150 s within 100 s to what the file has at 250 s, which is 295 K, and on with the file. */
static void a_way_back_ends_on_the_file(void **unused)
{
    (void)unused;
    const struct weather_way way[WEATHERS] = {
        [WEATHER_TEMPERATURE] = {.given = true, .back = true, .begins = 150.0, .ends = 250.0, .from = 310.0}};
    const struct inputs inputs = {.weather = way};
    struct network_bench bench = network_bench_open(text);
    assert_near_share("begins", value_at(bench.network, &inputs, 150.0), 310.0, ROUNDING);
    assert_near_share("on its way", value_at(bench.network, &inputs, 200.0), 302.5, ROUNDING);
    assert_near("slope", weather_slope(bench.network, &inputs, WEATHER_TEMPERATURE, 200.0), -0.15, ROUNDING);
    assert_near("the file's corner on the way is none", weather_corner(bench.network, &inputs, 150.0), 250.0, 0.0);
    for (double time = 250.0; time < 500.0; time += 25.0) {
        assert_near("value", value_at(bench.network, &inputs, time), value_at(bench.network, &by_file, time), 0.0);
        assert_near("slope", weather_slope(bench.network, &inputs, WEATHER_TEMPERATURE, time),
                    weather_slope(bench.network, &by_file, WEATHER_TEMPERATURE, time), 0.0);
        assert_true(weather_corner(bench.network, &inputs, time) == weather_corner(bench.network, &by_file, time));
    }
    network_bench_close(&bench);
}

/* Just before a corner a step is not to see what comes after it. */
static void a_step_sees_the_way_that_it_is_on(void **unused)
{
    (void)unused;
    const struct weather_way way[WEATHERS] = {
        [WEATHER_TEMPERATURE] = {.given = true, .begins = 0.0, .ends = 10.0, .from = 290.0, .to = 300.0}};
    const struct inputs inputs = {.weather = way};
    struct network_bench bench = network_bench_open(text);
    const struct surroundings_now before = surroundings_at(bench.network, &inputs, nextafter(10.0, 0.0));
    const struct surroundings_now after = surroundings_at(bench.network, &inputs, 10.0);
    assert_near("before", before.temperature_rate, 1.0, ROUNDING);
    assert_near("after", after.temperature_rate, 0.0, 0.0);
    assert_near("no jump", before.temperature, after.temperature, 300.0 * ROUNDING);
    network_bench_close(&bench);
}

/* An altitude is a pressure, said in another way; all else is itself. */
static void keys_say_what_they_change(void **unused)
{
    (void)unused;
    const int altitude = rows_find(weather_key, "altitude");
    for (double metres = -1000.0; metres <= 11000.0; metres += 500.0) {
        const double pressure = weather_from_key(altitude, metres);
        assert_near("Pa", pressure, standard_pressure(metres), 0.0);
        assert_near("m", weather_as_key(altitude, pressure), metres, 1e-7); /* rounding of 6e6 m of earth */
    }
    assert_int_equal(weather_of_key(altitude), WEATHER_PRESSURE);
    for (int k = 0; weather_key[k].name; k++) {
        assert_true(weather_key[k].least <= weather_key[k].usual && weather_key[k].usual <= weather_key[k].most);
        if (k != altitude)
            assert_true(weather_from_key(k, 300.0) == 300.0 && weather_as_key(k, 300.0) == 300.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(file_goes_from_corner_to_corner), cmocka_unit_test(a_way_goes_straight_and_stays),
        cmocka_unit_test(a_way_back_ends_on_the_file),     cmocka_unit_test(a_step_sees_the_way_that_it_is_on),
        cmocka_unit_test(keys_say_what_they_change),
    };
    return cmocka_run_group_tests_name("network/surroundings", tests, NULL, NULL) != 0;
}
