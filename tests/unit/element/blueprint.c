/* tests/unit/element/blueprint.c  How ends meet, what a line is made of, and what is refused with its place. */
#include "network/inside.h"
#include "procedure/procedure.h"
#include "support/run_text.h"

#define HEAD "ullage: scenario/1\nend: 1 s\nsystem:\n  parts:\n" /* parts begin on line 5 */

struct made {
    struct ullage_description *description;
    struct network *network;
    struct ullage_problems *problems;
};

static struct made make(const char *parts)
{
    char text[4096];
    enum ullage_outcome outcome;
    struct made made = {.problems = ullage_problems_create()};
    snprintf(text, sizeof text, HEAD "%s", parts);
    made.description = ullage_description_text(text, made.problems, &outcome);
    if (made.description)
        made.network = network_create(made.description, NULL, 0, made.problems);
    return made;
}

static void unmake(struct made *made)
{
    network_free(made->network);
    ullage_description_free(made->description);
    ullage_problems_free(made->problems);
}

/* Refused, with one problem whose words hold `wrong`, on `line`. */
static void refused(const char *parts, int line, const char *wrong)
{
    struct made made = make(parts);
    assert_null(made.network);
    assert_true(ullage_problems_count(made.problems) >= 1);
    const struct ullage_problem problem = ullage_problems_at(made.problems, 0);
    if (!strstr(problem.wrong, wrong) && !strstr(problem.right, wrong))
        fail_msg("says '%s; %s', not '%s'", problem.wrong, problem.right, wrong);
    assert_int_equal(problem.place.line, line);
    unmake(&made);
}

static void ends_that_do_not_meet_are_refused(void **unused)
{
    (void)unused;
    refused("    v: {type: vessel, volume: 1 L, openings: {roof: 10 mm}}\n"
            "    h: {type: hole, from: v.rof, to: air, diameter: 1 mm}\n",
            6, "did you mean roof");
    refused("    v: {type: vessel, volume: 1 L}\n    a: {type: valve, from: v, to: b, bore: 5 mm}\n"
            "    b: {type: valve, from: a, to: air, bore: 5 mm}\n",
            6, "without any gas space between");
    refused("    v: {type: vessel, volume: 1 L}\n    h: {type: hole, from: v, to: v, diameter: 1 mm}\n", 6,
            "back into itself");
    refused("    v: {type: vessel, volume: 1 L}\n    l: {type: line, from: v, to: a, bore: 5 mm, length: 1 m}\n"
            "    a: {type: valve, from: v, to: air, bore: 5 mm}\n",
            6, "does not reach back");
    refused("    v: {type: vessel, volume: 1 L}\n    g: {type: gauge, of: v}\n"
            "    h: {type: hole, from: g, to: air, diameter: 1 mm}\n",
            7, "holds no gas");
    refused("    v: {type: vessel, volume: 1 L}\n    h: {type: hole, from: v, to: air}\n", 6, "has no diameter");
    refused("    t: {type: tank, volume: 40 L, height: 200 mm, openings: {roof: 300 mm}}\n", 5, "above its height");
}

static int own_passages(const struct network *network, const char *id)
{
    int count = 0;
    for (int p = 0; p < network->passages; p++)
        count += network->passage[p].part == network_find_part(network, id);
    return count;
}

static int own_volumes(const struct network *network, const char *id)
{
    int count = 0;
    for (int v = 0; v < network->volumes; v++)
        count += network->volume[v].part == network_find_part(network, id);
    return count;
}

