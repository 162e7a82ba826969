/* sim/base/unit.c  Units at the edge: the table, and how "14 inH2O", "0.2 L/kPa", "5 W/m2/K" are read.
 *
 *     quantity = number [unit]     unit = factor { "/" factor }     factor = name of the table [2 | 3]
 *
 * A factor's power belongs to its prefix as well: cm3 is (cm)3. An offset (degC, degF) counts only where the unit stands
 * alone; within quotients a degree is a step. Factors are exact by definition [SI2019], [SP811]; columns of liquid are the
 * conventional ones [SP811]: water of 1000 kg/m3, mercury of 13595.1 kg/m3, under 9.80665 m/s2. */
#include "base/unit.h"

#include "base/problem.h"
#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* clang-format off */
static const struct ullage_unit unit_table[] = {
    {"1", ULLAGE_NUMBER, 1.0, 0.0, "one, in quotients like 1/s"},
    {"%", ULLAGE_NUMBER, 1e-2, 0.0, "percent"},
    {"percent", ULLAGE_NUMBER, 1e-2, 0.0, "percent"},
    {"ppm", ULLAGE_NUMBER, 1e-6, 0.0, "parts per million"},

    {"m", ULLAGE_LENGTH, 1.0, 0.0, "metre"},
    {"dm", ULLAGE_LENGTH, 1e-1, 0.0, "decimetre"},
    {"cm", ULLAGE_LENGTH, 1e-2, 0.0, "centimetre"},
    {"mm", ULLAGE_LENGTH, 1e-3, 0.0, "millimetre"},
    {"um", ULLAGE_LENGTH, 1e-6, 0.0, "micrometre"},
    {"µm", ULLAGE_LENGTH, 1e-6, 0.0, "micrometre"},
    {"nm", ULLAGE_LENGTH, 1e-9, 0.0, "nanometre"},
    {"km", ULLAGE_LENGTH, 1e3, 0.0, "kilometre"},
    {"in", ULLAGE_LENGTH, 0.0254, 0.0, "inch"},
    {"ft", ULLAGE_LENGTH, 0.3048, 0.0, "foot"},

    {"L", ULLAGE_VOLUME, 1e-3, 0.0, "litre"},
    {"dL", ULLAGE_VOLUME, 1e-4, 0.0, "decilitre"},
    {"cL", ULLAGE_VOLUME, 1e-5, 0.0, "centilitre"},
    {"mL", ULLAGE_VOLUME, 1e-6, 0.0, "millilitre"},
    {"uL", ULLAGE_VOLUME, 1e-9, 0.0, "microlitre"},
    {"µL", ULLAGE_VOLUME, 1e-9, 0.0, "microlitre"},
    {"l", ULLAGE_VOLUME, 1e-3, 0.0, "litre"},
    {"ml", ULLAGE_VOLUME, 1e-6, 0.0, "millilitre"},
    {"cc", ULLAGE_VOLUME, 1e-6, 0.0, "cubic centimetre"},
    {"gal", ULLAGE_VOLUME, 3.785411784e-3, 0.0, "US gallon"},
    {"qt", ULLAGE_VOLUME, 0.946352946e-3, 0.0, "US quart"},

    {"s", ULLAGE_TIME, 1.0, 0.0, "second"},
    {"ms", ULLAGE_TIME, 1e-3, 0.0, "millisecond"},
    {"min", ULLAGE_TIME, 60.0, 0.0, "minute"},
    {"h", ULLAGE_TIME, 3600.0, 0.0, "hour"},
    {"day", ULLAGE_TIME, 86400.0, 0.0, "day"},
    {"Hz", ULLAGE_RATE, 1.0, 0.0, "per second"},
    {"rpm", ULLAGE_RATE, 1.0 / 60.0, 0.0, "turn per minute"},
    {"mph", ULLAGE_SPEED, 0.44704, 0.0, "mile per hour"},

    {"kg", ULLAGE_MASS, 1.0, 0.0, "kilogram"},
    {"g", ULLAGE_MASS, 1e-3, 0.0, "gram"},
    {"mg", ULLAGE_MASS, 1e-6, 0.0, "milligram"},
    {"ug", ULLAGE_MASS, 1e-9, 0.0, "microgram"},
    {"µg", ULLAGE_MASS, 1e-9, 0.0, "microgram"},
    {"lb", ULLAGE_MASS, 0.45359237, 0.0, "pound"},
    {"mol", ULLAGE_AMOUNT, 1.0, 0.0, "mole"},
    {"mmol", ULLAGE_AMOUNT, 1e-3, 0.0, "millimole"},
    {"umol", ULLAGE_AMOUNT, 1e-6, 0.0, "micromole"},

    {"Pa", ULLAGE_PRESSURE, 1.0, 0.0, "pascal"},
    {"hPa", ULLAGE_PRESSURE, 1e2, 0.0, "hectopascal"},
    {"kPa", ULLAGE_PRESSURE, 1e3, 0.0, "kilopascal"},
    {"MPa", ULLAGE_PRESSURE, 1e6, 0.0, "megapascal"},
    {"bar", ULLAGE_PRESSURE, 1e5, 0.0, "bar"},
    {"mbar", ULLAGE_PRESSURE, 1e2, 0.0, "millibar"},
    {"atm", ULLAGE_PRESSURE, 101325.0, 0.0, "standard atmosphere"},
    {"psi", ULLAGE_PRESSURE, 6894.757293168, 0.0, "pound-force per square inch"},
    {"inH2O", ULLAGE_PRESSURE, 249.08891, 0.0, "inch of water, conventional"},
    {"mmH2O", ULLAGE_PRESSURE, 9.80665, 0.0, "millimetre of water, conventional"},
    {"inHg", ULLAGE_PRESSURE, 3386.388640341, 0.0, "inch of mercury, conventional"},
    {"mmHg", ULLAGE_PRESSURE, 133.322387415, 0.0, "millimetre of mercury, conventional"},

    {"K", ULLAGE_TEMPERATURE, 1.0, 0.0, "kelvin"},
    {"degC", ULLAGE_TEMPERATURE, 1.0, 273.15, "degree Celsius; a step in quotients"},
    {"°C", ULLAGE_TEMPERATURE, 1.0, 273.15, "degree Celsius; a step in quotients"},
    {"degF", ULLAGE_TEMPERATURE, 5.0 / 9.0, 273.15 - 32.0 * 5.0 / 9.0, "degree Fahrenheit; a step in quotients"},
    {"°F", ULLAGE_TEMPERATURE, 5.0 / 9.0, 273.15 - 32.0 * 5.0 / 9.0, "degree Fahrenheit; a step in quotients"},

    {"J", ULLAGE_ENERGY, 1.0, 0.0, "joule"},
    {"kJ", ULLAGE_ENERGY, 1e3, 0.0, "kilojoule"},
    {"MJ", ULLAGE_ENERGY, 1e6, 0.0, "megajoule"},
    {"W", ULLAGE_POWER, 1.0, 0.0, "watt"},
    {"mW", ULLAGE_POWER, 1e-3, 0.0, "milliwatt"},
    {"kW", ULLAGE_POWER, 1e3, 0.0, "kilowatt"},
};

