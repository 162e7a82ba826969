/* steps.c  The page of steps: done ones soft with their time, the present one large with what it waits for, the rest. */
#include "view/steps.h"

#include "view/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LISTED_MOST = 256 };

#define ROW 38.0
#define NUMBERS 36.0 /* u from the column's edge to where numbers end and titles begin */
#define TITLES 52.0
#define ROWS_BEFORE 3
#define CLOCK_IN_MINUTES 60.0 /* s: how a short time is told */

/* Steps that a person does or waits for; readings and verdicts have a page of their own. */
static bool is_listed(const struct ullage_step *step)
{
    return strcmp(step->verb, "read") && strcmp(step->verb, "judge") && strcmp(step->verb, "say");
}

static int listed_steps(const struct ullage_model *model, int *listed)
{
    int count = 0;
    for (int k = 0; k < ullage_model_steps(model) && count < LISTED_MOST; k++) {
        const struct ullage_step step = ullage_model_step(model, k);
        if (is_listed(&step))
            listed[count++] = k;
    }
    return count;
}

/* The place in the list of the present step: of the last one begun; the count after the end; 0 before the start. */
static int place_in_list(const struct scene *scene, const int *listed, int count)
{
    if (scene->now->step == -2)
        return count;
    int place = 0;
    for (int k = 0; k < count; k++)
        if (listed[k] <= scene->now->step)
            place = k;
    return place;
}

/* When a step last ended; NAN: not yet. */
static double step_end(const struct snapshot *now, int step)
{
    for (int k = now->spans - 1; k >= 0; k--)
        if (now->span[k].step == step && isfinite(now->span[k].to))
            return now->span[k].to;
    return (double)NAN;
}

/* ---- conditions as words ------------------------------------------------------------------------------------------- */
/* "settled(A, B, C)" at `from`: lengths of its three arguments' texts; null: none here. */
static const char *settled_parse(const char *from, const char *argument[3], int length[3])
{
    const char *name = "settled(";
    if (strncmp(from, name, strlen(name)))
        return NULL;
    const char *at = from + strlen(name);
    for (int k = 0; k < 3; k++) {
        while (*at == ' ')
            at++;
        argument[k] = at;
        while (*at && *at != ',' && *at != ')')
            at++;
        length[k] = (int)(at - argument[k]);
        if (!*at || *at != (k < 2 ? ',' : ')'))
            return NULL;
        at++;
    }
    return at;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

const char *condition_words(const char *condition, bool brief, char *room, int size)
{
    int used = 0;
    for (const char *at = condition; *at && used < size - 1;) {
        const char *argument[3];
        int length[3];
        const char *after = settled_parse(at, argument, length);
        if (after) {
            const int wrote = brief
                                  ? snprintf(room + used, (size_t)(size - used), "%.*s steady", length[0], argument[0])
                                  : snprintf(room + used, (size_t)(size - used), "%.*s steady within %.*s for %.*s",
                                             length[0], argument[0], length[2], argument[2], length[1], argument[1]);
            used += wrote < size - used ? wrote : size - used - 1;
            at = after;
        } else
            room[used++] = *at++;
    }
    room[used] = '\0';
    for (int k = 1; k + 2 < used; k++) /* a minus sign with room around it */
        if (!strncmp(room + k - 1, " - ", 3) && used + 2 < size) {
            memmove(room + k + 3, room + k + 1, (size_t)(used - k));
            memcpy(room + k, "−", 3);
            used += 2;
        }
    for (int k = 1; k < used; k++) /* names of channels as words; the point of a number stays */
        if (room[k] == '_' || (room[k] == '.' && is_letter(room[k + 1])))
            room[k] = ' ';
    return room;
}

/* ---- rows ---------------------------------------------------------------------------------------------------------- */
/* A title as a person says it: one that the program made of a condition is told in its words, or not at all where the
 * condition follows anyway. */
static const char *title_words(const struct ullage_model *model, int step, bool follows, char *room, int size)
{
    char words[160];
    const struct ullage_step at = ullage_model_step(model, step);
    const bool made = *at.condition && !strncmp(at.title, "Wait until", 10);
    if (made && follows)
        snprintf(room, (size_t)size, "Wait");
    else if (made)
        snprintf(room, (size_t)size, "Wait: %s", condition_words(at.condition, true, words, sizeof words));
    else
        snprintf(room, (size_t)size, "%s", at.title);
    return room;
}

static void row_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, int place, int step,
                     double baseline)
{
    char text[32], words[200];
    const double end = step_end(scene->now, step);
    const unsigned colour = isfinite(end) ? COLOUR_SOFT : COLOUR_INK;
    const struct text_style number = {26.0, 500, COLOUR_SOFT, 1.0}, title = {26.0, 400, colour, 0.0},
                            clock = {26.0, 500, COLOUR_SOFT, 1.0};
    double right = layout->column_x1;
    snprintf(text, sizeof text, "%d", place + 1);
    frame_text(frame, layout->column_x0 + NUMBERS, baseline, number, text);
    if (isfinite(end)) {
        double tick;
        clock_text(end, plan_whole(scene->plan, scene->now, &tick), text, sizeof text);
        right -= frame_text(frame, right, baseline, clock, text) + 14.0;
    }
    column_fitted(frame, layout->column_x0 + TITLES, baseline, right - layout->column_x0 - TITLES, title,
                  title_words(scene->model, step, false, words, sizeof words));
}

