/* sim/property/blend.c  Blends by volume; the base gasoline of a wanted volatility.
 *
 * The base is a surrogate of seven components, worked out for this project [SURROGATE7] so that with Raoult's law and
 * ideal gas its pressure from 0 to 45 degC and its vapor's molar mass follow what the EPA gives for gasoline of that
 * volatility [AP42]. Four compositions are known; between them shares are interpolated, and then butane and isobutane,
 * in their proportion, are scaled until the DVPE is the wanted one, the other five sharing the rest. */
#include "property/blend.h"

#include "property/volatility.h"

#include <assert.h>
#include <math.h>

#define PSI 6894.757293168361 /* Pa [SP811] */
#define BASE_LEAST (5.0 * PSI)
#define BASE_MOST (16.0 * PSI)

#define CLOSE_ENOUGH 1e-12 /* of the DVPE */

enum { BASE_COUNT = 7, BASE_LIGHT = 2, BASE_KNOTS = 4 };

static const char *const base_name[BASE_COUNT] = {"isobutane", "n-butane", "isopentane", "n-hexane",
                                                  "isooctane", "toluene",  "o-xylene"};

static const struct {
    double dvpe; /* Pa */
    double share[BASE_COUNT];
} base[BASE_KNOTS] = {
    {7.0 * PSI, {0.0244, 0.0244, 0.0860, 0.1709, 0.3613, 0.1764, 0.1566}},
    {9.0 * PSI, {0.0429, 0.0178, 0.1532, 0.1086, 0.3187, 0.1870, 0.1718}},
    {11.5 * PSI, {0.0535, 0.0549, 0.1488, 0.0774, 0.2809, 0.2052, 0.1793}},
    {13.0 * PSI, {0.0485, 0.1098, 0.0922, 0.0779, 0.2748, 0.2161, 0.1807}},
};

void blend_amounts(const struct blend *blend, double volume, double *amount)
{
    for (int k = 0; k < blend->count; k++)
        amount[k] = blend->share[k] * volume / component_volume(blend->component[k], BLENDING_TEMPERATURE).value;
}

struct blend blend_of(const struct liquid *liquid, const double *amount)
{
    struct blend blend = {.count = liquid->count};
    const double volume = liquid_volume(liquid, amount, BLENDING_TEMPERATURE).value;
    assert(volume > 0.0);
    for (int k = 0; k < liquid->count; k++) {
        blend.component[k] = liquid->component[k];
        blend.share[k] = amount[k] * component_volume(liquid->component[k], BLENDING_TEMPERATURE).value / volume;
    }
    return blend;
}

bool blend_add(struct blend *blend, const struct component *component, double share)
{
    assert(0.0 <= share && share <= 1.0);
    if (blend->count == LIQUID_MOST)
        return false;
    for (int k = 0; k < blend->count; k++)
        blend->share[k] *= 1.0 - share;
    blend->component[blend->count] = component;
    blend->share[blend->count++] = share;
    return true;
}

/* The known compositions, interpolated; beyond the last, the last. */
static struct blend base_between(double dvpe)
{
    int low = 0;
    while (low < BASE_KNOTS - 2 && dvpe > base[low + 1].dvpe)
        low++;
    const double width = base[low + 1].dvpe - base[low].dvpe;
    const double weight = fmin(fmax((dvpe - base[low].dvpe) / width, 0.0), 1.0);
    struct blend blend = {.count = BASE_COUNT};
    for (int k = 0; k < BASE_COUNT; k++) {
        blend.component[k] = component_find(base_name[k]);
        blend.share[k] = (1.0 - weight) * base[low].share[k] + weight * base[low + 1].share[k];
    }
    return blend;
}

/* The same with its light ends times `scale`, and the rest sharing what is left. */
static struct blend base_scaled(const struct blend *blend, double scale)
{
    double light = 0.0;
    for (int k = 0; k < BASE_LIGHT; k++)
        light += blend->share[k];
    struct blend scaled = *blend;
    for (int k = 0; k < BASE_COUNT; k++)
        scaled.share[k] *= k < BASE_LIGHT ? scale : (1.0 - scale * light) / (1.0 - light);
    return scaled;
}

/* Scales, and tells how far the volatility is from the wanted one. */
static double base_off(const struct liquid *liquid, const struct blend *start, double scale, double dvpe,
                       struct blend *blend)
{
    double amount[LIQUID_MOST];
    *blend = base_scaled(start, scale);
    blend_amounts(blend, 1.0, amount);
    return liquid_volatility(liquid, amount).dvpe - dvpe;
}

double blend_base_least(void)
{
    return BASE_LEAST;
}

double blend_base_most(void)
{
    return BASE_MOST;
}

/* Secants: the pressure is nearly straight in the share of the light ends. */
bool blend_base(double dvpe, struct blend *blend)
{
    enum { STEPS_MOST = 30 };

    if (!(BASE_LEAST <= dvpe && dvpe <= BASE_MOST))
        return false;
    const struct blend start = base_between(dvpe);
    struct liquid liquid;
    liquid_prepare(&liquid, start.count, start.component);
    double before = 0.9;
    double off_before = base_off(&liquid, &start, before, dvpe, blend);
    double scale = 1.0;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double off = base_off(&liquid, &start, scale, dvpe, blend);
        if (fabs(off) < CLOSE_ENOUGH * dvpe || off == off_before)
            break;
        const double next = scale - off * (scale - before) / (off - off_before);
        before = scale;
        off_before = off;
        scale = next;
    }
    return true;
}

/* dn_i/dm = -p_i D_i^film/sum_j M_j p_j D_j^film, m being the mass gone. */
static void weather_rates(const struct liquid *liquid, const double *amount, double temperature, const double *ease,
                          double *rate)
{
    struct pressures pressures;
    liquid_pressures(liquid, amount, temperature, &pressures);
    double mass = 0.0;
    for (int k = 0; k < liquid->count; k++)
        mass += liquid->component[k]->gas.molar_mass * pressures.value[k] * ease[k];
    for (int k = 0; k < liquid->count; k++)
        rate[k] = -pressures.value[k] * ease[k] / mass;
}

static const double stage_reach[4] = {0.0, 0.5, 0.5, 1.0};
static const double stage_weight[4] = {1.0 / 6.0, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 6.0};

/* Runge and Kutta's fourth order in equal steps of mass. */
void liquid_weather(const struct liquid *liquid, double *amount, double temperature, double share, double film)
{
    enum { STEPS = 400 };

    assert(0.0 <= share && share < 1.0);
    double ease[LIQUID_MOST];
    for (int k = 0; k < liquid->count; k++)
        ease[k] = pow(component_diffusivity(liquid->component[k], CARRIER_AIR, temperature, 101325.0).value, film);
    const double step = share * liquid_mass(liquid, amount) / STEPS;
    for (int i = 0; i < STEPS; i++) {
        double rate[LIQUID_MOST] = {0.0};
        double sum[LIQUID_MOST] = {0.0};
        for (int stage = 0; stage < 4; stage++) {
            double at[LIQUID_MOST];
            for (int k = 0; k < liquid->count; k++)
                at[k] = amount[k] + stage_reach[stage] * step * rate[k];
            weather_rates(liquid, at, temperature, ease, rate);
            for (int k = 0; k < liquid->count; k++)
                sum[k] += stage_weight[stage] * rate[k];
        }
        for (int k = 0; k < liquid->count; k++)
            amount[k] += step * sum[k];
    }
}
