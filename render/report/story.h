/* report/story.h  What happened in a run, told the way a good technician explains it. */
#ifndef REPORT_STORY_H
#define REPORT_STORY_H

#include <stdio.h>

#include "report/experiment.h"

/* One line: what is tested, how large, and the air around it: "Heron: 45 L tank, 1.4 L canister, 20.0 °C, 1013 hPa." */
void story_setting(FILE *to, const struct experiment *of, enum figure_units units);

/* Steps, commands, readings and verdicts in order, each with its moment on the clock. */
void story_events(FILE *to, const struct experiment *of, enum figure_units units);

#endif
