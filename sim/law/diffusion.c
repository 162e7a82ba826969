/* sim/law/diffusion.c  Diffusion of a mixture between two places at rest, and beside a stream.
 *
 *   J_i = K_i (x_i,a - x_i,b) - y_i S,   S = sum_j K_j (x_j,a - x_j,b)
 *   K_i = reach C D_i,   D_i = sum_{j != i} x_j / sum_{j != i} (x_j / D_ij),   x the mean of both sides
 *
 * Each gas diffuses through the mixture of all others [BLANC1908, WILKE1950B]; what is left over of moles, S, is given
 * back in proportion to the shares y of the side that gives it, so that moles cross in equal numbers and pressure is not touched
 * [HIRSCHFELDER1949]. Two gases: D_1 = D_2 and S = 0, Fick's law to the last bit at any share. More: within a few
 * percent of the Stefan-Maxwell equations, without solving them. A small share is added to each x in D_i, which has no
 * meaning else where a gas is alone.
 *
 * Moles and energy. J is booked with both signs from one variable, so each gas is conserved; sum J = 0 up to round-off.
 * Enthalpy is to go along as sum J_i h_i, h_i the mean of both sides. In a rigid place of their temperature
 * dE = sum J_i h_i and sum J_i u_i = dE - R T sum J_i, so its temperature and pressure stay as they are: gases change
 * places.
 *
 * A vapor over a liquid drives the air before it as well (Stefan's flow): that part is a stream, and comes by itself
 * from the pressure that evaporation builds up.
 *
 * Beside a stream F that carries the shares upstream, K becomes B(|F|/K) K with B(P) = P/(e^P - 1). With it, F x_up + J
 * is the exact flux of steady diffusion and flow between two points, in place of upstream weighting, which would add
 * F/2 to K; and the bend that upstream weighting has at F = 0 is gone. [SCHARFETTER1969]
 *
 * D_ij by [FULLER1966]:  D = 0.00143 T^1.75 / (p M_ab^(1/2) (v_a^(1/3) + v_b^(1/3))^2)  [cm2/s, bar, g/mol],
 * M_ab = 2/(1/M_a + 1/M_b); within 5 to 10 %. Increments of v: C 15.9, H 2.31, O 6.11, aromatic ring -18.3; air 19.7,
 * nitrogen 18.5, carbon dioxide 26.9. C D goes as T^0.75, without p. */
#include "law/diffusion.h"

#include "law/flow.h"

#include <assert.h>
#include <math.h>

#define ALONE 1e-4                   /* share added to every gas in D_i */

double pair_diffusivity(double molar_mass_a, double volume_a, double molar_mass_b, double volume_b, double temperature,
                        double pressure)
{
    const double scale = 1.43e-7; /* m2/s, with pressure in bar and molar mass in g/mol */
    const double mass = 2e3 / (1.0 / molar_mass_a + 1.0 / molar_mass_b);
    const double size = cbrt(volume_a) + cbrt(volume_b);
    return scale * pow(temperature, 1.75) / (1e-5 * pressure * sqrt(mass) * size * size);
}

struct diffusers diffusers_create(int count, const double *molar_mass, const double *volume)
{
    assert(0 <= count && count <= DIFFUSERS_MOST);
    const double concentration = STANDARD_PRESSURE / (GAS_CONSTANT * REFERENCE_TEMPERATURE);
    struct diffusers gases = {.count = count};
    for (int i = 0; i < count; i++)
        for (int j = 0; j < count; j++)
            if (i != j)
                gases.resistance[i][j] =
                    1.0 / (concentration * pair_diffusivity(molar_mass[i], volume[i], molar_mass[j], volume[j],
                                                            REFERENCE_TEMPERATURE, STANDARD_PRESSURE));
    return gases;
}

/* K beside a stream: B(|F|/K) K, with slopes. */
struct beside {
    double value, by_conductance, by_flow;
};

static struct beside beside_stream(double conductance, double flow)
{
    if (!(conductance > 0.0))
        return (struct beside){0};
    const double series_end = 0.1; /* the terms left out are under round-off there */
    const double p = fabs(flow) / conductance;
    double b, slope;
    if (p < series_end) {
        const double p2 = p * p;
        b = 1.0 - p / 2.0 + p2 / 12.0 * (1.0 - p2 / 60.0 * (1.0 - p2 / 42.0 * (1.0 - p2 / 40.0)));
        slope = -0.5 + p / 6.0 * (1.0 - p2 / 30.0 * (1.0 - p2 / 28.0 * (1.0 - p2 / 30.0)));
    } else {
        b = p / expm1(p);
        slope = b * (1.0 - b - p) / p;
    }
    return (struct beside){conductance * b, b - p * slope, flow < 0.0 ? -slope : slope};
}

