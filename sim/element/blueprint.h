/* sim/element/blueprint.h  What parts are made of: gas volumes with walls, boundaries, passages, followers, switches,
 * controllers.
 *
 * A kind's `build` adds these primitives; the network indexes and integrates them. A kind never sees a neighbour: ends
 * are resolved here, in three rounds over all parts (stores, then passages, then instruments), so that files may name
 * parts in any order. */
#ifndef ELEMENT_BLUEPRINT_H
#define ELEMENT_BLUEPRINT_H

#include "base/problem.h"
#include "base/tree.h"
#include "element/part.h"
#include "law/flow.h"
#include "law/heat.h"
#include "law/shape.h"
#include "property/activity.h"
#include "property/burning.h"
#include "property/carbon.h"
#include "property/gas.h"

/* The fuel of the scenario in a volume. */
struct pool_plan {
    double begun;          /* m3 there at the start; < 0: a tank, filled as the scenario says */
    double brim;           /* m3 at which nothing more runs in */
    bool asleep;           /* none is there, and none gets there, before a fault has poured some in */
    bool still;            /* the film over it is gas at rest, and thinner the less height the gas has */
    double surface;        /* W/m2/K to the gas over it, where that has all the height */
    double radiant;        /* W/m2/K between it and the wall of the gas */
    /* m/s through the film of gas over it, pressure [Pa] that of the surroundings */
    double (*transfer)(const struct component *component, double path, double pressure);
    double dewed, dewed_sides; /* m2 of the gas's wall that vapor condenses on: its roof, and all its sides */
    /* m: what the vapor has to diffuse through to the middle of that gas, where that has all the height; 0: see transfer */
    double path;
    struct heat_way film;  /* from the lower wall, or the air, to the liquid that has all the height */
    double wall;           /* J/K of the floor; 0: no lower wall */
    struct heat_way outer; /* from the lower wall to the air outside, the liquid having all the height */
    int exhaust, returned; /* rows of live parameters: W into the lower wall, W into the liquid; 0: none */
};

/* A gas volume: V = volume - liquid + give * (p - p_ambient) + what creeps. */
struct volume_plan {
    int part;
    double volume;   /* m3 at ambient pressure, > 0 */
    double give;     /* m3/Pa */
    double creep, creep_time; /* m3/Pa, s: what it gives beyond that, slowly */
    struct heat_way film;     /* from the wall to the gas */
    double wall;              /* J/K heat capacity of the wall; 0: none, the air outside heats the gas through `film` */
    struct heat_way outer;    /* from the wall to the air outside */
    double sunlit;            /* m2 of black wall that the sun shines on */
    double sides;             /* J/K of walls that stand, parted at the level of its liquid: then `wall` is the roof alone,
                                 and `film` and `outer` are those of a gas that has all the height */
    double carbon;   /* kg of carbon in it; 0: none */
    int carbon_kind; /* row of the carbon table */
    double uptake;   /* 1/s, linear driving force */
    struct carbon_grade grade;
    int aged;        /* row of a live parameter: share of its carbon that holds nothing any more; 0: none */
    double wet;               /* share of the room that the scenario's fuel got into, and what of that carbon has taken up */
    struct vessel_shape shape; /* where liquid is */
    int liquid_in;            /* volume whose liquid takes room from this one; -1: none, as where no fuel is */
    double liquid_share;      /* of that liquid's volume, taken from `volume` */
    int over;                 /* the volume whose gas lies at this one's liquid; itself, or -1: no liquid */
    struct pool_plan liquid;
};

/* What a part that answers to commands may look at. */
struct command_view {
    const struct part *part;
    const double *parameter; /* its own, live [kind rows] */
    const struct ramp *ramp; /* the command, on its way */
};

/* What the pressure of a boundary may hang on. */
struct boundary_view {
    const struct part *part;
    const double *parameter; /* the part's, live [kind rows] */
    double opening;          /* what its command comes to */
    double time, ambient;    /* s, Pa */
};

/* A gas that is there whatever is taken from it. */
struct boundary_plan {
    int part; /* -1: the atmosphere */
    double (*pressure)(const struct boundary_view *at); /* Pa; null: ambient */
    double share[SPECIES_KNOWN]; /* mole shares by species number, passive ones too (relative to the amount) */
    double vapor[LIQUID_MOST];   /* mole shares of the fuel's components, in their order; beside share */
};

