/* sim/element/relief.c  A two-way relief: one seat that pressure lifts, one that vacuum lifts. Law of each: poppet.c. */
#include "element/elements.h"

enum { BORE, OPENING_PRESSURE, OPENING_VACUUM, HYSTERESIS, OVERPRESSURE, SEAT };

enum { FROM, TO };

static const struct row relief_parameter[] = {
    {"bore", ULLAGE_LENGTH, REQUIRED, 1e-4, 0.5, "of each wide-open seat, as a sharp round hole", true},
    {"opening_pressure", ULLAGE_PRESSURE, 1500.0, 10.0, 1e6, "before it over behind it, at which it lets gas out",
     true},
    {"opening_vacuum", ULLAGE_PRESSURE, 1000.0, 10.0, 1e6, "behind it over before it, at which it lets gas in", true},
    {"hysteresis", ULLAGE_NUMBER, 0.2, 0.01, 0.95, "share of the opening pressure by which it shuts lower", true},
    {"overpressure", ULLAGE_NUMBER, 1.0, 0.05, 5.0, "share of the opening pressure, above it, at which it is wide open",
     true},
    {"seat_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that the shut seats together are like", true},
    {0}};

static const struct end_row relief_end[] = {
    {"from", true, "gas space it protects"}, {"to", true, "gas space on the other side, or air"}, {0}};

static const struct show_row relief_shows[] = {{"open", ULLAGE_NUMBER, "how far it is open, either way"}, {0}};

static struct two_way relief_seats(const double *p)
{
    return (struct two_way){
        {{p[OPENING_PRESSURE], p[HYSTERESIS], p[OVERPRESSURE]}, {p[OPENING_VACUUM], p[HYSTERESIS], p[OVERPRESSURE]}}};
}

static double relief_pressure_margin(const struct switch_view *at, bool on)
{
    const struct two_way seats = relief_seats(at->parameter);
    return poppet_margin(&seats.seat[0], at->excess_a - at->excess_b, on);
}

static double relief_vacuum_margin(const struct switch_view *at, bool on)
{
    const struct two_way seats = relief_seats(at->parameter);
    return poppet_margin(&seats.seat[1], at->excess_b - at->excess_a, on);
}

static struct sloped relief_lift(const double *parameter, const bool *on, double difference)
{
    const struct two_way seats = relief_seats(parameter);
    return two_way_lift(&seats, on, difference);
}

static struct flow relief_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    return seat_flow(relief_lift(at->parameter, at->on, a->excess - b->excess), at->parameter[BORE],
                     at->parameter[SEAT], at->discharge, a, b);
}

static void relief_passages(struct blueprint *into, int part)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = from.place,
                                                  .b = to.place,
                                                  .law = relief_flow,
                                                  .joint_of = -1,
                                                  .bore = into->part[part].value[BORE]});
    two_way_build(into, part, from.place, to.place, (struct two_way_words){"opens", "opens inward", "shuts"},
                  relief_pressure_margin, relief_vacuum_margin);
}

static void relief_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    const struct passage_look *way = &at->passage[0];
    shown[0] = at->passages > 0 ? relief_lift(at->parameter, at->on, way->a.excess - way->b.excess).value : 0.0;
}

const struct element_kind relief_kind = {
    .name = "relief",
    .meaning = "opens when pressure, or vacuum, gets too much",
    .parameter = relief_parameter,
    .fault = relief_fault,
    .end = relief_end,
    .shows = relief_shows,
    .is_passage = true,
    .passages = relief_passages,
    .show = relief_show,
};
