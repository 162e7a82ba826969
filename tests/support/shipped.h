/* tests/support/shipped.h  A scenario that ships, run from its file to its end, and what it read and judged. */
#ifndef SUPPORT_SHIPPED_H
#define SUPPORT_SHIPPED_H

#include "support/near.h"
#include "ullage.h"

#include <stdbool.h>

struct shipped {
    struct ullage_model *model;
    struct ullage_run *run;
};

/* To its end, with `sets` edits of the kind "fill.level=90%" on top. */
static inline struct shipped shipped_run_with(const char *path, const char *const *set, int sets)
{
    static const char *const folders[] = {"scenarios"};
    const struct ullage_edits edits = {.set = set, .sets = sets, .search = folders, .searches = 1};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct shipped ran = {description ? ullage_model_create(description, problems) : NULL, NULL};
    for (int k = 0; k < ullage_problems_count(problems); k++)
        print_message("%s:%d: %s\n", path, ullage_problems_at(problems, k).place.line,
                      ullage_problems_at(problems, k).wrong);
    ullage_description_free(description);
    ullage_problems_free(problems);
    assert_non_null(ran.model);
    ran.run = ullage_run_create(ran.model, NULL);
    assert_non_null(ran.run);
    if (ullage_run_advance(ran.model, ran.run, (double)INFINITY) != ULLAGE_FINISHED)
        fail_msg("%s does not end: %s", path, ullage_run_trouble(ran.run));
    return ran;
}

static inline struct shipped shipped_run(const char *path)
{
    return shipped_run_with(path, NULL, 0);
}

static inline void shipped_close(struct shipped *ran)
{
    ullage_run_free(ran->run);
    ullage_model_free(ran->model);
}

/* The only reading of that name. */
static inline struct ullage_reading reading(const struct shipped *ran, const char *name)
{
    for (int k = 0; k < ullage_run_readings(ran->run); k++)
        if (!strcmp(ullage_run_reading(ran->run, k).name, name))
            return ullage_run_reading(ran->run, k);
    fail_msg("no reading %s", name);
    return (struct ullage_reading){0};
}

static inline double value(const struct shipped *ran, const char *name)
{
    return reading(ran, name).value;
}

static inline enum ullage_result verdict(const struct shipped *ran, const char *name)
{
    for (int k = 0; k < ullage_run_verdicts(ran->run); k++)
        if (!strcmp(ullage_run_verdict(ran->run, k).name, name))
            return ullage_run_verdict(ran->run, k).result;
    fail_msg("no verdict %s", name);
    return ULLAGE_OPEN;
}

#endif
