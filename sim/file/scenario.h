/* sim/file/scenario.h  Reading a whole: shared by the door that makes a description and the one that only checks. */
#ifndef FILE_SCENARIO_H
#define FILE_SCENARIO_H

#include "file/readers.h"

/* A reader with an arena and an empty description. False: memory is out, nothing is left to free. */
bool reader_begin(struct reader *reader, const struct ullage_edits *edits, struct ullage_problems *problems);
/* Sorts what was found and sets the outcome. problems_before: how many there were when the reader began. */
void reader_judge(struct reader *reader, int problems_before);

/* Into reader->into. path: of the file the tree comes from; null: a C program. */
void scenario_tree_read(struct reader *reader, struct node *tree, const char *path);
void system_read(struct reader *reader, const struct trees *trees);
void procedure_read(struct reader *reader, const struct trees *trees);

/* Finds what a scenario names and makes the edits to the trees; false where that cannot be. */
bool scenario_trees(struct reader *reader, struct node *tree, const char *path, struct trees *trees);

/* ---- recording.c ---- */

/* What stands in a recording, as the arena of its reader has it. */
struct recording_text {
    struct ullage_recorded about;
    const struct ullage_description *by_hand; /* of which only that part is filled */
};

void recording_tree_read(struct reader *reader, const struct node *map, struct recording_text *into);

/* Any of them, by what it says it is, as far as it can be checked alone: a scenario with its model. */
void form_checked(struct reader *reader, struct node *tree, const char *path);

#endif
