/* tests/unit/run/bdf_gsl.c  The stepper behind GSL's evolve, beside GSL's own multistep BDF on the same systems. */
#include "support/stiff.h"

#include <gsl/gsl_errno.h>

/* One integration through gsl_odeiv2_evolve_apply. */
struct door_run {
    struct bdf_door door;
    struct stiff_effort effort;
    gsl_odeiv2_system system;
    gsl_odeiv2_step *step;
    gsl_odeiv2_control *control;
    gsl_odeiv2_evolve *evolve;
    struct stiff_run run; /* holds plan, block, y */
    double values[STIFF_MOST * STIFF_MOST];
    double h;
};

static void door_begin(struct door_run *door, const struct stiff_system *system, double tolerance, const double *y)
{
    memset(door, 0, sizeof *door);
    door->run = stiff_begin(system, tolerance, y);
    door->door = (struct bdf_door){.system = system,
                                   .plan = door->run.plan,
                                   .bdf = door->run.bdf,
                                   .values = door->values,
                                   .effort = &door->effort};
    door->system = bdf_door_system(&door->door);
    door->step = gsl_odeiv2_step_alloc(step_bdf, door->system.dimension);
    door->control = control_of_bdf(&door->door);
    door->evolve = gsl_odeiv2_evolve_alloc(door->system.dimension);
    door->h = bdf_next(door->run.bdf);
    assert_non_null(door->step);
    assert_non_null(door->control);
}

static void door_end(struct door_run *door)
{
    gsl_odeiv2_evolve_free(door->evolve);
    gsl_odeiv2_control_free(door->control);
    gsl_odeiv2_step_free(door->step);
    stiff_end(&door->run);
}

static int door_apply(struct door_run *door, double end)
{
    return gsl_odeiv2_evolve_apply(door->evolve, door->control, door->step, &door->system, &door->run.time, end,
                                   &door->h, door->run.y);
}

static int door_go(struct door_run *door, double end)
{
    int status = GSL_SUCCESS;
    while (status == GSL_SUCCESS && door->run.time < end)
        status = door_apply(door, end);
    return status;
}

