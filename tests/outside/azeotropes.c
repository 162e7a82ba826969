/* Ethanol with a hydrocarbon: azeotropes and measured boiling points.
 *
 * Azeotropes at 101.325 kPa: handbook tables, from memory, but isooctane's, which is measured (the file of points
 * below). Ethanol + isooctane at about 101.3 kPa, T-x-y: experimental columns of ethanol_isooctane_data.csv in the
 * repository Xiaoyu-Wang-Stone/Azeotrope_S0; the paper they come from is not named there, the pressure is inferred from
 * the ends. Azeotropes at 37.778 degC: computed independently in another language with the same constants. */
#include "property/liquid.h"
#include "support/fuels.h"
#include "support/near.h"

#define ATMOSPHERE 101325.0
#define ZERO_CELSIUS 273.15

static const struct {
    const char *hydrocarbon;
    double celsius, ethanol; /* boils at; mole share */
} published[] = {
    {"n-pentane", 34.3, 0.076}, {"isopentane", 26.8, 0.054}, {"n-hexane", 58.7, 0.332}, {"cyclohexane", 64.85, 0.44},
    {"n-heptane", 71.45, 0.67}, {"isooctane", 71.27, 0.645}, {"toluene", 76.7, 0.81},
};

static const struct {
    const char *hydrocarbon;
    double ethanol, pressure; /* mole share; kPa, at 37.778 degC */
} computed[] = {
    {"n-pentane", 0.10093, 115.2376},  {"isopentane", 0.07512, 147.6933}, {"n-hexane", 0.28836, 45.3101},
    {"cyclohexane", 0.37405, 33.6866}, {"n-heptane", 0.57015, 24.1026},   {"isooctane", 0.56421, 25.0285},
    {"toluene", 0.72547, 18.1551},
};

static const struct {
    double temperature, liquid, vapor; /* K; mole shares of ethanol */
} measured[] = {
    {372.33, 0.000, 0.000}, {362.55, 0.024, 0.251}, {353.82, 0.057, 0.430}, {348.56, 0.097, 0.534},
    {346.51, 0.137, 0.566}, {345.84, 0.209, 0.586}, {345.70, 0.273, 0.600}, {345.33, 0.333, 0.608},
    {344.90, 0.400, 0.618}, {344.74, 0.444, 0.621}, {344.53, 0.502, 0.626}, {344.52, 0.545, 0.631},
    {344.47, 0.597, 0.640}, {344.44, 0.652, 0.648}, {344.48, 0.705, 0.657}, {344.58, 0.754, 0.665},
    {344.71, 0.807, 0.679}, {345.22, 0.860, 0.713}, {346.22, 0.906, 0.763}, {348.35, 0.954, 0.849},
    {351.44, 1.000, 1.000},
};

/* Share of ethanol in the vapor minus that in the liquid, at one atmosphere (temperature 0) or at one temperature. */
static double enrichment(const struct liquid *liquid, double share, double temperature, double *boils)
{
    const double amount[2] = {share, 1.0 - share};
    *boils = temperature > 0.0 ? temperature : liquid_boiling_temperature(liquid, amount, ATMOSPHERE);
    struct pressures over;
    liquid_pressures(liquid, amount, *boils, &over);
    return over.value[0] / (over.value[0] + over.value[1]) - share;
}

/* The share at which vapor and liquid are alike, by halving; the vapor is richer in ethanol below it. */
static double azeotrope(const struct liquid *liquid, double temperature, double *boils)
{
    double low = 1e-4;
    double high = 1.0 - 1e-4;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        *(enrichment(liquid, middle, temperature, boils) > 0.0 ? &low : &high) = middle;
    }
    return 0.5 * (low + high);
}

static void azeotropes_at_one_atmosphere(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        const struct liquid liquid = fuel_pair("ethanol", published[i].hydrocarbon);
        double boils;
        const double share = azeotrope(&liquid, 0.0, &boils);
        assert_near(published[i].hydrocarbon, boils - ZERO_CELSIUS, published[i].celsius, 1.0);
        assert_near(published[i].hydrocarbon, share, published[i].ethanol, 0.03);
    }
}

static void azeotropes_at_100_degf(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof computed / sizeof computed[0]; i++) {
        const struct liquid liquid = fuel_pair("ethanol", computed[i].hydrocarbon);
        double boils;
        const double share = azeotrope(&liquid, VOLATILITY_TEMPERATURE, &boils);
        const double pressure =
            liquid_bubble_pressure(&liquid, (const double[]){share, 1.0 - share}, VOLATILITY_TEMPERATURE).value;
        assert_near(computed[i].hydrocarbon, share, computed[i].ethanol, 2e-5);            /* five digits */
        assert_near(computed[i].hydrocarbon, 1e-3 * pressure, computed[i].pressure, 1e-4); /* four */
    }
}

/* The measured points scatter by some tenths of a kelvin, more where the curve is steep. */
static void isooctane_boils_as_measured(void **unused)
{
    (void)unused;
    const size_t count = sizeof measured / sizeof measured[0];
    const struct liquid liquid = fuel_pair("ethanol", "isooctane");
    double squares = 0.0;
    double vapor_squares = 0.0;
    for (size_t i = 0; i < count; i++) {
        double boils;
        const double vapor = measured[i].liquid + enrichment(&liquid, measured[i].liquid, 0.0, &boils);
        assert_near("boils", boils, measured[i].temperature, 1.6);
        assert_near("vapor", vapor, measured[i].vapor, 0.05);
        squares += (boils - measured[i].temperature) * (boils - measured[i].temperature);
        vapor_squares += (vapor - measured[i].vapor) * (vapor - measured[i].vapor);
    }
    assert_near("rms, K", sqrt(squares / (double)count), 0.0, 0.7);
    assert_near("rms of the vapor's share", sqrt(vapor_squares / (double)count), 0.0, 0.02);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(azeotropes_at_one_atmosphere),
        cmocka_unit_test(azeotropes_at_100_degf),
        cmocka_unit_test(isooctane_boils_as_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
