/* sim/file/readers.h  Readers of the parts of a scenario: each takes a node of the tree and fills its share of the
 * description. A null node leaves what holds when nothing is said. */
#ifndef FILE_READERS_H
#define FILE_READERS_H

#include "file/reader.h"

/* Where the trees of one scenario stand once everything it names has been found. */
struct trees {
    struct node *scenario;  /* the map of the file; null: a system alone */
    struct node *system;    /* the map that holds `parts` */
    struct node *procedure; /* the map that holds `steps`; null: none */
    bool own_system;        /* the system stands in a file of its own; else within the scenario */
    bool own_procedure;
};

/* Keys of a scenario, in the order of the handbook [*count]. */
const char *const *scenario_keys(int *count);

/* ---- edit.c: what is said on top of the file, done to its trees: `change`, then --fault, then --set ---- */
void edits_made(struct reader *reader, struct trees *trees);

/* ---- parts.c ---- */
enum { PARTS_MOST = 1000 };
/* False with a problem added where there are more: looked at before anything walks over them, and after edits. */
bool parts_few(struct reader *reader, const struct trees *trees);
/* The system's parts, the scenario's equipment and its faults, as the description's parts. */
void parts_read(struct reader *reader, const struct trees *trees);
/* The numbers of a table from a map: value and place of each row. Missing ones that must be given are problems, but not
 * where a key of the map that nobody knows (strangers) comes near: that is the same slip said twice. */
void numbers_read(struct reader *reader, const struct node *map, bool strangers, const struct row *rows, double *value,
                  struct ullage_place *value_at);
/* An end "PART.OPENING", not looked up yet. False with a problem where it is none. */
bool end_read(struct reader *reader, const struct node *node, struct part_end *end);
/* Index by id in the description; -1: none. */
int part_find(const struct ullage_description *in, const char *id);
/* A problem: there is no part `id`; the nearest one is offered. */
void part_missing(struct reader *reader, struct ullage_place at, const char *id);

/* ---- levels.c ---- */
void levels_read(struct reader *reader, const struct node *list, struct part *part);

/* ---- trace.c ---- */
void trace_read(struct reader *reader, const struct node *list, struct part *part);

/* A problem where no part or fault can be called so. And its name as words, for the drawing. */
void id_wanted(struct reader *reader, struct ullage_place at, const char *id);
const char *label_of(struct reader *reader, const char *id);

/* ---- faults.c: the list of what is wrong, after the parts; and holes that may come: those
 * that a hand or the procedure names, all where that is asked for ---- */
void faults_read(struct reader *reader, const struct trees *trees, const struct node *list);

/* ---- condition.c: `conditioned` of a start ---- */
void condition_read(struct reader *reader, const struct node *map, struct conditioning *into);

/* ---- surroundings.c, start.c, rest.c: one key of the scenario each ---- */
void surroundings_read(struct reader *reader, const struct node *map);
void start_read(struct reader *reader, const struct node *map);
void fill_read(struct reader *reader, const struct node *map);
/* Problems where the fuel's components are not known at the temperatures of `fill` and `surroundings`, either of which
 * may be null; after both have been read. Between corners of a profile nothing is warmer or colder than they are. */
void fuel_warmth_check(struct reader *reader, const struct node *fill, const struct node *surroundings);
/* A problem where the fuel, as warm as it can become outside, would not leave room for gas; after both have been read. */
void fuel_brim_check(struct reader *reader, const struct node *fill);
/* fault_fuel.c: what is wrong with the fuel, done to it; after fill_read. */
void fault_fuel_made(struct reader *reader);
/* A fuel's own file: into the description's fill. */
void blend_tree_read(struct reader *reader, const struct node *map);
void assume_read(struct reader *reader, const struct node *map);
void let_read(struct reader *reader, const struct node *map);
void record_read(struct reader *reader, const struct node *map);

/* ---- by_hand.c: a list of moments and what is done then ---- */
void by_hand_read(struct reader *reader, const struct node *list);

/* What this version cannot do yet: a problem at the key, if the map has it. */
void later_refused(struct reader *reader, const struct node *map, const char *key, const char *why, const char *right);

#endif
