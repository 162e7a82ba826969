/* snapshot.h  One moment of a run, copied out so that a frame is made of data alone. */
#ifndef VIEW_SNAPSHOT_H
#define VIEW_SNAPSHOT_H

#include "view/cast.h"
#include "view/weather.h"

/* A stretch of time that a step took. */
struct step_span {
    int step;
    double from, to; /* s; to INFINITY: still on */
};

/* Something that a hand, a fault or a valve by itself did, to be named on the charts. */
struct moment_mark {
    double time;
    const char *subject, *text;
};

struct snapshot {
    double time, latest; /* s; latest: up to where the run has been computed */
    int step;            /* as ullage_run_step */
    double step_since, step_share;
    const char *said;    /* the last thing a step said, while its step lasts; "" */
    const char *trouble; /* "" */
    bool finished;
    double *value;          /* [channels] */
    signed char *off_scale; /* [channels] */
    int *joined;            /* [parts]: equipment: the port it is joined to, -1: none */
    int cells;
    struct ullage_cell *cell; /* [cells] of all beds */
    int *cell_of;             /* [parts + 1]: where a part's cells begin, the next one's where they end */
    int spans, marks, readings, verdicts;
    struct step_span *span; /* in order of time */
    struct moment_mark *mark;
    struct ullage_reading *reading;
    struct ullage_verdict *verdict;
    int span_room, mark_room, reading_room, verdict_room;
    struct ullage_weather_now weather[WEATHERS_MOST];
    bool out_of_memory;
};

/* Starts as all zeros. make sizes it for the model, take copies the present moment of the run into it. Strings stay the
 * run's and the model's. */
bool snapshot_make(struct snapshot *snapshot, const struct ullage_model *model);
void snapshot_take(struct snapshot *snapshot, const struct ullage_model *model, const struct ullage_run *run,
                   double latest);
void snapshot_free(struct snapshot *snapshot);

#endif
