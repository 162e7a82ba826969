/* sim/run/sparse.c  Sparse LU of M = I - gamma J with everything but the numbers decided once.
 *
 * The pattern of J is made symmetric, which costs little where every flow can turn round, and gives one elimination
 * order for rows and columns: pivots stay on the diagonal, are never exchanged, and the fill is known beforehand.
 *   order     minimum degree: eliminate the state with fewest neighbours, the lowest index among equals, and join its
 *             neighbours to each other [ROSE1972]. What a state is joined to when it goes is its row of U and its
 *             column of L. Networks of vessels are chains with blocks, where this leaves almost no fill.
 *   factors   pivot by pivot: divide the column below, take multiples of the pivot's row off the rows below (L U = M
 *             with ones on L's diagonal). Those rows wait for nobody but the pivot, so the processor can work on
 *             several at a time. Stored: L, the reciprocal pivot, U, by rows in one array [DUFF1986].
 *   tape      where each number goes, in the order in which it is wanted: for every pivot and every row below it, the
 *             place of L's entry, then runs of neighbouring places that take the pivot's row. The loop over numbers
 *             never looks for one, and its inner part is dense. A multiple of 0 takes nothing: a way through which nothing
 *             goes now, like a bypass that only a fault opens, costs its places and no work.
 * M is close to I or to a matrix of balances with a strong diagonal, so pivots without exchange are safe; the growth of
 * L, in units of the states' scales, is watched and returned, and the caller shortens the step when it is not so.
 * Same pattern, same order; same numbers, same bits. */
#include "run/sparse.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct sparse_plan {
    int states;    /* n */
    int nonzeros;  /* of L and U with the diagonal */
    int *order;    /* the state that goes i-th [n] */
    int *diagonal; /* start[i] <= diagonal[i] < start[i+1]: L before it, U behind it [n] */
    int *start;    /* row i of L and U lies at start[i]..start[i+1] [n+1] */
    int *place;    /* where in L and U the p-th entry of J goes [entries of J's n state rows] */
    int *column;   /* places in the order, ascending in each row [nonzeros] */
    int *tape;     /* for each pivot, for each row below: place of L's entry, count of runs, (place, length) of each */
    int room[];    /* the arrays above but the last, which is its own */
};

/* ---- the graph of states: one row of bits each ---- */

enum { BITS = 64 };

struct graph {
    int states, words; /* words a row */
    uint64_t *row;     /* [states * words] */
    uint64_t *left;    /* states not yet eliminated [words] */
    int *degree;       /* neighbours left [states] */
};

static uint64_t *graph_row(const struct graph *graph, int state)
{
    return graph->row + (size_t)state * (size_t)graph->words;
}

static bool bit_test(const uint64_t *row, int state)
{
    return (row[state / BITS] >> (state % BITS)) & 1U;
}

static void bit_set(uint64_t *row, int state)
{
    row[state / BITS] |= (uint64_t)1 << (state % BITS);
}

static void bit_clear(uint64_t *row, int state)
{
    row[state / BITS] &= ~((uint64_t)1 << (state % BITS));
}

static bool graph_create(struct graph *graph, int states)
{
    const int words = (states + BITS - 1) / BITS;
    const size_t rows = (size_t)states * (size_t)words;
    uint64_t *const bits = calloc(rows + (size_t)words, sizeof *bits);
    int *const degree = calloc((size_t)states, sizeof *degree);
    *graph = (struct graph){states, words, bits, bits ? bits + rows : NULL, degree};
    return bits && degree;
}

static void graph_free(struct graph *graph)
{
    free(graph->row);
    free(graph->degree);
}

static void graph_count(struct graph *graph, int state)
{
    const uint64_t *const row = graph_row(graph, state);
    int degree = 0;
    for (int w = 0; w < graph->words; w++)
        degree += __builtin_popcountll(row[w] & graph->left[w]);
    graph->degree[state] = degree;
}

/* Joins two states where either's rate depends on the other. No state is its own neighbour. */
static void graph_fill(struct graph *graph, const struct stiff_system *system)
{
    for (int i = 0; i < graph->states; i++) {
        for (int p = system->start[i]; p < system->start[i + 1]; p++) {
            const int j = system->column[p];
            assert(0 <= j && j < graph->states);
            if (j != i) {
                bit_set(graph_row(graph, i), j);
                bit_set(graph_row(graph, j), i);
            }
        }
        bit_set(graph->left, i);
    }
    for (int i = 0; i < graph->states; i++)
        graph_count(graph, i);
}

