/* command/main.c  The command line: the list of commands, and what holds for all of them. */
#include "command/command.h"
#include "command/deliver.h"
#include "command/interrupt.h"
#include "command/manual.h"
#include "command/options.h"
#include "report/output.h"
#include "report/page.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const struct command *const commands[] = {&command_run, &command_view, &command_check, &command_list};

enum { COMMANDS = sizeof commands / sizeof commands[0] };

static const char *const main_example[] = {"ullage run scenarios/first-leak.yaml",
                                           "ullage view scenarios/first-leak.yaml", "ullage list parts tank", NULL};

static const struct program program = {
    .brief = "a physics bench for vehicle fuel-vapor storage systems",
    .about =
        "A physics bench for the fuel-vapor system of a vehicle: tank, lines, valves, leaks and the shop's leak test.",
    .caution =
        "The program is a model for teaching and analysis. Fuel vapor burns and explodes: on a real vehicle local "
        "rules, the maker's procedure and licensed practice decide.",
    .example = main_example,
    .command = commands,
    .commands = COMMANDS};

static void main_help(FILE *to)
{
    fprintf(to, "ullage COMMAND [OPTION...] ...\n%s\n\nCommands\n", program.about);
    for (int i = 0; i < COMMANDS; i++)
        fprintf(to, "  %-8s%s\n", commands[i]->name, commands[i]->about);
    fputs("\nullage COMMAND --help tells the options of one; ullage --version the version. ullage --man prints the "
          "manual\n"
          "page, ullage --completion a completion for bash.\n"
          "\nExamples\n",
          to);
    for (int i = 0; main_example[i]; i++)
        fprintf(to, "  %s\n", main_example[i]);
    struct page page = {.to = to};
    fputc('\n', to);
    page_put(&page, "%s", program.caution);
    page_end(&page);
    fputc('\n', to);
    exit_codes_help(to);
}

static enum exit_code command_unknown(const char *word)
{
    const char *name[COMMANDS];
    for (int i = 0; i < COMMANDS; i++)
        name[i] = commands[i]->name;
    return unknown_print("ullage: there is no command", word, name, COMMANDS, "ullage --help");
}

static enum exit_code command_follow(const struct command *command, int argc, char **argv, FILE *to)
{
    struct words words;
    switch (options_read(command, argv[0], argc - 1, argv + 1, &words)) {
    case OPTIONS_GOOD:
        break;
    case OPTIONS_HELP:
        options_help(to, command);
        return EXIT_DONE;
    case OPTIONS_BAD:
        return EXIT_BAD_INPUT;
    case OPTIONS_NO_MEMORY:
        fputs("ullage: memory ran out\n", stderr);
        return EXIT_NUMBERS;
    }
    const enum exit_code code = command->follow(&words, to);
    options_clear(&words);
    return code;
}

static enum exit_code first_word_follow(int argc, char **argv, FILE *to)
{
    if (argc < 2) {
        main_help(stderr);
        return EXIT_BAD_INPUT;
    }
    const char *word = argv[1];
    if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0 || strcmp(word, "help") == 0) {
        main_help(to);
        return EXIT_DONE;
    }
    if (strcmp(word, "--version") == 0) {
        fputs("ullage " ULLAGE_VERSION "\n", to);
        return EXIT_DONE;
    }
    if (strcmp(word, "--man") == 0 || strcmp(word, "--completion") == 0) {
        (word[2] == 'm' ? manual_write : completion_write)(to, &program);
        return EXIT_DONE;
    }
    for (int i = 0; i < COMMANDS; i++)
        if (strcmp(commands[i]->name, word) == 0)
            return command_follow(commands[i], argc, argv, to);
    return command_unknown(word);
}

/* A standard stream that was closed before we began must not become the number of a file of ours: what is written to it
 * is to fail instead. */
static void standard_streams_hold(void)
{
    int descriptor;
    do
        descriptor = open("/dev/null", O_RDONLY);
    while (descriptor >= 0 && descriptor <= STDERR_FILENO);
    if (descriptor > STDERR_FILENO)
        (void)close(descriptor);
}

int main(int argc, char **argv)
{
    int failure = 0;
    standard_streams_hold();
    interrupt_watch();
    struct output *output = output_open("-", &failure);
    if (!output) {
        unwritable_print("-", failure);
        return EXIT_FILE;
    }
    enum exit_code code = first_word_follow(argc, argv, output_stream(output));
    failure = output_close(output);
    interrupt_obey();
    if (failure) {
        unwritable_print("-", failure);
        code = EXIT_FILE;
    }
    return (int)code;
}
