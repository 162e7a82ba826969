/* tests/unit/element/canister.c  What a bed suffers, each by what it does: wet, channelled, dusted, aged. And that none of
 * them does anything at its smallest size. */
#include "law/passages.h"
#include "property/carbon.h"
#include "support/fuels.h"
#include "support/run_text.h"

#include <gsl/gsl_errno.h>

#define BUTANE_MASS 58.1222e-3 /* kg/mol, IUPAC atomic weights */

enum { TEXT = 2048 };

/* A bed of 0.5 L under shop gas that enters on the tank's side. */
static const char *bed_text(char *text, const char *bed, const char *gas, double flow, const char *steps)
{
    snprintf(text, TEXT,
             "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
             "fill: {level: 50 %%, temperature: 25 degC, components: {n-butane: 20 %%, n-hexane: 80 %%}}\n"
             "system:\n  parts:\n    tank: {type: tank, volume: 1 L}\n"
             "    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 10%s}]}\n"
             "    out: {type: valve, from: canister.air, to: air, bore: 20 mm}\n"
             "    port: {type: port, of: canister.tank, bore: 20 mm}\n"
             "equipment:\n  supply: {type: supply, join: port, gauge_pressure: 3 kPa, flow_limit: %g L/min, gas: %s}\n"
             "procedure:\n  steps:\n%s",
             bed, flow, gas, steps);
    return text;
}

static double bed_reading(const char *bed, const char *gas, double flow, const char *steps, const char *reading)
{
    char text[TEXT];
    return text_read(bed_text(text, bed, gas, flow, steps), reading);
}

/* ---- resistance -------------------------------------------------------------------------------------------------- */

static const char settles[] = "    - wait: {for: 60 s}\n    - read: {drop: canister.drop, flow: canister.flow}\n";

/* Pa through a bed without carbon, so that nothing but its resistance is there; kg/s through the canister. */
static double drop_of(const char *fault)
{
    char bed[200];
    snprintf(bed, sizeof bed, ", carbon: none%s", fault);
    return bed_reading(bed, "air", 2.0, settles, "drop");
}

/* The same with a fuel that hardly evaporates, 0.2 kPa, so that as much gas comes out as goes in and the bed stays wet. */
static double decane_drop(const char *fault)
{
    static const char was[] = "n-butane: 20 %, n-hexane: 80 %", is[] = "n-decane: 100 %               ";
    char bed[200], text[TEXT];
    snprintf(bed, sizeof bed, ", carbon: none%s", fault);
    bed_text(text, bed, "air", 2.0, settles);
    memcpy(strstr(text, was), is, sizeof is - 1);
    return text_read(text, "drop");
}

/* Ergun's viscous term goes with (1 - e)^2/(e^3 D^2); the other is some hundredth of it at 2 L/min here (Re = 0.5), and
 * answers less to both: 3 %. */
#define VISCOUS 0.03

static double viscous(double voids, double grain)
{
    return (1.0 - voids) * (1.0 - voids) / (voids * voids * voids * grain * grain);
}

static void dust_and_liquid_take_pressure(void **unused)
{
    (void)unused;
    const double clean = drop_of(""), plain = viscous(0.40, 2e-3);
    assert_true(clean > 0.0);
    assert_near_share("30 % wet", decane_drop(", wet: 30 %") / clean, viscous(0.28, 2e-3) / plain, VISCOUS);
    /* a tenth of the voids, 0.04 of the bed, full of fines of 0.2 mm between 0.60 of grains of 2 mm */
    const double finer = 0.64 / (0.60 / 2e-3 + 0.04 / 2e-4);
    assert_near_share("10 % dusted", drop_of(", dusted: 10 %") / clean, viscous(0.36, finer) / plain, VISCOUS);
    assert_true(drop_of(", wet: 50 %") > 10.0 * clean && drop_of(", dusted: 20 %") > 5.0 * clean);
}

/* Both ways follow one law under one difference, so that each takes its share of the flow: the rest of it, (1 - c), is what
 * the bed's own resistance sees. */
static void a_channel_takes_its_share_of_the_flow(void **unused)
{
    (void)unused;
    assert_near_share("30 % channelled", drop_of(", channelled: 30 %"), 0.7 * drop_of(""), VISCOUS);
    const double flow = bed_reading(", carbon: none, channelled: 30 %", "air", 2.0, settles, "flow");
    const double sent = bed_reading(", carbon: none", "air", 2.0, settles, "flow");
    assert_near_share("all the flow is shown", flow, sent, 1e-3); /* pressures settle to a thousandth */
}

/* ---- breakthrough ------------------------------------------------------------------------------------------------ */

/* kg of butane out of the vent, 1.3 L/min of it (some 190 g/h) having come in for so many minutes. */
static double butane_past(const char *fault, int minutes)
{
    char text[TEXT], steps[100];
    snprintf(steps, sizeof steps, "    - wait: {for: %d min}\n", minutes);
    struct text_run ran = text_run(bed_text(text, fault, "n-butane", 1.3, steps));
    double out = 0.0;
    for (int k = 0; k < ullage_model_opening_rows(ran.model); k++) {
        const struct ullage_opening_row row = ullage_run_opening(ran.model, ran.run, k);
        if (!strcmp(row.species, "n-butane") && !strcmp(row.part, "out"))
            out += (row.out - row.in) * BUTANE_MASS;
    }
    text_close(&ran);
    return out;
}

