/* sim/file/graft.c  Growing a tree that has been read. */
#include "file/edit.h"

#include <string.h>

struct node *node_new(struct reader *reader, enum node_kind kind, struct ullage_place at)
{
    struct node *node = reader_take(reader, sizeof *node);
    if (node) {
        node->kind = kind;
        node->text = "";
        node->at = node->key_at = at;
    }
    return node;
}

void child_add(struct reader *reader, struct node *parent, struct node *child)
{
    if (!child)
        return;
    if (parent->count == parent->room) {
        const int room = parent->room ? 2 * parent->room : 8;
        struct node **wider = reader_take(reader, (size_t)room * sizeof(struct node *));
        if (!wider)
            return;
        if (parent->count > 0)
            memcpy(wider, parent->child, (size_t)parent->count * sizeof(struct node *));
        parent->child = wider;
        parent->room = room;
    }
    parent->child[parent->count++] = child;
}

void map_drop(struct node *map, const char *key)
{
    int kept = 0;
    for (int i = 0; i < map->count; i++)
        if (strcmp(map->child[i]->key, key) != 0)
            map->child[kept++] = map->child[i];
    map->count = kept;
}

void map_put(struct reader *reader, struct node *map, const char *key, struct ullage_place key_at,
             const struct node *value)
{
    struct node *copy = reader_take(reader, sizeof *copy);
    if (!copy)
        return;
    *copy = *value;
    copy->key = key;
    copy->key_at = key_at;
    for (int i = 0; i < map->count; i++)
        if (strcmp(map->child[i]->key, key) == 0) {
            map->child[i] = copy;
            return;
        }
    child_add(reader, map, copy);
}

struct node *child_under(struct reader *reader, struct node *map, const char *key, enum node_kind kind,
                         struct ullage_place at)
{
    struct node *child = node_find(map, key);
    if (!child) {
        const struct node *made = node_new(reader, kind, at);
        if (made)
            map_put(reader, map, key, at, made);
        child = node_find(map, key);
    }
    return child && child->kind == kind ? child : NULL;
}

struct node *fault_find(const struct node *list, const char *id)
{
    for (int i = 0; list && list->kind == NODE_LIST && i < list->count; i++) {
        const char *own = node_word(list->child[i], "id");
        if (own && strcmp(own, id) == 0)
            return list->child[i];
    }
    return NULL;
}

int characters(const char *text, size_t bytes)
{
    int count = 0;
    for (size_t i = 0; i < bytes; i++)
        count += ((unsigned char)text[i] & 0xC0) != 0x80;
    return count;
}
