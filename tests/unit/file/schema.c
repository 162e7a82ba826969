/* tests/unit/file/schema.c  Holds scenarios/schema/ and the program together: the schemas are made here from the tables that
 * the readers live off, and must be, byte for byte, what stands in the tree.
 *
 *     ULLAGE_WRITE=1 .build/tests/unit/file/schema      writes them anew, after a table has changed
 *
 * A schema sees keys, words, forms and units; what parts mean to each other it does not see. */
#include "element/element.h"
#include "file/readers.h"
#include "procedure/step.h"
#include "support/near.h"
#include "support/schema_forms.h"

#include <jansson.h>
#include <stdbool.h>

static const char draft[] = "https://json-schema.org/draft/2020-12/schema";
static const char id_pattern[] = "^[A-Za-z][A-Za-z0-9-]{0,39}$";
static const char let_pattern[] = "^[A-Za-z][A-Za-z0-9_-]{0,39}$";
static const char end_pattern[] = "^(?!air[.])[A-Za-z][A-Za-z0-9-]*(\\.[A-Za-z][A-Za-z0-9-]*)?$";
static const char path_pattern[] = "^(end|seed|name|about|[^.]+(\\.[^.]+)+)$";

/* ---- gases ---- */
static json_t *gas_names(void)
{
    json_t *names = json_array();
    for (int i = 0; i < species_known(); i++)
        if (!species_at(i)->passive)
            json_array_append_new(names, json_string(species_at(i)->name));
    return names;
}

static json_t *gas(void)
{
    return json_pack("{s:o}", "enum", gas_names());
}

static json_t *gas_or_mixture(void)
{
    json_t *mixture = json_pack("{s:s, s:{s:o}, s:o}", "type", "object", "propertyNames", "enum", gas_names(),
                                "additionalProperties", number(ULLAGE_NUMBER, 0.0, 1.0));
    return json_pack("{s:[o, o]}", "anyOf", gas(), mixture);
}

/* ---- parts ---- */
static void numbers_put(json_t *schema, const struct row *rows)
{
    for (int i = 0; rows && rows[i].name; i++) {
        json_object_set_new(json_object_get(schema, "properties"), rows[i].name,
                            told(number(rows[i].dimension, rows[i].least, rows[i].most), rows[i].meaning));
        if (isnan(rows[i].usual))
            require(schema, rows[i].name);
    }
}

static void words_put(json_t *schema, const struct word_row *rows)
{
    for (int i = 0; rows && rows[i].name; i++) {
        json_object_set_new(json_object_get(schema, "properties"), rows[i].name,
                            told(rows[i].choice ? enumeration(rows[i].choice) : gas(), rows[i].meaning));
        if (rows[i].usual < 0)
            require(schema, rows[i].name);
    }
}

static void ends_put(json_t *schema, const struct end_row *rows)
{
    for (int i = 0; rows && rows[i].name; i++) {
        json_object_set_new(json_object_get(schema, "properties"), rows[i].name,
                            told(text_pattern(end_pattern), rows[i].meaning));
        if (rows[i].required)
            require(schema, rows[i].name);
    }
}

/* [[VOLUME, HEIGHT], ...] */
static json_t *levels(void)
{
    json_t *pair =
        json_pack("{s:s, s:[o, o], s:i, s:i}", "type", "array", "prefixItems", quantity(ULLAGE_VOLUME, false),
                  quantity(ULLAGE_LENGTH, false), "minItems", 2, "maxItems", 2);
    json_t *list = list_of(pair);
    json_object_set_new(list, "minItems", json_integer(2));
    json_object_set_new(list, "maxItems", json_integer(LEVELS_MOST));
    return told(list, "how high so much liquid stands, from [0 L, 0 mm] to the roof; left out: a box");
}

