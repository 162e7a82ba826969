/* tests/outside/hole.c  The hole law against creeping-flow theory, two other authors' relations, a solution of the
 * Navier-Stokes equations and cases worked out by another program from the same relation.
 *
 * Air at 20 degC: mu 1.813e-5 Pa s, R 287.05 J/kg/K, gamma 1.4. Volumes at 20 degC and 101325 Pa. lam = wall/diameter. */
#include "law/passages.h"
#include "support/near.h"

#define PI 3.14159265358979323846
#define MU 1.813e-5
#define MOLAR_MASS (GAS_CONSTANT / 287.05)
#define LITRE_PER_MINUTE (GAS_CONSTANT * STANDARD_TEMPERATURE / STANDARD_PRESSURE * 6e4) /* per mol/s */

static struct gas air(double pressure, double excess)
{
    return (struct gas){pressure, excess, STANDARD_TEMPERATURE, MOLAR_MASS, MU, 1.4};
}

/* Litres a minute from pressure + step to pressure; diameter, wall in mm. */
static double litres(double diameter, double wall, double pressure, double step)
{
    const struct gas up = air(pressure + step, step);
    const struct gas down = air(pressure, 0.0);
    return LITRE_PER_MINUTE * hole_flow(1e-3 * diameter, 1e-3 * wall, &up, &down).value;
}

/* ---- creeping ----------------------------------------------------------------------------------------------------- */

/* Sampson 1891 (as an encyclopaedia gives it): Q = a^3 dp/(3 mu) through a thin hole of radius a. Dagan 1982 (from
 * memory, said to be within 1 % of the exact series): dp = (mu Q/a^3) (3 + 8 L/(pi a)). Re 0.001, where inertia adds
 * 1e-5. Allowed: 1 % thin, 3 % thick. */
static void creeping_flow_is_sampsons_and_dagans(void **unused)
{
    (void)unused;
    const double diameter[] = {0.1, 0.5, 2.5};
    const double stretch[] = {0.0, 0.02, 0.1, 0.37, 1.0, 2.0, 8.0};
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 7; j++) {
            const double a = 0.5e-3 * diameter[i];
            const double resistance = MU / (a * a * a) * (3.0 + 16.0 * stretch[j] / PI);
            const double step = resistance * 0.001 * PI * MU * 2.0 * a / (4.0 * 1.2041);
            const double litre = litres(diameter[i], stretch[j] * diameter[i], STANDARD_PRESSURE, step);
            assert_near_share("creeping", litre / 6e4, step / resistance, stretch[j] == 0.0 ? 0.01 : 0.03);
        }
    }
}

/* ---- Cd against Re ------------------------------------------------------------------------------------------------ */

/* Discharge coefficient of dense air in an opening of 0.5 mm, where dp is so small a share of p that nothing expands. */
static double discharge(double stretch, double step, double *reynolds)
{
    const double pressure = 1e8;
    const double d = 0.5e-3;
    const struct gas up = air(pressure, step);
    const struct gas down = air(pressure, 0.0);
    const double mass_flow = hole_flow(d, stretch * d, &up, &down).value * MOLAR_MASS;
    const double density = pressure / (287.05 * STANDARD_TEMPERATURE);
    *reynolds = 4.0 * mass_flow / (PI * MU * d);
    return mass_flow / (0.25 * PI * d * d * sqrt(2.0 * density * step));
}

static double discharge_at(double stretch, double reynolds)
{
    double low = 1e-12; /* Pa */
    double high = 1e4;
    double cd = 0.0;
    for (int i = 0; i < 200; i++) {
        double re;
        const double middle = sqrt(low * high);
        cd = discharge(stretch, middle, &re);
        *(re < reynolds ? &low : &high) = middle;
    }
    return cd;
}

/* Steady axisymmetric Navier-Stokes equations, hole in an infinite plate, finite volumes on two grids, extrapolated:
 * error estimated at 0.5 % to Re 300, 1 % to Re 1000; worked out for this project, no part of this program. The law was
 * fitted to it, so this is a check of the fit: 0.75 % in the mean square, 2.7 % (to its last digit) at worst. */
