/* sim/network/scratch.c  Room for what is made anew at each call. */
#include "network/inside.h"

#include <stdlib.h>

static void *some(int count, size_t size)
{
    return calloc((size_t)count + 1, size);
}

bool scratch_take(const struct network *network, struct scratch *scratch)
{
    *scratch = (struct scratch){.volume = some(network->volumes, sizeof *scratch->volume),
                                .boundary = some(network->boundaries, sizeof *scratch->boundary),
                                .flow = some(network->passages, sizeof *scratch->flow),
                                .reach = some(network->passages, sizeof *scratch->reach),
                                .stir = some(network->passages, sizeof *scratch->stir),
                                .shaken = some(network->passages, sizeof *scratch->shaken),
                                .conduct = some(network->passages, sizeof *scratch->conduct),
                                .lag = some(network->followers, sizeof *scratch->lag),
                                .dip = some(network->passages, sizeof *scratch->dip),
                                .rates = some(network->stiff.states + network->stiff.accounts, sizeof(double)),
                                .gradient = some(network->volumes, sizeof *scratch->gradient),
                                .slope = some(network->passages, sizeof *scratch->slope),
                                .narrowing = some(network->narrows, sizeof(double)),
                                .room_slope = some(network->narrows, sizeof(double))};
    return scratch->volume && scratch->boundary && scratch->flow && scratch->reach && scratch->stir &&
           scratch->shaken && scratch->conduct && scratch->lag && scratch->dip && scratch->rates && scratch->gradient &&
           scratch->slope && scratch->narrowing && scratch->room_slope;
}

void scratch_release(struct scratch *scratch)
{
    free(scratch->volume);
    free(scratch->boundary);
    free(scratch->flow);
    free(scratch->reach);
    free(scratch->stir);
    free(scratch->shaken);
    free(scratch->conduct);
    free(scratch->lag);
    free(scratch->dip);
    free(scratch->rates);
    free(scratch->gradient);
    free(scratch->slope);
    free(scratch->narrowing);
    free(scratch->room_slope);
}
