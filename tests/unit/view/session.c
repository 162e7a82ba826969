/* tests/unit/view/session.c  A run and its picture, driven by keys alone and by mouse alone; frames that are a function of
 * the run and its moment. */
#include "support/desk.h"
#include "view/faults_page.h"

#include <stdbool.h>

/* ---- keys ---------------------------------------------------------------------------------------------------------- */
static void time_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    desk.session.view.rate = 1.0;
    play(&desk, 5.0);
    assert_near("does not run by itself", now(&desk), 0.0, 1e-12);
    key(&desk, KEY_SPACE);
    play(&desk, 5.0);
    assert_near("runs", now(&desk), 5.0, 1e-6);
    keys(&desk, "]]");
    assert_near("1, 2, 5", desk.session.view.rate, 5.0, 1e-12);
    play(&desk, 2.0);
    assert_near("faster", now(&desk), 15.0, 1e-6);
    keys(&desk, "[[[");
    assert_near("slower", desk.session.view.rate, 0.5, 1e-12);
    key(&desk, KEY_SPACE);
    const double pressure = value(&desk, "tank.gauge_pressure");
    keys(&desk, ",,");
    assert_near("two samples back", now(&desk), 14.0, 1e-6);
    keys(&desk, "..");
    assert_near("and on", now(&desk), 15.0, 1e-6);
    assert_near("to the same", value(&desk, "tank.gauge_pressure"), pressure, 1e-6);
    key(&desk, KEY_HOME);
    assert_near("start", now(&desk), 0.0, 1e-12);
    key(&desk, KEY_END);
    assert_near("latest", now(&desk), 15.0, 1e-6);
    key(&desk, KEY_LEFT);
    assert_true(now(&desk) < 15.0);
    desk_close(&desk);
}

static void rates_run_their_row(void **state)
{
    (void)state;
    double rate = RATE_LEAST;
    static const double row[] = {0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 10000};
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        assert_near_share("rate", rate, row[k], 1e-12);
        rate = rate_faster(rate);
    }
    for (int k = 0; k < 40; k++)
        rate = rate_slower(rate);
    assert_near_share("least", rate, 0.1, 1e-12);
}

static int focused(const struct desk *desk)
{
    return desk->session.view.focus < 0 ? -1 : desk->session.plate.body[desk->session.view.focus].part;
}

static void focus_on(struct desk *desk, const char *id)
{
    const int wanted = ullage_model_find_part(desk->session.model, id);
    for (int k = 0; k < 20 && focused(desk) != wanted; k++)
        key(desk, KEY_TAB);
    assert_int_equal(focused(desk), wanted);
}

static void parts_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    focus_on(&desk, "vent");
    key(&desk, KEY_ENTER);
    assert_near("vent opens", value(&desk, "vent.open"), 1.0, 1e-12);
    key(&desk, KEY_ENTER);
    assert_near("and shuts", value(&desk, "vent.open"), 0.0, 1e-12);
    focus_on(&desk, "cap");
    key(&desk, KEY_UP);
    assert_true(value(&desk, "cap.open") > 0.0 && value(&desk, "cap.open") < 0.01); /* a pinhole first */
    key(&desk, KEY_UP);
    assert_near("then a twentieth", value(&desk, "cap.open"), 0.05, 1e-9);
    key(&desk, KEY_ENTER);
    assert_near("off", value(&desk, "cap.open"), 1.0, 1e-12);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(focused(&desk), -1);
    desk_close(&desk);
}

static void sizes_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    keys(&desk, "f");
    assert_int_equal(desk.session.view.page, PAGE_FAULTS);
    keys(&desk, "0.7");
    key(&desk, KEY_ENTER);
    assert_near("in the unit shown", value(&desk, "leak.diameter"), 0.7e-3, 1e-9);
    keys(&desk, "0.02");
    keys(&desk, "0 in");
    key(&desk, KEY_ENTER);
    assert_near("in its own unit", value(&desk, "leak.diameter"), 0.508e-3, 1e-9);
    key(&desk, KEY_UP);
    assert_near_share("a twentieth of a decade", value(&desk, "leak.diameter"), 0.508e-3 * pow(10.0, 0.05), 1e-3);
    keys(&desk, "1..2");
    key(&desk, KEY_ENTER);
    assert_true(*desk.session.view.message);
    assert_near_share("nonsense is refused", value(&desk, "leak.diameter"), 0.508e-3 * pow(10.0, 0.05), 1e-3);
    key(&desk, KEY_ENTER);
    assert_near("plugged", value(&desk, "leak.open"), 0.0, 1e-12);
    desk_close(&desk);
}