/* A clean bed of 150 g of carbon holds some 50 g: after 10 min 31 g are in and next to nothing is past it. A channel lets
 * its share by at once, less what is caught again on the way to the outlet: nothing. */
static void a_channel_breaks_through_at_once(void **unused)
{
    (void)unused;
    const double clean = butane_past("", 10), tenth = butane_past(", channelled: 10 %", 10),
                 third = butane_past(", channelled: 30 %", 10);
    print_message("past the bed after 10 min: clean %.3g g, 10 %% channelled %.3g g, 30 %% %.3g g\n", 1e3 * clean,
                  1e3 * tenth, 1e3 * third);
    assert_true(clean < 1e-3);
    assert_true(tenth > 1e-3 && third > 2.0 * tenth);
}

static void an_aged_bed_is_full_sooner(void **unused)
{
    (void)unused;
    const double clean = butane_past("", 12), half = butane_past(", aged: 50 %", 12);
    print_message("past the bed after 12 min: clean %.3g g, half aged %.3g g\n", 1e3 * clean, 1e3 * half);
    assert_true(half > clean + 5e-3);
}

/* ---- what it holds ----------------------------------------------------------------------------------------------- */

static double held_at_first(const char *fault)
{
    char text[TEXT];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
             "system:\n  parts:\n    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 1%s}]}\n"
             "start: {canister: {temperature: 25 degC, gas: {n-butane: 50 %%, nitrogen: 50 %%}}}\n"
             "procedure:\n  steps:\n    - read: {full: canister.load}\n",
             fault);
    return text_read(text, "full");
}

static void age_takes_capacity(void **unused)
{
    (void)unused;
    const double fresh = held_at_first("");
    assert_near_share("40 % aged", held_at_first(", aged: 40 %"), 0.6 * fresh, 1e-12);
    /* strongest sites: 1.346 mol/kg of 0.15 kg, b = 1.540 1/kPa, at 50.66 kPa beside nitrogen of 6.444e-4 1/kPa */
    const double x = 1.540 * 50.6625, strongest = 1.346 * 0.15 * x / (1.0 + x + 6.444e-4 * 50.6625);
    assert_near_share("all lost", held_at_first(", lost: 100 %"), fresh - strongest * BUTANE_MASS, 1e-9);
}

/* mol/kg of one fuel on stock carbon over butane and hexane at 25 degC, air beside them to one atmosphere. */
static void over_the_liquid(double *held)
{
    const struct liquid liquid = fuel_pair("n-butane", "n-hexane");
    struct blend blend = {2, {component_find("n-butane"), component_find("n-hexane")}, {0.2, 0.8}};
    double amount[2], pressure[3];
    blend_amounts(&blend, 1.0, amount);
    liquid_pressure_values(&liquid, amount, 298.15, &pressure[1]);
    pressure[0] = 101325.0 - pressure[1] - pressure[2];
    const struct adsorbate *table = adsorbate_table(NULL);
    const struct adsorbate *list[] = {&table[adsorbate_find("air")], &table[adsorbate_find("n-butane")],
                                      &table[adsorbate_find("n-hexane")]};
    const struct sorbent sorbent =
        sorbent_create(&carbon_table(NULL)[carbon_find("stock")], (struct carbon_grade){1.0, 1.0, 0.0}, 3, list);
    carbon_loading_value(&sorbent, pressure, 298.15, held);
}

/* As much as the liquid goes round for: in grains that hold what stands over it, and between them what is left. */
static void wet_carbon_begins_full_by_its_share(void **unused)
{
    (void)unused;
    double held[3];
    over_the_liquid(held);
    const double carbon = 0.5e-3 * 300.0, full = carbon * (held[1] * BUTANE_MASS + held[2] * 86.1754e-3); /* kg */
    const double needs = carbon * (held[1] * component_volume(component_find("n-butane"), 298.15).value +
                                   held[2] * component_volume(component_find("n-hexane"), 298.15).value);
    const double room = 0.5e-3 * carbon_table(NULL)[carbon_find("stock")].gas_share; /* m3 */

    static const struct {
        const char *bed;
        double share;
    } row[] = {{"", 0.0}, {", wet: 1 %", 0.01}, {", wet: 5 %", 0.05}, {", wet: 30 %", 0.3}, {", wet: 90 %", 0.9}};

    for (size_t k = 0; k < sizeof row / sizeof *row; k++)
        assert_near(row[k].bed, bed_reading(row[k].bed, "air", 1.0, "    - read: {load: canister.load}\n", "load"),
                    fmin(row[k].share * room / needs, 1.0) * full, 1e-9 * full);
    assert_true(0.05 * room < needs && needs < 0.4 * room);
    const double left = bed_reading(", wet: 50 %", "air", 1.0, "    - read: {left: canister.liquid}\n", "left");
    assert_near("left", left, 0.5 * room - needs, 1e-9 * room);
}

