/* tests/unit/network/slopes.c  Every entry of the Jacobian against central differences with step doubling, on drawn
 * networks at drawn states away from reversal; and the columns of what is conserved cancel. */
#include "network/inside.h"
#include "procedure/procedure.h"
#include "support/random_network.h"
#include "ullage.h"

#define NOTHING 1e-25 /* mol/s: what diffuses against a gale dies off as exp(-flow) and is no number to compare */
#define BENT 3e-4  /* of that: how far a nudge and its double may part; a tube in transition leaves 8 squares of it */
#define SHARE 1e-6 /* of the largest slope of the row, in scaled units: what is asked of every entry */

struct bench {
    struct ullage_description *description;
    struct network *network;
    struct inputs inputs;
    struct scratch scratch;
    double *parameter, *y, *value, *up, *down, *wide_up, *wide_down, *middle;
    struct ramp *opening;
    bool *joined, *on;
    struct tap_now *tap;
    struct pour *pour;
    int length;
};

static void *zeroed(int count, size_t size)
{
    void *room = calloc((size_t)count + 1, size);
    assert_non_null(room);
    return room;
}

static void bench_open(struct bench *bench, uint64_t seed)
{
    char *text = zeroed(RANDOM_TEXT, 1);
    random_network(seed, text);
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct joint joint[16];
    bench->description = ullage_description_text(text, problems, &outcome);
    assert_non_null(bench->description);
    const int joints = procedure_joints(bench->description, joint, 16);
    bench->network = network_create(bench->description, joint, joints, problems);
    assert_non_null(bench->network);
    ullage_problems_free(problems);
    free(text);
    const struct network *network = bench->network;
    const int length = bench->length = network->stiff.states + network->stiff.accounts;
    double **const row[] = {&bench->y, &bench->up, &bench->down, &bench->wide_up, &bench->wide_down, &bench->middle};
    for (size_t k = 0; k < sizeof row / sizeof *row; k++)
        *row[k] = zeroed(length, sizeof(double));
    bench->value = zeroed(network->stiff.start[length], sizeof(double));
    bench->parameter = zeroed(network->parameters, sizeof(double));
    bench->opening = zeroed(network->parts, sizeof *bench->opening);
    bench->joined = zeroed(network->joints, sizeof(bool));
    bench->on = zeroed(network->switches, sizeof(bool));
    bench->tap = zeroed(network->taps, sizeof *bench->tap);
    bench->pour = zeroed(network->pour_places, sizeof *bench->pour);
    assert_true(scratch_take(network, &bench->scratch));
    bench->inputs = (struct inputs){.parameter = bench->parameter,
                                    .opening = bench->opening,
                                    .joined = bench->joined,
                                    .before = (double)INFINITY,
                                    .on = bench->on,
                                    .tap = bench->tap,
                                    .pour = bench->pour};
}

static void bench_close(struct bench *bench)
{
    void *const room[] = {bench->y,         bench->up,    bench->down,      bench->wide_up,
                          bench->wide_down, bench->value, bench->parameter, bench->opening,
                          bench->joined,    bench->on,    bench->middle,    bench->tap,
                          bench->pour};
    for (size_t k = 0; k < sizeof room / sizeof *room; k++)
        free(room[k]);
    scratch_release(&bench->scratch);
    network_free(bench->network);
    ullage_description_free(bench->description);
}

#define MOLAR 1.3e-4 /* m3/mol, of a liquid fuel */

