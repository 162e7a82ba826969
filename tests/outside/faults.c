/* tests/outside/faults.c  Which way a reading goes when something is wrong, for each fault of the shipped rig: common practice, no
 * source. Each runs at the size that is met with beside the sound rig; a ten-thousandth of that size does next to nothing. So do
 * those of liquid that come while it runs, by the file and by hand. */
#include "support/near.h"
#include "support/run_text.h"

#include <stdio.h>
#include <string.h>

enum { TEXT = 4000 };

#define RIG "ullage: scenario/1\nname: faulty\nsystem: scenarios/systems/heron\n"

/* Gas into the service port of a dry rig, vent shut: what the shop does. */
static const char shop[] =
    RIG "equipment:\n"
        "  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 15 L/min, gas: nitrogen}\n"
        "  meter: {type: meter, of: supply, time_constant: 1 s, scale_least: 0.1 mm}\n"
        "change: {cap.opening_pressure: 2.5 kPa}\n"
        "procedure:\n"
        "  steps:\n"
        "    - set: {vent-valve: shut}\n"
        "    - join: {supply: service-port}\n"
        "    - wait: {for: 1 s}\n"
        "    - read: {flow_early: meter.standard_flow, vent_early: vent-valve.open}\n"
        "    - wait: {for: 3 s}\n"
        "    - read: {rising: tank.gauge_pressure}\n"
        "    - wait: {for: 31 s}\n"
        "    - read: {pressure: tank.gauge_pressure, shown: tank-sensor.gauge_pressure, flow: meter.standard_flow}\n";

/* The engine draws on a dry rig through its purge valve; the vent valve is driven most of the way shut. */
static const char purge[] = RIG "procedure:\n"
                                "  steps:\n"
                                "    - set: {engine: idle}\n"
                                "    - wait: {for: 2 s}\n"
                                "    - set: {purge-valve: 60 %, vent-valve: 30 %}\n"
                                "    - wait: {for: 500 ms}\n"
                                "    - read: {drawn_early: engine.purge_flow, vacuum_early: canister.gauge_pressure}\n"
                                "    - wait: {for: 20 s}\n"
                                "    - read: {drawn: engine.purge_flow, vacuum: canister.gauge_pressure}\n";

/* Butane through a little carbon to the open vent. */
static const char load[] =
    RIG "equipment:\n"
        "  supply: {type: supply, gauge_pressure: 3 kPa, flow_limit: 1 L/min, gas: n-butane}\n"
        "change: {canister.beds.1.carbon: stock, canister.beds.1.volume: 60 mL, canister.beds.1.length: 60 mm,\n"
        "         canister.beds.1.cells: 8}\n"
        "procedure:\n"
        "  steps:\n"
        "    - join: {supply: service-port}\n"
        "    - wait: {for: 60 s}\n"
        "    - read: {held: canister.load, past: vent-line.fuel_vapor, drop: canister.drop}\n";

/* Gas over fuel, through the line that may hold liquid. */
static const char damp[] = RIG "fill: {level: 30 %, rvp: 9 psi, fuel: quick}\n"
                               "equipment:\n"
                               "  supply: {type: supply, gauge_pressure: 1 kPa, flow_limit: 2 L/min, gas: nitrogen}\n"
                               "procedure:\n"
                               "  steps:\n"
                               "    - set: {vent-valve: shut}\n"
                               "    - join: {supply: service-port}\n"
                               "    - wait: {for: 5 s}\n"
                               "    - read: {lost: canister.gauge_pressure - tank.gauge_pressure}\n";

/* Fuel runs into a cold tank. */
static const char fill[] =
    RIG "fill: {level: 30 %, rvp: 9 psi, fuel: quick}\n"
        "surroundings: {temperature: 20 degC}\n"
        "equipment:\n"
        "  nozzle: {type: nozzle, into: tank.neck, temperature: 30 degC, spout: 265 mm}\n"
        "change: {canister.beds.1.carbon: stock}\n"
        "procedure:\n"
        "  steps:\n"
        "    - set: {nozzle: filling}\n"
        "    - wait: {for: 6 s}\n"
        "    - read: {pressure: tank.gauge_pressure, level: tank.level, level_shown: level-sensor.level,\n"
        "             warmth_shown: fuel-sensor.temperature, vapor_pressure: tank.fuel_vapor_pressure,\n"
        "             held: canister.load}\n";

