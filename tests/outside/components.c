/* Fuel components against other collections than the table's own.
 *
 * Vapor pressure: DIPPR 101, ln p = c1 + c2/T + c3 ln T + c4 T^c5, Perry's Handbook, 8th edition, table 2-8; Wagner,
 *   ln(p/pc) = (a t + b t^1.5 + c t^3 + d t^6) Tc/T, t = 1 - T/Tc, McGarry 1983; Antoine, NIST WebBook (0: no set that
 *   covers 0 to 45 degC, or the table's own; isooctane's from memory, see boiling_points).
 * Density: VDI Heat Atlas, critical density + A t^0.35 + B t^(2/3) + C t + D t^(4/3). Heat capacity of the liquid: Perry table 2-153, where the table's is from there
 *   Poling, Prausnitz and O'Connell. Of the gas at 298.15 K: NIST WebBook, from memory.
 * Heat of vaporization, kJ/mol at 298.15 K: Perry table 2-150, VDI Heat Atlas; over temperature: Perry,
 *   H = c1 (1 - Tr)^(c2 + c3 Tr + c4 Tr^2).
 * All but what is from memory as collected in the open library CalebBell/chemicals. */
#include "property/component.h"
#include "support/near.h"

/* clang-format off */
static const struct {
    const char *name;
    double dippr[5], wagner[6], antoine[5]; /* A, B, C, from K, to K */
    double density;         /* kg/m3; 0: none */
    double heat_capacity;   /* J/mol/K, liquid */
    double heat, heat_vdi;  /* kJ/mol; 0: none */
    double heat_curve[5];   /* c1 J/mol, Tc K, c2, c3, c4 */
    double gas_heat;        /* J/mol/K */
} other[] = {
    {"propane", {59.078, -3492.6, -6.0669, 1.0919E-05, 2},
     {-6.67833, 1.15437, -1.64984, -2.70017, 4255760, 369.82}, {0, 0, 0},
     492.82, 120.0, 14.81, 14.80, {29209, 369.83, 0.78237, -0.77319, 0.39246}, 73.60},
    {"n-butane", {66.343, -4363.2, -7.046, 9.4509E-06, 2},
     {-6.88709, 1.15157, -1.99873, -3.13003, 3790620, 425.18}, {4.35576, 1175.581, -2.071, 272.66, 425.12},
     572.61, 140.5, 21.00, 21.01, {36238, 425.12, 0.8337, -0.82274, 0.39613}, 98.49},
    {"isobutane", {108.43, -5039.9, -15.012, 0.022725, 1},
     {-6.95579, 1.5009, -2.52717, -1.49776, 3658010, 408.14}, {4.32810, 1132.108, 0.918, 261.31, 408.12},
     551.02, 142.5, 19.10, 19.11, {31880, 407.8, 0.39006, 0, 0}, 96.65},
    {"isopentane", {71.308, -4976, -7.7169, 8.7271E-06, 2},
     {-7.12727, 1.38996, -2.54302, -2.45657, 3385900, 460.43}, {3.90935, 1018.516, -40.081, 190, 301},
     614.49, 165.9, 24.98, 24.95, {37593, 460.4, 0.39173, 0, 0}, 118.87},
    {"n-pentane", {78.741, -5420.3, -8.8253, 9.6171E-06, 2},
     {-7.28936, 1.53679, -3.08367, -1.02456, 3378620, 469.74}, {3.98920, 1070.617, -40.454, 268.8, 341.37},
     620.41, 166.9, 26.49, 26.44, {39109, 469.7, 0.38681, 0, 0}, 120.04},
    {"2-methylpentane", {53.579, -5041.2, -4.6404, 1.9443E-17, 6},
     {-7.2875, 1.29015, -2.97853, -2.17234, 3032520, 498.1}, {3.96400, 1135.410, -46.578, 285.91, 334.22},
     648.48, 193.7, 30.03, 29.94, {42522, 497.7, 0.3807, 0, 0}, 142.2},
    {"n-hexane", {104.65, -6995.5, -12.702, 1.2381E-05, 2},
     {-7.5165, 1.54797, -3.38541, -2.36767, 3036170, 507.9}, {4.00266, 1171.530, -48.784, 286.18, 342.69},
     654.92, 196.2, 31.54, 31.50, {44544, 507.6, 0.39002, 0, 0}, 142.6},
    {"cyclohexane", {51.087, -5226.4, -4.2278, 9.7554E-18, 6},
     {-6.96009, 1.31328, -2.75683, -2.45491, 4075260, 553.64}, {0, 0, 0},
     774.03, 154.8, 32.99, 32.99, {44902, 553.8, 0.39881, 0, 0}, 105.3},
    {"n-heptane", {87.829, -6996.4, -9.8802, 7.2099E-06, 2},
     {-7.67468, 1.37068, -3.5362, -3.20243, 2732370, 540.1}, {4.02832, 1268.636, -56.199, 299.07, 372.43},
     679.57, 224.4, 36.63, 36.59, {50014, 540.2, 0.38795, 0, 0}, 165.2},
    {"isooctane", {84.912, -6722.2, -9.5157, 7.2244E-06, 2},
     {-7.3889, 1.25294, -3.16606, -2.22001, 2561550, 543.96}, {3.93679, 1257.840, -52.415, 297.51, 373.28},
     0, 238.2, 35.29, 0, {47711, 543.8, 0.37949, 0, 0}, 188.4},
    {"benzene", {83.107, -6486.2, -9.2194, 6.9844E-06, 2},
     {-6.94739, 1.25253, -2.53686, -3.49284, 4895600, 562.1}, {0, 0, 0},
     872.35, 136.49, 33.75, 33.83, {45346, 562.05, 0.39053, 0, 0}, 82.44},
    {"toluene", {76.945, -6729.8, -8.179, 5.3017E-06, 2},
     {-7.28607, 1.38091, -2.83433, -2.79168, 4106450, 591.72}, {4.07827, 1343.943, -53.773, 308.52, 384.66},
     862.60, 156.5, 38.00, 38.05, {49507, 591.75, 0.37742, 0, 0}, 103.7},
    {"o-xylene", {90.405, -7955.2, -10.086, 5.9594E-06, 2},
     {-7.53357, 1.40968, -3.10985, -2.85992, 3732980, 630.25}, {4.12928, 1478.244, -59.076, 336.61, 418.52},
     875.77, 186.1, 43.48, 43.68, {55395, 630.3, 0.37788, 0, 0}, 132.5},
    {"n-decane", {112.73, -9749.6, -13.245, 7.1266E-06, 2},
     {-8.56523, 1.97756, -5.81971, -0.299824, 2107600, 617.6}, {0, 0, 0},
     726.86, 315.1, 50.87, 51.37, {66126, 617.7, 0.39797, 0, 0}, 233.1},
    {"ethanol", {73.304, -7122.3, -7.1424, 2.8853E-06, 2},
     {-8.51838, 0.341626, -5.73683, 8.32581, 6130870, 513.92}, {5.24677, 1598.673, -46.424, 292.77, 366.63},
     786.00, 112.3, 42.54, 42.43, {55789, 514, 0.31245, 0, 0}, 65.21},
};

