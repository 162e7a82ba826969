/* sim/procedure/step.h  One verb of a procedure: a const table and pure functions. A new verb: one file in step/, one row in
 * steps.c. */
#ifndef PROCEDURE_STEP_H
#define PROCEDURE_STEP_H

#include "procedure/procedure.h"

struct ullage_run;

/* What may stand after a verb. */
enum step_holds {
    HOLDS_KEYS,  /* a map of the keys in `key` */
    HOLDS_NAMES, /* a map of names, each with a word */
    HOLDS_MAPS,  /* a map of names, each with a map of the keys in `key` */
    HOLDS_TEXT,  /* a word */
    HOLDS_LINKS  /* a word, a list of words or a map of names */
};

enum step_form { FORM_TIME, FORM_CONDITION, FORM_COUNT, FORM_STEPS, FORM_TEXT };

/* A key of such a map. Tables end with a null name. */
struct step_key {
    const char *name;
    enum step_form form;
    const char *meaning;
};

/* A procedure being made. */
struct compiler {
    struct procedure *into;
    struct scope scope;
    bool failed; /* a problem was added, or memory is out */
};

struct step_kind {
    const char *verb, *meaning, *example;
    enum step_holds holds;
    const struct step_key *key;
    bool changes; /* changes an input of the run */
    /* Across keys, without looking at names; may be null. content->key_at is the verb's place. */
    void (*check)(const struct node *content, struct ullage_problems *problems);
    /* Fills the step at `index` from what stands after the verb: plan, title, times. */
    void (*compile)(struct compiler *at, int index, const struct node *content);
    /* The longest that it lasts with all inside; null: step->most. s */
    double (*longest)(const struct procedure *procedure, int index);
    /* Does it, at the present moment. Returns the step to go on with, or STEP_WAITS. */
    int (*act)(struct ullage_run *run, int index);
};

enum { STEP_WAITS = -3 };

const struct step_kind *const *step_kinds(void); /* ends with null */
const struct step_kind *step_find(const char *verb);

/* ---- shape.c ---- */
struct shape {
    const struct step_kind *kind; /* null: a problem was added */
    const struct node *content, *name;
};
struct shape shape_read(const struct node *step, struct ullage_problems *problems);

/* ---- for the verbs: compile.c ---- */

/* Steps of a list, inside of step `parent`; returns the first of them, -1 when there are none. */
int compile_list(struct compiler *at, const struct node *list, int parent);
/* Expressions, with failed set when they cannot be read. */
const struct expression *compile_expression(struct compiler *at, const struct node *word, int wanted);
const struct expression *compile_phrase(struct compiler *at, struct phrase phrase, int wanted);
double compile_constant(struct compiler *at, const struct node *word, int dimension);
/* Zeroed memory of the procedure. */
void *compile_take(struct compiler *at, size_t bytes);
/* A problem; failed is set. */
void compile_problem(struct compiler *at, struct ullage_place place, const char *right, const char *wrong);
/* The longest from step `first` up to where its list ends. s */
double list_longest(const struct procedure *procedure, int first, int parent);

/* ---- titles: title.c ---- all null when memory is out */

/* "service-port" -> "service port"; the part's own short label where it has one. */
const char *part_label(struct arena *arena, const struct part *part);
/* First letter large. Returns text. */
char *capitalised(char *text);
/* "decay_time" -> "decay time" */
char *name_words(struct arena *arena, const char *name);
/* "a", "a, b" */
const char *listed(struct arena *arena, const char *before, const char *next);

#endif
