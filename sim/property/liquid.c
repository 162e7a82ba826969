/* sim/property/liquid.c  Vapor over a liquid of several components.
 *
 *   p_i = x_i gamma_i psat_i                        modified Raoult's law, gas ideal; gamma from activity_divided
 *   dp_i/dn_j = gamma_i psat_i (d_ij - x_i)/N + p_i d ln gamma_i/dn_j
 *   dp_i/dT = x_i gamma_i dpsat_i/dT + p_i d ln gamma_i/dT
 *
 * Volumes add up: that mixing ethanol into gasoline swells it by some 0.2 % (from memory) is left out.
 *
 * The heat of mixing belongs to the same excess energy, H = -R T^2 sum n_i d ln gamma_i/dT and per component
 * -R T^2 d ln gamma_i/dT: 0.7 kJ/mol at most in gasoline with ethanol, beside 20 to 40 kJ/mol of vaporization. It is
 * taken at 298.15 K, so that the liquid's heat capacity stays that of its components. */
#include "property/liquid.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */

void liquid_prepare(struct liquid *liquid, int count, const struct component *const *component)
{
    assert(0 < count && count <= LIQUID_MOST);
    *liquid = (struct liquid){.count = count};
    for (int k = 0; k < count; k++)
        liquid->component[k] = component[k];
    activity_prepare(&liquid->activity, count, component);
}

static double amount_sum(const struct liquid *liquid, const double *amount)
{
    double sum = liquid->last_drop;
    for (int k = 0; k < liquid->count; k++)
        sum += amount[k];
    return sum;
}

void liquid_pressures(const struct liquid *liquid, const double *amount, double temperature,
                      struct pressures *pressures)
{
    memset(pressures, 0, sizeof *pressures);
    const double sum = amount_sum(liquid, amount);
    if (!(sum > 0.0))
        return;
    struct coefficients gamma;
    activity_divided(&liquid->activity, amount, temperature, &gamma);
    for (int i = 0; i < liquid->count; i++) {
        const struct thermal pure = component_saturation(liquid->component[i], temperature);
        const double share = amount[i] / sum;
        const double factor = exp(gamma.log[i]);
        const double value = share * factor * pure.value;
        pressures->value[i] = value;
        pressures->by_temperature[i] = share * factor * pure.slope + value * gamma.by_temperature[i];
        for (int j = 0; j < liquid->count; j++)
            pressures->by_amount[i][j] = value * (gamma.by_amount[i][j] - 1.0 / sum);
        pressures->by_amount[i][i] += factor * pure.value / sum;
    }
}

void liquid_pressure_values(const struct liquid *liquid, const double *amount, double temperature, double *value)
{
    double log_gamma[LIQUID_MOST];
    const double sum = amount_sum(liquid, amount);
    activity_divided_values(&liquid->activity, amount, temperature, log_gamma);
    for (int i = 0; i < liquid->count; i++)
        value[i] = sum > 0.0 ? amount[i] / sum * exp(log_gamma[i]) *
                                   component_saturation(liquid->component[i], temperature).value
                             : 0.0;
}

struct thermal liquid_bubble_pressure(const struct liquid *liquid, const double *amount, double temperature)
{
    struct pressures pressures;
    liquid_pressures(liquid, amount, temperature, &pressures);
    struct thermal sum = {0.0, 0.0};
    for (int k = 0; k < liquid->count; k++) {
        sum.value += pressures.value[k];
        sum.slope += pressures.by_temperature[k];
    }
    return sum;
}

/* Newton's method for ln p over 1/T, which is nearly a straight line. */
double liquid_boiling_temperature(const struct liquid *liquid, const double *amount, double pressure)
{
    enum { STEPS_MOST = 50 };

    assert(pressure > 0.0);
    double inverse = 1.0 / 300.0;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double temperature = 1.0 / inverse;
        const struct thermal p = liquid_bubble_pressure(liquid, amount, temperature);
        const double change = log(p.value / pressure) * p.value / (p.slope * temperature * temperature);
        inverse = fmin(fmax(inverse + change, 0.8 * inverse), 1.25 * inverse);
        if (fabs(change) < 1e-14 * inverse)
            break;
    }
    return 1.0 / inverse;
}

/* Sum of n_k times a property of the pure component. */
static struct thermal liquid_sum(const struct liquid *liquid, const double *amount, double temperature,
                                 struct thermal (*property)(const struct component *, double))
{
    struct thermal sum = {0.0, 0.0};
    for (int k = 0; k < liquid->count; k++) {
        const struct thermal one = property(liquid->component[k], temperature);
        sum.value += amount[k] * one.value;
        sum.slope += amount[k] * one.slope;
    }
    return sum;
}

struct thermal liquid_volume(const struct liquid *liquid, const double *amount, double temperature)
{
    return liquid_sum(liquid, amount, temperature, component_volume);
}

struct thermal liquid_energy(const struct liquid *liquid, const double *amount, double temperature)
{
    return liquid_sum(liquid, amount, temperature, component_energy);
}

