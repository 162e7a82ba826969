/* sim/procedure/logbook.c  Lists that grow by doubling. */
#include "procedure/logbook.h"

#include <stdlib.h>
#include <string.h>

enum { ROOM_FIRST = 64, ROOM_MOST = 1 << 30 };

bool logbook_open(struct logbook *log, int sample_width, int reading_width)
{
    *log = (struct logbook){.arena = arena_create(), .width = sample_width, .readings_width = reading_width};
    return log->arena;
}

void logbook_close(struct logbook *log)
{
    arena_free(log->arena);
    free(log->event);
    free(log->reading);
    free(log->verdict);
    free(log->sample);
    free(log->reading_values);
    free(log->order);
    free(log->text);
}

/* `rows` with room for entry `index`, each of `size` bytes; null, with the old rows left to the caller, when memory is
 * out. */
static void *grown(struct logbook *log, void *rows, int *room, int index, size_t size)
{
    if (index < *room)
        return rows;
    int wanted = *room > 0 ? *room : ROOM_FIRST;
    while (wanted <= index && wanted < ROOM_MOST)
        wanted *= 2;
    void *more = (size_t)wanted <= SIZE_MAX / size ? realloc(rows, (size_t)wanted * size) : NULL;
    if (more)
        *room = wanted;
    else
        log->out_of_memory = true;
    return more;
}

struct ullage_event *logbook_event(struct logbook *log, int index)
{
    struct ullage_event *rows = grown(log, log->event, &log->event_room, index, sizeof *rows);
    if (!rows)
        return NULL;
    log->event = rows;
    return &rows[index];
}

struct ullage_reading *logbook_reading(struct logbook *log, int index)
{
    struct ullage_reading *rows = grown(log, log->reading, &log->reading_room, index, sizeof *rows);
    if (!rows)
        return NULL;
    log->reading = rows;
    return &rows[index];
}

struct ullage_verdict *logbook_verdict(struct logbook *log, int index)
{
    struct ullage_verdict *rows = grown(log, log->verdict, &log->verdict_room, index, sizeof *rows);
    if (!rows)
        return NULL;
    log->verdict = rows;
    return &rows[index];
}

double *logbook_sample(struct logbook *log, int index)
{
    const size_t width = (size_t)log->width;
    double *rows = grown(log, log->sample, &log->sample_room, index, width * sizeof *rows);
    if (!rows)
        return NULL;
    log->sample = rows;
    return &rows[(size_t)index * width];
}

double *logbook_values(struct logbook *log, int index)
{
    const size_t width = (size_t)log->readings_width;
    double *rows = grown(log, log->reading_values, &log->values_room, index, width * sizeof *rows);
    if (!rows)
        return NULL;
    log->reading_values = rows;
    return &rows[(size_t)index * width];
}

struct order *logbook_order(struct logbook *log, int index)
{
    struct order *rows = grown(log, log->order, &log->order_room, index, sizeof *rows);
    if (!rows)
        return NULL;
    log->order = rows;
    return &rows[index];
}

const char *logbook_text(struct logbook *log, const char *text)
{
    for (int k = 0; k < log->texts; k++)
        if (!strcmp(log->text[k], text))
            return log->text[k];
    const char **rows = grown(log, log->text, &log->text_room, log->texts, sizeof *rows);
    const char *copy = rows ? arena_text(log->arena, text) : NULL;
    if (rows)
        log->text = rows;
    log->out_of_memory = log->out_of_memory || !copy;
    if (!copy)
        return "";
    log->text[log->texts++] = copy;
    return copy;
}
