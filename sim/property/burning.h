/* sim/property/burning.h  How much air a fuel needs to burn, to carbon dioxide and water. */
#ifndef PROPERTY_BURNING_H
#define PROPERTY_BURNING_H

#include "property/component.h"

/* What burns of what a network carries. */
struct air_needs {
    int species;
    double by_amount[SPECIES_MOST];  /* kg of air for a mol of each; 0: does not burn */
    double molar_mass[SPECIES_MOST]; /* kg/mol; the first species is air */
    double by_mass;                  /* kg of air for a kg of the liquid that an engine injects */
};

/* mol of oxygen for a mol of CcHhOo, "C2H6O": c + h/4 - o/2. Other letters are not known (asserted). */
double formula_oxygen(const char *formula);
/* kg/mol of the same, atomic weights. */
double formula_mass(const char *formula);

/* kg of air for a mol of a component's vapor. One without a formula, gasoline as a single substance, stands for the light
 * end of a fuel and burns as a paraffin CnH2n+2 of its molar mass. */
double vapor_air(const struct component *of);

/* kg of air for a kg of liquid of so many mol of each component; of none, or where one has no formula: of whole gasoline,
 * C8H15, 14.6. */
double liquid_air(int count, const struct component *component, const double *amount);

#endif
