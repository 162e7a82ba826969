/* sim/property/species.c  The table of species and the viscosity of one of them.
 * Molar masses from IUPAC atomic weights. Heat capacities: nitrogen and carbon dioxide at 298 K from [POLING5]; air as
 * 7/2 R, so that gamma is 1.4 as in every textbook table (the measured 29.1 J/mol/K rounds to the same). Their slopes are
 * drawn from -20 to 45 degC through the curves of [POLING5], air's being those of nitrogen, oxygen and argon at 78.12,
 * 20.95 and 0.93 %.
 * Viscosity and conductivity: [PERRY8] tables 2-312 and 2-314, value = c0 T^c1 / (1 + c2/T + c3/T^2), good from 200 K
 * to 1500 K and, for these gases, within 1 % of a second collection between 250 K and 350 K (conductivity of air: 2 %). */
#include "property/gas.h"

#include "property/component.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define AIR_HEAT_CAPACITY (3.5 * 8.31446261815324) /* J/mol/K: two-atomic gas without vibration, gamma 7/5 */

static const struct species species[] = {
    {.name = "air",
     .molar_mass = 28.9647e-3,
     .heat_capacity = AIR_HEAT_CAPACITY,
     .heat_slope = 0.00156,
     .viscosity = {1.425e-6, 0.5039, 108.3, 0.0},
     .conductivity = {3.1417e-4, 0.7786, -0.7116, 2121.7},
     .source = "[PERRY8]; heat capacity 7/2 R, [POLING5]"},
    {.name = "nitrogen",
     .molar_mass = 28.0134e-3,
     .heat_capacity = 29.12,
     .heat_slope = 0.000555,
     .viscosity = {6.5592e-7, 0.6081, 54.714, 0.0},
     .conductivity = {3.3143e-4, 0.7722, 16.323, 373.72},
     .source = "[PERRY8]; heat capacity [POLING5]"},
    {.name = "carbon dioxide",
     .molar_mass = 44.0095e-3,
     .heat_capacity = 37.13,
     .heat_slope = 0.0426,
     .viscosity = {2.148e-6, 0.46, 290.0, 0.0},
     .conductivity = {3.69, -0.3838, 964.0, 1.86e6},
     .source = "[PERRY8]; heat capacity [POLING5]"},
    {.name = "smoke", .passive = true, .source = "a tracer too thin to weigh: it only shows where the gas has gone"},
};

enum { SPECIES_COUNT = sizeof species / sizeof species[0] };

const struct species *species_table(int *count)
{
    if (count)
        *count = SPECIES_COUNT;
    return species;
}

int species_known(void)
{
    int fuels;
    component_table(&fuels);
    assert(SPECIES_COUNT + fuels <= SPECIES_KNOWN);
    return SPECIES_COUNT + fuels;
}

const struct species *species_at(int number)
{
    return number < SPECIES_COUNT ? &species[number] : &component_table(NULL)[number - SPECIES_COUNT].gas;
}

int species_find(const char *name)
{
    const int known = species_known();
    for (int i = 0; i < known; i++)
        if (strcmp(species_at(i)->name, name) == 0)
            return i;
    return -1;
}

double species_diffusion_volume(int number)
{
    static const double volume[SPECIES_COUNT] = {19.7, 18.5, 26.9, 0.0}; /* air, nitrogen, carbon dioxide [FULLER1969] */
    return number < SPECIES_COUNT ? volume[number] : component_table(NULL)[number - SPECIES_COUNT].diffusion_volume;
}

/* Any property of the form c0 T^c1 / (1 + c2/T + c3/T^2). */
static double fit_value(const double c[4], double temperature)
{
    return c[0] * pow(temperature, c[1]) / (1.0 + (c[2] + c[3] / temperature) / temperature);
}

void species_viscosity(const struct species *of, double temperature, double *value, double *slope)
{
    assert(!of->passive && temperature > 0.0);
    const double *c = of->viscosity;
    const double t = temperature;
    const double below = 1.0 + (c[2] + c[3] / t) / t;
    *value = fit_value(c, t);
    *slope = *value * (c[1] + (c[2] + 2.0 * c[3] / t) / (t * below)) / t;
}

double mixture_conductivity(int count, const struct species *const *of, const double *share, double temperature)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        sum += share[i] * fit_value(of[i]->conductivity, temperature);
    return sum;
}
