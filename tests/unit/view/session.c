/* tests/unit/view/session.c  A run and its picture, driven by keys alone and by mouse alone; frames that are a function of
 * the run and its moment. */
#include "view/session.h"

#include "support/stage.h"
#include "view/faults_page.h"
#include "view/ways_page.h"

#include <stdbool.h>

static double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.55 * size * (double)strlen(text);
}

static const struct text_measure measure = {width_of, NULL};

static const char rig[] = "ullage: scenario/1\nname: driven\nsystem:\n  parts:\n"
                          "    tank: {type: tank, volume: 30 L, at: [3, 5]}\n"
                          "    neck: {type: line, from: tank, to: cap, bore: 32 mm, length: 0.5 m}\n"
                          "    cap: {type: cap, of: neck, at: [1, 2]}\n"
                          "    line: {type: line, from: tank, to: vent, bore: 10 mm, length: 0.5 m}\n"
                          "    vent: {type: valve, from: line, to: air, bore: 8 mm, normally: shut, at: [9, 2]}\n"
                          "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm}\n"
                          "start: {tank: {gauge_pressure: 3 kPa}}\n"
                          "procedure:\n  steps:\n    - {name: Empty, wait: {for: 100 s}}\n"
                          "record: {every: 0.5 s, channels: [tank.gauge_pressure, leak.standard_flow]}\n";

struct desk {
    struct stage stage;
    struct session session;
};

static void desk_open(struct desk *desk)
{
    desk->stage = stage_text(rig);
    assert_true(session_make(&desk->session, desk->stage.model, desk->stage.run, measure, 1280, 720, true));
    assert_non_null(session_frame(&desk->session));
}

static void desk_close(struct desk *desk)
{
    session_free(&desk->session);
    stage_close(&desk->stage);
}

static enum intent_kind key(struct desk *desk, int pressed)
{
    const enum intent_kind left = session_input(&desk->session, (struct input){.kind = INPUT_KEY, .key = pressed});
    assert_non_null(session_frame(&desk->session));
    return left;
}

static void keys(struct desk *desk, const char *pressed)
{
    for (; *pressed; pressed++)
        key(desk, *pressed);
}

static double now(const struct desk *desk)
{
    return ullage_run_time(desk->session.run);
}

static double value(const struct desk *desk, const char *name)
{
    const int channel = ullage_model_find_channel(desk->session.model, name);
    assert_true(channel >= 0);
    return desk->session.now.value[channel];
}

static void play(struct desk *desk, double seconds)
{
    for (int k = 0; k < 60; k++)
        session_tick(&desk->session, seconds / 60.0);
    session_frame(&desk->session);
}

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
static const struct frame_spot *spot_of(const struct desk *desk, enum spot_kind what, int part)
{
    for (int k = 0; k < desk->session.frame.spots; k++) {
        const struct frame_spot *spot = &desk->session.frame.spot[k];
        if (spot->what == what && (part < 0 || spot->part == part))
            return spot;
    }
    fail_msg("no such spot: %d of part %d", (int)what, part);
    return NULL;
}

/* In px, at a share of a box. */
static void mouse(struct desk *desk, enum input_kind kind, struct frame_box box, double across, double down)
{
    const struct layout layout = layout_make(desk->session.view.width, desk->session.view.height);
    const double x = box.x0 + across * (box.x1 - box.x0), y = box.y0 + down * (box.y1 - box.y0);
    session_input(
        &desk->session,
        (struct input){.kind = kind, .x = layout.left + layout.scale * x, .y = layout.top + layout.scale * y});
    session_frame(&desk->session);
}

static void click(struct desk *desk, enum spot_kind what, int part)
{
    const struct frame_box box = spot_of(desk, what, part)->box;
    mouse(desk, INPUT_PRESS, box, 0.5, 0.5);
    mouse(desk, INPUT_RELEASE, box, 0.5, 0.5);
}

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

/* Heron with every fault that its parts could have. */
static void rig_open_in(struct desk *desk, const char *scenario)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.search = folders, .searches = 1, .every_fault = true};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(scenario, &edits, problems, &outcome);
    assert_non_null(description);
    desk->stage.model = ullage_model_create(description, problems);
    ullage_description_free(description);
    stage_told(problems, scenario);
    assert_non_null(desk->stage.model);
    desk->stage.run = ullage_run_create(desk->stage.model, NULL);
    assert_true(session_make(&desk->session, desk->stage.model, desk->stage.run, measure, 1280, 720, true));
    assert_non_null(session_frame(&desk->session));
}

static void rig_open(struct desk *desk)
{
    rig_open_in(desk, "scenarios/vent-open.yaml");
}

static int row_of(const struct desk *desk, const char *what)
{
    for (int k = 0; k < desk->session.faults.count; k++)
        if (!strcmp(desk->session.faults.row[k].what, what))
            return k;
    fail_msg("no fault %s", what);
    return -1;
}