static void progress_bar(struct frame *frame, double x0, double x1, double y, double share)
{
    frame_bar(frame, x0, y, x1 - x0, 10.0, COLOUR_GROUND);
    frame_bar(frame, x0, y, (x1 - x0) * fmin(fmax(share, 0.0), 1.0), 10.0, COLOUR_INK);
}

static const char *length_words(double seconds, char *room, int size)
{
    if (seconds < 120.0)
        snprintf(room, (size_t)size, "%g s", seconds);
    else if (seconds < 7200.0)
        snprintf(room, (size_t)size, "%g min", seconds / 60.0);
    else
        snprintf(room, (size_t)size, "%g h", seconds / 3600.0);
    return room;
}

/* "waits for: tank gauge pressure < 20 Pa", "lasts 2 s"; "" for steps that take no time. */
static const char *waits_words(const struct ullage_step *step, bool brief, char *room, int size)
{
    char words[200];
    if (*step->condition)
        snprintf(room, (size_t)size, "waits for: %s", condition_words(step->condition, brief, words, sizeof words));
    else if (step->most > 0.0)
        snprintf(room, (size_t)size, "lasts %s", length_words(step->most, words, sizeof words));
    else
        room[0] = '\0';
    return room;
}

/* What the step waits for, its caution where it puts gas on, and how far it is. Returns the baseline below it. */
static double waits_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline)
{
    const struct ullage_step step = ullage_model_step(scene->model, scene->now->step);
    const struct text_style style = {24.0, 400, COLOUR_INK, 0.0}, strong = {22.0, 600, COLOUR_INK, 0.0};
    char text[256];
    waits_words(&step, false, text, sizeof text);
    if (frame_text_width(frame, style, text) > 1.9 * (x1 - x0)) /* two lines at most */
        waits_words(&step, true, text, sizeof text);
    baseline = column_paragraph(frame, x0, baseline, x1 - x0, style, text);
    if (step.gas)
        baseline = column_paragraph(frame, x0, baseline, x1 - x0, strong,
                                    "Inert gas only, 3.5 kPa at most, no sparks, good ventilation.");
    if (*text) {
        progress_bar(frame, x0, x1, baseline - 20.0, scene->now->step_share);
        baseline += 24.0;
    }
    return baseline;
}

