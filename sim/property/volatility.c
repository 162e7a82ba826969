/* sim/property/volatility.c  The dry vapor pressure equivalent, by its definition.
 *
 * A sample chilled to 0 degC and saturated with air is let into an empty chamber of five times its volume and warmed to
 * 37.8 degC. What the gauge shows, X, is the fuel's pressure after that expansion and the air's that came with it:
 *   DVPE = 0.965 X - 3.78 kPa                                                                        [ASTMD5191]
 * The air: Ostwald's coefficient L = 0.20 at both temperatures (volume of air, at its own pressure, in a volume of
 * fuel; from memory, 0.18 to 0.21 in tables), so
 *   n_air = L (101325 Pa - p_bubble(0 degC)) V_sample/(R 273.15 K),  p_air = n_air R T/(V_vapor + L V_liquid).
 * L = 0.15 or 0.25 moves the DVPE by 1 kPa. The sample's volume counts at 0 degC; at 37.8 degC it would be 0.24 % less
 * pressure. */
#include "property/volatility.h"

#include <math.h>

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */
#define CHAMBER 5.0                   /* volumes of the sample: 4 of vapor, 1 of liquid */
#define SAMPLE_TEMPERATURE 273.15     /* K */
#define AIR_PRESSURE 101325.0         /* Pa, over the sample as it is chilled */
#define AIR_DISSOLVED 0.20            /* Ostwald's coefficient, from memory */
#define DVPE_FACTOR 0.965             /* [ASTMD5191] */
#define DVPE_OFFSET 3780.0            /* Pa [ASTMD5191] */

/* The chamber after the expansion. */
struct chamber {
    double pressure, vapor, liquid; /* Pa; m3 */
};

static struct chamber chamber_fill(const struct liquid *of, const double *amount, double temperature)
{
    const double volume = CHAMBER * liquid_volume(of, amount, SAMPLE_TEMPERATURE).value;
    double rest[LIQUID_MOST];
    if (liquid_flash(of, amount, temperature, volume, rest)) {
        const double below = liquid_volume(of, rest, temperature).value;
        return (struct chamber){liquid_bubble_pressure(of, rest, temperature).value, volume - below, below};
    }
    double sum = 0.0;
    for (int k = 0; k < of->count; k++)
        sum += amount[k];
    return (struct chamber){sum * GAS_CONSTANT * temperature / volume, volume, 0.0};
}

double liquid_expanded_pressure(const struct liquid *liquid, const double *amount, double temperature)
{
    return chamber_fill(liquid, amount, temperature).pressure;
}

struct volatility liquid_volatility(const struct liquid *liquid, const double *amount)
{
    const double sample = liquid_volume(liquid, amount, SAMPLE_TEMPERATURE).value;
    const double cold = liquid_bubble_pressure(liquid, amount, SAMPLE_TEMPERATURE).value;
    const double air = AIR_DISSOLVED * fmax(AIR_PRESSURE - cold, 0.0) * sample / SAMPLE_TEMPERATURE; /* n R */
    const struct chamber chamber = chamber_fill(liquid, amount, VOLATILITY_TEMPERATURE);
    struct volatility volatility = {
        .bubble = liquid_bubble_pressure(liquid, amount, VOLATILITY_TEMPERATURE).value,
        .expanded = chamber.pressure,
        .air = air * VOLATILITY_TEMPERATURE / (chamber.vapor + AIR_DISSOLVED * chamber.liquid),
    };
    volatility.dvpe = DVPE_FACTOR * (volatility.expanded + volatility.air) - DVPE_OFFSET;
    return volatility;
}
