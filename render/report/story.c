/* report/story.c  What happened in a run, in order: steps, commands, readings and verdicts as sentences on a clock.
 *
 * Sentences of one moment share a line. A step's own name is told where the file gives one; what was commanded, joined or
 * read is put into words here. */
#include "report/story.h"

#include "report/fuel.h"
#include "report/meter.h"
#include "report/page.h"

#include <math.h>
#include <string.h>

enum { CLOCK_COLUMN = 10 }; /* where sentences begin */

/* Sentences of one moment share a line when they are of one kind. */
enum line_kind {
    LINE_DONE,  /* what was done: steps, commands */
    LINE_SEEN,  /* what came of it: waits that ended, readings */
    LINE_BELOW, /* stands alone below another */
};

struct story {
    struct page page;
    const struct experiment *of;
    enum figure_units units;
    double line_time; /* of the line begun; NAN: none yet */
    enum line_kind line_kind;
    double begun; /* when the present step began */
    bool expired; /* its wait came to its limit */
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

/* "holding air and nitrogen": what the books found at the start, down to a thousandth; fuel as a whole. */
static void gases_tell(struct page *page, const struct experiment *of)
{
    double all = 0.0;
    int told = 0;
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < ullage_model_ledger_rows(of->model); i++) {
            const struct ullage_ledger_row row = ullage_run_ledger(of->model, of->run, i);
            if (row.fuel || !experiment_is_gas(of, row.name))
                continue;
            if (pass == 0)
                all += row.stored_start;
            else if (row.stored_start > 1e-3 * all)
                page_put(page, "%s %s", told++ ? "and" : "holding", row.name);
        }
    const struct ullage_fuel fuel = ullage_run_fuel(of->model, of->run);
    const double mass = fuel.liquid.start + fuel.gas.start + fuel.carbon.start;
    char figure[FIGURE_ROOM];
    if (mass > 0.0)
        page_put(page, "%s %s of fuel%s", told++ ? "and" : "holding", fuel_figure(mass, figure),
                 fuel.liquid.start > 0.0 ? "" : " vapor");
    if (told)
        page_put(page, "at the start.");
}

/* "The carbon of the canister holds 36.6 g of fuel vapor.": what each bed begins with; a clean one is passed over. */
static void beds_tell(struct page *page, const struct experiment *of, enum figure_units units)
{
    for (int part = 0; part < ullage_model_parts(of->model); part++) {
        const double load = channel_value(of->model, of->start, part, "load");
        char name[FIGURE_ROOM], mass[FIGURE_ROOM];
        if (load > 0.0)
            page_put(page, "The carbon of the %s holds %s of fuel vapor at the start.",
                     figure_words(ullage_model_part(of->model, part).id, false, name),
                     figure_value(load, ULLAGE_MASS, units, mass));
    }
}

void story_setting(FILE *to, const struct experiment *of, enum figure_units units)
{
    struct page page = {.to = to};
    const char *system = ullage_model_system(of->model);
    const double pressure = channel_value(of->model, of->start, -1, "pressure");
    const double temperature = channel_value(of->model, of->start, -1, "temperature");
    char figure[FIGURE_ROOM];
    page_put(&page, "%s:", figure_words(*system ? system : ullage_model_name(of->model), true, figure));
    spaces_tell(&page, of->model, units);
    gases_tell(&page, of);
    page_put(&page, "Around it %s,", figure_value(temperature, ULLAGE_TEMPERATURE, units, figure));
    if (units == FIGURE_SI)
        page_put(&page, "%s.", figure_value(pressure, ULLAGE_PRESSURE, units, figure));
    else
        page_put(&page, "%.0f hPa.", pressure / 100.0);
    beds_tell(&page, of, units);
    page_end(&page);
    page_put(&page, "%s", ullage_model_about(of->model));
    page_end(&page);
}

/* ---- events ------------------------------------------------------------------------------------------------------ */

/* Goes on with the line of that very moment and kind, or begins one. */
static struct page *line_at(struct story *story, double time, enum line_kind kind)
{
    const bool new_moment = story->line_time != time;
    char clock[FIGURE_ROOM];
    char head[FIGURE_ROOM] = "";
    if (!new_moment && story->line_kind == kind && kind != LINE_BELOW)
        return &story->page;
    if (new_moment || kind == LINE_DONE)
        snprintf(head, sizeof head, "%*.20s", CLOCK_COLUMN - 2, figure_clock(time, clock));
    page_begin(&story->page, CLOCK_COLUMN, head);
    story->line_time = time;
    story->line_kind = kind;
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
        page_put(line_at(story, event->time, LINE_DONE), "%s.", step.title);
}

/* "Meter hole steady": the condition settled(meter.hole, 20 s, 0.005 mm) alone, as a person says it. False: another. */
static bool settled_tell(struct page *page, const char *condition, const char *span)
{
    static const char head[] = "settled(";
    const size_t length = strcspn(condition, ",");
    if (strncmp(condition, head, sizeof head - 1) != 0 || condition[length] != ',' ||
        strcspn(condition, ")") + 1 != strlen(condition))
        return false;
    char channel[FIGURE_ROOM];
    char words[FIGURE_ROOM];
    snprintf(channel, sizeof channel, "%.*s", (int)(length - (sizeof head - 1)), condition + sizeof head - 1);
    page_put(page, "%s steady after %s.", figure_words(channel, true, words), span);
    return true;
}

