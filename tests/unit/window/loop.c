/* tests/unit/window/loop.c  The window without a display: events of the keyboard and the mouse reach the run. */
#include "support/stage.h"
#include "window/window.h"

#include <SDL.h>
#include <signal.h>
#include <unistd.h>

static const char rig[] = "ullage: scenario/1\nname: shown\nsystem:\n  parts:\n"
                          "    tank: {type: tank, volume: 30 L}\n"
                          "    leak: {type: hole, from: tank, to: air, diameter: 0.5 mm}\n"
                          "start: {tank: {gauge_pressure: 3 kPa}}\n"
                          "procedure:\n  steps:\n    - {name: Empty, wait: {for: 1000 s}}\n"
                          "record: {every: 0.5 s, channels: [tank.gauge_pressure, leak.standard_flow]}\n";

static void key_push(SDL_Keycode key)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    event.key.keysym.sym = key;
    SDL_PushEvent(&event);
}

static void text_push(const char *text)
{
    for (; *text; text++) {
        SDL_Event event = {.type = SDL_TEXTINPUT};
        event.text.text[0] = *text;
        SDL_PushEvent(&event);
    }
}

static void quit_push(void)
{
    SDL_Event event = {.type = SDL_QUIT};
    SDL_PushEvent(&event);
}

/* Called by SDL's own thread a while after the loop has begun: pauses, types a size for the leak, leaves. */
static Uint32 person(Uint32 interval, void *with)
{
    (void)interval;
    (void)with;
    text_push(" f0.7");
    key_push(SDLK_RETURN);
    quit_push();
    return 0;
}

static Uint32 leaver(Uint32 interval, void *with)
{
    (void)interval;
    volatile sig_atomic_t *stop = with;
    *stop = 1;
    return 0;
}

static void keys_reach_the_run(void **state)
{
    (void)state;
    struct stage stage = stage_text(rig);
    char trouble[WINDOW_TROUBLE];
    const struct window_options options = {.width = 1024, .height = 768};
    assert_int_equal(SDL_Init(SDL_INIT_TIMER), 0);
    SDL_AddTimer(700, person, NULL);
    assert_int_equal(window_show(stage.model, stage.run, &options, trouble), 0);
    assert_string_equal(trouble, "");
    double value[200];
    assert_true(ullage_model_channels(stage.model) <= 200);
    ullage_run_values(stage.model, stage.run, value, NULL);
    assert_near("the leak is as typed", value[ullage_model_find_channel(stage.model, "leak.diameter")], 0.7e-3, 1e-9);
    assert_true(ullage_run_time(stage.run) > 0.0); /* it played by itself until the space bar */
    int by_hand = 0;
    for (int k = 0; k < ullage_run_events(stage.run); k++)
        by_hand += ullage_run_event(stage.run, k).by_hand;
    assert_int_equal(by_hand, 1);
    stage_close(&stage);
}

static Uint32 keeper(Uint32 interval, void *with)
{
    (void)interval;
    (void)with;
    text_push(" k");
    quit_push();
    return 0;
}

/* K writes the scenario beside the person: one that can be read, under the scenario's name. */
static void a_scenario_is_kept(void **state)
{
    (void)state;
    char folder[] = "/tmp/ullage-loop-XXXXXX", here[4096];
    struct ullage_heading heading;
    assert_non_null(getcwd(here, sizeof here));
    assert_non_null(mkdtemp(folder));
    assert_int_equal(chdir(folder), 0);
    FILE *file = fopen("mine.yaml", "w");
    assert_non_null(file);
    fputs(rig, file);
    assert_int_equal(fclose(file), 0);
    struct stage stage = stage_text(rig);
    char trouble[WINDOW_TROUBLE];
    const struct window_options options = {.width = 800, .height = 600, .scenario = "mine.yaml"};
    assert_int_equal(SDL_Init(SDL_INIT_TIMER), 0);
    SDL_AddTimer(500, keeper, NULL);
    assert_int_equal(window_show(stage.model, stage.run, &options, trouble), 0);
    stage_close(&stage);
    assert_true(ullage_heading_read("mine-1.yaml", &heading));
    assert_string_equal(heading.form, "scenario/1");
    assert_int_equal(unlink("mine-1.yaml") + unlink("mine.yaml"), 0);
    assert_int_equal(chdir(here) + rmdir(folder), 0);
}

static void a_signal_leaves(void **state)
{
    (void)state;
    static volatile sig_atomic_t stop;
    struct stage stage = stage_text(rig);
    char trouble[WINDOW_TROUBLE];
    const struct window_options options = {.width = 800, .height = 600, .stop = &stop};
    assert_int_equal(SDL_Init(SDL_INIT_TIMER), 0);
    SDL_AddTimer(500, leaver, (void *)(uintptr_t)&stop);
    assert_int_equal(window_show(stage.model, stage.run, &options, trouble), 0);
    assert_true(ullage_run_time(stage.run) > 0.0); /* it played by itself from the start */
    stage_close(&stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(keys_reach_the_run), cmocka_unit_test(a_scenario_is_kept),
                                       cmocka_unit_test(a_signal_leaves)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
