/* tests/invariant/returns.c  A run taken back to any moment, and on from there, has the bits it had: 1,000 returns drawn at
 * random over shipped scenarios with filters, events, switches, a controller, fuel, carbon, faults that come and go, by the file and by hand.
 *
 * Meanwhile a hand changes the weather, at moments and to values that are drawn, too.
 *
 * What it is told against is the hash at those moments of a run that only ever went forward, and all it told at the end.
 * ULLAGE_RETURNS=40 in the environment takes fewer. */
#include "support/same.h"

#include <stdbool.h>

static const struct {
    const char *path, *fault;
    const char *what, *size; /* what a hand puts in as the run begins, with a course drawn at random */
    bool once;               /* it is poured, and does not come again and again */
} scenarios[] = {
    {"scenarios/first-leak.yaml", NULL, "restricted vent-valve",
     "60 %", false}, /* meter with a time constant, supply that limits, waits for settled(...) */
    {"scenarios/smoke-test.yaml", "leak canister.tank diameter=0.5mm from=20s ramp=5s every=30s for=12s",
     "offset tank-sensor", "300 Pa", false},
    {"scenarios/engine-off.yaml", NULL, "restricted vent-valve",
     "90 %", false}, /* relief and vent by themselves, fuel, carbon, dew */
    {"scenarios/purge-drive.yaml", NULL, "restricted purge-valve", "50 %", false}, /* an engine's controller */
    {"scenarios/fill-up.yaml", NULL, "restricted vent-valve", "40 %", false},      /* the nozzle that shuts itself off */
    {"scenarios/engine-off.yaml", "wet canister share=10% from=2min until=20min", "wrong-blend tank", "10 kPa",
     true}, /* liquid that is poured */
};

enum { SCENARIOS = sizeof scenarios / sizeof scenarios[0], RETURNS = 1000, RETURNS_MOST = RETURNS / SCENARIOS };

static int returns_each(void)
{
    const char *asked = getenv("ULLAGE_RETURNS");
    const int wanted = asked ? atoi(asked) : RETURNS;
    const int each = (wanted < 1 ? RETURNS : wanted) / SCENARIOS;
    return each < 1 ? 1 : each < RETURNS_MOST ? each : RETURNS_MOST;
}

static struct ullage_model *model_of(int scenario)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders,
                                       .searches = 1,
                                       .fault = &scenarios[scenario].fault,
                                       .faults = scenarios[scenario].fault != NULL};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description =
        ullage_description_read(scenarios[scenario].path, &edits, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    if (!model)
        fail_msg("%s: %s", scenarios[scenario].path, ullage_problems_at(problems, 0).wrong);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return model;
}

/* Moments in order, the last one the end; and the hash at each of a run that only goes forward. */
struct moments {
    int count;
    double time[RETURNS_MOST + 1];
    uint64_t hash[RETURNS_MOST + 1];
};

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* A run to which the hand's fault is told as it begins. */
static struct ullage_run *run_of(const struct ullage_model *model, int scenario, double longest)
{
    uint64_t draws = 2000 + (uint64_t)scenario;
    const double ramp = near_draw_between(&draws, 0.0, 0.1), every = near_draw_between(&draws, 0.1, 0.3);
    const double lasts = near_draw_between(&draws, 0.1, 0.9) * every, from = near_draw_between(&draws, 0.0, 0.5);
    char value[160];
    struct ullage_run *run = ullage_run_create(model, NULL);
    snprintf(value, sizeof value, "%s from=%.17g s ramp=%.17g s until=%.17g s every=%.17g s for=%.17g s",
             scenarios[scenario].size, from * longest, ramp * longest, 0.9 * longest, every * longest, lasts * longest);
    if (scenarios[scenario].once)
        *strstr(value, " every") = '\0';
    const char *wrong = ullage_run_command(model, run, scenarios[scenario].what, value);
    if (wrong)
        fail_msg("%s %s: %s", scenarios[scenario].what, value, wrong);
    return run;
}

/* ---- what a hand does meanwhile, in the first half: later a wait that is over sooner could end the run before it ---- */
enum { HANDS = 6 };

struct hand {
    double time;
    const char *key;
    char value[60];
};

