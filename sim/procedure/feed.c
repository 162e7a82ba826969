/* sim/procedure/feed.c  A stream of constant rate: a boundary, and a way from it that passes its rate whatever the pressures
 * are. No part of a vehicle or a shop is like that, so no file can ask for it. */
#include "procedure/feed.h"

#include <string.h>

enum { TO };

static const struct row feed_parameter[] = {
    {"rate", ULLAGE_AMOUNT_FLOW, REQUIRED, 0.0, 1e3, "of all it feeds", false},
    {0}}; /* the shares behind it are no rows: they have no names of their own */

static const struct end_row feed_end[] = {{"to", true, "gas space it feeds"}, {0}};

static void feed_stores(struct blueprint *into, int part)
{
    struct boundary_plan source = {.part = part, .share = {1.0}};
    memcpy(source.vapor, &into->part[part].value[FEED_SHARE], sizeof source.vapor);
    for (int k = 0; k < LIQUID_MOST; k++)
        source.share[0] -= source.vapor[k];
    source.share[0] = fmax(source.share[0], 0.0);
    blueprint_opening(into, part, "source", blueprint_boundary(into, source));
}

static struct flow feed_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    (void)a;
    (void)b;
    return (struct flow){.value = at->constant[FEED_RATE] * at->opening};
}

static void feed_passages(struct blueprint *into, int part)
{
    const struct attachment to = blueprint_attachment(into, part, TO);
    if (to.kind == ATTACHED_PLACE)
        blueprint_passage(into, (struct passage_plan){.part = part,
                                                      .a = blueprint_place(into, part, "source"),
                                                      .b = to.place,
                                                      .law = feed_flow,
                                                      .constant = {into->part[part].value[FEED_RATE]},
                                                      .joint_of = -1});
}

const struct element_kind feed_kind = {
    .name = "feed",
    .meaning = "a stream of constant rate",
    .parameter = feed_parameter,
    .end = feed_end,
    .stores = feed_stores,
    .passages = feed_passages,
};

_Static_assert(FEED_SHARE + LIQUID_MOST <= ROWS_MOST, "shares of a feed have no room");
