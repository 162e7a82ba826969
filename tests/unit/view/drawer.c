/* tests/unit/view/drawer.c  What the drawer of faults lists, finds and chooses; sizes on rulers, in words and typed. Rows made
 * here, so that nothing but the drawer itself is tested. */
#include "view/drawer.h"

#include "support/near.h"
#include "view/intent.h"

#include <stdbool.h>
#include <string.h>

#define FAULT(WHAT, NAME, PLACE, COMES, PART, HOLE, DIMENSION, LEAST, USUAL, MOST)                                     \
    {                                                                                                                  \
        .what = WHAT, .name = NAME, .place = PLACE, .comes = COMES, .changes = "", .part = PART, .hole = HOLE,         \
        .round = HOLE >= 0, .dimension = DIMENSION, .least = LEAST, .usual = USUAL, .most = MOST, .share = 1.0         \
    }

static struct fault_row rows[] = {
    FAULT("seal-leak tank.sender", "Seal leak", "tank, sender", "the seal is cut", 0, 7, ULLAGE_LENGTH, 1e-4, 5e-4,
          5e-3),
    FAULT("rust neck", "Rust", "neck", "salt and water", 1, 8, ULLAGE_LENGTH, 1e-4, 5e-4, 5e-3),
    FAULT("stuck-open purge-valve", "Stuck open", "purge valve", "dirt in it", 2, -1, ULLAGE_NUMBER, 0.0, 1.0, 1.0),
    FAULT("offset tank-sensor", "Offset", "tank sensor", "ages", 3, -1, ULLAGE_PRESSURE, -500.0, 100.0, 500.0),
    FAULT("warm tank-sensor", "Warm", "tank sensor", "ages", 3, -1, ULLAGE_TEMPERATURE, -5.0, 2.0, 5.0),
    FAULT("drift tank-sensor", "Drift", "tank sensor", "ages", 3, -1, ULLAGE_POWERS(0, 0, -1, 1, 0), -0.02, 0.01, 0.02),
    FAULT("slow purge-valve", "Slow", "purge valve", "gum", 2, -1, ULLAGE_TIME, 0.05, 0.5, 20.0),
};

enum { ROWS = sizeof rows / sizeof rows[0], SEAL = 0, STUCK = 2, OFFSET = 3, WARM = 4, DRIFT = 5, SLOW = 6 };

static const struct faults faults = {ROWS, rows};

static int begin(void **state)
{
    (void)state;
    for (int k = 0; k < ROWS; k++)
        rows[k].in = false, rows[k].size = 0.0;
    return 0;
}

static void search(struct drawer *drawer, const char *text)
{
    drawer_search(drawer);
    for (; *text; text++)
        assert_true(drawer_search_key(drawer, *text));
}

static void lists_what_is_wrong_first(void **state)
{
    (void)state;
    struct drawer drawer;
    struct drawer_lines lines;
    drawer_begin(&drawer);
    drawer_lines(&drawer, &faults, &lines);
    assert_int_equal(lines.count, ROWS);
    assert_int_equal(lines.wrong, 0);
    rows[OFFSET].in = rows[STUCK].in = true;
    drawer_lines(&drawer, &faults, &lines);
    assert_int_equal(lines.count, ROWS);
    assert_int_equal(lines.wrong, 2);
    assert_int_equal(lines.row[0], STUCK);
    assert_int_equal(lines.row[1], OFFSET);
    assert_int_equal(faults_wrong(&faults), 2);
}

static void finds_by_words(void **state)
{
    (void)state;
    struct drawer drawer;
    struct drawer_lines lines;
    drawer_begin(&drawer);
    search(&drawer, "VALVE dirt");
    drawer_lines(&drawer, &faults, &lines);
    assert_int_equal(lines.count, 1);
    assert_int_equal(lines.row[0], STUCK);
    rows[SEAL].in = true; /* what is wrong stays in sight whatever is searched for */
    drawer_lines(&drawer, &faults, &lines);
    assert_int_equal(lines.count, 2);
    assert_int_equal(lines.wrong, 1);
    assert_true(drawer_search_key(&drawer, KEY_BACKSPACE));
    assert_string_equal(drawer.search, "VALVE dir");
    assert_true(drawer_search_key(&drawer, KEY_ENTER));
    assert_false(drawer.searching);
    assert_string_equal(drawer.search, "VALVE dir");
    drawer_search(&drawer);
    assert_true(drawer_search_key(&drawer, KEY_ESCAPE));
    assert_string_equal(drawer.search, "");
    assert_false(drawer_search_key(&drawer, KEY_DOWN)); /* arrows are the list's, also while searching */
}

