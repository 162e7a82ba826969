/* tests/unit/procedure/rows.c  Lists that share their beginnings. */
#include "procedure/rows.h"
#include "support/near.h"

enum { MANY = 300 };

static struct rows numbers(int count)
{
    struct rows rows = {.size = sizeof(int)};
    for (int k = 0; k < count; k++)
        *(int *)rows_reach(&rows, k) = 7 * k;
    return rows;
}

static int number(const struct rows *rows, int index)
{
    return *(const int *)rows_at(rows, index);
}

static void rows_stay_where_they_are(void **unused)
{
    (void)unused;
    struct rows rows = numbers(1);
    const void *first = rows_at(&rows, 0);
    for (int k = 1; k < MANY; k++)
        *(int *)rows_reach(&rows, k) = 7 * k;
    assert_ptr_equal(rows_at(&rows, 0), first);
    for (int k = 0; k < MANY; k++)
        assert_int_equal(number(&rows, k), 7 * k);
    rows_free(&rows);
}

/* Whatever their number: what is shared reads the same, what comes after belongs to each alone, and either may go first. */
static void a_share_goes_its_own_way(void **unused)
{
    (void)unused;
    for (int shared = 0; shared <= MANY; shared++) {
        struct rows old = numbers(MANY), new = {0};
        assert_true(rows_share(&new, &old, shared));
        for (int k = shared; k < MANY + 100; k++)
            *(int *)rows_reach(&new, k) = -k;
        for (int k = 0; k < MANY; k++)
            assert_int_equal(number(&old, k), 7 * k);
        if (shared % 2)
            rows_free(&old);
        for (int k = 0; k < MANY + 100; k++)
            assert_int_equal(number(&new, k), k < shared ? 7 * k : -k);
        rows_free(&new);
        rows_free(&old);
    }
}

/* 64 rows to a leaf: 256 of 300 stand in leaves that both have. */
static void whole_leaves_are_kept_once(void **unused)
{
    (void)unused;
    struct rows old = numbers(MANY), new = {0};
    assert_true(rows_share(&new, &old, MANY));
    assert_ptr_equal(rows_at(&old, 255), rows_at(&new, 255));
    assert_ptr_not_equal(rows_at(&old, 256), rows_at(&new, 256));
    rows_free(&new);
    rows_free(&old);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_stay_where_they_are),
        cmocka_unit_test(a_share_goes_its_own_way),
        cmocka_unit_test(whole_leaves_are_kept_once),
    };
    return cmocka_run_group_tests_name("procedure/rows", tests, NULL, NULL) != 0;
}
