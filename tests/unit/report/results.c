/* tests/unit/report/results.c  Tables of readings and verdicts, the ledger in words, the cautions, and what `--expect`
 * asks. */
#include "report/results.h"

#include "support/told.h"

#define VESSEL                                                                                                         \
    "ullage: scenario/1\nname: fill\n"                                                                                 \
    "system:\n  parts:\n"                                                                                              \
    "    vessel: {type: vessel, volume: 10 L}\n"                                                                       \
    "    port: {type: port, of: vessel}\n"                                                                             \
    "    leak: {type: hole, from: vessel, to: air, diameter: 1 mm}\n"
#define SUPPLY "equipment:\n  supply: {type: supply, gauge_pressure: 3.0 kPa, gas: nitrogen, tracer: smoke}\n"

static char *written(void (*write)(FILE *to, const struct experiment *of), const char *scenario)
{
    struct told told = told_run(scenario);
    struct told_page page;
    told_open(&page);
    write(page.to, &told.experiment);
    told_free(&told);
    return told_close(&page);
}

static void readings_in_shop_units(FILE *to, const struct experiment *of)
{
    readings_write(to, of, FIGURE_SHOP);
}

static void the_last_reading_of_a_name_stands(void **unused)
{
    (void)unused;
    char *text = written(readings_in_shop_units, VESSEL "procedure:\n  steps:\n"
                                                        "    - read: {t: time, temperature: vessel.temperature}\n"
                                                        "    - wait: {for: 65 s}\n"
                                                        "    - read: {t: time}\n");
    assert_string_equal(text, "Readings\n"
                              "  temperature  20.0 °C  at 0:00\n"
                              "  t            65.0 s   at 1:05\n");
    free(text);
    text = written(readings_in_shop_units, VESSEL "procedure:\n  steps:\n    - wait: {for: 1 s}\n");
    assert_string_equal(text, "");
    free(text);
}

static void verdicts_have_their_reasons(void **unused)
{
    (void)unused;
    char *text =
        written(verdicts_write, VESSEL "procedure:\n  steps:\n"
                                       "    - judge: {a: {pass: time > 1 s, fail: time < 1 s, because: too early}}\n"
                                       "    - judge: {longer: {pass: time < 1 s}}\n"
                                       "    - wait: {for: 2 s}\n"
                                       "    - judge: {a: {pass: time > 1 s, fail: time < 1 s, because: in time}}\n");
    assert_string_equal(text, "Verdicts\n"
                              "  longer  pass\n"
                              "  a       pass: in time\n");
    free(text);
}

static void the_ledger_tells_gases_and_openings(void **unused)
{
    (void)unused;
    char *text = written(ledger_write, VESSEL SUPPLY "procedure:\n  steps:\n"
                                                     "    - join: {supply: port}\n    - wait: {for: 60 s}\n");
    text_has(text, "Gas kept in sight: air");
    text_has(text, "; nitrogen 0 mol at first,");
    text_has(text, "of what moved unaccounted.");
    text_has(text, "leak: air");
    text_has(text, "L) out; nitrogen");
    text_has(text, "supply: nitrogen");
    assert_null(strstr(text, "smoke")); /* rides along: no gas of its own */
    free(text);
}

static void cautions_come_with_gas(void **unused)
{
    (void)unused;
    char *text = written(cautions_write,
                         VESSEL SUPPLY "procedure:\n  steps:\n    - join: {supply: port}\n    - wait: {for: 1 s}\n");
    text_has(text, "3.5 kPa (14 inH2O) at most");
    assert_null(strstr(text, "gives air"));
    assert_null(strstr(text, "stands at"));
    free(text);
    text = written(cautions_write,
                   VESSEL "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 4 kPa, gas: air}\n"
                          "procedure:\n  steps:\n    - wait: {for: 1 s}\n");
    text_has(text, "The supply stands at 4.00 kPa (16.1 inH2O)");
    text_has(text, "The supply gives air");
    free(text);
    text = written(cautions_write, VESSEL "procedure:\n  steps:\n    - wait: {for: 1 s}\n");
    assert_string_equal(text, "");
    free(text);
}

/* What each pair of judgements, the second perhaps of the first's name, makes of --expect. */
static const struct {
    const char *judgements;
    bool pass, fail;
} expectations[] = {
    {"    - wait: {for: 1 s}\n", false, false},
    {"    - judge: {a: {pass: 1 < 2}}\n", true, false},
    {"    - judge: {a: {fail: 1 < 2}}\n", false, true},
    {"    - judge: {a: {pass: 2 < 1}}\n", false, false}, /* open */
    {"    - judge: {a: {pass: 1 < 2}}\n    - judge: {b: {fail: 1 < 2}}\n", false, true},
    {"    - judge: {a: {pass: 1 < 2}}\n    - judge: {b: {pass: 2 < 1}}\n", false, false},
    {"    - judge: {a: {fail: 1 < 2}}\n    - judge: {a: {pass: 1 < 2}}\n", true, false},
    {"    - judge: {a: {pass: 1 < 2}}\n    - judge: {a: {fail: 1 < 2}}\n", false, true},
};

static void what_was_expected_is_what_stands(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof expectations / sizeof expectations[0]; i++) {
        char text[1024];
        snprintf(text, sizeof text, "%sprocedure:\n  steps:\n%s", VESSEL, expectations[i].judgements);
        struct told told = told_run(text);
        assert_int_equal(experiment_expected(&told.experiment, ULLAGE_PASS), expectations[i].pass);
        assert_int_equal(experiment_expected(&told.experiment, ULLAGE_FAIL), expectations[i].fail);
        told_free(&told);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_last_reading_of_a_name_stands),   cmocka_unit_test(verdicts_have_their_reasons),
        cmocka_unit_test(the_ledger_tells_gases_and_openings), cmocka_unit_test(cautions_come_with_gas),
        cmocka_unit_test(what_was_expected_is_what_stands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
