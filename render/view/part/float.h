/* float.h  What of a valve with a float is seen in the tank that it hangs in. */
#ifndef VIEW_PART_FLOAT_H
#define VIEW_PART_FLOAT_H

#include "view/plate.h"

/* The cage that hangs at the end of a pipe from the roof of body `host`, u on the plate. False: none does. */
bool float_hangs(const struct plate *plate, int pipe, int host, struct frame_box *box);

#endif
