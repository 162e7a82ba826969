/* tests/unit/view/bed.c  A bed in section: columns as high as their share, many cells as few columns, warmth on the right side
 * of the outside's. */
#include "view/part/bed.h"

#include "support/near.h"

#define FLOAT_STEP 1e-4 /* u: coordinates are floats below 2000 */

enum { CELLS = 4 };

static const struct bed_place place = {.x0 = -100.0, .x1 = 100.0, .roof = -80.0, .over = -20.0, .foot = 80.0};
static const struct plate_body body = {.part = 0, .x = 500.0, .y = 300.0};

/* Half, a quarter, nothing, and one that holds more than of butane. */
static struct ullage_cell cells[CELLS] = {{0.0, 0.25, 5e-3, 10e-3, 300.0, 0.3},
                                          {0.25, 0.5, 2.5e-3, 10e-3, 300.0, 0.2},
                                          {0.5, 0.75, 0.0, 10e-3, 300.0, 0.0},
                                          {0.75, 1.0, 12e-3, 10e-3, 300.0, 0.0}};

static void draw_load(struct frame *frame)
{
    int begins[2] = {0, CELLS};
    const struct snapshot now = {.cells = CELLS, .cell = cells, .cell_of = begins};
    const struct scene scene = {.now = &now};
    frame_clear(frame, 1920.0, 1080.0, 20.0, (struct text_measure){0});
    bed_load(frame, &scene, &body, &place);
}

/* Each column is a rectangle of four corners: begun at its upper left one, 100 u high where it is full. */
static void columns_are_their_share(void **state)
{
    (void)state;
    static const double high[] = {50.0, 25.0, 100.0}, left[] = {-100.0, -50.0, 50.0};
    struct frame frame = {0};
    draw_load(&frame);
    assert_int_equal(frame.shape[0].colour, COLOUR_FUEL);
    int drawn = 0;
    for (int k = 0; k < frame.shape[0].count; k++) {
        const struct frame_node *node = &frame.node[frame.shape[0].first + k];
        if (node->op != NODE_MOVE)
            continue;
        assert_true(drawn < 3);
        assert_near("top", (double)node->x[1], body.y + place.foot - high[drawn], FLOAT_STEP);
        assert_near("left", (double)node->x[0], body.x + left[drawn], 1.0); /* half a gap between columns */
        drawn++;
    }
    assert_int_equal(drawn, 3); /* none where nothing is held */
    frame_free(&frame);
}

static void what_passes_full_has_a_lid(void **state)
{
    (void)state;
    struct frame frame = {0};
    draw_load(&frame);
    const struct frame_shape *lid = &frame.shape[1];
    assert_int_equal(lid->kind, SHAPE_STROKE);
    assert_int_equal(lid->count, 2); /* one line, over the last column */
    assert_near("its height", (double)frame.node[lid->first].x[1], body.y + place.over, FLOAT_STEP);
    assert_near("its beginning", (double)frame.node[lid->first].x[0], body.x + 50.0, FLOAT_STEP);
    frame_free(&frame);
}

/* However many cells: at most 40 columns, end to end, with all that the cells hold. */
static void many_cells_are_few_columns(void **state)
{
    (void)state;

    enum { MOST = 160 };

    struct ullage_cell cell[MOST];
    for (int count = 1; count <= MOST; count++) {
        double held = 0.0, end = 0.0;
        for (int k = 0; k < count; k++)
            cell[k] = (struct ullage_cell){(double)k / count, (k + 1.0) / count, 1.0 + k, 200.0, 300.0 + k, 0.0};
        const int columns = bed_columns(count);
        assert_true(columns >= 1 && columns <= BED_COLUMNS_MOST && columns <= count);
        for (int c = 0; c < columns; c++) {
            const struct ullage_cell column = bed_column(cell, count, c);
            assert_near("begins where the last one ends", column.from, end, 1e-12);
            assert_true(column.temperature >= 300.0 && column.temperature <= 300.0 + count);
            end = column.to;
            held += column.load;
        }
        assert_near("ends at the air's side", end, 1.0, 1e-12);
        assert_near("held", held, 0.5 * count * (count + 1.0), 1e-9 * count);
    }
    assert_int_equal(bed_columns(0), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(columns_are_their_share),
                                       cmocka_unit_test(what_passes_full_has_a_lid),
                                       cmocka_unit_test(many_cells_are_few_columns)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
