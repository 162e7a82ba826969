/* tests/unit/law/shape.c  The level table's curve: through its corners, always rising, its slopes exact, and the same as
 * GSL's own Steffen interpolation, which shares no code with it. */
#include "law/shape.h"

#include "support/near.h"

#include <gsl/gsl_interp.h>

enum { TABLES = 200, POINTS = 40 };

/* A table of 2..SHAPE_CORNERS_MOST corners: slices between thin and thick, wide and narrow. */
static struct vessel_shape drawn(uint64_t *stream)
{
    double volume[SHAPE_CORNERS_MOST] = {0.0}, height[SHAPE_CORNERS_MOST] = {0.0};
    const int corners = 2 + (int)(near_draw(stream) * (SHAPE_CORNERS_MOST - 1));
    for (int k = 1; k < corners; k++) {
        volume[k] = volume[k - 1] + near_draw_decades(stream, 1e-4, 1e-2);
        height[k] = height[k - 1] + near_draw_decades(stream, 1e-3, 5e-2);
    }
    return shape_create(corners, volume, height);
}

static double full(const struct vessel_shape *shape)
{
    return shape->volume[shape->corners - 1];
}

static void goes_through_its_corners_and_rises(void **unused)
{
    (void)unused;
    uint64_t stream = 3;
    for (int n = 0; n < TABLES; n++) {
        const struct vessel_shape shape = drawn(&stream);
        for (int k = 0; k < shape.corners; k++)
            assert_near("corner", shape_height(&shape, shape.volume[k]).value, shape.height[k],
                        1e-14 * shape.height[shape.corners - 1]);
        double before = -1e-9;
        for (int i = 0; i <= 20 * POINTS; i++) {
            const struct sloped here = shape_height(&shape, full(&shape) * i / (20.0 * POINTS));
            assert_true(here.value > before && here.slope > 0.0);
            before = here.value;
        }
    }
}

static void is_the_same_curve_as_another_implementation(void **unused)
{
    (void)unused;
    uint64_t stream = 5;
    for (int n = 0; n < TABLES; n++) {
        const struct vessel_shape shape = drawn(&stream);
        const size_t corners = (size_t)shape.corners;
        if (corners < gsl_interp_type_min_size(gsl_interp_steffen))
            continue;
        gsl_interp *other = gsl_interp_alloc(gsl_interp_steffen, corners);
        assert_non_null(other);
        assert_int_equal(gsl_interp_init(other, shape.volume, shape.height, corners), 0);
        for (int i = 0; i <= POINTS; i++) {
            const double at = fmin(full(&shape) * i / POINTS, full(&shape));
            const struct sloped here = shape_height(&shape, at);
            const double slope = gsl_interp_eval_deriv(other, shape.volume, shape.height, at, NULL);
            assert_near("height", here.value, gsl_interp_eval(other, shape.volume, shape.height, at, NULL),
                        1e-14 * shape.height[shape.corners - 1]);
            assert_near_share("slope", here.slope, slope, 1e-11); /* differences of secants: some digits go */
        }
        gsl_interp_free(other);
    }
}

static double height_at(double volume, const void *with)
{
    return shape_height(with, volume).value;
}

static double area_at(double volume, const void *with)
{
    return shape_area(with, volume).value;
}

/* Inside one interval, where the curve is one cubic. */
static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 7;
    for (int n = 0; n < TABLES; n++) {
        const struct vessel_shape shape = drawn(&stream);
        for (int k = 0; k + 1 < shape.corners; k++) {
            const double width = shape.volume[k + 1] - shape.volume[k], h = 2e-4 * width;
            const double at = shape.volume[k] + width * near_draw_between(&stream, 0.1, 0.9);
            const struct sloped height = shape_height(&shape, at), area = shape_area(&shape, at);
            assert_near_share("slope of height", height.slope, near_slope(height_at, &shape, at, h), 1e-8);
            assert_near_share("area", area.value, 1.0 / height.slope, 1e-15);
            assert_near("slope of area", area.slope, near_slope(area_at, &shape, at, h), 1e-7 * area.value / width);
        }
    }
}

