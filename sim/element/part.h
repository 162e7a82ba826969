/* sim/element/part.h  A part as a file describes it, and the tables by which a kind says what it takes.
 *
 * A kind of part is one file of this room that ends in one const table, plus a row in elements.c. Readers, `--set`,
 * `list`, schema and sliders all live off these tables. */
#ifndef ELEMENT_PART_H
#define ELEMENT_PART_H

#include <math.h>
#include <stdbool.h>

#include "law/shape.h"
#include "ullage.h"

#define REQUIRED ((double)NAN) /* as `usual`: the file must give it */
#define COMPUTED (-1.0)        /* as `usual` where least >= 0: worked out where the file gives nothing */

/* A number with a unit. Tables end with a null name. */
struct row {
    const char *name;
    int dimension;
    double usual, least, most; /* SI; least <= value <= most */
    const char *meaning;
    bool live; /* may be changed while a run goes on */
};

/* A word out of a few. `choice` ends with null; null itself: any gas of the species table. usual -1: must be given. */
struct word_row {
    const char *name;
    const char *const *choice;
    int usual;
    const char *meaning;
};

/* An end: the part (and opening) this one is fixed to. */
struct end_row {
    const char *name;
    bool required;
    const char *meaning;
};

/* A word that `set` may give, and the opening (or on/off share) it stands for. A share like 40 % is taken as well. */
struct command_row {
    const char *word;
    double value;
};

/* A number the part shows beyond those every volume and passage shows. */
struct show_row {
    const char *name;
    int dimension;
    const char *meaning;
};

enum {
    ENDS_MOST = 3,
    ROWS_MOST = 20,
    WORDS_MOST = 4,
    OPENINGS_MOST = 12,
    LEVELS_MOST = SHAPE_CORNERS_MOST,
    BEDS_MOST = 4,
    BED_ROWS_MOST = 12,
    TRACE_MOST = 5000
};

struct part_end {
    const char *part, *opening; /* "canister", "air"; part null: not given; part "air": the atmosphere */
    struct ullage_place at;
};

struct part_opening {
    const char *name;
    double height; /* m above the bottom; 0 where heights mean nothing */
    struct ullage_place at;
};

/* So much liquid in a tank stands so high. */
struct part_level {
    double volume, height; /* m3; m above the bottom */
    struct ullage_place at;
};

/* One bed of a canister, from the tank's side to the air's. */
struct part_bed {
    double value[BED_ROWS_MOST]; /* in the order of kind->bed */
    int word[WORDS_MOST];        /* in the order of kind->bed_word */
    struct ullage_place at;
};

/* Where an engine stands at a moment of its trace. */
struct part_moment {
    double time, pressure, air_flow; /* s; Pa, absolute; kg/s */
    struct ullage_place at;
};

/* A command on its way: `from` until `begins`, `to` from `ends` on, straight between. s, openings. */
struct ramp {
    double begins, ends, from, to;
};

double ramp_value(const struct ramp *ramp, double time);

/* When something that comes and goes is there: share(t) in 0..1. All s. A part without a course is always there. */
struct course {
    bool given;
    double from, ramp, until; /* until INFINITY: stays */
    double every, lasts;      /* every > 0: comes every `every` s for `lasts` s, counted from `from` */
};

/* Seconds since it came, this time. */
double course_since(const struct course *course, double time);

/* The share at `time`, and the next moment after `time` at which the share has a corner (INFINITY: none). */
double course_share(const struct course *course, double time);
double course_corner(const struct course *course, double time);
/* The moment at which it is there next, not before `time`: where the share is above 0, the one at which it came. INFINITY: it does
 * not come any more. */
double course_comes(const struct course *course, double time);

/* What becomes of the course of something that a hand puts in at `time`, or whose size it changes. there: it has a size already.
 * told: its `from` NAN where it begins at `time`. What has come and is not over keeps its course where nothing is told of one, and
 * all but its end where nothing but an end is; without a word all else begins at `time` and stays. */
struct course course_put(const struct course *before, bool there, const struct course *told, double time);

/* It is there from the start on, all of it. */
bool course_stands(const struct course *course);

struct element_kind;
struct fault_row;

/* A fault of a scenario, or one that may come by hand. */
struct fault {
    const char *id;   /* null: not in the file */
    const struct fault_row *row;
    int part;         /* whose it is */
    const char *site; /* opening of the part; "" the part itself */
    int hole;         /* part that it is, where it is a hole; -1 */
    double size;      /* SI; of a hole, what its part has */
    double begun;     /* of liquid: as much of that size as there was room for at the start */
    struct course course;
    struct ullage_place at;
};

struct part {
    const char *id;
    const struct element_kind *kind;
    struct ullage_place at;
    bool equipment;
    double value[ROWS_MOST];               /* SI, in the order of kind->parameter */
    struct ullage_place value_at[ROWS_MOST]; /* line 0 where the default stands */
    int word[WORDS_MOST];                  /* index of the choice, or of the species; -1: not given */
    struct part_end end[ENDS_MOST];        /* in the order of kind->end */
    int openings;
    struct part_opening opening[OPENINGS_MOST]; /* `openings`, or `ports` with height 0 */
    int levels; /* 0: a box */
    struct part_level level[LEVELS_MOST];
    int beds;
    struct part_bed bed[BEDS_MOST];
    int moments; /* of its trace; 0: none */
    const struct part_moment *trace;
    struct course course;
    bool fault;  /* stands in the list of faults */
    bool keeps;  /* a fault of it that may come needs states, or ways, that a sound one has not */
    bool awaits; /* a fault that may come pours liquid where else there is no room for any */
    bool latent; /* a hole that is not there unless it is put in by hand */
    bool placed; /* for the drawing alone, as in struct ullage_part */
    double x, y;
    int turn;
    const char *shape, *label;
};

#endif
