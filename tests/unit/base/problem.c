/* tests/unit/base/problem.c  The list of what a user got wrong, and the names offered. */
#include "base/problem.h"

#include "base/text.h"
#include "support/near.h"

static void texts_are_kept(void **unused)
{
    (void)unused;
    struct ullage_problems *found = ullage_problems_create();
    char file[] = "a.yaml", right[] = "write b";
    problem_add(found, (struct ullage_place){file, 3, 4}, right, "%s is %d", "x", 7);
    file[0] = right[0] = '#';
    assert_int_equal(ullage_problems_count(found), 1);
    const struct ullage_problem problem = ullage_problems_at(found, 0);
    assert_string_equal(problem.place.file, "a.yaml");
    assert_int_equal(problem.place.line, 3);
    assert_int_equal(problem.place.column, 4);
    assert_string_equal(problem.wrong, "x is 7");
    assert_string_equal(problem.right, "write b");
    assert_false(problems_out_of_memory(found));
    ullage_problems_free(found);
    ullage_problems_free(NULL);
}

static void a_sentence_is_parted(void **unused)
{
    (void)unused;
    struct ullage_problems *found = ullage_problems_create();
    problem_say(found, (struct ullage_place){0}, "3; 0 has no unit; write a volume like 45 L");
    problem_say(found, (struct ullage_place){0}, "nothing more");
    assert_string_equal(ullage_problems_at(found, 0).wrong, "3; 0 has no unit");
    assert_string_equal(ullage_problems_at(found, 0).right, "write a volume like 45 L");
    assert_string_equal(ullage_problems_at(found, 1).wrong, "nothing more");
    assert_string_equal(ullage_problems_at(found, 1).right, "");
    assert_null(ullage_problems_at(found, 0).place.file);
    ullage_problems_free(found);
}

static void the_order_is_that_of_places(void **unused)
{
    (void)unused;
    struct ullage_problems *found = ullage_problems_create();
    const struct ullage_place at[] = {{"b", 1, 1}, {"a", 9, 1}, {"a", 2, 8}, {"a", 2, 3}, {"a", 2, 8}, {NULL, 5, 5}};
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++)
        problem_add(found, at[i], "", "wrong");
    problem_add(found, at[2], "", "another");
    problems_sort(found);
    const struct ullage_place sorted[] = {{NULL, 5, 5}, {"a", 2, 3}, {"a", 2, 8},
                                          {"a", 2, 8},  {"a", 9, 1}, {"b", 1, 1}};
    assert_int_equal(ullage_problems_count(found), 6); /* one of seven was said twice */
    for (int i = 0; i < 6; i++) {
        const struct ullage_place place = ullage_problems_at(found, i).place;
        assert_int_equal(place.line, sorted[i].line);
        assert_int_equal(place.column, sorted[i].column);
        assert_string_equal(place.file ? place.file : "", sorted[i].file ? sorted[i].file : "");
    }
    assert_string_equal(ullage_problems_at(found, 2).wrong, "another");
    ullage_problems_free(found);
}

static void no_more_than_fifty_are_told(void **unused)
{
    (void)unused;
    struct ullage_problems *found = ullage_problems_create();
    for (int i = 1; i <= 1000; i++) {
        problem_add(found, (struct ullage_place){"a", i, 1}, "", "wrong");
        assert_int_equal(ullage_problems_count(found), i); /* each one shows */
        assert_int_equal(problems_full(found), i >= 50);
    }
    assert_string_equal(ullage_problems_at(found, 999).wrong, "there is more");
    problems_sort(found);
    assert_int_equal(ullage_problems_count(found), 50);
    assert_int_equal(ullage_problems_at(found, 49).place.line, 50); /* the first ones */
    ullage_problems_free(found);
}

static void nothing_moves_the_terminal(void **unused)
{
    (void)unused;
    struct ullage_problems *found = ullage_problems_create();
    problem_add(found, (struct ullage_place){"a", 1, 1}, "b\tc",
                "\x1b[31mred\nline \xff \xc2\x9b \xe2\x80\xa8 \xc3\xa9");
    assert_string_equal(ullage_problems_at(found, 0).wrong, "?[31mred?line ? ?? ??? \xc3\xa9");
    assert_string_equal(ullage_problems_at(found, 0).right, "b?c");
    ullage_problems_free(found);
}

static void a_long_text_is_shortened_between_characters(void **unused)
{
    (void)unused;
    char room[TEXT_SHORT], text[200];
    for (int bytes = 0; bytes < 100; bytes++) {
        for (int i = 0; i < bytes; i++)
            text[i] = i % 2 ? '\xa9' : '\xc3';
        text[bytes - bytes % 2] = '\0';
        text_short(text, room);
        assert_true(strlen(room) < TEXT_SHORT);
        const size_t kept = strcspn(room, ".");
        assert_int_equal(kept % 2, 0);
        assert_memory_equal(room, text, kept);
        assert_true(kept == strlen(text) || strcmp(room + kept, "...") == 0);
    }
}

/* ---- nearest names ---- */
static const char *const offered[] = {"volume", "diameter", "gauge_pressure", "give", "at",
                                      "inH2O",  "kPa",      "temperature"};

static const struct {
    const char *word, *nearest;
} meant[] = {
    {"volum", "volume"},
    {"diametre", "diameter"},
    {"gauge_presure", "gauge_pressure"},
    {"inHO2", "inH2O"},
    {"kpa", "kPa"},
    {"temp", "temperature"},
    {"VOLUME", "volume"},
    {"gvie", "give"},
    {"ta", "at"},
    {"x", NULL},
    {"", NULL},
    {"completely", NULL},
    {"volume", "volume"},
    {"ga", NULL},
    {"gauge", "gauge_pressure"},
};

static void the_nearest_name_is_offered(void **unused)
{
    (void)unused;
    const int count = sizeof offered / sizeof offered[0];
    for (size_t i = 0; i < sizeof meant / sizeof meant[0]; i++) {
        const char *nearest = nearest_name(meant[i].word, offered, count);
        if (!meant[i].nearest != !nearest || (nearest && strcmp(nearest, meant[i].nearest) != 0))
            fail_msg("%s: got %s, want %s", meant[i].word, nearest ? nearest : "none",
                     meant[i].nearest ? meant[i].nearest : "none");
    }
    assert_null(nearest_name("volume", offered, 0));
    char huge[5000];
    memset(huge, 'a', sizeof huge - 1);
    huge[sizeof huge - 1] = '\0';
    assert_null(nearest_name(huge, offered, count));
    const char *const names[] = {huge, "volume"};
    assert_string_equal(nearest_name("volum", names, 2), "volume");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_are_kept),
        cmocka_unit_test(a_sentence_is_parted),
        cmocka_unit_test(the_order_is_that_of_places),
        cmocka_unit_test(no_more_than_fifty_are_told),
        cmocka_unit_test(nothing_moves_the_terminal),
        cmocka_unit_test(a_long_text_is_shortened_between_characters),
        cmocka_unit_test(the_nearest_name_is_offered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
