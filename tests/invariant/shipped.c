/* tests/invariant/shipped.c  Every scenario that ships ends by itself, with its books closed, and shows what its `about`
 * says it shows. */
#include "support/shipped.h"

#include <glob.h>

#define SPECIES_LEFT 1e-12 /* of the row's scale: promised in README.md */
#define ENERGY_LEFT 1e-10

static void check_books(const char *path, const struct shipped *ran)
{
    for (int k = 0; k < ullage_model_ledger_rows(ran->model); k++) {
        const struct ullage_ledger_row row = ullage_run_ledger(ran->model, ran->run, k);
        const double allowed = strcmp(row.name, "energy") ? SPECIES_LEFT : ENERGY_LEFT;
        char name[256];
        snprintf(name, sizeof name, "%s %s", path, row.name);
        assert_near(name, row.residual, 0.0, allowed * row.scale);
        assert_near(name, row.in - row.out - row.stored_change - row.residual, 0.0, 1e-15 * row.scale);
    }
}

static void every_scenario_ends_with_its_books_closed(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    assert_int_equal(glob("scenarios/lessons/*.yaml", GLOB_APPEND, NULL, &found), 0);
    assert_true(found.gl_pathc >= 12);
    for (size_t k = 0; k < found.gl_pathc; k++) {
        struct shipped ran = shipped_run(found.gl_pathv[k]);
        check_books(found.gl_pathv[k], &ran);
        shipped_close(&ran);
    }
    globfree(&found);
}

