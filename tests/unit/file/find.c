/* tests/unit/file/find.c  Where files that a scenario names are searched, and what is checked alone. */
#include "network/description.h"
#include "support/near.h"

#include <stdbool.h>
#include <sys/stat.h>
#include <unistd.h>

/* A tree of folders: FOLDER/lessons, FOLDER/systems, FOLDER/lessons/systems, FOLDER/own/systems, FOLDER/own/procedures. */
static const char *const folders[] = {"lessons", "systems", "lessons/systems", "own", "own/systems", "own/procedures"};

enum { FOLDERS = sizeof folders / sizeof folders[0], FILES_MOST = 32 };

struct place {
    char folder[64];
    char file[FILES_MOST][128];
    int files;
};

static void file_put(struct place *place, const char *name, const char *text)
{
    assert_true(place->files < FILES_MOST);
    char path[sizeof place->file[0]];
    snprintf(path, sizeof path, "%s/%s", place->folder, name);
    memcpy(place->file[place->files++], path, sizeof path);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static void system_put(struct place *place, const char *file, const char *name)
{
    char text[200];
    snprintf(text, sizeof text, "ullage: system/1\nname: %s\nparts: {vessel: {type: vessel, volume: 30 L}}\n", name);
    file_put(place, file, text);
}

static int place_made(void **state)
{
    struct place *place = calloc(1, sizeof *place);
    *state = place;
    strcpy(place->folder, "/tmp/ullage-find-XXXXXX");
    if (!mkdtemp(place->folder))
        return 1;
    char path[128];
    for (int i = 0; i < FOLDERS; i++) {
        snprintf(path, sizeof path, "%s/%s", place->folder, folders[i]);
        if (mkdir(path, 0700) != 0)
            return 1;
    }
    return 0;
}

static int place_removed(void **state)
{
    struct place *place = *state;
    char path[128];
    int left = 0;
    for (int i = 0; i < place->files; i++)
        left += unlink(place->file[i]) != 0;
    for (int i = FOLDERS - 1; i >= 0; i--) {
        snprintf(path, sizeof path, "%s/%s", place->folder, folders[i]);
        left += rmdir(path) != 0;
    }
    left += rmdir(place->folder) != 0;
    free(place);
    return left;
}

/* Name of the system that FILE's `system: NAMED` finds; "" where it finds none. */
static const char *system_found(struct place *place, const char *file, const char *named, bool own)
{
    static char name[64];
    char path[128], text[200], search[128];
    snprintf(search, sizeof search, "%s/own", place->folder);
    snprintf(path, sizeof path, "%s/%s", place->folder, file);
    snprintf(text, sizeof text, "ullage: scenario/1\nsystem: %s\n", named);
    FILE *to = fopen(path, "w");
    assert_non_null(to);
    fputs(text, to);
    fclose(to);
    const char *const searched[] = {search};
    const struct ullage_edits edits = {.search = searched, .searches = own};
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome;
    struct ullage_description *d = ullage_description_read(path, &edits, problems, &outcome);
    snprintf(name, sizeof name, "%s", d ? d->system : "");
    assert_int_equal(outcome, d ? ULLAGE_GOOD : ULLAGE_BAD_INPUT);
    ullage_description_free(d);
    ullage_problems_free(problems);
    unlink(path);
    return name;
}

static void the_order_of_the_search(void **state)
{
    struct place *place = *state;
    char absolute[128];
    snprintf(absolute, sizeof absolute, "%s/own/systems/far.yaml", place->folder);
    system_put(place, "own/systems/far.yaml", "far, in a folder of the program");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far", false), "");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far", true), "far, in a folder of the program");
    assert_string_equal(system_found(place, "lessons/s.yaml", "systems/far", true), "far, in a folder of the program");
    assert_string_equal(system_found(place, "lessons/s.yaml", absolute, false), "far, in a folder of the program");
    system_put(place, "systems/far.yaml", "one up");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far", true), "one up");
    assert_string_equal(system_found(place, "lessons/s.yaml", "../systems/far.yaml", true), "one up");
    assert_string_equal(system_found(place, "s.yaml", "far", true), "one up"); /* from there it is beside */
    system_put(place, "lessons/systems/far.yaml", "in systems beside");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far", true), "in systems beside");
    system_put(place, "lessons/far.yaml", "beside");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far", true), "beside");
    assert_string_equal(system_found(place, "lessons/s.yaml", "far.yaml", true), "beside");
}

