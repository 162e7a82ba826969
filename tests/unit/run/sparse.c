/* tests/unit/run/sparse.c  The sparse elimination against a dense one, and what it may fill. */
#include "run/sparse.h"

#include "support/near.h"

#include <float.h>
#include <gsl/gsl_linalg.h>

/* ---- an allocator that fails when told to (not under a sanitizer, which has its own) ---- */

#if defined(__SANITIZE_ADDRESS__)
#define OWN_ALLOCATOR 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OWN_ALLOCATOR 0
#endif
#endif
#ifndef OWN_ALLOCATOR
#define OWN_ALLOCATOR 1
#endif

static volatile int allocations_left = -1; /* until one fails; below 0: all succeed */
static volatile long blocks;               /* allocated and not freed */

#if OWN_ALLOCATOR
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void __libc_free(void *block);

static bool allocation_fails(void)
{
    return allocations_left >= 0 && allocations_left-- == 0;
}

void *malloc(size_t size)
{
    void *const block = allocation_fails() ? NULL : __libc_malloc(size);
    blocks += block != NULL;
    return block;
}

void *calloc(size_t count, size_t size)
{
    void *const block = allocation_fails() ? NULL : __libc_calloc(count, size);
    blocks += block != NULL;
    return block;
}

void free(void *block)
{
    blocks -= block != NULL;
    __libc_free(block);
}
#endif

enum { MOST = 400, ENTRIES = 40 * MOST, SEEDS = 100 };

/* A pattern in the making: which entries are there. */
struct pattern {
    int states;
    bool there[MOST][MOST];
    int start[MOST + 1], column[ENTRIES];
    double scale[MOST], slope[ENTRIES];
    struct stiff_system system;
};

static struct pattern *pattern_create(int states)
{
    struct pattern *const pattern = calloc(1, sizeof *pattern);
    assert_non_null(pattern);
    pattern->states = states;
    for (int i = 0; i < states; i++) {
        pattern->there[i][i] = true;
        pattern->scale[i] = 1.0;
    }
    return pattern;
}

static void pattern_join(struct pattern *pattern, int i, int j)
{
    pattern->there[i][j] = true;
    pattern->there[j][i] = true;
}

static const struct stiff_system *pattern_close(struct pattern *pattern)
{
    int filled = 0;
    for (int i = 0; i < pattern->states; i++) {
        pattern->start[i] = filled;
        for (int j = 0; j < pattern->states; j++)
            if (pattern->there[i][j])
                pattern->column[filled++] = j;
        assert_true(filled < ENTRIES - MOST);
    }
    pattern->start[pattern->states] = filled;
    pattern->system = (struct stiff_system){
        .states = pattern->states, .start = pattern->start, .column = pattern->column, .scale = pattern->scale};
    return &pattern->system;
}

/* Slopes of a system of balances: columns of -J dominated by their diagonal, so that |1/M| (column sums) <= 1. */
static void pattern_draw(struct pattern *pattern, uint64_t *stream)
{
    double column_sum[MOST] = {0.0};
    for (int p = 0; p < pattern->start[pattern->states]; p++) {
        pattern->slope[p] = pow(10.0, 6.0 * near_draw(stream)) * (near_draw(stream) - 0.5);
        column_sum[pattern->column[p]] += fabs(pattern->slope[p]);
    }
    for (int i = 0; i < pattern->states; i++)
        for (int p = pattern->start[i]; p < pattern->start[i + 1]; p++)
            if (pattern->column[p] == i)
                pattern->slope[p] = -column_sum[i];
}

static int nonzeros_of(struct pattern *pattern)
{
    struct sparse_plan *const plan = sparse_plan_create(pattern_close(pattern));
    assert_non_null(plan);
    const int nonzeros = sparse_nonzeros(plan);
    sparse_plan_free(plan);
    return nonzeros;
}

static void dense_solve(const struct pattern *pattern, double gamma, const double *b, double *x)
{
    const size_t n = (size_t)pattern->states;
    gsl_matrix *const m = gsl_matrix_calloc(n, n);
    gsl_permutation *const exchange = gsl_permutation_alloc(n);
    gsl_vector_const_view right = gsl_vector_const_view_array(b, n);
    gsl_vector_view left = gsl_vector_view_array(x, n);
    int sign = 0;
    for (size_t i = 0; i < n; i++)
        for (int p = pattern->start[i]; p < pattern->start[i + 1]; p++)
            gsl_matrix_set(m, i, (size_t)pattern->column[p], -gamma * pattern->slope[p]);
    for (size_t i = 0; i < n; i++)
        *gsl_matrix_ptr(m, i, i) += 1.0;
    gsl_linalg_LU_decomp(m, exchange, &sign);
    gsl_linalg_LU_solve(m, exchange, &right.vector, &left.vector);
    gsl_permutation_free(exchange);
    gsl_matrix_free(m);
}