static int graph_least(const struct graph *graph)
{
    int least = -1;
    for (int i = 0; i < graph->states; i++)
        if (bit_test(graph->left, i) && (least < 0 || graph->degree[i] < graph->degree[least]))
            least = i;
    return least;
}

/* Takes a state out; its row keeps the neighbours it had left, who all become neighbours of each other. */
static void graph_eliminate(struct graph *graph, int state)
{
    uint64_t *const gone = graph_row(graph, state);
    bit_clear(graph->left, state);
    for (int w = 0; w < graph->words; w++)
        gone[w] &= graph->left[w];
    for (int i = 0; i < graph->states; i++) {
        if (!bit_test(gone, i))
            continue;
        uint64_t *const row = graph_row(graph, i);
        for (int w = 0; w < graph->words; w++)
            row[w] |= gone[w];
        bit_clear(row, i);
        graph_count(graph, i);
    }
}

/* ---- the plan ---- */

static int order_find(struct graph *graph, int *order)
{
    int nonzeros = graph->states;
    for (int i = 0; i < graph->states; i++) {
        order[i] = graph_least(graph);
        nonzeros += 2 * graph->degree[order[i]];
        graph_eliminate(graph, order[i]);
    }
    return nonzeros;
}

static struct sparse_plan *plan_allocate(int states, int entries, int nonzeros)
{
    const size_t n = (size_t)states;
    const size_t count = 3 * n + 1 + (size_t)entries + (size_t)nonzeros;
    struct sparse_plan *const plan = malloc(sizeof *plan + count * sizeof plan->room[0]);
    if (!plan)
        return NULL;
    plan->states = states;
    plan->nonzeros = nonzeros;
    plan->order = plan->room;
    plan->diagonal = plan->order + n;
    plan->start = plan->diagonal + n;
    plan->place = plan->start + n + 1;
    plan->column = plan->place + entries;
    plan->tape = NULL;
    return plan;
}

/* Row i of L: the j before it in the order that were its neighbours when they went; of U: its own neighbours then. */
static void plan_rows(struct sparse_plan *plan, const struct graph *graph)
{
    int filled = 0;
    for (int i = 0; i < plan->states; i++) {
        const uint64_t *const own = graph_row(graph, plan->order[i]);
        plan->start[i] = filled;
        for (int j = 0; j < i; j++)
            if (bit_test(graph_row(graph, plan->order[j]), plan->order[i]))
                plan->column[filled++] = j;
        plan->diagonal[i] = filled;
        plan->column[filled++] = i;
        for (int j = i + 1; j < plan->states; j++)
            if (bit_test(own, plan->order[j]))
                plan->column[filled++] = j;
    }
    plan->start[plan->states] = filled;
    assert(filled == plan->nonzeros);
}

static int place_find(const struct sparse_plan *plan, int row, int column)
{
    int p = plan->start[row];
    while (plan->column[p] != column)
        p++;
    return p;
}

/* `went[state]`: its place in the order [n]. */
static void plan_places(struct sparse_plan *plan, const struct stiff_system *system, int *went)
{
    for (int i = 0; i < plan->states; i++)
        went[plan->order[i]] = i;
    for (int i = 0; i < plan->states; i++)
        for (int p = system->start[i]; p < system->start[i + 1]; p++)
            plan->place[p] = place_find(plan, went[i], went[system->column[p]]);
}

/* The part of the tape for one row under one pivot, written unless `tape` is null; returns its length. All columns of
 * the pivot's row stand in the row below too: elimination has joined them. */
static size_t tape_row(const struct sparse_plan *plan, int pivot, int row, int *tape)
{
    size_t used = 2;
    int runs = 0;
    int last = -1;
    int q = place_find(plan, row, pivot);
    if (tape)
        tape[0] = q;
    for (int p = plan->diagonal[pivot] + 1; p < plan->start[pivot + 1]; p++) {
        while (plan->column[q] != plan->column[p])
            q++;
        if (runs == 0 || q != last + 1) {
            runs++;
            used += 2;
            if (tape) {
                tape[used - 2] = q;
                tape[used - 1] = 0;
            }
        }
        if (tape)
            tape[used - 1]++;
        last = q;
    }
    if (tape)
        tape[1] = runs;
    return used;
}

static size_t tape_write(const struct sparse_plan *plan, int *tape)
{
    size_t used = 0;
    for (int k = 0; k < plan->states; k++)
        for (int p = plan->diagonal[k] + 1; p < plan->start[k + 1]; p++)
            used += tape_row(plan, k, plan->column[p], tape ? tape + used : NULL);
    return used;
}

