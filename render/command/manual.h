/* command/manual.h  The same tables that --help prints, as a manual page and as a completion for bash. */
#ifndef COMMAND_MANUAL_H
#define COMMAND_MANUAL_H

#include "command/command.h"

struct program {
    const char *brief, *about, *caution; /* a line; sentences */
    const char *const *example;          /* ends with null */
    const struct command *const *command;
    int commands;
};

void manual_write(FILE *to, const struct program *program);     /* roff, section 1 */
void completion_write(FILE *to, const struct program *program); /* a function of bash */

/* The first words that a command's operands can begin with, as "systems | parts [TYPE]" names them: word[most][room].
 * Returns how many; 0: operands are files. */
enum { WORDS_MOST = 24, WORD_ROOM = 32 };

int operand_words(const struct command *command, char word[WORDS_MOST][WORD_ROOM]);

#endif
