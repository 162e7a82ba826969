/* faults_page.h  The drawer of faults as it is drawn: the list, or the ruler of one of them. */
#ifndef VIEW_FAULTS_PAGE_H
#define VIEW_FAULTS_PAGE_H

#include "view/layout.h"
#include "view/scene.h"

/* What a click on a word of it does. */
enum drawer_word {
    DRAWER_ALL,
    DRAWER_SEARCH,
    DRAWER_LIST,
    DRAWER_TOGGLE,
    DRAWER_HEALTHY,
    DRAWER_SOUND,
    DRAWER_TIMES, /* opens and closes them; from here on, for each line of them: */
    DRAWER_TIME_LINE,
    DRAWER_TIME_LESS,
    DRAWER_TIME_MORE
};

enum { DRAWER_TIME_WORDS = DRAWER_TIME_MORE - DRAWER_TIMES }; /* of a line */

void faults_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout);
/* A word that is clicked, right-aligned at x1, dotted under; returns its left end. */
double drawer_word_draw(struct frame *frame, double x1, double baseline, enum drawer_word word, const char *text);
/* The size that its knob stands at: what it has, or would have. */
double fault_shown(const struct fault_row *row);

#endif
