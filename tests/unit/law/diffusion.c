/* tests/unit/law/diffusion.c  Diffusion between two places: what it conserves, its limits, its slopes. */
#include "law/diffusion.h"

#include "law/flow.h"
#include "support/near.h"

#include <stdbool.h>

enum { COMPANY = 5 };

/* air, carbon dioxide, n-butane, toluene, ethanol: kg/mol, sums of increments */
static const double molar_mass[COMPANY] = {28.9647e-3, 44.0095e-3, 58.1222e-3, 92.1384e-3, 46.0684e-3};
static const double volume[COMPANY] = {19.7, 26.9, 86.70, 111.48, 51.77};

struct state {
    struct diffusers gases;
    double share[2][COMPANY], temperature[2], reach, flow;
};

static struct state state_draw(uint64_t *stream, int count)
{
    struct state s = {.gases = diffusers_create(count, molar_mass, volume)};
    for (int side = 0; side < 2; side++) {
        double sum = 0.0;
        for (int i = 0; i < count; i++)
            sum += s.share[side][i] = near_draw_decades(stream, 1e-4, 1.0);
        for (int i = 0; i < count; i++)
            s.share[side][i] /= sum;
        s.temperature[side] = near_draw_between(stream, 250.0, 350.0);
    }
    s.reach = near_draw_decades(stream, 1e-4, 1.0);
    const double conductance = s.reach * 4e-4; /* mol/s, C D of air and vapor */
    s.flow = conductance * near_draw_decades(stream, 1e-3, 30.0) * (near_draw(stream) < 0.5 ? -1.0 : 1.0);
    return s;
}

static struct diffusion state_diffusion(const struct state *s)
{
    return diffusion_between(&s->gases, s->reach, s->flow, &(struct diffusion_side){s->share[0], s->temperature[0]},
                             &(struct diffusion_side){s->share[1], s->temperature[1]});
}

static double state_surplus(const struct state *s)
{
    return diffusion_surplus(&s->gases, s->reach, s->flow, &(struct diffusion_side){s->share[0], s->temperature[0]},
                             &(struct diffusion_side){s->share[1], s->temperature[1]});
}

/* ---- what is conserved ------------------------------------------------------------------------------------------- */

static void gases_only_change_places(void **unused)
{
    (void)unused;
    uint64_t stream = 31;
    for (int n = 0; n < 500; n++) {
        const struct state s = state_draw(&stream, COMPANY);
        const struct diffusion diffusion = state_diffusion(&s);
        double value[COMPANY], sum = 0.0, size = 0.0;
        diffusion_values(&s.gases, s.reach, s.flow, &(struct diffusion_side){s.share[0], s.temperature[0]},
                         &(struct diffusion_side){s.share[1], s.temperature[1]}, value);
        assert_memory_equal(value, diffusion.value, sizeof value);
        for (int i = 0; i < COMPANY; i++) {
            sum += value[i];
            size += fabs(value[i]);
        }
        assert_true(size > 0.0);
        assert_near("moles", sum, 0.0, 2e-15 * size); /* five roundings, and those of the shares */
    }
}

/* Sides changed about: the flows turn, to the last bit. Same gas on both sides: none. */
static void it_is_odd(void **unused)
{
    (void)unused;
    uint64_t stream = 32;
    for (int n = 0; n < 200; n++) {
        const struct state s = state_draw(&stream, COMPANY);
        struct state turned = s;
        memcpy(turned.share[0], s.share[1], sizeof s.share[1]);
        memcpy(turned.share[1], s.share[0], sizeof s.share[0]);
        turned.temperature[0] = s.temperature[1];
        turned.temperature[1] = s.temperature[0];
        turned.flow = -s.flow;
        const struct diffusion there = state_diffusion(&s), back = state_diffusion(&turned);
        memcpy(turned.share[0], s.share[0], sizeof s.share[0]);
        memcpy(turned.share[1], s.share[0], sizeof s.share[0]);
        const struct diffusion none = state_diffusion(&turned);
        for (int i = 0; i < COMPANY; i++)
            assert_true(there.value[i] == -back.value[i] && none.value[i] == 0.0);
    }
}

/* ---- limits ------------------------------------------------------------------------------------------------------ */

