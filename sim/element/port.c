/* sim/element/port.c  A port that shop equipment is joined to: a short bore into a gas space, tight while nothing is
 * joined. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

enum { BORE, LENGTH, LOSS };

enum { OF };

static const struct row port_parameter[] = {
    {"bore", ULLAGE_LENGTH, 8e-3, 1e-4, 0.1, "of its narrowest place", false},
    {"length", ULLAGE_LENGTH, 0.03, 1e-3, 1.0, "of its bore", false},
    {"loss", ULLAGE_NUMBER, 1.5, 0.0, 1e3, "sum of loss factors of its core, entrance and exit", false},
    {0}};

static const struct end_row port_end[] = {{"of", true, "gas space it leads into"}, {0}};

static struct flow port_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    const struct flow free = tube_flow(at->parameter[BORE], at->parameter[LENGTH], 0.0, at->parameter[LOSS], a, b);
    return flow_times(free, at->opening);
}

/* One passage for each piece of equipment that may be joined here; the network decides which are asked for. */
static void port_passages(struct blueprint *into, int part)
{
    const struct attachment of = blueprint_attachment(into, part, OF);
    if (of.kind != ATTACHED_PLACE)
        return;
    for (int k = 0; k < into->parts; k++)
        if (into->part[k].kind->feeds)
            blueprint_passage(into, (struct passage_plan){.part = part,
                                                          .a = blueprint_place(into, k, ""),
                                                          .b = of.place,
                                                          .law = port_flow,
                                                          .joint_of = k,
                                                          .bore = into->part[part].value[BORE]});
}

const struct element_kind port_kind = {
    .name = "port",
    .meaning = "where shop equipment is joined; tight while nothing is",
    .parameter = port_parameter,
    .fault = port_fault,
    .end = port_end,
    .is_passage = true,
    .passages = port_passages,
};