/* [[TIME, PRESSURE, AIR FLOW], ...] */
static json_t *trace(void)
{
    json_t *row =
        json_pack("{s:s, s:[o, o, o], s:i, s:i}", "type", "array", "prefixItems", quantity(ULLAGE_TIME, false),
                  quantity(ULLAGE_PRESSURE, false), quantity(ULLAGE_MASS_FLOW, false), "minItems", 3, "maxItems", 3);
    json_t *list = list_of(row);
    json_object_set_new(list, "minItems", json_integer(1));
    json_object_set_new(list, "maxItems", json_integer(TRACE_MOST));
    return told(list, "where it stands at each moment: absolute pressure in the manifold, air it swallows");
}

static void openings_put(json_t *schema, const struct element_kind *kind)
{
    static const char *const shapes[] = {"box", "saddle", "cylinder", "drum", NULL};
    json_t *properties = json_object_get(schema, "properties");
    if (kind->opening_list) {
        json_object_set_new(properties, "openings",
                            json_pack("{s:s, s:i, s:o, s:o}", "type", "object", "maxProperties", (int)OPENINGS_MOST,
                                      "propertyNames", text_pattern(id_pattern), "additionalProperties",
                                      quantity(ULLAGE_LENGTH, false)));
        json_object_set_new(properties, "shape", told(enumeration(shapes), "for the drawing"));
    }
    if (kind->level_list)
        json_object_set_new(properties, "levels", levels());
    if (kind->trace_list)
        json_object_set_new(properties, "trace", trace());
    if (kind->port_list)
        json_object_set_new(properties, "ports", list_of(text_pattern(id_pattern)));
}

static void beds_put(json_t *schema, const struct element_kind *kind)
{
    if (!kind->bed)
        return;
    json_t *bed = map_of(json_object()), *beds = list_of(bed);
    numbers_put(bed, kind->bed);
    words_put(bed, kind->bed_word);
    json_object_set_new(beds, "minItems", json_integer(1));
    json_object_set_new(beds, "maxItems", json_integer(BEDS_MOST));
    json_object_set_new(json_object_get(schema, "properties"), "beds", beds);
    require(schema, "beds");
}

static json_t *kind_schema(const struct element_kind *kind)
{
    json_t *at =
        json_pack("{s:s, s:{s:s}, s:i, s:i}", "type", "array", "items", "type", "number", "minItems", 2, "maxItems", 2);
    json_t *turn = json_pack("{s:[i, i, i, i]}", "enum", 0, 90, 180, 270);
    json_t *schema = map_of(json_pack("{s:{s:s}, s:o, s:o, s:o}", "type", "const", kind->name, "at",
                                      told(at, "centre on the drawing"), "turn", told(turn, "degrees, for the drawing"),
                                      "short", told(word(), "label on the drawing")));
    numbers_put(schema, kind->parameter);
    words_put(schema, kind->word);
    ends_put(schema, kind->end);
    openings_put(schema, kind);
    beds_put(schema, kind);
    return told(schema, kind->meaning);
}

/* By its type, so that an editor offers the keys of that type alone. */
static json_t *part_schema(void)
{
    const struct element_kind *const *kinds = element_kinds();
    json_t *names = json_array(), *all = json_array();
    for (int k = 0; kinds[k]; k++) {
        json_array_append_new(names, json_string(kinds[k]->name));
        json_array_append_new(all, json_pack("{s:{s:{s:{s:s}}, s:[s]}, s:o}", "if", "properties", "type", "const",
                                             kinds[k]->name, "required", "type", "then", reference(kinds[k]->name)));
    }
    return json_pack("{s:s, s:[s], s:{s:{s:o}}, s:o}", "type", "object", "required", "type", "properties", "type",
                     "enum", names, "allOf", all);
}

static json_t *ids_schema(void)
{
    int count = 0;
    const char *const *key = scenario_keys(&count);
    json_t *taken = json_pack("[s, s]", "air", "time");
    for (int i = 0; i < count; i++)
        json_array_append_new(taken, json_string(key[i]));
    return json_pack("{s:s, s:{s:o}}", "pattern", id_pattern, "not", "enum", taken);
}

