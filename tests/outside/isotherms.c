/* tests/outside/isotherms.c  The isotherm against measured points, those it was fitted to and those it was not, and
 * against figures of the same model worked out apart from this program.
 *
 * "Apart": evaluated with scipy from the equations and the printed constants, slopes by central differences, enthalpy
 * by the slope of the potential. */
#include "outside/isotherms.h"

#include "property/carbon.h"
#include "support/near.h"

static const struct carbon_grade plain = {1.0, 1.0, 0.0};

static struct sorbent company(const char *carbon, int count, const char *const *gas)
{
    const struct adsorbate *list[ADSORBATES_MOST];
    for (int i = 0; i < count; i++) {
        assert_true(adsorbate_find(gas[i]) >= 0);
        list[i] = &adsorbate_table(NULL)[adsorbate_find(gas[i])];
    }
    return sorbent_create(&carbon_table(NULL)[carbon_find(carbon)], plain, count, list);
}

static double loading_alone(const char *carbon, const char *gas, double temperature, double kilopascal)
{
    const struct sorbent alone = company(carbon, 1, &gas);
    const double pressure = 1e3 * kilopascal;
    double value;
    carbon_loading_value(&alone, &pressure, temperature, &value);
    return value;
}

/* ---- measured points --------------------------------------------------------------------------------------------- */

static const struct isotherm *isotherm_named(const char *name)
{
    for (int i = 0; i < ISOTHERMS; i++)
        if (strcmp(isotherms[i].name, name) == 0)
            return &isotherms[i];
    fail_msg("no set %s", name);
    return NULL;
}

/* Sets, up to a pressure [kPa], and the misfit that the model's makers found: number of points, root mean square,
 * mean and largest of (model - measured)/measured, %. "fit": its constants come from these points. */
static const struct {
    const char *sets[10];
    const char *carbon;
    double up_to;
    int fit, points;
    double rms, bias, worst, last_digit; /* %; half of the last digit printed */
} misfit[] = {
    /* clang-format off */
    {{"B7", "B8", "B9", "B10", "B11", "B12", "B13", "B14", "B15"}, "stock", 1e9, 1, 197, 1.2, 0.0, 3.7, 0.05},
    {{"B20"},                                                      "stock", 1e9, 0,  19, 2.6, 2.6, 3.9, 0.05},
    {{"P1", "P2", "P3", "P4", "P5", "P6"},                         "stock", 1e9, 1, 138, 1.0, 0.0, 4.1, 0.05},
    {{"T16"},                                                      "stock", 1e9, 1,  31, 3.3, -0.1, 7.9, 0.05},
    {{"T9"},                                                       "stock", 1e9, 1,  32, 3.4, -0.1, 7.9, 0.05},
    {{"V7", "G2", "G11", "G14"},                                   "stock", 400., 1, 15, 4.2, -0.2, 10.6, 0.05},
    {{"V8", "G5", "G8", "G17"},                                    "stock", 1600., 1, 38, 22, -4, 75, 0.5},
    {{"W4"},                                                       "stock", 1e9, 0,  16, 18, -13, 30, 0.5},
    {{"T11"},                                                      "stock", 1e9, 0,  29, 27, -27, 31, 0.5},
    {{"T15"},                                                      "stock", 1e9, 0,  34, 35, -34, 65, 0.5},
    {{"L11"},                                                      "stock", 1e9, 0,   9, 35, 16, 0, 0.5},
    {{"D9", "D10", "D11", "D12"},                                  "stock", 1e9, 0,  51, 36, -20, 0, 0.5},
    {{"D14", "D15"},                                               "stock", 1e9, 0,  34, 66, -61, 0, 0.5},
    {{"D6", "D7", "D8"},                                           "stock", 1e9, 0,  63, 31, -19, 0, 0.5},
    {{"W4"},                                                       "dense", 1e9, 1,  16, 13, 0, 0, 0.5},
    /* clang-format on */
};

struct errors {
    int points;
    double square, sum, worst;
};

static void isotherm_errors(const struct isotherm *set, const char *carbon, double up_to, struct errors *errors)
{
    for (size_t i = 0; i < set->points; i++) {
        if (set->point[i].pressure > up_to)
            continue;
        const double model = loading_alone(carbon, set->gas, set->temperature, set->point[i].pressure);
        const double off = model / set->point[i].loading - 1.0;
        errors->points++;
        errors->square += off * off;
        errors->sum += off;
        errors->worst = fmax(errors->worst, fabs(off));
    }
}

/* As found, to the digit printed: so no worse than that either. The worst of T9, 7.97, was cut and not
 * rounded, hence a whole digit there and not half of one. */
