/* sim/element/fault.h  What can be wrong with a part of a kind: rows of const tables, and what a size of each does.
 *
 * A fault is one of four things: a hole that was not there, a parameter of the part that is no longer what it was, a command
 * that does not come to what it should, or liquid fuel that should not be there or should be another. Each has one size, of
 * which 0 is no fault and little is little. */
#ifndef ELEMENT_FAULT_H
#define ELEMENT_FAULT_H

#include "element/part.h"

enum fault_way {
    FAULT_HOLE,     /* from the part's gas to the air: a part of kind `hole` of its own */
    FAULT_ADDS,     /* row + size */
    FAULT_TAKES,    /* row (1 - size) */
    FAULT_WIDENS,   /* another hole beside: sqrt(row^2 + size^2) */
    FAULT_GROWS,    /* row + size times the seconds since it came */
    FAULT_OPENS,    /* open by `size` at least */
    FAULT_SHUTS,    /* open by 1 - size at most */
    FAULT_NARROWS,  /* open by 1 - size of what is commanded */
    FAULT_RELEASES, /* by `size` of the way from what is commanded to where it rests without a command */
    FAULT_DRIVES,   /* or to where its coil takes it */
    FAULT_WEAKENS,  /* the first `size` of what its coil is driven moves nothing */
    FAULT_FILLS,    /* the scenario's fuel: so much more of it, m3 */
    FAULT_ENLIVENS, /* its fuel is changed for one of so much more vapor pressure, Pa */
    FAULT_STALES,   /* or so much less */
    FAULT_LIES,     /* so much of it lies there; from the start: more of its row */
    FAULT_WETS      /* this share of the pores and voids of beds is full of it */
};

/* Where it sits. */
enum fault_site {
    FAULT_ON_PART,     /* one on the part itself */
    FAULT_ON_OPENINGS, /* one on each opening the file gives the part, or the kind by itself; "" where there is none */
    FAULT_ON_ENDS      /* one on each end: "from", "to" */
};

struct fault_row {
    const char *name;
    enum fault_way way;
    const char *size; /* key of its size */
    int dimension;
    double least, usual, most;   /* of the size, as it is met with; beyond them it may go as far as fault_range says */
    const char *comes, *changes; /* how it comes about; what readings show */
    const char *row[2];          /* parameters it moves; null: none */
    enum fault_site site;
    bool keeps;        /* its part's reading has to have a state of its own */
    const char *shape; /* of a hole; null: round */
    const char *given; /* of a hole, one more number that its shape needs; of liquid, the row of its room: */
    double gives;      /* its value, at least */
    bool (*fits)(const struct part *part, const struct part *all, int parts); /* null: any part of the kind */
};

/* Holes that can be in any part that keeps gas, or stands at some; their size must be told. Ends with a null name. */
extern const struct fault_row any_fault[];

/* The rows of a kind, then those of any; null beyond the last. */
struct element_kind;
const struct fault_row *fault_at(const struct element_kind *kind, int index);
/* The row of that name that a part can have; null: none. */
const struct fault_row *fault_named(const struct element_kind *kind, const char *name);

/* Whether a part can have it, and on which openings: names of `site` [most OPENINGS_MOST], how many. */
bool fault_fits(const struct fault_row *row, const struct part *part, const struct part *all, int parts);
int fault_sites(const struct fault_row *row, const struct part *part, const char **site);
/* The end by which a part without gas of its own stands at some: what a hole in it opens; -1: it keeps gas itself. */
int fault_end(const struct part *part);

bool fault_is_any(const struct fault_row *row);
bool fault_is_hole(const struct fault_row *row);
bool fault_is_parameter(const struct fault_row *row);
bool fault_is_command(const struct fault_row *row);
/* Liquid that is there from the start, or is poured while a run goes on: network/pouring.h. It does not come again and again. */
bool fault_is_pour(const struct fault_row *row);
/* One that takes a fuel of more than one substance, but from the start. */
bool fault_is_exchange(const struct fault_row *row);
/* s that the pouring takes, where no ramp tells: of a size, either way. */
double fault_pours_in(const struct fault_row *row, double size);

/* Sizes that make sense, SI: least and most. */
void fault_range(const struct fault_row *row, const struct element_kind *kind, double *least, double *most);

/* What a parameter comes to with `share` of a fault of that size, which came `since` s ago. */
double fault_parameter(const struct fault_row *row, double value, double size, double share, double since);
/* What a command comes to; rest: 0 or 1, without any command. */
double fault_opening(const struct fault_row *row, double opening, double rest, double size);

#endif
