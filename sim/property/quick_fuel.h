/* sim/property/quick_fuel.h  Gasoline as a single component, for where speed matters more than what it is made of. */
#ifndef PROPERTY_QUICK_FUEL_H
#define PROPERTY_QUICK_FUEL_H

#include "property/component.h"

#define QUICK_FUEL_LEAST (5.0 * 6894.757293168361) /* Pa */
#define QUICK_FUEL_MOST (16.0 * 6894.757293168361) /* Pa */

/* A component that has the vapor pressure of gasoline of this RVP (Pa, in the range above). */
struct component quick_fuel(double rvp);

#endif