/* The sum over the components is one cubic, x = T - 298.15 K; Newton's method, from the line through x = 0. */
double liquid_temperature(const struct liquid *liquid, const double *amount, double skin, double energy)
{
    enum { STEPS_MOST = 20 };

    const double close = 1e-9; /* of T: the next step would be its square */

    double sought = energy - skin * REFERENCE_TEMPERATURE, a = skin, b = 0.0, c = 0.0;
    for (int k = 0; k < liquid->count; k++) {
        const struct component *of = liquid->component[k];
        sought -= amount[k] * component_energy(of, REFERENCE_TEMPERATURE).value;
        a += amount[k] * of->heat_capacity;
        b += amount[k] * of->heat_slope;
        c += amount[k] * of->heat_bend;
    }
    double x = sought / a;
    for (int k = 0; k < STEPS_MOST; k++) {
        const double step = (x * (a + x * (b / 2.0 + x * c / 3.0)) - sought) / (a + x * (b + x * c));
        x -= step;
        if (!(fabs(step) > close * REFERENCE_TEMPERATURE))
            break;
    }
    return REFERENCE_TEMPERATURE + x;
}

bool liquid_mixing_slopes(const struct liquid *liquid, const double *amount, double slope[][LIQUID_MOST])
{
    const double aside = 0.1; /* K: (aside/T)^2 is 1e-7 of a slope that only Newton's iteration sees */
    struct coefficients warm, cold;
    if (liquid->activity.ideal)
        return false;
    activity_divided(&liquid->activity, amount, REFERENCE_TEMPERATURE + aside, &warm);
    activity_divided(&liquid->activity, amount, REFERENCE_TEMPERATURE - aside, &cold);
    for (int k = 0; k < liquid->count; k++)
        for (int j = 0; j < liquid->count; j++)
            slope[k][j] = -GAS_CONSTANT * REFERENCE_TEMPERATURE * REFERENCE_TEMPERATURE *
                          (warm.by_amount[k][j] - cold.by_amount[k][j]) / (2.0 * aside);
    return true;
}

double liquid_mixing_heat(const struct liquid *liquid, const double *amount, double *by_amount)
{
    if (liquid->activity.ideal) {
        for (int k = 0; by_amount && k < liquid->count; k++)
            by_amount[k] = 0.0;
        return 0.0;
    }
    struct coefficients gamma;
    activity_divided(&liquid->activity, amount, REFERENCE_TEMPERATURE, &gamma);
    double sum = 0.0;
    for (int k = 0; k < liquid->count; k++) {
        const double one = -GAS_CONSTANT * REFERENCE_TEMPERATURE * REFERENCE_TEMPERATURE * gamma.by_temperature[k];
        sum += amount[k] * one;
        if (by_amount)
            by_amount[k] = one;
    }
    return sum;
}

double liquid_mass(const struct liquid *liquid, const double *amount)
{
    double mass = 0.0;
    for (int k = 0; k < liquid->count; k++)
        mass += amount[k] * liquid->component[k]->gas.molar_mass;
    return mass;
}

double vapor_molar_mass(const struct liquid *liquid, const double *pressure)
{
    double sum = 0.0;
    for (int k = 0; k < liquid->count; k++)
        sum += pressure[k];
    return liquid_mass(liquid, pressure) / sum;
}

/* With K_i = vapor of i over the share of i in the liquid, mol, held fixed: sum of L_i = n_i N/(N + K_i) equals N where
 * sum n_i/(N + K_i) = 1. That sum falls and bends upward, so Newton's method from N = 0 climbs to the root and never
 * passes it. 0: all is vapor. */
static double liquid_left(int count, const double *total, const double *vapor_per_share)
{
    enum { STEPS_MOST = 200 };

    double left = 0.0;
    for (int step = 0; step < STEPS_MOST; step++) {
        double excess = -1.0;
        double slope = 0.0;
        for (int k = 0; k < count; k++) {
            const double part = total[k] / (left + vapor_per_share[k]);
            excess += part;
            slope += part / (left + vapor_per_share[k]);
        }
        if (!(excess > 1e-15))
            break;
        left += excess / slope;
    }
    return left;
}

/* Substitution: K from the liquid of the last pass, until the liquid stays. */
bool liquid_flash(const struct liquid *liquid, const double *total, double temperature, double volume, double *rest)
{
    enum { PASSES_MOST = 500 };

    double gas = volume - liquid_volume(liquid, total, temperature).value;
    assert(gas > 0.0);
    memcpy(rest, total, (size_t)liquid->count * sizeof *rest);
    for (int pass = 0; pass < PASSES_MOST; pass++) {
        double log_gamma[LIQUID_MOST];
        activity_divided_values(&liquid->activity, rest, temperature, log_gamma);
        double vapor_per_share[LIQUID_MOST];
        for (int k = 0; k < liquid->count; k++)
            vapor_per_share[k] = exp(log_gamma[k]) * component_saturation(liquid->component[k], temperature).value *
                                 gas / (GAS_CONSTANT * temperature);
        const double left = liquid_left(liquid->count, total, vapor_per_share);
        double moved = 0.0;
        double sum = 0.0;
        for (int k = 0; k < liquid->count; k++) {
            const double stays = total[k] * left / (left + vapor_per_share[k]);
            moved += fabs(stays - rest[k]);
            sum += total[k];
            rest[k] = stays;
        }
        gas = volume - liquid_volume(liquid, rest, temperature).value;
        if (!(left > 0.0))
            return false;
        if (moved <= 1e-15 * sum)
            break;
    }
    return true;
}
