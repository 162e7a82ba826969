/* traces.c  Rows of recorded samples, time first. */
#include "view/traces.h"

#include <stdlib.h>
#include <string.h>

void traces_make(struct traces *traces, const struct ullage_model *model)
{
    *traces = (struct traces){.columns = 1 + ullage_model_recorded(model)};
}

void traces_free(struct traces *traces)
{
    free(traces->row);
    *traces = (struct traces){0};
}

void traces_add(struct traces *traces, const double *row)
{
    const size_t size = (size_t)traces->columns * sizeof *row;
    if (traces->rows == traces->room) {
        const int room = 2 * traces->room + 256;
        double *grown = realloc(traces->row, (size_t)room * size);
        if (!grown) {
            traces->out_of_memory = true;
            return;
        }
        traces->row = grown;
        traces->room = room;
    }
    memcpy(traces->row + (size_t)traces->rows * (size_t)traces->columns, row, size);
    traces->rows++;
}

static double row_time(const struct traces *traces, int row)
{
    return traces->row[(size_t)row * (size_t)traces->columns];
}

void traces_take(struct traces *traces, const struct ullage_run *run)
{
    const int samples = ullage_run_samples(run);
    int first = samples; /* samples are in order of time: step back to the first that is new */
    while (first > 0 && (!traces->rows || ullage_run_sample(run, first - 1)[0] > row_time(traces, traces->rows - 1)))
        first--;
    for (int k = first; k < samples; k++)
        traces_add(traces, ullage_run_sample(run, k));
}
