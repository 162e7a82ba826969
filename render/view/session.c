/* session.c  The loop around a run: input, time, picture. */
#include "view/session.h"

#include "view/charts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define REACH_PIXELS 6.0  /* around a spot that still counts */
#define GRID_SHARE 4000.0 /* steps of the grid in a whole run */
#define GRID_LEAST 0.02   /* s */
#define GRID_MOST 60.0
#define FIGURES_EVERY 0.2    /* s on the wall */
#define FIRST_RATE_SPAN 40.0 /* s on the wall that a run shorter or longer than that takes at first, about */

static bool plate_anew(struct session *session, double least_text)
{
    const int focus_part = session->view.focus >= 0 ? session->plate.body[session->view.focus].part : -1;
    plate_free(&session->plate);
    session->least_text = least_text;
    if (!plate_make(&session->plate, session->model, session->measure, least_text, session->shown))
        return false;
    session->view.focus = focus_part >= 0 ? session->plate.body_of[focus_part] : -1;
    return true;
}

static bool plate_renew(struct session *session)
{
    const struct layout layout = layout_make(session->view.width, session->view.height);
    if (session->plate.model && fabs(layout.least_text - session->least_text) < 1e-9)
        return true;
    return plate_anew(session, layout.least_text);
}

/* Holes that have come by hand get a place on the plate, those that are gone leave it. Pipes are cut at them, so that the
 * marks in pipes begin anew. */
static bool holes_show(struct session *session)
{
    bool changed = false;
    for (int k = 0; k < session->faults.count; k++) {
        const struct fault_row *row = &session->faults.row[k];
        if (row->hole < 0 || row->own || session->shown[row->hole] == row->in)
            continue;
        session->shown[row->hole] = row->in;
        changed = changed || ullage_model_part(session->model, row->hole).latent;
    }
    if (!changed)
        return true;
    motion_free(&session->motion);
    motion_free(&session->shown_motion);
    return plate_anew(session, session->least_text) && motion_make(&session->motion, &session->plate) &&
           motion_make(&session->shown_motion, &session->plate);
}

static double first_rate(const struct plan *plan)
{
    double rate = 1.0;
    while (plan->end / rate > 2.0 * FIRST_RATE_SPAN && rate < RATE_MOST)
        rate = rate_faster(rate);
    while (plan->end / rate < 0.1 * FIRST_RATE_SPAN && rate > RATE_LEAST)
        rate = rate_slower(rate);
    return rate;
}

static void view_begin(struct view *view, const struct ullage_model *model, const struct plan *plan, int width,
                       int height)
{
    *view = (struct view){.width = width, .height = height, .focus = -1, .hover = -1};
    view->rate = first_rate(plan);
    drawer_begin(&view->drawer);
    view->weather.row = -1;
    view->page = ullage_model_steps(model) > 0 ? PAGE_STEPS : PAGE_READINGS;
    charts_strips(model, view->strip);
}

bool session_make(struct session *session, const struct ullage_model *model, struct ullage_run *run,
                  struct text_measure measure, int width, int height, bool live)
{
    *session = (struct session){.model = model, .run = run, .measure = measure};
    session->grip.what = SPOT_NONE;
    traces_make(&session->traces, model);
    branches_begin(&session->branches, model);
    session->grid_value = calloc((size_t)ullage_model_channels(model) + 1, sizeof *session->grid_value);
    session->told = calloc((size_t)ullage_model_channels(model) + 1, sizeof *session->told);
    if (!session->grid_value || !session->told || !cast_make(&session->cast, model) ||
        !plan_make(&session->plan, model) || !snapshot_make(&session->now, model) ||
        !faults_make(&session->faults, model, &session->cast))
        return false;
    session->shown = calloc((size_t)session->cast.parts + 1, sizeof *session->shown);
    session->told_cell = calloc((size_t)session->now.cells + 1, sizeof *session->told_cell);
    if (!session->told_cell || !session->shown)
        return false;
    view_begin(&session->view, model, &session->plan, width, height);
    session->grid_step = fmin(fmax(session->plan.end / GRID_SHARE, GRID_LEAST), GRID_MOST);
    session->history = live ? ullage_history_create(model, run) : NULL;
    if (live && !session->history)
        return false;
    if (live) /* what the procedure does at once, before any time goes by */
        session->status = ullage_history_advance(session->history, ullage_run_time(run));
    ullage_run_values(model, run, session->grid_value, NULL);
    session->grid_time = ullage_run_time(run);
    return plate_renew(session) && motion_make(&session->motion, &session->plate) &&
           motion_make(&session->shown_motion, &session->plate);
}

void session_free(struct session *session)
{
    ullage_history_free(session->history);
    cast_free(&session->cast);
    plan_free(&session->plan);
    plate_free(&session->plate);
    snapshot_free(&session->now);
    motion_free(&session->motion);
    motion_free(&session->shown_motion);
    traces_free(&session->traces);
    branches_free(&session->branches);
    faults_free(&session->faults);
    frame_free(&session->frame);
    free(session->grid_value);
    free(session->told);
    free(session->told_cell);
    free(session->shown);
    *session = (struct session){0};
}

