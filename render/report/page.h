/* report/page.h  Running text on a terminal or in a pipe: words that wrap, with a hanging indent. */
#ifndef REPORT_PAGE_H
#define REPORT_PAGE_H

#include <stdio.h>

struct page {
    FILE *to;
    int column; /* where the next word goes; 0: a new line */
    int indent; /* of lines after the first */
};

enum { PAGE_WIDTH = 110 }; /* columns */

/* Adds words, a space before the first unless it begins a line or is punctuation. */
void page_put(struct page *page, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Begins a line with `head`, padded to `indent` columns, where wrapped lines will hang. Ends the one before. */
void page_begin(struct page *page, int indent, const char *head);

/* Ends the line, if one has been begun. */
void page_end(struct page *page);

/* ---- cells of a table ----
 * Columns that UTF-8 text takes (one to a character); the wider of a column and a text, but no more than CELL_MOST; text
 * padded to `width` columns. */
enum { CELL_MOST = 48 };
int cell_width(const char *text);
int cell_wider(int width, const char *text);
void cell_put(FILE *to, const char *text, int width);

#endif
