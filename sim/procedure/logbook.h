/* sim/procedure/logbook.h  What a run has told so far: events, readings, verdicts, samples, orders of the hand.
 *
 * All are lists that only grow; how many of each count at the present moment stands in the run's progress, so that going
 * back in time is setting a number back, and what is told a second time is written over with the same bits. */
#ifndef PROCEDURE_LOGBOOK_H
#define PROCEDURE_LOGBOOK_H

#include "base/tree.h"
#include "procedure/setting.h"

/* Something done by hand, to be done again when time passes there again. */
struct order {
    double time;
    struct setting setting;
    uint64_t chain; /* hash of this order and all before it: tells one past from another */
};

struct logbook {
    struct arena *arena;       /* all text */
    int width, readings_width; /* numbers in a sample, and beside a reading */
    struct ullage_event *event;
    struct ullage_reading *reading;
    struct ullage_verdict *verdict;
    double *sample;         /* [width] each */
    double *reading_values; /* [readings_width] each */
    struct order *order;
    int orders; /* known, also those that lie ahead */
    const char **text;
    int texts;
    int event_room, reading_room, values_room, verdict_room, sample_room, order_room, text_room;
    bool out_of_memory;
};

bool logbook_open(struct logbook *log, int sample_width, int reading_width);
void logbook_close(struct logbook *log);

/* Entry `index`, which is at most one beyond those there are; null when memory is out. */
struct ullage_event *logbook_event(struct logbook *log, int index);
struct ullage_reading *logbook_reading(struct logbook *log, int index);
struct ullage_verdict *logbook_verdict(struct logbook *log, int index);
double *logbook_sample(struct logbook *log, int index);
double *logbook_values(struct logbook *log, int index);
struct order *logbook_order(struct logbook *log, int index);

/* A copy that lives as long as the log; the same text is kept once. "" when memory is out. */
const char *logbook_text(struct logbook *log, const char *text);

#endif
