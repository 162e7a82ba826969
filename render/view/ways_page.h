/* ways_page.h  All the ways a run has gone on, in the column: gone over to, named, forgotten. */
#ifndef VIEW_WAYS_PAGE_H
#define VIEW_WAYS_PAGE_H

#include "view/intent.h"
#include "view/layout.h"
#include "view/scene.h"

/* What a click on a word of it does. */
enum ways_word { WAYS_GO, WAYS_NAME, WAYS_FORGET };

void ways_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout);
int ways_cursor(const struct scene *scene); /* the branch that keys and words act on */

/* ---- intent_ways.c ---- */
/* Keys while it is in sight. False: the key is none of its own. */
bool ways_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent);
struct intent ways_click(struct view *view, const struct scene *scene, int word);
void ways_choose(struct view *view, int branch);

#endif
