/* tests/unit/draw/bed.c  The canister as painted: green where carbon is loaded, its ground where it is not, at the heights that
 * the cells tell. */
#include "draw/canvas.h"
#include "support/stage.h"
#include "view/part/part.h"
#include "view/session.h"

#include <stdbool.h>

enum { WIDTH = 1920, HEIGHT = 1080 };

static unsigned pixel[WIDTH * HEIGHT];

static unsigned pixel_at(double x, double y)
{
    return pixel[(int)y * WIDTH + (int)x] & 0xFFFFFF;
}

/* Highest pixel of fuel in a column of pixels, over the foot of the bed. */
static double top_of_fuel(double x, double foot)
{
    double y = foot;
    while (pixel_at(x, y - 1.0) == COLOUR_FUEL)
        y -= 1.0;
    return y;
}

static void warm_day_paint(struct session *session, struct stage *stage, double time)
{
    char trouble[DRAW_TROUBLE];
    struct painter *painter = painter_create(trouble);
    assert_non_null(painter);
    assert_true(session_make(session, stage->model, stage->run, painter_measure(painter), WIDTH, HEIGHT, false));
    session_follow(session, time);
    const struct frame *frame = session_frame(session);
    assert_non_null(frame);
    const struct painter_fit fit = {1.0, 0.0, 0.0, WIDTH, HEIGHT};
    assert_true(canvas_paint(painter, frame, &fit, pixel, WIDTH * (int)sizeof *pixel));
    painter_free(painter);
}

/* Nine hours on the first cells are loaded, the last are not. Widths as the part has them: end spaces of 52 u, walls of 3. */
static void painted_as_it_is_loaded(void **state)
{
    (void)state;
    static struct session session;
    struct stage stage = stage_open("scenarios/warm-day.yaml", NULL);
    warm_day_paint(&session, &stage, 9.0 * 3600.0);
    const int part = ullage_model_find_part(stage.model, "canister");
    const struct plate_body *body = &session.plate.body[session.plate.body_of[part]];
    const struct layout layout = layout_make(WIDTH, HEIGHT);
    const double left = layout.plate_x + body->box.x0 + 55.0, right = layout.plate_x + body->box.x1 - 55.0;
    const double foot = layout.plate_y + body->box.y1 - 5.0; /* clear of the wall's softened edge */
    const int cells = ullage_model_cells(stage.model, part);
    const struct ullage_cell *cell = &session.now.cell[session.now.cell_of[part]];
    const double full = body->box.y1 - body->box.y0 - 6.0 - 52.0;
    for (int k = 1; k < 3; k++) { /* the first one's middle lies too near to the sieve for a safe pixel */
        const double x = left + 0.5 * (cell[k].from + cell[k].to) * (right - left);
        const double high = full * cell[k].load / cell[k].full;
        assert_near("height", foot + 2.0 - top_of_fuel(x, foot), high, 2.0); /* px: softened edges at both ends */
    }
    assert_true(cell[1].load > 0.1 * cell[1].full && cell[cells - 1].load < 0.01 * cell[cells - 1].full);
    assert_true(pixel_at(right - 10.0, foot) != COLOUR_FUEL);
    session_free(&session);
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(painted_as_it_is_loaded)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
