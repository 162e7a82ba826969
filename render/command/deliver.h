/* command/deliver.h  The files that `run` was asked for: opened before the run, so that a place which cannot be written is
 * known at once, and put in place after it. */
#ifndef COMMAND_DELIVER_H
#define COMMAND_DELIVER_H

#include "command/command.h"
#include "report/experiment.h"
#include "report/json.h"
#include "report/output.h"

struct delivery {
    const char *csv, *json, *plot; /* paths; null: not asked for */
    struct output *csv_output, *json_output;
};

/* True where one of them goes to standard output. */
bool delivery_uses_stdout(const struct delivery *delivery);

/* No two into one place, none over the scenario itself, a plot only where this build draws and the name's ending is
 * known. False: said on stderr what is wrong. */
bool delivery_check(const struct delivery *delivery, const char *scenario, const char *other);

/* EXIT_DONE, or EXIT_FILE after saying what cannot be written; nothing is open then. */
enum exit_code delivery_open(struct delivery *delivery);

/* Writes all of them; other may be null. The first failure is said and decides the exit code, the rest is written all the
 * same. Nothing is open afterwards. Begun but interrupted: the old files stand. */
enum exit_code delivery_write(struct delivery *delivery, const struct experiment *of, const struct experiment *other,
                              const struct json_circumstances *circumstances, enum figure_units units);

/* Leaves all old files as they were. */
void delivery_drop(struct delivery *delivery);

/* Whether two paths are one place; devices and pipes may be written by several. */
bool place_same(const char *a, const char *b);

/* Says that a file could not be written; a broken pipe is no news to who closed it. */
void unwritable_print(const char *path, int failure);

#endif
