/* tests/outside/viscosity.c  Viscosity and conductivity of gases and mixtures.
 *
 * Perry's Handbook, 8th edition, tables 2-312 and 2-314 (fits), second: VDI Heat Atlas 2010 (another fit to other
 * measurements), both as collected in the open library CalebBell/chemicals and evaluated apart from this program. */
#include "property/gas.h"
#include "support/near.h"

/* Pa s and W/m/K at T. Perry's to the last digit printed; VDI's within 1 % of viscosity and 2 % of conductivity, which is
 * how far the two collections are apart. */
static const struct {
    const char *name;
    double temperature, viscosity, viscosity_vdi, conductivity, conductivity_vdi;
} gases[] = {
    {"air", 250.0, 1.6063e-5, 1.6030e-5, 2.2434e-2, 2.2650e-2},
    {"air", 273.15, 1.7238e-5, 1.7220e-5, 2.4159e-2, 2.4467e-2},
    {"air", 298.15, 1.8455e-5, 1.8460e-5, 2.5973e-2, 2.6374e-2},
    {"air", 350.0, 2.0830e-5, 2.0893e-5, 2.9607e-2, 3.0169e-2},
    {"nitrogen", 250.0, 1.5456e-5, 1.5383e-5, 2.1988e-2, 2.1824e-2},
    {"nitrogen", 298.15, 1.7717e-5, 1.7750e-5, 2.5484e-2, 2.5423e-2},
    {"nitrogen", 350.0, 1.9990e-5, 2.0125e-5, 2.9098e-2, 2.9122e-2},
    {"carbon dioxide", 250.0, 1.2608e-5, 1.2612e-5, 1.2806e-2, 1.2806e-2},
    {"carbon dioxide", 298.15, 1.4970e-5, 1.4970e-5, 1.6469e-2, 1.6552e-2},
    {"carbon dioxide", 350.0, 1.7386e-5, 1.7383e-5, 2.0572e-2, 2.0679e-2},
};

static void pure_gases_match_two_collections(void **unused)
{
    (void)unused;
    int count;
    const struct species *table = species_table(&count);
    for (size_t i = 0; i < sizeof gases / sizeof gases[0]; i++) {
        const int index = species_find(gases[i].name);
        assert_true(0 <= index && index < count);
        const struct species *const alone = &table[index];
        double viscosity;
        double slope;
        species_viscosity(alone, gases[i].temperature, &viscosity, &slope);
        const double conductivity = mixture_conductivity(1, &alone, &(double){1.0}, gases[i].temperature);
        assert_near(gases[i].name, viscosity, gases[i].viscosity, 0.5e-9);
        assert_near_share(gases[i].name, viscosity, gases[i].viscosity_vdi, 0.01);
        assert_near(gases[i].name, conductivity, gases[i].conductivity, 0.5e-6);
        assert_near_share(gases[i].name, conductivity, gases[i].conductivity_vdi, 0.02);
    }
}

/* Mixture of gases given by their pure viscosities and molar masses [g/mol] alone. */
static double wilke(int count, const double *share, const double *viscosity, const double *molar_mass)
{
    struct species made[SPECIES_MOST];
    const struct species *list[SPECIES_MOST];
    for (int i = 0; i < count; i++) {
        made[i] = (struct species){.molar_mass = 1e-3 * molar_mass[i], .viscosity = {viscosity[i]}};
        list[i] = &made[i];
    }
    return mixture_viscosity(count, list, share, 298.15).value;
}

/* Two examples of the library named above, which carries them as its own tests. The second's inputs are rounded to six
 * digits, hence 1e-6. */
static void mixtures_match_published_examples(void **unused)
{
    (void)unused;
    assert_near_share(
        "two gases",
        wilke(2, (const double[]){0.05, 0.95}, (const double[]){1.34e-5, 9.5029e-6}, (const double[]){64.06, 46.07}),
        9.701614886e-6, 1e-6);
    const double share[] = {0.104564, 0.104725,  0.103478,  1.40897e-05, 0.104883, 0.100789,
                            0.09902,  0.0904511, 0.0864254, 0.104361,    0.101291};
    const double viscosity[] = {1.16017e-05, 9.40837e-06, 8.19709e-06, 1.43145e-05, 1.50574e-05, 7.54348e-06,
                                7.44708e-06, 7.03656e-06, 6.72036e-06, 1.2157e-05,  1.30065e-05};
    const double molar_mass[] = {16.0425, 30.069,  44.0956, 2.01588, 44.0095, 58.1222,
                                 58.1222, 72.1488, 72.1488, 34.0809, 64.0638};
    assert_near_share("eleven gases", wilke(11, share, viscosity, molar_mass), 9.282311227e-6, 1e-6);
}

/* Air with butane at 298.15 K, pure viscosities by Perry, Wilke's rule evaluated apart from this program: half of the
 * last digit printed. */
static void butane_thins_air(void **unused)
{
    (void)unused;
    const struct species butane = {.molar_mass = 58.1222e-3, .viscosity = {3.4387e-8, 0.94604, 0.0, 0.0}};

    const struct {
        double share, viscosity, rounding;
    } row[] = {
        {0.0, 1.84548e-5, 0.5e-10}, {0.1, 1.60261e-5, 0.5e-10}, {0.2, 1.41715e-5, 0.5e-10}, {0.4, 1.15368e-5, 0.5e-10},
        {0.6, 9.76315e-6, 0.5e-11}, {0.8, 8.49219e-6, 0.5e-11}, {1.0, 7.53891e-6, 0.5e-11},
    };

    int count;
    const struct species *const mix[] = {&species_table(&count)[species_find("air")], &butane};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double share[] = {1.0 - row[i].share, row[i].share};
        assert_near("air and butane", mixture_viscosity(2, mix, share, 298.15).value, row[i].viscosity,
                    row[i].rounding);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pure_gases_match_two_collections),
        cmocka_unit_test(mixtures_match_published_examples),
        cmocka_unit_test(butane_thins_air),
    };
    return cmocka_run_group_tests_name("viscosity against the outside", tests, NULL, NULL) != 0;
}
