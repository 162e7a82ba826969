/* sim/property/activity.c  Modified UNIFAC, and its divided form for fuels.
 *
 * A molecule i is a bag of groups: volume r_i, surface q_i, and of that surface e_ik belongs to main group k. In terms
 * of mole numbers n, with N = sum n, R = sum n r, Q = sum n q, S = sum n r^(3/4), and for the groups
 * w_k = sum n_i e_ik, psi_mk = exp(-(a + b T + c T^2)/T), t_ik = sum_m e_im psi_mk, s_k = sum_i n_i t_ik:
 *
 *   ln g_i = 1 - V + ln V - 5 q_i (1 - F + ln F)              V = r_i^(3/4) N/S,  F = r_i Q/(q_i R)
 *            + q_i - sum_k e_ik ln(s_k q_i/(Q t_ik)) - sum_k w_k t_ik/s_k
 *
 * which is the published form with its sums ordered anew: all of it is d/dn_i of one excess energy
 * G(n)/(R T), so the slopes d ln g_i/dn_j are symmetric and Gibbs and Duhem hold to round-off:
 *
 *   d ln g_i/dn_j = u_i u_j/N - 5 Q z_i z_j + q_i q_j/Q + sum_k (w_k t_ik t_jk/s_k - e_ik t_jk - e_jk t_ik)/s_k
 *   u_i = 1 - r_i^(3/4) N/S,  z_i = q_i/Q - r_i/R
 *
 * Divided form. UNIFAC makes a liquid of hydrocarbons alone non-ideal too, by 13 % in pressure for a gasoline; switched
 * on where there is ethanol and off where there is none, it would make the first drop of ethanol raise the pressure out
 * of nothing. The hydrocarbon surrogates are fitted with Raoult's law, so their own excess energy is taken away:
 *
 *   G'(n) = G(n) - G(n without oxygenates)
 *
 * Each hydrocarbon's gamma is divided by its gamma in the liquid without oxygenates; an oxygenate's stays. Without
 * oxygenates this is exactly Raoult's law, with the first drop it changes continuously, and as it still comes from one
 * energy, Gibbs and Duhem hold.
 *
 * Source: [DORTMUND]; the groups of one main group share psi = 1, so only main groups are kept. */
#include "property/activity.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

enum family { CH2, ACH, ACCH2, OH, CY_CH2, CH2CO };

static const struct {
    enum family family;
    double volume, surface; /* R, Q */
} groups[UNIFAC_GROUPS] = {
    [UNIFAC_CH3] = {CH2, 0.6325, 1.0608},
    [UNIFAC_CH2] = {CH2, 0.6325, 0.7081},
    [UNIFAC_CH] = {CH2, 0.6325, 0.3554},
    [UNIFAC_C] = {CH2, 0.6325, 0.0},
    [UNIFAC_ACH] = {ACH, 0.3763, 0.4321},
    [UNIFAC_AC] = {ACH, 0.3763, 0.2113},
    [UNIFAC_ACCH3] = {ACCH2, 0.91, 0.949},
    [UNIFAC_OH] = {OH, 1.2302, 0.8927},
    [UNIFAC_CYCLIC_CH2] = {CY_CH2, 0.7136, 0.8635},
    [UNIFAC_CH3CO] = {CH2CO, 1.7048, 1.67},
};

/* a K, b, c 1/K of psi_mk, from row to column. */
/* clang-format off */
static const double interaction[UNIFAC_FAMILIES][UNIFAC_FAMILIES][3] = {
    [CH2] = {
        [ACH]    = {114.2, 0.0933, 0.0},
        [ACCH2]  = {7.339, -0.4538, 0.0},
        [OH]     = {2777.0, -4.674, 0.001551},
        [CY_CH2] = {-117.1, 0.5481, -0.00098},
        [CH2CO]  = {433.6, 0.1473, 0.0}},
    [ACH] = {
        [CH2]    = {16.07, -0.2998, 0.0},
        [ACCH2]  = {139.2, -0.65, 0.0},
        [OH]     = {3972.0, -13.16, 0.01208},
        [CY_CH2] = {134.6, -1.231, 0.001488},
        [CH2CO]  = {146.2, -1.237, 0.004237}},
    [ACCH2] = {
        [CH2]    = {47.2, 0.3575, 0.0},
        [ACH]    = {-45.33, 0.4223, 0.0},
        [OH]     = {3989.0, -14.09, 0.0153},
        [CY_CH2] = {-107.1, 0.2564, 0.0},
        [CH2CO]  = {1001.0, -1.871, 0.000239}},
    [OH] = {
        [CH2]    = {1606.0, -4.746, 0.0009181},
        [ACH]    = {3049.0, -12.77, 0.01435},
        [ACCH2]  = {2673.0, -5.765, -0.000332},
        [CY_CH2] = {3121.0, -13.69, 0.01446},
        [CH2CO]  = {-250.0, 2.857, -0.006022}},
    [CY_CH2] = {
        [CH2]    = {170.9, -0.8062, 0.001291},
        [ACH]    = {-2.619, 1.094, -0.001557},
        [ACCH2]  = {191.5, -0.5561, 0.0},
        [OH]     = {2601.0, -1.25, -0.006309},
        [CH2CO]  = {464.5, 0.1542, 0.0}},
    [CH2CO] = {
        [CH2]    = {199.0, -0.8709, 0.0},
        [ACH]    = {-57.53, 1.212, -0.003715},
        [ACCH2]  = {-146.6, 0.2419, 0.0001133},
        [OH]     = {653.3, -1.412, 0.000954},
        [CY_CH2] = {168.2, -0.8197, 0.0}},
};

