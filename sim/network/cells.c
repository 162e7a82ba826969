/* sim/network/cells.c  What a bed looks like inside: its cells in order, each with what its carbon holds and could hold.
 *
 * A part with beds keeps its volumes in the order tank's side space, cells of all beds, air's side space. What a load is
 * told against is the butane of a working-capacity test: the same carbon in equilibrium with n-butane alone at 101325 Pa
 * and 25 degC [ASTMD5228]. A mixture of heavier vapors can weigh more than that. */
#include "network/inside.h"

#include <math.h>

#define BUTANE_PRESSURE 101325.0                 /* Pa [ASTMD5228] */
#define BUTANE_TEMPERATURE ADSORBATE_TEMPERATURE /* K, 25 degC [ASTMD5228] */

static int bed_cells(const struct part *part, int bed)
{
    const int row = rows_find(part->kind->bed, "cells");
    return row < 0 ? 0 : (int)floor(part->bed[bed].value[row]);
}

static double bed_length(const struct part *part, int bed)
{
    const int row = rows_find(part->kind->bed, "length");
    return row < 0 ? 0.0 : part->bed[bed].value[row];
}

int network_cells(const struct network *network, int part)
{
    const struct part *of = &network->part[part];
    int cells = 0;
    for (int b = 0; b < of->beds; b++)
        cells += bed_cells(of, b);
    return cells;
}

/* kg of n-butane. */
static double butane_held(const struct volume *volume)
{
    const int held = adsorbate_find("n-butane"), gas = species_find("n-butane");
    if (!(volume->carbon > 0.0) || held < 0 || gas < 0)
        return 0.0;
    struct sorbent alone = {.count = 1, .heat = {adsorbate_table(NULL)[held].heat}};
    for (int s = 0; s < CARBON_SITES; s++) {
        alone.capacity[s] = volume->sorbent.capacity[s];
        alone.affinity[0][s] = adsorbate_table(NULL)[held].affinity[s];
    }
    const double pressure = BUTANE_PRESSURE;
    double loading;
    carbon_loading_value(&alone, &pressure, BUTANE_TEMPERATURE, &loading);
    return volume->carbon * loading * species_at(gas)->molar_mass;
}

static void cell_fill(const struct network *network, const struct volume *volume, const struct place_gas *place,
                      bool good, struct ullage_cell *cell)
{
    cell->full = butane_held(volume);
    cell->load = good ? fuel_loaded(network, volume, place) : (double)NAN;
    cell->temperature = good ? place->gas.temperature : (double)NAN;
    cell->vapor = good ? vapor_share(network, place) : (double)NAN;
}

static int first_cell(const struct network *network, int part)
{
    int v = 0;
    while (network->volume[v].part != part)
        v++;
    return v + 1; /* after the space on the tank's side */
}

void cells_look(const struct network *network, const struct inputs *inputs, double time, const double *y,
                struct scratch *scratch, int part, struct ullage_cell *cell)
{
    const struct part *of = &network->part[part];
    double whole = 0.0, begun = 0.0;
    for (int b = 0; b < of->beds; b++)
        whole += bed_length(of, b);
    if (!of->beds)
        return;
    const bool good = !network_state(network, inputs, time, y, scratch, false);
    int v = first_cell(network, part);
    for (int b = 0; b < of->beds; b++) {
        const int cells = bed_cells(of, b);
        const double step = bed_length(of, b) / cells / whole;
        for (int c = 0; c < cells; c++, v++, cell++) {
            cell->from = begun + c * step;
            cell->to = begun + (c + 1) * step;
            cell_fill(network, &network->volume[v], &scratch->volume[v], good, cell);
        }
        begun += bed_length(of, b) / whole;
    }
}