static void misfits_are_what_was_found(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof misfit / sizeof misfit[0]; i++) {
        struct errors errors = {0};
        const double allowed = misfit[i].last_digit * 1.001;
        for (int s = 0; misfit[i].sets[s]; s++)
            isotherm_errors(isotherm_named(misfit[i].sets[s]), misfit[i].carbon, misfit[i].up_to, &errors);
        const char *const name = misfit[i].sets[0];
        assert_int_equal(errors.points, misfit[i].points);
        assert_near(name, 100.0 * sqrt(errors.square / errors.points), misfit[i].rms, allowed);
        if (strcmp(misfit[i].carbon, "stock") == 0)
            assert_near(name, 100.0 * errors.sum / errors.points, misfit[i].bias, allowed);
        if (misfit[i].worst > 0.0)
            assert_near(name, 100.0 * errors.worst, misfit[i].worst, 2.0 * allowed);
    }
}

/* How far it is from everything that was measured; nothing is judged. */
static void every_set_is_shown(void **unused)
{
    (void)unused;
    print_message("set   carbon             gas             T K  points  rms %%  mean %%  worst %%\n");
    for (int i = 0; i < ISOTHERMS; i++) {
        struct errors errors = {0};
        isotherm_errors(&isotherms[i], "stock", 1e9, &errors);
        assert_true(errors.points > 0 && isfinite(errors.square));
        print_message("%-4s  %-17s  %-14s  %3.0f  %4d   %6.1f  %6.1f  %6.1f\n", isotherms[i].name, isotherms[i].kind,
                      isotherms[i].gas, isotherms[i].temperature, errors.points,
                      100.0 * sqrt(errors.square / errors.points), 100.0 * errors.sum / errors.points,
                      100.0 * errors.worst);
    }
}

/* Measured mixture, 200 ppm each at 298 K on the carbon of sets T9, T16 (Lillo-Rodenas, table 4): 2.138 mol/kg of
 * toluene beside 0.282 of benzene. The model, to which no mixture was fitted, has 1.849 and 0.388 [apart]; against
 * measurement 15 % and 40 %, where benzene alone would have been 330 % too much. */
static void toluene_displaces_benzene(void **unused)
{
    (void)unused;
    const struct sorbent both = company("stock", 2, (const char *const[]){"toluene", "benzene"});
    const double pressure[] = {20.481, 20.319};
    double value[2];
    carbon_loading_value(&both, pressure, 298.0, value);
    assert_near_share("toluene, measured", value[0], 2.1381, 0.15);
    assert_near_share("benzene, measured", value[1], 0.2816, 0.40);
    assert_near("toluene, apart", value[0], 1.849, 0.006);
    assert_near("benzene, apart", value[1], 0.388, 0.002);
    assert_true(loading_alone("stock", "benzene", 298.0, 0.020319) > 3.0 * value[1]);
}

/* ---- figures worked out apart ------------------------------------------------------------------------------------ */

/* mol/kg at kPa; half of the last of nine digits is 5e-9 at most. */
static const struct {
    const char *gas;
    double temperature, pressure, loading;
} alone[] = {
    {"n-butane", 273.15, 0.01, 0.0680706312},   {"n-butane", 273.15, 0.1, 0.518516071},
    {"n-butane", 273.15, 1, 1.92433955},        {"n-butane", 273.15, 10, 4.42306264},
    {"n-butane", 273.15, 50, 7.0570103},        {"n-butane", 273.15, 100, 8.48760164},
    {"n-butane", 298.15, 0.01, 0.0240915415},   {"n-butane", 298.15, 0.1, 0.216058917},
    {"n-butane", 298.15, 1, 1.14998726},        {"n-butane", 298.15, 10, 3.149969},
    {"n-butane", 298.15, 50, 5.18414456},       {"n-butane", 298.15, 100, 6.3424749},
    {"n-butane", 323.15, 0.01, 0.00988611789},  {"n-butane", 323.15, 0.1, 0.0943502399},
    {"n-butane", 323.15, 1, 0.662609029},       {"n-butane", 323.15, 10, 2.22669049},
    {"n-butane", 323.15, 50, 3.97958792},       {"n-butane", 323.15, 100, 4.8852326},
    {"n-pentane", 273.15, 0.01, 0.702027263},   {"n-pentane", 273.15, 0.1, 1.96233532},
    {"n-pentane", 273.15, 1, 3.98636765},       {"n-pentane", 273.15, 10, 6.91185289},
    {"n-pentane", 298.15, 0.01, 0.27608019},    {"n-pentane", 298.15, 0.1, 1.18810059},
    {"n-pentane", 298.15, 1, 2.8012347},        {"n-pentane", 298.15, 10, 5.00186917},
    {"n-pentane", 323.15, 0.01, 0.105109304},   {"n-pentane", 323.15, 0.1, 0.674596386},
    {"n-pentane", 323.15, 1, 1.91618658},       {"n-pentane", 323.15, 10, 3.92652057},
    {"toluene", 273.15, 0.01, 2.88206874},      {"toluene", 273.15, 0.1, 4.98725056},
    {"toluene", 273.15, 1, 8.84385865},         {"toluene", 298.15, 0.01, 1.6456179},
    {"toluene", 298.15, 0.1, 3.43056385},       {"toluene", 298.15, 1, 5.74822563},
    {"toluene", 323.15, 0.01, 0.963136525},     {"toluene", 323.15, 0.1, 2.20943439},
    {"toluene", 323.15, 1, 4.20187359},         {"nitrogen", 273.15, 50, 0.123027505},
    {"nitrogen", 273.15, 101.325, 0.242830326}, {"nitrogen", 273.15, 200, 0.457187353},
    {"nitrogen", 298.15, 50, 0.0865484121},     {"nitrogen", 298.15, 101.325, 0.172122366},
    {"nitrogen", 298.15, 200, 0.328260738},     {"nitrogen", 323.15, 50, 0.0641713639},
    {"nitrogen", 323.15, 101.325, 0.128226349}, {"nitrogen", 323.15, 200, 0.246593226},
};

