/* sim/network/network.h  A description made ready: indices, scales, pattern, channels. Immutable once made. */
#ifndef NETWORK_NETWORK_H
#define NETWORK_NETWORK_H

#include "network/description.h"

struct network;

/* Null when problems were added or memory is out. Keeps nothing of the description. joins: pairs (equipment part, port
 * part) that the procedure may join while it runs, beyond those joined from the start. [joins] */
struct joint {
    int equipment, port; /* indices of parts */
};
struct network *network_create(const struct ullage_description *description, const struct joint *join, int joins,
                               struct ullage_problems *problems);
void network_free(struct network *network);

int network_parts(const struct network *network);
const struct part *network_part(const struct network *network, int index);
int network_find_part(const struct network *network, const char *id); /* -1: none */

int network_channels(const struct network *network);
struct ullage_channel network_channel(const struct network *network, int index);
int network_find_channel(const struct network *network, const char *name); /* -1: none */
/* The channel names a user could have meant; for messages. Null: none near. */
const char *network_nearest_channel(const struct network *network, const char *name);

/* cells.c: cells of a part's beds; 0: it has none. */
int network_cells(const struct network *network, int part);
/* Volumes of a part, in the order its kind makes them, and the gases that make up all gas here, air first. */
int network_volumes(const struct network *network, int part);
int network_species(const struct network *network);
const char *network_species_name(const struct network *network, int index);

/* faults.c: what can be wrong, in a fixed order: those of the file, then what may come by hand. "NAME PART.SITE" tells one
 * from another, and so does the id of one of the file that is no part; index -1: none. */
int network_faults(const struct network *network);
const struct fault *network_fault(const struct network *network, int index);
const char *network_fault_name(const struct network *network, int index);
int network_find_fault(const struct network *network, const char *name);
/* It can come: what it needs beside a sound part was made, and there is fuel for one of liquid, of more than one substance
 * where it is to be another. */
bool network_fault_ready(const struct network *network, int index);
int network_fuels(const struct network *network);
/* Of the part that it is: the row of its size; -1: it is none. */
int network_fault_size_row(const struct network *network, int index);

/* A parameter of a part as its faults have it at the start. */
double parameter_at_start(const struct ullage_description *from, int part, int row);

/* A fault as it is now. The size of a hole is its part's parameter. */
struct fault_now {
    double size; /* SI; 0: nothing is wrong */
    struct course course;
};

/* surroundings.c: what of the surroundings changes in time, and the keys by which a file or a hand sets it. */
enum weather { WEATHER_PRESSURE, WEATHER_TEMPERATURE, WEATHER_SUN, WEATHER_WIND, WEATHERS };
extern const struct row weather_key[]; /* ends with a null name; an altitude is a pressure, said in another way */
enum weather weather_of_key(int key);
double weather_from_key(int key, double value);     /* what the key's value makes of that: Pa, K, W/m2, m/s */
double weather_as_key(int key, double weather);     /* and back */
#define WEATHER_SOONEST 10.0 /* s: weather does not jump; nor does the height of a vehicle */

/* What a hand has made of one of them: straight from where it was, then level, or on as the file has it. */
struct weather_way {
    bool given; /* false: as the file has it, ever since the start */
    bool back;  /* to what the file has */
    double begins, ends, from, to; /* s; SI. to: where not back */
};

/* A component of the fuel of which nothing is known at that temperature; null: there is none. */
const struct component *network_fuel_unknown(const struct network *network, double temperature);
/* Share of its tank that the scenario's fuel takes when it is so warm; 0: there is none. */
double network_fuel_swells(const struct network *network, double temperature);
#define FUEL_FULLEST 0.998 /* of a tank: what is left is the gas that the laws are about */

/* What can flip, in a fixed order. */
int network_switches(const struct network *network);
const struct switch_plan *network_switch(const struct network *network, int index);

/* The joint (equipment, port): its index, or -1 where none was asked for. */
int network_joint(const struct network *network, int equipment, int port);

#endif
