/* sim/file/yaml.c  libyaml's events to our tree. The event interface is the one that stays within time and memory on
 * hostile text; limits, duplicate keys and all refusals are ours. */
#include "file/yaml.h"

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

/* A list or map whose end has not been seen. */
struct open_node {
    struct node *node;
    int first;       /* its first child's place on the pile */
    const char *key; /* in a map: read, its value not yet; else null */
    struct ullage_place key_at;
};

struct tree_build {
    struct arena *arena;
    struct ullage_problems *found;
    struct ullage_place origin;
    struct node *root;
    int nodes, depth, documents;
    struct open_node open[YAML_DEPTH_MOST]; /* [depth] */
    struct node **pile;                     /* finished children of all open nodes [piled], of which `room` fit */
    int piled, room;
    bool failed;
};

static struct ullage_place mark_place(const struct tree_build *build, yaml_mark_t mark)
{
    const int line = (int)mark.line, column = (int)mark.column;
    const struct ullage_place origin = build->origin;
    return (struct ullage_place){origin.file, origin.line + line, column + (line == 0 ? origin.column : 1)};
}

static void refuse(struct tree_build *build, struct ullage_place at, const char *wrong, const char *right)
{
    problem_add(build->found, at, right, "%s", wrong);
    build->failed = true;
}

/* ---- nodes ---- */
static bool pile_up(struct tree_build *build, struct node *node)
{
    if (build->piled == build->room) {
        const int room = build->room ? 2 * build->room : 256;
        struct node **pile = realloc(build->pile, (size_t)room * sizeof(struct node *));
        if (!pile)
            return false;
        build->pile = pile;
        build->room = room;
    }
    build->pile[build->piled++] = node;
    return true;
}

/* A new node in its place: the root, or a child of the innermost open node. Null when the build has failed. */
static struct node *node_begin(struct tree_build *build, enum node_kind kind, struct ullage_place at)
{
    if (++build->nodes > YAML_NODES_MOST) {
        refuse(build, at, "there are too many words from here on", "keep a file under 500000 of them");
        return NULL;
    }
    struct node *node = arena_take(build->arena, sizeof *node);
    build->failed = !node || (build->depth > 0 && !pile_up(build, node));
    if (build->failed)
        return NULL;
    node->kind = kind;
    node->at = node->key_at = at;
    if (build->depth == 0) {
        build->root = node;
        return node;
    }
    struct open_node *parent = &build->open[build->depth - 1];
    node->key = parent->key;
    node->key_at = parent->key ? parent->key_at : at;
    parent->key = NULL;
    return node;
}

static bool key_awaited(const struct tree_build *build)
{
    if (build->depth == 0)
        return false;
    const struct open_node *parent = &build->open[build->depth - 1];
    return parent->node->kind == NODE_MAP && !parent->key;
}

static void word_seen(struct tree_build *build, const yaml_event_t *event)
{
    const struct ullage_place at = mark_place(build, event->start_mark);
    if (event->data.scalar.length > YAML_WORD_MOST) {
        refuse(build, at, "this word is longer than 64 kB", "write less");
        return;
    }
    const char *text = arena_text(build->arena, (const char *)event->data.scalar.value);
    const bool key = key_awaited(build);
    struct node *node = text && !key ? node_begin(build, NODE_WORD, at) : NULL;
    if (node) {
        node->text = text;
        node->quoted = event->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
    } else if (text && key) {
        build->open[build->depth - 1].key = text;
        build->open[build->depth - 1].key_at = at;
    } else {
        build->failed = true;
    }
}

static void collection_begun(struct tree_build *build, enum node_kind kind, const yaml_event_t *event)
{
    const struct ullage_place at = mark_place(build, event->start_mark);
    if (key_awaited(build)) {
        refuse(build, at, "a list or map stands where a key should", "write a word before ':'");
        return;
    }
    if (build->depth == YAML_DEPTH_MOST) {
        refuse(build, at, "lists and maps are nested too deep here", "nest at most 64 of them");
        return;
    }
    struct node *node = node_begin(build, kind, at);
    if (node)
        build->open[build->depth++] = (struct open_node){.node = node, .first = build->piled};
}

