/* tests/invariant/solvers.c  What must not depend on how a run is made: the solver, the tolerance, the pieces it is
 * advanced in, the thread it runs on. */
#include "support/rigs.h"
#include "support/run_text.h"

#include <gsl/gsl_errno.h>
#include <pthread.h>

/* A reading's natural unit in the error test: what tolerance 1 would be. */
static double unit_of(int dimension)
{
    switch (dimension) {
    case ULLAGE_PRESSURE:
        return 1000.0; /* Pa: the scale of pressures */
    case ULLAGE_TEMPERATURE:
        return 10.0;
    case ULLAGE_AMOUNT:
        return 0.1;
    case ULLAGE_LENGTH:
        return 1e-3;
    case ULLAGE_MASS_FLOW:
        return 1e-4;
    default:
        return 1.0;
    }
}

/* Largest difference of two runs' readings in natural units. */
static double apart(const struct text_run *one, const struct text_run *other)
{
    double worst = 0.0;
    assert_int_equal(ullage_run_readings(one->run), ullage_run_readings(other->run));
    for (int k = 0; k < ullage_run_readings(one->run); k++) {
        const struct ullage_reading a = ullage_run_reading(one->run, k), b = ullage_run_reading(other->run, k);
        worst = fmax(worst, fabs(a.value - b.value) / unit_of(a.dimension));
    }
    return worst;
}

/* GSL's msbdf shares the equations, not the method: both must come to the same answers. At 1e-8 each solver's own error
 * is within a hundred tolerance units. */
static void two_solvers_agree(void **unused)
{
    (void)unused;
    const struct ullage_method ours = {.solver = "bdf", .tolerance = 1e-8},
                               peer = {.solver = "msbdf", .tolerance = 1e-8};
    const char *const text[] = {rig_pull_up, rig_smooth};
    for (int k = 0; k < 2; k++) {
        struct text_run one = text_run_with(text[k], &ours), other = text_run_with(text[k], &peer);
        const double off = apart(&one, &other);
        print_message("bdf and msbdf at 1e-8 part by %.2g units\n", off);
        assert_true(off > 0.0); /* the same bits would mean the same code */
        assert_near("two solvers", off, 0.0, 1e-6);
        text_close(&one);
        text_close(&other);
    }
}

/* Error against tolerance on the smooth rig: slope of the logs 0.7..1.3 from 1e-5 down, and no tolerance worse than one a
 * decade looser by more than a factor of 5; the half decade between may have had luck, where errors of two signs meet.
 * Reference: the same rig at 1e-11. */
static void error_follows_tolerance(void **unused)
{
    (void)unused;
    const struct ullage_method fine = {.tolerance = 1e-11};
    struct text_run reference = text_run_with(rig_smooth, &fine);
    double log_r[16], log_e[16], looser[2] = {(double)INFINITY, (double)INFINITY}; /* a decade, half of one */
    int count = 0;
    for (int e = -30; e >= -90; e -= 5) { /* half decades, 1e-3 to 1e-9 */
        const double r = pow(10.0, 0.1 * e);
        const struct ullage_method method = {.tolerance = r};
        struct text_run ran = text_run_with(rig_smooth, &method);
        const double error = apart(&ran, &reference);
        print_message("r %.1e  error %.2e  steps %lld\n", r, error, (long long)ullage_run_effort(ran.run).steps);
        if (!(error <= 5.0 * looser[0]))
            fail_msg("tolerance %g is worse than one a decade looser: %g after %g", r, error, looser[0]);
        looser[0] = looser[1];
        looser[1] = error;
        if (e <= -50) {
            log_r[count] = log10(r);
            log_e[count++] = log10(error);
        }
        text_close(&ran);
    }
    double mean_r = 0.0, mean_e = 0.0, top = 0.0, below = 0.0;
    for (int k = 0; k < count; k++) {
        mean_r += log_r[k] / count;
        mean_e += log_e[k] / count;
    }
    for (int k = 0; k < count; k++) {
        top += (log_r[k] - mean_r) * (log_e[k] - mean_e);
        below += (log_r[k] - mean_r) * (log_r[k] - mean_r);
    }
    assert_near("slope of error against tolerance", top / below, 1.0, 0.3);
    text_close(&reference);
}

static void pieces_do_not_matter(void **unused)
{
    (void)unused;
    struct text_run whole = text_run(rig_pull_up);
    struct text_run pieces = {text_model(rig_pull_up), NULL};
    pieces.run = ullage_run_create(pieces.model, NULL);
    enum ullage_status status = ULLAGE_PAUSED;
    for (double time = 0.0; status == ULLAGE_PAUSED; time += 0.37)
        status = ullage_run_advance(pieces.model, pieces.run, time);
    assert_int_equal(status, ULLAGE_FINISHED);
    assert_true(ullage_run_hash(whole.run) == ullage_run_hash(pieces.run));
    assert_int_equal(ullage_run_effort(whole.run).steps, ullage_run_effort(pieces.run).steps);
    assert_int_equal(ullage_run_samples(whole.run), ullage_run_samples(pieces.run));
    text_close(&whole);
    text_close(&pieces);
}

struct task {
    const struct ullage_model *model;
    uint64_t hash;
};

static void *run_task(void *room)
{
    struct task *task = room;
    struct ullage_run *run = ullage_run_create(task->model, NULL);
    if (run && ullage_run_advance(task->model, run, (double)INFINITY) == ULLAGE_FINISHED)
        task->hash = ullage_run_hash(run);
    ullage_run_free(run);
    return NULL;
}

/* Many runs of one model at once: they share it and nothing else. */
static void threads_do_not_matter(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    struct task alone = {model, 0};
    run_task(&alone);
    assert_true(alone.hash != 0);

    enum { THREADS = 6 };
    struct task task[THREADS];
    pthread_t thread[THREADS];
    for (int k = 0; k < THREADS; k++) {
        task[k] = (struct task){model, 0};
        assert_int_equal(pthread_create(&thread[k], NULL, run_task, &task[k]), 0);
    }
    for (int k = 0; k < THREADS; k++) {
        pthread_join(thread[k], NULL);
        assert_true(task[k].hash == alone.hash);
    }
    ullage_model_free(model);
}

/* Where a run would have to find the valley of a square root at every breath: the laws must stay finite in slope at zero.
 * A vented vessel breathes through a day in far fewer steps than the thousands a bare square root costs. */
static void a_breathing_day_is_cheap(void **unused)
{
    (void)unused;
    struct text_run day =
        text_run("ullage: scenario/1\nsurroundings: {temperature: [[0 h, 22 degC], [12 h, 36 degC], [24 h, 22 degC]]}\n"
                 "system:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                 "    line: {type: line, from: tank, to: air, bore: 8 mm, length: 1.5 m}\n"
                 "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm}\n"
                 "procedure:\n  steps:\n    - wait: {for: 24 h}\n    - read: {left: tank.amount}\n");
    print_message("a day: %lld steps\n", (long long)ullage_run_effort(day.run).steps);
    assert_true(ullage_run_effort(day.run).steps < 1500);
    text_close(&day);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_solvers_agree),        cmocka_unit_test(error_follows_tolerance),
        cmocka_unit_test(pieces_do_not_matter),     cmocka_unit_test(threads_do_not_matter),
        cmocka_unit_test(a_breathing_day_is_cheap),
    };
    return cmocka_run_group_tests_name("invariant/solvers", tests, NULL, NULL) != 0;
}
