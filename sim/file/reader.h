/* sim/file/reader.h  What every reader of a part of a file uses: the description in the making, and the wording of what
 * goes wrong. A reader adds problems and goes on; whether any were added is asked once, at the end. */
#ifndef FILE_READER_H
#define FILE_READER_H

#include "base/tree.h"
#include "network/description.h"

struct reader {
    struct arena *arena; /* the description's; a tree's too */
    struct ullage_problems *found;
    const struct ullage_edits *edits; /* may be null */
    struct ullage_description *into;
    enum ullage_outcome outcome; /* the worst so far */
};

/* Room in the reader's arena; null when memory is out, and then outcome says so. */
void *reader_take(struct reader *reader, size_t bytes);

/* `text` of the arena, or "" where memory is out, and then outcome says so. */
const char *reader_text(struct reader *reader, const char *text);

/* `node` is a map (list), or a problem is added: "WHAT holds keys; EXAMPLE". node may be null: false, no problem. */
bool map_wanted(struct reader *reader, const struct node *node, const char *what, const char *example);
bool list_wanted(struct reader *reader, const struct node *node, const char *what, const char *example);

/* A problem for each key of a map that is not among `known` [count]: "volum is no key of WHOSE; did you mean volume?".
 * True where all are. */
bool keys_wanted(struct reader *reader, const struct node *map, const char *const *known, int count, const char *whose);

/* The text of a word, or null with a problem added: nothing stands there, or a list or map does. node not null. */
const char *word_wanted(struct reader *reader, const struct node *node);

/* A name for something: letters, digits and hyphens (also low lines where `lines`), a letter first. */
bool name_wanted(struct reader *reader, struct ullage_place at, const char *name, bool lines);

/* Index of a word among `choice` [count], or -1 with a problem added. */
int choice_wanted(struct reader *reader, const struct node *node, const char *const *choice, int count);

/* A number with its unit inside its range, else *si is left alone and a problem is added. node may be null: false. */
struct range {
    int dimension;
    double least, most; /* SI; either may be infinite */
};
bool number_wanted(struct reader *reader, const struct node *node, struct range range, double *si);

/* "a, b or c" in at most `size` bytes, shortened by ... */
const char *names_listed(const char *const *name, int count, char *room, size_t size);

/* The nearest of `names`, as "did you mean b?", else "OTHERWISE a, b or c". Returns room. */
const char *offer(const char *word, const char *const *names, int count, const char *otherwise, char *room, size_t size);

#endif