/* How a dimension is called: its SI unit, and in a sentence "write a length like 0.5 mm". */
static const struct dimension_word {
    enum ullage_dimension dimension;
    const char *si, *noun, *example;
} dimension_words[] = {
    {ULLAGE_NUMBER, "1", "a number", "0.5 or 40 %"},
    {ULLAGE_LENGTH, "m", "a length", "0.5 mm"},
    {ULLAGE_AREA, "m2", "an area", "2 mm2"},
    {ULLAGE_VOLUME, "m3", "a volume", "45 L"},
    {ULLAGE_TIME, "s", "a time", "10 s"},
    {ULLAGE_RATE, "1/s", "a rate", "3 1/h"},
    {ULLAGE_SPEED, "m/s", "a speed", "5 m/s"},
    {ULLAGE_MASS, "kg", "a mass", "12 g"},
    {ULLAGE_AMOUNT, "mol", "an amount", "0.04 mol"},
    {ULLAGE_MOLAR_MASS, "kg/mol", "a molar mass", "66 g/mol"},
    {ULLAGE_DENSITY, "kg/m3", "a density", "740 kg/m3"},
    {ULLAGE_PRESSURE, "Pa", "a pressure", "3.0 kPa"},
    {ULLAGE_PRESSURE_RATE, "Pa/s", "a pressure rate", "5 Pa/s"},
    {ULLAGE_TEMPERATURE, "K", "a temperature", "20 degC"},
    {ULLAGE_MASS_FLOW, "kg/s", "a mass flow", "4 g/h"},
    {ULLAGE_AMOUNT_FLOW, "mol/s", "an amount per time", "2 mmol/s"},
    {ULLAGE_VOLUME_FLOW, "m3/s", "a flow", "15 L/min"},
    {ULLAGE_GIVE, "m3/Pa", "a volume per pressure", "0.2 L/kPa"},
    {ULLAGE_ENERGY, "J", "an energy", "5 kJ"},
    {ULLAGE_POWER, "W", "a power", "2 W"},
    {ULLAGE_HEAT_CAPACITY, "J/K", "a heat capacity", "900 J/K"},
    {ULLAGE_HEAT_TRANSFER, "W/m2/K", "a heat transfer", "5 W/m2/K"},
};

