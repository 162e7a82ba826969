/* sim/property/atmosphere.c  Still air over altitude: a straight fall of temperature with geopotential height.
 *
 *   H = r0 Z/(r0 + Z),   T = T0 - L H,   p = p0 (T/T0)^(g0 M/(R L))
 *
 * The constants are those of 1976 and belong together; the gas constant is not today's. Source: [USSA1976]. */
#include "property/gas.h"

#include <math.h>

#define EARTH_RADIUS 6356766.0       /* m, r0: makes geopotential out of geometric height */
#define SEA_LEVEL_PRESSURE 101325.0  /* Pa, p0 */
#define SEA_LEVEL_TEMPERATURE 288.15 /* K, T0 */
#define LAPSE 6.5e-3                 /* K/m of geopotential height, L */
#define GRAVITY 9.80665              /* m/s2, g0 */
#define MOLAR_MASS_1976 28.9644e-3   /* kg/mol, M */
#define GAS_CONSTANT_1976 8.31432    /* J/mol/K, R */
#define EXPONENT (GRAVITY * MOLAR_MASS_1976 / (GAS_CONSTANT_1976 * LAPSE))

double standard_temperature(double altitude)
{
    const double geopotential = EARTH_RADIUS * altitude / (EARTH_RADIUS + altitude);
    return SEA_LEVEL_TEMPERATURE - LAPSE * geopotential;
}

double standard_pressure(double altitude)
{
    return SEA_LEVEL_PRESSURE * pow(standard_temperature(altitude) / SEA_LEVEL_TEMPERATURE, EXPONENT);
}

double standard_altitude(double pressure)
{
    const double temperature = SEA_LEVEL_TEMPERATURE * pow(pressure / SEA_LEVEL_PRESSURE, 1.0 / EXPONENT);
    const double geopotential = (SEA_LEVEL_TEMPERATURE - temperature) / LAPSE;
    return EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential);
}
