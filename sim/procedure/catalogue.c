/* sim/procedure/catalogue.c  What there is: kinds of part and what each takes, read off their tables. */
#include "law/passages.h"
#include "procedure/model.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define HOLE_LARGEST 0.1 /* m: where the search for a hole ends */

int ullage_kinds(void)
{
    int count = 0;
    while (element_kinds()[count])
        count++;
    return count;
}

struct ullage_kind ullage_kind_at(int index)
{
    const struct element_kind *kind = element_kinds()[index];
    return (struct ullage_kind){kind->name, kind->meaning};
}

static int commands_count(const struct command_row *rows)
{
    int count = 0;
    while (rows && rows[count].word)
        count++;
    return count;
}

/* Numbers, words, ends, one row for the command, tables; then numbers and words of a bed. */
/* What a kind takes beside numbers, words and ends: a table or a list. */
struct table {
    const char *name, *meaning, *items;
};

static const struct table tables[] = {
    {"trace", "where it stands at each moment", "[[TIME, PRESSURE, AIR FLOW], ...]"},
    {"levels", "how high so much liquid stands, bottom to roof; left out: a box", "[[VOLUME, HEIGHT], ...]"},
    {"openings", "its openings, by height above the bottom", "{NAME: HEIGHT, ...}"},
    {"ports", "its openings", "[NAME, ...]"}};

enum { TABLES = sizeof tables / sizeof *tables };

/* The one of that number among those that the kind takes; null: it takes fewer. */
static const struct table *table_taken(const struct element_kind *kind, int number)
{
    const bool taken[TABLES] = {kind->trace_list, kind->level_list, kind->opening_list, kind->port_list};
    for (int k = 0; k < TABLES; k++)
        if (taken[k] && number-- == 0)
            return &tables[k];
    return NULL;
}

static int tables_taken(const struct element_kind *kind)
{
    return kind->trace_list + kind->level_list + kind->opening_list + kind->port_list;
}

static struct ullage_parameter table_told(const struct table *table)
{
    struct ullage_parameter told = {.name = table->name, .meaning = table->meaning, .form = "table", .list = ""};
    snprintf(told.choices, sizeof told.choices, "%s", table->items);
    return told;
}

int ullage_kind_parameters(int index)
{
    const struct element_kind *kind = element_kinds()[index];
    return rows_count(kind->parameter) + words_count(kind->word) + ends_count(kind->end) + (kind->command != NULL) +
           tables_taken(kind) + rows_count(kind->bed) + words_count(kind->bed_word);
}

static void choice_put(struct ullage_parameter *into, const char *word)
{
    const size_t length = strlen(into->choices);
    snprintf(into->choices + length, sizeof into->choices - length, "%s%s", length > 0 ? " " : "", word);
}

static struct ullage_parameter number_told(const struct row *row)
{
    return (struct ullage_parameter){.name = row->name,
                                     .meaning = row->meaning,
                                     .form = "number",
                                     .list = "",
                                     .dimension = row->dimension,
                                     .usual = row->usual,
                                     .least = row->least,
                                     .most = row->most};
}

static struct ullage_parameter word_told(const struct word_row *row)
{
    int count = 0;
    const struct species *gas = species_table(&count);
    struct ullage_parameter told = {
        .name = row->name, .meaning = row->meaning, .form = "word", .list = "", .usual = row->usual < 0 ? REQUIRED : row->usual};
    for (int k = 0; row->choice && row->choice[k]; k++)
        choice_put(&told, row->choice[k]);
    for (int k = 0; !row->choice && k < count; k++)
        if (!gas[k].passive)
            choice_put(&told, gas[k].name);
    return told;
}

static struct ullage_parameter end_told(const struct end_row *row)
{
    return (struct ullage_parameter){
        .name = row->name, .meaning = row->meaning, .form = "end", .list = "", .usual = row->required ? REQUIRED : 0.0};
}

static struct ullage_parameter command_told(const struct command_row *rows)
{
    struct ullage_parameter told = {.name = "set",
                                    .meaning = "what a procedure or a hand may set it to, or a share like 40 %",
                                    .form = "command",
                                    .list = "",
                                    .most = 1.0};
    for (int k = 0; k < commands_count(rows); k++)
        choice_put(&told, rows[k].word);
    return told;
}

static struct ullage_parameter bed_told(const struct element_kind *kind, int parameter)
{
    const int numbers = rows_count(kind->bed);
    struct ullage_parameter told =
        parameter < numbers ? number_told(&kind->bed[parameter]) : word_told(&kind->bed_word[parameter - numbers]);
    told.list = "beds";
    return told;
}

struct ullage_parameter ullage_kind_parameter(int index, int parameter)
{
    const struct element_kind *kind = element_kinds()[index];
    assert(0 <= parameter && parameter < ullage_kind_parameters(index));
    if (parameter < rows_count(kind->parameter))
        return number_told(&kind->parameter[parameter]);
    parameter -= rows_count(kind->parameter);
    if (parameter < words_count(kind->word))
        return word_told(&kind->word[parameter]);
    parameter -= words_count(kind->word);
    if (parameter < ends_count(kind->end))
        return end_told(&kind->end[parameter]);
    parameter -= ends_count(kind->end);
    if (kind->command && parameter-- == 0)
        return command_told(kind->command);
    if (parameter < tables_taken(kind))
        return table_told(table_taken(kind, parameter));
    return bed_told(kind, parameter - tables_taken(kind));
}

double ullage_hole_for_air(double flow, double gauge, double ambient)
{
    const struct species *air = &species_table(NULL)[species_find("air")];
    double slope;
    struct gas outside = {.pressure = ambient,
                          .temperature = STANDARD_TEMPERATURE,
                          .molar_mass = air->molar_mass,
                          .gamma = species_gamma(air, STANDARD_TEMPERATURE)};
    species_viscosity(air, STANDARD_TEMPERATURE, &outside.viscosity, &slope);
    struct gas inside = outside;
    inside.pressure = ambient + gauge;
    inside.excess = gauge;
    return equivalent_hole(flow, &inside, &outside, HOLE_LARGEST);
}
