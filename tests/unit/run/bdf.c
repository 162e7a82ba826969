/* tests/unit/run/bdf.c  The stiff stepper: right within its tolerance, and everything else it promises in bdf.h. */
#include "support/stiff.h"

#include <float.h>
#include <stdbool.h>

/* ---- calls of the allocator, counted (not under a sanitizer or valgrind, which have their own) ---- */

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

static volatile long allocations;

#if OWN_ALLOCATOR
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

void *malloc(size_t size)
{
    allocations++;
    return __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    allocations++;
    return __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    allocations++;
    return __libc_realloc(old, size);
}
#endif

/* ---- solutions ---- */

/* y' = -1e6 (y - cos t) - sin t [HAIRER1996: Prothero and Robinson's]. An error e of the formula is damped by 1 / (1 +
 * gamma 1e6): far below the tolerance, whatever the step, and no step may be refused for stiffness. */
static int prothero_rates(double time, const double *y, double *f, void *context)
{
    (void)context;
    f[0] = -1e6 * (y[0] - cos(time)) - sin(time);
    return 0;
}

static int prothero_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    value[0] = -1e6;
    return 0;
}

static const int one_start[2] = {0, 1};
static const int one_column[1] = {0};
static const double one_scale[1] = {1.0};
static const double one_base[1] = {1.0};
static const bool one_amount[1] = {true};
static const bool one_free[1] = {false};

static struct stiff_system one_system(int (*rates)(double, const double *, double *, void *),
                                      int (*slopes)(double, const double *, double *, void *), const bool *amount)
{
    return (struct stiff_system){.states = 1,
                                 .start = one_start,
                                 .column = one_column,
                                 .scale = one_scale,
                                 .amount = amount,
                                 .base = one_base,
                                 .rates = rates,
                                 .slopes = slopes};
}

static void prothero_robinson_is_damped(void **unused)
{
    (void)unused;
    const struct stiff_system system = one_system(prothero_rates, prothero_slopes, one_free);
    for (double r = 1e-4; r > 1e-9; r /= 100.0) {
        struct stiff_run run = stiff_begin(&system, r, (const double[]){1.0});
        assert_true(stiff_go(&run, 20.0));
        assert_near("cos 20", run.y[0], cos(20.0), 0.01 * r);
        assert_int_equal(bdf_effort(run.bdf).newton_failures, 0);
        stiff_end(&run);
    }
}

/* Rates 1..1e6 1/s against Bateman's solution. Errors of steps add up, so 10 tolerances are allowed (rms over the
 * states); each time stands where another nuclide is in the making. */
static void decay_chain_follows_bateman(void **unused)
{
    (void)unused;
    const struct stiff_system system = decay_system();
    const double times[] = {1e-5, 1e-3, 0.1, 1.0, 10.0};
    for (double r = 1e-4; r > 1e-10; r /= 10.0) {
        struct stiff_run run = stiff_begin(&system, r, (const double[DECAY + 1]){1.0});
        bdf_restart(run.bdf, 1e-7);
        for (size_t i = 0; i < sizeof times / sizeof times[0]; i++) {
            double sum = 0.0;
            assert_true(stiff_go(&run, times[i]));
            for (int k = 0; k < DECAY; k++)
                sum += pow(run.y[k] - decay_exact(k, run.time), 2.0);
            assert_near("decay", sqrt(sum / DECAY), 0.0, 10.0 * r);
        }
        stiff_end(&run);
    }
}

/* Steps a peer of the same family takes (scipy 1.10 solve_ivp, method BDF, rtol r, atol r 1e-2, r 1e-6, r 1e-2): 84 at
 * 1e-4, 170 at 1e-6, with 217 and 444 derivatives. The tolerances are not measured alike, so half as many again. */
