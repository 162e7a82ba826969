/* sim/base/noise.c  A number for each point of a grid in time, made of the seed and the point alone: uniform bits by
 * splitmix64's mixing [STEELE2014], normal by Box and Muller [BOX1958]. Between two points straight, and stretched so that the
 * variance is 1 everywhere. */
#include "base/noise.h"

#include <math.h>

static uint64_t mixed(uint64_t bits)
{
    bits += 0x9e3779b97f4a7c15u;
    bits = (bits ^ (bits >> 30)) * 0xbf58476d1ce4e5b9u;
    bits = (bits ^ (bits >> 27)) * 0x94d049bb133111ebu;
    return bits ^ (bits >> 31);
}

/* In (0, 1): the middle of one of 2^53 even pieces. */
static double uniform(uint64_t bits)
{
    return ((double)(bits >> 11) + 0.5) * 0x1p-53;
}

static double normal(uint64_t seed, int64_t point)
{
    const uint64_t bits = mixed(seed ^ mixed((uint64_t)point));
    return sqrt(-2.0 * log(uniform(bits))) * cos(2.0 * M_PI * uniform(mixed(bits)));
}

uint64_t noise_seed(uint64_t seed, uint64_t index)
{
    return mixed(seed ^ mixed(index));
}

double noise_at(uint64_t seed, double time)
{
    const double at = time / NOISE_GRID, point = floor(at), share = at - point;
    const double between = (1.0 - share) * normal(seed, (int64_t)point) + share * normal(seed, (int64_t)point + 1);
    return between / sqrt((1.0 - share) * (1.0 - share) + share * share);
}
