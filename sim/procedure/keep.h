/* sim/procedure/keep.h  Numbers that took long to find, kept in a folder between runs.
 *
 * A recipe is a text that says all the numbers depend on. They are found again under its hash, and given out only where the
 * file holds that very recipe, as many numbers as asked for, and a sum that fits: a file that is broken, cut, foreign or of
 * another program is as good as none. What is given out is what was kept to the last bit. */
#ifndef PROCEDURE_KEEP_H
#define PROCEDURE_KEEP_H

#include <stdbool.h>

/* False: not there, or not sound; value is then as it was. folder null: never there. */
bool keep_find(const char *folder, const char *recipe, double *value, int count);

/* Written beside, then renamed: whoever looks sees all of it or nothing. The folder and those above it are made, for this user
 * alone, where they are missing. One that cannot be made or written is no trouble: nothing is kept then. */
void keep_put(const char *folder, const char *recipe, const double *value, int count);

#endif
