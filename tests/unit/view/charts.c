/* tests/unit/view/charts.c  Which strips a scenario begins with, and where they lie. */
#include "view/charts.h"

#include "support/stage.h"

static void begins_with(const char *path, const char *const *wanted)
{
    int strip[STRIPS];
    struct stage stage = stage_open(path, NULL);
    charts_strips(stage.model, strip);
    for (int s = 0; s < STRIPS; s++) {
        if (!wanted[s]) {
            assert_int_equal(strip[s], -1);
            continue;
        }
        assert_true(strip[s] >= 0);
        const int channel = ullage_model_recorded_channel(stage.model, strip[s]);
        assert_string_equal(ullage_model_channel(stage.model, channel).name, wanted[s]);
    }
    stage_close(&stage);
}

/* Where carbon is at work a day is told by pressure, load and warmth; a leak test by pressure and what the meter shows. */
static void strips_at_first(void **state)
{
    (void)state;
    static const char *const day[] = {"tank.gauge_pressure", "canister.load", "tank.liquid_temperature"};
    static const char *const leak[] = {"tank.gauge_pressure", "meter.hole", NULL};
    begins_with("scenarios/warm-day.yaml", day);
    begins_with("scenarios/first-leak.yaml", leak);
}

/* Two or three, in the same zone, with room for a tick label between them. */
static void strips_share_their_zone(void **state)
{
    (void)state;
    struct layout layout = layout_make(800, 600);
    const double top = layout.strip_y[0], foot = layout.strip_y[1] + layout.strip_high;
    for (int strips = 2; strips <= STRIPS; strips++) {
        layout_strips(&layout, strips);
        assert_near("top", layout.strip_y[0], top, 1e-9);
        assert_near("foot", layout.strip_y[strips - 1] + layout.strip_high, foot, 1e-9);
        for (int s = 1; s < strips; s++)
            assert_true(layout.strip_y[s] - layout.strip_y[s - 1] - layout.strip_high >= layout.least_text);
        assert_true(foot < layout.bar_y0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(strips_at_first), cmocka_unit_test(strips_share_their_zone)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
