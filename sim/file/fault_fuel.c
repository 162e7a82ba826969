/* sim/file/fault_fuel.c  What is wrong with the fuel from the start: too much of it, and too lively or too stale a one, made of
 * the scenario's own by the rule of property/weathering.h. A fuel of one substance has no light ends to lose; the quick one is
 * made anew. What comes later is poured: network/pouring.h. */
#include "file/readers.h"
#include "property/quick_fuel.h"
#include "property/volatility.h"
#include "property/weathering.h"

#include <string.h>

enum { HALVINGS = 60 };

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
    double amount[LIQUID_MOST];
    if (is_quick(fill))
        return make_anew(fill, change);
    fill_liquid(fill, &liquid);
    if (!liquid_weathered(&liquid, fill->amount, change, amount))
        return false;
    memcpy(fill->amount, amount, (size_t)fill->fuels * sizeof amount[0]);
    return true;
}

/* It comes or goes later than at the start. */
static bool fault_turns(const struct fault *fault)
{
    return !course_stands(&fault->course) || (fault->course.given && fault->course.until < HUGE_VAL);
}

static void fuel_done(struct reader *reader, struct fault *fault)
{
    struct fill *fill = &reader->into->fill;
    const struct part *tank = &reader->into->part[fault->part];
    if (!fill->given || fill->fuels == 0) {
        problem_add(reader->found, fault->at, "give fill: {level: 40 %, rvp: 9 psi}", "there is no fuel that %s can be",
                    fault->row->name);
        return;
    }
    if (fault_is_exchange(fault->row) && fill->fuels == 1 && fault_turns(fault))
        problem_add(reader->found, fault->at, "take a fuel of several, or let it be there from the start and stay",
                    "a fuel of one substance cannot become another while a run goes on");
    if (!course_stands(&fault->course) || fault->row->way == FAULT_LIES)
        return;
    fault->begun = fault->size;
    if (fault->row->way == FAULT_FILLS) {
        const double inside = tank->value[rows_find(tank->kind->parameter, "volume")], before = fill->level;
        fill->level = fmin(before + fault->size / inside, FULL);
        fault->begun = fmin(fault->size, (fill->level - before) * inside);
        return;
    }
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
        if (fault_is_pour(in->fault[f].row) && in->fault[f].row->way != FAULT_WETS)
            fuel_done(reader, &in->fault[f]);
}
