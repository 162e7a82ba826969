/* sim/law/shape.c  Height of a liquid over its volume: Steffen's monotone cubic through a level table [STEFFEN1990].
 *
 * Between two corners a cubic with the slopes of both. With secants s_i and widths w_i of the intervals beside a corner,
 *   p_i = (s_{i-1} w_i + s_i w_{i-1}) / (w_{i-1} + w_i),   slope_i = min(2 s_{i-1}, 2 s_i, p_i)
 * for a table that rises; at an end the secant itself, the simpler of the two ways given there. So the curve rises
 * everywhere, has no extremes of its own and one continuous slope. Each slope lies above zero and at most at twice the
 * secants beside it, and then the slope along an interval is above zero as well: its inverse is the surface. */
#include "law/shape.h"

#include <assert.h>
#include <math.h>

/* Of a corner between intervals of widths `before`, `after` and secants s, t. */
static double inner_slope(double before, double s, double after, double t)
{
    const double parabola = (s * after + t * before) / (before + after);
    return fmin(parabola, 2.0 * fmin(s, t));
}

struct vessel_shape shape_create(int corners, const double *volume, const double *height)
{
    assert(corners >= 2 && corners <= SHAPE_CORNERS_MOST);
    struct vessel_shape shape = {.corners = corners};
    double width[SHAPE_CORNERS_MOST], secant[SHAPE_CORNERS_MOST];
    for (int k = 0; k < corners; k++) {
        shape.volume[k] = volume[k];
        shape.height[k] = height[k];
    }
    const int intervals = corners - 1;
    for (int k = 0; k < intervals; k++) {
        assert(volume[k + 1] > volume[k] && height[k + 1] > height[k]);
        width[k] = volume[k + 1] - volume[k];
        secant[k] = (height[k + 1] - height[k]) / width[k];
    }
    shape.slope[0] = secant[0];
    for (int k = 1; k < intervals; k++)
        shape.slope[k] = inner_slope(width[k - 1], secant[k - 1], width[k], secant[k]);
    shape.slope[intervals] = secant[intervals - 1];
    return shape;
}

struct vessel_shape shape_box(double volume, double height)
{
    return shape_create(2, (double[]){0.0, volume}, (double[]){0.0, height});
}

/* Height with its first and second derivative by volume. */
struct curve {
    double value, slope, bend;
};

static struct curve curve_at(const struct vessel_shape *shape, double volume)
{
    const int last = shape->corners - 1;
    if (volume <= shape->volume[0] || volume >= shape->volume[last]) {
        const int end = volume <= shape->volume[0] ? 0 : last;
        const double slope = shape->slope[end];
        return (struct curve){shape->height[end] + slope * (volume - shape->volume[end]), slope, 0.0};
    }
    int k = 0;
    while (volume >= shape->volume[k + 1])
        k++;
    const double width = shape->volume[k + 1] - shape->volume[k];
    const double secant = (shape->height[k + 1] - shape->height[k]) / width;
    const double here = shape->slope[k], there = shape->slope[k + 1];
    const double cubic = (here + there - 2.0 * secant) / (width * width);
    const double square = (3.0 * secant - 2.0 * here - there) / width;
    const double x = volume - shape->volume[k];
    return (struct curve){shape->height[k] + x * (here + x * (square + x * cubic)),
                          here + x * (2.0 * square + x * 3.0 * cubic), 2.0 * square + 6.0 * cubic * x};
}

struct sloped shape_height(const struct vessel_shape *shape, double volume)
{
    const struct curve curve = curve_at(shape, volume);
    return (struct sloped){curve.value, curve.slope};
}

#define SHARE_LEAST 0.01 /* a film over the floor, a gap under the roof */

/* l + s^2/(4 l) up to 2 l. */
struct sloped shape_share(struct sloped share)
{
    if (share.value >= 2.0 * SHARE_LEAST)
        return share;
    const double over = fmax(share.value, 0.0);
    return (struct sloped){SHARE_LEAST + over * over / (4.0 * SHARE_LEAST), over / (2.0 * SHARE_LEAST) * share.slope};
}

struct sloped shape_area(const struct vessel_shape *shape, double volume)
{
    const struct curve curve = curve_at(shape, volume);
    return (struct sloped){1.0 / curve.slope, -curve.bend / (curve.slope * curve.slope)};
}
