/* sim/law/between.h  What the laws of flow share among themselves; nobody else needs it.
 *
 * A passage does not see two gases but one difference of pressure and one gas: the upstream one in a hole, the mean of
 * both ends in a tube. A law answers for flow with the difference, never against it, and gives slopes for that one gas;
 * flow_spread() turns this into a flow with its sign and with slopes for both sides. */
#ifndef LAW_BETWEEN_H
#define LAW_BETWEEN_H

#include "law/flow.h"

/* The gas that a passage works with. share = weight of side a in temperature, molar mass, viscosity and gamma. */
struct between {
    double step;           /* Pa, size of the difference of pressure, >= 0 */
    double sign;           /* +1: a to b, -1: b to a */
    double share;          /* 0..1 */
    double share_slope;    /* d share / d difference, 1/Pa */
    double pressure_share; /* weight of side a in pressure */
    double pressure, temperature, molar_mass, viscosity, gamma;
};

/* Upstream gas. Which side that is changes over +-0.5 Pa, so that the slope of the flow does not jump at reversal when
 * the sides hold different gases. Pressure is that of the higher side, always. */
struct between between_upstream(const struct gas *a, const struct gas *b);

/* Mean of both sides. */
struct between between_mean(const struct gas *a, const struct gas *b);

/* A number that hangs on the step of pressure and the gas between, with its slopes. */
struct response {
    double value;
    double by_step;
    double by[GAS_QUANTITIES];
};

struct flow flow_spread(const struct response *flow, const struct between *gas, const struct gas *a,
                        const struct gas *b);

/* Square of the isentropic flow factor psi, where  mass flow = area * p_up * psi * sqrt(M/(R T)), for a pressure that
 * falls by the share `drop` (0..1) of the upstream one; constant once choked. */
struct expansion {
    double value, by_drop, by_gamma;
};
struct expansion isentropic_square(double drop, double gamma);

/* Largest flow through `area` that starts at the higher of the pressures that `gas` is the mean of, mol/s: sound. */
struct response sonic_flow(double area, const struct between *gas);

/* Drive: X = 2 rho step l^2 / mu^2, the square of the Reynolds number (on the length l) that the difference of pressure
 * would give to gas without friction. Density of the gas between. */
struct response drive_plain(const struct between *gas, double length);

/* The same for a hole: gas expands in the throat, and the share `thin` of the hole contracts it less at lower pressure
 * ratios. See hole.c. */
struct response drive_expanding(const struct between *gas, double length, double thin);

/* Flow through `area` with the Reynolds number (and d/dX) that answers the drive: area mu Re/(l M), mol/s. */
struct response reynolds_flow(struct sloped reynolds, const struct response *drive, const struct between *gas,
                              double area, double length);

/* Re that solves  X = viscous Re + inertial Re^2,  without cancellation at either end. viscous > 0, inertial >= 0. */
struct sloped reynolds_quadratic(double drive, double viscous, double inertial);

/* The share of a hole that behaves as thin: its jet leaves the bore without touching it again. */
double thin_share(double depth_over_width);

/* How far inertia has taken over from creeping flow: 0 when creeping, 1 when not. For holes and slits alike.
 * estimate: first estimate of Re, with slope d/dX. */
struct sloped inertia_share(struct sloped estimate);
struct sloped reynolds_estimate(double drive, double viscous);

/* Re from X and the factor K (with slope d/dX) that multiplies Re^2:  X = viscous Re + K(X) Re^2. */
struct sloped reynolds_varying(double drive, double viscous, struct sloped inertial);

/* free held under most, smoothly; with slopes. most >= 0. */
struct held {
    double value, by_free, by_most;
};
struct held held_under(double free, double most);

#endif