static void effort_is_that_of_the_family(void **unused)
{
    static const struct {
        double r;
        int steps, derivatives;
    } peer[] = {{1e-4, 84, 217}, {1e-6, 170, 444}};

    (void)unused;
    const struct stiff_system system = robertson_system();
    for (size_t i = 0; i < sizeof peer / sizeof peer[0]; i++) {
        struct stiff_run run = stiff_begin(&system, peer[i].r, robertson_first);
        assert_true(stiff_go(&run, 40.0));
        const struct stiff_effort effort = bdf_effort(run.bdf);
        assert_true(effort.steps <= peer[i].steps * 3 / 2);
        assert_true(effort.derivatives <= peer[i].derivatives * 3 / 2);
        assert_true(effort.jacobians <= effort.factorizations && effort.factorizations < effort.steps / 2);
        assert_true(effort.steps + effort.rejected + effort.newton_failures == run.tries);
        stiff_end(&run);
    }
}

/* ---- invariants ----
 * Vessels that exchange by a crooked law, fed by a wave and drained by a square law, both booked in accounts:
 * sum of y - in + out = 0 for ever. */

enum { VESSELS = 8, IN = VESSELS, OUT, ROWS };

static const double VESSEL_STIFFNESS = 1e4;

static int vessels_rates(double time, const double *y, double *f, void *context)
{
    (void)context;
    memset(f, 0, ROWS * sizeof *f);
    for (int i = 0; i + 1 < VESSELS; i++) {
        const double flow = VESSEL_STIFFNESS * (y[i] - y[i + 1]) * (1.0 + y[i] * y[i]);
        f[i] -= flow;
        f[i + 1] += flow;
    }
    f[IN] = 5.0 * (1.0 + sin(time) - y[0]);
    f[OUT] = 3.0 * y[VESSELS - 1] * fabs(y[VESSELS - 1]);
    f[0] += f[IN];
    f[VESSELS - 1] -= f[OUT];
    return 0;
}

static int vessels_slopes(double time, const double *y, double *value, void *context)
{
    double full[ROWS][VESSELS] = {{0.0}};
    (void)time;
    (void)context;
    for (int i = 0; i + 1 < VESSELS; i++) {
        const double curve = 1.0 + y[i] * y[i];
        const double up = VESSEL_STIFFNESS * (curve + 2.0 * y[i] * (y[i] - y[i + 1]));
        full[i][i] -= up;
        full[i + 1][i] += up;
        full[i][i + 1] += VESSEL_STIFFNESS * curve;
        full[i + 1][i + 1] -= VESSEL_STIFFNESS * curve;
    }
    full[IN][0] = -5.0;
    full[OUT][VESSELS - 1] = 6.0 * fabs(y[VESSELS - 1]);
    full[0][0] += full[IN][0];
    full[VESSELS - 1][VESSELS - 1] -= full[OUT][VESSELS - 1];
    memcpy(value, full, sizeof full);
    return 0;
}

struct vessels {
    struct stiff_system system;
    int start[ROWS + 1], column[ROWS * VESSELS];
    double scale[VESSELS], base[VESSELS];
    bool amount[VESSELS];
};

static void vessels_make(struct vessels *vessels)
{
    *vessels = (struct vessels){.system = {.states = VESSELS, .accounts = ROWS - VESSELS}};
    stiff_full(ROWS, VESSELS, vessels->start, vessels->column);
    for (int i = 0; i < VESSELS; i++)
        vessels->scale[i] = 1.0;
    vessels->system.start = vessels->start;
    vessels->system.column = vessels->column;
    vessels->system.scale = vessels->scale;
    vessels->system.amount = vessels->amount;
    vessels->system.base = vessels->base;
    vessels->system.rates = vessels_rates;
    vessels->system.slopes = vessels_slopes;
}

static double vessels_balance(const double *y)
{
    double sum = y[OUT] - y[IN];
    for (int i = 0; i < VESSELS; i++)
        sum += y[i];
    return sum;
}

/* Round-off only: every step may leave eps of the sum of what it adds, about 20 here; 1e-13 would be one part in 1e14
 * of what has passed. At loose tolerances just as well: the balance holds in every iterate, converged or not. */
static void balance_holds_to_round_off(void **unused)
{
    (void)unused;
    struct vessels vessels;
    vessels_make(&vessels);
    for (double r = 1e-2; r > 1e-9; r /= 10.0) {
        struct stiff_run run = stiff_begin(&vessels.system, r, (const double[ROWS]){0.0});
        double least_passed = 0.0;
        while (run.time < 20.0) {
            double y[ROWS];
            const double start = run.time;
            assert_true(stiff_step(&run, 20.0));
            for (int k = 0; k <= 4; k++) {
                bdf_interpolate(run.bdf, &vessels.system, start + k * (run.time - start) / 4.0, y);
                assert_near("balance inside the step", vessels_balance(y), 0.0, 2e-13);
            }
            assert_near("balance", vessels_balance(run.y), 0.0, 2e-13);
            least_passed = run.y[IN];
        }
        assert_true(least_passed > 10.0);
        stiff_end(&run);
    }
}

