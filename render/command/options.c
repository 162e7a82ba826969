/* command/options.c  The command line against a command's table of options, by getopt_long.
 *
 * getopt_long takes an unambiguous beginning for the whole name ("--see" for "--seed"), which would let a new option
 * change what an old script does. So the word it looked at is compared with the name it found. */
#include "command/options.h"

#include "report/page.h"
#include "ullage.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

enum { OPTION_MOST = 32, HELP_COLUMN = 28, EXIT_COLUMN = 12, OPERAND = 1 };

/* Everything that is being gathered. Both lists have room for every word. */
struct gathering {
    const struct command *command;
    int argc;
    char **argv;
    struct given_option *option;
    const char **operand;
    int options, operands;
};

const char *words_value(const struct words *words, int row)
{
    for (int i = 0; i < words->options; i++)
        if (words->option[i].row == row)
            return words->option[i].value;
    return NULL;
}

bool words_have(const struct words *words, int row)
{
    for (int i = 0; i < words->options; i++)
        if (words->option[i].row == row)
            return true;
    return false;
}

int words_values(const struct words *words, int row, const char **list)
{
    int count = 0;
    for (int i = 0; i < words->options; i++)
        if (words->option[i].row == row)
            list[count++] = words->option[i].value;
    return count;
}

static int rows_count(const struct option_row *row)
{
    int count = 0;
    while (row[count].name)
        count++;
    return count;
}

enum exit_code unknown_print(const char *what, const char *word, const char *const *name, int count, const char *help)
{
    const char *nearest = ullage_nearest(word + strspn(word, "-"), name, count);
    if (nearest)
        fprintf(stderr, "%s %s; did you mean %.*s%s?\n", what, word, (int)strspn(word, "-"), word, nearest);
    else
        fprintf(stderr, "%s %s; see %s\n", what, word, help);
    return EXIT_BAD_INPUT;
}

static enum options_outcome unknown_option(const struct command *command, const char *word)
{
    const char *names[OPTION_MOST];
    const int count = rows_count(command->option);
    char what[64];
    char help[64];
    char name[64];
    for (int i = 0; i < count; i++)
        names[i] = command->option[i].name;
    snprintf(what, sizeof what, "ullage %s: there is no option", command->name);
    snprintf(help, sizeof help, "ullage %s --help", command->name);
    snprintf(name, sizeof name, "%.*s", (int)strcspn(word, "="), word);
    unknown_print(what, name, names, count, help);
    return OPTIONS_BAD;
}

static enum options_outcome option_take(struct gathering *all, int row, const char *word)
{
    const struct option_row *option = &all->command->option[row];
    const size_t length = strlen(option->name);
    if (strncmp(word + 2, option->name, length) != 0 || (word[2 + length] != '\0' && word[2 + length] != '='))
        return unknown_option(all->command, word);
    for (int i = 0; i < all->options && !option->often; i++)
        if (all->option[i].row == row) {
            fprintf(stderr, "ullage %s: --%s is given twice\n", all->command->name, option->name);
            return OPTIONS_BAD;
        }
    struct given_option given = {.row = row, .value = optarg ? optarg : ""};
    if (option->second) {
        if (optind >= all->argc) {
            fprintf(stderr, "ullage %s: --%s needs %s and %s\n", all->command->name, option->name, option->value,
                    option->second);
            return OPTIONS_BAD;
        }
        given.second = all->argv[optind++];
    }
    all->option[all->options++] = given;
    return OPTIONS_GOOD;
}

static enum options_outcome missing_value(const struct command *command, const char *word)
{
    const char *value = "a value";
    for (const struct option_row *row = command->option; row->name; row++)
        if (strcmp(row->name, word + 2) == 0)
            value = row->value;
    fprintf(stderr, "ullage %s: %s needs %s\n", command->name, word, value);
    return OPTIONS_BAD;
}

/* "--quiet=yes": getopt_long tells it like an unknown option. */
static bool takes_no_value(const struct command *command, const char *word)
{
    const size_t length = strcspn(word, "=");
    for (const struct option_row *row = command->option; row->name; row++)
        if (word[length] == '=' && strlen(row->name) + 2 == length && strncmp(row->name, word + 2, length - 2) == 0)
            return true;
    return false;
}

/* One word, and the value that follows it. */
static enum options_outcome word_take(struct gathering *all, const struct option *table)
{
    const int at = optind; /* operands are told in order, so the next word is the one looked at */
    int row = -1;
    const int found = getopt_long(all->argc, all->argv, "-:h", table, &row);
    const char *word = all->argv[at];
    if (found == OPERAND) {
        all->operand[all->operands++] = optarg;
        return OPTIONS_GOOD;
    }
    if (found == 'h' && (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0))
        return OPTIONS_HELP;
    if (found == 0)
        return option_take(all, row, word);
    if (found == ':')
        return missing_value(all->command, word);
    if (takes_no_value(all->command, word)) {
        fprintf(stderr, "ullage %s: %.*s takes no value\n", all->command->name, (int)strcspn(word, "="), word);
        return OPTIONS_BAD;
    }
    return unknown_option(all->command, word);
}

