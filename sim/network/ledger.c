/* sim/network/ledger.c  What came in, went out and is there: sums over states and accounts, made when asked for. */
#include "network/inside.h"

/* Two-way sums with the running compensation of Neumaier, so that printing adds no rounding of its own. */
struct sum {
    double value, rest;
};

static void sum_add(struct sum *sum, double term)
{
    const double next = sum->value + term;
    sum->rest += fabs(sum->value) >= fabs(term) ? (sum->value - next) + term : (term - next) + sum->value;
    sum->value = next;
}

static double sum_total(const struct sum *sum)
{
    return sum->value + sum->rest;
}

struct ledger_sums {
    struct sum in, out, start, change, residual;
};

static void through_sides(const struct network *network, const double *accounts, int in, int out,
                          struct ledger_sums *sums)
{
    for (int p = 0; p < network->passages; p++) {
        const int side[2] = {network->passage[p].account_a, network->passage[p].account_b};
        for (int s = 0; s < 2; s++) {
            if (side[s] < 0)
                continue;
            sum_add(&sums->in, accounts[side[s] + in]);
            sum_add(&sums->out, accounts[side[s] + out]);
        }
    }
}

/* What taps have brought: row `in` of each, row `out`. */
static void through_taps(const struct network *network, const double *accounts, int in, int out,
                         struct ledger_sums *sums)
{
    for (int t = 0; t < network->taps; t++) {
        sum_add(&sums->in, accounts[network->tap[t].account + in]);
        sum_add(&sums->out, accounts[network->tap[t].account + out]);
    }
}

/* What is kept of carried quantity i: in gas, on carbon, as liquid of the component whose vapor it is. */
static void gas_sums(const struct network *network, const double *y, int i, struct ledger_sums *sums)
{
    for (int v = 0; v < network->volumes; v++) {
        sum_add(&sums->start, network->volume[v].stock[i]);
        sum_add(&sums->change, y[network->volume[v].at + i]);
    }
}

static void carbon_sums(const struct network *network, const double *y, int i, struct ledger_sums *sums)
{
    for (int v = 0; i < network->species && v < network->volumes; v++) {
        if (!(network->volume[v].carbon > 0.0))
            continue;
        sum_add(&sums->start, network->volume[v].load[i]);
        sum_add(&sums->change, y[network->volume[v].at + network->carried + 2 + i]);
    }
}

static void liquid_sums(const struct network *network, const double *y, int i, struct ledger_sums *sums)
{
    for (int v = 0; v < network->volumes; v++) {
        const struct pool *pool = network->volume[v].pool;
        for (int k = 0; pool && k < pool->liquid.count; k++)
            if (pool->vapor[k] == i) {
                sum_add(&sums->start, pool->stock[k]);
                sum_add(&sums->change, y[network->volume[v].at + pool->at + k]);
            }
    }
}

static void species_sums(const struct network *network, const double *y, int i, struct ledger_sums *sums)
{
    gas_sums(network, y, i, sums);
    carbon_sums(network, y, i, sums);
    liquid_sums(network, y, i, sums);
    through_sides(network, &y[network->stiff.states], i, network->carried + i, sums);
    const int k = i - network->first_fuel;
    if (k >= 0 && k < network->fuels)
        through_taps(network, &y[network->stiff.states], k, network->fuels + k, sums);
}

static void energy_sums(const struct network *network, const double *y, struct ledger_sums *sums)
{
    const double *accounts = &y[network->stiff.states];
    for (int v = 0; v < network->volumes; v++) {
        const struct volume *volume = &network->volume[v];
        const double *own = &accounts[volume->account];
        sum_add(&sums->start, volume->energy);
        sum_add(&sums->change, y[volume->at + network->carried]);
        if (volume->wall > 0.0) {
            sum_add(&sums->start, volume->wall_energy);
            sum_add(&sums->change, y[volume->at + volume->wall_at]);
        }
        for (int part = 0; volume->pool && part < 2; part++) { /* liquid, lower wall */
            const int at = volume->at + volume->pool->at + volume->pool->liquid.count + part;
            if (part == 1 && !(volume->pool->wall > 0.0))
                break;
            sum_add(&sums->start, part ? volume->pool->wall_energy : volume->pool->energy);
            sum_add(&sums->change, y[at]);
        }
        if (volume->pool) {
            sum_add(&sums->in, own[LIQUID_HEAT_IN]);
            sum_add(&sums->out, own[LIQUID_HEAT_OUT]);
        }
        sum_add(&sums->in, own[HEAT_IN]);
        sum_add(&sums->out, own[HEAT_OUT]);
        sum_add(&sums->in, own[WORK_IN]);
        sum_add(&sums->out, own[WORK_OUT]);
    }
    through_sides(network, accounts, 2 * network->carried, 2 * network->carried + 1, sums);
    through_taps(network, accounts, 2 * network->fuels, 2 * network->fuels + 1, sums);
}

