/* sim/procedure/setting.c  Reading what is set, against the tables of the part's kind. */
#include "procedure/setting.h"

#include "base/text.h"
#include "base/unit.h"
#include "procedure/step.h"

#include <stdio.h>
#include <string.h>

enum { NAMES_MOST = 512, SENTENCE = 300, ID_LONGEST = 100 };

/* ---- parts ---- */
int part_read(const struct scope *scope, struct phrase id)
{
    const struct network *network = scope->network;
    const int found = network_find_part(network, id.text);
    if (found >= 0)
        return found;
    const char *names[NAMES_MOST];
    int count = 0;
    while (count < network_parts(network) && count < NAMES_MOST) {
        names[count] = network_part(network, count)->id;
        count++;
    }
    char shown[TEXT_SHORT], right[SENTENCE] = "name a part of the system or of the equipment";
    const char *nearest = nearest_name(id.text, names, count);
    if (nearest)
        snprintf(right, sizeof right, "did you mean %.100s?", nearest);
    problem_add(scope->problems, id.at, right, "there is no part %s", text_short(id.text, shown));
    return -1;
}

/* ---- words ---- */

/* "open, shut or a share like 40 %" */
static void say_words(const struct scope *scope, struct phrase value, const struct part *part)
{
    const struct command_row *command = part->kind->command;
    const char *names[NAMES_MOST];
    char shown[TEXT_SHORT], right[SENTENCE] = "write ";
    int count = 0;
    for (; command[count].word; count++) {
        const size_t length = strlen(right);
        names[count] = command[count].word;
        snprintf(right + length, sizeof right - length, "%s%s", count > 0 ? ", " : "", command[count].word);
    }
    const char *nearest = nearest_name(value.text, names, count);
    const size_t length = strlen(right);
    if (nearest)
        snprintf(right, sizeof right, "did you mean %s?", nearest);
    else
        snprintf(right + length, sizeof right - length, " or a share like 40 %%");
    problem_add(scope->problems, value.at, right, "%s cannot be set to %s", part->id, text_short(value.text, shown));
}

static bool command_read(const struct scope *scope, struct phrase value, const struct part *part, double *opening)
{
    const struct command_row *command = part->kind->command;
    for (int k = 0; command[k].word; k++)
        if (!strcmp(command[k].word, value.text)) {
            *opening = command[k].value;
            return true;
        }
    bool counted = number_end(value.text, true);
    for (int k = 0; k < scope->lets; k++)
        counted = counted || !strcmp(scope->let[k].name, value.text);
    if (!counted) {
        say_words(scope, value, part);
        return false;
    }
    if (!constant_read(scope, value, ULLAGE_NUMBER, opening))
        return false;
    if (*opening >= 0.0 && *opening <= 1.0)
        return true;
    problem_add(scope->problems, value.at, "write a share from 0 % to 100 %", "no part opens that far");
    return false;
}

/* ---- parameters ---- */
static int live_rows(const struct row *rows, const char *names[NAMES_MOST])
{
    int count = 0;
    for (int k = 0; k < rows_count(rows); k++)
        if (rows[k].live)
            names[count++] = rows[k].name;
    return count;
}

/* The row `name` of the part, if it may change while a run goes on; else -1 with a problem. */
static int row_read(const struct scope *scope, struct phrase what, const char *name, const struct part *part)
{
    const struct row *rows = part->kind->parameter;
    const int row = rows ? rows_find(rows, name) : -1;
    if (row >= 0 && rows[row].live)
        return row;
    const char *names[NAMES_MOST];
    const int count = rows ? live_rows(rows, names) : 0;
    const char *nearest = row < 0 ? nearest_name(name, names, count) : NULL;
    const struct ullage_place at = phrase_place(what, name);
    char shown[TEXT_SHORT], right[SENTENCE] = "nothing of it can";
    if (count > 0)
        snprintf(right, sizeof right, "these can:");
    for (int k = 0; k < count; k++) {
        const size_t length = strlen(right);
        snprintf(right + length, sizeof right - length, "%s %s", k > 0 ? "," : "", names[k]);
    }
    if (nearest)
        snprintf(right, sizeof right, "did you mean %s?", nearest);
    if (row < 0)
        problem_add(scope->problems, at, right, "%s has no %s", part->id, text_short(name, shown));
    else
        problem_add(scope->problems, at, right, "%s of %s cannot change while a run goes on", name, part->id);
    return -1;
}

