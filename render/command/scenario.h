/* command/scenario.h  From a scenario's name on the command line to a model: what `run`, `view` and `list` share. */
#ifndef COMMAND_SCENARIO_H
#define COMMAND_SCENARIO_H

#include "command/command.h"
#include "report/figure.h"
#include "ullage.h"

/* The options that every command which runs a scenario takes; they open its table, so these are their row numbers. */
enum { OPTION_SET, OPTION_FAULT, OPTION_SEED, OPTION_UNITS, OPTION_SOLVER, OPTION_RTOL, OPTIONS_SHARED };

/* clang-format off */
#define SHARED_OPTIONS                                                                                                 \
    {"set", "PATH=VALUE", NULL, true, "changes a part's parameter or a key of the scenario: leak.diameter=0.35mm, "    \
                                      "surroundings.altitude=1500m, let.limit=0.5mm"},                                 \
    {"fault", "TEXT", NULL, true, "puts a fault in: \"leak tank.roof diameter=0.5mm from=10s\"; see ullage list faults"},\
    {"seed", "N", NULL, false, "seed of everything random, in place of the scenario's"},                               \
    {"units", "shop|si", NULL, false, "shop (kPa and inH2O, mm and in, L/min) or si, as CSV and JSON have it; "        \
                                      "shop is usual"},                                                                \
    {"solver", "bdf|msbdf", NULL, false, "how time is stepped; bdf is usual"},                                         \
    {"rtol", "R", NULL, false, "relative tolerance of a step; 1e-6 is usual"}
/* clang-format on */

struct settings {
    struct ullage_edits edits;
    struct ullage_method method;
    enum figure_units units;
};

/* Reads the shared options. What it takes is given back by settings_clear, also after a failure. */
enum exit_code settings_read(const struct words *words, struct settings *settings);
void settings_clear(struct settings *settings);

/* Folders in which systems and procedures are looked for, after a scenario's own. Ends with null. */
const char *const *search_folders(void);

/* Edits that hold the search folders and the folder to keep things in, and nothing else. */
struct ullage_edits search_edits(void);

/* Prints every problem as FILE:LINE:COLUMN: WRONG; RIGHT on stderr. */
void problems_print(const struct ullage_problems *problems);

/* The exit code that an outcome of reading asks for. */
enum exit_code outcome_code(enum ullage_outcome outcome);

/* Reads and checks; *model is null unless EXIT_DONE is returned. Problems have been printed. */
enum exit_code scenario_open(const char *path, const struct ullage_edits *edits, struct ullage_model **model);

/* The same of a system alone, at rest: a name, its file, or a scenario's. */
enum exit_code system_open(const char *name, const struct ullage_edits *edits, struct ullage_model **model);

/* A number with a unit from the command line. False: said on stderr what is wrong. */
bool quantity_option(const char *option, const char *text, int dimension, double *value);

#endif
