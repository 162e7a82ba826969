/* tests/unit/procedure/step.c  Steps as they are read: titles, times, nesting, and what is told of those that are wrong. */
#include "procedure/procedure.h"
#include "support/near.h"
#include "ullage.h"

#include <stdbool.h>

/* Steps follow as lines of their own; the first of them is line 17. */
static const char head[] = "ullage: scenario/1\n"
                           "name: steps\n"
                           "system:\n"
                           "  parts:\n"
                           "    tank: {type: vessel, volume: 30 L}\n"
                           "    vent-valve: {type: valve, from: tank, to: air, bore: 5 mm}\n"
                           "    cap: {type: cap, of: tank, short: filler cap}\n"
                           "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm}\n"
                           "    service-port: {type: port, of: tank}\n"
                           "    spare-port: {type: port, of: tank}\n"
                           "equipment:\n"
                           "  supply: {type: supply, gauge_pressure: 3 kPa, gas: nitrogen, tracer: smoke}\n"
                           "  meter: {type: meter, of: supply}\n"
                           "let: {limit: 0.020 in, patience: 90 s}\n"
                           "procedure:\n"
                           "  steps:\n";

enum { LINES_BEFORE = 16 };

static struct ullage_model *model_of(const char *steps, struct ullage_problems *problems)
{
    char text[4096];
    enum ullage_outcome outcome;
    snprintf(text, sizeof text, "%s%s", head, steps);
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    ullage_description_free(description);
    return model;
}

static struct ullage_model *good_model(const char *steps)
{
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = model_of(steps, problems);
    if (!model)
        fail_msg("%s: %s", steps,
                 ullage_problems_count(problems) > 0 ? ullage_problems_at(problems, 0).wrong : "nothing told");
    ullage_problems_free(problems);
    return model;
}

/* ---- right ones ---- */
static const struct {
    const char *text, *verb, *title;
    double least, most;
    bool gas;
} rights[] = {
    {"- set: {vent-valve: shut}", "set", "Vent valve shut", 0, 0, false},
    {"- set: {vent-valve: shut, cap: off}", "set", "Vent valve shut, filler cap off", 0, 0, false},
    {"- set: {cap: 40 %}", "set", "Filler cap 40 % open", 0, 0, false},
    {"- set: {leak.diameter: 0.7 mm}", "set", "Leak diameter 0.7 mm", 0, 0, false},
    {"- set: {leak.diameter: limit}", "set", "Leak diameter limit", 0, 0, false},
    {"- set: {supply: on}", "set", "Supply on", 0, 0, true},
    {"- set: {supply: off}", "set", "Supply off", 0, 0, false},
    {"- join: {supply: service-port}", "join", "Nitrogen with smoke joined at the service port", 0, 0, true},
    {"- part_from: supply", "part_from", "Supply taken off", 0, 0, false},
    {"- part_from: [supply]", "part_from", "Supply taken off", 0, 0, false},
    {"- wait: {for: 1.5 min}", "wait", "Wait 1.5 min", 90, 90, false},
    {"- wait: {for: patience}", "wait", "Wait patience", 90, 90, false},
    {"- wait: {until: tank.gauge_pressure > 2 kPa, at_most: 5 min}", "wait",
     "Wait until tank.gauge_pressure > 2 kPa, at most 5 min", 0, 300, false},
    {"- read: {decay_time: time, hole: meter.hole}", "read", "Read decay time, hole", 0, 0, false},
    {"- judge: {leak: {fail: time > 5 s}}", "judge", "Judge leak", 0, 0, false},
    {"- say: \"{{}: {tank.pressure in inH2O} now.\"", "say", "{}: .. now.", 0, 0, false},
    {"- {say: hello, name: A greeting}", "say", "A greeting", 0, 0, false},
    {"- repeat: {times: 3, steps: [say: x]}", "repeat", "Repeat 3 times", 0, 0, false},
    {"- repeat: {until: time > 5 s, at_most: 1 min, steps: [wait: {for: 1 s}]}", "repeat", "Repeat until time > 5 s", 0,
     0, false},
    {"- when: {if: time > 5 s, steps: [say: x], else: [say: y]}", "when", "When time > 5 s", 0, 0, false},
};

static void steps_are_told_in_words(void **unused)
{
    (void)unused;
    for (size_t k = 0; k < sizeof rights / sizeof rights[0]; k++) {
        char steps[512];
        snprintf(steps, sizeof steps, "    %s\n", rights[k].text);
        struct ullage_model *model = good_model(steps);
        const struct ullage_step step = ullage_model_step(model, 0);
        assert_string_equal(step.title, rights[k].title);
        assert_string_equal(step.verb, rights[k].verb);
        assert_int_equal(step.named, strstr(rights[k].text, "name:") != NULL);
        assert_int_equal(step.gas, rights[k].gas);
        assert_near("least", step.least, rights[k].least, 0.0);
        assert_near("most", step.most, rights[k].most, 0.0);
        ullage_model_free(model);
    }
}

