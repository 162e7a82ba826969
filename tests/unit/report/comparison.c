/* tests/unit/report/comparison.c  Two runs side by side: the sentence names what was changed, what it did, and why. What
 * is wanted follows from the frozen laws: flow goes with area and, far from choking, with the root of the pressure. */
#include "report/comparison.h"

#include "support/told.h"

#define DECAY(diameter, volume, more)                                                                                  \
    "ullage: scenario/1\nname: decay\nassume: {heat: isothermal, discharge: 0.6}\n"                                    \
    "system:\n  parts:\n"                                                                                              \
    "    vessel: {type: vessel, volume: " volume "}\n"                                                                 \
    "    leak: {type: hole, from: vessel, to: air, diameter: " diameter "}\n"                                          \
    "start:\n  vessel: {gauge_pressure: 3 kPa}\n"                                                                      \
    "procedure:\n  steps:\n"                                                                                           \
    "    - read: {flow: leak.standard_flow}\n"                                                                         \
    "    - wait: {until: vessel.gauge_pressure < 2 kPa, at_most: 30 min}\n"                                            \
    "    - read: {decay_time: time}\n" more

static const struct {
    const char *this, *other;
    const char *says[3];
} pairs[] = {
    {DECAY("1.0 mm", "30 L", ""),
     DECAY("0.5 mm", "30 L", ""),
     {"Leak twice as wide, 1.00 mm (0.039 in) in place of 0.50 mm (0.020 in): 4.0 times the flow, for the area goes "
      "with the square of the width."}},
    {DECAY("0.5 mm", "15 L", ""),
     DECAY("0.5 mm", "30 L", ""),
     {"Vessel half as large, 15.0 L in place of 30.0 L: 0.50 times the time, for so much more gas has to move."}},
    {DECAY("0.5 mm", "30 L", ""),
     DECAY("0.5 mm", "30 L", ""),
     {"No number of a part", "differs between the two: the same"}},
    {DECAY("1.0 mm", "60 L", ""),
     DECAY("0.5 mm", "30 L", ""),
     {"Vessel twice as large, 60.0 L in place of 30.0 L; Leak twice as wide,", "4.0 times the flow."}},
    {DECAY("0.5 mm", "30 L", "let: {limit: 60 s}\n"),
     DECAY("0.5 mm", "30 L", "let: {limit: 30 s}\n"),
     {"Limit 60.0 s in place of 30.0 s: the same"}},
    {DECAY("0.5 mm", "30 L", "surroundings: {pressure: 90 kPa}\n"),
     DECAY("0.5 mm", "30 L", ""),
     {"Air around: pressure 90.0 kPa in place of 101.3 kPa:"}},
};

static char *compared(const char *this, const char *other)
{
    struct told here = told_run(this);
    struct told there = told_run(other);
    struct told_page page;
    told_open(&page);
    comparison_write(page.to, &here.experiment, &there.experiment, FIGURE_SHOP);
    char *text = told_close(&page);
    told_free(&here);
    told_free(&there);
    return text;
}

static void the_sentence_says_what_and_why(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        char *text = compared(pairs[i].this, pairs[i].other);
        for (int k = 0; k < 3 && pairs[i].says[k]; k++)
            text_has(text, pairs[i].says[k]);
        free(text);
    }
}

static void the_table_holds_this_other_and_ratio(void **unused)
{
    (void)unused;
    char *text =
        compared(DECAY("1.0 mm", "30 L", "    - read: {only_here: vessel.temperature}\n"), DECAY("0.5 mm", "30 L", ""));
    text_has(text, "Reading this other ratio");
    text_has(text, "only_here 20.0 °C - -");
    const char *row = strstr(text, "\n  flow");
    assert_non_null(row);
    char ratio[32] = "";
    const char *end = strchr(row + 1, '\n');
    snprintf(ratio, sizeof ratio, "%.*s", 2, end - 2);
    assert_string_equal(ratio, " 4");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sentence_says_what_and_why),
        cmocka_unit_test(the_table_holds_this_other_and_ratio),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
