/* intent_drawer.c  The drawer by keys and by mouse. Each action has both: rows are clicked, or reached by arrows and Enter; a
 * size is dragged, wheeled, stepped by arrows, or typed. */
#include "view/intent_drawer.h"

#include "view/faults_page.h"
#include "view/times_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DECADE_STEP 20.0 /* steps to a decade of a log ruler, ten times as many when fine */
#define EVEN_STEPS 40.0  /* steps of an even one */
#define FINER 10.0

static const struct intent nothing = {INTENT_NONE, 0, 0.0, "", ""};

/* A size with its times, as a command. */
static struct intent timed_to(const struct scene *scene, const struct fault_row *row, double size,
                              const struct ullage_course *course, bool end_alone)
{
    struct intent intent = nothing;
    intent.kind = INTENT_COMMAND;
    snprintf(intent.what, sizeof intent.what, "%s", row->what);
    times_value(row, size, course, scene->now->time, end_alone, intent.value, sizeof intent.value);
    return intent;
}

/* What waits goes on waiting, and what is put in comes at the times that were chosen for it. */
static struct intent fault_to(const struct scene *scene, int index, double size)
{
    struct intent intent = nothing;
    if (index < 0 || scene->faults->row[index].fixed)
        return nothing;
    const struct fault_row *row = &scene->faults->row[index];
    const struct drawer *drawer = &scene->view->drawer;
    const struct ullage_course course = drawer_course(drawer, row, scene->now->time);
    const bool chosen = drawer->row == index && !fault_put_in(row) && !times_are_usual(&course);
    const bool waits = row->waits && row->course.from > scene->now->time;
    if (!row->own && fabs(size) > 0.0 && (chosen || waits))
        return timed_to(scene, row, size, &course, false);
    intent.kind = INTENT_FAULT;
    intent.part = index;
    intent.number = size;
    return intent;
}

struct intent drawer_knob(const struct scene *scene, int row, double share)
{
    const struct fault_scale scale = fault_scale(&scene->faults->row[row]);
    return fault_to(scene, row, fault_scale_size(&scale, share));
}

struct intent drawer_nudge(const struct scene *scene, int row, int steps, bool fine)
{
    const struct fault_row *fault = &scene->faults->row[row];
    const struct fault_scale scale = fault_scale(fault);
    const double by = fine ? steps / FINER : steps, now = fmax(fault_shown(fault), scale.least);
    if (!scale.log)
        return fault_to(scene, row, fault_scale_size(&scale, fault_scale_share(&scale, now) + by / EVEN_STEPS));
    return fault_to(scene, row, fmin(fmax(now * pow(10.0, by / DECADE_STEP), scale.least), scale.most));
}

struct intent drawer_toggle(const struct scene *scene, int row)
{
    const struct fault_row *fault = &scene->faults->row[row];
    return fault_to(scene, row, fault_put_in(fault) ? 0.0 : fault_shown(fault));
}

/* ---- times --------------------------------------------------------------------------------------------------------- */
static bool times_open(const struct view *view)
{
    return view->drawer.row >= 0 && view->drawer.time >= 0;
}

/* Its times have changed in one line: said at once where it was put in, else kept for when it is. What has come keeps all but its
 * end, where that alone is another; and does not come on again for what it did over a while. */
static struct intent times_to(struct view *view, const struct scene *scene, struct ullage_course course, int line)
{
    const struct fault_row *row = &scene->faults->row[view->drawer.row];
    view->drawer.times = course;
    if (!fault_put_in(row))
        return nothing;
    const bool come = !(row->course.from > scene->now->time);
    if (row->in && row->share >= 1.0 && !(course.every > 0.0) && line != TIME_OVER && line != TIME_BEGINS)
        course.ramp = 0.0;
    return timed_to(scene, row, row->size, &course, line == TIME_ENDS && come && isfinite(course.until));
}

static struct ullage_course times_now(const struct view *view, const struct scene *scene)
{
    return drawer_course(&view->drawer, &scene->faults->row[view->drawer.row], scene->now->time);
}

