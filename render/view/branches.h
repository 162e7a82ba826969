/* branches.h  The ways a run has gone on, as the time bar lists them and the charts show them behind the present one. */
#ifndef VIEW_BRANCHES_H
#define VIEW_BRANCHES_H

#include "view/traces.h"

#include <stdint.h>

struct branch_line {
    char name[64];
    int parent;               /* -1: the first */
    double parted_at, latest; /* s */
};

struct branches {
    int count, present;
    struct branch_line line[ULLAGE_BRANCHES_MOST];
    int behind;    /* shown behind the present one: the one left last; -1: none */
    bool sounding; /* the sound run goes along */
    struct traces present_rows, behind_rows, sound_rows;
    int64_t born[3], left; /* of the branches those rows are of; of the one left last, -1: none */
};

void branches_begin(struct branches *branches, const struct ullage_model *model);
void branches_free(struct branches *branches);
void branches_take(struct branches *branches, const struct ullage_history *history);

#endif
