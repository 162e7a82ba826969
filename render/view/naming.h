/* naming.h  Ids and names as words. */
#ifndef VIEW_NAMING_H
#define VIEW_NAMING_H

#include "ullage.h"

#include <stdbool.h>

/* "plug_1_lost" and "plug-1-lost" are "plug 1 lost", with a capital where wanted. Into room[size]; returns room. */
const char *naming_words(const char *name, bool capital, char *room, int size);
void naming_capital(char *words);

/* A part's label as words; a label of one letter is a leak's: "leak a". */
const char *naming_part(const struct ullage_model *model, int part, bool capital, char *room, int size);

#endif