/* The last of a fill, up to where its valve ends it. */
static const char last[] =
    RIG "fill: {level: 91 %, rvp: 9 psi, fuel: quick}\n"
        "surroundings: {temperature: 20 degC}\n"
        "equipment:\n"
        "  nozzle: {type: nozzle, into: tank.neck, spout: 400 mm}\n"
        "change: {canister.beds.1.carbon: stock, canister.sump: 0.3 L, vapor-line.bore: 16 mm, vapor-line.low_spot: 15 mL,\n"
        "         vent-line.bore: 20 mm, vent-valve.bore: 18 mm}\n"
        "procedure:\n"
        "  steps:\n"
        "    - set: {nozzle: filling}\n"
        "    - wait: {until: nozzle.shut_off > 0.5, at_most: 1 min}\n"
        "    - read: {filled: tank.level}\n"
        "    - set: {nozzle: off}\n"
        "    - wait: {for: 20 s}\n"
        "    - read: {past: vapor-line.liquid + canister.liquid}\n";

/* A full tank that warms, and one that is filled to the brim under some pressure; the float at its top down, and up. */
#define FULL(level, pressure)                                                                                          \
    RIG "fill: {level: " level ", rvp: 9 psi, fuel: quick}\n"                                                          \
        "start: {tank: {gauge_pressure: " pressure "}}\n"                                                              \
        "change: {vapor-line.low_spot: 15 mL}\n"                                                                       \
        "procedure:\n"                                                                                                 \
        "  steps:\n"                                                                                                   \
        "    - set: {tank.returned: 300 W}\n"                                                                          \
        "    - wait: {for: 30 s}\n"                                                                                    \
        "    - read: {pressure: tank.gauge_pressure, past: vapor-line.liquid}\n"

static const char full[] = FULL("96 %", "0 Pa");
static const char brimful[] = FULL("98 %", "1 kPa");

/* sign: +1 the reading rises, -1 falls, 0 differs. */
struct row {
    const char *fault, *where, *size;
    double usual;
    const char *unit, *scenario, *reading;
    int sign;
};

