/* tests/unit/view/frame.c  A frame as data: turns and mirrors, boxes of texts, what lies under the pointer. */
#include "view/frame.h"

#include "support/near.h"

#include <stdbool.h>

#define FLOAT_STEP 1e-4 /* u: coordinates are floats below 2000 */

static double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.6 * size * (double)strlen(text);
}

static void frame_open(struct frame *frame)
{
    frame_clear(frame, 1920.0, 1080.0, 20.0, (struct text_measure){width_of, NULL});
}

static void point_lands(struct frame *frame, int turn, bool mirror, double x, double y)
{
    frame_at(frame, 100.0, 200.0, turn, mirror);
    frame_path(frame);
    frame_move(frame, 10.0, 3.0);
    const struct frame_node *node = &frame->node[frame->nodes - 1];
    assert_near("x", (double)node->x[0], x, FLOAT_STEP);
    assert_near("y", (double)node->x[1], y, FLOAT_STEP);
}

static void turns_by_quarters(void **state)
{
    (void)state;
    struct frame frame = {0};
    frame_open(&frame);
    point_lands(&frame, 0, false, 110.0, 203.0);
    point_lands(&frame, 90, false, 97.0, 210.0);
    point_lands(&frame, 180, false, 90.0, 197.0);
    point_lands(&frame, 270, false, 103.0, 190.0);
    point_lands(&frame, 0, true, 90.0, 203.0);
    frame_origin(&frame, 1000.0, 500.0);
    point_lands(&frame, 0, false, 1110.0, 703.0);
    frame_free(&frame);
}

static void small_text_grows_to_the_least(void **state)
{
    (void)state;
    struct frame frame = {0};
    frame_open(&frame);
    const struct text_style small = {12.0, 500, COLOUR_INK, 1.0}, fitting = {64.0, 700, COLOUR_INK, 0.0};
    assert_near("width", frame_text(&frame, 500.0, 300.0, small, "abcd"), 0.6 * 20.0 * 4, FLOAT_STEP);
    assert_near("size", frame.word[0].size, 20.0, FLOAT_STEP);
    assert_near("right end", frame.word[0].box.x1, 500.0, FLOAT_STEP);
    assert_true(frame.word[0].box.y0 < 300.0 - 0.7 * 20.0 && frame.word[0].box.y1 > 300.0);
    frame_text_fit(&frame, 0.0, 100.0, 100.0, fitting, "0.50 mm");
    assert_true(frame.word[1].box.x1 <= 100.0 + FLOAT_STEP && frame.word[1].size >= 20.0);
    assert_string_equal(frame.text + frame.word[1].first, "0.50 mm");
    frame_free(&frame);
}

static void nearest_spot_wins_then_the_upper(void **state)
{
    (void)state;
    struct frame frame = {0};
    frame_open(&frame);
    frame_spot(&frame, SPOT_PLATE_PART, 1, (struct frame_box){0.0, 0.0, 100.0, 100.0}, 0.0, 0.0);
    frame_spot(&frame, SPOT_GRIP, 2, (struct frame_box){40.0, 40.0, 60.0, 60.0}, 0.0, 0.0);
    frame_spot(&frame, SPOT_TOGGLE, 3, (struct frame_box){110.0, 0.0, 130.0, 20.0}, 0.0, 0.0);
    assert_int_equal(frame_spot_at(&frame, 50.0, 50.0, 6.0)->part, 2);
    assert_int_equal(frame_spot_at(&frame, 10.0, 90.0, 6.0)->part, 1);
    assert_int_equal(frame_spot_at(&frame, 107.0, 10.0, 12.0)->part, 3);
    assert_null(frame_spot_at(&frame, 300.0, 300.0, 6.0));
    frame_free(&frame);
}

/* A circle of four curves stays within 0.03 % of its radius. */
static void arcs_are_round(void **state)
{
    (void)state;
    struct frame frame = {0};
    frame_open(&frame);
    frame_path(&frame);
    frame_circle(&frame, 0.0, 0.0, 100.0);
    double x = 0.0, y = 0.0;
    for (int k = 0; k < frame.nodes; k++) {
        const struct frame_node *n = &frame.node[k];
        if (n->op == NODE_CURVE)
            for (double t = 0.0; t <= 1.0; t += 0.1) {
                const double u = 1.0 - t, a = u * u * u, b = 3.0 * u * u * t, c = 3.0 * u * t * t, d = t * t * t;
                const double px = a * x + b * (double)n->x[0] + c * (double)n->x[2] + d * (double)n->x[4];
                const double py = a * y + b * (double)n->x[1] + c * (double)n->x[3] + d * (double)n->x[5];
                assert_near("radius", hypot(px, py), 100.0, 0.03);
            }
        if (n->op != NODE_CLOSE) {
            const int last = n->op == NODE_CURVE ? 4 : 0;
            x = (double)n->x[last];
            y = (double)n->x[last + 1];
        }
    }
    frame_free(&frame);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(turns_by_quarters), cmocka_unit_test(small_text_grows_to_the_least),
        cmocka_unit_test(nearest_spot_wins_then_the_upper), cmocka_unit_test(arcs_are_round)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
