/* tests/outside/conditioning.c  Loading and purging of the stock carbon against what is published of canister carbons.
 *
 * [ASTMD5228] conditions from memory, in no source at hand: water bath of 25 degC, about 16.7 mL of carbon, n-butane
 * 250 mL/min for 15 min, dry air 300 mL/min for 40 min (some 720 bed volumes). 250 mL/min are 36 g/h; of 9.06 g fed the carbon
 * keeps less than 1.9 g, so more than 7 g have left: `until: 7.2 g`. */
#include "support/near.h"
#include "support/run_text.h"

#define CANISTER(bed, heat, told)                                                                                      \
    "ullage: scenario/1\nname: bench\nassume: {" heat "}\nsurroundings: {temperature: 25 degC}\n"                      \
    "system:\n  parts:\n"                                                                                              \
    "    canister: {type: canister, end_space: 0.5 mL, beds: [" bed "]}\n"                                             \
    "    vent: {type: hole, from: canister.air, to: air, diameter: 10 mm}\n"                                           \
    "start: {canister: {conditioned: {" told "}}}\n"                                                                   \
    "procedure:\n  steps:\n    - read: {load: canister.load}\n    - wait: {for: 1 s}\n"

static double load_of(const char *text)
{
    return text_read(text, "load");
}

/* ---- working capacity ---- */

#define TUBE "{volume: 16.7 mL, length: 83 mm}"
#define BATH "heat: isothermal"
#define BUTANE "cycles: 1, load: {share: 100 %, rate: 36 g/h, until: 7.2 g}"
#define PURGED(volumes) BUTANE ", purge: {rate: 300 mL/min, volumes: " volumes "}"

/* Activity at 300 kg/m3: 11.1 g/100 mL (6.367 mol/kg at 298.15 K and 101.3 kPa, worked out from the fit apart from this
 * program). Capacity of canister carbons: 9 to 15 g/100 mL from memory; 11 for a widely used one, published by Robinson and
 * Mieville. This carbon at equilibrium, without any spreading: 10.6, 0.48 retained after 719 volumes; a real bed keeps more. */
static void working_capacity_is_that_of_the_trade(void **unused)
{
    (void)unused;
    static const char *const purged[] = {CANISTER(TUBE, BATH, PURGED("300")), CANISTER(TUBE, BATH, PURGED("600")),
                                         CANISTER(TUBE, BATH, PURGED("719"))};
    const double per_100_ml = 1e3 * 100.0 / 16.7;
    const double activity = per_100_ml * load_of(CANISTER(TUBE, BATH, PURGED("0")));
    assert_near("activity, g/100 mL", activity, 11.1, 0.05); /* half the last digit */
    double retained = activity;
    for (size_t k = 0; k < sizeof purged / sizeof purged[0]; k++) {
        const double now = per_100_ml * load_of(purged[k]);
        assert_true(now < retained);
        retained = now;
        assert_near("working capacity, g/100 mL", activity - retained, 10.0, 1.0); /* 9..11 */
    }
    assert_true(retained > 0.48);
}

/* ---- purge against equilibrium theory ---- */

/* Share retained of a bed at rest with 50 % butane after so many bed volumes of air, isothermal at 298 K, at equilibrium
 * everywhere: simple waves of the same isotherm, worked out apart from this program, three digits. A bed of cells spreads the
 * wave in proportion to their length, which two numbers of cells take out; what is left is the square of that (at 20 cells the
 * share is 10 % too large, so 1 % of it), the uptake's lag at 0.1 L/min (none to see), and the volumes: ours are told at 20
 * degC, 1.7 % more of them at 25 degC, which take 1.7 % of the share at most. */
static void purge_follows_the_theory_of_waves(void **unused)
{
    (void)unused;
#define COARSE "{volume: 0.1 L, length: 200 mm, cells: 20}"
#define FINE "{volume: 0.1 L, length: 200 mm, cells: 40}"
#define SLOW(volumes) "cycles: 1, load: {rate: 4 g/h, until: 20 g}, purge: {rate: 0.1 L/min, volumes: " volumes "}"

    static const struct {
        const char *name, *coarse, *fine;
        double retained;
    } row[] = {
        {"after 50", CANISTER(COARSE, BATH, SLOW("50")), CANISTER(FINE, BATH, SLOW("50")), 0.469},
        {"after 100", CANISTER(COARSE, BATH, SLOW("100")), CANISTER(FINE, BATH, SLOW("100")), 0.336},
        {"after 150", CANISTER(COARSE, BATH, SLOW("150")), CANISTER(FINE, BATH, SLOW("150")), 0.263},
        {"after 200", CANISTER(COARSE, BATH, SLOW("200")), CANISTER(FINE, BATH, SLOW("200")), 0.215},
        {"after 300", CANISTER(COARSE, BATH, SLOW("300")), CANISTER(FINE, BATH, SLOW("300")), 0.155},
    };

    const double full = load_of(CANISTER(COARSE, BATH, SLOW("0")));
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
        const double coarse = load_of(row[k].coarse) / full, fine = load_of(row[k].fine) / full;
        assert_true(coarse > fine);
        assert_near_share(row[k].name, 2.0 * fine - coarse, row[k].retained, 0.027);
    }
}

