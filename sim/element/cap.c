/* sim/element/cap.c  A cap on an opening: off, on, or covering a part of it; on, its seal may leak, and its reliefs let gas
 * out or in. Law of the reliefs: poppet.c. */
#include "element/elements.h"
#include "law/sum.h"

enum { BORE, SEAL, OPENING_PRESSURE, OPENING_VACUUM, HYSTERESIS, OVERPRESSURE, RELIEF_BORE };

enum { OF, TO };

#define NO_RELIEF 1e6 /* Pa: more than any tank ever sees */

static const struct row cap_parameter[] = {
    {"bore", ULLAGE_LENGTH, 38e-3, 1e-3, 0.5, "of the opening it covers", true},
    {"seal_leak", ULLAGE_LENGTH, 0.0, 0.0, 0.1, "thin round hole that its seal is like", true},
    {"opening_pressure", ULLAGE_PRESSURE, NO_RELIEF, 10.0, NO_RELIEF,
     "within over without, at which it lets gas out; as usual: never", true},
    {"opening_vacuum", ULLAGE_PRESSURE, NO_RELIEF, 10.0, NO_RELIEF,
     "without over within, at which it lets gas in; as usual: never", true},
    {"hysteresis", ULLAGE_NUMBER, 0.2, 0.01, 0.95, "share of the opening pressure by which it shuts lower", true},
    {"overpressure", ULLAGE_NUMBER, 1.0, 0.05, 5.0, "share of the opening pressure, above it, at which it is wide open",
     true},
    {"relief_bore", ULLAGE_LENGTH, 6e-3, 1e-4, 0.1, "of each wide-open relief, as a sharp round hole", true},
    {0}};

static const char *const rests[] = {"on", "off", NULL};
static const struct word_row cap_word[] = {{"normally", rests, 0, "before any command"}, {0}};

static const struct end_row cap_end[] = {
    {"of", true, "gas space whose opening it covers"}, {"to", false, "what lies outside it; left out: air"}, {0}};

static const struct command_row cap_command[] = {{"on", 0.0}, {"off", 1.0}, {0}};

static const struct show_row cap_shows[] = {{"open", ULLAGE_NUMBER, "share of the opening that it leaves free"},
                                            {"relief", ULLAGE_NUMBER, "how far its reliefs are open, either way"},
                                            {0}};

static struct two_way cap_seats(const double *p)
{
    return (struct two_way){
        {{p[OPENING_PRESSURE], p[HYSTERESIS], p[OVERPRESSURE]}, {p[OPENING_VACUUM], p[HYSTERESIS], p[OVERPRESSURE]}}};
}

static double cap_pressure_margin(const struct switch_view *at, bool on)
{
    const struct two_way seats = cap_seats(at->parameter);
    return poppet_margin(&seats.seat[0], at->excess_a - at->excess_b, on);
}

static double cap_vacuum_margin(const struct switch_view *at, bool on)
{
    const struct two_way seats = cap_seats(at->parameter);
    return poppet_margin(&seats.seat[1], at->excess_b - at->excess_a, on);
}

static struct flow cap_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const struct flow through = closure_flow(at, at->parameter[BORE], at->parameter[SEAL], a, b);
    if (!(at->on[0] || at->on[1]) || at->opening >= 1.0)
        return through;
    const struct two_way seats = cap_seats(at->parameter);
    const struct flow relief = seat_flow(two_way_lift(&seats, at->on, a->excess - b->excess),
                                         at->parameter[RELIEF_BORE], 0.0, at->discharge, a, b);
    return flow_plus(through, flow_times(relief, 1.0 - at->opening));
}

static double cap_seeps(const struct passage_view *at)
{
    return closure_seeps(at, at->parameter[BORE], at->parameter[SEAL]);
}

static void cap_passages(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    const struct attachment of = blueprint_attachment(into, part, OF);
    const struct attachment to = here->end[TO].part ? blueprint_attachment(into, part, TO)
                                                    : (struct attachment){ATTACHED_PLACE, PLACE_AIR, -1, 0.0, 0.0};
    if (of.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = of.place,
                                                  .b = to.place,
                                                  .law = cap_flow,
                                                  .joint_of = -1,
                                                  .bore = here->value[BORE],
                                                  .height_a = of.height,
                                                  .seep = cap_seeps});
    two_way_build(into, part, of.place, to.place,
                  (struct two_way_words){"relief opens", "relief opens inward", "relief shuts"}, cap_pressure_margin,
                  cap_vacuum_margin);
}

static double cap_at_rest(const struct part *part)
{
    return part->word[0] == 0 ? 0.0 : 1.0;
}

static void cap_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    const struct two_way seats = cap_seats(at->parameter);
    const struct passage_look *way = &at->passage[0];
    shown[0] = at->opening;
    shown[1] = at->passages > 0 ? two_way_lift(&seats, at->on, way->a.excess - way->b.excess).value : 0.0;
}

const struct element_kind cap_kind = {
    .name = "cap",
    .meaning = "covers an opening: on, off, or leaving a share of it free",
    .parameter = cap_parameter,
    .fault = cap_fault,
    .word = cap_word,
    .end = cap_end,
    .command = cap_command,
    .at_rest = cap_at_rest,
    .shows = cap_shows,
    .is_passage = true,
    .passages = cap_passages,
    .show = cap_show,
};
