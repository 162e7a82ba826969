/* sim/property/weathering.c  Fuels of other vapor pressures, made of one.
 *
 * A fuel that has stood open loses each component in step with its vapor pressure; so one of which so much less is wanted is
 * made of it by n_i exp(-k psat_i), with k by its vapor pressure (DVPE), and a livelier one by the same rule the other way. */
#include "property/weathering.h"

#include "property/blend.h"
#include "property/volatility.h"

#include <math.h>

enum { HALVINGS = 60 };

#define FARTHEST 40.0 /* k of the most volatile component: beyond, there is nothing left of it, or of the others */

/* Mol in 1 m3 at 60 degF after exp(k psat/the highest psat); returns its vapor pressure. */
static double weathered(const struct liquid *liquid, const double *amount, double k, double *into)
{
    double saturation[LIQUID_MOST], highest = 0.0, most = 0.0, volume = 0.0;
    for (int i = 0; i < liquid->count; i++) {
        saturation[i] = component_saturation(liquid->component[i], VOLATILITY_TEMPERATURE).value;
        highest = fmax(highest, saturation[i]);
    }
    for (int i = 0; i < liquid->count; i++)
        most = fmax(most, k * saturation[i] / highest);
    for (int i = 0; i < liquid->count; i++) {
        into[i] = amount[i] * exp(k * saturation[i] / highest - most);
        volume += into[i] * component_volume(liquid->component[i], BLENDING_TEMPERATURE).value;
    }
    for (int i = 0; i < liquid->count; i++)
        into[i] /= volume;
    return liquid_volatility(liquid, into).dvpe;
}

bool liquid_weathered(const struct liquid *liquid, const double *amount, double change, double *into)
{
    double low = -FARTHEST, high = FARTHEST;
    const double wanted = weathered(liquid, amount, 0.0, into) + change;
    if (weathered(liquid, amount, low, into) > wanted)
        return false;
    if (weathered(liquid, amount, high, into) < wanted)
        return false;
    for (int k = 0; k < HALVINGS; k++) {
        const double middle = 0.5 * (low + high);
        *(weathered(liquid, amount, middle, into) < wanted ? &low : &high) = middle;
    }
    weathered(liquid, amount, 0.5 * (low + high), into);
    return true;
}
