/* tests/unit/run/switches.c  Moments at which bits flip: located to round-off, with either solver; saved, gone back to and
 * done again with the same bits; told without flooding. */
#include "run/switches.h"

#include "element/elements.h"
#include "run/run.h"
#include "support/run_text.h"

/* ---- margins of time alone ---- */

/* Time comes in as the opening of a ramp from 0 s to 1 s; the parameter is the moment. */
static double rises_late(const struct switch_view *at, bool on)
{
    return on ? -1.0 : at->opening - at->parameter[0];
}

static double rises_shortly(const struct switch_view *at, bool on)
{
    const double off = at->opening - at->parameter[0];
    return on ? -1.0 : 0.01 - off * off; /* for a tenth to either side */
}

struct clockwork {
    struct network network;
    struct inputs inputs;
    struct part part[2];
    struct switch_plan toggle[2];
    struct ramp opening[2];
    int parameter_at[2];
    double parameter[2], zero, level;
    bool on[2];
};

static void clockwork_make(struct clockwork *clock, double (*margin)(const struct switch_view *, bool), double first,
                           double second)
{
    *clock = (struct clockwork){.parameter_at = {0, 1}, .parameter = {first, second}, .level = 1e5};
    for (int k = 0; k < 2; k++) {
        clock->opening[k] = (struct ramp){0.0, 1.0, 0.0, 1.0};
        clock->toggle[k] = (struct switch_plan){.part = k, .a = -1, .b = -1, .margin = margin};
    }
    const struct profile level = {1, &clock->zero, &clock->level};
    clock->part[0].kind = clock->part[1].kind = &cap_kind; /* one that takes its command as it comes */
    clock->network = (struct network){.parts = 2,
                                      .part = clock->part,
                                      .parameter_at = clock->parameter_at,
                                      .switches = 2,
                                      .toggle = clock->toggle,
                                      .weather = {level, level, level, level}};
    clock->inputs = (struct inputs){
        .parameter = clock->parameter, .opening = clock->opening, .before = (double)INFINITY, .on = clock->on};
}

static const double *nothing(const void *solution, double time)
{
    (void)time;
    return solution;
}

static bool first_rise(const struct clockwork *clock, double begins, double ends, double *moment)
{
    const struct stretch over = {&clock->network, &clock->inputs, begins, ends, nothing, NULL};
    return switches_rise(&over, moment);
}

static void the_first_of_several_is_found(void **unused)
{
    (void)unused;
    struct clockwork clock;
    double moment = 0.0;
    clockwork_make(&clock, rises_late, 0.3, 0.28); /* both in one part of the stretch */
    assert_true(first_rise(&clock, 0.0, 1.0, &moment));
    assert_near("the earlier", moment, 0.28, 1e-12);
    assert_true(moment >= 0.28);
    assert_true(switches_flip(&clock.network, &clock.inputs, moment, NULL, clock.on));
    assert_true(!clock.on[0] && clock.on[1]);
    assert_true(first_rise(&clock, moment, 1.0, &moment));
    assert_near("the later", moment, 0.3, 1e-12);
    clockwork_make(&clock, rises_late, 0.7, 0.7);
    assert_true(first_rise(&clock, 0.0, 1.0, &moment) &&
                switches_flip(&clock.network, &clock.inputs, moment, NULL, clock.on));
    assert_true(clock.on[0] && clock.on[1]); /* together */
    assert_false(first_rise(&clock, moment, 1.0, &moment));
    assert_false(switches_flip(&clock.network, &clock.inputs, moment, NULL, clock.on));
    clockwork_make(&clock, rises_late, 1.5, 1.5);
    assert_false(first_rise(&clock, 0.0, 1.0, &moment));
}

static void a_short_excursion_is_seen(void **unused)
{
    (void)unused;
    struct clockwork clock;
    double moment = 0.0;
    clockwork_make(&clock, rises_shortly, 0.55, 0.8);
    assert_true(first_rise(&clock, 0.0, 1.0, &moment)); /* below zero at both ends */
    assert_near("its beginning", moment, 0.45, 1e-12);
}

/* What is due where a stretch begins, because the polynomial passes by its start, is found there, a breath later. */
static void what_is_due_at_once_is_found_at_once(void **unused)
{
    (void)unused;
    struct clockwork clock;
    double moment = 0.0;
    clockwork_make(&clock, rises_late, 0.2, 0.9);
    assert_true(first_rise(&clock, 0.3, 0.8, &moment));
    assert_true(moment > 0.3 && moment < 0.3 + 1e-12);
}

/* ---- a relief that opens and shuts ---- */

static const char reliefs[] =
    "ullage: scenario/1\nname: reliefs\nend: 20 min\nassume: {heat: isothermal}\nsystem:\n  parts:\n"
    "    big: {type: vessel, volume: 200 L}\n    v: {type: vessel, volume: 10 L}\n    w: {type: vessel, volume: 1 L}\n"
    "    feed: {type: hole, from: big, to: v, diameter: 1 mm}\n"
    "    relief: {type: relief, from: v, to: air, bore: 4 mm}\n"
    "    check: {type: check-valve, from: v, to: w, bore: 2 mm}\n"
    "    leak: {type: hole, from: w, to: air, diameter: 0.4 mm}\n"
    "start:\n  big: {gauge_pressure: 30 kPa}\n"
    "faults:\n  - {id: a, fault: leak, where: v, diameter: 6 mm, from: 50 s, every: 20 s, for: 3 s}\n";

struct bench {
    struct ullage_description *description;
    struct network *network;
    struct run *run;
};

