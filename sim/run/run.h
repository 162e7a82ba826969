/* sim/run/run.h  One experiment in time: state, inputs, stepper. Knows nothing of procedures.
 *
 * The solution is known from the start of the last step to run_reach(); run_now() stands anywhere inside. Looking ahead
 * inside the step is interpolation on the stepper's own polynomial; an input changed at `now` drops what lies beyond and
 * restarts there. So conditions are located without shortening a step. */
#ifndef RUN_RUN_H
#define RUN_RUN_H

#include "network/network.h"
#include "base/stiff.h"

struct run;

/* solver "bdf" or "msbdf". Null: memory, or no such solver. The initial state is the network's. */
struct run *run_create(const struct network *network, const char *solver, double tolerance);
void run_free(struct run *run);

double run_now(const struct run *run);   /* s */
double run_reach(const struct run *run); /* s, >= now: the solution is known up to here */

enum run_status { RUN_GOOD, RUN_STUCK };
/* Takes one step from reach, not beyond `limit` (> reach; a moment at which something changes; INFINITY: none). Corners
 * of ramps, courses and profiles are kept by itself. */
enum run_status run_extend(const struct network *network, struct run *run, double limit);
void run_move(struct run *run, double time); /* now := time, within now..reach */
const char *run_trouble(const struct run *run);

/* Channel values at `time` between the start of the last step and reach. off_scale may be null. [count] */
void run_look(const struct network *network, const struct run *run, double time, int count, const int *channel,
              double *value, signed char *off_scale);
/* All channels at `time`. */
void run_look_all(const struct network *network, const struct run *run, double time, double *value,
                  signed char *off_scale);

/* As ullage_run_cells, at `time`. */
void run_cells(const struct network *network, const struct run *run, double time, int part, struct ullage_cell *cell);

/* Inputs, taken at now. opening 0..1 is reached over the part's own moving time. */
void run_command(const struct network *network, struct run *run, int part, double opening);
void run_parameter(const struct network *network, struct run *run, int part, int row, double value);
void run_join(const struct network *network, struct run *run, int joint, bool joined);
double run_parameter_value(const struct network *network, const struct run *run, int part, int row);
double run_opening(const struct network *network, const struct run *run, int part, double time);
bool run_joined(const struct network *network, const struct run *run, int joint);
/* A fault as it is; its size alone, to which 0 is nothing; or put in, as course_put
 * has it, or taken out, with a size of 0. */
struct fault_now run_fault(const struct network *network, const struct run *run, int fault);
void run_fault_size(const struct network *network, struct run *run, int fault, double size);
void run_fault_put(const struct network *network, struct run *run, int fault, double size, const struct course *told);
/* Weather goes from where it is straight to `value` within `lasts` s (> 0) and stays there; or to what the file has, and on as
 * that goes. Pa, K, W/m2, m/s. */
void run_weather(const struct network *network, struct run *run, enum weather which, double value, double lasts);
void run_weather_back(const struct network *network, struct run *run, enum weather which, double lasts);
struct weather_way run_weather_way(const struct run *run, enum weather which);
double run_weather_value(const struct network *network, const struct run *run, enum weather which);
/* How much of its size is there now, 0..1: of liquid what has been poured, of what is to be. */
double run_fault_share(const struct network *network, const struct run *run, int fault);
/* Of all noise; before it goes on. */
void run_seed(struct run *run, uint64_t seed);
/* A switch's bit at now: of network_switch(index). Bits flip by themselves, and at once where an input asks for it. */
bool run_switch(const struct network *network, const struct run *run, int index);

/* Everything that decides the future, as one block; restore brings exactly the same bits back. */
size_t run_block_size(const struct network *network, const struct run *run);
void run_save(const struct network *network, const struct run *run, void *block);
void run_restore(const struct network *network, struct run *run, const void *block);
uint64_t run_hash(const struct network *network, const struct run *run);

int run_ledger_rows(const struct network *network);
struct ullage_ledger_row run_ledger(const struct network *network, const struct run *run, int row);
int run_opening_rows(const struct network *network);
struct ullage_opening_row run_opening_row(const struct network *network, const struct run *run, int row);
/* The same at `time` between the start of the last step and reach. */
struct ullage_opening_row run_opening_row_at(const struct network *network, const struct run *run, double time, int row);
struct ullage_fuel run_fuel(const struct network *network, const struct run *run);

/* What each volume of a part holds now, as struct held has it: load, share [network_volumes][network_species]. False: the
 * state is none that a gas can have. */
bool run_held(const struct network *network, const struct run *run, int part, double *load, double *share);

struct ullage_effort run_effort(const struct run *run);

#endif
