/* sim/network/switches.c  What can flip, and what a switch sees of a state: pressures, which are states themselves, and how
 * high liquid stands over an opening. No gas is mixed and no flow computed for it, so that it may be asked anywhere within a
 * step. */
#include "network/inside.h"

bool switches_take(struct network *network, const struct blueprint *plan)
{
    network->switches = plan->switches;
    network->toggle = arena_take(network->arena, ((size_t)plan->switches + 1) * sizeof *network->toggle);
    network->switch_at = arena_take(network->arena, ((size_t)network->parts + 1) * sizeof *network->switch_at);
    if (!network->toggle || !network->switch_at)
        return false;
    for (int s = plan->switches - 1; s >= 0; s--) {
        network->toggle[s] = plan->toggle[s];
        network->switch_at[plan->toggle[s].part] = s;
    }
    return true;
}

int network_switches(const struct network *network)
{
    return network->switches;
}

const struct switch_plan *network_switch(const struct network *network, int index)
{
    return &network->toggle[index];
}

static double excess_at(const struct network *network, const struct inputs *inputs, double time, const double *y,
                        int place, double ambient)
{
    if (place == -1)
        return 0.0;
    if (place >= 0)
        return y[network->volume[place].at + network->carried + 1];
    const struct boundary *boundary = &network->boundary[PLACE_BOUNDARY - place];
    return boundary_pressure(network, inputs, boundary, time, ambient) - network->reference;
}

/* m of liquid over an opening at `height`. */
static double head_at(const struct network *network, const double *y, int place, double height, double air_temperature)
{
    struct pool_now now = {.asleep = false};
    const struct volume *volume = place >= 0 ? &network->volume[place] : NULL;
    if (!volume || !volume->pool || pool_state(network, place, air_temperature, &y[volume->at], &now))
        return -(double)INFINITY;
    return shape_height(&volume->shape, now.volume).value - height;
}

/* Share of a tank's height that its liquid stands. */
static double full_at(const struct network *network, const double *y, int place, double air_temperature)
{
    const double height = head_at(network, y, place, 0.0, air_temperature);
    if (!(height > 0.0))
        return 0.0;
    const struct vessel_shape *shape = &network->volume[place].shape;
    return height / shape->height[shape->corners - 1];
}

double network_margin(const struct network *network, const struct inputs *inputs, double time, const double *y, int s,
                      bool on)
{
    const struct switch_plan *plan = &network->toggle[s];
    const double ambient = weather_value(network, inputs, WEATHER_PRESSURE, time);
    const double air_temperature = weather_value(network, inputs, WEATHER_TEMPERATURE, time);
    struct parameters room;
    const struct switch_view view = {
        .parameter = parameters_now(network, inputs, plan->part, time, &room),
        .opening = part_opening(network, inputs, plan->part, time),
        .excess_a = excess_at(network, inputs, time, y, plan->a, ambient),
        .excess_b = excess_at(network, inputs, time, y, plan->b, ambient),
        .head_a = plan->heads ? head_at(network, y, plan->a, plan->height_a, air_temperature) : -(double)INFINITY,
        .full_a = plan->heads ? full_at(network, y, plan->a, air_temperature) : 0.0,
        .head_b = plan->heads ? head_at(network, y, plan->b, plan->height_b, air_temperature) : -(double)INFINITY,
    };
    return plan->margin(&view, on);
}