static const double solved_for[] = {0.02, 0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0}; /* lam */

static const struct {
    double reynolds, cd[8];
} solution[] = {
    /* clang-format off */
    {0.1, {0.0506, 0.0478, 0.0433, 0.0380, 0.0315, 0.0246, 0.0185, 0.0135}},
    {1, {0.1600, 0.1509, 0.1370, 0.1202, 0.0995, 0.0779, 0.0585, 0.0427}},
    {3, {0.2753, 0.2599, 0.2362, 0.2076, 0.1719, 0.1347, 0.1012, 0.0740}},
    {10, {0.4665, 0.4448, 0.4089, 0.3636, 0.3049, 0.2416, 0.1829, 0.1343}},
    {20, {0.5604, 0.5437, 0.5097, 0.4633, 0.3992, 0.3249, 0.2511, 0.1869}},
    {30, {0.5980, 0.5877, 0.5588, 0.5155, 0.4530, 0.3772, 0.2976, 0.2247}},
    {50, {0.6292, 0.6300, 0.6109, 0.5745, 0.5167, 0.4432, 0.3611, 0.2797}},
    {70, {0.6416, 0.6508, 0.6396, 0.6092, 0.5560, 0.4854, 0.4041, 0.3197}},
    {100, {0.6490, 0.6674, 0.6654, 0.6424, 0.5950, 0.5286, 0.4496, 0.3643}},
    {140, {0.6519, 0.6785, 0.6857, 0.6703, 0.6292, 0.5676, 0.4916, 0.4073}},
    {200, {0.6517, 0.6857, 0.7026, 0.6963, 0.6626, 0.6067, 0.5349, 0.4528}},
    {300, {0.6486, 0.6882, 0.7155, 0.7206, 0.6964, 0.6480, 0.5819, 0.5035}},
    {400, {0.6452, 0.6860, 0.7195, 0.7339, 0.7174, 0.6749, 0.6134, 0.5384}},
    {500, {0.6421, 0.6818, 0.7185, 0.7411, 0.7317, 0.6943, 0.6367, 0.5646}},
    {600, {0.6393, 0.6764, 0.7139, 0.7442, 0.7418, 0.7090, 0.6549, 0.5855}},
    {700, {0.6368, 0.6705, 0.7067, 0.7440, 0.7489, 0.7205, 0.6695, 0.6026}},
    {850, {0.6334, 0.6616, 0.6929, 0.7377, 0.7553, 0.7336, 0.6870, 0.6234}},
    {1000, {0.6304, 0.6532, 0.6782, 0.7256, 0.7574, 0.7431, 0.7006, 0.6402}},
    {1200, {0.6274, 0.6428, 0.6697, 0.7161, 0.7607, 0.7530, 0.7154, 0.6580}},
    {1500, {0.6225, 0.6344, 0.6511, 0.6875, 0.7493, 0.7596, 0.7302, 0.6789}},
    /* clang-format on */
};

static void law_follows_the_solution(void **unused)
{
    (void)unused;
    double sum = 0.0;
    int count = 0;
    for (size_t i = 0; i < sizeof solution / sizeof solution[0]; i++) {
        for (int j = 0; j < 8; j++) {
            const double off = discharge_at(solved_for[j], solution[i].reynolds) / solution[i].cd[j] - 1.0;
            char name[64];
            snprintf(name, sizeof name, "Re %g, lam %g", solution[i].reynolds, solved_for[j]);
            assert_near(name, off, 0.0, 0.0275);
            sum += off * off;
            count++;
        }
    }
    assert_near("root mean square", sqrt(sum / count), 0.0, 0.0075);
}

/* Wu, Burton, Schoenau 2002 (constants from memory), thin and sharp. */
static double wu(double reynolds)
{
    const double root = sqrt(reynolds);
    return 0.61 * (1.0 + 1.07 * exp(-0.126 * root) - 2.07 * exp(-0.246 * root));
}

