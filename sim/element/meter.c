/* sim/element/meter.c  A flow meter, read in litres a minute and on a scale of holes.
 *
 * The scale was made once, on the bench: its own test gas at the supply's set pressure over 101325 Pa and at 20 degC
 * through a reference plate (thin and sharp, or of a given wall). `hole` reads that scale; `true_hole` is the thin sharp
 * hole that passes the true flow with the gas and the pressures of the moment. Where the two part, altitude, gas or
 * pressure lost on the way is why. */
#include "element/elements.h"
#include "law/passages.h"

enum {
    TIME_CONSTANT,
    ZERO_ERROR,
    GAIN_ERROR,
    RESOLUTION,
    FLOW_MOST,
    SCALE_LEAST,
    SCALE_MOST,
    SCALE_STEP,
    SCALE_PRESSURE,
    STUCK,
    NOISE
};

enum { OF, FEEDS };

enum { STANDARD_FLOW, HOLE, TRUE_HOLE, PRESSURE_LOST };

#define HOLE_LARGEST 0.1 /* m: where true_hole stops looking */

static const struct row meter_parameter[] = {
    {"time_constant", ULLAGE_TIME, 0.0, 0.0, 600.0, "of its lag", false},
    {"zero_error", ULLAGE_VOLUME_FLOW, 0.0, -1e-3, 1e-3, "flow it shows when there is none", true},
    {"gain_error", ULLAGE_NUMBER, 0.0, -0.9, 10.0, "share by which it shows too much", true},
    {"resolution", ULLAGE_VOLUME_FLOW, 0.0, 0.0, 1e-3, "steps of its flow reading; 0: none", false},
    {"flow_most", ULLAGE_VOLUME_FLOW, 10.0, 1e-9, 10.0, "upper end of its flow reading", false},
    {"scale_least", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "lower end of its scale of holes", false},
    {"scale_most", ULLAGE_LENGTH, 2.5e-3, 1e-5, 0.1, "upper end of its scale of holes", false},
    {"scale_step", ULLAGE_LENGTH, 0.0, 0.0, 1e-2, "steps of its scale of holes; 0: none", false},
    {"scale_pressure", ULLAGE_PRESSURE, 0.0, 0.0, 1e5, "pressure its scale was made at; 0: its supply's setting",
     false},
    {"stuck", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share by which it does not follow any more", true},
    {"noise", ULLAGE_VOLUME_FLOW, 0.0, 0.0, 1e-3, "it jumps about by this, root of the mean square", true},
    {0}};

static const struct end_row meter_end[] = {
    {"of", true, "the supply or line whose flow it reads"},
    {"feeds", false, "gas space whose pressure drives the leak, for true_hole; left out: where its supply is joined"},
    {0}};

static const struct show_row meter_shows[] = {
    {"standard_flow", ULLAGE_VOLUME_FLOW, "flow it reads, at 20 degC and 101325 Pa"},
    {"hole", ULLAGE_LENGTH, "what its scale of holes shows, made for its own gas and set pressure"},
    {"true_hole", ULLAGE_LENGTH, "thin sharp hole of equal flow, gas and pressures of the moment"},
    {"pressure_lost", ULLAGE_PRESSURE, "set pressure that does not arrive where the leak is fed"},
    {0}};

static void meter_instruments(struct blueprint *into, int part)
{
    const struct part_end *of = &into->part[part].end[OF];
    const int target = of->part ? blueprint_find(into, of->part) : -1;
    int passage = -1;
    for (int k = 0; k < into->passages && passage < 0; k++)
        if (into->passage[k].part == target && into->passage[k].joint_of < 0)
            passage = k;
    if (passage >= 0)
        blueprint_follower(
            into, (struct follower_plan){.part = part,
                                         .place = -1,
                                         .passage = passage,
                                         .lag = into->part[part].value[TIME_CONSTANT],
                                         .lag_row = TIME_CONSTANT,
                                         .stuck_row = STUCK});
    else if (target >= 0)
        problem_add(into->problems, of->at, "let it read a supply, line, valve or hole", "no gas flows through %s",
                    of->part);
    if (into->part[part].end[FEEDS].part)
        blueprint_attachment(into, part, FEEDS); /* for its problems */
}

/* Test gas and set pressure of the supply it belongs to; air at its own scale_pressure elsewhere. */
static struct gas scale_gas(const struct part_look *at)
{
    const struct part_look *of = at->of;
    const bool supplied = of && of->part->kind == &supply_kind;
    const double own = at->parameter[SCALE_PRESSURE];
    const double setting = own > 0.0 || !supplied ? own : of->set[0];
    const struct species *gas = species_at(supplied ? of->part->word[0] : 0);
    struct gas made = {.pressure = STANDARD_PRESSURE + setting,
                       .excess = setting,
                       .temperature = STANDARD_TEMPERATURE,
                       .molar_mass = gas->molar_mass,
                       .gamma = species_gamma(gas, STANDARD_TEMPERATURE)};
    double slope;
    species_viscosity(gas, STANDARD_TEMPERATURE, &made.viscosity, &slope);
    return made;
}

static void meter_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    const double *p = at->parameter;
    const double molar_volume = GAS_CONSTANT * STANDARD_TEMPERATURE / STANDARD_PRESSURE;
    const struct instrument flow = {p[ZERO_ERROR], p[GAIN_ERROR], p[RESOLUTION], -p[FLOW_MOST], p[FLOW_MOST],
                                    instrument_noise(at, p[NOISE]), 0.0, 0.0};
    const struct instrument scale = {
        .resolution = p[SCALE_STEP], .least = p[SCALE_LEAST], .most = p[SCALE_MOST]};
    shown[STANDARD_FLOW] = instrument_shows(&flow, at->follower * molar_volume, &off_scale[STANDARD_FLOW]);
    const struct gas made = scale_gas(at);
    struct gas outside = made;
    outside.pressure = STANDARD_PRESSURE;
    outside.excess = 0.0;
    const double read = equivalent_hole(shown[STANDARD_FLOW] / molar_volume, &made, &outside, 2.0 * p[SCALE_MOST]);
    shown[HOLE] = instrument_shows(&scale, read, &off_scale[HOLE]);
    const double flowing = at->of && at->of->passages ? at->of->passage[0].flow : 0.0;
    shown[TRUE_HOLE] = at->fed ? equivalent_hole(flowing, at->fed, at->air, HOLE_LARGEST) : 0.0;
    shown[PRESSURE_LOST] = at->fed ? made.excess - (at->fed->excess - at->air->excess) : 0.0;
}

const struct element_kind meter_kind = {
    .name = "meter",
    .meaning = "reads the flow of a supply or line, also as an equivalent hole",
    .parameter = meter_parameter,
    .fault = meter_fault,
    .end = meter_end,
    .shows = meter_shows,
    .instruments = meter_instruments,
    .show = meter_show,
};