/* Within what a fuel stands that is filled in as warm as the air was. */
static void hands_draw(struct hand hand[HANDS], double end, uint64_t *draws)
{
    static const struct {
        const char *key, *unit;
        double least, most;
    } row[] = {{"surroundings.temperature", "degC", 15.0, 32.0},
               {"surroundings.pressure", "hPa", 980.0, 1030.0},
               {"surroundings.sun", "W/m2", 0.0, 900.0},
               {"surroundings.wind", "m/s", 0.0, 8.0},
               {"surroundings.altitude", "m", 0.0, 500.0}};

    double time[HANDS];
    for (int k = 0; k < HANDS; k++)
        time[k] = near_draw_between(draws, 0.0, 0.5 * end);
    qsort(time, HANDS, sizeof time[0], by_size);
    for (int k = 0; k < HANDS; k++) {
        const int of = (int)near_draw_between(draws, 0.0, 5.0);
        hand[k] = (struct hand){.time = time[k], .key = row[of].key};
        const double ramp = near_draw_between(draws, 10.0, 0.2 * end + 10.0);
        if (k == HANDS - 1)
            snprintf(hand[k].value, sizeof hand[k].value, "as-in-file ramp=%.9gs", ramp);
        else
            snprintf(hand[k].value, sizeof hand[k].value, "%.9g %s ramp=%.9gs",
                     near_draw_between(draws, row[of].least, row[of].most), row[of].unit, ramp);
    }
}

/* On to `time`, doing on the way what is due; *next: of the hands. */
static enum ullage_status on_to(const struct ullage_model *model, struct ullage_run *run, double time,
                                const struct hand *hand, int *next)
{
    for (; *next < HANDS && hand[*next].time <= time; ++*next) {
        ullage_run_advance(model, run, hand[*next].time);
        const char *wrong = ullage_run_command(model, run, hand[*next].key, hand[*next].value);
        if (wrong)
            fail_msg("%s %s: %s", hand[*next].key, hand[*next].value, wrong);
    }
    return ullage_run_advance(model, run, time);
}

/* Of a run, which is freed. */
static double end_of(const struct ullage_model *model, struct ullage_run *run, const struct hand *hand)
{
    int next = hand ? 0 : HANDS;
    assert_int_equal(on_to(model, run, (double)INFINITY, hand, &next), ULLAGE_FINISHED);
    const double end = ullage_run_time(run);
    ullage_run_free(run);
    return end;
}

static struct ullage_run *moments_take(const struct ullage_model *model, int scenario, struct moments *moments,
                                       struct hand hand[HANDS], double longest)
{
    uint64_t draws = 1000 + (uint64_t)scenario;
    int next = 0;
    hands_draw(hand, longest, &draws);
    const double end = end_of(model, run_of(model, scenario, longest), hand);
    struct ullage_run *run = run_of(model, scenario, longest);
    for (int k = 0; k < moments->count; k++)
        moments->time[k] = near_draw_between(&draws, 0.0, end);
    qsort(moments->time, (size_t)moments->count, sizeof moments->time[0], by_size);
    moments->time[moments->count] = (double)INFINITY;
    for (int k = 0; k <= moments->count; k++) {
        on_to(model, run, moments->time[k], hand, &next);
        moments->hash[k] = ullage_run_hash(run);
    }
    return run;
}

static void returns_keep_all_bits(void **state)
{
    struct moments moments = {.count = returns_each()};
    const int scenario = *(const int *)*state;
    uint64_t draws = 3000 + (uint64_t)scenario;
    struct ullage_model *model = model_of(scenario);
    struct hand hand[HANDS];
    const double longest = end_of(model, ullage_run_create(model, NULL), NULL);
    struct ullage_run *forward = moments_take(model, scenario, &moments, hand, longest);
    struct ullage_run *run = run_of(model, scenario, longest);
    struct ullage_history *history = ullage_history_create(model, run);
    for (int k = 0; k < HANDS; k++) {
        ullage_history_advance(history, hand[k].time);
        assert_null(ullage_run_command(model, run, hand[k].key, hand[k].value));
    }
    assert_int_equal(ullage_history_advance(history, (double)INFINITY), ULLAGE_FINISHED);
    for (int times = 0; times < moments.count; times++) {
        const int k = (int)near_draw_between(&draws, 0.0, moments.count);
        ullage_history_go(history, moments.time[k]);
        if (ullage_run_time(run) != moments.time[k] || ullage_run_hash(run) != moments.hash[k])
            fail_msg("return %d, to %.17g s: another hash", times, moments.time[k]);
        ullage_history_advance(history, moments.time[k + 1]);
        if (ullage_run_hash(run) != moments.hash[k + 1])
            fail_msg("return %d, on from %.17g s to %.17g s: another hash", times, moments.time[k],
                     moments.time[k + 1]);
    }
    ullage_history_advance(history, (double)INFINITY);
    assert_same(model, forward, run);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_run_free(forward);
    ullage_model_free(model);
}

int main(void)
{
    int number[SCENARIOS];
    struct CMUnitTest tests[SCENARIOS];
    for (int k = 0; k < SCENARIOS; k++) {
        number[k] = k;
        tests[k] = (struct CMUnitTest){scenarios[k].path, returns_keep_all_bits, NULL, NULL, &number[k]};
    }
    return cmocka_run_group_tests_name("invariant/returns", tests, NULL, NULL) != 0;
}
