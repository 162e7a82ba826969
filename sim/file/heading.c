/* sim/file/heading.c  What a file says of itself, for lists of files. */
#include "file/scenario.h"
#include "file/source.h"

#include <stdio.h>
#include <string.h>

/* The child's word, cut to fit; "" where there is none. */
static void word_copy(const struct node *map, const char *key, char *room, size_t size)
{
    const char *word = node_word(map, key);
    snprintf(room, size, "%s", word ? word : "");
}

static bool heading_read(const char *path, struct ullage_heading *heading, struct ullage_problems *problems)
{
    struct reader reader;
    if (!reader_begin(&reader, NULL, problems))
        return false;
    const struct node *tree = source_tree(&reader, path);
    if (tree) {
        word_copy(tree, "ullage", heading->form, sizeof heading->form);
        word_copy(tree, "name", heading->name, sizeof heading->name);
        word_copy(tree, "about", heading->about, sizeof heading->about);
    }
    arena_free(reader.arena);
    return heading->form[0] != '\0';
}

bool ullage_heading_read(const char *path, struct ullage_heading *heading)
{
    memset(heading, 0, sizeof *heading);
    struct ullage_problems *problems = ullage_problems_create();
    const bool read = problems && heading_read(path, heading, problems);
    ullage_problems_free(problems);
    return read;
}
