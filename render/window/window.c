/* window.c  The loop: events to inputs, time to the session, frames to the window's pixels. */
#include "window/window.h"

#include "draw/canvas.h"
#include "report/output.h"
#include "view/session.h"

#include <SDL.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FRAME_MS 16       /* 60 frames a second */
#define IDLE_MS 30        /* how long to wait for an event while nothing moves */
#define BUDGET_MS 12      /* of computing for one frame; what is left over is not caught up */
#define LONGEST_GAP 0.1   /* s: a window that slept does not run after the clock on the wall */
#define DISPLAY_SHARE 0.9 /* of the display that a first window takes */

enum { SLICES = 8, LEAST_WIDTH = 800, LEAST_HEIGHT = 600 };

struct stage {
    SDL_Window *window;
    struct painter *painter;
    struct session session;
    const struct window_options *options;
    bool leave, stale; /* stale: the picture on the screen is not the present one */
    int written;       /* how many pictures so far */
};

/* ---- the window ---------------------------------------------------------------------------------------------------- */
/* Measured under X11 and without a display: presenting through software OpenGL costs 8 ms a frame, this 0.6. On Wayland
 * the hint makes the surface fail, so it is left alone. */
static void surface_hint(void)
{
    const char *driver = SDL_GetCurrentVideoDriver();
    if (driver && (!strcmp(driver, "x11") || !strcmp(driver, "dummy")))
        SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
}

static void first_size(const struct window_options *options, int *width, int *height)
{
    SDL_Rect room = {0, 0, 1280, 720};
    *width = options->width;
    *height = options->height;
    if (*width > 0 && *height > 0)
        return;
    SDL_GetDisplayUsableBounds(0, &room);
    *height = (int)fmin(DISPLAY_SHARE * room.h, DISPLAY_SHARE * room.w * 9.0 / 16.0);
    *height = *height < LEAST_HEIGHT ? LEAST_HEIGHT : *height;
    *width = *height * 16 / 9;
    if (*width > room.w)
        *width = room.w > LEAST_WIDTH ? room.w : LEAST_WIDTH;
}

/* Where there is no display SDL falls back to one in memory alone, which nobody asked for. */
static bool shown_to_nobody(void)
{
    const char *driver = SDL_GetCurrentVideoDriver();
    return driver && !strcmp(driver, "offscreen") && !SDL_GetHint(SDL_HINT_VIDEODRIVER);
}

static bool window_open(struct stage *stage, const struct ullage_model *model, char *trouble)
{
    int width, height;
    char title[160];
    const bool begun = SDL_Init(SDL_INIT_VIDEO) == 0;
    if (!begun || shown_to_nobody()) {
        snprintf(trouble, WINDOW_TROUBLE, "no display to show a window on%s%s%s; --frames and --frame draw without one",
                 begun ? "" : " (", begun ? "" : SDL_GetError(), begun ? "" : ")");
        return false;
    }
    surface_hint();
    first_size(stage->options, &width, &height);
    snprintf(title, sizeof title, "ullage: %s", ullage_model_name(model));
    stage->window =
        SDL_CreateWindow(title, SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, width, height, SDL_WINDOW_RESIZABLE);
    if (!stage->window) {
        snprintf(trouble, WINDOW_TROUBLE, "the window could not be opened: %s", SDL_GetError());
        return false;
    }
    SDL_SetWindowMinimumSize(stage->window, LEAST_WIDTH, LEAST_HEIGHT);
    SDL_StartTextInput();
    return true;
}

/* ---- picture ------------------------------------------------------------------------------------------------------- */
static struct painter_fit fit_of(const struct session *session)
{
    const struct layout layout = layout_make(session->view.width, session->view.height);
    return (struct painter_fit){layout.scale, layout.left, layout.top, session->view.width, session->view.height};
}

static bool show(struct stage *stage, char *trouble)
{
    SDL_Surface *surface = SDL_GetWindowSurface(stage->window);
    const struct frame *frame = session_frame(&stage->session);
    if (!surface || !frame) {
        snprintf(trouble, WINDOW_TROUBLE, "%s", surface ? "no memory for the picture" : SDL_GetError());
        return false;
    }
    const struct painter_fit fit = fit_of(&stage->session);
    if (surface->w != fit.width || surface->h != fit.height)
        return true; /* a new size is on its way */
    if (SDL_LockSurface(surface))
        return true;
    canvas_paint(stage->painter, frame, &fit, surface->pixels, surface->pitch);
    SDL_UnlockSurface(surface);
    SDL_UpdateWindowSurface(stage->window);
    stage->stale = false;
    return true;
}

