/* sim/file/fault_line.c  A fault told in one line: "KIND WHERE key=value key=value ...". A value may hold spaces; the next
 * key ends it. */
#include "file/edit.h"

#include <string.h>

/* What has not been read of the line. */
struct fault_words {
    const char *at;
    int column; /* of `at` */
};

/* The next word; null at the end. *column receives its own. */
static const char *fault_word(struct reader *reader, struct fault_words *words, int *column)
{
    const size_t gap = strspn(words->at, " ");
    words->at += gap;
    words->column += (int)gap;
    const size_t length = strcspn(words->at, " ");
    if (length == 0)
        return NULL;
    const char *word = reader_text(reader, arena_format(reader->arena, "%.*s", (int)length, words->at));
    *column = words->column;
    words->column += characters(words->at, length);
    words->at += length;
    return word;
}

static void fault_put(struct reader *reader, struct node *map, const char *key, struct ullage_place key_at,
                      const char *text, struct ullage_place at)
{
    struct node *value = node_new(reader, NODE_WORD, at);
    if (!value)
        return;
    value->text = text;
    map_put(reader, map, key, key_at, value);
}

/* key=value, or more of the value before. */
static void fault_pair(struct reader *reader, struct node *map, const char *word, struct ullage_place at)
{
    const char *equals = strchr(word, '=');
    if (equals) {
        const char *key = reader_text(reader, arena_format(reader->arena, "%.*s", (int)(equals - word), word));
        struct ullage_place value_at = at;
        value_at.column += characters(word, (size_t)(equals - word)) + 1;
        fault_put(reader, map, key, at, equals + 1, value_at);
        return;
    }
    struct node *last = map->count > 0 ? map->child[map->count - 1] : NULL;
    if (last && strcmp(last->key, "where") == 0)
        problem_add(reader->found, at, "write KEY=VALUE, like diameter=0.5mm", "there is no = in %s", word);
    else if (last)
        last->text = reader_text(reader, arena_format(reader->arena, "%s %s", last->text, word));
}

/* The fault's name as its id; with -2, -3 where something is called so already. */
static const char *fault_id(struct reader *reader, const struct trees *trees, const char *name)
{
    const struct node *scenario = trees->scenario;
    const char *id = name;
    for (int i = 2; reader->outcome != ULLAGE_OUT_OF_MEMORY; i++) {
        const bool taken = node_find(node_find(trees->system, "parts"), id) ||
                           node_find(node_find(scenario, "equipment"), id) ||
                           fault_find(node_find(scenario, "faults"), id);
        if (!taken)
            return id;
        id = reader_text(reader, arena_format(reader->arena, "%s-%d", name, i));
    }
    return name;
}

void fault_line_read(struct reader *reader, struct trees *trees, const char *argument)
{
    struct ullage_place at, where_at;
    const char *text = argument_text(reader, "--fault", argument, &at);
    if (!text)
        return;
    struct fault_words words = {text, 1};
    where_at = at;
    const char *kind = fault_word(reader, &words, &at.column), *where = fault_word(reader, &words, &where_at.column);
    struct node *map = node_new(reader, NODE_MAP, at);
    if (!map)
        return;
    if (!kind || !where || strchr(kind, '=') || strchr(where, '=')) {
        problem_add(reader->found, at, "write \"leak PART diameter=0.5mm\"",
                    "a fault names its kind and its place first");
        return;
    }
    fault_put(reader, map, "id", at, fault_id(reader, trees, kind), at);
    fault_put(reader, map, "fault", at, kind, at);
    fault_put(reader, map, "where", where_at, where, where_at);
    const char *word;
    struct ullage_place word_at = at;
    while ((word = fault_word(reader, &words, &word_at.column)))
        fault_pair(reader, map, word, word_at);
    struct node *faults = child_under(reader, trees->scenario, "faults", NODE_LIST, at);
    if (faults)
        child_add(reader, faults, map);
}
