/* sim/file/write.c  Tree to text: small lists and maps in brackets on one line, large ones a line for each of their children,
 * long texts folded. */
#include "file/write.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { WIDTH = 118, FOLDED_FROM = 100, STEP = 2 };

/* ---- words ---- */

/* Without quotes it would be read as something else, here or between brackets. */
static bool needs_quotes(const char *text)
{
    const size_t length = strlen(text);
    if (length == 0 || strchr(" -?:,[]{}#&*!|>'\"%@`~=<", text[0]) || text[length - 1] == ' ' ||
        text[length - 1] == ':')
        return !(text[0] == '-' && isdigit((unsigned char)text[1])); /* -5 kPa */
    for (size_t k = 0; k < length; k++)
        if (strchr(",[]{}\"\\", text[k]) || (unsigned char)text[k] < ' ' || !strncmp(&text[k], ": ", 2) ||
            !strncmp(&text[k], " #", 2))
            return true;
    return false;
}

void word_write(FILE *to, const char *text, bool quoted)
{
    if (!quoted && !needs_quotes(text)) {
        fputs(text, to);
        return;
    }
    fputc('"', to);
    for (const char *c = text; *c; c++) {
        if (*c == '\n')
            fputs("\\n", to);
        else if (*c == '\t')
            fputs("\\t", to);
        else
            fprintf(to, "%s%c", *c == '"' || *c == '\\' ? "\\" : "", *c);
    }
    fputc('"', to);
}

/* ---- on one line ---- */
static void flow_write(FILE *to, const struct node *node)
{
    if (node->kind == NODE_WORD) {
        word_write(to, node->text, node->quoted);
        return;
    }
    fputc(node->kind == NODE_MAP ? '{' : '[', to);
    for (int i = 0; i < node->count; i++) {
        if (i > 0)
            fputs(", ", to);
        if (node->kind == NODE_MAP) {
            word_write(to, node->child[i]->key, false);
            fputs(": ", to);
        }
        flow_write(to, node->child[i]);
    }
    fputc(node->kind == NODE_MAP ? '}' : ']', to);
}

static bool fits(const struct node *node, int columns)
{
    char *text = NULL;
    size_t size = 0;
    FILE *to = open_memstream(&text, &size);
    if (!to)
        return true; /* no memory to try it: what is written does not find any, either */
    flow_write(to, node);
    fclose(to);
    free(text);
    return (long)size <= (long)columns;
}

/* ---- folded ---- */
static bool folds(const struct node *node)
{
    const char *text = node->text;
    return strlen(text) >= FOLDED_FROM && !strchr(text, '\n') && !strchr(text, '\t') && !strstr(text, "  ") &&
           text[0] != ' ' && text[strlen(text) - 1] != ' ';
}

static void folded_write(FILE *to, const char *text, int indent)
{
    int column = WIDTH;
    fputs(">-", to);
    while (*text) {
        const int length = (int)strcspn(text, " ");
        if (column + 1 + length > WIDTH)
            column = fprintf(to, "\n%*s", indent, "") - 1;
        else
            column += fprintf(to, " ");
        column += fprintf(to, "%.*s", length, text);
        text += length;
        text += *text == ' ';
    }
    fputc('\n', to);
}

/* ---- line by line ---- */
static void block_write(FILE *to, const struct node *node, int indent);

/* What stands after "key:" or "-". */
static void value_write(FILE *to, const struct node *node, int indent, int column, bool beside)
{
    if (node->kind == NODE_WORD && folds(node)) {
        fputc(' ', to);
        folded_write(to, node->text, indent + STEP);
    } else if (node->kind == NODE_WORD || node->count == 0 || fits(node, WIDTH - column)) {
        fputc(' ', to);
        flow_write(to, node);
        fputc('\n', to);
    } else {
        fputs(beside ? " " : "\n", to);
        block_write(to, node, beside ? -(indent + STEP) : indent + STEP);
    }
}

static void key_write(FILE *to, const struct node *node, int indent)
{
    word_write(to, node->key, false);
    fputc(':', to);
    value_write(to, node, indent, indent + (int)strlen(node->key) + 2, false);
}

/* indent below 0: the first line stands beside a dash already. */
static void block_write(FILE *to, const struct node *node, int indent)
{
    const int columns = abs(indent);
    for (int i = 0; i < node->count; i++) {
        if (i > 0 || indent > 0)
            fprintf(to, "%*s", columns, "");
        if (node->kind == NODE_MAP) {
            key_write(to, node->child[i], columns);
        } else {
            fputc('-', to);
            value_write(to, node->child[i], columns, columns + STEP, true);
        }
    }
}

void entry_write(FILE *to, const struct node *node, int indent)
{
    fprintf(to, "%*s", indent, "");
    key_write(to, node, indent);
}