bool session_resize(struct session *session, int width, int height)
{
    session->view.width = width;
    session->view.height = height;
    return plate_renew(session);
}

void session_say(struct session *session, const char *text)
{
    snprintf(session->view.message, sizeof session->view.message, "%s", text);
}

/* ---- time ---------------------------------------------------------------------------------------------------------- */
/* The size of the fault whose ruler is open, on the way that the charts show behind. */
static void other_take(struct session *session)
{
    const int row = session->view.drawer.row, behind = session->branches.behind;
    if (session->history && row >= 0 && row < session->faults.count && (behind >= 0 || session->branches.sounding))
        fault_other(&session->faults.row[row], session->history, behind >= 0 ? behind : ULLAGE_SOUND,
                    session->now.time);
}

static void present_take(struct session *session)
{
    if (session->history)
        branches_take(&session->branches, session->history);
    else
        traces_take(&session->traces, session->run);
    const double latest = session->history ? ullage_history_latest(session->history) : ullage_run_time(session->run);
    snapshot_take(&session->now, session->model, session->run, latest);
    session->now.finished = session->status == ULLAGE_FINISHED;
    faults_take(&session->faults, session->model, session->run, &session->cast, session->now.value);
    other_take(session);
}

void session_tick(struct session *session, double seconds)
{
    if (!session->view.playing)
        return;
    const double wanted = ullage_run_time(session->run) + seconds * session->view.rate;
    session->status = ullage_history_advance(session->history, wanted);
    if (session->status != ULLAGE_PAUSED)
        session->view.playing = false;
    present_take(session);
    motion_advance(&session->motion, &session->plate, &session->cast, session->now.value, seconds);
    session->told_age += seconds;
}

enum ullage_status session_follow(struct session *session, double time)
{
    enum ullage_status status = ULLAGE_PAUSED;
    while (status == ULLAGE_PAUSED && session->grid_time + session->grid_step <= time) {
        const double next = session->grid_time + session->grid_step;
        status = ullage_run_advance(session->model, session->run, next);
        if (status != ULLAGE_PAUSED)
            break;
        motion_advance(&session->motion, &session->plate, &session->cast, session->grid_value, session->grid_step);
        ullage_run_values(session->model, session->run, session->grid_value, NULL);
        session->grid_time = next;
    }
    if (status == ULLAGE_PAUSED)
        status = ullage_run_advance(session->model, session->run, time);
    session->status = status;
    const double reached = ullage_run_time(session->run);
    motion_copy(&session->shown_motion, &session->motion);
    motion_advance(&session->shown_motion, &session->plate, &session->cast, session->grid_value,
                   fmax(reached - session->grid_time, 0.0));
    present_take(session);
    return status;
}

/* ---- picture ------------------------------------------------------------------------------------------------------- */
static struct scene scene_of(const struct session *session)
{
    const bool live = session->history != NULL;
    const struct branches *branches = &session->branches;
    return (struct scene){.model = session->model,
                          .plate = &session->plate,
                          .cast = &session->cast,
                          .now = &session->now,
                          .told = session->told,
                          .told_cell = session->told_cell,
                          .view = &session->view,
                          .motion = session->history ? &session->motion : &session->shown_motion,
                          .plan = &session->plan,
                          .faults = &session->faults,
                          .traces = live ? &branches->present_rows : &session->traces,
                          .behind = branches->behind >= 0 ? &branches->behind_rows : NULL,
                          .sound = branches->sound_rows.rows ? &branches->sound_rows : NULL,
                          .branches = live ? branches : NULL};
}

/* Figures change a few times a second and are then those of that very moment; while nothing plays, of this one. */
static void told_take(struct session *session)
{
    if (session->view.playing && session->told_age < FIGURES_EVERY)
        return;
    memcpy(session->told, session->now.value, (size_t)session->cast.channels * sizeof *session->told);
    memcpy(session->told_cell, session->now.cell, (size_t)session->now.cells * sizeof *session->told_cell);
    session->told_age = 0.0;
}

static bool rows_lost(const struct session *session)
{
    const struct branches *branches = &session->branches;
    return session->traces.out_of_memory || branches->present_rows.out_of_memory ||
           branches->behind_rows.out_of_memory || branches->sound_rows.out_of_memory;
}

const struct frame *session_frame(struct session *session)
{
    present_take(session);
    if (!holes_show(session))
        return NULL;
    told_take(session);
    const struct scene scene = scene_of(session);
    picture_draw(&session->frame, &scene, session->measure);
    const bool short_of_memory = session->frame.out_of_memory || session->now.out_of_memory || rows_lost(session);
    return short_of_memory ? NULL : &session->frame;
}

