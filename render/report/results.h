/* report/results.h  What came out: tables of readings, verdicts, the ledger, what is dangerous. */
#ifndef REPORT_RESULTS_H
#define REPORT_RESULTS_H

#include <stdio.h>

#include "report/experiment.h"

/* Each writes its part with a heading, or nothing where there is nothing to tell. */
void readings_write(FILE *to, const struct experiment *of, enum figure_units units);
void verdicts_write(FILE *to, const struct experiment *of);

/* One sentence for each gas that is no fuel and the energy: in, out, held, and what the bookkeeping cannot account for. Then
 * what of them passed each opening, where it is more than a millionth of all. Then the fuel, in grams (report/fuel.h). */
void ledger_write(FILE *to, const struct experiment *of);

void cautions_write(FILE *to, const struct experiment *of);

#endif