static json_t *parts_schema(int least)
{
    return json_pack("{s:s, s:i, s:o, s:o}", "type", "object", "minProperties", least, "propertyNames", ids_schema(),
                     "additionalProperties", reference("part"));
}

static void part_definitions(json_t *definitions)
{
    const struct element_kind *const *kinds = element_kinds();
    json_object_set_new(definitions, "part", part_schema());
    json_object_set_new(definitions, "parts", parts_schema(1));
    for (int k = 0; kinds[k]; k++)
        json_object_set_new(definitions, kinds[k]->name, kind_schema(kinds[k]));
}

/* ---- faults ---- */

/* Each dimension that a size of this key may have, once; the numbers of a hole, too. */
static json_t *size_schema(const char *key)
{
    const double infinity = (double)INFINITY;
    const struct element_kind *const *kinds = element_kinds();
    const struct row *hole = element_find("hole")->parameter;
    const int own = rows_find(hole, key);
    int noted[8], count = 0;
    json_t *all = json_array();
    if (own >= 0) {
        noted[count++] = hole[own].dimension;
        json_array_append_new(all, number(hole[own].dimension, hole[own].least, hole[own].most));
    }
    for (int k = 0; kinds[k]; k++) {
        const struct fault_row *row = NULL;
        for (int r = 0; (row = fault_at(kinds[k], r)); r++) {
            bool known = strcmp(row->size, key) != 0;
            for (int n = 0; n < count; n++)
                known = known || noted[n] == row->dimension;
            if (known)
                continue;
            assert_true(count < 8);
            noted[count++] = row->dimension;
            json_array_append_new(all, row->dimension == ULLAGE_NUMBER ? number(row->dimension, -infinity, infinity)
                                                                       : quantity(row->dimension, true));
        }
    }
    if (count > 1)
        return json_pack("{s:o}", "anyOf", all);
    json_t *only = json_incref(json_array_get(all, 0));
    json_decref(all);
    return only;
}

static bool word_noted(const json_t *list, const char *word)
{
    for (size_t i = 0; i < json_array_size(list); i++)
        if (strcmp(json_string_value(json_array_get(list, i)), word) == 0)
            return true;
    return false;
}

static json_t *fault_schema(void)
{
    static const char *const times[] = {"from", "ramp", "until", "every", "for"};
    const struct element_kind *const *kinds = element_kinds();
    json_t *names = json_array();
    json_t *schema = map_of(json_pack("{s:o, s:o, s:o}", "id", ids_schema(), "fault", json_pack("{s:o}", "enum", names),
                                      "where", told(text_pattern(end_pattern), "PART or PART.OPENING")));
    json_t *properties = json_object_get(schema, "properties");
    for (size_t i = 0; i < sizeof times / sizeof times[0]; i++)
        json_object_set_new(properties, times[i], reference("time"));
    for (const struct row *row = element_find("hole")->parameter; row->name; row++)
        json_object_set_new(properties, row->name, size_schema(row->name));
    for (int k = 0; kinds[k]; k++) {
        const struct fault_row *row = NULL;
        for (int r = 0; (row = fault_at(kinds[k], r)); r++) {
            if (!word_noted(names, row->name))
                json_array_append_new(names, json_string(row->name));
            if (!json_object_get(properties, row->size))
                json_object_set_new(properties, row->size, size_schema(row->size));
        }
    }
    json_object_set_new(schema, "required", json_pack("[s, s, s]", "id", "fault", "where"));
    json_object_set_new(schema, "dependentRequired", json_pack("{s:[s], s:[s]}", "every", "for", "for", "every"));
    return schema;
}

/* ---- steps ---- */
static json_t *step_value(const struct step_key *key)
{
    switch (key->form) {
    case FORM_STEPS:
        return reference("steps");
    case FORM_TIME:
    case FORM_CONDITION:
        return json_pack("{s:s}", "type", "string");
    case FORM_COUNT:
        return json_pack("{s:[s, s]}", "type", "integer", "string");
    case FORM_TEXT:
        break;
    }
    return word();
}

