/* sim/base/tree.h  A document as a tree of words, lists and maps, each with its place. What YAML is read into; what
 * readers of parts and steps walk over. Knows no YAML. One arena holds a whole tree. */
#ifndef BASE_TREE_H
#define BASE_TREE_H

#include "base/problem.h"

enum node_kind { NODE_WORD, NODE_LIST, NODE_MAP };

struct node {
    enum node_kind kind;
    int room; /* children that `child` has room for */
    const char *key; /* in a map; else null */
    struct ullage_place key_at, at;
    const char *text; /* NODE_WORD: never null; "" for an empty value */
    bool quoted;      /* NODE_WORD written in quotes */
    int count;        /* children of a list or map */
    struct node **child;
};

struct arena; /* grows; freed at once */
struct arena *arena_create(void);
void arena_free(struct arena *arena);
void *arena_take(struct arena *arena, size_t bytes); /* zeroed, aligned for any type; null when memory is out */
char *arena_text(struct arena *arena, const char *text);
char *arena_format(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The child of a map under `key`, or null. map may be null or no map. */
struct node *node_find(const struct node *map, const char *key);
/* The child's word, or null where it is missing or no word. */
const char *node_word(const struct node *map, const char *key);

#endif
