/* sim/network/pattern.c  Which slopes there can be, and where each lies: fixed for the life of a network.
 *
 * A row of volume v depends on the block of v and on the blocks of all volumes it has a passage to, open or shut, in
 * either direction; where it feels a liquid that is kept in another, on all of that one's block, and on what that liquid runs
 * to. Rows of one volume share
 * one list of columns, blocks in ascending order. */
#include "network/inside.h"

#include <stdlib.h>
#include <string.h>

/* Other volume of a passage that touches v, or -1. */
static int neighbour(const struct passage *passage, int v)
{
    if (passage->a == v && passage->b >= 0)
        return passage->b;
    return passage->b == v && passage->a >= 0 ? passage->a : -1;
}

/* Whether a liquid that takes room from v runs to or from u by a passage: v's room then feels u. */
static bool feels_spill(const struct network *network, int v, int u)
{
    const int liquid = network->volume[v].liquid_in;
    bool feels = false;
    for (int p = 0; liquid >= 0 && liquid != v && p < network->passages && !feels; p++) {
        const struct passage *passage = &network->passage[p];
        feels = passage->sink >= 0 && (passage->source == liquid || passage->sink == liquid) &&
                neighbour(passage, liquid) == u;
    }
    return feels;
}

/* Columns of volume v's rows into `column` (where not null); returns their number, sets where its own block begins. */
static int volume_columns(struct network *network, int v, int *column)
{
    int count = 0;
    for (int u = 0; u < network->volumes; u++) { /* volumes are in ascending order of their states */
        bool near = u == v || feels_spill(network, v, u);
        for (int p = 0; p < network->passages && !near; p++)
            near = neighbour(&network->passage[p], v) == u;
        if (!near)
            continue;
        const struct volume *other = &network->volume[u];
        /* a wall is felt at home alone; a liquid by the gas that it takes room from, too */
        const int width = u == v || network->volume[v].liquid_in == u ? other->block : other->felt;
        if (u == v)
            network->volume[v].own = count;
        for (int k = 0; k < width; k++, count++)
            if (column)
                column[count] = other->at + k;
    }
    return count;
}

static int find_column(const struct volume *volume, int state)
{
    for (int c = 0; c < volume->columns; c++)
        if (volume->column[c] == state)
            return c;
    return -1;
}

int pattern_block(const struct network *network, int volume, int of)
{
    return find_column(&network->volume[of], network->volume[volume].at);
}

static void place_pool(const struct network *network, int v)
{
    struct pool *pool = network->volume[v].pool;
    if (!pool)
        return;
    pool->over_in_own = find_column(&network->volume[v], network->volume[pool->over].at);
    pool->own_in_over = find_column(&network->volume[pool->over], network->volume[v].at);
}

static void place_passage(const struct network *network, struct passage *passage)
{
    const struct volume *a = passage->a >= 0 ? &network->volume[passage->a] : NULL;
    const struct volume *b = passage->b >= 0 ? &network->volume[passage->b] : NULL;
    passage->a_in_a = a ? find_column(a, a->at) : -1;
    passage->b_in_b = b ? find_column(b, b->at) : -1;
    passage->b_in_a = a && b ? find_column(a, b->at) : -1;
    passage->a_in_b = a && b ? find_column(b, a->at) : -1;
    const bool a_first = !b || (a && a->at < b->at);
    passage->row_a = a ? (a_first ? 0 : b->felt) : -1;
    passage->row_b = b ? (a && a_first ? a->felt : 0) : -1;
    passage->columns = (a ? a->felt : 0) + (b ? b->felt : 0);
}

/* Columns of a row that depends on one passage alone. */
int passage_row(const struct network *network, const struct passage *passage, int *column)
{
    for (int k = 0; column && passage->row_a >= 0 && k < network->volume[passage->a].felt; k++)
        column[passage->row_a + k] = network->volume[passage->a].at + k;
    for (int k = 0; column && passage->row_b >= 0 && k < network->volume[passage->b].felt; k++)
        column[passage->row_b + k] = network->volume[passage->b].at + k;
    return passage->columns;
}

/* Columns of a controller's rows: of all volumes with a passage into its boundary, then its own. Writes them, and where
 * each passage finds its volume's, where `column` is not null; returns their number. */
static int controller_columns(const struct network *network, const struct controller *controller, int *column)
{
    int count = 0;
    for (int v = 0; v < network->volumes; v++) {
        bool near = false;
        for (int w = 0; w < controller->ways; w++)
            if (controller->way[w].volume == v) {
                controller->way[w].at = count;
                near = true;
            }
        for (int k = 0; near && k < network->volume[v].felt; k++, count++)
            if (column)
                column[count] = network->volume[v].at + k;
    }
    for (int k = 0; k < controller->states; k++, count++)
        if (column)
            column[count] = controller->at + k;
    return count;
}

