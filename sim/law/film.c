/* sim/law/film.c  A vapor leaves a surface by diffusing through a film of gas that does not; above its bubble point the
 * liquid boils.
 *
 * One vapor through a still gas (Stefan):  N = k C ln(i/i*),  i = p - p_v and i* = p - p_v* the pressures of the gas
 * that stays, in the bulk and at the surface. With the log mean L = (i - i*)/ln(i/i*) this is k/(R T) (p* i - p i*)/L,
 * and for several vapors, i = p - sum p_k,
 *
 *   N_k = k_k A/(R T) (p*_k i - p_k i*) / L,                                                              [BIRD2002]
 *
 * the exact answer for equal k. It turns its sign with the sides (condensation is the same law), is zero in
 * equilibrium, and carries a vapor along that the stream drags. k_k goes with a power of the diffusivity.
 *
 * Near and above the bubble point. i* runs through zero, where ln(i/i*) has no end. So i and i* are replaced by
 *   h(i) = (i + sqrt(i^2 + 4 J^2))/2,   J = 50 Pa,
 * smooth, positive, i within (J/i)^2; J where i = 0. The film then passes a few times k C at the bubble point, grows
 * like a logarithm past it, and is finite also where gas and liquid are all vapor (L = J: N = k (p* - p)/(R T)).
 * What boils comes beside it, with z = sum p*_k - p, at the liquid's own vapor:
 *   N_k = boiling A B(z) p*_k / sum p*,   B = 0 for z < 0, z^2/(2 w) to w = 100 Pa, z - w/2 above.
 * All of it has continuous slopes. The conductance is stiff: the liquid stands so little above its bubble point that
 * heat decides the rate. 1e-4 mol/m2/s/Pa is 1/300 of what kinetic theory would let pass, and near what pool boiling at
 * its most, some 10 mol/m2/s at 20 K or 1e5 Pa too much, comes to [memory]; 0.1 kW on 0.3 m2 needs 0.1 K. */
#include "law/film.h"

#include <assert.h>
#include <math.h>

#define JOINT 50.0         /* Pa, J */
#define BOILING_SOFT 100.0 /* Pa, w */

/* h(i): slope = h/sqrt(i^2 + 4 J^2). */
static struct sloped staying(double inert)
{
    const double root = sqrt(inert * inert + 4.0 * JOINT * JOINT);
    const double value = inert >= 0.0 ? 0.5 * (inert + root) : 2.0 * JOINT * JOINT / (root - inert);
    return (struct sloped){value, value / root};
}

/* ln(a/b)/(a - b), one over the log mean; a, b > 0. */
struct thinness {
    double value, by_a, by_b;
};

static struct thinness thinness(double a, double b)
{
    const double series_end = 0.1;
    const double z = (a - b) / (a + b);
    if (fabs(z) > series_end) {
        const double value = log(a / b) / (a - b);
        return (struct thinness){value, (1.0 / a - value) / (a - b), (value - 1.0 / b) / (a - b)};
    }

    /* atanh(z)/z over the mean */
    enum { TERMS = 9 };

    const double mean = 0.5 * (a + b);
    const double square = z * z;
    double sum = 0.0, by_square = 0.0;
    for (int n = TERMS; n >= 0; n--) {
        by_square = by_square * square + sum;
        sum = sum * square + 1.0 / (2.0 * n + 1.0);
    }
    const double by_z = 2.0 * z * by_square;
    const double scale = 0.5 / (mean * mean);
    return (struct thinness){sum / mean, scale * (by_z * (1.0 - z) - sum), -scale * (by_z * (1.0 + z) + sum)};
}

static struct sloped boiling(double excess)
{
    if (excess <= 0.0)
        return (struct sloped){0.0, 0.0};
    if (excess < BOILING_SOFT)
        return (struct sloped){0.5 * excess * excess / BOILING_SOFT, excess / BOILING_SOFT};
    return (struct sloped){excess - 0.5 * BOILING_SOFT, 1.0};
}

/* What all vapors have in common. */
struct surface {
    double saturation;           /* Pa, sum of p* */
    struct sloped bulk, surface; /* h(i), h(i*) */
    struct thinness thinness;    /* 1/L */
    struct sloped boils;         /* mol/s, all vapors; slope by excess pressure */
};

