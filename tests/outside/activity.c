/* Modified UNIFAC against published and independently computed activity coefficients.
 * Published: J. Gmehling, B. Kolbe, M. Kleiber, J. Rarey, Chemical Thermodynamics for Process Simulation, problem 11.02
 * (benzene, cyclohexane, acetone, ethanol), as evaluated in the tests of the open library CalebBell/thermo at 290 K and
 * 250 K. The book's own line at 373.15 K has mole shares that sum to 0.9 and holds only for a program that uses them
 * so: it is left out. Computed: an implementation of our own in another language and that library's, which agree to
 * 1e-12; ten digits kept. Parameters: published list of 2006. */
#include "property/activity.h"

#include "support/fuels.h"
#include "support/near.h"

#define WARM 310.92777777777778 /* K: 100 degF */
#define DIGITS 1e-9             /* of ten digits kept, half a unit in the last is 5e-10 */

/* clang-format off */
static const struct {
    const char *hydrocarbon;
    double temperature, ethanol, gamma[2]; /* K; mole share; of ethanol, of the hydrocarbon */
} pair[] = {
    {"n-butane", 273.15, 0.3, {2.604349212, 1.401861014}},
    {"n-butane", 273.15, 0.95, {1.004479013, 6.237790186}},
    {"n-pentane", 273.15, 0.3, {2.708922261, 1.390101033}},
    {"n-pentane", 273.15, 0.95, {1.005690874, 7.210838216}},
    {"n-hexane", 273.15, 0.3, {2.815699014, 1.383415241}},
    {"n-hexane", 273.15, 0.95, {1.007001542, 8.322221808}},
    {"isooctane", 273.15, 0.3, {3.017736829, 1.375042071}},
    {"isooctane", 273.15, 0.95, {1.009903246, 10.91323531}},
    {"toluene", 273.15, 0.3, {2.253844119, 1.324493276}},
    {"toluene", 273.15, 0.95, {1.005590474, 5.285017599}},
    {"o-xylene", 273.15, 0.3, {2.299552322, 1.322633262}},
    {"o-xylene", 273.15, 0.95, {1.005947708, 5.535155915}},
    {"cyclohexane", 273.15, 0.3, {2.700323978, 1.379714685}},
    {"cyclohexane", 273.15, 0.95, {1.007180059, 7.905981511}},
    {"n-butane", 293.15, 0.05, {13.95074508, 1.034060038}},
    {"n-butane", 293.15, 0.3, {2.579179668, 1.389058571}},
    {"n-butane", 293.15, 0.6, {1.321315638, 2.364067888}},
    {"n-butane", 293.15, 0.95, {1.004380557, 6.058277988}},
    {"n-pentane", 293.15, 0.05, {13.82179508, 1.031906083}},
    {"n-pentane", 293.15, 0.3, {2.680274126, 1.375473579}},
    {"n-pentane", 293.15, 0.6, {1.366273934, 2.35978938}},
    {"n-pentane", 293.15, 0.95, {1.005553499, 6.96808675}},
    {"n-hexane", 293.15, 0.05, {13.92530232, 1.030106049}},
    {"n-hexane", 293.15, 0.3, {2.783617196, 1.366968979}},
    {"n-hexane", 293.15, 0.6, {1.409400802, 2.364895473}},
    {"n-hexane", 293.15, 0.95, {1.006820264, 8.003371524}},
    {"isooctane", 293.15, 0.05, {14.25223623, 1.027130026}},
    {"isooctane", 293.15, 0.3, {2.978836713, 1.355063078}},
    {"isooctane", 293.15, 0.6, {1.490186454, 2.376994291}},
    {"isooctane", 293.15, 0.95, {1.00962131, 10.40084558}},
    {"toluene", 293.15, 0.05, {8.691700461, 1.019649484}},
    {"toluene", 293.15, 0.3, {2.26256237, 1.296375608}},
    {"toluene", 293.15, 0.6, {1.300958517, 2.016465777}},
    {"toluene", 293.15, 0.95, {1.00529348, 5.129236602}},
    {"o-xylene", 293.15, 0.05, {8.74094081, 1.018116286}},
    {"o-xylene", 293.15, 0.3, {2.327904975, 1.292504499}},
    {"o-xylene", 293.15, 0.6, {1.319362094, 2.036071136}},
    {"o-xylene", 293.15, 0.95, {1.005745691, 5.476366995}},
    {"cyclohexane", 293.15, 0.05, {13.23512135, 1.034712004}},
    {"cyclohexane", 293.15, 0.3, {2.64976635, 1.366916466}},
    {"cyclohexane", 293.15, 0.6, {1.389017067, 2.297766466}},
    {"cyclohexane", 293.15, 0.95, {1.006816718, 7.454104696}},
    {"n-butane", WARM, 0.05, {13.0037652, 1.028577504}},
    {"n-butane", WARM, 0.3, {2.542563933, 1.37233141}},
    {"n-butane", WARM, 0.6, {1.313855661, 2.319033117}},
    {"n-butane", WARM, 0.95, {1.004251192, 5.819670348}},
    {"n-pentane", WARM, 0.05, {12.70889798, 1.026149846}},
    {"n-pentane", WARM, 0.3, {2.638081169, 1.356617736}},
    {"n-pentane", WARM, 0.6, {1.357124442, 2.309952492}},
    {"n-pentane", WARM, 0.95, {1.005372715, 6.647055255}},
    {"n-hexane", WARM, 0.05, {12.63506179, 1.024177618}},
    {"n-hexane", WARM, 0.3, {2.735806404, 1.346037407}},
    {"n-hexane", WARM, 0.6, {1.398622446, 2.310307575}},
    {"n-hexane", WARM, 0.95, {1.006581342, 7.583750965}},
    {"isooctane", WARM, 0.05, {12.61265969, 1.021058025}},
    {"isooctane", WARM, 0.3, {2.91959106, 1.330234306}},
    {"isooctane", WARM, 0.6, {1.476333497, 2.313244818}},
    {"isooctane", WARM, 0.95, {1.009248653, 9.732677354}},
    {"toluene", WARM, 0.05, {7.407424554, 1.013726187}},
    {"toluene", WARM, 0.3, {2.257460335, 1.263525515}},
    {"toluene", WARM, 0.6, {1.299890982, 1.96568627}},
    {"toluene", WARM, 0.95, {1.00507754, 4.953243497}},
    {"o-xylene", WARM, 0.05, {7.432766492, 1.012551059}},
    {"o-xylene", WARM, 0.3, {2.335637138, 1.258391833}},
    {"o-xylene", WARM, 0.6, {1.322931273, 1.987007931}},
    {"o-xylene", WARM, 0.95, {1.005601382, 5.36477707}},
    {"cyclohexane", WARM, 0.05, {12.1847839, 1.028299883}},
    {"cyclohexane", WARM, 0.3, {2.591083396, 1.348618086}},
    {"cyclohexane", WARM, 0.6, {1.373297583, 2.245745276}},
    {"cyclohexane", WARM, 0.95, {1.006426534, 6.954421652}},
    {"n-butane", 345, 0.3, {2.420880917, 1.325652444}},
    {"n-butane", 345, 0.95, {1.003886062, 5.144412768}},
    {"n-pentane", 345, 0.3, {2.495657403, 1.305378091}},
    {"n-pentane", 345, 0.95, {1.004861174, 5.749827058}},
    {"n-hexane", 345, 0.3, {2.572278359, 1.290565565}},
    {"n-hexane", 345, 0.95, {1.005903651, 6.424957082}},
    {"isooctane", 345, 0.3, {2.71296898, 1.26740189}},
    {"isooctane", 345, 0.95, {1.008186737, 7.928615909}},
    {"toluene", 345, 0.3, {2.186828158, 1.196188871}},
    {"toluene", 345, 0.95, {1.00475144, 4.50700166}},
    {"o-xylene", 345, 0.3, {2.27162165, 1.191419585}},
    {"o-xylene", 345, 0.95, {1.005348098, 4.956914996}},
    {"cyclohexane", 345, 0.3, {2.456816349, 1.292203923}},
    {"cyclohexane", 345, 0.95, {1.00570237, 5.936561328}},
};