static enum options_outcome operands_check(const struct gathering *all)
{
    const struct command *command = all->command;
    if (all->operands < command->least)
        fprintf(stderr, "ullage %s: name %s; see ullage %s --help\n", command->name, command->operands, command->name);
    else if (all->operands > command->most)
        fprintf(stderr, "ullage %s: %s is one too many; see ullage %s --help\n", command->name,
                all->operand[command->most], command->name);
    else
        return OPTIONS_GOOD;
    return OPTIONS_BAD;
}

static enum options_outcome words_take(struct gathering *all)
{
    struct option table[OPTION_MOST + 2] = {{0}};
    int count = 0;
    for (const struct option_row *row = all->command->option; row->name && count < OPTION_MOST; row++)
        table[count++] = (struct option){row->name, row->value ? required_argument : no_argument, NULL, 0};
    table[count] = (struct option){"help", no_argument, NULL, 'h'};
    optind = 1;
    enum options_outcome outcome = OPTIONS_GOOD;
    while (outcome == OPTIONS_GOOD && optind < all->argc && strcmp(all->argv[optind], "--") != 0)
        outcome = word_take(all, table);
    for (int at = optind + 1; outcome == OPTIONS_GOOD && at < all->argc; at++)
        all->operand[all->operands++] = all->argv[at]; /* what follows "--" */
    return outcome == OPTIONS_GOOD ? operands_check(all) : outcome;
}

enum options_outcome options_read(const struct command *command, const char *program, int argc, char **argv,
                                  struct words *words)
{
    struct gathering all = {.command = command, .argc = argc, .argv = argv};
    all.option = calloc((size_t)argc, sizeof *all.option);
    all.operand = calloc((size_t)argc, sizeof *all.operand);
    const enum options_outcome outcome = all.option && all.operand ? words_take(&all) : OPTIONS_NO_MEMORY;
    *words = (struct words){program, all.options, all.operands, all.option, all.operand};
    if (outcome != OPTIONS_GOOD)
        options_clear(words);
    return outcome;
}

void options_clear(struct words *words)
{
    free((void *)words->option); /* given out as const, made here */
    free((void *)words->operand);
    *words = (struct words){0};
}

/* ---- help -------------------------------------------------------------------------------------------------------- */

/* "  --set PATH=VALUE          meaning", wrapped below itself. */
static void row_help(FILE *to, const struct option_row *row)
{
    struct page page = {.to = to};
    char head[96];
    snprintf(head, sizeof head, "  --%s%s%s%s%s", row->name, row->value ? " " : "", row->value ? row->value : "",
             row->second ? " " : "", row->second ? row->second : "");
    page_begin(&page, HELP_COLUMN, head);
    page_put(&page, "%s%s", row->meaning, row->often ? "; repeatable" : "");
    page_end(&page);
}

const struct exit_row exit_rows[] = {{EXIT_DONE, "done"},
                                     {EXIT_NOT_EXPECTED, "--expect or --replay not met"},
                                     {EXIT_BAD_INPUT, "bad input or usage"},
                                     {EXIT_NUMBERS, "the numbers failed"},
                                     {EXIT_FILE, "a file could not be read or written"},
                                     {0}};

void exit_codes_help(FILE *to)
{
    struct page page = {.to = to};
    page_begin(&page, EXIT_COLUMN, "Exit codes:");
    for (const struct exit_row *row = exit_rows; row->meaning; row++)
        page_put(&page, "%d %s%s", (int)row->code, row->meaning, row[1].meaning ? ", " : "");
    page_end(&page);
}

void options_help(FILE *to, const struct command *command)
{
    fprintf(to, "ullage %s%s %s\n%s\n\nOptions\n", command->name, command->option[0].name ? " [OPTION...]" : "",
            command->operands, command->about);
    for (const struct option_row *row = command->option; row->name; row++)
        row_help(to, row);
    row_help(to, &(struct option_row){.name = "help", .meaning = "prints this"});
    if (command->more) {
        struct page page = {.to = to};
        fputc('\n', to);
        page_put(&page, "%s", command->more);
        page_end(&page);
    }
    fputs("\nExamples\n", to);
    for (int i = 0; command->example[i]; i++)
        fprintf(to, "  %s\n", command->example[i]);
    fputc('\n', to);
    exit_codes_help(to);
}