/* clang-format on */

/* Surface of every main group in a molecule; volume and surface of the whole. */
static void molecule_sum(const struct component *component, double *surface, double *volume, double *whole)
{
    for (int f = 0; f < UNIFAC_FAMILIES; f++)
        surface[f] = 0.0;
    *volume = 0.0;
    *whole = 0.0;
    for (int g = 0; g < UNIFAC_GROUPS; g++) {
        const int many = component->group[g];
        *volume += many * groups[g].volume;
        *whole += many * groups[g].surface;
        surface[groups[g].family] += many * groups[g].surface;
    }
}

void activity_prepare(struct activity *activity, int count, const struct component *const *component)
{
    assert(0 < count && count <= LIQUID_MOST);
    double surface[LIQUID_MOST][UNIFAC_FAMILIES];
    bool oxygenates = false;
    *activity = (struct activity){.count = count};
    for (int i = 0; i < count; i++) {
        molecule_sum(component[i], surface[i], &activity->volume[i], &activity->surface[i]);
        activity->shrunk[i] = pow(activity->volume[i], 0.75);
        activity->oxygenate[i] = surface[i][OH] > 0.0 || surface[i][CH2CO] > 0.0;
        oxygenates = oxygenates || activity->oxygenate[i];
    }
    activity->ideal = !oxygenates || count == 1;
    for (int i = 0; i < count; i++)
        assert(activity->ideal || activity->surface[i] > 0.0);
    for (int f = 0; f < UNIFAC_FAMILIES; f++) {
        bool present = false;
        for (int i = 0; i < count; i++) {
            activity->part[i][activity->families] = surface[i][f];
            present = present || surface[i][f] > 0.0;
        }
        if (present)
            activity->family[activity->families++] = f;
    }
}

/* What depends on temperature alone. */
struct warm {
    double met[LIQUID_MOST][UNIFAC_FAMILIES];       /* t: a molecule's surface as each main group meets it */
    double met_slope[LIQUID_MOST][UNIFAC_FAMILIES]; /* dt/dT */
};

static void warm_prepare(const struct activity *activity, double temperature, struct warm *warm)
{
    double psi[UNIFAC_FAMILIES][UNIFAC_FAMILIES];
    double slope[UNIFAC_FAMILIES][UNIFAC_FAMILIES];
    for (int m = 0; m < activity->families; m++)
        for (int k = 0; k < activity->families; k++) {
            const double *abc = interaction[activity->family[m]][activity->family[k]];
            psi[m][k] = m == k ? 1.0 : exp(-(abc[0] / temperature + abc[1] + abc[2] * temperature));
            slope[m][k] = psi[m][k] * (abc[0] / (temperature * temperature) - abc[2]);
        }
    for (int i = 0; i < activity->count; i++)
        for (int k = 0; k < activity->families; k++) {
            double met = 0.0;
            double met_slope = 0.0;
            for (int m = 0; m < activity->families; m++) {
                met += activity->part[i][m] * psi[m][k];
                met_slope += activity->part[i][m] * slope[m][k];
            }
            warm->met[i][k] = met;
            warm->met_slope[i][k] = met_slope;
        }
}

/* Sums over the liquid, named as in the head of the file. */
struct whole {
    double n, r, q, s;               /* N, R, Q, S */
    double surface[UNIFAC_FAMILIES]; /* w */
    double met[UNIFAC_FAMILIES];     /* s_k */
    double met_slope[UNIFAC_FAMILIES];
};

static struct whole whole_sum(const struct activity *activity, const struct warm *warm, const double *amount)
{
    struct whole sum = {0};
    for (int i = 0; i < activity->count; i++) {
        sum.n += amount[i];
        sum.r += amount[i] * activity->volume[i];
        sum.q += amount[i] * activity->surface[i];
        sum.s += amount[i] * activity->shrunk[i];
        for (int k = 0; k < activity->families; k++) {
            sum.surface[k] += amount[i] * activity->part[i][k];
            sum.met[k] += amount[i] * warm->met[i][k];
            sum.met_slope[k] += amount[i] * warm->met_slope[i][k];
        }
    }
    return sum;
}

