/* report/csv.h  The recorded samples: one header row, SI units, numbers that read back to the same bits. */
#ifndef REPORT_CSV_H
#define REPORT_CSV_H

#include <signal.h>
#include <stdio.h>

#include "report/experiment.h"

/* Stops between rows when *stop becomes non-zero; stop may be null. */
void csv_write(FILE *to, const struct experiment *of, const volatile sig_atomic_t *stop);

enum { NUMBER_ROOM = 32 };
/* The shortest of 15, 16 or 17 figures that strtod turns into the same bits. room [NUMBER_ROOM]; returns room. */
const char *number_exact(double value, char *room);

#endif