/* Largest column sum of |M|. */
static double norm_of(const struct pattern *pattern, double gamma)
{
    double sum[MOST] = {0.0};
    double most = 0.0;
    for (int i = 0; i < pattern->states; i++)
        for (int p = pattern->start[i]; p < pattern->start[i + 1]; p++)
            sum[pattern->column[p]] += fabs((pattern->column[p] == i ? 1.0 : 0.0) - gamma * pattern->slope[p]);
    for (int j = 0; j < pattern->states; j++)
        most = fmax(most, sum[j]);
    return most;
}

/* Both are backward stable here (columns dominated by the diagonal: growth at most 2), and |1/M| <= 1 in column sums,
 * so the sum of what they differ by is at most 2 n eps |M| |x| each, and far below it in truth. */
static void solve_equals_dense(void **unused)
{
    (void)unused;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        uint64_t stream = seed;
        const int n = 5 + (int)(60.0 * near_draw(&stream));
        struct pattern *const pattern = pattern_create(n);
        for (int k = 0; k < 2 * n; k++) /* not symmetric: the plan must make it so */
            pattern->there[(int)(n * near_draw(&stream))][(int)(n * near_draw(&stream))] = true;
        struct sparse_plan *const plan = sparse_plan_create(pattern_close(pattern));
        pattern_draw(pattern, &stream);
        double *const factor = malloc((size_t)sparse_nonzeros(plan) * sizeof *factor);
        double work[MOST];
        double b[MOST];
        double x[MOST];
        double size = 0.0;
        double off = 0.0;
        const double gamma = pow(10.0, -4.0 * near_draw(&stream));
        for (int i = 0; i < n; i++)
            b[i] = near_draw(&stream) - 0.5;
        dense_solve(pattern, gamma, b, x);
        const double growth = sparse_factorize(plan, &pattern->system, pattern->slope, gamma, factor);
        assert_true(growth <= 1.0 + 1e-12); /* dominance by columns bounds L by 1 */
        sparse_solve(plan, factor, b, work);
        for (int i = 0; i < n; i++) {
            size += fabs(x[i]);
            off += fabs(b[i] - x[i]);
        }
        assert_near("sparse less dense", off, 0.0, 4.0 * n * DBL_EPSILON * norm_of(pattern, gamma) * size);
        free(factor);
        sparse_plan_free(plan);
        free(pattern);
    }
}

static void chain_has_no_fill(void **unused)
{
    (void)unused;
    struct pattern *const pattern = pattern_create(MOST);
    for (int i = 0; i + 1 < MOST; i++)
        pattern_join(pattern, i, i + 1);
    assert_int_equal(nonzeros_of(pattern), 3 * MOST - 2);
    free(pattern);
}

/* Vessels of 5 states, each joined to all of its neighbours': block tridiagonal and nothing more. */
static void chain_of_blocks_has_no_fill(void **unused)
{
    enum { BLOCK = 5, COUNT = MOST / BLOCK };

    (void)unused;
    struct pattern *const pattern = pattern_create(MOST);
    for (int i = 0; i < MOST; i++)
        for (int j = 0; j < MOST; j++)
            if (abs(i / BLOCK - j / BLOCK) <= 1)
                pattern->there[i][j] = true;
    assert_int_equal(nonzeros_of(pattern), BLOCK * BLOCK * (3 * COUNT - 2));
    free(pattern);
}

/* A manifold: everything joined to state 0. In the order of the states all would fill; the hub has to go last. */
static void star_has_no_fill(void **unused)
{
    (void)unused;
    struct pattern *const pattern = pattern_create(MOST);
    for (int i = 1; i < MOST; i++)
        pattern_join(pattern, 0, i);
    assert_int_equal(nonzeros_of(pattern), 3 * MOST - 2);
    free(pattern);
}

/* n edges and, whatever the order, n - 3 more: the least a ring can do. */
static void ring_fills_least(void **unused)
{
    (void)unused;
    struct pattern *const pattern = pattern_create(MOST);
    for (int i = 0; i < MOST; i++)
        pattern_join(pattern, i, (i + 1) % MOST);
    assert_int_equal(nonzeros_of(pattern), 5 * MOST - 6);
    free(pattern);
}

