/* tests/support/bed_forms.c  Closed forms for beds, tubes and cooling bodies.
 *
 * Bed, plug flow at constant pressure and temperature, e share of gas, r bulk density:
 *   e dc/dt + d(u c)/dz + r dq/dt = 0,   dq/dt = k (q* - q)  or  q = q*
 *
 *   linear       c/c0 = J(xi, tau), J(x, y) = 1 - integral_0^x exp(-y - s) I0(2 sqrt(y s)) ds [Anzelius 1926, Thomas 1944]
 *                = P(N_x <= N_y), N Poisson of mean x, y: taken up x times on the way, let go y times in the time
 *   cells        time in the gas of n cells has a gamma distribution; given it, the same two Poisson numbers
 *   pattern      k (t - t_st) = (r ln X - ln(1 - X))/(1 - r) - 1,  r = 1/(1 + b c0)             [Michaels 1952, Vermeulen]
 *   purge        c = (sqrt(r qs b/(u t/z - e)) - 1)/b                                        [De Vault 1943, Glueckauf]
 *   much vapor   F(y) = e C + (1 - y) r dq/dy,  dG/dy = r (dq/dy) G/F,  G(0) = u C:  share y leaves at L F/G
 *   heat         pure heat wave u g/(e g + r cs), g the gas's heat capacity; jump conditions  [Pan and Basmadjian 1970]
 *   tubes, slab, cylinder                                                        [Stefan 1871; Carslaw and Jaeger 1959]
 * Names from memory; every formula was derived again. */
#include "support/bed_forms.h"

#include <math.h>

#define PI 3.14159265358979323846

const struct bed_case bed_of_the_tables = {0.2, 0.40, 300.0, 0.02};

/* ---- linear ------------------------------------------------------------------------------------------------------ */

static double poisson(double mean, int k)
{
    return mean > 0.0 ? exp(k * log(mean) - mean - lgamma(k + 1.0)) : k == 0;
}

double bed_j(double x, double y)
{
    const int last = (int)(y + 12.0 * sqrt(y) + 40.0);
    double at_most = 0.0, sum = 0.0; /* P(N_x <= k) */
    for (int k = 0; k <= last; k++) {
        at_most += poisson(x, k);
        sum += poisson(y, k) * at_most;
    }
    return sum;
}

double bed_linear_gas(const struct bed_case *bed, double henry, double rate, double place, double time)
{
    const double clock = time - bed->gas * place / bed->velocity;
    return clock < 0.0 ? 0.0 : bed_j(rate * bed->density * henry * place / bed->velocity, rate * clock);
}

double bed_linear_carbon(const struct bed_case *bed, double henry, double rate, double place, double time)
{
    const double clock = time - bed->gas * place / bed->velocity;
    return clock < 0.0 ? 0.0 : 1.0 - bed_j(rate * clock, rate * bed->density * henry * place / bed->velocity);
}

/* Integral over the time g that a molecule is in the gas, gamma-distributed with mean gas*length/velocity; Simpson's
 * rule over ten times its spread. */
double bed_cells_gas(const struct bed_case *bed, double henry, double rate, int cells, double time)
{
    enum { STEPS = 2000 };

    const double leaving = bed->velocity * cells / (bed->length * bed->gas); /* 1/s, of a cell's gas */
    const double held = rate * bed->density * henry / bed->gas;              /* 1/s, into the carbon */
    const double mean = cells / leaving;
    const double h = mean * (1.0 + 14.0 / sqrt(cells)) / STEPS;
    double sum = 0.0;
    for (int i = 1; i <= STEPS; i++) {
        const double g = h * i;
        const double density = exp((cells - 1) * log(leaving * g) - leaving * g - lgamma(cells)) * leaving;
        const double weight = i == STEPS ? 1.0 : i % 2 ? 4.0 : 2.0;
        if (g < time)
            sum += weight * density * bed_j(held * g, rate * (time - g));
    }
    return sum * h / 3.0;
}

/* ---- fronts and purges in equilibrium ---------------------------------------------------------------------------- */

