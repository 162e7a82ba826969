/* sim/procedure/setting.h  One thing that a step or a hand sets: a part's command, or a live parameter of it. */
#ifndef PROCEDURE_SETTING_H
#define PROCEDURE_SETTING_H

#include "procedure/expression.h"

enum { SETTING_COMMANDS = -1, SETTING_JOINS = -2, SETTING_PARTS = -3 };

struct setting {
    int part;
    int row;             /* of its parameters; or one of the above */
    int port;            /* that it joins it to */
    double value;        /* SI, or the opening */
    const char *subject; /* "vent-valve", "leak.diameter" */
    const char *text;    /* "shut", "0.7 mm" */
};

/* `what` is set to `value`. False when a problem was added, or memory is out. */
bool setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into);

/* What a hand can do: that, and "join PORT" or "part" for equipment that feeds gas. Joins only what the network has a joint for. */
bool hand_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into);

/* "Vent valve shut"; null when memory is out. */
const char *setting_title(const struct scope *scope, const struct setting *setting);
/* Does it let gas on? */
bool setting_feeds(const struct network *network, const struct setting *setting);

/* Is it about a fault? */
bool setting_faulty(const struct network *network, const struct setting *setting);

/* Index of a part; -1 with a problem that names the nearest. */
int part_read(const struct scope *scope, struct phrase id);

#endif
