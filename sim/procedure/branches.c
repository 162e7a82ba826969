/* sim/procedure/branches.c  Other ways from a moment on: begun, named, switched between, forgotten. */
#include "base/text.h"
#include "procedure/history.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NAME_MOST = 60 }; /* bytes of a name that a person gives */

const struct told *branch_told(const struct ullage_history *history, int branch)
{
    return branch == history->present ? &history->run->log.told : &history->branch[branch].told;
}

/* ---- names ---- */
static int branch_called(const struct ullage_history *history, const char *name)
{
    for (int k = 0; k < history->branches; k++)
        if (!strcmp(history->branch[k].name, name))
            return k;
    return -1;
}

/* What the first order said that sets it apart; with its number where another is called so. */
static void branch_title(struct ullage_history *history, struct branch *branch, const struct setting *setting)
{
    char title[NAME_MOST], shown[TEXT_SHORT];
    if (setting->row == SETTING_WEATHER)
        snprintf(title, sizeof title, "%s %s", ullage_weather_at(setting->weather).label, setting->told);
    else
        snprintf(title, sizeof title, "%s %s", setting->subject, setting->text);
    branch->name[0] = '\0';
    const bool taken = branch_called(history, text_short(title, shown)) >= 0;
    if (taken)
        snprintf(branch->name, sizeof branch->name, "%s (%d)", shown, (int)branch->born);
    else
        snprintf(branch->name, sizeof branch->name, "%s", shown);
}

const char *ullage_history_branch_name(struct ullage_history *history, int branch, const char *name)
{
    assert(0 <= branch && branch < history->branches);
    const int other = branch_called(history, name);
    if (*name == '\0')
        return "a branch's name cannot be empty";
    if (strlen(name) > NAME_MOST)
        return "this name is too long; write up to 60 letters";
    if (other >= 0 && other != branch)
        return "another branch is called so";
    snprintf(history->branch[branch].name, NAME_ROOM, "%s", name);
    history->branch[branch].named = true;
    return NULL;
}

/* ---- asked ---- */
int ullage_history_branches(const struct ullage_history *history)
{
    return history->branches;
}

int ullage_history_present(const struct ullage_history *history)
{
    return history->present;
}

struct ullage_branch ullage_history_branch(const struct ullage_history *history, int branch)
{
    assert(0 <= branch && branch < history->branches);
    const struct branch *of = &history->branch[branch];
    return (struct ullage_branch){.name = of->name,
                                  .named = of->named,
                                  .parent = of->parent,
                                  .parted_at = of->parted_at,
                                  .latest = branch == history->present ? ullage_history_latest(history) : of->latest,
                                  .born = of->born};
}

/* ---- begun and forgotten ---- */
void branch_begin(struct ullage_history *history)
{
    history->branch[0] = (struct branch){.name = "first", .parent = -1, .born = history->births++};
    history->branches = 1;
    history_note(history);
}

/* Those that left a branch left its parent, at the same moment or when that branch did. */
static void children_pass(struct ullage_history *history, int branch)
{
    const struct branch *gone = &history->branch[branch];
    for (int k = 0; k < history->branches; k++) {
        struct branch *child = &history->branch[k];
        if (child->parent == branch) {
            child->parent = gone->parent;
            child->parted_at = fmin(child->parted_at, gone->parted_at);
        }
        child->parent -= child->parent > branch;
    }
}

bool ullage_history_forget(struct ullage_history *history, int branch)
{
    assert(0 <= branch && branch < history->branches);
    if (branch == 0 || branch == history->present)
        return false;
    children_pass(history, branch);
    told_free(&history->branch[branch].told);
    history->branches--;
    memmove(&history->branch[branch], &history->branch[branch + 1],
            (size_t)(history->branches - branch) * sizeof history->branch[0]);
    history->present -= history->present > branch;
    moments_sift(history);
    return true;
}

