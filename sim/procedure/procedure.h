/* sim/procedure/procedure.h  Steps, conditions, readings, verdicts: who decides what happens next.
 *
 * A procedure is compiled against a network (names become indices, dimensions are checked) and then followed by a conduct,
 * the outer loop over a run. The model and run of the door are made of these. */
#ifndef PROCEDURE_PROCEDURE_H
#define PROCEDURE_PROCEDURE_H

#include "run/run.h"

/* ---- expressions: expression.c ----
 *   or, and, not, < <= > >= == !=, + - * /, ( ), numbers with units, channels, readings, let values,
 *   settled(channel, 20 s, 2 Pa), rate(channel, 10 s), abs(x), min(a, b), max(a, b)
 * Dimensions are checked when the text is read. */
struct expression;

/* Pairs of (equipment, port) that the steps join anywhere; needed before the network can be made. Problems about unknown
 * parts are left to procedure_create. Returns how many were put into joint[most]. */
int procedure_joints(const struct ullage_description *description, struct joint *joint, int most);

struct procedure;
/* Null when problems were added. steps may be null: an empty procedure. Keeps nothing of the description. */
struct procedure *procedure_create(const struct ullage_description *description, const struct network *network,
                                   struct ullage_problems *problems);
void procedure_free(struct procedure *procedure);

#endif
