/* tests/unit/property/burning.c  Formulas are read, and what needs how much air follows from them. */
#include "property/burning.h"

#include "property/quick_fuel.h"
#include "support/near.h"

static void formulas_are_read(void **unused)
{
    (void)unused;
    assert_near("C2H6O", formula_oxygen("C2H6O"), 3.0, 0.0);
    assert_near("C8H15", formula_oxygen("C8H15"), 11.75, 0.0);
    assert_near("C10H22", formula_oxygen("C10H22"), 15.5, 0.0);
    assert_near("CH4", formula_oxygen("CH4"), 2.0, 0.0);
    int count;
    const struct component *table = component_table(&count);
    for (int k = 0; k < count; k++) /* both from atomic weights; printed to 0.1 mg/mol */
        assert_near(table[k].gas.name, formula_mass(table[k].formula), table[k].gas.molar_mass, 1.5e-7);
}

/* A mixture needs what its parts need, kilogram for kilogram. */
static void a_liquid_needs_what_its_parts_need(void **unused)
{
    (void)unused;
    const struct component *ethanol = component_find("ethanol"), *toluene = component_find("toluene");
    const struct component blend[] = {*ethanol, *toluene};
    const double amount[] = {0.3, 2.0}, mass[] = {0.3 * ethanol->gas.molar_mass, 2.0 * toluene->gas.molar_mass};
    const double each[] = {liquid_air(1, &blend[0], &amount[0]), liquid_air(1, &blend[1], &amount[1])};
    assert_near_share("blend", liquid_air(2, blend, amount),
                      (mass[0] * each[0] + mass[1] * each[1]) / (mass[0] + mass[1]), 1e-14);
    assert_near_share("vapor and liquid of one", vapor_air(ethanol) / ethanol->gas.molar_mass, each[0], 1e-14);
}

/* One substance for gasoline: its liquid is whole gasoline, its vapor a paraffin between butane and pentane. */
static void quick_fuel_burns(void **unused)
{
    (void)unused;
    const struct component quick = quick_fuel(9.0 * 6894.757293168361);
    const double amount = 3.0, vapor = vapor_air(&quick) / quick.gas.molar_mass;
    const struct component *butane = component_find("n-butane"), *pentane = component_find("n-pentane");
    assert_near("liquid", liquid_air(1, &quick, &amount), liquid_air(0, NULL, NULL), 0.0);
    assert_true(vapor < vapor_air(butane) / butane->gas.molar_mass);
    assert_true(vapor > vapor_air(pentane) / pentane->gas.molar_mass);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(formulas_are_read),
        cmocka_unit_test(a_liquid_needs_what_its_parts_need),
        cmocka_unit_test(quick_fuel_burns),
    };
    return cmocka_run_group_tests_name("unit/property/burning", tests, NULL, NULL) != 0;
}
