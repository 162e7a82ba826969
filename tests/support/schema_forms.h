/* tests/support/schema_forms.h  The small pieces that JSON Schemas are put together from: words, lists, maps, quantities. */
#ifndef SUPPORT_SCHEMA_FORMS_H
#define SUPPORT_SCHEMA_FORMS_H

#include "support/near.h"
#include "ullage.h"

#include <jansson.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>

enum { PATTERN = 2000 };

/* ---- small pieces ---- */
static inline json_t *text_pattern(const char *pattern)
{
    return json_pack("{s:s, s:s}", "type", "string", "pattern", pattern);
}

/* Any single value: what is a word to the program may be a number to a reader of YAML. */
static inline json_t *word(void)
{
    return json_pack("{s:[s, s, s]}", "type", "string", "number", "boolean");
}

static inline json_t *reference(const char *name)
{
    char path[80];
    snprintf(path, sizeof path, "#/$defs/%s", name);
    return json_pack("{s:s}", "$ref", path);
}

static inline json_t *list_of(json_t *item)
{
    return json_pack("{s:s, s:o}", "type", "array", "items", item);
}

static inline json_t *map_of(json_t *properties)
{
    return json_pack("{s:s, s:o, s:b}", "type", "object", "properties", properties, "additionalProperties", 0);
}

static inline json_t *told(json_t *schema, const char *meaning)
{
    json_object_set_new(schema, "description", json_string(meaning));
    return schema;
}

static inline json_t *enumeration(const char *const *choice)
{
    json_t *words = json_array();
    for (int i = 0; choice[i]; i++)
        json_array_append_new(words, json_string(choice[i]));
    return json_pack("{s:o}", "enum", words);
}

static inline void require(json_t *schema, const char *key)
{
    json_t *required = json_object_get(schema, "required");
    if (!required) {
        required = json_array();
        json_object_set_new(schema, "required", required);
    }
    json_array_append_new(required, json_string(key));
}

/* ---- quantities ---- */
static inline void pattern_add(char *pattern, const char *text)
{
    assert_true(strlen(pattern) + strlen(text) < PATTERN);
    strcat(pattern, text);
}

/* Names of units whose dimension to a power is `dimension`, as alternatives; of any dimension where `any`. */
static inline void units_add(char *pattern, int dimension, bool any)
{
    int count = 0;
    const struct ullage_unit *unit = ullage_units(&count);
    static const char *const powers[] = {"", "2", "3"};
    for (int i = 0; i < count; i++)
        for (int power = 1; power <= 3; power++) {
            const bool fits = any ? power == 1 : (int)unit[i].dimension * power == dimension;
            const bool pure = unit[i].dimension == ULLAGE_NUMBER;
            if (!fits || (pure && power > 1) || (!any && strcmp(unit[i].name, "1") == 0))
                continue;
            pattern_add(pattern, pattern[strlen(pattern) - 1] == '(' ? "" : "|");
            pattern_add(pattern, unit[i].name);
            pattern_add(pattern, powers[power - 1]);
        }
}

static inline void number_add(char *pattern, bool negative)
{
    pattern_add(pattern, negative ? "[-+]?" : "[+]?");
    pattern_add(pattern, "([0-9]+[.]?[0-9]*|[.][0-9]+)([eE][-+]?[0-9]+)? *");
}

/* A quotient of any units: whose dimension it has, a pattern does not see. */
static inline json_t *quotient(void)
{
    char pattern[PATTERN] = "^";
    number_add(pattern, true);
    pattern_add(pattern, "(");
    units_add(pattern, 0, true);
    pattern_add(pattern, ")[23]?( */ *(");
    units_add(pattern, 0, true);
    pattern_add(pattern, ")[23]?)+$");
    return text_pattern(pattern);
}

/* A number and a unit of that dimension that stands alone, or a quotient. */
static inline json_t *quantity(int dimension, bool negative)
{
    char pattern[PATTERN] = "^";
    number_add(pattern, negative);
    pattern_add(pattern, "(");
    const size_t empty = strlen(pattern);
    units_add(pattern, dimension, false);
    if (strlen(pattern) == empty)
        return reference("quotient");
    pattern_add(pattern, ")$");
    if (dimension == ULLAGE_NUMBER)
        return text_pattern(pattern);
    return json_pack("{s:[o, o]}", "anyOf", text_pattern(pattern), reference("quotient"));
}

static inline json_t *number(int dimension, double least, double most)
{
    json_t *schema = quantity(dimension, least < 0.0);
    if (dimension != ULLAGE_NUMBER)
        return schema;
    json_t *bare = json_pack("{s:s}", "type", "number");
    if (isfinite(least))
        json_object_set_new(bare, "minimum", json_real(least));
    if (isfinite(most))
        json_object_set_new(bare, "maximum", json_real(most));
    return json_pack("{s:[o, o]}", "anyOf", bare, schema);
}

static inline json_t *profile(int dimension)
{
    json_t *corner = json_pack("{s:s, s:[o, o], s:i, s:i}", "type", "array", "prefixItems", reference("time"),
                               quantity(dimension, true), "minItems", 2, "maxItems", 2);
    json_t *corners = list_of(corner);
    json_object_set_new(corners, "minItems", json_integer(1));
    return json_pack("{s:[o, o]}", "anyOf", quantity(dimension, true), corners);
}

#endif