/* A tracer's amounts are those of the gas that carries it. */
static double own_mass(const struct species *species)
{
    return species->passive ? 0.0 : species->molar_mass;
}

int ledger_rows(const struct network *network)
{
    return network->carried + 1;
}

struct ullage_ledger_row ledger_row(const struct network *network, const double *y, int row)
{
    struct ledger_sums sums = {0};
    const bool energy = row == network->carried;
    if (energy)
        energy_sums(network, y, &sums);
    else
        species_sums(network, y, row, &sums);
    sum_add(&sums.residual, sum_total(&sums.in));
    sum_add(&sums.residual, -sum_total(&sums.out));
    sum_add(&sums.residual, -sum_total(&sums.change));
    const double in = sum_total(&sums.in), out = sum_total(&sums.out), start = sum_total(&sums.start);
    return (struct ullage_ledger_row){.name = energy ? "energy" : network->kind[row]->name,
                                      .fuel = !energy && is_vapor(network, row),
                                      .molar_mass = energy ? 0.0 : own_mass(network->kind[row]),
                                      .in = in,
                                      .out = out,
                                      .stored_start = start,
                                      .stored_change = sum_total(&sums.change),
                                      .residual = sum_total(&sums.residual),
                                      .scale = energy ? fabs(start) + in + out : fabs(start) + in};
}

/* Openings: every side of a passage that is a boundary, every carried quantity. */
static int sides(const struct network *network)
{
    int count = 0;
    for (int p = 0; p < network->passages; p++)
        count += (network->passage[p].account_a >= 0) + (network->passage[p].account_b >= 0);
    return count;
}

int ledger_opening_rows(const struct network *network)
{
    return sides(network) * network->carried + network->taps * network->fuels;
}

/* After the openings: what each tap has brought of each component. */
static struct ullage_opening_row tap_row_told(const struct network *network, const double *y, int row)
{
    const struct tap *tap = &network->tap[row / network->fuels];
    const int k = row % network->fuels;
    const double *accounts = &y[network->stiff.states + tap->account];
    return (struct ullage_opening_row){.part = network->fault_name[tap->fault],
                                       .species = network->fuel[k].gas.name,
                                       .in = accounts[k],
                                       .out = accounts[network->fuels + k],
                                       .molar_mass = own_mass(&network->fuel[k].gas),
                                       .fuel = true,
                                       .poured = true};
}

struct ullage_opening_row ledger_opening_row(const struct network *network, const double *y, int row)
{
    const int past = row - sides(network) * network->carried;
    if (past >= 0 && network->taps > 0)
        return tap_row_told(network, y, past);
    int wanted = row / network->carried;
    const int i = row % network->carried;
    for (int p = 0; p < network->passages; p++) {
        const struct passage *passage = &network->passage[p];
        const int side[2] = {passage->account_a, passage->account_b};
        for (int s = 0; s < 2; s++) {
            if (side[s] < 0 || wanted-- > 0)
                continue;
            const double *accounts = &y[network->stiff.states + side[s]];
            return (struct ullage_opening_row){.part = network->part[passage->part].id,
                                               .species = network->kind[i]->name,
                                               .in = accounts[i],
                                               .out = accounts[network->carried + i],
                                               .molar_mass = own_mass(network->kind[i]),
                                               .fuel = is_vapor(network, i)};
        }
    }
    return (struct ullage_opening_row){.part = "", .species = ""};
}

/* ---- fuel ---- */

static void store_add(struct ullage_store *store, const struct ledger_sums *sums, double molar_mass)
{
    const double start = sum_total(&sums->start);
    store->start += molar_mass * start;
    store->now += molar_mass * (start + sum_total(&sums->change));
}

static void fuel_add(const struct network *network, const double *y, int i, struct ullage_fuel *fuel)
{
    struct ledger_sums liquid = {0}, gas = {0}, carbon = {0};
    const struct ullage_ledger_row row = ledger_row(network, y, i);
    liquid_sums(network, y, i, &liquid);
    gas_sums(network, y, i, &gas);
    carbon_sums(network, y, i, &carbon);
    store_add(&fuel->liquid, &liquid, row.molar_mass);
    store_add(&fuel->gas, &gas, row.molar_mass);
    store_add(&fuel->carbon, &carbon, row.molar_mass);
    fuel->in += row.molar_mass * row.in;
    fuel->out += row.molar_mass * row.out;
    if (row.molar_mass * fabs(row.residual) > fabs(fuel->residual))
        fuel->residual = row.molar_mass * row.residual;
}

struct ullage_fuel ledger_fuel(const struct network *network, const double *y)
{
    struct ullage_fuel fuel = {0};
    for (int i = 0; i < network->carried; i++)
        if (is_vapor(network, i))
            fuel_add(network, y, i, &fuel);
    for (int v = 0; v < network->volumes; v++)
        if (network->volume[v].pool)
            fuel.drained += y[network->stiff.states + network->volume[v].account + LIQUID_DRAINED];
    return fuel;
}
