/* sim/element/check_valve.c  A check valve: gas goes one way, once its pressure lifts the poppet. Law: poppet.c. */
#include "element/elements.h"

enum { BORE, OPENING_PRESSURE, HYSTERESIS, OVERPRESSURE, SEAT };

enum { FROM, TO };

static const struct row check_parameter[] = {
    {"bore", ULLAGE_LENGTH, REQUIRED, 1e-4, 0.5, "of the wide-open valve, as a sharp round hole", true},
    {"opening_pressure", ULLAGE_PRESSURE, 250.0, 10.0, 1e6, "before it over behind it, at which it opens", true},
    {"hysteresis", ULLAGE_NUMBER, 0.2, 0.01, 0.95, "share of the opening pressure by which it shuts lower", true},
    {"overpressure", ULLAGE_NUMBER, 1.0, 0.05, 5.0, "share of the opening pressure, above it, at which it is wide open",
     true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seat is like", true},
    {0}};

static const struct end_row check_end[] = {
    {"from", true, "gas space it lets gas out of"}, {"to", true, "gas space it lets gas into, or air"}, {0}};

static const struct show_row check_shows[] = {{"open", ULLAGE_NUMBER, "how far it is open"}, {0}};

static struct poppet check_poppet(const double *parameter)
{
    return (struct poppet){parameter[OPENING_PRESSURE], parameter[HYSTERESIS], parameter[OVERPRESSURE]};
}

static struct sloped check_lift(const double *parameter, bool on, double difference)
{
    const struct poppet poppet = check_poppet(parameter);
    return on ? poppet_lift(&poppet, difference) : (struct sloped){0.0, 0.0};
}

static double check_margin(const struct switch_view *at, bool on)
{
    const struct poppet poppet = check_poppet(at->parameter);
    return poppet_margin(&poppet, at->excess_a - at->excess_b, on);
}

static struct flow check_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return seat_flow(check_lift(at->parameter, at->on[0], a->excess - b->excess), at->parameter[BORE],
                     at->parameter[SEAT], at->discharge, a, b);
}

static void check_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = from.place,
                                                  .b = to.place,
                                                  .law = check_flow,
                                                  .joint_of = -1,
                                                  .bore = into->part[part].value[BORE]});
    blueprint_switch(into, (struct switch_plan){.part = part,
                                                .a = from.place,
                                                .b = to.place,
                                                .margin = check_margin,
                                                .turns_on = "opens",
                                                .turns_off = "shuts"});
}

static void check_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    const struct passage_look *way = &at->passage[0];
    shown[0] = at->passages > 0 ? check_lift(at->parameter, at->on[0], way->a.excess - way->b.excess).value : 0.0;
}

const struct element_kind check_valve_kind = {
    .name = "check-valve",
    .meaning = "lets gas go one way, above its opening pressure",
    .parameter = check_parameter,
    .fault = check_fault,
    .end = check_end,
    .shows = check_shows,
    .is_passage = true,
    .passages = check_passages,
    .show = check_show,
};
