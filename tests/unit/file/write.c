/* tests/unit/file/write.c  Trees written as text read back as the same trees. */
#include "file/write.h"

#include "file/yaml.h"
#include "support/near.h"

#include <glob.h>

static char *text_of(const struct node *tree)
{
    char *text = NULL;
    size_t size = 0;
    FILE *to = open_memstream(&text, &size);
    assert_non_null(to);
    for (int i = 0; i < tree->count; i++)
        entry_write(to, tree->child[i], 0);
    assert_int_equal(fclose(to), 0);
    return text;
}

static void assert_same_tree(const struct node *one, const struct node *other)
{
    assert_int_equal(one->kind, other->kind);
    if (one->key || other->key)
        assert_string_equal(one->key, other->key);
    if (one->kind == NODE_WORD)
        assert_string_equal(one->text, other->text);
    assert_int_equal(one->count, other->count);
    for (int i = 0; i < one->count; i++)
        assert_same_tree(one->child[i], other->child[i]);
}

static struct node *tree_of(struct arena *arena, const char *text)
{
    struct ullage_problems *problems = ullage_problems_create();
    struct node *tree = yaml_tree(arena, text, strlen(text), (struct ullage_place){NULL, 1, 1}, problems);
    if (!tree)
        fail_msg("line %d: %s\n%s", ullage_problems_at(problems, 0).place.line, ullage_problems_at(problems, 0).wrong,
                 text);
    ullage_problems_free(problems);
    return tree;
}

static void assert_reads_back(const char *text)
{
    struct arena *arena = arena_create();
    const struct node *tree = tree_of(arena, text);
    char *written = text_of(tree);
    assert_same_tree(tree, tree_of(arena, written));
    free(written);
    arena_free(arena);
}

static void awkward_words_read_back(void **unused)
{
    (void)unused;
    static const char *const words[] = {
        "\"\"",     "\" a\"",  "\"a \"",  "\"a: b\"",   "\"a #b\"",        "\"- a\"",   "\"-\"",
        "\"?\"",    "\"*a\"",  "\"&a\"",  "\"!a\"",     "\"%a\"",          "\"@a\"",    "\"`a\"",
        "\"a, b\"", "\"[a]\"", "\"{a}\"", "\"a\\\"b\"", "\"a\\\\b\"",      "\"a\\nb\"", "\"a\\tb\"",
        "\"a:\"",   "\"#a\"",  "\"|\"",   "\">\"",      "\"'a\"",          "\"~\"",     "-5 kPa",
        "a < b",    "\"< b\"", "40 %",    "1e-6",       "\"\xc3\xbc: x\"", "a'b",       "a\"b",
    };
    for (size_t k = 0; k < sizeof words / sizeof words[0]; k++) {
        char text[200];
        snprintf(text, sizeof text, "a: %s\nb: [%s, x]\nc: {k: %s}\n", words[k], words[k][0] == 'a' ? "y" : words[k],
                 words[k][0] == 'a' ? "y" : words[k]);
        assert_reads_back(text);
    }
}

static void empty_and_deep_ones_read_back(void **unused)
{
    (void)unused;
    static char text[10000] = "a: {}\nb: []\nc: {d: {}, e: []}\nlong: [";
    for (int k = 0; k < 100; k++)
        sprintf(text + strlen(text), "{at: %d s, set: {x: [1, [2, {y: []}], {}]}}%s", k, k < 99 ? ", " : "]\n");
    assert_reads_back(text);
}

/* All that ships. */
static void shipped_files_read_back(void **unused)
{
    (void)unused;
    static char text[1 << 18];
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    glob("scenarios/*/*.yaml", GLOB_APPEND, NULL, &found);
    assert_true(found.gl_pathc > 20);
    for (size_t k = 0; k < found.gl_pathc; k++) {
        FILE *file = fopen(found.gl_pathv[k], "r");
        assert_non_null(file);
        const size_t size = fread(text, 1, sizeof text - 1, file);
        text[size] = '\0';
        fclose(file);
        assert_reads_back(text);
    }
    globfree(&found);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(awkward_words_read_back),
        cmocka_unit_test(empty_and_deep_ones_read_back),
        cmocka_unit_test(shipped_files_read_back),
    };
    return cmocka_run_group_tests_name("file/write", tests, NULL, NULL) != 0;
}
