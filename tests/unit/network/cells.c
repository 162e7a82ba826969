/* tests/unit/network/cells.c  Cells of beds: where they lie, that they add up to what the channels tell, and what a full
 * one holds. */
#include "property/carbon.h"
#include "support/stage.h"

#include <math.h>

enum { STOCK = 8, BARE = 4, CELLS = STOCK + BARE };

/* A tank that warms breathes into a bed of carbon and a longer one without. */
static const char two_beds[] =
    "ullage: scenario/1\nname: two-beds\n"
    "surroundings: {temperature: [[0 h, 20 degC], [2 h, 40 degC]]}\n"
    "system:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
    "    line: {type: line, from: tank, to: bed.tank, bore: 8 mm, length: 1 m}\n"
    "    bed: {type: canister, beds: [{volume: 0.5 L, length: 100 mm, cells: 8, carbon: stock, capacity: 0.8},\n"
    "          {volume: 0.9 L, length: 300 mm, cells: 4, carbon: none}]}\n"
    "    vent: {type: valve, from: bed.air, to: air, bore: 10 mm, normally: open}\n"
    "fill: {level: 40 %, temperature: 20 degC, components: {n-pentane: 50 %, n-hexane: 50 %}}\nend: 2 h\n";

static double channel(const struct stage *stage, const char *name)
{
    double value[256];
    assert_true(ullage_model_channels(stage->model) <= 256);
    ullage_run_values(stage->model, stage->run, value, NULL);
    const int index = ullage_model_find_channel(stage->model, name);
    assert_true(index >= 0);
    return value[index];
}

static void cells_of(const struct stage *stage, double time, struct ullage_cell *cell)
{
    const int part = ullage_model_find_part(stage->model, "bed");
    assert_int_equal(ullage_model_cells(stage->model, part), CELLS);
    ullage_run_advance(stage->model, stage->run, time);
    ullage_run_cells(stage->model, stage->run, part, cell);
}

/* Eight cells over the first quarter of the length, four over the rest, without a gap. */
static void lie_end_to_end(void **state)
{
    (void)state;
    struct ullage_cell cell[CELLS];
    struct stage stage = stage_text(two_beds);
    cells_of(&stage, 0.0, cell);
    double begun = 0.0;
    for (int k = 0; k < CELLS; k++) {
        assert_near("begins where the last one ends", cell[k].from, begun, 1e-14); /* rounding of a few sums */
        begun = cell[k].to;
        assert_near("length", cell[k].to - cell[k].from, k < STOCK ? 0.25 / STOCK : 0.75 / BARE, 1e-14);
    }
    assert_near("ends at the air's side", begun, 1.0, 1e-14);
    stage_close(&stage);
}

/* Loads sum to the channel's; extremes of temperature are the channel's; the tank's side is the richer. */
static void agree_with_the_channels(void **state)
{
    (void)state;
    struct ullage_cell cell[CELLS];
    struct stage stage = stage_text(two_beds);
    cells_of(&stage, 7200.0, cell);
    double sum = 0.0, hottest = 0.0, coldest = (double)INFINITY;
    for (int k = 0; k < CELLS; k++) {
        sum += cell[k].load;
        hottest = fmax(hottest, cell[k].temperature);
        coldest = fmin(coldest, cell[k].temperature);
        assert_true(k == 0 || cell[k].vapor < cell[k - 1].vapor);
    }
    assert_true(sum > 1e-4); /* kg: there is something to compare */
    assert_near("load", sum, channel(&stage, "bed.load"), 1e-12 * sum);
    assert_true(cell[0].load > cell[STOCK - 1].load && cell[0].vapor > 0.01 && cell[0].vapor < 1.0);
    assert_near("the warmest is a cell", hottest, channel(&stage, "bed.hottest"), 1e-9);
    assert_near("the coldest is a cell", coldest, channel(&stage, "bed.coldest"), 1e-9);
    stage_close(&stage);
}

/* Three Langmuir sites of the carbon's row, by hand: m b p / (1 + b p) with n-butane's affinities at 25 degC. */
static void full_is_butane_by_hand(void **state)
{
    (void)state;
    struct ullage_cell cell[CELLS];
    struct stage stage = stage_text(two_beds);
    cells_of(&stage, 0.0, cell);
    const struct carbon *carbon = &carbon_table(NULL)[carbon_find("stock")];
    const struct adsorbate *butane = &adsorbate_table(NULL)[adsorbate_find("n-butane")];
    double held = 0.0; /* mol/kg */
    for (int s = 0; s < CARBON_SITES; s++)
        held += carbon->capacity[s] * butane->affinity[s] * 101325.0 / (1.0 + butane->affinity[s] * 101325.0);
    const double mass = 0.5e-3 / STOCK * carbon->density; /* kg of carbon in a cell */
    for (int k = 0; k < CELLS; k++)
        assert_near("full", cell[k].full, k < STOCK ? 0.8 * held * mass * 0.0581222 : 0.0, 1e-5 * cell[k].full);
    for (int k = STOCK; k < CELLS; k++)
        assert_near("no carbon, no load", cell[k].load, 0.0, 1e-300);
    stage_close(&stage);
}

static void other_parts_have_none(void **state)
{
    (void)state;
    struct stage stage = stage_text(two_beds);
    assert_int_equal(ullage_model_cells(stage.model, ullage_model_find_part(stage.model, "tank")), 0);
    assert_int_equal(ullage_model_cells(stage.model, ullage_model_find_part(stage.model, "vent")), 0);
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(lie_end_to_end), cmocka_unit_test(agree_with_the_channels),
                                       cmocka_unit_test(full_is_butane_by_hand),
                                       cmocka_unit_test(other_parts_have_none)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
