/* steps.h  Steps of the procedure in the column, and what its pages share. */
#ifndef VIEW_STEPS_H
#define VIEW_STEPS_H

#include "view/column.h"

void steps_wide(struct frame *frame, const struct scene *scene, const struct layout *layout, double bottom);
void steps_narrow(struct frame *frame, const struct scene *scene, const struct layout *layout);

/* A text that fits: smaller, then without its last words. */
void column_fitted(struct frame *frame, double x, double baseline, double width, struct text_style style,
                   const char *text);
/* A heading with a rule under it and a note at its right. */
void column_heading(struct frame *frame, double x0, double x1, double baseline, const char *text, const char *note);

#endif
