/* sim/procedure/message.c  Sentences with values in them. */
#include "procedure/message.h"

#include "procedure/conduct.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { VALUE_ROOM = 128, UNIT_LONGEST = 40, MESSAGE_LONGEST = 1000, FIGURES = 3 };

/* ---- reading ---- */
static bool unit_named(const char *name, struct message_unit *unit)
{
    char text[VALUE_ROOM];
    double zero, one;
    snprintf(text, sizeof text, "0 %.80s", name);
    if (!*name || strlen(name) > UNIT_LONGEST || ullage_quantity_read(text, &zero, &unit->dimension))
        return false;
    text[0] = '1';
    if (ullage_quantity_read(text, &one, &unit->dimension))
        return false;
    unit->name = name;
    unit->factor = one - zero;
    unit->offset = zero;
    return true;
}

/* What people read a quantity in where the sentence does not say. */
static struct message_unit unit_usual(int dimension)
{
    static const char *const usual[] = {"kPa", "mm", "s", "degC", "L/min", "g/h", "Pa/s", "L", "g", "mmol", "W"};

    for (size_t k = 0; k < sizeof usual / sizeof usual[0]; k++) {
        struct message_unit unit;
        if (unit_named(usual[k], &unit) && unit.dimension == dimension)
            return unit;
    }
    return (struct message_unit){.dimension = dimension};
}

/* The last " in " of the text, or null. */
static const char *last_in(const char *text)
{
    const char *last = NULL;
    for (const char *at = strstr(text, " in "); at; at = strstr(at + 1, " in "))
        last = at;
    return last;
}

/* "hole in mm" at `from`, `length` bytes of the word's text. */
static void value_read(struct compiler *at, struct phrase whole, const char *from, size_t length,
                       struct message_piece *into)
{
    char *text = compile_take(at, length + 1);
    if (!text)
        return;
    memcpy(text, from, length);
    const char *in = last_in(text);
    struct message_unit unit = {0};
    const bool given = in && unit_named(in + 4, &unit);
    if (given)
        text[in - text] = '\0';
    const struct phrase phrase = {text, phrase_place(whole, from)};
    into->value = compile_phrase(at, phrase, EXPRESSION_ANY);
    if (!into->value)
        return;
    into->unit = given ? unit : unit_usual(into->value->dimension);
    if (into->unit.dimension != into->value->dimension)
        compile_problem(at, phrase_place(whole, from + (in - text) + 4), "write a unit of the same kind of quantity",
                        "this value has no such unit");
}

/* Text up to the next value, with {{ made {; returns where it ends. */
static const char *text_read(struct compiler *at, const char *from, struct message_piece *into)
{
    char *text = compile_take(at, strlen(from) + 1);
    into->text = text;
    while (text && *from && (from[0] != '{' || from[1] == '{')) {
        from += from[0] == '{';
        *text++ = *from++;
    }
    return text ? from : "";
}

static int braces(const char *text)
{
    int count = 0;
    for (; *text; text++)
        count += *text == '{';
    return count;
}

struct message message_read(struct compiler *at, const struct node *word)
{
    const struct phrase whole = phrase_of(word);
    struct message message = {0};
    if (strlen(word->text) > MESSAGE_LONGEST) {
        compile_problem(at, word->at, "say it in fewer words", "this sentence is too long");
        return message;
    }
    struct message_piece *piece = compile_take(at, (size_t)(braces(word->text) + 1) * sizeof *piece);
    message.piece = piece;
    const char *from = word->text;
    while (piece && *from) {
        struct message_piece *into = &piece[message.pieces++];
        from = text_read(at, from, into);
        if (!*from)
            break;
        const char *end = strchr(from, '}');
        if (!end) {
            compile_problem(at, phrase_place(whole, from), "close it with }, or write {{ for a brace",
                            "this brace is not closed");
            break;
        }
        value_read(at, whole, from + 1, (size_t)(end - from - 1), into);
        from = end + 1;
    }
    return message;
}

/* ---- writing ---- */

/* Three figures without an exponent where that can be read: 0.0512, 3.00, 1234. */
static void figures(double value, char *room)
{
    const double size = fabs(value);
    const bool plain = (size >= 1e-4 && size < 1e7) || !(size > 0.0);
    const int whole = size > 0.0 && plain ? (int)floor(log10(size)) : 0;
    if (plain)
        snprintf(room, 32, "%.*f", whole < FIGURES ? FIGURES - 1 - whole : 0, value);
    else
        snprintf(room, 32, "%.*g", FIGURES, value);
}

static void value_write(double value, const struct message_unit *unit, char room[VALUE_ROOM])
{
    char number[32], name[64];
    figures(unit->name ? (value - unit->offset) / unit->factor : value, number);
    if (isnan(value))
        snprintf(room, VALUE_ROOM, "(not known)");
    else if (unit->name || unit->dimension != ULLAGE_NUMBER)
        snprintf(room, VALUE_ROOM, "%s %s", number,
                 unit->name ? unit->name : ullage_dimension_name(unit->dimension, name));
    else
        snprintf(room, VALUE_ROOM, "%s", number);
}

const char *message_write(struct ullage_run *run, struct message message)
{
    char text[2 * MESSAGE_LONGEST] = "";
    size_t length = 0;
    for (int k = 0; k < message.pieces; k++) {
        const struct message_piece *piece = &message.piece[k];
        char room[VALUE_ROOM] = "";
        if (piece->value)
            value_write(conduct_value(run, piece->value), &piece->unit, room);
        const int more = snprintf(text + length, sizeof text - length, "%s%s", piece->text, room);
        length += (size_t)more < sizeof text - length ? (size_t)more : sizeof text - length - 1;
    }
    return logbook_text(&run->log, text);
}
