/* sim/procedure/logbook.h  What a run has told so far: events, readings, verdicts, samples, orders of the hand.
 *
 * All are lists that only grow; how many of each count at the present moment stands in the run's progress, so that going
 * back in time is setting a number back, and what is told a second time is written over with the same bits. Of another way
 * from some moment on the lists are others, which share what was told up to there. */
#ifndef PROCEDURE_LOGBOOK_H
#define PROCEDURE_LOGBOOK_H

#include "base/tree.h"
#include "procedure/rows.h"
#include "procedure/setting.h"

/* Something done by hand, to be done again when time passes there again. */
struct order {
    double time;
    struct setting setting;
    uint64_t chain; /* hash of this order and all before it: tells one past from another */
};

/* How many of each there are. */
struct tally {
    int events, readings, verdicts, samples, orders;
};

/* What is told along one way. */
struct told {
    struct rows event, reading, verdict;
    struct rows sample;         /* [width] numbers each */
    struct rows reading_values; /* [readings_width] numbers each */
    struct rows order;
    int orders; /* known, also those that lie ahead */
};

struct logbook {
    struct arena *arena; /* all text, of all ways */
    struct told told;    /* of the present way */
    const char **text;
    int texts, text_room;
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

/* An order that is known. */
const struct order *told_order(const struct told *told, int index);
/* The chain after the first `orders` of them. */
uint64_t told_chain(const struct told *told, int orders);
/* The first of each of them as lists of their own, sharing all they can. `into` starts as zeros. False when memory is out;
 * told_free then, too. */
bool told_share(struct told *into, const struct told *from, struct tally count);
void told_free(struct told *told);

/* A copy that lives as long as the log; the same text is kept once. "" when memory is out. */
const char *logbook_text(struct logbook *log, const char *text);

#endif
