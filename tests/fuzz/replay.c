/* tests/fuzz/replay.c  A main for a fuzz target without libFuzzer: every file of the folders named goes through it once. */
#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

enum { INPUT_MOST = 1 << 21 }; /* bytes: above the limit of the files read */

static bool file_replayed(const char *path)
{
    FILE *file = fopen(path, "rb");
    unsigned char *data = malloc(INPUT_MOST);
    if (!file || !data) {
        fprintf(stderr, "%s: cannot be read\n", path);
        return false;
    }
    const size_t size = fread(data, 1, INPUT_MOST, file);
    fclose(file);
    unsigned char *exact = malloc(size > 0 ? size : 1); /* its own end, so that a read beyond it is seen */
    if (exact) {
        memcpy(exact, data, size);
        LLVMFuzzerTestOneInput(exact, size);
    }
    free(exact);
    free(data);
    return exact != NULL;
}

/* Files of a folder; -1: one could not be read. */
static int folder_replayed(const char *folder)
{
    DIR *open = opendir(folder);
    if (!open)
        return -1;
    int count = 0;
    const struct dirent *entry;
    while (count >= 0 && (entry = readdir(open))) {
        char path[4096];
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        count = file_replayed(path) ? count + 1 : -1;
    }
    closedir(open);
    return count;
}

int main(int count, char **folder)
{
    int replayed = 0;
    for (int i = 1; i < count; i++) {
        const int files = folder_replayed(folder[i]);
        if (files <= 0) {
            fprintf(stderr, "%s: holds nothing to replay\n", folder[i]);
            return 1;
        }
        replayed += files;
    }
    printf("%d inputs replayed\n", replayed);
    return replayed == 0;
}
