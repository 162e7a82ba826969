/* sim/network/faults.c  What is wrong with parts, between what is set from outside and what laws see: parameters and commands
 * as they come to. A part with nothing wrong is handed on as it is.
 *
 * Those of a file come first, in its order; then every other that any part could have, of size 0, so that it may come by
 * hand. A hole is a part of its own and needs ways of its own: it is there only where the description brings it. */
#include "network/inside.h"

#include <string.h>

/* ---- making ---- */

static const char *name_make(struct network *network, const struct fault *fault, int before)
{
    const char *id = network->part[fault->part].id, *dot = *fault->site ? "." : "";
    const char *name = arena_format(network->arena, "%s %s%s%s", fault->row->name, id, dot, fault->site);
    for (int f = 0; name && f < before; f++)
        if (!strcmp(network->fault_name[f], name))
            return arena_format(network->arena, "%s %s", name, fault->id ? fault->id : "");
    return name;
}

static bool take(struct network *network, struct fault fault)
{
    const int at = network->faults;
    const struct row *rows = network->part[fault.part].kind->parameter;
    fault.at.file = NULL;
    network->fault_name[at] = name_make(network, &fault, at);
    for (int k = 0; k < 2; k++)
        network->moves[at][k] =
            fault_is_parameter(fault.row) && fault.row->row[k] ? rows_find(rows, fault.row->row[k]) : -1;
    network->fault[at] = fault;
    network->next_fault[at] = -1;
    int *last = &network->first_fault[fault.part];
    while (*last >= 0)
        last = &network->next_fault[*last];
    *last = at;
    if (fault.hole >= 0)
        network->fault_of[fault.hole] = at;
    network->faults++;
    return network->fault_name[at] != NULL;
}

static bool is_there(const struct network *network, int part, const struct fault_row *row)
{
    for (int f = network->first_fault[part]; f >= 0; f = network->next_fault[f])
        if (network->fault[f].row == row)
            return true;
    return false;
}

/* How many could come by hand beyond those there are; takes them where `taking`. */
static int by_hand(struct network *network, const struct ullage_description *from, bool taking, bool *good)
{
    int count = 0;
    for (int k = 0; k < network->parts; k++) {
        const struct part *part = &network->part[k];
        const struct fault_row *row = NULL;
        for (int r = 0; (row = fault_at(part->kind, r)); r++) {
            if (fault_is_hole(row) || !fault_fits(row, part, from->part, from->parts) || is_there(network, k, row))
                continue;
            count++;
            if (taking && *good)
                *good = take(network, (struct fault){.row = row, .part = k, .site = "", .hole = -1});
        }
    }
    return count;
}

bool network_faults_take(struct network *network, const struct ullage_description *from)
{
    const size_t parts = (size_t)network->parts + 1;
    network->first_fault = arena_take(network->arena, parts * sizeof *network->first_fault);
    network->fault_of = arena_take(network->arena, parts * sizeof *network->fault_of);
    if (!network->first_fault || !network->fault_of)
        return false;
    for (int k = 0; k < network->parts; k++)
        network->first_fault[k] = network->fault_of[k] = -1;
    bool good = true;
    const size_t most = (size_t)(from->faults + by_hand(network, from, false, &good)) + 1;
    network->fault = arena_take(network->arena, most * sizeof *network->fault);
    network->fault_name = arena_take(network->arena, most * sizeof *network->fault_name);
    network->next_fault = arena_take(network->arena, most * sizeof *network->next_fault);
    network->moves = arena_take(network->arena, most * sizeof *network->moves);
    if (!network->fault || !network->fault_name || !network->next_fault || !network->moves)
        return false;
    for (int f = 0; good && f < from->faults; f++) {
        struct fault fault = from->fault[f];
        fault.id = fault.id ? arena_text(network->arena, fault.id) : NULL;
        fault.site = arena_text(network->arena, fault.site);
        good = (fault.id || !from->fault[f].id) && fault.site && take(network, fault);
    }
    if (good)
        by_hand(network, from, true, &good);
    return good;
}

int network_faults(const struct network *network)
{
    return network->faults;
}

const struct fault *network_fault(const struct network *network, int index)
{
    return &network->fault[index];
}

const char *network_fault_name(const struct network *network, int index)
{
    return network->fault_name[index];
}

int network_find_fault(const struct network *network, const char *name)
{
    for (int f = 0; f < network->faults; f++)
        if (!strcmp(network->fault_name[f], name) ||
            (network->fault[f].id && network->fault[f].hole < 0 && !strcmp(network->fault[f].id, name)))
            return f;
    return -1;
}