/* Lichtarowicz, Duggins, Markland 1965 (constants from memory), lam 2 to 10. */
static double lichtarowicz(double reynolds, double stretch)
{
    const double ultimate = 0.827 - 0.0085 * stretch;
    const double decades = log10(0.00015 * reynolds);
    return 1.0 / (1.0 / ultimate + 20.0 / reynolds * (1.0 + 2.25 * stretch) -
                  0.005 * stretch / (1.0 + 7.5 * decades * decades));
}

/* Wu's Cd stands -1.4 % to +6 % from the solution above at lam 0.02 between Re 10 and 1500 (+5.9 % near Re 100), and the
 * law follows that solution within its 2.7 %. */
static void thin_hole_agrees_with_wu(void **unused)
{
    (void)unused;
    for (double re = 10.0; re <= 1500.0; re *= 1.25) {
        for (double stretch = 0.0; stretch < 0.03; stretch += 0.02) {
            const double above = wu(re) / discharge_at(stretch, re) - 1.0;
            char name[64];
            snprintf(name, sizeof name, "Wu, Re %.4g, lam %g", re, stretch);
            assert_near(name, above, 0.5 * (0.06 - 0.014), 0.5 * (0.06 + 0.014) + 0.027);
        }
    }
}

/* As above: Lichtarowicz against the law, in the bands in which it agrees with the solution. */
static void long_hole_agrees_with_lichtarowicz(void **unused)
{
    (void)unused;

    const struct {
        double stretch, from, within;
    } band[] = {{2.0, 300.0, 0.04}, {4.0, 700.0, 0.035}, {8.0, 1000.0, 0.08}};

    for (int i = 0; i < 3; i++)
        for (double re = band[i].from; re <= 1500.0; re += 100.0)
            assert_near("Lichtarowicz", lichtarowicz(re, band[i].stretch) / discharge_at(band[i].stretch, re), 1.0,
                        band[i].within);
}

/* Large Re: the textbook's 0.61 for a thin hole and 0.78 to 0.81 for one that fills again (handbooks, from memory). */
static void turbulent_ends_are_the_textbooks(void **unused)
{
    (void)unused;
    assert_near("thin", discharge_at(0.02, 1e5), 0.61, 0.01);
    assert_near("drilled", discharge_at(2.0, 1e5), 0.795, 0.015);
}

/* ---- compressible cases worked out apart from this program ------------------------------------------------------- */

/* 1e-4, and half of the last digit printed. */
static double printed(double value, int decimals)
{
    return 1e-4 * value + 0.5 * pow(10.0, -decimals);
}

static const struct {
    double diameter, wall, pressure, step; /* mm, mm, Pa behind, Pa */
    double flow;                           /* L/min */
    int decimals;
} worked[] = {
    {0.5, 1.0, 101325.0, 3500.0, 0.68632, 5},  {0.5, 0.01, 101325.0, 10.0, 0.03092, 5},
    {0.25, 3.0, 101325.0, 3500.0, 0.12715, 5}, {1.0, 0.1, 101325.0, 250.0, 0.63102, 5},
    {2.0, 1.0, 101325.0, 7000.0, 12.922, 3},   {1.5, 0.03, 41325.0, 60000.0, 16.947, 3},
    {1.5, 3.0, 41325.0, 60000.0, 16.600, 3},
};

static void worked_cases_come_out(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof worked / sizeof worked[0]; i++)
        assert_near("worked case", litres(worked[i].diameter, worked[i].wall, worked[i].pressure, worked[i].step),
                    worked[i].flow, printed(worked[i].flow, worked[i].decimals));
}

/* The steps of one case: 0.5 mm, 1 mm wall, 3500 Pa: Re 1934.567, 1.37734e-5 kg/s. */
static void worked_case_in_detail(void **unused)
{
    (void)unused;
    const double mass_flow = litres(0.5, 1.0, STANDARD_PRESSURE, 3500.0) / LITRE_PER_MINUTE * MOLAR_MASS;
    assert_near_share("mass flow", mass_flow, 1.37734e-5, 1e-5);
    assert_near_share("Re", 4.0 * mass_flow / (PI * MU * 0.5e-3), 1934.567, 1e-6);
}

