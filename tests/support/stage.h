/* tests/support/stage.h  A model opened for a picture: from a shipped scenario or from text, with faults if wanted. */
#ifndef SUPPORT_STAGE_H
#define SUPPORT_STAGE_H

#include "support/near.h"
#include "ullage.h"

struct stage {
    struct ullage_model *model;
    struct ullage_run *run;
};

static inline void stage_told(struct ullage_problems *problems, const char *what)
{
    for (int k = 0; k < ullage_problems_count(problems); k++)
        print_message("%s: %s\n", what, ullage_problems_at(problems, k).wrong);
    ullage_problems_free(problems);
}

/* fault may be null. */
static inline struct stage stage_open(const char *path, const char *fault)
{
    static const char *const folders[] = {"scenarios"};
    const char *const faults[] = {fault};
    const struct ullage_edits edits = {.search = folders, .searches = 1, .fault = faults, .faults = fault ? 1 : 0};
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_read(path, &edits, problems, &outcome);
    struct stage stage = {description ? ullage_model_create(description, problems) : NULL, NULL};
    stage_told(problems, path);
    ullage_description_free(description);
    assert_non_null(stage.model);
    stage.run = ullage_run_create(stage.model, NULL);
    assert_non_null(stage.run);
    return stage;
}

static inline struct stage stage_text(const char *text)
{
    enum ullage_outcome outcome = ULLAGE_GOOD;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct stage stage = {description ? ullage_model_create(description, problems) : NULL, NULL};
    stage_told(problems, "text");
    ullage_description_free(description);
    assert_non_null(stage.model);
    stage.run = ullage_run_create(stage.model, NULL);
    assert_non_null(stage.run);
    return stage;
}

static inline void stage_close(struct stage *stage)
{
    ullage_run_free(stage->run);
    ullage_model_free(stage->model);
}

#endif
