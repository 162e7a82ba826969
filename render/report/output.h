/* report/output.h  A file that is written whole or not at all.
 *
 * A regular file is written beside its place and renamed when all of it has gone down well; until then, and after any
 * failure, the old file stands as it was. A device, a pipe and "-" (standard output) are written straight. The result of
 * every write, close and rename is looked at; the first failure is kept and told once, by output_close. A process that is
 * killed leaves at most a file named .ullage-PID-N; loss of power is not guarded against. */
#ifndef REPORT_OUTPUT_H
#define REPORT_OUTPUT_H

#include <stdio.h>

struct output;

/* Opens `path` for writing. Null: it cannot be written, and *failure is the errno that says why. */
struct output *output_open(const char *path, int *failure);

/* Where to print. Failures of printing need not be looked at: they are kept. */
FILE *output_stream(const struct output *output);

/* Puts the file in its place and frees the output. Returns 0, or the errno of the first failure, after which the old
 * file stands as it was. */
int output_close(struct output *output);

/* Gives up: the old file stands as it was. Takes null. */
void output_drop(struct output *output);

/* Removes what stands beside, for a signal handler that ends the process: safe there, and nothing else is. */
void outputs_abandon(void);

#endif
