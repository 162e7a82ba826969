/* sim/procedure/procedure.h  Steps, conditions, readings, verdicts: who decides what happens next.
 *
 * A procedure is compiled against a network (names become indices, dimensions are checked) and then followed by a conduct,
 * the outer loop over a run. The model and run of the door are made of these. */
#ifndef PROCEDURE_PROCEDURE_H
#define PROCEDURE_PROCEDURE_H

#include "procedure/expression.h"
#include "run/run.h"

struct step_kind;

enum { PROCEDURE_OVER = -2 }; /* in place of a step */

/* One step, in the order of the file; what lies inside a block follows it. */
struct step {
    const struct step_kind *kind;
    struct ullage_place at;
    const char *title;
    bool named; /* the title stands in the file */
    int depth;
    int after; /* goes on with this one: the next in its list; from the last of a list back to the block around it */
    int other; /* first step of a second list inside (`else`); -1: none */
    bool gas;  /* puts gas on the system */
    double least, most;             /* s; of a wait */
    const struct expression *until; /* of a wait; null: a plain time */
    bool exact;       /* of a wait: an input may change when its time is up, so a solver step ends there */
    const void *plan; /* the kind's own */
};

/* Immutable once made; any number of runs share it. */
struct procedure {
    struct arena *arena; /* owns everything below */
    int steps;
    struct step *step;
    int slots; /* readings by name */
    struct slot *slot;
    int windows;
    struct window *window;
    int lets;
    struct named_value *let;
    int widest; /* most channels in one expression */
};

/* Pairs of (equipment, port) that the steps join anywhere; needed before the network can be made. Problems about unknown
 * parts are left to procedure_create. Returns how many were put into joint, each once; with most 0 how many there may be. */
int procedure_joints(const struct ullage_description *description, struct joint *joint, int most);

/* Null when problems were added, or memory is out. No steps: an empty procedure. Keeps nothing of the description. */
struct procedure *procedure_create(const struct ullage_description *description, const struct network *network,
                                   struct ullage_problems *problems);
void procedure_free(struct procedure *procedure);

/* What can be said of a list of steps alone, without parts and channels: verbs, keys, waits without a limit. */
void procedure_check(const struct node *steps, struct ullage_problems *problems);

/* The longest it can last. s */
double procedure_longest(const struct procedure *procedure);

#endif
