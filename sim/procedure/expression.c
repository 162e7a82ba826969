/* sim/procedure/expression.c  Reading expressions: signs by their rank, dimensions checked at every sign, the first fault
 * told with the column of its word. What is read is written down for evaluation.c, values before their sign. */
#include "procedure/reader.h"

#include <stdio.h>
#include <string.h>

enum {
    TEXT_LONGEST = 2000, /* bytes of one expression */
    NESTED_MOST = 30     /* parentheses in parentheses */
};

static const struct meaning nothing = {ULLAGE_NUMBER, FOOTING_EITHER};

/* ---- places and faults ---- */
struct phrase phrase_of(const struct node *word)
{
    struct phrase phrase = {word->text, word->at};
    if (word->quoted && phrase.at.column > 0)
        phrase.at.column++;
    return phrase;
}

struct ullage_place phrase_place(struct phrase phrase, const char *where)
{
    struct ullage_place at = phrase.at;
    if (at.column > 0)
        for (const char *c = phrase.text; c < where; c++)
            at.column += ((unsigned char)*c & 0xC0) != 0x80;
    return at;
}

struct meaning fault(struct reader *reader, const char *where, const char *wrong, const char *right)
{
    if (!reader->failed)
        problem_add(reader->scope->problems, phrase_place(reader->phrase, where), right, "%s", wrong);
    reader->failed = true;
    return nothing;
}

static const char *meaning_name(struct meaning meaning, char room[64])
{
    if (meaning.dimension == EXPRESSION_TRUTH)
        return "a condition";
    return meaning.dimension == ULLAGE_NUMBER ? "a number without unit"
                                              : ullage_dimension_name(meaning.dimension, room);
}

void take(struct reader *reader)
{
    reader->token = token_read(token_after(&reader->token));
}

/* ---- writing down ---- */
void put(struct reader *reader, struct operation operation)
{
    if (reader->failed)
        return;
    reader->height += operation.code < OPERATION_NEGATIVE ? 1 : operation.code < OPERATION_OR ? 0 : -1;
    reader->operation[reader->into.operations++] = operation;
    if (reader->height > OPERATION_STACK)
        fault(reader, reader->token.start, "too much is nested here",
              "take it in several steps, with readings between");
}

bool alike(struct reader *reader, const char *where, struct meaning a, struct meaning b, const char *doing)
{
    char wrong[SENTENCE], name_a[64], name_b[64];
    if (a.dimension != b.dimension) {
        snprintf(wrong, sizeof wrong, "%s %s and %s", doing, meaning_name(a, name_a), meaning_name(b, name_b));
        const bool unit = a.dimension == ULLAGE_NUMBER || b.dimension == ULLAGE_NUMBER;
        fault(reader, where, wrong,
              unit ? "write the number with its unit" : "both sides have to be the same kind of quantity");
        return false;
    }
    if (a.footing != FOOTING_EITHER && b.footing != FOOTING_EITHER && a.footing != b.footing) {
        fault(reader, where, "a temperature and a step of temperature are two things", "write a step in K");
        return false;
    }
    return true;
}

bool deeper(struct reader *reader)
{
    if (++reader->nested > NESTED_MOST)
        fault(reader, reader->token.start, "too much is nested here",
              "take it in several steps, with readings between");
    return !reader->failed;
}

/* ---- signs between two ---- */
enum rule { OF_CONDITIONS, COMPARES, ADDS, TAKES_AWAY, MULTIPLIES, DIVIDES };

static const struct sign {
    const char *text;
    int rank; /* a higher one binds closer */
    enum operation_code code;
    enum rule rule;
} signs[] = {
    {"or", 0, OPERATION_OR, OF_CONDITIONS},  {"and", 1, OPERATION_AND, OF_CONDITIONS},
    {"<", 3, OPERATION_LESS, COMPARES},      {"<=", 3, OPERATION_AT_MOST, COMPARES},
    {">", 3, OPERATION_MORE, COMPARES},      {">=", 3, OPERATION_AT_LEAST, COMPARES},
    {"==", 3, OPERATION_SAME, COMPARES},     {"!=", 3, OPERATION_OTHER, COMPARES},
    {"+", 4, OPERATION_SUM, ADDS},           {"-", 4, OPERATION_DIFFERENCE, TAKES_AWAY},
    {"*", 5, OPERATION_PRODUCT, MULTIPLIES}, {"/", 5, OPERATION_QUOTIENT, DIVIDES},
};

