/* tests/unit/element/fault.c  What a size does to a number, and the rules that every row of the tables keeps. */
#include "element/elements.h"
#include "support/near.h"

#include <string.h>

static const struct fault_row *row_of(const struct element_kind *kind, const char *name)
{
    const struct fault_row *row = fault_named(kind, name);
    if (!row)
        fail_msg("%s has no %s", kind->name, name);
    return row;
}

/* ---- rules ---- */
static void row_is_sound(const struct element_kind *kind, const struct fault_row *row)
{
    assert_true(strspn(row->name, "abcdefghijklmnopqrstuvwxyz-") == strlen(row->name));
    assert_true(row->comes && row->changes && row->size);
    assert_true(row->least <= row->most &&
                (isnan(row->usual) || (row->least <= row->usual && row->usual <= row->most)));
    double least, most;
    fault_range(row, kind, &least, &most);
    assert_true(least <= row->least && row->most <= most && least <= 0.0);
    for (int k = 0; k < 2 && fault_is_parameter(row) && row->row[k]; k++) {
        const int at = rows_find(kind->parameter, row->row[k]);
        assert_true(at >= 0);
        if (row->way == FAULT_ADDS || row->way == FAULT_WIDENS)
            assert_int_equal(kind->parameter[at].dimension, row->dimension);
    }
    if (fault_is_hole(row))
        assert_true(rows_find(hole_kind.parameter, row->size) >= 0 && (row->given == NULL) == !(row->gives > 0.0));
    if (fault_is_command(row))
        assert_non_null(kind->command);
}

static void every_row_keeps_the_rules(void **unused)
{
    (void)unused;
    for (int k = 0; element_kinds()[k]; k++) {
        const struct element_kind *kind = element_kinds()[k];
        const struct fault_row *row = NULL;
        for (int r = 0; (row = fault_at(kind, r)); r++) {
            row_is_sound(kind, row);
            if (!fault_is_any(row))
                assert_ptr_equal(fault_named(kind, row->name), row); /* each name once */
        }
    }
}

static void no_size_is_no_fault(void **unused)
{
    (void)unused;
    for (int k = 0; element_kinds()[k]; k++) {
        const struct fault_row *row = NULL;
        for (int r = 0; (row = fault_at(element_kinds()[k], r)); r++) {
            assert_true(fault_parameter(row, 0.7, 0.0, 1.0, 100.0) == 0.7);
            assert_true(fault_parameter(row, 0.7, row->most, 0.0, 100.0) == 0.7);
            assert_near(row->name, fault_opening(row, 0.3, 1.0, 0.0), 0.3, 1e-15);
        }
    }
}

/* ---- what they do: by hand ---- */
static void parameters_move(void **unused)
{
    (void)unused;
    const struct fault_row *offset = row_of(&sensor_kind, "offset"), *drift = row_of(&sensor_kind, "drift");
    const struct fault_row *low = row_of(&supply_kind, "pressure-low"), *seat = row_of(&valve_kind, "seat-leak");
    assert_near("offset", fault_parameter(offset, 10.0, -200.0, 0.5, 9.0), -90.0, 1e-12);
    assert_near("drift", fault_parameter(drift, 10.0, 2.0, 1.0, 9.0), 28.0, 1e-12);
    assert_near("low", fault_parameter(low, 3000.0, 0.3, 1.0, 9.0), 2100.0, 1e-9);
    assert_near("seat", fault_parameter(seat, 3e-3, 4e-3, 1.0, 9.0), 5e-3, 1e-15); /* areas add */
    assert_near("half a seat", fault_parameter(seat, 0.0, 4e-3, 0.25, 9.0), 2e-3, 1e-15);
}

static void commands_come_to_less(void **unused)
{
    (void)unused;

    static const struct {
        const char *name;
        double size, rest, commanded, comes_to;
    } cases[] = {
        {"stuck-open", 0.4, 0.0, 0.1, 0.4},   {"stuck-open", 0.4, 0.0, 0.8, 0.8},  {"stuck-shut", 1.0, 0.0, 0.8, 0.0},
        {"stuck-shut", 0.7, 0.0, 0.8, 0.3},   {"restricted", 0.25, 0.0, 0.8, 0.6}, {"coil-open", 1.0, 0.0, 0.8, 0.0},
        {"coil-open", 1.0, 1.0, 0.2, 1.0},    {"coil-open", 0.5, 1.0, 0.2, 0.6},   {"coil-shorted", 1.0, 0.0, 0.2, 1.0},
        {"coil-shorted", 1.0, 1.0, 1.0, 0.0}, {"low-voltage", 0.2, 0.0, 0.2, 0.0}, {"low-voltage", 0.2, 0.0, 0.6, 0.5},
        {"low-voltage", 0.2, 0.0, 1.0, 1.0},  {"low-voltage", 0.2, 1.0, 0.4, 0.5}, {"low-voltage", 0.2, 1.0, 0.0, 0.0},
    };

    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++)
        assert_near(cases[k].name,
                    fault_opening(row_of(&valve_kind, cases[k].name), cases[k].commanded, cases[k].rest, cases[k].size),
                    cases[k].comes_to, 1e-12);
}

/* ---- where they sit ---- */
static void sites_are_the_openings_there_are(void **unused)
{
    (void)unused;
    const char *site[OPENINGS_MOST];
    struct part part = {.kind = &tank_kind, .openings = 2, .opening = {{.name = "roof"}, {.name = "neck"}}};
    assert_int_equal(fault_sites(row_of(&tank_kind, "seal-leak"), &part, site), 2);
    assert_string_equal(site[1], "neck");
    assert_int_equal(fault_sites(row_of(&tank_kind, "seam-leak"), &part, site), 1);
    assert_string_equal(site[0], "");
    part.kind = &line_kind;
    assert_int_equal(fault_sites(row_of(&line_kind, "connector-not-home"), &part, site), 2);
    part = (struct part){.kind = &canister_kind};
    assert_int_equal(fault_sites(row_of(&canister_kind, "port-cracked"), &part, site), 3);
    assert_int_equal(fault_end(&part), -1);
    part.kind = &port_kind;
    assert_int_equal(fault_end(&part), ends_find(port_kind.end, "of"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_keeps_the_rules),
        cmocka_unit_test(no_size_is_no_fault),
        cmocka_unit_test(parameters_move),
        cmocka_unit_test(commands_come_to_less),
        cmocka_unit_test(sites_are_the_openings_there_are),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
