/* sim/base/tree.c  Looking things up in a tree. */
#include "base/tree.h"

#include <string.h>

struct node *node_find(const struct node *map, const char *key)
{
    if (!map || map->kind != NODE_MAP)
        return NULL;
    for (int i = 0; i < map->count; i++)
        if (strcmp(map->child[i]->key, key) == 0)
            return map->child[i];
    return NULL;
}

const char *node_word(const struct node *map, const char *key)
{
    const struct node *child = node_find(map, key);
    return child && child->kind == NODE_WORD ? child->text : NULL;
}