static void view_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    keys(&desk, "u");
    assert_int_equal(desk.session.view.units, UNITS_INCH);
    keys(&desk, "b");
    assert_true(desk.session.view.bright);
    keys(&desk, "?");
    assert_true(desk.session.view.help);
    key(&desk, KEY_ESCAPE);
    assert_false(desk.session.view.help);
    assert_int_equal(key(&desk, 'W'), INTENT_WRITE);
    assert_int_equal(key(&desk, 'Q'), INTENT_LEAVE);
    desk_close(&desk);
}

/* ---- mouse --------------------------------------------------------------------------------------------------------- */
static void everything_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    const int vent = ullage_model_find_part(desk.session.model, "vent"),
              cap = ullage_model_find_part(desk.session.model, "cap"),
              leak = ullage_model_find_part(desk.session.model, "leak");
    desk.session.view.rate = 1.0;
    click(&desk, SPOT_CLOCK, -1);
    play(&desk, 10.0);
    assert_near("runs", now(&desk), 10.0, 1e-6);
    click(&desk, SPOT_RATE_MORE, -1);
    assert_near("rate", desk.session.view.rate, 2.0, 1e-12);
    click(&desk, SPOT_CLOCK, -1);
    assert_false(desk.session.view.playing);
    click(&desk, SPOT_GRIP, vent);
    assert_near("vent opens", value(&desk, "vent.open"), 1.0, 1e-12);
    click(&desk, SPOT_GRIP, vent);
    const struct frame_box grip = spot_of(&desk, SPOT_GRIP, cap)->box;
    mouse(&desk, INPUT_PRESS, grip, 0.5, 0.5);
    mouse(&desk, INPUT_MOVE, grip, 0.5, 0.3);
    const double pinhole = value(&desk, "cap.open");
    mouse(&desk, INPUT_MOVE, grip, 0.5, -3.0);
    mouse(&desk, INPUT_RELEASE, grip, 0.5, -3.0);
    assert_true(pinhole > 0.0 && pinhole < 0.2);
    assert_near("pulled off", value(&desk, "cap.open"), 1.0, 1e-12);
    click(&desk, SPOT_TOGGLE, leak);
    assert_int_equal(desk.session.view.page, PAGE_FAULTS);
    const struct frame_box slider = spot_of(&desk, SPOT_SLIDER, -1)->box;
    mouse(&desk, INPUT_PRESS, slider, 0.5, 0.5);
    mouse(&desk, INPUT_MOVE, slider, 1.0, 0.5);
    mouse(&desk, INPUT_RELEASE, slider, 1.0, 0.5);
    assert_near("slider's end", value(&desk, "leak.diameter"), 3e-3, 1e-8);
    const struct frame_box bar = spot_of(&desk, SPOT_TIME_BAR, -1)->box;
    const double whole = spot_of(&desk, SPOT_TIME_BAR, -1)->to;
    mouse(&desk, INPUT_PRESS, bar, 4.0 / whole, 0.5);
    mouse(&desk, INPUT_RELEASE, bar, 4.0 / whole, 0.5);
    assert_near("back in time", now(&desk), 4.0, 0.01);
    click(&desk, SPOT_PAGE, PAGE_STEPS);
    assert_int_equal(desk.session.view.page, PAGE_STEPS);
    const int strip = desk.session.view.strip[0];
    click(&desk, SPOT_GUTTER, 0);
    assert_int_not_equal(desk.session.view.strip[0], strip);
    desk_close(&desk);
}

/* Faults in and out by keys alone: several at once, their sizes typed and stepped, all healthy again. */
static void faults_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open(&desk);
    const int bodies = desk.session.plate.bodies;
    search_for(&desk, "seal sender");
    keys(&desk, "1.5 mm");
    key(&desk, KEY_ENTER);
    assert_true(fault(&desk, "seal-leak tank.sender")->in);
    assert_near("typed", fault(&desk, "seal-leak tank.sender")->size, 1.5e-3, 1e-9);
    assert_int_equal(desk.session.plate.bodies, bodies + 1); /* the hole has come to the plate */
    key(&desk, KEY_UP);
    assert_near_share("stepped", fault(&desk, "seal-leak tank.sender")->size, 1.5e-3 * pow(10.0, 0.05), 1e-3);
    search_for(&desk, "offset tank sensor");
    key(&desk, KEY_DOWN); /* past what is wrong already */
    key(&desk, KEY_ENTER);
    keys(&desk, "-0.3");
    key(&desk, KEY_ENTER);
    assert_near("either way", fault(&desk, "offset tank-sensor")->size, -300.0, 1e-6);
    assert_int_equal(faults_wrong(&desk.session.faults), 2);
    key(&desk, KEY_ENTER); /* the same key takes it out */
    assert_int_equal(faults_wrong(&desk.session.faults), 1);
    key(&desk, KEY_ENTER);
    assert_int_equal(faults_wrong(&desk.session.faults), 2);
    keys(&desk, "o");
    assert_int_equal(faults_wrong(&desk.session.faults), 0);
    assert_int_equal(desk.session.plate.bodies, bodies);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.drawer.row, -1);
    key(&desk, KEY_ESCAPE);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.page, PAGE_STEPS);
    desk_close(&desk);
}

