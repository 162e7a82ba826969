/* sim/procedure/reader.h  Between expression.c, which knows the signs, and operand.c, which knows what stands between them. */
#ifndef PROCEDURE_READER_H
#define PROCEDURE_READER_H

#include "procedure/expression.h"
#include "procedure/token.h"

enum { NAME_LONGEST = 100, SENTENCE = 200 }; /* bytes */

/* What is known of a part of an expression before it is worked out. */
struct meaning {
    int dimension; /* or EXPRESSION_TRUTH */
    enum footing footing;
};

struct reader {
    const struct scope *scope;
    struct phrase phrase;
    struct token token; /* the one looked at; not taken yet */
    int nested, height; /* parentheses open; values on the stack */
    int *channel;
    struct operation *operation;
    struct expression into;
    bool failed; /* the first fault is told, the rest is silence */
};

/* ---- expression.c ---- */

/* Tells the first fault of all, at the place of `where`. Returns a plain number, so that callers go on in peace. */
struct meaning fault(struct reader *reader, const char *where, const char *wrong, const char *right);
void take(struct reader *reader);                            /* the next token */
void put(struct reader *reader, struct operation operation); /* writes it down */
bool deeper(struct reader *reader);                          /* opens one more level; false when it is one too many */
/* Both of one dimension, temperatures both levels or both steps; else a fault that begins with `doing`. */
bool alike(struct reader *reader, const char *where, struct meaning a, struct meaning b, const char *doing);
/* Everything whose signs are of `rank` or bind closer; 0: all. */
struct meaning read_ranks(struct reader *reader, int rank);

/* ---- operand.c ---- */

/* A number, a name, a call, a parenthesis; and one behind a minus sign that is the present token. */
struct meaning read_operand(struct reader *reader);
struct meaning read_negative(struct reader *reader);

#endif
