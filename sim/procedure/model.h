/* sim/procedure/model.h  What the door calls a model: a network, a procedure, and what the scenario says beside them. */
#ifndef PROCEDURE_MODEL_H
#define PROCEDURE_MODEL_H

#include "procedure/procedure.h"
#include "procedure/setting.h"

/* Something that the scenario says is done by hand at a moment. */
struct scheduled {
    double time;
    struct setting setting;
};

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
    int scheduled;
    struct scheduled *schedule; /* [scheduled] in order of time */
};

/* ---- schedule.c ---- */

/* What is done by hand: fills scheduled and schedule. False when a problem was added, or memory is out. */
bool schedule_make(struct ullage_model *model, const struct ullage_description *description,
                   struct ullage_problems *problems);
/* The settings of one moment's map {WHAT: VALUE, ...} into room for as many as it has; how many were good. */
int schedule_read(const struct ullage_model *model, struct arena *arena, const struct by_hand *of,
                  struct setting *setting, struct ullage_problems *problems);

/* ---- record.c ---- */

/* Fills recorded, channel and every; longest is known. False when a problem was added, or memory is out. */
bool record_make(struct ullage_model *model, const struct ullage_description *description,
                 struct ullage_problems *problems);

#endif
