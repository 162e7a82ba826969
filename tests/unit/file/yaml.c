/* tests/unit/file/yaml.c  Text to tree: shapes, places in characters, and the limits. */
#include "file/yaml.h"

#include "support/near.h"

#include <stdbool.h>

struct reading {
    struct arena *arena;
    struct ullage_problems *found;
    struct node *tree;
};

static struct reading reading_of(const char *text, size_t size)
{
    struct reading reading = {arena_create(), ullage_problems_create(), NULL};
    reading.tree = yaml_tree(reading.arena, text, size, (struct ullage_place){"f", 1, 1}, reading.found);
    return reading;
}

static void reading_done(struct reading *reading)
{
    arena_free(reading->arena);
    ullage_problems_free(reading->found);
}

static void assert_place(struct ullage_place at, int line, int column)
{
    assert_string_equal(at.file, "f");
    assert_int_equal(at.line, line);
    assert_int_equal(at.column, column);
}

static void maps_lists_and_words(void **unused)
{
    (void)unused;
    const char *text = "name: heron\n"
                       "at: [2, 6]\n"
                       "empty:\n"
                       "quoted: \"\"\n"
                       "parts:\n"
                       "  tank: {volume: 45 L}\n"
                       "  list:\n"
                       "  - a\n"
                       "  - b: 1\n";
    struct reading reading = reading_of(text, strlen(text));
    const struct node *tree = reading.tree;
    assert_non_null(tree);
    assert_int_equal(tree->kind, NODE_MAP);
    assert_int_equal(tree->count, 5);
    assert_null(tree->key);
    assert_string_equal(node_word(tree, "name"), "heron");
    assert_place(node_find(tree, "name")->key_at, 1, 1);
    assert_place(node_find(tree, "name")->at, 1, 7);
    const struct node *at = node_find(tree, "at");
    assert_int_equal(at->kind, NODE_LIST);
    assert_int_equal(at->count, 2);
    assert_string_equal(at->child[1]->text, "6");
    assert_null(at->child[1]->key);
    assert_place(at->child[1]->at, 2, 9);
    assert_string_equal(node_word(tree, "empty"), "");
    assert_false(node_find(tree, "empty")->quoted);
    assert_true(node_find(tree, "quoted")->quoted);
    const struct node *tank = node_find(node_find(tree, "parts"), "tank");
    assert_place(tank->key_at, 6, 3);
    assert_place(tank->at, 6, 9);
    assert_string_equal(node_word(tank, "volume"), "45 L");
    const struct node *list = node_find(node_find(tree, "parts"), "list");
    assert_int_equal(list->count, 2);
    assert_int_equal(list->child[1]->kind, NODE_MAP);
    assert_place(list->child[1]->at, 9, 5);
    reading_done(&reading);
}

/* Words that other readers of YAML take for something else are words. */
static void words_stay_words(void **unused)
{
    (void)unused;
    static const char *const words[] = {"yes",  "no",   "on",  "off",  "null",       "~",
                                        "true", "0x10", "1e3", ".nan", "2001-01-01", "<<"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        char text[40];
        snprintf(text, sizeof text, "key: %s\n", words[i]);
        struct reading reading = reading_of(text, strlen(text));
        assert_string_equal(node_word(reading.tree, "key"), words[i]);
        reading_done(&reading);
    }
}

/* JSON is YAML, compact or indented with tabs. */
static void json_is_read(void **unused)
{
    (void)unused;
    const char *text = "{\"a\":1,\n\t\"b\":[\"x\",{\"c\":\"2 L\"}]}";
    struct reading reading = reading_of(text, strlen(text));
    assert_non_null(reading.tree);
    assert_string_equal(node_word(reading.tree, "a"), "1");
    assert_string_equal(node_word(node_find(reading.tree, "b")->child[1], "c"), "2 L");
    reading_done(&reading);
}

/* Columns count characters, lines end at LF, CR LF or CR; a byte order mark is no character. */
static void places_count_characters(void **unused)
{
    (void)unused;
    const char *text = "\xef\xbb\xbf"
                       "\xc3\xa9\xc3\xa9: x\r\nb: \"\xf0\x9f\x98\x80\" # \xe2\x82\xac\rc: {\xc3\xa9: y}\n";
    struct reading reading = reading_of(text, strlen(text));
    assert_non_null(reading.tree);
    assert_place(reading.tree->child[0]->key_at, 1, 1);
    assert_place(reading.tree->child[0]->at, 1, 5);
    assert_place(reading.tree->child[1]->at, 2, 4);
    assert_place(reading.tree->child[2]->child[0]->at, 3, 8);
    reading_done(&reading);
}

