/* sim/network/controllers.c  Control units: states of a part that run after what flows into its boundary.
 *
 * What arrives is what the flows carry, from all passages into the boundary, by species; what diffuses beside them is
 * left out, as it is nothing beside the flow of an open valve. Nothing of the gas feels these states, so their rows stand
 * below all others: with f_i = sum over passages of (+-F x_i), slopes to the states of the volumes upstream are
 * d rate/d f_i (x_i dF + F dx_i). */
#include "network/inside.h"

/* What burns of what the network carries; engines inject the scenario's fuel, or gasoline. */
static void take_air_needs(struct network *network)
{
    struct air_needs *needs = &network->air_needs;
    needs->species = network->species;
    for (int i = 0; i < network->species; i++) {
        const int fuel = i - network->first_fuel;
        const bool filled = 0 <= fuel && fuel < network->fuels;
        const struct component *component = filled ? &network->fuel[fuel] : component_find(network->kind[i]->name);
        needs->by_amount[i] = component ? vapor_air(component) : 0.0;
        needs->molar_mass[i] = network->kind[i]->molar_mass;
    }
    needs->by_mass = liquid_air(network->fuels, network->fuel, network->fuel_stock);
}

bool controllers_take(struct network *network, const struct blueprint *plan)
{
    network->controllers = plan->controllers;
    network->controller = arena_take(network->arena, ((size_t)plan->controllers + 1) * sizeof *network->controller);
    network->controller_of = arena_take(network->arena, ((size_t)network->parts + 1) * sizeof *network->controller_of);
    if (!network->controller || !network->controller_of)
        return false;
    for (int k = 0; k < network->parts; k++)
        network->controller_of[k] = -1;
    for (int c = 0; c < plan->controllers; c++) {
        const struct controller_plan *from = &plan->controller[c];
        network->controller[c] = (struct controller){.part = from->part,
                                                     .place = from->place,
                                                     .states = from->states,
                                                     .rates = from->rates,
                                                     .at = network->stiff.states};
        network->controller_of[from->part] = c;
        network->stiff.states += from->states;
    }
    take_air_needs(network);
    return true;
}

/* +1 where a passage's flow from a to b goes into the boundary, -1 where it comes out of it. */
static double way_sign(const struct network *network, const struct controller *controller, int passage)
{
    return network->passage[passage].b == controller->place ? 1.0 : -1.0;
}

static const struct place_gas *upstream_of(const struct network *network, const struct scratch *scratch, int p)
{
    const struct passage *passage = &network->passage[p];
    return place_of(scratch, scratch->flow[p].value >= 0.0 ? passage->a : passage->b);
}

struct controller_view controller_sees(const struct network *network, const struct inputs *inputs,
                                       const struct controller *controller, const double *y,
                                       const struct scratch *scratch, struct parameters *room, double *arriving)
{
    const int part = controller->part;
    for (int i = 0; i < network->species; i++)
        arriving[i] = 0.0;
    for (int w = 0; w < controller->ways; w++) {
        const int p = controller->way[w].passage;
        const double flow = way_sign(network, controller, p) * scratch->flow[p].value;
        for (int i = 0; i < network->species; i++)
            arriving[i] += flow * upstream_of(network, scratch, p)->share[i];
    }
    return (struct controller_view){.part = &network->part[part],
                                    .parameter = parameters_now(network, inputs, part, scratch->time, room),
                                    .opening = part_opening(network, inputs, part, scratch->time),
                                    .time = scratch->time,
                                    .ambient_pressure = scratch->air.pressure,
                                    .ambient_temperature = scratch->air.temperature,
                                    .needs = &network->air_needs,
                                    .arriving = arriving,
                                    .state = &y[controller->at]};
}

static void controller_now(const struct network *network, const struct inputs *inputs,
                           const struct controller *controller, const double *y, const struct scratch *scratch,
                           struct controller_rates *rates)
{
    double arriving[SPECIES_MOST];
    struct parameters room;
    const struct controller_view view = controller_sees(network, inputs, controller, y, scratch, &room, arriving);
    *rates = (struct controller_rates){0};
    controller->rates(&view, rates);
}

void controllers_rates(const struct network *network, const struct inputs *inputs, const double *y, double *dydt,
                       const struct scratch *scratch)
{
    for (int c = 0; c < network->controllers; c++) {
        const struct controller *controller = &network->controller[c];
        struct controller_rates rates;
        controller_now(network, inputs, controller, y, scratch, &rates);
        for (int k = 0; k < controller->states; k++)
            dydt[controller->at + k] = rates.value[k];
    }
}

/* d of a rate to the states of the volume at the other end of one way; by_arriving: d rate/d f_i. */
static void add_way(const struct network *network, const struct controller *controller,
                    const struct controller_way *way, const double *by_arriving, const struct scratch *scratch,
                    double *row)
{
    const struct passage *passage = &network->passage[way->passage];
    const double sign = way_sign(network, controller, way->passage), flow = sign * scratch->flow[way->passage].value;
    const struct pair *slope = &scratch->slope[way->passage];
    const double *by_state = passage->a == way->volume ? slope->a : slope->b;
    const struct place_gas *up = upstream_of(network, scratch, way->passage);
    double mean = 0.0;
    for (int i = 0; i < network->species; i++)
        mean += by_arriving[i] * up->share[i];
    for (int k = 0; k < network->volume[way->volume].felt; k++)
        row[way->at + k] += sign * mean * by_state[k];
    const bool from_volume = up == &scratch->volume[way->volume];
    for (int k = 0; from_volume && k < network->species; k++)
        row[way->at + k] += flow * (by_arriving[k] - mean) / up->amount;
}

void controllers_slopes(const struct network *network, const struct inputs *inputs, const double *y, double *value,
                        const struct scratch *scratch)
{
    for (int c = 0; c < network->controllers; c++) {
        const struct controller *controller = &network->controller[c];
        struct controller_rates rates;
        controller_now(network, inputs, controller, y, scratch, &rates);
        for (int k = 0; k < controller->states; k++) {
            double *row = &value[network->pattern_start[controller->at + k]];
            for (int w = 0; w < controller->ways; w++)
                if (controller->way[w].volume >= 0)
                    add_way(network, controller, &controller->way[w], rates.by_arriving[k], scratch, row);
            for (int s = 0; s < controller->states; s++)
                row[controller->columns - controller->states + s] += rates.by_state[k][s];
        }
    }
}
