/* sim/element/roll_over.c  A roll-over valve on a tank: a float that shuts it under liquid, and when the tank lies over, so
 * that no fuel runs out. Law of the float: float.c. */
#include "element/elements.h"

enum { BORE, DROP, HOLDS_TO, SEAT, HELD_SHUT, HELD_OPEN };

static const struct row roll_over_parameter[] = {
    {"bore", ULLAGE_LENGTH, 4e-3, 1e-4, 0.1, "of the open valve, as a sharp round hole", true},
    {"drop", ULLAGE_LENGTH, 5e-3, 1e-4, 0.5, "of the liquid under the opening until the float hangs free", true},
    {"holds_to", ULLAGE_PRESSURE, 3e3, 1.0, 1e6, "before it over behind it, above which the float stays on its seat",
     true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seat is like", true},
    {"held_shut", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of its opening that never comes", true},
    {"held_open", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of its opening that its float does not shut", true},
    {0}};

static const struct end_row roll_over_end[] = {
    {"from", true, "opening of the tank it sits in"}, {"to", true, "gas space it leads to, or air"}, {0}};

static const struct command_row roll_over_command[] = {{"upright", 1.0}, {"rolled", 0.0}, {0}};

#define TILTED 0.5 /* a command below it means: rolled */

static const struct show_row roll_over_shows[] = {{"open", ULLAGE_NUMBER, "1: open; 0: shut by its float"}, {0}};

static double roll_over_margin(const struct switch_view *at, bool on)
{
    const struct float_seat seat = {at->parameter[DROP], at->parameter[HOLDS_TO], at->parameter[HELD_OPEN]};
    return float_margin(&seat, at, at->opening < TILTED, on);
}

static double roll_over_open(const double *parameter, const bool *on)
{
    return float_opening(on[0], parameter[HELD_SHUT], parameter[HELD_OPEN]);
}

static struct flow roll_over_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const struct sloped share = {roll_over_open(at->parameter, at->on), 0.0};
    return seat_flow(share, at->parameter[BORE], at->parameter[SEAT], at->discharge, a, b);
}

static double roll_over_seeps(const struct passage_view *at)
{
    return float_seeps(roll_over_open(at->parameter, at->on), at->parameter[BORE], at->parameter[SEAT]);
}

static double roll_over_reaches(const struct passage_view *at)
{
    return float_reaches(roll_over_open(at->parameter, at->on), at->parameter[BORE], at->constant[0]);
}

static void roll_over_passages(struct blueprint *into, int part)
{
    const struct float_passage plan = {.law = roll_over_flow,
                                       .bore = into->part[part].value[BORE],
                                       .seep = roll_over_seeps,
                                       .reaches = roll_over_reaches,
                                       .margin = roll_over_margin};
    float_build(into, part, &plan);
}

static void roll_over_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = roll_over_open(at->parameter, at->on);
}

const struct element_kind roll_over_kind = {
    .name = "roll-over",
    .meaning = "shuts when liquid lifts its float, or when it lies over",
    .parameter = roll_over_parameter,
    .fault = roll_over_fault,
    .end = roll_over_end,
    .command = roll_over_command,
    .shows = roll_over_shows,
    .is_passage = true,
    .passages = roll_over_passages,
    .show = roll_over_show,
};
