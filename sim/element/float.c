/* sim/element/float.c  A float under a seat: what roll-over and fill-limit valves have in common.
 *
 * Liquid that comes to the opening lifts the float onto its seat. When the liquid has gone down again the float hangs there
 * as long as the difference of pressure times the bore of the seat is more than its weight: corked. `holds_to` is that
 * difference, weight over area: 4 g over 4 mm are 3 kPa, 6 g over 16 mm 0.3 kPa. Pressure from behind does not push a floating
 * one off its seat.
 *
 * The seat stands above where liquid lifts the float, so that it is shut before it is wet: by half its bore, or half of what is
 * left to the roof. Where the float does not shut it, liquid goes by it as by an open valve, and by a shut seat that leaks as by
 * a hole of that leak: into what holds liquid behind (network/dip.c), or out. */
#include "element/elements.h"

enum { FROM, TO };

double float_margin(const struct float_seat *seat, const struct switch_view *at, bool tilted, bool on)
{
    if (seat->held_open >= 1.0) /* nothing lifts it */
        return on ? 1.0 : -1.0;
    if (!on)
        return tilted ? 1.0 : at->head_a;
    const double held = (at->excess_a - at->excess_b) / seat->holds_to;
    return tilted ? -1.0 : fmin(-(at->head_a + seat->drop), 1.0 - held);
}

double float_opening(bool on, double held_shut, double held_open)
{
    return (on ? held_open : 1.0) * (1.0 - held_shut);
}

double float_seeps(double open, double bore, double leak)
{
    return sqrt(open * bore * bore + (1.0 - open) * leak * leak);
}

double float_reaches(double open, double bore, double within)
{
    return open > 0.0 ? 1.0 / (1.0 / (open * bore) + within) : 0.0;
}

/* m above the bottom: the middle of the seat. */
static double seat_height(const struct blueprint *into, const struct attachment *from, double bore)
{
    const struct vessel_shape *shape = from->place >= 0 ? &into->volume[from->place].shape : NULL;
    const double roof = shape && shape->corners > 0 ? shape->height[shape->corners - 1] : from->height;
    return from->height > 0.0 ? from->height + 0.5 * fmin(bore, fmax(roof - from->height, 0.0)) : 0.0;
}

void float_build(struct blueprint *into, int part, const struct float_passage *plan)
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = from.place,
                                                  .b = to.place,
                                                  .law = plan->law,
                                                  .constant = {from.within + to.within},
                                                  .joint_of = -1,
                                                  .bore = plan->bore,
                                                  .height_a = seat_height(into, &from, plan->bore),
                                                  .height_b = to.height,
                                                  .seep = plan->seep,
                                                  .reaches = plan->reaches});
    blueprint_switch(into, (struct switch_plan){.part = part,
                                                .a = from.place,
                                                .b = to.place,
                                                .height_a = from.height,
                                                .height_b = to.height,
                                                .heads = true,
                                                .margin = plan->margin,
                                                .turns_on = "shuts",
                                                .turns_off = "opens"});
}
