/* sim/property/blend.h  Fuels as the trade writes them: shares of volume at 60 degF. */
#ifndef PROPERTY_BLEND_H
#define PROPERTY_BLEND_H

#include "property/liquid.h"

struct blend {
    int count;
    const struct component *component[LIQUID_MOST];
    double share[LIQUID_MOST]; /* of the volume at 60 degF, each measured alone; sum 1 */
};

/* mol of each in `volume` m3 measured at 60 degF. */
void blend_amounts(const struct blend *blend, double volume, double *amount);

/* The shares of what a liquid holds; amounts not all 0. */
struct blend blend_of(const struct liquid *liquid, const double *amount);

/* Adds a component so that it makes up `share` (0..1) of the whole. False when there is no room for one more. */
bool blend_add(struct blend *blend, const struct component *component, double share);

/* A gasoline without ethanol of the wanted volatility (DVPE, Pa): seven components whose butane and isobutane are
 * solved for. False outside what the base reaches, blend_base_least() to blend_base_most(), 5 to 16 psi; from 7 to 13
 * psi its pressure follows the published one within 2 %. */
bool blend_base(double dvpe, struct blend *blend);
double blend_base_least(void);
double blend_base_most(void);

/* What stays of a liquid that evaporates into air which carries all vapor away, at one temperature, until `share` (from
 * 0, below 1) of its mass is gone. A component leaves as its partial pressure times its diffusivity to the power
 * `film`: 1 where the air stands still, 2/3 where it flows along the surface, 0 where nothing holds the vapor back. */
void liquid_weather(const struct liquid *liquid, double *amount, double temperature, double share, double film);

#endif