/* Two gases: Fick's law, J = reach C D_12 (x_a - x_b), whatever the shares. */
static void two_gases_follow_fick(void **unused)
{
    (void)unused;
    uint64_t stream = 33;
    for (int n = 0; n < 200; n++) {
        struct state s = state_draw(&stream, 2);
        s.flow = 0.0;
        const double t = 0.5 * (s.temperature[0] + s.temperature[1]);
        const double d = pair_diffusivity(molar_mass[0], volume[0], molar_mass[1], volume[1], t, 9e4);
        const double want = s.reach * 9e4 / (GAS_CONSTANT * t) * d * (s.share[0][1] - s.share[1][1]);
        const double rounding = 1e-16 * s.reach * 4e-4; /* of the shares */
        assert_near("carbon dioxide", state_diffusion(&s).value[1], want, 1e-14 * fabs(want) + rounding);
    }
}

/* Alone, or through a shut passage: nothing, and no slope that is none. */
static void alone_or_shut_nothing(void **unused)
{
    (void)unused;
    uint64_t stream = 34;
    struct state alone = state_draw(&stream, 1);
    struct state shut = state_draw(&stream, COMPANY);
    shut.reach = 0.0;
    struct state blown = state_draw(&stream, COMPANY);
    blown.flow = 1e9 * blown.reach;
    const struct state *const all[] = {&alone, &shut, &blown};
    for (int k = 0; k < 3; k++) {
        const struct diffusion diffusion = state_diffusion(all[k]);
        for (int i = 0; i < all[k]->gases.count; i++) {
            assert_true(diffusion.value[i] == 0.0 && diffusion.by_flow[i] == 0.0 && diffusion.by_temperature[i] == 0.0);
            for (int j = 0; j < all[k]->gases.count; j++)
                assert_true(diffusion.by_share_a[i][j] == 0.0 && diffusion.by_share_b[i][j] == 0.0);
        }
    }
}

/* A share that an integrator leaves a little under zero. */
static void a_little_less_than_nothing_is_safe(void **unused)
{
    (void)unused;
    uint64_t stream = 35;
    struct state s = state_draw(&stream, COMPANY);
    s.share[0][0] = 1.0 + 4e-6;
    s.share[1][0] = 1.0 + 4e-6;
    for (int i = 1; i < COMPANY; i++)
        s.share[0][i] = s.share[1][i] = -1e-6;
    s.share[0][1] = 1e-6;
    s.share[0][0] -= 2e-6;
    const struct diffusion diffusion = state_diffusion(&s);
    assert_true(diffusion.value[1] > 0.0 && diffusion.value[0] < 0.0);
    for (int i = 0; i < COMPANY; i++)
        for (int j = 0; j < COMPANY; j++)
            assert_true(isfinite(diffusion.by_share_a[i][j]));
}

/* Steady flow and diffusion of a trace between two points, N = F (x_a - x_b e^-P)/(1 - e^-P), P = F/(reach C D)
 * (the solution of N = F x - reach C D dx/ds with constant N): upstream share times flow, plus the law. */
static void beside_a_stream_the_sum_is_exact(void **unused)
{
    (void)unused;
    uint64_t stream = 36;
    for (int n = 0; n < 300; n++) {
        const struct state s = state_draw(&stream, 2);
        const double t = 0.5 * (s.temperature[0] + s.temperature[1]);
        const double d = pair_diffusivity(molar_mass[0], volume[0], molar_mass[1], volume[1], t, STANDARD_PRESSURE);
        const double peclet = s.flow / (s.reach * STANDARD_PRESSURE / (GAS_CONSTANT * t) * d);
        const double want = s.flow * (s.share[0][1] - s.share[1][1] * exp(-peclet)) / -expm1(-peclet);
        const double got = s.flow * s.share[s.flow >= 0.0 ? 0 : 1][1] + state_diffusion(&s).value[1];
        /* conditioned by 1/P where the flow is small */
        assert_near("flux", got, want, 1e-14 * fabs(s.flow) * (1.0 + 1.0 / fabs(peclet)));
    }
}

/* ---- slopes ------------------------------------------------------------------------------------------------------ */

struct probe {
    const struct state *state;
    int of, side, by; /* by COMPANY: temperature; COMPANY + 1: flow */
};

static double probe_diffusion(double change, const void *with)
{
    const struct probe *probe = with;
    struct state moved = *probe->state;
    if (probe->by < COMPANY)
        moved.share[probe->side][probe->by] += change;
    else
        *(probe->by == COMPANY ? &moved.temperature[probe->side] : &moved.flow) += change;
    return state_diffusion(&moved).value[probe->of];
}

