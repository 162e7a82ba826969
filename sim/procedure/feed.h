/* sim/procedure/feed.h  A stream of constant rate, as a bench has it: what a canister is loaded and purged with. */
#ifndef PROCEDURE_FEED_H
#define PROCEDURE_FEED_H

#include "element/element.h"

/* Parameters of a feed: mol/s, then mole shares of the fuel's components in their order; the rest is air. */
enum { FEED_RATE, FEED_SHARE };

extern const struct element_kind feed_kind;

#endif
