/* tests/unit/view/self_acting.c  Valves that move by themselves: what is drawn stands open where the part is, and shut where it
 * is shut, seen from the back of a room. */
#include "support/stage.h"
#include "view/part/part.h"
#include "view/snapshot.h"
#include "view/state.h"

#include <stdbool.h>

#define SEEN 4.0 /* u: a gap that reads as one, at 1024 x 768 some 3 px */

static const char rig[] =
    "ullage: scenario/1\nname: rig\nfill: {level: 40 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
    "system:\n  parts:\n"
    "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm}}\n"
    "    check: {type: check-valve, from: tank.roof, to: air, bore: 6 mm}\n"
    "    relief: {type: relief, from: tank.roof, to: air, bore: 6 mm}\n"
    "    roll-over: {type: roll-over, from: tank.roof, to: air}\n"
    "    fill-limit: {type: fill-limit, from: tank.roof, to: air}\n"
    "procedure:\n  steps:\n    - wait: {for: 1 s}\n";

/* Everything a part asks of a scene, with numbers set by hand. */
struct easel {
    struct stage stage;
    struct cast cast;
    struct snapshot now;
    struct plate plate;
    struct view view;
    double phase[16];
    struct motion motion;
    struct frame frame;
};

static void easel_open(struct easel *easel)
{
    *easel = (struct easel){.stage = stage_text(rig)};
    assert_true(cast_make(&easel->cast, easel->stage.model));
    assert_true(snapshot_make(&easel->now, easel->stage.model));
    snapshot_take(&easel->now, easel->stage.model, easel->stage.run, 0.0);
    easel->plate = (struct plate){.model = easel->stage.model, .parts = ullage_model_parts(easel->stage.model)};
    easel->motion = (struct motion){.part = easel->phase, .parts = easel->plate.parts};
}

static void easel_close(struct easel *easel)
{
    frame_free(&easel->frame);
    snapshot_free(&easel->now);
    cast_free(&easel->cast);
    stage_close(&easel->stage);
}

static void set(struct easel *easel, const char *channel, double value)
{
    const int at = ullage_model_find_channel(easel->stage.model, channel);
    assert_true(at >= 0);
    easel->now.value[at] = value;
}

