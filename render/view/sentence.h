/* sentence.h  One sentence: which physics rules just now, from the present step and the largest flow. */
#ifndef VIEW_SENTENCE_H
#define VIEW_SENTENCE_H

#include "ullage.h"

/* What a step is about, in few words: a wait that follows something done is called after that. "" where step < 0. */
const char *step_title(const struct ullage_model *model, int step);

/* Into room[size]; returns room. value: as ullage_run_values fills it, at the moment told. step: as ullage_run_step. */
const char *sentence_make(const struct ullage_model *model, const double *value, int step, char *room, int size);

#endif
