/* sim/law/shape.h  The shape of a vessel, as far as a liquid in it cares: how high a volume of it stands. */
#ifndef LAW_SHAPE_H
#define LAW_SHAPE_H

#include "law/flow.h"

enum { SHAPE_CORNERS_MOST = 24 };

/* A level table and the slopes of the curve through it. */
struct vessel_shape {
    int corners;                       /* 2..SHAPE_CORNERS_MOST; the first at the bottom: 0, 0; the last at the roof */
    double volume[SHAPE_CORNERS_MOST]; /* m3, rising */
    double height[SHAPE_CORNERS_MOST]; /* m above the bottom, rising */
    double slope[SHAPE_CORNERS_MOST];  /* d height / d volume at the corners, m/m3, > 0 */
};

struct vessel_shape shape_create(int corners, const double *volume, const double *height);
struct vessel_shape shape_box(double volume, double height);

/* m above the bottom that `volume` [m3] stands, and its slope [m/m3]. Outside the table: straight on. */
struct sloped shape_height(const struct vessel_shape *shape, double volume);

/* m2 of the surface, d volume / d height, and its slope by volume [m2/m3]. */
struct sloped shape_area(const struct vessel_shape *shape, double volume);

/* A share of a vessel's height, as a size that is never nothing: itself from 2 % on, down to 1 % where there is none. */
struct sloped shape_share(struct sloped share);

#endif
