/* sim/file/source.c  Reading a file whole, with its limits, and checking what it says it is. */
#include "file/source.h"

#include "base/text.h"
#include "file/yaml.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { READ_MOST = YAML_BYTES_MOST + 1 }; /* one byte more tells that a file is too long */

/* ---- reading ---- */
static void unreadable(struct reader *reader, const char *path, const char *wrong, const char *right)
{
    reader->outcome = ULLAGE_UNREADABLE;
    problem_add(reader->found, (struct ullage_place){path, 0, 0}, right, "%s", wrong);
}

static void open_failed(struct reader *reader, const char *path, int error)
{
    char room[128];
    if (error == ENOENT || error == ENOTDIR)
        unreadable(reader, path, "there is no such file", "look at its name and folder");
    else if (error == EACCES || error == EPERM)
        unreadable(reader, path, "this file may not be read", "give yourself the right to read it");
    else
        unreadable(reader, path, strerror_r(error, room, sizeof room), "look at its name and folder");
}

/* An open regular file, or -1 with a problem. O_NONBLOCK: a pipe without a writer must not hold us up. */
static int file_open(struct reader *reader, const char *path)
{
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        open_failed(reader, path, errno);
        return -1;
    }
    struct stat about;
    if (fstat(file, &about) == 0 && S_ISREG(about.st_mode))
        return file;
    if (S_ISDIR(about.st_mode))
        unreadable(reader, path, "this is a folder", "name a file in it");
    else
        unreadable(reader, path, "this is no regular file", "save it as a file first");
    close(file);
    return -1;
}

/* Up to `most` bytes; -1 when reading fails. */
static ssize_t file_read(int file, char *into, size_t most)
{
    size_t size = 0;
    while (size < most) {
        const ssize_t got = read(file, into + size, most - size);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return -1;
        if (got == 0)
            break;
        size += (size_t)got;
    }
    return (ssize_t)size;
}

struct node *text_tree(struct reader *reader, const char *text, size_t size, struct ullage_place origin)
{
    const int before = ullage_problems_count(reader->found);
    struct node *tree = yaml_tree(reader->arena, text, size, origin, reader->found);
    if (!tree && ullage_problems_count(reader->found) == before)
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    return tree;
}

struct node *source_tree(struct reader *reader, const char *path)
{
    const int file = file_open(reader, path);
    if (file < 0)
        return NULL;
    char *text = malloc(READ_MOST);
    const ssize_t size = text ? file_read(file, text, READ_MOST) : 0;
    const int error = errno;
    close(file);
    struct node *tree = NULL;
    if (!text)
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    else if (size < 0)
        open_failed(reader, path, error);
    else
        tree = text_tree(reader, text, (size_t)size, (struct ullage_place){path, 1, 1});
    free(text);
    return tree;
}

/* ---- what a file says it is ---- */
bool form_wanted(struct reader *reader, const struct node *tree, const char *form)
{
    char right[64], shown[TEXT_SHORT];
    snprintf(right, sizeof right, "begin it with ullage: %s", form);
    if (!map_wanted(reader, tree, "a file", right))
        return false;
    const struct node *said = node_find(tree, "ullage");
    if (!said) {
        problem_add(reader->found, tree->at, right, "this file does not say what it is");
        return false;
    }
    const char *word = word_wanted(reader, said);
    if (!word || strcmp(word, form) == 0)
        return word != NULL;
    snprintf(right, sizeof right, "ullage: %s is wanted here", form);
    problem_add(reader->found, said->at, right, "this file is a %s", text_short(word, shown));
    return false;
}
