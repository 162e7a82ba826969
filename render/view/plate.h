/* plate.h  Where everything stands: a system's parts as bodies, its lines as pipes, their names beside them.
 *
 * Made once for a model and a least text size; nothing in it changes with time. Lengths in u from the plate's own corner.
 *   bodies   parts with a place of their own, and wall things (holes, gauges, caps) that sit on a host
 *   pipes    lines, and the short joints between a valve, port or hole and the gas space it opens into
 * Files: plate.c what there is, place.c where it stands, wall.c who meets a wall where, label.c names, route.c pipes. */
#ifndef VIEW_PLATE_H
#define VIEW_PLATE_H

#include "view/cast.h"
#include "view/frame.h"

#define PLATE_WIDTH 1264.0
#define PLATE_HEIGHT 536.0

enum side { SIDE_UP, SIDE_RIGHT, SIDE_DOWN, SIDE_LEFT };
enum { PIPE_POINTS = 40 };

struct plate_point {
    double x, y;
};

struct plate_port {
    double x, y;
    enum side side; /* outward */
};

enum label_slot { SLOT_ABOVE, SLOT_RIGHT, SLOT_BELOW, SLOT_LEFT, SLOT_UPPER_RIGHT, SLOT_UPPER_LEFT, SLOTS };

struct plate_label {
    char name[48];       /* as it is written: fitted */
    const char *figure;  /* the widest figure to come, for the room kept; null: no second line */
    bool placed;         /* false: no room was found, or none is wanted */
    bool wanted;
    struct frame_box box;
    double x, baseline, step, anchor;
};

struct drawn;

struct plate_body {
    const struct drawn *drawn;
    int part;                /* -1: the outside at a line's open end */
    int meter;               /* of a supply: its meter's part, else -1 */
    double x, y;             /* centre */
    int turn;
    bool mirror, placed;
    struct frame_box extent; /* around (0, 0), before the turn */
    struct frame_box box;    /* where it stands; kept clear */
    int host_body, host_pipe; /* of wall things, else -1 */
    const char *opening;     /* of the host; "" */
    enum side side;          /* of wall things: outward */
    double room;             /* u free outward of a wall thing */
    bool air[2];             /* of valves: `from`, `to` is the atmosphere */
    bool crowded;            /* a hole with others close by on the same line */
    struct plate_label label;
};

struct pipe_end {
    int body, pipe;      /* either, or both -1 */
    const char *key;     /* which end of the body it meets: "from", "to"; "" */
    const char *opening; /* of the body; "" */
    bool dead;           /* closed: `body` is the hole that stands near it */
    struct plate_port port; /* where it meets a body */
};

struct plate_pipe {
    int part;            /* whose flow it carries, from end 0 to end 1 */
    int gas;             /* whose gas fills it */
    bool line, hose;     /* a line of the file; the hose of `equipment` */
    int equipment;
    bool placed;         /* the file says where it leaves the roof it begins or ends at: x, y */
    double x, y;
    double width;        /* u across its gas */
    struct pipe_end end[2];
    int points;
    struct plate_point point[PIPE_POINTS];
    double length;
};

struct plate {
    const struct ullage_model *model;
    int bodies, pipes, parts;
    struct plate_body *body;
    struct plate_pipe *pipe;
    int *body_of, *pipe_of; /* [parts]; -1 */
    int *order;             /* [bodies] as a reader goes over them */
    int unrouted;           /* pipes for which no clear way was found: drawn straight */
    int unnamed;            /* labels for which no room was found */
};

/* False when memory is out. measure and least_text as the frames will have them. */
bool plate_make(struct plate *plate, const struct ullage_model *model, struct text_measure measure, double least_text);
void plate_free(struct plate *plate);

/* place.c: centres of all bodies with a place of their own. */
bool plate_place(struct plate *plate);
void body_settle(struct plate_body *body); /* box from centre, extent and turn */
/* wall.c: ports of pipes and wall things on bodies; after the routes, wall things on pipes. */
bool plate_walls(struct plate *plate);
void plate_line_walls(struct plate *plate);
/* label.c: names of bodies, before the routes; those of things on pipes after them. */
void plate_labels(struct plate *plate, const struct frame *ruler, bool on_pipes);
/* route.c */
bool plate_routes(struct plate *plate);

/* Point at `along` u from the pipe's beginning and the direction there; the nearest place on a pipe to a point. */
struct plate_point pipe_at(const struct plate_pipe *pipe, double along, double *dx, double *dy);
double pipe_nearest(const struct plate_pipe *pipe, double x, double y);
/* The sum of its lengths, corners cut as they are drawn. */
void pipe_measure(struct plate_pipe *pipe);

/* The other end of a pipe as a place to look towards. */
struct plate_point pipe_partner(const struct plate *plate, int pipe, int end);

double side_x(enum side side); /* -1, 0, 1 */
double side_y(enum side side);

/* A part's link by key; null: none of that name. */
const struct ullage_link *part_link(const struct ullage_part *part, const char *key);

#endif
