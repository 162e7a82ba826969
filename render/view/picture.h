/* picture.h  From a moment and what a person wants to see, a frame. A pure function: the same inputs, the same frame. */
#ifndef VIEW_PICTURE_H
#define VIEW_PICTURE_H

#include "view/layout.h"
#include "view/scene.h"

void picture_draw(struct frame *frame, const struct scene *scene, struct text_measure measure);

#endif
