/* plate.h  Where everything stands: a system's parts as bodies, its lines as pipes, their names beside them.
 *
 * Made once for a model and a least text size; nothing in it changes with time. Lengths in u from the plate's own corner.
 *   bodies   parts with a place of their own, and wall things (holes, gauges, caps) that sit on a host
 *   pipes    lines, and the short joints between a valve, port or hole and the gas space it opens into
 *   sections stretches of a pipe between branches: what flows in one follows from the pipe's own flow and the branches'
 * Files: plate.c what there is, place.c where it stands, wall.c who meets a wall where, label.c names, route.c pipes,
 * loose.c holes without a place, section.c stretches. */
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
    char name[48];      /* as it is written: fitted */
    const char *figure; /* the widest figure to come, for the room kept; null: no second line */
    bool placed;        /* false: no room was found, or none is wanted */
    bool wanted;
    char letter; /* where there is no room for the name: as the column has it; 0 */
    bool brief;  /* there is room for the shorter figure alone */
    struct frame_box box;
    double x, baseline, step, anchor;
};

struct drawn;

struct plate_body {
    const struct drawn *drawn;
    int part;    /* -1: the outside at a line's open end */
    int meter;   /* of a supply: its meter's part, else -1 */
    double x, y; /* centre */
    int turn;
    bool mirror, placed;
    struct frame_box extent;  /* around (0, 0), before the turn */
    struct frame_box box;     /* where it stands; kept clear */
    int host_body, host_pipe; /* of wall things, else -1 */
    const char *opening;      /* of the host; "" */
    enum side side;           /* of wall things: outward */
    double room;              /* u free outward of a wall thing */
    bool air[2];              /* of valves: `from`, `to` is the atmosphere */
    bool late;                /* named once pipes are routed */
    bool loose;               /* a hole that goes where there is room then */
    bool crowded;             /* a hole with others close by on the same line */
    struct plate_label label;
};

struct pipe_end {
    int body, pipe;         /* either, or both -1 */
    const char *key;        /* which end of the body it meets: "from", "to"; "" */
    const char *opening;    /* of the body; "" */
    bool dead;              /* closed: `body` is the hole that stands near it */
    struct plate_port port; /* where it meets a body */
};

struct plate_pipe {
    int part;        /* whose flow it carries, from end 0 to end 1 */
    int gas;         /* whose gas fills it */
    bool line, hose; /* a line of the file; the hose of `equipment` */
    int equipment;
    bool placed; /* the file says where it leaves the roof it begins or ends at: x, y */
    double x, y;
    double width; /* u across its gas */
    struct pipe_end end[2];
    struct plate_label label; /* of a line with several holes */
    int points;
    struct plate_point point[PIPE_POINTS];
    double length;
};

/* Flow in a section = the pipe's own + sum of times * flow of part. */
enum { SECTION_TERMS = 16 };

struct plate_section {
    int pipe;
    double begin, end; /* u along the pipe */
    double bore;       /* m */
    int terms;

    struct {
        int part;
        double times;
    } term[SECTION_TERMS];
};

struct plate {
    const struct ullage_model *model;
    int bodies, pipes, parts, sections;
    struct plate_body *body;
    struct plate_pipe *pipe;
    struct plate_section *section; /* in the order of pipes and along them */
    int *body_of, *pipe_of;        /* [parts]; -1 */
    int *order;                    /* [bodies] as a reader goes over them */
    int unrouted;                  /* pipes for which no clear way was found: drawn straight */
    int unnamed;                   /* labels for which no room was found */
};

/* False when memory is out. measure and least_text as the frames will have them. */
/* shown: [parts] holes that may come and are there now; null: none of them is. */
bool plate_make(struct plate *plate, const struct ullage_model *model, struct text_measure measure, double least_text,
                const bool *shown);
void plate_free(struct plate *plate);

/* place.c: centres of all bodies with a place of their own. */
bool plate_place(struct plate *plate);
void body_settle(struct plate_body *body); /* box from centre, extent and turn */
/* wall.c: ports of pipes and wall things on bodies; after the routes, wall things on pipes. */
bool plate_walls(struct plate *plate);

void plate_line_walls(struct plate *plate);
void plate_jets(struct plate *plate);   /* how far each may go */
void plate_crowds(struct plate *plate); /* which holes stand too close for names of their own */
/* label.c: names of bodies, before the routes; those of late things after them. */
void plate_labels(struct plate *plate, const struct frame *ruler, bool late);
void plate_line_labels(struct plate *plate, const struct frame *ruler);
bool plate_name(struct plate *plate, int body, const struct frame *ruler); /* false: no room, nothing is changed */
bool plate_letter(struct plate *plate, int body, const struct frame *ruler);
/* loose.c: holes that the file gives no place, to where their jet and their name have room, after the routes. */
bool plate_loose_holes(struct plate *plate, const struct frame *ruler);
/* wall.c: how far a jet from a port can go; a wall thing set to a port. */
double jet_room(const struct plate *plate, int self, struct plate_port port);
void wall_thing_set(struct plate_body *thing, struct plate_port port);
struct plate_port line_point(const struct plate_pipe *pipe, double along, bool other_side);
struct plate_port wall_point(const struct frame_box *box, enum side side, double along);
struct plate_point wall_wish(const struct plate *plate, const struct plate_body *thing);
/* route.c */
bool plate_routes(struct plate *plate);

/* section.c: after all else. */
bool plate_sections(struct plate *plate);

/* Point at `along` u from the pipe's beginning and the direction there; the nearest place on a pipe to a point. */
struct plate_point pipe_at(const struct plate_pipe *pipe, double along, double *dx, double *dy);
double pipe_nearest(const struct plate_pipe *pipe, double x, double y);
/* The sum of its lengths, corners cut as they are drawn. */
void pipe_measure(struct plate_pipe *pipe);

/* The other end of a pipe as a place to look towards. */
struct plate_point pipe_partner(const struct plate *plate, int pipe, int end);

double side_x(enum side side); /* -1, 0, 1 */
double side_y(enum side side);

/* A round hole whose diameter can be set. */
bool hole_sized(const struct ullage_model *model, int part);
/* 'A', 'B' ... of the holes that are drawn, in the model's order; 0 for other parts, and beyond 'Z'. */
char hole_letter(const struct plate *plate, int part);

/* A part's link by key; null: none of that name. */
const struct ullage_link *part_link(const struct ullage_part *part, const char *key);

#endif
