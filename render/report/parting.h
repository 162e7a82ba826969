/* report/parting.h  Where two runs part: what was done in one of them alone, and from when on each channel differs. */
#ifndef REPORT_PARTING_H
#define REPORT_PARTING_H

#include "report/experiment.h"

#include <stdio.h>

/* What was done by hand, and what is wrong by the file, in this alone and in the other alone: lines, each there only where
 * there is something to tell. False: nothing was done otherwise. */
bool parting_told(FILE *to, const struct experiment *this, const struct experiment *other, enum figure_units units);

/* A table of the channels that both record: the moment from which each differs, by how much it does at most, and when. */
void parting_write(FILE *to, const struct experiment *this, const struct experiment *other);

#endif
