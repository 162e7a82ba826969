/* tests/outside/nozzle.c  Isentropic flow against printed relations, for four gases.
 *
 * The relations of a perfect gas, NACA Report 1135 (1953), eqs 43-45 and 80; the figures below follow from them and were
 * worked out apart from this program; those of gamma 1.4 at Mach 0.5, 1 and 2 are the report's own table (0.8430, 1.3398;
 * 0.5283; recalled from memory). */
#include "law/passages.h"
#include "support/near.h"

#define SHARE 1e-3 /* 0.1 %, what a nozzle in these relations is asked for */

static struct gas gas_at(double pressure, double molar_mass, double gamma)
{
    return (struct gas){.pressure = pressure,
                        .excess = pressure - STANDARD_PRESSURE,
                        .temperature = STANDARD_TEMPERATURE,
                        .molar_mass = molar_mass,
                        .viscosity = 1.8e-5,
                        .gamma = gamma};
}

/* Mass flow per area over p0/sqrt(T0), from an upstream pressure of 200 kPa. kg K^0.5/s/N */
static double parameter(double ratio, double molar_mass, double gamma)
{
    const double area = 2e-6;
    const double p0 = 2e5;
    const struct gas up = gas_at(p0, molar_mass, gamma);
    const struct gas down = gas_at(p0 * ratio, molar_mass, gamma);
    return nozzle_flow(area, 1.0, &up, &down).value * molar_mass * sqrt(STANDARD_TEMPERATURE) / (area * p0);
}

/* Mach number, p/p0, A/A*. Half the last digit of p/p0 moves the flow by under 4e-4 at Mach 0.1, less further on. */
static const struct {
    double gamma, mach, pressure_ratio, area_ratio;
} table[] = {
    {1.4, 0.1, 0.99303, 5.82183},    {1.4, 0.2, 0.97250, 2.96352},    {1.4, 0.3, 0.93947, 2.03507},
    {1.4, 0.4, 0.89561, 1.59014},    {1.4, 0.5, 0.84302, 1.33984},    {1.4, 0.6, 0.78400, 1.18820},
    {1.4, 0.7, 0.72093, 1.09437},    {1.4, 0.8, 0.65602, 1.03823},    {1.4, 0.9, 0.59126, 1.00886},
    {1.4, 1.0, 0.52828, 1.00000},    {1.08, 0.1, 0.99462, 6.03705},   {1.08, 0.3, 0.95265, 2.09765},
    {1.08, 0.5, 0.87430, 1.36702},   {1.08, 0.8, 0.71088, 1.04278},   {1.08, 1.0, 0.58891, 1.00000},
    {1.0922, 0.1, 0.99456, 6.02828}, {1.0922, 0.3, 0.95214, 2.09509}, {1.0922, 0.5, 0.87307, 1.36590},
    {1.0922, 0.8, 0.70861, 1.04258}, {1.0922, 1.0, 0.58632, 1.00000}, {1.3, 0.1, 0.99353, 5.88600},
    {1.3, 0.3, 0.94355, 2.05366},    {1.3, 0.5, 0.85255, 1.34785},    {1.3, 0.8, 0.67218, 1.03954},
    {1.3, 1.0, 0.54573, 1.00000},
};

static void flow_follows_mach_tables(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        char name[64];
        snprintf(name, sizeof name, "gamma %g, Mach %g", table[i].gamma, table[i].mach);
        const double choked = parameter(0.0, 0.03, table[i].gamma);
        const double here = parameter(table[i].pressure_ratio, 0.03, table[i].gamma);
        assert_near_share(name, here / choked, 1.0 / table[i].area_ratio, SHARE);
    }
}

/* psi of air against p/p0. */
static const double subsonic[][2] = {
    {0.999, 0.044697}, {0.99, 0.140662}, {0.97, 0.240980}, {0.95, 0.307641},    {0.9, 0.422581},
    {0.8, 0.560661},   {0.7, 0.638317},  {0.6, 0.676915},  {0.52828, 0.684731},
};

static void flow_follows_ratio(void **unused)
{
    (void)unused;
    const double molar_mass = 0.029;
    const double root = sqrt(GAS_CONSTANT / molar_mass);
    for (size_t i = 0; i < sizeof subsonic / sizeof subsonic[0]; i++)
        assert_near_share("psi", parameter(subsonic[i][0], molar_mass, 1.4) * root, subsonic[i][1], SHARE);
}

static const struct {
    const char *name;
    double gamma, molar_mass; /* kg/mol */
    double critical_ratio;
    double choked; /* kg K^0.5/s/N */
} gases[] = {
    {"air, R 287.05", 1.4, 28.965e-3, 0.52828, 0.040415},
    {"nitrogen", 1.4, 28.013e-3, 0.52828, 0.039745},
    {"carbon dioxide", 1.289, 44.010e-3, 0.54772, 0.048401},
    {"n-butane", 1.0922, 58.122e-3, 0.58632, 0.052400},
};

enum { GASES = sizeof gases / sizeof gases[0] };

static void choked_flow_is_the_constant(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < GASES; i++)
        for (int tenths = 0; tenths <= 5; tenths++)
            assert_near_share(gases[i].name, parameter(0.1 * tenths, gases[i].molar_mass, gases[i].gamma),
                              gases[i].choked, SHARE);
}

/* Just under the critical ratio the flow no longer feels what lies behind, just above it does. */
static void choking_begins_at_the_critical_ratio(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < GASES; i++) {
        const struct gas up = gas_at(2e5, gases[i].molar_mass, gases[i].gamma);
        const double critical = 2e5 * gases[i].critical_ratio;
        const struct gas under = gas_at(critical * (1.0 - SHARE), gases[i].molar_mass, gases[i].gamma);
        const struct gas over = gas_at(critical * (1.0 + SHARE), gases[i].molar_mass, gases[i].gamma);
        assert_true(nozzle_flow(1e-6, 1.0, &up, &under).slope_b[GAS_PRESSURE] == 0.0);
        assert_true(nozzle_flow(1e-6, 1.0, &up, &over).slope_b[GAS_PRESSURE] < 0.0);
    }
}

/* Air through 1.5 mm, Cd 0.85, from 101325 Pa and 20 degC into a pressure under 53.5 kPa: 0.3593 g/s. Closed form. */
static void choked_hole_by_hand(void **unused)
{
    (void)unused;
    const double area = 0.25 * 3.14159265358979 * 1.5e-3 * 1.5e-3;
    const struct gas up = gas_at(101325.0, GAS_CONSTANT / 287.05, 1.4);
    const struct gas down = gas_at(40e3, GAS_CONSTANT / 287.05, 1.4);
    assert_near_share("g/s", 1e3 * nozzle_flow(area, 0.85, &up, &down).value * up.molar_mass, 0.3593, SHARE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flow_follows_mach_tables),    cmocka_unit_test(flow_follows_ratio),
        cmocka_unit_test(choked_flow_is_the_constant), cmocka_unit_test(choking_begins_at_the_critical_ratio),
        cmocka_unit_test(choked_hole_by_hand),
    };
    return cmocka_run_group_tests_name("nozzle against the outside", tests, NULL, NULL) != 0;
}