static const struct row rows[] = {
    {"leak", "tank", "diameter", 0.5, "mm", shop, "flow", +1},
    {"seal-leak", "tank.sender", "diameter", 0.5, "mm", shop, "flow", +1},
    {"seal-leak", "tank.neck", "diameter", 0.5, "mm", shop, "flow", +1},
    {"roll-over-cracked", "tank", "gap", 0.03, "mm", shop, "flow", +1},
    {"seam-leak", "tank", "diameter", 0.4, "mm", shop, "flow", +1},
    {"overfilled", "tank", "volume", 5.0, "L", fill, "level", +1},
    {"wrong-blend", "tank", "pressure", 20.0, "kPa", fill, "vapor_pressure", +1},
    {"old-fuel", "tank", "pressure", 20.0, "kPa", fill, "vapor_pressure", -1},
    {"port-cracked", "canister.tank", "diameter", 1.0, "mm", shop, "flow", +1},
    {"body-cracked", "canister", "diameter", 3.0, "mm", shop, "pressure", -1},
    {"aged", "canister", "share", 0.5, "", load, "held", -1},
    {"dusted", "canister", "share", 0.3, "", load, "drop", +1},
    {"channelled", "canister", "share", 0.2, "", load, "past", +1},
    {"wet", "canister", "share", 0.2, "", fill, "held", +1},
    {"chafed", "vapor-line", "diameter", 0.8, "mm", shop, "flow", +1},
    {"chafed", "purge-line", "diameter", 0.8, "mm", shop, "flow", +1},
    {"chafed", "vent-line", "diameter", 0.8, "mm", shop, "flow", +1},
    {"connector-not-home", "purge-line.to", "diameter", 5.0, "mm", shop, "pressure", -1},
    {"connector-not-home", "vapor-line.from", "diameter", 5.0, "mm", shop, "pressure", -1},
    {"neck-rusted", "neck", "passes", 0.3, "L/min", shop, "flow", +1},
    {"pinched", "vapor-line", "share", 0.95, "", shop, "rising", -1},
    {"pinched", "purge-line", "share", 0.95, "", purge, "drawn", -1},
    {"liquid-in-low-spot", "vapor-line", "volume", 8.0, "mL", damp, "lost", +1},
    {"nested-shut", "vent-line", "share", 1.0, "", purge, "vacuum", -1},
    {"filter-dusty", "vent-line", "pressure", 2.0, "kPa", purge, "vacuum", -1},
    {"stuck-open", "vent-valve", "share", 1.0, "", shop, "pressure", -1},
    {"stuck-shut", "vent-valve", "share", 1.0, "", purge, "vacuum", -1},
    {"restricted", "vent-valve", "share", 0.6, "", purge, "vacuum", -1},
    {"slow", "vent-valve", "delay", 3.0, "s", shop, "vent_early", +1},
    {"seat-leak", "vent-valve", "diameter", 0.6, "mm", shop, "flow", +1},
    {"coil-open", "vent-valve", "share", 1.0, "", shop, "pressure", -1},
    {"coil-shorted", "vent-valve", "share", 1.0, "", purge, "vacuum", -1},
    {"low-voltage", "vent-valve", "share", 0.25, "", purge, "vacuum", +1},
    {"stuck-open", "purge-valve", "share", 1.0, "", purge, "drawn", +1},
    {"stuck-open", "purge-valve", "share", 1.0, "", shop, "pressure", -1},
    {"stuck-shut", "purge-valve", "share", 1.0, "", purge, "drawn", -1},
    {"restricted", "purge-valve", "share", 0.6, "", purge, "drawn", -1},
    {"slow", "purge-valve", "delay", 3.0, "s", purge, "drawn_early", -1},
    {"seat-leak", "purge-valve", "diameter", 0.6, "mm", shop, "flow", +1},
    {"coil-open", "purge-valve", "share", 1.0, "", purge, "drawn", -1},
    {"coil-shorted", "purge-valve", "share", 1.0, "", shop, "pressure", -1},
    {"low-voltage", "purge-valve", "share", 0.25, "", purge, "drawn", -1},
    {"core-leak", "service-port", "diameter", 0.5, "mm", shop, "flow", +1},
    {"cap-off", "cap", "share", 1.0, "", shop, "pressure", -1},
    {"cap-loose", "cap", "diameter", 1.5, "mm", shop, "flow", +1},
    {"cap-seal-cut", "cap", "diameter", 0.5, "mm", shop, "flow", +1},
    {"cap-relief-stuck", "cap", "pressure", 5.0, "kPa", shop, "pressure", +1},
    {"cap-relief-weak", "cap", "share", 0.9, "", shop, "pressure", -1},
    {"stuck-shut", "fill-limit", "share", 1.0, "", shop, "rising", -1},
    {"stuck-shut", "fill-limit", "share", 1.0, "", fill, "pressure", +1},
    {"stuck-open", "fill-limit", "share", 1.0, "", last, "filled", +1},
    {"stuck-open", "fill-limit", "share", 1.0, "", last, "past", +1},
    {"seat-leak", "fill-limit", "diameter", 0.6, "mm", brimful, "past", +1},
    {"stuck-shut", "roll-over", "share", 1.0, "", full, "pressure", +1},
    {"stuck-open", "roll-over", "share", 1.0, "", brimful, "past", +1},
    {"seat-leak", "roll-over", "diameter", 0.6, "mm", brimful, "past", +1},
    {"seal-leak", "tank-sensor", "diameter", 0.3, "mm", shop, "flow", +1},
    {"offset", "tank-sensor", "offset", 250.0, "Pa", shop, "shown", +1},
    {"gain-off", "tank-sensor", "gain", -0.3, "", shop, "shown", -1},
    {"drift", "tank-sensor", "rate", 50.0 / 60.0, "Pa/s", shop, "shown", +1},
    {"stuck", "tank-sensor", "share", 1.0, "", shop, "shown", -1},
    {"slow", "tank-sensor", "delay", 10.0, "s", shop, "shown", -1},
    {"noisy", "tank-sensor", "noise", 100.0, "Pa", shop, "shown", 0},
    {"open-circuit", "tank-sensor", "share", 1.0, "", shop, "shown", +1},
    {"short-circuit", "tank-sensor", "share", 1.0, "", shop, "shown", -1},
    {"offset", "level-sensor", "offset", 20.0, "%", fill, "level_shown", +1},
    {"gain-off", "level-sensor", "gain", -0.3, "", fill, "level_shown", -1},
    {"drift", "level-sensor", "rate", 0.01, "1/s", fill, "level_shown", +1},
    {"stuck", "level-sensor", "share", 1.0, "", fill, "level_shown", -1},
    {"slow", "level-sensor", "delay", 10.0, "s", fill, "level_shown", -1},
    {"noisy", "level-sensor", "noise", 5.0, "%", fill, "level_shown", 0},
    {"open-circuit", "level-sensor", "share", 1.0, "", fill, "level_shown", +1},
    {"short-circuit", "level-sensor", "share", 1.0, "", fill, "level_shown", -1},
    {"offset", "fuel-sensor", "offset", 10.0, "K", fill, "warmth_shown", +1},
    {"gain-off", "fuel-sensor", "gain", -0.3, "", fill, "warmth_shown", -1},
    {"drift", "fuel-sensor", "rate", 0.1, "K/s", fill, "warmth_shown", +1},
    {"stuck", "fuel-sensor", "share", 1.0, "", fill, "warmth_shown", -1},
    {"slow", "fuel-sensor", "delay", 10.0, "s", fill, "warmth_shown", -1},
    {"noisy", "fuel-sensor", "noise", 1.0, "K", fill, "warmth_shown", 0},
    {"open-circuit", "fuel-sensor", "share", 1.0, "", fill, "warmth_shown", +1},
    {"short-circuit", "fuel-sensor", "share", 1.0, "", fill, "warmth_shown", -1},
    {"hose-leak", "supply", "diameter", 0.4, "mm", shop, "flow", +1},
    {"pressure-low", "supply", "share", 0.3, "", shop, "pressure", -1},
    {"off-zero", "meter", "offset", 0.1, "L/min", shop, "flow", +1},
    {"gain-off", "meter", "gain", -0.3, "", shop, "flow_early", -1},
    {"stuck", "meter", "share", 1.0, "", shop, "flow_early", -1},
    {"slow", "meter", "delay", 10.0, "s", shop, "flow_early", -1},
    {"noisy", "meter", "noise", 0.05, "L/min", shop, "flow", 0},
};

