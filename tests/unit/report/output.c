/* tests/unit/report/output.c  A file is written whole or not at all, whatever fails. */
#include "report/output.h"

#include "support/near.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[64];

static const char *in_folder(const char *name, char *room)
{
    snprintf(room, 128, "%s/%s", folder, name);
    return room;
}

static void file_make(const char *path, const char *text, mode_t mode)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
    assert_int_equal(chmod(path, mode), 0);
}

static void file_holds(const char *path, const char *want)
{
    char got[256] = "";
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    const size_t bytes = fread(got, 1, sizeof got - 1, file);
    assert_int_equal(fclose(file), 0);
    got[bytes] = '\0';
    assert_string_equal(got, want);
}

/* Entries of the folder, without the two dots: what stands beside would be one too many. */
static int folder_entries(void)
{
    DIR *opened = opendir(folder);
    assert_non_null(opened);
    int count = -2;
    while (readdir(opened))
        count++;
    assert_int_equal(closedir(opened), 0);
    return count;
}

static int folder_begin(void **unused)
{
    (void)unused;
    strcpy(folder, "/tmp/ullage-output-XXXXXX");
    return mkdtemp(folder) ? 0 : -1;
}

static int folder_end(void **unused)
{
    (void)unused;
    char command[96];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

static struct output *opened(const char *path)
{
    int failure = -1;
    struct output *output = output_open(path, &failure);
    assert_int_equal(failure, 0);
    assert_non_null(output);
    return output;
}

static void not_opened(const char *path, int want)
{
    int failure = 0;
    assert_null(output_open(path, &failure));
    assert_int_equal(failure, want);
}

static void the_old_file_stands_until_the_end(void **unused)
{
    (void)unused;
    char path[128];
    file_make(in_folder("a", path), "old", 0640);
    struct output *output = opened(path);
    fputs("new", output_stream(output));
    fflush(output_stream(output));
    file_holds(path, "old");
    assert_int_equal(output_close(output), 0);
    file_holds(path, "new");
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640); /* and keeps its rights */
    assert_int_equal(folder_entries(), 1);
}

static void a_new_file_has_the_usual_rights(void **unused)
{
    (void)unused;
    char path[128];
    const mode_t before = umask(027);
    struct output *output = opened(in_folder("a", path));
    umask(before);
    assert_int_equal(output_close(output), 0);
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
}

static void what_is_dropped_leaves_no_trace(void **unused)
{
    (void)unused;
    char path[128];
    char other[128];
    file_make(in_folder("a", path), "old", 0600);
    struct output *output = opened(path);
    struct output *second = opened(in_folder("b", other));
    fputs("new", output_stream(output));
    output_drop(output);
    output_drop(second);
    output_drop(NULL);
    file_holds(path, "old");
    assert_int_equal(folder_entries(), 1);
}

static void abandoning_removes_what_stands_beside(void **unused)
{
    (void)unused;
    char path[128];
    file_make(in_folder("a", path), "old", 0600);
    struct output *output = opened(path);
    assert_int_equal(folder_entries(), 2);
    outputs_abandon();
    assert_int_equal(folder_entries(), 1);
    file_holds(path, "old");
    output_drop(output);
}

static void a_link_is_followed(void **unused)
{
    (void)unused;
    char path[128];
    char link[128];
    file_make(in_folder("a", path), "old", 0600);
    assert_int_equal(symlink("a", in_folder("link", link)), 0);
    struct output *output = opened(link);
    fputs("new", output_stream(output));
    assert_int_equal(output_close(output), 0);
    file_holds(path, "new");
    struct stat about;
    assert_int_equal(lstat(link, &about), 0);
    assert_true(S_ISLNK(about.st_mode));
}

