/* tests/unit/view/ways.c  The list of branches by keys alone and by mouse alone; the size on the way behind. */
#include "support/desk.h"
#include "view/ways_page.h"

/* Two ways: the first to 20 s, another from its start on with a larger hole. */
static void two_ways(struct desk *desk)
{
    desk_open(desk);
    desk->session.view.rate = 1.0;
    key(desk, KEY_SPACE);
    play(desk, 20.0);
    key(desk, KEY_HOME);
    keys(desk, "f2.0");
    key(desk, KEY_ENTER);
    key(desk, KEY_SPACE);
    play(desk, 10.0);
    key(desk, KEY_SPACE);
}

/* The size on the way behind stands on the ruler as a ring, until it is forgotten. */
static void the_other_size_is_known(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct fault_row *row = &desk.session.faults.row[desk.session.view.drawer.row];
    assert_near("here", row->size, 2e-3, 1e-12);
    assert_near("there", row->other, 0.5e-3, 1e-12);
    key(&desk, 'n');
    assert_near("and the other way round", row->other, 2e-3, 1e-12);
    keys(&desk, "y");
    key(&desk, KEY_DOWN);
    key(&desk, KEY_BACKSPACE);
    keys(&desk, "f");
    assert_true(isnan(row->other));
    desk_close(&desk);
}

static void ways_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct branches *branches = &desk.session.branches;
    keys(&desk, "y");
    assert_int_equal(desk.session.view.page, PAGE_WAYS);
    keys(&desk, "lBig hole, q & s");
    key(&desk, KEY_BACKSPACE);
    key(&desk, KEY_ENTER);
    assert_string_equal(branches->line[1].name, "Big hole, q & ");
    key(&desk, KEY_UP);
    keys(&desk, "lBig hole, q & ");
    key(&desk, KEY_ENTER);
    assert_non_null(strstr(desk.session.view.message, "called so"));
    assert_string_equal(branches->line[0].name, "first");
    key(&desk, KEY_BACKSPACE);
    assert_non_null(strstr(desk.session.view.message, "first way stays"));
    key(&desk, KEY_DOWN);
    key(&desk, KEY_BACKSPACE);
    assert_non_null(strstr(desk.session.view.message, "the way you are on"));
    key(&desk, KEY_UP);
    key(&desk, KEY_ENTER);
    assert_int_equal(branches->present, 0);
    key(&desk, KEY_DOWN);
    keys(&desk, "lx");
    key(&desk, KEY_ESCAPE); /* as it was */
    assert_string_equal(branches->line[1].name, "Big hole, q & ");
    key(&desk, KEY_BACKSPACE);
    assert_int_equal(branches->count, 1);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.page, PAGE_STEPS);
    desk_close(&desk);
}

static void ways_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct branches *branches = &desk.session.branches;
    click(&desk, SPOT_PAGE, PAGE_WAYS);
    click(&desk, SPOT_WAY, 0);
    click(&desk, SPOT_WAY_WORD, WAYS_GO);
    assert_int_equal(branches->present, 0);
    click(&desk, SPOT_WAY, 1);
    click(&desk, SPOT_WAY_WORD, WAYS_NAME);
    keys(&desk, "a name");
    click(&desk, SPOT_WAY_WORD, WAYS_NAME);
    assert_string_equal(branches->line[1].name, "a name");
    click(&desk, SPOT_WAY_WORD, WAYS_FORGET);
    assert_int_equal(branches->count, 1);
    desk_close(&desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_other_size_is_known),
        cmocka_unit_test(ways_by_keys),
        cmocka_unit_test(ways_by_mouse),
    };
    return cmocka_run_group_tests_name("view/ways", tests, NULL, NULL) != 0;
}
