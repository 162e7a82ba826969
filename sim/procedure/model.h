/* sim/procedure/model.h  What the door calls a model: a network, a procedure, and what the scenario says beside them. */
#ifndef PROCEDURE_MODEL_H
#define PROCEDURE_MODEL_H

#include "procedure/procedure.h"

struct ullage_model {
    struct arena *arena; /* owns texts and lists below */
    struct network *network;
    struct procedure *procedure;
    const char *name, *about, *system;
    const char **label; /* [parts] */
    uint64_t seed;
    double stop;           /* s: the scenario's end, up to which a run goes on; INFINITY: it ends with its last step */
    double longest, every; /* s */
    int recorded;
    int *channel; /* [recorded] */
};

/* ---- record.c ---- */

/* Fills recorded, channel and every; longest is known. False when a problem was added, or memory is out. */
bool record_make(struct ullage_model *model, const struct ullage_description *description,
                 struct ullage_problems *problems);

#endif