double bed_pattern_time(double b_feed, double gas)
{
    const double r = 1.0 / (1.0 + b_feed);
    return (r * log(gas) - log1p(-gas)) / (1.0 - r) - 1.0;
}

double bed_stoichiometric_time(const struct bed_case *bed, double per_gas)
{
    return bed->length / bed->velocity * (bed->gas + bed->density * per_gas);
}

/* Reduced time u t/z - e between the first fall and the last trace. */
static double purge_clock(const struct bed_case *bed, const struct bed_langmuir *q, double place, double time)
{
    const double last = bed->density * q->most * q->b;
    const double full = 1.0 + q->b * q->feed;
    const double clock = bed->velocity * time / place - bed->gas;
    return fmin(fmax(clock, last / (full * full)), last);
}

double bed_purge_gas(const struct bed_case *bed, const struct bed_langmuir *q, double place, double time)
{
    const double clock = purge_clock(bed, q, place, time);
    return (sqrt(bed->density * q->most * q->b / clock) - 1.0) / (q->b * q->feed);
}

/* One less what has left: velocity times the integral of c at the exit. */
double bed_purge_heel(const struct bed_case *bed, const struct bed_langmuir *q, double time)
{
    const double last = bed->density * q->most * q->b;
    const double full = 1.0 + q->b * q->feed;
    const double first = last / (full * full);
    const double clock = purge_clock(bed, q, bed->length, time);
    const double falling = (2.0 * (sqrt(last * clock) - sqrt(last * first)) - (clock - first)) / q->b;
    const double flat = q->feed * fmin(bed->velocity * time / bed->length, first + bed->gas);
    return 1.0 - (flat + falling) / (bed->gas * q->feed + bed->density * q->most * q->b * q->feed / full);
}

/* ---- much vapor -------------------------------------------------------------------------------------------------- */

double bed_bulk_time(const struct bed_case *bed, const struct bed_vapor *vapor, double share)
{
    double loading, slope;
    vapor->isotherm(share, &loading, &slope);
    const double held = bed->gas * vapor->concentration * share + bed->density * loading;
    return bed->length * held / (bed->velocity * vapor->concentration * share);
}

double bed_bulk_slowed(const struct bed_case *bed, const struct bed_vapor *vapor, double share)
{
    double loading, slope;
    vapor->isotherm(share, &loading, &slope);
    const double carbon = bed->density * loading;
    return 1.0 - share * carbon / (carbon + bed->gas * vapor->concentration * share);
}

/* d ln(G/G0)/dy; and F. */
static double bulk_speed(const struct bed_case *bed, const struct bed_vapor *vapor, double y, double *f)
{
    double loading, slope;
    vapor->isotherm(y, &loading, &slope);
    *f = bed->gas * vapor->concentration + (1.0 - y) * bed->density * slope;
    return bed->density * slope / *f;
}

/* Mol in a m3 of bed at y, and its slope. */
static double bulk_inventory(const struct bed_case *bed, const struct bed_vapor *vapor, double y, double *slope)
{
    double loading, by_share;
    vapor->isotherm(y, &loading, &by_share);
    *slope = bed->gas * vapor->concentration + bed->density * by_share;
    return bed->gas * vapor->concentration * y + bed->density * loading;
}

/* Along y = share s^4, which crowds where the isotherm bends: ln(G/G0) by Simpson's rule in each step, and with it the
 * integral of (G/F) d inventory, of which the bed at time L F/G holds: inventory(share) L - t * integral. */
struct bed_purged bed_bulk_purge(const struct bed_case *bed, const struct bed_vapor *vapor, double from, double share)
{
    enum { STEPS = 4000 };