/* first-leak-1.png beside the person, not beside the scenario. */
static void path_next(struct stage *stage, const char *ending, char *path, size_t size)
{
    const char *scenario = stage->options->scenario ? stage->options->scenario : "ullage";
    const char *slash = strrchr(scenario, '/'), *name = slash ? slash + 1 : scenario;
    const char *point = strrchr(name, '.');
    snprintf(path, size, "%.*s-%d.%s", point ? (int)(point - name) : (int)strlen(name), name, ++stage->written, ending);
}

/* Takes the text of a scenario; says what came of it. */
static void text_put(struct stage *stage, char *scenario)
{
    char path[256], text[DRAW_TROUBLE];
    int failure = ENOMEM;
    path_next(stage, "yaml", path, sizeof path);
    struct output *output = scenario ? output_open(path, &failure) : NULL;
    if (output) {
        fputs(scenario, output_stream(output));
        failure = output_close(output);
    }
    ullage_text_free(scenario);
    if (failure)
        snprintf(text, sizeof text, "%s cannot be written: %s", path, strerror(failure));
    else
        snprintf(text, sizeof text, "written: %s", path);
    session_say(&stage->session, text);
}

/* What was done by hand up to this moment. */
static void keep_scenario(struct stage *stage)
{
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = stage->options->scenario ? ullage_problems_create() : NULL;
    if (!problems)
        return;
    char *scenario =
        ullage_scenario_text(stage->options->scenario, stage->options->edits, stage->session.run, problems, &outcome);
    if (!scenario && ullage_problems_count(problems) > 0)
        session_say(&stage->session, ullage_problems_at(problems, 0).wrong);
    else
        text_put(stage, scenario);
    ullage_problems_free(problems);
}

static void write_picture(struct stage *stage)
{
    char path[256], text[DRAW_TROUBLE];
    const struct painter_fit fit = fit_of(&stage->session);
    path_next(stage, "png", path, sizeof path);
    if (sheet_write(stage->painter, &stage->session.frame, &fit, path, text) == DRAW_GOOD)
        snprintf(text, sizeof text, "written: %s", path);
    session_say(&stage->session, text);
}

/* ---- events -------------------------------------------------------------------------------------------------------- */
static const struct {
    SDL_Keycode sdl;
    int key;
} special[] = {
    {SDLK_RETURN, KEY_ENTER},        {SDLK_KP_ENTER, KEY_ENTER}, {SDLK_ESCAPE, KEY_ESCAPE}, {SDLK_TAB, KEY_TAB},
    {SDLK_BACKSPACE, KEY_BACKSPACE}, {SDLK_LEFT, KEY_LEFT},      {SDLK_RIGHT, KEY_RIGHT},   {SDLK_UP, KEY_UP},
    {SDLK_DOWN, KEY_DOWN},           {SDLK_HOME, KEY_HOME},      {SDLK_END, KEY_END}};

static void hand_in(struct stage *stage, struct input input)
{
    const enum intent_kind left = session_input(&stage->session, input);
    stage->stale = true;
    if (left == INTENT_WRITE)
        write_picture(stage);
    else if (left == INTENT_KEEP)
        keep_scenario(stage);
    else if (left == INTENT_LEAVE)
        stage->leave = true;
}

static void key_event(struct stage *stage, const SDL_KeyboardEvent *event)
{
    for (size_t k = 0; k < sizeof special / sizeof special[0]; k++)
        if (special[k].sdl == event->keysym.sym)
            hand_in(stage, (struct input){.kind = INPUT_KEY,
                                          .key = special[k].key,
                                          .shift = (event->keysym.mod & KMOD_SHIFT) != 0});
}

/* Signs come as text, whatever keys a layout has them on. */
static void text_event(struct stage *stage, const char *text)
{
    for (const char *c = text; *c; c++)
        if (*c > 0)
            hand_in(stage, (struct input){.kind = INPUT_KEY, .key = *c});
}

static void mouse_event(struct stage *stage, const SDL_Event *event)
{
    struct input input = {.kind = INPUT_MOVE};
    int x, y;
    if (event->type == SDL_MOUSEMOTION) {
        x = event->motion.x;
        y = event->motion.y;
    } else if (event->type == SDL_MOUSEWHEEL) {
        SDL_GetMouseState(&x, &y);
        input.kind = INPUT_WHEEL;
        input.wheel = event->wheel.y;
    } else {
        if (event->button.button != SDL_BUTTON_LEFT)
            return;
        x = event->button.x;
        y = event->button.y;
        input.kind = event->type == SDL_MOUSEBUTTONDOWN ? INPUT_PRESS : INPUT_RELEASE;
    }
    input.x = x;
    input.y = y;
    hand_in(stage, input);
}

static bool window_event(struct stage *stage, const SDL_WindowEvent *event)
{
    stage->stale = true;
    if (event->event == SDL_WINDOWEVENT_SIZE_CHANGED)
        return session_resize(&stage->session, event->data1 < LEAST_WIDTH ? LEAST_WIDTH : event->data1,
                              event->data2 < LEAST_HEIGHT ? LEAST_HEIGHT : event->data2);
    return true;
}

