/* tests/outside/atmosphere.c  US Standard Atmosphere 1976, lowest layer, geometric altitude.
 * Rows at 0, 1000, 2000, 3000, 4000 m: the published table, from memory. The others from the document's formula and
 * constants, worked out apart from this program. */
#include "property/gas.h"
#include "support/near.h"

#define SHARE 1e-4 /* 0.01 %: the table's rounding is a tenth of it */

static const struct {
    double altitude, temperature, pressure; /* m, K, Pa */
} table[] = {
    {0, 288.150, 101325.0},       {250, 286.525, 98357.7},  {304.8, 286.169, 97716.7}, {500, 284.900, 95461.3},
    {750, 283.276, 92634.6},      {1000, 281.651, 89876.0}, {1250, 280.027, 87185.1},  {1500, 278.402, 84559.7},
    {1609.344, 277.692, 83431.8}, {1750, 276.778, 81998.9}, {2000, 275.154, 79501.0},  {2250, 273.530, 77066.1},
    {2438.4, 272.306, 75271.2},   {2500, 271.906, 74691.8}, {2750, 270.283, 72377.2},  {3000, 268.659, 70121.0},
    {3250, 267.036, 67922.6},     {3500, 265.413, 65780.4}, {3750, 263.789, 63693.4},  {4000, 262.166, 61660.0},
};

static void atmosphere_matches_the_table(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        assert_near_share("Pa", standard_pressure(table[i].altitude), table[i].pressure, SHARE);
        assert_near_share("K", standard_temperature(table[i].altitude), table[i].temperature, SHARE);
    }
}

/* Below the sea and up to the top of the layer (published there, from memory: 113929 Pa at -1000 m, 22699.9 Pa at
 * 11000 m, 294.651 K and 216.774 K). */
static void atmosphere_reaches_its_ends(void **unused)
{
    (void)unused;
    assert_near_share("Pa at -1000 m", standard_pressure(-1000.0), 113929.0, SHARE);
    assert_near_share("K at -1000 m", standard_temperature(-1000.0), 294.651, SHARE);
    assert_near_share("Pa at 11000 m", standard_pressure(11000.0), 22699.9, SHARE);
    assert_near_share("K at 11000 m", standard_temperature(11000.0), 216.774, SHARE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(atmosphere_matches_the_table),
        cmocka_unit_test(atmosphere_reaches_its_ends),
    };
    return cmocka_run_group_tests_name("standard atmosphere", tests, NULL, NULL) != 0;
}
