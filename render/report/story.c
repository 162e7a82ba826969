/* report/story.c  What happened in a run, in order: steps, commands, readings and verdicts as sentences on a clock.
 *
 * Sentences of one moment share a line. A step's own name is told where the file gives one; what was commanded, joined or
 * read is put into words here. */
#include "report/story.h"

#include "report/meter.h"
#include "report/page.h"

#include <math.h>
#include <string.h>

enum { CLOCK_COLUMN = 9 }; /* where sentences begin */

struct story {
    struct page page;
    const struct experiment *of;
    enum figure_units units;
    double line_time; /* of the line begun; NAN: none */
    double begun;     /* when the present step began */
    bool expired;     /* its wait came to its limit */
};

/* ---- the setting ------------------------------------------------------------------------------------------------- */

enum { SPACES_TOLD = 3 };

/* The gas space with the largest volume under `below` (a volume and a part: equal ones are told in the file's order). */
static int space_next(const struct ullage_model *model, int last)
{
    const double below = last < 0 ? HUGE_VAL : ullage_model_parameter(model, last, "volume");
    int next = -1;
    double largest = 0.0;
    for (int part = 0; part < ullage_model_parts(model); part++) {
        const double volume = ullage_model_parameter(model, part, "volume");
        const bool left = volume < below || (volume <= below && part > last);
        if (left && volume > largest) {
            next = part;
            largest = volume;
        }
    }
    return next;
}

static void spaces_tell(struct page *page, const struct ullage_model *model, enum figure_units units)
{
    int part = space_next(model, -1);
    for (int told = 0; part >= 0 && told < SPACES_TOLD; told++, part = space_next(model, part)) {
        const double volume = ullage_model_parameter(model, part, "volume");
        char size[FIGURE_ROOM];
        if (units == FIGURE_SI)
            figure_value(volume, ULLAGE_VOLUME, units, size);
        else
            figure_plain(volume, ULLAGE_VOLUME, size);
        page_put(page, "%s %s,", ullage_model_part(model, part).label, size);
    }
    if (part >= 0)
        page_put(page, "and smaller gas spaces,");
}

void story_setting(FILE *to, const struct experiment *of, enum figure_units units)
{
    struct page page = {.to = to};
    const char *system = ullage_model_system(of->model);
    const double pressure = channel_value(of->model, of->start, -1, "pressure");
    const double temperature = channel_value(of->model, of->start, -1, "temperature");
    char figure[FIGURE_ROOM];
    page_begin(&page, 0, "");
    page_put(&page, "%s:", figure_words(*system ? system : ullage_model_name(of->model), true, figure));
    spaces_tell(&page, of->model, units);
    page_put(&page, "air at %s,", figure_value(temperature, ULLAGE_TEMPERATURE, units, figure));
    if (units == FIGURE_SI)
        page_put(&page, "%s.", figure_value(pressure, ULLAGE_PRESSURE, units, figure));
    else
        page_put(&page, "%.0f hPa.", pressure / 100.0);
    page_end(&page);
    if (*ullage_model_about(of->model))
        page_put(&page, "%s", ullage_model_about(of->model));
    page_end(&page);
}

/* ---- events ------------------------------------------------------------------------------------------------------ */

/* Begins a line at `time`, or goes on with the one of that very moment. */
static struct page *line_at(struct story *story, double time)
{
    char clock[FIGURE_ROOM];
    char head[FIGURE_ROOM];
    if (story->line_time != time || story->page.column == 0) {
        snprintf(head, sizeof head, "%*.20s", CLOCK_COLUMN - 2, figure_clock(time, clock));
        page_begin(&story->page, CLOCK_COLUMN, head);
    }
    story->line_time = time;
    return &story->page;
}

/* A line of its own below the one begun. */
static struct page *line_below(struct story *story, double time)
{
    if (story->line_time != time || story->page.column == 0)
        return line_at(story, time);
    page_begin(&story->page, CLOCK_COLUMN, "");
    return &story->page;
}

static bool verb_is(const struct ullage_step *step, const char *verb)
{
    return strcmp(step->verb, verb) == 0;
}

static void begun_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_step step = ullage_model_step(story->of->model, event->step);
    story->begun = event->time;
    story->expired = false;
    const bool told_at_end = verb_is(&step, "wait") && *step.condition;
    if (step.named && !told_at_end)
        page_put(line_at(story, event->time), "%s.", step.title);
}

/* "meter.hole steady": the condition settled(meter.hole, 20 s, 0.005 mm) alone, as a person says it. False: another. */
static bool settled_tell(struct page *page, const char *condition, const char *span)
{
    static const char head[] = "settled(";
    const size_t length = strcspn(condition, ",");
    if (strncmp(condition, head, sizeof head - 1) != 0 || condition[length] != ',' ||
        strcspn(condition, ")") + 1 != strlen(condition))
        return false;
    page_put(page, "%.*s steady after %s.", (int)(length - (sizeof head - 1)), condition + sizeof head - 1, span);
    return true;
}

/* How long a wait for something took. */
static void ended_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_step step = ullage_model_step(story->of->model, event->step);
    char span[FIGURE_ROOM];
    if (!verb_is(&step, "wait") || !*step.condition || story->expired)
        return;
    struct page *page = line_at(story, event->time);
    figure_span(event->time - story->begun, span);
    if (step.named)
        page_put(page, "%s: %s.", step.title, span);
    else if (!settled_tell(page, step.condition, span))
        page_put(page, "After %s: %s.", span, step.condition);
}

