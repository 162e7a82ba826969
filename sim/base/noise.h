/* sim/base/noise.h  Noise that is the same however often, and in whatever order, it is looked at. */
#ifndef BASE_NOISE_H
#define BASE_NOISE_H

#include <stdint.h>

/* A normal deviate of variance 1 at a moment [s], continuous in time, and of one seed. Values NOISE_GRID apart and more
 * know nothing of each other. */
#define NOISE_GRID 0.05 /* s */
double noise_at(uint64_t seed, double time);

/* Another seed, for the `index`-th thing that has one of its own. */
uint64_t noise_seed(uint64_t seed, uint64_t index);

#endif
