/* tests/support/desk.h  A run and its picture on a desk, driven as a person drives it: keys, clicks, time that goes by. */
#ifndef SUPPORT_DESK_H
#define SUPPORT_DESK_H

#include "support/stage.h"
#include "view/session.h"

#include <stdbool.h>

static inline double width_of(void *with, const char *text, double size, int weight)
{
    (void)with;
    (void)weight;
    return 0.55 * size * (double)strlen(text);
}

static const struct text_measure desk_measure = {width_of, NULL};

static const char desk_rig[] = "ullage: scenario/1\nname: driven\nsystem:\n  parts:\n"
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

static inline void desk_open(struct desk *desk)
{
    desk->stage = stage_text(desk_rig);
    assert_true(session_make(&desk->session, desk->stage.model, desk->stage.run, desk_measure, 1280, 720, true));
    assert_non_null(session_frame(&desk->session));
}

static inline void desk_close(struct desk *desk)
{
    session_free(&desk->session);
    stage_close(&desk->stage);
}

static inline enum intent_kind key(struct desk *desk, int pressed)
{
    const enum intent_kind left = session_input(&desk->session, (struct input){.kind = INPUT_KEY, .key = pressed});
    assert_non_null(session_frame(&desk->session));
    return left;
}

static inline void keys(struct desk *desk, const char *pressed)
{
    for (; *pressed; pressed++)
        key(desk, *pressed);
}

static inline double now(const struct desk *desk)
{
    return ullage_run_time(desk->session.run);
}

static inline double value(const struct desk *desk, const char *name)
{
    const int channel = ullage_model_find_channel(desk->session.model, name);
    assert_true(channel >= 0);
    return desk->session.now.value[channel];
}

static inline void play(struct desk *desk, double seconds)
{
    for (int k = 0; k < 60; k++)
        session_tick(&desk->session, seconds / 60.0);
    session_frame(&desk->session);
}

static inline const struct frame_spot *spot_of(const struct desk *desk, enum spot_kind what, int part)
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
static inline void mouse(struct desk *desk, enum input_kind kind, struct frame_box box, double across, double down)
{
    const struct layout layout = layout_make(desk->session.view.width, desk->session.view.height);
    const double x = box.x0 + across * (box.x1 - box.x0), y = box.y0 + down * (box.y1 - box.y0);
    session_input(
        &desk->session,
        (struct input){.kind = kind, .x = layout.left + layout.scale * x, .y = layout.top + layout.scale * y});
    session_frame(&desk->session);
}

static inline void click(struct desk *desk, enum spot_kind what, int part)
{
    const struct frame_box box = spot_of(desk, what, part)->box;
    mouse(desk, INPUT_PRESS, box, 0.5, 0.5);
    mouse(desk, INPUT_RELEASE, box, 0.5, 0.5);
}

/* Heron with every fault that its parts could have. */
static inline void rig_open_in(struct desk *desk, const char *scenario)
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
    assert_true(session_make(&desk->session, desk->stage.model, desk->stage.run, desk_measure, 1280, 720, true));
    assert_non_null(session_frame(&desk->session));
}

static inline void rig_open(struct desk *desk)
{
    rig_open_in(desk, "scenarios/vent-open.yaml");
}

static inline int row_of(const struct desk *desk, const char *what)
{
    for (int k = 0; k < desk->session.faults.count; k++)
        if (!strcmp(desk->session.faults.row[k].what, what))
            return k;
    fail_msg("no fault %s", what);
    return -1;
}

static inline const struct fault_row *fault(const struct desk *desk, const char *what)
{
    return &desk->session.faults.row[row_of(desk, what)];
}

static inline void search_for(struct desk *desk, const char *words)
{
    keys(desk, "f/");
    keys(desk, words);
    key(desk, KEY_ENTER);
}

#endif
