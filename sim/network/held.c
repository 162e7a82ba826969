/* sim/network/held.c  A beginning that is told by what the carbon holds: the gas beside it follows.
 *
 * A cell with carbon begins at rest: its gas is what its load of fuel is in equilibrium with at the temperature it begins
 * at, and air makes up the pressure, on the carbon too. Where the load would press by itself more than the place does (a
 * full bed brought into the heat) the gas is all vapor and the carbon begins to give at once. A space without carbon keeps
 * the gas it had. */
#include "network/inside.h"

#include <assert.h>
#include <string.h>

enum { AIR = 0 }; /* gather_species puts it first */

static int told_species(const struct held *held, const char *name)
{
    for (int k = 0; k < held->species; k++)
        if (!strcmp(held->name[k], name))
            return k;
    return -1;
}

/* Row of one volume by this network's species; what was not told is not there. */
static void by_species(const struct network *network, const struct held *held, const double *row, double *value)
{
    for (int i = 0; i < network->carried; i++) {
        const int k = told_species(held, network->kind[i]->name);
        value[i] = k >= 0 ? row[k] : 0.0;
    }
}

static bool cell_begin(const struct network *network, struct volume *volume, double pressure, double temperature,
                       double *share)
{
    static const double rest[CARRIED_MOST] = {[AIR] = 1.0};
    double loading[CARRIED_MOST], partial[CARRIED_MOST], sum = 0.0;
    for (int i = 0; i < network->species; i++)
        loading[i] = volume->load[i] / volume->carbon;
    if (!carbon_pressures(&volume->sorbent, loading, rest, pressure, temperature, partial))
        return false;
    for (int i = 0; i < network->species; i++)
        sum += partial[i];
    for (int i = 0; i < network->carried; i++)
        share[i] = i < network->species ? partial[i] / sum : 0.0;
    carbon_loading_value(&volume->sorbent, partial, temperature, loading);
    volume->load[AIR] = volume->carbon * loading[AIR];
    return true;
}

bool held_begin(const struct network *network, struct volume *volume, const struct held *held, double pressure,
                double temperature, double *share)
{
    const int place = (int)(volume - network->volume) - network->main_volume[volume->part];
    assert(0 <= place && place < held->volumes);
    const size_t row = (size_t)place * (size_t)held->species;
    if (volume->carbon > 0.0) {
        by_species(network, held, &held->load[row], volume->load);
        return cell_begin(network, volume, pressure, temperature, share);
    }
    by_species(network, held, &held->share[row], share);
    return true;
}

void held_look(const struct network *network, const struct scratch *scratch, int part, double *load, double *share)
{
    const size_t species = (size_t)network->species;
    for (int v = 0; v < network->volumes; v++) {
        if (network->volume[v].part != part)
            continue;
        const bool carbon = network->volume[v].carbon > 0.0;
        for (size_t i = 0; i < species; i++) {
            load[i] = carbon ? scratch->volume[v].load[i] : 0.0;
            share[i] = scratch->volume[v].share[i];
        }
        load += species;
        share += species;
    }
}

int network_volumes(const struct network *network, int part)
{
    int count = 0;
    for (int v = 0; v < network->volumes; v++)
        count += network->volume[v].part == part;
    return count;
}

int network_species(const struct network *network)
{
    return network->species;
}

const char *network_species_name(const struct network *network, int index)
{
    return network->kind[index]->name;
}
