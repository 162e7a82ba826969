/* report/page.c  Running text: words that wrap at PAGE_WIDTH, with a hanging indent. */
#include "report/page.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { SENTENCE = 1024 }; /* bytes put on the stack; longer ones are taken from the heap */

static int columns_of(const char *text, size_t bytes)
{
    int columns = 0;
    for (size_t i = 0; i < bytes; i++)
        columns += ((unsigned char)text[i] & 0xC0) != 0x80; /* bytes that go on with a character take none */
    return columns;
}

/* A stop or comma on its own belongs to the word before. */
static bool is_punctuation(const char *word, size_t bytes)
{
    return strchr(".,:;", *word) && (bytes == 1 || word[1] == ' ');
}

static void word_put(struct page *page, const char *word, size_t bytes)
{
    const int width = columns_of(word, bytes);
    const int space = page->column > page->indent && !is_punctuation(word, bytes);
    if (space && page->column + space + width > PAGE_WIDTH) {
        fprintf(page->to, "\n%*s", page->indent, "");
        page->column = page->indent + width;
    } else {
        fputs(space ? " " : "", page->to);
        page->column += space + width;
    }
    fwrite(word, 1, bytes, page->to); /* the stream keeps its failures */
}

static const char blanks[] = " \n\t";

enum { KEPT_TOGETHER = 36 }; /* columns */

/* Whether a line may not end between a word and the next: a number keeps its unit, "plug 1" its number, and what stands in
 * brackets stays in one piece with what it explains. open: brackets begun so far. */
static bool words_cling(const char *word, size_t bytes, const char *next, int open)
{
    return open > 0 || isdigit((unsigned char)word[bytes - 1]) || isdigit((unsigned char)*next) || *next == '(';
}

/* Bytes of the word at `text` with those that cling to it. */
static size_t piece_bytes(const char *text)
{
    size_t whole = 0;
    int open = 0;
    for (;;) {
        const char *word = text + whole;
        const size_t bytes = strcspn(word, blanks);
        const char *next = word + bytes + strspn(word + bytes, " ");
        for (size_t i = 0; i < bytes; i++)
            open += (word[i] == '(') - (word[i] == ')');
        whole += bytes;
        const size_t gap = (size_t)(next - (word + bytes));
        if (!*next || gap != 1 || strchr(blanks, *next) || !words_cling(word, bytes, next, open) ||
            columns_of(text, whole) > KEPT_TOGETHER)
            return whole;
        whole += gap;
    }
}

static void words_put(struct page *page, const char *text)
{
    for (text += strspn(text, blanks); *text; text += strspn(text, blanks)) {
        const size_t bytes = piece_bytes(text);
        word_put(page, text, bytes);
        text += bytes;
    }
}

void page_put(struct page *page, const char *format, ...)
{
    char room[SENTENCE];
    va_list given;
    va_start(given, format);
    va_list again;
    va_copy(again, given);
    const int bytes = vsnprintf(room, sizeof room, format, given);
    char *longer = bytes >= SENTENCE ? malloc((size_t)bytes + 1) : NULL;
    if (longer)
        vsnprintf(longer, (size_t)bytes + 1, format, again);
    words_put(page, longer ? longer : room);
    free(longer);
    va_end(again);
    va_end(given);
}

void page_begin(struct page *page, int indent, const char *head)
{
    page_end(page);
    page->indent = indent;
    const int width = cell_width(head);
    fprintf(page->to, "%s%*s", head, width < indent ? indent - width : width == indent && width > 0, "");
    page->column = width < indent ? indent : width;
}

void page_end(struct page *page)
{
    if (page->column > 0)
        fputc('\n', page->to);
    page->column = 0;
    page->indent = 0;
}

int cell_width(const char *text)
{
    return columns_of(text, strlen(text));
}

int cell_wider(int width, const char *text)
{
    const int other = cell_width(text) < CELL_MOST ? cell_width(text) : CELL_MOST;
    return other > width ? other : width;
}

void cell_put(FILE *to, const char *text, int width)
{
    const int padding = width - cell_width(text);
    fprintf(to, "%s%*s", text, padding > 0 ? padding : 0, "");
}
