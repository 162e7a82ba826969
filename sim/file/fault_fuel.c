/* sim/file/fault_fuel.c  What is wrong with the fuel: too much of it, and too lively or too stale a one.
 *
 * A fuel that has stood open loses each component in step with its vapor pressure; so one of which so much less is wanted is
 * made of the scenario's own by n_i exp(-k psat_i), with k by its vapor pressure (DVPE), and a livelier one by the same rule the
 * other way. A fuel of one substance has no light ends to lose; the quick one is made anew. */
#include "file/readers.h"
#include "property/quick_fuel.h"
#include "property/volatility.h"

#include <string.h>

enum { HALVINGS = 60 };

#define FARTHEST 40.0 /* k of the most volatile component: beyond, there is nothing left of it, or of the others */

#define FULL 0.98 /* of the tank: as far as `level` goes */

static bool is_quick(const struct fill *fill)
{
    return fill->fuels == 1 && !component_find(fill->fuel[0].gas.name);
}

static void fill_liquid(const struct fill *fill, struct liquid *liquid)
{
    const struct component *component[LIQUID_MOST];
    for (int k = 0; k < fill->fuels; k++)
        component[k] = &fill->fuel[k];
    liquid_prepare(liquid, fill->fuels, component);
}

/* Mol in 1 m3 at 60 degF after exp(k psat/the highest psat); returns its vapor pressure. */
static double weathered(const struct fill *fill, const struct liquid *liquid, double k, double *amount)
{
    double saturation[LIQUID_MOST], highest = 0.0, most = 0.0, volume = 0.0;
    for (int i = 0; i < fill->fuels; i++) {
        saturation[i] = component_saturation(&fill->fuel[i], VOLATILITY_TEMPERATURE).value;
        highest = fmax(highest, saturation[i]);
    }
    for (int i = 0; i < fill->fuels; i++)
        most = fmax(most, k * saturation[i] / highest);
    for (int i = 0; i < fill->fuels; i++) {
        amount[i] = fill->amount[i] * exp(k * saturation[i] / highest - most);
        volume += amount[i] * component_volume(&fill->fuel[i], BLENDING_TEMPERATURE).value;
    }
    for (int i = 0; i < fill->fuels; i++)
        amount[i] /= volume;
    return liquid_volatility(liquid, amount).dvpe;
}

static double volatility_of(const struct component *fuel)
{
    const struct component *component[] = {fuel};
    const double amount[] = {1.0};
    struct liquid liquid;
    liquid_prepare(&liquid, 1, component);
    return liquid_volatility(&liquid, amount).dvpe;
}

/* The quick fuel of that vapor pressure. */
static bool make_anew(struct fill *fill, double change)
{
    const double wanted = volatility_of(&fill->fuel[0]) + change;
    double low = QUICK_FUEL_LEAST, high = QUICK_FUEL_MOST;
    const struct component stalest = quick_fuel(low), liveliest = quick_fuel(high);
    if (volatility_of(&stalest) > wanted || volatility_of(&liveliest) < wanted)
        return false;
    for (int k = 0; k < HALVINGS; k++) {
        const struct component middle = quick_fuel(0.5 * (low + high));
        *(volatility_of(&middle) < wanted ? &low : &high) = 0.5 * (low + high);
    }
    fill->fuel[0] = quick_fuel(0.5 * (low + high));
    fill->amount[0] = 1.0 / component_volume(&fill->fuel[0], BLENDING_TEMPERATURE).value;
    return true;
}

static bool weather(struct fill *fill, double change)
{
    struct liquid liquid;
    double amount[LIQUID_MOST], low = -FARTHEST, high = FARTHEST;
    if (is_quick(fill))
        return make_anew(fill, change);
    fill_liquid(fill, &liquid);
    const double wanted = weathered(fill, &liquid, 0.0, amount) + change;
    if (weathered(fill, &liquid, low, amount) > wanted || weathered(fill, &liquid, high, amount) < wanted)
        return false;
    for (int k = 0; k < HALVINGS; k++) {
        const double middle = 0.5 * (low + high);
        *(weathered(fill, &liquid, middle, amount) < wanted ? &low : &high) = middle;
    }
    weathered(fill, &liquid, 0.5 * (low + high), amount);
    memcpy(fill->amount, amount, (size_t)fill->fuels * sizeof amount[0]);
    return true;
}

static void fuel_done(struct reader *reader, const struct fault *fault)
{
    struct fill *fill = &reader->into->fill;
    const struct part *tank = &reader->into->part[fault->part];
    if (!fill->given || fill->fuels == 0) {
        problem_add(reader->found, fault->at, "give fill: {level: 40 %, rvp: 9 psi}", "there is no fuel that %s can be",
                    fault->row->name);
        return;
    }
    if (fault->row->way == FAULT_FILLS) {
        fill->level = fmin(fill->level + fault->size / tank->value[rows_find(tank->kind->parameter, "volume")], FULL);
        return;
    }
    if (fault->row->way == FAULT_LIES)
        return;
    const double change = fault->row->way == FAULT_STALES ? -fault->size : fault->size;
    if (change != 0.0 && !weather(fill, change))
        problem_add(reader->found, fault->at, "let it be less",
                    "this fuel cannot differ so much in its vapor pressure");
}

void fault_fuel_made(struct reader *reader)
{
    const struct ullage_description *in = reader->into;
    const bool sound = reader->into->sound;
    for (int f = 0; f < in->faults && !sound; f++)
        if (fault_is_beginning(in->fault[f].row) && in->fault[f].row->way != FAULT_WETS)
            fuel_done(reader, &in->fault[f]);
}
