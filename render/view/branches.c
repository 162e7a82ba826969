/* branches.c  Copying branches out of a history: their names, and the rows that charts need of three of them. Rows are only
 * added to while a branch is followed, so that a long run is not copied for every frame. */
#include "view/branches.h"

#include <stdio.h>

enum { PRESENT, BEHIND, SOUND };

void branches_begin(struct branches *branches, const struct ullage_model *model)
{
    *branches = (struct branches){.behind = -1, .left = -1, .born = {-1, -1, -1}};
    traces_make(&branches->present_rows, model);
    traces_make(&branches->behind_rows, model);
    traces_make(&branches->sound_rows, model);
}

void branches_free(struct branches *branches)
{
    traces_free(&branches->present_rows);
    traces_free(&branches->behind_rows);
    traces_free(&branches->sound_rows);
}

/* Rows of a branch: new ones behind those there are, all anew where it is another one or has been cut. */
static void rows_follow(struct traces *rows, const struct ullage_history *history, int branch, bool anew)
{
    const int samples = ullage_history_samples(history, branch);
    if (anew || samples < rows->rows)
        rows->rows = 0;
    for (int k = rows->rows; k < samples && !rows->out_of_memory; k++)
        traces_add(rows, ullage_history_sample(history, branch, k));
}

static int branch_born(const struct ullage_history *history, int64_t born)
{
    for (int k = 0; k < ullage_history_branches(history); k++)
        if (ullage_history_branch(history, k).born == born)
            return k;
    return -1;
}

static void lines_take(struct branches *branches, const struct ullage_history *history)
{
    branches->count = ullage_history_branches(history);
    branches->present = ullage_history_present(history);
    for (int k = 0; k < branches->count; k++) {
        const struct ullage_branch branch = ullage_history_branch(history, k);
        struct branch_line *line = &branches->line[k];
        snprintf(line->name, sizeof line->name, "%s", branch.name);
        line->parent = branch.parent;
        line->parted_at = branch.parted_at;
        line->latest = branch.latest;
    }
}

void branches_take(struct branches *branches, const struct ullage_history *history)
{
    lines_take(branches, history);
    const int64_t born = ullage_history_branch(history, branches->present).born;
    if (branches->born[PRESENT] >= 0 && born != branches->born[PRESENT])
        branches->left = branches->born[PRESENT];
    rows_follow(&branches->present_rows, history, branches->present, born != branches->born[PRESENT]);
    branches->born[PRESENT] = born;
    branches->behind = branches->left >= 0 ? branch_born(history, branches->left) : -1;
    if (branches->behind >= 0) {
        rows_follow(&branches->behind_rows, history, branches->behind, branches->left != branches->born[BEHIND]);
        branches->born[BEHIND] = branches->left;
    }
    if (!branches->sounding)
        branches->sound_rows.rows = 0;
    else
        rows_follow(&branches->sound_rows, history, ULLAGE_SOUND, born != branches->born[SOUND]);
    branches->born[SOUND] = born;
}
