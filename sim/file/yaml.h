/* sim/file/yaml.h  Text to tree: the part of YAML 1.2 that files here are written in, and the refusal of the rest. */
#ifndef FILE_YAML_H
#define FILE_YAML_H

#include "base/tree.h"

enum {
    YAML_BYTES_MOST = 1 << 20,  /* of a file */
    YAML_DEPTH_MOST = 64,       /* lists and maps within each other */
    YAML_WORD_MOST = 1 << 16,   /* bytes of one word */
    YAML_NODES_MOST = 500000,
    YAML_KEYS_MOST = 10000,     /* of one map */
};

/* The tree of a text of `size` bytes whose first character stands at `origin`; null with problems added where it is no
 * YAML, breaks a limit above, is empty, or uses what is refused: anchors, aliases, tags, directives, a second document,
 * a duplicate key, a key that is no word. Null without a problem: memory is out. */
struct node *yaml_tree(struct arena *arena, const char *text, size_t size, struct ullage_place origin,
                       struct ullage_problems *found);

/* The pass over the bytes that comes first: UTF-8 without control characters, directives in column 1. False with the
 * first fault added. */
bool bytes_good(const char *text, size_t size, struct ullage_place origin, struct ullage_problems *found);

#endif
