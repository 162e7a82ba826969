/* sim/property/burning.c  Stoichiometry: CcHhOo + (c + h/4 - o/2) O2 -> c CO2 + h/2 H2O [textbook]. Air has 0.20948 of
 * oxygen by mole [US1976]. */
#include "property/burning.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdlib.h>

#define AIR_OXYGEN 0.209476    /* mole share of oxygen in dry air [US1976] */
#define AIR_MASS 28.9647e-3    /* kg/mol, as in species.c */
#define CARBON_MASS 12.0107e-3 /* kg/mol, atomic weights as in components.c */
#define HYDROGEN_MASS 1.00794e-3
#define OXYGEN_MASS 15.9994e-3

static const char gasoline[] = "C8H15"; /* whole gasoline as engineers take it: 1.87 hydrogen to a carbon [textbook] */

struct atoms {
    double carbon, hydrogen, oxygen;
};

static struct atoms formula_atoms(const char *formula)
{
    struct atoms atoms = {0.0, 0.0, 0.0};
    while (*formula) {
        char *after;
        const char letter = *formula++;
        const double count = isdigit((unsigned char)*formula) ? strtod(formula, &after) : 1.0;
        while (isdigit((unsigned char)*formula))
            formula++;
        assert(letter == 'C' || letter == 'H' || letter == 'O');
        *(letter == 'C' ? &atoms.carbon : letter == 'H' ? &atoms.hydrogen : &atoms.oxygen) += count;
    }
    return atoms;
}

double formula_oxygen(const char *formula)
{
    const struct atoms atoms = formula_atoms(formula);
    return atoms.carbon + 0.25 * atoms.hydrogen - 0.5 * atoms.oxygen;
}

double formula_mass(const char *formula)
{
    const struct atoms atoms = formula_atoms(formula);
    return atoms.carbon * CARBON_MASS + atoms.hydrogen * HYDROGEN_MASS + atoms.oxygen * OXYGEN_MASS;
}

/* mol of oxygen for a mol of CnH2n+2: (3n + 1)/2. */
static double paraffin_oxygen(double molar_mass)
{
    const double carbons = (molar_mass - 2.0 * HYDROGEN_MASS) / (CARBON_MASS + 2.0 * HYDROGEN_MASS);
    return 0.5 * (3.0 * carbons + 1.0);
}

double vapor_air(const struct component *of)
{
    const double oxygen = of->formula ? formula_oxygen(of->formula) : paraffin_oxygen(of->gas.molar_mass);
    return oxygen / AIR_OXYGEN * AIR_MASS;
}

double liquid_air(int count, const struct component *component, const double *amount)
{
    double air = 0.0, mass = 0.0;
    bool known = count > 0;
    for (int k = 0; k < count; k++) {
        known = known && component[k].formula;
        air += amount[k] * vapor_air(&component[k]);
        mass += amount[k] * component[k].gas.molar_mass;
    }
    return known ? air / mass : formula_oxygen(gasoline) / formula_mass(gasoline) / AIR_OXYGEN * AIR_MASS;
}
