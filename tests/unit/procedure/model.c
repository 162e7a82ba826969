/* tests/unit/procedure/model.c  What the door tells of a model: parts, links, words, what is recorded, and the catalogue. */
#include "support/near.h"
#include "support/rigs.h"
#include "support/run_text.h"
#include "ullage.h"

#include <stdbool.h>

static void parts_are_told_with_their_links(void **unused)
{
    (void)unused;
    struct ullage_model *model = text_model(rig_pull_up);
    assert_string_equal(ullage_model_name(model), "pull-up");
    assert_string_equal(ullage_model_about(model), "");
    assert_int_equal(ullage_model_parts(model), 9);
    assert_int_equal(ullage_model_find_part(model, "nothing"), -1);
    const int vent = ullage_model_find_part(model, "vent");
    const struct ullage_part part = ullage_model_part(model, vent);
    assert_string_equal(part.type, "valve");
    assert_int_equal(part.links, 2);
    assert_string_equal(part.link[0].key, "from");
    assert_int_equal(part.link[0].part, ullage_model_find_part(model, "vent-line"));
    assert_string_equal(part.link[1].key, "to");
    assert_int_equal(part.link[1].part, -1);
    const struct ullage_part line = ullage_model_part(model, ullage_model_find_part(model, "vapor-line"));
    assert_string_equal(line.label, "vapor line");
    assert_string_equal(line.link[1].opening, "tank");
    assert_false(line.equipment);
    const struct ullage_part supply = ullage_model_part(model, ullage_model_find_part(model, "supply"));
    assert_true(supply.equipment);
    assert_int_equal(supply.link[0].part, -2);
    assert_near("bore", ullage_model_parameter(model, vent, "bore"), 0.01, 1e-15);
    assert_true(isnan(ullage_model_parameter(model, vent, "nothing")));
    assert_string_equal(ullage_model_word(model, vent, "normally"), "open");
    assert_null(ullage_model_word(model, vent, "gas"));
    assert_string_equal(ullage_model_word(model, ullage_model_find_part(model, "supply"), "gas"), "nitrogen");
    ullage_model_free(model);
}

static bool recorded(const struct ullage_model *model, const char *name)
{
    for (int k = 0; k < ullage_model_recorded(model); k++)
        if (!strcmp(ullage_model_channel(model, ullage_model_recorded_channel(model, k)).name, name))
            return true;
    return false;
}

/* rig_pull_up without its record, and with another end. */
static struct ullage_model *unrecorded(const char *rest)
{
    char text[4000];
    snprintf(text, sizeof text, "%.*s%s", (int)(strstr(rig_pull_up, "record:") - rig_pull_up), rig_pull_up, rest);
    return text_model(text);
}

static void the_usual_is_recorded(void **unused)
{
    (void)unused;
    struct ullage_model *model = unrecorded("");
    assert_true(recorded(model, "tank.gauge_pressure"));
    assert_true(recorded(model, "leak.flow"));
    assert_true(recorded(model, "meter.hole"));
    assert_false(recorded(model, "tank.temperature"));
    assert_false(recorded(model, "time"));
    ullage_model_free(model);
}

/* 1, 2, 5 times a power of ten, at most 20000 rows, not under 0.05 s. */
static void it_is_recorded_often_enough(void **unused)
{
    (void)unused;

    static const struct {
        const char *rest;
        double every;
    } ends[] = {{"end: 10 s\n", 0.05}, {"end: 1000 s\n", 0.05}, {"end: 1001 s\n", 0.1},
                {"end: 1 h\n", 0.2},   {"end: 24 h\n", 5.0},    {"end: 1 h\nrecord: {every: 3 s}\n", 3.0}};

    for (size_t k = 0; k < sizeof ends / sizeof ends[0]; k++) {
        struct ullage_model *model = unrecorded(ends[k].rest);
        assert_near(ends[k].rest, ullage_model_every(model), ends[k].every, 1e-15);
        ullage_model_free(model);
    }
}

static const struct {
    const char *record, *wrong, *right;
} refused[] = {
    {"record: {channels: [tank.gauge_presure]}\n", "tank.gauge_presure", "tank.gauge_pressure"},
    {"record: {channels: [tank.pressure, leak.flow, tank.pressure]}\n", "twice", "once"},
    {"record: {every: 1 ms}\nend: 1000 h\n", "too much", "0.2 s"},
};

static void wrong_records_are_refused(void **unused)
{
    (void)unused;
    for (size_t k = 0; k < sizeof refused / sizeof refused[0]; k++) {
        char text[4000];
        enum ullage_outcome outcome;
        struct ullage_problems *problems = ullage_problems_create();
        snprintf(text, sizeof text, "%.*s%s", (int)(strstr(rig_pull_up, "record:") - rig_pull_up), rig_pull_up,
                 refused[k].record);
        struct ullage_description *description = ullage_description_text(text, problems, &outcome);
        assert_non_null(description);
        assert_null(ullage_model_create(description, problems));
        assert_int_equal(ullage_problems_count(problems), 1);
        assert_non_null(strstr(ullage_problems_at(problems, 0).wrong, refused[k].wrong));
        assert_non_null(strstr(ullage_problems_at(problems, 0).right, refused[k].right));
        ullage_description_free(description);
        ullage_problems_free(problems);
    }
}

