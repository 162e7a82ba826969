/* command/command.h  A word of the command line: one file that ends in one const table, plus a row in main.c. */
#ifndef COMMAND_COMMAND_H
#define COMMAND_COMMAND_H

#include <stdbool.h>
#include <stdio.h>

enum exit_code {
    EXIT_DONE = 0,
    EXIT_NOT_EXPECTED = 1, /* --expect not met */
    EXIT_BAD_INPUT = 2,    /* of a file or of the command line */
    EXIT_NUMBERS = 3,      /* the numbers failed, or memory ran out */
    EXIT_FILE = 4          /* a file could not be read or written */
};

/* One option, always long. Tables end with a null name; the row's number is what a command knows it by. */
struct option_row {
    const char *name;    /* "csv" */
    const char *value;   /* what it takes, as --help names it: "FILE"; null: nothing */
    const char *second;  /* a second value that follows the first; mostly null */
    bool often;          /* may be given more than once */
    const char *meaning; /* for --help */
};

struct given_option {
    int row;
    const char *value, *second;
};

/* What stood on the command line after the command. */
struct words {
    const char *program; /* as it was called */
    int options, operands;
    const struct given_option *option; /* [options] in order */
    const char *const *operand;        /* [operands] in order */
};

struct command {
    const char *name;     /* "run" */
    const char *operands; /* "SCENARIO", as --help names them */
    int least, most;      /* how many of them */
    const char *about;    /* one line */
    const char *more;     /* a paragraph below the options; may be null */
    const char *const *example; /* ends with null */
    const struct option_row *option;
    enum exit_code (*follow)(const struct words *words, FILE *to); /* to: standard output */
};

/* The value of an option given once, or null where it was not given. */
const char *words_value(const struct words *words, int row);
bool words_have(const struct words *words, int row);
/* Values of an option given often, put into list [words->options]; returns how many. */
int words_values(const struct words *words, int row, const char **list);

extern const struct command command_run, command_view, command_check, command_list;

#endif
