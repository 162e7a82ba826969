/* sim/procedure/keep.c  A kept file is plain text:
 *
 *     ullage kept/1
 *     ... the recipe, line by line ...
 *     numbers 88
 *     3fb999999999999a           one to a line: the 64 bits of a double in base 16, whatever the locale
 *     sum 0123456789abcdef       FNV-1a of all above
 *
 * To be looked at, removed or carried elsewhere at any time. */
#include "procedure/keep.h"

#include "base/hash.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FILE_MOST ((size_t)1 << 22) /* bytes: 200,000 numbers */

/* The whole file as it must be for these numbers, or its beginning up to the numbers where value is null. */
static char *file_text(const char *recipe, const double *value, int count, size_t *length)
{
    char *text = NULL;
    FILE *to = open_memstream(&text, length);
    if (!to)
        return NULL;
    fprintf(to, "ullage kept/1\n%snumbers %d\n", recipe, count);
    for (int k = 0; value && k < count; k++) {
        uint64_t bits;
        memcpy(&bits, &value[k], sizeof bits);
        fprintf(to, "%016" PRIx64 "\n", bits);
    }
    const bool good = fflush(to) == 0; /* text and length are right from here on */
    if (value && good)
        fprintf(to, "sum %016" PRIx64 "\n", hash_bytes(HASH_OF_NOTHING, text, *length));
    const bool whole = good && !ferror(to);
    if (fclose(to) == 0 && whole)
        return text;
    free(text);
    return NULL;
}

static char *path_of(const char *folder, const char *recipe)
{
    char *path = NULL;
    const uint64_t name = hash_bytes(HASH_OF_NOTHING, recipe, strlen(recipe));
    return asprintf(&path, "%s/%016" PRIx64 ".kept", folder, name) < 0 ? NULL : path;
}

static char *file_read(const char *path, size_t most, size_t *length)
{
    FILE *from = fopen(path, "rbe");
    char *text = from ? malloc(most + 1) : NULL;
    *length = text ? fread(text, 1, most + 1, from) : 0; /* one more than there may be: a longer file is not ours */
    if (text)
        text[*length < most ? *length : most] = '\0';
    if (from)
        (void)fclose(from); /* read only: nothing can be lost */
    return text;
}

static bool numbers_read(const char *text, double *value, int count)
{
    for (int k = 0; k < count; k++) {
        char *end;
        const uint64_t bits = strtoull(text, &end, 16);
        if (end != text + 16 || *end != '\n')
            return false;
        memcpy(&value[k], &bits, sizeof bits);
        text = end + 1;
    }
    return true;
}

/* The numbers, once the file is what it would be if it were written from them. */
static bool text_sound(const char *text, size_t length, const char *recipe, double *value, int count)
{
    size_t head_length = 0, whole_length = 0;
    char *head = file_text(recipe, NULL, count, &head_length);
    bool sound = head && length > head_length && memcmp(text, head, head_length) == 0 &&
                 numbers_read(text + head_length, value, count);
    free(head);
    char *whole = sound ? file_text(recipe, value, count, &whole_length) : NULL;
    sound = whole && length == whole_length && memcmp(text, whole, length) == 0;
    free(whole);
    return sound;
}

bool keep_find(const char *folder, const char *recipe, double *value, int count)
{
    char *path = folder ? path_of(folder, recipe) : NULL;
    size_t length = 0;
    char *text = path ? file_read(path, FILE_MOST, &length) : NULL;
    double *read = text ? malloc(((size_t)count + 1) * sizeof *read) : NULL;
    const bool found = read && text_sound(text, length, recipe, read, count);
    if (found)
        memcpy(value, read, (size_t)count * sizeof *value);
    free(read);
    free(text);
    free(path);
    return found;
}

static bool all_written(int descriptor, const char *text, size_t length)
{
    while (length > 0) {
        const ssize_t wrote = write(descriptor, text, length);
        if (wrote <= 0)
            return false;
        text += wrote;
        length -= (size_t)wrote;
    }
    return true;
}

/* Makes every folder on the way to a file that is not there yet. What cannot be made is found out by the file. */
static void folders_make(char *path)
{
    for (char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        (void)mkdir(path, S_IRWXU);
        *slash = '/';
    }
}

/* Writes beside `path` and renames. */
static void file_put(const char *path, const char *text, size_t length)
{
    char *beside = NULL;
    if (asprintf(&beside, "%s.XXXXXX", path) < 0)
        return;
    const int descriptor = mkstemp(beside);
    if (descriptor >= 0) {
        const bool written = all_written(descriptor, text, length);
        if (close(descriptor) != 0 || !written || rename(beside, path) != 0)
            (void)unlink(beside); /* nothing is kept: the same as before */
    }
    free(beside);
}

void keep_put(const char *folder, const char *recipe, const double *value, int count)
{
    size_t length = 0;
    char *path = folder ? path_of(folder, recipe) : NULL;
    char *text = path ? file_text(recipe, value, count, &length) : NULL;
    if (text && length <= FILE_MOST) {
        folders_make(path);
        file_put(path, text, length);
    }
    free(text);
    free(path);
}
