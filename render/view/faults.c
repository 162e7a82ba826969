/* faults.c  The list of what can be wrong, and sizes in and out of words. */
#include "view/faults.h"

#include "view/chart/chart.h"
#include "view/naming.h"
#include "view/plate.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define OPEN_FROM 0.001 /* opening of a hole that is not plugged */
#define DECADE 10.0
#define WARMING ULLAGE_POWERS(0, 0, -1, 1, 0) /* of a reading that walks off, K/s */

/* ---- making -------------------------------------------------------------------------------------------------------- */
static void place_write(const struct ullage_model *model, const struct ullage_model_fault *fault, char *room, int size)
{
    char part[48], opening[48];
    naming_part(model, fault->part, false, part, sizeof part);
    naming_words(fault->opening, false, opening, sizeof opening);
    snprintf(room, (size_t)size, "%s%s%s", part, *opening ? ", " : "", opening);
}

static void row_make(struct fault_row *row, const struct ullage_model *model, int index)
{
    const struct ullage_model_fault fault = ullage_model_fault(model, index);
    *row = (struct fault_row){.part = fault.part,
                              .hole = fault.hole,
                              .fixed = !fault.ready,
                              .poured = fault.fault.poured,
                              .round = fault.fault.hole && !strcmp(fault.fault.size, "diameter"),
                              .index = index,
                              .comes = fault.fault.comes,
                              .changes = fault.fault.changes,
                              .dimension = fault.fault.dimension,
                              .least = fault.fault.least,
                              .usual = fault.fault.usual,
                              .most = fault.fault.most};
    snprintf(row->what, sizeof row->what, "%s", fault.what);
    naming_words(fault.fault.name, true, row->name, sizeof row->name);
    place_write(model, &fault, row->place, sizeof row->place);
}

static void own_make(struct fault_row *row, const struct ullage_model *model, int part)
{
    *row = (struct fault_row){
        .part = part, .hole = part, .own = true, .round = true, .index = -1, .comes = "", .changes = ""};
    snprintf(row->what, sizeof row->what, "%s", ullage_model_part(model, part).id);
    naming_part(model, part, true, row->name, sizeof row->name);
    row->dimension = ULLAGE_LENGTH;
    row->least = RULER_LEAST;
    row->most = RULER_MOST;
    row->usual = ullage_model_parameter(model, part, "diameter");
    row->since = (double)NAN;
    row->share = 1.0;
}

static bool is_fault(const struct faults *faults, int hole)
{
    for (int k = 0; k < faults->count; k++)
        if (faults->row[k].hole == hole)
            return true;
    return false;
}

bool faults_make(struct faults *faults, const struct ullage_model *model, const struct cast *cast)
{
    const int listed = ullage_model_faults(model);
    faults->count = 0;
    faults->row = calloc((size_t)(listed + cast->parts) + 1, sizeof *faults->row);
    if (!faults->row)
        return false;
    while (faults->count < listed) {
        row_make(&faults->row[faults->count], model, faults->count);
        faults->count++;
    }
    for (int p = 0; p < cast->parts; p++)
        if (hole_sized(model, p) && cast->channel[p][DIAMETER] >= 0 && !is_fault(faults, p))
            own_make(&faults->row[faults->count++], model, p);
    return true;
}

void faults_free(struct faults *faults)
{
    free(faults->row);
    *faults = (struct faults){0};
}

static void own_take(struct fault_row *row, const struct cast *cast, const double *value)
{
    const double opening = cast_value(cast, value, row->hole, OPENING);
    row->size = cast_value(cast, value, row->hole, DIAMETER);
    row->in = !(opening < OPEN_FROM) && row->size > 0.0;
}

static void row_take(struct fault_row *row, const struct ullage_model *model, const struct ullage_run *run)
{
    const struct ullage_fault_now now = ullage_run_fault(model, run, row->index);
    row->size = now.size;
    row->share = now.share;
    row->since = now.since;
    const bool begun = row->poured && now.begins <= ullage_run_time(run); /* none of it is there yet */
    row->in = fabs(now.size) > 0.0 && (now.share > 0.0 || begun);
    row->waits = fabs(now.size) > 0.0 && !row->in && isfinite(now.begins);
    row->begins = now.begins;
    row->course = now.course;
}

void faults_take(struct faults *faults, const struct ullage_model *model, const struct ullage_run *run,
                 const struct cast *cast, const double *value)
{
    for (int k = 0; k < faults->count; k++)
        faults->row[k].other = (double)NAN;
    for (int k = 0; k < faults->count; k++)
        if (faults->row[k].own)
            own_take(&faults->row[k], cast, value);
        else
            row_take(&faults->row[k], model, run);
}

