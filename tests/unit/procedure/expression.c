/* tests/unit/procedure/expression.c  Conditions and values: ranks of signs, dimensions, names, and where faults are told. */
#include "procedure/expression.h"

#include "support/near.h"

#include <float.h>

static const char scenario[] = "ullage: scenario/1\n"
                               "name: words\n"
                               "system:\n"
                               "  parts:\n"
                               "    vessel: {type: vessel, volume: 30 L}\n"
                               "    leak-bar: {type: hole, from: vessel, to: air, diameter: 0.5 mm}\n"
                               "end: 1 s\n";

static const struct named_value lets[] = {{.name = "limit", .value = 0.508e-3, .dimension = ULLAGE_LENGTH},
                                          {.name = "times", .value = 3.0, .dimension = ULLAGE_NUMBER}};
static const struct slot slots[] = {{"hole", ULLAGE_LENGTH, FOOTING_EITHER, -1},
                                    {"warm", ULLAGE_TEMPERATURE, FOOTING_LEVEL, -1}};

struct bench {
    struct ullage_description *description;
    struct network *network;
    struct window window[WINDOWS_MOST];
    int windows;
    struct scope scope;
};

static int bench_make(void **state)
{
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome;
    struct bench *bench = calloc(1, sizeof *bench);
    bench->description = ullage_description_text(scenario, problems, &outcome);
    assert_non_null(bench->description);
    bench->network = network_create(bench->description, NULL, 0, problems);
    assert_non_null(bench->network);
    bench->scope = (struct scope){.network = bench->network,
                                  .let = lets,
                                  .lets = 2,
                                  .slot = slots,
                                  .slots = 2,
                                  .window = bench->window,
                                  .windows = &bench->windows,
                                  .wait = 0,
                                  .arena = arena_create(),
                                  .problems = problems};
    *state = bench;
    return 0;
}

static int bench_clear(void **state)
{
    struct bench *bench = *state;
    ullage_problems_free(bench->scope.problems);
    arena_free(bench->scope.arena);
    network_free(bench->network);
    ullage_description_free(bench->description);
    free(bench);
    return 0;
}

/* Channels stand at 100, 101, ... in the order in which an expression names them; readings at 0.4 mm and 300 K. */
static double worked_out(const struct bench *bench, const char *text, int wanted)
{
    const struct phrase phrase = {text, {NULL, 1, 1}};
    const struct expression *expression = expression_read(&bench->scope, phrase, wanted);
    if (!expression)
        fail_msg("%s: %s", text, ullage_problems_at(bench->scope.problems, 0).wrong);
    const double channel[] = {100.0, 101.0, 102.0, 103.0};
    const double slot[] = {0.4e-3, 300.0};
    static const struct window_memory empty[4];
    assert_true(expression->channels <= 4 && bench->windows <= 4);
    const struct outlook at = {.channel = channel, .slot = slot, .window = bench->window, .memory = empty};
    return expression_value(expression, &at);
}

/* ---- values ---- */
static const struct {
    const char *text;
    double value;
} values[] = {
    {"2 + 3 * 4", 14.0},
    {"(2 + 3) * 4", 20.0},
    {"2 - 3 - 4", -5.0},
    {"8 / 4 / 2", 1.0},
    {"-2 * -3", 6.0},
    {"- (2 + 3)", -5.0},
    {"--2", 2.0},
    {"40 %", 0.4},
    {"1e3 + .5", 1000.5},
    {"3.0 kPa", 3000.0},
    {"3.0kPa", 3000.0},
    {"0.2 L/kPa", 2e-7},
    {"4 Pa / 2 s", 2.0},
    {"4 Pa/s", 4.0},
    {"6 1/s * 2 s", 12.0},
    {"-40 degF", 233.15},
    {"35 degC", 308.15},
    {"-5 degC", 268.15},
    {"35 degC - 5 K", 303.15},
    {"35 degC - 5 degC", 30.0},
    {"30 degC + 2 K", 305.15},
    {"limit / 0.254 mm", 2.0},
    {"times * 2", 6.0},
    {"hole", 0.4e-3},
    {"abs(2 - 5)", 3.0},
    {"min(2, 3) + max(2, 3) * 10", 32.0},
    {"vessel.pressure - 1 Pa", 99.0},
    {"vessel.pressure + vessel.pressure", 200.0},
    {"leak-bar.flow * 1 s", 100.0},
    {"abs(vessel.pressure - air.pressure)", 1.0},
};

static void values_are_worked_out(void **state)
{
    for (size_t k = 0; k < sizeof values / sizeof values[0]; k++) /* four operations, each rounding once */
        assert_near(values[k].text, worked_out(*state, values[k].text, EXPRESSION_ANY), values[k].value,
                    4.0 * DBL_EPSILON * fmax(fabs(values[k].value), 500.0));
}