/* The passages of a controller, into `way` where it is not null; returns their number. */
static int controller_ways(const struct network *network, const struct controller *controller,
                           struct controller_way *way)
{
    int count = 0;
    for (int p = 0; p < network->passages; p++) {
        const struct passage *passage = &network->passage[p];
        if (passage->a != controller->place && passage->b != controller->place)
            continue;
        const int other = passage->a == controller->place ? passage->b : passage->a;
        if (way)
            way[count] = (struct controller_way){p, other >= 0 ? other : -1, -1};
        count++;
    }
    return count;
}

static bool place_controller(struct network *network, struct controller *controller)
{
    const int ways = controller_ways(network, controller, NULL);
    controller->way = arena_take(network->arena, (size_t)(ways + 1) * sizeof *controller->way);
    if (!controller->way)
        return false;
    controller->ways = controller_ways(network, controller, controller->way);
    controller->columns = controller_columns(network, controller, NULL);
    controller->column = arena_take(network->arena, (size_t)(controller->columns + 1) * sizeof(int));
    if (!controller->column)
        return false;
    controller_columns(network, controller, controller->column);
    return true;
}

/* Writes rows in order; with a null column array it only counts. */
struct writer {
    int row, filled;
    int *start, *column;
};

static int *writer_here(const struct writer *writer)
{
    return writer->column ? writer->column + writer->filled : NULL;
}

static void writer_close(struct writer *writer, int count)
{
    if (writer->start)
        writer->start[writer->row] = writer->filled;
    writer->filled += count;
    writer->row++;
}

static void write_same_rows(struct writer *writer, const int *column, int columns, int rows)
{
    for (int k = 0; k < rows; k++) {
        if (writer->column)
            memcpy(writer_here(writer), column, (size_t)columns * sizeof(int));
        writer_close(writer, columns);
    }
}

static void write_volume_rows(struct writer *writer, const struct volume *volume, int rows)
{
    write_same_rows(writer, volume->column, volume->columns, rows);
}

static void write_side_rows(struct writer *writer, const struct network *network, const struct passage *passage,
                            int account)
{
    const int rows = account >= 0 ? 2 * network->carried + 2 : 0;
    for (int k = 0; k < rows; k++)
        writer_close(writer, passage_row(network, passage, writer_here(writer)));
}

static void write_tap_rows(struct writer *writer, const struct network *network, const struct tap *tap)
{
    for (int k = 0; k < tap_rows(network); k++)
        writer_close(writer, tap_row(network, tap, writer_here(writer)));
}

static void write_all(struct writer *writer, const struct network *network)
{
    for (int v = 0; v < network->volumes; v++)
        write_volume_rows(writer, &network->volume[v], network->volume[v].block);
    for (int f = 0; f < network->followers; f++)
        if (network->follower[f].at >= 0)
            writer_close(writer, follower_row(network, &network->follower[f], writer_here(writer)));
    for (int c = 0; c < network->controllers; c++)
        write_same_rows(writer, network->controller[c].column, network->controller[c].columns,
                        network->controller[c].states);
    if (network->idle) {
        if (writer->column)
            *writer_here(writer) = 0;
        writer_close(writer, 1);
    }
    for (int v = 0; v < network->volumes; v++)
        write_volume_rows(writer, &network->volume[v], network->volume[v].pool ? POOL_ACCOUNTS : VOLUME_ACCOUNTS);
    for (int p = 0; p < network->passages; p++) {
        write_side_rows(writer, network, &network->passage[p], network->passage[p].account_a);
        write_side_rows(writer, network, &network->passage[p], network->passage[p].account_b);
    }
    for (int t = 0; t < network->taps; t++)
        write_tap_rows(writer, network, &network->tap[t]);
}

bool pattern_make(struct network *network)
{
    for (int v = 0; v < network->volumes; v++) {
        struct volume *volume = &network->volume[v];
        volume->columns = volume_columns(network, v, NULL);
        int *column = arena_take(network->arena, (size_t)volume->columns * sizeof *column);
        if (!column)
            return false;
        volume_columns(network, v, column);
        volume->column = column;
    }
    for (int v = 0; v < network->volumes; v++) {
        place_pool(network, v);
        network->volume[v].narrow_at = network->volume[v].liquid_in >= 0 ? network->narrows : -1;
        network->narrows += network->volume[v].liquid_in >= 0 ? network->volume[v].columns : 0;
    }
    for (int p = 0; p < network->passages; p++)
        place_passage(network, &network->passage[p]);
    for (int c = 0; c < network->controllers; c++)
        if (!place_controller(network, &network->controller[c]))
            return false;
    struct writer writer = {0};
    write_all(&writer, network);
    network->pattern_start = arena_take(network->arena, (size_t)(writer.row + 1) * sizeof(int));
    network->pattern_column = arena_take(network->arena, (size_t)(writer.filled + 1) * sizeof(int));
    if (!network->pattern_start || !network->pattern_column)
        return false;
    writer = (struct writer){0, 0, network->pattern_start, network->pattern_column};
    write_all(&writer, network);
    network->pattern_start[writer.row] = writer.filled;
    network->stiff.start = network->pattern_start;
    network->stiff.column = network->pattern_column;
    return true;
}
