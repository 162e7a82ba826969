/* sim/file/edit.h  Changing trees before they are read; used by what is said on top of a file. */
#ifndef FILE_EDIT_H
#define FILE_EDIT_H

#include "file/readers.h"

/* ---- graft.c ---- all leave the tree as it was when memory is out */
struct node *node_new(struct reader *reader, enum node_kind kind, struct ullage_place at); /* or null */
void child_add(struct reader *reader, struct node *parent, struct node *child);
/* A copy of `value` under `key`, in the place of what stood there. */
void map_put(struct reader *reader, struct node *map, const char *key, struct ullage_place key_at,
             const struct node *value);
void map_drop(struct node *map, const char *key);
/* The child under `key`, made where there is none. Null where something of another kind stands there. */
struct node *child_under(struct reader *reader, struct node *map, const char *key, enum node_kind kind,
                         struct ullage_place at);
/* The map of a list of faults with that id; null: none. */
struct node *fault_find(const struct node *list, const char *id);
/* Columns that so many bytes take. */
int characters(const char *text, size_t bytes);

/* ---- path.c ---- */
/* Puts `value` where the path leads: "leak.diameter", "start.vessel.pressure", "faults.a.ramp", "end". `at` is where the
 * path's text stands. Problems are added where it leads nowhere. */
void path_set(struct reader *reader, struct trees *trees, const char *text, struct ullage_place at,
              const struct node *value);

/* ---- edit.c ---- */
/* A copy of an argument's text, and a place "OPTION TEXT" for it. Null with a problem added where it is no plain text. */
const char *argument_text(struct reader *reader, const char *option, const char *text, struct ullage_place *at);

/* ---- fault_line.c ---- */
/* "leak tank.roof diameter=0.5mm from=10s" as one more of the scenario's faults. */
void fault_line_read(struct reader *reader, struct trees *trees, const char *argument);

#endif
