/* sim/procedure/conduct.h  The door's run: physics, how far the procedure has come, and what was told on the way.
 *
 * The conduct is the outer loop. Invariants:
 *   between two calls the present step is a wait, or the procedure is over;
 *   up to progress.watched its condition is known to be false and its windows are fed;
 *   from watched to progress.ahead (a point within the known solution) the condition turns true at progress.turns, if at
 *   all; now lies between the two. So pausing anywhere inside changes nothing that follows;
 *   everything that decides the future is the physics' block, progress with what lies behind it, and orders ahead. */
#ifndef PROCEDURE_CONDUCT_H
#define PROCEDURE_CONDUCT_H

#include "procedure/logbook.h"
#include "procedure/model.h"
#include "procedure/step.h"

/* What was told of a switch: its bit, and how often it flipped without a rest. */
struct switched {
    bool on;
    int often;
    double last; /* s */
};

/* Head of the block that is saved and restored. Counts are those of the logbook's entries so far. */
struct progress {
    int step;     /* the present one; -1 before the first, PROCEDURE_OVER after the last */
    int wait;     /* the last wait begun; -1 */
    bool waiting; /* the present step is that wait */
    bool begun, finished, stuck;
    double since;                 /* begin of the last wait, or of the time after the last step. s */
    double deadline;              /* when the present wait is up. s */
    double watched, ahead, turns; /* s */
    double step_begun;            /* begin of the solver's last step. s */
    double corner;                /* next moment at which something comes or goes. s */
    int acts;                     /* steps done since time last went on */
    int64_t due;                  /* number of the next sample */
    int64_t made;                 /* solver steps so far */
    int events, readings, verdicts, samples, orders;
    int scheduled; /* of the model's schedule, done */
    uint64_t chain; /* of the last order done; 0: none */
};

struct ullage_run {
    const struct ullage_model *model;
    struct run *physics;
    struct progress *progress;    /* one block, with all up to memory */
    double *slot;                 /* readings by name; NaN: not taken [slots] */
    double *begun;                /* s, first turn of a repeat [steps] */
    int *over;                    /* off the scale, of each slot */
    int *turn;                    /* of blocks; 0: not inside [steps] */
    bool *there;                  /* of what comes and goes [faults] */
    struct switched *switched;    /* [switches] */
    struct window_memory *memory; /* [windows] */
    size_t block;                 /* bytes */
    double *look;                 /* scratch [widest] */
    signed char *look_off;        /* scratch [channels] */
    struct logbook log;
    struct ullage_history *history;    /* keeps its past; null: nobody does */
    const volatile sig_atomic_t *stop; /* may be null */
    const char *trouble;
    uint64_t seed;
    double tolerance;
};

/* ---- conduct.c ---- */

/* What is wrong was changed: finds out anew what is there, and when that changes, and tells nothing of it. */
void faults_again(struct ullage_run *run);

/* Goes on to `time`, over at most `steps` steps of the solver. ULLAGE_PAUSED where either is reached. */
enum ullage_status conduct_advance(struct ullage_run *run, double time, int64_t steps);

/* ---- watch.c ---- */

/* Begins to look out for the end of the present wait, from now on. */
void watch_begin(struct ullage_run *run);
/* An input has changed: what was known of the time ahead is void. */
void watch_again(struct ullage_run *run);
/* Looks at the solution up to the next point; the solver makes a step first where none is known. False: it is stuck. */
bool watch_ahead(struct ullage_run *run, int64_t *steps);
/* Now stands at that point: windows are fed. */
void watch_arrived(struct ullage_run *run);

/* ---- act.c: what verbs do ---- */
double conduct_now(const struct ullage_run *run);
const struct step *conduct_step(const struct ullage_run *run, int index);
double conduct_value(struct ullage_run *run, const struct expression *expression); /* now */
double conduct_value_at(struct ullage_run *run, const struct expression *expression, double time);
void conduct_wait(struct ullage_run *run, int index);
void conduct_set(struct ullage_run *run, int index, const struct setting *setting, bool by_hand);
void conduct_join(struct ullage_run *run, int index, int equipment, int port, bool by_hand);
/* port -1: from wherever it is */
void conduct_part(struct ullage_run *run, int index, int equipment, int port, bool by_hand);
void conduct_read(struct ullage_run *run, int index, int slot, const struct expression *value);
void conduct_judge(struct ullage_run *run, int index, const char *name, const char *reason, enum ullage_result result);
/* An event of now; its time is filled in. subject and text live as long as the model or the log. */
void conduct_tell(struct ullage_run *run, struct ullage_event event);
/* A row of the recorded channels at `time`, within the solver's last step. */
void conduct_sample(struct ullage_run *run, double time);

/* ---- switched.c: parts that open and shut by themselves ---- */
/* How they stand as the run begins: nothing to tell. */
void switches_begin(struct ullage_run *run);
/* Tells what has flipped up to now. */
void switches_follow(struct ullage_run *run);

/* ---- experiment.c: the run as one block ---- */
size_t experiment_size(const struct ullage_run *run);
void experiment_save(const struct ullage_run *run, void *block);
void experiment_restore(struct ullage_run *run, const void *block);
/* Progress of a saved run. */
const struct progress *experiment_progress(const void *block);

#endif