static struct intent time_nudge(struct view *view, const struct scene *scene, int line, int steps)
{
    struct ullage_course course = times_now(view, scene);
    times_step(&course, (enum time_line)line, steps, times_clock_of(scene));
    return times_to(view, scene, course, line);
}

static struct intent time_done(struct view *view, const struct scene *scene, const char *typed)
{
    struct ullage_course course = times_now(view, scene);
    const char *wrong = times_typed(&course, (enum time_line)view->drawer.time, typed, times_clock_of(scene));
    if (!wrong)
        return times_to(view, scene, course, view->drawer.time);
    snprintf(view->message, sizeof view->message, "%s: %s", typed, wrong);
    return nothing;
}

static void time_move(struct view *view, const struct scene *scene, int by)
{
    const struct ullage_course course = times_now(view, scene);
    const int last = times_lines(&scene->faults->row[view->drawer.row], &course) - 1, wanted = view->drawer.time + by;
    view->drawer.time = wanted < 0 ? 0 : wanted > last ? last : wanted;
}

static bool time_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent)
{
    struct ullage_course course = times_now(view, scene);
    switch (input->key) {
    case KEY_UP:
    case KEY_DOWN:
        time_move(view, scene, input->key == KEY_UP ? -1 : 1);
        return true;
    case '+':
    case '=':
    case '-':
        *intent = time_nudge(view, scene, view->drawer.time, input->key == '-' ? -1 : 1);
        return true;
    case KEY_BACKSPACE:
        times_clear(&course, (enum time_line)view->drawer.time);
        *intent = times_to(view, scene, course, view->drawer.time);
        return true;
    default:
        return false;
    }
}

struct intent drawer_wheel(struct view *view, const struct scene *scene, int word, int notches)
{
    if (word >= DRAWER_TIME_LINE && times_open(view))
        return time_nudge(view, scene, (word - DRAWER_TIME_LINE) / DRAWER_TIME_WORDS, notches);
    drawer_move(&view->drawer, scene->faults, -notches);
    return nothing;
}

static struct intent time_click(struct view *view, const struct scene *scene, int word)
{
    const int line = (word - DRAWER_TIME_LINE) / DRAWER_TIME_WORDS,
              does = (word - DRAWER_TIME_LINE) % DRAWER_TIME_WORDS;
    if (!times_open(view))
        return nothing;
    view->drawer.time = line;
    if (DRAWER_TIME_LINE + does == DRAWER_TIME_LINE)
        return nothing;
    return time_nudge(view, scene, line, DRAWER_TIME_LINE + does == DRAWER_TIME_LESS ? -1 : 1);
}

static bool has_times(const struct scene *scene, int row)
{
    return row >= 0 && fault_timed(&scene->faults->row[row]);
}

/* ---- typed sizes --------------------------------------------------------------------------------------------------- */
/* "0.5" is in the unit shown; "0.5 mm" and "0.020 in" say their own. */
static struct intent typed_done(struct view *view, const struct scene *scene, int row)
{
    char typed[TYPED_MOST + 1];
    double size;
    snprintf(typed, sizeof typed, "%s", view->typed);
    view->typed[0] = '\0';
    if (times_open(view))
        return time_done(view, scene, typed);
    const char *wrong = fault_typed(&scene->faults->row[row], typed, view->units, &size);
    if (wrong) {
        snprintf(view->message, sizeof view->message, "%s: %s", typed, wrong);
        return nothing;
    }
    return fault_to(scene, row, size);
}

static struct intent typing_key(int key, struct view *view, const struct scene *scene, int row)
{
    if (key == KEY_ENTER)
        return typed_done(view, scene, row);
    typed_key(view, key);
    return nothing;
}

/* A digit begins a size, of a size either way a sign too; the point alone is a step in time. */
static bool begins_size(const struct scene *scene, int row, int key)
{
    if (row < 0 || scene->faults->row[row].fixed)
        return false;
    return (key >= '0' && key <= '9') || (key == '-' && scene->faults->row[row].least < 0.0);
}

