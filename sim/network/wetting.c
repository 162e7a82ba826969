/* sim/network/wetting.c  Carbon that liquid fuel has got to, at rest: the grains take up what they hold over the fuel, of all
 * its components alike, and what is more than that lies between them as liquid. Where there is too little for all grains,
 * that share of them is full, the rest holds what its gas gives it, and what gas then stands at rest over the two together is
 * asked of the isotherm. */
#include "network/inside.h"

#include <assert.h>

/* Of the scenario's fuel at this temperature; fuel that would boil gives no more than there is pressure. */
static void fuel_pressures(const struct network *network, double temperature, double most, double *value)
{
    const struct component *component[LIQUID_MOST] = {NULL};
    struct liquid liquid;
    double sum = 0.0;
    for (int k = 0; k < network->fuels; k++)
        component[k] = &network->fuel[k];
    liquid_prepare(&liquid, network->fuels, component);
    liquid_pressure_values(&liquid, network->fuel_stock, temperature, value);
    for (int k = 0; k < network->fuels; k++)
        sum += value[k];
    for (int k = 0; k < network->fuels && sum > most; k++)
        value[k] *= most / sum;
}

static bool is_fuel(const struct network *network, int i)
{
    return i >= network->first_fuel && i < network->first_fuel + network->fuels;
}

/* Pa of every gas over the fuel; `rest`: shares of the others among themselves. */
static void gas_over(const struct network *network, double pressure, double temperature, const double *share,
                     double *full, double *rest)
{
    double vapor = 0.0, others = 0.0;
    fuel_pressures(network, temperature, pressure, &full[network->first_fuel]);
    for (int k = 0; k < network->fuels; k++)
        vapor += full[network->first_fuel + k];
    for (int i = 0; i < network->species; i++)
        others += is_fuel(network, i) ? 0.0 : share[i];
    for (int i = 0; i < network->species; i++) {
        rest[i] = is_fuel(network, i) || !(others > 0.0) ? 0.0 : share[i] / others;
        if (!is_fuel(network, i))
            full[i] = rest[i] * (pressure - vapor);
    }
}

double wetting_fills(const struct network *network, const struct volume *volume, double pressure, double temperature,
                     const double *share, double *left)
{
    double full[CARRIED_MOST], rest[CARRIED_MOST], held[CARRIED_MOST], needs = 0.0;
    const double there = volume->wet * volume->room;
    gas_over(network, pressure, temperature, share, full, rest);
    if (volume->carbon > 0.0)
        carbon_loading_value(&volume->sorbent, full, temperature, held);
    for (int k = 0; volume->carbon > 0.0 && k < network->fuels; k++)
        needs +=
            volume->carbon * held[network->first_fuel + k] * component_volume(&network->fuel[k], temperature).value;
    *left = fmax(there - needs, 0.0);
    return needs > there ? there / needs : 1.0;
}

void wetting_shares(const struct network *network, const struct volume *volume, double fills, double pressure,
                    double temperature, double *share)
{
    const int first = network->first_fuel, fuels = network->fuels;
    double plain[CARRIED_MOST], full[CARRIED_MOST], dry[CARRIED_MOST], held[CARRIED_MOST], rest[CARRIED_MOST];
    gas_over(network, pressure, temperature, share, full, rest);
    for (int i = 0; i < network->species; i++)
        plain[i] = share[i] * pressure;
    if (!(fills < 1.0)) {
        for (int i = 0; i < network->species; i++)
            share[i] = full[i] / pressure;
        return;
    }
    carbon_loading_value(&volume->sorbent, plain, temperature, dry);
    carbon_loading_value(&volume->sorbent, full, temperature, held);
    for (int i = 0; i < network->species; i++)
        held[i] = i < first || i >= first + fuels ? 0.0 : fills * held[i] + (1.0 - fills) * dry[i];
    const bool found = carbon_pressures(&volume->sorbent, held, rest, pressure, temperature, plain);
    assert(found);    /* a mean of two loadings that are */
    double sum = 0.0; /* the pressure, but for rounding */
    for (int i = 0; i < network->species; i++)
        sum += plain[i];
    for (int i = 0; i < network->species; i++)
        share[i] = plain[i] / sum;
}