/* The side that gives back what is left over of moles changes within the nudge: the law has a corner there. */
static bool turns(const struct probe *probe, double h)
{
    int over = 0;
    for (int k = -2; k <= 2; k++) {
        struct state moved = *probe->state;
        if (probe->by < COMPANY)
            moved.share[probe->side][probe->by] += k * h;
        else
            *(probe->by == COMPANY ? &moved.temperature[probe->side] : &moved.flow) += k * h;
        over += state_surplus(&moved) > 0.0;
    }
    return over != 0 && over != 5;
}

/* Where none of a gas is, none can be taken: not by the diffusion of others against a gale either. */
static void nothing_is_taken_from_nothing(void **unused)
{
    (void)unused;
    uint64_t stream = 39;
    for (int n = 0; n < 300; n++) {
        struct state s = state_draw(&stream, COMPANY);
        const int side = n % 2;
        s.share[side][n % COMPANY] = 0.0;
        double sum = 0.0;
        for (int i = 0; i < COMPANY; i++)
            sum += s.share[side][i];
        for (int i = 0; i < COMPANY; i++)
            s.share[side][i] /= sum;
        const double out = (side == 0 ? 1.0 : -1.0) * state_diffusion(&s).value[n % COMPANY];
        assert_true(out <= 0.0);
    }
}

/* Shares bend on their mean's scale (D_i at a share near nothing: that of ALONE, 1e-4): step 1e-3 of it. Round-off: an
 * ulp of the largest conductance over the step. */
static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 37;
    int compared = 0, turning = 0;
    for (int n = 0; n < 300; n++) {
        const struct state s = state_draw(&stream, COMPANY);
        const struct diffusion diffusion = state_diffusion(&s);
        for (int side = 0; side < 2; side++)
            for (int i = 0; i < COMPANY; i++)
                for (int j = 0; j < COMPANY + 2; j++) {
                    const double slope = j == COMPANY  ? diffusion.by_temperature[i]
                                         : j > COMPANY ? diffusion.by_flow[i]
                                         : side == 0   ? diffusion.by_share_a[i][j]
                                                       : diffusion.by_share_b[i][j];
                    const double h = 1e-3 * (j == COMPANY  ? s.temperature[side]
                                             : j > COMPANY ? fabs(s.flow)
                                                           : fmax(s.share[side][j], 1e-3));
                    const struct probe probe = {&s, i, side, j};
                    compared++;
                    if (turns(&probe, h)) {
                        turning++;
                        continue;
                    }
                    const double want = near_slope(probe_diffusion, &probe, 0.0, h);
                    assert_near("slope", slope, want, 1e-6 * fabs(want) + 1e-15 * s.reach * 1e-3 / h);
                }
    }
    print_message("%d slopes, %d of them at a turn\n", compared, turning);
    assert_true(20 * turning < compared);
}

/* Where the stream turns, the law alone has a corner; with the shares upstream it has none. */
static void reversal_is_smooth_with_the_stream(void **unused)
{
    (void)unused;
    uint64_t stream = 38;
    for (int n = 0; n < 100; n++) {
        struct state s = state_draw(&stream, 2);
        s.flow = 0.0;
        const double forward = s.share[0][1] + state_diffusion(&s).by_flow[1];
        s.flow = -1e-300;
        const double backward = s.share[1][1] + state_diffusion(&s).by_flow[1];
        assert_near("slope", forward, backward, 1e-14);
        assert_near("slope", forward, 0.5 * (s.share[0][1] + s.share[1][1]), 1e-14);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gases_only_change_places),
        cmocka_unit_test(it_is_odd),
        cmocka_unit_test(two_gases_follow_fick),
        cmocka_unit_test(alone_or_shut_nothing),
        cmocka_unit_test(a_little_less_than_nothing_is_safe),
        cmocka_unit_test(beside_a_stream_the_sum_is_exact),
        cmocka_unit_test(nothing_is_taken_from_nothing),
        cmocka_unit_test(slopes_agree_with_differences),
        cmocka_unit_test(reversal_is_smooth_with_the_stream),
    };
    return cmocka_run_group_tests_name("diffusion", tests, NULL, NULL) != 0;
}