/* ---- heel ---- */

#define BED "{volume: 1.4 L, length: 250 mm}"

/* A canister that is new takes more than it gives back; within a few cycles with butane it gives what it takes. */
static void heel_builds_and_settles(void **unused)
{
    (void)unused;
    const double first = load_of(CANISTER(BED, "shell: rigid", "cycles: 1"));
    const double second = load_of(CANISTER(BED, "shell: rigid", "cycles: 2"));
    const double third = load_of(CANISTER(BED, "shell: rigid", "cycles: 3"));
    const double tenth = load_of(CANISTER(BED, "shell: rigid", "cycles: 10"));
    assert_true(first < second && second < third && third <= tenth);
    assert_true(second - first > 1e-3 * first); /* a hundred times what the tolerance of the bench moves */
    assert_true(tenth - third < 0.1 * (second - first));
    assert_near_share("third against tenth", third, tenth, 1e-3);
    /* Published of purging at equilibrium and 25 degC: 0.155 of what 50 % butane loads. "A purged bed cools: real values are
     * higher." */
    const double loaded = load_of(CANISTER(BED, "shell: rigid", "cycles: 1, purge: {volumes: 0}"));
    assert_true(third / loaded > 0.155 && third / loaded < 0.5);
}

/* ---- heat ---- */

/* 40 g/h of n-butane, half of it nitrogen, into 1.0 L until it comes through: up to 70 degC in the bed (abstract of Ponticelli
 * and co-authors). Shape, walls and room are not told: 20 or 25 degC around are 4 K; the heat of adsorption behind it is known to
 * 3 of 28.8 kJ/mol, 5 K of the rise; together 6 K. Flows of the supplies: 40 g/h are 0.688 mol/h, 0.276 L/min, of each. */
static void loading_warms_the_bed_as_published(void **unused)
{
    (void)unused;
    struct text_run ran = text_run(
        "ullage: scenario/1\nname: loading\nsystem:\n  parts:\n"
        "    canister: {type: canister, beds: [{volume: 1.0 L, length: 200 mm}]}\n"
        "    vent: {type: hole, from: canister.air, to: air, diameter: 10 mm}\n"
        "    mix: {type: vessel, volume: 50 mL}\n"
        "    line: {type: line, from: mix, to: canister.tank, bore: 8 mm, length: 0.3 m}\n"
        "    near: {type: port, of: mix}\n    far: {type: port, of: mix}\n"
        "equipment:\n"
        "  butane: {type: supply, join: near, gas: n-butane, gauge_pressure: 50 kPa, flow_limit: 0.276 L/min}\n"
        "  nitrogen: {type: supply, join: far, gas: nitrogen, gauge_pressure: 50 kPa, flow_limit: 0.276 L/min}\n"
        "end: 105 min\nrecord: {every: 1 min, channels: [canister.hottest, canister.load]}\n");
    double hottest = 0.0, fed = 0.0;
    for (int r = 0; r < ullage_run_samples(ran.run); r++) {
        hottest = fmax(hottest, ullage_run_sample(ran.run, r)[1]);
        fed = fmax(fed, ullage_run_sample(ran.run, r)[2]);
    }
    assert_near_share("nearly all is held until then, kg", fed, 40e-3 * 105.0 / 60.0, 0.02);
    assert_near("hottest, K", hottest, 273.15 + 70.0, 6.0);
    text_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(working_capacity_is_that_of_the_trade),
        cmocka_unit_test(purge_follows_the_theory_of_waves),
        cmocka_unit_test(heel_builds_and_settles),
        cmocka_unit_test(loading_warms_the_bed_as_published),
    };
    return cmocka_run_group_tests_name("conditioning against the outside", tests, NULL, NULL) != 0;
}
