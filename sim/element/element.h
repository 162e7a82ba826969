/* sim/element/element.h  One kind of part: const tables and pure functions. No state lives in a kind. */
#ifndef ELEMENT_ELEMENT_H
#define ELEMENT_ELEMENT_H

#include "element/blueprint.h"
#include "element/fault.h"
#include "property/liquid.h"

/* What a kind sees when it shows its numbers: its own things only. */
struct liquid_look {
    const struct liquid *liquid;
    const double *amount; /* mol of each component */
    double volume, temperature;
    double height;   /* m above the bottom that it stands */
    double pressure; /* Pa: what it would hold at rest, air apart */
};
struct volume_look {
    struct gas gas;
    double amount, volume, wall_temperature;
    const double *share; /* by species number [SPECIES_KNOWN] */
    const struct liquid_look *liquid; /* null: none */
    double loaded;                    /* kg of fuel vapors on its carbon */
    double vapor;                     /* mole share of fuel in its gas */
};
struct passage_look {
    struct gas a, b;
    double flow, molar_mass; /* mol/s, and kg/mol of what flows */
};
struct part_look {
    const struct part *part;
    double time, ambient_pressure, ambient_temperature;
    const double *parameter;            /* live [kind rows] */
    const double *set;                  /* the same as they were set, whatever faults make of them */
    double opening;
    const bool *on;                     /* its switches */
    int volumes, passages;
    const struct volume_look *volume;   /* the part's own, in the order they were built */
    const struct passage_look *passage;
    const struct controller_view *controller; /* what its controller sees; null: none */
    double follower;                    /* its follower's value: Pa over the atmosphere, or mol/s */
    const struct part_look *of;         /* the part its `of` end names, or null (no deeper than one) */
    const struct gas *fed;              /* gas of the place its `feeds` end names, or that the `of` part is joined to;
                                           null: none */
    const struct gas *air;              /* the atmosphere */
    uint64_t seed;                      /* of its noise */
};

struct element_kind {
    const char *name, *meaning; /* the word in system files */
    const struct row *parameter;
    const struct word_row *word;
    const struct end_row *end;
    const struct command_row *command;  /* null: cannot be commanded */
    double (*at_rest)(const struct part *part); /* opening before any command; null: 1 */
    double (*moves_in)(const double *parameter, double from, double to); /* s a command takes; null: at once */
    const struct show_row *shows;
    /* What a command comes to at a moment, and the next moment after `time` at which that, or what hangs on it, has a
     * corner; corners of the ramp itself are known. Null: the ramp's value, no other corner. */
    double (*opens)(const struct command_view *at, double time);
    double (*corner)(const struct command_view *at, double time);
    bool has_volumes;        /* gas is kept in it: it can stand in `start` */
    bool is_passage;         /* a way with no volume of its own: valve, hole, cap */
    bool feeds;              /* shop gas comes from it: it can be joined to a port */
    const char *const *opening; /* names it has without the file giving any, null-terminated; may be null */
    bool opening_list;       /* takes `openings: {NAME: HEIGHT}` */
    bool trace_list;         /* takes `trace: [[TIME, PRESSURE, AIR FLOW], ...]` */
    bool level_list;         /* takes `levels: [[VOLUME, HEIGHT], ...]` */
    bool port_list;              /* takes `ports: [NAME, ...]` */
    const struct row *bed;       /* takes `beds: [{...}]` of these numbers and words, one at least; null: none */
    const struct word_row *bed_word;
    const struct fault_row *fault; /* what can be wrong with it, beside any_fault; may be null */
    void (*check)(const struct part *part, struct ullage_problems *problems); /* across parameters; may be null */
    void (*stores)(struct blueprint *into, int part);      /* volumes, boundaries, openings; may be null */
    void (*passages)(struct blueprint *into, int part);    /* may be null */
    void (*instruments)(struct blueprint *into, int part); /* followers; may be null */
    /* One number per row of shows; off_scale as in ullage_run_values, already 0. */
    void (*show)(const struct part_look *at, double *shown, signed char *off_scale);
};

/* All kinds, ending with null; and one by name, or null. */
const struct element_kind *const *element_kinds(void);
const struct element_kind *element_find(const char *name);

/* Rows in a table that ends with a null name. */
int rows_count(const struct row *rows);
int words_count(const struct word_row *rows);
int ends_count(const struct end_row *rows);
int shows_count(const struct show_row *rows);
/* Index of a row by name; -1: none. Tables may be null. */
int rows_find(const struct row *rows, const char *name);
int words_find(const struct word_row *rows, const char *name);
int ends_find(const struct end_row *rows, const char *name);

#endif
