/* Gasoline with 0 % to 100 % ethanol.
 *
 * The table: computed independently in another language (volume shares of the base of 9 psi times 1 - E, no excess
 * volume, same constants, gammas divided by those of the ethanol-free liquid); a second program there gave the same to
 * 2e-6. Published behaviour: 10 % by volume raises RVP by about 1 psi, 15 % no more than 10 % (R. McCormick, J.
 * Yanowitz, discussion document, National Renewable Energy Laboratory, 26 March 2012); the rise is gone somewhere at 30
 * % to 50 % and 85 % lies below the base (measured blends, from memory). */
#include "property/blend.h"
#include "support/fuels.h"
#include "support/near.h"

static const double base9[7] = {0.0429, 0.0178, 0.1532, 0.1086, 0.3187, 0.1870, 0.1718};

static const struct {
    double percent; /* ethanol by volume */
    double warm[3]; /* kPa at 37.778 degC: bubble, 4:1, DVPE */
    double cool[2]; /* kPa at 20 degC: bubble, same chamber */
} table[] = {
    {0, {66.3135, 63.6244, 62.0237}, {37.1450, 36.0964}},  {2, {72.3942, 69.6713, 67.8186}, {39.7366, 38.6871}},
    {5, {74.1859, 71.5071, 69.5885}, {40.1427, 39.0896}},  {10, {74.5307, 71.8109, 69.8857}, {40.0941, 39.0119}},
    {15, {74.2609, 71.4667, 69.5595}, {39.8847, 38.7664}}, {20, {73.7897, 70.9087, 69.0285}, {39.6016, 38.4437}},
    {30, {72.4126, 69.3413, 67.5366}, {38.8096, 37.5665}}, {40, {70.3140, 67.0521, 65.3593}, {37.5984, 36.2697}},
    {50, {67.1633, 63.7439, 62.2150}, {35.7673, 34.3663}}, {60, {62.5238, 59.0347, 57.7414}, {33.0630, 31.6252}},
    {70, {55.8505, 52.4701, 51.5083}, {29.1699, 27.7691}}, {85, {40.4982, 37.9631, 37.7419}, {20.2101, 19.1502}},
    {100, {15.9441, 15.9441, 16.8650}, {5.8613, 5.8613}},
};

/* Allowed is 0.1 %; what is left (o-xylene below its measured range, on another curve here) is 0.002 %. */
static void table_of_blends(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        double amount[8];
        fuel_amounts(base9, 0.01 * table[i].percent, amount);
        const struct volatility is = liquid_volatility(&liquid, amount);
        const double cool = liquid_bubble_pressure(&liquid, amount, 293.15).value;
        assert_near_share("bubble", 1e-3 * is.bubble, table[i].warm[0], 1e-3);
        assert_near_share("4:1", 1e-3 * is.expanded, table[i].warm[1], 1e-3);
        assert_near_share("DVPE", 1e-3 * is.dvpe, table[i].warm[2], 1e-3);
        assert_near_share("bubble at 20 degC", 1e-3 * cool, table[i].cool[0], 1e-3);
        assert_near_share("4:1 at 20 degC", 1e-3 * liquid_expanded_pressure(&liquid, amount, 293.15), table[i].cool[1],
                          1e-3);
    }
}

static double rise(double dvpe, double ethanol)
{
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    struct blend blend;
    double amount[LIQUID_MOST];
    assert_true(blend_base(dvpe, &blend));
    assert_true(blend_add(&blend, component_find("ethanol"), ethanol));
    blend_amounts(&blend, 1.0, amount);
    return (liquid_volatility(&liquid, amount).dvpe - dvpe) / FUEL_PSI;
}

/* Share of ethanol, past the peak, at which the blend is no more volatile than its base. */
static double back_at_base(double dvpe)
{
    double low = 0.2, high = 0.85;
    for (int i = 0; i < 30; i++)
        *(rise(dvpe, 0.5 * (low + high)) > 0.0 ? &low : &high) = 0.5 * (low + high);
    return low;
}

static void a_tenth_of_ethanol_adds_a_psi(void **unused)
{
    (void)unused;
    assert_near("9 psi: at its base again", back_at_base(9.0 * FUEL_PSI), 0.50, 0.05);
    for (double psi = 7.0; psi < 13.01; psi += 1.0) {
        const double ten = rise(psi * FUEL_PSI, 0.10);
        assert_near("rise at 10 %, psi", ten, 1.05, 0.35); /* 0.7 to 1.4 */
        assert_near("15 % over 10 %, psi", rise(psi * FUEL_PSI, 0.15) - ten, 0.0, 0.3);
        double peak = 0.0;
        double at = 0.0;
        for (double share = 0.01; share < 0.4; share += 0.01)
            if (rise(psi * FUEL_PSI, share) > peak) {
                peak = rise(psi * FUEL_PSI, share);
                at = share;
            }
        if (psi < 9.5) { /* the bases the statement is about */
            assert_near("peak at", at, 0.10, 0.05);
            assert_true(rise(psi * FUEL_PSI, 0.35) > 0.0 && rise(psi * FUEL_PSI, 0.60) < 0.0);
        }
        assert_true(rise(psi * FUEL_PSI, 0.85) < -1.0);
        print_message("base %4.1f psi: +%.2f psi at 10 %%, most (+%.2f) at %.0f %%, none at %.0f %%, %+.2f at 85 %%\n",
                      psi, ten, peak, 100.0 * at, 100.0 * back_at_base(psi * FUEL_PSI), rise(psi * FUEL_PSI, 0.85));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_of_blends),
        cmocka_unit_test(a_tenth_of_ethanol_adds_a_psi),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