/* clang-format on */

enum { OTHERS = sizeof other / sizeof other[0] };

static double dippr(int k, double t)
{
    const double *c = other[k].dippr;
    return exp(c[0] + c[1] / t + c[2] * log(t) + c[3] * pow(t, c[4]));
}

static double wagner(int k, double t)
{
    const double *c = other[k].wagner;
    const double u = 1.0 - t / c[5];
    return c[4] * exp((c[0] * u + c[1] * pow(u, 1.5) + c[2] * pow(u, 3.0) + c[3] * pow(u, 6.0)) * c[5] / t);
}

/* The two collections are apart by up to 1.5 % at 0 degC (cyclohexane, which freezes at 6.5 degC, 1.7 %; n-decane 6 %):
 * the nearer one judges. n-decane's row is drawn from Perry's curve, so for it this checks only the drawing. */
static void vapor_pressure(void **unused)
{
    (void)unused;
    static const double temperature[] = {273.15, 280.0, 288.71, 293.15, 298.15, 303.15, 310.93, 318.15};
    for (int k = 0; k < OTHERS; k++) {
        const struct component *of = component_find(other[k].name);
        for (size_t i = 0; i < sizeof temperature / sizeof temperature[0]; i++) {
            const double t = temperature[i];
            const double got = component_saturation(of, t).value;
            const double off_dippr = got / dippr(k, t) - 1.0;
            const double off_wagner = got / wagner(k, t) - 1.0;
            const double off = fabs(off_dippr) < fabs(off_wagner) ? off_dippr : off_wagner;
            assert_near(other[k].name, off, 0.0, t > 288.0 ? 0.010 : 0.015);
            if (near_talks())
                print_message("%-16s %.2f K: Perry %+.2f %%, McGarry %+.2f %%\n", other[k].name, t, 100.0 * off_dippr,
                              100.0 * off_wagner);
            const double *a = other[k].antoine;
            if (a[3] < t && t < a[4])
                assert_near_share("WebBook", got, 1e5 * pow(10.0, a[0] - a[1] / (t + a[2])), t > 288.0 ? 0.010 : 0.015);
        }
    }
}