/* The words of each size lead back to it, whatever it is counted in: what the drawer sends is what the library reads. */
static void sizes_of_every_fault_lead_back(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open(&desk);
    assert_true(desk.session.faults.count > 60);
    for (int k = 0; k < desk.session.faults.count; k++) {
        const struct fault_row *row = &desk.session.faults.row[k];
        char text[64];
        double size;
        int dimension;
        assert_null(ullage_quantity_read(fault_value(row, row->usual, text, sizeof text), &size, &dimension));
        assert_int_equal(dimension, row->dimension);
        assert_near_share(row->what, size, row->usual, 1e-3);
    }
    desk_close(&desk);
}

/* The same by mouse alone: the part is clicked, a row, the ruler, a word; the search box takes the click. */
static void faults_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open(&desk);
    const int canister = ullage_model_find_part(desk.session.model, "canister"),
              valve = ullage_model_find_part(desk.session.model, "purge-valve");
    click(&desk, SPOT_PLATE_PART, canister);
    assert_int_equal(desk.session.view.page, PAGE_FAULTS);
    assert_int_equal(desk.session.view.drawer.part, canister);
    click(&desk, SPOT_GRIP, valve); /* with the drawer in sight a click asks, it does not work the part */
    assert_int_equal(desk.session.view.drawer.part, valve);
    assert_near("still shut", value(&desk, "purge-valve.open"), 0.0, 1e-12);
    click(&desk, SPOT_FAULT, row_of(&desk, "stuck-open purge-valve"));
    const struct frame_box ruler = spot_of(&desk, SPOT_SLIDER, row_of(&desk, "stuck-open purge-valve"))->box;
    mouse(&desk, INPUT_PRESS, ruler, 0.3, 0.5);
    mouse(&desk, INPUT_MOVE, ruler, 0.5, 0.5);
    mouse(&desk, INPUT_RELEASE, ruler, 0.5, 0.5);
    const struct fault_row *stuck = fault(&desk, "stuck-open purge-valve");
    const struct fault_scale scale = fault_scale(stuck);
    assert_true(stuck->in);
    assert_near("dragged", stuck->size, fault_scale_size(&scale, 0.5), 1e-3);
    assert_true(value(&desk, "purge-valve.open") > 0.1);
    click(&desk, SPOT_DRAWER, DRAWER_TOGGLE);
    assert_false(fault(&desk, "stuck-open purge-valve")->in);
    click(&desk, SPOT_DRAWER, DRAWER_TOGGLE);
    click(&desk, SPOT_DRAWER, DRAWER_LIST);
    click(&desk, SPOT_DRAWER, DRAWER_ALL);
    assert_int_equal(desk.session.view.drawer.part, -1);
    click(&desk, SPOT_DRAWER, DRAWER_SEARCH);
    assert_true(desk.session.view.drawer.searching);
    click(&desk, SPOT_DRAWER, DRAWER_SOUND); /* the same answer as the key gives: this desk has none */
    assert_non_null(strstr(desk.session.view.message, "sound run"));
    click(&desk, SPOT_DRAWER, DRAWER_HEALTHY);
    assert_int_equal(faults_wrong(&desk.session.faults), 0);
    desk_close(&desk);
}