static json_t *step_keys(const struct step_key *key)
{
    json_t *properties = json_object();
    for (; key->name; key++)
        json_object_set_new(properties, key->name, told(step_value(key), key->meaning));
    return map_of(properties);
}

static json_t *names_with(json_t *value)
{
    return json_pack("{s:s, s:i, s:o}", "type", "object", "minProperties", 1, "additionalProperties", value);
}

/* What a verb's own check asks across its keys. */
static const struct {
    const char *verb, *rule;
} verb_rules[] = {
    {"wait", "{\"oneOf\": [{\"required\": [\"for\"], \"maxProperties\": 1},"
             "{\"required\": [\"until\", \"at_most\"], \"maxProperties\": 2}]}"},
    {"repeat", "{\"required\": [\"steps\"], \"anyOf\": [{\"required\": [\"times\"]}, {\"required\": [\"at_most\"]}]}"},
};

static json_t *verb_schema(const struct step_kind *kind)
{
    json_t *schema = NULL;
    switch (kind->holds) {
    case HOLDS_KEYS:
        schema = step_keys(kind->key);
        break;
    case HOLDS_NAMES:
        schema = names_with(word());
        break;
    case HOLDS_MAPS:
        schema = names_with(step_keys(kind->key));
        break;
    case HOLDS_TEXT:
        schema = word();
        break;
    case HOLDS_LINKS:
        schema = json_pack("{s:[o, o, o]}", "anyOf", word(), list_of(word()), names_with(word()));
        break;
    }
    for (size_t i = 0; i < sizeof verb_rules / sizeof verb_rules[0]; i++)
        if (strcmp(verb_rules[i].verb, kind->verb) == 0) {
            json_t *rule = json_loads(verb_rules[i].rule, 0, NULL);
            assert_non_null(rule);
            json_object_update(schema, rule);
            json_decref(rule);
        }
    return told(schema, kind->meaning);
}

static json_t *step_schema(void)
{
    const struct step_kind *const *kinds = step_kinds();
    json_t *properties = json_pack("{s:o}", "name", word()), *one = json_array();
    for (int k = 0; kinds[k]; k++) {
        json_object_set_new(properties, kinds[k]->verb, verb_schema(kinds[k]));
        json_array_append_new(one, json_pack("{s:[s]}", "required", kinds[k]->verb));
    }
    json_t *schema = map_of(properties);
    json_object_set_new(schema, "oneOf", one);
    return schema;
}

static void step_definitions(json_t *definitions)
{
    json_object_set_new(definitions, "step", step_schema());
    json_object_set_new(definitions, "steps", list_of(reference("step")));
}

/* ---- the scenario's own keys ---- */
static json_t *surroundings_schema(void)
{
    json_t *schema = map_of(json_pack("{s:o, s:o, s:o, s:o, s:o}", "pressure", profile(ULLAGE_PRESSURE), "altitude",
                                      quantity(ULLAGE_LENGTH, true), "temperature", profile(ULLAGE_TEMPERATURE), "sun",
                                      profile(ULLAGE_HEAT_FLUX), "wind", profile(ULLAGE_SPEED)));
    json_object_set_new(schema, "not", json_pack("{s:[s, s]}", "required", "pressure", "altitude"));
    return schema;
}

static json_t *conditioned_schema(void)
{
    json_t *gases = json_array();
    int count;
    const struct component *table = component_table(&count);
    json_array_append_new(gases, json_string("fuel"));
    for (int i = 0; i < count; i++)
        json_array_append_new(gases, json_string(table[i].gas.name));
    json_t *load =
        map_of(json_pack("{s:{s:o}, s:o, s:o, s:o}", "gas", "enum", gases, "share", number(ULLAGE_NUMBER, 0.01, 1.0),
                         "rate", quantity(ULLAGE_MASS_FLOW, false), "until", quantity(ULLAGE_MASS, false)));
    json_object_set_new(
        load, "not",
        json_pack("{s:{s:{s:s}}, s:[s, s]}", "properties", "gas", "const", "fuel", "required", "gas", "share"));
    json_t *purge = map_of(json_pack("{s:o, s:o}", "volumes", number(ULLAGE_NUMBER, 0.0, 1e5), "rate",
                                     quantity(ULLAGE_VOLUME_FLOW, false)));
    json_t *schema =
        map_of(json_pack("{s:o, s:o, s:{s:s, s:i, s:i}, s:o}", "load", told(load, "until so much has come through"),
                         "purge", told(purge, "with air from its air side"), "cycles", "type", "integer", "minimum", 1,
                         "maximum", 30, "temperature", quantity(ULLAGE_TEMPERATURE, true)));
    return told(schema, "a canister: loaded and purged before the scenario begins");
}

