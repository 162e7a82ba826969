/* tests/tool/cells.c  The cells of a bed at the end of a scenario, for tests that are scripts.
 *
 * Usage: cells SCENARIO PART. A line for each cell from the tank's side to the air's: load [kg], temperature [K], mole
 * share of vapor, with all their digits. Exit code 1: no such run or part, said on standard error. */
#include "ullage.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static int complain(const struct ullage_problems *problems)
{
    fprintf(stderr, "it does not run, or has no such part\n");
    for (int k = 0; k < ullage_problems_count(problems); k++)
        fprintf(stderr, "%s\n", ullage_problems_at(problems, k).wrong);
    return 1;
}

static int cells_print(const struct ullage_model *model, const struct ullage_run *run, int part)
{
    const int cells = ullage_model_cells(model, part);
    struct ullage_cell *cell = calloc((size_t)cells + 1, sizeof *cell);
    if (!cell)
        return 1;
    ullage_run_cells(model, run, part, cell);
    for (int k = 0; k < cells; k++)
        printf("%.17g %.17g %.17g\n", cell[k].load, cell[k].temperature, cell[k].vapor);
    free(cell);
    return 0;
}

int main(int count, char **word)
{
    if (count != 3) {
        fprintf(stderr, "usage: cells SCENARIO PART\n");
        return 1;
    }
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(word[1], NULL, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    struct ullage_run *run = model ? ullage_run_create(model, NULL) : NULL;
    const int part = model ? ullage_model_find_part(model, word[2]) : -1;
    const bool good = run && part >= 0 && ullage_run_advance(model, run, (double)INFINITY) == ULLAGE_FINISHED;
    const int code = good ? cells_print(model, run, part) : complain(problems);
    ullage_run_free(run);
    ullage_model_free(model);
    ullage_description_free(description);
    ullage_problems_free(problems);
    return code;
}