    double log_g = 0.0, integral = 0.0, f = 0.0, slope;
    double place[2 * STEPS + 1], speed[2 * STEPS + 1], held[2 * STEPS + 1], g[2 * STEPS + 1];
    const double h = 1.0 / (2 * STEPS);
    for (int i = 0; i <= 2 * STEPS; i++) {
        const double s = h * i;
        const double stretch = 4.0 * share * s * s * s;
        place[i] = share * s * s * s * s;
        speed[i] = stretch * bulk_speed(bed, vapor, place[i], &f);
        bulk_inventory(bed, vapor, place[i], &slope);
        held[i] = stretch * slope / f;
    }
    /* cumulative, by parabolas: whole steps by Simpson, half steps by the same parabola */
    g[0] = 1.0;
    for (int i = 2; i <= 2 * STEPS; i += 2) {
        const double a = speed[i - 2], b = speed[i - 1], c = speed[i];
        g[i - 1] = exp(log_g + h * (5.0 * a + 8.0 * b - c) / 12.0);
        log_g += h * (a + 4.0 * b + c) / 3.0;
        g[i] = exp(log_g);
        integral += h / 3.0 * (g[i - 2] * held[i - 2] + 4.0 * g[i - 1] * held[i - 1] + g[i] * held[i]);
    }
    /* in units of G0 = velocity * concentration */
    const double faster = g[2 * STEPS];
    const double g0 = bed->velocity * vapor->concentration;
    const double time = bed->length * f / (g0 * faster);
    const double now = bulk_inventory(bed, vapor, share, &slope) * bed->length - time * g0 * integral;
    return (struct bed_purged){time, now / (bulk_inventory(bed, vapor, from, &slope) * bed->length), faster};
}

/* ---- heat -------------------------------------------------------------------------------------------------------- */

double bed_heat_time(const struct bed_case *bed, const struct bed_heat *heat)
{
    return bed->length / bed->velocity * (bed->gas + bed->density * heat->carbon / heat->gas);
}

double bed_plateau_rise(const struct bed_heat *heat, double loading, double feed)
{
    return heat->adsorption * loading / (heat->gas * loading / feed - heat->carbon);
}

/* Langmuir at c, T: loading and slopes. */
static double hot_langmuir(const struct bed_langmuir *q, const struct bed_heat *heat, double cold, double c, double t,
                           double *by_gas, double *by_temperature)
{
    const double per_kelvin = heat->adsorption / 8.31446261815324;
    const double b = q->b * exp(per_kelvin * (1.0 / t - 1.0 / cold));
    const double full = 1.0 + b * c;
    *by_gas = q->most * b / (full * full);
    *by_temperature = -per_kelvin / (t * t) * q->most * b * c / (full * full);
    return q->most * b * c / full;
}

/* In a simple wave dq = m dc = (cs - g m)/H dT, so 1 = q_c/m + q_T H/(cs - g m); the slow wave has the larger m. */
static double slow_wave(const struct bed_langmuir *q, const struct bed_heat *heat, double cold, double c, double t)
{
    double by_gas, by_temperature;
    hot_langmuir(q, heat, cold, c, t, &by_gas, &by_temperature);
    const double middle = heat->carbon + heat->gas * by_gas - by_temperature * heat->adsorption;
    return (middle + sqrt(middle * middle - 4.0 * heat->gas * by_gas * heat->carbon)) / (2.0 * heat->gas);
}

/* dT/dc along the slow wave. */
static double slow_slope(const struct bed_langmuir *q, const struct bed_heat *heat, double cold, double c, double t)
{
    const double m = slow_wave(q, heat, cold, c, t);
    return m * heat->adsorption / (heat->carbon - heat->gas * m);
}

/* How far (c, T) is from what a front into the clean cold bed can leave behind, K. */
static double front_misses(const struct bed_langmuir *q, const struct bed_heat *heat, double cold, double c, double t)
{
    double by_gas, by_temperature;
    const double loading = hot_langmuir(q, heat, cold, c, t, &by_gas, &by_temperature);
    return t - cold - heat->adsorption * loading / (heat->carbon - heat->gas * loading / c);
}

