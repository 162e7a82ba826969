/* tests/outside/tube.c  The tube law against laminar theory, Colebrook's relation (which the Moody chart draws) and worked
 * cases. Air at 20 degC, R 287.05 J/kg/K; viscosity beside each table. */
#include "law/passages.h"
#include "support/near.h"

#define PI 3.14159265358979323846
#define MOLAR_MASS (GAS_CONSTANT / 287.05)
#define DENSITY 1.2041 /* kg/m3 at 101325 Pa, 20 degC */

static struct gas air(double pressure, double excess, double viscosity)
{
    return (struct gas){pressure, excess, STANDARD_TEMPERATURE, MOLAR_MASS, viscosity, 1.4};
}

struct tube {
    double bore, length, roughness, loss; /* m, m, m, - */
};

/* Mass flow under a difference of `step` about a mean of 101325 Pa: the density of the law is then DENSITY. kg/s */
static double mass_flow(const struct tube *tube, double step, double viscosity)
{
    const struct gas up = air(STANDARD_PRESSURE + 0.5 * step, 0.5 * step, viscosity);
    const struct gas down = air(STANDARD_PRESSURE - 0.5 * step, -0.5 * step, viscosity);
    return MOLAR_MASS * tube_flow(tube->bore, tube->length, tube->roughness, tube->loss, &up, &down).value;
}

/* Hagen-Poiseuille with the gas expanding on its way, isothermal: n = pi d^4 (p1^2 - p2^2)/(256 mu L R T). 0.1 %. */
static void laminar_tube_is_hagen_poiseuille(void **unused)
{
    (void)unused;
    const double viscosity = 1.813e-5;

    const struct {
        double bore, length, up, down; /* mm, m, Pa, Pa */
    } row[] = {
        {1.5, 3.0, 101325.0 + 1245.4, 101325.0}, {0.3, 3.0, 2e5, 1e5},           {0.2, 1.0, 3e5, 1e3},
        {4.0, 1.0, 101335.0, 101325.0},          {8.0, 2.0, 101326.0, 101325.0},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double d = 1e-3 * row[i].bore;
        const double want = PI * d * d * d * d * (row[i].up * row[i].up - row[i].down * row[i].down) /
                            (256.0 * viscosity * row[i].length * GAS_CONSTANT * STANDARD_TEMPERATURE);
        const struct gas up = air(row[i].up, row[i].up, viscosity);
        const struct gas down = air(row[i].down, row[i].down, viscosity);
        assert_near_share("laminar", tube_flow(d, row[i].length, 0.0, 0.0, &up, &down).value, want, 1e-3);
    }
}

/* Worked from the textbook formulas apart from this program; volume flow in L/min at the mean density, difference in Pa.
 * 0.1 % laminar. Turbulent rows stand on Colebrook's f. */
static const struct {
    const char *name;
    struct tube tube;
    double viscosity, step, litres, share;
} worked[] = {
    {"4 mm, 1 m, laminar", {4e-3, 1.0, 0.0, 0.0}, 1.82e-5, 10.0, 0.2071, 1e-3},
    {"8 mm, 2 m, laminar", {8e-3, 2.0, 0.0, 0.0}, 1.813e-5, 30.06, 5.0, 1e-3},
    {"8 mm, 2 m, with entrance 1.25", {8e-3, 2.0, 0.0, 1.25}, 1.813e-5, 32.13, 5.0, 1e-3},
    {"10 mm, 4 m, rough 1.5 um, Re 8424", {10e-3, 4.0, 1.5e-6, 0.0}, 1.82e-5, 1270.61, 60.0, 1e-2},
    {"7 mm, 3 m, friction alone, Re 8054", {7e-3, 3.0, 2e-6, 0.0}, 1.813e-5, 2565.0, 40.0, 1e-2},
    {"7 mm, 3 m, with bends 4.3, Re 8054", {7e-3, 3.0, 2e-6, 4.3}, 1.813e-5, 3342.0, 40.0, 1e-2},
    {"10 mm, 1 m, with bends 2.7, Re 5638", {10e-3, 1.0, 2e-6, 2.7}, 1.813e-5, 275.0, 40.0, 1e-2},
};