/* Warmer or colder, more or less of each component. */
static void draw_liquid(struct bench *bench, const struct volume *volume, uint64_t *stream)
{
    const struct pool *pool = volume->pool;
    if (!pool)
        return;
    double *own = &bench->y[volume->at + pool->at], energy = 0.0, capacity = 0.0;
    uint64_t aside = *stream ^ 0x2545f491u;
    if (pool->begun >= 0.0) /* what else is drawn does not hang on it */
        stream = &aside;
    for (int k = 0; k < pool->liquid.count; k++) {
        own[k] = pool->stock[k] * 0.2 * (near_draw(stream) - 0.5);
        if (pool->begun >= 0.0) /* it may be empty */
            own[k] += pool->brim * (0.05 + 0.4 * near_draw(stream)) / (pool->liquid.count * MOLAR);
        energy += own[k] * component_energy(pool->liquid.component[k], 300.0).value;
        capacity += (pool->begun < 0.0 ? pool->stock[k] : own[k]) * pool->liquid.component[k]->heat_capacity;
    }
    own[pool->liquid.count] = energy + capacity * 10.0 * (near_draw(stream) - 0.5);
    if (pool->wall > 0.0)
        own[pool->liquid.count + 1] = pool->wall * 40.0 * (near_draw(stream) - 0.5);
}

/* Corrections inside their limits and beyond, mixtures off by some tenths; on a stream of their own. */
static void draw_controllers(struct bench *bench, uint64_t stream)
{
    for (int c = 0; c < bench->network->controllers; c++)
        for (int k = 0; k < bench->network->controller[c].states; k++)
            bench->y[bench->network->controller[c].at + k] = 0.8 * (near_draw(&stream) - 0.5);
}

/* Two faults of liquid in three pour, in and out; one in three has never. On a stream of their own. */
static void draw_pours(struct bench *bench, uint64_t stream)
{
    const struct network *network = bench->network;
    for (int t = 0; t < network->taps; t++)
        bench->tap[t].held = near_draw(&stream) < 0.33 ? (struct ramp){(double)INFINITY, (double)INFINITY, 0.0, 0.0}
                                                       : (struct ramp){50.0, 150.0, 0.0, 0.0};
    for (int p = 0; p < network->pour_places; p++) {
        struct pour *pour = &bench->pour[p];
        const struct volume *volume = &network->volume[network->pour_place[p].volume];
        const double rate = 2e-3 * volume->room * (near_draw(&stream) - 0.5);
        *pour = (struct pour){.volume = rate};
        for (int k = 0; k < network->fuels; k++) {
            pour->amount[k] = (rate + 1e-3 * volume->room * (near_draw(&stream) - 0.5)) / (network->fuels * MOLAR);
            pour->energy += pour->amount[k] * component_energy(&network->fuel[k], 300.0).value;
        }
    }
}

/* A state no run need ever reach: amounts, energies and pressures moved by tens of percent, apart from one another. */
static void draw_state(struct bench *bench, uint64_t *stream)
{
    const struct network *network = bench->network;
    for (int k = 0; k < network->parts; k++) {
        const struct part *part = &network->part[k];
        for (int r = 0; r < rows_count(part->kind->parameter); r++)
            bench->parameter[network->parameter_at[k] + r] = part->value[r];
        const double opening = 0.2 + 0.8 * near_draw(stream);
        bench->opening[k] = (struct ramp){0.0, 0.0, opening, opening};
    }
    for (int j = 0; j < network->joints; j++)
        bench->joined[j] = true;
    for (int s = 0; s < network->switches; s++)
        bench->on[s] = near_draw(stream) < 0.5;
    draw_controllers(bench, *stream + 1);
    draw_pours(bench, *stream + 2);
    for (int v = 0; v < network->volumes; v++) {
        const struct volume *volume = &network->volume[v];
        double total = 0.0;
        for (int i = 0; i < network->species; i++)
            total += volume->stock[i];
        for (int i = 0; i < network->carried; i++)
            bench->y[volume->at + i] = total * (0.05 + 0.4 * near_draw(stream));
        bench->y[volume->at + network->carried] = volume->energy * 0.8 * near_draw(stream);
        bench->y[volume->at + network->carried + 1] = 3e4 * (near_draw(stream) - 0.3);
        for (int i = 0; volume->carbon > 0.0 && i < network->species; i++)
            bench->y[volume->at + network->carried + 2 + i] = volume->carbon * near_draw(stream);
        draw_liquid(bench, volume, stream);
        if (volume->creep_at >= 0)
            bench->y[volume->at + volume->creep_at] = volume->creep * 2e3 * (near_draw(stream) - 0.5);
        if (volume->wall > 0.0)
            bench->y[volume->at + volume->wall_at] = volume->wall * 40.0 * (near_draw(stream) - 0.5);
    }
}

