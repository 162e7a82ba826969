/* command/progress.h  How far long work has come, on a terminal; silent in a pipe and for work of a second. */
#ifndef COMMAND_PROGRESS_H
#define COMMAND_PROGRESS_H

#include "ullage.h"

#include <stdbool.h>

struct progress {
    bool terminal;
    double began, shown; /* s on the wall */
    int width;           /* columns of what stands on the line */
};

struct progress progress_begin(void);
/* share 0..1 of the work done; simulated s reached, or NAN. */
void progress_show(struct progress *progress, double share, double simulated);
/* Takes the line away. */
void progress_end(struct progress *progress);

/* s on a clock that only goes forward. */
double wall_clock(void);

/* Follows a run to its end under the eye of the person and of Ctrl-C. *seconds: what it took; may be null. */
enum ullage_status run_follow(const struct ullage_model *model, struct ullage_run *run, double *seconds);
/* The same to `until` s. */
enum ullage_status run_follow_to(const struct ullage_model *model, struct ullage_run *run, double until,
                                 double *seconds);

#endif