/* Down to -40 degC, far below where most were measured: no wild bend. Perry's curves hold from the triple point; those
 * of toluene and cyclohexane fall off the other two there (7 % at -30 degC), and McGarry's of ethanol and n-decane. */
static void vapor_pressure_in_winter(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++)
        for (double t = 233.15; t < 273.0; t += 5.0) {
            const double got = component_saturation(component_find(other[k].name), t).value;
            const double off_dippr = got / dippr(k, t) - 1.0;
            const double off_wagner = got / wagner(k, t) - 1.0;
            const double off = fabs(off_dippr) < fabs(off_wagner) ? off_dippr : off_wagner;
            assert_near(other[k].name, off, 0.0, 0.06);
        }
}

/* CRC Handbook, at 101325 Pa. Propane's set begins 46 K higher, where the heat capacities carry it on; n-decane's ends 84
 * K lower. Two prints of one set for isooctane are about, A = 3.94679 and 3.93679: by the first it would boil at 371.58
 * K. */
static void boiling_points(void **unused)
{
    (void)unused;

    static const struct {
        const char *name;
        double boils, allowed; /* K */
    } row[] = {
        {"propane", 231.05, 0.8},    {"n-butane", 272.65, 0.1},    {"isobutane", 261.42, 0.1},
        {"isopentane", 301.03, 0.1}, {"n-pentane", 309.21, 0.1},   {"2-methylpentane", 333.41, 0.1},
        {"n-hexane", 341.88, 0.1},   {"cyclohexane", 353.88, 0.2}, {"n-heptane", 371.55, 0.1},
        {"isooctane", 372.37, 0.1},  {"benzene", 353.24, 0.1},     {"toluene", 383.78, 0.1},
        {"o-xylene", 417.65, 0.1},   {"n-decane", 447.3, 3.0},     {"ethanol", 351.44, 0.1},
    };

    assert_int_equal(sizeof row / sizeof row[0], OTHERS);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct component *of = component_find(row[i].name);
        double low = 0.5 * row[i].boils, high = 1.5 * row[i].boils;
        for (int n = 0; n < 60; n++)
            *(component_saturation(of, 0.5 * (low + high)).value < 101325.0 ? &low : &high) = 0.5 * (low + high);
        assert_near(row[i].name, low, row[i].boils, row[i].allowed);
    }
    const double *isooctane = other[9].antoine;
    assert_string_equal(other[9].name, "isooctane");
    assert_near("as printed", isooctane[1] / (isooctane[0] - log10(1.01325)) - isooctane[2], 372.37, 0.1);
    assert_true(isooctane[1] / (isooctane[0] + 0.01 - log10(1.01325)) - isooctane[2] < 371.7);
}