#define FAR 4.0 /* K: nearer than that natural convection bends within a nudge of a gas's energy, some 0.1 K */

/* A wall's temperature, some way off both what it holds and the air. */
static double draw_wall(uint64_t *stream, double held, double air)
{
    double wall = air + (near_draw(stream) < 0.5 ? -1.0 : 1.0) * (FAR + 16.0 * near_draw(stream));
    if (fabs(wall - held) < FAR)
        wall += (wall > air ? 2.0 : -2.0) * FAR;
    return wall;
}

/* Walls anew, now that it is known how warm gas and liquid are. False: some have no wall and are as warm as the air. */
static bool draw_walls(struct bench *bench, uint64_t *stream)
{
    const struct network *network = bench->network;
    if (network_state(network, &bench->inputs, 100.0, bench->y, &bench->scratch, false))
        return false;
    const double air = bench->scratch.air.temperature;
    bool far = true;
    for (int v = 0; v < network->volumes; v++) {
        const struct volume *volume = &network->volume[v];
        const struct place_gas *place = &bench->scratch.volume[v];
        const struct pool *pool = volume->pool;
        if (volume->wall > 0.0)
            bench->y[volume->at + volume->wall_at] =
                place->wall.value * draw_wall(stream, place->gas.temperature, air) - volume->wall_energy;
        else
            far = far && (!heat_way_open(&volume->film) || fabs(place->gas.temperature - air) > FAR);
        if (pool && pool->wall > 0.0)
            bench->y[volume->at + pool->at + pool->liquid.count + 1] =
                place->liquid.level.lower.value * draw_wall(stream, place->liquid.temperature, air) - pool->wall_energy;
        else if (pool)
            far = far && (!heat_way_open(&pool->film) || fabs(place->liquid.temperature - air) > 0.5);
    }
    return far;
}

/* Step of a difference quotient in state j: a small share of what would matter, large against round-off. */
static double nudge(const struct network *network, int j)
{
    return 2e-3 * network->stiff.scale[j];
}

static bool rates_at(struct bench *bench, int j, double by, double *rates)
{
    const double kept = bench->y[j];
    bench->y[j] = kept + by;
    const int refused = network_rates(bench->network, &bench->inputs, 100.0, bench->y, rates, &bench->scratch);
    bench->y[j] = kept;
    return !refused;
}

/* No passage so near to reversal or to choking that a nudge could cross it. */
static bool away_from_kinks(const struct bench *bench)
{
    const struct network *network = bench->network;
    for (int p = 0; p < network->passages; p++) {
        const struct gas *a = &place_of(&bench->scratch, network->passage[p].a)->gas;
        const struct gas *b = &place_of(&bench->scratch, network->passage[p].b)->gas;
        const double ratio = fmin(a->pressure, b->pressure) / fmax(a->pressure, b->pressure);
        if (fabs(a->excess - b->excess) < 100.0 || (ratio > 0.45 && ratio < 0.6))
            return false;
    }
    for (int s = 0; s < network->switches; s++) /* where a seat lifts off, the flow has a corner: a run stops there */
        if (!network->toggle[s].heads &&
            fabs(network_margin(network, &bench->inputs, 100.0, bench->y, s, bench->on[s])) < 10.0)
            return false;
    return true;
}

static double entry(const struct bench *bench, int row, int column)
{
    const struct stiff_system *stiff = &bench->network->stiff;
    for (int k = stiff->start[row]; k < stiff->start[row + 1]; k++)
        if (stiff->column[k] == column)
            return bench->value[k];
    return 0.0;
}

/* Largest entry of a row times the nudge of its column: what its differences are made of. */
static double row_size(const struct bench *bench, int row)
{
    const struct stiff_system *stiff = &bench->network->stiff;
    double size = 0.0;
    for (int k = stiff->start[row]; k < stiff->start[row + 1]; k++)
        size = fmax(size, fabs(bench->value[k]) * nudge(bench->network, stiff->column[k]));
    return size;
}