static struct surface surface_of(const struct film_side *at)
{
    assert(0 <= at->count && at->count <= VAPORS_MOST && at->temperature > 0.0);
    double vapors = 0.0;
    struct surface is = {0};
    for (int k = 0; k < at->count; k++) {
        is.saturation += at->saturation[k];
        vapors += at->partial[k];
    }
    is.bulk = staying(at->pressure - vapors);
    is.surface = staying(at->pressure - is.saturation);
    is.thinness = thinness(is.bulk.value, is.surface.value);
    is.boils = boiling(is.saturation - at->pressure);
    is.boils.value *= at->boiling * at->area;
    is.boils.slope *= at->boiling * at->area;
    return is;
}

/* A/(R T): times k, what a vapor's film passes per Pa. */
static double per_transfer(const struct film_side *at)
{
    return at->area / (GAS_CONSTANT * at->temperature);
}

/* p* h - p h*, Pa2. */
static double driving(const struct film_side *at, const struct surface *is, int k)
{
    return at->saturation[k] * is->bulk.value - at->partial[k] * is->surface.value;
}

static double through_film(const struct film_side *at, const struct surface *is, int k)
{
    return per_transfer(at) * at->transfer[k] * driving(at, is, k) * is->thinness.value;
}

static double boiling_share(const struct film_side *at, const struct surface *is, int k)
{
    return is->boils.slope > 0.0 ? at->saturation[k] / is->saturation : 0.0;
}

void film_values(const struct film_side *at, double *value)
{
    const struct surface is = surface_of(at);
    for (int k = 0; k < at->count; k++)
        value[k] = through_film(at, &is, k) + is.boils.value * boiling_share(at, &is, k);
}

struct film film_evaporation(const struct film_side *at)
{
    const struct surface is = surface_of(at);
    struct film film;
    for (int k = 0; k < at->count; k++) {
        const double passes = per_transfer(at) * at->transfer[k];
        const double drive = driving(at, &is, k);
        const double share = boiling_share(at, &is, k);
        /* by i of the bulk and i* of the surface, both falling by one as a vapor rises by one */
        const double by_bulk =
            passes * is.bulk.slope * (at->saturation[k] * is.thinness.value + drive * is.thinness.by_a);
        const double by_surface =
            passes * is.surface.slope * (drive * is.thinness.by_b - at->partial[k] * is.thinness.value);
        /* by any saturation pressure, through the sum */
        const double boils = is.boils.slope > 0.0 ? share * (is.boils.slope - is.boils.value / is.saturation) : 0.0;
        film.value[k] = through_film(at, &is, k) + is.boils.value * share;
        film.by_pressure[k] = by_bulk + by_surface - share * is.boils.slope;
        film.by_temperature[k] = -through_film(at, &is, k) / at->temperature;
        film.by_transfer[k] = per_transfer(at) * drive * is.thinness.value;
        for (int j = 0; j < at->count; j++) {
            film.by_saturation[k][j] = boils - by_surface;
            film.by_partial[k][j] = -by_bulk;
        }
        film.by_saturation[k][k] += passes * is.bulk.value * is.thinness.value;
        film.by_partial[k][k] -= passes * is.surface.value * is.thinness.value;
        if (is.boils.slope > 0.0)
            film.by_saturation[k][k] += is.boils.value / is.saturation;
    }
    return film;
}

struct sloped film_wetness(double amount, double trace)
{
    assert(trace > 0.0);
    if (amount < 0.0)
        return (struct sloped){amount / trace, 1.0 / trace};
    const double all = amount + trace;
    return (struct sloped){amount / all, trace / (all * all)};
}

/* Heat and vapor cross the same film [CHILTON1934]. */
struct sloped film_transfer(struct sloped heat, double heat_capacity, double diffusivity, double thermal_diffusivity,
                            double exponent)
{
    const double per_heat = pow(diffusivity / thermal_diffusivity, exponent) / heat_capacity;
    return (struct sloped){per_heat * heat.value, per_heat * heat.slope};
}