static void density(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++) {
        const struct component *of = component_find(other[k].name);
        if (other[k].density > 0.0)
            assert_near_share(other[k].name, of->gas.molar_mass / component_volume(of, 298.15).value, other[k].density,
                              0.005);
    }
    /* Isooctane: CRC Handbook 687.8, its temperature not stated. */
    const struct component *isooctane = component_find("isooctane");
    assert_near_share("isooctane", isooctane->gas.molar_mass / component_volume(isooctane, 298.15).value, 687.8, 0.005);
}

static const struct {
    const char *name;
    double critical, scale[5]; /* K; kg/m3: at the critical point, A, B, C, D */
} atlas[] = {
    {"propane", 369.82, {221, 373.2481, 324.1771, -431.6048, 327.5258}},
    {"n-butane", 425.13, {228, 418.6986, 246.8434, -317.6272, 274.8875}},
    {"isobutane", 407.81, {226, 383.6237, 363.6942, -483.9167, 353.6428}},
    {"isopentane", 460.35, {237, 361.5111, 560.1453, -819.7357, 546.2874}},
    {"n-pentane", 469.66, {235, 331.1104, 681.0817, -965.3279, 602.3613}},
    {"2-methylpentane", 497.7, {236, 341.4133, 769.6707, -1184.619, 747.5074}},
    {"n-hexane", 507.79, {223, 537.394, 87.8728, -283.3888, 344.5049}},
    {"cyclohexane", 553.6, {273, 373.9221, 848.7461, -1261.1653, 815.8631}},
    {"n-heptane", 541.23, {225, 308.4582, 1071.686, -1664.6321, 990.254}},
    {"benzene", 562.01, {306, 502.4341, 531.598, -663.9865, 469.5949}},
    {"toluene", 591.75, {292, 439.5835, 839.1558, -1234.8445, 797.8741}},
    {"o-xylene", 630.25, {287, 676.6371, -299.1691, 624.5571, -201.7643}},
    {"n-decane", 617.7, {234, 309.6055, 987.2944, -1482.3904, 909.4231}},
    {"ethanol", 513.9, {276, 748.617, -412.3622, 776.4394, -436.6757}},
};

/* -20 to 40 degC, but propane to 25 degC: nearer to its critical point the two collections part, 0.6 % at 40 degC; and
 * what freezes from its melting point. */
static void density_over_temperature(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof atlas / sizeof atlas[0]; i++) {
        const struct component *of = component_find(atlas[i].name);
        const bool freezes = !strcmp(atlas[i].name, "cyclohexane") || !strcmp(atlas[i].name, "benzene");
        const double most = strcmp(atlas[i].name, "propane") ? 313.15 : 298.15;
        for (double t = freezes ? 280.0 : 253.15; t <= most; t += 5.0) {
            const double *c = atlas[i].scale;
            const double far = 1.0 - t / atlas[i].critical;
            const double want =
                c[0] + c[1] * pow(far, 0.35) + c[2] * pow(far, 2.0 / 3.0) + c[3] * far + c[4] * pow(far, 4.0 / 3.0);
            assert_near_share(atlas[i].name, of->gas.molar_mass / component_volume(of, t).value, want, 0.005);
        }
    }
}

