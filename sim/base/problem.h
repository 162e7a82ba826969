/* sim/base/problem.h  What a user got wrong, gathered with its place. */
#ifndef BASE_PROBLEM_H
#define BASE_PROBLEM_H

#include "ullage.h"

/* Adds one problem. `right` says what would be right; the rest is a printf format for what is wrong. All text is copied,
 * place.file too. Memory running out is kept as a flag, so the caller never has to look. */
void problem_add(struct ullage_problems *found, struct ullage_place at, const char *right, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Like problem_add for a whole sentence "what is wrong; what would be right", as unit_read gives it. */
void problem_say(struct ullage_problems *found, struct ullage_place at, const char *sentence);

/* In the order of their places; what was said twice stays once. Of more than 50 only the first 50 found are kept: until
 * then the others are counted, so that a count before and after tells whether something was wrong. */
void problems_sort(struct ullage_problems *found);
bool problems_out_of_memory(const struct ullage_problems *found);
/* No more are told: searching for what would be right is in vain. */
bool problems_full(const struct ullage_problems *found);

/* Name among `names` (count of them) nearest to `word` by edit distance, or null when none is near enough to offer. */
const char *nearest_name(const char *word, const char *const *names, int count);

#endif