bool network_fault_ready(const struct network *network, int index)
{
    const struct fault *fault = &network->fault[index];
    const int f = network->follower_of[fault->part];
    if (fault_is_pour(fault->row))
        return network->tap_of[index] >= 0 && (network->fuels > 1 || !fault_is_exchange(fault->row));
    return !fault->row->keeps || network->part[fault->part].keeps || (f >= 0 && network->follower[f].at >= 0);
}

int network_fuels(const struct network *network)
{
    return network->fuels;
}

int network_fault_size_row(const struct network *network, int index)
{
    const struct fault *fault = &network->fault[index];
    return fault->hole >= 0 ? rows_find(network->part[fault->hole].kind->parameter, fault->row->size) : -1;
}

/* ---- what acts ---- */

struct fault_now fault_begins(const struct network *network, int index)
{
    return (struct fault_now){network->fault[index].size, network->fault[index].course};
}

bool fault_ails(const struct network *network, int index)
{
    const struct fault_row *row = network->fault[index].row;
    return fault_is_parameter(row) || fault_is_command(row);
}

static struct fault_now now_of(const struct network *network, const struct inputs *inputs, int f)
{
    return inputs->fault ? inputs->fault[f] : fault_begins(network, f);
}

static bool ails(const struct network *network, const struct inputs *inputs, int part)
{
    if (network->faults == 0)
        return false;
    if (inputs->ails)
        return inputs->ails[part];
    for (int f = network->first_fault[part]; f >= 0; f = network->next_fault[f])
        if (network->fault[f].size != 0.0 && fault_ails(network, f))
            return true;
    return false;
}

static double within(const struct row *row, double value)
{
    return fmin(fmax(value, row->least), row->most);
}

static void move(const struct network *network, int f, const struct fault_now *now, double time, double *parameter)
{
    const struct fault *fault = &network->fault[f];
    const struct row *rows = network->part[fault->part].kind->parameter;
    const double share = course_share(&now->course, time), since = course_since(&now->course, time);
    for (int k = 0; k < 2 && network->moves[f][k] >= 0; k++) {
        const struct row *row = &rows[network->moves[f][k]];
        double *value = &parameter[network->moves[f][k]];
        *value = within(row, fault_parameter(fault->row, *value, now->size, share, since));
    }
}

const double *parameters_now(const struct network *network, const struct inputs *inputs, int part, double time,
                             struct parameters *room)
{
    const double *own = &inputs->parameter[network->parameter_at[part]];
    if (!ails(network, inputs, part))
        return own;
    memcpy(room->value, own, (size_t)rows_count(network->part[part].kind->parameter) * sizeof *own);
    for (int f = network->first_fault[part]; f >= 0; f = network->next_fault[f]) {
        const struct fault_now now = now_of(network, inputs, f);
        if (now.size != 0.0 && fault_is_parameter(network->fault[f].row))
            move(network, f, &now, time, room->value);
    }
    return room->value;
}

double opening_now(const struct network *network, const struct inputs *inputs, int part, double time, double commanded)
{
    const struct part *of = &network->part[part];
    double opening = commanded;
    if (ails(network, inputs, part)) {
        const double rest = of->kind->at_rest ? of->kind->at_rest(of) : 1.0;
        for (int f = network->first_fault[part]; f >= 0; f = network->next_fault[f]) {
            const struct fault_now now = now_of(network, inputs, f);
            if (now.size != 0.0 && fault_is_command(network->fault[f].row))
                opening =
                    fault_opening(network->fault[f].row, opening, rest, now.size * course_share(&now.course, time));
        }
    }
    if (network->faults == 0 || network->fault_of[part] < 0)
        return opening;
    const struct fault_now there = now_of(network, inputs, network->fault_of[part]);
    return opening * course_share(&there.course, time);
}

double parameter_at_start(const struct ullage_description *from, int part, int row)
{
    const struct part *of = &from->part[part];
    const struct row *rows = of->kind->parameter;
    double value = of->value[row];
    for (int f = 0; f < from->faults; f++) {
        const struct fault *fault = &from->fault[f];
        for (int k = 0; k < 2 && fault->part == part && fault_is_parameter(fault->row) && fault->row->row[k]; k++)
            if (rows_find(rows, fault->row->row[k]) == row)
                value = within(&rows[row], fault_parameter(fault->row, value, fault->size,
                                                           course_share(&fault->course, 0.0), 0.0));
    }
    return value;
}