static void each_gas_alone_is_as_worked_out(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof alone / sizeof alone[0]; i++)
        assert_near_share(alone[i].gas, loading_alone("stock", alone[i].gas, alone[i].temperature, alone[i].pressure),
                          alone[i].loading, 5e-9);
}

/* 20 kPa of butane, 10 of pentane, 0.2 of toluene at 298.15 K: mol/kg, mol/kg/kPa, mol/kg/K. Slopes by differences are
 * good to 2e-8, the enthalpy to 1e-8. */
static void a_mixture_is_as_worked_out(void **unused)
{
    (void)unused;
    const struct sorbent three = company("stock", 3, (const char *const[]){"n-butane", "n-pentane", "toluene"});
    const double pressure[] = {20e3, 10e3, 0.2e3};
    const double value[3] = {1.03292016, 3.33841895, 1.45454013};
    const double by_temperature[3] = {-0.00995582044, -0.0303987079, -0.0315893519};
    const double by_kilopascal[3][3] = {{0.0465794445, -0.0358044099, -0.767051407},
                                        {-0.017902205, 0.184523228, -3.42504542},
                                        {-0.00767051407, -0.0685009084, 5.63466679}};
    const struct loading loading = carbon_loading(&three, pressure, 298.15);
    for (int i = 0; i < 3; i++) {
        assert_near_share("loading", loading.value[i], value[i], 5e-9);
        assert_near_share("by temperature", loading.by_temperature[i], by_temperature[i], 2e-8);
        for (int j = 0; j < 3; j++)
            assert_near_share("by pressure", 1e3 * loading.by_pressure[i][j], by_kilopascal[i][j], 2e-8);
    }
    assert_near_share("potential", carbon_potential(&three, pressure, 298.15), 18.1616446, 5e-9);
    assert_near_share("enthalpy", carbon_enthalpy(&three, loading.value), -212.307586e3, 1e-8);
}

/* Ideal adsorbed solution theory on the same pure curves [apart]: the strongest gas within 2 %, weaker ones within 9 %,
 * ethanol, whose sites rank differently, within 65 %. */
static void mixtures_are_near_ideal_solution_theory(void **unused)
{
    (void)unused;

    static const struct {
        double temperature;
        int count;
        const char *gas[4];
        double pressure[4], ideal[4], share[4]; /* kPa, mol/kg */
    } row[] = {
        {298.15, 2, {"n-butane", "n-pentane"}, {20, 10}, {1.184, 4.282}, {0.09, 0.02}},
        {298.15,
         4,
         {"n-butane", "isopentane", "n-pentane", "toluene"},
         {10, 10, 5, 0.2},
         {0.481, 2.200, 1.663, 1.426},
         {0.09, 0.02, 0.02, 0.02}},
        {298.15, 2, {"n-butane", "toluene"}, {1, 0.05}, {0.236, 2.685}, {0.09, 0.02}},
        {313.15,
         4,
         {"n-butane", "isopentane", "n-hexane", "ethanol"},
         {20, 10, 2, 3},
         {0.603, 1.296, 2.769, 0.711},
         {0.09, 0.02, 0.02, 0.66}},
    };

    for (size_t r = 0; r < sizeof row / sizeof row[0]; r++) {
        const struct sorbent all = company("stock", row[r].count, row[r].gas);
        double pressure[4] = {0}, value[4];
        for (int i = 0; i < row[r].count; i++)
            pressure[i] = 1e3 * row[r].pressure[i];
        carbon_loading_value(&all, pressure, row[r].temperature, value);
        for (int i = 0; i < row[r].count; i++)
            assert_near_share(row[r].gas[i], value[i], row[r].ideal[i], row[r].share[i]);
    }
}