static json_t *start_schema(void)
{
    json_t *one = map_of(json_pack("{s:o, s:o, s:o, s:o}", "pressure", quantity(ULLAGE_PRESSURE, false),
                                   "gauge_pressure", quantity(ULLAGE_PRESSURE, true), "temperature",
                                   quantity(ULLAGE_TEMPERATURE, true), "gas", gas_or_mixture()));
    json_object_set_new(one, "not",
                        json_pack("{s:[{s:[s, s]}, {s:[s, s]}]}", "anyOf", "required", "pressure", "gauge_pressure",
                                  "required", "gas", "conditioned"));
    json_object_set_new(json_object_get(one, "properties"), "saturation", number(ULLAGE_NUMBER, 0.0, 1.0));
    json_object_set_new(json_object_get(one, "properties"), "conditioned", conditioned_schema());
    return json_pack("{s:s, s:o}", "type", "object", "additionalProperties", one);
}

static json_t *component_names(void)
{
    int count;
    const struct component *table = component_table(&count);
    json_t *names = json_array();
    for (int i = 0; i < count; i++)
        json_array_append_new(names, json_string(table[i].gas.name));
    return names;
}

static json_t *components_schema(void)
{
    return json_pack("{s:s, s:{s:o}, s:o}", "type", "object", "propertyNames", "enum", component_names(),
                     "additionalProperties", number(ULLAGE_NUMBER, 0.0, 1.0));
}

/* Which fuel, and in `more` what else stands beside it. */
static json_t *fuel_schema(json_t *more)
{
    json_object_set_new(more, "rvp", quantity(ULLAGE_PRESSURE, false));
    json_object_set_new(more, "components", components_schema());
    json_object_set_new(more, "blend", word());
    json_t *schema = map_of(more);
    json_object_set_new(
        schema, "oneOf",
        json_pack("[{s:[s]}, {s:[s]}, {s:[s]}]", "required", "rvp", "required", "components", "required", "blend"));
    return schema;
}

static json_t *fill_schema(void)
{
    static const char *const fuels[] = {"blend", "quick", NULL};
    return fuel_schema(json_pack("{s:o, s:o, s:o, s:o}", "level", number(ULLAGE_NUMBER, 0.0, 1.0), "temperature",
                                 quantity(ULLAGE_TEMPERATURE, true), "fuel", enumeration(fuels), "pump",
                                 fuel_schema(json_object())));
}

static json_t *assume_schema(void)
{
    static const char *const heats[] = {"isothermal", "adiabatic", NULL};
    return map_of(json_pack("{s:o, s:o, s:{s:s}, s:{s:s}}", "heat", enumeration(heats), "discharge",
                            number(ULLAGE_NUMBER, 0.01, 1.0), "shell", "const", "rigid", "gas", "const", "dry"));
}

static json_t *let_schema(void)
{
    char pattern[PATTERN] = "^";
    number_add(pattern, true);
    pattern_add(pattern, "(");
    units_add(pattern, 0, true);
    pattern_add(pattern, ")?[23]?$");
    static const char *const taken[] = {"time", "air", "and", "or", "not", NULL};
    return json_pack("{s:s, s:{s:s, s:o}, s:{s:[o, o, {s:s}]}}", "type", "object", "propertyNames", "pattern",
                     let_pattern, "not", enumeration(taken), "additionalProperties", "anyOf", text_pattern(pattern),
                     reference("quotient"), "type", "number");
}