void fault_other(struct fault_row *row, const struct ullage_history *history, int branch, double time)
{
    char what[sizeof row->what + 16];
    snprintf(what, sizeof what, "%s%s", row->what, row->own ? ".diameter" : "");
    row->other = ullage_history_setting(history, branch, time, what);
    if (row->own && ullage_history_setting(history, branch, time, row->what) < OPEN_FROM)
        row->other = 0.0;
}

bool fault_put_in(const struct fault_row *row)
{
    return row->in || row->waits;
}

int faults_wrong(const struct faults *faults)
{
    int wrong = 0;
    for (int k = 0; k < faults->count; k++)
        wrong += faults->row[k].in;
    return wrong;
}

/* ---- sizes and words ----------------------------------------------------------------------------------------------- */
/* Sizes are differences: a sensor that is off by 2 K is not off by -271 degC. */
struct unit_view fault_unit(const struct fault_row *row, enum units units)
{
    struct unit_view unit = unit_view(row->dimension, units);
    if (row->dimension == ULLAGE_TEMPERATURE)
        unit = (struct unit_view){1.0, 0.0, "K"};
    if (row->dimension == ULLAGE_LENGTH && units == UNITS_SI)
        unit = (struct unit_view){1e3, 0.0, "mm"};
    return unit;
}

struct figure fault_figure(const struct fault_row *row, double size, enum units units)
{
    struct figure figure = figure_make(size, row->dimension, units);
    if (row->dimension == ULLAGE_TEMPERATURE) {
        number_text(size, fabs(size) < DECADE ? 0.1 : 1.0, figure.number, sizeof figure.number);
        snprintf(figure.unit, sizeof figure.unit, "K");
    }
    if (row->least < 0.0 && size > 0.0) { /* either way: which one */
        char number[sizeof figure.number];
        snprintf(number, sizeof number, "%s", figure.number);
        snprintf(figure.number, sizeof figure.number, "+%.*s", (int)sizeof figure.number - 2, number);
    }
    return figure;
}

/* The name of the unit that is SI itself. */
static const char *si_name(int dimension, char *room)
{
    int count;
    const struct ullage_unit *unit = ullage_units(&count);
    for (int k = 0; k < count; k++)
        if ((int)unit[k].dimension == dimension && fabs(unit[k].factor - 1.0) < 1e-15 && fabs(unit[k].offset) < 1e-15)
            return unit[k].name;
    return dimension == WARMING ? "K/s" : ullage_dimension_name(dimension, room);
}

const char *fault_value(const struct fault_row *row, double size, char *room, int room_size)
{
    char unit[64];
    if (row->dimension == ULLAGE_LENGTH)
        snprintf(room, (size_t)room_size, "%.4g mm", 1e3 * size);
    else if (row->dimension == ULLAGE_NUMBER)
        snprintf(room, (size_t)room_size, "%.4g", size);
    else
        snprintf(room, (size_t)room_size, "%.5g %s", size, si_name(row->dimension, unit));
    return room;
}

const char *fault_typed(const struct fault_row *row, const char *typed, enum units units, double *size)
{
    const struct unit_view shown = fault_unit(row, units);
    char *end;
    int dimension;
    const double bare = strtod(typed, &end);
    if (end != typed && *end == '\0') {
        *size = bare / shown.scale;
        return isfinite(*size) ? NULL : "that is no number";
    }
    const char *wrong = ullage_quantity_read(typed, size, &dimension);
    if (wrong)
        return wrong;
    return dimension == row->dimension ? NULL : "that is a size of another kind";
}

/* ---- scales -------------------------------------------------------------------------------------------------------- */
struct fault_scale fault_scale(const struct fault_row *row)
{
    if (row->round)
        return (struct fault_scale){RULER_LEAST, RULER_MOST, true};
    const bool log = row->least > 0.0 && row->most > DECADE * row->least;
    return (struct fault_scale){log ? row->least : fmin(row->least, 0.0), row->most, log};
}

double fault_scale_share(const struct fault_scale *scale, double size)
{
    const double within = fmin(fmax(size, scale->least), scale->most);
    return scale->log ? log(within / scale->least) / log(scale->most / scale->least)
                      : (within - scale->least) / (scale->most - scale->least);
}

double fault_scale_size(const struct fault_scale *scale, double share)
{
    const double within = fmin(fmax(share, 0.0), 1.0);
    if (!scale->log)
        return scale->least + within * (scale->most - scale->least);
    return within > 0.0 ? scale->least * pow(scale->most / scale->least, within) : 0.0;
}