static void a_snippet_begins_where_it_stands(void **unused)
{
    (void)unused;
    struct reading reading = reading_of("", 0);
    const char *text = "[1, {a: 2}]";
    const struct node *tree =
        yaml_tree(reading.arena, text, strlen(text), (struct ullage_place){"f", 1, 20}, reading.found);
    assert_place(tree->at, 1, 20);
    assert_place(tree->child[1]->child[0]->at, 1, 28);
    reading_done(&reading);
}

static void every_duplicate_is_told(void **unused)
{
    (void)unused;
    struct reading reading = reading_of("a: 1\na: 2\na: 3\n", 15);
    assert_null(reading.tree);
    assert_int_equal(ullage_problems_count(reading.found), 2); /* both later ones */
    assert_place(ullage_problems_at(reading.found, 0).place, 2, 1);
    assert_place(ullage_problems_at(reading.found, 1).place, 3, 1);
    reading_done(&reading);
}

/* Just within each limit is read, one beyond is refused. */
static char *deep(int depth)
{
    char *text = calloc((size_t)depth * 2 + 2, 1);
    memset(text, '[', (size_t)depth);
    memset(text + depth, ']', (size_t)depth);
    return text;
}

static char *keyed(int keys)
{
    char *text = calloc((size_t)keys, 12);
    char *at = text;
    for (int i = 0; i < keys; i++)
        at += sprintf(at, "k%d: 1\n", i);
    return text;
}

static char *listed(int words)
{
    char *text = calloc((size_t)words * 2 + 3, 1);
    text[0] = '[';
    for (int i = 0; i < words; i++)
        memcpy(text + 1 + 2 * i, "a,", 2);
    text[1 + 2 * words] = ']';
    return text;
}

static char *long_word(int bytes)
{
    char *text = calloc((size_t)bytes + 1, 1);
    memset(text, 'w', (size_t)bytes);
    return text;
}

static const struct {
    const char *what;
    char *(*text)(int size);
    int most;
} limits[] = {
    {"depth", deep, YAML_DEPTH_MOST},
    {"keys", keyed, YAML_KEYS_MOST},
    {"nodes", listed, YAML_NODES_MOST - 1}, /* and the list itself */
    {"word", long_word, YAML_WORD_MOST},
};

static void limits_are_where_they_are_said_to_be(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++)
        for (int beyond = 0; beyond <= 1; beyond++) {
            char *text = limits[i].text(limits[i].most + beyond);
            struct reading reading = reading_of(text, strlen(text));
            if ((reading.tree == NULL) != (beyond == 1))
                fail_msg("%s: %d is %s", limits[i].what, limits[i].most + beyond, reading.tree ? "read" : "refused");
            assert_int_equal(ullage_problems_count(reading.found), beyond);
            reading_done(&reading);
            free(text);
        }
}

static void a_file_is_at_most_a_megabyte(void **unused)
{
    (void)unused;
    char *text = calloc(YAML_BYTES_MOST + 2, 1);
    memset(text, ' ', YAML_BYTES_MOST + 1);
    memcpy(text, "a: 1\n#", 6);
    struct reading within = reading_of(text, YAML_BYTES_MOST), beyond = reading_of(text, YAML_BYTES_MOST + 1);
    assert_non_null(within.tree);
    assert_null(beyond.tree);
    reading_done(&within);
    reading_done(&beyond);
    free(text);
}

/* Every cut of a good text is either read or refused with one problem at least. */
static void every_cut_is_answered(void **unused)
{
    (void)unused;
    const char *text =
        "ullage: scenario/1\nname: \"a b\"\nsurroundings: {temperature: [[0 h, 20 degC], [1 h, '30 degC']]}\n"
        "system:\n  parts:\n    - |\n      text\n    - >-\n      more\n";
    for (size_t size = 0; size <= strlen(text); size++) {
        struct reading reading = reading_of(text, size);
        assert_true((reading.tree != NULL) == (ullage_problems_count(reading.found) == 0));
        reading_done(&reading);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(maps_lists_and_words),
        cmocka_unit_test(words_stay_words),
        cmocka_unit_test(json_is_read),
        cmocka_unit_test(places_count_characters),
        cmocka_unit_test(a_snippet_begins_where_it_stands),
        cmocka_unit_test(every_duplicate_is_told),
        cmocka_unit_test(limits_are_where_they_are_said_to_be),
        cmocka_unit_test(a_file_is_at_most_a_megabyte),
        cmocka_unit_test(every_cut_is_answered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