/* Whatever its ends meet, the stretches of a line add up to its length and its losses. */
static void check_line(const char *parts, int volumes, int passages)
{
    struct made made = make(parts);
    assert_non_null(made.network);
    assert_int_equal(own_volumes(made.network, "l"), volumes);
    assert_int_equal(own_passages(made.network, "l"), passages);
    double length = 0.0, loss = 0.0, room = 0.0;
    for (int p = 0; p < made.network->passages; p++)
        if (made.network->passage[p].part == network_find_part(made.network, "l")) {
            length += made.network->passage[p].constant[0];
            loss += made.network->passage[p].constant[1];
        }
    for (int v = 0; v < made.network->volumes; v++)
        if (made.network->volume[v].part == network_find_part(made.network, "l"))
            room += made.network->volume[v].room;
    assert_near("length", length, 2.0, 1e-12);
    assert_near("loss", loss, 3.0, 1e-12);
    assert_near("volume", room, 0.25 * M_PI * 0.008 * 0.008 * 2.0, 1e-15);
    unmake(&made);
}

#define LINE "type: line, bore: 8 mm, length: 2 m, loss: 3"

static void a_line_keeps_its_length(void **unused)
{
    (void)unused;
    check_line("    v: {type: vessel, volume: 1 L}\n    l: {" LINE ", from: v, to: air}\n", 1, 2);
    check_line("    v: {type: vessel, volume: 1 L}\n    l: {" LINE ", cells: 5, from: v, to: air}\n", 5, 6);
    check_line("    v: {type: vessel, volume: 1 L}\n    l: {" LINE ", from: v, to: a}\n"
               "    a: {type: valve, from: l, to: air, bore: 5 mm}\n",
               1, 1);
    check_line("    l: {" LINE ", from: b, to: a}\n    a: {type: valve, from: l, to: air, bore: 5 mm}\n"
               "    b: {type: cap, of: l}\n",
               2, 1);
}

/* Two lines that name each other are joined once, a hole in mid-line sits on its middle cell. */
static void lines_join_once(void **unused)
{
    (void)unused;
    struct made made = make("    v: {type: vessel, volume: 1 L}\n"
                            "    one: {type: line, from: v, to: two, bore: 8 mm, length: 1 m}\n"
                            "    two: {type: line, from: one, to: air, bore: 8 mm, length: 1 m, cells: 3}\n"
                            "    chafed: {type: hole, from: two, to: air, diameter: 1 mm}\n");
    const struct network *network = made.network;
    assert_non_null(network);
    assert_int_equal(own_passages(network, "one"), 2);
    assert_int_equal(own_passages(network, "two"), 3); /* two between its cells, one to the air */
    int first = 0;
    while (network->volume[first].part != network_find_part(network, "two"))
        first++;
    for (int p = 0; p < network->passages; p++)
        if (network->passage[p].part == network_find_part(network, "chafed"))
            assert_int_equal(network->passage[p].a, first + 1);
    unmake(&made);
}

static void a_course_comes_and_goes(void **unused)
{
    (void)unused;
    const struct course course = {true, 10.0, 2.0, 100.0, 20.0, 5.0};

    static const struct {
        double time, share, corner;
    } row[] = {{0.0, 0.0, 10.0},  {10.0, 0.0, 12.0}, {11.0, 0.5, 12.0},  {12.0, 1.0, 15.0},  {14.9, 1.0, 15.0},
               {15.0, 0.0, 30.0}, {31.0, 0.5, 32.0}, {95.0, 0.0, 100.0}, {100.0, 0.0, 110.0}};

    for (size_t k = 0; k < sizeof row / sizeof *row; k++) {
        assert_near("share", course_share(&course, row[k].time), row[k].share, 1e-12);
        if (k + 1 < sizeof row / sizeof *row)
            assert_near("corner", course_corner(&course, row[k].time), row[k].corner, 1e-12);
    }
    const struct course always = {.given = false};
    assert_near("always", course_share(&always, 5.0), 1.0, 0.0);
    assert_true(isinf(course_corner(&always, 5.0)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ends_that_do_not_meet_are_refused),
        cmocka_unit_test(a_line_keeps_its_length),
        cmocka_unit_test(lines_join_once),
        cmocka_unit_test(a_course_comes_and_goes),
    };
    return cmocka_run_group_tests_name("unit/element/blueprint", tests, NULL, NULL) != 0;
}
