/* command/options.h  The command line against a command's table of options. */
#ifndef COMMAND_OPTIONS_H
#define COMMAND_OPTIONS_H

#include <stdio.h>

#include "command/command.h"

enum options_outcome {
    OPTIONS_GOOD,
    OPTIONS_HELP, /* --help was asked for */
    OPTIONS_BAD,  /* said on stderr what is wrong */
    OPTIONS_NO_MEMORY
};

/* argv[0] is the command's name. Abbreviations are refused; "-" is an operand; "--" ends the options. `words` is filled
 * when good, and is to be cleared then. program: as it was called. */
enum options_outcome options_read(const struct command *command, const char *program, int argc, char **argv,
                                  struct words *words);
void options_clear(struct words *words);

/* "WHAT WORD; did you mean NAME?", or "...; see HELP" where no name [count] is near. Returns EXIT_BAD_INPUT. */
enum exit_code unknown_print(const char *what, const char *word, const char *const *name, int count, const char *help);

/* `ullage COMMAND --help`. */
void options_help(FILE *to, const struct command *command);

/* What the exit codes mean; ends with a null meaning. */
struct exit_row {
    enum exit_code code;
    const char *meaning;
};
extern const struct exit_row exit_rows[];

/* The exit codes, as every --help ends. */
void exit_codes_help(FILE *to);

#endif