/* Air to 101325 Pa, L/min: thin (wall 0.02 d), then walls of 0.5, 1, 2 and 3 mm. */
static const struct {
    double diameter, step, flow[5];
    int decimals[5];
} class_table[] = {
    /* clang-format off */
    {0.25, 250.0, {0.0392, 0.0366, 0.0314, 0.0244, 0.0197}, {4, 4, 4, 4, 4}},
    {0.25, 1000.0, {0.0775, 0.0827, 0.0745, 0.0639, 0.0561}, {4, 4, 4, 4, 4}},
    {0.25, 3000.0, {0.1331, 0.1520, 0.1415, 0.1262, 0.1155}, {4, 4, 4, 4, 4}},
    {0.25, 3487.2, {0.1434, 0.1649, 0.1541, 0.1380, 0.1269}, {4, 4, 4, 4, 4}},
    {0.25, 3500.0, {0.1436, 0.1652, 0.1544, 0.1383, 0.1272}, {4, 4, 4, 4, 4}},
    {0.30, 250.0, {0.0563, 0.0563, 0.0497, 0.0410, 0.0347}, {4, 4, 4, 4, 4}},
    {0.30, 1000.0, {0.1112, 0.1240, 0.1143, 0.1008, 0.0912}, {4, 4, 4, 4, 4}},
    {0.30, 3000.0, {0.1909, 0.2242, 0.2130, 0.1941, 0.1804}, {4, 4, 4, 4, 4}},
    {0.30, 3487.2, {0.2057, 0.2427, 0.2314, 0.2118, 0.1974}, {4, 4, 4, 4, 4}},
    {0.30, 3500.0, {0.2060, 0.2432, 0.2319, 0.2122, 0.1979}, {4, 4, 4, 4, 4}},
    {0.50, 250.0, {0.1548, 0.1759, 0.1655, 0.1490, 0.1373}, {4, 4, 4, 4, 4}},
    {0.50, 1000.0, {0.3054, 0.3659, 0.3553, 0.3333, 0.3148}, {4, 4, 4, 4, 4}},
    {0.50, 3000.0, {0.5253, 0.6413, 0.6337, 0.6105, 0.5873}, {4, 4, 4, 4, 4}},
    {0.50, 3487.2, {0.5662, 0.6916, 0.6850, 0.6619, 0.6383}, {4, 4, 4, 4, 4}},
    {0.50, 3500.0, {0.5672, 0.6929, 0.6863, 0.6632, 0.6396}, {4, 4, 4, 4, 4}},
    {0.75, 250.0, {0.3452, 0.4079, 0.4013, 0.3795, 0.3601}, {4, 4, 4, 4, 4}},
    {0.75, 1000.0, {0.6818, 0.8010, 0.8292, 0.8073, 0.7840}, {4, 4, 4, 4, 4}},
    {0.75, 3000.0, {1.175, 1.324, 1.452, 1.434, 1.410}, {3, 3, 3, 3, 3}},
    {0.75, 3487.2, {1.267, 1.419, 1.567, 1.549, 1.526}, {3, 3, 3, 3, 3}},
    {0.75, 3500.0, {1.269, 1.421, 1.570, 1.552, 1.529}, {3, 3, 3, 3, 3}},
    {1.00, 250.0, {0.6100, 0.7006, 0.7319, 0.7108, 0.6883}, {4, 4, 4, 4, 4}},
    {1.00, 1000.0, {1.206, 1.308, 1.482, 1.472, 1.450}, {3, 3, 3, 3, 3}},
    {1.00, 3000.0, {2.082, 2.165, 2.547, 2.584, 2.563}, {3, 3, 3, 3, 3}},
    {1.00, 3487.2, {2.244, 2.326, 2.742, 2.789, 2.768}, {3, 3, 3, 3, 3}},
    {1.00, 3500.0, {2.249, 2.330, 2.747, 2.794, 2.773}, {3, 3, 3, 3, 3}},
    {1.50, 250.0, {1.362, 1.453, 1.601, 1.659, 1.638}, {3, 3, 3, 3, 3}},
    {1.50, 1000.0, {2.700, 2.762, 3.017, 3.361, 3.349}, {3, 3, 3, 3, 3}},
    {1.50, 3000.0, {4.666, 4.696, 5.094, 5.833, 5.848}, {3, 3, 3, 3, 3}},
    {1.50, 3487.2, {5.031, 5.058, 5.484, 6.290, 6.309}, {3, 3, 3, 3, 3}},
    {1.50, 3500.0, {5.040, 5.067, 5.494, 6.301, 6.321}, {3, 3, 3, 3, 3}},
    {2.00, 250.0, {2.410, 2.494, 2.613, 2.964, 2.966}, {3, 3, 3, 3, 3}},
    {2.00, 1000.0, {4.784, 4.835, 4.947, 5.870, 5.993}, {3, 3, 3, 3, 3}},
    {2.00, 3000.0, {8.276, 8.295, 8.450, 10.135, 10.411}, {3, 3, 3, 3, 3}},
    {2.00, 3487.2, {8.926, 8.940, 9.106, 10.927, 11.227}, {3, 3, 3, 3, 3}},
    {2.00, 3500.0, {8.942, 8.956, 9.123, 10.947, 11.248}, {3, 3, 3, 3, 3}},
    {2.50, 250.0, {3.753, 3.835, 3.907, 4.466, 4.658}, {3, 3, 3, 3, 3}},
    {2.50, 1000.0, {7.460, 7.508, 7.543, 8.681, 9.319}, {3, 3, 3, 3, 3}},
    {2.50, 3000.0, {12.913, 12.929, 12.967, 14.970, 16.158}, {3, 3, 3, 3, 3}},
    {2.50, 3487.2, {13.927, 13.939, 13.980, 16.140, 17.423}, {3, 3, 3, 3, 3}},
    {2.50, 3500.0, {13.953, 13.964, 14.006, 16.169, 17.454}, {3, 3, 3, 3, 3}},
    /* clang-format on */
};