/* ---- conditions ---- */
static const struct {
    const char *text;
    bool holds;
} conditions[] = {
    {"1 < 2", true},
    {"2 <= 2 and 2 >= 2", true},
    {"2 == 2 and 2 != 3", true},
    {"1 > 2 or 3 > 2 and 1 > 2", false},
    {"3 > 2 or 3 > 2 and 1 > 2", true},
    {"(3 > 2 or 3 > 2) and 1 > 2", false},
    {"not 1 > 2", true},
    {"not 1 > 2 and 1 > 2", false},
    {"not (1 > 2 and 1 > 2)", true},
    {"not not 1 < 2", true},
    {"1 + 1 < 2 * 2", true},
    {"hole < limit", true},
    {"hole >= limit", false},
    {"hole < 0.015 in", false},
    {"warm > 26 degC and warm < 27 degC", true},
    {"warm - 20 degC > 6 K", true},
    {"vessel.gauge_pressure < 8 inH2O", true},
    {"vessel.pressure<101Pa", true},
    {"settled(vessel.pressure, 20 s, 2 Pa)", false},
    {"rate(vessel.pressure, 10 s) < 1 Pa/s", false},
    {"rate(vessel.pressure, 10 s) != 1 Pa/s", false},
    {"0 / 0 == 0 or 0 / 0 < 1 or 0 / 0 > 1", false},
};

static void conditions_hold_or_not(void **state)
{
    for (size_t k = 0; k < sizeof conditions / sizeof conditions[0]; k++)
        if ((worked_out(*state, conditions[k].text, EXPRESSION_TRUTH) > 0.5) != conditions[k].holds)
            fail_msg("%s: should be %s", conditions[k].text, conditions[k].holds ? "true" : "false");
}

/* ---- faults: the column of the word at fault, counted from 1, and words of what is told ---- */
static const struct {
    const char *text;
    int wanted, column;
    const char *wrong, *right;
} faults[] = {
    {"vessel.gauge_pressure < 8", EXPRESSION_TRUTH, 25, "Pa and a number without unit", "unit"},
    {"vessel.pressure > 5 s", EXPRESSION_TRUTH, 19, "Pa and s", "same kind"},
    {"vessel.presure > 5 Pa", EXPRESSION_TRUTH, 1, "vessel.presure", "vessel.pressure"},
    {"1 Pa < vesel.pressure", EXPRESSION_TRUTH, 8, "vesel.pressure", "vessel.pressure"},
    {"hole < limt", EXPRESSION_TRUTH, 8, "limt", "limit"},
    {"hol < limit", EXPRESSION_TRUTH, 1, "hol", "hole"},
    {"hole-limit < 1 mm", EXPRESSION_TRUTH, 1, "hole-limit", "spaces"},
    {"vessel.pressure > 5 inHO2", EXPRESSION_TRUTH, 21, "inHO2", "inH2O"},
    {"vessel.pressure > 1e400 Pa", EXPRESSION_TRUTH, 19, "too large", "1e300"},
    {"vessel.pressure", EXPRESSION_TRUTH, 1, "no condition", "compare"},
    {"vessel.pressure > 1 Pa", EXPRESSION_ANY, 1, "no value", "channel"},
    {"vessel.pressure", ULLAGE_TIME, 1, "Pa", "s"},
    {"1 < 2 < 3", EXPRESSION_TRUTH, 9, "condition", "and"},
    {"1 + (2 < 3)", EXPRESSION_ANY, 5, "condition", "and"},
    {"hole and limit", EXPRESSION_TRUTH, 10, "join conditions", "compare"},
    {"not hole", EXPRESSION_TRUTH, 5, "condition", "compare"},
    {"(1 < 2", EXPRESSION_TRUTH, 7, "missing", ")"},
    {"1 < 2)", EXPRESSION_TRUTH, 6, "belong", "and"},
    {"1 < 2 3 < 4", EXPRESSION_TRUTH, 7, "belong", "and"},
    {"", EXPRESSION_TRUTH, 1, "missing", ""},
    {"hole <", EXPRESSION_TRUTH, 7, "missing", ""},
    {"hole = limit", EXPRESSION_TRUTH, 6, "belong", ""},
    {"hole < limit && 1 < 2", EXPRESSION_TRUTH, 14, "belong", "and"},
    {"squareroot(2)", EXPRESSION_ANY, 1, "no such function", "settled"},
    {"abs(1 < 2)", EXPRESSION_ANY, 5, "condition", ""},
    {"min(1 m, 1 s)", EXPRESSION_ANY, 10, "m and s", ""},
    {"settled(vessel.pressure, 20 s)", EXPRESSION_TRUTH, 30, "missing", ","},
    {"settled(vessel.pressure, 20, 2 Pa)", EXPRESSION_TRUTH, 26, "fixed value in s", "unit"},
    {"settled(vessel.pressure, 20 s, 2)", EXPRESSION_TRUTH, 32, "fixed value in Pa", "unit"},
    {"settled(vessel.pressure, 0 s, 2 Pa)", EXPRESSION_TRUTH, 26, "look back", "above 0"},
    {"settled(vessel.presure, 20 s, 2 Pa)", EXPRESSION_TRUTH, 9, "vessel.presure", "vessel.pressure"},
    {"settled(2 Pa, 20 s, 2 Pa)", EXPRESSION_TRUTH, 9, "channel", ""},
    {"settled(vessel.temperature, 20 s, 2 degC)", EXPRESSION_TRUTH, 35, "fixed value in K", "K"},
    {"rate(vessel.pressure, hole)", EXPRESSION_ANY, 23, "fixed value in s", ""},
    {"rate(vessel.pressure, 10 s) > 3 Pa", EXPRESSION_TRUTH, 31, "Pa/s and Pa", ""},
    {"vessel.temperature - 20 degC > 6 degC", EXPRESSION_TRUTH, 32, "step of temperature", "K"},
    {"vessel.temperature + 5 degC > 30 degC", EXPRESSION_TRUTH, 22, "two temperatures", "K"},
    {"\xc2\xb5 < 1", EXPRESSION_TRUTH, 1, "\xc2\xb5", ""},
    {"1 < \xe2\x89\xa4 x", EXPRESSION_TRUTH, 5, "", ""},
    {"1 < 1000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000",
     EXPRESSION_TRUTH, 5, "too long", "digits"},
    {"(((((((((((((((((((((((((((((((((((((((((1", EXPRESSION_ANY, 32, "nested", ""},
};

