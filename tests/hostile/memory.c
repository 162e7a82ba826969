/* tests/hostile/memory.c  Memory that runs out while files are read: the n-th allocation fails, for every n. Each time the
 * answer is that memory is out, or the right one; nothing is lost and nothing crashes. Under AddressSanitizer, whose
 * allocator cannot be replaced, there is nothing to test. */
#include "support/near.h"
#include "ullage.h"

#include <gsl/gsl_errno.h>
#include <stdbool.h>
#include <unistd.h>

#if defined(__SANITIZE_ADDRESS__)
#define REPLACED 0
#else
#define REPLACED 1
#endif

/* ---- an allocator that fails once ---- */
static long allocations_left = -1; /* until the one that fails; negative: none does */
static long allocations_open;      /* taken and not given back */

#if REPLACED
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
void __libc_free(void *old);

static bool allocation_fails(void)
{
    return allocations_left >= 0 && allocations_left-- == 0;
}

static void *counted(void *taken)
{
    allocations_open += taken != NULL;
    return taken;
}

void *malloc(size_t size)
{
    return allocation_fails() ? NULL : counted(__libc_malloc(size));
}

void *calloc(size_t count, size_t size)
{
    return allocation_fails() ? NULL : counted(__libc_calloc(count, size));
}

void *realloc(void *old, size_t size)
{
    if (allocation_fails())
        return NULL;
    void *taken = __libc_realloc(old, size);
    allocations_open += taken && !old;
    return taken;
}

void free(void *old)
{
    allocations_open -= old != NULL;
    __libc_free(old);
}
#endif

/* ---- what is read ---- */
static char scenario_path[] = "/tmp/ullage-memory-XXXXXX";

static const char scenario_text[] =
    "ullage: scenario/1\n"
    "about: Some of everything.\n"
    "surroundings: {pressure: [[0 h, 1013 hPa], [2 h, 1009 hPa]], temperature: 20 degC}\n"
    "system:\n"
    "  parts:\n"
    "    tank: {type: tank, volume: 45 L, openings: {roof: 215 mm}, short: the tank}\n"
    "    line: {type: line, from: tank.roof, to: canister.tank, bore: 8 mm, length: 1 m}\n"
    "    canister: {type: canister, beds: [{volume: 20 mL, length: 50 mm, cells: 2}], ports: [tank, purge, air]}\n"
    "start:\n"
    "  tank: {pressure: 1 bar, gas: {air: 50 %, nitrogen: 50 %}}\n"
    "  canister: {conditioned: {load: {until: 10 mg}, purge: {volumes: 5}, cycles: 1}}\n"
    "faults: [{id: a, fault: leak, where: tank, diameter: 1 mm, from: 5 s}]\n"
    "let: {limit: 0.020 in}\n"
    "change: {tank.volume: 50 L}\n"
    "procedure: {steps: [{wait: {until: tank.pressure < 1 kPa, at_most: 5 s}}, {read: {p: tank.pressure}}]}\n"
    "record: {every: 1 s, channels: [tank.pressure]}\n";

static const char *const sets[] = {"let.limit=0.5mm", "surroundings.temperature=[[0 s, 20 degC], [1 h, 25 degC]]"};
static const char *const faults[] = {"leak tank diameter=0.5 mm from=10 s"};
static const char *const wrong_sets[] = {"tank.volme=50L", "start.tnk.gas=air", "tank.volume=5 m"};

static const struct ullage_edits good = {.set = sets,
                                         .sets = 2,
                                         .fault = faults,
                                         .faults = 1,
                                         .keep = "/proc/none"}; /* asked each time, and nothing is ever kept */
static const struct ullage_edits wrong = {.set = wrong_sets, .sets = 3};

/* Reads the file, or checks it, once; true where the failing allocation was reached. */
static bool read_once(const struct ullage_edits *edits, bool check, long failing, enum ullage_outcome wanted)
{
    const long before = allocations_open;
    enum ullage_outcome outcome = ULLAGE_OUT_OF_MEMORY;
    struct ullage_description *description = NULL;
    allocations_left = failing;
    struct ullage_problems *problems = ullage_problems_create();
    if (problems && check)
        outcome = ullage_check(scenario_path, edits, problems);
    else if (problems)
        description = ullage_description_read(scenario_path, edits, problems, &outcome);
    const bool reached = failing < 0 || allocations_left < 0;
    allocations_left = -1;
    if (outcome != wanted && !(reached && outcome == ULLAGE_OUT_OF_MEMORY))
        fail_msg("allocation %ld failing: outcome %d, wanted %d or that memory is out", failing, (int)outcome,
                 (int)wanted);
    assert_true((description != NULL) == (!check && outcome == ULLAGE_GOOD));
    ullage_description_free(description);
    ullage_problems_free(problems);
    assert_int_equal(allocations_open, before);
    return reached;
}

static void every_allocation_fails_once(const struct ullage_edits *edits, bool check, enum ullage_outcome wanted)
{
    long count = 0;
    read_once(edits, check, -1, wanted); /* none fails */
    if (!REPLACED)
        return;
    while (read_once(edits, check, count, wanted))
        count++;
    assert_true(count > 20); /* the allocator was asked */
}

static void a_description_is_read(void **unused)
{
    (void)unused;
    every_allocation_fails_once(&good, false, ULLAGE_GOOD);
}

static void mistakes_are_gathered(void **unused)
{
    (void)unused;
    every_allocation_fails_once(&wrong, false, ULLAGE_BAD_INPUT);
}

static void a_model_is_checked(void **unused)
{
    (void)unused;
    every_allocation_fails_once(&good, true, ULLAGE_GOOD);
}

static int file_made(void **unused)
{
    (void)unused;
    const int file = mkstemp(scenario_path);
    const ssize_t size = (ssize_t)strlen(scenario_text);
    return file < 0 || write(file, scenario_text, (size_t)size) != size || close(file) != 0;
}

static int file_removed(void **unused)
{
    (void)unused;
    return unlink(scenario_path);
}

int main(void)
{
    gsl_set_error_handler_off(); /* which would abort where GSL has no memory */
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_description_is_read),
        cmocka_unit_test(mistakes_are_gathered),
        cmocka_unit_test(a_model_is_checked),
    };
    return cmocka_run_group_tests(tests, file_made, file_removed) != 0;
}
