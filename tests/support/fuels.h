/* tests/support/fuels.h  Liquids for tests, by the names of their components. */
#ifndef SUPPORT_FUELS_H
#define SUPPORT_FUELS_H

#include "property/blend.h"
#include "property/volatility.h"

#include <math.h>
#include <stddef.h>

#define FUEL_PSI 6894.757293168361 /* Pa */

/* The seven components of the base gasoline and ethanol, in the order of all tables of blends. */
static const char *const fuel_eight[8] = {"isobutane", "n-butane", "isopentane", "n-hexane",
                                          "isooctane", "toluene",  "o-xylene",   "ethanol"};

static inline struct liquid fuel_liquid(int count, const char *const *name)
{
    const struct component *component[LIQUID_MOST];
    struct liquid liquid;
    for (int k = 0; k < count; k++)
        component[k] = component_find(name[k]);
    liquid_prepare(&liquid, count, component);
    return liquid;
}

static inline struct liquid fuel_pair(const char *one, const char *other)
{
    return fuel_liquid(2, (const char *const[]){one, other});
}

/* mol in a cubic metre at 60 degF of a base of seven shares, with ethanol as the eighth. */
static inline void fuel_amounts(const double *base, double ethanol, double *amount)
{
    struct blend blend = {.count = 0};
    for (int k = 0; k < 7; k++) {
        blend.component[k] = component_find(fuel_eight[k]);
        blend.share[k] = base[k];
    }
    blend.count = 7;
    (void)blend_add(&blend, component_find(fuel_eight[7]), ethanol);
    blend_amounts(&blend, 1.0, amount);
}

#endif
