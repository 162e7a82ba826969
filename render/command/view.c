/* command/view.c  `ullage view`: the live picture in a window, or frames of it without a display. */
#include "command/command.h"
#include "command/interrupt.h"
#include "command/notes.h"
#include "command/progress.h"
#include "command/scenario.h"

#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifndef ULLAGE_NO_PLOT
#include "draw/frames.h"
#include "draw/plot.h"
#endif
#ifndef ULLAGE_NO_WINDOW
#include "window/window.h"
#endif

enum { FRAMES = OPTIONS_SHARED, EVERY, UNTIL, FRAME, SIZE, RECORD, SAVE };

static const struct option_row view_option[] = {
    SHARED_OPTIONS,
    {"frames", "DIR", NULL, false, "draws a row of frames into a folder, without a display"},
    {"every", "TIME", NULL, false, "between two frames of the row; 1s is usual"},
    {"until", "TIME", NULL, false, "where the row ends; the end of the run is usual"},
    {"frame", "TIME", "FILE", false, "draws one frame, without a display; .png, .svg or .pdf"},
    {"size", "WxH", NULL, false, "of the window or the frames, in pixels: 1920x1080"},
    {"record", "FILE", NULL, false, "on leaving, writes every command with its time; run --replay does it again"},
    {"save", "FILE", NULL, false, "on leaving, writes a scenario that does by itself what was done by hand"},
    {0}};

static const char *const view_example[] = {
    "ullage view scenarios/first-leak.yaml", "ullage view scenarios/first-leak.yaml --frame 60s frame.png",
    "ullage view scenarios/first-leak.yaml --frames frames --every 1s --until 60s --size 1280x720", NULL};

/* What one `ullage view` was asked for. */
struct sight {
    struct settings settings;
    const char *scenario, *folder, *file; /* folder, file: null where not asked for */
    double every, until, moment;          /* s */
    int width, height;                    /* px; 0: as is usual */
    struct notes notes;
};

/* "1280x720". */
static bool size_read(const char *text, struct sight *sight)
{
    char *end;
    const long width = strtol(text, &end, 10);
    const bool split = end != text && *end == 'x' && end[1] >= '0' && end[1] <= '9';
    const long height = split ? strtol(end + 1, &end, 10) : 0;
    if (split && *end == '\0' && width > 0 && height > 0 && width < INT_MAX && height < INT_MAX) {
        sight->width = (int)width;
        sight->height = (int)height;
        return true;
    }
    fprintf(stderr, "ullage view: --size %s is no size; write it like 1280x720\n", text);
    return false;
}

static bool moments_read(const struct words *words, struct sight *sight)
{
    const char *every = words_value(words, EVERY);
    const char *until = words_value(words, UNTIL);
    const char *moment = words_value(words, FRAME);
    if ((every && !quantity_option("every", every, ULLAGE_TIME, &sight->every)) ||
        (until && !quantity_option("until", until, ULLAGE_TIME, &sight->until)) ||
        (moment && !quantity_option("frame", moment, ULLAGE_TIME, &sight->moment)))
        return false;
    if (sight->every > 0.0 && sight->until >= 0.0 && sight->moment >= 0.0)
        return true;
    fputs("ullage view: --every is to be above 0, --until and --frame not below it\n", stderr);
    return false;
}

static enum exit_code sight_read(const struct words *words, struct sight *sight)
{
    *sight = (struct sight){.every = 1.0, .until = (double)INFINITY};
    const enum exit_code code = settings_read(words, &sight->settings);
    if (code != EXIT_DONE)
        return code;
    const char *size = words_value(words, SIZE);
    sight->scenario = words->operand[0];
    sight->folder = words_value(words, FRAMES);
    sight->notes = (struct notes){.record = words_value(words, RECORD), .save = words_value(words, SAVE)};
    for (int i = 0; i < words->options; i++)
        if (words->option[i].row == FRAME)
            sight->file = words->option[i].second;
    if ((size && !size_read(size, sight)) || !moments_read(words, sight) ||
        !notes_check(&sight->notes, "view", sight->scenario))
        return EXIT_BAD_INPUT;
    if (sight->folder && sight->file)
        fputs("ullage view: --frames draws many, --frame draws one: ask for either\n", stderr);
    else if (!sight->folder && (words_have(words, EVERY) || words_have(words, UNTIL)))
        fputs("ullage view: --every and --until belong to --frames DIR\n", stderr);
    else
        return EXIT_DONE;
    return EXIT_BAD_INPUT;
}

/* ---- frames ------------------------------------------------------------------------------------------------------ */

#ifdef ULLAGE_NO_PLOT
static enum exit_code sight_allowed(const struct sight *sight)
{
    (void)sight;
    fputs("ullage view: this build draws no pictures: it was made without cairo (ULLAGE_PLOT=OFF)\n", stderr);
    return EXIT_BAD_INPUT;
}

static enum exit_code frames_draw(const struct ullage_model *model, struct ullage_run *run, const struct sight *sight)
{
    (void)model, (void)run, (void)sight;
    return EXIT_BAD_INPUT;
}
#else
static void frame_done(void *with, double share, double time)
{
    progress_show(with, share, time);
}