/* ---- keys ---------------------------------------------------------------------------------------------------------- */
static struct intent arrow(struct view *view, const struct scene *scene, int up, bool fine)
{
    if (view->drawer.row < 0) {
        drawer_move(&view->drawer, scene->faults, -up);
        return nothing;
    }
    return drawer_nudge(scene, view->drawer.row, up, fine);
}

static struct intent act(int key, struct view *view, const struct scene *scene, int row)
{
    if (key == KEY_BACKSPACE)
        return fault_put_in(&scene->faults->row[row]) ? fault_to(scene, row, 0.0) : nothing;
    if (view->drawer.row >= 0)
        return drawer_toggle(scene, row);
    drawer_choose(&view->drawer, scene->faults, row);
    return nothing;
}

bool drawer_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent)
{
    const int key = input->key;
    const int row = drawer_row(&view->drawer, scene->faults);
    *intent = nothing;
    if (view->drawer.searching && drawer_search_key(&view->drawer, key))
        return true;
    if (*view->typed && row >= 0) {
        *intent = typing_key(key, view, scene, row);
    } else if (begins_size(scene, row, key)) {
        drawer_choose(&view->drawer, scene->faults, row);
        typed_key(view, key);
    } else if (times_open(view) && view->focus < 0 && time_key(input, view, scene, intent)) {
        return true;
    } else if ((key == 't' || key == 'T') && has_times(scene, row)) {
        const bool open = times_open(view);
        drawer_choose(&view->drawer, scene->faults, row);
        drawer_times(&view->drawer, !open);
    } else if (key == '/') {
        drawer_search(&view->drawer);
    } else if (key == 'o' || key == 'O') {
        intent->kind = INTENT_HEALTHY;
    } else if (view->focus < 0 && (key == KEY_UP || key == KEY_DOWN)) {
        *intent = arrow(view, scene, key == KEY_UP ? 1 : -1, input->shift);
    } else if (view->focus < 0 && row >= 0 && (key == KEY_ENTER || key == KEY_BACKSPACE)) {
        *intent = act(key, view, scene, row);
    } else
        return false;
    return true;
}

bool drawer_back(struct view *view)
{
    if (times_open(view))
        drawer_times(&view->drawer, false);
    else if (view->drawer.row >= 0)
        drawer_list(&view->drawer);
    else if (view->drawer.part >= 0 || *view->drawer.search)
        drawer_begin(&view->drawer);
    else
        return false;
    return true;
}

/* ---- clicks -------------------------------------------------------------------------------------------------------- */
void drawer_open_row(struct view *view, const struct scene *scene, int row)
{
    view->page = PAGE_FAULTS;
    view->typed[0] = '\0';
    drawer_choose(&view->drawer, scene->faults, row);
}

bool drawer_open_part(struct view *view, const struct scene *scene, int part)
{
    struct drawer drawer;
    drawer_part(&drawer, scene->faults, part);
    if (drawer.part < 0)
        return false;
    view->page = PAGE_FAULTS;
    view->typed[0] = '\0';
    view->drawer = drawer;
    return true;
}

struct intent drawer_word_click(struct view *view, const struct scene *scene, int word)
{
    struct intent intent = nothing;
    const int row = drawer_row(&view->drawer, scene->faults);
    view->typed[0] = '\0';
    if (word >= DRAWER_TIME_LINE)
        return time_click(view, scene, word);
    switch ((enum drawer_word)word) {
    case DRAWER_ALL:
        drawer_begin(&view->drawer);
        break;
    case DRAWER_SEARCH:
        drawer_search(&view->drawer);
        break;
    case DRAWER_LIST:
        drawer_list(&view->drawer);
        break;
    case DRAWER_TOGGLE:
        return row >= 0 ? drawer_toggle(scene, row) : nothing;
    case DRAWER_HEALTHY:
        intent.kind = INTENT_HEALTHY;
        break;
    case DRAWER_SOUND:
        intent.kind = INTENT_SOUND;
        break;
    case DRAWER_TIMES:
        if (has_times(scene, view->drawer.row))
            drawer_times(&view->drawer, view->drawer.time < 0);
        break;
    default:
        break;
    }
    return intent;
}
