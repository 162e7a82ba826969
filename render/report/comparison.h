/* report/comparison.h  Two runs side by side: what was changed, what came of it, and why. */
#ifndef REPORT_COMPARISON_H
#define REPORT_COMPARISON_H

#include <stdio.h>

#include "report/experiment.h"

/* A sentence for each parameter in which the two differ ("Leak twice as wide, ...: 4.0 times the flow"), then the table of
 * readings: this, other, ratio. */
void comparison_write(FILE *to, const struct experiment *this, const struct experiment *other, enum figure_units units);

/* Index of a part type among ullage_kinds(); -1: none. */
int kind_find(const char *type);

#endif
