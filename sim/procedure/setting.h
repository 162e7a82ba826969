/* sim/procedure/setting.h  One thing that a step or a hand sets: a part's command, a live parameter of it, what is wrong
 * with it, or something of the surroundings. */
#ifndef PROCEDURE_SETTING_H
#define PROCEDURE_SETTING_H

#include "procedure/expression.h"

enum { SETTING_COMMANDS = -1, SETTING_JOINS = -2, SETTING_PARTS = -3, SETTING_WEATHER = -4 };

struct setting {
    int part;            /* -1: none, the surroundings */
    int row;             /* of its parameters; or one of the above */
    int port;            /* that it joins it to */
    int fault;           /* of the network's; -1: none */
    bool puts_in;        /* it is told by its name and place, and may come with a course: */
    struct course course; /* as it was told; its `from` NAN: when it is set */
    double value;        /* SI, or the opening; size of a fault, 0: off */
    int weather;         /* row of weather_key[] */
    bool back;           /* of the surroundings: to what the file has */
    double lasts;        /* s that it takes */
    const char *told;    /* "to 35 degC within 20 min"; null: as `text` has it */
    const char *subject; /* "vent-valve", "leak.diameter", "seal-leak tank.neck" */
    const char *text;    /* "shut", "0.7 mm", "off" */
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

/* setting_fault.c: the same where `what` names a fault, "NAME PART.OPENING" or "ID.SIZE". *named: whether it does. */
bool fault_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into,
                        bool *named);

/* setting_course.c: "0.5 mm from=10min ramp=30s" taken apart. Not given: there was nothing but a size. */
bool course_setting_read(const struct scope *scope, struct phrase value, struct phrase *size, struct course *course);

/* setting_weather.c: the same where `what` is "surroundings.KEY". */
bool weather_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into,
                          bool *named);

/* A value that a row allows. */
bool parameter_read(const struct scope *scope, struct phrase value, const struct row *row, double *si);

/* Index of a part; -1 with a problem that names the nearest. */
int part_read(const struct scope *scope, struct phrase id);

#endif