/* Ideal gas over R: a0 + a1 T + ... + a4 T^4, Poling, Prausnitz and O'Connell, appendix A. */
static const struct {
    const char *name;
    double a[5];
} gas_curve[] = {
    {"propane", {3.847, 0.005131, 6.011e-5, -7.893e-8, 3.079e-11}},
    {"n-butane", {5.547, 0.005536, 8.057e-5, -1.0571e-7, 4.134e-11}},
    {"isobutane", {3.351, 0.017883, 5.477e-5, -8.1e-8, 3.243e-11}},
    {"isopentane", {1.959, 0.038191, 2.434e-5, -5.175e-8, 2.165e-11}},
    {"n-pentane", {7.554, -0.000368, 1.1846e-4, -1.4939e-7, 5.753e-11}},
    {"2-methylpentane", {2.096, 0.046419, 3.124e-5, -6.829e-8, 2.902e-11}},
    {"n-hexane", {8.831, -0.000166, 1.4302e-4, -1.8314e-7, 7.124e-11}},
    {"cyclohexane", {4.035, -0.004433, 1.6834e-4, -2.0775e-7, 7.746e-11}},
    {"n-heptane", {9.634, 0.004156, 1.5494e-4, -2.0066e-7, 7.77e-11}},
    {"isooctane", {0.384, 0.077059, 6.65e-6, -5.565e-8, 2.619e-11}},
    {"benzene", {3.551, -0.006184, 1.4365e-4, -1.9807e-7, 8.234e-11}},
    {"toluene", {3.866, 0.003558, 1.3356e-4, -1.8659e-7, 7.69e-11}},
    {"o-xylene", {3.289, 0.034144, 4.989e-5, -8.335e-8, 3.338e-11}},
    {"n-decane", {13.467, 0.004139, 2.3127e-4, -3.0477e-7, 1.197e-10}},
    {"ethanol", {4.396, 0.000628, 5.546e-5, -7.024e-8, 2.685e-11}},
    {"nitrogen", {3.539, -0.261e-3, 0.007e-5, 0.157e-8, -0.099e-11}},
    {"carbon dioxide", {3.259, 1.356e-3, 1.502e-5, -2.374e-8, 1.056e-11}},
    /* 78.12 % of nitrogen's, 20.95 % of oxygen's {3.63, -1.794e-3, 0.658e-5, -0.6e-8, 0.179e-11}, 0.93 % of argon's 2.5 */
    {"air", {3.5484, -5.797e-4, 1.4332e-6, -3.05e-11, -3.984e-13}},
};

/* J/kmol/K: A + B T + ... + E T^4, Perry's Handbook, 8th edition, table 2-153. */
static const struct {
    const char *name;
    double a[5];
} liquid_curve[] = {
    {"n-butane", {191030.0, -1675.0, 12.5, -0.03874, 4.61e-5}},
    {"isobutane", {172370.0, -1783.9, 14.759, -0.047909, 5.81e-5}},
    {"isopentane", {108300.0, 146.0, -0.292, 0.00151, 0.0}},
    {"n-pentane", {159080.0, -270.5, 0.99537, 0.0, 0.0}},
    {"2-methylpentane", {142220.0, -47.83, 0.739, 0.0, 0.0}},
    {"n-hexane", {172120.0, -183.78, 0.88734, 0.0, 0.0}},
    {"isooctane", {95275.0, 696.7, -1.3765, 0.0021734, 0.0}},
    {"toluene", {140140.0, -152.3, 0.695, 0.0, 0.0}},
    {"n-decane", {278620.0, -197.91, 1.0737, 0.0, 0.0}},
    {"ethanol", {102640.0, -139.63, -0.030341, 0.0020386, 0.0}},
    {"benzene", {129440.0, -169.5, 0.64781, 0.0, 0.0}},
    {"cyclohexane", {-220600.0, 3118.3, -9.4216, 0.010687, 0.0}},
    {"o-xylene", {36500.0, 1017.5, -2.63, 0.00302, 0.0}},
};

/* The same table's other form, J/kmol/K, t = 1 - T/Tc:
 *   A^2/t + B - 2 A C t - A D t^2 - C^2 t^3/3 - C D t^4/2 - D^2 t^5/5. */
static const struct {
    const char *name;
    double critical, a[4]; /* K; A to D */
} liquid_curve_critical[] = {
    {"propane", 369.83, {62.983, 113630.0, 633.21, -873.46}},
    {"n-heptane", 540.2, {61.26, 314410.0, 1824.6, -2547.9}},
};

static double curve_at(const double *a, double t)
{
    return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4])));
}

static double critical_curve_at(double critical, const double *a, double temperature)
{
    const double t = 1.0 - temperature / critical;
    return a[0] * a[0] / t + a[1] -
           t * (2.0 * a[0] * a[2] +
                t * (a[0] * a[3] + t * (a[2] * a[2] / 3.0 + t * (a[2] * a[3] / 2.0 + t * a[3] * a[3] / 5.0))));
}