/* Makes room for one more. */
static bool branch_room(struct ullage_history *history)
{
    for (int k = 0; k < history->branches && history->branches == ULLAGE_BRANCHES_MOST; k++)
        if (!history->branch[k].named && ullage_history_forget(history, k))
            break;
    return history->branches < ULLAGE_BRANCHES_MOST;
}

static struct tally tally_of(const struct progress *progress)
{
    return (struct tally){progress->events, progress->readings, progress->verdicts, progress->samples,
                          progress->orders};
}

/* A way of its own from now on; the old one keeps all it had. */
static bool branch_add(struct ullage_history *history)
{
    struct ullage_run *run = history->run;
    const struct progress *progress = run->progress;
    struct told told = {0};
    if (!told_share(&told, &run->log.told, tally_of(progress))) {
        told_free(&told);
        return false;
    }
    const double now = conduct_now(run);
    history->branch[history->present].told = run->log.told;
    run->log.told = told;
    history->branch[history->branches] = (struct branch){.parent = history->present,
                                                         .parted_at = now,
                                                         .latest = now,
                                                         .samples = progress->samples,
                                                         .events = progress->events,
                                                         .born = history->births++};
    history->present = history->branches++;
    return true;
}

const char *history_part(struct ullage_history *history, const struct setting *setting)
{
    const double now = conduct_now(history->run);
    history_note(history);
    if (now < history->branch[history->present].latest) {
        if (!branch_room(history))
            return "there is no room for another branch; forget one first";
        if (!branch_add(history))
            return "memory is out";
    }
    struct branch *branch = &history->branch[history->present];
    if (!branch->named && branch->parent >= 0 && now <= branch->parted_at)
        branch_title(history, branch, setting);
    return NULL;
}

/* ---- switched between ---- */
static void branch_take(struct ullage_history *history, int branch)
{
    struct ullage_run *run = history->run;
    history_note(history);
    history->branch[history->present].told = run->log.told;
    run->log.told = history->branch[branch].told;
    history->branch[branch].told = (struct told){0};
    history->present = branch;
}

enum ullage_status ullage_history_switch(struct ullage_history *history, int branch)
{
    assert(0 <= branch && branch < history->branches);
    const double now = conduct_now(history->run);
    if (branch == history->present)
        return ullage_history_go(history, now);
    branch_take(history, branch);
    const enum ullage_status status = history_return(history, fmin(now, history->branch[branch].latest));
    sound_follow(history);
    return status;
}

/* ---- what they were ---- */

/* The history and the branch in it that are meant; null: there is no sound run. */
static const struct ullage_history *meant(const struct ullage_history *history, int *branch)
{
    if (*branch != ULLAGE_SOUND)
        return history;
    *branch = 0;
    return history->sound;
}

int ullage_history_samples(const struct ullage_history *history, int branch)
{
    const struct ullage_history *of = meant(history, &branch);
    if (!of)
        return 0;
    const int known = of->branch[branch].samples, now = of->run->progress->samples;
    return branch == of->present && now > known ? now : known;
}

const double *ullage_history_sample(const struct ullage_history *history, int branch, int row)
{
    assert(0 <= row && row < ullage_history_samples(history, branch));
    const struct ullage_history *of = meant(history, &branch);
    return rows_at(&branch_told(of, branch)->sample, row);
}

bool ullage_history_values(struct ullage_history *history, int branch, double time, double *value,
                           signed char *off_scale)
{
    struct ullage_history *of = branch == ULLAGE_SOUND ? history->sound : history;
    const int way = branch == ULLAGE_SOUND ? 0 : branch;
    if (!of || !(0.0 <= time && time <= ullage_history_branch(of, way).latest))
        return false;
    struct ullage_run *run = of->run;
    const int home = of->present;
    const double now = conduct_now(run);
    const bool away = way != home || time != now;
    if (way != home)
        branch_take(of, way);
    if (away)
        history_return(of, time);
    ullage_run_values(run->model, run, value, off_scale);
    if (way != home)
        branch_take(of, home);
    if (away)
        history_return(of, now);
    return true;
}
