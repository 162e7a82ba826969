/* tests/unit/base/tree.c  The arena, and looking things up in a tree. */
#include "base/tree.h"

#include "support/near.h"

#include <stdalign.h>

static void pieces_are_zeroed_aligned_and_apart(void **unused)
{
    (void)unused;
    struct arena *arena = arena_create();
    unsigned char *piece[300];
    for (size_t i = 0; i < 300; i++) {
        const size_t size = i * i % 9000;
        piece[i] = arena_take(arena, size);
        assert_non_null(piece[i]);
        assert_int_equal((uintptr_t)piece[i] % alignof(max_align_t), 0);
        for (size_t k = 0; k < size; k++)
            assert_int_equal(piece[i][k], 0);
        memset(piece[i], (int)i, size);
    }
    for (size_t i = 0; i < 300; i++)
        for (size_t k = 0; k < i * i % 9000; k++)
            assert_int_equal(piece[i][k], (unsigned char)i);
    arena_free(arena);
    arena_free(NULL);
}

static void what_no_memory_holds_is_null(void **unused)
{
    (void)unused;
    struct arena *arena = arena_create();
    assert_null(arena_take(arena, SIZE_MAX));
    assert_null(arena_take(arena, SIZE_MAX - 64));
    assert_non_null(arena_take(arena, 10)); /* and the arena goes on */
    arena_free(arena);
}

static void texts_are_copied_and_composed(void **unused)
{
    (void)unused;
    struct arena *arena = arena_create();
    char text[] = "tank";
    char *copy = arena_text(arena, text);
    text[0] = 'b';
    assert_string_equal(copy, "tank");
    assert_string_equal(arena_format(arena, "%s-%d", copy, 2), "tank-2");
    assert_string_equal(arena_format(arena, "%s", ""), "");
    char wide[10000];
    memset(wide, 'w', sizeof wide - 1);
    wide[sizeof wide - 1] = '\0';
    assert_string_equal(arena_format(arena, "%s", wide), wide);
    arena_free(arena);
}

static void children_are_found_by_key(void **unused)
{
    (void)unused;
    struct node word = {.kind = NODE_WORD, .key = "bore", .text = "8 mm"};
    struct node list = {.kind = NODE_LIST, .key = "at"};
    struct node *child[] = {&list, &word};
    struct node map = {.kind = NODE_MAP, .count = 2, .child = child};
    assert_ptr_equal(node_find(&map, "bore"), &word);
    assert_ptr_equal(node_find(&map, "at"), &list);
    assert_null(node_find(&map, "length"));
    assert_null(node_find(&word, "bore"));
    assert_null(node_find(NULL, "bore"));
    assert_string_equal(node_word(&map, "bore"), "8 mm");
    assert_null(node_word(&map, "at"));
    assert_null(node_word(&map, "length"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_are_zeroed_aligned_and_apart),
        cmocka_unit_test(what_no_memory_holds_is_null),
        cmocka_unit_test(texts_are_copied_and_composed),
        cmocka_unit_test(children_are_found_by_key),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
