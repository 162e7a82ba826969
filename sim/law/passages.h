/* sim/law/passages.h  The ways gas takes from one side to the other. Every law is pure, odd in the difference of
 * pressure, smooth through zero, choked where a real one is, and returns exact slopes. Lengths in m, areas in m2. */
#ifndef LAW_PASSAGES_H
#define LAW_PASSAGES_H

#include "law/flow.h"

/* Frozen law for checks by hand: discharge * area * isentropic flow function; under 1 Pa an odd cubic joins on with the
 * same value and slope, so that the slope at zero is finite. [NACA1135] */
struct flow nozzle_flow(double area, double discharge, const struct gas *a, const struct gas *b);

/* Round hole of `diameter` through a wall of thickness `wall` (0: thin and sharp): creeping to turbulent to choked, one
 * formula. Relation, constants and sources: hole.c. */
struct flow hole_flow(double diameter, double wall, const struct gas *a, const struct gas *b);

/* Slit: width (long side) times gap, through depth. */
struct flow slit_flow(double width, double gap, double depth, const struct gas *a, const struct gas *b);

/* Porous spot: permeability [m2], area, depth; Darcy with gas expansion. */
struct flow porous_flow(double permeability, double area, double depth, const struct gas *a, const struct gas *b);

/* Crack of unknown shape, power law: mass flow = coefficient * density * dp * (dp^2 + 1 Pa^2)^((exponent-1)/2);
 * 0.5 <= exponent <= 1, coefficient in m3/s/Pa^exponent. */
struct flow crack_flow(double coefficient, double exponent, const struct gas *a, const struct gas *b);

/* Tube: Darcy with Churchill's friction through all regimes, mean density (so that p1^2 - p2^2 drives a long tube),
 * `loss` = sum of minor-loss factors; never faster than sound at the bore. */
struct flow tube_flow(double bore, double length, double roughness, double loss, const struct gas *a,
                      const struct gas *b);

/* The same with a filter in it, which takes viscosity * volume flow * `resists` [1/m3]. */
struct flow screened_flow(double bore, double length, double roughness, double loss, double resists,
                          const struct gas *a, const struct gas *b);

/* Packed bed: Ergun. area of the bed, its length, particle diameter, void share. */
struct flow bed_flow(double area, double length, double particle, double void_share, const struct gas *a,
                     const struct gas *b);

/* d of the same by its void share [mol/s]. */
double bed_void_slope(double area, double length, double particle, double void_share, const struct gas *a,
                      const struct gas *b);

/* The flow held under `most` [mol/s] in either direction, smoothly: F / (1 + |F/most|^8)^(1/8). */
struct flow flow_held_under(struct flow free, double most);

/* Diameter of the thin sharp hole that passes `flow` [mol/s, >= 0] from a to b, by inverting hole_flow; 0 when the flow
 * or the difference of pressure is not above 0; at most `largest`. */
double equivalent_hole(double flow, const struct gas *a, const struct gas *b, double largest);

#endif
