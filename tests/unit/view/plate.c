/* tests/unit/view/plate.c  Where parts stand and how pipes run: apart, inside, square, and where the file says. */
#include "view/plate.h"

#include "support/stage.h"
#include "view/part/part.h"

#include <glob.h>
#include <stdbool.h>

static double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.55 * size * (double)strlen(text); /* about Inter's mean */
}

static const struct text_measure measure = {width_of, NULL};

static bool inside_plate(struct frame_box box)
{
    return box.x0 >= -0.5 && box.y0 >= -0.5 && box.x1 <= PLATE_WIDTH + 0.5 && box.y1 <= PLATE_HEIGHT + 0.5;
}

static void bodies_apart(const char *name, const struct plate *plate)
{
    for (int k = 0; k < plate->bodies; k++) {
        const struct plate_body *a = &plate->body[k];
        if (!a->drawn->wall && !inside_plate(a->box))
            fail_msg("%s: body %d leaves the plate", name, k);
        for (int j = 0; j < k; j++) {
            const struct plate_body *b = &plate->body[j];
            if (!a->drawn->wall && !b->drawn->wall && box_overlaps(a->box, b->box))
                fail_msg("%s: bodies %d and %d overlap", name, k, j);
        }
    }
}

/* A pipe touches no body but those at its ends. */
static void pipes_clear(const char *name, const struct plate *plate)
{
    for (int k = 0; k < plate->pipes; k++) {
        const struct plate_pipe *pipe = &plate->pipe[k];
        assert_true(pipe->points >= 2);
        for (int p = 1; p < pipe->points; p++) {
            const struct plate_point a = pipe->point[p - 1], b = pipe->point[p];
            if (fabs(a.x - b.x) >= 1.0 && fabs(a.y - b.y) >= 1.0)
                fail_msg("%s: pipe %d runs askew", name, k);
            const struct frame_box run = {fmin(a.x, b.x), fmin(a.y, b.y), fmax(a.x, b.x), fmax(a.y, b.y)};
            for (int j = 0; j < plate->bodies; j++) {
                const bool own = pipe->end[0].body == j || pipe->end[1].body == j;
                if (!own && !plate->body[j].drawn->wall && box_overlaps(box_grown(run, 4.0), plate->body[j].box))
                    fail_msg("%s: pipe %d runs through body %d", name, k, j);
            }
        }
    }
}

static void plate_is_sound(const char *name, const struct stage *stage)
{
    struct plate plate;
    assert_true(plate_make(&plate, stage->model, measure, 20.0, NULL));
    bodies_apart(name, &plate);
    pipes_clear(name, &plate);
    if (plate.unrouted || plate.unnamed)
        fail_msg("%s: %d pipes without a way, %d names without room", name, plate.unrouted, plate.unnamed);
    plate_free(&plate);
}

/* A nozzle stands beside the mouth of the neck that it draws from, wherever the file puts that. */
static void nozzle_beside_its_mouth(void **state)
{
    (void)state;
    struct stage stage = stage_open("scenarios/fill-up.yaml", NULL);
    struct plate plate;
    assert_true(plate_make(&plate, stage.model, measure, 20.0, NULL));
    const struct plate_body *nozzle = &plate.body[plate.body_of[ullage_model_find_part(stage.model, "nozzle")]];
    const struct plate_body *cap = &plate.body[plate.body_of[ullage_model_find_part(stage.model, "cap")]];
    assert_near("across", nozzle->x, cap->x, 1e-9);
    assert_near("down", nozzle->y, cap->y, 1e-9);
    assert_true(nozzle->box.x0 > cap->x && nozzle->box.x1 < PLATE_WIDTH);
    plate_free(&plate);
    stage_close(&stage);
}

static void shipped_plates(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    for (size_t k = 0; k < found.gl_pathc; k++) {
        struct stage stage = stage_open(found.gl_pathv[k], NULL);
        plate_is_sound(found.gl_pathv[k], &stage);
        stage_close(&stage);
    }
    globfree(&found);
}

#define HEAD "ullage: scenario/1\nname: laid-out\nsystem:\n  parts:\n"
#define TAIL "procedure:\n  steps:\n    - wait: {for: 1 s}\n"

