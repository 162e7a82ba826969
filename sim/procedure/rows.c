/* sim/procedure/rows.c  Leaves of rows, counted by the lists they stand in. */
#include "procedure/rows.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

enum { LEAF_ROWS = 64, ROOM_FIRST = 8 };

struct leaf {
    int lists; /* it stands in */
    max_align_t row[];
};

static char *leaf_row(struct leaf *leaf, size_t size, int index)
{
    return (char *)leaf->row + (size_t)(index % LEAF_ROWS) * size;
}

void *rows_at(const struct rows *rows, int index)
{
    assert(0 <= index && index / LEAF_ROWS < rows->leaves);
    return leaf_row(rows->leaf[index / LEAF_ROWS], rows->size, index);
}

static bool room_taken(struct rows *rows)
{
    if (rows->leaves < rows->room)
        return true;
    const int room = rows->room > 0 ? 2 * rows->room : ROOM_FIRST;
    struct leaf **more = realloc(rows->leaf, (size_t)room * sizeof(struct leaf *));
    if (!more)
        return false;
    rows->leaf = more;
    rows->room = room;
    return true;
}

static struct leaf *leaf_add(struct rows *rows)
{
    struct leaf *leaf = room_taken(rows) ? calloc(1, sizeof *leaf + LEAF_ROWS * rows->size) : NULL;
    if (!leaf)
        return NULL;
    leaf->lists = 1;
    rows->leaf[rows->leaves++] = leaf;
    return leaf;
}

void *rows_reach(struct rows *rows, int index)
{
    assert(0 <= index && index <= rows->leaves * LEAF_ROWS);
    if (index == rows->leaves * LEAF_ROWS && !leaf_add(rows))
        return NULL;
    return rows_at(rows, index);
}

bool rows_share(struct rows *into, const struct rows *from, int count)
{
    const int whole = count / LEAF_ROWS, rest = count % LEAF_ROWS;
    into->size = from->size;
    for (int k = 0; k < whole; k++) {
        if (!room_taken(into))
            return false;
        from->leaf[k]->lists++;
        into->leaf[into->leaves++] = from->leaf[k];
    }
    struct leaf *last = rest > 0 ? leaf_add(into) : NULL;
    if (last)
        memcpy(last->row, from->leaf[whole]->row, (size_t)rest * from->size);
    return last || rest == 0;
}

void rows_free(struct rows *rows)
{
    for (int k = 0; k < rows->leaves; k++)
        if (--rows->leaf[k]->lists == 0)
            free(rows->leaf[k]);
    free(rows->leaf);
    *rows = (struct rows){.size = rows->size};
}
