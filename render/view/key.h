/* key.h  The key under the plate: pressure scale, marks in use, or what is pointed at. */
#ifndef VIEW_KEY_H
#define VIEW_KEY_H

#include "view/layout.h"
#include "view/scene.h"

void key_still(struct frame *frame, const struct scene *scene, const struct layout *layout);
void key_live(struct frame *frame, const struct scene *scene, const struct layout *layout);

#endif