/* What values and slopes have in common. */
struct exchange {
    double mean[DIFFUSERS_MOST];        /* x_i */
    double difference[DIFFUSERS_MOST];  /* x_i,a - x_i,b */
    double below[DIFFUSERS_MOST];       /* sum_{j != i} x_j r_ij, m s/mol */
    double diffusivity[DIFFUSERS_MOST]; /* C D_i at 298.15 K, mol/m/s */
    struct beside k[DIFFUSERS_MOST];
    double reach, temperature; /* reach grown with temperature, m; mean, K */
    double surplus;            /* S */
    const double *given;       /* y: b's where S > 0, a's else: with a mean, a gas could be taken from where none is */
};

static struct exchange exchange_of(const struct diffusers *gases, double reach, double flow,
                                   const struct diffusion_side *a, const struct diffusion_side *b)
{
    assert(reach >= 0.0);
    struct exchange at = {.temperature = 0.5 * (a->temperature + b->temperature)};
    at.reach = reach * pow(at.temperature / REFERENCE_TEMPERATURE, 0.75);
    double all = 0.0;
    for (int i = 0; i < gases->count; i++) {
        at.mean[i] = 0.5 * (a->share[i] + b->share[i]);
        at.difference[i] = a->share[i] - b->share[i];
        all += at.mean[i] + ALONE;
    }
    for (int i = 0; gases->count > 1 && i < gases->count; i++) {
        for (int j = 0; j < gases->count; j++)
            at.below[i] += (at.mean[j] + ALONE) * gases->resistance[i][j];
        at.diffusivity[i] = (all - at.mean[i] - ALONE) / at.below[i];
        at.k[i] = beside_stream(at.reach * at.diffusivity[i], flow);
        at.surplus += at.k[i].value * at.difference[i];
    }
    at.given = at.surplus > 0.0 ? b->share : a->share;
    return at;
}

static double exchange_value(const struct exchange *at, int i)
{
    return at->k[i].value * at->difference[i] - at->given[i] * at->surplus;
}

double diffusion_surplus(const struct diffusers *gases, double reach, double flow, const struct diffusion_side *a,
                         const struct diffusion_side *b)
{
    return exchange_of(gases, reach, flow, a, b).surplus;
}

void diffusion_values(const struct diffusers *gases, double reach, double flow, const struct diffusion_side *a,
                      const struct diffusion_side *b, double *value)
{
    const struct exchange at = exchange_of(gases, reach, flow, a, b);
    for (int i = 0; i < gases->count; i++)
        value[i] = exchange_value(&at, i);
}

/* d (K_i difference_i) / d mean share j, the difference held. */
static double conductance_slope(const struct diffusers *gases, const struct exchange *at, int i, int j)
{
    if (i == j)
        return 0.0;
    const double slope = (1.0 - at->diffusivity[i] * gases->resistance[i][j]) / at->below[i];
    return at->k[i].by_conductance * at->reach * slope * at->difference[i];
}

static void share_slopes(const struct diffusers *gases, const struct exchange *at, struct diffusion *diffusion)
{
    for (int j = 0; j < gases->count; j++) {
        double part[DIFFUSERS_MOST];
        double surplus = 0.0; /* d S / d mean share j */
        for (int i = 0; i < gases->count; i++) {
            part[i] = conductance_slope(gases, at, i, j);
            surplus += part[i];
        }
        for (int i = 0; i < gases->count; i++) {
            const double own = i == j ? 1.0 : 0.0;
            const double by_mean = part[i] - at->given[i] * surplus;
            const double by_difference = (own - at->given[i]) * at->k[j].value;
            const bool of_b = at->surplus > 0.0;
            diffusion->by_share_a[i][j] = 0.5 * by_mean + by_difference - (of_b ? 0.0 : own * at->surplus);
            diffusion->by_share_b[i][j] = 0.5 * by_mean - by_difference - (of_b ? own * at->surplus : 0.0);
        }
    }
}

struct diffusion diffusion_between(const struct diffusers *gases, double reach, double flow,
                                   const struct diffusion_side *a, const struct diffusion_side *b)
{
    const struct exchange at = exchange_of(gases, reach, flow, a, b);
    const double warming = 0.5 * 0.75 * at.reach / at.temperature; /* d reach / d T of one side */
    double surplus_by_temperature = 0.0, surplus_by_flow = 0.0;
    struct diffusion diffusion;
    for (int i = 0; i < gases->count; i++) {
        diffusion.value[i] = exchange_value(&at, i);
        diffusion.by_temperature[i] = at.k[i].by_conductance * warming * at.diffusivity[i] * at.difference[i];
        diffusion.by_flow[i] = at.k[i].by_flow * at.difference[i];
        surplus_by_temperature += diffusion.by_temperature[i];
        surplus_by_flow += diffusion.by_flow[i];
    }
    for (int i = 0; i < gases->count; i++) {
        diffusion.by_temperature[i] -= at.given[i] * surplus_by_temperature;
        diffusion.by_flow[i] -= at.given[i] * surplus_by_flow;
    }
    share_slopes(gases, &at, &diffusion);
    return diffusion;
}
