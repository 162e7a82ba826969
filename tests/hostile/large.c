/* tests/hostile/large.c  Files that are broken by their size or depth, made here: the answer may take no longer and no more
 * memory than that to a small one. */
#include "support/answer.h"

static void repeat(FILE *file, const char *text, int times)
{
    for (int i = 0; i < times; i++)
        fputs(text, file);
}

static const char head[] = "ullage: scenario/1\n";
static const char vessel[] = "system:\n  parts:\n    vessel: {type: vessel, volume: 30 L}\n";

static void keys(FILE *file, int count)
{
    fputs(head, file);
    fputs(vessel, file);
    for (int i = 0; i < count; i++)
        fprintf(file, "key%d: 1\n", i);
}

static void keys_20000(FILE *file)
{
    keys(file, 20000);
}

static void keys_80000(FILE *file)
{
    keys(file, 80000);
}

/* Few enough for the reader of maps, each one unknown. */
static void keys_9000(FILE *file)
{
    keys(file, 9000);
}

static void duplicates(FILE *file)
{
    fputs(head, file);
    repeat(file, "name: a\n", 9000);
}

static void deep_lists(FILE *file)
{
    fputs(head, file);
    fputs("name: ", file);
    repeat(file, "[", 100000);
    repeat(file, "]", 100000);
}

static void deep_open_lists(FILE *file)
{
    fputs(head, file);
    fputs("name: ", file);
    repeat(file, "[", 100000);
}

static void deep_maps(FILE *file)
{
    fputs(head, file);
    fputs("name: ", file);
    repeat(file, "{a: ", 100000);
}

static void deep_dashes(FILE *file)
{
    fputs(head, file);
    fputs("name:\n  ", file);
    repeat(file, "- ", 100000);
}

static void deep_questions(FILE *file)
{
    fputs(head, file);
    fputs("name:\n  ", file);
    repeat(file, "? ", 100000);
}

/* The scheme that swells to 2^30 words where aliases are followed. */
static void exploding_aliases(FILE *file)
{
    fputs(head, file);
    fputs("a0: &a0 [x, x]\n", file);
    for (int i = 1; i <= 30; i++)
        fprintf(file, "a%d: &a%d [*a%d, *a%d]\n", i, i, i - 1, i - 1);
}

static void anchors(FILE *file)
{
    fputs(head, file);
    for (int i = 0; i < 40000; i++)
        fprintf(file, "k%d: &k%d 1\n", i, i);
}

static void directives(FILE *file)
{
    for (int i = 0; i < 40000; i++)
        fprintf(file, "%%TAG !t%d! tag:%d\n", i, i);
    fputs("---\n", file);
    fputs(head, file);
}

static void megabytes(FILE *file)
{
    fputs(head, file);
    repeat(file, "# twenty megabytes of nothing\n", 700000);
}

static void long_word(FILE *file)
{
    fputs(head, file);
    fputs("name: ", file);
    repeat(file, "word ", 20000);
    fputs("\n", file);
}

static void long_key(FILE *file)
{
    fputs(head, file);
    repeat(file, "key", 2000);
    fputs(": 1\n", file);
}

static void long_number(FILE *file)
{
    fputs(head, file);
    fputs("end: ", file);
    repeat(file, "9", 60000);
    fputs(" s\n", file);
    fputs(vessel, file);
}

static void long_unit(FILE *file)
{
    fputs(head, file);
    fputs("end: 5 s", file);
    repeat(file, "/s", 30000);
    fputs("\n", file);
    fputs(vessel, file);
}

static void many_words(FILE *file)
{
    fputs(head, file);
    fputs("name: [", file);
    repeat(file, "a,", 510000);
    fputs("]\n", file);
}

static void empty_lines(FILE *file)
{
    repeat(file, "\n", 1000000);
}

static void many_parts(FILE *file)
{
    fputs(head, file);
    fputs("system:\n  parts:\n", file);
    for (int i = 0; i < 9000; i++)
        fprintf(file, "    v%d: {type: vessel, volume: 1 L}\n", i);
}

static void many_faults(FILE *file)
{
    fputs(head, file);
    fputs(vessel, file);
    fputs("faults:\n", file);
    repeat(file, "  - {id: a, fault: leak, where: vessel}\n", 20000);
}

static void many_changes(FILE *file)
{
    fputs(head, file);
    fputs(vessel, file);
    fputs("change:\n", file);
    for (int i = 0; i < 9000; i++)
        fprintf(file, "  vessel.k%d: 1\n", i);
}

