/* tests/picture/words.c  No two texts overlap, none leaves the picture, none is too small to read, at every size and moment
 * of every scenario that ships, on every page of the column and in every unit, and with a leak at every place of Heron. */
#include "draw/canvas.h"
#include "support/stage.h"
#include "view/session.h"

#include <glob.h>
#include <stdbool.h>
#include <stdio.h>

#define TOUCH 1.5         /* u by which boxes may touch: they reach from over the capitals to below the tails */
#define PIXELS_LEAST 14.2 /* px: smaller is not readable at a desk */
#define U_LEAST 20.0

static const int sizes[][2] = {{800, 600}, {1024, 768}, {1280, 800}, {1920, 1080}, {3840, 2160}};

enum { SIZES = sizeof sizes / sizeof sizes[0], MOMENTS = 9 };

/* Every size; under sanitizers, where this takes three times as long, the first and the fourth. */
static int sizes_apart(void)
{
    const char *said = getenv("ULLAGE_SANITIZED");
    return said && !strcmp(said, "1") ? 3 : 1;
}

struct look {
    const char *scenario, *fault;
    int width, height;
    const struct session *session;
};

static void look_fails(const struct look *look, const char *what, const char *a, const char *b)
{
    fail_msg("%s%s%s at %dx%d, %.4g s, page %d, units %d: %s: \"%s\" \"%s\"", look->scenario,
             look->fault ? " with " : "", look->fault ? look->fault : "", look->width, look->height,
             ullage_run_time(look->session->run), (int)look->session->view.page, (int)look->session->view.units, what,
             a, b);
}

static void words_check(const struct look *look, const struct frame *frame)
{
    const double scale = layout_make(look->width, look->height).scale;
    for (int k = 0; k < frame->words; k++) {
        const struct frame_word *word = &frame->word[k];
        const char *text = frame->text + word->first;
        if (word->box.x0 < 0.0 || word->box.y0 < 0.0 || word->box.x1 > frame->width || word->box.y1 > frame->height)
            look_fails(look, "leaves the picture", text, "");
        if (word->size < U_LEAST - 1e-6 || word->size * scale < fmin(PIXELS_LEAST, U_LEAST * scale) - 1e-3)
            look_fails(look, "is too small", text, "");
        if (word->size * scale < PIXELS_LEAST - 0.01)
            look_fails(look, "is too small in pixels", text, "");
        for (int j = 0; j < k; j++)
            if (box_overlaps(box_grown(word->box, -TOUCH), box_grown(frame->word[j].box, -TOUCH)))
                look_fails(look, "overlap", frame->text + frame->word[j].first, text);
    }
}

static void frame_check(const struct look *look, struct session *session)
{
    const struct frame *frame = session_frame(session);
    assert_non_null(frame);
    words_check(look, frame);
}

/* The list of faults, its search, one fault after the other with its ruler, and a size being typed. */
static void drawer_check(const struct look *look, struct session *session, int turn)
{
    struct view *view = &session->view;
    const int faults = session->faults.count;
    drawer_begin(&view->drawer);
    drawer_search(&view->drawer);
    drawer_search_key(&view->drawer, 'e');
    frame_check(look, session);
    drawer_begin(&view->drawer);
    view->drawer.cursor = faults ? turn % faults : 0;
    view->drawer.row = faults ? (7 * turn) % faults : -1; /* all of them, in the end */
    frame_check(look, session);
    snprintf(view->typed, sizeof view->typed, "0.020 in");
    frame_check(look, session);
    if (session->faults.count && fault_timed(&session->faults.row[view->drawer.row])) {
        drawer_times(&view->drawer, true);
        view->drawer.times = (struct ullage_course){86399.0, 0.125, 172799.0, 5399.0, 2701.0};
        frame_check(look, session);
        view->typed[0] = '\0';
        frame_check(look, session);
        drawer_times(&view->drawer, false);
        frame_check(look, session);
    }
    view->typed[0] = '\0';
    drawer_begin(&view->drawer);
}

/* One of the surroundings after the other on its ruler, every other time as it is typed. */
static void air_check(const struct look *look, struct session *session, int turn)
{
    struct view *view = &session->view;
    view->weather.row = view->weather.cursor = turn % ullage_weathers();
    view->weather.span = turn % WEATHER_SPANS;
    if (turn % 2)
        snprintf(view->typed, sizeof view->typed, "1013.25 hPa");
    frame_check(look, session);
    view->typed[0] = '\0';
    view->weather.row = -1;
}

/* What a hand makes of the weather at the end: of each the widest words. */
static void weather_told(struct stage *stage)
{
    static const char *const told[][2] = {{"surroundings.temperature", "33.3 degC ramp=20h"},
                                          {"surroundings.pressure", "1002.2 hPa ramp=1h"},
                                          {"surroundings.wind", "12.2 m/s"},
                                          {"surroundings.sun", "1000 W/m2 ramp=100h"}};
    for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
        assert_null(ullage_run_command(stage->model, stage->run, told[k][0], told[k][1]));
}

