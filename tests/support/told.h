/* tests/support/told.h  A scenario given as text, followed to its end, and what a report writes of it. */
#ifndef SUPPORT_TOLD_H
#define SUPPORT_TOLD_H

#include "report/experiment.h"
#include "support/run_text.h"

struct told {
    struct ullage_model *model;
    struct ullage_run *run;
    double *start;
    struct experiment experiment;
};

/* Ready at its start. */
static inline struct told told_ready(const char *text)
{
    struct told told = {.model = text_model(text)};
    told.run = ullage_run_create(told.model, NULL);
    assert_non_null(told.run);
    told.start = calloc((size_t)ullage_model_channels(told.model), sizeof *told.start);
    assert_non_null(told.start);
    ullage_run_values(told.model, told.run, told.start, NULL);
    told.experiment = (struct experiment){told.model, told.run, told.start};
    return told;
}

static inline struct told told_run(const char *text)
{
    const struct told told = told_ready(text);
    assert_int_equal(ullage_run_advance(told.model, told.run, (double)INFINITY), ULLAGE_FINISHED);
    return told;
}

static inline void told_free(struct told *told)
{
    free(told->start);
    ullage_run_free(told->run);
    ullage_model_free(told->model);
}

/* A stream into memory; told_close gives what was written, for the caller to free. */
struct told_page {
    FILE *to;
    char *text;
    size_t size;
};

static inline void told_open(struct told_page *page)
{
    page->to = open_memstream(&page->text, &page->size);
    assert_non_null(page->to);
}

static inline char *told_close(struct told_page *page)
{
    assert_int_equal(fclose(page->to), 0);
    return page->text;
}

/* Fails unless `part` stands somewhere in `text`, line ends and what hangs below them taken as one space. */
static inline void text_has(const char *text, const char *part)
{
    char *flat = strdup(text);
    assert_non_null(flat);
    char *to = flat;
    for (const char *from = text; *from; from++) {
        const int blank = *from == ' ' || *from == '\n';
        if (!blank || (to > flat && to[-1] != ' '))
            *to++ = blank ? ' ' : *from;
    }
    *to = '\0';
    const int found = strstr(flat, part) != NULL;
    free(flat);
    if (!found)
        fail_msg("\"%s\" is not in:\n%s", part, text);
}

#endif
