/* sim/network/sheet.h  Where slopes are written: values by rows of the pattern. Shared by slopes.c and slopes_close.c. */
#ifndef NETWORK_SHEET_H
#define NETWORK_SHEET_H

#include "network/inside.h"

struct sheet {
    const struct network *network;
    double *value;
};

static inline double *sheet_row(const struct sheet *sheet, int row)
{
    return &sheet->value[sheet->network->pattern_start[row]];
}

/* Last of volume v, when all that flows and heats stands in its rows: its energy and its pressure. rates: dydt. */
void slopes_close(const struct sheet *sheet, int v, const double *rates, const struct scratch *scratch);

#endif
