/* sim/procedure/operand.c  What stands between the signs of an expression: numbers with units, names, functions. */
#include "base/text.h"
#include "procedure/reader.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct meaning nothing = {ULLAGE_NUMBER, FOOTING_EITHER};

/* A copy of the token's text, cut to NAME_LONGEST bytes. */
static const char *token_text(const struct token *token, char room[NAME_LONGEST + 1])
{
    const int length = token->length < NAME_LONGEST ? token->length : NAME_LONGEST;
    memcpy(room, token->start, (size_t)length);
    room[length] = '\0';
    return room;
}

static int channel_place(struct reader *reader, int channel)
{
    for (int k = 0; k < reader->into.channels; k++)
        if (reader->channel[k] == channel)
            return k;
    reader->channel[reader->into.channels] = channel;
    return reader->into.channels++;
}

/* ---- names ---- */

/* The name that was probably meant, out of readings, values of `let` and channels; or null. */
static const char *nearest_meant(const struct scope *scope, const char *name)
{
    const char *nearest = NULL;
    if (!strchr(name, '.')) {
        enum { OFFERED = 64 };

        const char *offer[OFFERED] = {"settled", "rate", "abs", "min", "max", "time"};
        int offers = 6;
        for (int k = 0; k < scope->slots && offers < OFFERED; k++)
            offer[offers++] = scope->slot[k].name;
        for (int k = 0; k < scope->lets && offers < OFFERED; k++)
            offer[offers++] = scope->let[k].name;
        nearest = nearest_name(name, offer, offers);
    }
    return nearest ? nearest : network_nearest_channel(scope->network, name);
}

static struct meaning unknown_name(struct reader *reader, const struct token *token)
{
    char name[NAME_LONGEST + 1], shown[TEXT_SHORT], wrong[SENTENCE], right[SENTENCE];
    token_text(token, name);
    const char *nearest = nearest_meant(reader->scope, name);
    snprintf(wrong, sizeof wrong, "%s is no channel, no reading taken before and no value of let",
             text_short(name, shown));
    if (nearest)
        snprintf(right, sizeof right, "did you mean %.100s?", nearest);
    else if (strchr(name, '-'))
        snprintf(right, sizeof right,
                 "write a difference with spaces, a - b; ullage list channels prints what there is");
    else
        snprintf(right, sizeof right, "ullage list channels prints what there is");
    return fault(reader, token->start, wrong, right);
}

static struct meaning put_channel(struct reader *reader, int channel)
{
    const int dimension = network_channel(reader->scope->network, channel).dimension;
    put(reader, (struct operation){.code = OPERATION_CHANNEL, .index = channel_place(reader, channel)});
    return (struct meaning){dimension, dimension == ULLAGE_TEMPERATURE ? FOOTING_LEVEL : FOOTING_EITHER};
}

static int slot_find(const struct scope *scope, const char *name)
{
    for (int k = 0; k < scope->slots; k++)
        if (!strcmp(scope->slot[k].name, name))
            return k;
    return -1;
}

static int let_find(const struct scope *scope, const char *name)
{
    for (int k = 0; k < scope->lets; k++)
        if (!strcmp(scope->let[k].name, name))
            return k;
    return -1;
}

static struct meaning read_name(struct reader *reader)
{
    const struct scope *scope = reader->scope;
    const struct token token = reader->token;
    char name[NAME_LONGEST + 1];
    token_text(&token, name);
    take(reader);
    const int slot = slot_find(scope, name);
    const int let = let_find(scope, name);
    if (slot >= 0) {
        put(reader, (struct operation){.code = OPERATION_SLOT, .index = slot});
        return (struct meaning){scope->slot[slot].dimension, scope->slot[slot].footing};
    }
    if (let >= 0) {
        put(reader, (struct operation){.code = OPERATION_NUMBER, .number = scope->let[let].value});
        return (struct meaning){scope->let[let].dimension, FOOTING_EITHER};
    }
    const int channel = token.length > NAME_LONGEST ? -1 : network_find_channel(scope->network, name);
    return channel >= 0 ? put_channel(reader, channel) : unknown_name(reader, &token);
}

/* ---- numbers ---- */
static struct meaning unknown_unit(struct reader *reader, const struct token *token)
{
    int count;
    const struct ullage_unit *units = ullage_units(&count);
    const char *nearest[128];
    int names = 0;
    while (names < count && names < 128) {
        nearest[names] = units[names].name;
        names++;
    }
    const char *unit = token->start + token->number;
    while (*unit == ' ')
        unit++;
    const struct token word = {.start = unit, .length = (int)(token_after(token) - unit)};
    char name[NAME_LONGEST + 1], shown[TEXT_SHORT], wrong[SENTENCE], right[SENTENCE];
    const char *meant = nearest_name(token_text(&word, name), nearest, names);
    snprintf(wrong, sizeof wrong, "%s is no unit", text_short(name, shown));
    if (meant)
        snprintf(right, sizeof right, "did you mean %.40s?", meant);
    else
        snprintf(right, sizeof right, "ullage list units prints those that are");
    return fault(reader, unit, wrong, right);
}

