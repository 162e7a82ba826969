/* tests/unit/view/puddle.c  Liquid that lies in a line: in its lowest level stretch, as high as the spot is full, then longer. */
#include "view/puddle.h"

#include "support/stage.h"

#include <stdbool.h>

static const char rig[] =
    "ullage: scenario/1\nname: rig\nfill: {level: 40 %, temperature: 20 degC, components: {n-decane: 100 %}}\n"
    "system:\n  parts:\n"
    "    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm}}\n"
    "    line: {type: line, from: tank.roof, to: canister.tank, bore: 8 mm, length: 1.5 m, low_spot: 10 mL}\n"
    "    canister: {type: canister, sump: 0.2 L, beds: [{volume: 1 L, length: 200 mm, cells: 4, carbon: none}]}\n"
    "    vent: {type: hole, from: canister.air, to: air, diameter: 10 mm}\n"
    "procedure:\n  steps:\n    - wait: {for: 1 s}\n";

struct easel {
    struct stage stage;
    struct cast cast;
    struct snapshot now;
    struct frame frame;
    struct scene scene;
};

static void easel_open(struct easel *easel)
{
    *easel = (struct easel){.stage = stage_text(rig)};
    assert_true(cast_make(&easel->cast, easel->stage.model));
    assert_true(snapshot_make(&easel->now, easel->stage.model));
    snapshot_take(&easel->now, easel->stage.model, easel->stage.run, 0.0);
    easel->scene = (struct scene){.model = easel->stage.model, .cast = &easel->cast, .now = &easel->now};
}

static void easel_close(struct easel *easel)
{
    frame_free(&easel->frame);
    snapshot_free(&easel->now);
    cast_free(&easel->cast);
    stage_close(&easel->stage);
}

static void lies(struct easel *easel, const char *channel, double volume)
{
    const int at = ullage_model_find_channel(easel->stage.model, channel);
    assert_true(at >= 0);
    easel->now.value[at] = volume;
}

/* Down, along at 100 u, up a little, along at 60 u. */
static struct plate_pipe pipe_of(const struct easel *easel)
{
    return (struct plate_pipe){.part = ullage_model_find_part(easel->stage.model, "line"),
                               .line = true,
                               .width = 25.0,
                               .points = 5,
                               .point = {{0.0, 0.0}, {0.0, 100.0}, {300.0, 100.0}, {300.0, 60.0}, {700.0, 60.0}}};
}

/* Box of what is drawn in the colour of liquid. False: nothing is. */
static bool drawn(struct easel *easel, double volume, struct frame_box *box)
{
    const struct plate_pipe pipe = pipe_of(easel);
    lies(easel, "line.liquid", volume);
    frame_clear(&easel->frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    puddle_line(&easel->frame, &easel->scene, &pipe);
    for (int k = 0; k < easel->frame.shapes; k++) {
        if (easel->frame.shape[k].colour != COLOUR_LIQUID)
            continue;
        *box = (struct frame_box){1e9, 1e9, -1e9, -1e9};
        for (int n = 0; n < 4; n++) {
            const struct frame_node *node = &easel->frame.node[easel->frame.shape[k].first + n];
            const double x = (double)node->x[0], y = (double)node->x[1];
            *box = (struct frame_box){fmin(box->x0, x), fmin(box->y0, y), fmax(box->x1, x), fmax(box->y1, y)};
        }
        return true;
    }
    return false;
}

static void it_lies_lowest(void **unused)
{
    (void)unused;
    static struct easel easel;
    struct frame_box half, full, over;
    easel_open(&easel);
    assert_false(drawn(&easel, 0.0, &half));
    assert_false(drawn(&easel, 1e-8, &half)); /* dew */
    assert_true(drawn(&easel, 5e-6, &half) && drawn(&easel, 10e-6, &full));
    assert_near("floor", half.y1, 112.5, 1e-4);
    assert_near("half the bore", half.y0, 100.0, 1e-4);
    assert_near("all of it", full.y0, 87.5, 1e-4);
    assert_near("middle", 0.5 * (full.x0 + full.x1), 150.0, 1e-4);
    assert_true(drawn(&easel, 20e-6, &over));
    assert_true(over.x1 - over.x0 > 1.5 * (full.x1 - full.x0) && over.x0 > 0.0 && over.x1 < 300.0);
    easel_close(&easel);
}

static void shares_are_of_what_is_held(void **unused)
{
    (void)unused;
    static struct easel easel;
    easel_open(&easel);
    const int canister = ullage_model_find_part(easel.stage.model, "canister");
    lies(&easel, "canister.liquid", 0.05e-3);
    assert_near("a quarter", puddle_share(&easel.scene, canister, "sump"), 0.25, 1e-12);
    lies(&easel, "canister.liquid", 1e-6);
    assert_near("damp", puddle_share(&easel.scene, canister, "sump"), 0.0, 0.0);
    easel_close(&easel);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(it_lies_lowest), cmocka_unit_test(shares_are_of_what_is_held)};
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
