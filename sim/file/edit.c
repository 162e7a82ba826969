/* sim/file/edit.c  What is said on top of a file is done to its trees before they are read, so that the readers find its
 * mistakes in the same words. A place is then the argument itself: "--set leak.diameter=1mm", line 1, its column. */
#include "file/edit.h"

#include "base/text.h"
#include "file/source.h"
#include "file/yaml.h"

#include <string.h>

enum { CHANGES_MOST = 1000 };

/* ---- change ---- */
static void changes_made(struct reader *reader, struct trees *trees)
{
    const struct node *change = node_find(trees->scenario, "change");
    if (!map_wanted(reader, change, "change", "write {PART.PARAMETER: VALUE}, like {tank.volume: 50 L}"))
        return;
    if (change->count > CHANGES_MOST) {
        problem_add(reader->found, change->key_at, "change the system's file instead", "%d changes are too many",
                    change->count);
        return;
    }
    for (int i = 0; i < change->count; i++)
        path_set(reader, trees, change->child[i]->key, change->child[i]->key_at, change->child[i]);
}

/* ---- --set ---- */
/* The value of an argument: a word as it stands, or a list or map in YAML. */
static struct node *value_node(struct reader *reader, const char *text, struct ullage_place at)
{
    if (*text == '[' || *text == '{')
        return text_tree(reader, text, strlen(text), at);
    struct node *node = node_new(reader, NODE_WORD, at);
    if (node)
        node->text = text;
    return node;
}

const char *argument_text(struct reader *reader, const char *option, const char *text, struct ullage_place *at)
{
    char *own = arena_text(reader->arena, text);
    char *name = arena_format(reader->arena, "%s %s", option, text);
    if (!own || !name) {
        reader->outcome = ULLAGE_OUT_OF_MEMORY;
        return NULL;
    }
    text_tame(name);
    *at = (struct ullage_place){name, 1, 1};
    return strlen(text) <= YAML_WORD_MOST && bytes_good(own, strlen(own), *at, reader->found) ? own : NULL;
}

static void set_made(struct reader *reader, struct trees *trees, const char *argument)
{
    struct ullage_place at;
    const char *text = argument_text(reader, "--set", argument, &at);
    if (!text)
        return;
    const char *equals = strchr(text, '=');
    if (!equals) {
        problem_add(reader->found, at, "write PATH=VALUE, like leak.diameter=0.5mm", "there is no = in it");
        return;
    }
    const char *path = reader_text(reader, arena_format(reader->arena, "%.*s", (int)(equals - text), text));
    struct ullage_place value_at = at;
    value_at.column += characters(text, (size_t)(equals - text)) + 1;
    const struct node *value = value_node(reader, equals + 1, value_at);
    if (value)
        path_set(reader, trees, path, at, value);
}

void edits_made(struct reader *reader, struct trees *trees)
{
    const struct ullage_edits *edits = reader->edits;
    changes_made(reader, trees);
    for (int i = 0; edits && i < edits->faults; i++)
        fault_line_read(reader, trees, edits->fault[i]);
    for (int i = 0; edits && i < edits->sets; i++)
        set_made(reader, trees, edits->set[i]);
}
