/* tests/unit/law/slopes.c  Every law's hand-written slopes against differences, on random states on both sides of zero.
 *
 * Left out: reversal within 2e-3 of the difference, where the second derivative jumps, and the choking point of
 * isentropic flow within half a percent, for the same reason. The step is a thousandth of each quantity (of the
 * difference, for pressure): the fourth-order error is then some 1e-12 of a smooth slope, and round-off
 * 1e-16 * value/(1e-3 * quantity). The 1e-6 asked for leaves room for the short waves of a tube's transition. */
#include "law/passages.h"
#include "support/near.h"

struct state {
    struct gas a, b;
    double size[4]; /* lengths and ratios of the passage */
};

static struct flow nozzle(const struct state *s)
{
    return nozzle_flow(1e-6 * s->size[0], 0.6, &s->a, &s->b);
}

static struct flow hole(const struct state *s)
{
    return hole_flow(1e-3 * s->size[0], 1e-3 * s->size[1], &s->a, &s->b);
}

static struct flow sharp_hole(const struct state *s)
{
    return hole_flow(1e-3 * s->size[0], 0.0, &s->a, &s->b);
}

static struct flow slit(const struct state *s)
{
    return slit_flow(0.01, 1e-4 * s->size[0], 1e-3 * s->size[1], &s->a, &s->b);
}

static struct flow porous(const struct state *s)
{
    return porous_flow(1e-12 * s->size[0], 1e-4, 1e-3 * s->size[1], &s->a, &s->b);
}

static struct flow crack(const struct state *s)
{
    return crack_flow(1e-7 * s->size[0], 0.5 + 0.5 * s->size[2], &s->a, &s->b);
}

static struct flow smooth_tube(const struct state *s)
{
    return tube_flow(1e-2 * s->size[0], s->size[1], 0.0, 10.0 * s->size[2], &s->a, &s->b);
}

static struct flow rough_tube(const struct state *s)
{
    return tube_flow(1e-2 * s->size[0], 0.1 * s->size[1], 3e-4 * s->size[0], 2.0 * s->size[2], &s->a, &s->b);
}

static struct flow bed(const struct state *s)
{
    return bed_flow(5e-3, 0.2 * s->size[1], 2e-3 * s->size[0], 0.3 + 0.3 * s->size[2], &s->a, &s->b);
}

static struct flow held_hole(const struct state *s)
{
    return flow_held_under(hole(s), 1e-5 * s->size[3]);
}

static const struct law {
    const char *name;
    struct flow (*flow)(const struct state *s);
} laws[] = {
    {"nozzle", nozzle}, {"hole", hole},           {"sharp hole", sharp_hole},   {"slit", slit},
    {"porous", porous}, {"crack", crack},         {"smooth tube", smooth_tube}, {"rough tube", rough_tube},
    {"bed", bed},       {"held hole", held_hole},
};

enum { LAWS = sizeof laws / sizeof laws[0] };

static double *quantity(struct gas *gas, int k)
{
    double *const where[GAS_QUANTITIES] = {&gas->pressure, &gas->temperature, &gas->molar_mass, &gas->viscosity,
                                           &gas->gamma};
    return where[k];
}

struct probe {
    const struct law *law;
    const struct state *state;
    int side, quantity;
};

/* Flow with one quantity of one side moved by `change`. */
static double probe_flow(double change, const void *with)
{
    const struct probe *probe = with;
    struct state moved = *probe->state;
    struct gas *gas = probe->side ? &moved.b : &moved.a;
    *quantity(gas, probe->quantity) += change;
    if (probe->quantity == GAS_PRESSURE)
        gas->excess += change;
    return probe->law->flow(&moved).value;
}

static struct gas gas_draw(uint64_t *stream)
{
    return (struct gas){.temperature = near_draw_between(stream, 230.0, 380.0),
                        .molar_mass = near_draw_between(stream, 0.018, 0.08),
                        .viscosity = near_draw_between(stream, 6e-6, 2.5e-5),
                        .gamma = near_draw_between(stream, 1.04, 1.67)};
}

