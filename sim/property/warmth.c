/* sim/property/warmth.c  Heat and temperature of an ideal gas.
 *
 *   cp = a + b W(T),   h = a T + b integral of W from 0 K,   W = T - 298.15 K  above 220 K.
 * From -20 to 45 degC such a line is within 0.2 % of the published curves of every gas here, from 220 K to 400 K within
 * 1.5 %. Colder than that it would run below zero long before 0 K, so W bends off: with r = T - 120 K,
 *   W = r^2/(200 K) - 128.15 K  between 120 K and 220 K,   W = -128.15 K  below.
 * Value and slope of W have no jump, and cv of each gas stays above 2 R. Warmer, the line goes on. So h rises everywhere,
 * from 0 at 0 K, and a sum over gases,
 *   H(T) = T sum N a + integral of W sum N b,
 * bends upward: Newton's method comes down to its root from any beginning, and is there in four or five steps. */
#include "property/gas.h"

#include <math.h>

#define GAS_CONSTANT 8.31446261815324                       /* J/mol/K [SI2019] */
#define BENT 220.0                                          /* K: W is straight above */
#define BEND 100.0                                          /* K: of its bend */
#define COLDEST (BENT - REFERENCE_TEMPERATURE - 0.5 * BEND) /* K: W under the bend */

struct warmth gas_warmth(double temperature)
{
    const double r = fmin(fmax(temperature - (BENT - BEND), 0.0), BEND);
    const double beyond = fmax(temperature - BENT, 0.0);
    return (struct warmth){COLDEST + r * r / (2.0 * BEND) + beyond, r / BEND,
                           COLDEST * temperature + r * r * r / (6.0 * BEND) + 0.5 * beyond * (BEND + beyond)};
}

double species_heat_capacity(const struct species *of, const struct warmth *warmth)
{
    return of->heat_capacity + of->heat_slope * warmth->value;
}

double species_enthalpy(const struct species *of, double temperature, const struct warmth *warmth)
{
    return of->heat_capacity * temperature + of->heat_slope * warmth->integral;
}

double species_gamma(const struct species *of, double temperature)
{
    const struct warmth warmth = gas_warmth(temperature);
    const double cp = species_heat_capacity(of, &warmth);
    return cp / (cp - GAS_CONSTANT);
}

double warmth_temperature(double capacity, double slope, double energy)
{
    enum { STEPS_MOST = 20 };

    const double close = 1e-9; /* of T: the next step would be its square */

    double temperature = energy / capacity;
    for (int k = 0; k < STEPS_MOST; k++) {
        const struct warmth warmth = gas_warmth(temperature);
        const double over = capacity * temperature + slope * warmth.integral - energy;
        const double step = over / (capacity + slope * warmth.value);
        temperature -= step;
        if (!(fabs(step) > close * fabs(temperature)))
            break;
    }
    return temperature;
}
