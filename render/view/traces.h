/* traces.h  Recorded channels over time, kept by the picture so that going back leaves what lies ahead in sight. */
#ifndef VIEW_TRACES_H
#define VIEW_TRACES_H

#include "ullage.h"

struct traces {
    int columns; /* 1 + recorded channels: time first */
    int rows, room;
    double *row; /* [rows * columns] */
    bool out_of_memory;
};

/* Starts as all zeros. */
void traces_make(struct traces *traces, const struct ullage_model *model);
void traces_free(struct traces *traces);
/* Takes what the run has recorded beyond the last row kept. */
void traces_take(struct traces *traces, const struct ullage_run *run);
/* One row more, as the library hands them out. */
void traces_add(struct traces *traces, const double *row);

#endif