/* `in` and `out` of an account change over where what they count changes sign: no slope is asked for there. */
static bool changes_over(const struct bench *bench, int row)
{
    const double at[] = {bench->up[row], bench->down[row], bench->wide_up[row], bench->wide_down[row]};
    int zeros = 0;
    for (int k = 0; k < 4; k++)
        zeros += at[k] == 0.0;
    return row >= bench->network->stiff.states && zeros > 0 && zeros < 4;
}

static int compare_column(struct bench *bench, int j, uint64_t seed, double *worst, int *bent)
{
    const double h = nudge(bench->network, j);
    if (!rates_at(bench, j, 0.0, bench->middle) || !rates_at(bench, j, h, bench->up) ||
        !rates_at(bench, j, -h, bench->down) || !rates_at(bench, j, 2.0 * h, bench->wide_up) ||
        !rates_at(bench, j, -2.0 * h, bench->wide_down))
        return 0;
    for (int row = 0; row < bench->length; row++) {
        if (changes_over(bench, row))
            continue;
        const double narrow = 0.5 * (bench->up[row] - bench->down[row]);
        const double wide = 0.25 * (bench->wide_up[row] - bench->wide_down[row]);
        const double difference = (4.0 * narrow - wide) / 3.0;
        const double size = row_size(bench, row), rates = fabs(bench->up[row]);
        const double round_off = 64.0 * 2.3e-16 * rates; /* of the difference itself */
        const double off = fabs(entry(bench, row, j) * h - difference);
        const double even = bench->up[row] + bench->down[row], wide_even = bench->wide_up[row] + bench->wide_down[row];
        const double corner = wide_even - 4.0 * even + 6.0 * bench->middle[row]; /* smooth: of order h^4 */
        /* rounded off, what differences leave of a corner is its square; a sharp one (upwinding at no flow) is seen */
        if (fabs(narrow - wide) > BENT * size || fabs(corner) > SHARE * size + 8.0 * round_off) {
            (*bent)++;
            continue;
        }
        if (!(off <= SHARE * size + round_off + NOTHING))
            fail_msg("network %d, row %d, column %d: slope %.12g, difference %.12g, row %.3g", (int)seed, row, j,
                     entry(bench, row, j) * h, difference, size);
        *worst = size > 1e6 * NOTHING ? fmax(*worst, fmax(0.0, off - round_off) / size) : *worst;
    }
    return bench->length;
}

static void slopes_are_the_differences(void **unused)
{
    (void)unused;
    int compared = 0, states = 0, bent = 0;
    double worst = 0.0;
    for (uint64_t seed = 0; seed < 60; seed++) {
        struct bench bench = {0};
        uint64_t stream = seed + 1;
        bench_open(&bench, seed);
        for (int attempt = 0; attempt < 20; attempt++) {
            draw_state(&bench, &stream);
            if (!draw_walls(&bench, &stream) ||
                network_slopes(bench.network, &bench.inputs, 100.0, bench.y, bench.value, &bench.scratch) ||
                !away_from_kinks(&bench))
                continue;
            for (int j = 0; j < bench.network->stiff.states; j++)
                compared += compare_column(&bench, j, seed, &worst, &bent);
            states++;
            break;
        }
        bench_close(&bench);
    }
    print_message("%d entries at %d states; worst %.1e of its row; %d too near a corner\n", compared, states, worst,
                  bent);
    assert_true(states > 40);
    assert_true(bent < 1e-4 * compared);
}

