/* sim/law/convection.h  Natural convection: heat coefficients [W/m2/K] that hang on the difference of temperature. */
#ifndef LAW_CONVECTION_H
#define LAW_CONVECTION_H

#include "law/flow.h"

/* What a fluid brings along; taken as constant. */
struct convective {
    double buoyancy; /* g beta/(nu a), 1/m3/K: times length^3 and a difference of temperature, Rayleigh's number */
    double prandtl;
    double conductivity; /* W/m/K */
    double kinematic;    /* m2/s: viscosity over density */
};

struct convective convective_gas(double pressure, double temperature, double molar_mass, double heat_capacity,
                                 double viscosity, double conductivity); /* heat capacity per mol */
struct convective convective_liquid(double density, double expansion, double heat_capacity, double viscosity,
                                    double conductivity); /* heat capacity per kg */

/* Every coefficient comes with its slope by the difference; heat = coefficient * area * difference, so its slope is
 * coefficient + slope * difference. Finite and smooth at zero. */

/* Wall that stands, of this height. */
struct sloped convection_wall(const struct convective *fluid, double height, double difference);

/* Lying cylinder. */
struct sloped convection_cylinder(const struct convective *fluid, double diameter, double difference);

/* Level surface in the open. difference > 0: it overturns (warm below its fluid, or cold above it). size: area over
 * perimeter. */
struct sloped convection_plate(const struct convective *fluid, double size, double difference);

/* Level surface that bounds a closed space: as a plate where it overturns, at rest where it does not, with conduction
 * alone over `path` [m], from the surface to the middle of what it bounds. */
struct sloped convection_layer(const struct convective *fluid, double size, double path, double difference);

/* What a stream of `speed` [m/s] along a surface of this length carries off, whatever the difference [W/m2/K]. */
double convection_forced(const struct convective *fluid, double length, double speed);

/* The same along one quantity on which a length and the difference hang: what comes with them is their slope by it, and so
 * is the coefficient's. */
struct sloped convection_wall_along(const struct convective *fluid, struct sloped height, struct sloped difference);
struct sloped convection_cylinder_along(const struct convective *fluid, double diameter, struct sloped difference);
struct sloped convection_plate_along(const struct convective *fluid, double size, struct sloped difference);
struct sloped convection_layer_along(const struct convective *fluid, double size, struct sloped path,
                                     struct sloped difference);
struct sloped convection_forced_along(const struct convective *fluid, struct sloped length, double speed);

#endif