/* Also while the caller cuts steps at every other turn, to any share of what was proposed. */
static void balance_holds_in_cut_steps(void **unused)
{
    (void)unused;
    struct vessels vessels;
    vessels_make(&vessels);
    uint64_t stream = 3;
    struct stiff_run run = stiff_begin(&vessels.system, 1e-5, (const double[ROWS]){0.0});
    while (run.time < 5.0) {
        stiff_try(&run, bdf_next(run.bdf) * (near_draw(&stream) < 0.5 ? 1.0 : pow(10.0, -5.0 * near_draw(&stream))));
        assert_near("balance", vessels_balance(run.y), 0.0, 2e-13);
        assert_true(run.tries < 20000);
    }
    stiff_end(&run);
}

/* ---- the block ---- */

static void block_restored_elsewhere_goes_on_with_the_same_bits(void **unused)
{
    (void)unused;
    const struct stiff_system system = robertson_system();
    struct stiff_run run = stiff_begin(&system, 1e-6, robertson_first);
    const size_t size = bdf_size(&system, run.plan);
    for (int k = 0; k < 57; k++)
        assert_true(stiff_step(&run, 1e3));
    const size_t kept = bdf_kept(run.bdf);
    assert_true(kept < size);
    struct stiff_run other = run;
    other.plan = sparse_plan_create(&system);
    other.bdf = malloc(size + 64);
    memset(other.bdf, 0x5a, size + 64);
    memcpy(other.bdf, run.bdf, kept);
    bdf_revive(other.bdf, &system, other.plan);
    assert_true(stiff_go(&run, 1e3));
    assert_true(stiff_go(&other, 1e3));
    assert_memory_equal(run.y, other.y, 4 * sizeof(double));
    assert_memory_equal(run.bdf, other.bdf, kept);
    stiff_end(&other);
    stiff_end(&run);
}

static void two_runs_are_equal_bytes(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run[2];
    for (int k = 0; k < 2; k++) {
        run[k] = breathe_begin(&system, 1e-6);
        assert_true(stiff_go(&run[k], 3.0));
    }
    assert_memory_equal(run[0].bdf, run[1].bdf, bdf_size(&system, run[0].plan));
    stiff_end(&run[0]);
    stiff_end(&run[1]);
}

static void stepping_allocates_nothing(void **unused)
{
    (void)unused;
    const struct stiff_system system = robertson_system();
    const long before = allocations;
    struct stiff_run run = stiff_begin(&system, 1e-6, robertson_first);
    const long made = allocations;
    const int gone = stiff_go(&run, 40.0);
    bdf_restart(run.bdf, 0.0);
    bdf_interpolate(run.bdf, &system, 39.0, run.y);
    assert_int_equal(allocations, made);
    assert_true(gone);
    stiff_end(&run);
    if (made == before) /* something else has put its own allocator in place, and this one has counted nothing */
        skip();
}

/* ---- dense output ---- */

/* Passes through both ends of a step of the stepper's choice, and between them is off by what steps are: 10
 * tolerances. */
static void interpolation_is_the_step_s_own(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const double r = 1e-6;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, r);
    while (run.time < 6.0) {
        double y[STIFF_MOST];
        double before[STIFF_MOST];
        const double start = run.time;
        memcpy(before, run.y, sizeof before);
        assert_true(stiff_step(&run, 100.0));
        bdf_interpolate(run.bdf, &system, run.time, y);
        for (int i = 0; i < BREATHE; i++)
            assert_near("end", y[i], run.y[i], 8.0 * DBL_EPSILON);
        bdf_interpolate(run.bdf, &system, start, y);
        for (int i = 0; i < BREATHE; i++)
            assert_near("start", y[i], before[i], 64.0 * DBL_EPSILON);
        for (int k = 1; k < 4; k++) {
            const double time = start + k * (run.time - start) / 4.0;
            bdf_interpolate(run.bdf, &system, time, y);
            for (int i = 0; i < BREATHE; i++)
                assert_near("between", y[i], breathe_exact(i, time), 10.0 * r);
        }
    }
    stiff_end(&run);
}