static void expired_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_step step = ullage_model_step(story->of->model, event->step);
    char span[FIGURE_ROOM];
    story->expired = true;
    page_put(line_at(story, event->time), "%s%sNot within %s: %s.", step.named ? step.title : "",
             step.named ? ". " : "", figure_span(step.most, span), step.condition);
}

/* The size of a round hole that has just been opened belongs to what happened. */
static void opened_size_tell(struct page *page, const struct story *story, const struct ullage_event *event)
{
    const int part = ullage_model_find_part(story->of->model, event->subject);
    if (part < 0 || !(event->number > 0.0) || strcmp(ullage_model_part(story->of->model, part).type, "hole") != 0)
        return;
    const char *shape = ullage_model_word(story->of->model, part, "shape");
    char size[FIGURE_ROOM];
    if (!shape || strcmp(shape, "round") == 0)
        page_put(page, "%s across.",
                 figure_value(ullage_model_parameter(story->of->model, part, "diameter"), ULLAGE_LENGTH, story->units,
                              size));
}

static void commanded_tell(struct story *story, const struct ullage_event *event)
{
    struct page *page = line_at(story, event->time);
    const bool told = !event->by_hand && event->step >= 0 && ullage_model_step(story->of->model, event->step).named;
    char subject[FIGURE_ROOM];
    figure_words(event->subject, true, subject);
    char *dot = strchr(subject, '.');
    if (dot)
        *dot = ' ';
    if (!told)
        page_put(page, dot ? "%s%s now %s." : "%s%s %s.", event->by_hand ? "By hand: " : "", subject, event->text);
    opened_size_tell(page, story, event);
}

/* "Nitrogen with smoke at the service port, 3.00 kPa (12.0 inH2O), 15.0 L/min at most." */
static void joined_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_model *model = story->of->model;
    struct page *page = line_at(story, event->time);
    const int part = ullage_model_find_part(model, event->subject);
    const char *gas = part < 0 ? NULL : ullage_model_word(model, part, "gas");
    const char *tracer = part < 0 ? NULL : ullage_model_word(model, part, "tracer");
    const bool marked = tracer && strcmp(tracer, "none") != 0;
    char words[FIGURE_ROOM];
    char port[FIGURE_ROOM];
    page_put(page, "%s%s%s joined at the %s", figure_words(gas ? gas : event->subject, true, words),
             marked ? " with " : "", marked ? tracer : "", figure_words(event->text, false, port));
    if (!gas) {
        page_put(page, ".");
        return;
    }
    page_put(page, "at %s,",
             figure_value(ullage_model_parameter(model, part, "gauge_pressure"), ULLAGE_PRESSURE, story->units, words));
    page_put(page, "%s at most.",
             figure_value(ullage_model_parameter(model, part, "flow_limit"), ULLAGE_VOLUME_FLOW, story->units, words));
}

static void read_tell(struct story *story, const struct ullage_event *event)
{
    const int index = (int)event->number;
    char name[FIGURE_ROOM];
    char figure[FIGURE_ROOM];
    if (reading_is_hole(story->of, index)) {
        meter_tell(line_below(story, event->time), story->of, index, story->units);
        return;
    }
    page_put(line_at(story, event->time), "%s: %s.",
             figure_words(ullage_run_reading(story->of->run, index).name, true, name),
             reading_figure(story->of, index, story->units, figure));
}

static void judged_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_verdict verdict = ullage_run_verdict(story->of->run, (int)event->number);
    char name[FIGURE_ROOM];
    page_put(line_below(story, event->time), "%s: %s%s%s.", figure_words(verdict.name, true, name),
             result_word(verdict.result), *verdict.reason ? ", " : "", verdict.reason);
}

static void event_tell(struct story *story, const struct ullage_event *event)
{
    char words[FIGURE_ROOM];
    switch (event->kind) {
    case ULLAGE_STEP_BEGUN:
        begun_tell(story, event);
        break;
    case ULLAGE_STEP_ENDED:
        ended_tell(story, event);
        break;
    case ULLAGE_WAIT_EXPIRED:
        expired_tell(story, event);
        break;
    case ULLAGE_COMMANDED:
        commanded_tell(story, event);
        break;
    case ULLAGE_JOINED:
        joined_tell(story, event);
        break;
    case ULLAGE_PARTED:
        page_put(line_at(story, event->time), "%s taken off.", figure_words(event->subject, true, words));
        break;
    case ULLAGE_READ:
        read_tell(story, event);
        break;
    case ULLAGE_JUDGED:
        judged_tell(story, event);
        break;
    case ULLAGE_SAID:
        page_put(line_at(story, event->time), "%s", event->text);
        break;
    case ULLAGE_FAULT_CHANGED:
        page_put(line_at(story, event->time), "Fault %s %s.", event->subject, event->text);
        break;
    }
}

void story_events(FILE *to, const struct experiment *of, enum figure_units units)
{
    struct story story = {.page = {.to = to}, .of = of, .units = units, .line_time = (double)NAN};
    for (int i = 0; i < ullage_run_events(of->run); i++) {
        const struct ullage_event event = ullage_run_event(of->run, i);
        event_tell(&story, &event);
    }
    page_end(&story.page);
}