static void first_leak_clears_the_rig_and_tells_the_plugs_apart(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/first-leak.yaml");
    assert_int_equal(reading(&ran, "rush").over, 1);
    assert_int_equal(reading(&ran, "sound").over, -1);
    assert_int_equal(verdict(&ran, "sound_rig"), ULLAGE_PASS);
    assert_int_equal(verdict(&ran, "plug_1"), ULLAGE_FAIL);
    assert_int_equal(verdict(&ran, "plug_2"), ULLAGE_FAIL);
    assert_int_equal(verdict(&ran, "plug_3"), ULLAGE_OPEN); /* 0.500 mm against a line of 0.508 mm */
    assert_int_equal(verdict(&ran, "plug_4"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* Cap off: full scale, and a tank that holds nothing. Then halving the slit halves the flow and takes the hole read down
 * by root two, but for the share of 3.0 kPa that the larger flow loses on the way: flow goes with the root of what is
 * left of the pressure, the hole read with the root of the flow. */
static void cap_off_reads_full_scale_and_falls_in_step(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/cap-off.yaml");
    assert_int_equal(reading(&ran, "cap_off").over, 1);
    assert_int_equal(reading(&ran, "half_covered").over, 1);
    assert_true(value(&ran, "cap_off_tank") < 0.01 * 3.0e3);
    assert_int_equal(verdict(&ran, "cap_off"), ULLAGE_FAIL);
    const double lost = (3.0e3 - value(&ran, "slit_tank")) / 3.0e3;
    assert_near_share("half the slit, half the flow", value(&ran, "half_slit_flow"), 0.5 * value(&ran, "slit_flow"),
                      lost);
    assert_near_share("the hole read falls by root two", value(&ran, "half_slit"), M_SQRT1_2 * value(&ran, "slit"),
                      lost);
    assert_near_share("and again", value(&ran, "quarter_slit"), M_SQRT1_2 * value(&ran, "half_slit"), 0.25 * lost);
    assert_int_equal(reading(&ran, "cap_on").over, -1);
    assert_int_equal(verdict(&ran, "cap_on"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* Closed form: gas shared by volume at one temperature. The scenario waits until the pressure has moved by
 * 1 Pa at most in a minute, and the gas takes the wall's temperature in far less than that. */
static void vessels_meet_where_the_gas_is_shared(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/equalise.yaml");
    const double meet = 12.0 * 249.08891 * 20.0 / 25.0;
    assert_near("near", value(&ran, "near"), meet, 1.0);
    assert_near("far", value(&ran, "far"), meet, 1.0);
    shipped_close(&ran);
}

static void a_choked_valve_takes_no_notice_of_more_vacuum(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/choked-nozzle.yaml");
    assert_near_share("choked", value(&ran, "at_35_kPa"), value(&ran, "at_53_kPa"), 1e-12);
    assert_true(value(&ran, "at_70_kPa") < value(&ran, "at_53_kPa"));
    assert_true(value(&ran, "at_90_kPa") < value(&ran, "at_70_kPa"));
    shipped_close(&ran);
}

static void a_plugged_vessel_warms_and_its_pressure_creeps_up(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/blow-down.yaml");
    assert_true(value(&ran, "coldest") < 293.15 - 10.0);
    /* Amount and volume stay, so pressure goes with temperature [textbook]; 0.1 Pa: drift against the equation of state. */
    const double warmed = (101325.0 + 50e3) * value(&ran, "temperature") / value(&ran, "coldest") - 101325.0;
    assert_near("crept up to", value(&ran, "crept_up_to"), warmed, 0.1);
    shipped_close(&ran);
}

static void a_day_of_weather_hardly_moves_a_vented_vessel(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/weather-day.yaml");
    const int column = 2; /* vessel.gauge_pressure, behind time, air.temperature, air.pressure */
    double most = 0.0;
    for (int k = 0; k < ullage_run_samples(ran.run); k++)
        most = fmax(most, fabs(ullage_run_sample(ran.run, k)[1 + column]));
    assert_true(ullage_run_samples(ran.run) > 700);
    assert_true(1.0 < most && most < 4.0); /* Pa, as the file says */
    shipped_close(&ran);
}

/* ---- over fuel ---- */

/* g of fuel vapor that went out through a part. */
static double vapor_out(const struct shipped *ran, const char *part)
{
    double mass = 0.0;
    for (int k = 0; k < ullage_model_opening_rows(ran->model); k++) {
        const struct ullage_opening_row row = ullage_run_opening(ran->model, ran->run, k);
        if (row.fuel && !strcmp(row.part, part))
            mass += row.out * row.molar_mass;
    }
    return 1e3 * mass;
}

/* Mole share of a column of the record (behind time), largest between two moments. */
static double largest(const struct shipped *ran, int column, double from, double to)
{
    double most = -HUGE_VAL;
    for (int k = 0; k < ullage_run_samples(ran->run); k++) {
        const double *sample = ullage_run_sample(ran->run, k);
        if (from <= sample[0] && sample[0] <= to)
            most = fmax(most, sample[1 + column]);
    }
    return most;
}

static void a_warm_day_fills_the_canister_and_draws_little_back(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/warm-day.yaml");
    const int pressure = 2;
    assert_true(value(&ran, "at_the_liquid") > value(&ran, "above_it"));
    assert_near("g by the evening", 1e3 * value(&ran, "held"), 15.0, 0.5);
    const double back = 1.0 - value(&ran, "held_next_morning") / value(&ran, "held");
    assert_near("drawn back by night", back, 1.0 / 16.0, 0.01);
    assert_true(largest(&ran, pressure, 0.0, 86400.0) < 0.2); /* Pa */
    assert_true(vapor_out(&ran, "vent-valve") < 1e-6);
    shipped_close(&ran);
}

static void three_days_bleed_break_through_and_leave_a_heel(void **state)
{
    (void)state;
    const double day = 86400.0, hour = 3600.0;
    const int at_the_vent = 2; /* vent-line.fuel_vapor */
    struct shipped ran = shipped_run("scenarios/three-days.yaml");
    double before = 0.0;
    for (int k = 1; k <= 3; k++) {
        char evening[32], morning[32];
        snprintf(evening, sizeof evening, "evening_%d", k);
        snprintf(morning, sizeof morning, "morning_%d", k);
        const double gram = 1e3 * (value(&ran, evening) - before);
        assert_true(12.5 < gram && gram < 15.5);
        assert_near(morning, value(&ran, morning) / value(&ran, evening), 5.0 / 6.0, 0.01);
        before = value(&ran, morning);
    }
    assert_true(largest(&ran, at_the_vent, 0.0, day) < 1e-9);
    const double bleed = largest(&ran, at_the_vent, 2.0 * day, 2.0 * day + 3.0 * hour);
    assert_true(1e-3 < bleed && bleed < 1e-2);
    assert_true(largest(&ran, at_the_vent, 2.0 * day, 3.0 * day) > 4.0 * bleed);
    assert_true(value(&ran, "heel") > 0.4 * value(&ran, "morning_3"));
    assert_true(vapor_out(&ran, "purge-valve") > 10.0 * vapor_out(&ran, "vent-valve"));
    shipped_close(&ran);
}

static void hot_fuel_boils_on_a_mountain_as_heat_comes_in(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/altitude-boil.yaml");
    const double heat = 300.0 + 60.0, per_gram = 340.0; /* W, J/g */
    assert_near("short of the boil", value(&ran, "fuel_holds") / value(&ran, "air"), 0.98, 0.01);
    const double carried = 1e3 * value(&ran, "lost") * per_gram;
    assert_true(0.2 * heat < carried && carried < heat);
    assert_true(value(&ran, "lost_after") < 0.1 * value(&ran, "lost"));
    shipped_close(&ran);
}

static void a_tank_warms_on_after_the_drive_and_cools_in_hours(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/hot-soak.yaml");
    const double air = 273.15 + 30.0;
    const int liquid = 0;
    assert_near("K by the drive", value(&ran, "driven") - air, 9.0, 1.0);
    assert_true(value(&ran, "soaked") > value(&ran, "driven") + 1.0);
    const double warmest = largest(&ran, liquid, 0.0, HUGE_VAL) - air;
    const double half = largest(&ran, liquid, (45.0 + 20.0 + 120.0) * 60.0, HUGE_VAL) - air;
    assert_near("half in some 2 h", half, 0.5 * warmest, 0.1 * warmest);
    shipped_close(&ran);
}

static void an_engine_off_check_sees_pressure_and_vacuum(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/engine-off.yaml");
    assert_near("Pa", value(&ran, "rise"), 0.4e3, 0.05e3);
    assert_true(value(&ran, "fall") < -1.5e3);
    assert_int_equal(verdict(&ran, "engine_off"), ULLAGE_PASS);
    const double cooled = value(&ran, "liquid") - value(&ran, "morning_liquid");
    assert_near("Pa/K", (value(&ran, "fall") - value(&ran, "morning")) / cooled, 0.75e3, 0.05e3);
    shipped_close(&ran);
}

static void smoke_over_fuel_reads_a_hole_and_hides_one(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/smoke-over-fuel.yaml");
    assert_near("mm that are not there", 1e3 * value(&ran, "sound"), 0.31, 0.01);
    assert_int_equal(verdict(&ran, "plug_3"), ULLAGE_OPEN); /* 0.6 mm */
    assert_int_equal(reading(&ran, "hidden").over, -1);
    assert_int_equal(verdict(&ran, "hidden"), ULLAGE_PASS);
    assert_near("mm later", 1e3 * value(&ran, "later"), 2.0 / 3.0 * 0.6, 0.05);
    shipped_close(&ran);
}

static void winter_fuel_comes_into_the_flammable_range_and_out_again(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/winter-start.yaml");
    assert_near("degC", value(&ran, "burns_from") - 273.15, -26.6, 0.5);
    assert_true(value(&ran, "coldest") < value(&ran, "burns_to"));
    assert_near("K", value(&ran, "burns_to") - value(&ran, "coldest"), 10.9, 0.5);
    shipped_close(&ran);
}

static void a_drive_empties_the_canister_and_keeps_its_mixture(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/purge-drive.yaml");
    assert_true(value(&ran, "vapor_share") > 1.0 / 3.0);
    assert_true(value(&ran, "ratio_2_s_later") < 0.9);
    assert_near("a fifth of the injection", value(&ran, "correction_idle"), -0.2, 0.04);
    assert_near("right again", value(&ran, "ratio_idle"), 1.0, 0.005);
    assert_true(value(&ran, "coldest") < 273.15);
    assert_true(value(&ran, "load_after_motorway") < 0.2 * value(&ran, "loaded"));
    assert_near("little is left to correct", value(&ran, "correction_end"), 0.0, 0.02);
    shipped_close(&ran);
}

static void a_stuck_valve_is_told_by_a_full_canister_alone(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/purge-stuck-open.yaml");
    assert_near("limit", value(&ran, "correction_loaded"), -0.25, 0.0);
    assert_int_equal(verdict(&ran, "loaded"), ULLAGE_FAIL);
    assert_near("nearly clean", value(&ran, "ratio_empty"), 1.0, 0.01);
    assert_int_equal(verdict(&ran, "empty"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* What the tank loses after the nozzle stops lies in line and canister, but for what expands or evaporates: 10 %. The purge
 * empties the carbon, and vapor comes on. */
static void an_overfilled_tank_puts_liquid_into_the_canister(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/overfilled.yaml");
    assert_near("full to the roof", value(&ran, "level"), 0.99, 1e-6);
    assert_true(value(&ran, "pressed") > 1e3 && value(&ran, "pressed") < 5e3);
    const double lost = 0.045 * (value(&ran, "level") - value(&ran, "level_later")),
                 lies = value(&ran, "in_the_canister");
    assert_near("the dip is full", value(&ran, "in_the_line"), 15e-6, 3e-6);
    const double before = value(&ran, "in_the_line_already") + value(&ran, "in_the_canister_already");
    assert_near_share("what the tank lost", lies + value(&ran, "in_the_line") - before, lost, 0.10);
    assert_true(lies > 50e-6 && value(&ran, "left_later") > 0.5 * lies && value(&ran, "left_later") < 0.95 * lies);
    assert_true(value(&ran, "load_later") < value(&ran, "load_town") && value(&ran, "vapor_share_later") > 1e-3);
    assert_near("mixture", value(&ran, "ratio_idle"), 1.0, 0.02);
    shipped_close(&ran);
}

static void a_check_valve_holds_the_boost_until_its_seat_leaks(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/boost-purge-check.yaml");
    assert_true(value(&ran, "manifold") > 5e4);
    assert_near("it holds", value(&ran, "back_flow"), 0.0, 0.0);
    assert_near("nothing before the valve", value(&ran, "before_the_valve"), 0.0, 1.0);
    assert_true(value(&ran, "back_flow_two") < 10.0 * value(&ran, "back_flow_half"));
    assert_true(value(&ran, "tank_two") > 100.0);
    assert_int_equal(verdict(&ran, "check"), ULLAGE_PASS);
    assert_int_equal(verdict(&ran, "two_millimetres"), ULLAGE_FAIL);
    assert_true(vapor_out(&ran, "vent-valve") > 1e-3);
    shipped_close(&ran);
}

/* Above the scale's end the flow is what the supply gives, whatever the slot; under it the meter follows. A hole read goes with the
 * root of the flow, and that with the root of the pressure: what is lost on the way takes its fourth root off the reading. The
 * rest is what slots pass less than round holes, 1 %; 2 % where the loss was not read. */
static void a_cut_seal_is_followed_once_the_scale_is_alive(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/seal-steps.yaml");
    assert_int_equal(reading(&ran, "slot_20").over, 1);
    assert_int_equal(reading(&ran, "slot_3").over, 1);
    assert_near_share("all that the supply gives", value(&ran, "slot_3_flow"), value(&ran, "slot_20_flow"), 0.01);
    assert_true(value(&ran, "slot_20_tank") < 0.01 * value(&ran, "slot_3_tank"));
    const double arrives = 1.0 - value(&ran, "slot_2_2_lost") / 3.0e3;
    assert_near_share("2.2 mm", value(&ran, "slot_2_2"), 2.2e-3 * pow(arrives, 0.25), 0.01);
    assert_near_share("corrected", value(&ran, "slot_2_2_corrected"), 2.2e-3, 0.01);
    assert_near_share("1.5 mm", value(&ran, "slot_1_5"), 1.5e-3, 0.02);
    assert_near_share("1 mm", value(&ran, "slot_1"), 1e-3, 0.02);
    assert_near_share("0.5 mm", value(&ran, "slot_0_5"), 0.5e-3, 0.02);
    shipped_close(&ran);
}

static void a_forgotten_vent_reads_full_scale_and_blows_the_smoke_out(void **state)
{
    (void)state;
    struct shipped ran = shipped_run("scenarios/vent-open.yaml");
    assert_int_equal(reading(&ran, "open").over, 1);
    assert_int_equal(reading(&ran, "tenth").over, 1);
    assert_true(value(&ran, "open_tank") < 0.03 * 3.0e3);
    assert_true(value(&ran, "smoke_at_vent") > 0.99);
    assert_true(value(&ran, "smoke_in_tank") < 1e-3);
    assert_int_equal(verdict(&ran, "leak"), ULLAGE_PASS);
    shipped_close(&ran);
}

/* Which way of shutting the vent finds which of its two leaks, 0.7 mm each. */
static void the_place_of_the_plug_decides_what_is_found(void **state)
{
    static const char *const finds[] = {"ring_command", "ring_outer", "blade_command"};
    static const char *const misses[] = {"ring_inner", "blade_outer", "blade_inner"};
    (void)state;
    struct shipped ran = shipped_run("scenarios/plug-place.yaml");
    for (int k = 0; k < 3; k++) {
        assert_near_share(finds[k], value(&ran, finds[k]), 0.7e-3, 0.03);
        assert_int_equal(reading(&ran, misses[k]).over, -1);
    }
    shipped_close(&ran);
}

/* Liquid in the low spot of the vapor line, 120 mm deep, has to be pushed aside before gas gets by: the pressure rises by up to
 * 0.9 kPa, and a nozzle that such a pressure stops gives up early. As much lies there as the spot holds, so that it is full to
 * the last bit when the run begins. */
static void liquid_in_the_vapor_line_ends_a_fill_early(void **state)
{
    static const char *const puddle[] = {"nozzle.spout=340mm", "vapor-line.liquid=15mL",
                                         "vapor-line.low_spot_height=120mm"};
    (void)state;
    struct shipped dry = shipped_run_with("scenarios/fill-up.yaml", puddle, 1);
    struct shipped wet = shipped_run_with("scenarios/fill-up.yaml", puddle, 3);
    assert_true(value(&wet, "pressure") > value(&dry, "pressure") + 200.0);
    assert_true(value(&wet, "level") < value(&dry, "level") - 0.05);
    check_books("a wet vapor line", &wet);
    shipped_close(&wet);
    shipped_close(&dry);
}

static void a_crack_in_the_roof_hides_under_a_full_tank(void **state)
{
    static const char *const level[] = {"fill.level=15%", "fill.level=40%", "fill.level=85%"}, *const full =
                                                                                                   "fill.level=95%";
    static const double reads[] = {0.92e-3, 0.91e-3, 0.81e-3};
    (void)state;
    for (int k = 0; k < 3; k++) {
        struct shipped ran = shipped_run_with("scenarios/roll-over-crack.yaml", &level[k], 1);
        assert_near_share(level[k], value(&ran, "hole"), reads[k], 0.02);
        assert_int_equal(verdict(&ran, "leak"), ULLAGE_FAIL);
        assert_near("no liquid", ullage_run_fuel(ran.model, ran.run).drained, 0.0, 0.0);
        shipped_close(&ran);
    }
    struct shipped ran = shipped_run_with("scenarios/roll-over-crack.yaml", &full, 1);
    assert_int_equal(reading(&ran, "hole").over, -1);
    assert_int_equal(verdict(&ran, "leak"), ULLAGE_PASS);
    assert_true(ullage_run_fuel(ran.model, ran.run).drained > 0.01);
    shipped_close(&ran);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_scenario_ends_with_its_books_closed),
        cmocka_unit_test(first_leak_clears_the_rig_and_tells_the_plugs_apart),
        cmocka_unit_test(cap_off_reads_full_scale_and_falls_in_step),
        cmocka_unit_test(vessels_meet_where_the_gas_is_shared),
        cmocka_unit_test(a_choked_valve_takes_no_notice_of_more_vacuum),
        cmocka_unit_test(a_plugged_vessel_warms_and_its_pressure_creeps_up),
        cmocka_unit_test(a_day_of_weather_hardly_moves_a_vented_vessel),
        cmocka_unit_test(a_warm_day_fills_the_canister_and_draws_little_back),
        cmocka_unit_test(three_days_bleed_break_through_and_leave_a_heel),
        cmocka_unit_test(hot_fuel_boils_on_a_mountain_as_heat_comes_in),
        cmocka_unit_test(a_tank_warms_on_after_the_drive_and_cools_in_hours),
        cmocka_unit_test(an_engine_off_check_sees_pressure_and_vacuum),
        cmocka_unit_test(smoke_over_fuel_reads_a_hole_and_hides_one),
        cmocka_unit_test(a_drive_empties_the_canister_and_keeps_its_mixture),
        cmocka_unit_test(a_stuck_valve_is_told_by_a_full_canister_alone),
        cmocka_unit_test(a_check_valve_holds_the_boost_until_its_seat_leaks),
        cmocka_unit_test(an_overfilled_tank_puts_liquid_into_the_canister),
        cmocka_unit_test(a_cut_seal_is_followed_once_the_scale_is_alive),
        cmocka_unit_test(a_forgotten_vent_reads_full_scale_and_blows_the_smoke_out),
        cmocka_unit_test(the_place_of_the_plug_decides_what_is_found),
        cmocka_unit_test(liquid_in_the_vapor_line_ends_a_fill_early),
        cmocka_unit_test(a_crack_in_the_roof_hides_under_a_full_tank),
        cmocka_unit_test(winter_fuel_comes_into_the_flammable_range_and_out_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
