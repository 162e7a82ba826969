/* tests/unit/view/colour.c  The pressure scale: its stops as they were designed, even steps, told apart without hue. */
#include "view/colour.h"

#include "support/near.h"

#include <stdbool.h>

#define ROUNDING 2 /* of 255: the design's stops were rounded from matrices of as many digits as ours */

static double part(unsigned colour, int shift)
{
    return (double)(colour >> shift & 0xFF);
}

static void stops_are_the_designs(void **state)
{
    (void)state;

    static const struct {
        double kilopascal;
        unsigned colour;
    } stops[] = {{-5.0, 0x4F94E9}, {-2.81, 0x79ACED}, {-1.25, 0xA0C3F0}, {-0.31, 0xC7DAF2}, {0.0, 0xF1F0ED},
                 {0.31, 0xEDD2BF}, {1.25, 0xE5B591},  {2.81, 0xDD9760},  {5.0, 0xD27823}};

    for (size_t k = 0; k < sizeof stops / sizeof stops[0]; k++) {
        const unsigned got = colour_pressure(1e3 * stops[k].kilopascal, false);
        for (int shift = 0; shift <= 16; shift += 8)
            assert_near("channel", part(got, shift), part(stops[k].colour, shift), ROUNDING);
    }
}

/* Relative luminance of WCAG 2.1, from its definition. */
static double luminance(unsigned colour)
{
    double linear[3];
    for (int k = 0; k < 3; k++) {
        const double c = part(colour, 16 - 8 * k) / 255.0;
        linear[k] = c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
    }
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}

static double contrast(unsigned a, unsigned b)
{
    const double x = luminance(a), y = luminance(b);
    return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

/* Figures stand straight on the gas: 4.5 is the guideline's level AA for text. */
static void ink_reads_on_every_pressure(void **state)
{
    (void)state;
    for (double gauge = -8e3; gauge <= 8e3; gauge += 50.0)
        for (int bright = 0; bright < 2; bright++)
            assert_true(contrast(COLOUR_INK, colour_pressure(gauge, bright)) >= 4.5);
}

static void beyond_the_ends_it_stays(void **state)
{
    (void)state;
    assert_int_equal(colour_pressure(5e3, false), colour_pressure(3e5, false));
    assert_int_equal(colour_pressure(-5e3, false), colour_pressure(-9e4, false));
    assert_int_equal(colour_pressure((double)NAN, false), COLOUR_PAPER);
}

/* The further from zero, the darker: it reads without hue, too. */
static void darkness_tells_distance(void **state)
{
    (void)state;
    for (int sign = -1; sign <= 1; sign += 2)
        for (double size = 100.0; size < 5e3; size += 100.0)
            assert_true(luminance(colour_pressure(sign * (size + 100.0), false)) <
                        luminance(colour_pressure(sign * size, false)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stops_are_the_designs), cmocka_unit_test(ink_reads_on_every_pressure),
        cmocka_unit_test(beyond_the_ends_it_stays), cmocka_unit_test(darkness_tells_distance)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
