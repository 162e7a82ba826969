/* frames.c  Pictures of a run without a display. */
#include "draw/frames.h"

#include "draw/sheet.h"
#include "view/session.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static const struct frames_options usual = {1920, 1080, false, NULL, NULL, NULL};

/* A session, and the painter whose fonts measure its texts. */
struct studio {
    struct painter *painter;
    struct session session;
    struct painter_fit fit;
    struct frames_options options;
};

static bool size_good(const struct frames_options *options, char *trouble)
{
    if (options->width >= FRAME_LEAST_WIDTH && options->height >= FRAME_LEAST_HEIGHT && options->width <= FRAME_MOST &&
        options->height <= FRAME_MOST)
        return true;
    snprintf(trouble, DRAW_TROUBLE, "%dx%d is no size for a picture: from %dx%d to %dx%d", options->width,
             options->height, FRAME_LEAST_WIDTH, FRAME_LEAST_HEIGHT, FRAME_MOST, FRAME_MOST);
    return false;
}

static enum draw_outcome studio_open(struct studio *studio, const struct ullage_model *model, struct ullage_run *run,
                                     const struct frames_options *options, char *trouble)
{
    *studio = (struct studio){.options = options ? *options : usual};
    trouble[0] = '\0';
    if (!studio->options.width && !studio->options.height) {
        studio->options.width = usual.width;
        studio->options.height = usual.height;
    }
    if (!size_good(&studio->options, trouble))
        return DRAW_BAD_INPUT;
    studio->painter = painter_create(trouble);
    if (!studio->painter)
        return DRAW_UNWRITABLE;
    const int width = studio->options.width, height = studio->options.height;
    if (!session_make(&studio->session, model, run, painter_measure(studio->painter), width, height, false)) {
        snprintf(trouble, DRAW_TROUBLE, "no memory for the picture");
        return DRAW_UNWRITABLE;
    }
    if (studio->options.si)
        studio->session.view.units = UNITS_SI;
    const struct layout layout = layout_make(width, height);
    studio->fit = (struct painter_fit){layout.scale, layout.left, layout.top, width, height};
    return DRAW_GOOD;
}

static void studio_close(struct studio *studio)
{
    session_free(&studio->session);
    painter_free(studio->painter);
}

static bool stopped(const struct studio *studio)
{
    return studio->options.stop && *studio->options.stop;
}

/* Takes the run to `time`. DRAW_STUCK leaves a sentence; the last good moment can still be drawn. */
static enum draw_outcome reach(struct studio *studio, double time, char *trouble)
{
    const enum ullage_status status = session_follow(&studio->session, time);
    if (status == ULLAGE_STOPPED || stopped(studio))
        return DRAW_STOPPED;
    if (status != ULLAGE_STUCK)
        return DRAW_GOOD;
    snprintf(trouble, DRAW_TROUBLE, "%s", ullage_run_trouble(studio->session.run));
    return DRAW_STUCK;
}

static enum draw_outcome shoot(struct studio *studio, const char *path, char *trouble)
{
    const struct frame *frame = session_frame(&studio->session);
    if (!frame) {
        snprintf(trouble, DRAW_TROUBLE, "no memory for the picture");
        return DRAW_UNWRITABLE;
    }
    return sheet_write(studio->painter, frame, &studio->fit, path, trouble);
}

enum draw_outcome frame_write(const struct ullage_model *model, struct ullage_run *run,
                              const struct frames_options *options, double time, const char *path, char *trouble)
{
    struct studio studio;
    if (sheet_form(path) == SHEET_UNKNOWN) {
        snprintf(trouble, DRAW_TROUBLE, "%s: a picture's name ends in .png, .svg or .pdf", path);
        return DRAW_BAD_INPUT;
    }
    enum draw_outcome outcome = studio_open(&studio, model, run, options, trouble);
    if (outcome == DRAW_GOOD) {
        outcome = reach(&studio, time, trouble);
        if (outcome == DRAW_GOOD)
            outcome = shoot(&studio, path, trouble);
    }
    studio_close(&studio);
    return outcome;
}

static bool folder_make(const char *folder, char *trouble)
{
    struct stat about;
    if (!mkdir(folder, 0777) || (errno == EEXIST && !stat(folder, &about) && S_ISDIR(about.st_mode)))
        return true;
    snprintf(trouble, DRAW_TROUBLE, "%s: %s", folder, strerror(errno == EEXIST ? ENOTDIR : errno));
    return false;
}

static enum draw_outcome row_shoot(struct studio *studio, double every, double until, const char *folder, int *written,
                                   char *trouble)
{
    char path[4096];
    const double whole = isfinite(until) ? until : studio->session.plan.end;
    for (int k = 0;; k++) {
        const double time = k * every;
        if (time > until * (1.0 + 1e-12))
            return DRAW_GOOD;
        enum draw_outcome outcome = reach(studio, time, trouble);
        if (outcome != DRAW_GOOD)
            return outcome;
        const bool over = studio->session.status == ULLAGE_FINISHED;
        if (snprintf(path, sizeof path, "%s/frame-%05d.png", folder, k) >= (int)sizeof path) {
            snprintf(trouble, DRAW_TROUBLE, "the name of the folder is too long");
            return DRAW_BAD_INPUT;
        }
        outcome = shoot(studio, path, trouble);
        if (outcome != DRAW_GOOD)
            return outcome;
        *written = k + 1;
        if (studio->options.progress)
            studio->options.progress(studio->options.with, whole > 0.0 ? fmin(time / whole, 1.0) : 1.0, time);
        if (over)
            return DRAW_GOOD; /* the last frame is the end of the run */
    }
}

enum draw_outcome frames_write(const struct ullage_model *model, struct ullage_run *run,
                               const struct frames_options *options, double every, double until, const char *folder,
                               int *written, char *trouble)
{
    struct studio studio;
    int count = 0;
    if (!(every > 0.0) || !(until >= 0.0)) {
        snprintf(trouble, DRAW_TROUBLE, "frames need a time between them above 0 and an end not below 0");
        return DRAW_BAD_INPUT;
    }
    enum draw_outcome outcome = studio_open(&studio, model, run, options, trouble);
    if (outcome == DRAW_GOOD && !folder_make(folder, trouble))
        outcome = DRAW_UNWRITABLE;
    if (outcome == DRAW_GOOD)
        outcome = row_shoot(&studio, every, until, folder, &count, trouble);
    studio_close(&studio);
    if (written)
        *written = count;
    return outcome;
}
