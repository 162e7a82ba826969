/* tests/support/near.h  Is a number where it should be? And is a slope the slope?
 *
 * ULLAGE_TOLERANCE=0 in the environment prints every residual beside its tolerance, also of what passes. */
#ifndef SUPPORT_NEAR_H
#define SUPPORT_NEAR_H

/* cmocka.h stands on what comes before it. */
/* clang-format off */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

/* clang-format on */

static inline int near_talks(void)
{
    const char *asked = getenv("ULLAGE_TOLERANCE");
    return asked && strcmp(asked, "0") == 0;
}

/* Fails unless got is within tolerance (absolute) of want. A NaN on either side is never near. */
static inline void assert_near(const char *name, double got, double want, double tolerance)
{
    const double off = got - want;
    if (near_talks())
        print_message("%-48s got %.10g want %.10g off %.3g allowed %.3g\n", name, got, want, off, tolerance);
    if (!(fabs(off) <= tolerance))
        fail_msg("%s: got %.17g, want %.17g, off by %.3g, allowed %.3g", name, got, want, off, tolerance);
}

/* The same with the tolerance as a share of want. */
static inline void assert_near_share(const char *name, double got, double want, double share)
{
    assert_near(name, got, want, share * fabs(want));
}

/* Slope of a function at x from four values: central differences over h and 2 h, and the error of order h^2 taken out by
 * comparing the two. What is left is of order h^4, and round-off of order eps f/h. */
static inline double near_slope(double (*function)(double x, const void *with), const void *with, double x, double h)
{
    const double narrow = (function(x + h, with) - function(x - h, with)) / (2.0 * h);
    const double wide = (function(x + 2.0 * h, with) - function(x - 2.0 * h, with)) / (4.0 * h);
    return (4.0 * narrow - wide) / 3.0;
}

/* Numbers that look random and are the same on every machine: splitmix64, public domain. */
static inline double near_draw(uint64_t *stream)
{
    uint64_t z = *stream += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0; /* 0 <= draw < 1 */
}

static inline double near_draw_between(uint64_t *stream, double low, double high)
{
    return low + (high - low) * near_draw(stream);
}

/* Evenly in the logarithm. */
static inline double near_draw_decades(uint64_t *stream, double low, double high)
{
    return low * pow(high / low, near_draw(stream));
}

#endif