static void interpolation_of_some_is_that_of_all(void **unused)
{
    (void)unused;
    const struct stiff_system system = decay_system();
    struct stiff_run run = stiff_begin(&system, 1e-6, (const double[DECAY + 1]){1.0});
    assert_true(stiff_go(&run, 0.01));
    const int index[4] = {DECAY, 2, 0, 2};
    double y[DECAY + 1];
    double some[4];
    bdf_interpolate(run.bdf, &system, 0.0099, y);
    bdf_interpolate_some(run.bdf, &system, 0.0099, 4, index, some);
    for (int k = 0; k < 4; k++)
        assert_memory_equal(&some[k], &y[index[k]], sizeof(double));
    stiff_end(&run);
}

/* Neither a refused attempt nor a restart touches the last step's polynomial. */
static void interpolation_outlives_what_follows(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, 1e-6);
    for (int k = 0; k < 60; k++) {
        double y[BREATHE];
        double again[BREATHE];
        const double start = run.time;
        assert_true(stiff_step(&run, 100.0));
        const double middle = 0.5 * (start + run.time);
        bdf_interpolate(run.bdf, &system, middle, y);
        assert_int_equal(stiff_try(&run, 1e4), BDF_SHORTER);
        bdf_interpolate(run.bdf, &system, middle, again);
        assert_memory_equal(y, again, sizeof y);
        if (k % 20 == 19) {
            bdf_restart(run.bdf, 0.0);
            bdf_interpolate(run.bdf, &system, middle, again);
            assert_memory_equal(y, again, sizeof y);
        }
    }
    stiff_end(&run);
}

static void last_step_tells_of_itself(void **unused)
{
    (void)unused;
    double stiffness = 100.0;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, 1e-6);
    assert_true(bdf_tolerance(run.bdf) == 1e-6);
    assert_int_equal(bdf_order(run.bdf), 0);
    for (int k = 0; k < 200; k++) {
        double error[BREATHE];
        double slope[BREATHE];
        double f[BREATHE];
        double sum = 0.0;
        assert_true(stiff_step(&run, 100.0));
        bdf_last(run.bdf, error, slope);
        breathe_rates(run.time, run.y, f, &stiffness);
        for (int i = 0; i < BREATHE; i++) {
            sum += pow(error[i] / 1e-6, 2.0);
            assert_near("slope", slope[i], f[i],
                        1e-3); /* as far as Newton went: 0.003 r stiffness, and the error in it */
        }
        assert_true(sqrt(sum / BREATHE) <= 1.0 + 1e-12);
        assert_in_range(bdf_order(run.bdf), 1, 5);
    }
    stiff_end(&run);
}

/* ---- length and order of steps ---- */

static void restart_begins_anew(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, 1e-6);
    assert_true(bdf_next(run.bdf) > 0.0);
    assert_true(stiff_go(&run, 2.0));
    assert_true(bdf_order(run.bdf) > 2);
    for (int i = 0; i < BREATHE; i++) /* somewhere else altogether: history would mislead */
        run.y[i] = breathe_exact(i, 10.0);
    run.time = 10.0;
    bdf_restart(run.bdf, 1e-4);
    assert_true(bdf_next(run.bdf) == 1e-4);
    assert_int_equal(stiff_try(&run, 1e-4), BDF_STEPPED);
    assert_int_equal(bdf_order(run.bdf), 1);
    assert_true(stiff_go(&run, 12.0));
    assert_near("after a restart", breathe_off(&run), 0.0, 1e-5);
    bdf_restart(run.bdf, 0.0);
    assert_true(bdf_next(run.bdf) > 0.0 && bdf_next(run.bdf) < 1.0);
    stiff_end(&run);
}

static struct stiff_run breathe_at(const struct stiff_system *system, double time)
{
    struct stiff_run run = breathe_begin(system, 1e-6);
    assert_true(stiff_go(&run, time));
    assert_true(stiff_step(&run, time + 100.0));
    return run;
}