static enum exit_code sight_allowed(const struct sight *sight)
{
    if (sight->file && !plot_takes(sight->file)) {
        fprintf(stderr, "ullage view: --frame %s: give the name an ending that says what to draw: .png, .svg or .pdf\n",
                sight->file);
        return EXIT_BAD_INPUT;
    }
#ifdef ULLAGE_NO_WINDOW
    if (!sight->file && !sight->folder) {
        fputs("ullage view: this build has no window: it was made without SDL2 (ULLAGE_WINDOW=OFF); --frame and "
              "--frames draw without one\n",
              stderr);
        return EXIT_BAD_INPUT;
    }
#endif
    return EXIT_DONE;
}

static enum exit_code frames_draw(const struct ullage_model *model, struct ullage_run *run, const struct sight *sight)
{
    char trouble[DRAW_TROUBLE] = "";
    struct progress progress = progress_begin();
    int written = 0;
    const struct frames_options options = {.width = sight->width,
                                           .height = sight->height,
                                           .si = sight->settings.units == FIGURE_SI,
                                           .stop = interrupt_flag(),
                                           .progress = frame_done,
                                           .with = &progress};
    const enum draw_outcome outcome =
        sight->file ? frame_write(model, run, &options, sight->moment, sight->file, trouble)
                    : frames_write(model, run, &options, sight->every, sight->until, sight->folder, &written, trouble);
    progress_end(&progress);
    if (*trouble && outcome != DRAW_STOPPED)
        fprintf(stderr, "ullage view: %s\n", trouble);
    if (sight->folder && outcome == DRAW_GOOD)
        fprintf(stderr, "Written: %d frames in %s\n", written, sight->folder);
    return outcome == DRAW_STOPPED ? EXIT_DONE : (enum exit_code)outcome; /* the rest are exit codes by design */
}
#endif

/* ---- window ------------------------------------------------------------------------------------------------------ */

#ifdef ULLAGE_NO_WINDOW
static enum exit_code window_draw(const struct ullage_model *model, struct ullage_run *run, const struct sight *sight)
{
    (void)model, (void)run, (void)sight;
    return EXIT_BAD_INPUT; /* sight_allowed has said so */
}
#else
static enum exit_code window_draw(const struct ullage_model *model, struct ullage_run *run, const struct sight *sight)
{
    char trouble[WINDOW_TROUBLE] = "";
    struct ullage_edits healthy = sight->settings.edits;
    struct ullage_model *sound = NULL;
    healthy.sound = healthy.every_fault = true;
    if (scenario_open(sight->scenario, &healthy, &sound) !=
        EXIT_DONE) /* the scenario itself was good: no sound run, then */
        sound = NULL;
    const struct window_options options = {.scenario = sight->scenario,
                                           .edits = &sight->settings.edits,
                                           .sound = sound,
                                           .width = sight->width,
                                           .height = sight->height,
                                           .si = sight->settings.units == FIGURE_SI,
                                           .stop = interrupt_flag()};
    const int code = window_show(model, run, &options, trouble);
    ullage_model_free(sound);
    if (*trouble)
        fprintf(stderr, "ullage view: %s\n", trouble);
    return (enum exit_code)code;
}
#endif

/* What was written down is kept, also where the numbers failed. */
static enum exit_code sight_noted(struct sight *sight, const struct ullage_run *run, enum exit_code code)
{
    if (code != EXIT_DONE && code != EXIT_NUMBERS)
        return code;
    const enum exit_code notes = notes_write(&sight->notes, sight->scenario, &sight->settings, run);
    return code == EXIT_DONE ? notes : code;
}

static enum exit_code sight_draw(struct sight *sight)
{
    struct ullage_model *model = NULL;
    sight->settings.edits.every_fault = !sight->file && !sight->folder; /* a hand may put in any of them */
    enum exit_code code = sight_allowed(sight);
    if (code == EXIT_DONE)
        code = scenario_open(sight->scenario, &sight->settings.edits, &model);
    if (code == EXIT_DONE)
        code = notes_open(&sight->notes);
    if (code != EXIT_DONE) {
        ullage_model_free(model);
        return code;
    }
    struct ullage_run *run = ullage_run_create(model, &sight->settings.method);
    if (run) {
        ullage_run_heed(run, interrupt_flag());
        code = sight->file || sight->folder ? frames_draw(model, run, sight) : window_draw(model, run, sight);
        code = sight_noted(sight, run, code);
    } else {
        fputs("ullage: memory ran out\n", stderr);
        code = EXIT_NUMBERS;
    }
    notes_drop(&sight->notes);
    ullage_run_free(run);
    ullage_model_free(model);
    return code;
}

static enum exit_code view_follow(const struct words *words, FILE *to)
{
    (void)to; /* a picture says nothing there */
    struct sight sight;
    enum exit_code code = sight_read(words, &sight);
    if (code == EXIT_DONE)
        code = sight_draw(&sight);
    settings_clear(&sight.settings);
    return code;
}

const struct command command_view = {
    .name = "view",
    .operands = "SCENARIO",
    .least = 1,
    .most = 1,
    .about = "Shows a scenario as a living picture: pressures, flows, smoke, steps and charts; or draws frames of it.",
    .more = "In the window: space plays and holds, the arrow keys step, + and - change speed, the mouse takes hold of "
            "parts and of the time bar, ? shows all keys. With --frame or --frames nothing is shown and no display is "
            "needed. The picture is a model: on a real vehicle fuel vapor burns, and local rules decide.",
    .example = view_example,
    .option = view_option,
    .follow = view_follow,
};
