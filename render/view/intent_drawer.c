/* intent_drawer.c  The drawer by keys and by mouse. Each action has both: rows are clicked, or reached by arrows and Enter; a
 * size is dragged, wheeled, stepped by arrows, or typed. */
#include "view/intent_drawer.h"

#include "view/faults_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DECADE_STEP 20.0 /* steps to a decade of a log ruler, ten times as many when fine */
#define EVEN_STEPS 40.0  /* steps of an even one */
#define FINER 10.0

static const struct intent nothing = {INTENT_NONE, 0, 0.0, "", ""};

static struct intent fault_to(const struct scene *scene, int row, double size)
{
    struct intent intent = nothing;
    if (row < 0 || scene->faults->row[row].fixed)
        return nothing;
    intent.kind = INTENT_FAULT;
    intent.part = row;
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
    return fault_to(scene, row, fault->in ? 0.0 : fault_shown(fault));
}

/* ---- typed sizes --------------------------------------------------------------------------------------------------- */
static void type_character(struct view *view, int key)
{
    const size_t used = strlen(view->typed);
    if (used < TYPED_MOST && key >= ' ' && key < 127) {
        view->typed[used] = (char)key;
        view->typed[used + 1] = '\0';
    }
}

/* "0.5" is in the unit shown; "0.5 mm" and "0.020 in" say their own. */
static struct intent typed_done(struct view *view, const struct scene *scene, int row)
{
    char typed[TYPED_MOST + 1];
    double size;
    snprintf(typed, sizeof typed, "%s", view->typed);
    view->typed[0] = '\0';
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
    if (key == KEY_ESCAPE)
        view->typed[0] = '\0';
    else if (key == KEY_BACKSPACE)
        view->typed[strlen(view->typed) - 1] = '\0';
    else
        type_character(view, key);
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
        return scene->faults->row[row].in ? fault_to(scene, row, 0.0) : nothing;
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
        type_character(view, key);
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
    if (view->drawer.row >= 0)
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
    }
    return intent;
}
