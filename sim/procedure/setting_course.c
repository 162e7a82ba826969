/* sim/procedure/setting_course.c  A fault's size and when it is there, as one value: "0.5 mm from=10min ramp=30s". The keys are
 * those that a fault of a file has; a value may hold spaces, the next key ends it. */
#include "base/problem.h"
#include "base/text.h"
#include "element/course.h"
#include "procedure/setting.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SENTENCE = 300 };

/* The next word that has a "=" in it, from `text` on; its end where there is none. */
static const char *pair_find(const char *text)
{
    for (;;) {
        text += strspn(text, " ");
        const size_t length = strcspn(text, " ");
        if (length == 0 || memchr(text, '=', length))
            return text;
        text += length;
    }
}

/* What stands between two characters of the value, without spaces at its end. Its text null: memory. */
static struct phrase piece(const struct scope *scope, struct phrase value, const char *from, const char *end)
{
    while (end > from && end[-1] == ' ')
        end--;
    return (struct phrase){arena_format(scope->arena, "%.*s", (int)(end - from), from), phrase_place(value, from)};
}

static int key_find(const char *name)
{
    for (int k = 0; k < COURSE_KEYS; k++)
        if (!strcmp(course_keys[k].name, name))
            return k;
    return -1;
}

static int key_read(const struct scope *scope, struct phrase name, const struct course_told *told)
{
    const char *names[COURSE_KEYS];
    char shown[TEXT_SHORT], right[SENTENCE] = "write from, ramp, until, every or for";
    const int key = key_find(name.text);
    for (int k = 0; k < COURSE_KEYS; k++)
        names[k] = course_keys[k].name;
    const char *near = key < 0 ? nearest_name(name.text, names, COURSE_KEYS) : NULL;
    if (near)
        snprintf(right, sizeof right, "did you mean %s?", near);
    if (key < 0)
        problem_add(scope->problems, name.at, right, "%s does not say when a fault is there",
                    text_short(name.text, shown));
    else if (told->stands[key])
        problem_add(scope->problems, name.at, "say it once", "%s is told twice", name.text);
    return key >= 0 && told->stands[key] ? -1 : key;
}

static bool time_read(const struct scope *scope, struct phrase text, int key, struct course_told *told)
{
    double value;
    char shown[TEXT_SHORT];
    told->at[key] = text.at;
    if (!constant_read(scope, text, ULLAGE_TIME, &value))
        return false;
    if (!(value >= course_keys[key].least && isfinite(value))) {
        problem_add(scope->problems, text.at,
                    course_keys[key].least > 0.0 ? "it is at least 1 ms" : "it is at least 0 s", "%s cannot be %s",
                    course_keys[key].name, text_short(text.text, shown));
        return false;
    }
    told->value[key] = value;
    told->good[key] = true;
    return true;
}

/* "key=value" from `at` on, up to `end`. */
static bool pair_read(const struct scope *scope, struct phrase value, const char *at, const char *end,
                      struct course_told *told)
{
    const char *equals = at + strcspn(at, "=");
    const struct phrase name = piece(scope, value, at, equals), time = piece(scope, value, equals + 1, end);
    const int key = name.text && time.text ? key_read(scope, name, told) : -1;
    if (key < 0)
        return false;
    told->stands[key] = true;
    told->key_at[key] = name.at;
    return time_read(scope, time, key, told);
}

bool course_setting_read(const struct scope *scope, struct phrase value, struct phrase *size, struct course *course)
{
    struct course_told told = {0};
    const char *at = pair_find(value.text);
    bool good = true;
    *course = (struct course){.from = (double)NAN, .until = (double)INFINITY};
    *size = piece(scope, value, value.text, at);
    if (!size->text)
        return false;
    if (*at && !*size->text) {
        problem_add(scope->problems, value.at, "write its size first, like 0.5 mm from=10 s", "this fault has no size");
        return false;
    }
    if (*at && !strcmp(size->text, "off")) {
        problem_add(scope->problems, phrase_place(value, at), "write until= beside its size to end it later",
                    "off takes a fault out at once");
        return false;
    }
    while (*at && good) {
        const char *next = pair_find(at + strcspn(at, " "));
        good = pair_read(scope, value, at, next, &told);
        at = next;
    }
    return good && course_make(&told, scope->earliest, scope->problems, course);
}
