/* report/experiment.h  What the reports tell of: a run that has been followed, with its model. */
#ifndef REPORT_EXPERIMENT_H
#define REPORT_EXPERIMENT_H

#include "report/figure.h"
#include "ullage.h"

struct experiment {
    const struct ullage_model *model;
    const struct ullage_run *run;
    const double *start; /* all channels before the first step [ullage_model_channels] */
};

/* Index of the last reading or verdict of this name; -1: none. A later one of a name stands for the earlier. */
int experiment_reading(const struct experiment *of, const char *name);
int experiment_verdict(const struct experiment *of, const char *name);

/* Whether reading or verdict `index` is the last of its name. */
bool reading_stands(const struct experiment *of, int index);
bool verdict_stands(const struct experiment *of, int index);

/* "0.51 mm (0.020 in)", "over 2.50 mm (0.098 in)". room [FIGURE_ROOM]; returns room. */
const char *reading_figure(const struct experiment *of, int index, enum figure_units units, char *room);

/* Whether a row of the ledger is a gas: neither the energy nor a tracer that rides along in one. */
bool experiment_is_gas(const struct experiment *of, const char *name);

/* Whether a row of the openings is the first of its part. */
bool opening_is_new(const struct experiment *of, int row);

/* "pass", "fail", "open". */
const char *result_word(enum ullage_result result);

/* Whether there is a verdict and every one that stands is `wanted` (pass); whether any that stands failed (fail). */
bool experiment_expected(const struct experiment *of, enum ullage_result wanted);

enum { CAUTION_ROOM = 320 }; /* bytes */
/* Writes the caution `index` of those that belong beside this scenario; false past the last. */
bool experiment_caution(const struct experiment *of, int index, char *room);

/* The value of PART.QUANTITY among values [channels], or NAN where there is no such channel. part -1: air, time. */
double channel_value(const struct ullage_model *model, const double *value, int part, const char *quantity);

#endif
