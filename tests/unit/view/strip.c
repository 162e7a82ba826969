/* tests/unit/view/strip.c  Strips: round ticks that hold all data, values at their height, dense traces that stay within
 * their data. */
#include "support/near.h"
#include "ullage.h"
#include "view/chart/chart.h"

#include <stdbool.h>

enum { ROWS = 4000 };

static double rows[2 * ROWS];

static struct traces wave(double mean, double size, double turns)
{
    for (int k = 0; k < ROWS; k++) {
        rows[2 * k] = (double)k;
        rows[2 * k + 1] = mean + size * sin(2.0 * 3.141592653589793 * turns * k / ROWS);
    }
    return (struct traces){.columns = 2, .rows = ROWS, .room = ROWS, .row = rows};
}

static struct strip strip_of(const struct ullage_channel *channel, const struct traces *traces, enum units units)
{
    const struct strip_data data = {traces, 1};
    struct strip strip = {.x0 = 300.0, .x1 = 1500.0, .y0 = 700.0, .y1 = 800.0, .whole = ROWS};
    strip_scale(&strip, channel, units, &data, 1, (double)NAN);
    return strip;
}

static const struct ullage_channel gauge = {"tank.gauge_pressure", 0, "gauge_pressure", ULLAGE_PRESSURE, ""};
static const struct ullage_channel warmth = {"tank.temperature", 0, "temperature", ULLAGE_TEMPERATURE, ""};
static const struct ullage_channel reading = {"meter.standard_flow", 1, "standard_flow", ULLAGE_VOLUME_FLOW, ""};
static const struct ullage_channel hole = {"meter.hole", 1, "hole", ULLAGE_LENGTH, ""};

static void ticks_hold_the_data(void **state)
{
    (void)state;
    for (double size = 1e-3; size < 1e6; size *= 3.7) {
        const struct traces traces = wave(293.15 + size, size, 3.0);
        const struct strip strip = strip_of(&warmth, &traces, UNITS_METRIC);
        assert_true(strip.ticks >= 2 && strip.ticks <= STRIP_TICKS);
        assert_true(strip.low <= 293.15 - 273.15 + 1e-6 * size &&
                    strip.high >= 293.15 - 273.15 + 2.0 * size * (1 - 1e-6));
        const double step = strip.tick[1] - strip.tick[0], lead = step / pow(10.0, floor(log10(step) + 1e-9));
        assert_true(fabs(lead - 1.0) < 1e-6 || fabs(lead - 2.0) < 1e-6 || fabs(lead - 5.0) < 1e-6);
    }
}

static void values_at_their_height(void **state)
{
    (void)state;
    const struct traces traces = wave(1500.0, 1500.0, 1.0);
    const struct strip strip = strip_of(&gauge, &traces, UNITS_METRIC);
    assert_true(strip.pressure);
    assert_near("zero is at the foot", strip_y(&strip, 0.0), 800.0, 1e-9);
    assert_near("half way", strip_y(&strip, 500.0 * strip.high), 750.0, 1e-9);
    assert_near("time", strip_x(&strip, 0.5 * ROWS), 900.0, 1e-9);
}

static void meters_are_logarithmic(void **state)
{
    (void)state;
    const struct traces traces = wave(1e-4, 1e-4, 2.0); /* m3/s: 0 to 12 L/min */
    const struct strip strip = strip_of(&reading, &traces, UNITS_METRIC);
    assert_true(strip.log);
    assert_near("a decade is a decade", strip_y(&strip, 1e-3 / 6e4 * 10.0) - strip_y(&strip, 1e-3 / 6e4 * 100.0),
                strip_y(&strip, 1e-3 / 6e4 * 100.0) - strip_y(&strip, 1e-3 / 6e4 * 1000.0), 1e-6);
    const struct traces none = wave(0.0, 0.0, 1.0);
    const struct strip ruler = strip_of(&hole, &none, UNITS_METRIC);
    assert_near("holes from", ruler.low, 0.1, 1e-12);
    assert_near("holes to", ruler.high, 3.0, 1e-12);
}

/* Noise of many samples to a column is drawn as a band: few points, none outside the data by more than half its line. */
static void noise_stays_in_its_band(void **state)
{
    (void)state;
    struct frame frame = {0};
    const struct traces traces = wave(293.15, 5.0, 700.0);
    const struct strip strip = strip_of(&warmth, &traces, UNITS_METRIC);
    const struct strip_data data = {&traces, 1};
    frame_clear(&frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    strip_trace(&frame, &strip, &data, ROWS, (double)NAN, TRACE_INK);
    assert_int_equal(frame.shapes, 1);
    assert_int_equal(frame.shape[0].kind, SHAPE_FILL);
    assert_true(frame.nodes < 2 * 1200 / 1.5 + 4);
    const double top = strip_y(&strip, 298.15) - 2.01, foot = strip_y(&strip, 288.15) + 2.01;
    for (int k = 0; k < frame.nodes; k++)
        if (frame.node[k].op != NODE_CLOSE)
            assert_true((double)frame.node[k].x[1] >= top && (double)frame.node[k].x[1] <= foot);
    frame_free(&frame);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(ticks_hold_the_data), cmocka_unit_test(values_at_their_height),
                                       cmocka_unit_test(meters_are_logarithmic),
                                       cmocka_unit_test(noise_stays_in_its_band)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
