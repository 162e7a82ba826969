/* nozzle.h  A filling nozzle and the mouth it stands in. */
#ifndef VIEW_PART_NOZZLE_H
#define VIEW_PART_NOZZLE_H

#include "view/scene.h"

/* The body at the mouth of the neck that a nozzle draws from; -1: the file names none. */
int nozzle_mouth(const struct plate *plate, int nozzle);
/* Whether a nozzle stands in the mouth that this cap belongs to. */
bool nozzle_in(const struct scene *scene, int cap);
/* Sets each nozzle beside its mouth, or over its tank where there is none. */
void nozzles_place(struct plate *plate);

#endif
