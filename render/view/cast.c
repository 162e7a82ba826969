/* cast.c  Finding each part's numbers once, so that a frame looks them up by index. */
#include "view/cast.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *name;
    enum quantity quantity;
} known[] = {
    {"pressure", PRESSURE},
    {"gauge_pressure", GAUGE},
    {"temperature", TEMPERATURE},
    {"air", SHARE_AIR},
    {"nitrogen", SHARE_NITROGEN},
    {"carbon_dioxide", SHARE_CARBON_DIOXIDE},
    {"fuel_vapor", SHARE_VAPOR},
    {"smoke", SHARE_SMOKE},
    {"flow", FLOW},
    {"standard_flow", STANDARD_FLOW},
    {"speed", SPEED},
    {"open", OPENING},
    {"diameter", DIAMETER},
    {"set_pressure", SET_PRESSURE},
    {"rate", RATE},
    {"shut_off", SHUT_OFF},
    {"level", LEVEL},
    {"liquid_temperature", LIQUID_TEMPERATURE},
    {"liquid", LIQUID_VOLUME},
    {"load", LOAD},
    {"air_ratio", AIR_RATIO},
    {"correction", CORRECTION},
    {"air_flow", AIR_FLOW},
    {"injected", INJECTED},
    {"purged_fuel", PURGED_FUEL},
    {"purge_flow", PURGE_FLOW},
    {"hole", HOLE},
    {"true_hole", TRUE_HOLE},
};

static void channel_place(struct cast *cast, const struct ullage_channel *channel, int index)
{
    if (channel->part < 0)
        return;
    for (size_t k = 0; k < sizeof known / sizeof known[0]; k++)
        if (!strcmp(channel->quantity, known[k].name))
            cast->channel[channel->part][known[k].quantity] = index;
}

bool cast_make(struct cast *cast, const struct ullage_model *model)
{
    cast->parts = ullage_model_parts(model);
    cast->channels = ullage_model_channels(model);
    cast->recorded_count = ullage_model_recorded(model);
    cast->channel = malloc((size_t)(cast->parts + 1) * sizeof *cast->channel);
    cast->recorded = malloc((size_t)(cast->recorded_count + 1) * sizeof *cast->recorded);
    if (!cast->channel || !cast->recorded) {
        cast_free(cast);
        return false;
    }
    for (int p = 0; p < cast->parts; p++)
        for (int q = 0; q < QUANTITIES; q++)
            cast->channel[p][q] = -1;
    for (int c = 0; c < cast->channels; c++) {
        const struct ullage_channel channel = ullage_model_channel(model, c);
        channel_place(cast, &channel, c);
    }
    for (int r = 0; r < cast->recorded_count; r++)
        cast->recorded[r] = ullage_model_recorded_channel(model, r);
    return true;
}

void cast_free(struct cast *cast)
{
    free(cast->channel);
    free(cast->recorded);
    *cast = (struct cast){0};
}

double cast_value(const struct cast *cast, const double *value, int part, enum quantity quantity)
{
    const int channel = part < 0 || part >= cast->parts ? -1 : cast->channel[part][quantity];
    return channel < 0 ? (double)NAN : value[channel];
}
