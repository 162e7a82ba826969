/* sim/property/volatility.h  Volatility of a fuel by the definitions of the trade. "RVP" here is the DVPE. */
#ifndef PROPERTY_VOLATILITY_H
#define PROPERTY_VOLATILITY_H

#include "property/liquid.h"

#define VOLATILITY_TEMPERATURE 310.92777777777778 /* K: 100 degF */

struct volatility {
    double bubble;   /* Pa at 37.8 degC, no vapor space: "true vapor pressure" */
    double expanded; /* Pa at 37.8 degC, four volumes of vapor to one of liquid, no air */
    double air;      /* Pa: what the air that was dissolved in the cold sample adds */
    double dvpe;     /* Pa: dry vapor pressure equivalent [ASTMD5191] */
};

struct volatility liquid_volatility(const struct liquid *liquid, const double *amount);

/* The pressure at another temperature than 37.8 degC in the same chamber, five times the sample at 0 degC. No air. */
double liquid_expanded_pressure(const struct liquid *liquid, const double *amount, double temperature);

#endif
