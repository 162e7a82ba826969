/* command/suggest.c  What to try next: look at it, and change one hole to twice its size. */
#include "command/suggest.h"

#include "command/command.h"

#include <math.h>
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

static bool has_passed(const struct experiment *of, const char *part)
{
    for (int i = 0; i < ullage_model_opening_rows(of->model); i++) {
        const struct ullage_opening_row row = ullage_run_opening(of->model, of->run, i);
        if (strcmp(row.part, part) == 0 && (row.in > 0.0 || row.out > 0.0))
            return true;
    }
    return false;
}

/* Of the round holes that gas has passed, the one nearest to the usual line between pass and fail; -1: there is none. */
static int hole_find(const struct experiment *of)
{
    static const double usual_line = 0.5e-3; /* m */
    int nearest = -1;
    double least = HUGE_VAL;
    for (int part = 0; part < ullage_model_parts(of->model); part++) {
        const struct ullage_part here = ullage_model_part(of->model, part);
        const double size = ullage_model_parameter(of->model, part, "diameter");
        const double off = fabs(log(size / usual_line));
        if (strcmp(here.type, "hole") == 0 && size > 0.0 && off < least && has_passed(of, here.id)) {
            nearest = part;
            least = off;
        }
    }
    return nearest;
}

void suggest_write(FILE *to, const char *program, const char *path, const struct experiment *of)
{
    const int hole = hole_find(of);
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
