/* sim/property/carbon_pressures.c  The loading turned round: from what the carbon holds to the gas that it is at rest with.
 *
 * With u_s = 1/D_s, the share of the sites s that is free, the equations of carbon.c are
 *   p_i = q_i / sum_s m_s b_si u_s,   u_s (1 + a_s + sum_i b_si p_i) = 1,   a_s = sum_j b_sj p_j of the rest:
 * as many unknowns as there are kinds of site, however many gases. In v_s = ln u_s they say that the slope is zero of
 *   F(v) = sum_s m_s [(1 + a_s) exp v_s - v_s] + sum_i q_i ln sum_s m_s b_si exp v_s,
 * a sum of exponentials, straight lines and logarithms of sums of exponentials, all convex, strictly so together. F grows
 * without bound on every side just where sum q_i < sum m_s: there is one solution, and Newton's method with steps halved
 * until F falls finds it from anywhere. With w_is = m_s b_si u_s p_i/q_i (sum_s w_is = 1)
 *   dF/dv_s      = m_s [(1 + a_s) u_s - 1] + sum_i q_i w_is
 *   d2F/dv_s dv_t = delta_st {m_s (1 + a_s) u_s + sum_i q_i w_is} - sum_i q_i w_is w_it
 * The rest gas is found by repetition, p_rest = total - sum p_i(p_rest): it takes few sites, so each round brings the answer
 * ten times nearer at least. */
#include "property/carbon.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { ROUNDS_MOST = 60, STEPS_MOST = 200, HALVINGS_MOST = 60 };

#define NEAR 1e-3        /* of ln u: so short a step needs no looking, and F has too few digits to look with */
#define NEAR_ENOUGH 1e-9 /* the step after it would be its square */
#define SAME 1e-14       /* of the pressure */

struct inverse {
    const struct sorbent *of;
    const double *loading, *rest;
    double affinity[ADSORBATES_MOST][CARBON_SITES]; /* b at the temperature, 1/Pa */
    double taken[CARBON_SITES];                     /* a */
};

struct slopes {
    double first[CARBON_SITES], second[CARBON_SITES][CARBON_SITES];
};

static bool is_told(const struct inverse *at, int i)
{
    return !(at->rest[i] > 0.0) && at->loading[i] > 0.0;
}

/* sum_s m_s b_si u_s: what a pascal of gas i would put on the free sites. */
static double grip(const struct inverse *at, int i, const double *v)
{
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sum += at->of->capacity[s] * at->affinity[i][s] * exp(v[s]);
    return sum;
}

static double height(const struct inverse *at, const double *v)
{
    double sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sum += at->of->capacity[s] * ((1.0 + at->taken[s]) * exp(v[s]) - v[s]);
    for (int i = 0; i < at->of->count; i++)
        if (is_told(at, i))
            sum += at->loading[i] * log(grip(at, i, v));
    return sum;
}

static struct slopes slopes_of(const struct inverse *at, const double *v)
{
    struct slopes slopes = {0};
    for (int s = 0; s < CARBON_SITES; s++) {
        const double open = at->of->capacity[s] * (1.0 + at->taken[s]) * exp(v[s]);
        slopes.first[s] = open - at->of->capacity[s];
        slopes.second[s][s] = open;
    }
    for (int i = 0; i < at->of->count; i++) {
        if (!is_told(at, i))
            continue;
        double part[CARBON_SITES];
        const double whole = grip(at, i, v);
        for (int s = 0; s < CARBON_SITES; s++)
            part[s] = at->of->capacity[s] * at->affinity[i][s] * exp(v[s]) / whole;
        for (int s = 0; s < CARBON_SITES; s++) {
            slopes.first[s] += at->loading[i] * part[s];
            slopes.second[s][s] += at->loading[i] * part[s];
            for (int t = 0; t < CARBON_SITES; t++)
                slopes.second[s][t] -= at->loading[i] * part[s] * part[t];
        }
    }
    for (int s = 0; s < CARBON_SITES; s++)
        if (!(at->of->capacity[s] > 0.0)) /* no such sites: nothing depends on their share */
            slopes.second[s][s] = 1.0;
    return slopes;
}