static void a_box_is_two_corners(void **unused)
{
    (void)unused;
    const struct vessel_shape box = shape_box(0.045, 0.22);
    for (int i = -1; i <= 11; i++) { /* a little past both ends as well: straight on */
        const double volume = 0.0045 * i;
        assert_near("height", shape_height(&box, volume).value, volume * 0.22 / 0.045, 1e-16);
        assert_near_share("area", shape_area(&box, volume).value, 0.045 / 0.22, 1e-14);
        assert_near("slope of area", shape_area(&box, volume).slope, 0.0, 1e-9);
    }
}

/* A drum on its side, radius 0.15 m, length 0.6 m, V = L (r^2 acos(1 - h/r) - (r - h) sqrt(2 r h - h^2)), told by twenty
 * slices of equal height. Half full it stands at the axis and its surface is the widest. The slopes of the curve are good
 * to second order in a slice over the distance to the nearer end, where the true one has no bound; of that square a tenth
 * is allowed of the surface, and a thirtieth of a slice of the height. */
static double drum_volume(double height)
{
    const double r = 0.15, length = 0.6;
    return length * (r * r * acos(1.0 - height / r) - (r - height) * sqrt(fmax(0.0, height * (2.0 * r - height))));
}

static void a_drum_by_its_table(void **unused)
{
    (void)unused;
    double volume[21], height[21];
    for (int k = 0; k <= 20; k++) {
        height[k] = 0.3 * k / 20.0;
        volume[k] = drum_volume(height[k]);
    }
    const struct vessel_shape drum = shape_create(21, volume, height);
    for (int k = 2; k < 18; k++) { /* the slices at bottom and roof go by their secant */
        const double mid = 0.3 * (k + 0.5) / 20.0, slice = 1.0 / (fmin(k, 19 - k) + 0.5);
        assert_near("height", shape_height(&drum, drum_volume(mid)).value, mid, 0.015 / 30.0 * slice * slice);
        assert_near_share("area", shape_area(&drum, drum_volume(mid)).value, 1.2 * sqrt(mid * (0.3 - mid)),
                          0.1 * slice * slice);
    }
    assert_near_share("the widest", shape_area(&drum, drum_volume(0.15)).value, 0.6 * 0.3,
                      0.2 / 100.0); /* a corner: twice what is between */
}

static double share_at(double share, const void *with)
{
    (void)with;
    return shape_share((struct sloped){share, 1.0}).value;
}

/* Itself from 2 % on, 1 % where there is none, without a corner on the way. */
static void a_share_is_never_nothing(void **unused)
{
    (void)unused;
    double before = 0.0;
    for (int k = -20; k <= 400; k++) {
        const double share = 2.5e-4 * k + 1e-5; /* off the joints, where the second derivative jumps */
        const struct sloped is = shape_share((struct sloped){share, 3.0});
        assert_near("slope", is.slope, 3.0 * near_slope(share_at, NULL, share, 1e-6), 1e-8);
        assert_true(is.value >= fmax(share, 0.01) - 1e-15 && is.value >= before);
        assert_true(share < 0.02 || is.value == share);
        before = is.value;
    }
    assert_near("none", shape_share((struct sloped){0.0, 1.0}).value, 0.01, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(goes_through_its_corners_and_rises),
                                       cmocka_unit_test(is_the_same_curve_as_another_implementation),
                                       cmocka_unit_test(slopes_agree_with_differences),
                                       cmocka_unit_test(a_box_is_two_corners),
                                       cmocka_unit_test(a_drum_by_its_table),
                                       cmocka_unit_test(a_share_is_never_nothing)};
    return cmocka_run_group_tests_name("unit/law/shape", tests, NULL, NULL) != 0;
}
