/* command/suggest.h  What to try next, as lines to paste. */
#ifndef COMMAND_SUGGEST_H
#define COMMAND_SUGGEST_H

#include <stdio.h>

#include "report/experiment.h"

/* `program` and `path` as they were typed. */
void suggest_write(FILE *to, const char *program, const char *path, const struct experiment *of);

#endif
