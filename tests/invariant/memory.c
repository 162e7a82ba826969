/* tests/invariant/memory.c  Nothing is allocated while our stepper steps: every malloc, calloc, realloc of the program is
 * counted from the first step to the last. */
#include "network/network.h"
#include "procedure/procedure.h"
#include "run/run.h"
#include "support/rigs.h"
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

static volatile long counted; /* the compiler takes malloc for a function that changes nothing */
static volatile bool counting;

#ifndef __SANITIZE_ADDRESS__ /* which counts on standing in malloc's way itself */
/* glibc's own, under the names it keeps for those who stand in its way. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *room, size_t size);

void *malloc(size_t size)
{
    counted += counting;
    return __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    counted += counting;
    return __libc_calloc(count, size);
}

void *realloc(void *room, size_t size)
{
    counted += counting;
    return __libc_realloc(room, size);
}

#endif

static void steps_allocate_nothing(void **unused)
{
    (void)unused;
#ifdef __SANITIZE_ADDRESS__
    skip();
#endif
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_text(rig_pull_up, problems, &outcome);
    assert_non_null(description);
    struct joint joint[4];
    const int joints = procedure_joints(description, joint, 4);
    struct network *network = network_create(description, joint, joints, problems);
    assert_non_null(network);
    const char *const solver[] = {"bdf", "msbdf"};
    for (int k = 0; k < 2; k++) {
        struct run *run = run_create(network, solver[k], 1e-6);
        assert_non_null(run);
        counted = 0;
        counting = true;
        int steps = 0;
        double value;
        const int channel = network_find_channel(network, "tank.gauge_pressure");
        while (run_reach(run) < 60.0) {
            if (run_extend(network, run, 60.0) != RUN_GOOD)
                break;
            run_look(network, run, run_reach(run), 1, &channel, &value, NULL);
            run_move(run, run_reach(run));
            if (++steps == 20) /* an input changes in mid-flight */
                run_command(network, run, network_find_part(network, "vent"), 0.0);
        }
        counting = false;
        assert_near("end", run_reach(run), 60.0, 1e-9);
        assert_true(steps > 20);
        if (k == 0)
            assert_int_equal(counted, 0);
        else /* GSL's LU takes a vector for its pivots each time */
            print_message("%s: %ld allocations in %d steps\n", solver[k], counted, steps);
        run_free(run);
    }
    counted = 0;
    counting = true; /* the counter counts */
    void *volatile room = malloc(8); /* or the compiler leaves both out */
    free(room);
    counting = false;
    assert_int_equal(counted, 1);
    network_free(network);
    ullage_description_free(description);
    ullage_problems_free(problems);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(steps_allocate_nothing)};
    return cmocka_run_group_tests_name("invariant/memory", tests, NULL, NULL) != 0;
}
