/* sim/file/find.c  Where a system or procedure that a scenario names is searched. */
#include "base/text.h"
#include "file/source.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_MOST = 200, ENDING_LENGTH = 5 };

static const char ending[] = ".yaml";

static bool ends_in_yaml(const char *name)
{
    const size_t length = strlen(name);
    return length > ENDING_LENGTH && strcmp(name + length - ENDING_LENGTH, ending) == 0;
}

/* PATH or PATH.yaml if that is a file, else null. */
static const char *file_at(struct reader *reader, const char *folder, const char *name)
{
    const char *path =
        reader_text(reader, arena_format(reader->arena, "%s%s%s", folder, name, ends_in_yaml(name) ? "" : ending));
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode) ? path : NULL;
}

/* The file at `path` says near its beginning that it is something else than `form`: a scenario may have the name of its
 * procedure. What cannot be told counts as no. */
static bool says_other(const char *path, const char *form)
{
    enum { LOOKED_AT = 2048 };

    char text[LOOKED_AT + 1];
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0)
        return false;
    const ssize_t got = read(file, text, LOOKED_AT);
    close(file);
    text[got > 0 ? got : 0] = '\0';
    const char *said = strstr(text, "ullage:");
    if (!said)
        return false;
    said += strlen("ullage:");
    said += strspn(said, " ");
    return strncmp(said, form, strcspn(form, "/")) != 0;
}

/* Folder of a path with its last stroke: "a/b.yaml" gives "a/", "b.yaml" and null give "". */
static const char *folder_of(struct reader *reader, const char *path)
{
    const char *stroke = path ? strrchr(path, '/') : NULL;
    const int length = stroke ? (int)(stroke + 1 - path) : 0;
    return reader_text(reader, arena_format(reader->arena, "%.*s", length, stroke ? path : ""));
}

/* The folders searched, each ending in a stroke or empty. Returns how many were put into folder[most]. */
static int folders_searched(struct reader *reader, const char *beside, const char *kind, const char **folder, int most)
{
    const char *own = folder_of(reader, beside);
    int count = 0;
    folder[count++] = own;
    folder[count++] = arena_format(reader->arena, "%s%s/", own, kind);
    folder[count++] = arena_format(reader->arena, "%s../", own);
    folder[count++] = arena_format(reader->arena, "%s../%s/", own, kind);
    const int searches = reader->edits ? reader->edits->searches : 0;
    for (int i = 0; i < searches && count + 2 <= most; i++) {
        folder[count++] = arena_format(reader->arena, "%s/%s/", reader->edits->search[i], kind);
        folder[count++] = arena_format(reader->arena, "%s/", reader->edits->search[i]);
    }
    for (int i = 0; i < count; i++)
        folder[i] = reader_text(reader, folder[i]);
    return count;
}

/* Names without .yaml of the files in a folder. */
static int names_in(struct reader *reader, const char *folder, const char **name, int count)
{
    DIR *open = opendir(folder);
    if (!open)
        return count;
    const struct dirent *entry;
    while (count < NAMES_MOST && (entry = readdir(open))) {
        if (!ends_in_yaml(entry->d_name))
            continue;
        const int length = (int)strlen(entry->d_name) - ENDING_LENGTH;
        name[count] = arena_format(reader->arena, "%.*s", length, entry->d_name);
        count += name[count] != NULL;
    }
    closedir(open);
    return count;
}

static void not_found(struct reader *reader, const struct node *node, const char *const *folder, int folders,
                      const char *kind)
{
    const char *name[NAMES_MOST];
    int names = 0;
    for (int i = 0; i < folders; i++)
        if (strstr(folder[i], kind))
            names = names_in(reader, folder[i], name, names);
    char right[400], shown[TEXT_SHORT];
    const char *nearest = nearest_name(node->text, name, names);
    if (nearest)
        snprintf(right, sizeof right, "did you mean %s?", nearest);
    else
        snprintf(right, sizeof right,
                 "it is looked for beside this file, in %s/ there, and where the program keeps its own", kind);
    problem_add(reader->found, node->at, right, "no file is found for %s", text_short(node->text, shown));
}

const char *source_find(struct reader *reader, const struct node *node, const char *beside, const char *kind,
                        const char *form)
{
    enum { FOLDERS_MOST = 32 };

    const char *folder[FOLDERS_MOST];
    int folders = 1;
    folder[0] = ""; /* a path from the root is taken as it stands */
    if (node->text[0] != '/')
        folders = folders_searched(reader, beside, kind, folder, FOLDERS_MOST);
    const char *other = NULL;
    for (int i = 0; i < folders; i++) {
        const char *path = file_at(reader, folder[i], node->text);
        if (path && !says_other(path, form))
            return path;
        other = other ? other : path;
    }
    if (other)
        return other; /* its reader says what is wrong with it */
    not_found(reader, node, folder, folders, kind);
    return NULL;
}