static void a_long_search_stays_within_its_room(void **state)
{
    (void)state;
    struct drawer drawer;
    drawer_begin(&drawer);
    drawer_search(&drawer);
    for (int k = 0; k < 3 * SEARCH_MOST; k++)
        drawer_search_key(&drawer, 'x');
    assert_int_equal(strlen(drawer.search), SEARCH_MOST);
}

static void shows_a_part_alone(void **state)
{
    (void)state;
    struct drawer drawer;
    struct drawer_lines lines;
    drawer_begin(&drawer);
    drawer_part(&drawer, &faults, 2);
    drawer_lines(&drawer, &faults, &lines);
    assert_int_equal(lines.count, 2);
    assert_int_equal(lines.row[0], STUCK);
    assert_int_equal(lines.row[1], SLOW);
    assert_int_equal(drawer.row, -1);
    drawer_part(&drawer, &faults, 1); /* one fault alone: its ruler at once */
    assert_int_equal(drawer.row, 1);
    drawer_part(&drawer, &faults, 99); /* nothing can be wrong with it */
    assert_int_equal(drawer.part, -1);
    assert_int_equal(drawer.row, -1);
}

static void cursor_stays_on_the_list(void **state)
{
    (void)state;
    struct drawer drawer;
    drawer_begin(&drawer);
    assert_int_equal(drawer_row(&drawer, &faults), 0);
    drawer_move(&drawer, &faults, -3);
    assert_int_equal(drawer.cursor, 0);
    drawer_move(&drawer, &faults, 100);
    assert_int_equal(drawer_row(&drawer, &faults), ROWS - 1);
    search(&drawer, "no such thing");
    assert_int_equal(drawer_row(&drawer, &faults), -1);
    drawer_move(&drawer, &faults, 1);
    assert_int_equal(drawer.cursor, 0);
    drawer_begin(&drawer);
    rows[SLOW].in = true;
    drawer_choose(&drawer, &faults, SLOW);
    assert_int_equal(drawer.cursor, 0); /* it stands first, being wrong */
    drawer_list(&drawer);
    assert_int_equal(drawer_row(&drawer, &faults), SLOW);
}

static void long_lists_scroll_with_their_cursor(void **state)
{
    (void)state;
    assert_int_equal(drawer_top(0, 40, 8), 0);
    assert_int_equal(drawer_top(20, 40, 8), 16);
    assert_int_equal(drawer_top(39, 40, 8), 32);
    assert_int_equal(drawer_top(3, 5, 8), 0);
    for (int cursor = 0; cursor < 40; cursor++) {
        const int top = drawer_top(cursor, 40, 8);
        assert_true(top >= 0 && top <= cursor && cursor < top + 8);
    }
}

/* ---- sizes --------------------------------------------------------------------------------------------------------- */
static void rulers_by_the_spread_of_sizes(void **state)
{
    (void)state;
    const struct fault_scale hole = fault_scale(&rows[SEAL]), share = fault_scale(&rows[STUCK]),
                             either = fault_scale(&rows[OFFSET]), slow = fault_scale(&rows[SLOW]);
    assert_true(hole.log && slow.log && !share.log && !either.log);
    assert_near("holes all have the one ruler", hole.most, 3e-3, 1e-12);
    assert_near("sqrt(0.05 20) s in the middle", fault_scale_size(&slow, 0.5), 1.0, 1e-12);
    assert_near("left end: nothing wrong", fault_scale_size(&slow, 0.0), 0.0, 1e-12);
    assert_near("nothing in the middle of either way", fault_scale_size(&either, 0.5), 0.0, 1e-9);
    for (int k = 1; k <= 10; k++) {
        assert_near("there and back", fault_scale_share(&hole, fault_scale_size(&hole, 0.1 * k)), 0.1 * k, 1e-12);
        assert_near("evenly", fault_scale_share(&either, fault_scale_size(&either, 0.1 * k)), 0.1 * k, 1e-12);
    }
    assert_near("beyond its end", fault_scale_share(&hole, 1.0), 1.0, 1e-12);
}

