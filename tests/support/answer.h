/* tests/support/answer.h  Runs the built program on something broken and judges how it answers: FILE:LINE:COLUMN, what is
 * wrong, what would be right, the exit code, in a second and 200 MB. */
#ifndef SUPPORT_ANSWER_H
#define SUPPORT_ANSWER_H

#include "support/near.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/capability.h>
#include <signal.h>
#include <stdbool.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { BAD_INPUT = 2, UNREADABLE = 4 }; /* exit codes */

enum { MEMORY_MOST = 200 * 1024 }; /* kB */

enum { PATIENCE = 20 }; /* s: what hangs is ended, so that the test goes on */

static const double seconds_most = 1.0;       /* of the plain program */
static const double sanitized_seconds = 10.0; /* sanitizers slow it down, and their memory is not ours */

static inline bool sanitized(void)
{
    const char *said = getenv("ULLAGE_SANITIZED");
    return said && strcmp(said, "1") == 0;
}

/* ---- running the program ---- */
struct answer {
    int code;               /* exit code; -1: a signal ended it */
    double seconds, waited; /* of the processor; by the clock */
    long kilobytes;
    char said[4096]; /* beginning of what it said on standard error */
};

/* Root reads what it has no right to, unless it gives that power up. */
static inline void powers_dropped(void)
{
    prctl(PR_CAPBSET_DROP, CAP_DAC_OVERRIDE, 0, 0, 0);
    prctl(PR_CAPBSET_DROP, CAP_DAC_READ_SEARCH, 0, 0, 0);
}

static inline void child_runs(const char *const *arguments, int said)
{
    const struct rlimit memory = {(rlim_t)MEMORY_MOST * 1024, (rlim_t)MEMORY_MOST * 1024};
    const int nothing = open("/dev/null", O_RDWR);
    dup2(nothing, STDIN_FILENO);
    dup2(nothing, STDOUT_FILENO);
    dup2(said, STDERR_FILENO);
    powers_dropped();
    if (!sanitized())
        setrlimit(RLIMIT_DATA, &memory);
    alarm(PATIENCE);
    execv(arguments[0], (char *const *)arguments); /* execv changes none of them */
    _exit(127);
}

static inline double seconds_of(struct timeval time)
{
    return (double)time.tv_sec + 1e-6 * (double)time.tv_usec;
}

static inline double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static inline void said_read(int from, struct answer *answer)
{
    size_t size = 0;
    char rest[4096];
    for (;;) {
        const bool keep = size + 1 < sizeof answer->said;
        const ssize_t got =
            read(from, keep ? answer->said + size : rest, keep ? sizeof answer->said - 1 - size : sizeof rest);
        if (got <= 0 && !(got < 0 && errno == EINTR))
            break;
        size += keep && got > 0 ? (size_t)got : 0;
    }
    answer->said[size] = '\0';
}

static inline struct answer program_runs(const char *const *arguments)
{
    struct answer answer = {0};
    int pipes[2], status = 0;
    struct rusage used = {0};
    assert_int_equal(pipe(pipes), 0);
    const double before = now();
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        close(pipes[0]);
        child_runs(arguments, pipes[1]);
    }
    close(pipes[1]);
    said_read(pipes[0], &answer);
    close(pipes[0]);
    assert_int_equal(wait4(child, &status, 0, &used), child);
    answer.seconds = seconds_of(used.ru_utime) + seconds_of(used.ru_stime); /* its own: others may be at work */
    answer.waited = now() - before;
    answer.kilobytes = used.ru_maxrss;
    answer.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return answer;
}

static const char *program(void)
{
    const char *path = getenv("ULLAGE");
    if (!path || access(path, X_OK) != 0)
        fail_msg("the environment's ULLAGE names no program: %s", path ? path : "");
    return path;
}

static inline struct answer run_of(const char *path, const char *output)
{
    const char *const arguments[] = {program(), "run", path, "--quiet", "--csv", output, NULL};
    return program_runs(arguments);
}

static inline struct answer check_of(const char *path)
{
    const char *const arguments[] = {program(), "check", path, NULL};
    return program_runs(arguments);
}

/* ---- judging the answer ---- */
/* Every line of it: PLACE: what is wrong; what would be right. */
static inline void sentences_are_whole(const char *path, const char *said)
{
    char line[sizeof((struct answer *)0)->said];
    for (const char *at = said; strchr(at, '\n'); at = strchr(at, '\n') + 1) {
        snprintf(line, sizeof line, "%.*s", (int)(strchr(at, '\n') - at), at);
        const char *wrong = strstr(line, ": "), *right = strstr(line, "; ");
        if (!wrong || !right || right < wrong + 3 || strlen(right) < 6)
            fail_msg("%s: this says not what is wrong and what would be right: %s", path, line);
    }
}

static inline void answer_is_quick(const char *path, const struct answer *answer)
{
    const double most = sanitized() ? sanitized_seconds : seconds_most;
    if (answer->seconds > most || answer->waited > 10.0 * most)
        fail_msg("%s: took %.2f s of the processor and %.2f s by the clock, allowed %.1f s", path, answer->seconds,
                 answer->waited, most);
    if (!sanitized() && answer->kilobytes > MEMORY_MOST)
        fail_msg("%s: took %ld kB, allowed %d kB", path, answer->kilobytes, MEMORY_MOST);
}

/* `place` begins what is said, which holds `says`. */
static inline void answer_is(const char *path, const struct answer *answer, int code, const char *place,
                             const char *says)
{
    if (answer->code != code)
        fail_msg("%s: exit %d, wanted %d; it said: %s", path, answer->code, code, answer->said);
    char first[sizeof answer->said];
    snprintf(first, sizeof first, "%.*s", (int)strcspn(answer->said, "\n"), answer->said);
    const char *at = strstr(first, place);
    if (!at || !strstr(first, says))
        fail_msg("%s: it said: %s\nwanted: %s ... %s", path, first, place, says);
    sentences_are_whole(path, answer->said);
    answer_is_quick(path, answer);
}

static inline void no_file(const char *path)
{
    if (access(path, F_OK) == 0)
        fail_msg("%s was left behind", path);
}

/* ---- a folder of our own ---- */
static inline int folder_made(void **state)
{
    static char name[] = "/tmp/ullage-hostile-XXXXXX";
    *state = mkdtemp(name);
    return *state == NULL;
}

static inline int folder_removed(void **state)
{
    return rmdir(*state);
}

#endif
