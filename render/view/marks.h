/* marks.h  What moves: marks along pipes, smoke in gas spaces, jets at holes. A mark is a parcel: its form says what it is,
 * the share of forms is the mole share, its speed is the flow. Everything is a function of phase and share alone. */
#ifndef VIEW_MARKS_H
#define VIEW_MARKS_H

#include "view/scene.h"

enum mark { MARK_AIR, MARK_CLEAN, MARK_SMOKE, MARK_VAPOR };

/* One mark; heading in radians, 0 to the right; size 1 as in the key, tail in u. */
void mark_draw(struct frame *frame, enum mark mark, double x, double y, double heading, double size, double tail);
void mark_puff(struct frame *frame, double x, double y, double size);

/* Marks along a section of a pipe, by what flows there. */
void marks_section(struct frame *frame, const struct scene *scene, int index);

/* Smoke, clean test gas, fuel vapor in a gas space: `inside` says whether a point belongs to it; boxes are kept clear. */
struct gas_space {
    struct frame_box box;
    bool (*inside)(const struct gas_space *space, double x, double y);
    const struct plate_body *body;
    unsigned ink; /* of figures that stand on it */
    int clear;
    struct frame_box keep[12];
};

void marks_space(struct frame *frame, const struct gas_space *space, struct mix mix);

/* A jet at (x, y), outward to `side`: flow in m3/s standard, positive outward; room in u; width 1 for a small hole. */
struct jet {
    double x, y;
    enum side side;
    double flow, phase, room, width;
    struct mix mix;
};

void marks_jet(struct frame *frame, const struct jet *jet);

/* The point at `along` u of a pipe as drawn, its corners rounded; heading there. */
struct plate_point pipe_drawn_at(const struct plate_pipe *pipe, double along, double *heading);
/* The path of a pipe from `begin` to `end` u, corners rounded, added to the frame's path. */
void pipe_path(struct frame *frame, const struct plate_pipe *pipe, double begin, double end);

#endif