/* A scenario may be called like the system it is about. */
static void a_file_of_another_form_is_passed_over(void **state)
{
    struct place *place = *state;
    system_put(place, "systems/same.yaml", "the system");
    assert_string_equal(system_found(place, "same.yaml", "same", false), "the system");
}

static struct ullage_problem only_problem(const char *path, enum ullage_outcome wanted)
{
    static struct ullage_problems *problems;
    ullage_problems_free(problems);
    problems = ullage_problems_create();
    assert_int_equal(ullage_check(path, NULL, problems), wanted);
    if (wanted == ULLAGE_GOOD) {
        assert_int_equal(ullage_problems_count(problems), 0);
        ullage_problems_free(problems);
        problems = NULL;
        return (struct ullage_problem){0};
    }
    assert_int_equal(ullage_problems_count(problems), 1);
    return ullage_problems_at(problems, 0);
}

static const struct {
    const char *text;
    enum ullage_outcome outcome;
    int line, column;
} checked[] = {
    {"ullage: system/1\nparts: {v: {type: vessel, volume: 1 L}}\n", ULLAGE_GOOD, 0, 0},
    {"ullage: system/1\nparts: {v: {type: vessel, volume: 1 L}, h: {type: hole, from: v.top, to: air, diameter: 1 "
     "mm}}\n",
     ULLAGE_BAD_INPUT, 2, 63},
    {"ullage: system/1\nsteps: [{wait: {for: 1 s}}]\nparts: {v: {type: vessel, volume: 1 L}}\n", ULLAGE_BAD_INPUT, 2,
     1},
    {"ullage: procedure/1\nsteps: [{wait: {for: 1 s}}, {set: {no-such-part: shut}}]\n", ULLAGE_GOOD, 0,
     0}, /* parts: later */
    {"ullage: procedure/1\nsteps: [{wait: {until: a.pressure < 1 Pa}}]\n", ULLAGE_BAD_INPUT, 2, 10},
    {"ullage: procedure/1\nsteps: [{repeat: {times: 2, steps: [{wiat: {for: 1 s}}]}}]\n", ULLAGE_BAD_INPUT, 2, 38},
    {"ullage: study/1\n", ULLAGE_BAD_INPUT, 1, 9},
    {"parts: {}\n", ULLAGE_BAD_INPUT, 1, 1},
};

static void each_form_is_checked_alone(void **state)
{
    struct place *place = *state;
    for (size_t i = 0; i < sizeof checked / sizeof checked[0]; i++) {
        char name[32];
        snprintf(name, sizeof name, "checked-%zu.yaml", i);
        file_put(place, name, checked[i].text);
        const char *path = place->file[place->files - 1];
        const struct ullage_problem problem = only_problem(path, checked[i].outcome);
        if (checked[i].outcome == ULLAGE_GOOD)
            continue;
        assert_string_equal(problem.place.file, path);
        assert_int_equal(problem.place.line, checked[i].line);
        assert_int_equal(problem.place.column, checked[i].column);
    }
}

static void a_system_that_is_gone_is_unreadable(void **state)
{
    struct place *place = *state;
    char path[160];
    snprintf(path, sizeof path, "%s/gone.yaml", place->folder);
    const struct ullage_problem problem = only_problem(path, ULLAGE_UNREADABLE);
    assert_string_equal(problem.place.file, path);
    assert_int_equal(problem.place.line, 0);
    only_problem(place->folder, ULLAGE_UNREADABLE);
    only_problem("-", ULLAGE_UNREADABLE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_order_of_the_search),
        cmocka_unit_test(a_file_of_another_form_is_passed_over),
        cmocka_unit_test(each_form_is_checked_alone),
        cmocka_unit_test(a_system_that_is_gone_is_unreadable),
    };
    return cmocka_run_group_tests(tests, place_made, place_removed) != 0;
}