/* ---- what a person wants ------------------------------------------------------------------------------------------- */
static void go(struct session *session, double time)
{
    const double latest = ullage_history_latest(session->history);
    session->status = time > latest ? ullage_history_advance(session->history, time)
                                    : ullage_history_go(session->history, fmin(time, latest));
    present_take(session);
}

/* What stands after this moment stays as a branch, and the run goes on another way. False: it was refused. */
static bool command(struct session *session, const char *what, const char *value)
{
    const char *wrong = ullage_run_command(session->model, session->run, what, value);
    if (wrong) {
        session_say(session, wrong);
        return false;
    }
    session->view.message[0] = '\0';
    if (session->status == ULLAGE_FINISHED)
        session->status = ULLAGE_PAUSED;
    return true;
}

/* A hole of the system is given its size, then opened; anything else is put in by its size. 0: plugged, or out. */
static bool fault_set(struct session *session, int index, double size)
{
    const struct fault_row *row = &session->faults.row[index];
    char what[160], value[64];
    if (!row->own)
        return command(session, row->what,
                       size > 0.0 || size < 0.0 ? fault_value(row, size, value, sizeof value) : "off");
    if (!(size > 0.0))
        return command(session, row->what, "plugged");
    snprintf(what, sizeof what, "%s.diameter", row->what);
    const bool sized =
        !(fabs(size - row->size) > 0.0) || command(session, what, fault_value(row, size, value, sizeof value));
    return sized && (row->in || command(session, row->what, "open"));
}

static void all_healthy(struct session *session)
{
    bool good = true;
    for (int k = 0; k < session->faults.count && good; k++)
        if (fault_put_in(&session->faults.row[k]) && !session->faults.row[k].fixed)
            good = fault_set(session, k, 0.0);
}

/* Each that a hand has changed, within the time that is chosen for it; an altitude is but a pressure. */
static void weather_of_file(struct session *session)
{
    char value[48];
    bool good = true;
    snprintf(value, sizeof value, "as-in-file ramp=%s", weather_span[session->view.weather.span].value);
    for (int k = 0; k < ullage_weathers() && good; k++)
        if (session->now.weather[k].by_hand && *ullage_weather_at(k).channel)
            good = command(session, ullage_weather_at(k).key, value);
}

static void branch_go(struct session *session, int branch)
{
    const enum ullage_status status = ullage_history_switch(session->history, branch);
    session->status = status;
    session->view.playing = false;
}

static void branch_name(struct session *session, int branch, const char *name)
{
    const char *wrong = ullage_history_branch_name(session->history, branch, name);
    session_say(session, wrong ? wrong : "");
}

static void branch_forget(struct session *session, int branch)
{
    const bool present = branch == ullage_history_present(session->history);
    if (ullage_history_forget(session->history, branch))
        session_say(session, "");
    else
        session_say(session, present ? "This is the way you are on: go over to another one first."
                                     : "The first way stays: all others left it.");
}

/* The sound run costs as much as the run itself, so it goes along only from when it is asked for. */
static void sound_toggle(struct session *session)
{
    if (!session->sound) {
        session_say(session, "No sound run goes along here.");
        return;
    }
    if (!session->accompanied)
        session->accompanied = ullage_history_accompany(session->history, session->sound);
    if (!session->accompanied) {
        session_say(session, "There is no memory for a sound run.");
        return;
    }
    session->view.sound = !session->view.sound;
    session->branches.sounding = session->view.sound;
}

/* What is about the run. False: nothing of it; the window's. */
static bool session_do(struct session *session, const struct intent *intent)
{
    switch (intent->kind) {
    case INTENT_GO:
        go(session, intent->number);
        return true;
    case INTENT_COMMAND:
        command(session, intent->what, intent->value);
        break;
    case INTENT_FAULT:
        fault_set(session, intent->part, intent->number);
        break;
    case INTENT_HEALTHY:
        all_healthy(session);
        break;
    case INTENT_FILE_WEATHER:
        weather_of_file(session);
        break;
    case INTENT_BRANCH:
        branch_go(session, intent->part);
        break;
    case INTENT_NAME:
        branch_name(session, intent->part, intent->value);
        break;
    case INTENT_FORGET:
        branch_forget(session, intent->part);
        break;
    case INTENT_SOUND:
        sound_toggle(session);
        break;
    default:
        return false;
    }
    present_take(session);
    return true;
}

enum intent_kind session_input(struct session *session, struct input input)
{
    const struct layout layout = layout_make(session->view.width, session->view.height);
    const struct scene scene = scene_of(session);
    input.x = (input.x - layout.left) / layout.scale;
    input.y = (input.y - layout.top) / layout.scale;
    const struct intent intent =
        intent_of(&input, &session->view, &session->grip, &scene, &session->frame, REACH_PIXELS / layout.scale);
    if (!session->history && intent.kind != INTENT_WRITE && intent.kind != INTENT_LEAVE)
        return INTENT_NONE;
    return session_do(session, &intent) ? INTENT_NONE : intent.kind;
}