/* 1000 parts that all name parts that are not there. */
static void many_slips(FILE *file)
{
    fputs(head, file);
    fputs("system:\n  parts:\n", file);
    for (int i = 0; i < 999; i++)
        fprintf(file,
                "    a-rather-long-name-of-a-part-%d: {type: hole, from: another-long-name-of-a-part-%d, to: air, "
                "diameter: 1 mm}\n",
                i, i);
}

static void long_profile(FILE *file)
{
    fputs(head, file);
    fputs("surroundings: {temperature: [", file);
    for (int i = 0; i < 30000; i++)
        fprintf(file, "[%d s,20 degC],", i);
    fputs("[0 s, 20 degC]]}\n", file);
    fputs(vessel, file);
}

static void many_steps(FILE *file)
{
    fputs(head, file);
    fputs(vessel, file);
    fputs("procedure:\n  steps:\n", file);
    repeat(file, "    - wait: {until: vessel.pressure < 1 Pa}\n", 20000);
}

static void deep_condition(FILE *file)
{
    fputs(head, file);
    fputs(vessel, file);
    fputs("procedure:\n  steps:\n    - wait: {until: \"", file);
    repeat(file, "(", 30000);
    fputs("\", at_most: 5 s}\n", file);
}

static void negated_condition(FILE *file)
{
    fputs(head, file);
    fputs(vessel, file);
    fputs("procedure:\n  steps:\n    - wait: {until: \"", file);
    repeat(file, "not ", 16000);
    fputs("\", at_most: 5 s}\n", file);
}

static const struct {
    const char *name;
    void (*make)(FILE *file);
    const char *place, *says; /* after the name */
} large[] = {
    {"keys-9000", keys_9000, ":5:1: ", "key0 is no key of a scenario"},
    {"keys-20000", keys_20000, ":1:1: ", "too many keys"},
    {"keys-80000", keys_80000, ":1:1: ", "too many keys"},
    {"duplicates", duplicates, ":", "name stands here again"},
    {"deep-lists", deep_lists, ":2:70: ", "nested too deep"},
    {"deep-open-lists", deep_open_lists, ":2:70: ", "nested too deep"},
    {"deep-maps", deep_maps, ":2:259: ", "nested too deep"},
    {"deep-dashes", deep_dashes, ":3:129: ", "nested too deep"},
    {"deep-questions", deep_questions, ":3:", "key"},
    {"exploding-aliases", exploding_aliases, ":2:5: ", "names a place"},
    {"anchors", anchors, ":2:5: ", "names a place"},
    {"directives", directives, ":1:1: ", "%"},
    {"megabytes", megabytes, ":1:1: ", "too long"},
    {"long-word", long_word, ":2:7: ", "longer than 64 kB"},
    {"long-key", long_key, ":", ""},
    {"long-number", long_number, ":2:6: ", "too large"},
    {"long-unit", long_unit, ":2:6: ", "no unit"},
    {"many-words", many_words, ":2:", "too many words"},
    {"empty-lines", empty_lines, ":1:1: ", "nothing in this file"},
    {"many-parts", many_parts, ":3:3: ", "too many"},
    {"many-faults", many_faults, ":3:3: ", "too many"},
    {"many-changes", many_changes, ":5:1: ", "too many"},
    {"many-slips", many_slips, ":4:", "there is no part another-long-name-of-a-part-0"},
    {"long-profile", long_profile, ":2:", "not later"},
    {"many-steps", many_steps, ":7:7: ", "time limit"},
    {"deep-condition", deep_condition, ":7:", ""},
    {"negated-condition", negated_condition, ":7:", ""},
};

static void large_files_are_answered(void **state)
{
    const char *folder = *state;
    char path[300], output[300];
    snprintf(output, sizeof output, "%s/out.csv", folder);
    for (size_t i = 0; i < sizeof large / sizeof large[0]; i++) {
        snprintf(path, sizeof path, "%s/%s.yaml", folder, large[i].name);
        FILE *file = fopen(path, "w");
        assert_non_null(file);
        large[i].make(file);
        assert_int_equal(fclose(file), 0);
        char place[400];
        snprintf(place, sizeof place, "%s%s", path, large[i].place);
        const struct answer answer = run_of(path, output);
        answer_is(path, &answer, BAD_INPUT, place, large[i].says);
        no_file(output);
        unlink(path);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(large_files_are_answered)};
    return cmocka_run_group_tests(tests, folder_made, folder_removed) != 0;
}