static const struct fault_row *fault(const struct desk *desk, const char *what)
{
    return &desk->session.faults.row[row_of(desk, what)];
}

static void search_for(struct desk *desk, const char *words)
{
    keys(desk, "f/");
    keys(desk, words);
    key(desk, KEY_ENTER);
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
    assert_true(session_make(&desk.session, desk.stage.model, desk.stage.run, measure, 1280, 720, true));
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

/* Two ways: the first to 20 s, another from its start on with a larger hole. */
static void two_ways(struct desk *desk)
{
    desk_open(desk);
    desk->session.view.rate = 1.0;
    key(desk, KEY_SPACE);
    play(desk, 20.0);
    key(desk, KEY_HOME);
    keys(desk, "f2.0");
    key(desk, KEY_ENTER);
    key(desk, KEY_SPACE);
    play(desk, 10.0);
    key(desk, KEY_SPACE);
}

/* The size on the way behind stands on the ruler as a ring, until it is forgotten. */
static void the_other_size_is_known(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct fault_row *row = &desk.session.faults.row[desk.session.view.drawer.row];
    assert_near("here", row->size, 2e-3, 1e-12);
    assert_near("there", row->other, 0.5e-3, 1e-12);
    key(&desk, 'n');
    assert_near("and the other way round", row->other, 2e-3, 1e-12);
    keys(&desk, "y");
    key(&desk, KEY_DOWN);
    key(&desk, KEY_BACKSPACE);
    keys(&desk, "f");
    assert_true(isnan(row->other));
    desk_close(&desk);
}

static void ways_by_keys(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct branches *branches = &desk.session.branches;
    keys(&desk, "y");
    assert_int_equal(desk.session.view.page, PAGE_WAYS);
    keys(&desk, "lBig hole, q & s");
    key(&desk, KEY_BACKSPACE);
    key(&desk, KEY_ENTER);
    assert_string_equal(branches->line[1].name, "Big hole, q & ");
    key(&desk, KEY_UP);
    keys(&desk, "lBig hole, q & ");
    key(&desk, KEY_ENTER);
    assert_non_null(strstr(desk.session.view.message, "called so"));
    assert_string_equal(branches->line[0].name, "first");
    key(&desk, KEY_BACKSPACE);
    assert_non_null(strstr(desk.session.view.message, "first way stays"));
    key(&desk, KEY_DOWN);
    key(&desk, KEY_BACKSPACE);
    assert_non_null(strstr(desk.session.view.message, "the way you are on"));
    key(&desk, KEY_UP);
    key(&desk, KEY_ENTER);
    assert_int_equal(branches->present, 0);
    key(&desk, KEY_DOWN);
    keys(&desk, "lx");
    key(&desk, KEY_ESCAPE); /* as it was */
    assert_string_equal(branches->line[1].name, "Big hole, q & ");
    key(&desk, KEY_BACKSPACE);
    assert_int_equal(branches->count, 1);
    key(&desk, KEY_ESCAPE);
    assert_int_equal(desk.session.view.page, PAGE_STEPS);
    desk_close(&desk);
}

static void ways_by_mouse(void **state)
{
    (void)state;
    static struct desk desk;
    two_ways(&desk);
    const struct branches *branches = &desk.session.branches;
    click(&desk, SPOT_PAGE, PAGE_WAYS);
    click(&desk, SPOT_WAY, 0);
    click(&desk, SPOT_WAY_WORD, WAYS_GO);
    assert_int_equal(branches->present, 0);
    click(&desk, SPOT_WAY, 1);
    click(&desk, SPOT_WAY_WORD, WAYS_NAME);
    keys(&desk, "a name");
    click(&desk, SPOT_WAY_WORD, WAYS_NAME);
    assert_string_equal(branches->line[1].name, "a name");
    click(&desk, SPOT_WAY_WORD, WAYS_FORGET);
    assert_int_equal(branches->count, 1);
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
    struct stage one = stage_text(rig), two = stage_text(rig);
    assert_true(session_make(&straight, one.model, one.run, measure, 1920, 1080, false));
    assert_true(session_make(&stepping, two.model, two.run, measure, 1920, 1080, false));
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
                                       cmocka_unit_test(times_by_keys),
                                       cmocka_unit_test(liquid_by_keys),
                                       cmocka_unit_test(times_by_mouse),
                                       cmocka_unit_test(sizes_of_every_fault_lead_back),
                                       cmocka_unit_test(a_change_in_the_past_branches),
                                       cmocka_unit_test(the_other_size_is_known),
                                       cmocka_unit_test(ways_by_keys),
                                       cmocka_unit_test(ways_by_mouse),
                                       cmocka_unit_test(a_frame_is_its_moment)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