#define COLD 253.15 /* K: -20 degC */
#define HOT 318.15  /* K: 45 degC */
#define WITHIN 0.01 /* what is asked for */

/* How far a curve of ours is off at most, in percent; told. */
static double worst(const char *what, const char *name, double cold, const double *off, int count)
{
    double least = off[0], most = off[0];
    for (int k = 1; k < count; k++) {
        least = fmin(least, off[k]);
        most = fmax(most, off[k]);
    }
    print_message("%-16s %s from %.0f to 318 K: %+.2f %% to %+.2f %%\n", name, what, cold, 100.0 * least, 100.0 * most);
    return fmax(-least, most);
}

enum { POINTS = 14 };

static double point(double cold, int k)
{
    return cold + (HOT - cold) * k / (POINTS - 1);
}

static void gas_heat_capacity(void **unused)
{
    (void)unused;
    double off[POINTS];
    for (size_t i = 0; i < sizeof gas_curve / sizeof gas_curve[0]; i++) {
        const struct species *of = species_at(species_find(gas_curve[i].name));
        for (int k = 0; k < POINTS; k++) {
            const double t = point(COLD, k);
            const struct warmth warmth = gas_warmth(t);
            off[k] = species_heat_capacity(of, &warmth) / (8.314462618 * curve_at(gas_curve[i].a, t)) - 1.0;
        }
        assert_near(gas_curve[i].name, worst("gas", gas_curve[i].name, COLD, off, POINTS), 0.0, WITHIN);
    }
}

/* Benzene and cyclohexane from where they melt; the published curves end there. */
static void liquid_heat_capacity(void **unused)
{
    (void)unused;
    double off[POINTS];
    const size_t plain = sizeof liquid_curve / sizeof liquid_curve[0];
    const size_t critical = sizeof liquid_curve_critical / sizeof liquid_curve_critical[0];
    assert_int_equal(plain + critical, OTHERS);
    for (size_t i = 0; i < plain + critical; i++) {
        const char *name = i < plain ? liquid_curve[i].name : liquid_curve_critical[i - plain].name;
        const double cold = strcmp(name, "benzene") && strcmp(name, "cyclohexane") ? COLD : 280.0;
        for (int k = 0; k < POINTS; k++) {
            const double t = point(cold, k);
            const double want = i < plain ? curve_at(liquid_curve[i].a, t)
                                          : critical_curve_at(liquid_curve_critical[i - plain].critical,
                                                              liquid_curve_critical[i - plain].a, t);
            off[k] = component_heat_capacity(component_find(name), t).value / (1e-3 * want) - 1.0;
        }
        assert_near(name, worst("liquid", name, cold, off, POINTS), 0.0, WITHIN);
    }
}

/* Against other collections at 25 degC. */
static void heat_capacity(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++) {
        const struct component *of = component_find(other[k].name);
        assert_near_share(other[k].name, of->heat_capacity, other[k].heat_capacity, WITHIN);
        assert_near_share(other[k].name, of->gas.heat_capacity, other[k].gas_heat, WITHIN);
    }
}

static void heat_of_vaporization(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++) {
        const double got = 1e-3 * component_vaporization(component_find(other[k].name), 298.15).value;
        const double perry = got / other[k].heat - 1.0;
        const double vdi = other[k].heat_vdi > 0.0 ? got / other[k].heat_vdi - 1.0 : 1.0;
        assert_near(other[k].name, fmin(fabs(perry), fabs(vdi)), 0.0, 0.01); /* n-decane: Perry's alone is 1.1 % low */
    }
}

static double heat_perry(int k, double t)
{
    const double *c = other[k].heat_curve;
    const double reduced = t / c[1];
    return c[0] * pow(1.0 - reduced, c[2] + reduced * (c[3] + reduced * c[4]));
}