/* What a passage law may look at. */
struct passage_view {
    const double *parameter; /* the part's, live [kind rows] */
    const double *constant;  /* the passage's own [4] */
    double opening;          /* command and course together, 0..1 */
    double discharge;        /* frozen coefficient, or 0: the full law */
    const bool *on;          /* the part's switches, in the order they were built */
};
typedef struct flow passage_law(const struct passage_view *at, const struct gas *a, const struct gas *b);

/* What liquid on its sides does to a passage, and what of a's the gas takes along to b. */
struct wet {
    double full_a, full_b; /* in: share of what it holds that liquid fills there */
    double flow_by_a, flow_by_b; /* of the gas, by these shares [mol/s] */
    double open, open_by_a, open_by_b; /* share of its reach that is left */
    double runs, runs_by_flow, runs_by_a, runs_by_drop; /* m3/s; by flow [mol/s], a's share, pressure over b [Pa] */
};
typedef struct flow wet_law(const struct passage_view *at, const struct gas *a, const struct gas *b, struct wet *wet);

struct passage_plan {
    int part;       /* whose parameters and opening it uses */
    int a, b;       /* places: volumes 0.., boundaries as PLACE_BOUNDARY - index */
    passage_law *law;
    double constant[4];
    int joint_of;   /* equipment part for which this passage is made by `join`; -1: always there */
    int beside;     /* of its part's passages in a row, how many it goes beside; 0: it is one of the row */
    double bore;    /* m, of its narrowest free section, for velocities on the picture; 0: unknown */
    double reach;   /* m: open area over distance (and tortuosity), for what diffuses; times the opening; 0: nothing */
    double (*reaches)(const struct passage_view *at); /* the same, where it may change while a run goes on; null: `reach` */
    double conduct; /* W/K: heat that its gas (and grains) conduct */
    bool inner;     /* between two gas spaces of one part: not what is shown as its flow */
    bool surface;   /* from a gas at the surface of b's liquid: reach, conduct, section are those of a m2 of surface and of
                       a gas that has all the height */
    int stirred;    /* row of a live parameter [m/s]: how fast gas changes places over `section`; 0: none */
    double section; /* m2 */
    double height_a, height_b; /* m: of its openings in a tank; 0: liquid does not come there */
    double (*pour)(const struct passage_view *at); /* m3/s of the scenario's fuel into the tank at b; null: none */
    int warmth;                                    /* row of its live parameter: the temperature of that fuel */
    double (*seep)(const struct passage_view *at); /* m: the round hole that it is to a liquid; null: holds it back */
    double lift;        /* m above its opening in a tank that liquid has to rise to, to get out by it */
    wet_law *wet;       /* in place of law, where liquid on a side hinders it; null: it does not */
    bool wet_a, wet_b;  /* on which side */
};

/* A reading that runs after something: d m/dt = (x - m)/lag, or m = x where lag is 0. */
enum follows {
    FOLLOWS_PRESSURE,   /* excess over the atmosphere */
    FOLLOWS_LEVEL,      /* share of a vessel's inside that is liquid */
    FOLLOWS_TEMPERATURE /* of the liquid where there is one, else of the gas */
};
struct follower_plan {
    int part;
    enum follows follows; /* of a place; used where passage is -1 */
    int place;
    int passage;    /* whose flow in mol/s it follows; -1: none */
    double lag;     /* s */
    int lag_row, stuck_row; /* rows of the part's live parameters: that lag, and by what share it does not follow */
};

/* What a switch may look at: what is cheap to know anywhere within a step. */
struct switch_view {
    const double *parameter;   /* the part's, live [kind rows] */
    double opening;            /* command and course together, 0..1 */
    double excess_a, excess_b; /* Pa, over one reference; 0 where there is no place */
    double head_a, head_b;     /* m of liquid above the part's opening there; below it: < 0; no liquid: -INFINITY */
    double full_a;             /* share of the height at a that liquid stands; no liquid: 0 */
};

/* A bit of a part that flips when its margin rises over zero: a seat that lifts, a float that shuts. The moment is located
 * on the solution and the stepper begins anew there. Margins are continuous between such moments (but for commands and
 * courses), and never above zero for both states of the bit: what opens at one pressure reseats at another. */