/* step = -second^-1 first, by L D L^T of a positive definite matrix. */
static void newton_step(struct slopes *at, double *step)
{
    for (int k = 0; k < CARBON_SITES; k++)
        for (int r = k + 1; r < CARBON_SITES; r++) {
            const double factor = at->second[r][k] / at->second[k][k];
            for (int c = k + 1; c < CARBON_SITES; c++)
                at->second[r][c] -= factor * at->second[k][c];
            at->first[r] -= factor * at->first[k];
        }
    for (int r = CARBON_SITES - 1; r >= 0; r--) {
        step[r] = -at->first[r];
        for (int c = r + 1; c < CARBON_SITES; c++)
            step[r] -= at->second[r][c] * step[c];
        step[r] /= at->second[r][r];
    }
}

static double longest(const double *step)
{
    double most = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        most = fmax(most, fabs(step[s]));
    return most;
}

/* Moves v along the step, or a half, a quarter ... of it, so that F falls. */
static void descend(const struct inverse *at, double *v, const double *step)
{
    const double before = longest(step) > NEAR ? height(at, v) : (double)INFINITY;
    double length = 1.0;
    for (int halving = 0; halving < HALVINGS_MOST; halving++, length *= 0.5) {
        double there[CARBON_SITES];
        for (int s = 0; s < CARBON_SITES; s++)
            there[s] = v[s] + length * step[s];
        if (!(height(at, there) <= before))
            continue;
        memcpy(v, there, sizeof there);
        return;
    }
}

static bool free_sites(const struct inverse *at, double *v)
{
    for (int step = 0; step < STEPS_MOST; step++) {
        struct slopes slopes = slopes_of(at, v);
        double move[CARBON_SITES];
        newton_step(&slopes, move);
        if (!isfinite(move[0])) /* the last one found: what is wrong with the others is in it */
            return false;
        descend(at, v, move);
        if (longest(move) <= NEAR_ENOUGH)
            return true;
    }
    return false;
}

/* Fills the pressures of all but the rest, which is left at 0; their sum. */
static double told_pressures(const struct inverse *at, const double *v, double *pressure)
{
    double sum = 0.0;
    for (int i = 0; i < at->of->count; i++) {
        pressure[i] = is_told(at, i) ? at->loading[i] / grip(at, i, v) : 0.0;
        sum += pressure[i];
    }
    return sum;
}

/* What the rest takes of the sites at `pressure`. */
static void crowd(struct inverse *at, double pressure)
{
    for (int s = 0; s < CARBON_SITES; s++) {
        at->taken[s] = 0.0;
        for (int i = 0; i < at->of->count; i++)
            at->taken[s] += at->affinity[i][s] * at->rest[i] * pressure;
    }
}

static bool can_hold(const struct inverse *at)
{
    double sites = 0.0, sum = 0.0;
    for (int s = 0; s < CARBON_SITES; s++)
        sites += at->of->capacity[s];
    for (int i = 0; i < at->of->count; i++) {
        double held = 0.0;
        for (int s = 0; s < CARBON_SITES; s++)
            held += at->of->capacity[s] * at->affinity[i][s];
        if (is_told(at, i) && !(held > 0.0))
            return false;
        sum += is_told(at, i) ? at->loading[i] : 0.0;
    }
    return sum < sites;
}

bool carbon_pressures(const struct sorbent *sorbent, const double *loading, const double *rest, double total,
                      double temperature, double *pressure)
{
    assert(total > 0.0 && temperature > 0.0);
    struct inverse at = {.of = sorbent, .loading = loading, .rest = rest};
    for (int i = 0; i < sorbent->count; i++)
        for (int s = 0; s < CARBON_SITES; s++)
            at.affinity[i][s] = carbon_strengthening(sorbent->heat[i], temperature) * sorbent->affinity[i][s];
    if (!can_hold(&at))
        return false;
    double v[CARBON_SITES] = {0.0}, left = total;
    for (int round = 0; round < ROUNDS_MOST; round++) {
        crowd(&at, left);
        if (!free_sites(&at, v))
            return false;
        const double others = told_pressures(&at, v, pressure), next = fmax(0.0, total - others);
        const bool same = fabs(next - left) <= SAME * total;
        left = next;
        for (int i = 0; i < sorbent->count; i++)
            pressure[i] += rest[i] * left;
        if (same)
            return true;
    }
    return false;
}