/* An event ends a step early: the next proposal is the old one, however short the step was, and it passes. */
static void cut_step_is_not_fed_back(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    for (double share = 0.95; share > 1e-9; share *= 0.8) {
        struct stiff_run run = breathe_at(&system, 4.0);
        const double wanted = bdf_next(run.bdf);
        double start[BREATHE];
        const double begun = run.time;
        assert_int_equal(stiff_try(&run, share * wanted), BDF_STEPPED);
        bdf_interpolate(run.bdf, &system, begun, start);
        for (int i = 0; i < BREATHE; i++)
            assert_near("where it began", start[i], breathe_exact(i, begun), 1e-5);
        assert_true(bdf_next(run.bdf) >= 0.999 * wanted);
        assert_int_equal(stiff_try(&run, bdf_next(run.bdf)), BDF_STEPPED);
        assert_near("after the next step", breathe_off(&run), 0.0, 1e-5);
        stiff_end(&run);
    }
}

/* Sixty pairs of events, of which none restarts: each event may cost its own step and three more, all told. `apart`:
 * the two of a pair (s). */
static void events_cost_little(double apart)
{
    double stiffness = 1e4;
    uint64_t stream = 11;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run plain = breathe_begin(&system, 1e-6);
    struct stiff_run cut = breathe_begin(&system, 1e-6);
    assert_true(stiff_go(&plain, 60.0));
    for (int k = 0; k < 60; k++) {
        const double time = k + 0.9 * near_draw(&stream);
        assert_true(stiff_go(&cut, time));
        assert_true(stiff_go(&cut, time + apart));
    }
    assert_true(stiff_go(&cut, 60.0));
    assert_near("plain", breathe_off(&plain), 0.0, 1e-5);
    assert_near("cut", breathe_off(&cut), 0.0, 1e-5);
    assert_true(bdf_effort(cut.bdf).steps < bdf_effort(plain.bdf).steps + 4 * 2 * 60);
    stiff_end(&plain);
    stiff_end(&cut);
}

static void events_on_the_way_cost_little(void **unused)
{
    (void)unused;
    events_cost_little(1e-9);
    events_cost_little(1e-4);
    events_cost_little(0.03);
}

static void step_below_the_resolution_of_time_is_stuck(void **unused)
{
    (void)unused;
    double stiffness = 1.0;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run run = breathe_begin(&system, 1e-6);
    const struct stiff_run before = run;
    run.time = 1e9;
    assert_int_equal(stiff_try(&run, 1e-8), BDF_STUCK);
    assert_memory_equal(run.y, before.y, sizeof run.y);
    stiff_end(&run);
}

static void held_order_is_reached_and_kept(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    for (int order = 1; order <= 5; order++) {
        struct stiff_run run = breathe_begin(&system, 1e-10);
        bdf_hold(run.bdf, order);
        for (int k = 0; k < 60; k++) {
            assert_int_equal(stiff_try(&run, 1e-3), BDF_STEPPED); /* no error test: far too long for order 1 */
            assert_true(bdf_next(run.bdf) == 1e-3);
            assert_true(bdf_order(run.bdf) <= order);
        }
        assert_int_equal(bdf_order(run.bdf), order);
        stiff_end(&run);
    }
}

/* ---- what the system refuses ---- */

/* y' = 10 (2 - y), not defined beyond y = *limit; says so by its return value, or by a NaN. */
struct fenced {
    double limit;
    bool by_value;
};

static int fenced_rates(double time, const double *y, double *f, void *context)
{
    const struct fenced *const fence = context;
    (void)time;
    f[0] = 10.0 * (2.0 - y[0]);
    if (y[0] <= fence->limit)
        return 0;
    f[0] = fence->by_value ? (double)NAN : -1e9;
    return fence->by_value ? 0 : 1;
}

static int fenced_slopes(double time, const double *y, double *value, void *context)
{
    const struct fenced *const fence = context;
    (void)time;
    value[0] = y[0] <= fence->limit || !fence->by_value ? -10.0 : (double)NAN;
    return y[0] > fence->limit && !fence->by_value;
}