/* Systems whose file gives no places are laid out by themselves. */
static void laid_out_by_itself(void **state)
{
    (void)state;
    static const char *const systems[] = {
        HEAD "    alone: {type: vessel, volume: 30 L}\n" TAIL,
        HEAD "    near: {type: vessel, volume: 20 L}\n    far: {type: vessel, volume: 5 L}\n"
             "    between: {type: hole, from: near, to: far, diameter: 1 mm}\n"
             "    out: {type: hole, from: far, to: air, diameter: 1 mm}\n" TAIL,
        HEAD "    tank: {type: tank, volume: 60 L}\n"
             "    line: {type: line, from: tank, to: vent, bore: 8 mm, length: 1 m}\n"
             "    vent: {type: valve, from: line, to: air, bore: 8 mm}\n"
             "    neck: {type: line, from: tank, to: cap, bore: 32 mm, length: 0.5 m}\n"
             "    cap: {type: cap, of: neck}\n    gauge: {type: gauge, of: tank}\n" TAIL,
        HEAD
        "    a: {type: vessel, volume: 9 L}\n    b: {type: vessel, volume: 8 L}\n    c: {type: vessel, volume: 7 L}\n"
        "    ab: {type: line, from: a, to: b, bore: 8 mm, length: 1 m}\n"
        "    bc: {type: line, from: b, to: c, bore: 8 mm, length: 1 m}\n"
        "    ac: {type: line, from: a, to: c, bore: 8 mm, length: 1 m}\n" TAIL,
        HEAD "    intake: {type: manifold, pressure: 50 kPa}\n"
             "    purge: {type: valve, from: air, to: intake, bore: 4 mm}\n" TAIL,
        HEAD "    box: {type: vessel, volume: 5 L}\n    port: {type: port, of: box}\n"
             "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 3 kPa}\n"
             "  meter: {type: meter, of: supply}\n" TAIL,
        HEAD "    tank: {type: tank, volume: 45 L, openings: {roof: 210 mm}}\n"
             "    roll-over: {type: roll-over, from: tank.roof, to: line}\n"
             "    line: {type: line, from: roll-over, to: box, bore: 8 mm, length: 1 m}\n"
             "    box: {type: vessel, volume: 1 L}\n" TAIL,
        HEAD "    box: {type: vessel, volume: 1 L}\n"
             "    check: {type: check-valve, from: box, to: air, bore: 5 mm}\n"
             "    relief: {type: relief, from: box, to: air, bore: 5 mm}\n" TAIL,
        HEAD "    supply: {type: supply, gauge_pressure: 1 kPa, gas: air}\n"
             "    tube: {type: line, from: supply, to: air, bore: 2 mm, length: 1 m}\n" TAIL};
    for (size_t k = 0; k < sizeof systems / sizeof systems[0]; k++) {
        struct stage stage = stage_text(systems[k]);
        plate_is_sound(systems[k], &stage);
        stage_close(&stage);
    }
}

/* `at` is a grid with y downward: what the file puts right of something stands right of it. */
static void places_are_the_files(void **state)
{
    (void)state;
    struct stage stage = stage_text(HEAD "    a: {type: vessel, volume: 9 L, at: [1, 1]}\n"
                                         "    b: {type: vessel, volume: 8 L, at: [8, 1]}\n"
                                         "    c: {type: vessel, volume: 7 L, at: [8, 5]}\n" TAIL);
    struct plate plate;
    assert_true(plate_make(&plate, stage.model, measure, 20.0, NULL));
    const struct plate_body *a = &plate.body[0], *b = &plate.body[1], *c = &plate.body[2];
    assert_near("same row", a->y, b->y, 1e-6);
    assert_near("same column", b->x, c->x, 1e-6);
    assert_true(b->x > a->x && c->y > b->y);
    /* cells are equal: 7 across, 4 down, of at most 110 x 80 u */
    assert_near("cell", (b->x - a->x) / 7.0 / 110.0, (c->y - b->y) / 4.0 / 80.0, 1e-9);
    plate_free(&plate);
    stage_close(&stage);
}

/* Points along a pipe: lengths add up, the nearest place to a point is on it. */
static void along_a_pipe(void **state)
{
    (void)state;
    struct plate_pipe pipe = {.points = 3, .point = {{0.0, 0.0}, {100.0, 0.0}, {100.0, 50.0}}};
    double dx, dy;
    pipe_measure(&pipe);
    assert_near("length", pipe.length, 150.0, 1e-12);
    const struct plate_point at = pipe_at(&pipe, 120.0, &dx, &dy);
    assert_near("x", at.x, 100.0, 1e-12);
    assert_near("y", at.y, 20.0, 1e-12);
    assert_near("heads down", dy, 1.0, 1e-12);
    assert_near("nearest", pipe_nearest(&pipe, 60.0, 9.0), 60.0, 1e-12);
    assert_near("nearest at the end", pipe_nearest(&pipe, 130.0, 80.0), 150.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(shipped_plates), cmocka_unit_test(nozzle_beside_its_mouth),
                                       cmocka_unit_test(laid_out_by_itself), cmocka_unit_test(places_are_the_files),
                                       cmocka_unit_test(along_a_pipe)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