/* Endless dilution at 100 degF: ethanol in the hydrocarbon, the hydrocarbon in ethanol. Six digits kept. */
static const struct {
    const char *hydrocarbon;
    double ethanol_in, in_ethanol;
} dilute[] = {
    {"n-butane", 50.8364, 6.86829},
    {"isopentane", 42.9327, 8.20358},
    {"n-pentane", 42.9327, 8.20358},
    {"n-hexane", 38.0833, 9.82533},
    {"n-heptane", 34.6775, 11.7719},
    {"isooctane", 32.0509, 14.0526},
    {"toluene", 13.1641, 6.05012},
    {"o-xylene", 12.5094, 6.69166},
    {"cyclohexane", 47.6241, 8.96032},
};

/* clang-format on */

static void pairs_with_ethanol(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof pair / sizeof pair[0]; i++) {
        const struct liquid liquid = fuel_pair("ethanol", pair[i].hydrocarbon);
        const double amount[2] = {pair[i].ethanol, 1.0 - pair[i].ethanol};
        struct coefficients at;
        activity_plain(&liquid.activity, amount, pair[i].temperature, &at);
        assert_near_share(pair[i].hydrocarbon, exp(at.log[0]), pair[i].gamma[0], DIGITS);
        assert_near_share(pair[i].hydrocarbon, exp(at.log[1]), pair[i].gamma[1], DIGITS);
        /* One hydrocarbon alone is its own ethanol-free liquid: dividing changes nothing but rounding. */
        activity_divided(&liquid.activity, amount, pair[i].temperature, &at);
        assert_near_share(pair[i].hydrocarbon, exp(at.log[1]), pair[i].gamma[1], DIGITS);
    }
}

