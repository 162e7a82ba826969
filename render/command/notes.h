/* command/notes.h  --record, --save and --replay: what a run was told, written down, made a scenario of, done again. */
#ifndef COMMAND_NOTES_H
#define COMMAND_NOTES_H

#include "command/scenario.h"
#include "report/output.h"

struct notes {
    const char *record, *save; /* paths; null: not asked for */
    struct output *record_output, *save_output;
};

/* Not into one place, not over the scenario, not to standard output. False: said on stderr what is wrong. */
bool notes_check(const struct notes *notes, const char *command, const char *scenario);

/* EXIT_DONE, or EXIT_FILE after saying what cannot be written; nothing is open then. */
enum exit_code notes_open(struct notes *notes);

/* Both, of the run as it stands. path and settings are those of its model. Nothing is open afterwards. */
enum exit_code notes_write(struct notes *notes, const char *path, const struct settings *settings,
                           const struct ullage_run *run);

/* Leaves the old files as they were. */
void notes_drop(struct notes *notes);

/* ---- done again ---- */
struct replay {
    const char *path;
    struct ullage_recording *recording; /* null: none */
    bool changed;                       /* the command line says something else than was recorded */
};

/* Does the file call itself one? */
bool is_recording(const char *path);

/* Reads it; what it says of edits and method goes into settings, before what the command line says. Problems have been
 * printed. settings keep pointers into the recording. */
enum exit_code replay_open(struct replay *replay, const char *path, struct settings *settings);
void replay_close(struct replay *replay);

/* EXIT_BAD_INPUT, with the places printed, where the model does not take a command. */
enum exit_code replay_check(const struct replay *replay, const struct ullage_model *model);

/* Does everything again, up to the recorded end. */
enum ullage_status replay_follow(const struct replay *replay, const struct ullage_model *model, struct ullage_run *run,
                                 double *seconds);

/* Says whether it came out the same; that it did, to `to`, which may be null. False: it had to, and did not. */
bool replay_tell(const struct replay *replay, const struct ullage_model *model, const struct ullage_run *run, FILE *to);

#endif
