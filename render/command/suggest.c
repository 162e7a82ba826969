/* command/suggest.c  What to try next: look at it, and change one hole to twice its size. */
#include "command/suggest.h"

#include "command/command.h"

#include <string.h>

/* A word as a shell takes it. */
static void shell_word(FILE *to, const char *word)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./+,:=%@";
    if (*word && strspn(word, plain) == strlen(word)) {
        fputs(word, to);
        return;
    }
    fputc('\'', to);
    for (; *word; word++)
        if (*word == '\'')
            fputs("'\\''", to);
        else
            fputc(*word, to);
    fputc('\'', to);
}

static void line_begin(FILE *to, bool first, const char *program, const char *command, const char *path)
{
    fputs(first ? "Try:  " : "      ", to);
    shell_word(to, program);
    fprintf(to, " %s ", command);
    shell_word(to, path);
}

/* The first round hole; -1: there is none. */
static int hole_find(const struct ullage_model *model)
{
    for (int part = 0; part < ullage_model_parts(model); part++) {
        const bool hole = strcmp(ullage_model_part(model, part).type, "hole") == 0;
        if (hole && ullage_model_parameter(model, part, "diameter") > 0.0)
            return part;
    }
    return -1;
}

void suggest_write(FILE *to, const char *program, const char *path, const struct experiment *of)
{
    const int hole = hole_find(of->model);
    bool first = true;
#ifndef ULLAGE_NO_WINDOW
    line_begin(to, first, program, "view", path);
    fputc('\n', to);
    first = false;
#endif
    if (hole < 0)
        return;
    line_begin(to, first, program, "run", path);
    fprintf(to, " --set %s.diameter=%.3gmm --against ", ullage_model_part(of->model, hole).id,
            2e3 * ullage_model_parameter(of->model, hole, "diameter"));
    shell_word(to, path);
    fputc('\n', to);
}
