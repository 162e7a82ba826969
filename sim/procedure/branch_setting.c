/* sim/procedure/branch_setting.c  How what a hand can change stood on a branch at some moment: from how a run begins and what the
 * branch has told since, without going there. */
#include "base/problem.h"
#include "procedure/history.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ID_ROOM = 104 };

/* What is asked for, and how it stands as the story goes on. */
struct standing {
    const struct ullage_model *model;
    const char *what;
    int fault; /* of the network; -1: a part or a parameter of it */
    int part, row;
    double value;         /* size, opening, or SI */
    struct course course; /* of a fault */
    struct arena *arena;
    struct ullage_problems *problems;
};

static bool standing_begin(struct standing *standing)
{
    const struct network *network = standing->model->network;
    const char *dot = strchr(standing->what, '.');
    char id[ID_ROOM];
    standing->fault = network_find_fault(network, standing->what);
    if (standing->fault >= 0) {
        const struct fault *fault = network_fault(network, standing->fault);
        standing->part = fault->hole;
        standing->row = network_fault_size_row(network, standing->fault);
        standing->value = fault->size;
        standing->course = fault->course;
        return true;
    }
    snprintf(id, sizeof id, "%.*s", dot ? (int)(dot - standing->what) : ID_ROOM - 1, standing->what);
    standing->part = network_find_part(network, id);
    if (standing->part < 0)
        return false;
    const struct part *part = network_part(network, standing->part);
    standing->row = dot ? rows_find(part->kind->parameter, dot + 1) : -1;
    standing->value = standing->row >= 0    ? part->value[standing->row]
                      : part->kind->at_rest ? part->kind->at_rest(part)
                                            : 1.0;
    return !dot || standing->row >= 0;
}

/* Does this subject of a command name it: by its name and place, or by the id it has in the file? */
static bool names_fault(const struct standing *standing, const char *subject)
{
    const char *id = network_fault(standing->model->network, standing->fault)->id;
    const size_t length = id ? strlen(id) : 0;
    return !strcmp(subject, standing->what) || (id && !strncmp(subject, id, length) && subject[length] == '.');
}

static void fault_follow(struct standing *standing, const struct ullage_event *event)
{
    const struct procedure *procedure = standing->model->procedure;
    const struct scope scope = {.network = standing->model->network,
                                .let = procedure->let,
                                .lets = procedure->lets,
                                .wait = -1,
                                .arena = standing->arena,
                                .problems = standing->problems};
    struct setting setting;
    if (!setting_read(&scope, (struct phrase){.text = event->subject}, (struct phrase){.text = event->text}, &setting))
        return;
    const bool sized = setting.fault < 0 && setting.part == standing->part && setting.row == standing->row;
    if (setting.fault == standing->fault && setting.puts_in)
        standing->course = course_put(&standing->course, standing->value != 0.0, &setting.course, event->time);
    if (setting.fault == standing->fault || sized)
        standing->value = setting.value;
}

static void standing_follow(struct standing *standing, const struct ullage_event *event)
{
    if (event->kind != ULLAGE_COMMANDED)
        return;
    if (standing->fault >= 0 && names_fault(standing, event->subject))
        fault_follow(standing, event);
    else if (standing->fault < 0 && !strcmp(event->subject, standing->what))
        standing->value = event->number;
}

/* How many events a branch has told, at least up to `time`, which it has reached. */
static int events_of(const struct ullage_history *of, int branch)
{
    const int known = of->branch[branch].events, now = of->run->progress->events;
    return branch == of->present && now > known ? now : known;
}

static double value_at(struct standing *standing, const struct ullage_history *of, int branch, double time)
{
    const int events = events_of(of, branch);
    if (!standing_begin(standing))
        return (double)NAN;
    for (int k = 0; k < events; k++) {
        const struct ullage_event *event = rows_at(&branch_told(of, branch)->event, k);
        if (event->time > time)
            break;
        standing_follow(standing, event);
    }
    const bool there = standing->fault < 0 || course_share(&standing->course, time) > 0.0;
    return there ? standing->value : 0.0;
}

double ullage_history_setting(const struct ullage_history *history, int branch, double time, const char *what)
{
    const struct ullage_history *of = branch == ULLAGE_SOUND ? history->sound : history;
    const int way = branch == ULLAGE_SOUND ? 0 : branch;
    if (!of || !(0.0 <= time && time <= ullage_history_branch(of, way).latest))
        return (double)NAN;
    struct standing standing = {of->run->model, .what = what, .arena = arena_create(),
                                .problems = ullage_problems_create()};
    const double value = standing.arena && standing.problems ? value_at(&standing, of, way, time) : (double)NAN;
    arena_free(standing.arena);
    ullage_problems_free(standing.problems);
    return value;
}