static void blocks_are_flattened(void **unused)
{
    (void)unused;
    static const int depth[] = {0, 0, 1, 1, 2, 2, 0};

    struct ullage_model *model = good_model("    - wait: {for: 2 s}\n"
                                            "    - repeat:\n"
                                            "        times: 3\n"
                                            "        steps:\n"
                                            "          - wait: {for: 10 s}\n"
                                            "          - when:\n"
                                            "              if: tank.pressure > 1 kPa\n"
                                            "              steps:\n"
                                            "                - wait: {for: 1 s}\n"
                                            "              else:\n"
                                            "                - wait: {for: 4 s}\n"
                                            "    - say: done\n");
    assert_int_equal(ullage_model_steps(model), 7);
    for (int k = 0; k < 7; k++)
        assert_int_equal(ullage_model_step(model, k).depth, depth[k]);
    assert_near("longest", ullage_model_end(model), 2.0 + 3.0 * (10.0 + 4.0), 0.0);
    ullage_model_free(model);
}

/* ---- wrong ones: line within the steps, column, and words of what is told ---- */
static const struct {
    const char *text;
    int line, column;
    const char *wrong, *right;
} wrongs[] = {
    {"- wait: {until: tank.pressure < 8 kPa}", 1, 7, "no time limit", "at_most"},
    {"- wait:\n        until: tank.pressure < 8 kPa", 1, 7, "no time limit", "at_most"},
    {"- wait: {at_most: 5 s}", 1, 7, "how long", "for"},
    {"- wait: {}", 1, 7, "how long", "for"},
    {"- wait: {for: 5 s, at_most: 5 s}", 1, 24, "two ends", "alone"},
    {"- wait: {for: 5}", 1, 19, "number without unit", "s"},
    {"- wait: {for: 5 Pa}", 1, 19, "Pa", "s"},
    {"- wait: {for: -5 s}", 1, 19, "", "0 s"},
    {"- wait: {for: 1e12 s}", 1, 19, "", "ten years"},
    {"- wait: {for: time}", 1, 19, "known before", ""},
    {"- wait: {untill: tank.pressure < 8 kPa, at_most: 5 s}", 1, 14, "untill", "until"},
    {"- wait: 5 s", 1, 7, "single value", "wait: {until:"},
    {"- wait: {until: tank.presure < 8 kPa, at_most: 5 s}", 1, 21, "tank.presure", "tank.pressure"},
    {"- wait: {until: tank.pressure < 8 s, at_most: 5 s}", 1, 37, "Pa and s", ""},
    {"- wait: {until: \"tank.pressure < 8 s\", at_most: 5 s}", 1, 38, "Pa and s", ""},
    {"- wait: {until: \"settled(tank.pressure, 1 us, 1 Pa)\", at_most: 5 min}", 1, 0, "us", ""},
    {"- wait: {until: \"settled(tank.pressure, 0.1 ms, 1 Pa)\", at_most: 5 min}", 1, 21, "millionth", "longer"},
    {"- wayt: {for: 5 s}", 1, 7, "wayt", "wait"},
    {"- {wait: {for: 5 s}, read: {x: time}}", 1, 26, "same step", "dash"},
    {"- name: nothing", 1, 7, "no verb", "wait"},
    {"- just words", 1, 7, "single value", "wait: {for: 10 s}"},
    {"- set: {vent-vlave: shut}", 1, 13, "vent-vlave", "vent-valve"},
    {"- set: {vent-valve: shutt}", 1, 25, "shutt", "shut"},
    {"- set: {vent-valve: 140 %}", 1, 25, "opens", "100 %"},
    {"- set: {tank: open}", 1, 13, "vessel", ""},
    {"- set: {leak.diametre: 1 mm}", 1, 18, "diametre", "diameter"},
    {"- set: {tank.volume: 1 L}", 1, 18, "volume", ""},
    {"- set: {leak.diameter: 1 s}", 1, 28, "s", "m"},
    {"- set: {leak.diameter: -1 mm}", 1, 28, "diameter", "0"},
    {"- set: {leak.diameter: tank.pressure * 1 m / 1 Pa}", 1, 28, "known before", ""},
    {"- set: {}", 1, 7, "nothing", ""},
    {"- join: {supply: servise-port}", 1, 22, "servise-port", "service-port"},
    {"- join: {supply: tank}", 1, 22, "vessel", "port"},
    {"- join: {meter: service-port}", 1, 14, "meter", "supply"},
    {"- part_from: meter", 1, 18, "meter", "supply"},
    {"- part_from: suply", 1, 18, "suply", "supply"},
    {"- part_from: {supply: service-port}", 1, 27, "never", ""},
    {"- read: {limit: time}", 1, 14, "limit", "let"},
    {"- read: {and: time}", 1, 14, "and", "taken"},
    {"- read: {9th: time}", 1, 14, "9th", "letter"},
    {"- read: {x: time, x2: y}", 1, 27, "y", ""},
    {"- read: {x: time}\n    - read: {x: tank.pressure}", 2, 14, "another kind", "another name"},
    {"- read: {x: y}\n    - read: {y: time}", 1, 17, "y", ""},
    {"- read: {x: \"rate(tank.pressure, 1 s)\"}", 1, 23, "no wait", "before"},
    {"- read: {x: tank.pressure > 1 Pa}", 1, 17, "condition", ""},
    {"- judge: {x: {because: of it}}", 1, 15, "neither", "pass"},
    {"- judge: {x: {pas: time > 1 s}}", 1, 19, "pas", "pass"},
    {"- judge: {x: time}", 1, 15, "single value", ""},
    {"- judge: {x: {pass: time}}", 1, 25, "no condition", "compare"},
    {"- say: [a, b]", 1, 7, "list", "say: "},
    {"- set: shut", 1, 7, "single value", "set: {vent-valve: shut"},
    {"- say: \"it is {tank.presure} now\"", 1, 20, "tank.presure", "tank.pressure"},
    {"- say: \"it is {tank.pressure in mm} now\"", 1, 37, "unit", "same kind"},
    {"- say: \"it is {tank.pressure\"", 1, 19, "not closed", "}"},
    {"- repeat: {times: 3}", 1, 7, "no steps", ""},
    {"- repeat: {steps: [say: x]}", 1, 7, "no limit", "times"},
    {"- repeat: {times: 2.5, steps: [say: x]}", 1, 23, "so often", "whole"},
    {"- repeat: {times: 2, steps: [wait: {until: time > 1 s}]}", 1, 34, "no time limit", ""},
    {"- repeat: {times: 2, steps: say}", 1, 26, "single value", "list"},
    {"- when: {steps: [say: x]}", 1, 7, "when", "if"},
    {"- when: {if: time > 1 s, then: [say: x]}", 1, 30, "then", ""},
    {"- when: {if: time > 1 s, steps: []}", 1, 7, "nothing to do", ""},
};