enum { SIGNS = sizeof signs / sizeof signs[0], RANK_NOT = 2, RANK_COMPARES = 3 };

static const struct sign *sign_find(const struct token *token)
{
    for (int k = 0; k < SIGNS; k++)
        if (token_is(token, signs[k].text))
            return &signs[k];
    return NULL;
}

/* Powers above 15 do not fit into a dimension. */
static bool dimension_fits(int a, int b, int both)
{
    for (int k = 0; k < 5; k++) {
        const int low_a = ((a + 16) & 31) - 16;
        const int low_b = ((b + 16) & 31) - 16;
        if (low_a + low_b != ((both + 16) & 31) - 16)
            return false;
        a = (a - low_a) / 32;
        b = (b - low_b) / 32;
        both = (both - low_a - low_b) / 32;
    }
    return true;
}

static struct meaning join_factors(struct reader *reader, const char *where, struct meaning a, struct meaning b,
                                   bool divide)
{
    if (a.dimension == EXPRESSION_TRUTH || b.dimension == EXPRESSION_TRUTH)
        return fault(reader, where, "a condition cannot be counted with",
                     "compare numbers, join conditions with and, or");
    const int factor = divide ? -b.dimension : b.dimension;
    const int both = a.dimension + factor;
    if (!dimension_fits(a.dimension, factor, both))
        return fault(reader, where, "this power is too high", "no quantity of this bench has one above 15");
    return (struct meaning){both, FOOTING_EITHER};
}

static struct meaning join_sum(struct reader *reader, const char *where, struct meaning a, struct meaning b)
{
    if (a.footing == FOOTING_LEVEL && b.footing == FOOTING_LEVEL)
        return fault(reader, where, "the sum of two temperatures is none", "write a step of temperature in K");
    if (!alike(reader, where, (struct meaning){a.dimension, b.footing}, b, "the sum of"))
        return nothing;
    return a.footing == FOOTING_LEVEL || b.footing == FOOTING_EITHER ? a : b;
}

static struct meaning join_difference(struct reader *reader, const char *where, struct meaning a, struct meaning b)
{
    const struct meaning step = {b.dimension, b.footing == FOOTING_STEP ? a.footing : b.footing};
    if (!alike(reader, where, a, step, "the difference of"))
        return nothing;
    return (struct meaning){a.dimension, b.footing == FOOTING_LEVEL ? FOOTING_STEP : a.footing};
}

static struct meaning join(struct reader *reader, const struct sign *sign, const char *where, struct meaning a,
                           struct meaning b)
{
    const struct meaning truth = {EXPRESSION_TRUTH, FOOTING_EITHER};
    const bool conditions = a.dimension == EXPRESSION_TRUTH && b.dimension == EXPRESSION_TRUTH;
    if (sign->rule == OF_CONDITIONS)
        return conditions ? truth : fault(reader, where, "and, or join conditions", "compare the value with something");
    if (sign->rule == MULTIPLIES || sign->rule == DIVIDES)
        return join_factors(reader, where, a, b, sign->rule == DIVIDES);
    if (a.dimension == EXPRESSION_TRUTH || b.dimension == EXPRESSION_TRUTH)
        return fault(reader, where, "a condition is no number", "compare two at a time and join with and, or");
    if (sign->rule == ADDS)
        return join_sum(reader, where, a, b);
    if (sign->rule == TAKES_AWAY)
        return join_difference(reader, where, a, b);
    return alike(reader, where, a, b, "this compares") ? truth : nothing;
}

static struct meaning read_not(struct reader *reader)
{
    take(reader);
    const char *where = reader->token.start;
    if (!deeper(reader))
        return nothing;
    const struct meaning of = token_is(&reader->token, "not") ? read_not(reader) : read_ranks(reader, RANK_COMPARES);
    reader->nested--;
    if (!reader->failed && of.dimension != EXPRESSION_TRUTH)
        return fault(reader, where, "not belongs before a condition", "compare the value with something");
    put(reader, (struct operation){.code = OPERATION_NOT});
    return of;
}

