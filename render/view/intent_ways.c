/* intent_ways.c  The list of branches by keys and by mouse. */
#include "view/ways_page.h"

#include <stdio.h>
#include <string.h>

static const struct intent nothing = {.kind = INTENT_NONE};

void ways_choose(struct view *view, int branch)
{
    if (view->ways.cursor != branch)
        view->ways.naming = false;
    view->ways.cursor = branch;
}

static struct intent to_branch(enum intent_kind kind, const struct scene *scene, const char *name)
{
    struct intent intent = nothing;
    intent.kind = kind;
    intent.part = ways_cursor(scene);
    snprintf(intent.value, sizeof intent.value, "%s", name);
    return intent;
}

static void name_begin(struct view *view, const struct scene *scene)
{
    view->ways.cursor = ways_cursor(scene);
    view->ways.naming = true;
    view->ways.name[0] = '\0';
}

static struct intent name_done(struct view *view, const struct scene *scene)
{
    view->ways.naming = false;
    return *view->ways.name ? to_branch(INTENT_NAME, scene, view->ways.name) : nothing;
}

static struct intent name_key(int key, struct view *view, const struct scene *scene)
{
    const size_t used = strlen(view->ways.name);
    if (key == KEY_ENTER)
        return name_done(view, scene);
    if (key == KEY_ESCAPE)
        view->ways.naming = false;
    else if (key == KEY_BACKSPACE && used)
        view->ways.name[used - 1] = '\0';
    else if (key >= ' ' && key < 127 && used < WAY_NAME_MOST) {
        view->ways.name[used] = (char)key;
        view->ways.name[used + 1] = '\0';
    }
    return nothing;
}

bool ways_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent)
{
    const int key = input->key;
    *intent = nothing;
    if (!scene->branches || !scene->branches->count)
        return false;
    if (view->ways.naming)
        *intent = name_key(key, view, scene);
    else if (key == 'l' || key == 'L')
        name_begin(view, scene);
    else if (view->focus < 0 && (key == KEY_UP || key == KEY_DOWN)) {
        ways_choose(view, ways_cursor(scene) + (key == KEY_UP ? -1 : 1));
        view->ways.cursor = ways_cursor(scene);
    } else if (view->focus < 0 && key == KEY_ENTER)
        *intent = to_branch(INTENT_BRANCH, scene, "");
    else if (view->focus < 0 && key == KEY_BACKSPACE)
        *intent = to_branch(INTENT_FORGET, scene, "");
    else
        return false;
    return true;
}

struct intent ways_click(struct view *view, const struct scene *scene, int word)
{
    switch ((enum ways_word)word) {
    case WAYS_GO:
        return to_branch(INTENT_BRANCH, scene, "");
    case WAYS_FORGET:
        return to_branch(INTENT_FORGET, scene, "");
    case WAYS_NAME:
        if (view->ways.naming)
            return name_done(view, scene);
        name_begin(view, scene);
        break;
    }
    return nothing;
}