static void heat_of_vaporization_over_temperature(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++) {
        const struct component *of = component_find(other[k].name);
        const double allowed = k == 0 ? 0.05 : 0.04;
        for (double t = 253.15; t < 313.2; t += 5.0)
            assert_near_share(other[k].name, component_vaporization(of, t).value, heat_perry(k, t), allowed);
        if (k < 3)
            print_message("%-10s 60 degC: heat %.2f kJ/mol, measured over its own liquid %.2f: real gas %+.1f %%\n",
                          other[k].name, 1e-3 * component_vaporization(of, 333.15).value, 1e-3 * heat_perry(k, 333.15),
                          100.0 * (component_vaporization(of, 333.15).value / heat_perry(k, 333.15) - 1.0));
    }
}

/* Measured, m2/s at 101325 Pa: Welty, Wicks and Wilson as quoted by Benitez; Perry's Handbook, table 2-324 (7th
 * edition). Fuller's rule is good to some 7 %; the two measured values of ethanol in air are themselves 11 % apart. */
static void diffusivity(void **unused)
{
    (void)unused;

    static const struct {
        const char *name;
        enum carrier into;
        double temperature, measured, allowed;
    } row[] = {
        {"ethanol", CARRIER_AIR, 298.0, 1.3195e-5, 0.08},
        {"ethanol", CARRIER_AIR, 273.15, 1.02e-5, 0.08},
        {"toluene", CARRIER_AIR, 298.0, 8.4382e-6, 0.08},
        {"cyclohexane", CARRIER_AIR, 318.15, 8.6e-6, 0.08},
        {"cyclohexane", CARRIER_NITROGEN, 288.15, 7.6e-6, 0.08},
        {"n-decane", CARRIER_NITROGEN, 363.15, 8.41e-6, 0.08},
        {"propane", CARRIER_CARBON_DIOXIDE, 298.0, 8.6257e-6, 0.08},
        /* Fuller's rule computed independently, five digits */
        {"n-butane", CARRIER_AIR, 298.15, 9.5600e-6, 1e-4},
        {"isooctane", CARRIER_AIR, 273.15, 5.6292e-6, 1e-4},
        {"n-pentane", CARRIER_CARBON_DIOXIDE, 325.0, 7.9117e-6, 1e-4},
        {"ethanol", CARRIER_NITROGEN, 250.0, 9.2565e-6, 1e-4},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_near_share(
            row[i].name,
            component_diffusivity(component_find(row[i].name), row[i].into, row[i].temperature, 101325.0).value,
            row[i].measured, row[i].allowed);
}

/* Gas at 298.15 K: VDI Heat Atlas. Isopentane's viscosity is 3.6 % apart between collections, conductivities up to 1.3
 * %. */
static void transport(void **unused)
{
    (void)unused;

    static const struct {
        const char *name;
        double viscosity, conductivity, allowed;
    } row[] = {
        {"n-butane", 7.5545e-6, 1.6119e-2, 0.01},  {"isopentane", 7.1688e-6, 1.4458e-2, 0.04},
        {"n-pentane", 6.9280e-6, 1.5078e-2, 0.01}, {"n-hexane", 6.4364e-6, 1.3351e-2, 0.012},
        {"ethanol", 8.9346e-6, 1.5025e-2, 0.013},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct species *gas = &component_find(row[i].name)->gas;
        double viscosity;
        double slope;
        species_viscosity(gas, 298.15, &viscosity, &slope);
        assert_near_share(row[i].name, viscosity, row[i].viscosity, row[i].allowed);
        assert_near_share(row[i].name, mixture_conductivity(1, &gas, (const double[]){1.0}, 298.15),
                          row[i].conductivity, row[i].allowed);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vapor_pressure),
        cmocka_unit_test(vapor_pressure_in_winter),
        cmocka_unit_test(boiling_points),
        cmocka_unit_test(density),
        cmocka_unit_test(density_over_temperature),
        cmocka_unit_test(gas_heat_capacity),
        cmocka_unit_test(liquid_heat_capacity),
        cmocka_unit_test(heat_capacity),
        cmocka_unit_test(heat_of_vaporization),
        cmocka_unit_test(heat_of_vaporization_over_temperature),
        cmocka_unit_test(diffusivity),
        cmocka_unit_test(transport),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