/* Clean carbon is a hidden gas volume, dq/dp R T, L/kg at 298.15 K [apart]: 4.1 with nitrogen or air in a slow test, 32
 * with carbon dioxide at 1 atm, as secants from zero 4.2 and 47. Butane pushes nitrogen out. */
static void clean_carbon_hides_gas(void **unused)
{
    (void)unused;
    const double rt = 8.31446261815324 * 298.15;
    const double atmosphere = 101325.0;

    static const struct {
        const char *gas;
        double slope, secant;
    } row[] = {{"nitrogen", 4.1, 4.2}, {"air", 4.1, 4.2}, {"carbon dioxide", 32.0, 47.0}};

    for (int i = 0; i < 3; i++) {
        const struct sorbent one = company("stock", 1, &row[i].gas);
        const struct loading loading = carbon_loading(&one, &atmosphere, 298.15);
        const double half = i == 2 ? 0.5 : 0.05; /* of the last digit */
        assert_near(row[i].gas, 1e3 * rt * loading.by_pressure[0][0], row[i].slope, half);
        assert_near(row[i].gas, 1e3 * rt * loading.value[0] / atmosphere, row[i].secant, half);
    }
    const struct sorbent both = company("stock", 2, (const char *const[]){"nitrogen", "n-butane"});
    double value[2];
    carbon_loading_value(&both, (const double[]){96e3, 5.3e3}, 298.15, value);
    assert_near("beside 5.3 kPa", value[0], 0.073, 5e-4);
    carbon_loading_value(&both, (const double[]){51e3, 50e3}, 298.15, value);
    assert_near("beside 50 kPa", value[0], 0.018, 1e-3); /* cut, not rounded */
}

/* Butane over an even heel at 298.15 K, share of 1 atm [apart], two digits; and how a heel answers to a warm day, 24 to
 * 35 degC at fixed loading: 1.52 times. */
static void a_heel_breathes(void **unused)
{
    (void)unused;

    static const struct {
        double loading, share;
    } row[] = {{0.05, 208e-6}, {0.1, 427e-6}, {0.2, 905e-6}, {0.5, 0.0027},
               {1, 0.0078},    {2, 0.031},    {3, 0.086},    {5, 0.44}};

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        double low = 0.0, high = 101.325;
        for (int n = 0; n < 60; n++)
            *(loading_alone("stock", "n-butane", 298.15, 0.5 * (low + high)) < row[i].loading ? &low : &high) =
                0.5 * (low + high);
        assert_near_share("share", low / 101.325, row[i].share, 0.02);
    }
    const double before = loading_alone("stock", "n-butane", 297.15, 1.0);
    assert_near_share("24 to 35 degC", loading_alone("stock", "n-butane", 308.15, 1.52), before, 0.005);
}

/* Butane held at 1 atm and 298.15 K [apart]: 6.367 mol/kg, 37.0 g/100 g. Published: a main bed takes more than 35 g/L
 * between 5 and 50 vol % at 25 degC (US 2018/0030871); this one, at 300 kg/m3, 48 [apart]. */
static void butane_is_held_as_in_a_main_bed(void **unused)
{
    (void)unused;
    const struct carbon *const stock = &carbon_table(NULL)[carbon_find("stock")];
    const double gram = 58.1222; /* per mol */
    const double full = loading_alone("stock", "n-butane", 298.15, 101.325);
    assert_near("mol/kg", full, 6.367, 5e-4);
    assert_near("g/100 g", 0.1 * gram * full, 37.0, 0.05);
    const double step = loading_alone("stock", "n-butane", 298.15, 0.50 * 101.325) -
                        loading_alone("stock", "n-butane", 298.15, 0.05 * 101.325);
    assert_true(1e-3 * stock->density * gram * step > 35.0);
    assert_near("g/L", 1e-3 * 300.0 * gram * step, 48.0, 0.5);
    /* the higher grade [apart]: 8.25 mol/kg, with constants of which four digits were printed */
    assert_near("dense", loading_alone("dense", "n-butane", 298.15, 101.325), 8.25, 1e-2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(misfits_are_what_was_found),      cmocka_unit_test(every_set_is_shown),
        cmocka_unit_test(toluene_displaces_benzene),       cmocka_unit_test(each_gas_alone_is_as_worked_out),
        cmocka_unit_test(a_mixture_is_as_worked_out),      cmocka_unit_test(mixtures_are_near_ideal_solution_theory),
        cmocka_unit_test(clean_carbon_hides_gas),          cmocka_unit_test(a_heel_breathes),
        cmocka_unit_test(butane_is_held_as_in_a_main_bed),
    };
    return cmocka_run_group_tests_name("isotherms", tests, NULL, NULL) != 0;
}
