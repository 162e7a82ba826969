/* sim/procedure/token.c  Cutting an expression into words, signs, and numbers with their units. */
#include "procedure/token.h"

#include "base/unit.h"

#include <ctype.h>
#include <string.h>

enum { QUANTITY_LONGEST = 80 }; /* bytes of a number with its unit */

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Bytes above ASCII belong to words: "µm", "°C". */
static bool is_letter(char c)
{
    return isalpha((unsigned char)c) || c == '_' || (unsigned char)c >= 0x80;
}

static bool is_word(char c)
{
    return is_letter(c) || isdigit((unsigned char)c);
}

static int name_length(const char *at)
{
    int length = 1;
    for (;;) {
        const char c = at[length];
        if (is_word(c) || ((c == '-' || c == '.') && is_word(at[length + 1])))
            length++;
        else
            return length;
    }
}

/* ---- numbers with units ---- */

/* Bytes of one factor of a unit: "inH2O", "m3", "m^3", "%", and the 1 of "1/s"; 0: none. */
static int factor_length(const char *at)
{
    if (*at == '%')
        return 1;
    if (at[0] == '1' && at[1] == '/')
        return 1;
    if (!is_letter(*at) || *at == '_')
        return 0;
    int length = 1;
    while (is_word(at[length]) || (at[length] == '^' && isdigit((unsigned char)at[length + 1])))
        length++;
    return length;
}

static bool reads_as_quantity(const char *start, int length)
{
    char text[QUANTITY_LONGEST + 1];
    double si;
    int dimension;
    if (length > QUANTITY_LONGEST)
        return false;
    memcpy(text, start, (size_t)length);
    text[length] = '\0';
    return !ullage_quantity_read(text, &si, &dimension);
}

/* End of the unit that stands after a number at `at`; `at` itself where none does. What begins like a unit and is none
 * is taken with the number, so that it can be told. */
static const char *unit_end(const char *number, const char *at)
{
    const char *unit = at;
    while (is_space(*unit))
        unit++;
    const char *end = unit + factor_length(unit);
    const int word = (int)(end - unit);
    if (word == 0 || (word == 3 && !memcmp(unit, "and", 3)) || (word == 2 && !memcmp(unit, "or", 2)))
        return at;
    const char *longest = NULL;
    for (;;) {
        if (reads_as_quantity(number, (int)(end - number)))
            longest = end;
        const int next = *end == '/' ? factor_length(end + 1) : 0;
        if (next == 0)
            break;
        end += 1 + next;
    }
    return longest ? longest : unit + word;
}

/* ---- tokens ---- */
static const char *const signs[] = {"<=", ">=", "==", "!=", "<", ">", "+", "-", "*", "/", "(", ")", ","};

enum { SIGNS = sizeof signs / sizeof signs[0] };

static int sign_length(const char *at)
{
    for (int k = 0; k < SIGNS; k++)
        if (!strncmp(at, signs[k], strlen(signs[k])))
            return (int)strlen(signs[k]);
    return 0;
}

struct token token_read(const char *text)
{
    while (is_space(*text))
        text++;
    struct token token = {.kind = TOKEN_END, .start = text};
    const char *number = number_end(text, false);
    if (!*text)
        return token;
    if (number) {
        token.kind = TOKEN_NUMBER;
        token.number = (int)(number - text);
        token.length = (int)(unit_end(text, number) - text);
    } else if (is_letter(*text)) {
        token.kind = TOKEN_NAME;
        token.length = name_length(text);
    } else {
        token.length = sign_length(text);
        token.kind = token.length > 0 ? TOKEN_SIGN : TOKEN_OTHER;
        token.length = token.length > 0 ? token.length : 1;
    }
    return token;
}

const char *token_after(const struct token *token)
{
    return token->start + token->length;
}

bool token_is(const struct token *token, const char *text)
{
    return (token->kind == TOKEN_SIGN || token->kind == TOKEN_NAME) && (size_t)token->length == strlen(text) &&
           !memcmp(token->start, text, (size_t)token->length);
}
