/* sim/procedure/rows.h  A list of rows of one size that only grows, and whose beginning other lists may share.
 *
 * Rows stand in leaves; a leaf counts the lists it stands in and goes with the last of them. A row that stands in a shared leaf
 * is written for all of them: meant for what is written there a second time with the same bits. A row never moves. */
#ifndef PROCEDURE_ROWS_H
#define PROCEDURE_ROWS_H

#include <stdbool.h>
#include <stddef.h>

struct leaf;

struct rows {
    size_t size; /* bytes of a row; set before all else, the rest starts as zeros */
    int leaves, room;
    struct leaf **leaf;
};

/* A row that has been reached before. */
void *rows_at(const struct rows *rows, int index);
/* The same, or the next one, as zeros; null when memory is out. */
void *rows_reach(struct rows *rows, int index);
/* The first `count` rows of `from` as a list of their own: whole leaves are shared, the rest copied. `into` starts as zeros.
 * False when memory is out; rows_free then, too. */
bool rows_share(struct rows *into, const struct rows *from, int count);
void rows_free(struct rows *rows);

#endif