/* clang-format on */

enum { UNITS = sizeof unit_table / sizeof unit_table[0] };

enum { DIMENSION_WORDS = sizeof dimension_words / sizeof dimension_words[0] };

enum { BASES = 5, POWER_MOST = 15, BASE_STEP = 32 }; /* of ULLAGE_POWERS: powers -16..15, five bits each */

const struct ullage_unit *ullage_units(int *count)
{
    *count = UNITS;
    return unit_table;
}

/* ---- dimensions ---- */
static void dimension_unpack(int dimension, int power[BASES])
{
    for (int i = 0; i < BASES; i++) {
        int digit = dimension % BASE_STEP;
        if (digit > POWER_MOST)
            digit -= BASE_STEP;
        if (digit < -POWER_MOST - 1)
            digit += BASE_STEP;
        power[i] = digit;
        dimension = (dimension - digit) / BASE_STEP;
    }
}

static int dimension_pack(const int power[BASES])
{
    return ULLAGE_POWERS(power[0], power[1], power[2], power[3], power[4]);
}

static const struct dimension_word *dimension_word(int dimension)
{
    for (int i = 0; i < DIMENSION_WORDS; i++)
        if ((int)dimension_words[i].dimension == dimension)
            return &dimension_words[i];
    return NULL;
}

const char *ullage_dimension_name(int dimension, char *room)
{
    enum { ROOM = 64 };

    static const char *const base[BASES] = {"m", "kg", "s", "K", "mol"};
    const struct dimension_word *word = dimension_word(dimension);
    if (word) {
        snprintf(room, ROOM, "%s", word->si);
        return room;
    }
    int power[BASES];
    dimension_unpack(dimension, power);
    int length = 0;
    room[0] = '\0';
    for (int i = 0; i < BASES; i++) {
        const char *space = length > 0 ? " " : "";
        if (power[i] == 1)
            length += snprintf(room + length, (size_t)(ROOM - length), "%s%s", space, base[i]);
        else if (power[i] != 0)
            length += snprintf(room + length, (size_t)(ROOM - length), "%s%s^%d", space, base[i], power[i]);
    }
    return room;
}

/* ---- numbers ---- */
static const char *digits_end(const char *at)
{
    while (isdigit((unsigned char)*at))
        at++;
    return at;
}

const char *number_end(const char *text, bool signed_too)
{
    const char *at = text + (signed_too && (*text == '-' || *text == '+'));
    const char *whole = digits_end(at);
    const char *end = *whole == '.' ? digits_end(whole + 1) : whole;
    if (end - at == (*whole == '.')) /* no digit at all */
        return NULL;
    if (*end != 'e' && *end != 'E')
        return end;
    const char *exponent = end + 1 + (end[1] == '-' || end[1] == '+');
    const char *exponent_end = digits_end(exponent);
    return exponent_end > exponent ? exponent_end : end;
}