static void wrong_steps_are_told_with_their_place(void **unused)
{
    (void)unused;
    for (size_t k = 0; k < sizeof wrongs / sizeof wrongs[0]; k++) {
        char steps[512];
        struct ullage_problems *problems = ullage_problems_create();
        snprintf(steps, sizeof steps, "    %s\n", wrongs[k].text);
        if (model_of(steps, problems) || ullage_problems_count(problems) != 1)
            fail_msg("%s: %d problems", wrongs[k].text, ullage_problems_count(problems));
        const struct ullage_problem told = ullage_problems_at(problems, 0);
        const bool column = wrongs[k].column == 0 || told.place.column == wrongs[k].column;
        if (told.place.line != LINES_BEFORE + wrongs[k].line || !column || !strstr(told.wrong, wrongs[k].wrong) ||
            !strstr(told.right, wrongs[k].right))
            fail_msg("%s: %d:%d: %s; %s", wrongs[k].text, told.place.line - LINES_BEFORE, told.place.column, told.wrong,
                     told.right);
        ullage_problems_free(problems);
    }
}

static void every_wrong_step_is_told(void **unused)
{
    (void)unused;
    struct ullage_problems *problems = ullage_problems_create();
    assert_null(model_of("    - set: {vent-vlave: shut}\n"
                         "    - wait: {until: time > 5 s}\n"
                         "    - repeat: {times: 2, steps: [read: {x: y}]}\n"
                         "    - say: fine\n"
                         "    - judge: {leak: {pass: z > 1}}\n",
                         problems));
    assert_int_equal(ullage_problems_count(problems), 4);
    ullage_problems_free(problems);
}

static void deep_nesting_is_refused(void **unused)
{
    (void)unused;

    enum { DEEP = 40 };

    char steps[DEEP * 40] = "    - ";
    for (int k = 0; k < DEEP; k++)
        strcat(steps, "{repeat: {times: 1, steps: [");
    strcat(steps, "say: x");
    for (int k = 0; k < DEEP; k++)
        strcat(steps, "]}}");
    strcat(steps, "\n");
    struct ullage_problems *problems = ullage_problems_create();
    assert_null(model_of(steps, problems));
    assert_true(ullage_problems_count(problems) > 0);
    ullage_problems_free(problems);
}

static void a_run_without_an_end_is_refused(void **unused)
{
    (void)unused;
    struct ullage_problems *problems = ullage_problems_create();
    enum ullage_outcome outcome;
    struct ullage_description *description = ullage_description_text("ullage: scenario/1\n"
                                                                     "name: endless\n"
                                                                     "system:\n"
                                                                     "  parts:\n"
                                                                     "    tank: {type: vessel, volume: 30 L}\n",
                                                                     problems, &outcome);
    assert_non_null(description);
    assert_null(ullage_model_create(description, problems));
    assert_int_equal(ullage_problems_count(problems), 1);
    assert_non_null(strstr(ullage_problems_at(problems, 0).wrong, "ends"));
    ullage_description_free(description);
    ullage_problems_free(problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_are_told_in_words),
        cmocka_unit_test(blocks_are_flattened),
        cmocka_unit_test(wrong_steps_are_told_with_their_place),
        cmocka_unit_test(every_wrong_step_is_told),
        cmocka_unit_test(deep_nesting_is_refused),
        cmocka_unit_test(a_run_without_an_end_is_refused),
    };
    return cmocka_run_group_tests_name("procedure/step", tests, NULL, NULL) != 0;
}