static struct bench bench_open(const char *solver)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct bench bench = {.description = ullage_description_text(reliefs, problems, &outcome)};
    assert_non_null(bench.description);
    bench.network = network_create(bench.description, NULL, 0, problems);
    assert_non_null(bench.network);
    bench.run = run_create(bench.network, solver, 1e-6);
    assert_non_null(bench.run);
    ullage_problems_free(problems);
    return bench;
}

static void bench_close(struct bench *bench)
{
    run_free(bench->run);
    network_free(bench->network);
    ullage_description_free(bench->description);
}

static void bench_step(const struct bench *bench)
{
    run_move(bench->run, run_reach(bench->run));
    assert_int_equal(run_extend(bench->network, bench->run, (double)INFINITY), RUN_GOOD);
}

static double bench_value(const struct bench *bench, const char *channel, double time)
{
    const int index = network_find_channel(bench->network, channel);
    double value;
    run_look(bench->network, bench->run, time, 1, &index, &value, NULL);
    return value;
}

/* The step ends where it opens; up to there it was shut, from there on it is open. */
static void a_flip_ends_its_step(void **unused)
{
    (void)unused;
    static const char *const solver[] = {"bdf", "msbdf"};
    for (int k = 0; k < 2; k++) {
        const struct bench bench = bench_open(solver[k]);
        int flips = 0;
        for (int n = 0; n < 4000 && flips < 6; n++) {
            const bool before = run_switch(bench.network, bench.run, 0);
            run_move(bench.run, run_reach(bench.run));
            const bool after = run_switch(bench.network, bench.run, 0);
            const double now = run_now(bench.run);
            if (before != after) {
                const double pressure = bench_value(&bench, "v.gauge_pressure", now);
                assert_near_share("where it flips", pressure, after ? 1500.0 : 1200.0, 1e-12);
                assert_true((bench_value(&bench, "relief.open", now) > 0.0) == after);
                if (after)
                    assert_true(bench_value(&bench, "relief.open", nextafter(now, 0.0)) == 0.0);
                flips++;
            }
            assert_int_equal(run_extend(bench.network, bench.run, (double)INFINITY), RUN_GOOD);
            assert_true(run_switch(bench.network, bench.run, 0) == after);
        }
        assert_true(flips == 6);
        struct bench done = bench;
        bench_close(&done);
    }
}

static void saved_bits_come_back(void **unused)
{
    (void)unused;
    struct bench bench = bench_open("bdf");
    char *block = malloc(run_block_size(bench.network, bench.run));
    assert_non_null(block);
    bool open = false, shut = false;
    for (int round = 0; round < 40; round++) {
        uint64_t hash[2];
        run_save(bench.network, bench.run, block); /* also where a flip is due at reach and now lies before it */
        for (int again = 0; again < 2; again++) {
            run_restore(bench.network, bench.run, block);
            for (int n = 0; n < 25; n++)
                bench_step(&bench);
            run_move(bench.run, 0.5 * (run_now(bench.run) + run_reach(bench.run)));
            hash[again] = run_hash(bench.network, bench.run);
        }
        assert_true(hash[0] == hash[1]);
        open = open || run_switch(bench.network, bench.run, 0);
        shut = shut || !run_switch(bench.network, bench.run, 0);
    }
    assert_true(open && shut);
    free(block);
    bench_close(&bench);
}

static void going_back_gives_the_same(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(reliefs);
    struct ullage_run *run = ullage_run_create(model, NULL);
    struct ullage_history *history = ullage_history_create(model, run);
    assert_non_null(history);
    assert_int_equal(ullage_history_advance(history, 400.0), ULLAGE_PAUSED);
    const uint64_t first = ullage_run_hash(run);
    const int events = ullage_run_events(run);
    assert_int_equal(ullage_history_go(history, 61.0), ULLAGE_PAUSED);
    assert_true(ullage_run_events(run) < events);
    assert_int_equal(ullage_history_advance(history, 400.0), ULLAGE_PAUSED);
    assert_true(ullage_run_hash(run) == first);
    assert_int_equal(ullage_run_events(run), events);
    ullage_history_free(history);
    ullage_run_free(run);
    ullage_model_free(model);
}

/* The relief goes up and down with every blink of the leak, fifty times and more: the first times are told, then that it
 * goes on. */
static void the_story_is_not_flooded(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(reliefs);
    int told = 0, goes_on = 0;
    for (int k = 0; k < ullage_run_events(ran.run); k++) {
        const struct ullage_event event = ullage_run_event(ran.run, k);
        if (event.kind != ULLAGE_SWITCHED || strcmp(event.subject, "relief"))
            continue;
        told++;
        goes_on += !strcmp(event.text, "goes on opening and shutting");
        if (told == 1)
            assert_string_equal(event.text, "opens");
        if (told == 2)
            assert_string_equal(event.text, "shuts");
    }
    assert_true(told >= 5 && told <= 10);
    assert_true(goes_on >= 1 && goes_on <= 2);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_of_several_is_found),
        cmocka_unit_test(a_short_excursion_is_seen),
        cmocka_unit_test(what_is_due_at_once_is_found_at_once),
        cmocka_unit_test(a_flip_ends_its_step),
        cmocka_unit_test(saved_bits_come_back),
        cmocka_unit_test(going_back_gives_the_same),
        cmocka_unit_test(the_story_is_not_flooded),
    };
    return cmocka_run_group_tests_name("unit/run/switches", tests, NULL, NULL) != 0;
}