/* The higher pressure is 1e4..1e6 Pa and the difference 1e-4 Pa to all of it, either way. */
static struct state state_draw(uint64_t *stream)
{
    struct state s = {.a = gas_draw(stream), .b = gas_draw(stream)};
    const double high = near_draw_decades(stream, 1e4, 1e6);
    const double step = near_draw_decades(stream, 1e-4, 0.99 * high);
    struct gas *const up = near_draw(stream) < 0.5 ? &s.a : &s.b;
    struct gas *const down = up == &s.a ? &s.b : &s.a;
    up->pressure = high;
    up->excess = 0.0;
    down->pressure = high - step;
    down->excess = -step;
    s.size[0] = near_draw_decades(stream, 0.1, 3.0);
    s.size[1] = near_draw_decades(stream, 0.01, 5.0);
    s.size[2] = near_draw(stream);
    s.size[3] = near_draw_decades(stream, 0.1, 10.0);
    return s;
}

static double state_step(const struct state *s)
{
    return fabs(s->a.excess - s->b.excess);
}

/* Half a percent around the choking point, and around the joint of the nozzle's cubic at 1 Pa. */
static int near_a_kink(const struct state *s)
{
    const double ratio = fmin(s->a.pressure, s->b.pressure) / fmax(s->a.pressure, s->b.pressure);
    const double g = s->a.pressure > s->b.pressure ? s->a.gamma : s->b.gamma;
    const double critical = pow(2.0 / (g + 1.0), g / (g - 1.0));
    const double step = state_step(s);
    return fabs(ratio / critical - 1.0) < 5e-3 || fabs(step - 1.0) < 5e-3;
}

static void slope_check(const struct probe *probe, double slope)
{
    const struct state *s = probe->state;
    struct state copy = *s;
    const double size = *quantity(probe->side ? &copy.b : &copy.a, probe->quantity);
    const double scale = probe->quantity == GAS_PRESSURE ? state_step(s) : size;
    /* flow over the blend of two gases bends on a scale of 0.25 Pa */
    const double h = 1e-3 * (probe->quantity == GAS_PRESSURE ? fmin(scale, fmax(0.25, 0.1 * scale)) : scale);
    const double want = near_slope(probe_flow, probe, 0.0, h);
    const double rounding = 1e-11 * fabs(probe_flow(0.0, probe)) / scale;
    char name[80];
    snprintf(name, sizeof name, "%s, side %c, quantity %d, step %.3g Pa", probe->law->name, "ab"[probe->side],
             probe -> quantity, state_step(s));
    assert_near(name, slope, want, 1e-6 * fabs(want) + rounding);
}

static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    uint64_t stream = 1;

    enum { STATES = 2000 };

    int seen = 0;
    for (int i = 0; i < STATES; i++) {
        const struct state s = state_draw(&stream);
        if (near_a_kink(&s))
            continue;
        seen++;
        for (int l = 0; l < LAWS; l++) {
            const struct flow flow = laws[l].flow(&s);
            for (int k = 0; k < GAS_QUANTITIES; k++) {
                slope_check(&(struct probe){&laws[l], &s, 0, k}, flow.slope_a[k]);
                slope_check(&(struct probe){&laws[l], &s, 1, k}, flow.slope_b[k]);
            }
        }
    }
    assert_true(seen > STATES * 9 / 10);
}

/* Into a vacuum, or nearly: everything is finite, and the flow the largest of all. */
static void vacuum_is_safe(void **unused)
{
    (void)unused;
    uint64_t stream = 2;
    for (int i = 0; i < 200; i++) {
        struct state s = state_draw(&stream);
        const double low = i % 2 ? 0.0 : 1e-9;
        s.a.pressure = near_draw_decades(&stream, 1e-6, 1e7);
        s.b.pressure = fmin(low, s.a.pressure);
        s.a.excess = s.a.pressure;
        s.b.excess = s.b.pressure;
        for (int l = 0; l < LAWS; l++) {
            const struct flow flow = laws[l].flow(&s);
            assert_true(isfinite(flow.value) && flow.value >= 0.0);
            for (int k = 0; k < GAS_QUANTITIES; k++)
                assert_true(isfinite(flow.slope_a[k]) && isfinite(flow.slope_b[k]));
        }
    }
}