/* By key, then by place. */
static int key_order(const void *a, const void *b)
{
    const struct node *one = *(struct node *const *)a;
    const struct node *two = *(struct node *const *)b;
    const int key = strcmp(one->key, two->key);
    if (key != 0)
        return key;
    if (one->key_at.line != two->key_at.line)
        return one->key_at.line < two->key_at.line ? -1 : 1;
    return one->key_at.column < two->key_at.column ? -1 : 1;
}

/* `sorted`: the children of a map in key_order [count]. */
static void duplicates_refused(struct tree_build *build, struct node *const *sorted, int count)
{
    for (int i = 1; i < count; i++) {
        const struct node *before = sorted[i - 1], *here = sorted[i];
        if (strcmp(before->key, here->key) != 0)
            continue;
        problem_add(build->found, here->key_at, "give each key once", "%s stands here again, after line %d", here->key,
                    before->key_at.line);
        build->failed = true;
    }
}

/* Keeps what looks keys up one by one away from maps that no person writes. */
static void keys_counted(struct tree_build *build, const struct node *map)
{
    if (map->count > YAML_KEYS_MOST)
        refuse(build, map->at, "this map has too many keys", "keep a map under 10000 of them");
}

static void collection_ended(struct tree_build *build)
{
    const struct open_node *done = &build->open[--build->depth];
    struct node *node = done->node;
    node->count = node->room = build->piled - done->first;
    build->piled = done->first;
    const size_t size = (size_t)node->count * sizeof(struct node *);
    node->child = arena_take(build->arena, size);
    if (!node->child) {
        build->failed = true;
        return;
    }
    if (size == 0)
        return;
    struct node **child = build->pile + done->first;
    memcpy(node->child, child, size);
    if (node->kind != NODE_MAP)
        return;
    keys_counted(build, node);
    qsort(child, (size_t)node->count, sizeof child[0], key_order); /* the pile's copy: no longer needed */
    duplicates_refused(build, child, node->count);
}

/* ---- events ---- */
/* What an event uses that no file of ours may: '*', '&', '!', a second document '-'; 0 where it uses nothing. */
static char event_refused(const struct tree_build *build, const yaml_event_t *event)
{
    const yaml_char_t *anchor = NULL, *tag = NULL;
    if (event->type == YAML_ALIAS_EVENT)
        return '*';
    if (event->type == YAML_DOCUMENT_START_EVENT)
        return build->documents > 0 ? '-' : '\0';
    if (event->type == YAML_SCALAR_EVENT) {
        anchor = event->data.scalar.anchor;
        tag = event->data.scalar.tag;
    } else if (event->type == YAML_SEQUENCE_START_EVENT) {
        anchor = event->data.sequence_start.anchor;
        tag = event->data.sequence_start.tag;
    } else if (event->type == YAML_MAPPING_START_EVENT) {
        anchor = event->data.mapping_start.anchor;
        tag = event->data.mapping_start.tag;
    }
    return anchor ? '&' : tag ? '!' : '\0';
}

static const struct {
    char sign;
    const char *wrong, *right;
} refusals[] = {
    {'*', "a word that begins with * refers to another place", "write out what is meant, or put it in quotes"},
    {'&', "a word that begins with & names a place", "leave it out, or put it in quotes"},
    {'!', "a word that begins with ! says a type", "leave it out, or put it in quotes"},
    {'-', "a second document begins here", "write one document to a file"},
};

static void event_seen(struct tree_build *build, const yaml_event_t *event)
{
    const char sign = event_refused(build, event);
    for (size_t i = 0; sign && i < sizeof refusals / sizeof refusals[0]; i++)
        if (refusals[i].sign == sign)
            refuse(build, mark_place(build, event->start_mark), refusals[i].wrong, refusals[i].right);
    if (sign)
        return;
    if (event->type == YAML_DOCUMENT_START_EVENT)
        build->documents++;
    else if (event->type == YAML_SCALAR_EVENT)
        word_seen(build, event);
    else if (event->type == YAML_SEQUENCE_START_EVENT)
        collection_begun(build, NODE_LIST, event);
    else if (event->type == YAML_MAPPING_START_EVENT)
        collection_begun(build, NODE_MAP, event);
    else if (event->type == YAML_SEQUENCE_END_EVENT || event->type == YAML_MAPPING_END_EVENT)
        collection_ended(build);
}

/* ---- the parser's own errors ---- */
/* What the parser was at (the beginning of its `context`) or stumbled over (of its `problem`), in our words. Faults that
 * show only later are placed where they began: at the quote or key; at the bracket unless the stumble shares its line. */
