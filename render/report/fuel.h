/* report/fuel.h  The account of fuel, for a person: grams, all its components together. */
#ifndef REPORT_FUEL_H
#define REPORT_FUEL_H

#include "report/experiment.h"

#include <stdio.h>

/* Whether there has been fuel anywhere in this run. */
bool fuel_is_there(const struct ullage_fuel *fuel);

/* Vapor made, less what condensed again. kg. */
double fuel_vapor_made(const struct ullage_fuel *fuel);

/* What passed all ways of a part to the outside, components of fuel alone. */
struct fuel_passed {
    double in, out;               /* kg */
    double in_amount, out_amount; /* mol */
};
/* part: id. */
struct fuel_passed fuel_passed(const struct experiment *of, const char *part);

/* "10.31 kg", "14.2 g", "0.004 g": down to a milligram. room [FIGURE_ROOM]; returns room. */
const char *fuel_figure(double mass, char *room);

/* Vapor made, held by the carbon and in gas spaces, gone by each opening, and that all is accounted for; nothing where there
 * is no fuel. */
void fuel_write(FILE *to, const struct experiment *of);

#endif
