/* bed.h  Carbon in section: one column for each cell, filled from below as far as its carbon is loaded, and over the columns
 * how warm they are. */
#ifndef VIEW_PART_BED_H
#define VIEW_PART_BED_H

#include "view/scene.h"

/* Where a bed stands, in its body's own coordinates: the tank's side left. */
struct bed_place {
    double x0, x1;           /* u */
    double roof, over, foot; /* u: top of the strip of warmth, top of a full column, bottom */
};

enum { BED_COLUMNS_MOST = 40 };

/* Whether there is carbon in a part at all. */
bool bed_there(const struct scene *scene, int part);
/* As a whole: "21.8 g   14 %"; the share is told against butane, as the columns are. */
const char *bed_words(const struct scene *scene, int part, char *room, int size);

void bed_ground(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                const struct bed_place *place); /* empty carbon, and what holds it */
void bed_load(struct frame *frame, const struct scene *scene, const struct plate_body *body,
              const struct bed_place *place);
void bed_warmth(struct frame *frame, const struct scene *scene, const struct plate_body *body,
                const struct bed_place *place);

/* Neighbouring cells as one column; columns = bed_columns(cells). */
int bed_columns(int cells);
struct ullage_cell bed_column(const struct ullage_cell *cell, int cells, int column);

#endif