static struct meaning read_first(struct reader *reader, int rank)
{
    if (rank <= RANK_NOT && token_is(&reader->token, "not"))
        return read_not(reader);
    return token_is(&reader->token, "-") ? read_negative(reader) : read_operand(reader);
}

/* Everything whose signs are of `rank` or bind closer. */
struct meaning read_ranks(struct reader *reader, int rank)
{
    struct meaning left = read_first(reader, rank);
    for (;;) {
        const struct sign *sign = sign_find(&reader->token);
        if (reader->failed || !sign || sign->rank < rank)
            return left;
        take(reader);
        const char *where = reader->token.start;
        const struct meaning right = read_ranks(reader, sign->rank + 1);
        if (reader->failed)
            return nothing;
        left = join(reader, sign, where, left, right);
        put(reader, (struct operation){.code = sign->code});
    }
}

/* ---- the whole ---- */
static void check_wanted(struct reader *reader, struct meaning got, int wanted)
{
    char wrong[SENTENCE], right[SENTENCE], name[64], unit[64];
    const char *start = reader->phrase.text;
    const bool truth = got.dimension == EXPRESSION_TRUTH;
    if (wanted == EXPRESSION_TRUTH && !truth)
        fault(reader, start, "this is a value, no condition", "compare it, like tank.gauge_pressure < 8 inH2O");
    else if (wanted != EXPRESSION_TRUTH && truth)
        fault(reader, start, "this is a condition, no value", "write a channel, a number or a sum of them");
    if (wanted == EXPRESSION_TRUTH || wanted == EXPRESSION_ANY || got.dimension == wanted)
        return;
    snprintf(wrong, sizeof wrong, "this is %s", meaning_name(got, name));
    snprintf(right, sizeof right, "write a value in %s", ullage_dimension_name(wanted, unit));
    fault(reader, start, wrong, right);
}

static void expression_finish(struct reader *reader, struct meaning got)
{
    struct expression *into = &reader->into;
    const struct operation *only = into->operations == 1 ? reader->operation : NULL;
    into->dimension = got.dimension;
    into->footing = got.footing;
    into->operation = reader->operation;
    into->channel = reader->channel;
    into->bare_channel = only && only->code == OPERATION_CHANNEL ? reader->channel[only->index] : -1;
    into->bare_slot = only && only->code == OPERATION_SLOT ? only->index : -1;
    into->constant = true;
    for (int k = 0; k < into->operations; k++)
        if (reader->operation[k].code != OPERATION_NUMBER && reader->operation[k].code < OPERATION_NEGATIVE)
            into->constant = false;
}

const struct expression *expression_read(const struct scope *scope, struct phrase phrase, int wanted)
{
    const size_t length = strlen(phrase.text);
    struct reader reader = {.scope = scope, .phrase = phrase};
    if (length > TEXT_LONGEST) {
        fault(&reader, phrase.text, "this is too long", "take it in several steps, with readings between");
        return NULL;
    }
    reader.operation = arena_take(scope->arena, (length + 1) * sizeof *reader.operation); /* one a byte at most */
    reader.channel = arena_take(scope->arena, (length + 1) * sizeof *reader.channel);
    reader.into.text = arena_text(scope->arena, phrase.text);
    struct expression *expression = arena_take(scope->arena, sizeof *expression);
    if (!reader.operation || !reader.channel || !reader.into.text || !expression)
        return NULL;
    reader.token = token_read(phrase.text);
    const struct meaning got = read_ranks(&reader, 0);
    if (!reader.failed && reader.token.kind != TOKEN_END)
        fault(&reader, reader.token.start, "this does not belong here", "join two conditions with and, or");
    if (!reader.failed)
        check_wanted(&reader, got, wanted);
    if (reader.failed)
        return NULL;
    expression_finish(&reader, got);
    *expression = reader.into;
    return expression;
}

bool constant_read(const struct scope *scope, struct phrase phrase, int dimension, double *value)
{
    const struct expression *expression = expression_read(scope, phrase, dimension);
    if (!expression)
        return false;
    if (!expression->constant) {
        problem_add(scope->problems, phrase.at, "write a number with its unit or a value of let",
                    "this value has to be known before the run");
        return false;
    }
    *value = expression_value(expression, &(struct outlook){0});
    return true;
}
