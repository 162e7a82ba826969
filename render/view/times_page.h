/* times_page.h  When a fault is there, as the drawer shows it: one quiet line of words, or, opened, a line for each time. */
#ifndef VIEW_TIMES_PAGE_H
#define VIEW_TIMES_PAGE_H

#include "view/scene.h"
#include "view/times.h"

struct times_clock times_clock_of(const struct scene *scene);

/* What the state of a fault is now, in words: "in since 0:30", "waits for 2:00". */
const char *times_state(const struct scene *scene, const struct fault_row *row, char *room, int size);
/* Its size as a list has it: "0.50 mm from 2:00", "40 % of 0.50 mm". */
const char *times_sized(const struct scene *scene, const struct fault_row *row, const char *text, char *room, int size);

/* Both return the baseline after their last. */
double times_line_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                       const struct fault_row *row);
double times_lines_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline,
                        const struct fault_row *row);

#endif