/* ln gamma and its slope by temperature, of one component. */
static struct thermal one_coefficient(const struct activity *activity, const struct warm *warm, const struct whole *sum,
                                      int i)
{
    const double q = activity->surface[i];
    const double swell = activity->shrunk[i] * sum->n / sum->s;       /* V */
    const double crowd = activity->volume[i] * sum->q / (q * sum->r); /* F */
    double value = 1.0 - swell + log(swell) - 5.0 * q * (1.0 - crowd + log(crowd)) + q;
    double slope = 0.0;
    for (int k = 0; k < activity->families; k++) {
        const double part = activity->part[i][k];
        const double met = warm->met[i][k];
        const double met_slope = warm->met_slope[i][k];
        const double ratio = sum->surface[k] / sum->met[k];
        value -= ratio * met;
        slope -= ratio * (met_slope - met * sum->met_slope[k] / sum->met[k]);
        if (part > 0.0) {
            value -= part * log(sum->met[k] * q / (sum->q * met));
            slope -= part * (sum->met_slope[k] / sum->met[k] - met_slope / met);
        }
    }
    return (struct thermal){value, slope};
}

static double one_slope(const struct activity *activity, const struct warm *warm, const struct whole *sum, int i, int j)
{
    const double *shrunk = activity->shrunk;
    const double *q = activity->surface;
    const double *r = activity->volume;
    const double ui = 1.0 - shrunk[i] * sum->n / sum->s;
    const double uj = 1.0 - shrunk[j] * sum->n / sum->s;
    const double zi = q[i] / sum->q - r[i] / sum->r;
    const double zj = q[j] / sum->q - r[j] / sum->r;
    double slope = ui * uj / sum->n - 5.0 * sum->q * zi * zj + q[i] * q[j] / sum->q;
    for (int k = 0; k < activity->families; k++) {
        const double ti = warm->met[i][k];
        const double tj = warm->met[j][k];
        const double ratio = sum->surface[k] / sum->met[k];
        slope += (ratio * ti * tj - activity->part[i][k] * tj - activity->part[j][k] * ti) / sum->met[k];
    }
    return slope;
}

/* Who takes part, and with how much (>= 0). */
struct subset {
    bool in[LIQUID_MOST];
    double amount[LIQUID_MOST];
};

static struct subset subset_take(const struct activity *activity, const double *amount, bool oxygenates)
{
    struct subset subset = {0};
    for (int i = 0; i < activity->count; i++)
        if (oxygenates || !activity->oxygenate[i]) {
            subset.in[i] = true;
            subset.amount[i] = fmax(amount[i], 0.0);
        }
    return subset;
}

/* Adds sign times the model of the subset to log_gamma, and its slopes to *out where that is not null. */
static void model_add(const struct activity *activity, const struct warm *warm, const struct subset *subset,
                      double sign, double *log_gamma, struct coefficients *out)
{
    const struct whole sum = whole_sum(activity, warm, subset->amount);
    if (!(sum.n > 0.0))
        return;
    for (int i = 0; i < activity->count; i++) {
        if (!subset->in[i])
            continue;
        const struct thermal one = one_coefficient(activity, warm, &sum, i);
        log_gamma[i] += sign * one.value;
        if (!out)
            continue;
        out->by_temperature[i] += sign * one.slope;
        for (int j = 0; j <= i; j++) {
            if (!subset->in[j])
                continue;
            const double slope = sign * one_slope(activity, warm, &sum, i, j);
            out->by_amount[i][j] += slope;
            if (j < i)
                out->by_amount[j][i] += slope;
        }
    }
}

/* A component held at 0 does not move the others. */
static void slopes_hold(int count, const double *amount, struct coefficients *out)
{
    for (int j = 0; j < count; j++)
        if (amount[j] < 0.0)
            for (int i = 0; i < count; i++)
                out->by_amount[i][j] = 0.0;
}

void activity_plain(const struct activity *activity, const double *amount, double temperature,
                    struct coefficients *coefficients)
{
    assert(temperature > 0.0);
    const struct subset all = subset_take(activity, amount, true);
    struct warm warm;
    warm_prepare(activity, temperature, &warm);
    memset(coefficients, 0, sizeof *coefficients);
    model_add(activity, &warm, &all, 1.0, coefficients->log, coefficients);
    slopes_hold(activity->count, amount, coefficients);
}

/* log_gamma is all 0, and so is *out where it is not null. */
static void divided_add(const struct activity *activity, const double *amount, double temperature, double *log_gamma,
                        struct coefficients *out)
{
    assert(temperature > 0.0);
    if (activity->ideal)
        return;
    const struct subset all = subset_take(activity, amount, true);
    const struct subset hydrocarbons = subset_take(activity, amount, false);
    struct warm warm;
    warm_prepare(activity, temperature, &warm);
    model_add(activity, &warm, &all, 1.0, log_gamma, out);
    model_add(activity, &warm, &hydrocarbons, -1.0, log_gamma, out);
}

void activity_divided(const struct activity *activity, const double *amount, double temperature,
                      struct coefficients *coefficients)
{
    memset(coefficients, 0, sizeof *coefficients);
    divided_add(activity, amount, temperature, coefficients->log, coefficients);
    slopes_hold(activity->count, amount, coefficients);
}

void activity_divided_values(const struct activity *activity, const double *amount, double temperature,
                             double *log_gamma)
{
    for (int i = 0; i < activity->count; i++)
        log_gamma[i] = 0.0;
    divided_add(activity, amount, temperature, log_gamma, NULL);
}