enum { ROWS = sizeof rows / sizeof rows[0] };

#define SMALL 1e-4           /* of the usual size */
#define NEXT_TO_NOTHING 0.02 /* of what the usual size does: two hundred times what one in step with it does */
#define SOLVED 1e-5          /* of a reading: what two runs at 1e-6 may differ by that should not */

/* How it comes: from the start; when a second has passed, over two more; by hand then, over as long as is usual, or over two. */
enum way { STANDS, COMES, BY_HAND, BY_HAND_SOON, WAYS };

static double reading_with(const struct row *row, double size, enum way way)
{
    static const char *const course[] = {"", ", from: 1 s, ramp: 2 s"}, *const soon[] = {"", " ramp=2s"};
    char text[TEXT];
    if (way >= BY_HAND)
        snprintf(text, sizeof text, "%sby_hand: [{at: 1 s, set: {\"%s %s\": %.9g %s%s}}]\n", row->scenario, row->fault,
                 row->where, size, row->unit, soon[way - BY_HAND]);
    else
        snprintf(text, sizeof text, "%sfaults: [{id: f, fault: %s, where: %s, %s: %.9g %s%s}]\n", row->scenario,
                 row->fault, row->where, row->size, size, row->unit, course[way]);
    return text_read(text, row->reading);
}

/* Of the sound rig: each scenario is run once. */
static double reading_sound(const struct row *row)
{
    static const char *const scenario[] = {shop, purge, load, fill, damp, last, full, brimful};
    enum { SCENARIOS = sizeof scenario / sizeof scenario[0] };
    static struct text_run ran[SCENARIOS];
    for (int k = 0; k < SCENARIOS; k++)
        if (scenario[k] == row->scenario) {
            if (!ran[k].run)
                ran[k] = text_run(scenario[k]);
            return text_reading(&ran[k], row->reading);
        }
    return NAN;
}

static bool row_holds(const struct row *row, double sound, enum way way)
{
    const double faulty = reading_with(row, row->usual, way);
    const double effect = faulty - sound, small = reading_with(row, SMALL * row->usual, way) - sound;
    const bool right = row->sign == 0 ? fabs(effect) > 0.0 : row->sign * effect > 0.0;
    const bool shows = right && fabs(effect) > 10.0 * SOLVED * fabs(sound);
    const bool fades = fabs(small) <= NEXT_TO_NOTHING * fabs(effect) + SOLVED * fabs(sound);
    if (!shows)
        print_message("%s %s: %s is %.9g, sound %.9g\n", row->fault, row->where, row->reading, faulty, sound);
    if (!fades)
        print_message("a ten-thousandth of %s %s: %s is off by %.9g, the whole by %.9g\n", row->fault, row->where,
                      row->reading, small, effect);
    return shows && fades;
}

static void each_fault_shows(void **unused)
{
    (void)unused;
    int wrong = 0;
    for (int k = 0; k < ROWS; k++)
        wrong += !row_holds(&rows[k], reading_sound(&rows[k]), STANDS);
    assert_int_equal(wrong, 0);
}

/* The same with fuel of several components: one of a single substance cannot become another while a run goes on. */
static const char *of_several(const char *scenario, char text[TEXT])
{
    static const char quick[] = ", fuel: quick";
    const char *at = strstr(scenario, quick);
    snprintf(text, TEXT, "%.*s%s", (int)(at - scenario), scenario, at + sizeof quick - 1);
    return text;
}

