/* sim/law/flow.h  What every law of flow takes and gives: a gas on either side, and a flow with its slopes.
 *
 * Sides are a and b; flow counts from a to b in mol/s. Slopes are exact partial derivatives (hand-written), because the
 * Newton iteration of the stepper and the column sums of the ledger stand on them. */
#ifndef LAW_FLOW_H
#define LAW_FLOW_H

/* One side of a passage. The five quantities that laws may depend on, in the order of enum gas_quantity, and helpers
 * derived from them. excess is pressure minus a reference common to both sides: differences are taken between excesses,
 * never between absolute pressures. */
struct gas {
    double pressure;    /* Pa, absolute */
    double excess;      /* Pa, pressure - reference; d excess = d pressure */
    double temperature; /* K */
    double molar_mass;  /* kg/mol */
    double viscosity;   /* Pa s */
    double gamma;       /* cp/cv */
};

enum gas_quantity { GAS_PRESSURE, GAS_TEMPERATURE, GAS_MOLAR_MASS, GAS_VISCOSITY, GAS_GAMMA, GAS_QUANTITIES };

struct flow {
    double value;                   /* mol/s from a to b */
    double slope_a[GAS_QUANTITIES]; /* d value / d quantity of side a */
    double slope_b[GAS_QUANTITIES];
};

/* Values with one slope. */
struct sloped {
    double value, slope;
};

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K, exact since 2019 [SI2019] */
#define GRAVITY 9.80665                /* m/s2, standard [SI2019] */
#define STANDARD_PRESSURE 101325.0    /* Pa */
#define STANDARD_TEMPERATURE 293.15   /* K: 20 degC, the trade's standard flow */

#endif
