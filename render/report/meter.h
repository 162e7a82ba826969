/* report/meter.h  What a flow meter's scale of holes showed, what there is, and why the two differ. */
#ifndef REPORT_METER_H
#define REPORT_METER_H

#include "report/experiment.h"
#include "report/page.h"

/* Whether a reading is that of a meter's scale of holes. */
bool reading_is_hole(const struct experiment *of, int reading);

/* The flow it read at that moment, m3/s. */
double meter_flow(const struct experiment *of, int reading);

/* Tells it: one sentence on the line begun, and where there is more to say, lines of its own below: true then. */
bool meter_tell(struct page *page, const struct experiment *of, int reading, enum figure_units units);

/* Whether a reading is of a number that meter_tell has told for the same meter and moment: its flow, the hole that fits,
 * the pressure lost. */
bool reading_is_told(const struct experiment *of, int reading);

/* What leaves for the open air, and the way that passes most of it. */
struct leak {
    int part;       /* -1: nothing leaves */
    double passing; /* m3/s, standard flow through that part */
    double size;    /* m, its diameter of that moment; not a number where it has none */
    double leaving; /* m3/s, through all ways together */
};
struct leak leak_largest(const struct ullage_model *model, const double *value);

#endif
