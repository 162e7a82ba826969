/* tests/support/run_text.h  Runs a scenario given as text through the door, to its end, and gives its readings. */
#ifndef SUPPORT_RUN_TEXT_H
#define SUPPORT_RUN_TEXT_H

#include "support/near.h"
#include "ullage.h"

#include <stdbool.h>

static inline struct ullage_model *text_model(const char *text)
{
    enum ullage_outcome outcome;
    struct ullage_problems *problems = ullage_problems_create();
    struct ullage_description *description = ullage_description_text(text, problems, &outcome);
    struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
    for (int k = 0; k < ullage_problems_count(problems); k++) {
        const struct ullage_problem problem = ullage_problems_at(problems, k);
        print_message("line %d, column %d: %s; %s\n", problem.place.line, problem.place.column, problem.wrong,
                      problem.right);
    }
    ullage_description_free(description);
    ullage_problems_free(problems);
    if (!model)
        fail_msg("no model comes of:\n%s", text);
    return model;
}

struct text_run {
    struct ullage_model *model;
    struct ullage_run *run;
};

static inline struct text_run text_run_with(const char *text, const struct ullage_method *method)
{
    struct text_run ran = {text_model(text), NULL};
    ran.run = ullage_run_create(ran.model, method);
    assert_non_null(ran.run);
    const enum ullage_status status = ullage_run_advance(ran.model, ran.run, (double)INFINITY);
    if (status != ULLAGE_FINISHED)
        fail_msg("the run does not end: %s\n%s", ullage_run_trouble(ran.run), text);
    return ran;
}

static inline struct text_run text_run(const char *text)
{
    return text_run_with(text, NULL);
}

static inline double text_reading(const struct text_run *ran, const char *name)
{
    for (int k = ullage_run_readings(ran->run) - 1; k >= 0; k--)
        if (!strcmp(ullage_run_reading(ran->run, k).name, name))
            return ullage_run_reading(ran->run, k).value;
    fail_msg("no reading %s", name);
    return (double)NAN;
}

static inline void text_close(struct text_run *ran)
{
    ullage_run_free(ran->run);
    ullage_model_free(ran->model);
}

/* One reading of one scenario. */
static inline double text_read(const char *text, const char *name)
{
    struct text_run ran = text_run(text);
    const double value = text_reading(&ran, name);
    text_close(&ran);
    return value;
}

#endif
