/* sim/procedure/logbook.c  Lists that grow; texts kept once. */
#include "procedure/logbook.h"

#include <stdlib.h>
#include <string.h>

enum { TEXTS_FIRST = 64 };

bool logbook_open(struct logbook *log, int sample_width, int reading_width)
{
    *log = (struct logbook){.arena = arena_create(),
                            .told = {.event = {.size = sizeof(struct ullage_event)},
                                     .reading = {.size = sizeof(struct ullage_reading)},
                                     .verdict = {.size = sizeof(struct ullage_verdict)},
                                     .sample = {.size = (size_t)sample_width * sizeof(double)},
                                     .reading_values = {.size = (size_t)reading_width * sizeof(double)},
                                     .order = {.size = sizeof(struct order)}}};
    return log->arena;
}

void logbook_close(struct logbook *log)
{
    arena_free(log->arena);
    told_free(&log->told);
    free(log->text);
}

/* ---- entries ---- */
static void *reached(struct logbook *log, struct rows *rows, int index)
{
    void *row = rows_reach(rows, index);
    log->out_of_memory = log->out_of_memory || !row;
    return row;
}

struct ullage_event *logbook_event(struct logbook *log, int index)
{
    return reached(log, &log->told.event, index);
}

struct ullage_reading *logbook_reading(struct logbook *log, int index)
{
    return reached(log, &log->told.reading, index);
}

struct ullage_verdict *logbook_verdict(struct logbook *log, int index)
{
    return reached(log, &log->told.verdict, index);
}

double *logbook_sample(struct logbook *log, int index)
{
    return reached(log, &log->told.sample, index);
}

double *logbook_values(struct logbook *log, int index)
{
    return reached(log, &log->told.reading_values, index);
}

struct order *logbook_order(struct logbook *log, int index)
{
    return reached(log, &log->told.order, index);
}

/* ---- ways ---- */
const struct order *told_order(const struct told *told, int index)
{
    return rows_at(&told->order, index);
}

uint64_t told_chain(const struct told *told, int orders)
{
    return orders > 0 ? told_order(told, orders - 1)->chain : 0;
}

bool told_share(struct told *into, const struct told *from, struct tally count)
{
    into->orders = count.orders;
    return rows_share(&into->event, &from->event, count.events) &&
           rows_share(&into->reading, &from->reading, count.readings) &&
           rows_share(&into->reading_values, &from->reading_values, count.readings) &&
           rows_share(&into->verdict, &from->verdict, count.verdicts) &&
           rows_share(&into->sample, &from->sample, count.samples) &&
           rows_share(&into->order, &from->order, count.orders);
}

void told_free(struct told *told)
{
    rows_free(&told->event);
    rows_free(&told->reading);
    rows_free(&told->reading_values);
    rows_free(&told->verdict);
    rows_free(&told->sample);
    rows_free(&told->order);
}

/* ---- texts ---- */
static bool text_room(struct logbook *log)
{
    if (log->texts < log->text_room)
        return true;
    const int room = log->text_room > 0 ? 2 * log->text_room : TEXTS_FIRST;
    const char **more = realloc(log->text, (size_t)room * sizeof *more);
    if (!more)
        return false;
    log->text = more;
    log->text_room = room;
    return true;
}

const char *logbook_text(struct logbook *log, const char *text)
{
    for (int k = 0; k < log->texts; k++)
        if (!strcmp(log->text[k], text))
            return log->text[k];
    const char *copy = text_room(log) ? arena_text(log->arena, text) : NULL;
    log->out_of_memory = log->out_of_memory || !copy;
    if (!copy)
        return "";
    log->text[log->texts++] = copy;
    return copy;
}
