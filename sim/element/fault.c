/* sim/element/fault.c  How faults act, and where they can sit. Their tables: fault_tables.c. */
#include "element/elements.h"

#include <string.h>

static int rows_of(const struct fault_row *rows)
{
    int count = 0;
    while (rows && rows[count].name)
        count++;
    return count;
}

const struct fault_row *fault_at(const struct element_kind *kind, int index)
{
    const int own = rows_of(kind->fault);
    if (index < own)
        return &kind->fault[index];
    return index - own < rows_of(any_fault) ? &any_fault[index - own] : NULL;
}

const struct fault_row *fault_named(const struct element_kind *kind, const char *name)
{
    const struct fault_row *row = NULL;
    for (int k = 0; (row = fault_at(kind, k)); k++)
        if (!strcmp(row->name, name))
            return row;
    return NULL;
}

/* ---- what it is ---- */
bool fault_is_hole(const struct fault_row *row)
{
    return row->way == FAULT_HOLE;
}

bool fault_is_any(const struct fault_row *row)
{
    return row >= any_fault && row < any_fault + rows_of(any_fault);
}

bool fault_is_parameter(const struct fault_row *row)
{
    return row->way >= FAULT_ADDS && row->way <= FAULT_GROWS;
}

bool fault_is_command(const struct fault_row *row)
{
    return row->way >= FAULT_OPENS && row->way <= FAULT_WEAKENS;
}

bool fault_is_pour(const struct fault_row *row)
{
    return row->way >= FAULT_FILLS;
}

bool fault_is_exchange(const struct fault_row *row)
{
    return row->way == FAULT_ENLIVENS || row->way == FAULT_STALES;
}

/* ---- where it sits ---- */
int fault_end(const struct part *part)
{
    const struct element_kind *kind = part->kind;
    if (kind->has_volumes)
        return -1;
    const int of = ends_find(kind->end, "of");
    return of >= 0 ? of : ends_find(kind->end, "from");
}

static bool stands_at_gas(const struct part *part)
{
    const int end = fault_end(part);
    return part->kind->has_volumes || (end >= 0 && part->end[end].part && strcmp(part->end[end].part, "air") != 0);
}

bool fault_fits(const struct fault_row *row, const struct part *part, const struct part *all, int parts)
{
    if (row->fits && !row->fits(part, all, parts))
        return false;
    return fault_is_any(row) ? part->kind->has_volumes : !fault_is_hole(row) || stands_at_gas(part);
}

int fault_sites(const struct fault_row *row, const struct part *part, const char **site)
{
    const char *const *named = part->kind->opening;
    int count = 0;
    if (row->site == FAULT_ON_ENDS) {
        site[count++] = "from";
        site[count++] = "to";
    }
    if (row->site == FAULT_ON_OPENINGS) {
        for (; count < part->openings; count++)
            site[count] = part->opening[count].name;
        for (; count < OPENINGS_MOST && part->openings == 0 && named && named[count]; count++)
            site[count] = named[count];
    }
    if (count == 0)
        site[count++] = "";
    return count;
}

/* ---- how much ---- */
void fault_range(const struct fault_row *row, const struct element_kind *kind, double *least, double *most)
{
    const int at = fault_is_parameter(row) || row->way == FAULT_LIES ? rows_find(kind->parameter, row->row[0]) : -1;
    *least = 0.0;
    *most = fault_is_hole(row) ? hole_kind.parameter[rows_find(hole_kind.parameter, row->size)].most : 1.0;
    if (at >= 0 && row->way != FAULT_TAKES) {
        const double reach = kind->parameter[at].most - fmin(kind->parameter[at].least, 0.0);
        *most = row->way == FAULT_GROWS ? (double)INFINITY : reach;
        *least = row->least < 0.0 ? -*most : 0.0;
    }
    if (row->way == FAULT_FILLS || row->way == FAULT_ENLIVENS || row->way == FAULT_STALES)
        *most = (double)INFINITY;
    if (row->way == FAULT_WETS || row->way == FAULT_WEAKENS)
        *most = 0.9;
}

#define TRICKLE (10e-3 / 60.0) /* m3/s of a pump at its slowest (common practice, no source); no source either of these: */
#define TRICKLE_LEAST 1.0      /* s */
#define CHANGE 120.0           /* s: a tank is drained and filled anew */
#define LYING 5.0              /* s: some mL run down into a dip */
#define WETTING 10.0           /* s: a canister is soaked */

double fault_pours_in(const struct fault_row *row, double size)
{
    if (row->way == FAULT_FILLS)
        return fmax(fabs(size) / TRICKLE, TRICKLE_LEAST);
    return fault_is_exchange(row) ? CHANGE : row->way == FAULT_LIES ? LYING : WETTING;
}

double fault_parameter(const struct fault_row *row, double value, double size, double share, double since)
{
    switch (row->way) {
    case FAULT_ADDS:
        return value + share * size;
    case FAULT_TAKES:
        return value * (1.0 - share * size);
    case FAULT_WIDENS:
        return sqrt(value * value + share * size * size);
    case FAULT_GROWS:
        return value + (share > 0.0 ? size * since : 0.0);
    default:
        return value;
    }
}

/* What is left of a drive of which the first `dead` moves nothing. */
static double drive_left(double drive, double dead)
{
    return drive > dead ? (drive - dead) / (1.0 - dead) : 0.0;
}

double fault_opening(const struct fault_row *row, double opening, double rest, double size)
{
    switch (row->way) {
    case FAULT_OPENS:
        return fmax(opening, size);
    case FAULT_SHUTS:
        return fmin(opening, 1.0 - size);
    case FAULT_NARROWS:
        return opening * (1.0 - size);
    case FAULT_RELEASES:
        return opening + size * (rest - opening);
    case FAULT_DRIVES:
        return opening + size * (1.0 - rest - opening);
    case FAULT_WEAKENS:
        return rest + (opening < rest ? -1.0 : 1.0) * drive_left(fabs(opening - rest), size);
    default:
        return opening;
    }
}
