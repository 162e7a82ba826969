/* weather_page.h  The page of air, sun and wind: what each is now, or the ruler of one of them; and what keys and clicks do there. */
#ifndef VIEW_WEATHER_PAGE_H
#define VIEW_WEATHER_PAGE_H

#include "view/intent.h"
#include "view/layout.h"

/* What a click on a word of it does; from the last one on: the time that a way takes. */
enum weather_word { WEATHER_LIST, WEATHER_BACK, WEATHER_ALL_BACK, WEATHER_SPAN };

void weather_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout);

/* Keys while it is in sight. False: the key is none of its own. */
bool weather_page_key(const struct input *input, struct view *view, const struct scene *scene, struct intent *intent);
bool weather_escape(struct view *view); /* from a ruler to the list; false: it stands there */
/* Row -1: the list. */
void weather_open(struct view *view, int row);
struct intent weather_word_click(struct view *view, const struct scene *scene, int word);
/* The knob held at a share of its ruler; let go, it is told. */
void weather_hold(struct view *view, int row, double share);
struct intent weather_let_go(struct view *view);
struct intent weather_nudge(struct view *view, const struct scene *scene, int row, int steps, bool fine);

#endif
