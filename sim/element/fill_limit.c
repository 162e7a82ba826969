/* sim/element/fill_limit.c  A fill-limit valve on a tank: liquid that reaches it lifts its float, the gas has no way out any
 * more and filling ends. It opens once the level has fallen and the tank holds no pressure. Law of the float: float.c. */
#include "element/elements.h"

enum { BORE, DROP, HOLDS_TO, SEAT, HELD_SHUT, HELD_OPEN };

static const struct row fill_limit_parameter[] = {
    {"bore", ULLAGE_LENGTH, 16e-3, 1e-4, 0.1, "of the open valve, as a sharp round hole", true},
    {"drop", ULLAGE_LENGTH, 5e-3, 1e-4, 0.5, "of the liquid under the opening until the float hangs free", true},
    {"holds_to", ULLAGE_PRESSURE, 300.0, 1.0, 1e6, "before it over behind it, above which the float stays on its seat",
     true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seat is like", true},
    {"held_shut", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of its opening that never comes", true},
    {"held_open", ULLAGE_NUMBER, 0.0, 0.0, 1.0, "share of its opening that its float does not shut", true},
    {0}};

static const struct end_row fill_limit_end[] = {
    {"from", true, "opening of the tank it sits in"}, {"to", true, "gas space it leads to, or air"}, {0}};

static const struct show_row fill_limit_shows[] = {{"open", ULLAGE_NUMBER, "1: open; 0: shut by its float"}, {0}};

static double fill_limit_margin(const struct switch_view *at, bool on)
{
    const struct float_seat seat = {at->parameter[DROP], at->parameter[HOLDS_TO], at->parameter[HELD_OPEN]};
    return float_margin(&seat, at, false, on);
}

static double fill_limit_open(const double *parameter, const bool *on)
{
    return float_opening(on[0], parameter[HELD_SHUT], parameter[HELD_OPEN]);
}

static struct flow fill_limit_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const struct sloped share = {fill_limit_open(at->parameter, at->on), 0.0};
    return seat_flow(share, at->parameter[BORE], at->parameter[SEAT], at->discharge, a, b);
}

static double fill_limit_seeps(const struct passage_view *at)
{
    return float_seeps(fill_limit_open(at->parameter, at->on), at->parameter[BORE], at->parameter[SEAT]);
}

static double fill_limit_reaches(const struct passage_view *at)
{
    return float_reaches(fill_limit_open(at->parameter, at->on), at->parameter[BORE], at->constant[0]);
}

static void fill_limit_passages(struct blueprint *into, int part)
{
    const struct float_passage plan = {.law = fill_limit_flow,
                                       .bore = into->part[part].value[BORE],
                                       .seep = fill_limit_seeps,
                                       .reaches = fill_limit_reaches,
                                       .margin = fill_limit_margin};
    float_build(into, part, &plan);
}

static void fill_limit_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = fill_limit_open(at->parameter, at->on);
}

const struct element_kind fill_limit_kind = {
    .name = "fill-limit",
    .meaning = "shuts when liquid reaches it, so that filling ends",
    .parameter = fill_limit_parameter,
    .fault = fill_limit_fault,
    .end = fill_limit_end,
    .shows = fill_limit_shows,
    .is_passage = true,
    .passages = fill_limit_passages,
    .show = fill_limit_show,
};