/* ---- quantities ---- */
enum quantity_fault { QUANTITY_GOOD, QUANTITY_EMPTY, QUANTITY_NO_NUMBER, QUANTITY_HUGE, QUANTITY_NO_UNIT };

struct quantity {
    double number;    /* as written */
    const char *unit; /* what follows the number; "" where nothing does */
    double factor, offset;
    int power[BASES];
};

static const struct ullage_unit *unit_named(const char *name, size_t length)
{
    for (int i = 0; i < UNITS; i++)
        if (strlen(unit_table[i].name) == length && memcmp(unit_table[i].name, name, length) == 0)
            return &unit_table[i];
    return NULL;
}

/* One factor of a unit, `sign` 1 above and -1 below a stroke. */
static bool factor_read(const char *name, size_t length, int sign, struct quantity *into)
{
    int power = 1;
    const struct ullage_unit *unit = unit_named(name, length);
    if (!unit && length > 1 && (name[length - 1] == '2' || name[length - 1] == '3')) {
        power = name[length - 1] - '0';
        length -= name[length - 2] == '^' && length > 2 ? 2 : 1;
        unit = unit_named(name, length);
    }
    if (!unit || (power != 1 && unit->dimension == ULLAGE_NUMBER))
        return false;
    int own[BASES];
    dimension_unpack((int)unit->dimension, own);
    for (int i = 0; i < BASES; i++) {
        into->power[i] += sign * power * own[i];
        if (into->power[i] < -POWER_MOST || into->power[i] > POWER_MOST)
            return false;
    }
    double factor = unit->factor;
    for (int i = 1; i < power; i++)
        factor *= unit->factor;
    into->factor = sign > 0 ? into->factor * factor : into->factor / factor;
    into->offset = power == 1 ? unit->offset : 0.0;
    return true;
}

static size_t trimmed(const char *from, const char *to)
{
    while (to > from && to[-1] == ' ')
        to--;
    return (size_t)(to - from);
}

static bool unit_compose(const char *unit, struct quantity *into)
{
    int sign = 1;
    for (const char *at = unit;; at++, sign = -1) {
        at += strspn(at, " ");
        const char *end = at + strcspn(at, "/");
        const size_t length = trimmed(at, end);
        const bool one_alone = !*end && sign > 0 && length == 1 && *at == '1';
        if (one_alone || !factor_read(at, length, sign, into))
            return false;
        if (sign < 0 || *end)
            into->offset = 0.0;
        if (!*end)
            return true;
        at = end;
    }
}

static enum quantity_fault quantity_parse(const char *text, struct quantity *into)
{
    *into = (struct quantity){.unit = "", .factor = 1.0};
    text += strspn(text, " \t\n");
    if (!*text)
        return QUANTITY_EMPTY;
    const char *end = number_end(text, true);
    if (!end)
        return QUANTITY_NO_NUMBER;
    into->number = strtod(text, NULL);
    into->unit = end + strspn(end, " \t\n");
    if (!isfinite(into->number))
        return QUANTITY_HUGE;
    if (!*into->unit)
        return QUANTITY_GOOD;
    if (!unit_compose(into->unit, into))
        return QUANTITY_NO_UNIT;
    return isfinite(into->number * into->factor + into->offset) ? QUANTITY_GOOD : QUANTITY_HUGE;
}

const char *ullage_quantity_read(const char *text, double *si, int *dimension)
{
    struct quantity quantity;
    switch (quantity_parse(text, &quantity)) {
    case QUANTITY_EMPTY:
        return "nothing stands here; write a number with its unit, like 0.5 mm";
    case QUANTITY_NO_NUMBER:
        return "this does not begin with a number; write a number with its unit, like 0.5 mm";
    case QUANTITY_HUGE:
        return "this number is too large to be real; write one within 1e300";
    case QUANTITY_NO_UNIT:
        return "this unit is not known; ullage list units prints those that are";
    case QUANTITY_GOOD:
        break;
    }
    *si = quantity.number * quantity.factor + quantity.offset;
    *dimension = dimension_pack(quantity.power);
    return NULL;
}

