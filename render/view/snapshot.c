/* snapshot.c  Copying one moment of a run: values, steps and their times, what is joined, readings, verdicts. */
#include "view/snapshot.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool cells_make(struct snapshot *snapshot, const struct ullage_model *model)
{
    const int parts = ullage_model_parts(model);
    snapshot->cell_of = calloc((size_t)parts + 1, sizeof *snapshot->cell_of);
    for (int p = 0; snapshot->cell_of && p < parts; p++)
        snapshot->cell_of[p + 1] = snapshot->cell_of[p] + ullage_model_cells(model, p);
    snapshot->cells = snapshot->cell_of ? snapshot->cell_of[parts] : 0;
    snapshot->cell = calloc((size_t)snapshot->cells + 1, sizeof *snapshot->cell);
    return snapshot->cell_of && snapshot->cell;
}

bool snapshot_make(struct snapshot *snapshot, const struct ullage_model *model)
{
    const size_t channels = (size_t)ullage_model_channels(model), parts = (size_t)ullage_model_parts(model);
    snapshot->value = calloc(channels + 1, sizeof *snapshot->value);
    snapshot->off_scale = calloc(channels + 1, sizeof *snapshot->off_scale);
    snapshot->joined = calloc(parts + 1, sizeof *snapshot->joined);
    const bool cells = cells_make(snapshot, model);
    if (snapshot->value && snapshot->off_scale && snapshot->joined && cells)
        return true;
    snapshot_free(snapshot);
    return false;
}

void snapshot_free(struct snapshot *snapshot)
{
    free(snapshot->value);
    free(snapshot->off_scale);
    free(snapshot->joined);
    free(snapshot->cell);
    free(snapshot->cell_of);
    free(snapshot->span);
    free(snapshot->mark);
    free(snapshot->reading);
    free(snapshot->verdict);
    *snapshot = (struct snapshot){0};
}

/* Room for one more; the item to fill, or null when memory is out. */
static void *list_add(struct snapshot *snapshot, void *list, int *count, int *room, size_t size)
{
    void **items = list;
    if (*count >= *room) {
        const int wanted = 2 * *room + 16;
        void *grown = realloc(*items, (size_t)wanted * size);
        if (!grown) {
            snapshot->out_of_memory = true;
            return NULL;
        }
        *items = grown;
        *room = wanted;
    }
    return (char *)*items + (size_t)(*count)++ * size;
}

static void span_begin(struct snapshot *snapshot, const struct ullage_event *event)
{
    struct step_span *span =
        list_add(snapshot, &snapshot->span, &snapshot->spans, &snapshot->span_room, sizeof *snapshot->span);
    if (span)
        *span = (struct step_span){event->step, event->time, (double)INFINITY};
}

static void span_end(struct snapshot *snapshot, const struct ullage_event *event)
{
    for (int k = snapshot->spans - 1; k >= 0; k--)
        if (snapshot->span[k].step == event->step && isinf(snapshot->span[k].to)) {
            snapshot->span[k].to = event->time;
            return;
        }
}

static void mark_add(struct snapshot *snapshot, const struct ullage_event *event)
{
    struct moment_mark *mark =
        list_add(snapshot, &snapshot->mark, &snapshot->marks, &snapshot->mark_room, sizeof *snapshot->mark);
    if (mark)
        *mark = (struct moment_mark){event->time, event->subject, event->text};
}

static void event_take(struct snapshot *snapshot, const struct ullage_model *model, const struct ullage_event *event)
{
    const int subject = event->subject && (event->kind == ULLAGE_JOINED || event->kind == ULLAGE_PARTED)
                            ? ullage_model_find_part(model, event->subject)
                            : -1;
    switch (event->kind) {
    case ULLAGE_STEP_BEGUN:
        span_begin(snapshot, event);
        snapshot->said = "";
        break;
    case ULLAGE_STEP_ENDED:
        span_end(snapshot, event);
        break;
    case ULLAGE_COMMANDED:
        if (event->by_hand)
            mark_add(snapshot, event);
        break;
    case ULLAGE_SWITCHED: /* that a nozzle may pour again follows from what the hand does: no news */
        if (strcmp(event->text, "is ready"))
            mark_add(snapshot, event);
        break;
    case ULLAGE_FAULT_CHANGED:
        mark_add(snapshot, event);
        break;
    case ULLAGE_SAID:
        snapshot->said = event->text;
        break;
    case ULLAGE_JOINED:
        if (subject >= 0)
            snapshot->joined[subject] = ullage_model_find_part(model, event->text);
        break;
    case ULLAGE_PARTED:
        if (subject >= 0)
            snapshot->joined[subject] = -1;
        break;
    default: /* waits that expired, readings and verdicts have lists of their own */
        break;
    }
}

/* Equipment that stands joined from the start names its port in its own file. */
static void joined_at_start(struct snapshot *snapshot, const struct ullage_model *model)
{
    for (int p = 0; p < ullage_model_parts(model); p++) {
        const struct ullage_part part = ullage_model_part(model, p);
        snapshot->joined[p] = -1;
        for (int k = 0; k < part.links; k++)
            if (!strcmp(part.link[k].key, "join") && part.link[k].part >= 0)
                snapshot->joined[p] = part.link[k].part;
    }
}

static void results_take(struct snapshot *snapshot, const struct ullage_run *run)
{
    const int readings = ullage_run_readings(run), verdicts = ullage_run_verdicts(run);
    snapshot->readings = snapshot->verdicts = 0;
    for (int k = 0; k < readings; k++) {
        struct ullage_reading *reading = list_add(snapshot, &snapshot->reading, &snapshot->readings,
                                                  &snapshot->reading_room, sizeof *snapshot->reading);
        if (reading)
            *reading = ullage_run_reading(run, k);
    }
    for (int k = 0; k < verdicts; k++) {
        struct ullage_verdict *verdict = list_add(snapshot, &snapshot->verdict, &snapshot->verdicts,
                                                  &snapshot->verdict_room, sizeof *snapshot->verdict);
        if (verdict)
            *verdict = ullage_run_verdict(run, k);
    }
}

void snapshot_take(struct snapshot *snapshot, const struct ullage_model *model, const struct ullage_run *run,
                   double latest)
{
    snapshot->time = ullage_run_time(run);
    snapshot->latest = fmax(latest, snapshot->time);
    snapshot->step = ullage_run_step(run, &snapshot->step_since, &snapshot->step_share);
    snapshot->trouble = ullage_run_trouble(run);
    snapshot->said = "";
    snapshot->spans = snapshot->marks = 0;
    ullage_run_values(model, run, snapshot->value, snapshot->off_scale);
    for (int p = 0; p < ullage_model_parts(model); p++)
        if (snapshot->cell_of[p + 1] > snapshot->cell_of[p])
            ullage_run_cells(model, run, p, &snapshot->cell[snapshot->cell_of[p]]);
    joined_at_start(snapshot, model);
    for (int k = 0; k < ullage_run_events(run); k++) {
        const struct ullage_event event = ullage_run_event(run, k);
        event_take(snapshot, model, &event);
    }
    for (int k = 0; k < ullage_weathers() && k < WEATHERS_MOST; k++)
        snapshot->weather[k] = ullage_run_weather(model, run, k);
    results_take(snapshot, run);
}
