/* sim/base/problem.c  The growing list of what a user got wrong. */
#include "base/problem.h"

#include "base/text.h"
#include "base/tree.h"

#include <assert.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    PROBLEMS_MOST = 50,    /* a person mends a few and looks again */
    PROBLEM_LENGTH = 1000, /* bytes of one sentence */
};

struct ullage_problems {
    struct arena *arena; /* owns all text */
    int kept, more;      /* more: found, and only counted */
    bool out_of_memory;
    struct ullage_problem row[PROBLEMS_MOST]; /* [kept] */
};

struct ullage_problems *ullage_problems_create(void)
{
    struct ullage_problems *problems = calloc(1, sizeof *problems);
    if (!problems)
        return NULL;
    problems->arena = arena_create();
    if (!problems->arena) {
        free(problems);
        return NULL;
    }
    return problems;
}

void ullage_problems_free(struct ullage_problems *problems)
{
    if (!problems)
        return;
    arena_free(problems->arena);
    free(problems);
}

int ullage_problems_count(const struct ullage_problems *problems)
{
    return problems->kept + problems->more;
}

struct ullage_problem ullage_problems_at(const struct ullage_problems *problems, int index)
{
    assert(0 <= index && index < problems->kept + problems->more);
    if (index < problems->kept)
        return problems->row[index];
    return (struct ullage_problem){problems->row[0].place, "there is more", "mend first what is told above"};
}

bool problems_out_of_memory(const struct ullage_problems *found)
{
    return found->out_of_memory;
}

bool problems_full(const struct ullage_problems *found)
{
    return found->kept == PROBLEMS_MOST;
}

/* A copy of the file's name; one copy serves neighbours in the list. */
static const char *problem_file(struct ullage_problems *found, const char *file)
{
    if (!file)
        return NULL;
    const char *last = found->kept > 0 ? found->row[found->kept - 1].place.file : NULL;
    if (last && strcmp(last, file) == 0)
        return last;
    const char *copy = arena_text(found->arena, file);
    found->out_of_memory = found->out_of_memory || !copy;
    return copy;
}

static const char *problem_text(struct ullage_problems *found, const char *text)
{
    char *copy = arena_text(found->arena, text);
    if (!copy) {
        found->out_of_memory = true;
        return "memory is out";
    }
    text_tame(copy);
    return copy;
}

static void problem_keep(struct ullage_problems *found, struct ullage_place at, const char *wrong, const char *right)
{
    if (problems_full(found)) {
        found->more += found->more < INT_MAX - PROBLEMS_MOST;
        return;
    }
    const char *file = problem_file(found, at.file);
    found->row[found->kept] = (struct ullage_problem){
        .place = {file, at.line, at.column},
        .wrong = problem_text(found, wrong),
        .right = problem_text(found, right),
    };
    found->kept++;
}

void problem_add(struct ullage_problems *found, struct ullage_place at, const char *right, const char *format, ...)
{
    char wrong[PROBLEM_LENGTH];
    va_list values;
    va_start(values, format);
    vsnprintf(wrong, sizeof wrong, format, values);
    va_end(values);
    problem_keep(found, at, wrong, right ? right : "");
}

void problem_say(struct ullage_problems *found, struct ullage_place at, const char *sentence)
{
    char wrong[PROBLEM_LENGTH];
    const char *cut = NULL; /* the last one: what is wrong may quote another */
    for (const char *next = sentence; (next = strstr(next, "; ")); next++)
        cut = next;
    const int length = cut ? (int)(cut - sentence) : (int)strlen(sentence);
    snprintf(wrong, sizeof wrong, "%.*s", length, sentence);
    problem_keep(found, at, wrong, cut ? cut + 2 : "");
}

/* Files in the order of their names, a file as a whole before its lines, C programs first. */
static int problem_order(const void *a, const void *b)
{
    const struct ullage_problem *one = a;
    const struct ullage_problem *two = b;
    const int file = strcmp(one->place.file ? one->place.file : "", two->place.file ? two->place.file : "");
    if (file != 0)
        return file;
    if (one->place.line != two->place.line)
        return one->place.line < two->place.line ? -1 : 1;
    if (one->place.column != two->place.column)
        return one->place.column < two->place.column ? -1 : 1;
    const int wrong = strcmp(one->wrong, two->wrong);
    return wrong != 0 ? wrong : strcmp(one->right, two->right);
}

void problems_sort(struct ullage_problems *found)
{
    found->more = 0;
    if (found->kept == 0)
        return;
    qsort(found->row, (size_t)found->kept, sizeof found->row[0], problem_order);
    int kept = 1;
    for (int i = 1; i < found->kept; i++)
        if (problem_order(&found->row[kept - 1], &found->row[i]) != 0)
            found->row[kept++] = found->row[i];
    found->kept = kept;
}