/* ---- with the dimension wanted ---- */
enum { SENTENCE = 160 };

const char *unit_wanted(int dimension, char *room)
{
    const struct dimension_word *word = dimension_word(dimension);
    char name[64];
    if (word)
        snprintf(room, SENTENCE, "write %s like %s", word->noun, word->example);
    else
        snprintf(room, SENTENCE, "write it in %.60s", ullage_dimension_name(dimension, name));
    return room;
}

/* The unit a person most likely meant, of the dimension wanted if there is one near. */
static const char *unit_nearest(const char *unit, int dimension)
{
    const char *name[UNITS];
    int fitting = 0;
    for (int i = 0; i < UNITS; i++)
        if ((int)unit_table[i].dimension == dimension)
            name[fitting++] = unit_table[i].name;
    const char *nearest = nearest_name(unit, name, fitting);
    if (nearest)
        return nearest;
    for (int i = 0; i < UNITS; i++)
        name[i] = unit_table[i].name;
    return nearest_name(unit, name, UNITS);
}

static const char *say_no_unit(const char *text, const struct quantity *quantity, int dimension, char *room)
{
    char shown[TEXT_SHORT], unit[TEXT_SHORT], right[SENTENCE];
    text_short(quantity->unit, unit);
    const bool alone = !strchr(unit, '/') && strcmp(unit, "1") != 0;
    const char *nearest = alone ? unit_nearest(unit, dimension) : NULL;
    if (unit[0] == ',')
        snprintf(room, SENTENCE, "%s has a comma; write decimals with a point, like 0.5", text_short(text, shown));
    else if (nearest)
        snprintf(room, SENTENCE, "%s is no unit; did you mean %s?", unit, nearest);
    else
        snprintf(room, SENTENCE, "%s is no unit; %s", unit, unit_wanted(dimension, right));
    return room;
}

static const char *say_no_number(const char *text, int dimension, char *room)
{
    char shown[TEXT_SHORT], right[SENTENCE];
    snprintf(room, SENTENCE, "%s is no number; %s", text_short(text, shown), unit_wanted(dimension, right));
    return room;
}

static const char *say_other_dimension(const char *text, const struct quantity *quantity, int dimension, char *room)
{
    char shown[TEXT_SHORT], right[SENTENCE], name[64];
    const int got = dimension_pack(quantity->power);
    const struct dimension_word *word = dimension_word(got);
    text_short(text, shown);
    unit_wanted(dimension, right);
    if (got == ULLAGE_NUMBER && !*quantity->unit)
        snprintf(room, SENTENCE, "%s has no unit; %.90s", shown, right);
    else if (word)
        snprintf(room, SENTENCE, "%s is %s; %.80s", shown, word->noun, right);
    else
        snprintf(room, SENTENCE, "%s is in %.30s; %.70s", shown, ullage_dimension_name(got, name), right);
    return room;
}

const char *unit_read(const char *text, int dimension, double *si, char *room)
{
    struct quantity quantity;
    char shown[TEXT_SHORT], right[SENTENCE];
    switch (quantity_parse(text, &quantity)) {
    case QUANTITY_EMPTY:
        snprintf(room, SENTENCE, "nothing stands here; %.100s", unit_wanted(dimension, right));
        return room;
    case QUANTITY_NO_NUMBER:
        return say_no_number(text, dimension, room);
    case QUANTITY_HUGE:
        snprintf(room, SENTENCE, "%s is too large to be real; %.80s", text_short(text, shown),
                 unit_wanted(dimension, right));
        return room;
    case QUANTITY_NO_UNIT:
        return say_no_unit(text, &quantity, dimension, room);
    case QUANTITY_GOOD:
        break;
    }
    if (dimension_pack(quantity.power) != dimension)
        return say_other_dimension(text, &quantity, dimension, room);
    *si = quantity.number * quantity.factor + quantity.offset;
    return NULL;
}
