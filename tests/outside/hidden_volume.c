/* tests/outside/hidden_volume.c  Clean carbon is a hidden gas volume: how much air, nitrogen and carbon dioxide a shut
 * canister takes as it is put under pressure, through the whole program, and what a leak test makes of it.
 *
 * Source of the figures: the isotherms of nitrogen and carbon dioxide on wood-based carbons that `stock` carries, fitted to
 * measured points (tests/outside/isotherms.c) and evaluated apart from this program, 298.15 K, near 101325 Pa, for a small
 * change of pressure at rest: (dq/dp) R T = 4.1 L per kg of carbon with nitrogen or air, 32 L/kg with carbon dioxide. Both
 * are printed to two digits: half a unit of the last is 1.2 % and 1.6 %. The change here is 2 kPa of 101; the isotherm of
 * carbon dioxide bends by d ln(dq/dp)/d ln p = 0.3 or so, of which half of 2 % is 0.3 %. */
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

#define GAS_CONSTANT 8.31446261815324 /* J/mol/K [SI2019] */
#define ROOM 298.15                   /* K */
#define ATMOSPHERE 101325.0           /* Pa */
#define RISE 2000.0                   /* Pa */
#define CARBON 0.42                   /* kg: 1.4 L of 300 kg/m3 */

enum { TEXT = 2048 };

/* Heron's canister full of one gas, shut, joined to a supply of the same gas; at the temperature of the room, since what is
 * told is what stands at rest. The hose is short: the air in a longer one would be pushed into the bed ahead of the gas. The
 * supply is a stiff one: one of 20 L/min lets the pressure climb as the flow dies, and the tail is 6 % longer. */
static const char *canister_text(char *text, const char *carbon, const char *gas, const char *steps)
{
    snprintf(text, TEXT,
             "ullage: scenario/1\nassume: {heat: isothermal}\n"
             "surroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
             "system:\n  parts:\n"
             "    canister: {type: canister, beds: [{volume: 1.4 L, length: 250 mm, cells: 5, carbon: %s}]}\n"
             "    port: {type: port, of: canister.tank}\n"
             "start: {canister: {gas: %s}}\n"
             "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 2 kPa, flow_limit: 200 L/min,\n"
             "    gas: %s, hose_length: 1 cm}\n"
             "procedure:\n  steps:\n%s",
             carbon, gas, gas, steps);
    return text;
}

/* mol that went in until everything stands, per Pa: a volume by p V = n R T, m3. */
static double apparent_volume(const char *carbon, const char *gas)
{
    char text[TEXT];
    struct text_run ran = text_run(
        canister_text(text, carbon, gas, "    - wait: {for: 2 h}\n    - read: {at: canister.gauge_pressure}\n"));
    double in = 0.0;
    for (int row = 0; row < ullage_model_opening_rows(ran.model); row++) {
        const struct ullage_opening_row here = ullage_run_opening(ran.model, ran.run, row);
        in += here.in - here.out;
    }
    assert_near_share("it stands under the supply's pressure", text_reading(&ran, "at"), RISE, 1e-3);
    const double volume = in * GAS_CONSTANT * ROOM / text_reading(&ran, "at");
    text_close(&ran);
    return volume;
}

static void clean_carbon_hides_volume(void **unused)
{
    (void)unused;

    static const struct {
        const char *gas;
        double litres, share; /* per kg; printed to two digits, and the bend */
    } row[] = {{"air", 4.1, 0.015}, {"nitrogen", 4.1, 0.015}, {"carbon dioxide", 32.0, 0.02}};

    for (size_t k = 0; k < sizeof row / sizeof *row; k++) {
        const double plain = apparent_volume("none", row[k].gas), whole = apparent_volume("stock", row[k].gas);
        const double litres = 1e3 * (whole - plain) / CARBON;
        print_message("%-14s %.3f L by itself, %.2f L with its carbon: %.2f L/kg hidden\n", row[k].gas, 1e3 * plain,
                      1e3 * whole, litres);
        /* 1.4 L of which 0.80 is gas, 0.05 L at either end, less than 1 mL of hose */
        assert_near_share("plain volume", 1e3 * plain, 1.22, 1e-3);
        assert_near_share(row[k].gas, litres, row[k].litres, row[k].share);
    }
}