struct switch_plan {
    int part;
    int a, b;                  /* places it looks at; -1: none */
    double height_a, height_b; /* m: of the part's openings there */
    bool heads;                /* it looks at heads */
    double (*margin)(const struct switch_view *at, bool on); /* > 0: it flips */
    const char *turns_on, *turns_off;                        /* words for the story: "opens", "shuts" */
};

/* A few states of a part's own that run after what flows into a boundary of it: a control unit with its sensor. All are 0
 * at the start and of the size of 1. */
enum { CONTROLLED_MOST = 8 };

struct controller_view {
    const struct part *part;
    const double *parameter; /* the part's, live [kind rows] */
    double opening;          /* what its command comes to */
    double time, ambient_pressure, ambient_temperature;
    const struct air_needs *needs;
    const double *arriving; /* mol/s of each species that flows into the boundary; < 0: out of it [needs->species] */
    const double *state;    /* [states] */
};

struct controller_rates {
    double value[CONTROLLED_MOST], by_state[CONTROLLED_MOST][CONTROLLED_MOST];
    double by_arriving[CONTROLLED_MOST][SPECIES_MOST];
};

struct controller_plan {
    int part, place; /* a boundary */
    int states;
    void (*rates)(const struct controller_view *at, struct controller_rates *rates); /* `rates` comes zeroed */
};

#define PLACE_BOUNDARY (-2) /* boundary k is place PLACE_BOUNDARY - k; -1 is no place */
#define PLACE_AIR PLACE_BOUNDARY

struct registered_opening {
    int part;
    const char *name; /* "": where nothing is named; "from", "to": a line's ends */
    int place;
    double height; /* m above the bottom; 0 where heights mean nothing */
    double within; /* 1/m: way over section from there to the middle of the place's gas; 0: none to speak of */
};

struct blueprint {
    const struct part *part;
    int parts;
    double discharge; /* as in passage_view */
    bool rigid;
    bool fuelled;     /* the scenario fills a tank */
    int volumes, boundaries, passages, followers, switches, controllers, openings;
    struct volume_plan *volume;
    struct boundary_plan *boundary;
    struct passage_plan *passage;
    struct follower_plan *follower;
    struct switch_plan *toggle;
    struct controller_plan *controller;
    struct registered_opening *opening;
    int room[7];
    bool out_of_memory;
    struct ullage_problems *problems;
};

/* Adders return the new index (a place for volumes and boundaries), or -1 when memory is out. */
int blueprint_volume(struct blueprint *into, struct volume_plan plan);
int blueprint_boundary(struct blueprint *into, struct boundary_plan plan);
int blueprint_passage(struct blueprint *into, struct passage_plan plan);
int blueprint_follower(struct blueprint *into, struct follower_plan plan);
int blueprint_switch(struct blueprint *into, struct switch_plan plan);
int blueprint_controller(struct blueprint *into, struct controller_plan plan);
void blueprint_opening(struct blueprint *into, int part, const char *name, int place);
void blueprint_opening_at(struct blueprint *into, int part, const char *name, int place, double height);
void blueprint_opening_within(struct blueprint *into, int part, const char *name, int place, double within);

/* How end `end` of part `part` is fixed. */
enum attachment_kind {
    ATTACHED_NOWHERE, /* not given, or a problem was added */
    ATTACHED_PLACE,   /* to a volume or boundary: place */
    ATTACHED_PASSAGE, /* to a valve, hole or cap that reaches back for this part itself */
    ATTACHED_BACK     /* to a part listed before, which has made the passage already */
};
struct attachment {
    enum attachment_kind kind;
    int place, part;
    double height, within; /* of the opening it meets */
};
struct attachment blueprint_attachment(struct blueprint *at, int part, int end);

/* The kind alone, without places or problems: known before any store is made. */
enum attachment_kind blueprint_attachment_kind(const struct blueprint *at, int part, int end);

/* Place registered for an opening of a part; -1: none of that name. */
int blueprint_place(const struct blueprint *at, int part, const char *opening);

/* Index of a part by id; -1: none. */
int blueprint_find(const struct blueprint *at, const char *id);

/* Builds all parts. False when problems were added or memory is out. */
bool blueprint_draw(struct blueprint *into, const struct part *part, int parts, struct ullage_problems *problems);
void blueprint_clear(struct blueprint *blueprint);

#endif
