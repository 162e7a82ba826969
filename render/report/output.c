/* report/output.c  A file that is written whole or not at all: beside its place, then renamed.
 *
 * The stream is a stdio stream over our own write function, because stdio remembers that something failed but not what:
 * here the errno of the first failed write is kept. */
#include "report/output.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { OUTPUTS_MOST = 16, BESIDE_TRIES = 100 };

struct output {
    int descriptor;
    int failure;   /* errno of the first failure; 0: none */
    bool straight; /* device, pipe, standard output: nothing stands beside */
    int slot;      /* in beside_name; -1: none */
    FILE *stream;
    char path[PATH_MAX]; /* where the file belongs, links followed */
};

/* Names that stand beside, for outputs_abandon. A handler may look at any moment: a name is written wholly before its
 * flag is set, and its flag is cleared before the name is used again. */
static char beside_name[OUTPUTS_MOST][PATH_MAX];
static volatile char beside_stands[OUTPUTS_MOST];

void outputs_abandon(void)
{
    for (int slot = 0; slot < OUTPUTS_MOST; slot++)
        if (beside_stands[slot])
            (void)unlink(beside_name[slot]); /* nobody is left to tell */
}

static void output_fail(struct output *output, int failure)
{
    if (output->failure == 0)
        output->failure = failure;
}

static ssize_t output_write(void *cookie, const char *bytes, size_t count)
{
    struct output *output = cookie;
    size_t done = 0;
    while (output->failure == 0 && done < count) {
        const ssize_t wrote = write(output->descriptor, bytes + done, count - done);
        if (wrote < 0) {
            output_fail(output, errno); /* EINTR too: only a signal that ends the program interrupts */
            break;
        }
        done += (size_t)wrote;
    }
    return output->failure == 0 ? (ssize_t)count : 0; /* 0 is how this interface says it failed */
}

static int beside_slot(void)
{
    for (int slot = 0; slot < OUTPUTS_MOST; slot++)
        if (!beside_stands[slot])
            return slot;
    return -1;
}

/* Opens .ullage-PID-N in the folder of output->path. Returns 0 or an errno. */
static int beside_open(struct output *output, mode_t mode)
{
    const int slot = beside_slot();
    if (slot < 0)
        return EMFILE;
    const char *slash = strrchr(output->path, '/');
    const int folder = slash ? (int)(slash - output->path) + 1 : 0;
    for (int number = 0; number < BESIDE_TRIES; number++) {
        const int length =
            snprintf(beside_name[slot], PATH_MAX, "%.*s.ullage-%ld-%d", folder, output->path, (long)getpid(), number);
        if (length < 0 || length >= PATH_MAX)
            return ENAMETOOLONG;
        beside_stands[slot] = 1;
        output->descriptor = open(beside_name[slot], O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
        if (output->descriptor >= 0) {
            output->slot = slot;
            return 0;
        }
        beside_stands[slot] = 0;
        if (errno != EEXIST)
            return errno;
    }
    return EEXIST;
}

/* A file that exists keeps its rights, and one that may not be written is not replaced. */
static int regular_open(struct output *output, const char *path, const struct stat *old)
{
    if (!old) {
        const size_t bytes = strlen(path) + 1;
        if (bytes > PATH_MAX)
            return ENAMETOOLONG;
        memcpy(output->path, path, bytes);
        return beside_open(output, 0666);
    }
    if (!realpath(path, output->path) || faccessat(AT_FDCWD, output->path, W_OK, AT_EACCESS) != 0)
        return errno;
    const int failure = beside_open(output, 0600);
    if (failure)
        return failure;
    return fchmod(output->descriptor, old->st_mode & 07777) == 0 ? 0 : errno;
}

static int straight_open(struct output *output, const char *path)
{
    output->straight = true;
    output->descriptor = strcmp(path, "-") == 0 ? dup(STDOUT_FILENO) : open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
    return output->descriptor >= 0 ? 0 : errno;
}

static int any_open(struct output *output, const char *path)
{
    struct stat old;
    if (strcmp(path, "-") == 0)
        return straight_open(output, path);
    if (*path == '\0')
        return ENOENT;
    if (stat(path, &old) != 0)
        return errno == ENOENT ? regular_open(output, path, NULL) : errno;
    if (S_ISDIR(old.st_mode))
        return EISDIR;
    return S_ISREG(old.st_mode) ? regular_open(output, path, &old) : straight_open(output, path);
}

struct output *output_open(const char *path, int *failure)
{
    struct output *output = calloc(1, sizeof *output);
    if (!output) {
        *failure = ENOMEM;
        return NULL;
    }
    output->descriptor = -1;
    output->slot = -1;
    *failure = any_open(output, path);
    if (*failure == 0) {
        output->stream = fopencookie(output, "w", (cookie_io_functions_t){.write = output_write});
        *failure = output->stream ? 0 : ENOMEM;
    }
    if (*failure == 0)
        return output;
    output_drop(output);
    return NULL;
}

FILE *output_stream(const struct output *output)
{
    return output->stream;
}

/* Flushes and closes; the failure, if any, is kept. */
static void output_shut(struct output *output)
{
    if (output->stream && fclose(output->stream) != 0)
        output_fail(output, errno);
    if (output->descriptor >= 0 && close(output->descriptor) != 0)
        output_fail(output, errno);
    output->stream = NULL;
    output->descriptor = -1;
}

int output_close(struct output *output)
{
    if (ferror(output->stream))
        output_fail(output, EIO); /* only where no write of ours failed: memory inside stdio */
    output_shut(output);
    if (output->failure == 0 && output->slot >= 0) {
        if (rename(beside_name[output->slot], output->path) == 0)
            beside_stands[output->slot] = 0;
        else
            output_fail(output, errno);
    }
    const int failure = output->failure;
    output_drop(output);
    return failure;
}

void output_drop(struct output *output)
{
    if (!output)
        return;
    output_shut(output);
    if (output->slot >= 0 && beside_stands[output->slot]) {
        (void)unlink(beside_name[output->slot]); /* what stood in its place is untouched either way */
        beside_stands[output->slot] = 0;
    }
    free(output);
}
