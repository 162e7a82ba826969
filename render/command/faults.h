/* command/faults.h  `ullage list faults`: what can be wrong, and what a scenario's readings make of it. */
#ifndef COMMAND_FAULTS_H
#define COMMAND_FAULTS_H

#include "command/command.h"

/* Kinds of part and what can be wrong with each; or with every part of a system, which is a name or a file. */
enum exit_code fault_kinds_write(FILE *to);
enum exit_code system_faults_write(FILE *to, const char *system);

/* Runs the scenario sound, and once with each fault of its system at its usual size, on all cores; a table of readings.
 * system may be null: the scenario's. */
enum exit_code fault_readings_write(FILE *to, const char *system, const char *scenario);

#endif
