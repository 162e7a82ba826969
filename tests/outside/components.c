/* Fuel components against other collections than the table's own.
 *
 * Vapor pressure: DIPPR 101, ln p = c1 + c2/T + c3 ln T + c4 T^c5, Perry's Handbook, 8th edition, table 2-8; Wagner,
 *   ln(p/pc) = (a t + b t^1.5 + c t^3 + d t^6) Tc/T, t = 1 - T/Tc, McGarry 1983; Antoine, NIST WebBook (0: no set that
 *   covers 0 to 45 degC, or the table's own).
 * Density at 298.15 K: VDI Heat Atlas. Heat capacity of the liquid: Perry table 2-153, where the table's is from there
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
     {-7.3889, 1.25294, -3.16606, -2.22001, 2561550, 543.96}, {0, 0, 0},
     0, 238.2, 35.29, 0, {47711, 543.8, 0.37949, 0, 0}, 188.4},
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

/* Constants, right at 25 degC. By the polynomials of Poling, Prausnitz and O'Connell the gas of n-butane has 11 % less
 * at -20 degC and 4 % more at 40 degC. */
static void heat_capacity(void **unused)
{
    (void)unused;
    for (int k = 0; k < OTHERS; k++) {
        const struct component *of = component_find(other[k].name);
        assert_near_share(other[k].name, of->heat_capacity, other[k].heat_capacity, 0.01);
        assert_near_share(other[k].name, of->gas.heat_capacity, other[k].gas_heat, 0.01);
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
        cmocka_unit_test(density),
        cmocka_unit_test(heat_capacity),
        cmocka_unit_test(heat_of_vaporization),
        cmocka_unit_test(heat_of_vaporization_over_temperature),
        cmocka_unit_test(diffusivity),
        cmocka_unit_test(transport),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
