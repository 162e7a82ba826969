/* intent_drawer.h  What keys and clicks mean in the drawer of faults. */
#ifndef VIEW_INTENT_DRAWER_H
#define VIEW_INTENT_DRAWER_H

#include "view/intent.h"

/* Keys while the drawer is in sight. False: the key is none of its own. */
bool drawer_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent);
/* Goes one step back: from a ruler to the list, from a part's faults to all of them. False: there is nothing to go back from. */
bool drawer_back(struct view *view);

/* A row of the list, a word, a part on the plate. */
void drawer_open_row(struct view *view, const struct scene *scene, int row);
struct intent drawer_word_click(struct view *view, const struct scene *scene, int word);
bool drawer_open_part(struct view *view, const struct scene *scene, int part); /* false: nothing can be wrong with it */

/* A row's knob at a share of its ruler; moved by steps. */
struct intent drawer_knob(const struct scene *scene, int row, double share);
struct intent drawer_nudge(const struct scene *scene, int row, int steps, bool fine);
/* The wheel over a word of it: over one of its times that is stepped, elsewhere the list moves. */
struct intent drawer_wheel(struct view *view, const struct scene *scene, int word, int notches);
struct intent drawer_toggle(const struct scene *scene, int row);

#endif
