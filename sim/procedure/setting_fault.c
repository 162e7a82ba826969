/* sim/procedure/setting_fault.c  Reading what is to be wrong: a fault by its name and place, or by the id it has in the file. */
#include "base/text.h"
#include "procedure/setting.h"

#include <stdio.h>
#include <string.h>

enum { SENTENCE = 300, NAMES_MOST = 512 };

/* "ID.SIZE" of a fault of the file; -1: it is none. *key: what stands after the dot. */
static int fault_by_id(const struct network *network, const char *what, const char **key)
{
    const char *dot = strchr(what, '.');
    for (int f = 0; dot && f < network_faults(network); f++) {
        const struct fault *fault = network_fault(network, f);
        if (fault->id && fault->hole < 0 && strlen(fault->id) == (size_t)(dot - what) &&
            !strncmp(fault->id, what, (size_t)(dot - what))) {
            *key = dot + 1;
            return f;
        }
    }
    return -1;
}

static bool size_read(const struct scope *scope, struct phrase value, int index, double *size)
{
    const struct fault *fault = network_fault(scope->network, index);
    const struct fault_row *row = fault->row;
    double least, most;
    char unit[64], right[SENTENCE];
    *size = 0.0;
    if (!strcmp(value.text, "off"))
        return true;
    if (!constant_read(scope, value, row->dimension, size))
        return false;
    fault_range(row, network_part(scope->network, fault->part)->kind, &least, &most);
    if (*size >= least && *size <= most)
        return true;
    snprintf(right, sizeof right, "it goes from %g to %g %s", least, most,
             row->dimension == ULLAGE_NUMBER ? "" : ullage_dimension_name(row->dimension, unit));
    problem_add(scope->problems, value.at, right, "%s of %s cannot be %s", row->size, row->name, value.text);
    return false;
}

/* "NAME PLACE" that this network has not: a hole that the file did not bring, or a slip. */
static void fault_missing(const struct scope *scope, struct phrase what)
{
    char place[SENTENCE], name[SENTENCE], right[SENTENCE], shown[TEXT_SHORT];
    const char *names[NAMES_MOST];
    int count = 0;
    snprintf(name, sizeof name, "%.*s", (int)strcspn(what.text, " "), what.text);
    snprintf(place, sizeof place, "%.200s", what.text + strcspn(what.text, " ") + 1);
    place[strcspn(place, ".")] = '\0';
    const int part = network_find_part(scope->network, place);
    const struct fault_row *row = part >= 0 ? fault_named(network_part(scope->network, part)->kind, name) : NULL;
    if (row && fault_is_hole(row)) {
        problem_add(scope->problems, what.at, "put it into the file's faults, or --fault \"NAME PLACE ...\"",
                    "this run was made without %s", text_short(what.text, shown));
        return;
    }
    for (int f = 0; f < network_faults(scope->network) && count < NAMES_MOST; f++)
        names[count++] = network_fault_name(scope->network, f);
    const char *near = ullage_nearest(what.text, names, count);
    snprintf(right, sizeof right, "ullage list faults SYSTEM prints what there is");
    if (near)
        snprintf(right, sizeof right, "did you mean %.200s?", near);
    problem_add(scope->problems, what.at, right, "there is no fault %s", text_short(what.text, shown));
}

/* Why one that the part could have cannot come. */
static void fault_unready(const struct scope *scope, struct phrase what, const struct fault_row *row)
{
    const int fuels = network_fuels(scope->network);
    char shown[TEXT_SHORT];
    if (fault_is_pour(row) && fuels == 0)
        problem_add(scope->problems, what.at, "give fill: {level: 40 %, rvp: 9 psi}", "there is no fuel that %s can be",
                    row->name);
    else if (fault_is_exchange(row) && fuels == 1)
        problem_add(scope->problems, what.at, "take a fuel of several, or let it be there from the start",
                    "a fuel of one substance cannot become another while a run goes on");
    else
        problem_add(scope->problems, what.at, "put it into the file's faults, or --fault \"NAME PLACE ...\"",
                    "this run was made without %s", text_short(what.text, shown));
}

bool fault_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into,
                        bool *named)
{
    const struct network *network = scope->network;
    const char *key = NULL;
    char shown[TEXT_SHORT], right[SENTENCE];
    const int exact = network_find_fault(network, what.text);
    const int found = exact >= 0 ? exact : fault_by_id(network, what.text, &key);
    *named = found >= 0 || (strchr(what.text, ' ') && !strchr(what.text, '='));
    if (found < 0) {
        if (*named)
            fault_missing(scope, what);
        return false;
    }
    const struct fault *fault = network_fault(network, found);
    *into = (struct setting){.part = fault->part, .row = -1, .fault = found, .puts_in = exact >= 0};
    if (key && strcmp(key, fault->row->size) != 0) {
        snprintf(right, sizeof right, "its size is %s", fault->row->size);
        problem_add(scope->problems, what.at, right, "%s has no %s", fault->row->name, text_short(key, shown));
        return false;
    }
    if (!network_fault_ready(network, found)) {
        fault_unready(scope, what, fault->row);
        return false;
    }
    struct phrase size = value;
    if (into->puts_in && !course_setting_read(scope, value, &size, &into->course))
        return false;
    if (fault_is_pour(fault->row) && into->course.every > 0.0) {
        problem_add(scope->problems, value.at, "write from, ramp and until, and leave out every and for",
                    "%s is liquid that is poured: it cannot come again and again", fault->row->name);
        return false;
    }
    return size_read(scope, size, found, &into->value);
}
