/* sim/element/course.h  How a course is told: its keys, all of them moments and spans of time, and what they cannot say
 * together. */
#ifndef ELEMENT_COURSE_H
#define ELEMENT_COURSE_H

#include "element/part.h"

enum { COURSE_FROM, COURSE_RAMP, COURSE_UNTIL, COURSE_EVERY, COURSE_FOR, COURSE_KEYS };

struct course_key {
    const char *name;
    double least; /* s */
};
extern const struct course_key course_keys[COURSE_KEYS];

/* What was told of it, key by key, and where. */
struct course_told {
    bool stands[COURSE_KEYS], good[COURSE_KEYS]; /* there is such a key; it has a number that may be */
    double value[COURSE_KEYS];                   /* s */
    struct ullage_place key_at[COURSE_KEYS], at[COURSE_KEYS];
};

/* The course that was told. `from` NAN: it was left out. earliest: s, nothing is put in before. False with a problem. */
bool course_make(const struct course_told *told, double earliest, struct ullage_problems *problems,
                 struct course *into);

#endif