static struct sparse_plan *plan_make(const struct stiff_system *system, struct graph *graph, int *order)
{
    graph_fill(graph, system);
    const int nonzeros = order_find(graph, order);
    struct sparse_plan *const plan = plan_allocate(system->states, system->start[system->states], nonzeros);
    if (!plan)
        return NULL;
    memcpy(plan->order, order, (size_t)system->states * sizeof *order);
    plan_rows(plan, graph);
    plan_places(plan, system, order);
    plan->tape = malloc((tape_write(plan, NULL) + 1) * sizeof *plan->tape);
    if (!plan->tape) {
        free(plan);
        return NULL;
    }
    tape_write(plan, plan->tape);
    return plan;
}

struct sparse_plan *sparse_plan_create(const struct stiff_system *system)
{
    const int states = system->states;
    assert(states > 0 && system->accounts >= 0 && system->start[0] == 0);
    struct sparse_plan *plan = NULL;
    struct graph graph;
    int *const order = malloc((size_t)states * sizeof *order);
    if (graph_create(&graph, states) && order)
        plan = plan_make(system, &graph, order);
    free(order);
    graph_free(&graph);
    return plan;
}

void sparse_plan_free(struct sparse_plan *plan)
{
    if (plan)
        free(plan->tape);
    free(plan);
}

int sparse_nonzeros(const struct sparse_plan *plan)
{
    return plan->nonzeros;
}

/* ---- the numbers ---- */

static void matrix_spread(const struct sparse_plan *plan, const struct stiff_system *system, const double *slope,
                          double gamma, double *factor)
{
    memset(factor, 0, (size_t)plan->nonzeros * sizeof *factor);
    for (int p = 0; p < system->start[plan->states]; p++)
        factor[plan->place[p]] = -gamma * slope[p];
    for (int i = 0; i < plan->states; i++)
        factor[plan->diagonal[i]] += 1.0;
}

/* below -= multiple * above, over a run. By twos, which a compiler can make one operation. */
static inline void run_take(int length, double multiple, const double *restrict above, double *restrict below)
{
    int i = 0;
    for (; i + 1 < length; i += 2) {
        const double first = below[i] - multiple * above[i];
        const double second = below[i + 1] - multiple * above[i + 1];
        below[i] = first;
        below[i + 1] = second;
    }
    if (i < length)
        below[i] -= multiple * above[i];
}

/* Largest |L_ik| s_k / s_i. */
static double growth_of(const struct sparse_plan *plan, const double *scale, const double *factor)
{
    double growth = 0.0;
    for (int i = 0; i < plan->states; i++) {
        double most = 0.0;
        for (int p = plan->start[i]; p < plan->diagonal[i]; p++) {
            const double size = fabs(factor[p]) * scale[plan->order[plan->column[p]]];
            most = size > most ? size : most;
        }
        growth = fmax(growth, most / scale[plan->order[i]]);
    }
    return growth;
}

double sparse_factorize(const struct sparse_plan *plan, const struct stiff_system *system, const double *slope,
                        double gamma, double *factor)
{
    const int *tape = plan->tape;
    matrix_spread(plan, system, slope, gamma, factor);
    for (int k = 0; k < plan->states; k++) {
        const int pivot = plan->diagonal[k];
        const double inverse = 1.0 / factor[pivot];
        if (!isfinite(inverse))
            return HUGE_VAL;
        factor[pivot] = inverse;
        for (int below = plan->start[k + 1] - pivot - 1; below > 0; below--) {
            const double multiple = factor[tape[0]] * inverse;
            const double *above = factor + pivot + 1;
            factor[tape[0]] = multiple;
            const int *const end = tape + 2 + 2 * tape[1];
            for (tape += 2; tape < end && multiple != 0.0; tape += 2) {
                run_take(tape[1], multiple, above, factor + tape[0]);
                above += tape[1];
            }
            tape = end;
        }
    }
    return growth_of(plan, system->scale, factor);
}

void sparse_solve(const struct sparse_plan *plan, const double *factor, double *b, double *work)
{
    const int *const column = plan->column;
    for (int i = 0; i < plan->states; i++) {
        double sum = b[plan->order[i]];
        for (int p = plan->start[i]; p < plan->diagonal[i]; p++)
            sum -= factor[p] * work[column[p]];
        work[i] = sum;
    }
    for (int i = plan->states - 1; i >= 0; i--) {
        double sum = work[i];
        for (int p = plan->diagonal[i] + 1; p < plan->start[i + 1]; p++)
            sum -= factor[p] * work[column[p]];
        work[i] = sum * factor[plan->diagonal[i]];
        b[plan->order[i]] = work[i];
    }
}
