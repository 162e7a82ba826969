/* sim/element/course.c  What was told of a course, made into one: in files, on the command line, by hand. */
#include "element/course.h"

#include "base/problem.h"

#include <math.h>

#define SPAN_LEAST 1e-3 /* s; of what comes again and again */

const struct course_key course_keys[COURSE_KEYS] = {[COURSE_FROM] = {"from", 0.0},
                                                    [COURSE_RAMP] = {"ramp", 0.0},
                                                    [COURSE_UNTIL] = {"until", 0.0},
                                                    [COURSE_EVERY] = {"every", SPAN_LEAST},
                                                    [COURSE_FOR] = {"for", SPAN_LEAST}};

static bool beginning_checked(const struct course_told *told, double earliest, struct ullage_problems *problems)
{
    if (!told->good[COURSE_FROM] || told->value[COURSE_FROM] >= earliest)
        return true;
    problem_add(problems, told->at[COURSE_FROM], "name a moment after that, or leave from out: it begins at once",
                "this fault would begin before it is put in, at %.6g s", earliest);
    return false;
}

static bool end_checked(const struct course_told *told, double earliest, struct ullage_problems *problems)
{
    const double from = told->good[COURSE_FROM] ? told->value[COURSE_FROM] : earliest;
    if (!told->good[COURSE_UNTIL] || told->value[COURSE_UNTIL] > from)
        return true;
    problem_add(problems, told->at[COURSE_UNTIL], "let it end after it began", "this fault ends before it begins");
    return false;
}

static bool turns_checked(const struct course_told *told, struct ullage_problems *problems)
{
    const bool every = told->stands[COURSE_EVERY], lasts = told->stands[COURSE_FOR];
    if (every != lasts) {
        problem_add(problems, told->key_at[every ? COURSE_EVERY : COURSE_FOR], "write both, like every: 8 s, for: 2 s",
                    "%s stands without the other of every and for", every ? "every" : "for");
        return false;
    }
    if (!told->good[COURSE_EVERY] || !told->good[COURSE_FOR] || told->value[COURSE_FOR] <= told->value[COURSE_EVERY])
        return true;
    problem_add(problems, told->at[COURSE_FOR], "let it last shorter than it takes to come again",
                "this fault lasts longer than the time after which it comes again");
    return false;
}

bool course_make(const struct course_told *told, double earliest, struct ullage_problems *problems, struct course *into)
{
    const double *value = told->value;
    const bool *good = told->good;
    *into = (struct course){.from = good[COURSE_FROM] ? value[COURSE_FROM] : (double)NAN,
                            .ramp = good[COURSE_RAMP] ? value[COURSE_RAMP] : 0.0,
                            .until = good[COURSE_UNTIL] ? value[COURSE_UNTIL] : (double)INFINITY,
                            .every = good[COURSE_EVERY] ? value[COURSE_EVERY] : 0.0,
                            .lasts = good[COURSE_FOR] ? value[COURSE_FOR] : 0.0};
    for (int k = 0; k < COURSE_KEYS; k++)
        into->given = into->given || good[k];
    const bool begins = beginning_checked(told, earliest, problems), ends = end_checked(told, earliest, problems);
    return turns_checked(told, problems) && begins && ends;
}
