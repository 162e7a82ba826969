/* command/completion.c  Completion for bash: commands, then the options of each with what they take, and operands. */
#include "command/manual.h"

#include <string.h>

static void words_begin(FILE *to, const char *indent)
{
    fprintf(to, "%smapfile -t COMPREPLY < <(compgen -W '", indent);
}

static void words_end(FILE *to)
{
    fputs("' -- \"$cur\")\n", to);
}

/* Files that `suffix` ends, or all of them, and folders on the way to more. */
static void files(FILE *to, const char *indent, const char *suffix)
{
    fprintf(to, "%scompopt -o filenames 2>/dev/null\n%smapfile -t COMPREPLY < <(compgen -f", indent, indent);
    if (*suffix)
        fprintf(to, " -X '!*%s'", suffix);
    fputs(" -- \"$cur\"", to);
    if (*suffix)
        fputs("; compgen -d -- \"$cur\"", to);
    fputs(")\n", to);
}

static bool is_file(const char *value)
{
    return strstr(value, "FILE") || strstr(value, "SCENARIO") || !strcmp(value, "OTHER");
}

/* What may stand after an option: one of the words of "shop|si", a file, a folder, or something only a person knows. */
static void value(FILE *to, const struct option_row *row)
{
    const char *taken = row->value;
    fprintf(to, "        --%s)\n", row->name);
    if (strchr(taken, '|')) {
        words_begin(to, "            ");
        for (const char *c = taken; *c; c++)
            fputc(*c == '|' ? ' ' : *c, to);
        words_end(to);
    } else if (is_file(taken))
        files(to, "            ", strstr(taken, "FILE") ? "" : ".yaml");
    else if (!strcmp(taken, "DIR"))
        fputs("            mapfile -t COMPREPLY < <(compgen -d -- \"$cur\")\n", to);
    fputs("            return ;;\n", to);
}

static void operands(FILE *to, const struct command *command)
{
    char word[WORDS_MOST][WORD_ROOM];
    const int count = operand_words(command, word);
    if (!count) {
        files(to, "        ", ".yaml");
        return;
    }
    words_begin(to, "        ");
    for (int k = 0; k < count; k++)
        fprintf(to, "%s%s", k ? " " : "", word[k]);
    words_end(to);
}

static void command(FILE *to, const struct command *one)
{
    fprintf(to, "    %s)\n        case $prev in\n", one->name);
    for (const struct option_row *row = one->option; row->name; row++)
        if (row->value)
            value(to, row);
    fputs("        esac\n        if [[ $cur == -* ]]; then\n", to);
    words_begin(to, "            ");
    for (const struct option_row *row = one->option; row->name; row++)
        fprintf(to, "--%s ", row->name);
    fputs("--help", to);
    words_end(to);
    fputs("            return\n        fi\n", to);
    operands(to, one);
    fputs("        ;;\n", to);
}

void completion_write(FILE *to, const struct program *program)
{
    fputs("# Completion of ullage for bash.\n"
          "_ullage() {\n"
          "    local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]}\n"
          "    COMPREPLY=()\n"
          "    if ((COMP_CWORD == 1)); then\n",
          to);
    words_begin(to, "        ");
    for (int k = 0; k < program->commands; k++)
        fprintf(to, "%s ", program->command[k]->name);
    fputs("--help --version", to);
    words_end(to);
    fputs("        return\n    fi\n    case ${COMP_WORDS[1]} in\n", to);
    for (int k = 0; k < program->commands; k++)
        command(to, program->command[k]);
    fputs("    esac\n}\ncomplete -F _ullage ullage\n", to);
}