/* The lever of a nozzle by a click: it pours, and stops; its cap lies beside the neck meanwhile. */
static void a_nozzle_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    desk.stage = stage_open("scenarios/fill-up.yaml", NULL);
    assert_true(session_make(&desk.session, desk.stage.model, desk.stage.run, desk_measure, 1280, 720, true));
    assert_non_null(session_frame(&desk.session));
    const int nozzle = ullage_model_find_part(desk.session.model, "nozzle");
    desk.session.view.playing = true;
    desk.session.view.rate = 1.0;
    play(&desk, 2.0);
    assert_near_share("the procedure lets it pour", value(&desk, "nozzle.rate"), 38.0 / 6e4, 1e-9);
    click(&desk, SPOT_TOGGLE, nozzle);
    assert_near("stops", value(&desk, "nozzle.rate"), 0.0, 1e-15);
    click(&desk, SPOT_TOGGLE, nozzle);
    assert_near_share("pours again", value(&desk, "nozzle.rate"), 38.0 / 6e4, 1e-9);
    desk_close(&desk);
}

/* Going back and changing something leaves the first way behind as a branch, and the run goes on another way. */
static void a_change_in_the_past_branches(void **state)
{
    (void)state;
    static struct desk desk;
    desk_open(&desk);
    desk.session.view.rate = 1.0;
    key(&desk, KEY_SPACE);
    play(&desk, 20.0);
    key(&desk, KEY_SPACE);
    const struct branches *branches = &desk.session.branches;
    const int rows = branches->present_rows.rows;
    const double first = value(&desk, "tank.gauge_pressure");
    key(&desk, KEY_HOME);
    assert_int_equal(branches->present_rows.rows, rows); /* what lies ahead stays in sight */
    keys(&desk, "f2.0");
    key(&desk, KEY_ENTER);
    assert_int_equal(branches->count, 2);
    assert_int_equal(branches->present, 1);
    assert_int_equal(branches->behind, 0);
    assert_int_equal(branches->behind_rows.rows, rows);
    assert_true(branches->present_rows.rows < 3);
    key(&desk, KEY_SPACE);
    play(&desk, 20.0);
    assert_true(value(&desk, "tank.gauge_pressure") < 0.5 * first);
    assert_true(desk.session.now.marks == 1);
    key(&desk, 'n'); /* over to the first way, and back */
    assert_int_equal(branches->present, 0);
    assert_near("the other hole", value(&desk, "leak.diameter"), 0.5e-3, 1e-12);
    assert_near("at the same moment", now(&desk), 20.0, 1e-6);
    click(&desk, SPOT_BRANCH, 1);
    assert_int_equal(branches->present, 1);
    assert_near("the larger one", value(&desk, "leak.diameter"), 2e-3, 1e-12);
    desk_close(&desk);
}

/* ---- saved frames -------------------------------------------------------------------------------------------------- */
static bool same_frames(const struct frame *a, const struct frame *b)
{
    return a->shapes == b->shapes && a->nodes == b->nodes && a->bytes == b->bytes &&
           !memcmp(a->shape, b->shape, (size_t)a->shapes * sizeof *a->shape) &&
           !memcmp(a->node, b->node, (size_t)a->nodes * sizeof *a->node) && !memcmp(a->text, b->text, (size_t)a->bytes);
}

/* Straight to a moment, or over many others: the same frame to the last bit. */
static void a_frame_is_its_moment(void **state)
{
    (void)state;
    static struct session straight, stepping;
    struct stage one = stage_text(desk_rig), two = stage_text(desk_rig);
    assert_true(session_make(&straight, one.model, one.run, desk_measure, 1920, 1080, false));
    assert_true(session_make(&stepping, two.model, two.run, desk_measure, 1920, 1080, false));
    session_follow(&straight, 33.3);
    for (double time = 0.7; time < 33.3; time += 0.7) {
        session_follow(&stepping, time);
        session_frame(&stepping);
    }
    session_follow(&stepping, 33.3);
    const struct frame *a = session_frame(&straight), *b = session_frame(&stepping);
    assert_true(same_frames(a, b));
    session_follow(&stepping, 33.4); /* and another moment is another frame */
    assert_false(same_frames(a, session_frame(&stepping)));
    session_free(&straight);
    session_free(&stepping);
    stage_close(&one);
    stage_close(&two);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(time_by_keys),
                                       cmocka_unit_test(rates_run_their_row),
                                       cmocka_unit_test(parts_by_keys),
                                       cmocka_unit_test(sizes_by_keys),
                                       cmocka_unit_test(view_by_keys),
                                       cmocka_unit_test(everything_by_mouse),
                                       cmocka_unit_test(a_nozzle_by_mouse),
                                       cmocka_unit_test(faults_by_keys),
                                       cmocka_unit_test(faults_by_mouse),
                                       cmocka_unit_test(sizes_of_every_fault_lead_back),
                                       cmocka_unit_test(a_change_in_the_past_branches),
                                       cmocka_unit_test(a_frame_is_its_moment)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
