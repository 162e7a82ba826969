/* sim/file/source.h  Files: reading one whole, and where one that is named in another is searched. */
#ifndef FILE_SOURCE_H
#define FILE_SOURCE_H

#include "file/reader.h"

/* The tree of a file; null with a problem and the reader's outcome set: unreadable, or no YAML. `path` lives in the
 * reader's arena or longer. */
struct node *source_tree(struct reader *reader, const char *path);

/* The same for a text whose first character stands at `origin`. */
struct node *text_tree(struct reader *reader, const char *text, size_t size, struct ullage_place origin);

/* Checks the key `ullage` of a tree against "scenario/1", "system/1" or "procedure/1". */
bool form_wanted(struct reader *reader, const struct node *tree, const char *form);

/* Path of the file that the word `node` of the file `beside` (null: a C program) names. Searched in this order: beside
 * it, in the folder `kind` ("systems", "procedures") beside it, the same one folder up, in `kind` of each of edits->search.
 * ".yaml" may be left out. A file that says it is of another `form` is passed over while there is a
 * better one. Null with a problem added where there is none. */
const char *source_find(struct reader *reader, const struct node *node, const char *beside, const char *kind,
                        const char *form);

#endif