/* Names of a system or procedure: of a file, or written out within the scenario. */
static json_t *named_or(const char *key, const char *definition)
{
    json_t *own = map_of(json_pack("{s:o, s:o, s:o}", "name", word(), "about", word(), key, reference(definition)));
    require(own, key);
    return json_pack("{s:[{s:s}, o]}", "anyOf", "type", "string", own);
}

static json_t *by_hand_schema(void)
{
    json_t *item = map_of(json_pack("{s:o, s:o}", "at", reference("time"), "set", names_with(word())));
    require(item, "at");
    require(item, "set");
    return told(list_of(item), "what is done by hand while the procedure goes on");
}

static json_t *scenario_schema(void)
{
    json_t *properties =
        json_pack("{s:{s:s}, s:o, s:o}", "ullage", "const", "scenario/1", "name", word(), "about", word());
    json_object_set_new(properties, "assume", assume_schema());
    json_object_set_new(properties, "surroundings", surroundings_schema());
    json_object_set_new(properties, "system", named_or("parts", "parts"));
    json_object_set_new(properties, "start", start_schema());
    json_object_set_new(properties, "fill", fill_schema());
    json_object_set_new(properties, "change",
                        json_pack("{s:s, s:{s:s}}", "type", "object", "propertyNames", "pattern", path_pattern));
    json_object_set_new(properties, "faults", list_of(fault_schema()));
    json_object_set_new(properties, "let", let_schema());
    json_object_set_new(properties, "equipment", parts_schema(0));
    json_object_set_new(properties, "procedure", named_or("steps", "steps"));
    json_object_set_new(properties, "record",
                        map_of(json_pack("{s:o, s:{s:s, s:{s:s}}}", "every", reference("time"), "channels", "type",
                                         "array", "items", "type", "string")));
    json_object_set_new(properties, "by_hand", by_hand_schema());
    json_object_set_new(properties, "end", reference("time"));
    json_object_set_new(properties, "seed", json_pack("{s:s, s:i}", "type", "integer", "minimum", 0));
    json_t *schema = map_of(properties);
    json_object_set_new(schema, "required", json_pack("[s, s]", "ullage", "system"));
    return schema;
}

/* ---- whole files ---- */
static json_t *whole(json_t *schema, const char *title, bool parts, bool steps)
{
    json_t *definitions = json_object(), *file = json_object();
    json_object_set_new(definitions, "quotient", quotient());
    json_object_set_new(definitions, "time", quantity(ULLAGE_TIME, false));
    if (parts)
        part_definitions(definitions);
    if (steps)
        step_definitions(definitions);
    json_object_set_new(file, "$schema", json_string(draft));
    json_object_set_new(file, "title", json_string(title));
    json_object_update(file, schema);
    json_decref(schema);
    json_object_set_new(file, "$defs", definitions);
    return file;
}

static json_t *file_schema(const char *form, const char *key, const char *definition)
{
    json_t *schema = map_of(json_pack("{s:{s:s}, s:o, s:o, s:o}", "ullage", "const", form, "name", word(), "about",
                                      word(), key, reference(definition)));
    json_object_set_new(schema, "required", json_pack("[s, s]", "ullage", key));
    return schema;
}

static json_t *scenario_file(void)
{
    return whole(scenario_schema(), "ullage: scenario/1, one experiment", true, true);
}

static json_t *system_file(void)
{
    return whole(file_schema("system/1", "parts", "parts"), "ullage: system/1, a layout of parts", true, false);
}

static json_t *procedure_file(void)
{
    return whole(file_schema("procedure/1", "steps", "steps"), "ullage: procedure/1, steps in order", false, true);
}

static json_t *blend_file(void)
{
    json_t *schema = map_of(json_pack("{s:{s:s}, s:o, s:o, s:o}", "ullage", "const", "blend/1", "name", word(), "about",
                                      word(), "components", components_schema()));
    json_object_set_new(schema, "required", json_pack("[s, s]", "ullage", "components"));
    return whole(schema, "ullage: blend/1, a fuel by its components", false, false);
}