/* Every page, each in the next units: all of them in all, in the course of the moments and sizes. */
static void pages_check(const struct look *look, struct session *session)
{
    static int turn;
    turn++;
    for (int page = 0; page < PAGES + 1; page++) {
        session->view.units = (enum units)((turn + page) % (UNITS_SI + 1));
        session->view.help = page == PAGES;
        session->view.page = (enum page)(page == PAGES ? PAGE_STEPS : page);
        frame_check(look, session);
        if (page == PAGE_FAULTS)
            drawer_check(look, session, turn);
        if (page == PAGE_AIR)
            air_check(look, session, turn);
    }
}

/* Every size, in one window that is drawn larger and smaller: a run is followed once. */
static void sizes_check(const char *path, const char *fault, struct session *session)
{
    for (int s = 0; s < SIZES; s += sizes_apart()) {
        const struct look look = {path, fault, sizes[s][0], sizes[s][1], session};
        assert_true(session_resize(session, look.width, look.height));
        if (session->plate.unrouted || session->plate.unnamed)
            look_fails(&look, "a pipe found no way or a name no room", "", "");
        pages_check(&look, session);
    }
}

static void scenario_check(struct painter *painter, const char *path, const char *fault, int moments)
{
    struct stage stage = stage_open(path, fault);
    static struct session session;
    assert_true(
        session_make(&session, stage.model, stage.run, painter_measure(painter), sizes[0][0], sizes[0][1], false));
    for (int k = 0; k <= moments; k++) {
        session_follow(&session, session.plan.end * k / moments);
        sizes_check(path, fault, &session);
    }
    weather_told(&stage);
    session_follow(&session, session.plan.end);
    sizes_check(path, fault, &session);
    session_free(&session);
    stage_close(&stage);
}

static void shipped_scenarios(void **state)
{
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 5);
    for (size_t k = 0; k < found.gl_pathc; k++)
        scenario_check(*state, found.gl_pathv[k], NULL, MOMENTS);
    globfree(&found);
}

/* As many branches as there may be, each with as long a name as there may be; then a fault that waits, on its own page. */
static void ways_check(struct painter *painter, int width, int height)
{
    struct stage stage = stage_open("scenarios/smoke-test.yaml", NULL);
    static struct session session;
    assert_true(session_make(&session, stage.model, stage.run, painter_measure(painter), width, height, true));
    const struct look look = {"scenarios/smoke-test.yaml", NULL, width, height, &session};
    for (int k = 0; k < ULLAGE_BRANCHES_MOST; k++) {
        char name[80];
        snprintf(name, sizeof name, "%02d: the vent valve restricted a little more than last time", k);
        assert_null(ullage_history_branch_name(session.history, k, name));
        ullage_history_advance(session.history, 20.0);
        ullage_history_go(session.history, 10.0);
        const char *wrong =
            ullage_run_command(stage.model, stage.run, "restricted vent-valve", "80 % from=100s ramp=30 s");
        assert_true(!wrong == (k + 1 < ULLAGE_BRANCHES_MOST));
    }
    session.view.page = PAGE_WAYS;
    frame_check(&look, &session);
    session.view.ways = (struct ways_view){0, true, "a name being typed that is as long as any name may be: sixty"};
    frame_check(&look, &session);
    session.view.page = PAGE_FAULTS;
    frame_check(&look, &session);
    session_free(&session);
    stage_close(&stage);
}

static void many_ways(void **state)
{
    for (int s = 0; s < SIZES; s += sizes_apart())
        ways_check(*state, sizes[s][0], sizes[s][1]);
}

static void leaks_anywhere(void **state)
{
    static const char *const faults[] = {
        "leak tank.roof diameter=0.5mm",    "leak tank.neck diameter=1mm",    "leak tank diameter=0.3mm",
        "leak neck diameter=0.5mm",         "leak vapor-line diameter=0.5mm", "leak canister.tank diameter=0.5mm",
        "leak canister.air diameter=0.5mm", "leak vent-line diameter=0.5mm",  "leak purge-line diameter=0.5mm"};
    for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++)
        scenario_check(*state, "scenarios/smoke-test.yaml", faults[k], 2);
}

static int painter_open(void **state)
{
    char trouble[DRAW_TROUBLE];
    *state = painter_create(trouble);
    if (!*state)
        print_message("%s\n", trouble);
    return *state == NULL;
}

static int painter_close(void **state)
{
    painter_free(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(shipped_scenarios), cmocka_unit_test(leaks_anywhere),
                                       cmocka_unit_test(many_ways)};
    const int n = cmocka_run_group_tests(tests, painter_open, painter_close);
    return n != 0;
}
