/* report/page.c  Running text: words that wrap at PAGE_WIDTH, with a hanging indent. */
#include "report/page.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { SENTENCE = 1024 }; /* bytes put on the stack; longer ones are taken from the heap */

static void word_put(struct page *page, const char *word, int bytes)
{
    char text[SENTENCE];
    snprintf(text, sizeof text, "%.*s", bytes, word);
    const int width = cell_width(text);
    const int space = page->column > page->indent;
    if (space && page->column + space + width > PAGE_WIDTH) {
        fprintf(page->to, "\n%*s%s", page->indent, "", text);
        page->column = page->indent + width;
        return;
    }
    fprintf(page->to, "%s%s", space ? " " : "", text);
    page->column += space + width;
}

static void words_put(struct page *page, const char *text)
{
    while (*text) {
        const size_t bytes = strcspn(text, " \n\t");
        if (bytes > 0)
            word_put(page, text, (int)(bytes < SENTENCE ? bytes : SENTENCE - 1));
        text += bytes;
        text += strspn(text, " \n\t");
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
    fprintf(page->to, "%s%*s", head, width < indent ? indent - width : 0, "");
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
    int columns = 0;
    for (; *text; text++)
        columns += ((unsigned char)*text & 0xC0) != 0x80; /* bytes that go on with a character take none */
    return columns;
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
