/* tests/unit/report/json.c  The JSON of a run says what the door says, bit for bit, in keys that stay in order. */
#include "report/json.h"

#include "support/told.h"

#include <jansson.h>

static const char scenario[] =
    "ullage: scenario/1\nname: two-readings\nseed: 7\n"
    "system:\n  parts:\n"
    "    vessel: {type: vessel, volume: 30 L}\n"
    "    port: {type: port, of: vessel}\n"
    "    leak: {type: hole, from: vessel, to: air, diameter: 0.4 mm}\n"
    "equipment:\n"
    "  supply: {type: supply, join: port, gauge_pressure: 5.0 kPa, gas: air, tracer: smoke}\n"
    "  meter: {type: meter, of: supply, scale_least: 2 mm, scale_most: 2.1 mm}\n"
    "let: {limit: 1 mm}\n"
    "procedure:\n  steps:\n    - wait: {for: 2 s}\n"
    "    - read: {early: vessel.gauge_pressure, big: meter.hole}\n"
    "    - judge: {leak: {pass: big < limit, fail: big > limit, because: first}}\n"
    "    - wait: {for: 10 min}\n"
    "    - read: {early: vessel.gauge_pressure, small: meter.hole, share: vessel.air}\n"
    "    - judge: {leak: {pass: small < limit, because: second}}\n"
    "record: {every: 1 s, channels: [vessel.gauge_pressure]}\n";

static json_t *told_json(const struct told *told, uint64_t seed, char **text)
{
    struct told_page page;
    told_open(&page);
    assert_true(json_write(page.to, &told->experiment, &(struct json_circumstances){seed, 0.25}));
    *text = told_close(&page);
    json_error_t error;
    json_t *object = json_loads(*text, JSON_REJECT_DUPLICATES, &error);
    if (!object)
        fail_msg("line %d: %s", error.line, error.text);
    return object;
}

static void keys_stand_in_order(void **unused)
{
    (void)unused;
    static const char *const key[] = {"scenario", "seed",       "end_time_s", "readings", "verdicts",
                                      "ledger",   "fuel_grams", "codes",      "cautions", "solver"};
    struct told told = told_run(scenario);
    char *text;
    json_t *object = told_json(&told, 7, &text);
    const char *name;
    json_t *value;
    size_t at = 0;
    json_object_foreach(object, name, value)
    {
        assert_true(at < sizeof key / sizeof key[0]);
        assert_string_equal(name, key[at++]);
    }
    assert_int_equal(at, sizeof key / sizeof key[0]);
    assert_string_equal(json_string_value(json_object_get(object, "scenario")), "two-readings");
    assert_int_equal(json_array_size(json_object_get(object, "codes")), 0);
    assert_true(json_is_array(json_object_get(object, "codes")));
    json_decref(object);
    free(text);
    told_free(&told);
}

static void readings_and_verdicts_are_the_last_of_their_name(void **unused)
{
    (void)unused;
    struct told told = told_run(scenario);
    char *text;
    json_t *object = told_json(&told, 7, &text);
    json_t *readings = json_object_get(object, "readings");
    assert_int_equal(json_object_size(readings), 4);
    const struct ullage_reading last = ullage_run_reading(told.run, experiment_reading(&told.experiment, "early"));
    json_t *early = json_object_get(readings, "early");
    assert_true(json_real_value(json_object_get(early, "value")) == last.value); /* the same bits */
    assert_string_equal(json_string_value(json_object_get(early, "unit")), "Pa");
    assert_null(json_object_get(early, "over"));
    json_t *big = json_object_get(readings, "big");
    assert_true(json_is_true(json_object_get(big, "over")));
    assert_near_share("upper end", json_real_value(json_object_get(big, "value")), 2.1e-3, 1e-15);
    json_t *small = json_object_get(readings, "small");
    assert_true(json_is_true(json_object_get(small, "under")));
    assert_null(json_object_get(small, "over"));
    assert_near_share("lower end", json_real_value(json_object_get(small, "value")), 2e-3, 1e-15);
    assert_string_equal(json_string_value(json_object_get(json_object_get(readings, "share"), "unit")), "1");
    json_t *leak = json_object_get(json_object_get(object, "verdicts"), "leak");
    assert_string_equal(json_string_value(json_object_get(leak, "result")), "open");
    assert_string_equal(json_string_value(json_object_get(leak, "reason")), "second");
    json_decref(object);
    free(text);
    told_free(&told);
}

static void the_ledger_is_the_doors_and_adds_up(void **unused)
{
    (void)unused;
    struct told told = told_run(scenario);
    char *text;
    json_t *object = told_json(&told, 7, &text);
    json_t *ledger = json_object_get(object, "ledger");
    assert_int_equal(json_object_size(ledger), ullage_model_ledger_rows(told.model));
    for (int i = 0; i < ullage_model_ledger_rows(told.model); i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(told.model, told.run, i);
        json_t *entry = json_object_get(ledger, row.name);
        assert_non_null(entry);
        assert_int_equal(json_object_size(entry), 6);
        assert_true(json_real_value(json_object_get(entry, "in")) == row.in);
        assert_true(json_real_value(json_object_get(entry, "out")) == row.out);
        assert_true(json_real_value(json_object_get(entry, "stored_start")) == row.stored_start);
        assert_true(json_real_value(json_object_get(entry, "stored_change")) == row.stored_change);
        assert_true(json_real_value(json_object_get(entry, "residual")) == row.residual);
        assert_true(json_real_value(json_object_get(entry, "scale")) == row.scale);
    }
    assert_non_null(json_object_get(ledger, "energy"));
    json_decref(object);
    free(text);
    told_free(&told);
}

