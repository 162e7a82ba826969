/* sim/run/bdf_formula.c  Coefficients and error constants of the fixed-leading-coefficient BDF in Nordsieck's form.
 *
 * The history is a polynomial of degree q, kept as columns h^j y^(j) / j!. Let x = (t - t_n) / h and
 * back_i = (t_n - t_{n-i}) / h, so that back_1 = 1 and equal steps have back_i = i. H_q = 1 + 1/2 + ... + 1/q.
 * Corrector: the predicted polynomial plus l(x) e, e = y_n - predicted y_n, with
 *     l(x) = (1 + r x) (1 + x/back_1) ... (1 + x/back_{q-1}),   r = H_q - sum_{i<q} 1/back_i,
 * which leaves y_{n-1} .. y_{n-q+1} alone and has l'(0) = H_q whatever the steps were: the leading coefficient, and
 * with it gamma = h / H_q, is fixed [JACKSON1980] [BROWN1989].
 *
 * Local error d of the formula and what e tells of it. Let S = sum_{i<=q} 1/back_i, Pi = prod_{i<=q} back_i,
 * u = h^(q+1) y^(q+1)/(q+1)!. The polynomial of the step before has y_{n-1} and its slope, and y_{n-2} .. y_{n-q}, so
 * it misses y(t_n) by u Pi, and h y'(t_n) by u Pi (S + 1). The slope condition then gives
 *     d = u Pi A / H_q,   A = 1 + S - H_q        (equal steps: A = 1, d = h^(q+1) y^(q+1) / ((q+1) H_q)).
 * e is larger than u Pi + d, because y_{n-2}, y_{n-3}, .. lie off the solution through y_{n-1} by what the error grew
 * since, (q+1)^-1 h'^(q+1) y^(q+1) a step of length h'. Taking the steps before this one as equal,
 *     e = u Pi D / H_q,   D = 1 + S + B (S - 1/P),  B = q (back_q - 1)/(q - 1),  P = prod_{2<=i<=q} back_i/(back_i - 1)
 * and d / e = A / D (equal steps: 1 / ((q+1) H_q); order 1: 1/2 always). A passes through zero when a step is cut to
 * about an eighth; a chance zero must not pass for accuracy, so A counts as 1/2 at least. */
#include "run/bdf_formula.h"

#include <assert.h>
#include <math.h>

static const double LEAST_A = 0.5;

static double harmonic(int q)
{
    double sum = 0.0;
    for (int i = 1; i <= q; i++)
        sum += 1.0 / i;
    return sum;
}

static double back_product(const double *back, int count)
{
    double product = 1.0;
    for (int i = 1; i <= count; i++)
        product *= back[i];
    return product;
}

static double back_sum(const double *back, int count)
{
    double sum = 0.0;
    for (int i = 1; i <= count; i++)
        sum += 1.0 / back[i];
    return sum;
}

/* c *= (root + x), c of degree `degree` becoming degree + 1. */
static void times_root(double *c, int degree, double root)
{
    c[degree + 1] = c[degree];
    for (int j = degree; j > 0; j--)
        c[j] = c[j - 1] + root * c[j];
    c[0] *= root;
}

/* c *= (1 + slope x). */
static void times_slope(double *c, int degree, double slope)
{
    c[degree + 1] = slope * c[degree];
    for (int j = degree; j > 0; j--)
        c[j] += slope * c[j - 1];
}

static void corrector(struct bdf_formula *formula)
{
    const int q = formula->order;
    formula->l[0] = 1.0;
    for (int i = 1; i < q; i++)
        times_slope(formula->l, i - 1, 1.0 / formula->back[i]);
    times_slope(formula->l, q - 1, harmonic(q) - back_sum(formula->back, q - 1));
    formula->l[1] = harmonic(q);
}

/* D of the head comment. */
static double difference(const struct bdf_formula *formula)
{
    const int q = formula->order;
    const double *const back = formula->back;
    const double sum = back_sum(back, q);
    if (q == 1)
        return 1.0 + sum;
    double inverse = 1.0;
    for (int i = 2; i <= q; i++)
        inverse *= (back[i] - 1.0) / back[i];
    return 1.0 + sum + q * (back[q] - 1.0) / (q - 1) * (sum - inverse);
}

/* d = u Pi A / H_q for order q: returns Pi A / H_q. */
static double truncation(const double *back, int q)
{
    const double a = 1.0 + back_sum(back, q) - harmonic(q);
    return back_product(back, q) * fmax(fabs(a), LEAST_A) / harmonic(q);
}

struct bdf_formula bdf_formula_make(int order, double step, const double *past)
{
    assert(1 <= order && order <= BDF_ORDERS && step > 0.0);
    struct bdf_formula formula = {.order = order, .step = step, .back = {0.0, 1.0}};
    for (int i = 1; i <= order; i++)
        formula.back[i + 1] = formula.back[i] + past[i - 1] / step;
    corrector(&formula);
    formula.lead = harmonic(order) / (back_product(formula.back, order) * difference(&formula));
    formula.error = truncation(formula.back, order) * formula.lead;
    if (order > 1)
        formula.lower = truncation(formula.back, order - 1);
    if (order < BDF_ORDERS) /* two values of u lie (back_{q+1} + 1) / (q + 2) steps apart */
        formula.higher = truncation(formula.back, order + 1) / (formula.back[order + 1] + 1.0);
    return formula;
}

/* c = x^2 (x + b_1) .. (x + b_count), b_i = (t_n - t_{n-i}) / past[0]. */
static void keep_polynomial(int count, const double *past, double *c)
{
    double time = 0.0;
    c[0] = 0.0;
    c[1] = 0.0;
    c[2] = 1.0;
    for (int i = 1; i <= count; i++) {
        time += past[i - 1];
        times_root(c, i + 1, time / past[0]);
    }
}

void bdf_formula_drop(int order, const double *past, double *c)
{
    assert(2 <= order && order <= BDF_ORDERS);
    keep_polynomial(order - 2, past, c);
}

void bdf_formula_raise(int order, const double *past, double *c)
{
    assert(1 <= order && order < BDF_ORDERS);
    double back[BDF_ORDERS + 1] = {0.0};
    for (int i = 1; i <= order; i++)
        back[i] = back[i - 1] + past[i - 1] / past[0];
    const double share = (harmonic(order) - back_sum(back, order)) / back_product(back, order);
    keep_polynomial(order - 1, past, c);
    for (int j = 2; j <= order + 1; j++)
        c[j] *= share;
}

double bdf_root(double x, int k)
{
    assert(x >= 0.0 && k > 0);
    if (x <= 0.0 || k == 1)
        return x;
    int exponent = 0;
    double rest = frexp(x, &exponent);
    const int whole = exponent >= 0 ? exponent / k : -((k - 1 - exponent) / k);
    rest = ldexp(rest, exponent - k * whole); /* 1/2 <= rest < 2^k / 2, so its root is below 2 */
    double root = 2.0;
    for (double change = 1.0; change > 1e-4;) { /* Newton from above falls all the way */
        double power = 1.0;
        for (int i = 1; i < k; i++)
            power *= root;
        change = (root - rest / power) / k;
        root -= change;
    }
    return ldexp(root, whole);
}
