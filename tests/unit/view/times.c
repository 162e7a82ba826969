/* tests/unit/view/times.c  When a fault is there, in words, stepped and typed: what leads to a command, and what gives way. */
#include "view/times.h"

#include "support/desk.h"
#include "view/faults_page.h"

static const struct times_clock clock_short = {30.0, 120.0}, clock_day = {0.0, 86400.0};

static const struct fault_row tank_leak = {
    .what = "leak tank", .dimension = ULLAGE_LENGTH, .least = 1e-4, .usual = 5e-4};

static void said(const struct ullage_course *course, struct times_clock clock, const char *expected)
{
    char room[200];
    assert_string_equal(times_words(course, clock, room, sizeof room), expected);
}

static void commanded(const struct ullage_course *course, double now, bool end_alone, const char *expected)
{
    char room[256];
    assert_string_equal(times_value(&tank_leak, 5e-4, course, now, end_alone, room, sizeof room), expected);
}

static void typed_times_become_words_and_commands(void **unused)
{
    (void)unused;
    struct ullage_course course = times_usual();
    said(&course, clock_short, "");
    assert_true(times_are_usual(&course));
    assert_null(times_typed(&course, TIME_BEGINS, "1:30", clock_short));
    assert_null(times_typed(&course, TIME_OVER, "2", clock_short));
    assert_null(times_typed(&course, TIME_ENDS, "10 min", clock_short));
    assert_null(times_typed(&course, TIME_AGAIN, "60s", clock_short));
    said(&course, clock_short, "from 1:30, over 2 s, every 1 min for 30 s, until 10:00");
    assert_int_equal(times_lines(&(struct fault_row){.index = 0}, &course), TIME_LINES);
    assert_int_equal(times_lines(&(struct fault_row){.poured = true}, &course), TIME_AGAIN); /* liquid comes once */
    commanded(&course, 30.0, false, "0.5 mm from=90 s ramp=2 s until=10 min every=1 min for=30 s");
    commanded(&course, 30.0, true, "0.5 mm until=10 min");
    commanded(&course, 90.0, false, "0.5 mm ramp=2 s until=10 min every=1 min for=30 s"); /* from now on */
    course = times_usual();
    assert_null(times_typed(&course, TIME_BEGINS, "1:30", clock_day)); /* hours and minutes on a long axis */
    assert_near("an hour and a half", course.from, 5400.0, 1e-12);
    course = times_usual();
    commanded(&course, 0.0, false, "0.5 mm ramp=0 s"); /* so that what it had is no more */
}

/* A moment with no short decimal comes back to the bit. */
static void commands_keep_all_bits(void **unused)
{
    (void)unused;
    const double odd = 100.0 / 3.0;
    struct ullage_course course = times_usual();
    char room[256];
    double back;
    course.from = odd;
    times_value(&tank_leak, 5e-4, &course, 0.0, false, room, sizeof room);
    assert_int_equal(sscanf(room, "0.5 mm from=%lf s", &back), 1);
    assert_true(back == odd);
}

static void nonsense_is_refused(void **unused)
{
    (void)unused;

    static const struct {
        enum time_line line;
        const char *typed, *says;
    } cases[] = {
        {TIME_BEGINS, "10 s", "over"},
        {TIME_BEGINS, "1:60", "write a time"},
        {TIME_BEGINS, "1:30:10", "write a time"},
        {TIME_OVER, "-3", "write a time"},
        {TIME_OVER, "3 mm", "write a time"},
        {TIME_ENDS, "30", "before it begins"},
        {TIME_OVER, "nan", "write a time"},
        {TIME_LASTS, "0", "last"},
        {TIME_OVER, "", "write a time"},
    };

    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct ullage_course course = times_usual();
        const char *wrong = times_typed(&course, cases[k].line, cases[k].typed, clock_short);
        if (!wrong || !strstr(wrong, cases[k].says))
            fail_msg("%s: %s", cases[k].typed, wrong ? wrong : "was taken");
        assert_true(times_are_usual(&course));
    }
}