static void sizes_in_words(void **state)
{
    (void)state;
    char text[64];
    const struct figure hole = fault_figure(&rows[SEAL], 0.508e-3, UNITS_INCH),
                        share = fault_figure(&rows[STUCK], 0.4, UNITS_METRIC),
                        warm = fault_figure(&rows[WARM], 2.0, UNITS_METRIC),
                        cold = fault_figure(&rows[WARM], -2.0, UNITS_METRIC);
    assert_string_equal(hole.number, "0.020");
    assert_string_equal(share.number, "40");
    assert_string_equal(share.unit, "%");
    assert_string_equal(warm.number, "+2.0"); /* a difference, never degC */
    assert_string_equal(warm.unit, "K");
    assert_string_equal(cold.number, "−2.0");
    assert_string_equal(fault_figure(&rows[DRIFT], 0.01, UNITS_METRIC).unit, "K/min");
    assert_string_equal(fault_value(&rows[SEAL], 0.5e-3, text, sizeof text), "0.5 mm");
    assert_string_equal(fault_value(&rows[WARM], -2.0, text, sizeof text), "-2 K");
    assert_string_equal(fault_value(&rows[OFFSET], 100.0, text, sizeof text), "100 Pa");
    assert_string_equal(fault_value(&rows[STUCK], 0.4, text, sizeof text), "0.4");
}

/* A command's own words lead back to the size they were made of, whatever the kind. */
static void words_lead_back(void **state)
{
    (void)state;
    for (int k = 0; k < ROWS; k++) {
        char text[64];
        double size;
        assert_null(fault_typed(&rows[k], fault_value(&rows[k], rows[k].usual, text, sizeof text), UNITS_SI, &size));
        assert_near_share(rows[k].what, size, rows[k].usual, 1e-3);
    }
}

static void typed_sizes(void **state)
{
    (void)state;
    double size;
    assert_null(fault_typed(&rows[SEAL], "0.5", UNITS_METRIC, &size));
    assert_near("mm", size, 0.5e-3, 1e-12);
    assert_null(fault_typed(&rows[SEAL], "0.02", UNITS_INCH, &size));
    assert_near("in", size, 0.508e-3, 1e-12);
    assert_null(fault_typed(&rows[SEAL], "0.020 in", UNITS_METRIC, &size));
    assert_near("its own unit", size, 0.508e-3, 1e-12);
    assert_null(fault_typed(&rows[STUCK], "40", UNITS_METRIC, &size));
    assert_near("per cent", size, 0.4, 1e-12);
    assert_null(fault_typed(&rows[WARM], "-2", UNITS_METRIC, &size));
    assert_near("a difference", size, -2.0, 1e-12);
    assert_non_null(fault_typed(&rows[SEAL], "3 kPa", UNITS_METRIC, &size));
    assert_non_null(fault_typed(&rows[SEAL], "1..2", UNITS_METRIC, &size));
    assert_non_null(fault_typed(&rows[SEAL], "inf", UNITS_METRIC, &size));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test_setup(lists_what_is_wrong_first, begin),
                                       cmocka_unit_test_setup(finds_by_words, begin),
                                       cmocka_unit_test_setup(a_long_search_stays_within_its_room, begin),
                                       cmocka_unit_test_setup(shows_a_part_alone, begin),
                                       cmocka_unit_test_setup(cursor_stays_on_the_list, begin),
                                       cmocka_unit_test_setup(long_lists_scroll_with_their_cursor, begin),
                                       cmocka_unit_test_setup(rulers_by_the_spread_of_sizes, begin),
                                       cmocka_unit_test_setup(sizes_in_words, begin),
                                       cmocka_unit_test_setup(words_lead_back, begin),
                                       cmocka_unit_test_setup(typed_sizes, begin)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