/* How long a wait for something took. */
static void ended_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_step step = ullage_model_step(story->of->model, event->step);
    char span[FIGURE_ROOM];
    if (!verb_is(&step, "wait") || !*step.condition || story->expired)
        return;
    struct page *page = line_at(story, event->time, LINE_SEEN);
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
    page_put(line_at(story, event->time, LINE_SEEN), "%s%sNot within %s: %s.", step.named ? step.title : "",
             step.named ? ". " : "", figure_span(step.most, span), step.condition);
}

/* "0.50 mm (0.020 in) across": a round hole's size belongs to its appearing. */
static void size_tell(struct page *page, const struct story *story, const char *id)
{
    const struct ullage_model *model = story->of->model;
    const int part = ullage_model_find_part(model, id);
    if (part < 0 || strcmp(ullage_model_part(model, part).type, "hole") != 0)
        return;
    const char *shape = ullage_model_word(model, part, "shape");
    const double size = ullage_model_parameter(model, part, "diameter");
    char figure[FIGURE_ROOM];
    if (size > 0.0 && (!shape || strcmp(shape, "round") == 0)) /* 0: its size comes by hand, and was told with it */
        page_put(page, "%s across.", figure_value(size, ULLAGE_LENGTH, story->units, figure));
}

/* "0.5 mm from=10min ramp=30s" as "0.5 mm, from 10min, ramp 30s". */
static const char *value_words(const char *value, char room[FIGURE_ROOM])
{
    size_t used = 0;
    for (const char *word = value; *word && used + 3 < FIGURE_ROOM; word++) {
        const size_t length = strcspn(word + 1, " ");
        if (*word == ' ' && memchr(word + 1, '=', length))
            room[used++] = ',';
        room[used++] = *word == '=' ? ' ' : *word;
    }
    room[used] = '\0';
    return room;
}

/* "air temperature" of "surroundings.temperature"; null: it is no part of the surroundings. */
static const char *weather_label(const char *key)
{
    for (int k = 0; k < ullage_weathers(); k++)
        if (strcmp(ullage_weather_at(k).key, key) == 0)
            return ullage_weather_at(k).label;
    return NULL;
}

static void commanded_tell(struct story *story, const struct ullage_event *event)
{
    struct page *page = line_at(story, event->time, LINE_DONE);
    const bool told = !event->by_hand && event->step >= 0 && ullage_model_step(story->of->model, event->step).named;
    const char *weather = weather_label(event->subject);
    char subject[FIGURE_ROOM], value[FIGURE_ROOM];
    figure_words(weather ? weather : event->subject, true, subject);
    if (!told)
        page_put(page, !weather && strchr(event->subject, '.') ? "%s%s now %s." : "%s%s %s.",
                 event->by_hand ? "By hand: " : "", subject, value_words(event->text, value));
    if (event->number > 0.0)
        size_tell(page, story, event->subject);
}

/* "Nitrogen with smoke at the service port, 3.00 kPa (12.0 inH2O), 15.0 L/min at most." */
static void joined_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_model *model = story->of->model;
    struct page *page = line_at(story, event->time, LINE_DONE);
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
        const int below = meter_tell(line_at(story, event->time, LINE_SEEN), story->of, index, story->units);
        story->line_kind = below ? LINE_BELOW : LINE_SEEN;
        return;
    }
    if (!reading_is_told(story->of, index))
        page_put(line_at(story, event->time, LINE_SEEN), "%s: %s.",
                 figure_words(ullage_run_reading(story->of->run, index).name, true, name),
                 reading_figure(story->of, index, story->units, figure));
}

static void judged_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_verdict verdict = ullage_run_verdict(story->of->run, (int)event->number);
    char name[FIGURE_ROOM];
    page_put(line_at(story, event->time, LINE_BELOW), "%s: %s%s%s.", figure_words(verdict.name, true, name),
             result_word(verdict.result), *verdict.reason ? ", " : "", verdict.reason);
}

/* The fault of the file that an event is about, where it is no hole; -1: it is one. */
static int fault_find(const struct ullage_model *model, const char *id)
{
    for (int k = 0; k < ullage_model_faults(model); k++) {
        const struct ullage_model_fault fault = ullage_model_fault(model, k);
        if (fault.hole < 0 && strcmp(fault.id, id) == 0)
            return k;
    }
    return -1;
}

static void fault_tell(struct story *story, const struct ullage_event *event)
{
    const struct ullage_model *model = story->of->model;
    const int fault = fault_find(model, event->subject);
    struct page *page = line_at(story, event->time, LINE_DONE);
    page_put(page, "Fault %s %s.", event->subject, event->text);
    if (strcmp(event->text, "begins") != 0)
        return;
    size_tell(page, story, event->subject);
    if (fault >= 0) {
        const struct ullage_model_fault about = ullage_model_fault(model, fault);
        char words[FIGURE_ROOM];
        page_put(page, "%s: %s.", figure_words(about.what, true, words), about.fault.comes);
    }
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
        page_put(line_at(story, event->time, LINE_DONE), "%s taken off.", figure_words(event->subject, true, words));
        break;
    case ULLAGE_READ:
        read_tell(story, event);
        break;
    case ULLAGE_JUDGED:
        judged_tell(story, event);
        break;
    case ULLAGE_SAID:
        page_put(line_at(story, event->time, LINE_SEEN), "%s", event->text);
        break;
    case ULLAGE_FAULT_CHANGED:
        fault_tell(story, event);
        break;
    case ULLAGE_SWITCHED:
        page_put(line_at(story, event->time, LINE_DONE), "%s %s.", figure_words(event->subject, true, words),
                 event->text);
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
