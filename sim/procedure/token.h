/* sim/procedure/token.h  The words and signs an expression is made of. */
#ifndef PROCEDURE_TOKEN_H
#define PROCEDURE_TOKEN_H

#include <stdbool.h>

enum token_kind {
    TOKEN_END,
    TOKEN_NUMBER, /* with its unit: "8 inH2O" is one token */
    TOKEN_NAME,   /* "tank.gauge_pressure", "leak-bar.flow", "and" */
    TOKEN_SIGN,   /* "<=", "(" */
    TOKEN_OTHER   /* a character that means nothing here */
};

struct token {
    enum token_kind kind;
    const char *start;
    int length; /* bytes */
    int number; /* bytes of the number alone, in a TOKEN_NUMBER */
};

/* The token at the start of `text`, spaces skipped.
 *
 * A name begins with a letter or "_"; "-" and "." belong to it where a letter or digit follows at once, so a difference
 * of two names is written with spaces. A unit is the longest text after a number that reads as one. */
struct token token_read(const char *text);
const char *token_after(const struct token *token);

bool token_is(const struct token *token, const char *text);

#endif