static void faults_are_told_at_their_word(void **state)
{
    struct bench *bench = *state;
    for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++) {
        struct scope scope = bench->scope;
        scope.problems = ullage_problems_create();
        const struct phrase phrase = {faults[k].text, {"f", 7, 10}};
        assert_null(expression_read(&scope, phrase, faults[k].wanted));
        assert_int_equal(ullage_problems_count(scope.problems), 1);
        const struct ullage_problem told = ullage_problems_at(scope.problems, 0);
        if (told.place.line != 7 || told.place.column != 9 + faults[k].column || !strstr(told.wrong, faults[k].wrong) ||
            !strstr(told.right, faults[k].right))
            fail_msg("%s: %d:%d: %s; %s", faults[k].text, told.place.line, told.place.column, told.wrong, told.right);
        ullage_problems_free(scope.problems);
    }
}

static void long_and_deep_text_is_refused(void **state)
{
    struct bench *bench = *state;
    static const char *const pieces[] = {"(", "-", "not ", "abs(", "1+", "min(1,", "1*(1+", "a.", "-(", "1 < 2 and "};

    for (size_t k = 0; k < sizeof pieces / sizeof pieces[0]; k++)
        for (int times = 10; times <= 100000; times *= 100) {
            const size_t length = strlen(pieces[k]);
            char *text = calloc(length * (size_t)times + 1, 1);
            for (int i = 0; i < times; i++)
                memcpy(text + (size_t)i * length, pieces[k], length);
            struct scope scope = bench->scope;
            scope.problems = ullage_problems_create();
            assert_null(expression_read(&scope, (struct phrase){text, {0}}, EXPRESSION_ANY));
            assert_int_equal(ullage_problems_count(scope.problems), 1);
            ullage_problems_free(scope.problems);
            free(text);
        }
}

static void a_bare_channel_or_reading_is_known(void **state)
{
    struct bench *bench = *state;
    const struct expression *channel = expression_read(&bench->scope, (struct phrase){"time", {0}}, ULLAGE_TIME);
    const struct expression *reading = expression_read(&bench->scope, (struct phrase){"(hole)", {0}}, ULLAGE_LENGTH);
    const struct expression *sum = expression_read(&bench->scope, (struct phrase){"hole + limit", {0}}, ULLAGE_LENGTH);
    assert_int_equal(channel->bare_channel, network_find_channel(bench->network, "time"));
    assert_int_equal(reading->bare_slot, 0);
    assert_int_equal(sum->bare_slot, -1);
    assert_int_equal(sum->bare_channel, -1);
    assert_false(sum->constant);
}

static void windows_are_shared(void **state)
{
    struct bench *bench = *state;
    bench->windows = 0;
    const char *text = "settled(vessel.pressure, 20 s, 2 Pa) and rate(vessel.pressure, 20 s) < 1 Pa/s and "
                       "settled(vessel.pressure, 10 s, 2 Pa)";
    assert_non_null(expression_read(&bench->scope, (struct phrase){text, {0}}, EXPRESSION_TRUTH));
    assert_int_equal(bench->windows, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_worked_out),
        cmocka_unit_test(conditions_hold_or_not),
        cmocka_unit_test(faults_are_told_at_their_word),
        cmocka_unit_test(long_and_deep_text_is_refused),
        cmocka_unit_test(a_bare_channel_or_reading_is_known),
        cmocka_unit_test(windows_are_shared),
    };
    return cmocka_run_group_tests_name("procedure/expression", tests, bench_make, bench_clear) != 0;
}
