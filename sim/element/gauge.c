/* sim/element/gauge.c  A pressure gauge of the shop, and the vehicle's own pressure sensor: both follow the pressure of a
 * gas space over the surroundings with a lag, an error, steps and a range. */
#include "element/elements.h"

enum {
    TIME_CONSTANT,
    ZERO_ERROR,
    GAIN_ERROR,
    RESOLUTION,
    LEAST,
    MOST,
    STUCK,
    NOISE,
    OPEN_CIRCUIT,
    SHORT_CIRCUIT
};

enum { OF };

static const struct row gauge_parameter[] = {
    {"time_constant", ULLAGE_TIME, 0.0, 0.0, 600.0, "of its lag", false},
    {"zero_error", ULLAGE_PRESSURE, 0.0, -1e5, 1e5, "what it shows when there is no pressure", true},
    {"gain_error", ULLAGE_NUMBER, 0.0, -0.9, 10.0, "share by which it shows too much", true},
    {"resolution", ULLAGE_PRESSURE, 0.0, 0.0, 1e5, "steps of its reading; 0: none", false},
    {"least", ULLAGE_PRESSURE, -1.2e5, -1.2e5, 1e7, "lower end of its range", false},
    {"most", ULLAGE_PRESSURE, 1e7, -1e5, 1e7, "upper end of its range", false},
    {"stuck", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share by which it does not follow any more", true},
    {"noise", ULLAGE_PRESSURE, 0.0, 0.0, 1e5, "it jumps about by this, root of the mean square", true},
    {"open_circuit", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share by which it is drawn to the upper end of its range", true},
    {"short_circuit", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share by which it is drawn to the lower end of its range", true},
    {0}};

static const struct end_row gauge_end[] = {{"of", true, "gas space whose pressure it shows"}, {0}};

static const struct show_row gauge_shows[] = {
    {"gauge_pressure", ULLAGE_PRESSURE, "what it shows, against the surroundings"}, {0}};

static void gauge_instruments(struct blueprint *into, int part)
{
    const struct attachment of = blueprint_attachment(into, part, OF);
    if (of.kind == ATTACHED_PLACE)
        blueprint_follower(
            into, (struct follower_plan){.part = part,
                                         .place = of.place,
                                         .passage = -1,
                                         .lag = into->part[part].value[TIME_CONSTANT],
                                         .lag_row = TIME_CONSTANT,
                                         .stuck_row = STUCK});
}

static void gauge_check(const struct part *part, struct ullage_problems *problems)
{
    if (!(part->value[LEAST] < part->value[MOST]))
        problem_add(problems, part->at, "let least lie below most", "%s has a range of no width", part->id);
}

static void gauge_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    const double *p = at->parameter;
    const struct instrument dial = {p[ZERO_ERROR], p[GAIN_ERROR], p[RESOLUTION],
                                    p[LEAST],      p[MOST],       instrument_noise(at, p[NOISE]),
                                    p[OPEN_CIRCUIT], p[SHORT_CIRCUIT]};
    shown[0] = instrument_shows(&dial, at->follower, &off_scale[0]);
}

const struct element_kind gauge_kind = {
    .name = "gauge",
    .meaning = "shows the pressure of a gas space",
    .parameter = gauge_parameter,
    .fault = gauge_fault,
    .end = gauge_end,
    .shows = gauge_shows,
    .check = gauge_check,
    .instruments = gauge_instruments,
    .show = gauge_show,
};

const struct element_kind sensor_kind = {
    .name = "sensor",
    .meaning = "the vehicle's own pressure sensor",
    .parameter = gauge_parameter,
    .fault = gauge_fault,
    .end = gauge_end,
    .shows = gauge_shows,
    .check = gauge_check,
    .instruments = gauge_instruments,
    .show = gauge_show,
};
