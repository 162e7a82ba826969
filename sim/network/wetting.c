/* sim/network/wetting.c  Carbon that liquid fuel has got to. The share `wet` of the grains is as full as over the fuel, the
 * rest holds what its gas gives it; what gas then stands at rest over the two together is asked of the isotherm. */
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

void wetting_shares(const struct network *network, const struct volume *volume, double pressure, double temperature,
                    double *share)
{
    const int first = network->first_fuel, fuels = network->fuels;
    double plain[CARRIED_MOST], full[CARRIED_MOST], dry[CARRIED_MOST], held[CARRIED_MOST];
    double rest[CARRIED_MOST] = {0.0}, vapor = 0.0, others = 0.0;
    for (int i = 0; i < network->species; i++)
        plain[i] = share[i] * pressure;
    fuel_pressures(network, temperature, pressure, &full[first]);
    for (int k = 0; k < fuels; k++)
        vapor += full[first + k];
    for (int i = 0; i < network->species; i++)
        others += i < first || i >= first + fuels ? plain[i] : 0.0;
    for (int i = 0; i < network->species; i++)
        if (i < first || i >= first + fuels) {
            rest[i] = others > 0.0 ? plain[i] / others : 0.0;
            full[i] = rest[i] * (pressure - vapor);
        }
    carbon_loading_value(&volume->sorbent, plain, temperature, dry);
    carbon_loading_value(&volume->sorbent, full, temperature, held);
    for (int i = 0; i < network->species; i++)
        held[i] = i < first || i >= first + fuels ? 0.0 : volume->wet * held[i] + (1.0 - volume->wet) * dry[i];
    const bool found = carbon_pressures(&volume->sorbent, held, rest, pressure, temperature, plain);
    assert(found);    /* a mean of two loadings that are */
    double sum = 0.0; /* the pressure, but for rounding */
    for (int i = 0; i < network->species; i++)
        sum += plain[i];
    for (int i = 0; i < network->species; i++)
        share[i] = plain[i] / sum;
}