/* GSL's own stepper on a system behind the same door; scale_of_rows [n+m] weighs accounts too. */
static void peer_go(const struct stiff_system *system, double tolerance, const double *scale_of_rows, double end,
                    double *y, struct stiff_effort *effort)
{
    double values[STIFF_MOST * STIFF_MOST];
    struct bdf_door door = {.system = system, .values = values, .effort = effort};
    const gsl_odeiv2_system seen = bdf_door_system(&door);
    gsl_odeiv2_driver *const driver =
        gsl_odeiv2_driver_alloc_scaled_new(&seen, gsl_odeiv2_step_msbdf, 1e-6, tolerance, 0.0, 1.0, 0.0, scale_of_rows);
    assert_non_null(driver);
    /* y scale: a_y = 1 with eps_rel = 0 leaves the constant weights alone */
    double time = 0.0;
    assert_int_equal(gsl_odeiv2_driver_apply(driver, &time, end, y), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
}

static void bateman_by_both(void **unused)
{
    (void)unused;
    const struct stiff_system system = decay_system();
    const double scale[DECAY + 1] = {1, 1, 1, 1, 1, 1, 1, 1};
    for (double r = 1e-5; r > 1e-8; r /= 10.0) {
        struct door_run door;
        struct stiff_effort peer = {0};
        double y[DECAY + 1] = {1.0};
        door_begin(&door, &system, r, y);
        assert_int_equal(door_go(&door, 0.3), GSL_SUCCESS);
        peer_go(&system, r, scale, 0.3, y, &peer);
        for (int k = 0; k < DECAY; k++) {
            assert_near("ours", door.run.y[k], decay_exact(k, 0.3), 10.0 * r);
            assert_near("the peer's", y[k], decay_exact(k, 0.3), 10.0 * r);
        }
        assert_true(peer.jacobians > 0 && peer.derivatives > 0); /* the door's counts count */
        assert_true(bdf_effort(door.run.bdf).derivatives < peer.derivatives);
        door_end(&door);
    }
}

static void breathing_by_both(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const double r = 1e-6;
    const struct stiff_system system = breathe_system(&stiffness);
    struct door_run door;
    struct stiff_effort peer = {0};
    double y[BREATHE];
    for (int i = 0; i < BREATHE; i++)
        y[i] = breathe_exact(i, 0.0);
    door_begin(&door, &system, r, y);
    assert_int_equal(door_go(&door, 5.0), GSL_SUCCESS);
    peer_go(&system, r, breathe_scale, 5.0, y, &peer);
    assert_near("ours", breathe_off(&door.run), 0.0, 10.0 * r);
    for (int i = 0; i < BREATHE; i++)
        assert_near("the peer's", y[i], breathe_exact(i, 5.0), 10.0 * r);
    door_end(&door);
}

/* Where no step is refused, evolve is but a way round: the same bits as without it. */
static void door_adds_nothing(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct stiff_run plain = breathe_begin(&system, 1e-7);
    struct door_run door;
    door_begin(&door, &system, 1e-7, plain.y);
    bdf_restart(plain.bdf, 1e-4);
    bdf_restart(door.run.bdf, 1e-4);
    door.h = 1e-4;
    int steps = 0;
    while (bdf_effort(plain.bdf).rejected == 0 && plain.time < 1.0) {
        assert_true(stiff_step(&plain, 1e3));
        if (bdf_effort(plain.bdf).rejected > 0)
            break;
        assert_int_equal(door_apply(&door, 1e3), GSL_SUCCESS);
        assert_memory_equal(door.run.y, plain.y, BREATHE * sizeof(double));
        assert_true(door.run.time == plain.time);
        assert_true(door.h == bdf_next(plain.bdf));
        steps++;
    }
    assert_true(steps > 10);
    stiff_end(&plain);
    door_end(&door);
}

/* A step that ends at the target leaves the caller's h alone, and the next one is what it would have been. */
static void target_time_is_not_fed_back(void **unused)
{
    (void)unused;
    double stiffness = 1e4;
    const struct stiff_system system = breathe_system(&stiffness);
    struct door_run door;
    double y[BREATHE];
    for (int i = 0; i < BREATHE; i++)
        y[i] = breathe_exact(i, 0.0);
    door_begin(&door, &system, 1e-6, y);
    assert_int_equal(door_go(&door, 4.0), GSL_SUCCESS);
    assert_int_equal(door_apply(&door, 100.0), GSL_SUCCESS);
    const double wanted = door.h;
    const double target = door.run.time + 0.01 * wanted;
    assert_int_equal(door_apply(&door, target), GSL_SUCCESS);
    assert_true(door.run.time == target);
    assert_true(door.h == wanted && bdf_next(door.run.bdf) >= 0.999 * wanted);
    assert_int_equal(door_go(&door, 8.0), GSL_SUCCESS);
    assert_near("after it", breathe_off(&door.run), 0.0, 1e-5);
    door_end(&door);
}

/* Refused steps are tried shorter, from the same y, at a length the stepper agrees to: as many refusals as without the
 * door, give or take, not one for each halving. */
static void refusals_are_survived(void **unused)
{
    (void)unused;
    const struct stiff_system system = robertson_system();
    struct stiff_run plain = stiff_begin(&system, 1e-6, robertson_first);
    struct door_run door;
    door_begin(&door, &system, 1e-6, robertson_first);
    door.h = 40.0; /* far too long */
    assert_int_equal(door_go(&door, 40.0), GSL_SUCCESS);
    assert_true(stiff_go(&plain, 40.0));
    /* Source of the value: see tests/outside/stiff.c */
    assert_near("y1(40)", door.run.y[0], 7.158270687194e-1, 1e-5);
    const struct stiff_effort effort = bdf_effort(door.run.bdf);
    assert_true(effort.rejected + effort.newton_failures < 30);
    assert_true(effort.steps < bdf_effort(plain.bdf).steps * 3 / 2);
    stiff_end(&plain);
    door_end(&door);
}

/* ---- domain ---- */

static int edge_rates(double time, const double *y, double *f, void *context)
{
    (void)time;
    (void)context;
    f[0] = 10.0 * (2.0 - y[0]);
    return y[0] > 1.999 ? GSL_EBADFUNC : 0; /* even this must not end the run by itself */
}

static int edge_slopes(double time, const double *y, double *value, void *context)
{
    (void)time;
    (void)y;
    (void)context;
    value[0] = -10.0;
    return 0;
}

static void domain_shortens_and_stuck_ends(void **unused)
{
    (void)unused;
    static const int start[2] = {0, 1};
    static const int column[1] = {0};
    static const double scale[1] = {1.0};
    static const double base[1] = {0.0};
    static const bool amount[1] = {false};
    const struct stiff_system system = {.states = 1,
                                        .start = start,
                                        .column = column,
                                        .scale = scale,
                                        .amount = amount,
                                        .base = base,
                                        .rates = edge_rates,
                                        .slopes = edge_slopes};
    struct door_run door;
    door_begin(&door, &system, 1e-6, (const double[]){0.0});
    door.h = 1.0; /* predicts 20 */
    assert_int_equal(door_go(&door, 0.2), GSL_SUCCESS);
    assert_near("inside", door.run.y[0], 2.0 - 2.0 * exp(-2.0), 1e-5);
    assert_int_equal(door_go(&door, 10.0), GSL_EBADFUNC);
    assert_near("at the edge", door.run.time, log(2000.0) / 10.0, 1e-3);
    assert_int_equal(edge_rates(0.0, (const double[]){3.0}, door.values, NULL), GSL_EBADFUNC);
    assert_int_equal(door.system.function(0.0, (const double[]){3.0}, door.values, door.system.params), GSL_FAILURE);
    door_end(&door);
}

/* ---- the parts ---- */

static void dense_slopes_are_the_sparse_ones(void **unused)
{
    (void)unused;
    const struct stiff_system system = decay_system();
    struct door_run door;
    double dense[(DECAY + 1) * (DECAY + 1)];
    double by_time[DECAY + 1];
    const double y[DECAY + 1] = {1.0, 2.0, 3.0};
    door_begin(&door, &system, 1e-6, y);
    assert_int_equal(door.system.jacobian(0.0, y, dense, by_time, door.system.params), GSL_SUCCESS);
    for (int i = 0; i <= DECAY; i++)
        for (int j = 0; j <= DECAY; j++) {
            const double want = (i == j && i < DECAY ? -decay_rate[i] : 0.0) + (i == j + 1 ? decay_rate[j] : 0.0);
            assert_true(dense[i * (DECAY + 1) + j] == want);
        }
    door_end(&door);
}

static void step_and_control_tell_of_themselves(void **unused)
{
    (void)unused;
    const struct stiff_system system = robertson_system();
    struct door_run door;
    double level = 0.0;
    door_begin(&door, &system, 1e-6, robertson_first);
    assert_string_equal(gsl_odeiv2_step_name(door.step), "bdf");
    assert_string_equal(gsl_odeiv2_control_name(door.control), "bdf");
    assert_int_equal(door_go(&door, 40.0), GSL_SUCCESS);
    assert_int_equal(gsl_odeiv2_step_order(door.step), bdf_order(door.run.bdf));
    assert_int_equal(gsl_odeiv2_control_errlevel(door.control, 1.0, 0.0, 1.0, 1, &level), GSL_SUCCESS);
    assert_near_share("level", level, 1e-6 * 1e-4, 1e-12);
    assert_int_equal(gsl_odeiv2_step_reset(door.step), GSL_SUCCESS);
    assert_true(bdf_next(door.run.bdf) < 0.01); /* reset forgets the history */
    assert_int_equal(door_apply(&door, 50.0), GSL_SUCCESS);
    assert_int_equal(gsl_odeiv2_step_order(door.step), 1);
    door_end(&door);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bateman_by_both),
        cmocka_unit_test(breathing_by_both),
        cmocka_unit_test(door_adds_nothing),
        cmocka_unit_test(target_time_is_not_fed_back),
        cmocka_unit_test(refusals_are_survived),
        cmocka_unit_test(domain_shortens_and_stuck_ends),
        cmocka_unit_test(dense_slopes_are_the_sparse_ones),
        cmocka_unit_test(step_and_control_tell_of_themselves),
    };
    gsl_set_error_handler_off();
    return cmocka_run_group_tests_name("stepper behind GSL's door", tests, NULL, NULL) != 0;
}