/* Of the liquid: the component whose vapor is quantity i, or its energy, lower wall and heat. */
static double liquid_entries(const struct bench *bench, const struct volume *volume, int i, int j, double *size)
{
    const struct network *network = bench->network;
    const struct pool *pool = volume->pool;
    double sum = 0.0;
    if (!pool)
        return 0.0;
    const int first = volume->at + pool->at, count = pool->liquid.count;
    const int account = network->stiff.states + volume->account;
    for (int k = 0; k < count; k++)
        if (pool->vapor[k] == i)
            sum += entry(bench, first + k, j);
    if (i == network->carried) {
        const double part[] = {entry(bench, first + count, j),
                               pool->wall > 0.0 ? entry(bench, first + count + 1, j) : 0.0,
                               -entry(bench, account + LIQUID_HEAT_IN, j), entry(bench, account + LIQUID_HEAT_OUT, j)};
        for (int k = 0; k < 4; k++) {
            sum += part[k];
            *size += fabs(part[k]);
        }
    }
    *size += fabs(sum);
    return sum;
}

/* Of what is poured only the work hangs on a state. */
static double poured_entries(const struct bench *bench, int i, int j)
{
    const struct network *network = bench->network;
    double sum = 0.0;
    for (int t = 0; i == network->carried && t < network->taps; t++) {
        const int row = network->stiff.states + network->tap[t].account + 2 * network->fuels;
        sum += entry(bench, row + 1, j) - entry(bench, row, j);
    }
    return sum;
}

/* w'J = 0 for each carried quantity: states of all volumes plus what went out minus what came in. */
static void columns_of_the_conserved_cancel(void **unused)
{
    (void)unused;
    for (uint64_t seed = 0; seed < 60; seed++) {
        struct bench bench = {0};
        uint64_t stream = seed + 1;
        bench_open(&bench, seed);
        const struct network *network = bench.network;
        draw_state(&bench, &stream);
        if (network_slopes(network, &bench.inputs, 100.0, bench.y, bench.value, &bench.scratch)) {
            bench_close(&bench);
            continue;
        }
        for (int i = 0; i <= network->carried; i++)
            for (int j = 0; j < network->stiff.states; j++) {
                double sum = 0.0, size = 0.0;
                for (int v = 0; v < network->volumes; v++) {
                    const struct volume *volume = &network->volume[v];
                    const int account = network->stiff.states + volume->account;
                    const bool held = volume->carbon > 0.0 && i < network->species;
                    const double own[] = {held ? entry(&bench, volume->at + network->carried + 2 + i, j) : 0.0,
                                          entry(&bench, volume->at + i, j),
                                          i == network->carried && volume->wall > 0.0
                                              ? entry(&bench, volume->at + volume->wall_at, j)
                                              : 0.0,
                                          i == network->carried ? -entry(&bench, account + HEAT_IN, j) : 0.0,
                                          i == network->carried ? entry(&bench, account + HEAT_OUT, j) : 0.0,
                                          i == network->carried ? -entry(&bench, account + WORK_IN, j) : 0.0,
                                          i == network->carried ? entry(&bench, account + WORK_OUT, j) : 0.0};
                    sum += liquid_entries(&bench, volume, i, j, &size);
                    for (size_t k = 0; k < sizeof own / sizeof *own; k++) {
                        sum += own[k];
                        size += fabs(own[k]);
                    }
                }
                for (int p = 0; p < network->passages; p++) {
                    const int side[2] = {network->passage[p].account_a, network->passage[p].account_b};
                    const int in = i == network->carried ? 2 * i : i,
                              out = i == network->carried ? in + 1 : i + network->carried;
                    for (int s = 0; s < 2; s++)
                        if (side[s] >= 0) {
                            sum += entry(&bench, network->stiff.states + side[s] + out, j) -
                                   entry(&bench, network->stiff.states + side[s] + in, j);
                        }
                }
                sum += poured_entries(&bench, i, j);
                if (!(fabs(sum) <= 1e-13 * size))
                    fail_msg("network %d: quantity %d, column %d leaves %.3g of %.3g", (int)seed, i, j, sum, size);
            }
        bench_close(&bench);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(slopes_are_the_differences),
                                       cmocka_unit_test(columns_of_the_conserved_cancel)};
    return cmocka_run_group_tests_name("unit/network/slopes", tests, NULL, NULL) != 0;
}
