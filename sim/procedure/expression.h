/* sim/procedure/expression.h  Conditions and values as people write them: read once, evaluated often.
 *
 *     or, and, not          of conditions; not binds looser than a comparison
 *     <  <=  >  >=  ==  !=  of two like quantities; a value that is not there (NaN) makes each of them false
 *     +  -  *  /  ( )       a difference of two names needs spaces: "a - b"
 *     8 inH2O, 40 %, 3      numbers with units; without one only where a plain number is meant
 *     tank.gauge_pressure, time, NAME of a reading or of `let`
 *     abs(x)  min(a, b)  max(a, b)
 *     settled(channel, 20 s, 2 Pa)   largest minus smallest of the last 20 s is at most 2 Pa
 *     rate(channel, 10 s)            what it gained in the last 10 s, per second
 *
 * Dimensions are checked when the text is read. Temperatures are told from steps of temperature: "35 degC" is never taken
 * for a difference. settled and rate look back over the present wait, and after it over the wait that has just ended; before that
 * wait has lasted long enough settled is false, and so is every comparison with rate. */
#ifndef PROCEDURE_EXPRESSION_H
#define PROCEDURE_EXPRESSION_H

#include "network/network.h"
#include "procedure/window.h"

#include <limits.h>

/* In place of a dimension: of a condition; of any number, wanted. */
enum { EXPRESSION_TRUTH = INT_MIN, EXPRESSION_ANY = INT_MIN + 1 };

/* How a temperature is meant; every other quantity is EITHER. */
enum footing { FOOTING_EITHER, FOOTING_LEVEL, FOOTING_STEP };

/* A reading's name; its values stand in the run. */
struct slot {
    const char *name;
    int dimension;
    enum footing footing;
    int channel; /* the channel it is, or -1 */
};

/* Text and where it stands. */
struct phrase {
    const char *text;
    struct ullage_place at;
};
struct phrase phrase_of(const struct node *word);
struct ullage_place phrase_place(struct phrase phrase, const char *where); /* of a character in its text */

/* What an expression may name. */
struct scope {
    const struct network *network;
    const struct named_value *let; /* [lets] */
    int lets;
    const struct slot *slot; /* readings taken so far [slots] */
    int slots;
    struct window
        *window; /* those of the procedure; room for WINDOWS_MOST, or null: settled and rate may not stand here */
    int *windows;
    int wait; /* step whose time windows are filled in; -1: there was none */
    double earliest; /* s: what is set is not set before */
    struct arena *arena;
    struct ullage_problems *problems;
};

enum { WINDOWS_MOST = 256 };

struct operation;

struct expression {
    const char *text;
    int dimension; /* or EXPRESSION_TRUTH */
    enum footing footing;
    int channels; /* it looks at */
    const int *channel;
    int operations;
    const struct operation *operation;
    int bare_channel, bare_slot; /* the channel or reading that it is and nothing more; -1 */
    bool constant;               /* the same at any time */
};

/* Null when a problem was added, or memory is out. wanted: a dimension, EXPRESSION_TRUTH or EXPRESSION_ANY. */
const struct expression *expression_read(const struct scope *scope, struct phrase phrase, int wanted);

/* A value that is the same at any time: numbers, `let` and sums of them. False when a problem was added. */
bool constant_read(const struct scope *scope, struct phrase phrase, int dimension, double *value);

/* What an expression looks at. */
struct outlook {
    double time;
    const double *channel; /* values of expression->channel, in that order [channels] */
    const double *slot;    /* readings; NaN: not taken yet [slots] */
    const struct window *window;
    const struct window_memory *memory; /* [windows] */
    double since;                       /* begin of the wait that fills the windows */
    int wait;                           /* and its step; -1: none yet */
};

/* 1 or 0 for a condition. */
double expression_value(const struct expression *expression, const struct outlook *at);

/* ---- between expression.c, which reads, and evaluation.c ---- */
enum operation_code {
    OPERATION_NUMBER,
    OPERATION_CHANNEL,
    OPERATION_SLOT,
    OPERATION_SETTLED,
    OPERATION_RATE,
    OPERATION_NEGATIVE,
    OPERATION_NOT,
    OPERATION_ABS,
    OPERATION_OR, /* from here: of two */
    OPERATION_AND,
    OPERATION_LESS,
    OPERATION_AT_MOST,
    OPERATION_MORE,
    OPERATION_AT_LEAST,
    OPERATION_SAME,
    OPERATION_OTHER,
    OPERATION_SUM,
    OPERATION_DIFFERENCE,
    OPERATION_PRODUCT,
    OPERATION_QUOTIENT,
    OPERATION_MIN,
    OPERATION_MAX
};

enum { OPERATION_STACK = 64 }; /* values that may wait for their sign */

/* One entry of an expression written so that values come before their sign. */
struct operation {
    enum operation_code code;
    int index;     /* place in expression->channel, also of SETTLED and RATE; slot */
    int window;    /* of SETTLED and RATE */
    double number; /* of NUMBER; the band of SETTLED */
};

#endif