/* It is at rest with its gas: nothing stirs before something is done. Then it gives vapor to what sweeps it. */
static void a_wet_bed_is_at_rest_and_gives_vapor(void **unused)
{
    (void)unused;
    char text[TEXT];
    const double pressure =
        text_read("ullage: scenario/1\nsurroundings: {pressure: 101325 Pa, temperature: 25 degC}\n"
                  "fill: {level: 50 %, temperature: 25 degC, components: {n-butane: 20 %, n-hexane: 80 %}}\n"
                  "system:\n  parts:\n    tank: {type: tank, volume: 1 L}\n"
                  "    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm, cells: 3, wet: 30 %}],\n"
                  "      end_space: 0.1 mL}\n"
                  "procedure:\n  steps:\n    - wait: {for: 10 min}\n    - read: {pressure: canister.gauge_pressure}\n",
                  "pressure");
    /* the end spaces hold no vapor yet: 0.2 mL beside the 300 mL between the grains, at 40 kPa */
    assert_near("Pa that appear by themselves", pressure, 0.0, 30.0);
    struct text_run ran = text_run(bed_text(text, ", wet: 30 %", "air", 5.0,
                                            "    - read: {before: canister.load}\n    - wait: {for: 20 min}\n"
                                            "    - read: {after: canister.load}\n"));
    const double before = text_reading(&ran, "before"), after = text_reading(&ran, "after");
    print_message("%.3g g before, %.3g g after 200 volumes of air\n", 1e3 * before, 1e3 * after);
    assert_true(after < before - 1e-3);
    text_close(&ran);
}

/* ---- the smallest size ------------------------------------------------------------------------------------------- */

static void nothing_at_their_smallest(void **unused)
{
    (void)unused;
    static const char *const fault[] = {"wet", "channelled", "dusted", "aged"};
    const char *steps = "    - wait: {for: 10 min}\n    - read: {load: canister.load, drop: canister.drop}\n";
    char text[TEXT], bed[80];
    struct text_run clean = text_run(bed_text(text, "", "n-butane", 1.3, steps));
    for (size_t k = 0; k < sizeof fault / sizeof *fault; k++) {
        snprintf(bed, sizeof bed, ", %s: 1e-9", fault[k]);
        struct text_run ran = text_run(bed_text(text, bed, "n-butane", 1.3, steps));
        /* a run is right to 1e-6 of each scale, which over its length adds up to some 1e-4 */
        assert_near_share(fault[k], text_reading(&ran, "load"), text_reading(&clean, "load"), 1e-4);
        assert_near_share(fault[k], text_reading(&ran, "drop"), text_reading(&clean, "drop"), 1e-3);
        text_close(&ran);
    }
    text_close(&clean);
}

/* ---- what is refused --------------------------------------------------------------------------------------------- */

static void refused(const char *bed, bool fuel, const char *wanted)
{
    char text[TEXT];
    snprintf(text, sizeof text,
             "ullage: scenario/1\nend: 1 h\n%ssystem:\n  parts:\n    tank: {type: tank, volume: 10 L}\n"
             "    canister: {type: canister, beds: [{volume: 0.5 L, length: 150 mm%s}]}\n",
             fuel ? "fill: {level: 50 %, rvp: 9 psi}\n" : "", bed);
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    if (wanted) {
        assert_null(model);
        assert_int_equal(ullage_problems_count(problems), 1);
        const struct ullage_problem problem = ullage_problems_at(problems, 0);
        if (!strstr(problem.wrong, wanted) || problem.place.line <= 0)
            fail_msg("line %d: %s", problem.place.line, problem.wrong);
    } else {
        assert_non_null(model);
    }
    ullage_model_free(model);
    ullage_description_free(description);
    ullage_problems_free(problems);
}

static void bad_beds_are_refused(void **unused)
{
    (void)unused;
    refused(", wet: 90 %, channelled: 90 %, dusted: 60 %, aged: 90 %", true, NULL);
    refused(", wet: 91 %", true, "wet");
    refused(", channelled: -1 %", true, "channelled");
    refused(", channelled: 100 %", true, "channelled");
    refused(", dusted: 61 %", true, "dusted");
    refused(", aged: 100 %", true, "aged");
    refused(", wet: 10 mm", true, "length");
    refused(", wet: 10 %", false, "no fuel");
    refused(", carbon: none, wet: 10 %", false, NULL);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dust_and_liquid_take_pressure),
        cmocka_unit_test(a_channel_takes_its_share_of_the_flow),
        cmocka_unit_test(a_channel_breaks_through_at_once),
        cmocka_unit_test(an_aged_bed_is_full_sooner),
        cmocka_unit_test(age_takes_capacity),
        cmocka_unit_test(wet_carbon_begins_full_by_its_share),
        cmocka_unit_test(a_wet_bed_is_at_rest_and_gives_vapor),
        cmocka_unit_test(nothing_at_their_smallest),
        cmocka_unit_test(bad_beds_are_refused),
    };
    return cmocka_run_group_tests_name("unit/element/canister", tests, NULL, NULL) != 0;
}
