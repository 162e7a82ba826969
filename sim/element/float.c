/* sim/element/float.c  A float under a seat: what roll-over and fill-limit valves have in common.
 *
 * Liquid that comes to the opening lifts the float onto its seat. When the liquid has gone down again the float hangs there
 * as long as the difference of pressure times the bore of the seat is more than its weight: corked. `holds_to` is that
 * difference, weight over area: 4 g over 4 mm are 3 kPa, 6 g over 16 mm 0.3 kPa. */
#include "element/elements.h"

enum { FROM, TO };

double float_margin(const struct float_seat *seat, const struct switch_view *at, bool tilted, bool on)
{
    if (!on)
        return tilted ? 1.0 : at->head_a;
    const double held = (at->excess_a - at->excess_b) / seat->holds_to;
    return tilted ? -1.0 : fmin(-(at->head_a + seat->drop), 1.0 - held);
}

double float_opening(bool on, double held_shut, double held_open)
{
    return (on ? held_open : 1.0) * (1.0 - held_shut);
}

void float_build(struct blueprint *into, int part, passage_law *law, double bore,
                 double (*margin)(const struct switch_view *at, bool on))
{
    const struct attachment from = blueprint_attachment(into, part, FROM);
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (from.kind != ATTACHED_PLACE || to.kind != ATTACHED_PLACE)
        return;
    blueprint_passage(
        into,
        (struct passage_plan){.part = part, .a = from.place, .b = to.place, .law = law, .joint_of = -1, .bore = bore});
    blueprint_switch(into, (struct switch_plan){.part = part,
                                                .a = from.place,
                                                .b = to.place,
                                                .height_a = from.height,
                                                .height_b = to.height,
                                                .heads = true,
                                                .margin = margin,
                                                .turns_on = "shuts",
                                                .turns_off = "opens"});
}