/* One step of Runge and Kutta's along the wave. */
static double slow_step(const struct bed_langmuir *q, const struct bed_heat *heat, double cold, double c, double t,
                        double h)
{
    const double k1 = slow_slope(q, heat, cold, c, t);
    const double k2 = slow_slope(q, heat, cold, c + 0.5 * h, t + 0.5 * h * k1);
    const double k3 = slow_slope(q, heat, cold, c + 0.5 * h, t + 0.5 * h * k2);
    const double k4 = slow_slope(q, heat, cold, c + h, t + h * k3);
    return t + h * (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0;
}

struct bed_hot bed_hot_front_of(const struct bed_case *bed, const struct bed_heat *heat, const struct bed_langmuir *q,
                                double cold)
{
    double c = q->feed, t = cold, h = -1e-4 * q->feed;
    while (h < -1e-15 * q->feed) {
        const double next = slow_step(q, heat, cold, c, t, h);
        if (front_misses(q, heat, cold, c + h, next) > 0.0) {
            h *= 0.5;
            continue;
        }
        c += h;
        t = next;
    }
    double by_gas, by_temperature;
    const double loading = hot_langmuir(q, heat, cold, c, t, &by_gas, &by_temperature);
    return (struct bed_hot){.temperature = t,
                            .gas = c / q->feed,
                            .loading = loading,
                            .front = bed_stoichiometric_time(bed, loading / c),
                            .rear_first = bed_stoichiometric_time(bed, slow_wave(q, heat, cold, c, t)),
                            .rear_last = bed_stoichiometric_time(bed, slow_wave(q, heat, cold, q->feed, cold))};
}

/* ---- tubes ------------------------------------------------------------------------------------------------------- */

double tube_stefan_flux(double share)
{
    return -log1p(-share);
}

double tube_stefan_middle(double share)
{
    return 1.0 - sqrt(1.0 - share);
}

/* Images of the end. */
double tube_filled(double fourier, double x)
{
    const double scale = 0.5 / sqrt(fourier);
    double sum = 0.0;
    for (int n = 0; n < 40; n++)
        sum += erfc((2 * n + x) * scale) - erfc((2 * n + 2 - x) * scale);
    return sum;
}

double tube_exit_flux(double fourier)
{
    double sum = 0.0;
    for (int n = 0; n < 40; n++)
        sum += exp(-(2 * n + 1) * (2 * n + 1) / (4.0 * fourier));
    return 2.0 * sum / sqrt(PI * fourier);
}

/* ---- cooling ----------------------------------------------------------------------------------------------------- */

typedef double condition(double z, double biot);

static double slab_condition(double z, double biot)
{
    return z * sin(z) - biot * cos(z);
}

static double cylinder_condition(double z, double biot)
{
    return z * j1(z) - biot * j0(z);
}

/* The root between a and b, of which the sign at a is given by f(a). */
static double root_between(condition *f, double biot, double a, double b)
{
    const int sign = f(a, biot) > 0.0;
    for (int n = 0; n < 200; n++) {
        const double middle = 0.5 * (a + b);
        *((f(middle, biot) > 0.0) == sign ? &a : &b) = middle;
    }
    return 0.5 * (a + b);
}

/* The first roots, up to where exp(-z^2 Fo) has nothing left to say. */
static int roots_find(condition *f, double biot, double fourier, double *root, int most)
{
    const double step = 0.01, end = sqrt(45.0 / fourier) + 4.0;
    int count = 0;
    for (double z = 1e-6; z < end && count < most; z += step)
        if ((f(z, biot) > 0.0) != (f(z + step, biot) > 0.0))
            root[count++] = root_between(f, biot, z, z + step);
    return count;
}

double cooled_slab(double biot, double fourier, double x)
{
    enum { MOST = 100 };

    double root[MOST], sum = 0.0;
    const int count = roots_find(slab_condition, biot, fourier, root, MOST);
    for (int i = 0; i < count; i++) {
        const double z = root[i];
        sum += 4.0 * sin(z) / (2.0 * z + sin(2.0 * z)) * cos(z * x) * exp(-z * z * fourier);
    }
    return sum;
}

double cooled_cylinder(double biot, double fourier, double x)
{
    enum { MOST = 100 };

    double root[MOST], sum = 0.0;
    const int count = roots_find(cylinder_condition, biot, fourier, root, MOST);
    for (int i = 0; i < count; i++) {
        const double z = root[i];
        const double a = j0(z), b = j1(z);
        sum += 2.0 * b / (z * (a * a + b * b)) * j0(z * x) * exp(-z * z * fourier);
    }
    return sum;
}