/* Draws a part around (0, 0), nothing outside of it. */
static void draw(struct easel *easel, const char *id, double opening, double flow)
{
    const int part = ullage_model_find_part(easel->stage.model, id);
    const struct drawn *drawn = drawn_find(ullage_model_part(easel->stage.model, part).type);
    const struct plate_body body = {.drawn = drawn, .part = part, .meter = -1};
    const struct scene scene = {.model = easel->stage.model,
                                .plate = &easel->plate,
                                .cast = &easel->cast,
                                .now = &easel->now,
                                .told = easel->now.value,
                                .view = &easel->view,
                                .motion = &easel->motion};
    char name[64];
    snprintf(name, sizeof name, "%s.open", id);
    set(easel, name, opening);
    snprintf(name, sizeof name, "%s.standard_flow", id);
    set(easel, name, flow);
    frame_clear(&easel->frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    drawn->front(&easel->frame, &scene, &body);
}

static const struct frame_node *node_of(const struct frame *frame, int shape, int node)
{
    return &frame->node[frame->shape[shape].first + node];
}

/* u between the `which`th white triangle's tip and the near edge of the ink bar that is drawn after it. */
static double gap(const struct frame *frame, int which)
{
    for (int k = 0; k < frame->shapes; k++) {
        if (frame->shape[k].kind != SHAPE_FILL || frame->shape[k].colour != COLOUR_WHITE || which-- > 0)
            continue;
        const double base = (double)node_of(frame, k, 0)->x[0], tip = (double)node_of(frame, k, 1)->x[0];
        int bar = k + 1;
        while (frame->shape[bar].kind != SHAPE_FILL || frame->shape[bar].colour != COLOUR_INK)
            bar++;
        double least = 1e9;
        for (int n = 0; n < 4; n++)
            least = fmin(least, ((double)node_of(frame, bar, n)->x[0] - tip) * (tip > base ? 1.0 : -1.0));
        return least;
    }
    fail_msg("there is no triangle %d", which);
    return (double)NAN;
}

static void a_check_valve_lifts_its_bar(void **unused)
{
    (void)unused;
    static struct easel easel;
    easel_open(&easel);
    draw(&easel, "check", 0.0, 0.0);
    assert_near("shut", gap(&easel.frame, 0), 0.0, 1e-4);
    double last = 0.0;
    for (double opening = 0.01; opening < 1.005; opening += 0.33) {
        draw(&easel, "check", opening, 1e-4 * opening);
        const double now = gap(&easel.frame, 0);
        assert_true(now > SEEN && now >= last);
        last = now;
    }
    assert_true(last > 2.0 * SEEN);
    easel_close(&easel);
}

/* Pressure lifts the one, vacuum the other, which looks the other way. */
static void a_relief_shows_which_way(void **unused)
{
    (void)unused;
    static struct easel easel;
    easel_open(&easel);
    draw(&easel, "relief", 0.0, 0.0);
    assert_near("shut to pressure", gap(&easel.frame, 0), 0.0, 1e-4);
    assert_near("shut to vacuum", gap(&easel.frame, 1), 0.0, 1e-4);
    draw(&easel, "relief", 0.3, 1e-4);
    assert_true(gap(&easel.frame, 0) > SEEN);
    assert_near("shut to vacuum", gap(&easel.frame, 1), 0.0, 1e-4);
    draw(&easel, "relief", 0.3, -1e-4);
    assert_near("shut to pressure", gap(&easel.frame, 0), 0.0, 1e-4);
    assert_true(gap(&easel.frame, 1) > SEEN);
    easel_close(&easel);
}

/* Height of the float: the topmost point of the last ink fill (a ball), or of the last but one bar (a cup's disc). */
static double top_of(const struct frame *frame, int shape)
{
    double top = 1e9;
    for (int n = 0; n < frame->shape[shape].count; n++) {
        const struct frame_node *node = node_of(frame, shape, n);
        const int last = node->op == NODE_CURVE ? 5 : 1;
        if (node->op != NODE_CLOSE)
            top = fmin(top, (double)node->x[last]);
    }
    return top;
}

static double ink_top(const struct frame *frame, int from_last)
{
    for (int k = frame->shapes - 1; k >= 0; k--)
        if (frame->shape[k].kind == SHAPE_FILL && frame->shape[k].colour == COLOUR_INK && from_last-- == 0)
            return top_of(frame, k);
    fail_msg("no ink");
    return (double)NAN;
}

/* A ball is round and reaches into the seat, a disc lies under it. Ledges are the two bars drawn before the seat's opening. */
static void a_float_closes_its_seat(void **unused)
{
    (void)unused;

    static const struct {
        const char *id;
        double into; /* u that it may reach into the seat */
    } row[] = {{"roll-over", 8.0}, {"fill-limit", 0.0}};
    static struct easel easel;
    easel_open(&easel);
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        draw(&easel, row[k].id, 0.0, 0.0);
        const double under = ink_top(&easel.frame, 1) + 6.0; /* a ledge is 6 u thick */
        assert_true(ink_top(&easel.frame, 0) <= under + 1e-4);
        assert_true(ink_top(&easel.frame, 0) >= under - row[k].into - 1e-4);
        draw(&easel, row[k].id, 1.0, 1e-5);
        assert_true(ink_top(&easel.frame, 0) > under + 2.0 * SEEN);
    }
    easel_close(&easel);
}

/* What opens by itself is a moment that the charts can name, like what a hand does. */
static void their_moments_are_marked(void **unused)
{
    (void)unused;
    struct stage stage = stage_text("ullage: scenario/1\nname: a\nsystem:\n  parts:\n"
                                    "    vessel: {type: vessel, volume: 2 L}\n    port: {type: port, of: vessel}\n"
                                    "    check: {type: check-valve, from: vessel, to: air, bore: 4 mm}\n"
                                    "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 3 kPa}\n"
                                    "procedure:\n  steps:\n    - wait: {for: 20 s}\n");
    struct snapshot now = {0};
    assert_true(snapshot_make(&now, stage.model));
    assert_int_equal(ullage_run_advance(stage.model, stage.run, 20.0), ULLAGE_FINISHED);
    snapshot_take(&now, stage.model, stage.run, 20.0);
    assert_int_equal(now.marks, 1);
    assert_string_equal(now.mark[0].subject, "check");
    assert_string_equal(now.mark[0].text, "opens");
    assert_true(now.mark[0].time > 0.0 && now.mark[0].time < 20.0);
    snapshot_free(&now);
    stage_close(&stage);
}

/* A line that ends at one of them leaves the passage to it. */
static void they_make_the_passage(void **unused)
{
    (void)unused;
    static const char *const type[] = {"valve", "check-valve", "relief", "roll-over", "fill-limit", "cap"};
    for (size_t k = 0; k < sizeof type / sizeof type[0]; k++) {
        assert_string_equal(drawn_find(type[k])->type, type[k]);
        assert_true(drawn_find(type[k])->passes);
    }
    assert_false(drawn_find("tank")->passes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_check_valve_lifts_its_bar), cmocka_unit_test(a_relief_shows_which_way),
        cmocka_unit_test(a_float_closes_its_seat),     cmocka_unit_test(their_moments_are_marked),
        cmocka_unit_test(they_make_the_passage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