static bool heed_event(struct stage *stage, const SDL_Event *event)
{
    switch (event->type) {
    case SDL_QUIT:
        stage->leave = true;
        break;
    case SDL_WINDOWEVENT:
        return window_event(stage, &event->window);
    case SDL_KEYDOWN:
        key_event(stage, &event->key);
        break;
    case SDL_TEXTINPUT:
        text_event(stage, event->text.text);
        break;
    case SDL_MOUSEMOTION:
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
    case SDL_MOUSEWHEEL:
        mouse_event(stage, event);
        break;
    default:
        break;
    }
    return true;
}

/* ---- the loop ------------------------------------------------------------------------------------------------------ */
/* Slice by slice, so that a rate too high for this machine slows the run and not the hand. */
static void play(struct stage *stage, double seconds)
{
    const Uint64 begun = SDL_GetTicks64();
    for (int k = 0; k < SLICES && stage->session.view.playing && SDL_GetTicks64() - begun < BUDGET_MS; k++)
        session_tick(&stage->session, seconds / SLICES);
    stage->stale = true;
}

static bool stopped(const struct stage *stage)
{
    return stage->options->stop && *stage->options->stop;
}

static bool events_heed(struct stage *stage)
{
    SDL_Event event;
    bool good = true;
    if (!stage->session.view.playing && !stage->stale && !SDL_WaitEventTimeout(NULL, IDLE_MS))
        return true;
    while (good && SDL_PollEvent(&event))
        good = heed_event(stage, &event);
    return good;
}

static bool loop(struct stage *stage, char *trouble)
{
    Uint64 before = SDL_GetTicks64();
    bool good = true;
    stage->stale = true;
    while (good && !stage->leave && !stopped(stage)) {
        good = events_heed(stage);
        const Uint64 now = SDL_GetTicks64();
        if (stage->session.view.playing)
            play(stage, fmin(1e-3 * (double)(now - before), LONGEST_GAP));
        before = now;
        if (good && stage->stale)
            good = show(stage, trouble);
        const Uint64 spent = SDL_GetTicks64() - now;
        if (stage->session.view.playing && spent < FRAME_MS)
            SDL_Delay((Uint32)(FRAME_MS - spent));
    }
    if (!good && !*trouble)
        snprintf(trouble, WINDOW_TROUBLE, "no memory for the picture");
    return good;
}

static void stage_strike(struct stage *stage)
{
    session_free(&stage->session);
    painter_free(stage->painter);
    if (stage->window)
        SDL_DestroyWindow(stage->window);
    SDL_Quit();
}

static bool stage_set(struct stage *stage, const struct ullage_model *model, struct ullage_run *run, char *trouble)
{
    char text[DRAW_TROUBLE];
    int width, height;
    if (!window_open(stage, model, trouble))
        return false;
    stage->painter = painter_create(text);
    if (!stage->painter) {
        snprintf(trouble, WINDOW_TROUBLE, "%.*s", WINDOW_TROUBLE - 1, text);
        return false;
    }
    SDL_GetWindowSize(stage->window, &width, &height);
    width = width < LEAST_WIDTH ? LEAST_WIDTH : width;
    height = height < LEAST_HEIGHT ? LEAST_HEIGHT : height;
    if (!session_make(&stage->session, model, run, painter_measure(stage->painter), width, height, true)) {
        snprintf(trouble, WINDOW_TROUBLE, "no memory for the picture");
        return false;
    }
    stage->session.sound = stage->options->sound;
    if (stage->options->si)
        stage->session.view.units = UNITS_SI;
    stage->session.view.playing = true;
    return true;
}

int window_show(const struct ullage_model *model, struct ullage_run *run, const struct window_options *options,
                char *trouble)
{
    struct stage *stage = calloc(1, sizeof *stage);
    trouble[0] = '\0';
    if (!stage) {
        snprintf(trouble, WINDOW_TROUBLE, "no memory for the window");
        return 4;
    }
    stage->options = options;
    ullage_run_heed(run, options->stop);
    bool good = stage_set(stage, model, run, trouble) && loop(stage, trouble);
    if (good) { /* all of the present way is what the run has been through; a signal has done its work */
        ullage_run_heed(run, NULL);
        ullage_history_go(stage->session.history, ullage_history_latest(stage->session.history));
    }
    const bool stuck = good && stage->session.status == ULLAGE_STUCK;
    if (stuck)
        snprintf(trouble, WINDOW_TROUBLE, "%s", ullage_run_trouble(run));
    stage_strike(stage);
    free(stage);
    return stuck ? 3 : good ? 0 : 4;
}