/* Steps go to round moments and spans, and back to the usual; what cannot stand beside the new gives way. */
static void steps_are_round_and_lead_back(void **unused)
{
    (void)unused;
    struct ullage_course course = times_usual();
    times_step(&course, TIME_BEGINS, 1, clock_short);
    assert_near("the next multiple of 5 s", course.from, 35.0, 1e-9);
    times_step(&course, TIME_BEGINS, 2, clock_short);
    assert_near("two more", course.from, 45.0, 1e-9);
    times_step(&course, TIME_ENDS, 1, clock_short);
    assert_near("ends after that", course.until, 50.0, 1e-9);
    times_step(&course, TIME_BEGINS, 1, clock_short);
    assert_true(isinf(course.until)); /* it would end as it begins */
    times_step(&course, TIME_ENDS, -1, clock_short);
    assert_true(isinf(course.until));
    times_step(&course, TIME_BEGINS, -4, clock_short);
    assert_true(isnan(course.from));
    for (int k = 0; k < 3; k++)
        times_step(&course, TIME_OVER, 1, clock_short);
    assert_near("5, 10, 15 s", course.ramp, 15.0, 1e-9);
    course.ramp = 12.0;
    times_step(&course, TIME_OVER, 1, clock_short);
    assert_near("from between two", course.ramp, 15.0, 1e-9);
    times_step(&course, TIME_OVER, -20, clock_short);
    assert_near("at once", course.ramp, 0.0, 1e-12);
    times_step(&course, TIME_AGAIN, 1, clock_short);
    assert_near("half of each turn", course.lasts, 0.5 * course.every, 1e-12);
    times_step(&course, TIME_LASTS, 20, clock_short);
    assert_near("all of it", course.lasts, course.every, 1e-12);
    times_step(&course, TIME_LASTS, -40, clock_short);
    assert_true(course.lasts > 0.0);
    times_clear(&course, TIME_AGAIN);
    assert_true(times_are_usual(&course));
}

/* ---- in the drawer ---- */
/* A fault that is to come later, over a while, by keys: chosen before it is put in; then what waits is changed, and what is there
 * gets an end. */
static void times_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open(&desk);
    key(&desk, KEY_END);
    keys(&desk, "f");
    search_for(&desk, "restricted vent");
    key(&desk, KEY_ENTER);
    keys(&desk, "t1:00");
    key(&desk, KEY_ENTER);
    const struct fault_row *row = fault(&desk, "restricted vent-valve");
    assert_false(fault_put_in(row)); /* nothing is done before it is put in */
    key(&desk, KEY_DOWN);
    keys(&desk, "20 s");
    key(&desk, KEY_ENTER);
    keys(&desk, "t"); /* closed, Enter puts it in */
    key(&desk, KEY_ENTER);
    assert_true(row->waits && !row->in);
    assert_near("begins", row->begins, 60.0, 1e-12);
    assert_near("over", row->course.ramp, 20.0, 1e-12);
    keys(&desk, "75 %"); /* its size, and it goes on waiting */
    key(&desk, KEY_ENTER);
    assert_true(row->waits);
    assert_near("size", row->size, 0.75, 1e-12);
    assert_near("begins", row->begins, 60.0, 1e-12);
    keys(&desk, "t+");
    assert_true(row->begins > 60.0);
    key(&desk, KEY_BACKSPACE); /* now, and over its 20 s */
    desk.session.view.rate = 1.0;
    desk.session.view.playing = true;
    play(&desk, 10.0);
    assert_near("half of it", row->share, 0.5, 1e-9);
    keys(&desk, "f");
    search_for(&desk, "restricted vent");
    key(&desk, KEY_ENTER);
    keys(&desk, "t");
    key(&desk, KEY_DOWN);
    key(&desk, KEY_DOWN);
    keys(&desk, "0:40");
    key(&desk, KEY_ENTER);
    assert_near("goes on", row->share, 0.5, 1e-9);
    assert_near("until", row->course.until, 40.0, 1e-12);
    keys(&desk, "5 mm");
    key(&desk, KEY_ENTER);
    assert_non_null(strstr(desk.session.view.message, "write a time"));
    keys(&desk, "0:05");
    key(&desk, KEY_ENTER);
    assert_non_null(strstr(desk.session.view.message, "before it begins"));
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.drawer.time, -1);
    assert_true(desk.session.view.drawer.row >= 0);
    play(&desk, 35.0);
    assert_false(fault_put_in(row));
    desk_close(&desk);
}

