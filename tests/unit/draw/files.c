/* tests/unit/draw/files.c  Pictures and plots in files: the same bytes for the same moment, whole or not at all. */
#include "draw/frames.h"
#include "draw/plot.h"
#include "support/stage.h"

#include <stdbool.h>
#include <sys/wait.h>
#include <unistd.h>

static const char rig[] = "ullage: scenario/1\nname: drawn\nsystem:\n  parts:\n"
                          "    tank: {type: tank, volume: 30 L}\n"
                          "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm}\n"
                          "start: {tank: {gauge_pressure: 3 kPa}}\n"
                          "procedure:\n  steps:\n    - {name: Empty, wait: {for: 20 s}}\n"
                          "record: {every: 0.5 s, channels: [tank.gauge_pressure, leak.standard_flow]}\n";

static char folder[64];

static const char *path_of(const char *name, char *room)
{
    snprintf(room, 256, "%s/%s", folder, name);
    return room;
}

struct bytes {
    size_t count;
    unsigned char *byte;
};

static struct bytes bytes_of(const char *path)
{
    struct bytes bytes = {0, NULL};
    FILE *file = fopen(path, "rb");
    if (!file)
        fail_msg("%s is not there", path);
    fseek(file, 0, SEEK_END);
    bytes.count = (size_t)ftell(file);
    rewind(file);
    bytes.byte = malloc(bytes.count + 1);
    assert_non_null(bytes.byte);
    assert_int_equal(fread(bytes.byte, 1, bytes.count, file), bytes.count);
    fclose(file);
    return bytes;
}

static void same_bytes(const char *a, const char *b)
{
    struct bytes one = bytes_of(a), two = bytes_of(b);
    if (one.count != two.count || memcmp(one.byte, two.byte, one.count))
        fail_msg("%s and %s differ", a, b);
    assert_true(one.count > 1000);
    free(one.byte);
    free(two.byte);
}

static enum draw_outcome draw_at(double time, const char *path, char *trouble)
{
    struct stage stage = stage_text(rig);
    const struct frames_options options = {.width = 1024, .height = 768};
    const enum draw_outcome outcome = frame_write(stage.model, stage.run, &options, time, path, trouble);
    stage_close(&stage);
    return outcome;
}

/* In a process of its own, as the program draws: cairo numbers the surfaces of a process in its SVG. */
static void draw_apart(double time, const char *path)
{
    char trouble[DRAW_TROUBLE];
    const pid_t child = fork();
    assert_true(child >= 0);
    if (!child)
        _exit((int)draw_at(time, path, trouble));
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == DRAW_GOOD);
}

static void same_moment_same_bytes(void **state)
{
    (void)state;
    static const char *const endings[] = {"png", "svg", "pdf"};
    char name[32], a[256], b[256];
    for (size_t k = 0; k < 3; k++) {
        snprintf(name, sizeof name, "one.%s", endings[k]);
        path_of(name, a);
        snprintf(name, sizeof name, "two.%s", endings[k]);
        path_of(name, b);
        draw_apart(7.3, a);
        draw_apart(7.3, b);
        same_bytes(a, b);
    }
}

/* A frame drawn alone and the same one within a row. */
static void a_row_is_its_frames(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    const struct frames_options options = {.width = 1024, .height = 768};
    char trouble[DRAW_TROUBLE], row[256], last[256], alone[256];
    int written = 0;
    path_of("row", row);
    assert_int_equal(frames_write(stage.model, stage.run, &options, 2.5, 10.0, row, &written, trouble), DRAW_GOOD);
    assert_int_equal(written, 5);
    assert_int_equal(draw_at(7.5, path_of("alone.png", alone), trouble), DRAW_GOOD);
    same_bytes(path_of("row/frame-00003.png", last), alone);
    stage_close(&stage);
}

static void a_row_ends_with_its_run(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    const struct frames_options options = {.width = 800, .height = 600};
    char trouble[DRAW_TROUBLE], row[256];
    int written = 0;
    path_of("whole", row);
    assert_int_equal(frames_write(stage.model, stage.run, &options, 7.0, (double)INFINITY, row, &written, trouble),
                     DRAW_GOOD);
    assert_int_equal(written, 4); /* 0, 7, 14 s, and the end at 20 s */
    stage_close(&stage);
}

static void bad_names_and_sizes(void **state)
{
    (void)state;
    char trouble[DRAW_TROUBLE], path[256];
    assert_int_equal(draw_at(1.0, path_of("picture.gif", path), trouble), DRAW_BAD_INPUT);
    assert_non_null(strstr(trouble, ".png"));
    assert_false(plot_takes("plot.txt"));
    assert_false(plot_takes(".png"));
    assert_true(plot_takes("a.PNG") && plot_takes("a.svg") && plot_takes("-"));
    struct stage stage = stage_text(rig);
    const struct frames_options tiny = {.width = 100, .height = 100};
    assert_int_equal(frame_write(stage.model, stage.run, &tiny, 1.0, path_of("tiny.png", path), trouble),
                     DRAW_BAD_INPUT);
    stage_close(&stage);
    assert_int_equal(draw_at(1.0, path_of("no/such/folder.png", path), trouble), DRAW_UNWRITABLE);
    assert_true(*trouble);
}

/* /dev/full takes every byte and fails: the sentence says so. */
static void a_full_disk_is_told(void **state)
{
    (void)state;
    char trouble[DRAW_TROUBLE], full[256];
    path_of("full.png", full);
    if (symlink("/dev/full", full))
        skip();
    assert_int_equal(draw_at(1.0, full, trouble), DRAW_UNWRITABLE);
    assert_true(*trouble);
}

static void plots_of_one_and_two_runs(void **state)
{
    (void)state;
    struct stage one = stage_text(rig), two = stage_text(rig);
    char trouble[DRAW_TROUBLE], a[256], b[256], c[256];
    assert_null(ullage_run_command(two.model, two.run, "leak.diameter", "1 mm"));
    ullage_run_advance(one.model, one.run, (double)INFINITY);
    ullage_run_advance(two.model, two.run, (double)INFINITY);
    const struct plot_source main = {one.model, one.run, "half"}, other = {two.model, two.run, "twice as wide"};
    assert_true(plot_write(&main, NULL, path_of("a.png", a), false, trouble));
    assert_true(plot_write(&main, &other, path_of("b.png", b), false, trouble));
    assert_true(plot_write(&main, &other, path_of("c.png", c), false, trouble));
    same_bytes(b, c);
    struct bytes alone = bytes_of(a), both = bytes_of(b);
    assert_true(both.count > alone.count); /* the second run's traces are there */
    free(alone.byte);
    free(both.byte);
    assert_false(plot_write(&main, NULL, path_of("no/such.png", a), false, trouble));
    assert_true(*trouble);
    stage_close(&one);
    stage_close(&two);
}

static int folder_make(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/ullage-draw-XXXXXX");
    return mkdtemp(folder) == NULL;
}

static int folder_remove(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -r %s", folder);
    return system(command) != 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(same_moment_same_bytes),  cmocka_unit_test(a_row_is_its_frames),
        cmocka_unit_test(a_row_ends_with_its_run), cmocka_unit_test(bad_names_and_sizes),
        cmocka_unit_test(a_full_disk_is_told),     cmocka_unit_test(plots_of_one_and_two_runs)};
    const int n = cmocka_run_group_tests(tests, folder_make, folder_remove);
    return n != 0;
}