/* In grams, and by opening; the sum of what is where is what the ledger holds. */
static void fuel_stands_in_grams(void **unused)
{
    (void)unused;
    struct told told =
        told_run("ullage: scenario/1\nname: a\nfill: {level: 40 %, temperature: 20 degC, components: {n-butane: 10 %, "
                 "n-pentane: 30 %, isooctane: 60 %}}\n"
                 "surroundings: {pressure: 101325 Pa, temperature: [[0 h, 20 degC], [1 h, 35 degC]]}\n"
                 "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm, openings: {roof: 215 mm}}\n"
                 "    vent: {type: hole, from: tank.roof, to: air, diameter: 5 mm}\n"
                 "    shut: {type: valve, from: tank.roof, to: air, bore: 5 mm, normally: shut}\n"
                 "procedure:\n  steps:\n    - wait: {for: 1 h}\n");
    char *text;
    json_t *object = told_json(&told, 7, &text);
    json_t *fuel = json_object_get(object, "fuel_grams");
    json_t *out = json_object_get(fuel, "out");
    const double gas = json_real_value(json_object_get(fuel, "gas"));
    const double liquid = json_real_value(json_object_get(fuel, "liquid"));
    const double vent = json_real_value(json_object_get(out, "vent"));
    double held = 0.0, gone = 0.0;
    for (int i = 0; i < ullage_model_ledger_rows(told.model); i++) {
        const struct ullage_ledger_row row = ullage_run_ledger(told.model, told.run, i);
        held += row.fuel ? 1e3 * row.molar_mass * (row.stored_start + row.stored_change) : 0.0;
        gone += row.fuel ? 1e3 * row.molar_mass * row.out : 0.0;
    }
    assert_near_share("held", liquid + gas, held, 1e-14);
    assert_near_share("vent", vent, gone, 1e-14);
    assert_true(vent > 1.0 && gas > 10.0); /* grams */
    assert_int_equal(json_object_size(out), 2);
    assert_true(json_real_value(json_object_get(out, "shut")) == 0.0);
    assert_true(json_real_value(json_object_get(fuel, "carbon")) == 0.0);
    assert_true(json_real_value(json_object_get(fuel, "vapor_made")) > vent);
    assert_true(json_real_value(json_object_get(fuel, "drained")) == 0.0);
    json_decref(object);
    free(text);
    told_free(&told);
}

/* 5 kPa of air into a system: both the usual cautions and both of the supply's. */
static void cautions_stand_beside_gas(void **unused)
{
    (void)unused;
    struct told told = told_run(scenario);
    char *text;
    json_t *object = told_json(&told, 7, &text);
    json_t *cautions = json_object_get(object, "cautions");
    assert_true(json_is_array(cautions));
    char all[2048] = "";
    for (size_t i = 0; i < json_array_size(cautions); i++)
        strcat(all, json_string_value(json_array_get(cautions, i)));
    assert_int_equal(json_array_size(cautions), 4);
    text_has(all, "burns and explodes");
    text_has(all, "licensed practice");
    text_has(all, "stands at 5.00 kPa");
    text_has(all, "gives air");
    json_decref(object);
    free(text);
    told_free(&told);
}

static void only_the_seconds_differ_between_equal_runs(void **unused)
{
    (void)unused;
    struct told first = told_run(scenario);
    struct told second = told_run(scenario);
    char *one;
    char *two;
    json_decref(told_json(&first, 7, &one));
    json_decref(told_json(&second, 7, &two));
    assert_string_equal(one, two); /* both were told 0.25 s */
    free(one);
    free(two);
    told_free(&first);
    told_free(&second);
}

static void seeds_of_any_size_are_exact(void **unused)
{
    (void)unused;
    struct told told = told_run(scenario);
    char *text;
    json_t *object = told_json(&told, INT64_MAX, &text);
    assert_true(json_integer_value(json_object_get(object, "seed")) == INT64_MAX);
    json_decref(object);
    free(text);
    object = told_json(&told, UINT64_MAX, &text);
    assert_string_equal(json_string_value(json_object_get(object, "seed")), "18446744073709551615");
    json_decref(object);
    free(text);
    told_free(&told);
}

/* ---- memory that runs out ---------------------------------------------------------------------------------------- */

static int allowed; /* allocations until the next one fails; below 0: none fails */

static void *scarce_malloc(size_t bytes)
{
    if (allowed == 0)
        return NULL;
    allowed -= allowed > 0;
    return malloc(bytes);
}

/* Every allocation of jansson fails once: each time it is told, and nothing but a whole object is ever written. */
static void memory_running_out_is_told(void **unused)
{
    (void)unused;
    struct told told = told_run(scenario);
    json_set_alloc_funcs(scarce_malloc, free);
    int failed = 0;
    bool good = false;
    for (int n = 0; !good && n < 10000; n++) {
        struct told_page page;
        told_open(&page);
        allowed = n;
        good = json_write(page.to, &told.experiment, &(struct json_circumstances){7, 0.25});
        allowed = -1;
        char *text = told_close(&page);
        if (!good)
            assert_string_equal(text, "");
        failed += !good;
        free(text);
    }
    json_set_alloc_funcs(malloc, free);
    assert_true(good);
    assert_true(failed > 100);
    told_free(&told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_stand_in_order),
        cmocka_unit_test(readings_and_verdicts_are_the_last_of_their_name),
        cmocka_unit_test(the_ledger_is_the_doors_and_adds_up),
        cmocka_unit_test(fuel_stands_in_grams),
        cmocka_unit_test(cautions_stand_beside_gas),
        cmocka_unit_test(only_the_seconds_differ_between_equal_runs),
        cmocka_unit_test(seeds_of_any_size_are_exact),
        cmocka_unit_test(memory_running_out_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