static void worked_lines_come_out(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++) {
        const double litres = mass_flow(&worked[i].tube, worked[i].step, worked[i].viscosity) / DENSITY * 6e4;
        assert_near_share(worked[i].name, litres, worked[i].litres, worked[i].share);
    }
}

/* Darcy's f of a tube of 10 mm and 100 m, found from the law: f = 2 rho dp d/(L rho^2 v^2) at the dp that gives Re. The
 * tube stands under 1e8 Pa, so that nothing expands and sound is far. */
static double friction_at(double reynolds, double relative_roughness)
{
    const double d = 10e-3;
    const double length = 100.0;
    const double viscosity = 1.8e-5;
    const double pressure = 1e8;
    const double density = pressure * MOLAR_MASS / (GAS_CONSTANT * STANDARD_TEMPERATURE);
    const double want = reynolds * PI * viscosity * d / 4.0;
    double low = 1e-9; /* Pa */
    double high = 1e6;
    for (int i = 0; i < 120; i++) {
        const double middle = sqrt(low * high);
        const struct gas up = air(pressure + 0.5 * middle, 0.5 * middle, viscosity);
        const struct gas down = air(pressure - 0.5 * middle, -0.5 * middle, viscosity);
        const double got = MOLAR_MASS * tube_flow(d, length, relative_roughness * d, 0.0, &up, &down).value;
        *(got < want ? &low : &high) = middle;
    }
    const double flux = want / (0.25 * PI * d * d);
    return 2.0 * density * high * d / (length * flux * flux);
}

static double colebrook(double reynolds, double relative_roughness)
{
    double root = 8.0; /* 1/sqrt f */
    for (int i = 0; i < 60; i++)
        root = -2.0 * log10(relative_roughness / 3.7 + 2.51 * root / reynolds);
    return 1.0 / (root * root);
}

/* Churchill's formula evaluated apart from this program, e/d 2e-4; half of the last digit. */
static const double churchill[][2] = {
    {500, 0.128000},  {1000, 0.064000}, {2000, 0.032043}, {2300, 0.030842},  {2600, 0.037546},
    {3000, 0.043123}, {4000, 0.040821}, {5000, 0.038142}, {10000, 0.031352}, {30000, 0.023997},
};

static void friction_is_churchills(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof churchill / sizeof churchill[0]; i++)
        assert_near("Churchill", friction_at(churchill[i][0], 2e-4), churchill[i][1], 0.5e-6);
}

/* From Re 4000 to 1e6 and e/d to 0.001: flow within 1 % of Colebrook's, so f within 2 %. Churchill uses up most of it at
 * Re 4000 (1.7 % more f) and half of it further on; in rougher tubes it parts by 1.5 % of the flow. */
static void turbulent_tube_follows_colebrook(void **unused)
{
    (void)unused;
    const double roughness[] = {0.0, 2e-4, 1e-3};
    for (int i = 0; i < 3; i++) {
        for (double re = 4e3; re < 1.1e6; re *= 1.5) {
            char name[64];
            snprintf(name, sizeof name, "Re %.3g, e/d %g", re, roughness[i]);
            assert_near_share(name, sqrt(colebrook(re, roughness[i]) / friction_at(re, roughness[i])), 1.0, 0.01);
        }
    }
}

/* A textbook's example on the Moody chart (asphalted cast iron, water, from memory): Re 270,000, e/d 0.0008, f 0.0201.
 * 1 % holds both the chart's reading and Churchill. */
static void moody_chart_example(void **unused)
{
    (void)unused;
    assert_near_share("f", friction_at(2.7e5, 8e-4), 0.0201, 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(laminar_tube_is_hagen_poiseuille),
        cmocka_unit_test(worked_lines_come_out),
        cmocka_unit_test(friction_is_churchills),
        cmocka_unit_test(turbulent_tube_follows_colebrook),
        cmocka_unit_test(moody_chart_example),
    };
    return cmocka_run_group_tests_name("tube against the outside", tests, NULL, NULL) != 0;
}