/* Does the token's unit have its zero elsewhere? Then no number of it is a step. */
static bool has_offset(const struct token *token)
{
    char text[NAME_LONGEST + 2];
    double zero = 0.0;
    int dimension;
    snprintf(text, sizeof text, "0%.*s", token->length - token->number, token->start + token->number);
    return !ullage_quantity_read(text, &zero, &dimension) && fabs(zero) > 0.0;
}

static struct meaning read_number(struct reader *reader, bool negative)
{
    const struct token token = reader->token;
    char text[NAME_LONGEST + 2] = "-";
    double si = 0.0;
    int dimension = ULLAGE_NUMBER;
    take(reader);
    if (token.length > NAME_LONGEST)
        return fault(reader, token.start, "this number is too long", "write it with fewer digits");
    token_text(&token, text + 1);
    const char *quantity = negative ? text : text + 1;
    const char *wrong = ullage_quantity_read(quantity, &si, &dimension);
    if (wrong && !isfinite(strtod(text + 1, NULL)))
        return fault(reader, token.start, "this number is too large to be real", "write one within 1e300");
    if (wrong)
        return unknown_unit(reader, &token);
    put(reader, (struct operation){.code = OPERATION_NUMBER, .number = si});
    return (struct meaning){dimension, has_offset(&token) ? FOOTING_LEVEL : FOOTING_EITHER};
}

/* ---- functions ---- */
static void expect(struct reader *reader, const char *sign)
{
    char right[SENTENCE];
    snprintf(right, sizeof right, "write %s here", sign);
    if (token_is(&reader->token, sign))
        take(reader);
    else
        fault(reader, reader->token.start, "something is missing", right);
}

static struct meaning read_abs(struct reader *reader)
{
    const char *where = reader->token.start;
    const struct meaning of = read_ranks(reader, 0);
    if (of.dimension == EXPRESSION_TRUTH)
        return fault(reader, where, "abs of a condition", "give it a number or a channel");
    put(reader, (struct operation){.code = OPERATION_ABS});
    return of;
}

static struct meaning read_extreme(struct reader *reader, enum operation_code code)
{
    const struct meaning a = read_ranks(reader, 0);
    expect(reader, ",");
    const char *where = reader->token.start;
    const struct meaning b = read_ranks(reader, 0);
    if (a.dimension == EXPRESSION_TRUTH)
        return fault(reader, where, "min and max of conditions", "give them numbers or channels");
    if (!alike(reader, where, a, b, "min and max of"))
        return nothing;
    put(reader, (struct operation){.code = code});
    return a.footing == FOOTING_EITHER ? b : a;
}

static struct meaning read_min(struct reader *reader)
{
    return read_extreme(reader, OPERATION_MIN);
}

static struct meaning read_max(struct reader *reader)
{
    return read_extreme(reader, OPERATION_MAX);
}

/* An argument that has to be known now; what was written down for it is taken back. */
static double read_constant(struct reader *reader, int dimension)
{
    char wrong[SENTENCE], name[64];
    const int mark = reader->into.operations;
    const int height = reader->height;
    const char *where = reader->token.start;
    const struct meaning of = read_ranks(reader, 0);
    if (reader->failed)
        return (double)NAN;
    bool constant = true;
    for (int k = mark; k < reader->into.operations; k++) {
        const enum operation_code code = reader->operation[k].code;
        constant = constant && (code == OPERATION_NUMBER || code >= OPERATION_NEGATIVE);
    }
    if (of.dimension != dimension || of.footing == FOOTING_LEVEL || !constant) {
        const char *unit = ullage_dimension_name(dimension, name);
        snprintf(wrong, sizeof wrong, "a fixed value in %s has to stand here", unit);
        fault(reader, where, wrong,
              dimension == ULLAGE_TEMPERATURE ? "write a step in K" : "write a number with its unit");
        return (double)NAN;
    }
    const struct expression part = {.operations = reader->into.operations - mark,
                                    .operation = reader->operation + mark};
    reader->into.operations = mark;
    reader->height = height;
    return expression_value(&part, &(struct outlook){0});
}

/* The window over `channel` and `duration` of the present wait, shared by all who ask for the same. -1: no room. */
static int window_place(const struct scope *scope, int channel, double duration)
{
    const struct window asked = {channel, duration, scope->wait};
    for (int k = 0; k < *scope->windows; k++) {
        const struct window *there = &scope->window[k];
        if (there->channel == channel && there->wait == scope->wait && !(there->duration < duration) &&
            !(there->duration > duration))
            return k;
    }
    if (*scope->windows == WINDOWS_MOST)
        return -1;
    scope->window[*scope->windows] = asked;
    return (*scope->windows)++;
}