static void domain_is_respected(bool by_value)
{
    struct fenced fence = {1.999, by_value};
    struct stiff_system system = one_system(fenced_rates, fenced_slopes, one_free);
    system.context = &fence;
    struct stiff_run run = stiff_begin(&system, 1e-6, (const double[]){0.0});
    bdf_restart(run.bdf, 10.0);
    assert_int_equal(stiff_try(&run, 10.0), BDF_SHORTER); /* the prediction is 200 */
    assert_true(run.y[0] == 0.0 && bdf_next(run.bdf) < 10.0);
    assert_int_equal(bdf_effort(run.bdf).newton_failures, 1);
    assert_true(stiff_go(&run, 0.2));
    assert_near("inside the domain", run.y[0], 2.0 - 2.0 * exp(-2.0), 1e-5);
    assert_false(stiff_go(&run, 10.0)); /* the solution leaves at 0.76 s */
    assert_near("up to its edge", run.time, log(2.0 / 0.001) / 10.0, 1e-3);
    assert_true(run.y[0] <= 1.999 + 1e-6); /* Newton's last correction is not evaluated again */
    assert_true(run.tries < 2000);
    stiff_end(&run);
}

static void refused_states_shorten_the_step(void **unused)
{
    (void)unused;
    domain_is_respected(false);
}

static void rates_that_are_no_numbers_shorten_the_step(void **unused)
{
    (void)unused;
    domain_is_respected(true);
}

static int drain_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    f[0] = -1.0;
    return 0;
}

static int drain_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    value[0] = 0.0;
    return 0;
}

/* 1 in a vessel, drained at 1 per second whether there is any left or not: the stepper stops 10 r s below nothing, and
 * goes on where the state is no amount. */
static void amount_does_not_go_below_nothing(void **unused)
{
    (void)unused;
    const double r = 1e-6;
    const struct stiff_system amount = one_system(drain_rates, drain_slopes, one_amount);
    const struct stiff_system number = one_system(drain_rates, drain_slopes, one_free);
    struct stiff_run run = stiff_begin(&amount, r, (const double[]){0.0});
    assert_false(stiff_go(&run, 3.0));
    assert_true(one_base[0] + run.y[0] >= -10.0 * r);
    assert_near("stops when empty", run.time, 1.0, 11.0 * r);
    assert_true(bdf_effort(run.bdf).rejected > 0);
    stiff_end(&run);
    run = stiff_begin(&number, r, (const double[]){0.0});
    assert_true(stiff_go(&run, 3.0));
    assert_near("a number", run.y[0], -3.0, 1e-12);
    stiff_end(&run);
    run = stiff_begin(&amount, r, (const double[]){-1.5}); /* there already: may not fall further */
    assert_int_equal(stiff_try(&run, 0.1), BDF_SHORTER);
    assert_true(run.y[0] == -1.5);
    stiff_end(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prothero_robinson_is_damped),
        cmocka_unit_test(decay_chain_follows_bateman),
        cmocka_unit_test(effort_is_that_of_the_family),
        cmocka_unit_test(balance_holds_to_round_off),
        cmocka_unit_test(balance_holds_in_cut_steps),
        cmocka_unit_test(block_restored_elsewhere_goes_on_with_the_same_bits),
        cmocka_unit_test(two_runs_are_equal_bytes),
        cmocka_unit_test(stepping_allocates_nothing),
        cmocka_unit_test(interpolation_is_the_step_s_own),
        cmocka_unit_test(interpolation_of_some_is_that_of_all),
        cmocka_unit_test(interpolation_outlives_what_follows),
        cmocka_unit_test(last_step_tells_of_itself),
        cmocka_unit_test(restart_begins_anew),
        cmocka_unit_test(cut_step_is_not_fed_back),
        cmocka_unit_test(events_on_the_way_cost_little),
        cmocka_unit_test(step_below_the_resolution_of_time_is_stuck),
        cmocka_unit_test(held_order_is_reached_and_kept),
        cmocka_unit_test(refused_states_shorten_the_step),
        cmocka_unit_test(rates_that_are_no_numbers_shorten_the_step),
        cmocka_unit_test(amount_does_not_go_below_nothing),
    };
    return cmocka_run_group_tests_name("stiff stepper", tests, NULL, NULL) != 0;
}
