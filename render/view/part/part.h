/* part.h  How one type of part is drawn: const tables of functions, one file each; drawn.c lists them. */
#ifndef VIEW_PART_PART_H
#define VIEW_PART_PART_H

#include "view/scene.h"

struct drawn {
    const char *type;
    struct frame_box extent;                                             /* around the centre */
    void (*measure)(const struct plate *plate, struct plate_body *body); /* sets another extent; may be null */
    /* A port at a fixed place, for the end or opening of that name. Null: pipes meet its walls where they come from. */
    bool (*port)(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port);
    bool passes;                     /* it makes the passage at a line's end, not the line */
    bool roof_only;                  /* all that meets its walls meets the roof */
    bool wall;                       /* sits on a host's wall or line */
    const char *figure;              /* widest figure below its name; null: none */
    const char *brief;               /* widest figure where that finds no room; null: none shorter */
    bool one_line;                   /* the figure stands behind the name */
    bool nameless;                   /* no name beside it: its form says it */
    enum label_slot slot[SLOTS + 1]; /* in order of preference; SLOTS ends the list */
    void (*still)(struct frame *frame, const struct scene *scene, const struct plate_body *body);
    void (*gas)(struct frame *frame, const struct scene *scene,
                const struct plate_body *body); /* under the pipes' gas */
    void (*front)(struct frame *frame, const struct scene *scene, const struct plate_body *body); /* over it */
};

extern const struct drawn tank_drawn, vessel_drawn, canister_drawn, valve_drawn, orifice_drawn, hole_drawn, cap_drawn,
    check_drawn, relief_drawn, roll_over_drawn, fill_limit_drawn, port_drawn, supply_drawn, gauge_drawn, manifold_drawn,
    engine_drawn, nozzle_drawn, outside_drawn, box_drawn;

/* By the type of a part; the plain box where none is made for it. */
const struct drawn *drawn_find(const char *type);

#endif