/* "channel, 20 s": fills in what both settled and rate need; returns the channel's dimension. */
static int read_window(struct reader *reader, const char *where, struct operation *into)
{
    const struct scope *scope = reader->scope;
    const struct token token = reader->token;
    char name[NAME_LONGEST + 1];
    take(reader);
    const int channel = network_find_channel(scope->network, token_text(&token, name));
    if (token.kind != TOKEN_NAME)
        fault(reader, token.start, "a channel has to stand here", "write one like tank.gauge_pressure");
    else if (channel < 0)
        unknown_name(reader, &token);
    expect(reader, ",");
    const char *at_duration = reader->token.start;
    const double duration = read_constant(reader, ULLAGE_TIME);
    if (!reader->failed && !(duration > 0.0))
        fault(reader, at_duration, "there is nothing to look back over", "write a time above 0 s");
    if (!reader->failed && (!scope->window || scope->wait < 0))
        fault(reader, where, "there is no wait to look back over", "put a wait before this step");
    if (reader->failed)
        return ULLAGE_NUMBER;
    into->index = channel_place(reader, channel);
    into->window = window_place(scope, channel, duration);
    if (into->window < 0)
        fault(reader, where, "there are too many settled and rate", "keep them under 256");
    return network_channel(scope->network, channel).dimension;
}

static struct meaning read_settled(struct reader *reader)
{
    struct operation settled = {.code = OPERATION_SETTLED};
    const int dimension = read_window(reader, reader->token.start, &settled);
    expect(reader, ",");
    settled.number = reader->failed ? 0.0 : read_constant(reader, dimension);
    put(reader, settled);
    return (struct meaning){EXPRESSION_TRUTH, FOOTING_EITHER};
}

static struct meaning read_rate(struct reader *reader)
{
    struct operation rate = {.code = OPERATION_RATE};
    const int dimension = read_window(reader, reader->token.start, &rate);
    put(reader, rate);
    return (struct meaning){dimension - ULLAGE_TIME, FOOTING_EITHER};
}

static const struct function {
    const char *name;
    struct meaning (*read)(struct reader *reader);
} functions[] = {
    {"settled", read_settled}, {"rate", read_rate}, {"abs", read_abs}, {"min", read_min}, {"max", read_max},
};

enum { FUNCTIONS = sizeof functions / sizeof functions[0] };

static const struct function *function_find(const struct token *token)
{
    for (int k = 0; k < FUNCTIONS; k++)
        if (token_is(token, functions[k].name))
            return &functions[k];
    return NULL;
}

static struct meaning read_call(struct reader *reader)
{
    const struct token token = reader->token;
    const struct function *function = function_find(&token);
    take(reader); /* the name */
    take(reader); /* ( */
    if (!function)
        return fault(reader, token.start, "there is no such function", "there are settled, rate, abs, min and max");
    if (!deeper(reader))
        return nothing;
    const struct meaning result = function->read(reader);
    expect(reader, ")");
    reader->nested--;
    return result;
}

static struct meaning read_parenthesis(struct reader *reader)
{
    take(reader);
    if (!deeper(reader))
        return nothing;
    const struct meaning inside = read_ranks(reader, 0);
    expect(reader, ")");
    reader->nested--;
    return inside;
}

/* ---- what stands for itself ---- */
static struct meaning wrong_token(struct reader *reader)
{
    const char c = *reader->token.start;
    if (reader->token.kind == TOKEN_END)
        return fault(reader, reader->token.start, "something is missing at the end", "end with a value or a condition");
    if (c == '&' || c == '|' || c == '!' || c == '=')
        return fault(reader, reader->token.start, "this sign is not known", "write and, or, not, ==, !=");
    return fault(reader, reader->token.start, "no value stands here",
                 "write a number with its unit, a channel or a reading");
}

struct meaning read_operand(struct reader *reader)
{
    if (reader->failed)
        return nothing;
    if (reader->token.kind == TOKEN_NUMBER)
        return read_number(reader, false);
    if (token_is(&reader->token, "("))
        return read_parenthesis(reader);
    if (reader->token.kind != TOKEN_NAME || token_is(&reader->token, "and") || token_is(&reader->token, "or"))
        return wrong_token(reader);
    const struct token next = token_read(token_after(&reader->token));
    return token_is(&next, "(") ? read_call(reader) : read_name(reader);
}

struct meaning read_negative(struct reader *reader)
{
    take(reader);
    if (reader->token.kind == TOKEN_NUMBER)
        return read_number(reader, true); /* -5 degC is a temperature below zero, not one taken away */
    const char *where = reader->token.start;
    if (!deeper(reader))
        return nothing;
    const struct meaning of = token_is(&reader->token, "-") ? read_negative(reader) : read_operand(reader);
    reader->nested--;
    if (of.dimension == EXPRESSION_TRUTH)
        return fault(reader, where, "a condition has no sign", "write not for its contrary");
    put(reader, (struct operation){.code = OPERATION_NEGATIVE});
    return of;
}
