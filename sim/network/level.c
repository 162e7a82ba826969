/* sim/network/level.c  What the level of a liquid parts.
 *
 * With s = h(V_l)/H the share of the height that is wet, the surface is dV_l/dh (law/shape.h); walls that stand belong by s
 * to the liquid and by 1 - s to the gas, as far as they pass heat, are dewed and hold it; gas at rest over the liquid is
 * thinner by 1 - s, and what crosses it passes 1/(1 - s) as much. As sizes that something is divided by, both shares end at
 * 1 % (shape_share). */
#include "network/inside.h"

static struct sloped scaled(struct sloped of, double factor, double more)
{
    return (struct sloped){more + factor * of.value, factor * of.slope};
}

struct pool_level pool_level_at(const struct network *network, int v, double liquid)
{
    const struct volume *volume = &network->volume[v];
    const struct vessel_shape *shape = &volume->shape;
    struct pool_level level = {.height = shape_height(shape, liquid), .area = shape_area(shape, liquid)};
    level.share = scaled(level.height, 1.0 / shape->height[shape->corners - 1], 0.0);
    level.wet = shape_share(level.share);
    level.dry = shape_share(scaled(level.share, -1.0, 1.0));
    level.lower = scaled(level.share, volume->sides, volume->pool->wall);
    level.upper = scaled(level.share, -volume->sides, volume->wall + volume->sides);
    level.thin = volume->pool->still
                     ? (struct sloped){1.0 / level.dry.value, -level.dry.slope / (level.dry.value * level.dry.value)}
                     : (struct sloped){1.0, 0.0};
    return level;
}
