/* sim/law/low_spot.c  Liquid in the lowest stretch of a tube.
 *
 * Filled to the share t, it covers S = t^2 (3 - 2 t) of the bore. Where it stands all across, a gas has to push it down in
 * one leg and up in the other until a bubble gets by; by then all of it stands in the far leg and bears s = rho g H S, with
 * H the height of the legs (so 10 mm to 120 mm of gasoline are 0.07 kPa to 0.9 kPa). What is over drives the gas as through
 * the dry tube; it bubbles. Both ways alike,
 *   left = r(drop - s) - r(-drop - s),   r(z) = 0 up to -c, (z + c)^2/(4 c) up to c, z from there on,
 * which is the whole drop where s is 0, the drop less s above the seal, and nothing under it. c = 10 Pa is the pressure in a
 * bubble as wide as a line of 8 mm: 2 sigma/r, sigma 0.021 N/m of gasoline (from memory).
 *
 * A gas faster than liquid can fall back against it takes liquid along. Flooding, by Wallis with C^2 = 0.5:
 *   u_f = 0.5 sqrt(g d rho_l/rho_g)                                                                        [WALLIS1969]
 * Above it the liquid moves as fast as the pressure of the stream makes it, rho_l u_l^2 = rho_g (u - u_f)^2; joined by
 * a parabola over the first fifth of u_f. rho_g = 1.5 kg/m3, air with some vapor in it.
 *
 * Limits: one lump, no waves and no slugs, so the moment a slug is thrown out is the mean of many; the tube before and behind
 * lies level; the head of what is carried upwards is not reckoned. */
#include "law/low_spot.h"

#include "law/dip.h"

#include <math.h>

#define BUBBLE 10.0     /* Pa, c */
#define GAS_DENSITY 1.5 /* kg/m3 */
#define FLOODS 0.5      /* C^2 */
#define ROUNDED 0.2     /* of u_f */
#define NEARLY_FULL 0.8 /* from there on less runs in */

static struct sloped step(double t)
{
    const double in = fmin(fmax(t, 0.0), 1.0);
    return (struct sloped){in * in * (3.0 - 2.0 * in), 6.0 * in * (1.0 - in)};
}

struct sloped low_spot_cover(double full)
{
    return step(full);
}

/* r and its slope. */
static struct sloped over(double above)
{
    if (above <= -BUBBLE)
        return (struct sloped){0.0, 0.0};
    if (above >= BUBBLE)
        return (struct sloped){above, 1.0};
    const double into = above + BUBBLE;
    return (struct sloped){into * into / (4.0 * BUBBLE), into / (2.0 * BUBBLE)};
}

struct left_over low_spot_left(double drop, double bears)
{
    const struct sloped ahead = over(drop - bears), back = over(-drop - bears);
    return (struct left_over){ahead.value - back.value, ahead.slope + back.slope, back.slope - ahead.slope};
}

struct sloped low_spot_dragged(double speed, double bore)
{
    const double pulls = sqrt(GAS_DENSITY / FUEL_DENSITY);
    const double floods = FLOODS * sqrt(GRAVITY * bore) / pulls, width = ROUNDED * floods, x = speed - floods;
    if (x <= 0.0)
        return (struct sloped){0.0, 0.0};
    if (x < width)
        return (struct sloped){pulls * 0.5 * x * x / width, pulls * x / width};
    return (struct sloped){pulls * (x - 0.5 * width), pulls};
}

struct sloped low_spot_takes(double full)
{
    const struct sloped shut = step((full - NEARLY_FULL) / (1.0 - NEARLY_FULL));
    return (struct sloped){1.0 - shut.value, -shut.slope / (1.0 - NEARLY_FULL)};
}
