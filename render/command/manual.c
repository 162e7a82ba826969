/* command/manual.c  The manual page, in the man macros that every roff knows. */
#include "command/manual.h"

#include "command/options.h"

#include <string.h>

int operand_words(const struct command *command, char word[WORDS_MOST][WORD_ROOM])
{
    int count = 0;
    const char *at = strchr(command->operands, '|') ? command->operands : "";
    while (*at && count < WORDS_MOST) {
        at += strspn(at, " |");
        const size_t length = strcspn(at, " |");
        if (length)
            snprintf(word[count++], WORD_ROOM, "%.*s", (int)length, at);
        at += strcspn(at, "|");
    }
    return count;
}

/* Text with what roff would take for its own: a backslash, a hyphen that it might break or turn into a dash, a point or a
 * quote that begins a line. */
static void roff_put(FILE *to, const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", to);
    for (; *text; text++) {
        if (*text == '\\')
            fputs("\\e", to);
        else if (*text == '-')
            fputs("\\-", to);
        else
            fputc(*text, to);
    }
}

static void paragraph(FILE *to, const char *text)
{
    fputs(".PP\n", to);
    roff_put(to, text);
    fputc('\n', to);
}

static void examples(FILE *to, const char *const *example)
{
    fputs(".PP\n.RS\n.nf\n", to);
    for (; *example; example++) {
        roff_put(to, *example);
        fputc('\n', to);
    }
    fputs(".fi\n.RE\n", to);
}

static void option(FILE *to, const struct option_row *row)
{
    fputs(".TP\n\\fB", to);
    roff_put(to, "--");
    roff_put(to, row->name);
    fputs("\\fR", to);
    for (int k = 0; k < 2; k++) {
        const char *value = k ? row->second : row->value;
        if (!value)
            continue;
        fputs(" \\fI", to);
        roff_put(to, value);
        fputs("\\fR", to);
    }
    fputc('\n', to);
    roff_put(to, row->meaning);
    fputs(row->often ? "; repeatable\n" : "\n", to);
}

static void command(FILE *to, const struct command *one)
{
    fputs(".SS ullage ", to);
    roff_put(to, one->name);
    fputs(one->option[0].name ? " [OPTION...] " : " ", to);
    roff_put(to, one->operands);
    fputc('\n', to);
    roff_put(to, one->about);
    fputc('\n', to);
    for (const struct option_row *row = one->option; row->name; row++)
        option(to, row);
    if (one->more)
        paragraph(to, one->more);
    examples(to, one->example);
}

static void exit_codes(FILE *to)
{
    fputs(".SH EXIT STATUS\n", to);
    for (const struct exit_row *row = exit_rows; row->meaning; row++) {
        fprintf(to, ".TP\n\\fB%d\\fR\n", (int)row->code);
        roff_put(to, row->meaning);
        fputc('\n', to);
    }
}

void manual_write(FILE *to, const struct program *program)
{
    fputs(".TH ULLAGE 1 \"\" \"ullage " ULLAGE_VERSION "\"\n.SH NAME\nullage \\- ", to);
    roff_put(to, program->brief);
    fputs("\n.SH SYNOPSIS\n", to);
    for (int k = 0; k < program->commands; k++) {
        fprintf(to, "%s\\fBullage %s\\fR%s ", k ? ".br\n" : "", program->command[k]->name,
                program->command[k]->option[0].name ? " [OPTION...]" : "");
        roff_put(to, program->command[k]->operands);
        fputc('\n', to);
    }
    fputs(".SH DESCRIPTION\n", to);
    roff_put(to, program->about);
    fputc('\n', to);
    paragraph(to, program->caution);
    fputs(".SH COMMANDS\n", to);
    for (int k = 0; k < program->commands; k++)
        command(to, program->command[k]);
    exit_codes(to);
    fputs(".SH EXAMPLES\n", to);
    examples(to, program->example);
}
