/* tests/unit/law/dip.c  Openings that a liquid covers: share, head, what leaves; slopes and limits. */
#include "law/dip.h"

#include "support/near.h"

#define RADIUS 4e-3

static double cover_at(double rise, const void *with)
{
    (void)with;
    return dip_cover(rise, RADIUS).value;
}

static double head_at(double rise, const void *with)
{
    (void)with;
    return dip_head(rise, RADIUS).value;
}

static double drain_at(double drop, const void *with)
{
    return dip_drain(*(const double *)with, 740.0, 5e-4, drop).value;
}

/* Cubic and quartic: the quotients of step doubling are exact but for round-off of 1e-16 over the step of 1e-5 m. */
static void slopes_agree_with_differences(void **unused)
{
    (void)unused;
    for (double rise = -0.98 * RADIUS; rise < RADIUS; rise += 0.13 * RADIUS) {
        assert_near("cover", dip_cover(rise, RADIUS).slope, near_slope(cover_at, NULL, rise, 1e-5), 1e-8);
        assert_near("head", dip_head(rise, RADIUS).slope, near_slope(head_at, NULL, rise, 1e-5), 1e-9);
    }
    const double diameter[] = {0.1e-3, 0.5e-3, 3e-3};
    for (int k = 0; k < 3; k++)
        for (double drop = 0.1; drop < 4000.0; drop *= 3.0)
            assert_near_share("drain", dip_drain(diameter[k], 740.0, 5e-4, drop).slope,
                              near_slope(drain_at, &diameter[k], drop, 1e-3 * drop), 1e-10);
}

static void cover_and_head_meet_their_ends(void **unused)
{
    (void)unused;
    assert_true(dip_cover(-RADIUS, RADIUS).value == 0.0 && dip_cover(RADIUS, RADIUS).value == 1.0);
    assert_true(dip_cover(0.0, RADIUS).value == 0.5);
    assert_true(dip_head(-2.0 * RADIUS, RADIUS).value == 0.0);
    assert_near("head", dip_head(0.1, RADIUS).value, 0.1, 0.0);
    assert_near("meets", dip_head(RADIUS * (1.0 - 1e-12), RADIUS).value, RADIUS, 1e-14);
    /* the head is the integral of the cover: by Simpson over 200 pieces, exact for cubics */
    double sum = 0.0;
    const double step = 2.0 * RADIUS / 200.0;
    for (int k = 0; k < 200; k++)
        sum += step / 6.0 *
               (cover_at(-RADIUS + k * step, NULL) + 4.0 * cover_at(-RADIUS + (k + 0.5) * step, NULL) +
                cover_at(-RADIUS + (k + 1) * step, NULL));
    assert_near("integral", sum, dip_head(RADIUS, RADIUS).value, 1e-16);
}

/* Torricelli with a jet of 0.61 (common practice, no source): 200 mm of head over a hole of 3 mm, 740 kg/m3:
 * 0.61 * 7.0686e-6 m2 * sqrt(2 * 9.80665 * 0.2) = 8.5399e-6 m3/s; and the creeping limit d^3 dp/(24 mu) [SAMPSON1891]. */
static void much_head_is_an_orifice_little_creeps(void **unused)
{
    (void)unused;
    assert_near_share("orifice", dip_drain(3e-3, 740.0, 5e-4, 740.0 * 9.80665 * 0.2).value, 8.5399e-6, 1e-4);
    assert_near_share("creeps", dip_drain(0.2e-3, 740.0, 5e-4, 1e-6).value, 8e-12 * 1e-6 / (24.0 * 5e-4), 1e-5);
    assert_true(dip_drain(3e-3, 740.0, 5e-4, 0.0).value == 0.0 && dip_drain(3e-3, 740.0, 5e-4, -5.0).value == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(slopes_agree_with_differences),
                                       cmocka_unit_test(cover_and_head_meet_their_ends),
                                       cmocka_unit_test(much_head_is_an_orifice_little_creeps)};
    return cmocka_run_group_tests_name("unit/law/dip", tests, NULL, NULL) != 0;
}