static void elapsed_draw(struct frame *frame, const struct scene *scene, double x1, double baseline, double size)
{
    char text[32];
    const struct text_style style = {size, 700, COLOUR_INK, 1.0};
    const double since = fmax(scene->now->time - scene->now->step_since, 0.0);
    frame_text(frame, x1, baseline, style, clock_text(since, fmax(since, CLOCK_IN_MINUTES), text, sizeof text));
}

static double present_draw(struct frame *frame, const struct scene *scene, const struct layout *layout, int place,
                           double baseline)
{
    char text[16], words[200];
    const struct text_style number = {30.0, 700, COLOUR_INK, 1.0}, title = {30.0, 700, COLOUR_INK, 0.0};
    const double top = baseline - 28.0;
    snprintf(text, sizeof text, "%d", place + 1);
    frame_text(frame, layout->column_x0 + NUMBERS, baseline, number, text);
    column_fitted(frame, layout->column_x0 + TITLES, baseline, layout->column_x1 - layout->column_x0 - 140.0, title,
                  title_words(scene->model, scene->now->step, true, words, sizeof words));
    elapsed_draw(frame, scene, layout->column_x1, baseline, 26.0);
    const double below = waits_draw(frame, scene, layout->column_x0 + TITLES, layout->column_x1, baseline + 34.0);
    frame_bar(frame, layout->column_x0 - 18.0, top, 6.0, below - top - 26.0, COLOUR_INK);
    return below + 8.0;
}

static void step_note(const struct scene *scene, int place, int count, char *room, int size)
{
    if (scene->now->step == -2)
        snprintf(room, (size_t)size, "all done");
    else
        snprintf(room, (size_t)size, "step %d of %d", place + 1, count);
}

void steps_wide(struct frame *frame, const struct scene *scene, const struct layout *layout, double bottom)
{
    int listed[LISTED_MOST];
    char note[32];
    const int count = listed_steps(scene->model, listed), place = place_in_list(scene, listed, count);
    step_note(scene, place, count, note, sizeof note);
    column_heading(frame, layout->column_x0, layout->column_x1, 116.0, "Steps", note);
    double baseline = 168.0;
    int first = place - ROWS_BEFORE;
    if (place >= count) /* over: the last ones */
        first = count - (int)((bottom - baseline) / ROW);
    for (int k = first < 0 ? 0 : first; k < count && baseline < bottom; k++) {
        if (k == place && listed[k] == scene->now->step) {
            baseline = present_draw(frame, scene, layout, k, baseline + 4.0);
        } else {
            row_draw(frame, scene, layout, k, listed[k], baseline);
            baseline += ROW;
        }
    }
}

void steps_narrow(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    int listed[LISTED_MOST];
    char note[32], words[200], title[240] = "";
    const int count = listed_steps(scene->model, listed), place = place_in_list(scene, listed, count);
    step_note(scene, place, count, note, sizeof note);
    const bool running = scene->now->step >= 0;
    snprintf(title, sizeof title, scene->now->step == -2 ? "All steps are done" : "Not begun");
    if (running)
        snprintf(title, sizeof title, "%d  %s", place + 1,
                 title_words(scene->model, scene->now->step, true, words, sizeof words));
    column_heading(frame, layout->column_x0, layout->column_x1, 760.0, title, note);
    if (!running)
        return;
    const struct ullage_step step = ullage_model_step(scene->model, scene->now->step);
    const struct text_style style = {24.0, 400, COLOUR_INK, 0.0};
    char text[256];
    const double right = layout->column_x1 - 84.0;
    waits_words(&step, false, text, sizeof text);
    if (frame_text_width(frame, style, text) > right - layout->column_x0)
        waits_words(&step, true, text, sizeof text);
    column_fitted(frame, layout->column_x0, 808.0, right - layout->column_x0, style, text);
    elapsed_draw(frame, scene, layout->column_x1, 808.0, 26.0);
    progress_bar(frame, layout->column_x0, layout->column_x1, 824.0, scene->now->step_share);
}
