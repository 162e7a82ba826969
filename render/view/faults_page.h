/* faults_page.h  The drawer of faults as it is drawn: the list, or the ruler of one of them. */
#ifndef VIEW_FAULTS_PAGE_H
#define VIEW_FAULTS_PAGE_H

#include "view/layout.h"
#include "view/scene.h"

/* What a click on a word of it does. */
enum drawer_word { DRAWER_ALL, DRAWER_SEARCH, DRAWER_LIST, DRAWER_TOGGLE, DRAWER_HEALTHY, DRAWER_SOUND };

void faults_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout);
/* The size that its knob stands at: what it has, or would have. */
double fault_shown(const struct fault_row *row);

#endif
