/* report/csv.c  Recorded samples as comma-separated values: "time_s,vessel.gauge_pressure_Pa,...". */
#include "report/csv.h"

#include <stdlib.h>
#include <string.h>

const char *number_exact(double value, char *room)
{
    for (int figures = 15; figures <= 17; figures++) {
        snprintf(room, NUMBER_ROOM, "%.*g", figures, value);
        if (strtod(room, NULL) == value) /* not a number is never equal: its last form stands */
            break;
    }
    return room;
}

static void header_write(FILE *to, const struct ullage_model *model)
{
    fputs("time_s", to);
    for (int column = 0; column < ullage_model_recorded(model); column++) {
        const struct ullage_channel channel = ullage_model_channel(model, ullage_model_recorded_channel(model, column));
        char unit[64];
        fprintf(to, ",%s_%s", channel.name, ullage_dimension_name(channel.dimension, unit));
    }
    fputc('\n', to);
}

void csv_write(FILE *to, const struct experiment *of, const volatile sig_atomic_t *stop)
{
    const int columns = 1 + ullage_model_recorded(of->model);
    header_write(to, of->model);
    for (int row = 0; row < ullage_run_samples(of->run) && !(stop && *stop); row++) {
        const double *sample = ullage_run_sample(of->run, row);
        char number[NUMBER_ROOM];
        for (int column = 0; column < columns; column++)
            fprintf(to, column ? ",%s" : "%s", number_exact(sample[column], number));
        fputc('\n', to);
    }
}
