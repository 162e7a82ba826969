/* tests/unit/view/layout.c  Zones for any size of the picture: nothing leaves it, zones keep apart, text stays readable. */
#include "view/layout.h"

#include "support/near.h"

static void zones_keep_apart(void **state)
{
    (void)state;
    for (int width = 800; width <= 4000; width += 37)
        for (int height = 600; height <= 2400; height += 53) {
            const struct layout at = layout_make(width, height);
            assert_true(at.left >= -1e-6 && at.top >= -1e-6);
            assert_true(at.left + at.scale * at.width <= width + 1e-6);
            assert_true(at.top + at.scale * PICTURE_HEIGHT <= height + 1e-6);
            assert_true(at.column_x1 <= at.width && at.column_y1 <= PICTURE_HEIGHT);
            assert_true(at.plate_x >= 0.0 && at.plate_x + 1264.0 <= at.width);
            if (at.wide)
                assert_true(at.plate_x + 1264.0 < at.column_x0 + 1e-6);
            else
                assert_true(at.chart_x1 < at.column_x0 && at.column_y0 > at.key_y + 40.0);
            assert_true(at.chart_x1 - at.chart_x0 > 500.0);
            assert_true(at.least_text * at.scale >= 14.2 - 1e-9 || at.least_text >= 20.0);
        }
}

static void the_usual_sizes(void **state)
{
    (void)state;
    assert_true(layout_make(1920, 1080).wide);
    assert_false(layout_make(1024, 768).wide);
    assert_near("width at 16:9", layout_make(1920, 1080).width, 1920.0, 1e-9);
    assert_near("width at 4:3", layout_make(1024, 768).width, 1440.0, 1e-9);
    assert_near("one u at 1080", layout_make(1920, 1080).scale, 1.0, 1e-12);
    assert_near("least text at 600", layout_make(800, 600).least_text * 600.0 / 1080.0, 14.2, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(zones_keep_apart), cmocka_unit_test(the_usual_sizes)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
