/* sim/property/activity.h  How far a liquid is from ideal: activity coefficients by modified UNIFAC. */
#ifndef PROPERTY_ACTIVITY_H
#define PROPERTY_ACTIVITY_H

#include "property/component.h"

enum { LIQUID_MOST = 12 }; /* components in one liquid */

enum { UNIFAC_FAMILIES = 6 }; /* main groups: what interacts */

/* A fixed list of components, made ready once. Read only afterwards. */
struct activity {
    int count;
    bool ideal;                                /* hydrocarbons only, or one component: divided ln gamma is 0 */
    bool oxygenate[LIQUID_MOST];               /* has a group with oxygen */
    double volume[LIQUID_MOST];                /* r */
    double surface[LIQUID_MOST];               /* q */
    double shrunk[LIQUID_MOST];                /* r^(3/4) */
    int families, family[UNIFAC_FAMILIES];     /* main groups present */
    double part[LIQUID_MOST][UNIFAC_FAMILIES]; /* e: surface of each of those in a molecule */
};

void activity_prepare(struct activity *activity, int count, const struct component *const *component);

/* ln gamma with its slopes. by_amount[i][j] = d ln gamma_i / d n_j, symmetric, sum_j n_j by_amount[i][j] = 0. */
struct coefficients {
    double log[LIQUID_MOST];
    double by_temperature[LIQUID_MOST];
    double by_amount[LIQUID_MOST][LIQUID_MOST];
};

/* amount: mol of each, only ratios matter; what is negative by round-off counts as none and has slope 0.
 * plain: the model as published. divided: each hydrocarbon's gamma divided by its gamma in the liquid without
 * oxygenates; see activity.c. With no amount at all everything is 0. */
void activity_plain(const struct activity *activity, const double *amount, double temperature,
                    struct coefficients *coefficients);
void activity_divided(const struct activity *activity, const double *amount, double temperature,
                      struct coefficients *coefficients);

/* ln gamma of the divided form alone, the same bits in under half the time: log_gamma[count]. */
void activity_divided_values(const struct activity *activity, const double *amount, double temperature,
                             double *log_gamma);

#endif
