/* tests/unit/view/marks.c  The share of marks is the mole share; marks move with their phase; jets tell their direction. */
#include "view/marks.h"

#include "support/near.h"
#include "view/part/gas.h"

#include <stdbool.h>

static bool anywhere(const struct gas_space *space, double x, double y)
{
    (void)space;
    (void)x;
    (void)y;
    return true;
}

/* White fills are what only smoke has; each puff has one. */
static int puffs(const struct frame *frame)
{
    int count = 0;
    for (int k = 0; k < frame->shapes; k++)
        count += frame->shape[k].kind == SHAPE_FILL && frame->shape[k].colour == COLOUR_WHITE;
    return count;
}

static int smoke_of(double share, struct frame *frame)
{
    const struct gas_space space = {.box = {0.0, 0.0, 600.0, 250.0}, .inside = anywhere};
    frame_clear(frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    marks_space(frame, &space, (struct mix){.air = 1.0 - share, .smoke = share});
    return puffs(frame);
}

/* Even numbers of puffs for even shares; those that are there stay where they are when more come. */
static void smoke_is_its_share(void **state)
{
    (void)state;
    struct frame frame = {0};
    const int full = smoke_of(1.0, &frame);
    assert_true(full > 100);
    for (double share = 0.0; share < 1.0; share += 0.05)
        assert_true(abs(smoke_of(share, &frame) - (int)floor(share * full)) <= 1);
    smoke_of(0.2, &frame);
    const int nodes = frame.nodes;
    struct frame_node *before = malloc((size_t)nodes * sizeof *before);
    assert_non_null(before);
    memcpy(before, frame.node, (size_t)nodes * sizeof *before);
    smoke_of(0.7, &frame);
    assert_memory_equal(before, frame.node, (size_t)nodes * sizeof *before);
    free(before);
    frame_free(&frame);
}

/* Puffs of a full space do not hide each other: 24 u apart, their lobes reach 10 u at the size drawn. */
static void smoke_is_spread(void **state)
{
    (void)state;
    struct frame frame = {0};
    const int full = smoke_of(1.0, &frame);
    double x[400], y[400];
    int count = 0;
    for (int k = 0; k < frame.shapes && count < 400; k++)
        if (frame.shape[k].colour == COLOUR_WHITE) {
            x[count] = (double)frame.node[frame.shape[k].first].x[0];
            y[count++] = (double)frame.node[frame.shape[k].first].x[1];
        }
    assert_int_equal(count, full);
    for (int a = 0; a < count; a++)
        for (int b = 0; b < a; b++)
            assert_true(hypot(x[a] - x[b], y[a] - y[b]) > 24.0 - 1e-3);
    frame_free(&frame);
}

/* Dots of vapor: one path of circles, five nodes and a close each. */
static int dots_of(double share, struct frame *frame)
{
    const struct gas_space space = {.box = {0.0, 0.0, 512.0, 256.0}, .inside = anywhere};
    frame_clear(frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    marks_space(frame, &space, (struct mix){.air = 1.0 - share, .vapor = share});
    int circles = 0;
    for (int k = 0; k < frame->nodes; k++)
        circles += frame->node[k].op == NODE_CLOSE;
    return circles;
}

/* The share of dots is the mole share, to one dot of each tile; those of a leaner gas are all among those of a richer. */
static void vapor_is_its_share(void **state)
{
    (void)state;
    struct frame frame = {0}, rich = {0};
    const int full = dots_of(1.0, &rich);
    assert_true(full > 300);
    for (double share = 0.0; share < 1.0; share += 0.04)
        assert_true(fabs(dots_of(share, &frame) - share * full) <= 2.0);
    const int lean = dots_of(0.1, &frame);
    assert_true(lean > 0);
    for (int k = 0; k < frame.nodes; k++) {
        bool found = frame.node[k].op != NODE_MOVE;
        for (int j = 0; j < rich.nodes && !found; j++)
            found = !memcmp(&frame.node[k], &rich.node[j], sizeof frame.node[k]);
        assert_true(found);
    }
    frame_free(&frame);
    frame_free(&rich);
}

/* Gasoline vapor burns from 1.4 to 7.6 % in air (handbooks, from memory), and not in nitrogen. */
static void what_burns(void **state)
{
    (void)state;
    assert_false(gas_flammable((struct mix){.air = 0.99, .vapor = 0.01}));
    assert_true(gas_flammable((struct mix){.air = 0.985, .vapor = 0.015}));
    assert_true(gas_flammable((struct mix){.air = 0.925, .vapor = 0.075}));
    assert_false(gas_flammable((struct mix){.air = 0.92, .vapor = 0.08}));
    assert_false(gas_flammable((struct mix){.air = 0.47, .clean = 0.5, .vapor = 0.03}));
}

static void boxes_are_kept_clear(void **state)
{
    (void)state;
    struct frame frame = {0};
    const struct gas_space space = {
        .box = {0.0, 0.0, 600.0, 250.0}, .inside = anywhere, .clear = 1, .keep = {{50.0, 50.0, 350.0, 150.0}}};
    frame_clear(&frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    marks_space(&frame, &space, (struct mix){.smoke = 1.0});
    for (int k = 0; k < frame.nodes; k++) {
        const double x = (double)frame.node[k].x[0], y = (double)frame.node[k].x[1];
        if (frame.node[k].op == NODE_MOVE)
            assert_false(x > 51.0 && x < 349.0 && y > 51.0 && y < 149.0);
    }
    frame_free(&frame);
}

/* The farthest that anything of a jet lies from its hole, upward. */
static double reach(double flow, double room)
{
    struct frame frame = {0};
    const struct jet jet = {500.0, 500.0, SIDE_UP, flow, 0.0, room, 1.0, {.air = 1.0}};
    frame_clear(&frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    marks_jet(&frame, &jet);
    double far = 0.0;
    for (int k = 0; k < frame.nodes; k++)
        if (frame.node[k].op != NODE_CLOSE)
            far = fmax(far, 500.0 - (double)frame.node[k].x[1]);
    frame_free(&frame);
    return far;
}

static void jets_grow_with_flow_and_stay_in_their_room(void **state)
{
    (void)state;
    const double litre = 1e-3 / 60.0;
    assert_near("none", reach(0.001 * litre, 200.0), 0.0, 1e-12);
    double before = 0.0;
    for (double flow = 0.01; flow < 60.0; flow *= 3.0) {
        const double far = reach(flow * litre, 400.0);
        assert_true(far > before);
        assert_true(reach(-flow * litre, 400.0) > 0.0);
        assert_true(reach(flow * litre, 80.0) < 90.0);
        before = far;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(smoke_is_its_share),   cmocka_unit_test(smoke_is_spread),
        cmocka_unit_test(vapor_is_its_share),   cmocka_unit_test(what_burns),
        cmocka_unit_test(boxes_are_kept_clear), cmocka_unit_test(jets_grow_with_flow_and_stay_in_their_room)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