static void table_for_the_class_comes_out(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof class_table / sizeof class_table[0]; i++) {
        const double d = class_table[i].diameter;
        const double wall[5] = {0.02 * d, 0.5, 1.0, 2.0, 3.0};
        for (int j = 0; j < 5; j++)
            assert_near("table", litres(d, wall[j], STANDARD_PRESSURE, class_table[i].step), class_table[i].flow[j],
                        printed(class_table[i].flow[j], class_table[i].decimals[j]));
    }
}

/* Perry 1949 on sharp holes: Cd on the isentropic flow rises from 0.600 at r = 1 to 0.737 at the critical ratio of air
 * (worked out from its polynomial) and 0.841 into a vacuum. The law takes over the rise, not the start: at large Re it
 * begins at 0.613, 2.2 % higher, and stays so. */
static void sharp_hole_opens_as_perry_measured(void **unused)
{
    (void)unused;

    const struct {
        double ratio, cd;
    } perry[] = {{0.528, 0.737}, {0.0, 0.841}};

    const double area = 0.25 * PI * 2e-3 * 2e-3;
    for (int i = 0; i < 2; i++) {
        const struct gas up = air(1e6, 0.0);
        const struct gas down = air(1e6 * perry[i].ratio, 1e6 * perry[i].ratio - 1e6);
        const double cd = hole_flow(2e-3, 0.0, &up, &down).value / nozzle_flow(area, 1.0, &up, &down).value;
        assert_near_share("Perry", cd, perry[i].cd, 0.025);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(creeping_flow_is_sampsons_and_dagans),
        cmocka_unit_test(law_follows_the_solution),
        cmocka_unit_test(thin_hole_agrees_with_wu),
        cmocka_unit_test(long_hole_agrees_with_lichtarowicz),
        cmocka_unit_test(turbulent_ends_are_the_textbooks),
        cmocka_unit_test(worked_cases_come_out),
        cmocka_unit_test(worked_case_in_detail),
        cmocka_unit_test(table_for_the_class_comes_out),
        cmocka_unit_test(sharp_hole_opens_as_perry_measured),
    };
    return cmocka_run_group_tests_name("hole against the outside", tests, NULL, NULL) != 0;
}
