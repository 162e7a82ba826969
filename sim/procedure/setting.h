/* sim/procedure/setting.h  One thing that a step or a hand sets: a part's command, or a live parameter of it. */
#ifndef PROCEDURE_SETTING_H
#define PROCEDURE_SETTING_H

#include "procedure/expression.h"

struct setting {
    int part;
    int row;             /* of its parameters; -1: its command */
    double value;        /* SI, or the opening */
    const char *subject; /* "vent-valve", "leak.diameter" */
    const char *text;    /* "shut", "0.7 mm" */
};

/* `what` is set to `value`. False when a problem was added, or memory is out. */
bool setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into);

/* "Vent valve shut"; null when memory is out. */
const char *setting_title(const struct scope *scope, const struct setting *setting);
/* Does it let gas on? */
bool setting_feeds(const struct network *network, const struct setting *setting);

/* Is it about a fault? */
bool setting_faulty(const struct network *network, const struct setting *setting);

/* Index of a part; -1 with a problem that names the nearest. */
int part_read(const struct scope *scope, struct phrase id);

#endif