static void values_of_let_are_told(void **unused)
{
    (void)unused;
    struct ullage_model *model = unrecorded("let: {limit: 0.020 in, doubt: 5 %}\n");
    double value = 0.0;
    int dimension = -1;
    assert_int_equal(ullage_model_lets(model), 2);
    assert_string_equal(ullage_model_let(model, 0, &value, &dimension), "limit");
    assert_near("limit", value, 0.508e-3, 1e-18);
    assert_int_equal(dimension, ULLAGE_LENGTH);
    assert_string_equal(ullage_model_let(model, 1, &value, &dimension), "doubt");
    assert_near("doubt", value, 0.05, 1e-17);
    ullage_model_free(model);
}

/* ---- the catalogue ---- */
static int kind_of(const char *name)
{
    for (int k = 0; k < ullage_kinds(); k++)
        if (!strcmp(ullage_kind_at(k).name, name))
            return k;
    fail_msg("no kind %s", name);
    return -1;
}

static struct ullage_parameter parameter_of(const char *kind, const char *name)
{
    const int index = kind_of(kind);
    for (int k = 0; k < ullage_kind_parameters(index); k++)
        if (!strcmp(ullage_kind_parameter(index, k).name, name))
            return ullage_kind_parameter(index, k);
    fail_msg("%s has no %s", kind, name);
    return (struct ullage_parameter){0};
}

static void kinds_tell_what_they_take(void **unused)
{
    (void)unused;
    const struct ullage_parameter bore = parameter_of("valve", "bore");
    assert_string_equal(bore.form, "number");
    assert_int_equal(bore.dimension, ULLAGE_LENGTH);
    assert_true(isnan(bore.usual) && bore.least > 0.0 && bore.most > bore.least);
    const struct ullage_parameter normally = parameter_of("valve", "normally");
    assert_string_equal(normally.form, "word");
    assert_string_equal(normally.choices, "open shut");
    assert_string_equal(parameter_of("valve", "from").form, "end");
    assert_true(isnan(parameter_of("valve", "from").usual));
    assert_string_equal(parameter_of("valve", "set").form, "command");
    assert_string_equal(parameter_of("cap", "set").choices, "on off");
    assert_non_null(strstr(parameter_of("supply", "gas").choices, "carbon dioxide"));
    assert_null(strstr(parameter_of("supply", "gas").choices, "smoke"));
    const struct ullage_parameter capacity = parameter_of("canister", "capacity");
    assert_string_equal(capacity.list, "beds");
    assert_string_equal(capacity.form, "number");
    assert_string_equal(parameter_of("canister", "carbon").choices, "stock dense none");
    assert_string_equal(parameter_of("canister", "carbon").list, "beds");
    assert_string_equal(parameter_of("canister", "end_space").list, "");
    assert_string_equal(parameter_of("valve", "set").list, "");
    for (int k = 0; k < ullage_kinds(); k++)
        assert_true(ullage_kind_at(k).meaning[0] && ullage_kind_parameters(k) > 0);
}

/* The hole of a flow is the hole that makes it: incompressible, at 1 kPa, 0.61 of 0.5 mm passes 0.61 A sqrt(2 dp rho) =
 * 5.88e-6 kg/s of air, 2.03e-4 mol/s. A sharp hole this small has a coefficient up to 5 % above 0.61 (from memory), and
 * compressibility takes 0.5 %: under 6 % of the flow, 3 % of the diameter. */
static void a_flow_has_a_hole(void **unused)
{
    (void)unused;
    const double area = 0.25 * M_PI * 0.25e-6;
    const double density = 101325.0 * 28.96e-3 / (8.314462618 * 293.15);
    const double flow = 0.61 * area * sqrt(2.0 * 1000.0 * density) / 28.96e-3;
    assert_near_share("hole", ullage_hole_for_air(flow, 1000.0, 101325.0), 0.5e-3, 0.03);
    assert_near("none", ullage_hole_for_air(0.0, 1000.0, 101325.0), 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_are_told_with_their_links),
        cmocka_unit_test(the_usual_is_recorded),
        cmocka_unit_test(it_is_recorded_often_enough),
        cmocka_unit_test(wrong_records_are_refused),
        cmocka_unit_test(values_of_let_are_told),
        cmocka_unit_test(kinds_tell_what_they_take),
        cmocka_unit_test(a_flow_has_a_hole),
    };
    return cmocka_run_group_tests_name("procedure/model", tests, NULL, NULL) != 0;
}