enum fault_place { AT_STUMBLE, AT_BEGINNING, AT_BRACKET };

static const struct syntax_fault {
    const char *begins;
    enum fault_place place;
    const char *wrong, *right;
} syntax_faults[] = {
    {"while scanning a quoted scalar", AT_BEGINNING, "the quote that opens here is not closed",
     "close it with the same quote"},
    {"while parsing a quoted scalar", AT_STUMBLE, "a backslash is followed by no known letter",
     "use single quotes, or \\\\"},
    {"while parsing a flow mapping", AT_BRACKET, "the { that opens here is not closed, or a comma is missing",
     "write {key: value, key: value}"},
    {"while parsing a flow sequence", AT_BRACKET, "the [ that opens here is not closed, or a comma is missing",
     "write [value, value]"},
    {"while parsing a flow node", AT_STUMBLE, "a value is missing before this", "write one, or leave the comma out"},
    {"while parsing a block mapping", AT_STUMBLE, "this is no key in line with those above",
     "line keys up, one below the other; close brackets once"},
    {"while parsing a block collection", AT_STUMBLE, "this is no item in line with those above",
     "begin each item with - in the same column"},
    {"while scanning a simple key", AT_BEGINNING, "a ':' is missing after this", "write key: value"},
    {"while scanning a block scalar", AT_STUMBLE, "the text block is indented with a tab or unevenly",
     "indent with spaces"},
    {"mapping values are not allowed", AT_STUMBLE, "a second ':' stands in one value", "put the value in quotes"},
    {"found character that cannot start", AT_STUMBLE, "no word may begin with this character",
     "put the word in quotes; indent with spaces, not tabs"},
    {"did not find expected <document start>", AT_STUMBLE, "the document has ended before this",
     "write one document to a file"},
};

static const struct syntax_fault *syntax_fault(const yaml_parser_t *parser)
{
    const size_t count = sizeof syntax_faults / sizeof syntax_faults[0];
    for (size_t i = 0; i < count; i++) {
        const char *begins = syntax_faults[i].begins;
        const size_t length = strlen(begins);
        if ((parser->context && strncmp(parser->context, begins, length) == 0) ||
            (parser->problem && strncmp(parser->problem, begins, length) == 0))
            return &syntax_faults[i];
    }
    return NULL;
}

static void parser_failed(struct tree_build *build, const yaml_parser_t *parser)
{
    build->failed = true;
    if (parser->error == YAML_MEMORY_ERROR)
        return;
    const struct syntax_fault *fault = syntax_fault(parser);
    const struct ullage_place stumble = mark_place(build, parser->problem_mark);
    const struct ullage_place beginning = mark_place(build, parser->context_mark);
    const bool began =
        fault && (fault->place == AT_BEGINNING || (fault->place == AT_BRACKET && stumble.line != beginning.line));
    const struct ullage_place at = began ? beginning : stumble;
    if (fault)
        problem_add(build->found, at, fault->right, "%s", fault->wrong);
    else
        problem_add(build->found, at, "write key: value, one below the other", "this is no YAML (%s)",
                    parser->problem ? parser->problem : "no reason given");
}

static void events_read(struct tree_build *build, yaml_parser_t *parser)
{
    for (bool ended = false; !ended && !build->failed;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            parser_failed(build, parser);
            return;
        }
        ended = event.type == YAML_STREAM_END_EVENT;
        event_seen(build, &event);
        yaml_event_delete(&event);
    }
}

/* A byte order mark is no character. */
static size_t bom_length(const char *text, size_t size)
{
    return size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}

struct node *yaml_tree(struct arena *arena, const char *text, size_t size, struct ullage_place origin,
                       struct ullage_problems *found)
{
    if (size > YAML_BYTES_MOST) {
        problem_add(found, origin, "keep a file under 1 MB", "the text is too long");
        return NULL;
    }
    const size_t bom = bom_length(text, size);
    if (!bytes_good(text + bom, size - bom, origin, found))
        return NULL;
    struct tree_build build = {.arena = arena, .found = found, .origin = origin};
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser))
        return NULL;
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text + bom, size - bom);
    events_read(&build, &parser);
    yaml_parser_delete(&parser);
    free(build.pile);
    if (!build.failed && !build.root)
        problem_add(found, origin, "begin it with ullage: scenario/1", "there is nothing in this file");
    return build.failed ? NULL : build.root;
}