static void endless_dilution(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof dilute / sizeof dilute[0]; i++) {
        const struct liquid liquid = fuel_pair("ethanol", dilute[i].hydrocarbon);
        struct coefficients at;
        activity_plain(&liquid.activity, (const double[]){0.0, 1.0}, WARM, &at);
        assert_near_share(dilute[i].hydrocarbon, exp(at.log[0]), dilute[i].ethanol_in, 5e-6);
        activity_plain(&liquid.activity, (const double[]){1.0, 0.0}, WARM, &at);
        assert_near_share(dilute[i].hydrocarbon, exp(at.log[1]), dilute[i].in_ethanol, 5e-6);
    }
}

/* Printed to sixteen digits; rounding of some hundred operations with exponents of 10. */
static void four_published_components(void **unused)
{
    (void)unused;
    const struct component acetone = {.gas = {.name = "acetone"}, .group = {[UNIFAC_CH3] = 1, [UNIFAC_CH3CO] = 1}};
    const struct component *const four[4] = {component_find("benzene"), component_find("cyclohexane"), &acetone,
                                             component_find("ethanol")};

    static const struct {
        double temperature, amount[4], gamma[4];
    } row[] = {
        {290.0, {0.2, 0.3, 0.3, 0.2}, {1.2555831362844658, 2.002790560351622, 1.313653013490284, 2.4472442902051923}},
        {250.0, {0.01, 0.01, 0.01, 0.97}, {6.233033961983859, 10.01994111294437, 3.376394671321658, 1.001370073351497}},
    };
    struct activity activity;
    activity_prepare(&activity, 4, four);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct coefficients at;
        activity_plain(&activity, row[i].amount, row[i].temperature, &at);
        for (int k = 0; k < 4; k++)
            assert_near_share(four[k]->gas.name, exp(at.log[k]), row[i].gamma[k], 1e-13);
    }
}

/* The base of 9 psi with 10 % ethanol by volume, and the same with each hydrocarbon's gamma divided by its gamma
 * without ethanol. Computed, ten digits. */
static void gasoline_with_ethanol(void **unused)
{
    (void)unused;
    static const double share[8] = {0.04231502557, 0.01821401771, 0.1352853316, 0.08522680336,
                                    0.1982261429,  0.1802371886,  0.1455236598, 0.1949718304};
    static const double plain[8] = {1.36144121,  1.36144121,  1.338207778, 1.316606961,
                                    1.268858065, 1.300048848, 1.270284442, 3.617999492};
    static const double divided[8] = {1.180789611, 1.180789611, 1.192272733, 1.204268097,
                                      1.22911239,  1.083059055, 1.078910415, 3.617999492};
    const struct liquid liquid = fuel_liquid(8, fuel_eight);
    struct coefficients at;
    activity_plain(&liquid.activity, share, WARM, &at);
    for (int k = 0; k < 8; k++)
        assert_near_share(fuel_eight[k], exp(at.log[k]), plain[k], DIGITS);
    activity_divided(&liquid.activity, share, WARM, &at);
    for (int k = 0; k < 8; k++)
        assert_near_share(fuel_eight[k], exp(at.log[k]), divided[k], DIGITS);
}

/* The model was fitted to heats of mixing, too: equal parts of ethanol and n-hexane at 25 degC take up some 0.6 kJ/mol
 * (from memory, a tenth either way). */
static void heat_of_mixing(void **unused)
{
    (void)unused;
    const struct liquid liquid = fuel_pair("ethanol", "n-hexane");
    assert_near("J/mol", liquid_mixing_heat(&liquid, (const double[]){0.5, 0.5}, NULL), 600.0, 60.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pairs_with_ethanol),
        cmocka_unit_test(endless_dilution),
        cmocka_unit_test(four_published_components),
        cmocka_unit_test(gasoline_with_ethanol),
        cmocka_unit_test(heat_of_mixing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
