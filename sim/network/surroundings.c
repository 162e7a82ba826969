/* sim/network/surroundings.c  Profiles in time: straight between corners, level outside. */
#include "network/inside.h"

/* Index of the last corner at or before `time`; -1 before the first. */
static int profile_piece(const struct profile *profile, double time)
{
    int low = -1, high = profile->corners;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        *(profile->time[middle] <= time ? &low : &high) = middle;
    }
    return low;
}

double profile_slope(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    if (k < 0 || k + 1 >= profile->corners)
        return 0.0;
    return (profile->value[k + 1] - profile->value[k]) / (profile->time[k + 1] - profile->time[k]);
}

double profile_value(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    if (k < 0)
        return profile->value[0];
    return profile->value[k] + profile_slope(profile, time) * (time - profile->time[k]);
}

double profile_corner(const struct profile *profile, double time)
{
    const int k = profile_piece(profile, time);
    return profile->corners > 1 && k + 1 < profile->corners ? profile->time[k + 1] : (double)INFINITY;
}