static json_t *recording_file(void)
{
    static const char *const solvers[] = {"bdf", "msbdf", NULL}, *const either[] = {"no", "yes", NULL};
    static const char *const needed[] = {"ullage", "scenario", "name", "seed", "solver", "tolerance", "end", "hash"};
    json_t *schema =
        map_of(json_pack("{s:{s:s}, s:o, s:o, s:{s:s, s:i}, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "ullage", "const",
                         "recording/1", "scenario", word(), "name", word(), "seed", "type", "integer", "minimum", 0,
                         "solver", enumeration(solvers), "tolerance", number(ULLAGE_NUMBER, 1e-12, 1e-2), "set",
                         list_of(word()), "fault", list_of(word()), "every_fault", enumeration(either), "by_hand",
                         by_hand_schema(), "end", reference("time"), "hash", text_pattern("^[0-9a-f]{16}$")));
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        require(schema, needed[i]);
    return whole(schema, "ullage: recording/1, what a run was told", false, false);
}

static const struct {
    const char *path;
    json_t *(*make)(void);
} files[] = {
    {"scenarios/schema/scenario.json", scenario_file},
    {"scenarios/schema/system.json", system_file},
    {"scenarios/schema/procedure.json", procedure_file},
    {"scenarios/schema/blend.json", blend_file},
    {"scenarios/schema/recording.json", recording_file},
};

static void file_written(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static char *file_text(const char *path)
{
    json_error_t error;
    json_t *tree = json_load_file(path, JSON_REJECT_DUPLICATES, &error);
    if (!tree)
        fail_msg("%s: %s (make it by ULLAGE_WRITE=1)", path, error.text);
    char *text = json_dumps(tree, JSON_INDENT(1) | JSON_PRESERVE_ORDER);
    json_decref(tree);
    return text;
}

static void schemas_are_what_the_tables_say(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        json_t *schema = files[i].make();
        assert_non_null(schema);
        char *text = json_dumps(schema, JSON_INDENT(1) | JSON_PRESERVE_ORDER);
        if (getenv("ULLAGE_WRITE"))
            file_written(files[i].path, text);
        char *stands = file_text(files[i].path);
        if (strcmp(text, stands) != 0)
            fail_msg("%s is not what the tables say: write it anew by ULLAGE_WRITE=1", files[i].path);
        free(stands);
        free(text);
        json_decref(schema);
    }
}

/* Every key that a kind's tables know stands in its definition, and no other. */
static void every_kind_has_all_its_keys(void **unused)
{
    (void)unused;
    json_error_t error;
    json_t *schema = json_load_file("scenarios/schema/system.json", 0, &error);
    assert_non_null(schema);
    const struct element_kind *const *kinds = element_kinds();
    for (int k = 0; kinds[k]; k++) {
        const struct element_kind *kind = kinds[k];
        const json_t *own =
            json_object_get(json_object_get(json_object_get(schema, "$defs"), kind->name), "properties");
        assert_non_null(own);
        size_t keys = 4; /* type, at, turn, short */
        for (int i = 0; i < rows_count(kind->parameter); i++, keys++)
            assert_non_null(json_object_get(own, kind->parameter[i].name));
        for (int i = 0; i < words_count(kind->word); i++, keys++)
            assert_non_null(json_object_get(own, kind->word[i].name));
        for (int i = 0; i < ends_count(kind->end); i++, keys++)
            assert_non_null(json_object_get(own, kind->end[i].name));
        keys += kind->opening_list ? 2 : 0;
        keys += kind->level_list;
        keys += kind->trace_list;
        keys += kind->port_list;
        keys += kind->bed != NULL;
        assert_int_equal(json_object_size(own), keys);
    }
    json_decref(schema);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(schemas_are_what_the_tables_say),
        cmocka_unit_test(every_kind_has_all_its_keys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