/* Twelve by twelve. The order given fills a band of SIDE on each side of the diagonal; minimum degree must save a
 * third of that at least. */
static void grid_fills_little(void **unused)
{
    enum { SIDE = 12, CELLS = SIDE * SIDE };

    (void)unused;
    struct pattern *const pattern = pattern_create(CELLS);
    for (int i = 0; i < CELLS; i++) {
        if (i % SIDE + 1 < SIDE)
            pattern_join(pattern, i, i + 1);
        if (i + SIDE < CELLS)
            pattern_join(pattern, i, i + SIDE);
    }
    const int band = CELLS + 2 * (SIDE * (CELLS - SIDE) + SIDE * (SIDE - 1) / 2);
    assert_true(3 * nonzeros_of(pattern) < 2 * band);
    free(pattern);
}

static void vanishing_pivot_is_reported(void **unused)
{
    (void)unused;
    struct pattern *const pattern = pattern_create(2);
    pattern_join(pattern, 0, 1);
    struct sparse_plan *const plan = sparse_plan_create(pattern_close(pattern));
    const double singular[4] = {1.0, 1.0, 1.0, 1.0}; /* at gamma 1: 0 -1 / -1 0 */
    const double nearly[4] = {1.0 - 1e-9, 1.0, 1.0, 1.0};
    const double spoiled[4] = {(double)NAN, 1.0, 1.0, 1.0};
    double factor[4];
    assert_true(isinf(sparse_factorize(plan, &pattern->system, singular, 1.0, factor)));
    assert_true(isinf(sparse_factorize(plan, &pattern->system, spoiled, 1.0, factor)));
    assert_near_share("growth", sparse_factorize(plan, &pattern->system, nearly, 1.0, factor), 1e9, 1e-6);
    pattern->scale[0] = 1e-3; /* L is measured in the scales of its rows */
    assert_near_share("growth", sparse_factorize(plan, &pattern->system, nearly, 1.0, factor), 1e6, 1e-6);
    sparse_plan_free(plan);
    free(pattern);
}

/* Two plans of one pattern, same numbers: same bits, ties between equal degrees included. */
static void plan_is_the_same_twice(void **unused)
{
    (void)unused;
    uint64_t stream = 7;
    struct pattern *const pattern = pattern_create(60);
    for (int k = 0; k < 150; k++)
        pattern->there[(int)(60 * near_draw(&stream))][(int)(60 * near_draw(&stream))] = true;
    const struct stiff_system *const system = pattern_close(pattern);
    pattern_draw(pattern, &stream);
    double *factor[2];
    size_t size = 0;
    for (int k = 0; k < 2; k++) {
        struct sparse_plan *const plan = sparse_plan_create(system);
        size = (size_t)sparse_nonzeros(plan) * sizeof(double);
        factor[k] = malloc(size);
        sparse_factorize(plan, system, pattern->slope, 0.1, factor[k]);
        sparse_plan_free(plan);
    }
    assert_memory_equal(factor[0], factor[1], size);
    free(factor[0]);
    free(factor[1]);
    free(pattern);
}

static void want_of_memory_leaves_nothing_behind(void **unused)
{
    (void)unused;
    if (!OWN_ALLOCATOR)
        skip();
    struct pattern *const pattern = pattern_create(9);
    for (int i = 0; i + 1 < 9; i++)
        pattern_join(pattern, i, i + 1);
    const struct stiff_system *const system = pattern_close(pattern);
    struct sparse_plan *plan = NULL;
    int failures = 0;
    while (!plan) {
        const long before = blocks;
        allocations_left = failures;
        plan = sparse_plan_create(system);
        const bool all_succeeded = allocations_left >= 0;
        allocations_left = -1;
        assert_true((plan != NULL) == all_succeeded);
        if (!plan)
            assert_true(blocks == before);
        failures++;
    }
    assert_true(failures > 4); /* each of the plan's allocations has failed once */
    sparse_plan_free(plan);
    sparse_plan_free(NULL);
    free(pattern);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solve_equals_dense),
        cmocka_unit_test(chain_has_no_fill),
        cmocka_unit_test(chain_of_blocks_has_no_fill),
        cmocka_unit_test(star_has_no_fill),
        cmocka_unit_test(ring_fills_least),
        cmocka_unit_test(grid_fills_little),
        cmocka_unit_test(vanishing_pivot_is_reported),
        cmocka_unit_test(plan_is_the_same_twice),
        cmocka_unit_test(want_of_memory_leaves_nothing_behind),
    };
    return cmocka_run_group_tests_name("sparse elimination", tests, NULL, NULL) != 0;
}