/* ---- a leak test ------------------------------------------------------------------------------------------------- */

#define UPTAKE 0.03 /* 1/s: the linear driving force of stock carbon */

enum { LOOKS = 3 };

static const double look_at[LOOKS] = {30.0, 60.0, 120.0}; /* s */

/* m3/s, told at 20 degC, into a tight canister that the test gas has swept already. At the usual 1e-6 a step the smallest
 * of these flows would be 3 % off, at 1e-7 less than 0.1 %. */
static void flows_in(const char *gas, double *flow)
{
    char text[TEXT];
    canister_text(text, "stock", gas,
                  "    - wait: {for: 30 s}\n    - read: {a: port.standard_flow}\n"
                  "    - wait: {for: 30 s}\n    - read: {b: port.standard_flow}\n"
                  "    - wait: {for: 60 s}\n    - read: {c: port.standard_flow}\n");
    struct text_run ran = text_run_with(text, &(struct ullage_method){.tolerance = 1e-7});
    const char *const name[LOOKS] = {"a", "b", "c"};
    for (int k = 0; k < LOOKS; k++)
        flow[k] = text_reading(&ran, name[k]);
    text_close(&ran);
}

/* Pressure stands at once, the carbon follows with its own time: what still flows in is V k (dp/p) exp(-k t), V being the
 * hidden volume; at 20 degC it is 293.15/298.15 of that. The pressure takes up to a second to stand, 3 % of k t. */
static double reckoned(double litres, double time)
{
    const double volume = 1e-3 * litres * CARBON;
    return volume * UPTAKE * RISE / ATMOSPHERE * exp(-UPTAKE * time) * 293.15 / ROOM;
}

/* A sharp hole of 0.5 mm passes 0.61 A sqrt(2 dp/rho) of nitrogen under 2 kPa: 0.42 L/min. */
static void carbon_dioxide_flows_falsely(void **unused)
{
    (void)unused;
    const double hole = 0.61 * 0.25 * M_PI * 0.25e-6 * sqrt(2.0 * RISE / 1.165);
    double nitrogen[LOOKS], dioxide[LOOKS];
    flows_in("nitrogen", nitrogen);
    flows_in("carbon dioxide", dioxide);
    for (int k = 0; k < LOOKS; k++) {
        print_message("after %3.0f s: nitrogen %.4f L/min, carbon dioxide %.4f L/min; reckoned %.4f, %.4f\n",
                      look_at[k], 6e4 * nitrogen[k], 6e4 * dioxide[k], 6e4 * reckoned(4.1, look_at[k]),
                      6e4 * reckoned(32.0, look_at[k]));
        assert_near_share("nitrogen", nitrogen[k], reckoned(4.1, look_at[k]), 0.05);
        assert_near_share("carbon dioxide", dioxide[k], reckoned(32.0, look_at[k]), 0.05);
        assert_near_share("one over the other", dioxide[k] / nitrogen[k], 32.0 / 4.1, 0.05);
    }
    /* to come down to a tenth of that hole's flow: ln(V k dp/p / flow)/k each */
    print_message(
        "a tenth of a 0.5 mm hole's %.2f L/min is left after %.0f s with nitrogen, %.0f s with carbon dioxide\n",
        6e4 * hole, log(reckoned(4.1, 0.0) / (0.1 * hole)) / UPTAKE, log(reckoned(32.0, 0.0) / (0.1 * hole)) / UPTAKE);
    assert_true(dioxide[0] > 0.3 * hole && nitrogen[0] < 0.1 * hole);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(clean_carbon_hides_volume),
                                       cmocka_unit_test(carbon_dioxide_flows_falsely)};
    return cmocka_run_group_tests_name("outside/hidden_volume", tests, NULL, NULL) != 0;
}