static void liquid_comes_at_any_moment(void **unused)
{
    (void)unused;
    int wrong = 0, tried = 0;
    for (int k = 0; k < ROWS; k++) {
        static const char *const poured[] = {"overfilled", "wrong-blend", "old-fuel", "wet", "liquid-in-low-spot"};
        bool is_poured = false;
        for (int i = 0; i < 5; i++)
            is_poured = is_poured || !strcmp(rows[k].fault, poured[i]);
        if (!is_poured)
            continue;
        char text[TEXT];
        struct row row = rows[k];
        row.scenario = of_several(row.scenario, text);
        for (enum way way = COMES; way < WAYS; way++, tried++) {
            const double sound = reading_with(&row, 0.0, way);
            wrong += !row_holds(&row, sound, way);
        }
    }
    assert_int_equal(tried, 5 * (WAYS - COMES));
    assert_int_equal(wrong, 0);
}

/* A tank shut tight, of constant volume and temperature, over a liquid that hardly evaporates (n-decane, 170 Pa at 25 degC, from
 * memory): by Boyle p V = constant of the air over it, of 27 L in 45 L and of 22 L once 5 L more of liquid are in. */
static void boyle_holds_over_what_is_poured(void **unused)
{
    (void)unused;
    static const char text[] =
        "ullage: scenario/1\nname: boyle\nassume: {heat: isothermal, shell: rigid}\nend: 5 min\n"
        "surroundings: {temperature: 0 degC, pressure: 100 kPa}\n"
        "fill: {level: 40 %, temperature: 0 degC, components: {n-decane: 100 %}}\n"
        "system:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm}\n"
        "faults: [{id: f, fault: overfilled, where: tank, volume: 5 L, from: 1 min, until: 3 min}]\n"
        "procedure:\n  steps:\n"
        "    - wait: {for: 2 min}\n    - read: {in: tank.gauge_pressure}\n"
        "    - wait: {for: 2 min}\n    - read: {out: tank.gauge_pressure}\n";
    const double vapor = 170.0; /* more than it has at 0 degC */
    struct text_run ran = text_run(text);
    assert_near("shut in", text_reading(&ran, "in"), 100e3 * (27.0 / 22.0 - 1.0), vapor * (27.0 / 22.0 - 1.0));
    assert_near("and out", text_reading(&ran, "out"), 0.0, vapor);
    for (int row = 0; row < ullage_model_ledger_rows(ran.model); row++) {
        const struct ullage_ledger_row told = ullage_run_ledger(ran.model, ran.run, row);
        assert_near(told.name, told.residual, 0.0, 1e-12 * told.scale);
    }
    text_close(&ran);
}

/* One put in at a moment comes to the vapor pressure of one that was there from the start. */
static void both_come_to_one_fuel(void **unused)
{
    (void)unused;
    static const char text[] = "ullage: scenario/1\nname: one\nend: 10 min\nassume: {heat: isothermal}\n"
                               "fill: {level: 95 %%, rvp: 9 psi}\n"
                               "system:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                               "procedure:\n  steps:\n    - wait: {for: 5 min}\n    - read: {rvp: tank.rvp}\n"
                               "faults: [{id: f, fault: %s, where: tank, pressure: 20 kPa%s}]\n";
    static const char *const fault[] = {"wrong-blend", "old-fuel"};
    for (int k = 0; k < 2; k++) {
        char stands[TEXT], comes[TEXT];
        snprintf(stands, sizeof stands, text, fault[k], "");
        snprintf(comes, sizeof comes, text, fault[k], ", from: 1 min, ramp: 1 min");
        /* 2 L of gas take up some 4 g of 30 kg more or less while it is changed, of which the vapor pressure is in step */
        assert_near_share(fault[k], text_read(comes, "rvp"), text_read(stands, "rvp"), 1e-3);
    }
}

/* Every fault that the rig's kinds of part can have stands in the table, but for plain holes other than one. */
static void none_is_left_out(void **unused)
{
    (void)unused;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_model *model = text_model(fill);
    for (int f = 0; f < ullage_model_faults(model); f++) {
        const struct ullage_model_fault fault = ullage_model_fault(model, f);
        bool found = false;
        for (int k = 0; k < ROWS; k++)
            found = found || strcmp(rows[k].fault, fault.fault.name) == 0;
        if (!found)
            fail_msg("%s is in no row", fault.what);
    }
    ullage_model_free(model);
    ullage_problems_free(problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_fault_shows),
        cmocka_unit_test(liquid_comes_at_any_moment),
        cmocka_unit_test(boyle_holds_over_what_is_poured),
        cmocka_unit_test(both_come_to_one_fuel),
        cmocka_unit_test(none_is_left_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