/* Liquid is put in as anything else, and comes while the run goes on; it is not asked whether it comes again. */
static void liquid_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open_in(&desk, "scenarios/engine-off.yaml");
    keys(&desk, "f");
    search_for(&desk, "wet canister");
    key(&desk, KEY_ENTER);
    key(&desk, KEY_ENTER);
    const struct fault_row *row = fault(&desk, "wet canister");
    assert_true(row->in && !row->waits && !row->fixed);
    assert_near("none yet", row->share, 0.0, 0.0);
    desk.session.view.rate = 1.0;
    desk.session.view.playing = true;
    play(&desk, 4.0);
    assert_true(row->share > 0.2 && row->share < 0.8);
    play(&desk, 10.0);
    assert_near("all", row->share, 1.0, 1e-12);
    keys(&desk, "t");
    for (int k = 0; k < TIME_LINES; k++)
        key(&desk, KEY_DOWN);
    assert_int_equal(desk.session.view.drawer.time, TIME_ENDS);
    keys(&desk, "t");
    keys(&desk, "o");
    assert_false(fault_put_in(row));
    desk_close(&desk);
}

/* The same by mouse: a word opens the times, signs step them, the wheel too, and what is put in waits. */
static void times_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    rig_open(&desk);
    const int index = row_of(&desk, "stuck-open purge-valve");
    const int more = DRAWER_TIME_MORE, lines = DRAWER_TIME_WORDS;
    click(&desk, SPOT_PLATE_PART, ullage_model_find_part(desk.session.model, "canister"));
    click(&desk, SPOT_GRIP, ullage_model_find_part(desk.session.model, "purge-valve"));
    click(&desk, SPOT_FAULT, index);
    click(&desk, SPOT_DRAWER, DRAWER_TIMES);
    click(&desk, SPOT_DRAWER, more + lines * TIME_BEGINS);
    click(&desk, SPOT_DRAWER, more + lines * TIME_BEGINS);
    click(&desk, SPOT_DRAWER, more + lines * TIME_AGAIN);
    click(&desk, SPOT_DRAWER, DRAWER_TIME_LESS + lines * TIME_LASTS);
    const struct ullage_course chosen = desk.session.view.drawer.times;
    assert_true(chosen.from > 0.0 && chosen.every > chosen.lasts && chosen.lasts > 0.0);
    click(&desk, SPOT_DRAWER, DRAWER_TOGGLE);
    const struct fault_row *row = fault(&desk, "stuck-open purge-valve");
    assert_true(row->waits);
    assert_near("begins", row->begins, chosen.from, 1e-9);
    const struct frame_box line = spot_of(&desk, SPOT_DRAWER, DRAWER_TIME_LINE + lines * TIME_BEGINS)->box;
    const struct layout layout = layout_make(desk.session.view.width, desk.session.view.height);
    session_input(&desk.session, (struct input){.kind = INPUT_WHEEL,
                                                .wheel = -1,
                                                .x = layout.left + layout.scale * (line.x0 + 4.0),
                                                .y = layout.top + layout.scale * 0.5 * (line.y0 + line.y1)});
    assert_non_null(session_frame(&desk.session));
    assert_near("a step sooner", row->begins, 0.5 * chosen.from, 1e-9);
    click(&desk, SPOT_DRAWER, DRAWER_TIME_LESS + lines * TIME_BEGINS);
    assert_true(row->in); /* now */
    click(&desk, SPOT_DRAWER, DRAWER_TIMES);
    assert_int_equal(desk.session.view.drawer.time, -1);
    desk_close(&desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(typed_times_become_words_and_commands),
        cmocka_unit_test(commands_keep_all_bits),
        cmocka_unit_test(nonsense_is_refused),
        cmocka_unit_test(steps_are_round_and_lead_back),
        cmocka_unit_test(times_by_keys),
        cmocka_unit_test(liquid_by_keys),
        cmocka_unit_test(times_by_mouse),
    };
    return cmocka_run_group_tests_name("view/times", tests, NULL, NULL) != 0;
}