bool parameter_read(const struct scope *scope, struct phrase value, const struct row *row, double *si)
{
    char unit[64];
    if (!constant_read(scope, value, row->dimension, si))
        return false;
    if (*si >= row->least && *si <= row->most)
        return true;
    char right[SENTENCE];
    snprintf(right, sizeof right, "it goes from %g to %g %s", row->least, row->most,
             row->dimension == ULLAGE_NUMBER ? "" : ullage_dimension_name(row->dimension, unit));
    problem_add(scope->problems, value.at, right, "%s cannot be %s", row->name, value.text);
    return false;
}

/* ---- settings ---- */
static bool words_keep(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into)
{
    into->subject = arena_text(scope->arena, what.text);
    into->text = arena_text(scope->arena, value.text);
    return into->subject && into->text;
}

bool setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into)
{
    const char *dot = strchr(what.text, '.');
    char id[ID_LONGEST + 1];
    snprintf(id, sizeof id, "%.*s", dot ? (int)(dot - what.text) : ID_LONGEST, what.text);
    bool fault = false, weather;
    bool good = weather_setting_read(scope, what, value, into, &weather);
    if (!weather)
        good = fault_setting_read(scope, what, value, into, &fault);
    if (weather || fault)
        return good && words_keep(scope, what, value, into);
    *into = (struct setting){.part = part_read(scope, (struct phrase){id, what.at}), .row = -1, .fault = -1};
    if (into->part < 0)
        return false;
    const struct part *part = network_part(scope->network, into->part);
    if (dot) {
        into->row = row_read(scope, what, dot + 1, part);
        return into->row >= 0 && parameter_read(scope, value, &part->kind->parameter[into->row], &into->value) &&
               words_keep(scope, what, value, into);
    }
    if (!part->kind->command) {
        problem_add(scope->problems, what.at, "set a parameter of it, like ID.PARAMETER, or another part",
                    "a %s takes no command", part->kind->name);
        return false;
    }
    return command_read(scope, value, part, &into->value) && words_keep(scope, what, value, into);
}

/* "join PORT", "part". */
static bool hooking_read(const struct scope *scope, struct phrase what, struct phrase value, int equipment,
                         struct setting *into)
{
    static const char join[] = "join ";
    const bool joins = !strncmp(value.text, join, sizeof join - 1);
    struct phrase port = value;
    *into = (struct setting){.part = equipment, .row = joins ? SETTING_JOINS : SETTING_PARTS, .fault = -1};
    if (!joins)
        return words_keep(scope, what, value, into);
    port.text += sizeof join - 1;
    port.at.column += port.at.line > 0 ? (int)sizeof join - 1 : 0;
    into->port = part_read(scope, port);
    if (into->port < 0)
        return false;
    if (network_joint(scope->network, equipment, into->port) >= 0)
        return words_keep(scope, what, value, into);
    problem_add(scope->problems, port.at, "join it there in the procedure or in by_hand, that it can be",
                "nothing in this scenario joins %s to %s", what.text, port.text);
    return false;
}

bool hand_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into)
{
    const int part = network_find_part(scope->network, what.text);
    const bool hooks = !strncmp(value.text, "join ", 5) || !strcmp(value.text, "part");
    if (part >= 0 && hooks && network_part(scope->network, part)->kind->feeds)
        return hooking_read(scope, what, value, part, into);
    return setting_read(scope, what, value, into);
}

bool setting_feeds(const struct network *network, const struct setting *setting)
{
    return setting->part >= 0 && setting->fault < 0 && network_part(network, setting->part)->kind->feeds &&
           setting->value > 0.0;
}

bool setting_faulty(const struct network *network, const struct setting *setting)
{
    return setting->fault >= 0 || (setting->part >= 0 && network_part(network, setting->part)->fault);
}

const char *setting_title(const struct scope *scope, const struct setting *setting)
{
    if (setting->row == SETTING_WEATHER)
        return arena_format(scope->arena, "%s %s", ullage_weather_at(setting->weather).label, setting->told);
    const struct part *part = network_part(scope->network, setting->part);
    if (setting->fault >= 0)
        return arena_format(scope->arena, "%s %s", name_words(scope->arena, setting->subject), setting->text);
    const char *label = part_label(scope->arena, part);
    const char *row = setting->row >= 0 ? name_words(scope->arena, part->kind->parameter[setting->row].name) : "";
    if (!label || !row)
        return NULL;
    const bool share = setting->row < 0 && number_end(setting->text, true);
    return arena_format(scope->arena, "%s%s%s %s%s", label, *row ? " " : "", row, setting->text, share ? " open" : "");
}