/* a and b changed about: the flow turns, to the last bit. */
static void laws_are_odd(void **unused)
{
    (void)unused;
    uint64_t stream = 3;
    for (int i = 0; i < 500; i++) {
        const struct state s = state_draw(&stream);
        struct state turned = s;
        turned.a = s.b;
        turned.b = s.a;
        for (int l = 0; l < LAWS; l++) {
            const double there = laws[l].flow(&s).value;
            assert_near(laws[l].name, laws[l].flow(&turned).value, -there, 1e-15 * fabs(there));
        }
    }
}

/* With the same gas on both sides: raising the difference raises the flow, from 1e-6 Pa to nearly all of the pressure
 * (downstream lowered; so choked flow may stand still, but not fall). */
static void laws_are_monotone(void **unused)
{
    (void)unused;
    uint64_t stream = 4;
    for (int i = 0; i < 60; i++) {
        struct state s = state_draw(&stream);
        s.b = s.a;
        double before[LAWS] = {0};
        for (double step = 1e-6; step < s.a.pressure; step *= 1.05) {
            s.b.pressure = s.a.pressure - step;
            s.b.excess = s.a.excess - step;
            for (int l = 0; l < LAWS; l++) {
                const struct flow flow = laws[l].flow(&s);
                assert_true(flow.value >= before[l] * (1.0 - 1e-14));
                assert_true(flow.value > 0.0);
                before[l] = flow.value;
            }
        }
    }
}

/* So near to zero that curvature (a wide short tube feels inertia at 1e-9 Pa) has nothing to say. Pa */
#define HAIR 1e-20

/* Same gas on both sides: value and slope pass through zero without a jump. */
static void zero_is_smooth(void **unused)
{
    (void)unused;
    uint64_t stream = 5;
    for (int i = 0; i < 200; i++) {
        struct state s = state_draw(&stream);
        s.b = s.a;
        s.b.excess = 0.0;
        for (int l = 0; l < LAWS; l++) {
            struct flow at[3];
            const double step[3] = {-HAIR, 0.0, HAIR};
            for (int side = 0; side < 3; side++) {
                s.a.excess = step[side];
                at[side] = laws[l].flow(&s);
            }
            const double slope = at[1].slope_a[GAS_PRESSURE];
            assert_true(slope > 0.0 && at[1].value == 0.0);
            assert_near(laws[l].name, at[0].slope_a[GAS_PRESSURE], slope, 1e-6 * slope);
            assert_near(laws[l].name, at[2].slope_a[GAS_PRESSURE], slope, 1e-6 * slope);
            assert_near(laws[l].name, at[2].value, slope * step[2], 1e-6 * slope * step[2]);
            assert_near(laws[l].name, at[0].value, slope * step[0], -1e-6 * slope * step[0]);
            assert_near(laws[l].name, at[1].slope_b[GAS_PRESSURE], -slope, 1e-12 * slope);
        }
    }
}

/* Different gas on the two sides: still no jump of the slope. */
static void reversal_of_two_gases_is_smooth(void **unused)
{
    (void)unused;
    uint64_t stream = 6;
    for (int i = 0; i < 200; i++) {
        struct state s = state_draw(&stream);
        s.a.pressure = s.b.pressure;
        s.b.excess = 0.0;
        for (int l = 0; l < LAWS; l++) {
            s.a.excess = -HAIR;
            const double before = laws[l].flow(&s).slope_a[GAS_PRESSURE];
            s.a.excess = HAIR;
            const double after = laws[l].flow(&s).slope_a[GAS_PRESSURE];
            assert_near(laws[l].name, after, before, 1e-6 * before);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes_agree_with_differences),
        cmocka_unit_test(vacuum_is_safe),
        cmocka_unit_test(laws_are_odd),
        cmocka_unit_test(laws_are_monotone),
        cmocka_unit_test(zero_is_smooth),
        cmocka_unit_test(reversal_of_two_gases_is_smooth),
    };
    return cmocka_run_group_tests_name("slopes of the laws", tests, NULL, NULL) != 0;
}
