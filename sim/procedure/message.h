/* sim/procedure/message.h  Sentences of a procedure with values in them: "leak of {hole in mm}, {hole in in}".
 *
 * What stands in braces is an expression, `in UNIT` behind it if another unit than the usual one is wanted; {{ is a
 * brace. */
#ifndef PROCEDURE_MESSAGE_H
#define PROCEDURE_MESSAGE_H

#include "procedure/step.h"

struct message_unit {
    const char *name; /* "L/min"; null: a plain number, or SI */
    int dimension;
    double factor, offset; /* si = number * factor + offset */
};

struct message_piece {
    const char *text;               /* before the value */
    const struct expression *value; /* null: none */
    struct message_unit unit;
};

struct message {
    int pieces;
    const struct message_piece *piece;
};

/* Sets compiler->failed where it cannot be read. */
struct message message_read(struct compiler *at, const struct node *word);

/* The sentence at the present moment; text of the run's logbook, null when memory is out. */
const char *message_write(struct ullage_run *run, struct message message);

#endif