static void what_cannot_be_opened_says_why(void **unused)
{
    (void)unused;
    char path[128];
    not_opened(folder, EISDIR);
    not_opened("", ENOENT);
    not_opened(in_folder("none/a", path), ENOENT);
    char name[300];
    memset(name, 'n', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    not_opened(name, ENAMETOOLONG);
    file_make(in_folder("a", path), "", 0600);
    strcat(path, "/b");
    not_opened(path, ENOTDIR);
    assert_int_equal(folder_entries(), 1);
}

/* As another user, for whom rights hold: in a child, since there is no way back. */
static void rights_are_heeded(void **unused)
{
    (void)unused;
    char path[128];
    file_make(in_folder("a", path), "old", 0444);
    assert_int_equal(chmod(folder, 0777), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        int failure = 0;
        const bool other = getuid() != 0 || (setgid(65534) == 0 && setuid(65534) == 0);
        const bool read_only = other && !output_open(path, &failure) && failure == EACCES;
        const bool no_folder = !output_open("/usr/ullage-test", &failure) && failure == EACCES;
        _exit(read_only && no_folder ? 0 : 1);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    file_holds(path, "old");
    assert_int_equal(folder_entries(), 1);
}

static void a_device_is_written_straight(void **unused)
{
    (void)unused;
    struct output *output = opened("/dev/null");
    fputs("new", output_stream(output));
    assert_int_equal(output_close(output), 0);
    struct stat about;
    assert_int_equal(stat("/dev/null", &about), 0);
    assert_true(S_ISCHR(about.st_mode)); /* and is still one */
}

static void a_full_device_is_told(void **unused)
{
    (void)unused;
    struct output *output = opened("/dev/full");
    fputs("new", output_stream(output));
    assert_int_equal(output_close(output), ENOSPC);
    output = opened("/dev/full"); /* more than stdio's room: the first failure is the one kept */
    for (int i = 0; i < 100000; i++)
        fputs("0123456789", output_stream(output));
    assert_int_equal(output_close(output), ENOSPC);
}

/* A limit on the size of files stands for a disk that fills up, at every byte of a small file and at some of a large. */
static void a_full_disk_leaves_the_old_file(void **unused)
{
    (void)unused;
    char path[128];
    static const rlim_t room[] = {0, 1, 2, 4095, 4096, 4097, 99999};
    struct rlimit before;
    file_make(in_folder("a", path), "old", 0600);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    void (*const handler)(int) = signal(SIGXFSZ, SIG_IGN);
    for (size_t i = 0; i < sizeof room / sizeof room[0]; i++) {
        struct output *output = opened(path);
        const struct rlimit narrow = {room[i], before.rlim_max};
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &narrow), 0);
        for (int line = 0; line < 10000; line++)
            fputs("0123456789", output_stream(output));
        const int failure = output_close(output);
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
        assert_int_equal(failure, EFBIG);
        file_holds(path, "old");
        assert_int_equal(folder_entries(), 1);
    }
    signal(SIGXFSZ, handler);
}

static void a_broken_pipe_is_told(void **unused)
{
    (void)unused;
    int end[2];
    char path[64];
    void (*const handler)(int) = signal(SIGPIPE, SIG_IGN);
    assert_int_equal(pipe(end), 0);
    snprintf(path, sizeof path, "/dev/fd/%d", end[1]);
    struct output *output = opened(path);
    assert_int_equal(close(end[0]), 0);
    fputs("new", output_stream(output));
    assert_int_equal(output_close(output), EPIPE);
    assert_int_equal(close(end[1]), 0);
    signal(SIGPIPE, handler);
}

/* The folder goes away while a file is being written: the rename is what fails. */
static void a_failed_rename_is_told(void **unused)
{
    (void)unused;
    char path[128];
    char inner[128];
    assert_int_equal(mkdir(in_folder("inner", inner), 0700), 0);
    struct output *output = opened(in_folder("inner/a", path));
    fputs("new", output_stream(output));
    outputs_abandon();
    assert_int_equal(rmdir(inner), 0);
    assert_int_equal(output_close(output), ENOENT);
}

static void no_more_than_sixteen_at_once(void **unused)
{
    (void)unused;
    struct output *output[16];
    char path[128];
    char name[16];
    for (int i = 0; i < 16; i++) {
        snprintf(name, sizeof name, "%d", i);
        output[i] = opened(in_folder(name, path));
    }
    not_opened(in_folder("more", path), EMFILE);
    for (int i = 0; i < 16; i++)
        assert_int_equal(output_close(output[i]), 0);
    assert_int_equal(folder_entries(), 16);
}

#define IN_A_FOLDER(test) cmocka_unit_test_setup_teardown(test, folder_begin, folder_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_FOLDER(the_old_file_stands_until_the_end),
        IN_A_FOLDER(a_new_file_has_the_usual_rights),
        IN_A_FOLDER(what_is_dropped_leaves_no_trace),
        IN_A_FOLDER(abandoning_removes_what_stands_beside),
        IN_A_FOLDER(a_link_is_followed),
        IN_A_FOLDER(what_cannot_be_opened_says_why),
        IN_A_FOLDER(rights_are_heeded),
        cmocka_unit_test(a_device_is_written_straight),
        cmocka_unit_test(a_full_device_is_told),
        IN_A_FOLDER(a_full_disk_leaves_the_old_file),
        cmocka_unit_test(a_broken_pipe_is_told),
        IN_A_FOLDER(a_failed_rename_is_told),
        IN_A_FOLDER(no_more_than_sixteen_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
