/* scatter.h  Even but irregular places in the plane, in order: the first n of them are as even as n places can be. */
#ifndef VIEW_SCATTER_H
#define VIEW_SCATTER_H

#define SCATTER_TILE 256.0 /* u: the places repeat after so much, both ways, without a seam */

enum { SCATTER_PLACES = 320 };

struct scatter_place {
    double x, y; /* 0..SCATTER_TILE */
};

/* number: 0..SCATTER_PLACES-1. */
struct scatter_place scatter_place(int number);

#endif
