/* sim/file/reader.c  The wording of what goes wrong in a value, once for all readers. */
#include "file/reader.h"

#include "base/text.h"
#include "base/unit.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SENTENCE = 160, RIGHT = 400, NAME_LONGEST = 40 };

void *reader_take(struct reader *reader, size_t bytes)
{
    void *taken = arena_take(reader->arena, bytes);
    if (!taken)
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    return taken;
}

const char *reader_text(struct reader *reader, const char *text)
{
    if (!text)
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
    return text ? text : "";
}

/* ---- names ---- */
const char *names_listed(const char *const *name, int count, char *room, size_t size)
{
    size_t used = 0;
    room[0] = '\0';
    for (int i = 0; i < count; i++) {
        const char *before = i == 0 ? "" : i == count - 1 ? " or " : ", ";
        if (used + strlen(before) + strlen(name[i]) + sizeof ", ..." > size) {
            snprintf(room + used, size - used, ", ...");
            return room;
        }
        used += (size_t)snprintf(room + used, size - used, "%s%s", before, name[i]);
    }
    return room;
}

const char *offer(const char *word, const char *const *names, int count, const char *otherwise, char *room, size_t size)
{
    const char *nearest = nearest_name(word, names, count);
    if (nearest || count == 0) {
        snprintf(room, size, "%s%s%s", nearest ? "did you mean " : "there are ", nearest ? nearest : "none",
                 nearest ? "?" : "");
        return room;
    }
    const int used = snprintf(room, size, "%s ", otherwise);
    names_listed(names, count, room + used, size - (size_t)used);
    return room;
}

bool name_wanted(struct reader *reader, struct ullage_place at, const char *name, bool lines)
{
    char shown[TEXT_SHORT];
    bool good = isalpha((unsigned char)name[0]) && strlen(name) <= NAME_LONGEST;
    for (const char *c = name; *c; c++)
        good = good && (isalnum((unsigned char)*c) || *c == '-' || (lines && *c == '_'));
    if (!good)
        problem_add(reader->found, at,
                    lines ? "write letters, digits, - and _, a letter first, at most 40"
                          : "write letters, digits and hyphens, a letter first, at most 40",
                    "%s cannot be a name", *name ? text_short(name, shown) : "nothing");
    return good;
}

/* ---- forms ---- */
/* A missing space after ':' makes one word of key and value: the likeliest reason for a word where a map is wanted. */
static const char *unspaced(const struct node *node, const char *otherwise)
{
    return node->kind == NODE_WORD && strchr(node->text, ':') ? "put a space after ':'" : otherwise;
}

bool map_wanted(struct reader *reader, const struct node *node, const char *what, const char *example)
{
    if (!node || node->kind == NODE_MAP)
        return node != NULL;
    problem_add(reader->found, node->at, unspaced(node, example), "%s holds keys with values", what);
    return false;
}

bool list_wanted(struct reader *reader, const struct node *node, const char *what, const char *example)
{
    if (!node || node->kind == NODE_LIST)
        return node != NULL;
    problem_add(reader->found, node->at, example, "%s is a list", what);
    return false;
}

bool keys_wanted(struct reader *reader, const struct node *map, const char *const *known, int count, const char *whose)
{
    bool all_known = true;
    for (int i = 0; i < map->count; i++) {
        const char *key = map->child[i]->key;
        bool good = false;
        for (int k = 0; k < count && !good; k++)
            good = strcmp(key, known[k]) == 0;
        if (good)
            continue;
        all_known = false;
        if (problems_full(reader->found))
            return false;
        char right[RIGHT], shown[TEXT_SHORT];
        const bool glued = strchr(key, ':') && map->child[i]->kind == NODE_WORD && !*map->child[i]->text;
        problem_add(reader->found, map->child[i]->key_at,
                    glued ? "put a space after ':'" : offer(key, known, count, "it may have", right, sizeof right),
                    "%s is no key of %s", text_short(key, shown), whose);
    }
    return all_known;
}

/* ---- values ---- */
const char *word_wanted(struct reader *reader, const struct node *node)
{
    const char *what = node->key ? node->key : "this";
    char shown[TEXT_SHORT];
    text_short(what, shown);
    if (node->kind == NODE_WORD && (*node->text || node->quoted))
        return node->text;
    if (node->kind == NODE_WORD)
        problem_add(reader->found, node->key_at, "write one after it", "%s has no value", shown);
    else
        problem_add(reader->found, node->at, "write a single value", "%s holds a %s", shown,
                    node->kind == NODE_LIST ? "list" : "map");
    return NULL;
}

int choice_wanted(struct reader *reader, const struct node *node, const char *const *choice, int count)
{
    const char *word = word_wanted(reader, node);
    if (!word)
        return -1;
    for (int i = 0; i < count; i++)
        if (strcmp(word, choice[i]) == 0)
            return i;
    char right[RIGHT], shown[TEXT_SHORT];
    problem_add(reader->found, node->at, offer(word, choice, count, "write", right, sizeof right), "%s cannot be %s",
                node->key ? node->key : "this", *word ? text_short(word, shown) : "empty");
    return -1;
}

/* The limits in the unit that was written, so that they can be compared by eye. */
static const char *range_said(const char *text, struct range range, char *room, size_t size)
{
    const char *end = number_end(text + strspn(text, " \t\n"), true);
    const char *unit = end + strspn(end, " \t\n");
    char probe[TEXT_SHORT + 2];
    double at_0 = 0.0, at_1 = 1.0;
    int dimension = 0;
    snprintf(probe, sizeof probe, "0 %s", unit);
    ullage_quantity_read(probe, &at_0, &dimension);
    snprintf(probe, sizeof probe, "1 %s", unit);
    ullage_quantity_read(probe, &at_1, &dimension);
    const double least = (range.least - at_0) / (at_1 - at_0), most = (range.most - at_0) / (at_1 - at_0);
    const char *space = *unit ? " " : "";
    if (isinf(range.most))
        snprintf(room, size, "write at least %.6g%s%s", least, space, unit);
    else if (isinf(range.least))
        snprintf(room, size, "write at most %.6g%s%s", most, space, unit);
    else
        snprintf(room, size, "write a value from %.6g to %.6g%s%s", least, most, space, unit);
    return room;
}

bool number_wanted(struct reader *reader, const struct node *node, struct range range, double *si)
{
    const char *text = node ? word_wanted(reader, node) : NULL;
    if (!text)
        return false;
    char room[SENTENCE], right[RIGHT], shown[TEXT_SHORT];
    double value = 0.0;
    const char *sentence = unit_read(text, range.dimension, &value, room);
    if (sentence) {
        problem_say(reader->found, node->at, sentence);
        return false;
    }
    if (value < range.least || value > range.most) {
        problem_add(reader->found, node->at, range_said(text, range, right, sizeof right), "%s is out of range for %s",
                    text_short(text, shown), node->key ? node->key : "this");
        return false;
    }
    *si = value;
    return true;
}
